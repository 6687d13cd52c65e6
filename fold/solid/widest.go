package solid

import (
	"math"

	"dryfold/fold/geom"
)

// This file measures slabs: the gaps between two bodies across one direction.

// slab is the width of the gap between a and b across n, negative where their
// shadows on n overlap, with n from b towards a.
func slab(a, b *Convex, n geom.Vec3) (gap float64, ia, ib int) {
	v := unpack(&n)
	ia, ib = a.far(v.mul(-1)), b.far(v)
	return v.along(&a.Points[ia]) - v.along(&b.Points[ib]), ia, ib
}

// normals goes through the unit normals of the faces of the Minkowski difference a - b, but for
// their signs: those of the faces of a, of b, and of the planes of an edge of each.
type normals struct {
	a, b *Convex
	i, j int
}

// next is the next of them; false after the last.
func (s *normals) next() (xyz, bool) {
	if s.j < 2 { // first the faces: j says whose
		c := s.a
		if s.j == 1 {
			c = s.b
		}
		if n := c.face(s.i); n != nil {
			s.i++
			return unpack(n), true
		}
		s.i = 0
		if s.j++; s.j < 2 {
			return s.next()
		}
	}
	for ; s.i < len(s.a.Dirs); s.i, s.j = s.i+1, 2 { // then the edges: i of a, j-2 of b
		d := unpack(&s.a.Dirs[s.i])
		for s.j-2 < len(s.b.Dirs) {
			e := unpack(&s.b.Dirs[s.j-2])
			s.j++
			n := d.cross(e)
			l := n.dot(n)
			if l < parallel*parallel {
				continue
			}
			n = n.mul(1 / math.Sqrt(l))
			if l < 0.01 { // made square to d again, for edges that are nearly parallel
				n = n.sub(d.mul(n.dot(d)))
				n = n.mul(1 / math.Sqrt(n.dot(n)))
			}
			return n, true
		}
	}
	return xyz{}, false
}

// face is the normal of a face, without those that are another's but for the sign where that
// is known; nil after the last.
func (c *Convex) face(i int) *geom.Vec3 {
	if c.across != nil {
		if i >= len(c.across) {
			return nil
		}
		i = int(c.across[i])
	}
	if i >= len(c.Normals) {
		return nil
	}
	return &c.Normals[i]
}

// widest is the widest slab between the bodies over the normals of the faces of
// their Minkowski difference. It is exact where they overlap; where they are apart it is a
// lower bound. It stops at the first slab of limit or more.
func widest(a, b *Convex, limit float64) Contact {
	best, at := math.Inf(-1), xyz{}
	s := normals{a: a, b: b}
	for n, ok := s.next(); ok && best < limit; n, ok = s.next() {
		alo, ahi := a.reach(n)
		blo, bhi := b.reach(n)
		if up := alo - bhi; up > best {
			best, at = up, n
		}
		if down := blo - ahi; down > best {
			best, at = down, n.mul(-1)
		}
	}
	return Contact{D: best, N: at.pack()}
}

// slabs calls try with every slab wider than over() between the bodies, until it returns
// false: across the faces of both, and across the planes of an edge of each.
func slabs(a, b *Convex, over func() float64, try func(d float64, n geom.Vec3) bool) {
	s := normals{a: a, b: b}
	for n, ok := s.next(); ok; n, ok = s.next() {
		alo, ahi := a.reach(n)
		blo, bhi := b.reach(n)
		if up := alo - bhi; up > over() && !try(up, n.pack()) {
			return
		}
		if down := blo - ahi; down > over() && !try(down, n.mul(-1).pack()) {
			return
		}
	}
}
