package session

import (
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/partfile"
)

func tray(t testing.TB) fold.Spec {
	t.Helper()
	spec, err := partfile.Read(assets.Demos()[0].Data)
	if err != nil {
		t.Fatal(err)
	}
	return spec
}

func BenchmarkBuild(b *testing.B) {
	spec := tray(b)
	for b.Loop() {
		fold.Build(spec)
	}
}

func BenchmarkQuick(b *testing.B) {
	p := fold.Build(tray(b))
	for b.Loop() {
		p.Quick()
	}
}

func BenchmarkKeep(b *testing.B) {
	s := New(tray(b))
	for b.Loop() {
		s.Keep("")
	}
}

func BenchmarkWrite(b *testing.B) {
	spec := tray(b)
	for b.Loop() {
		partfile.Write(spec)
	}
}

func BenchmarkSections(b *testing.B) {
	s := New(tray(b))
	p := s.Part()
	for b.Loop() {
		for i, sw := range p.Swings {
			p.Section(p.StateAt(i+1, 0), sw.Bends[0])
		}
	}
}

func BenchmarkSetAngle(b *testing.B) {
	s := New(tray(b))
	i := 0
	for b.Loop() {
		i++
		if err := s.SetAngle(2, []string{"24", "26"}[i%2]); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSizes(b *testing.B) {
	p := fold.Build(tray(b))
	for b.Loop() {
		p.Sizes()
	}
}
