package solid

import "math"

// mink is a corner of the Minkowski difference a - b, with the corners it comes
// from, and its weight in the point nearest to the origin.
type mink struct {
	p      xyz
	ia, ib int
	w      float64
}

// simplex is a point, segment, triangle or tetrahedron of such corners, the newest last.
type simplex struct {
	n int
	c [4]mink
}

func (s *simplex) holds(ia, ib int) bool {
	for i := range s.n {
		if s.c[i].ia == ia && s.c[i].ib == ib {
			return true
		}
	}
	return false
}

// overlap is a point that both bodies hold, of a tetrahedron that holds the origin: as a contact whose
// D is by how much it is missed.
func (s *simplex) overlap(a, b *Convex) Contact {
	p := s.c[3].p
	e, g, h := s.c[0].p.sub(p), s.c[1].p.sub(p), s.c[2].p.sub(p)
	r := -1 / e.cross(g).dot(h)
	w := [4]float64{p.dot(g.cross(h)) * r, p.dot(h.cross(e)) * r, p.dot(e.cross(g)) * r, 0}
	left := 1.0
	for i := range w {
		w[i] = max(0, min(left, w[i]))
		left -= w[i]
		s.c[i].w = w[i]
	}
	s.c[3].w = left
	return s.pair(a, b)
}

// pair is the simplex's nearest points, without a direction.
func (s *simplex) pair(a, b *Convex) Contact {
	var pa, pb xyz
	for i := range s.n {
		c := &s.c[i]
		pa = pa.add(unpack(&a.Points[c.ia]).mul(c.w))
		pb = pb.add(unpack(&b.Points[c.ib]).mul(c.w))
	}
	d := pa.sub(pb)
	return Contact{D: math.Sqrt(d.dot(d)), A: pa.pack(), B: pb.pack()}
}

// foot is the point of a simplex nearest to the origin.
type foot struct {
	d2  float64 // its distance, squared
	dir xyz     // from the origin to it, of any length; a face's normal even where it is next to none
	n   int     // the corners that it is made of
	i   [3]int
	w   [3]float64 // their weights
}

// nearest sets f: to nothing (f.n is 0) where the origin lies in a tetrahedron.
func (s *simplex) nearest(f *foot) {
	f.n, f.d2 = 0, math.Inf(1)
	switch s.n {
	case 1:
		s.corner(0, f)
	case 2:
		s.edge(1, 0, f)
	case 3:
		s.triangle(2, 1, 0, f)
	case 4:
		// The origin lies on the new corner's side of the old triangle.
		p := s.c[3].p
		e, g, h := s.c[0].p.sub(p), s.c[1].p.sub(p), s.c[2].p.sub(p)
		eg, gh, he := e.cross(g), g.cross(h), h.cross(e)
		vol := eg.dot(h)
		side := 1.0
		if vol < 0 {
			side = -1
		}
		// Faces that the origin is outside of. Flat tetrahedra have no inside.
		if p.dot(eg)*side > 0 || vol == 0 {
			s.triangle(3, 0, 1, f)
		}
		if p.dot(gh)*side > 0 || vol == 0 {
			s.triangle(3, 1, 2, f)
		}
		if p.dot(he)*side > 0 || vol == 0 {
			s.triangle(3, 2, 0, f)
		}
	}
}

// corner, edge and triangle set f to their foot if it is nearer.
func (s *simplex) corner(i int, f *foot) {
	p := s.c[i].p
	if d2 := p.dot(p); d2 < f.d2 {
		f.d2, f.dir, f.n, f.i[0], f.w[0] = d2, p, 1, i, 1
	}
}

func (s *simplex) edge(i, j int, f *foot) {
	p, q := s.c[i].p, s.c[j].p
	e := q.sub(p)
	t, u := -p.dot(e), q.dot(e) // what is before the foot and what after, times the length
	if !(t > 0) {
		s.corner(i, f)
		return
	}
	if !(u > 0) {
		s.corner(j, f)
		return
	}
	if t > u { // from the nearer end: less is lost
		i, j, p, t, e = j, i, q, u, e.mul(-1)
	}
	r := 1 / e.dot(e)
	t *= r
	v := p.add(e.mul(t))
	v = v.sub(e.mul(v.dot(e) * r)) // once more: square to the edge even where it is short
	if d2 := v.dot(v); d2 < f.d2 {
		f.d2, f.dir, f.n = d2, v, 2
		f.i[0], f.i[1], f.w[0], f.w[1] = i, j, 1-t, t
	}
}

func (s *simplex) triangle(i, j, k int, f *foot) {
	p := s.c[i].p
	e, g := s.c[j].p.sub(p), s.c[k].p.sub(p)
	e2, g2 := e.dot(e), g.dot(g)
	if e2 < g2 {
		j, k, e, g, e2 = k, j, g, e, g2
	}
	// From the longer side e and the height h on it: the normal of a sliver is then as square to e as
	// that of any other.
	re := 1 / e2
	t := g.dot(e) * re
	h := g.sub(e.mul(t))
	h2 := h.dot(h)
	if h2 < thin*e2 {
		h = h.sub(e.mul(h.dot(e) * re))
		h2 = h.dot(h)
	}
	// Weights of k and j.
	v := -p.dot(h) / h2
	u := -p.dot(e)*re - v*t
	if u > 0 && v > 0 && u+v < 1 {
		n := e.cross(h)
		nn, d := n.dot(n), n.dot(p)
		if d2 := d * d / nn; d2 < f.d2 {
			if d < 0 {
				n = n.mul(-1)
			}
			f.d2, f.dir, f.n = d2, n, 3
			f.i[0], f.i[1], f.i[2] = i, j, k
			f.w[0], f.w[1], f.w[2] = 1-u-v, u, v
		}
		return
	}
	if !(v > 0) {
		s.edge(i, j, f)
	}
	if !(u > 0) {
		s.edge(i, k, f)
	}
	if !(u+v < 1) {
		s.edge(j, k, f)
	}
}

// keep leaves nothing of the simplex but the foot's corners.
func (s *simplex) keep(f *foot) {
	var c [3]mink
	for i := range f.n {
		c[i] = s.c[f.i[i]&3]
		c[i].w = f.w[i]
	}
	for i := range f.n {
		s.c[i] = c[i]
	}
	s.n = f.n
}
