package fold_test

// This file holds gaps along edges of all shapes, at any pose, against brute force station by station.

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// toothedStrip is a strip of three or four panels whose ends have teeth, notches and round corners, with holes near the ends.
func toothedStrip(r *rand.Rand) fold.Spec {
	th := foldtest.LogUniform(r, 0.05, 4)
	size := foldtest.LogUniform(r, 3, 2000)
	th = min(th, size/20)
	k := 0.4
	s := fold.Spec{Name: "toothed", Sheet: fold.Sheet{Thickness: th, K: &k}}
	n := 2 + r.IntN(4)
	tube := n > 3 && r.IntN(2) == 0 // that closes, or runs into itself
	x := 0.0
	for i := range n {
		if i > 0 {
			angle := foldtest.Uniform(r, 60, 130)
			if tube {
				angle = foldtest.Uniform(r, 320, 400) / float64(n)
			}
			if r.IntN(3) == 0 {
				angle = 90
			}
			if r.IntN(6) == 0 && !tube {
				angle = 180
			}
			radius := th * foldtest.Uniform(r, 0, 2)
			ba := angle * math.Pi / 180 * (radius + k*th)
			slant := 0.0
			if r.IntN(3) == 0 {
				slant = size * foldtest.Uniform(r, -0.05, 0.05)
			}
			s.Bends = append(s.Bends, fold.BendSpec{Line: [2]geom.Vec2{{x + ba/2 - slant, 0}, {x + ba/2 + slant, size}}, Angle: angle, Radius: radius, Up: tube || r.IntN(5) > 0})
			x += ba
		}
		if tube {
			x += size * foldtest.Uniform(r, 0.45, 0.5)
		} else {
			x += size * foldtest.Uniform(r, 0.3, 0.6)
		}
	}
	// Up along the far end, down along the near one.
	edge := func(at, out float64, up bool) (c fold.Contour) {
		m := 1 + r.IntN(5)
		var ys []float64
		for range 2 * m {
			ys = append(ys, size*foldtest.Uniform(r, 0.02, 0.98))
		}
		slices.Sort(ys)
		put := func(x, y float64) { c = append(c, fold.Vertex{At: geom.Vec2{x, y}}) }
		put(at, 0)
		if r.IntN(3) > 0 {
			for j := 0; j+1 < len(ys); j += 2 {
				d := size * foldtest.Uniform(r, -0.1, 0.1)
				switch r.IntN(3) {
				case 0: // a notch or a tooth
					put(at, ys[j])
					put(at+d, ys[j])
					put(at+d, ys[j+1])
					put(at, ys[j+1])
				case 1: // a V
					put(at, ys[j])
					put(at+d, (ys[j]+ys[j+1])/2)
					put(at, ys[j+1])
				default: // an arc
					put(at, ys[j])
					h := min(math.Abs(d), (ys[j+1]-ys[j])/2)
					q := geom.Vec2{at - out*h, (ys[j] + ys[j+1]) / 2}
					c = append(c, fold.Vertex{At: geom.Vec2{at, ys[j+1]}, Through: &q})
				}
			}
		}
		put(at, size)
		if !up {
			back := fold.Contour{}
			for j := len(c) - 1; j >= 0; j-- {
				v := fold.Vertex{At: c[j].At}
				if j+1 < len(c) {
					v.Through = c[j+1].Through
				}
				back = append(back, v)
			}
			c = back
		}
		return c
	}
	s.Outline = append(edge(x, 1, true), edge(0, -1, false)...)
	for range r.IntN(5) {
		s.Holes = append(s.Holes, fold.Hole{At: geom.Vec2{[]float64{size * 0.08, x - size*0.08}[r.IntN(2)], size * foldtest.Uniform(r, 0.1, 0.9)}, Diameter: size * foldtest.LogUniform(r, 0.005, 0.08)})
	}
	return s
}

// crossSection is a convex body's section square to e at a place along it, in the axes x, y.
func crossSection(c *solid.Convex, e, x, y geom.Vec3, at float64) (out []geom.Vec2) {
	for _, k := range c.Edges {
		p, q := c.Points[k[0]], c.Points[k[1]]
		dp, dq := e.Dot(p)-at, e.Dot(q)-at
		if dp*dq <= 0 && dp != dq {
			m := p.Add(q.Sub(p).Mul(dp / (dp - dq)))
			out = append(out, geom.Vec2{x.Dot(m), y.Dot(m)})
		}
	}
	return out
}

// sectionsMeet: how deep two sections lie in each other: by all directions square to a pair of their points.
func sectionsMeet(a, b []geom.Vec2) float64 {
	if len(a) < 3 || len(b) < 3 {
		return 0
	}
	best := math.Inf(1)
	for _, l := range [][]geom.Vec2{a, b} {
		for i := range l {
			for j := range i {
				d := l[i].Sub(l[j])
				if d.Len() < 1e-9 {
					continue
				}
				n := geom.Perp(d.Normalize())
				alo, ahi, blo, bhi := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
				for _, p := range a {
					alo, ahi = min(alo, n.Dot(p)), max(ahi, n.Dot(p))
				}
				for _, p := range b {
					blo, bhi = min(blo, n.Dot(p)), max(bhi, n.Dot(p))
				}
				best = min(best, ahi-blo, bhi-alo)
			}
		}
	}
	return best
}

// sectionGap is the clear distance of both edges' sections at a place along e, each a body of two points, to the other panel's
// pieces.
func sectionGap(ps fold.Pose, s fold.Seam, e geom.Vec3, at float64, pieces [][]solid.Convex) float64 {
	th := ps.Part.Thickness
	best := math.Inf(1)
	for _, k := range []struct {
		panel, other int
		edge         [2]geom.Vec2
	}{{s.A, s.B, s.EdgeA}, {s.B, s.A, s.EdgeB}} {
		p, q := ps.PanelPoint(k.panel, k.edge[0], th/2), ps.PanelPoint(k.panel, k.edge[1], th/2)
		m := k.edge[0].Add(k.edge[1].Sub(k.edge[0]).Mul((at - p.Dot(e)) / q.Sub(p).Dot(e)))
		u, v := ps.PanelPoint(k.panel, m, 0), ps.PanelPoint(k.panel, m, th)
		c := solid.Convex{Points: []geom.Vec3{u, v}, Dirs: []geom.Vec3{v.Sub(u).Normalize()}, Edges: [][2]int32{{0, 1}}, Centre: u.Add(v).Mul(0.5), Radius: th / 2}
		for i := range pieces[k.other] {
			if d, ok := solid.Nearer(&c, &pieces[k.other][i], best); ok {
				best = max(0, d.D)
			}
		}
	}
	return best
}

func TestGapsByBruteForce(t *testing.T) {
	seed := *sampleSeed
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Logf("again with -sample.seed %d -sample.parts %d", seed, *sampleParts)
	seams, laps := 0, 0
	for n := range 8 * *sampleParts {
		at := seed + uint64(n)*1_000_003
		r := foldtest.Rand(at)
		p := fold.Build(toothedStrip(r))
		if !p.Foldable {
			continue
		}
		type free struct {
			panel int
			edge  [2]geom.Vec2
		}
		var all []free
		for k := range p.Panels {
			for li, l := range p.Panels[k].Region.Loops() {
				for i, a := range l {
					if e := p.Panels[k].Edges[li][i]; e.Free() && !e.Arc {
						all = append(all, free{k, [2]geom.Vec2{a, l[(i+1)%len(l)]}})
					}
				}
			}
		}
		state := p.Finished()
		if r.IntN(3) == 0 {
			for i := range state {
				state[i] = p.Bends[i].Angle * geom.Angle(r.Float64())
			}
		}
		ps := p.Pose(state)
		pieces := make([][]solid.Convex, len(p.Panels))
		for k := range pieces {
			pieces[k] = ps.Solid(fold.Body{Index: k})
		}
		for range 8 {
			x, y := all[r.IntN(len(all))], all[r.IntN(len(all))]
			if x.panel == y.panel {
				continue
			}
			s := fold.Seam{A: x.panel, B: y.panel, EdgeA: x.edge, EdgeB: y.edge}
			dir := func(f free) geom.Vec3 {
				d := f.edge[1].Sub(f.edge[0]).Normalize()
				return ps.Panels[f.panel].Vector(geom.Vec3{d[0], d[1], 0})
			}
			if math.Abs(dir(x).Dot(dir(y))) < 0.5 {
				continue
			}
			g, ok := ps.MeasureSeam(s)
			if !ok {
				continue
			}
			seams++
			what := fmt.Sprintf("seed %d (T %.3g, %d teeth), seam of %s %v and %s %v", at, p.Thickness, len(all), p.Panels[x.panel].Name, x.edge, p.Panels[y.panel].Name, y.edge)
			laps += checkGap(t, what, ps, s, g, pieces, r)
		}
	}
	t.Log(seams, laps)
	require.Positive(t, seams)
	require.Positive(t, laps)
}

func checkGap(t *testing.T, what string, ps fold.Pose, s fold.Seam, g fold.SeamGap, pieces [][]solid.Convex, r *rand.Rand) (laps int) {
	th := ps.Part.Thickness
	mid := func(panel int, p geom.Vec2) geom.Vec3 { return ps.PanelPoint(panel, p, th/2) }
	a0, a1 := mid(s.A, s.EdgeA[0]), mid(s.A, s.EdgeA[1])
	b0, b1 := mid(s.B, s.EdgeB[0]), mid(s.B, s.EdgeB[1])
	da, db := a1.Sub(a0).Normalize(), b1.Sub(b0).Normalize()
	if da.Dot(db) < 0 {
		db = db.Mul(-1)
	}
	e := da.Add(db).Normalize()
	lo := max(min(a0.Dot(e), a1.Dot(e)), min(b0.Dot(e), b1.Dot(e)))
	hi := min(max(a0.Dot(e), a1.Dot(e)), max(b0.Dot(e), b1.Dot(e)))
	turned := false // the profile may run the other way
	for _, k := range []int{2, 0, 1} {
		if math.Abs(e[k]) > 1e-6 {
			turned = e[k] < 0
			break
		}
	}
	if math.Abs(hi-lo-g.Length) > 1e-6 {
		t.Errorf("%s: length %v, told %v", what, hi-lo, g.Length)
		return
	}
	x := geom.Vec3{1, 0, 0}
	if math.Abs(e[0]) > 0.8 {
		x = geom.Vec3{0, 1, 0}
	}
	x = x.Sub(e.Mul(x.Dot(e))).Normalize()
	y := e.Cross(x)
	type lapped struct {
		a, b  *solid.Convex
		depth float64
	}
	var deep []lapped
	for i := range pieces[s.A] {
		for j := range pieces[s.B] {
			if d := overlapDepth(&pieces[s.A][i], &pieces[s.B][j]); d > 1e-6 {
				deep = append(deep, lapped{&pieces[s.A][i], &pieces[s.B][j], d})
			}
		}
	}
	const stations = 300
	sum, worst := 0.0, 0.0
	for k := range stations {
		f := (float64(k) + 0.5) / stations
		if k < 60 { // close to the profile's points
			q := g.Profile[r.IntN(len(g.Profile))]
			f = q.At/g.Length + foldtest.Uniform(r, -1, 1)*math.Exp2(-foldtest.Uniform(r, 4, 20))
			if turned {
				f = 1 - f
			}
			f = min(1-1e-9, max(1e-9, f))
		}
		d := sectionGap(ps, s, e, lo+(hi-lo)*f, pieces)
		if k%100 == 99 { // and now and then by the regions themselves
			if slow, _ := foldtest.SeamGapAt(ps, s, f); math.Abs(slow-d) > 1e-6 {
				t.Errorf("%s: the twins say %v and %v", what, slow, d)
			}
		}
		sure := true
		was := d
		for _, o := range deep {
			m := sectionsMeet(crossSection(o.a, e, x, y, lo+(hi-lo)*f), crossSection(o.b, e, x, y, lo+(hi-lo)*f))
			if m > 1e-7 {
				d = min(d, -o.depth)
			}
		}
		if d < 0 {
			laps++
		} else if was < 1e-6 && len(deep) > 0 {
			sure = false
		}
		at := f * g.Length
		if turned {
			at = g.Length - at
		}
		// The profile there; at a jump either side will do.
		tells := func(at float64) float64 {
			for i := 1; i < len(g.Profile); i++ {
				if p, q := g.Profile[i-1], g.Profile[i]; at <= q.At && q.At > p.At {
					return p.Gap + (q.Gap-p.Gap)*(at-p.At)/(q.At-p.At)
				}
			}
			return g.Profile[len(g.Profile)-1].Gap
		}
		// Near a jump the station may be on its other side.
		got := tells(at)
		for _, p := range g.Profile {
			if math.Abs(p.At-at) < 2e-5*max(1, g.Length/100) {
				sure = sure && len(deep) == 0
			}
		}
		if !sure {
			continue
		}
		sum += d
		if miss := math.Abs(got - d); miss > fold.ProfileError+1e-6 && miss > worst {
			worst = miss
			t.Errorf("%s: gap %.6f at %.6f of %.3f, the profile says %.6f (%d points, least %v widest %v)", what, d, at, g.Length, got, len(g.Profile), g.Min, g.Max)
		}
		if d < g.Min-1e-6 || d > g.Max+1e-6 {
			t.Errorf("%s: gap %.9f at %.6f, told %.9f to %.9f", what, d, at, g.Min, g.Max)
		}
	}
	_ = sum
	return laps
}
