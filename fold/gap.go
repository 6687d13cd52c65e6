package fold

// This file measures seams: the gap along each, kernel.md's definition to the letter.

import (
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// seamLine is a seam placed in space at one state, ready to be measured.
type seamLine struct {
	e      geom.Vec3 // the direction both edges share
	lo, hi float64   // the stretch, along e
	t      float64   // sheet thickness
	a, b   seamSide
	laps   []lap // pieces of the two panels that lie in each other
}

// seamSide is one edge and the panel behind it.
type seamSide struct {
	frame  geom.Frame
	p, q   geom.Vec2 // edge's ends on the blank
	sp, sq float64   // where their mid-thickness points project on e
	pieces []geom.Loop
}

// lap is a pair of convex pieces, one of each panel, that overlap.
type lap struct {
	a, b  geom.Loop
	depth float64
}

// at gives the edge's segment across the thickness at s, ends clamped to the edge.
func (x *seamSide) at(s, t float64) (lower, upper geom.Vec3) {
	k := 0.0
	if x.sq != x.sp {
		k = max(0, min(1, (s-x.sp)/(x.sq-x.sp)))
	}
	p := x.p.Add(x.q.Sub(x.p).Mul(k))
	return x.frame.Point(geom.Vec3{p[0], p[1], 0}), x.frame.Point(geom.Vec3{p[0], p[1], t})
}

// seamLine places seam s at pose ps; ok is false where the edges share no stretch.
func (ps Pose) seamLine(s Seam) (l seamLine, ok bool) {
	p := ps.Part
	side := func(panel int, edge [2]geom.Vec2) seamSide {
		return seamSide{frame: ps.Panels[panel], p: edge[0], q: edge[1], pieces: p.Panels[panel].Pieces}
	}
	l = seamLine{t: p.Thickness, a: side(s.A, s.EdgeA), b: side(s.B, s.EdgeB)}
	mid := func(x *seamSide, q geom.Vec2) geom.Vec3 { return x.frame.Point(geom.Vec3{q[0], q[1], l.t / 2}) }
	da := mid(&l.a, l.a.q).Sub(mid(&l.a, l.a.p)).Normalize()
	db := mid(&l.b, l.b.q).Sub(mid(&l.b, l.b.p)).Normalize()
	if da.Dot(db) < 0 {
		db = db.Mul(-1)
	}
	l.e = da.Add(db).Normalize()
	// From the foot up; level seams along x, then y.
	for _, k := range []int{2, 0, 1} {
		if math.Abs(l.e[k]) > 1e-6 {
			if l.e[k] < 0 {
				l.e = l.e.Mul(-1)
			}
			break
		}
	}
	for _, x := range []*seamSide{&l.a, &l.b} {
		x.sp, x.sq = mid(x, x.p).Dot(l.e), mid(x, x.q).Dot(l.e)
	}
	l.lo = max(min(l.a.sp, l.a.sq), min(l.b.sp, l.b.sq))
	l.hi = min(max(l.a.sp, l.a.sq), max(l.b.sp, l.b.sq))
	if !(l.hi-l.lo > Weld) {
		return l, false
	}
	for _, pa := range l.a.pieces {
		for _, pb := range l.b.pieces {
			ca, cb := solid.Prism(pa, 0, l.t, l.a.frame), solid.Prism(pb, 0, l.t, l.b.frame)
			if c, near := solid.Nearer(&ca, &cb, 0); near && c.D < -Weld {
				l.laps = append(l.laps, lap{pa, pb, -c.D})
			}
		}
	}
	return l, true
}

// gap is the clear distance at s, or minus the depth where the panels lie in each
// other, and the nearest points (on A's panel, on B's).
func (l *seamLine) gap(s float64) (float64, geom.Vec3, geom.Vec3) {
	a0, a1 := l.a.at(s, l.t)
	b0, b1 := l.b.at(s, l.t)
	d, pa, pb := l.b.distance(a0, a1, l.t)
	d2, qb, qa := l.a.distance(b0, b1, l.t)
	if d2 < d {
		d, pa, pb = d2, qa, qb
	}
	// Square ends lie in the plane at the run's very ends: look a hair inside.
	hair := min(10*Weld, (l.hi-l.lo)/4)
	in := max(l.lo+hair, min(l.hi-hair, s))
	depth := 0.0
	for _, o := range l.laps {
		if o.depth > depth && l.sectionsOverlap(o, in) {
			depth = o.depth
		}
	}
	if depth > 0 {
		return -depth, pa, pb
	}
	return d, pa, pb
}

// distance is from the segment u-v to the panel of x: the nearest points on the
// segment and on the panel.
func (x *seamSide) distance(u, v geom.Vec3, t float64) (float64, geom.Vec3, geom.Vec3) {
	lu, lv := x.frame.LocalPoint(u), x.frame.LocalPoint(v)
	best := math.Inf(1)
	var on, near geom.Vec3
	for _, piece := range x.pieces {
		if loopApart(piece, lu, lv, t) >= best {
			continue
		}
		if d, p, q := segmentToPrism(lu, lv, piece, t); d < best {
			best, on, near = d, p, q
		}
	}
	return best, x.frame.Point(on), x.frame.Point(near)
}

// loopApart is a lower bound of a segment's distance to a prism, by boxes.
func loopApart(l geom.Loop, u, v geom.Vec3, t float64) float64 {
	box := geom.EmptyBox2()
	for _, p := range l {
		box.Add(p)
	}
	lo := geom.Vec3{box.Min[0], box.Min[1], 0}
	hi := geom.Vec3{box.Max[0], box.Max[1], t}
	sum := 0.0
	for k := range 3 {
		d := max(0, lo[k]-max(u[k], v[k]), min(u[k], v[k])-hi[k])
		sum += d * d
	}
	return math.Sqrt(sum)
}

// segmentToPrism is the distance of the segment u-v to the prism over the convex
// loop, z 0..t, with the nearest points on segment and prism; 0 where they meet.
func segmentToPrism(u, v geom.Vec3, l geom.Loop, t float64) (float64, geom.Vec3, geom.Vec3) {
	best := math.Inf(1)
	var on, near geom.Vec3
	try := func(p, q geom.Vec3) {
		if d := p.Sub(q).Len(); d < best {
			best, on, near = d, p, q
		}
	}
	// The stretch of the segment inside the prism, if any.
	in, out := 0.0, 1.0
	d := v.Sub(u)
	clip := func(at, slope float64) { // keep at + slope*k >= 0
		switch {
		case slope > 0:
			in = max(in, -at/slope)
		case slope < 0:
			out = min(out, -at/slope)
		case at < 0:
			in, out = 1, 0
		}
	}
	clip(u[2], d[2])
	clip(t-u[2], -d[2])
	for i, a := range l {
		e := l[(i+1)%len(l)].Sub(a)
		clip(geom.Cross2(e, geom.Vec2{u[0] - a[0], u[1] - a[1]}), geom.Cross2(e, geom.Vec2{d[0], d[1]}))
	}
	if in <= out {
		p := u.Add(d.Mul((in + out) / 2))
		return 0, p, p
	}
	for _, p := range []geom.Vec3{u, v} {
		try(p, nearestInPrism(p, l, t))
	}
	for i, a := range l {
		b := l[(i+1)%len(l)]
		a0, b0 := geom.Vec3{a[0], a[1], 0}, geom.Vec3{b[0], b[1], 0}
		a1, b1 := geom.Vec3{a[0], a[1], t}, geom.Vec3{b[0], b[1], t}
		try(nearestOnSegments(u, v, a0, b0))
		try(nearestOnSegments(u, v, a1, b1))
		try(nearestOnSegments(u, v, a0, a1))
	}
	return best, on, near
}

// nearestInPrism is the point of the prism over a convex loop nearest to p.
func nearestInPrism(p geom.Vec3, l geom.Loop, t float64) geom.Vec3 {
	q := geom.Vec2{p[0], p[1]}
	if !convexContains(l, q) {
		best := math.Inf(1)
		at := q
		for i, a := range l {
			b := l[(i+1)%len(l)]
			if d, k := geom.SegmentDistance(q, a, b); d < best {
				best, at = d, a.Add(b.Sub(a).Mul(k))
			}
		}
		q = at
	}
	return geom.Vec3{q[0], q[1], max(0, min(t, p[2]))}
}

func convexContains(l geom.Loop, p geom.Vec2) bool {
	for i, a := range l {
		if geom.Cross2(l[(i+1)%len(l)].Sub(a), p.Sub(a)) < 0 {
			return false
		}
	}
	return true
}

// sectionsOverlap reports whether the sections of two pieces, square to e at s, overlap.
func (l *seamLine) sectionsOverlap(o lap, s float64) bool {
	x := l.e.Cross(geom.Vec3{0, 0, 1})
	if x.Len() < 0.1 {
		x = l.e.Cross(geom.Vec3{1, 0, 0})
	}
	x = x.Normalize()
	y := l.e.Cross(x)
	sec := func(f geom.Frame, piece geom.Loop) []geom.Vec2 {
		var out []geom.Vec2
		n := len(piece)
		edge := func(p, q geom.Vec3) {
			p, q = f.Point(p), f.Point(q)
			dp, dq := p.Dot(l.e)-s, q.Dot(l.e)-s
			if dp == 0 {
				out = append(out, geom.Vec2{p.Dot(x), p.Dot(y)})
			}
			if (dp > 0) != (dq > 0) {
				m := p.Add(q.Sub(p).Mul(dp / (dp - dq)))
				out = append(out, geom.Vec2{m.Dot(x), m.Dot(y)})
			}
		}
		for i, a := range piece {
			b := piece[(i+1)%n]
			edge(geom.Vec3{a[0], a[1], 0}, geom.Vec3{b[0], b[1], 0})
			edge(geom.Vec3{a[0], a[1], l.t}, geom.Vec3{b[0], b[1], l.t})
			edge(geom.Vec3{a[0], a[1], 0}, geom.Vec3{a[0], a[1], l.t})
		}
		return out
	}
	return pointSetsOverlap(sec(l.a.frame, o.a), sec(l.b.frame, o.b))
}

// pointSetsOverlap reports whether the convex hulls of two small point sets overlap
// by more than Weld: no direction square to a pair of points of either parts them.
func pointSetsOverlap(a, b []geom.Vec2) bool {
	if len(a) == 0 || len(b) == 0 {
		return false
	}
	for _, set := range [][]geom.Vec2{a, b} {
		for i := range set {
			for j := i + 1; j < len(set); j++ {
				d := set[j].Sub(set[i])
				if d.Len() <= Weld {
					continue
				}
				n := geom.Perp(d).Normalize()
				a0, a1 := spanAlong(a, n)
				b0, b1 := spanAlong(b, n)
				if a1 <= b0+Weld || b1 <= a0+Weld {
					return false
				}
			}
		}
	}
	return true
}

func spanAlong(ps []geom.Vec2, n geom.Vec2) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range ps {
		lo, hi = min(lo, p.Dot(n)), max(hi, p.Dot(n))
	}
	return lo, hi
}

// SeamGap is what a seam measures at one pose. Stations are distances from the
// seam's start (its foot, or its least x where it lies level).
type SeamGap struct {
	Length         float64
	Min, Mean, Max float64
	MinAt, MaxAt   float64
	AtStart, AtEnd float64
	Step           float64 // offset of the two faces where they lie within 45 degrees, largest; else 0
	Ticks          []Tick
}

// MeasureSeam measures the gap along a seam at this pose. ok is false where the
// two edges share no stretch. Least and largest gaps are searched for to 1e-9 mm,
// not merely sampled; the mean is a trapezoid sum over seamStations.
func (ps Pose) MeasureSeam(s Seam) (SeamGap, bool) {
	l, ok := ps.seamLine(s)
	if !ok {
		return SeamGap{}, false
	}
	g := SeamGap{Length: l.hi - l.lo, Min: math.Inf(1), Max: math.Inf(-1)}
	const n = seamStations
	val := func(s float64) float64 { d, _, _ := l.gap(s); return d }
	xs := make([]float64, n+1)
	vs := make([]float64, n+1)
	for i := range xs {
		xs[i] = l.lo + g.Length*float64(i)/n
		vs[i] = val(xs[i])
	}
	g.AtStart, g.AtEnd = vs[0], vs[n]
	better := func(x, v float64) {
		if v < g.Min-1e-12 {
			g.Min, g.MinAt = v, x-l.lo
		}
		if v > g.Max+1e-12 {
			g.Max, g.MaxAt = v, x-l.lo
		}
	}
	for i := range n {
		a, b, va, vb := xs[i], xs[i+1], vs[i], vs[i+1]
		if (va < 0) == (vb < 0) {
			g.Mean += (va + vb) / 2 / n
			continue
		}
		// Where the panels begin to lie in each other the gap jumps: find the place.
		for b-a > 1e-9 {
			if m := (a + b) / 2; (val(m) < 0) == (va < 0) {
				a = m
			} else {
				b = m
			}
		}
		ja, jb := val(a), val(b)
		better(a, ja)
		better(b, jb)
		g.Mean += ((va+ja)*(a-xs[i]) + (jb+vb)*(xs[i+1]-b)) / 2 / g.Length
	}
	for i := range xs {
		better(xs[i], vs[i])
		if i == 0 || i == n {
			continue
		}
		for _, sign := range []float64{1, -1} { // a dip, then a hump, about station i
			dip := max(sign*(vs[i-1]-vs[i]), sign*(vs[i+1]-vs[i]))
			if sign*vs[i] <= sign*vs[i-1] && sign*vs[i] <= sign*vs[i+1] && dip > gapNoise {
				x := golden(func(s float64) float64 { return sign * val(s) }, xs[i-1], xs[i+1])
				better(x, val(x))
			}
		}
	}
	g.Step = l.step()
	count := int(max(4, min(24, math.Round(g.Length/6))))
	for i := 0; i <= count; i++ {
		at := g.Length * float64(i) / float64(count)
		d, a, b := l.gap(l.lo + at)
		g.Ticks = append(g.Ticks, Tick{A: a, B: b, Gap: d, At: at})
	}
	return g, true
}

// seamStations: intervals into which a seam is cut to look for dips and humps of its gap.
const seamStations = 48

// gapNoise: stations whose gaps differ by less than this are level (mm); a thousandth of GapSolve.
const gapNoise = 1e-9

// golden finds the least of f between a and b, where it has one dip.
func golden(f func(float64) float64, a, b float64) float64 {
	r := (math.Sqrt(5) - 1) / 2
	c, d := b-r*(b-a), a+r*(b-a)
	fc, fd := f(c), f(d)
	for k := 0; k < 60 && b-a > 1e-9; k++ {
		if fc < fd {
			b, d, fd = d, c, fc
			c = b - r*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + r*(b-a)
			fd = f(d)
		}
	}
	return (a + b) / 2
}

// step is the largest offset of the panels' mid faces at the seam's ends, where the
// panels lie within 45 degrees of one plane; 0 for corners.
func (l *seamLine) step() float64 {
	n := l.a.frame.Z
	m := l.b.frame.Z
	if math.Abs(n.Dot(m)) < math.Sqrt2/2 {
		return 0
	}
	if n.Dot(m) < 0 {
		m = m.Mul(-1)
	}
	across := n.Add(m).Normalize()
	worst := 0.0
	for _, s := range []float64{l.lo, l.hi} {
		a0, a1 := l.a.at(s, l.t)
		b0, b1 := l.b.at(s, l.t)
		worst = max(worst, math.Abs(a0.Add(a1).Sub(b0).Sub(b1).Dot(across))/2)
	}
	return worst
}
