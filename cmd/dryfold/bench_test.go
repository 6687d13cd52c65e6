package main

import (
	"path/filepath"
	"testing"
)

// BenchmarkCheck reads, builds, folds and checks one demo part, clashes and all.
func BenchmarkCheck(b *testing.B) {
	files, err := filepath.Glob("../../assets/*.dryfold")
	if err != nil || len(files) == 0 {
		b.Fatal(err)
	}
	for _, f := range files {
		b.Run(filepath.Base(f), func(b *testing.B) {
			for range b.N {
				if status, _, msg := use("check", "-json", f); status > statusStop {
					b.Fatal(msg)
				}
			}
		})
	}
}
