package solid

import (
	"math"

	"dryfold/fold/geom"
)

// features is the distance of two bodies that are apart, by every corner against
// every face and every edge against every edge: slow, and plainly right. It is the
// twin that iterate is tested against, and steps in where iterate is not certain. N is zero
// where they touch.
func features(a, b *Convex) Contact {
	best := math.Inf(1)
	var out Contact
	take := func(p, q geom.Vec3) {
		d := p.Sub(q)
		if d2 := d.Dot(d); d2 < best {
			best = d2
			out.A, out.B = p, q
		}
	}
	for _, t := range b.Tris {
		for _, p := range a.Points {
			take(p, onTriangle(p, b.Points[t[0]], b.Points[t[1]], b.Points[t[2]]))
		}
	}
	for _, t := range a.Tris {
		for _, p := range b.Points {
			take(onTriangle(p, a.Points[t[0]], a.Points[t[1]], a.Points[t[2]]), p)
		}
	}
	for _, e := range a.Edges {
		for _, g := range b.Edges {
			take(Segments(a.Points[e[0]], a.Points[e[1]], b.Points[g[0]], b.Points[g[1]]))
		}
	}
	if len(a.Edges) == 0 && len(b.Edges) == 0 { // two points
		take(a.Points[0], b.Points[0])
	}
	d := out.A.Sub(out.B)
	out.D = d.Len()
	if out.D > 0 {
		out.N = d.Mul(1 / out.D)
	}
	return out
}

// onTriangle is the point of the triangle nearest to p: its foot where that lies inside, by the
// longer side from a and the height on it, else the nearest on its sides.
func onTriangle(p, a, b, c geom.Vec3) geom.Vec3 {
	o := unpack(&a)
	e, g, q := unpack(&b).sub(o), unpack(&c).sub(o), unpack(&p).sub(o)
	if e.dot(e) < g.dot(g) {
		e, g = g, e
	}
	h, t := square(g, e)
	q, u := square(q, e)
	v := q.dot(h) / h.dot(h)
	u -= v * t
	if u > 0 && v > 0 && u+v < 1 {
		return o.add(e.mul(u)).add(g.mul(v)).pack()
	}
	best, d := onSegment(p, a, b), math.Inf(1)
	for _, x := range [3]geom.Vec3{best, onSegment(p, b, c), onSegment(p, a, c)} {
		y := x.Sub(p)
		if l := y.Dot(y); l < d {
			best, d = x, l
		}
	}
	return best
}

// square is g less its part along e, which is t times e. Twice over, so that also what is left of a g next to
// parallel is square to e to within rounding.
func square(g, e xyz) (h xyz, t float64) {
	r := 1 / e.dot(e)
	t = g.dot(e) * r
	h = g.sub(e.mul(t))
	k := h.dot(e) * r
	return h.sub(e.mul(k)), t + k
}

func onSegment(p, a, b geom.Vec3) geom.Vec3 {
	ab := b.Sub(a)
	l2 := ab.Dot(ab)
	if l2 == 0 {
		return a
	}
	return a.Add(ab.Mul(max(0, min(1, p.Sub(a).Dot(ab)/l2))))
}

// Segments gives the nearest points of segments p-q and r-s. Where they are
// parallel any nearest pair will do.
func Segments(p, q, r, s geom.Vec3) (geom.Vec3, geom.Vec3) {
	u, v, w := unpack(&q).sub(unpack(&p)), unpack(&s).sub(unpack(&r)), unpack(&r).sub(unpack(&p))
	// Where their lines are nearest: at x of p-q and y of r-s.
	h, t := square(v, u)
	w, x := square(w, u)
	h2 := h.dot(h)
	y := -w.dot(h) / h2
	x += y * t
	inside := x >= 0 && x <= 1 && y >= 0 && y <= 1 // not so where they have no length or no angle
	i, j := p, r
	best := math.Inf(1)
	take := func(k, l geom.Vec3) {
		m := k.Sub(l)
		if d := m.Dot(m); d < best {
			best, i, j = d, k, l
		}
	}
	if inside {
		take(p.Add(u.mul(x).pack()), r.Add(v.mul(y).pack()))
		if h2 > crossing*v.dot(v) {
			return i, j
		}
	}
	take(p, onSegment(p, r, s))
	take(q, onSegment(q, r, s))
	take(onSegment(r, p, q), r)
	take(onSegment(s, p, q), s)
	return i, j
}
