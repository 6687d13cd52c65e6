package paper

import (
	"os"
	"testing"

	"dryfold/fold"
	"dryfold/fold/partfile"
)

func BenchmarkSheets(b *testing.B) {
	data, err := os.ReadFile("../../assets/uncapping-tray.dryfold")
	if err != nil {
		b.Fatal(err)
	}
	s, err := partfile.Read(data)
	if err != nil {
		b.Fatal(err)
	}
	p := fold.Build(s)
	r := p.Quick()
	b.ResetTimer()
	for range b.N {
		if _, err := MarkingOut(p, &r, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
