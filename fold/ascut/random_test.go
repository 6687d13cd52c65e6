package ascut

import (
	"flag"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"

	"github.com/stretchr/testify/require"
)

var seed = flag.Uint64("seed", 1, "where random tests begin")

// random gives so many random parts with sizes, and the seed of each.
func random(t *testing.T, n int, f func(at uint64, s fold.Spec, x *looked)) {
	for at := *seed; n > 0; at++ {
		r := foldtest.Rand(at)
		s := foldtest.Random(r)
		if at%2 == 0 {
			s = tight(r)
		}
		if r.IntN(4) == 0 {
			s = foldtest.InInches(s)
		}
		x := look(s)
		if !x.p.Foldable || len(x.l.Sizes) == 0 {
			continue
		}
		n--
		f(at, s, x)
	}
}

// tight is a random box whose walls meet at its corners with less than half a thickness between them, some by a lip.
func tight(r *rand.Rand) fold.Spec {
	th := foldtest.LogUniform(r, 0.6, 3)
	t := foldtest.Tray{Thickness: th, K: foldtest.Uniform(r, 0.3, 0.5)}
	w, h := th*foldtest.LogUniform(r, 60, 300), th*foldtest.LogUniform(r, 60, 300)
	t.Floor = geom.Loop{{0, 0}, {w, 0}, {w, h}, {0, h}}
	radius := th * foldtest.Uniform(r, 0.5, 2)
	high := min(w, h) * foldtest.Uniform(r, 0.15, 0.4)
	for range 4 {
		// A wall's end lies off the next wall's inner face by the radius and its inset.
		end := func() float64 { return -radius + th*foldtest.Uniform(r, 0.05, 0.35) }
		t.Walls = append(t.Walls, foldtest.Wall{Height: high * foldtest.Uniform(r, 0.6, 1), Angle: 90, Radius: radius, Up: true, Inset: end(), InsetEnd: end()})
	}
	return t.Spec()
}

// TestRandomExact: a blank cut as it should be is to be bent, whatever it is, and every limit lies round what is wanted.
func TestRandomExact(t *testing.T) {
	random(t, 80, func(at uint64, s fold.Spec, x *looked) {
		v := x.typed(x.wants()...)
		require.Equal(t, Bend, v.Word, "seed %d: %v", at, v.Say)
		for i := range x.l.Sizes {
			z := &x.l.Sizes[i]
			require.True(t, z.Low <= z.Want+1e-9 && z.Want <= z.High+1e-9, "seed %d size %d", at, z.No)
			// Measured by hand, it is what it should be.
			var places []geom.Vec2
			for _, c := range s.Outline {
				places = append(places, c.At.Mul(s.Units.Scale()))
			}
			if !z.Square {
				require.InDelta(t, z.Want, measureByHand(s, places, z), 1e-6, "seed %d size %d", at, z.No)
			}
		}
	})
}

// TestRandomMirror: the mirror image of any blank that is not its own is not bent, whichever way it is laid down; measured between the corners, on a contour mirrored here, that
// lie nearest to where the sheet shows them.
func TestRandomMirror(t *testing.T) {
	told, own, hidden := 0, 0, 0
	random(t, 80, func(at uint64, s fold.Spec, x *looked) {
		if x.l.Own {
			own++
			return
		}
		lo, hi := x.p.Blank.Box.Min, x.p.Blank.Box.Max
		for way := range 2 {
			m := foldtest.Map(s, func(p geom.Vec2) geom.Vec2 {
				k := s.Units.Scale()
				p[way] = (lo[way]+hi[way])/k - p[way]
				return p
			})
			q := fold.Build(m)
			b := newBlank(m, q.Blank.Box)
			var is []float64
			for i := range x.l.Sizes {
				z := &x.l.Sizes[i]
				near := func(p geom.Vec2) geom.Vec2 {
					best, found := geom.Vec2{}, false
					try := func(v geom.Vec2) {
						if !found || v.Sub(p).Len() < best.Sub(p).Len() {
							best, found = v, true
						}
					}
					if z.Square {
						d := z.To.Sub(z.From)
						n := geom.Vec2{-d[1], d[0]}
						for j, u := range q.Outline {
							v := q.Outline[(j+1)%len(q.Outline)]
							if a, c := u.Sub(z.From).Dot(n), v.Sub(z.From).Dot(n); (a < 0) != (c < 0) {
								try(u.Add(v.Sub(u).Mul(a / (a - c))))
							}
						}
					} else if y := z.cand.y; y.kind == atHole && y.at == p {
						for _, h := range m.Holes {
							try(h.At.Mul(s.Units.Scale()))
						}
					} else if y.kind == atBend && y.at == p {
						for _, o := range q.Bends {
							try(o.Line[0])
							try(o.Line[1])
						}
					} else {
						for j, v := range b.at {
							if b.sharpAt(j) {
								try(v)
							}
						}
					}
					if !found { // there is no such edge
						return geom.Vec2{math.NaN(), 0}
					}
					return best
				}
				mm := near(z.To).Sub(near(z.From)).Len()
				if math.IsNaN(mm) {
					mm = none
				}
				is = append(is, mm)
			}
			v := x.typed(is...)
			if v.Word == Bend && len(x.l.Notes) > 0 && strings.Contains(x.l.Notes[0], "No distance tells") {
				hidden++
				for _, c := range q.Outline { // it hardly differs from its image anywhere
					far := math.Inf(1)
					for j, u := range x.p.Outline {
						d, _ := geom.SegmentDistance(c, u, x.p.Outline[(j+1)%len(x.p.Outline)])
						far = min(far, d)
					}
					require.Less(t, far, 1.5*MirrorTold, "seed %d, way %d", at, way)
				}
				continue
			}
			require.NotEqual(t, Bend, v.Word, "seed %d, way %d: %v", at, way, x.l.Notes)
			if v.Pattern == "mirror" {
				told++
			}
		}
	})
	t.Logf("%d told as mirror images, %d too like them to tell, %d blanks are their own", told, hidden, own)
	require.Less(t, hidden, 40)
	require.Greater(t, told, 60)
}

// TestRandomThrice: an edge of any size that is out by three times what may be is never bent.
func TestRandomThrice(t *testing.T) {
	n, trims := 0, 0
	random(t, 40, func(at uint64, s fold.Spec, x *looked) {
		for i := range x.l.Sizes {
			z := &x.l.Sizes[i]
			if z.cand.use == forDiagonal {
				continue
			}
			for c := range x.l.work.cuts {
				if !z.cand.covers(c) {
					continue
				}
				by := z.cand.by[c]
				for _, d := range []float64{3 * (z.most - z.Want) / by, -3 * (z.Want - z.least) / by} {
					if math.Abs(d) < 0.05 || math.Abs(d) > z.Want/4 {
						continue // no room at all: told by what a calliper shows
					}
					cut := &x.l.work.cuts[c]
					_, places, ok := cutByHand(s, cut.Ends[0], cut.Ends[1], d)
					if !ok {
						continue
					}
					n++
					v := x.measured(places)
					require.NotEqual(t, Bend, v.Word, "seed %d, size %d, %s by %v: %v", at, z.No, cut.Name, d, v.Lines)
					if v.Word == Trim {
						trims++
						require.Positive(t, d, "seed %d, size %d, %s: %v", at, z.No, cut.Name, v.Say)
					}
				}
			}
		}
	})
	t.Logf("%d edges, %d trims", n, trims)
	require.Greater(t, n, 200)
	require.Greater(t, trims, 50)
}

// TestRandomTrimmed: what is to be trimmed is right once it is.
func TestRandomTrimmed(t *testing.T) {
	trims := 0
	random(t, 60, func(at uint64, s fold.Spec, x *looked) {
		m := x.l.work
		r := foldtest.Rand(at + 1000)
		out := make([]float64, len(m.cuts))
		for range 2 + r.IntN(3) {
			z := &x.l.Sizes[r.IntN(len(x.l.Sizes))]
			for c := range m.cuts {
				if z.cand.covers(c) && z.cand.use != forDiagonal {
					out[c] = foldtest.Uniform(r, -0.1, 2.5)
				}
			}
		}
		measure := func(out []float64) (is []float64) {
			for i := range x.l.Sizes {
				c := &x.l.Sizes[i].cand
				is = append(is, m.distance(c.x, c.y, out, 0))
			}
			return is
		}
		v := x.typed(measure(out)...)
		if v.Word != Trim {
			return
		}
		trims++
		after := append([]float64(nil), v.out...)
		for _, c := range v.Trims {
			require.Positive(t, c.By, "seed %d", at)
			after[c.cut] -= c.By
		}
		w := x.typed(measure(after)...)
		require.Equal(t, Bend, w.Word, "seed %d: %v then %v", at, v.Say, w.Say)
	})
	t.Logf("%d trims", trims)
	require.Greater(t, trims, 20)
}
