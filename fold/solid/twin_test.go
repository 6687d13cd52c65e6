package solid

// The distance of two convex bodies a second way, and a third: plainly right and slow.

import (
	"math"
	"math/big"

	"dryfold/fold/geom"
)

// twin is the signed distance by all features, without early exits: every corner against every face and every
// edge against every edge where the bodies are apart, else the widest slab over the normals of all faces
// and the planes of every pair of edges.
func twin(a, b *Convex) float64 {
	best := math.Inf(-1)
	try := func(n geom.Vec3) {
		for _, m := range [2]geom.Vec3{n, n.Mul(-1)} {
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, p := range a.Points {
				lo = min(lo, m.Dot(p))
			}
			for _, p := range b.Points {
				hi = max(hi, m.Dot(p))
			}
			best = max(best, lo-hi)
		}
	}
	for _, c := range [2]*Convex{a, b} {
		for _, n := range c.Normals {
			try(n)
		}
	}
	for _, e := range a.Edges {
		for _, g := range b.Edges {
			d := a.Points[e[1]].Sub(a.Points[e[0]])
			n := d.Cross(b.Points[g[1]].Sub(b.Points[g[0]]))
			if n.Len() == 0 {
				continue
			}
			n = n.Mul(1 / n.Len())
			d = d.Mul(1 / d.Len())
			n = n.Sub(d.Mul(n.Dot(d)))
			if n.Len() > 0.5 {
				try(n.Mul(1 / n.Len()))
			}
		}
	}
	if best <= 0 {
		return best
	}
	return features(a, b).D
}

// judge is twin in arithmetic of 400 bits, faces as the triangles they are given by: it takes the points as
// they are, and there is no rounding to speak of. It takes milliseconds.
func judge(a, b *Convex) float64 {
	pa, pb := bigs(a.Points), bigs(b.Points)
	best := num(math.Inf(-1))
	try := func(n big3) {
		l := n.dot(n)
		if l.Sign() == 0 {
			return
		}
		l = num(0).Sqrt(l)
		for _, sign := range [2]float64{1, -1} {
			var lo, hi *big.Float
			for _, p := range pa {
				if d := times(n.dot(p), num(sign)); lo == nil || d.Cmp(lo) < 0 {
					lo = d
				}
			}
			for _, p := range pb {
				if d := times(n.dot(p), num(sign)); hi == nil || d.Cmp(hi) > 0 {
					hi = d
				}
			}
			if d := num(0).Quo(minus(lo, hi), l); d.Cmp(best) > 0 {
				best = d
			}
		}
	}
	var least *big.Float // distance of the nearest points so far, squared
	var between big3
	near := func(p, q big3) {
		d := p.sub(q)
		if l := d.dot(d); least == nil || l.Cmp(least) < 0 {
			least, between = l, d
		}
	}
	for k, c := range [2]*Convex{a, b} {
		own, other := pa, pb
		if k == 1 {
			own, other = pb, pa
		}
		for _, n := range bigs(c.Normals) { // also of sides without area
			try(n)
		}
		for _, t := range c.Tris {
			p, e, g := own[t[0]], own[t[1]].sub(own[t[0]]), own[t[2]].sub(own[t[0]])
			n := e.cross(g)
			try(n)
			nn := n.dot(n)
			if nn.Sign() == 0 {
				continue
			}
			for _, q := range other { // its foot, by its weights times nn
				o := q.sub(p)
				u, v := o.cross(g).dot(n), e.cross(o).dot(n)
				if u.Sign() >= 0 && v.Sign() >= 0 && plus(u, v).Cmp(nn) <= 0 {
					near(p.add(e.mul(num(0).Quo(u, nn))).add(g.mul(num(0).Quo(v, nn))), q)
				}
			}
		}
	}
	onSegment := func(p, r, v big3) { // p and the segment from r by v
		t, l := p.sub(r).dot(v), v.dot(v)
		switch {
		case t.Sign() <= 0:
			near(p, r)
		case t.Cmp(l) >= 0:
			near(p, r.add(v))
		default:
			near(p, r.add(v.mul(num(0).Quo(t, l))))
		}
	}
	for _, e := range edgesOf(a) {
		for _, g := range edgesOf(b) {
			p, r := pa[e[0]], pb[g[0]]
			u, v := pa[e[1]].sub(p), pb[g[1]].sub(r)
			n := u.cross(v)
			try(n)
			onSegment(p, r, v)
			onSegment(p.add(u), r, v)
			onSegment(r, p, u)
			onSegment(r.add(v), p, u)
			if nn := n.dot(n); nn.Sign() != 0 {
				w := r.sub(p)
				s, t := w.cross(v).dot(n), w.cross(u).dot(n)
				if s.Sign() >= 0 && s.Cmp(nn) <= 0 && t.Sign() >= 0 && t.Cmp(nn) <= 0 {
					near(p.add(u.mul(num(0).Quo(s, nn))), r.add(v.mul(num(0).Quo(t, nn))))
				}
			}
		}
	}
	try(between)                                               // where the bodies are apart that parts them, flat ones and needles too
	if best.Sign() > 0 || len(a.Dirs) < 2 && len(b.Dirs) < 2 { // two needles hold nothing
		best = num(0).Sqrt(least)
	}
	out, _ := best.Float64()
	return out
}

// edgesOf lists a body's edges, a lone point as one without length.
func edgesOf(c *Convex) [][2]int32 {
	if len(c.Edges) == 0 {
		return [][2]int32{{0, 0}}
	}
	return c.Edges
}

type big3 [3]*big.Float

func num(x float64) *big.Float         { return new(big.Float).SetPrec(400).SetFloat64(x) }
func plus(a, b *big.Float) *big.Float  { return num(0).Add(a, b) }
func minus(a, b *big.Float) *big.Float { return num(0).Sub(a, b) }
func times(a, b *big.Float) *big.Float { return num(0).Mul(a, b) }

func bigs(pts []geom.Vec3) []big3 {
	out := make([]big3, len(pts))
	for i, p := range pts {
		out[i] = big3{num(p[0]), num(p[1]), num(p[2])}
	}
	return out
}

func (a big3) add(b big3) big3 { return big3{plus(a[0], b[0]), plus(a[1], b[1]), plus(a[2], b[2])} }
func (a big3) sub(b big3) big3 { return big3{minus(a[0], b[0]), minus(a[1], b[1]), minus(a[2], b[2])} }
func (a big3) mul(k *big.Float) big3 {
	return big3{times(a[0], k), times(a[1], k), times(a[2], k)}
}
func (a big3) dot(b big3) *big.Float {
	return plus(plus(times(a[0], b[0]), times(a[1], b[1])), times(a[2], b[2]))
}
func (a big3) cross(b big3) big3 {
	var out big3
	for i := range out {
		j, k := (i+1)%3, (i+2)%3
		out[i] = minus(times(a[j], b[k]), times(a[k], b[j]))
	}
	return out
}
