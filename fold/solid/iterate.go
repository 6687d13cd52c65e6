package solid

import "math"

// iterate is the distance by Gilbert, Johnson and Keerthi's iteration (1988, from
// memory). ok only with a certificate: either the nearest points found and the slab
// across them agree to certified, or the slab is at least limit wide (then D is the
// slab's width, not the distance). Bodies that touch to within certified may
// be told as that little apart or into each other. Without a certificate D, A and B are the
// nearest points found, N the last direction or nothing; where it found them to overlap, D is infinite.
func iterate(a, b *Convex, limit float64) (Contact, bool) {
	var s simplex
	return s.iterate(a, b, limit)
}

// iterate as above. The simplex keeps the corners it ended with: four where it found an overlap.
func (s *simplex) iterate(a, b *Convex, limit float64) (Contact, bool) {
	n := unpack(&a.Centre).sub(unpack(&b.Centre)) // from b to a, of any length
	n2 := n.dot(n)
	if n2 == 0 {
		n, n2 = xyz{1, 0, 0}, 1
	}
	bounded := limit < math.Inf(1)
	here := 0.0 // n.p of the simplex's points p, times the length of n
	for k := 0; ; k++ {
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
			if more := here - gap; more <= 0 || more*more <= enough*enough*n2 || k == most || s.holds(ia, ib) {
				return s.certify(a, b, n, gap)
			}
		}
		s.c[s.n] = mink{p: w, ia: ia, ib: ib}
		s.n++
		var f foot
		if s.nearest(&f); f.n == 0 {
			return Contact{D: math.Inf(1)}, false // they overlap, or are no numbers
		}
		s.keep(&f)
		n = f.dir
		if n2 = n.dot(n); !(n2 > 0) {
			return s.pair(a, b), false
		}
		here = n.dot(s.c[0].p)
	}
}

// certify takes the simplex's nearest points if their distance and the slab across n, gap wide
// times the length of n, agree.
func (s *simplex) certify(a, b *Convex, n xyz, gap float64) (Contact, bool) {
	c := s.pair(a, b)
	r := 1 / math.Sqrt(n.dot(n))
	gap *= r
	c.N = n.mul(r).pack()
	if gap > 0 {
		return c, c.D-gap <= certified || c.D-gap <= certain(a, b)
	}
	if c.D > certified || gap < -certified {
		return c, false
	}
	c.D = gap // touching
	return c, true
}

// certain is certified for bodies of any size.
func certain(a, b *Convex) float64 { return certified + onFace*(size(a)+size(b)) }
