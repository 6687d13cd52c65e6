package fold

import (
	"flag"
	"fmt"
	"math"
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// section is one panel of a strip: its length along x, and its y range.
type section struct{ length, y0, y1 float64 }

// fold1 is a bend of a strip after a section.
type fold1 struct {
	angle, radius float64
	up            bool
}

// strip is a blank of sections one after another along x, joined by bends; each bend's zone
// is as wide as the narrower of its two sections, and square to x.
func strip(t float64, sections []section, folds []fold1) Spec {
	k := 0.4
	s := Spec{Name: "strip", Sheet: Sheet{Thickness: t, K: &k}}
	var low, high []geom.Vec2
	x := 0.0
	for i, c := range sections {
		low = append(low, geom.Vec2{x, c.y0}, geom.Vec2{x + c.length, c.y0})
		high = append(high, geom.Vec2{x, c.y1}, geom.Vec2{x + c.length, c.y1})
		x += c.length
		if i == len(folds) {
			break
		}
		f, d := folds[i], sections[i+1]
		ba := f.angle * math.Pi / 180 * (f.radius + k*t)
		// The zone is a section of its own, as wide as what both have.
		y0, y1 := max(c.y0, d.y0), min(c.y1, d.y1)
		low = append(low, geom.Vec2{x, y0}, geom.Vec2{x + ba, y0})
		high = append(high, geom.Vec2{x, y1}, geom.Vec2{x + ba, y1})
		s.Bends = append(s.Bends, BendSpec{Line: [2]geom.Vec2{{x + ba/2, y0 - 1}, {x + ba/2, y1 + 1}},
			Angle: f.angle, Radius: f.radius, Up: f.up})
		x += ba
	}
	var l []geom.Vec2
	add := func(p geom.Vec2) {
		if n := len(l); n == 0 || l[n-1] != p {
			l = append(l, p)
		}
	}
	for _, p := range low {
		add(p)
	}
	for i := len(high) - 1; i >= 0; i-- {
		add(high[i])
	}
	for _, p := range l {
		s.Outline = append(s.Outline, Vertex{At: p})
	}
	return s
}

func plain(length float64) section { return section{length, 0, 20} }

// order names bends by number, from 0, one swing each.
func order(s Spec, bends ...int) Spec {
	s.Order = nil
	for _, b := range bends {
		s.Order = append(s.Order, Step{Bends: []string{s.Bends[b].name(b)}})
	}
	return s
}

// buildBase builds with the panel at section's middle as the base.
func buildBase(t *testing.T, s Spec, at geom.Vec2) *Part {
	t.Helper()
	s.Panels = append(s.Panels, PanelName{"base", at})
	s.Base = "base"
	p := Build(s)
	require.True(t, p.Foldable, "%v", p.Troubles)
	return p
}

// onePair is the only clash of the part.
func onePair(t *testing.T, p *Part) Clash {
	t.Helper()
	cs := p.Clashes()
	require.Len(t, cs, 1, "%s", show(p, cs))
	require.False(t, cs[0].Undecided)
	return cs[0]
}

func show(p *Part, cs []Clash) string {
	s := ""
	for _, c := range cs {
		s += fmt.Sprintf("swing %d %s - %s at %.4f deg (%.5f), %.4f deep at %.4f, end %v, undecided %v\n", c.Swing+1, p.BodyName(c.A), p.BodyName(c.B),
			c.Angle.Degrees(), c.Fraction, c.Depth, c.DepthAt, c.AtEnd, c.Undecided)
	}
	return s
}

// bisect finds where f changes sign between lo (f < 0) and hi.
func bisect(lo, hi float64, f func(float64) float64) float64 {
	for range 100 {
		if m := (lo + hi) / 2; f(m) < 0 {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}

// A wall that bends on beyond square against one that stands: the tip's upper edge meets the
// inner face of the other wall. kernel.md's position of a point s across, on the face z = T:
// r sin a + t cos a, with r = R, t = L + BA - rho a, reaching back by the floor's width.
func TestWallMeetsStandingWall(t *testing.T) {
	const T, R, floor = 1.5, 2.0, 40.0
	s := strip(T, []section{plain(60), plain(floor), plain(70)}, []fold1{{90, R, true}, {160, R, true}})
	p := buildBase(t, order(s, 0, 1), geom.Vec2{60 + 5 + floor/2, 10})
	c := onePair(t, p)
	require.Equal(t, 1, c.Swing)
	rho := R + 0.4*T
	ba := 160 * math.Pi / 180 * rho
	// Standing wall's inner face: R behind the floor's other tangent line, so floor+R from this one.
	want := bisect(math.Pi/2, 160*math.Pi/180, func(a float64) float64 {
		return -(R*math.Sin(a) + (70+ba-rho*a)*math.Cos(a)) - (floor + R)
	})
	require.InDelta(t, want*180/math.Pi, c.Angle.Degrees(), 0.001)
	require.True(t, c.AtEnd)
	require.InDelta(t, math.Abs(c.Normal[0]), 1, 1e-6)
	// The same with the other wall down: nothing in the way.
	s = strip(T, []section{plain(60), plain(floor), plain(70)}, []fold1{{90, R, false}, {160, R, true}})
	require.Empty(t, buildBase(t, order(s, 0, 1), geom.Vec2{60 + 5 + floor/2, 10}).Clashes())
	// And in the other order the standing wall's swing meets the leaning one.
	s = strip(T, []section{plain(60), plain(floor), plain(70)}, []fold1{{90, R, true}, {160, R, true}})
	c = onePair(t, buildBase(t, order(s, 1, 0), geom.Vec2{60 + 5 + floor/2, 10}))
	require.Equal(t, 1, c.Swing)
	require.Less(t, c.Angle.Degrees(), 90.0)
}

// A hem may close on its own panel: inside radius 0 ends in contact, 0.5 with a 1 mm gap.
func TestHemCloses(t *testing.T) {
	for _, r := range []float64{0, 0.5} {
		for _, up := range []bool{true, false} {
			s := strip(1, []section{plain(50), plain(12)}, []fold1{{180, r, up}})
			p := buildBase(t, s, geom.Vec2{25, 10})
			require.Empty(t, p.Clashes(), "radius %v", r)
			overlaps, all := newShapes(p).finishedOverlaps()
			require.Empty(t, overlaps)
			require.True(t, all)
			c, ok := finishedSD(p, Body{false, 0}, Body{false, 1})
			require.True(t, ok)
			require.InDelta(t, 2*r, c, 1e-9)
		}
	}
	// One that is longer than the floor runs into the wall at its other side.
	s := strip(1, []section{plain(30), plain(50), plain(56)}, []fold1{{90, 1, true}, {180, 0.5, true}})
	c := onePair(t, buildBase(t, order(s, 0, 1), geom.Vec2{55, 10}))
	require.Equal(t, 1, c.Swing)
	require.True(t, c.AtEnd)
	// The tip passes over the wall's top edge's height 1 + 1 + 30 before it comes down on it.
	require.Greater(t, c.Angle.Degrees(), 120.0)
	require.Less(t, c.Angle.Degrees(), 170.0)
}

func finishedSD(p *Part, a, b Body) (float64, bool) {
	s := newShapes(p)
	v := s.still(p.Pose(p.Finished())).at(0)
	c, ok := v.apart(s.pair(a, b), math.Inf(1))
	return c.D, ok
}

// A hooked wall swings in: the hook's drop comes down outside the standing wall, but on its
// way its tip passes through the wall's top. Clear again at the end.
func TestPassesThroughAndClears(t *testing.T) {
	build := func(hook float64) *Part {
		s := strip(1, []section{plain(28), plain(48), plain(38), plain(hook), plain(20)},
			[]fold1{{90, 1, true}, {90, 1, true}, {90, 1, true}, {90, 1, true}})
		return buildBase(t, order(s, 0, 3, 2, 1), geom.Vec2{55, 10})
	}
	c := onePair(t, build(51))
	require.False(t, c.AtEnd)
	require.Equal(t, 3, c.Swing)
	require.Greater(t, c.Depth, 0.5)
	// A longer hook goes round the top.
	require.Empty(t, build(62).Clashes())
}

// tabAndSlot: a tab comes down through a slot of the floor as its wall swings up. The slot is
// wider than the tab by play at each side.
func tabAndSlot(t *testing.T, play float64, slot bool) *Part {
	s := strip(1, []section{{80, 0, 40}, plain40(30), plain40(30), {40, 15, 25}},
		[]fold1{{90, 1, true}, {90, 1, true}, {90, 1, true}})
	if slot {
		c := pts(35, 15-play, 60, 15-play, 60, 25+play, 35, 25+play)
		s.Cutouts = append(s.Cutouts, c)
	}
	return buildBase(t, order(s, 2, 1, 0), geom.Vec2{10, 5})
}

func plain40(length float64) section { return section{length, 0, 40} }

func TestTabThroughSlot(t *testing.T) {
	require.Empty(t, tabAndSlot(t, 0.02, true).Clashes())
	require.Empty(t, tabAndSlot(t, 0, true).Clashes()) // slides along both sides
	for _, p := range []*Part{tabAndSlot(t, -0.03, true), tabAndSlot(t, 0, false)} {
		c := onePair(t, p)
		require.Equal(t, 2, c.Swing)
		require.True(t, c.AtEnd)
	}
}

// randomStrip makes parts of three to six panels that often hit themselves.
func randomStrip(r *rand.Rand) Spec {
	n := 3 + r.Intn(4)
	var sections []section
	var folds []fold1
	t := 0.5 + 2*r.Float64()
	for i := range n {
		y0 := math.Floor(r.Float64()*4) * 5
		sections = append(sections, section{8 + 50*r.Float64(), y0, y0 + 20 + 10*math.Floor(r.Float64()*3)})
		if i > 0 {
			a := []float64{90, 90, 180, 135, 30 + 150*r.Float64()}[r.Intn(5)]
			folds = append(folds, fold1{a, []float64{0, 1, 3 * r.Float64()}[r.Intn(3)], r.Intn(3) > 0})
		}
	}
	s := strip(t, sections, folds)
	names := r.Perm(len(folds))
	s = order(s, names...)
	if len(names) > 2 && r.Intn(2) == 0 { // two bends that turn together
		s.Order[1].Bends = append(s.Order[1].Bends, s.Order[2].Bends...)
		s.Order = append(s.Order[:2], s.Order[3:]...)
	}
	return s
}

var (
	contactSeed  = flag.Int64("contact.seed", 1, "seed of the random contact test; 0 takes a new one")
	contactParts = flag.Int("contact.parts", 8, "how many random parts the contact test samples")
)

// TestClashesAgainstSampling: every swing is sampled densely, every pair of pieces measured
// without trees, bounds or steps. What sampling sees, the search must see, at the same angle.
func TestClashesAgainstSampling(t *testing.T) {
	seed := *contactSeed
	if seed == 0 {
		seed = time.Now().UnixNano()
	}
	t.Logf("again with -contact.seed %d", seed)
	r := rand.New(rand.NewSource(seed))
	const samples = 50
	found := 0
	for n := 0; n < *contactParts || found == 0 && n < 50**contactParts; n++ { // until something has clashed
		spec := randomStrip(r)
		if n%2 == 1 {
			spec = springy(spec, 1+6*r.Float64())
		}
		p := Build(spec)
		require.True(t, p.Foldable, "%v", p.Troubles)
		got := map[[3]any]Clash{}
		for _, c := range p.Clashes() {
			require.False(t, c.Undecided)
			if _, before := got[[3]any{c.Swing, c.A, c.B}]; before { // again on the way back
				continue
			}
			got[[3]any{c.Swing, c.A, c.B}] = c
			got[[3]any{c.Swing, c.B, c.A}] = c
			found++
		}
		s := newShapes(p)
		bodies := p.bodies()
		for swing, sw := range p.Swings {
			for i, a := range bodies {
				for _, b := range bodies[i+1:] {
					if !movesBetween(p, sw, a, b) {
						continue
					}
					q := s.pair(a, b)
					sd := func(f float64) float64 { return plainSD(p, s, q, swing, f) }
					c, clashes := got[[3]any{swing, a, b}]
					start := sd(0) < -ClashDepth
					worst := math.Inf(1)
					for k := range samples {
						f := float64(k) / (samples - 1)
						d := sd(f)
						if start {
							start = d < -ClashDepth
							continue
						}
						worst = min(worst, d)
						if clashes {
							require.False(t, f < c.Fraction && d < -ClashDepth, "%s overlaps by %v at %v already", show(p, []Clash{c}), -d, f)
							require.LessOrEqual(t, -d, c.Depth+0.01, show(p, []Clash{c}))
						}
					}
					if clashes {
						e := float64(ClashAngle) * 2
						require.GreaterOrEqual(t, sd(max(0, c.Fraction-e)), -ClashDepth)
						if c.Fraction > 0 {
							require.InDelta(t, 0, sd(c.Fraction), 0.002, show(p, []Clash{c}))
						}
						// From there on they overlap until they clash.
						for f := c.Fraction + e; f < 1; f += 20 * e {
							d := sd(f)
							if d < -ClashDepth {
								break
							}
							require.Less(t, d, 0.0, show(p, []Clash{c}))
						}
						require.InDelta(t, -c.Depth, sd(c.DepthAt), 0.002)
						require.Greater(t, c.Depth, ClashDepth)
						require.Equal(t, c.AtEnd, sd(1) < -ClashDepth)
					} else {
						require.GreaterOrEqual(t, worst, -ClashDepth-clashSlack, "swing %d: %s and %s", swing+1, p.BodyName(a), p.BodyName(b))
					}
				}
			}
		}
	}
	require.Positive(t, found)
}

// movesBetween: a bend of the swing lies on the way through the tree from a to b.
func movesBetween(p *Part, sw Swing, a, b Body) bool {
	near := map[int]bool{} // panels that b reaches without passing a turning bend
	link := func(k int) (x, y int) { return p.Bends[k].A, p.Bends[k].B }
	turning := map[int]bool{}
	for _, k := range sw.Bends {
		turning[k] = true
	}
	for _, x := range []Body{a, b} {
		if x.Zone && turning[x.Index] {
			return true
		}
	}
	near[p.carrier(b)] = true
	for range p.Panels {
		for k := range p.Bends {
			if x, y := link(k); !turning[k] && near[x] != near[y] {
				near[x], near[y] = true, true
			}
		}
	}
	return !near[p.carrier(a)]
}

// plainSD measures a pair by all pairs of pieces.
func plainSD(p *Part, s *shapes, q pair, swing int, f float64) float64 {
	ps := p.Pose(p.StateAt(swing, f))
	pieces := func(b Body, stand *solid.Body) (out []solid.Convex) {
		if !b.Zone {
			return stand.Place(ps.Panels[b.Index]).Pieces()
		}
		for _, g := range s.groups(b, ps.frame, ps.angle) {
			out = append(out, g.Pieces()...)
		}
		return out
	}
	a, b := pieces(q.a, q.pa), pieces(q.b, q.pb)
	best := math.Inf(1)
	for i := range a {
		for j := range b {
			if c, ok := solid.Nearer(&a[i], &b[j], best); ok {
				best = c.D
			}
		}
	}
	return best
}

// TestZoneFacets: facets of a zone, part-bent or bent, straight or bitten by a slanting cut and a
// hole, stay within ZoneFacet of the true faces, and within zoneSide of slanting sides.
func TestZoneFacets(t *testing.T) {
	k := 0.4
	s := Spec{Name: "bitten", Sheet: Sheet{Thickness: 1.5, K: &k}}
	s.Outline = pts(0, 0, 26, 0, 34, 12, 60, 12, 60, 40, 0, 40)
	s.Holes = []Hole{{At: geom.Vec2{31, 30}, Diameter: 4}}
	for _, up := range []bool{true, false} {
		for _, radius := range []float64{0, 1, 3, 40} {
			s.Bends = []BendSpec{{Line: [2]geom.Vec2{{30, -1}, {30, 41}}, Angle: 95, Radius: radius, Up: up}}
			if radius == 40 {
				s.Outline = pts(0, 0, 200, 0, 200, 40, 0, 40)
				s.Bends[0].Line = [2]geom.Vec2{{100, -1}, {100, 41}}
				s.Holes = nil
			}
			p := Build(s)
			require.True(t, p.Foldable, "%v", p.Troubles)
			b := &p.Bends[0]
			r := rand.New(rand.NewSource(7))
			for _, f := range []float64{0.001, 0.37, 0.5, 1} {
				ps := p.Pose(p.StateAt(0, f))
				pieces := ps.Solid(Body{true, 0})
				away := func(q geom.Vec3) float64 {
					c := solid.Convex{Points: []geom.Vec3{q}, Centre: q}
					best := math.Inf(1)
					for i := range pieces {
						if d, ok := solid.Nearer(&c, &pieces[i], best); ok {
							best = d.D
						}
					}
					return best
				}
				done := 0
				for done < 60 {
					reg := b.Zone[r.Intn(len(b.Zone))]
					l := reg.Outer
					i := r.Intn(len(l))
					edge := l[i].Add(l[(i+1)%len(l)].Sub(l[i]).Mul(r.Float64()))
					in := l[r.Intn(len(l))].Add(l[r.Intn(len(l))]).Add(edge.Mul(2)).Mul(0.25)
					if !reg.Contains(in) {
						continue
					}
					done++
					for _, z := range []float64{0, p.Thickness} {
						q := ps.ZonePoint(0, in, z)
						out := q.Sub(ps.ZonePoint(0, in, p.Thickness/2)).Normalize()
						require.LessOrEqual(t, away(q.Sub(out.Mul(ZoneFacet))), 1e-9, "%v", in)
						if radius > 0 || z == 0 == up { // a sharp inside corner has no face
							require.Greater(t, away(q.Add(out.Mul(ZoneFacet*1.0001))), 0.0)
						}
					}
					// The side face over the edge: no gap, no more than zoneSide proud.
					n := geom.Perp(l[(i+1)%len(l)].Sub(l[i])).Normalize().Mul(-1)
					_, across := b.Coord(edge)
					if across < 0.01 || across > b.Allowance-0.01 {
						continue
					}
					z := p.Thickness * r.Float64()
					require.LessOrEqual(t, away(ps.ZonePoint(0, edge, z)), 1.5*ZoneFacet)
					if proud := edge.Add(n.Mul(0.3)); !reg.Contains(proud) && !inBlank(p, proud) {
						// Where the surface is stretched or pressed, the way out is no longer square to it.
						require.Greater(t, away(ps.ZonePoint(0, proud, z)), 0.0)
					}
				}
			}
		}
	}
}

func inBlank(p *Part, q geom.Vec2) bool {
	return geom.Region{Outer: p.Outline, Holes: p.Voids}.Contains(q)
}

func BenchmarkClashesTray(b *testing.B) {
	p := Build(trayWithNotch(32))
	for b.Loop() {
		p.Clashes()
	}
}

// Zones that run into each other at all four corners: twelve clashing pairs.
func BenchmarkClashesTightTray(b *testing.B) {
	p := Build(trayWithNotch(30))
	for b.Loop() {
		p.Clashes()
	}
}
