package fold_test

import (
	"path/filepath"
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/partfile"
)

// BenchmarkDemos takes the demo parts through each stage of the kernel's work.
func BenchmarkDemos(b *testing.B) {
	for _, d := range assets.Demos() {
		s, err := partfile.Read(d.Data)
		if err != nil {
			b.Fatal(err)
		}
		p := fold.Build(s)
		name := filepath.Base(d.Name)
		stage := func(what string, f func()) {
			b.Run(name+"/"+what, func(b *testing.B) {
				for b.Loop() {
					f()
				}
			})
		}
		stage("build", func() { fold.Build(s) })
		stage("sizes", func() { p.Sizes() })
		stage("seams", func() { p.FindSeams() })
		stage("quick", func() { p.Quick() })
		stage("clashes", func() { p.Clashes() })
		stage("check", func() { p.Check() })
	}
}
