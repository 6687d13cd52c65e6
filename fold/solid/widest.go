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
	i, j int // j is -1 at the end
}

// next is the next of them; false after the last.
func (s *normals) next() (xyz, bool) {
	if s.j >= 0 && s.j < 2 { // first the faces: j says whose
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
	if s.j >= 0 && len(s.a.Dirs) < 2 && len(s.b.Dirs) < 2 {
		s.j = -1
		return s.aside(), true
	}
	return xyz{}, false
}

// aside is square to both of two needles or points, which have no faces there.
func (s *normals) aside() xyz {
	var d xyz
	switch {
	case len(s.a.Dirs) > 0:
		d = unpack(&s.a.Dirs[0])
	case len(s.b.Dirs) > 0:
		d = unpack(&s.b.Dirs[0])
	default:
		return xyz{1, 0, 0}
	}
	n := d.cross(xyz{1, 0, 0})
	if n.dot(n) < 0.1 {
		n = d.cross(xyz{0, 1, 0})
	}
	return n.mul(1 / math.Sqrt(n.dot(n)))
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
	var s simplex
	return s.widest(a, b, limit)
}

// widest as above. A slab is no wider than the simplex's corners leave it, which are corners of the Minkowski
// difference: most need no further look.
func (s *simplex) widest(a, b *Convex, limit float64) Contact {
	best, at := math.Inf(-1), xyz{}
	w := s.c
	for i := s.n; i < 4; i++ {
		w[i] = w[0]
	}
	all := normals{a: a, b: b}
	for n, ok := all.next(); ok && best < limit; n, ok = all.next() {
		if s.n > 0 {
			d0, d1, d2, d3 := n.dot(w[0].p), n.dot(w[1].p), n.dot(w[2].p), n.dot(w[3].p)
			if min(d0, d1, d2, d3) <= best && -max(d0, d1, d2, d3) <= best {
				continue
			}
		}
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
