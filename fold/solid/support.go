package solid

import (
	"math"

	"dryfold/fold/geom"
)

// This file holds the loops over a body's corners in which a distance spends its time. Bodies
// made by Prism say so (Convex.loop): their upper corners repeat the lower ones, moved, so half of them
// need no look.

// Support is the greatest reach of the body along n, and the point that has it.
func (c *Convex) Support(n geom.Vec3) (reach float64, at int) {
	v := unpack(&n)
	at = c.far(v)
	return v.along(&c.Points[at]), at
}

// far is the corner that reaches farthest along n, which need not be a unit vector; to within
// rounding of the reach.
func (c *Convex) far(n xyz) int {
	if c.loop == 4 {
		p := (*[8]geom.Vec3)(c.Points)
		d := [4]float64{n.along(&p[0]), n.along(&p[1]), n.along(&p[2]), n.along(&p[3])}
		i, j, up := 0, 2, 0
		if d[1] > d[0] {
			i = 1
		}
		if d[3] > d[2] {
			j = 3
		}
		if n.along(&p[4]) > d[0] {
			up = 4
		}
		if d[j&3] > d[i&3] {
			i = j
		}
		return i + up
	}
	pts, up := c.Points, 0
	if c.loop > 0 {
		pts = pts[:c.loop]
		if n.along(&c.Points[c.loop]) > n.along(&pts[0]) {
			up = c.loop
		}
	}
	best, at := math.Inf(-1), 0
	for i := range pts {
		if d := n.along(&pts[i]); d > best {
			best, at = d, i
		}
	}
	return at + up
}

// reach is the extent along n: least and greatest.
func (c *Convex) reach(n xyz) (lo, hi float64) {
	if c.loop == 4 {
		p := (*[8]geom.Vec3)(c.Points)
		d0, d1, d2, d3 := n.along(&p[0]), n.along(&p[1]), n.along(&p[2]), n.along(&p[3])
		lo, hi = min(d0, d1, d2, d3), max(d0, d1, d2, d3)
		if up := n.along(&p[4]) - d0; up > 0 {
			hi += up
		} else {
			lo += up
		}
		return lo, hi
	}
	pts := c.Points
	if c.loop > 0 {
		pts = pts[:c.loop]
	}
	lo, hi = math.Inf(1), math.Inf(-1)
	for i := range pts {
		d := n.along(&pts[i])
		if d < lo {
			lo = d
		}
		if d > hi {
			hi = d
		}
	}
	if c.loop > 0 {
		if up := n.along(&c.Points[c.loop]) - n.along(&pts[0]); up > 0 {
			hi += up
		} else {
			lo += up
		}
	}
	return lo, hi
}
