package solid

import (
	"math"

	"dryfold/fold/geom"
)

// simplex holds up to four points of the Minkowski difference a - b, with the
// corners they come from and the weights of the point nearest to the origin.
type simplex struct {
	n      int
	p      [4]geom.Vec3
	ia, ib [4]int
	w      [4]float64
}

// iterate is the distance by Gilbert, Johnson and Keerthi's iteration (1988, from
// memory). ok only with a certificate: either the nearest points found and the slab
// across them agree to certified, or the slab is at least limit wide (then D is the
// slab's width, not the distance).
func iterate(a, b *Convex, limit float64) (Contact, bool) {
	var s simplex
	v := a.Centre.Sub(b.Centre)
	if v.Dot(v) == 0 {
		v = geom.Vec3{1, 0, 0}
	}
	const most = 40
	for k := 0; ; k++ {
		l := v.Len()
		if !(l > certified) {
			return Contact{}, false
		}
		n := v.Mul(1 / l)
		gap, ia, ib := slab(a, b, n)
		if gap >= limit {
			return Contact{D: gap, A: a.Points[ia], B: b.Points[ib], N: n}, true
		}
		if k > 0 && l-gap <= certified {
			pa, pb := s.points(a, b)
			return Contact{D: l, A: pa, B: pb, N: n}, true
		}
		if k == most {
			return Contact{}, false
		}
		for i := range s.n {
			if s.ia[i] == ia && s.ib[i] == ib {
				return Contact{}, false // no progress left in this arithmetic
			}
		}
		s.p[s.n], s.ia[s.n], s.ib[s.n] = a.Points[ia].Sub(b.Points[ib]), ia, ib
		s.n++
		if s.reduce() {
			return Contact{}, false // the origin is inside: they overlap
		}
		pa, pb := s.points(a, b)
		v = pa.Sub(pb)
	}
}

func (s *simplex) points(a, b *Convex) (pa, pb geom.Vec3) {
	for i := range s.n {
		pa = pa.Add(a.Points[s.ia[i]].Mul(s.w[i]))
		pb = pb.Add(b.Points[s.ib[i]].Mul(s.w[i]))
	}
	return pa, pb
}

// reduce keeps the least face of the simplex that holds its point nearest to the
// origin, and sets the weights. It reports whether the origin is inside a full tetrahedron.
func (s *simplex) reduce() bool {
	best := math.Inf(1)
	var keep [4]int
	var weight [4]float64
	n := 0
	take := func(idx []int, w []float64) {
		var q geom.Vec3
		for i, k := range idx {
			q = q.Add(s.p[k].Mul(w[i]))
		}
		if d := q.Dot(q); d < best {
			best = d
			n = copy(keep[:], idx)
			copy(weight[:], w)
		}
	}
	// Every face of the simplex that holds the new point, or was the old one: all are
	// tried, those whose foot lies outside are left out.
	for mask := 1; mask < 1<<s.n; mask++ {
		var idx [4]int
		m := 0
		for i := range s.n {
			if mask>>i&1 == 1 {
				idx[m] = i
				m++
			}
		}
		var w [4]float64
		switch m {
		case 1:
			w[0] = 1
		case 2:
			p, q := s.p[idx[0]], s.p[idx[1]]
			d := q.Sub(p)
			l2 := d.Dot(d)
			t := -p.Dot(d) / l2
			if !(t > 0 && t < 1) {
				continue
			}
			w[0], w[1] = 1-t, t
		case 3:
			p, q, r := s.p[idx[0]], s.p[idx[1]], s.p[idx[2]]
			e, f := q.Sub(p), r.Sub(p)
			nn := e.Cross(f)
			l2 := nn.Dot(nn)
			if l2 == 0 {
				continue
			}
			o := p.Mul(-1)
			t := o.Cross(f).Dot(nn) / l2
			u := e.Cross(o).Dot(nn) / l2
			if !(t > 0 && u > 0 && t+u < 1) {
				continue
			}
			w[0], w[1], w[2] = 1-t-u, t, u
		case 4:
			p := s.p[0]
			e, f, g := s.p[1].Sub(p), s.p[2].Sub(p), s.p[3].Sub(p)
			vol := e.Dot(f.Cross(g))
			if vol == 0 {
				continue
			}
			o := p.Mul(-1)
			t, u, x := o.Dot(f.Cross(g))/vol, e.Dot(o.Cross(g))/vol, e.Dot(f.Cross(o))/vol
			if t > 0 && u > 0 && x > 0 && t+u+x < 1 {
				return true
			}
			continue
		}
		take(idx[:m], w[:m])
	}
	out := simplex{n: n, w: weight}
	for i := range n {
		out.p[i], out.ia[i], out.ib[i] = s.p[keep[i]], s.ia[keep[i]], s.ib[keep[i]]
	}
	*s = out
	return false
}
