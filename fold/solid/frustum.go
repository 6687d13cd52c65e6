package solid

import (
	"cmp"
	"math"
	"slices"

	"dryfold/fold/geom"
)

// Frustum is the least convex body that holds two flat sets of points of frame f:
// low at height z0, high at z1, z0 < z1. Either may be a single point or lie on a
// line. Both must hold a point.
func Frustum(low, high []geom.Vec2, z0, z1 float64, f geom.Frame) Convex {
	p, q := hull(low), hull(high)
	var c Convex
	for _, v := range p {
		c.Points = append(c.Points, f.Point(geom.Vec3{v[0], v[1], z0}))
	}
	for _, v := range q {
		c.Points = append(c.Points, f.Point(geom.Vec3{v[0], v[1], z1}))
	}
	c.Normals = append(c.Normals, f.Z, f.Z.Mul(-1))
	n, m := len(p), len(q)
	for i := 2; i < n; i++ {
		c.Tris = append(c.Tris, [3]int32{0, int32(i), int32(i - 1)})
	}
	for i := 2; i < m; i++ {
		c.Tris = append(c.Tris, [3]int32{int32(n), int32(n + i - 1), int32(n + i)})
	}
	c.ring(p, 0)
	c.ring(q, n)
	c.band(p, q)
	c.bound()
	return c
}

// ring adds the edges of one of a frustum's ends.
func (c *Convex) ring(l []geom.Vec2, first int) {
	if len(l) < 2 {
		return
	}
	for i := range l {
		j := (i + 1) % len(l)
		if len(l) == 2 && i == 1 {
			return
		}
		c.edge(int32(first+i), int32(first+j))
	}
}

func (c *Convex) edge(i, j int32) {
	c.Edges = append(c.Edges, [2]int32{i, j})
	d := c.Points[j].Sub(c.Points[i])
	l := d.Len()
	if l == 0 {
		return
	}
	d = d.Mul(1 / l)
	for _, e := range c.Dirs {
		if e.Cross(d).Len() < parallel {
			return
		}
	}
	c.Dirs = append(c.Dirs, d)
}

// band adds the faces round the side of a frustum: the edges of both ends in the
// order of their directions, each with the corner of the other end that reaches
// farthest out along it.
func (c *Convex) band(p, q []geom.Vec2) {
	n, m := len(p), len(q)
	pa, qa := turns(p), turns(q)
	if len(pa) == 0 && len(qa) == 0 { // a needle
		c.edge(0, int32(n))
	}
	i, k := 0, 0 // edges used of each
	for i < len(pa) || k < len(qa) {
		a, b := int32(i%n), int32(n+k%m)
		c.edge(a, b)
		var t [3]int32
		step := 0
		switch {
		case k == len(qa):
			step = 1
		case i == len(pa):
			step = 2
		case math.Abs(pa[i]-qa[k]) < parallel:
			step = 3
		case pa[i] < qa[k]:
			step = 1
		default:
			step = 2
		}
		if step&1 != 0 {
			i++
			t = [3]int32{a, int32(i % n), b}
			c.Tris = append(c.Tris, t)
			a = int32(i % n)
		}
		if step&2 != 0 {
			k++
			t = [3]int32{a, int32(n + k%m), b}
			c.Tris = append(c.Tris, t)
		}
		u := c.Points[t[1]].Sub(c.Points[t[0]])
		if nn := u.Cross(c.Points[t[2]].Sub(c.Points[t[0]])); nn.Len() > 0 {
			c.Normals = append(c.Normals, nn.Normalize())
		}
	}
}

// turns gives the directions of a hull's edges as angles that grow from its lowest,
// leftmost point on: 0 <= angle < 2 pi.
func turns(l []geom.Vec2) []float64 {
	if len(l) < 2 {
		return nil
	}
	out := make([]float64, len(l))
	for i, p := range l {
		d := l[(i+1)%len(l)].Sub(p)
		a := math.Atan2(d[1], d[0])
		if a < 0 {
			a += 2 * math.Pi
		}
		if i > 0 && a < out[i-1] { // rounding
			a = out[i-1]
		}
		out[i] = a
	}
	return out
}

// hull is the convex hull, counter-clockwise from its lowest (then leftmost) point,
// points on sides left out: one point, two, or a polygon.
func hull(pts []geom.Vec2) []geom.Vec2 {
	l := slices.Clone(pts)
	geom.SortStable(l, func(a, b geom.Vec2) int {
		return cmp.Or(cmp.Compare(a[1], b[1]), cmp.Compare(a[0], b[0]))
	})
	l = slices.Compact(l)
	if len(l) < 3 {
		return l
	}
	half := func(keep []geom.Vec2, from, to, step int) []geom.Vec2 {
		base := len(keep)
		for i := from; i != to; i += step {
			for len(keep) >= base+2 && orient(keep[len(keep)-2], keep[len(keep)-1], l[i]) <= 0 {
				keep = keep[:len(keep)-1]
			}
			keep = append(keep, l[i])
		}
		return keep[:len(keep)-1]
	}
	out := half(nil, 0, len(l), 1)
	return half(out, len(l)-1, -1, -1)
}
