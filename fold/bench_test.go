package fold

import (
	"testing"

	"dryfold/fold/geom"
)

func BenchmarkBuildTray(b *testing.B) {
	s := trayWithNotch(32)
	for b.Loop() {
		Build(s)
	}
}

func BenchmarkQuickTray(b *testing.B) {
	p := Build(trayWithNotch(32))
	for b.Loop() {
		p.Quick()
	}
}

func BenchmarkPoseTray(b *testing.B) {
	p := Build(trayWithNotch(32))
	s := p.StateAt(2, 0.5)
	for b.Loop() {
		p.Pose(s)
	}
}

// A sheet with 400 holes and 200 bends, to see that cutting stays in line with its size.
func BenchmarkBuildLarge(b *testing.B) {
	k := 0.42
	s := Spec{Name: "large", Sheet: Sheet{Thickness: 1, K: &k}}
	s.Outline = pts(0, 0, 4020, 0, 4020, 400, 0, 400)
	for i := range 200 {
		x := 20 + float64(i)*20
		s.Bends = append(s.Bends, bendAt("", x, 0, x, 400, 20, 1))
		for j := range 2 {
			s.Holes = append(s.Holes, Hole{At: geom.Vec2{x + 10, 100 + 200*float64(j)}, Diameter: 6})
		}
	}
	if p := Build(s); !p.Foldable || len(p.Panels) != 201 {
		b.Fatal(p.Troubles)
	}
	for b.Loop() {
		Build(s)
	}
}
