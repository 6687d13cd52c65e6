package fold_test

// This file tests which corners of a blank go with a tangent line when it is laid out anew.

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// oneWall is a floor with one wall on the side y = 0 from x = 10 to 90; left is the floor's outline from the wall's
// left end to the floor's far side, y = 100.
func oneWall(left ...float64) fold.Spec {
	wall := foldtest.Tray{Thickness: 1, K: 0.42}
	ba := wall.Allowance(90, 1.5)
	k := wall.K
	s := fold.Spec{Name: "one wall", Base: "floor", Sheet: fold.Sheet{Thickness: 1, K: &k}}
	xy := append([]float64{10, -ba - 30, 90, -ba - 30, 90, 0, 100, 0, 100, 100}, reversed(left)...)
	s.Outline = foldtest.Points(xy...)
	s.Panels = []fold.PanelName{{Name: "floor", At: geom.Vec2{50, 50}}, {Name: "wall", At: geom.Vec2{50, -ba - 15}}}
	s.Bends = []fold.BendSpec{{Name: "wall", Line: [2]geom.Vec2{{10, -ba / 2}, {90, -ba / 2}}, Angle: 90, Radius: 1.5, Up: true}}
	return s
}

// reversed takes the points x, y, x, y.. from the last to the first.
func reversed(xy []float64) []float64 {
	var out []float64
	for i := len(xy) - 2; i >= 0; i -= 2 {
		out = append(out, xy[i], xy[i+1])
	}
	return out
}

// Reliefs go with the tangent line, by the change of the setback (R+T) tan 45; the floor's own corners and sides stay,
// however near the bend's end they lie.
func TestRedevelopReliefs(t *testing.T) {
	cases := []struct {
		name  string
		left  []float64 // from the wall's end on
		moves []bool    // each point
	}{
		{"a floor's own corner 2 mm behind the line and 2 mm beside its end", []float64{10, 0, 8, 2, 8, 100}, []bool{true, false, false}},
		{"the same behind the very end", []float64{10, 0, 10, 2, 0, 2, 0, 100}, []bool{true, false, false, false}},
		{"a notch", []float64{10, 0, 10, 2, 8, 2, 8, 0, 0, 0, 0, 100}, []bool{true, true, true, false, false, false}},
		{"a notch aslant to an edge further out", []float64{10, 0, 10, 2, 9, 2.5, 8, -1, 0, -1, 0, 100}, []bool{true, true, true, false, false, false}},
		{"a notch too deep for a relief", []float64{10, 0, 10, 20, 8, 20, 8, 0, 0, 0, 0, 100}, []bool{true, false, false, false, false, false}},
		{"an edge in line", []float64{10, 0, 0, 0, 0, 100}, []bool{true, true, false}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := built(t, oneWall(c.left...))
			for _, radius := range []float64{1, 1.8} {
				next := p.Spec
				next.Bends = slices.Clone(next.Bends)
				next.Bends[0].Radius = radius
				made, err := p.Redevelop(next)
				require.NoError(t, err)
				built(t, made)
				back := radius - 1.5 // R+T at 90 degrees
				for i, moves := range c.moves {
					x, y := c.left[2*i], c.left[2*i+1]
					if moves {
						y += back
					}
					require.True(t, slices.ContainsFunc(made.Outline, func(v fold.Vertex) bool {
						return v.At.Sub(geom.Vec2{x, y}).Len() < 1e-9
					}), "R %g: no corner at %g, %g in %v", radius, x, y, made.Outline)
				}
			}
		})
	}
}

// A strip's short end is no relief: the outline goes round it and comes back to the same bend.
func TestRedevelopShortEnd(t *testing.T) {
	c := foldtest.Chain{Thickness: 1, K: 0.4, Width: 3, Flats: []float64{2.5, 40}, Bends: []foldtest.ChainBend{{Angle: 90, Radius: 1, Up: true}}}
	p := built(t, c.Spec())
	next := p.Spec
	next.Bends = slices.Clone(next.Bends)
	next.Bends[0].Radius = 1.5
	made, err := p.Redevelop(next)
	require.NoError(t, err)
	was, is := outsideSizes(p), outsideSizes(built(t, made))
	for i := range was {
		require.InDelta(t, was[i], is[i], 1e-9)
	}
}
