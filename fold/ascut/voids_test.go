package ascut

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/geom"

	"github.com/stretchr/testify/require"
)

// TestOverall: the blank's extents stand on the list wherever straight edges, or level corners, make them.
func TestOverall(t *testing.T) {
	n := 0
	for _, d := range assets.Demos() {
		x := look(demos(t)[d.File])
		size := x.p.Blank.Box.Size()
		for axis := range 2 {
			for i := range x.l.Sizes {
				z := &x.l.Sizes[i]
				w := z.To.Sub(z.From)
				if math.Abs(math.Abs(w[axis])-size[axis]) < farFrom && math.Abs(w[1-axis]) < farFrom {
					require.InDelta(t, size[axis], z.Want, 1e-9, d.File)
					n++
					break
				}
			}
		}
	}
	require.GreaterOrEqual(t, n, 10, "all but the trays' widths, whose sides slope")
}

// TestHoleMoved: a hole and a cutout of the bracket are told where they lie elsewhere; no edge is taken to be out for it.
func TestHoleMoved(t *testing.T) {
	s := demos(t)["stand-bracket.dryfold"]
	x := look(s)
	voids := 0
	for i := range x.l.Sizes {
		z := &x.l.Sizes[i]
		if z.Void == "" {
			continue
		}
		voids++
		// Measured here from the file's own figures.
		k := s.Units.Scale()
		if y := z.cand.y; y.kind == atHole {
			require.InDelta(t, s.Holes[y.index].At.Mul(k).Sub(z.From).Len(), z.Want, 1e-9)
		}
		for _, off := range []float64{-3, 3} {
			is := x.wants()
			is[i] += off
			v := x.typed(is...)
			require.Equal(t, Accept, v.Word)
			require.Contains(t, all(v), fmt.Sprintf("Size %d: %s lies 0.118 in too %s the ", z.No, z.Void, map[bool]string{true: "far from", false: "near to"}[off > 0]))
			require.Nil(t, v.AsCut)
			require.Empty(t, v.Trims)
		}
	}
	require.GreaterOrEqual(t, voids, 2)
	// Where the edge is out, the hole is not.
	for c := range x.l.work.cuts {
		out := make([]float64, len(x.l.work.cuts))
		out[c] = -2
		var is []float64
		for i := range x.l.Sizes {
			z := &x.l.Sizes[i].cand
			is = append(is, x.l.work.distance(z.x, z.y, out, 0))
		}
		if v := x.typed(is...); v.out[c] == -2 {
			require.NotContains(t, all(v), "can't be moved", x.l.work.cuts[c].Name)
		}
	}
	// Plates with a hole anywhere.
	for _, at := range []geom.Vec2{{50, 25}, {5, 5}, {99, 49}, {0, 0}, {500, 500}} {
		p := fold.Spec{Sheet: fold.Sheet{Thickness: 1}, Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{100, 0}}, {At: geom.Vec2{100, 50}}, {At: geom.Vec2{0, 50}}}, Holes: []fold.Hole{{At: at, Diameter: 1}}}
		y := look(p)
		if len(y.l.Sizes) > 0 && y.p.Foldable && at != (geom.Vec2{}) {
			require.Equal(t, Bend, y.typed(y.wants()...).Word, "%v", at)
		}
		require.False(t, at[0] == 50 && !strings.Contains(fmt.Sprint(y.l.Sizes), "hole H1"))
	}
}
