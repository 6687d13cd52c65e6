package fold

import (
	"testing"

	"dryfold/fold/geom"
)

// A part of so many holes is told without what its numbers are worth: each hole would be sought among all others for each number.
func TestWorthManyHoles(t *testing.T) {
	s := Spec{Name: "sieve", Sheet: Sheet{Thickness: 1}, Outline: Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{400, 0}}, {At: geom.Vec2{400, 300}}, {At: geom.Vec2{0, 300}}},
		Bends: []BendSpec{{Line: [2]geom.Vec2{{0, 20}, {400, 20}}, Angle: 90, Radius: 1, Up: true}}}
	if p := Build(s); !p.Foldable || len(p.FindWorth()) == 0 {
		t.Fatal("nothing is known of the sieve without holes")
	}
	for i := range maxWorthHoles + 1 {
		s.Holes = append(s.Holes, Hole{At: geom.Vec2{10 + 10*float64(i%38), 40 + 9*float64(i/38)}, Diameter: 2})
	}
	if p := Build(s); !p.Foldable || p.FindWorth() != nil {
		t.Errorf("foldable %v, with the worth of its numbers", p.Foldable)
	}
}
