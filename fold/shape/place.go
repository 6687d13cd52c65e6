package shape

// This file places the panels on the blank and in space, from the base outwards, and turns walls into one plane where
// that is asked for.

import (
	"fmt"
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// place puts every panel on the blank and in space, from the base outwards.
func (b *builder) place() {
	for _, n := range b.panels {
		b.placeOne(n)
		if b.failed() {
			return
		}
	}
}

func (b *builder) placeOne(n *panel) {
	if n.parent == nil || n.placed {
		return
	}
	n.placed = true
	on, ok := n.parent.measured(n.side)
	if !ok {
		b.problem(n.path+".side", sizes.Quote(n.flange.Side), "a side that "+n.parent.name+" has")
		return
	}
	if on.through != nil {
		b.problem(n.path+".side", "a curved edge", "a straight one")
		return
	}
	n.long = on.b.Sub(on.a).Len()
	u := on.dir()
	n.bend.U, n.bend.N = u, geom.Perp(u).Mul(-1)
	n.bend.Q = on.a.Sub(n.bend.N.Mul(n.inset))
	n.frame = n.parent.frame.Compose(n.bend.Hinge(n.bend.Angle, b.t))
	if room := n.long - n.from - n.to; !(room > leastLine) {
		b.problem(n.path+".to", b.say(n.to), fmt.Sprintf("less, or another inset: %s of the side’s %s are left", b.say(room), b.say(n.long)))
		return
	}
	for k := range 2 {
		if !b.failed() {
			b.inPlane(n, k)
		}
	}
	if !b.failed() {
		b.freeEdge(n)
	}
}

// inPlane turns the wall on a flange's start (0) or end (1) into one plane with the wall beside it on the panel below, where
// the form asks for that: their inside faces then lie in one plane, and the flange's side runs where that plane meets it.
func (b *builder) inPlane(n *panel, end int) {
	wall := n.kidAt([2]sideNo{start, endSide}[end], end)
	if wall == nil {
		return
	}
	var other *panel
	at := ""
	for i, f := range b.form.Corners {
		if f.InPlane && (f.A == wall.name || f.B == wall.name) {
			name := f.A
			if name == wall.name {
				name = f.B
			}
			if o := b.named(name); o != nil && o.parent == n.parent && o != n {
				other, at = o, fmt.Sprintf("sizes.corners[%d].in_plane", i)
			}
		}
	}
	if other == nil {
		return
	}
	b.placeOne(other)
	if b.failed() {
		return
	}
	if other.bend.Up != wall.bend.Up {
		b.problem(at, other.name+" and "+wall.name+", one bent up and one down", "both bent the same way")
		return
	}
	c := &corner{}
	na, nf := c.inner(other), n.frame.Z
	if !wall.bend.Up {
		nf = nf.Mul(-1)
	}
	g := geom.Vec2{na.Dot(n.frame.X), na.Dot(n.frame.Y)}
	turn := math.Atan2(g.Len(), na.Dot(nf))
	p := other.point(0, 0)
	f := na.Dot(n.frame.Point(geom.Vec3{0, 0, wall.innerZ()})) - na.Dot(other.frame.Point(geom.Vec3{p[0], p[1], other.innerZ()}))
	if g.Len() < sameTurn || turn*180/math.Pi > mostInPlane {
		b.problem(at, "walls whose planes do not meet the floor so", "a mitre with its step, or another angle")
		return
	}
	g, f = g.Mul(1/g.Len()), f/g.Len()
	b.bent(wall, turn*180/math.Pi, wall.bend.Radius, !wall.bend.Up)
	b.scaleOf(wall)
	wall.inset = setback(wall.angle, wall.bend.Radius, b.t, wall.faces)
	// The inside faces meet in g.p + f = 0, on the flange's inside face; the measured line lies off it by the two setbacks' difference.
	off := wall.inset - wall.bend.Radius*math.Tan(wall.angle/2)
	// u = u0 + slope v along that line, outwards along -g.
	gu, gv := g.Dot(n.bend.U), g.Dot(n.bend.N)
	if math.Abs(gu) < leastRun {
		b.problem(at, "walls whose planes do not meet the floor so", "a mitre with its step, or another angle")
		return
	}
	at0 := n.point(0, n.sharp())
	u0 := (-off - f - g.Dot(at0)) / gu
	slope := -gv / gu
	if end == 0 {
		n.shift[0], n.lean[0] = u0-n.from, slope
	} else {
		n.shift[1], n.lean[1] = u0-(n.long-n.to), -slope
	}
}

// ends are where along U a flange's measured start and end lie at its bend's sharp.
func (n *panel) ends() (u0, u1 float64) {
	return n.from + n.shift[0], n.long - n.to + n.shift[1]
}

// measured is a side of a panel as measured, as far as its own ends.
func (n *panel) measured(s sideNo) (sideLine, bool) {
	switch {
	case n.at < 0:
		if int(s) < len(n.flat) {
			return n.flat[s], true
		}
	case s == start:
		u, _ := n.ends()
		return sideLine{a: n.point(u, n.sharp()), b: n.flat[0].a}, true
	case s == endSide:
		_, u := n.ends()
		return sideLine{a: n.flat[len(n.flat)-1].b, b: n.point(u, n.sharp())}, true
	case int(s-top) < len(n.flat):
		return n.flat[s-top], true
	}
	return sideLine{}, false
}

// sharp is where the bend's measured sharp lies in the flange's flat height: below its tangent line.
func (n *panel) sharp() float64 {
	return -setback(n.angle, n.bend.Radius, n.t, n.faces)
}
