package solid

import (
	"math"

	"dryfold/fold/geom"
)

// Contact says how two bodies a and b lie to each other.
type Contact struct {
	// D is the least distance where they are apart; where they overlap, minus the
	// length of the shortest move of one of them that parts them.
	D float64
	// A and B are nearest points of a and b. Where they overlap, points whose
	// difference is D*N: the move of a by -D*N brings them together.
	A, B geom.Vec3
	// N is the unit direction from b towards a: along it (and against it, seen from b)
	// the bodies part the fastest. The slab between them across N is D wide.
	N geom.Vec3
}

// Distance is the signed distance of two convex bodies, right to certified (limits.go) and rounding
// where they are apart, and to rounding where they overlap. Bodies that hold nothing - flat ones in one
// plane, needles, points - are never less than nothing apart.
//
// The answer of the quick iteration is taken only with its certificate: a pair of
// points gives a distance not less than the true one, the slab across their direction one not
// greater. Where the two differ, and where the bodies overlap, face normals and
// edge pairs are gone through one by one, and at last all features.
func Distance(a, b *Convex) Contact {
	var s simplex
	c, ok := s.iterate(a, b, math.Inf(1))
	if ok {
		return c
	}
	w := s.widest(a, b, math.Inf(1))
	if c, ok := s.apart(a, b, c, w); ok {
		return c
	}
	w.A, w.B = inward(a, b, w)
	return w
}

// apart is the distance of bodies that are apart, given their widest slab w and the simplex and near points c that the
// iteration ended with; false where they overlap. Of the directions at hand it keeps the one with the widest slab.
func (s *simplex) apart(a, b *Convex, c, w Contact) (Contact, bool) {
	least := certain(a, b)
	if w.D < -least {
		return w, false
	}
	if s.n == 4 {
		c = s.overlap(a, b)
	}
	if w.D <= 0 && c.D <= least {
		return w, false
	}
	last := c.N
	if c.D-w.D > least {
		c = features(a, b)
	}
	if w.D <= 0 && c.D <= least { // else flat bodies in one plane, beside each other
		return w, false
	}
	best := math.Inf(-1)
	for _, n := range [3]geom.Vec3{w.N, c.N, last} {
		if gap, _, _ := slab(a, b, n); gap > best && n != (geom.Vec3{}) {
			best, c.N = gap, n
		}
	}
	return c, true
}

// Nearer is Distance if that is under limit, and false if it is not, which is
// often told the sooner. Where the bodies overlap, the points A and B are left out.
func Nearer(a, b *Convex, limit float64) (Contact, bool) {
	if a.Centre.Sub(b.Centre).Len()-a.Radius-b.Radius >= limit {
		return Contact{}, false
	}
	var s simplex
	c := Contact{D: math.Inf(1)}
	if limit > 0 {
		var ok bool
		if c, ok = s.iterate(a, b, limit); ok {
			return c, c.D < limit
		}
	}
	w := s.widest(a, b, limit)
	if limit > 0 && w.D < limit {
		w, _ = s.apart(a, b, c, w)
	}
	return w, w.D < limit
}

// inward finds points A and B, D*N apart, where bodies overlap: on the face of the one a
// corner of the other, or on an edge of each. Where the slab's N is not the one and only, but next to
// another, they are sought among all features of the bodies as N parts them.
func inward(a, b *Convex, c Contact) (geom.Vec3, geom.Vec3) {
	_, ia, ib := slab(a, b, c.N)
	shift := c.N.Mul(c.D)
	pa := a.Points[ia]
	if pb := pa.Sub(shift); nearFace(b, pb) {
		return pa, pb
	}
	pb := b.Points[ib]
	if pa := pb.Add(shift); nearFace(a, pa) {
		return pa, pb
	}
	pa, pb, off := passing(a, b, c)
	if off <= onFace*(size(a)+size(b)) {
		return pa, pb
	}
	parted := *a
	parted.Points = make([]geom.Vec3, len(a.Points))
	for i := range a.Points {
		parted.Points[i] = a.Points[i].Sub(shift)
	}
	d := features(&parted, b)
	return d.A.Add(shift), d.B
}

// size is a bound of a body's coordinates.
func size(c *Convex) float64 { return c.Centre.Len() + c.Radius }

// nearFace: p lies in the body to within rounding.
func nearFace(c *Convex, p geom.Vec3) bool {
	v, tol := unpack(&p), onFace*size(c)
	for i := 0; ; i++ {
		f := c.face(i)
		if f == nil {
			return true
		}
		n := unpack(f)
		lo, hi := c.reach(n)
		if d := n.dot(v); d > hi+tol || d < lo-tol {
			return false
		}
	}
}

// passing finds the nearest pair of points of edges that lie in the two faces of a slab, and how far they are
// from being D*N apart.
func passing(a, b *Convex, c Contact) (pa, pb geom.Vec3, off float64) {
	la, _ := a.Support(c.N.Mul(-1))
	lb, _ := b.Support(c.N)
	tol := inPlane * (1 + a.Radius + b.Radius)
	off = math.Inf(1)
	shift := c.N.Mul(c.D)
	for _, e := range a.Edges {
		p, q := a.Points[e[0]], a.Points[e[1]]
		if -la+tol < c.N.Dot(p) || -la+tol < c.N.Dot(q) {
			continue
		}
		for _, g := range b.Edges {
			r, s := b.Points[g[0]], b.Points[g[1]]
			if c.N.Dot(r) < lb-tol || c.N.Dot(s) < lb-tol {
				continue
			}
			x, y := Segments(p, q, r.Add(shift), s.Add(shift))
			if d := x.Sub(y).Len(); d < off {
				off, pa, pb = d, x, y.Sub(shift)
			}
		}
	}
	return pa, pb, off
}
