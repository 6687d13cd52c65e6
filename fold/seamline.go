package fold

// This file places a seam in space and gives the gap at one station of it: kernel.md's
// definition to the letter.

import (
	"cmp"
	"math"
	"slices"

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

	// The other edge's section at the seam's start, in this panel's axes, and how it moves along e, for a mm.
	u, v, w geom.Vec3
	pieces  []seamPiece // that the other edge can be nearest to, nearest first
}

// seamPiece is a convex piece of the panel behind an edge.
type seamPiece struct {
	loop   geom.Loop
	box    geom.Box2
	lo, hi float64 // its extent along e
	apart  float64 // no point of the other edge is nearer
	ends   [2]gapAt
}

// inward is the direction square to the edge into the panel, in space; edges are kept with
// the material on their left.
func (x *seamSide) inward() geom.Vec3 {
	n := geom.Perp(x.q.Sub(x.p)).Normalize()
	return x.frame.Vector(geom.Vec3{n[0], n[1], 0})
}

// lap is a pair of convex pieces, one of each panel, that overlap.
type lap struct {
	a, b   geom.Loop
	lo, hi float64 // the stretch of e on which they do
	depth  float64
}

// seamGauge measures the seams of one pose.
type seamGauge struct {
	Pose
	bodies []*solid.Body // of the panels that were asked for
}

func (ps Pose) gauge() *seamGauge {
	return &seamGauge{ps, make([]*solid.Body, len(ps.Panels))}
}

func (g *seamGauge) placed(panel int) *solid.Placed {
	if g.bodies[panel] == nil {
		g.bodies[panel] = solid.Prisms(g.Part.Panels[panel].Pieces, g.Part.Thickness)
	}
	return g.bodies[panel].Place(g.Panels[panel])
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

// line places seam s; ok is false where the edges share no stretch.
func (g *seamGauge) line(s Seam) (l seamLine, ok bool) {
	p := g.Part
	side := func(panel int, edge [2]geom.Vec2) seamSide {
		return seamSide{frame: g.Panels[panel], p: edge[0], q: edge[1]}
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
	pa, pb := p.Panels[s.A].Pieces, p.Panels[s.B].Pieces
	l.b.keepNear(&l, pb, &l.a)
	l.a.keepNear(&l, pa, &l.b)
	hair := min(10*Weld, (l.hi-l.lo)/4)
	solid.Overlaps(g.placed(s.A), g.placed(s.B), Weld, func(i, j int, depth float64) {
		o := lap{pa[i], pb[j], math.Inf(1), math.Inf(-1), depth}
		l.shared(&o, l.a.frame, o.a, l.b.frame, o.b)
		l.shared(&o, l.b.frame, o.b, l.a.frame, o.a)
		// Square ends lie in the plane of the run's very ends.
		if o.lo < l.lo+hair {
			o.lo = min(o.lo, l.lo)
		}
		if o.hi > l.hi-hair {
			o.hi = max(o.hi, l.hi)
		}
		if o.lo < l.hi && o.hi > l.lo && o.lo <= o.hi {
			l.laps = append(l.laps, o)
		}
	})
	geom.SortStable(l.laps, func(x, y lap) int { return cmp.Compare(y.depth, x.depth) })
	return l, true
}

// shared widens a lap's stretch by what the edges of one piece reach along e inside the other: the corners of what two convex
// bodies share lie on edges of one of them.
func (l *seamLine) shared(o *lap, f geom.Frame, of geom.Loop, g geom.Frame, in geom.Loop) {
	local := func(p geom.Vec2, z float64) geom.Vec3 { return g.LocalPoint(f.Point(geom.Vec3{p[0], p[1], z})) }
	e := g.LocalVector(l.e)
	from := g.O.Dot(l.e)
	edge := func(u, v geom.Vec3) {
		// Edges that run along the other's faces, as those of ends that are flush do, lie within them whatever rounding makes of it.
		size := 0.0
		for k := range 3 {
			size = max(size, math.Abs(u[k]), math.Abs(v[k]))
		}
		if a, b := insidePrism(u, v, in, l.t, flushNoise+0x1p-48*size); a <= b {
			x, y := from+u.Dot(e), from+v.Dot(e)
			p, q := x+(y-x)*a, x+(y-x)*b
			o.lo, o.hi = min(o.lo, p, q), max(o.hi, p, q)
		}
	}
	n := len(of)
	u0, u1 := local(of[n-1], 0), local(of[n-1], l.t)
	for _, q := range of {
		v0, v1 := local(q, 0), local(q, l.t)
		edge(u0, v0)
		edge(u1, v1)
		edge(v0, v1)
		u0, u1 = v0, v1
	}
}

// extent is how far a piece of a panel reaches along e.
func (l *seamLine) extent(f geom.Frame, loop geom.Loop) (lo, hi float64) {
	x, y := f.X.Dot(l.e), f.Y.Dot(l.e)
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range loop {
		k := x*p[0] + y*p[1]
		lo, hi = min(lo, k), max(hi, k)
	}
	o, z := f.O.Dot(l.e), f.Z.Dot(l.e)*l.t
	return lo + o + min(0, z), hi + o + max(0, z)
}

// keepNear keeps the pieces of x's panel that some point of the other side's edge may be nearest
// to. Its distance to one piece is convex along the seam, so the greater of those at the
// seam's ends holds all between.
func (x *seamSide) keepNear(l *seamLine, loops []geom.Loop, other *seamSide) {
	var ends [2][2]geom.Vec3 // the other edge's ends across the thickness, as x's panel has them
	edge := geom.EmptyBox3()
	for k, s := range []float64{l.lo, l.hi} {
		u, v := other.at(s, l.t)
		ends[k] = [2]geom.Vec3{x.frame.LocalPoint(u), x.frame.LocalPoint(v)}
		edge.Add(ends[k][0])
		edge.Add(ends[k][1])
	}
	x.u, x.v = ends[0][0], ends[0][1]
	x.w = ends[1][0].Sub(ends[0][0]).Mul(1 / (l.hi - l.lo))
	all := make([]seamPiece, len(loops))
	for i, loop := range loops {
		q := seamPiece{loop: loop, box: geom.EmptyBox2()}
		for _, p := range loop {
			q.box.Add(p)
		}
		q.apart = boxesApart(edge, q.box, l.t)
		all[i] = q
	}
	geom.SortStable(all, func(p, q seamPiece) int { return cmp.Compare(p.apart, q.apart) })
	within := math.Inf(1)
	for _, q := range all {
		if q.apart > within {
			break
		}
		d := 0.0
		for k, e := range ends {
			q.ends[k] = gapSlope(x.w, e[0], e[1], q.loop, l.t)
			d = max(d, q.ends[k].d)
		}
		within = min(within, d)
		q.lo, q.hi = l.extent(x.frame, q.loop)
		x.pieces = append(x.pieces, q)
	}
	x.pieces = slices.DeleteFunc(x.pieces, func(q seamPiece) bool { return q.apart > within })
}

// gap is the clear distance at s, or minus the depth where the panels lie in each
// other, and the nearest points (on A's panel, on B's).
func (l *seamLine) gap(s float64) (float64, geom.Vec3, geom.Vec3) {
	a0, a1 := l.a.at(s, l.t)
	b0, b1 := l.b.at(s, l.t)
	d, pa, pb := l.b.distance(a0, a1, s, l)
	d2, qb, qa := l.a.distance(b0, b1, s, l)
	if d2 < d {
		d, pa, pb = d2, qa, qb
	}
	for _, o := range l.laps { // deepest first
		if s >= o.lo && s <= o.hi {
			return -o.depth, pa, pb
		}
	}
	return d, pa, pb
}

// distance is from the other edge's segment u-v at s to the panel of x: the nearest
// points on the segment and on the panel.
func (x *seamSide) distance(u, v geom.Vec3, s float64, l *seamLine) (float64, geom.Vec3, geom.Vec3) {
	lu, lv := x.frame.LocalPoint(u), x.frame.LocalPoint(v)
	lean := math.Abs(v.Sub(u).Dot(l.e)) / 2
	box := geom.EmptyBox3()
	box.Add(lu)
	box.Add(lv)
	best := math.Inf(1)
	var on, near geom.Vec3
	for i := range x.pieces {
		p := &x.pieces[i]
		if p.apart >= best {
			break
		}
		if max(p.lo-s, s-p.hi)-lean >= best || boxesApart(box, p.box, l.t) >= best {
			continue
		}
		if d, a, b := segmentToPrism(lu, lv, p.loop, l.t); d < best {
			best, on, near = d, a, b
		}
	}
	return best, x.frame.Point(on), x.frame.Point(near)
}

// boxesApart is the distance of a box to a flat one with z 0..t.
func boxesApart(a geom.Box3, b geom.Box2, t float64) float64 {
	dx := max(0, b.Min[0]-a.Max[0], a.Min[0]-b.Max[0])
	dy := max(0, b.Min[1]-a.Max[1], a.Min[1]-b.Max[1])
	dz := max(0, -a.Max[2], a.Min[2]-t)
	return math.Sqrt(dx*dx + dy*dy + dz*dz)
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
	if in, out := insidePrism(u, v, l, t, 0); in <= out {
		d := v.Sub(u)
		p := u.Add(d.Mul((in + out) / 2))
		return 0, p, p
	}
	// The nearest point of the prism lies on a face that looks towards the segment's.
	uq, vq := geom.Vec2{u[0], u[1]}, geom.Vec2{v[0], v[1]}
	nu, nv := uq, vq // nearest to the segment's ends
	fu, fv := math.Inf(1), math.Inf(1)
	for i, a := range l {
		b := l[(i+1)%len(l)]
		e := b.Sub(a)
		outU, outV := geom.Cross2(e, uq.Sub(a)) < 0, geom.Cross2(e, vq.Sub(a)) < 0
		if !outU && !outV {
			continue
		}
		for _, x := range []struct {
			out  bool
			q    geom.Vec2
			far  *float64
			near *geom.Vec2
		}{{outU, uq, &fu, &nu}, {outV, vq, &fv, &nv}} {
			if !x.out {
				continue
			}
			if d, k := geom.SegmentDistance(x.q, a, b); d < *x.far {
				*x.far, *x.near = d, a.Add(e.Mul(k))
			}
		}
	}
	try(u, geom.Vec3{nu[0], nu[1], max(0, min(t, u[2]))})
	try(v, geom.Vec3{nv[0], nv[1], max(0, min(t, v[2]))})
	lo, hi := geom.Vec2{min(uq[0], vq[0]), min(uq[1], vq[1])}, geom.Vec2{max(uq[0], vq[0]), max(uq[1], vq[1])}
	for i, a := range l {
		b := l[(i+1)%len(l)]
		// An edge whose box lies further off than what is found already can't be nearer.
		dx := max(0, min(a[0], b[0])-hi[0], lo[0]-max(a[0], b[0]))
		dy := max(0, min(a[1], b[1])-hi[1], lo[1]-max(a[1], b[1]))
		if dx*dx+dy*dy > best*best {
			continue
		}
		e := b.Sub(a)
		off := max(geom.Cross2(e, uq.Sub(a)), geom.Cross2(e, vq.Sub(a))) // under 0: all of the segment lies outside the edge's line
		if off < 0 && off*off > best*best*e.Dot(e) {
			continue
		}
		if off >= 0 && geom.Cross2(e, uq.Sub(a)) >= 0 && geom.Cross2(e, vq.Sub(a)) >= 0 {
			continue
		}
		a0, b0 := geom.Vec3{a[0], a[1], 0}, geom.Vec3{b[0], b[1], 0}
		a1, b1 := geom.Vec3{a[0], a[1], t}, geom.Vec3{b[0], b[1], t}
		try(solid.Segments(u, v, a0, b0))
		try(solid.Segments(u, v, a1, b1))
		try(solid.Segments(u, v, a0, a1))
		try(solid.Segments(u, v, b0, b1))
	}
	return best, on, near
}

// insidePrism is the stretch of the segment u-v inside the prism over the convex loop, z 0..t, as parameters 0 to 1; in over
// out where there is none. A segment whose ends lie within noise of a face, and of each other across it, is inside that face.
func insidePrism(u, v geom.Vec3, l geom.Loop, t, noise float64) (in, out float64) {
	in, out = 0, 1
	d := v.Sub(u)
	clip := func(at, slope, noise float64) { // keep at + slope*k >= 0
		switch {
		case slope > noise:
			in = max(in, -at/slope)
		case slope < -noise:
			out = min(out, -at/slope)
		case at < -noise:
			in, out = 1, 0
		}
	}
	clip(u[2], d[2], noise)
	clip(t-u[2], -d[2], noise)
	for i, a := range l {
		e := l[(i+1)%len(l)].Sub(a)
		n := 0.0
		if noise > 0 {
			n = noise * e.Len()
		}
		clip(geom.Cross2(e, geom.Vec2{u[0] - a[0], u[1] - a[1]}), geom.Cross2(e, geom.Vec2{d[0], d[1]}), n)
	}
	return in, out
}

// flushNoise: an edge that is so near to the plane of a face at both ends runs along it (mm); a hundred times what rounding makes of a
// part of some metres.
const flushNoise = 1e-9

func spanAlong(ps []geom.Vec2, n geom.Vec2) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range ps {
		lo, hi = min(lo, p.Dot(n)), max(hi, p.Dot(n))
	}
	return lo, hi
}
