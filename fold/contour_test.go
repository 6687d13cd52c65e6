package fold

import (
	"math"
	"testing"

	"dryfold/fold/geom"
)

// TestContourPieces: exact pieces close, go the way asked, and enclose what the chords with their bows do.
func TestContourPieces(t *testing.T) {
	at := func(x, y float64) *geom.Vec2 { return &geom.Vec2{x, y} }
	for name, c := range map[string]Contour{
		"square":             {{At: geom.Vec2{0, 0}}, {At: geom.Vec2{10, 0}}, {At: geom.Vec2{10, 10}}, {At: geom.Vec2{0, 10}}},
		"clockwise, closed":  {{At: geom.Vec2{0, 0}}, {At: geom.Vec2{0, 10}}, {At: geom.Vec2{10, 10}}, {At: geom.Vec2{10, 0}}, {At: geom.Vec2{0, 0}}},
		"two halves":         {{At: geom.Vec2{-5, 0}, Through: at(0, 5)}, {At: geom.Vec2{5, 0}, Through: at(0, -5)}},
		"slot":               {{At: geom.Vec2{0, 0}}, {At: geom.Vec2{20, 0}}, {At: geom.Vec2{20, 6}, Through: at(23, 3)}, {At: geom.Vec2{0, 6}}, {At: geom.Vec2{0, 0}, Through: at(-3, 3)}},
		"three quarters":     {{At: geom.Vec2{0, 0}}, {At: geom.Vec2{10, 0}}, {At: geom.Vec2{0, 10}, Through: at(10+5*math.Sqrt2, 10)}},
		"nearly whole":       {{At: geom.Vec2{0, 0}}, {At: geom.Vec2{1e-5, 0}}, {At: geom.Vec2{0, 1e-5}, Through: at(8, 8)}},
		"repeated at end":    {{At: geom.Vec2{0, 0}}, {At: geom.Vec2{10, 0}}, {At: geom.Vec2{10, 10}}, {At: geom.Vec2{1e-9, 1e-9}}},
		"repeated in middle": {{At: geom.Vec2{0, 0}}, {At: geom.Vec2{10, 0}}, {At: geom.Vec2{10, 0}}, {At: geom.Vec2{10, 10}}},
		"arc in line":        {{At: geom.Vec2{0, 0}}, {At: geom.Vec2{10, 0}, Through: at(5, 0)}, {At: geom.Vec2{10, 10}}},
	} {
		for _, ccw := range []bool{true, false} {
			ps, of := c.Pieces(2, ccw)
			cs, area := contourChords(c.scaled(2), 0, ccw)
			if !ccw {
				area = -area
			}
			if got := geom.PiecesArea(ps); math.Abs(got-area) > 1e-9*(1+math.Abs(area)) {
				t.Errorf("%s: area %v, by chords %v", name, got, area)
			}
			if len(of) != len(ps) || len(ps) < 2 || len(cs) < len(ps) {
				t.Fatalf("%s: %d pieces of %d edges", name, len(ps), len(of))
			}
			for i, p := range ps {
				if q := ps[(i+1)%len(ps)]; p.B != q.A {
					t.Errorf("%s: piece %d ends at %v, the next begins at %v", name, i, p.B, q.A)
				}
				// Each chord of an edge lies on the pieces of that edge.
				for _, ch := range cs {
					if ch.index == of[i] && p.Distance(ch.a) > 2*Weld && ps[(i+1)%len(ps)].Distance(ch.a) > 2*Weld && ps[(i+len(ps)-1)%len(ps)].Distance(ch.a) > 2*Weld {
						t.Errorf("%s: %v of edge %d lies %v off piece %d", name, ch.a, of[i], p.Distance(ch.a), i)
					}
				}
			}
		}
	}
	if ps, _ := (Contour{}).Pieces(1, true); ps != nil {
		t.Errorf("pieces of nothing: %v", ps)
	}
}
