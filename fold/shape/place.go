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
			b.beside(n, k)
		}
	}
	if !b.failed() {
		b.freeEdge(n)
	}
}

// beside looks at the wall on a flange's start (0) or end (1) and at the one next to it on the panel below, and places the
// first against the second: in one plane over a bend of the floor, where the form asks for that; flat on its
// face, where the flange is itself a wall and the first is a tab on its end; else straight on, where no lean is given.
func (b *builder) beside(n *panel, end int) {
	side := [2]sideNo{start, endSide}[end]
	var wall *panel
	for _, k := range n.kids {
		if k.side == side {
			wall = k
		}
	}
	if wall == nil || !n.reaches(end) {
		return
	}
	other := n.nextTo(end)
	if other == nil {
		return
	}
	f, at := sizes.Corner{}, wall.path+".side"
	gap := b.gap
	for i := range b.form.Corners {
		c := &b.form.Corners[i]
		if c.A == wall.name && c.B == other.name || c.A == other.name && c.B == wall.name {
			f, at = *c, fmt.Sprintf("sizes.corners[%d]", i)
			gap = b.length(at+".gap", c.Gap, b.gap)
		}
	}
	tab := n.angle > steepest
	over := f.Over == wall.name
	for i := range b.form.Corners { // which of the two walls runs over the other says where the tab lies, too
		if c := &b.form.Corners[i]; f.Close == sizes.Usual && c.Close == sizes.Lap && (c.A == n.name && c.B == other.name || c.A == other.name && c.B == n.name) {
			over = c.Over == n.name || c.Over == "" && c.A == n.name
		}
	}
	switch {
	case f.InPlane:
		b.facing(n, end, wall, other, 0, at+".in_plane")
	case f.Close == sizes.Lap, f.Close == sizes.Usual && tab && b.nearlyFacing(n, wall, other):
		if !tab {
			b.problem(at, wall.name+" and "+other.name+", which meet over a bend of the floor", "a mitre, or apart")
			return
		}
		off := b.t + gap // behind it
		if over {
			off, wall.outer = -off, true
		}
		b.facing(n, end, wall, other, off, at)
		if b.failed() {
			return
		}
		// Its foot keeps off the other's bend.
		foot := setback(other.angle, other.bend.Radius, b.t, n.faces) + gap
		foot = max(foot+b.past(), b.endWide()+b.past()+leastFlat*b.t-n.sharp())
		if end == 0 {
			wall.from = max(wall.from, foot)
		} else {
			wall.to = max(wall.to, foot)
		}
		wall.against = other
		b.clearOf(n, end, wall, other)
	case f.Close != sizes.Apart && !tab && !n.leanGiven(end):
		b.straightOn(n, end, wall, other)
	}
}

// clearOf leans the foot of a tab so that on the blank it keeps off the wall that it is to lie on: where walls lean out, their edges
// come nearer to each other there than square ones.
func (b *builder) clearOf(n *panel, end int, tab, other *panel) {
	if [2]sizes.Field{tab.flange.LeanStart, tab.flange.LeanEnd}[end].Given {
		return
	}
	c := &corner{a: n, b: other}
	if end == 0 {
		c = &corner{a: other, b: n}
	}
	g, _, _ := c.line(other, n)
	edge := geom.Perp(g) // the other wall's end on the blank, outwards
	if edge.Dot(other.bend.N) < 0 {
		edge = edge.Mul(-1)
	}
	side := [2]float64{1, -1}[end] // inwards along U
	up := n.bend.N.Add(n.bend.U.Mul(side * n.lean[end])).Normalize()
	if turn := math.Asin(max(-1, min(1, edge.Dot(up)))); turn > 0 {
		tab.lean[end] = math.Tan(min(turn+tabClear, math.Pi/3))
	}
	// Its top does not rise over the walls'.
	if [2]sizes.Field{tab.flange.LeanStart, tab.flange.LeanEnd}[1-end].Given {
		return
	}
	out := n.frame.Vector(vec3(n.bend.N.Mul(n.lean[end]).Sub(n.bend.U.Mul(side)).Normalize()))
	sin, cos := math.Sincos(tab.angle)
	rise := out.Mul(cos).Add(n.frame.Z.Mul(tab.bend.Sigma()*sin)).Dot(n.parent.frame.Z) * n.bend.Sigma()
	if rise > 0 {
		tab.lean[1-end] = math.Tan(min(math.Asin(min(1, rise)), math.Pi/3))
	}
}

// nearlyFacing reports whether a tab on a wall's end is bent to lie about along the next wall.
func (b *builder) nearlyFacing(n, wall, other *panel) bool {
	b.placeOne(other)
	if b.failed() || wall.bend.Up != other.bend.Up {
		return false
	}
	nf := n.frame.Z
	if !wall.bend.Up {
		nf = nf.Mul(-1)
	}
	na := other.inner()
	turn := math.Atan2(na.Cross(nf).Len(), na.Dot(nf))
	return math.Abs(turn-wall.angle) < tabTurn
}

// leanGiven reports whether the lean of a flange's start (0) or end (1) is given.
func (n *panel) leanGiven(end int) bool {
	return n.step == 0 && [2]sizes.Field{n.flange.LeanStart, n.flange.LeanEnd}[end].Given
}

// nextTo is the flange that meets a flange's start (0) or end (1) on the panel that both stand on.
func (n *panel) nextTo(end int) *panel {
	below := n.parent.round()
	for k, s := range below {
		if s != n.side {
			continue
		}
		if end == 1 {
			if next := below[(k+1)%len(below)]; next != bottom {
				return n.parent.kidAt(next, 0)
			}
		} else if before := below[(k+len(below)-1)%len(below)]; before != bottom {
			return n.parent.kidAt(before, 1)
		}
	}
	return nil
}

// straightOn lets a flange's start (0) or end (1), on which a wall stands, run on in the line of the side below that carries the
// next wall.
func (b *builder) straightOn(n *panel, end int, wall, other *panel) {
	b.placeOne(other)
	if b.failed() {
		return
	}
	along := other.bend.U // outwards over n's bend
	if end == 1 {
		along = along.Mul(-1)
	}
	rise := along.Dot(n.bend.N)
	if rise < leastRun {
		return
	}
	lean := along.Dot(n.bend.U) / rise
	// Both walls' tangent lines are one line on the blank.
	u, v := n.coord(other.bend.Q.Add(other.bend.N.Mul(wall.inset)))
	u += (n.sharp() - v) * lean
	if end == 0 {
		n.shift[0], n.lean[0] = u-n.from, lean
	} else {
		n.shift[1], n.lean[1] = u-(n.long-n.to), -lean
	}
}

// facing places the wall on a flange's start (0) or end (1) in the plane of another: their inside faces then lie in planes
// off apart, the wall's further inside, and the flange's side runs where that plane meets it.
func (b *builder) facing(n *panel, end int, wall, other *panel, off float64, at string) {
	b.placeOne(other)
	if b.failed() {
		return
	}
	if other.bend.Up != wall.bend.Up {
		b.problem(at, other.name+" and "+wall.name+", one bent up and one down", "both bent the same way, or apart")
		return
	}
	const need = "a mitre, another angle, or apart"
	na, nf := other.inner(), n.frame.Z
	if !wall.bend.Up {
		nf = nf.Mul(-1)
	}
	g := geom.Vec2{na.Dot(n.frame.X), na.Dot(n.frame.Y)}
	turn := math.Atan2(g.Len(), na.Dot(nf))
	p := other.point(0, 0)
	f := na.Dot(n.frame.Point(geom.Vec3{0, 0, wall.innerZ()})) - na.Dot(other.frame.Point(geom.Vec3{p[0], p[1], other.innerZ()})) - off
	if g.Len() < sameTurn || turn*180/math.Pi > mostInPlane {
		b.problem(at, "walls whose planes do not meet "+n.name+" so", need)
		return
	}
	g, f = g.Mul(1/g.Len()), f/g.Len()
	b.bent(wall, turn*180/math.Pi, wall.bend.Radius, !wall.bend.Up)
	b.scaleOf(wall)
	wall.inset = setback(wall.angle, wall.bend.Radius, b.t, wall.faces)
	// The inside faces meet in g.p + f = 0, on the flange's inside face; the measured line lies off it by the two setbacks' difference.
	sharps := wall.inset - wall.bend.Radius*math.Tan(wall.angle/2)
	// u = u0 + slope v along that line, outwards along -g.
	gu, gv := g.Dot(n.bend.U), g.Dot(n.bend.N)
	if math.Abs(gu) < leastRun {
		b.problem(at, "walls whose planes do not meet "+n.name+" so", need)
		return
	}
	u0 := (-sharps - f - g.Dot(n.point(0, n.sharp()))) / gu
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
