package solid

// This file answers how long two pieces that overlap have done so, and will, while one turns past the other.

import (
	"cmp"
	"math"

	"dryfold/fold/geom"
)

// Stays is how long, at least, two pieces that overlap stay so in the motion, and have been so, for steps of up to a unit
// of time either way; 0 where they do not overlap. c is their contact.
//
// Two bounds, the better is taken. The pieces part no sooner than their depth over the speed at which they move past each other.
// And where there is a single turn: a region C square to its axis that lies in the sections of both all the way from
// u0 to u1 along the axis holds them together. Across any unit direction n with the part m square to the axis
// they overlap by (u1-u0) sqrt(1-m^2) + 2 r m or more, r being the radius of a circle in C, and points of C move by no
// more than m times their speed V: so they overlap for 2 r / V.
func (m *Motion) Stays(a, b *Convex, c Contact) float64 {
	if c.D >= 0 {
		return 0
	}
	if m.Still() {
		return 1
	}
	f := m.field()
	side := func(c *Convex) float64 { // the distance to a line is the greatest at a corner
		v := 0.0
		for i := range c.Points {
			v = max(v, f.arms(c.Points[i], 0))
		}
		return v
	}
	speed := min(side(a), side(b)) + m.Loose
	if speed <= 0 {
		return min(f.longest(), 1)
	}
	t := -c.D / speed
	if len(m.Turns) == 1 && m.Loose == 0 {
		t = max(t, f.held(a, b))
	}
	return min(t, f.longest(), 1)
}

// held is 2 r / V of Stays, 0 where there is no such region.
func (f *field) held(a, b *Convex) float64 {
	turn := &f.Turns[0]
	u := turn.Axis
	alo, ahi := a.reach(unpack(&u))
	blo, bhi := b.reach(unpack(&u))
	lo, hi := max(alo, blo), min(ahi, bhi)
	if !(hi > lo) {
		return 0
	}
	x := u.Cross(geom.Vec3{0, 0, 1})
	if x.Len() < 0.5 {
		x = u.Cross(geom.Vec3{1, 0, 0})
	}
	x = x.Normalize()
	y := u.Cross(x)
	// A hair inside the ends, where end faces square to the axis have their whole section.
	hair := (hi - lo) * sectionHair
	var region geom.Loop
	for _, at := range []float64{lo + hair, hi - hair} {
		for _, c := range []*Convex{a, b} {
			s := c.section(u, x, y, at)
			if len(s) < 3 {
				return 0
			}
			if region == nil {
				region = s
				continue
			}
			for i, p := range s {
				e := s[(i+1)%len(s)].Sub(p)
				n := geom.Vec2{-e[1], e[0]}
				if region = Clip(region, n, n.Dot(p)); len(region) < 3 {
					return 0
				}
			}
		}
	}
	// A circle about the region's middle; the farthest that any of its points is from the line.
	var mid geom.Vec2
	for _, p := range region {
		mid = mid.Add(p.Mul(1 / float64(len(region))))
	}
	r, far := math.Inf(1), 0.0
	for i, p := range region {
		e := region[(i+1)%len(region)].Sub(p)
		if l := e.Len(); l > 0 {
			r = min(r, geom.Cross2(e, mid.Sub(p))/l)
		}
	}
	if !(r > 0) {
		return 0
	}
	q := x.Mul(mid[0]).Add(y.Mul(mid[1])).Add(u.Mul(lo))
	far = f.arms(q, r)
	return 2 * r / far
}

// section is the body's section square to u at a place along it, in the axes x and y: its hull, counter-clockwise.
func (c *Convex) section(u, x, y geom.Vec3, at float64) geom.Loop {
	var pts []geom.Vec2
	for _, e := range c.Edges {
		p, q := &c.Points[e[0]], &c.Points[e[1]]
		dp, dq := u.Dot(*p)-at, u.Dot(*q)-at
		if dp == 0 {
			pts = append(pts, geom.Vec2{x.Dot(*p), y.Dot(*p)})
		}
		if (dp > 0) != (dq > 0) {
			m := p.Add(q.Sub(*p).Mul(dp / (dp - dq)))
			pts = append(pts, geom.Vec2{x.Dot(m), y.Dot(m)})
		}
	}
	return hull2(pts)
}

// hullFew: so few points are put in order one by one.
const hullFew = 32

// hull2 is the hull of points, counter-clockwise (Andrew's chain, 1979, from memory).
func hull2(pts []geom.Vec2) geom.Loop {
	few := len(pts) <= hullFew
	if !few {
		geom.SortStable(pts, func(p, q geom.Vec2) int { return cmp.Or(cmp.Compare(p[0], q[0]), cmp.Compare(p[1], q[1])) })
	}
	for i := 1; few && i < len(pts); i++ {
		for k := i; k > 0 && (pts[k][0] < pts[k-1][0] || pts[k][0] == pts[k-1][0] && pts[k][1] < pts[k-1][1]); k-- {
			pts[k], pts[k-1] = pts[k-1], pts[k]
		}
	}
	var out geom.Loop
	for pass := range 2 {
		first := len(out)
		for i := range pts {
			p := pts[i]
			if pass == 1 {
				p = pts[len(pts)-1-i]
			}
			for len(out) >= first+2 && geom.Cross2(out[len(out)-1].Sub(out[len(out)-2]), p.Sub(out[len(out)-2])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		if len(out) > 0 {
			out = out[:len(out)-1] // the next chain begins with it
		}
	}
	return out
}
