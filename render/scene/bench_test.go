package scene

import (
	"testing"

	"dryfold/fold"
)

// BenchmarkMake poses and meshes the tray, as at each frame of a swing.
func BenchmarkMake(b *testing.B) {
	p := fold.Build(tray(90, 90))
	m := NewMesher(p)
	pic := Picture{Part: p, State: p.StateAt(3, .6), Turning: []int{3}}
	s := m.Make(pic, nil)
	b.ReportAllocs()
	for b.Loop() {
		s = m.Make(pic, s)
	}
	b.ReportMetric(float64(len(s.Tris)), "triangles")
}

// BenchmarkProject is the camera's part of a frame.
func BenchmarkProject(b *testing.B) {
	p := fold.Build(tray(90, 90))
	s := Make(Picture{Part: p, State: p.StateAt(3, .6)})
	c := NewCamera(820, 680)
	s.Frame(&c)
	o := s.Project(&c, nil)
	b.ReportAllocs()
	for b.Loop() {
		o = s.Project(&c, o)
	}
}
