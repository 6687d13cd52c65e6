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

// Distance is the signed distance of two convex bodies, right to certified (limits.go)
// where they are apart, and to rounding where they overlap.
//
// The answer of the quick iteration is taken only with its certificate: a pair of
// points gives a distance not less than the true one, the slab across their direction one not
// greater. Where the two differ, and where the bodies overlap, face normals and
// edge pairs are gone through one by one.
func Distance(a, b *Convex) Contact {
	if c, ok := iterate(a, b, math.Inf(1)); ok {
		return c
	}
	c := widest(a, b, math.Inf(1))
	if c.D <= 0 {
		c.A, c.B = inward(a, b, c)
		return c
	}
	return apart(a, b, c)
}

// apart is the distance of bodies whose widest slab w is wider than nothing. Where they are so close
// that their nearest points give no direction, the slab's is kept.
func apart(a, b *Convex, w Contact) Contact {
	c := features(a, b)
	if gap, _, _ := slab(a, b, c.N); c.D == 0 || gap < w.D {
		c.N = w.N
	}
	return c
}

// Nearer is Distance if that is under limit, and false if it is not, which is
// often told the sooner. Where the bodies overlap, the points A and B are left out.
func Nearer(a, b *Convex, limit float64) (Contact, bool) {
	if a.Centre.Sub(b.Centre).Len()-a.Radius-b.Radius >= limit {
		return Contact{}, false
	}
	if limit > 0 {
		if c, ok := iterate(a, b, limit); ok {
			return c, c.D < limit
		}
	}
	c := widest(a, b, limit)
	if c.D >= limit {
		return c, false
	}
	if c.D > 0 {
		c = apart(a, b, c)
	}
	return c, c.D < limit
}

// slab is the width of the gap between a and b across n, negative where their
// shadows on n overlap, with n from b towards a.
func slab(a, b *Convex, n geom.Vec3) (gap float64, ia, ib int) {
	ra, ia := a.Support(n.Mul(-1))
	rb, ib := b.Support(n)
	return -ra - rb, ia, ib
}

// widest is the widest slab between the bodies over the normals of the faces of
// their Minkowski difference: the faces of both, and the planes of an edge of each. It
// is exact where they overlap; where they are apart it is a lower bound.
// It stops at the first slab of limit or more.
func widest(a, b *Convex, limit float64) Contact {
	best := Contact{D: math.Inf(-1)}
	slabs(a, b, func() float64 { return best.D }, func(d float64, n geom.Vec3) bool {
		best.D, best.N = d, n
		return d < limit
	})
	return best
}

// slabs calls try with every slab wider than over() between the bodies, until it returns
// false: across the faces of both, and across the planes of an edge of each.
func slabs(a, b *Convex, over func() float64, try func(d float64, n geom.Vec3) bool) {
	for k, normals := range [2][]geom.Vec3{a.Normals, b.Normals} {
		for _, n := range normals {
			if k == 0 {
				n = n.Mul(-1)
			}
			if d, _, _ := slab(a, b, n); d > over() && !try(d, n) {
				return
			}
		}
	}
	for _, d := range a.Dirs {
		for _, e := range b.Dirs {
			n := d.Cross(e)
			l := n.Len()
			if l < parallel {
				continue
			}
			n = n.Mul(1 / l)
			if l < 0.1 { // made square to d again, for edges that are nearly parallel
				n = n.Sub(d.Mul(n.Dot(d))).Normalize()
			}
			// The gap from one side and from the other.
			alo, ahi := a.reach(unpack(&n))
			blo, bhi := b.reach(unpack(&n))
			if up := alo - bhi; up > over() && !try(up, n) {
				return
			}
			if down := blo - ahi; down > over() && !try(down, n.Mul(-1)) {
				return
			}
		}
	}
}

// inward finds points A and B, D*N apart, where bodies overlap: on the face of the one a
// corner of the other, or on an edge of each.
func inward(a, b *Convex, c Contact) (geom.Vec3, geom.Vec3) {
	_, ia, ib := slab(a, b, c.N)
	pa := a.Points[ia]
	if pb := pa.Sub(c.N.Mul(c.D)); nearFace(b, pb) {
		return pa, pb
	}
	pb := b.Points[ib]
	if pa := pb.Add(c.N.Mul(c.D)); nearFace(a, pa) {
		return pa, pb
	}
	return passing(a, b, c)
}

// nearFace: p lies in the body to within rounding of its size.
func nearFace(c *Convex, p geom.Vec3) bool {
	for _, n := range c.Normals {
		r, _ := c.Support(n)
		if n.Dot(p) > r+1e-9*(1+c.Radius) {
			return false
		}
	}
	return true
}

// passing finds the nearest pair of points of edges that lie in the two faces of a slab.
func passing(a, b *Convex, c Contact) (geom.Vec3, geom.Vec3) {
	la, _ := a.Support(c.N.Mul(-1))
	lb, _ := b.Support(c.N)
	tol := 1e-9 * (1 + a.Radius + b.Radius)
	best := math.Inf(1)
	pa, pb := a.Points[0], b.Points[0]
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
			if d := x.Sub(y).Len(); d < best {
				best, pa, pb = d, x, y.Sub(shift)
			}
		}
	}
	return pa, pb
}
