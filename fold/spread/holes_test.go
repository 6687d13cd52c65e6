package spread

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// TestPairsOfHoles: holes that face another are listed with that one alone; of the rest the nearest few pairs, and nothing else.
func TestPairsOfHoles(t *testing.T) {
	c := foldtest.Chain{Thickness: 1, K: 0.4, Width: 200, Flats: []float64{30, 40, 30}}
	for range 2 {
		c.Bends = append(c.Bends, foldtest.ChainBend{Angle: 90, Radius: 1, Up: true})
	}
	s := c.Spec()
	long := c.Length()
	hole := func(x, y float64) { s.Holes = append(s.Holes, fold.Hole{At: geom.Vec2{x, y}, Diameter: 5}) }
	for i := range 6 { // facing pairs: holes 2i and 2i+1
		y := 20 + 30*float64(i)
		hole(10, y)
		hole(long-10, y)
	}
	for i := range 5 { // on the floor, and facing nothing
		hole(long/2, 25+30*float64(i))
	}
	for i := range 3 { // on a flange, off the others' axes
		hole(20, 35+30*float64(i))
	}
	p := fold.Build(s)
	require.True(t, p.Foldable, "%v", p.Troubles)
	s0, _ := Of(p, nil, Options{Samples: 50})
	require.NotNil(t, s0)
	require.Len(t, s0.Holes, 6+maxOtherPairs)
	near := 0.0
	x := newPoser(p, newCauses(p), p.Finished())
	x.set(nil)
	for i, w := range newHolePairs(x) {
		require.Equal(t, i < 6, w.facing, "%d", i)
		require.Equal(t, w.facing, s0.Holes[i].Offset != nil)
		if w.facing {
			require.Equal(t, w.ha+1, w.hb)
			continue
		}
		require.GreaterOrEqual(t, w.ha, 12)
		require.GreaterOrEqual(t, w.near, near)
		near = w.near
	}
	require.Positive(t, near)
}
