package fold_test

import (
	"os"
	"testing"

	"dryfold/fold"
	"dryfold/fold/partfile"
)

func BenchmarkWorth(b *testing.B) {
	for _, name := range []string{"press-hopper", "stand-bracket", "wax-pan"} {
		data, err := os.ReadFile("../assets/" + name + ".dryfold")
		if err != nil {
			b.Fatal(err)
		}
		s, err := partfile.Read(data)
		if err != nil {
			b.Fatal(err)
		}
		p := fold.Build(s)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				p.FindWorth()
			}
		})
	}
}
