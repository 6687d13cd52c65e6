package solid

import "math"

// iterate is the distance by Gilbert, Johnson and Keerthi's iteration (1988, from
// memory). ok only with a certificate: either the nearest points found and the slab
// across them agree to certified, or the slab is at least limit wide (then D is the
// slab's width, not the distance). Bodies that touch to within certified may
// be told as that little apart or into each other.
func iterate(a, b *Convex, limit float64) (Contact, bool) {
	var s simplex
	n := unpack(&a.Centre).sub(unpack(&b.Centre)) // from b to a, of any length
	n2 := n.dot(n)
	if n2 == 0 {
		n, n2 = xyz{1, 0, 0}, 1
	}
	bounded := limit < math.Inf(1)
	here := 0.0 // n.p of the simplex's points p, times the length of n
	const most = 40
	for k := 0; k <= most; k++ {
		ia, ib := a.far(n.mul(-1)), b.far(n)
		w := unpack(&a.Points[ia]).sub(unpack(&b.Points[ib]))
		gap := n.dot(w)
		if bounded && gap > 0 && gap*gap >= limit*limit*n2 {
			l := math.Sqrt(n2)
			if gap/l >= limit {
				return Contact{D: gap / l, A: a.Points[ia], B: b.Points[ib], N: n.mul(1 / l).pack()}, true
			}
		}
		if k > 0 {
			if more := here - gap; more <= 0 || more*more <= enough*enough*n2 || s.holds(ia, ib) {
				return s.certify(a, b, n, gap/math.Sqrt(n2))
			}
		}
		s.c[s.n] = mink{p: w, ia: ia, ib: ib}
		s.n++
		var f foot
		if s.nearest(&f); f.n == 0 {
			return Contact{}, false // the origin is inside: they overlap
		}
		s.keep(&f)
		n = f.dir
		n2 = n.dot(n)
		if !(n2 > 0) {
			return Contact{}, false
		}
		here = n.dot(s.c[0].p)
	}
	return Contact{}, false
}

// certify takes the simplex's nearest points if their distance and the slab across n, gap wide,
// agree.
func (s *simplex) certify(a, b *Convex, n xyz, gap float64) (Contact, bool) {
	var pa, pb xyz
	for i := range s.n {
		c := &s.c[i]
		pa = pa.add(unpack(&a.Points[c.ia]).mul(c.w))
		pb = pb.add(unpack(&b.Points[c.ib]).mul(c.w))
	}
	d := pa.sub(pb)
	l := math.Sqrt(d.dot(d))
	out := Contact{D: l, A: pa.pack(), B: pb.pack(), N: n.mul(1 / math.Sqrt(n.dot(n))).pack()}
	if gap <= 0 { // touching
		out.D = gap
		return out, l <= certified && gap >= -certified
	}
	return out, l-gap <= certified
}
