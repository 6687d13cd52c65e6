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

// onTriangle is the point of the triangle nearest to p (Ericson, "Real-Time
// Collision Detection", 5.1.5, from memory). A triangle without area is taken by its sides.
func onTriangle(p, a, b, c geom.Vec3) geom.Vec3 {
	ab, ac, ap := b.Sub(a), c.Sub(a), p.Sub(a)
	d1, d2 := ab.Dot(ap), ac.Dot(ap)
	if d1 <= 0 && d2 <= 0 {
		return a
	}
	bp := p.Sub(b)
	d3, d4 := ab.Dot(bp), ac.Dot(bp)
	if d3 >= 0 && d4 <= d3 {
		return b
	}
	vc := d1*d4 - d3*d2
	if vc <= 0 && d1 >= 0 && d3 <= 0 {
		return onSegment(p, a, b)
	}
	cp := p.Sub(c)
	d5, d6 := ab.Dot(cp), ac.Dot(cp)
	if d6 >= 0 && d5 <= d6 {
		return c
	}
	vb := d5*d2 - d1*d6
	if vb <= 0 && d2 >= 0 && d6 <= 0 {
		return onSegment(p, a, c)
	}
	va := d3*d6 - d5*d4
	if va <= 0 && d4-d3 >= 0 && d5-d6 >= 0 {
		return onSegment(p, b, c)
	}
	n := ab.Cross(ac)
	l := n.Len()
	if l == 0 {
		return onSegment(p, b, c)
	}
	n = n.Mul(1 / l)
	return p.Sub(n.Mul(n.Dot(ap)))
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
	u, v, w := q.Sub(p), s.Sub(r), p.Sub(r)
	a, b, c, d, e := u.Dot(u), u.Dot(v), v.Dot(v), u.Dot(w), v.Dot(w)
	den := a*c - b*b
	if den > crossing*a*c { // where their lines are nearest, if both hold that place
		if t, k := (b*e-c*d)/den, (a*e-b*d)/den; t >= 0 && t <= 1 && k >= 0 && k <= 1 {
			return p.Add(u.Mul(t)), r.Add(v.Mul(k))
		}
	}
	x, y := p, onSegment(p, r, s)
	best := x.Sub(y)
	take := func(i, j geom.Vec3) {
		if k := i.Sub(j); k.Dot(k) < best.Dot(best) {
			best, x, y = k, i, j
		}
	}
	take(q, onSegment(q, r, s))
	take(onSegment(r, p, q), r)
	take(onSegment(s, p, q), s)
	if den > 0 {
		t := max(0, min(1, (b*e-c*d)/den))
		i := p.Add(u.Mul(t))
		take(i, onSegment(i, r, s))
		j := onSegment(i, r, s)
		take(onSegment(j, p, q), j)
	}
	return x, y
}
