package spread_test

// This file holds spreads against a simulation of its own: parts built anew with other angles in their Spec, and their seams measured
// by fold.

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/spread"
)

func zero(s fold.Spec) fold.Spec {
	z := 0.0
	s.Errors = fold.ErrorSpec{Angle: &z, Line: &z, Thickness: &z, K: &z, Cut: &z}
	return s
}

// loop is a tube of four flats and a fifth that closes it edge to edge.
func loop(lean float64) fold.Spec {
	c := foldtest.Chain{Thickness: 1.2, K: 0.4, Width: 80, Flats: []float64{20, 30, 45, 30, 24.4}}
	for i := range 4 {
		c.Bends = append(c.Bends, foldtest.ChainBend{Angle: 90 + []float64{lean, -lean, lean, -lean}[i], Radius: 1, Up: true})
	}
	return c.Spec()
}

// Only the angles err: 5, 50 and 95 of 100 of the gaps of parts built anew.
func TestAnglesBuiltAnew(t *testing.T) {
	const plus, n = 0.8, 3000
	s := zero(loop(0))
	a := plus
	s.Errors.Angle = &a
	p := fold.Build(s)
	require.True(t, p.Foldable, "%v", p.Troubles)
	rep := p.Quick()
	require.Len(t, rep.Seams, 1, "%v", rep.Troubles)
	require.True(t, spread.Add(p, &rep, spread.Options{Samples: 10000}))
	r := foldtest.Rand(99)
	var least, widest []float64
	for range n {
		q := s
		q.Bends = slices.Clone(s.Bends)
		for i := range q.Bends {
			b := &p.Bends[i]
			d := plus / 2 * r.NormFloat64()
			q.Bends[i].Angle += d
			// The held tangent line stays.
			by := b.N.Mul(d * math.Pi / 180 * b.Rho / 2)
			q.Bends[i].Line = [2]geom.Vec2{s.Bends[i].Line[0].Add(by), s.Bends[i].Line[1].Add(by)}
		}
		m := fold.Build(q)
		require.True(t, m.Foldable)
		x := rep.Seams[0].Seam
		g, ok := m.Pose(m.Finished()).MeasureSeam(x)
		require.True(t, ok)
		least, widest = append(least, g.Min), append(widest, g.Max)
	}
	for _, c := range []struct {
		what string
		own  []float64
		told fold.Spread
	}{{"least", least, rep.Seams[0].Spread.Least}, {"widest", widest, rep.Seams[0].Spread.Widest}} {
		slices.Sort(c.own)
		width := c.told.High - c.told.Low
		at := func(f float64) float64 { return c.own[int(f*n)] }
		t.Log(c.what, at(0.05), at(0.5), at(0.95), c.told.Low, c.told.Mid, c.told.High)
		require.InDelta(t, at(0.05), c.told.Low, 0.05*width, c.what)
		require.InDelta(t, at(0.5), c.told.Mid, 0.05*width, c.what)
		require.InDelta(t, at(0.95), c.told.High, 0.05*width, c.what)
	}
}

// Without errors all figures are the exact ones; with any errors they are numbers, in order.
func TestErrorsAtTheirBounds(t *testing.T) {
	r := foldtest.Rand(7)
	for n := range 40 {
		spec := foldtest.Random(r)
		if n == 0 {
			spec = loop(0)
		}
		s := zero(spec)
		p := fold.Build(s)
		rep := p.Quick()
		if !spread.Add(p, &rep, spread.Options{Samples: 30}) {
			continue
		}
		same := func(x fold.Spread, what string) {
			for _, v := range []float64{x.Low, x.Mid, x.High} {
				require.InDelta(t, x.Exact, v, 1e-5, "part %d, %s", n, what)
			}
			require.Empty(t, x.Shares)
		}
		for _, x := range rep.Spread.Sizes {
			same(x, "size")
		}
		for _, x := range rep.Spread.Holes {
			same(x.Distance, "holes")
		}
		for _, x := range rep.Seams {
			same(x.Spread.Least, "least of "+x.Name)
			same(x.Spread.Widest, "widest of "+x.Name)
			for _, y := range x.Spread.Along {
				same(y.Spread, "along "+x.Name)
			}
			require.InDelta(t, x.GapMin, x.Spread.Least.Exact, 1e-6)
			require.InDelta(t, x.GapMax, x.Spread.Widest.Exact, 1e-6)
		}
		for _, big := range []float64{1e-9, 0.9, 44, 1e6} {
			s.Errors = fold.ErrorSpec{Angle: &big, Line: &big, Thickness: &big, K: &big, Cut: &big}
			p = fold.Build(s)
			rep = p.Quick()
			require.True(t, spread.Add(p, &rep, spread.Options{Samples: 30}))
			ordered := func(x fold.Spread, what string) {
				for _, v := range []float64{x.Low, x.Mid, x.High, x.Exact} {
					require.False(t, math.IsNaN(v) || math.IsInf(v, 0), what)
				}
				require.True(t, x.Low <= x.Mid && x.Mid <= x.High, "%s: %+v", what, x)
			}
			for _, x := range rep.Spread.Sizes {
				ordered(x, fmt.Sprintf("part %d, size at %v", n, big))
				require.GreaterOrEqual(t, x.Low, 0.0)
			}
			for _, x := range rep.Spread.Holes {
				ordered(x.Distance, "holes")
				require.GreaterOrEqual(t, x.Distance.Low, 0.0)
			}
			for _, x := range rep.Seams {
				ordered(x.Spread.Least, x.Name)
				ordered(x.Spread.Widest, x.Name)
				// Of each sample the least is no more than the widest, and so of their parts of 100.
				require.LessOrEqual(t, x.Spread.Least.Low, x.Spread.Widest.Low+1e-5)
				require.LessOrEqual(t, x.Spread.Least.Mid, x.Spread.Widest.Mid+1e-5)
				require.LessOrEqual(t, x.Spread.Least.High, x.Spread.Widest.High+1e-5)
				for _, y := range x.Spread.Along {
					ordered(y.Spread, x.Name)
					require.LessOrEqual(t, x.Spread.Least.Low, y.Low+1e-3, "part %d at %v, seam %s", n, big, x.Name)
					require.GreaterOrEqual(t, x.Spread.Widest.High, y.High-1e-3, "part %d at %v, seam %s", n, big, x.Name)
				}
			}
		}
	}
}
