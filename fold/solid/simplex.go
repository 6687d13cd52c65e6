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
	l2, t := e.dot(e), -p.dot(e)
	if !(t > 0) {
		s.corner(i, f)
		return
	}
	if !(t < l2) {
		s.corner(j, f)
		return
	}
	r := 1 / l2
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
	n := e.cross(g)
	nn := n.dot(n)
	// Weights of j and k, times nn.
	u, v := g.cross(p).dot(n), p.cross(e).dot(n)
	if u > 0 && v > 0 && u+v < nn {
		r := 1 / nn
		h := n.dot(p)
		if d2 := h * h * r; d2 < f.d2 {
			if h < 0 {
				n = n.mul(-1)
			}
			u, v = u*r, v*r
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
	if !(u+v < nn) {
		s.edge(j, k, f)
	}
}

// keep leaves nothing of the simplex but the foot's corners.
func (s *simplex) keep(f *foot) {
	var c [3]mink
	for i := range f.n {
		c[i] = s.c[f.i[i]]
		c[i].w = f.w[i]
	}
	copy(s.c[:], c[:f.n])
	s.n = f.n
}
