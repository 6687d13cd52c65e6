package shape

// This file finds the lines at which two flanges end at their corner, by the formulas of the design's chapter
// "Corners closed by calculation"; corner.go says how they meet, solve corrects them on the folded part.

import (
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// cut gives both flanges the lines at which they end.
func (c *corner) cut(b *builder) {
	gap := c.gap + c.extra
	switch c.close {
	case sizes.Edges:
		d := EdgeToEdge(gap, c.delta(), c.a.t)
		c.trim(c.a, c.b, d)
		c.trim(c.b, c.a, d)
	case sizes.Lap:
		stop := c.a
		if c.lap == c.a {
			stop = c.b
		}
		c.lapped(stop, c.lap, gap)
	case sizes.Mitre:
		o := gap / 2
		c.plan(c.a, -1, o)
		c.plan(c.b, 1, o)
		if c.away {
			o = max(o, leastCut/2)
			c.onBlank(c.a, -1, o)
			c.onBlank(c.b, 1, o)
		}
	}
}

// clip ends a flange at the corner; not one whose end carries another, which stands where it was measured.
func (c *corner) clip(n *panel, cut clip) {
	if !n.hasKid(cut.side) {
		n.clips = append(n.clips, cut)
	}
}

// sideAt is the side of a flange that ends at the corner.
func (c *corner) sideAt(n *panel) sideNo {
	if n == c.a {
		return endSide
	}
	return start
}

// line is the other flange's inner plane on this one's inner face: distance = g.p + f, |g| = 1, positive into this
// flange's metal.
func (c *corner) line(n, other *panel) (g geom.Vec2, f, sign float64) {
	nb := other.inner()
	q := other.point(0, 0)
	plane := nb.Dot(other.frame.Point(geom.Vec3{q[0], q[1], other.innerZ()}))
	g = geom.Vec2{nb.Dot(n.frame.X), nb.Dot(n.frame.Y)}
	f = nb.Dot(n.frame.Point(geom.Vec3{0, 0, n.innerZ()})) - plane
	l := g.Len()
	g, f = g.Mul(1/l), f/l
	into := n.bend.U
	if n == c.a {
		into = into.Mul(-1)
	}
	sign = 1
	if g.Dot(into) < 0 {
		sign = -1
		g, f = g.Mul(-1), -f
	}
	return g, f, sign
}

// delta is the interior angle between the inner faces, 0 to 360 degrees.
func (c *corner) delta() geom.Angle {
	na, nb := c.a.inner(), c.b.inner()
	turn := math.Atan2(na.Cross(nb).Len(), na.Dot(nb))
	if _, _, sign := c.line(c.a, c.b); sign < 0 {
		turn = -turn
	}
	return geom.Angle(math.Pi - turn)
}

// trim ends a flange d short of where its inner face meets the other's.
func (c *corner) trim(n, other *panel, d float64) {
	g, f, _ := c.line(n, other)
	c.clip(n, clip{c.sideAt(n), g, d - f})
}

// lapped ends the wall that stops, clear of the other by the gap, and the one that runs on: its outermost edge at the plane
// of the other's outside face (past 180 degrees its inside face), and the set length past it.
func (c *corner) lapped(stop, run *panel, gap float64) {
	na, nb := stop.inner(), run.inner()
	sin, dot := na.Cross(nb).Len(), na.Dot(nb)
	t := stop.t
	g, f, sign := c.line(stop, run)
	at := gap + max(0, t*dot)
	if sign < 0 {
		at = t + gap + max(0, -t*dot)
	}
	c.clip(stop, clip{c.sideAt(stop), g, at/sin - f})
	g, f, sign = c.line(run, stop)
	at = -(t + c.past) + max(0, t*dot)
	if sign < 0 {
		at = -c.past + max(0, -t*dot)
	}
	c.clip(run, clip{c.sideAt(run), g, at/sin - f})
}

// plan ends a flange at the mitre's plane: its tighter face stays o clear of it. way is -1 before the plane, 1 beyond.
func (c *corner) plan(n *panel, way, o float64) {
	g := geom.Vec2{c.p.Dot(n.frame.X), c.p.Dot(n.frame.Y)}.Mul(way)
	l := g.Len()
	if l < sameTurn {
		return
	}
	f := math.Inf(1)
	for _, z := range []float64{0, n.t} {
		f = min(f, way*(c.p.Dot(n.frame.Point(geom.Vec3{0, 0, z}))-c.d))
	}
	c.clip(n, clip{c.sideAt(n), g.Mul(1 / l), (o - f) / l})
}

// wall is a flange at a corner over a bend, or of rims the wall that carries it: it stands on one of the two panels of that bend.
func (c *corner) wall(n *panel) *panel {
	for n.parent != nil && n.parent != c.over && n.parent != c.over.parent {
		n = n.parent
	}
	return n
}

// onBlank keeps a flange on its own half of the blank, where the floor is bent away.
func (c *corner) onBlank(n *panel, way, o float64) {
	f := c.over
	mid := f.bend.Q.Add(f.bend.N.Mul(f.bend.Allowance / 2))
	m := f.bend.N.Mul(way)
	if c.wall(c.b).parent == f.parent { // a stands on the flange beyond the bend
		m = m.Mul(-1)
	}
	c.clip(n, clip{c.sideAt(n), m, m.Dot(mid) + o})
}
