package fold

import (
	"math"
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// firstCuts are the cuts told for the part's clashes.
func firstCuts(p *Part) [][]CutBack {
	s := newShapes(p)
	var out [][]CutBack
	clashes := s.clashes()
	for _, c := range clashes {
		out = append(out, s.cuts(&c, len(clashes)))
	}
	return out
}

// The wall of TestWallMeetsStandingWall: its upper edge at the tip lies, by kernel.md's position, at R sin a + t cos a across with
// t = L + BA - rho a; it must never reach back past the floor and the standing wall's inner face by more than ClashDepth.
func TestCutOfLeaningWall(t *testing.T) {
	const T, R, floor, length = 1.5, 2.0, 40.0, 70.0
	s := strip(T, []section{plain(60), plain(floor), plain(length)}, []fold1{{90, R, true}, {160, R, true}})
	p := buildBase(t, order(s, 0, 1), geom.Vec2{60 + 5 + floor/2, 10})
	rho := R + 0.4*T
	ba := 160 * math.Pi / 180 * rho
	reach := func(l float64) float64 {
		worst := 0.0
		for k := range 100001 {
			a := 160 * math.Pi / 180 * float64(k) / 100000
			for _, r := range []float64{R, R + T} { // upper and lower edge of the tip
				worst = max(worst, -(r*math.Sin(a) + (l+ba-rho*a)*math.Cos(a)))
			}
		}
		return worst
	}
	want := bisect(0, length/2, func(x float64) float64 { return floor + R + ClashDepth - reach(length-x) })
	cuts := firstCuts(p)
	require.Len(t, cuts, 1)
	require.NotEmpty(t, cuts[0])
	c := cuts[0][0]
	require.Equal(t, "its far edge", c.Edge)
	require.GreaterOrEqual(t, c.By, want-1e-3)
	require.Less(t, c.By, want+cutStep+1e-3)
	// Cut so much shorter, the part folds.
	s = strip(T, []section{plain(60), plain(floor), plain(length - c.By)}, []fold1{{90, R, true}, {160, R, true}})
	require.Empty(t, buildBase(t, order(s, 0, 1), geom.Vec2{60 + 5 + floor/2, 10}).Clashes())
	s = strip(T, []section{plain(60), plain(floor), plain(length - c.By + cutStep + 1e-3)}, []fold1{{90, R, true}, {160, R, true}})
	require.NotEmpty(t, buildBase(t, order(s, 0, 1), geom.Vec2{60 + 5 + floor/2, 10}).Clashes())
}

// A flange that leans on over the floor with its return ahead comes against a standing wall: the flange may be made shorter
// between its bends. Made so, the part folds; a step less short it does not.
func TestShorterFlange(t *testing.T) {
	part := func(flange float64) *Part {
		s := strip(1, []section{plain(70), plain(40), plain(flange), plain(12)}, []fold1{{90, 1, true}, {150, 1, true}, {90, 1, true}})
		return buildBase(t, order(s, 0, 2, 1), geom.Vec2{70 + 2.2 + 20, 10})
	}
	const flange = 42
	found := false
	for _, cuts := range firstCuts(part(flange)) {
		for _, c := range cuts {
			if c.Edge != betweenBends {
				continue
			}
			found = true
			require.Empty(t, part(flange-c.By).Clashes())
			require.NotEmpty(t, part(flange-c.By+cutStep+1e-3).Clashes())
		}
	}
	require.True(t, found)
}

// Random parts that hit themselves: with the panel cut back as told, no sampled moment of the swing overlaps; with a step less, cut and
// measured without trees, bounds or steps, one does.
func TestCutsAgainstSampling(t *testing.T) {
	seed := *contactSeed
	if seed == 0 {
		seed = time.Now().UnixNano()
	}
	t.Logf("again with -contact.seed %d", seed)
	r := rand.New(rand.NewSource(seed))
	tried := 0
	for n := 0; n < 2**contactParts || tried < 3 && n < 200; n++ { // few, for the sampling takes long
		p := Build(randomStrip(r))
		s := newShapes(p)
		for _, c := range s.clashes() {
			if c.Undecided {
				continue
			}
			for _, body := range []Body{c.A, c.B} {
				if body.Zone {
					continue
				}
				for _, cut := range s.trims(&c, body.Index) {
					tried++
					worst := func(x float64, samples int) float64 {
						n := cut.way
						_, h := spanAlong(p.Panels[body.Index].Region.Outer, n)
						q := s.pair(c.A, c.B)
						var left []geom.Loop
						for _, l := range p.Panels[body.Index].Pieces {
							if l = solid.Clip(l, n.Mul(-1), x-h); l != nil {
								left = append(left, l)
							}
						}
						body2 := solid.Prisms(s.beyondZone(left, body.Index, &c), p.Thickness)
						if body == c.A {
							q.pa = body2
						} else {
							q.pb = body2
						}
						d := math.Inf(1)
						for k := range samples + 1 {
							d = min(d, plainSD(p, s, q, c.Swing, float64(k)/float64(samples)))
						}
						return d
					}
					require.GreaterOrEqual(t, worst(cut.By, 200), -ClashDepth-clashSlack, "%s: %+v", show(p, []Clash{c}), cut)
					if cut.By > cutStep {
						require.Less(t, worst(cut.By-cutStep, 3000), 0.0, "%s: %+v is more than needed", show(p, []Clash{c}), cut)
					}
				}
			}
		}
	}
	require.GreaterOrEqual(t, tried, 3)
}

// A cut tells where its new edge lies on the blank, and which seams it opens: the wall of a tray, cut back at its corner, opens that corner's
// seam, and nothing else; ways that open none come first.
func TestCutTellsItsSeams(t *testing.T) {
	p := Build(trayWithNotch(32))
	require.True(t, p.Foldable)
	seams := p.foundSeams()
	require.NotEmpty(t, seams)
	s := seams[0]
	k := s.A
	d := s.EdgeA[1].Sub(s.EdgeA[0]).Normalize()
	n := geom.Vec2{d[1], -d[0]} // out of the panel: its edge has the material on its left
	_, h := spanAlong(p.Panels[k].Region.Outer, n)
	require.InDelta(t, h, n.Dot(s.EdgeA[0]), 1e-9)
	c := p.cutBack(k, "its end", 2, n, h-2, func(x Seam) bool {
		return x.A == k && n.Dot(x.EdgeA[0]) > h-2 || x.B == k && n.Dot(x.EdgeB[0]) > h-2
	})
	require.Equal(t, []string{s.Name}, c.Seams)
	for _, q := range c.Line {
		require.InDelta(t, h-2, n.Dot(geom.Vec2(q)), 1e-9)
	}
	long := geom.Vec2(c.Line[1]).Sub(geom.Vec2(c.Line[0])).Len()
	require.Greater(t, long, s.EdgeA[1].Sub(s.EdgeA[0]).Len()-1e-6)
	require.Contains(t, c.Words(), "which opens the seam "+s.Name)
}
