package shape

// This file finds the corners of a part and how the flanges that meet there close; cornercut.go where they end.

import (
	"fmt"
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// corner is where one flange's end meets the next one's start, counter-clockwise.
type corner struct {
	a, b  *panel
	over  *panel // the flange whose bend lies between them, nil at a corner of one panel
	path  string // of its entry in the form; "" where there is none
	at    int    // that entry, -1
	close sizes.Closing
	lap   *panel // that runs on
	past  float64
	gap   float64
	rel   sizes.Relief
	relAt string // path of the relief

	plane   bool // Mitre: along P
	p       geom.Vec3
	d       float64 // P: p.x = d
	away    bool    // the floor is bent away from the walls
	extra   float64 // added to the gap, found by measuring
	lastX   float64 // extra and the least gap that it gave, the last time that it was measured
	lastG   float64
	near    bool // a first look at its gap found it as wanted
	tried   int  // how often extra was changed
	seamed  bool // its seam is named on the part
	strange bool // its edges never lie side by side: no seam

	need, size float64 // of the relief
	rim        bool
}

// findCorners pairs the flanges that meet, with what the form says of them.
func (b *builder) findCorners() {
	for _, n := range b.panels {
		b.vertexCorners(n)
	}
	// What stands on walls that meet meets too.
	for i := 0; i < len(b.corners); i++ {
		c := b.corners[i]
		ka, kb := c.a.endKid(1), c.b.endKid(0)
		if ka != nil && kb != nil && ka.step == 0 && kb.step == 0 {
			b.corners = append(b.corners, &corner{a: ka, b: kb, over: c.over, at: -1, rim: true})
		}
	}
	used := map[int]bool{}
	for i := range b.form.Corners {
		f := &b.form.Corners[i]
		path := fmt.Sprintf("sizes.corners[%d]", i)
		for _, c := range b.corners {
			if c.a.step == 0 && c.b.step == 0 && (c.a.name == f.A && c.b.name == f.B || c.a.name == f.B && c.b.name == f.A) {
				if c.at >= 0 {
					b.problem(path, "the corner of "+f.A+" and "+f.B+" again", "each corner once")
				}
				c.at, c.path, used[i] = i, path, true
			}
		}
		if !used[i] {
			switch {
			case b.named(f.A) == nil:
				b.problem(path+".a", sizes.Quote(f.A), "one of the flanges")
			case b.named(f.B) == nil:
				b.problem(path+".b", sizes.Quote(f.B), "one of the flanges")
			case b.named(f.A).against == b.named(f.B), b.named(f.B).against == b.named(f.A):
				// a tab on the other's face: placed already
			default:
				b.problem(path, sizes.Quote(f.A)+" and "+sizes.Quote(f.B), "two flanges that meet at a corner, both as far as their side’s end")
			}
		}
	}
	for _, c := range b.corners {
		b.settle(c)
	}
}

func (b *builder) named(name string) *panel {
	for _, n := range b.panels {
		if n.at >= 0 && n.step == 0 && n.name == name {
			return n
		}
	}
	return nil
}

// endKid is the flange on a panel's free edge that reaches that edge's start (0) or end (1).
func (n *panel) endKid(end int) *panel {
	want := top
	if end == 1 {
		want = top + sideNo(len(n.flat)-1)
	}
	for _, k := range n.kids {
		if k.side == want && k.reaches(end) {
			return k
		}
	}
	return nil
}

// kidAt is the flange on a side that reaches its start (0) or end (1).
func (n *panel) kidAt(s sideNo, end int) *panel {
	for _, k := range n.kids {
		if k.side == s && k.reaches(end) {
			return k
		}
	}
	return nil
}

// round is a panel's sides in order, its own bend first.
func (n *panel) round() []sideNo {
	var out []sideNo
	if n.at < 0 {
		for i := range n.flat {
			out = append(out, sideNo(i))
		}
		return out
	}
	out = append(out, bottom, start)
	for i := range n.flat {
		out = append(out, top+sideNo(i))
	}
	return append(out, endSide)
}

// vertexCorners adds the corners at a panel's own corners, and those over its bend.
func (b *builder) vertexCorners(n *panel) {
	sides := n.round()
	for i, s := range sides {
		next := sides[(i+1)%len(sides)]
		if s != bottom && next != bottom {
			// Not where one of them carries a wall at this end: then that wall meets the other.
			if x, y := n.kidAt(s, 1), n.kidAt(next, 0); x != nil && y != nil && x.kidAt(endSide, 1) == nil && y.kidAt(start, 0) == nil {
				b.corners = append(b.corners, &corner{a: x, b: y, at: -1})
			}
			continue
		}
		// Over the bend: with the flange on the side of the panel below that lies next to it.
		on := n.parent
		below := on.round()
		for k, side := range below {
			if side != n.side {
				continue
			}
			if next == bottom { // n's end, then the panel below
				after := below[(k+1)%len(below)]
				if x, y := n.kidAt(s, 1), on.kidAt(after, 0); x != nil && y != nil && after != bottom && n.reaches(1) {
					b.corners = append(b.corners, &corner{a: x, b: y, over: n, at: -1})
				}
			} else {
				before := below[(k+len(below)-1)%len(below)]
				if x, y := on.kidAt(before, 1), n.kidAt(next, 0); x != nil && y != nil && before != bottom && n.reaches(0) {
					b.corners = append(b.corners, &corner{a: x, b: y, over: n, at: -1})
				}
			}
		}
	}
}

// settle decides how a corner closes.
func (b *builder) settle(c *corner) {
	c.gap, c.rel, c.relAt = b.gap, b.form.Relief, "sizes.relief"
	f := sizes.Corner{}
	if c.at >= 0 {
		f = b.form.Corners[c.at]
		c.gap = b.length(c.path+".gap", f.Gap, b.gap)
		b.atLeast(c.path+".gap", c.gap, 0, false)
		if f.Relief != nil {
			c.rel, c.relAt = *f.Relief, c.path+".relief"
		}
	}
	c.close = f.Close
	same := c.a.bend.Up == c.b.bend.Up
	na, nb := c.a.inner(), c.b.inner()
	flat := na.Cross(nb).Len() < sameTurn // the inner faces lie in one plane or side by side
	if c.close == sizes.Usual {
		switch {
		case !same:
			c.close = sizes.Apart
		case c.rim && (!c.mirrored() || c.carrying() != nil):
			c.close = sizes.Apart
		case flat, c.over != nil || c.rim:
			c.close = sizes.Mitre
		case c.tabbed() != nil: // one wall covers the other's end, as the tab lies
			c.close = sizes.Lap
			if f.Over = c.tabbed().against.name; c.tabbed().outer {
				f.Over = c.tabbed().parent.name
			}
		default:
			c.close = sizes.Edges
		}
	}
	if c.close == sizes.Apart {
		return
	}
	if !same {
		b.problem(c.where(), c.a.name+" and "+c.b.name+", one bent up and one down", "both bent the same way, or apart")
		return
	}
	if k := c.carrying(); k != nil && c.rim {
		b.problem(c.where(), "a closed corner at the end that carries "+k.name, "apart; or "+k.name+" on another side")
		return
	}
	switch c.close {
	case sizes.Lap:
		c.lap = c.a
		switch f.Over {
		case "", c.a.name:
		case c.b.name:
			c.lap = c.b
		default:
			b.problem(c.path+".over", sizes.Quote(f.Over), c.a.name+" or "+c.b.name)
		}
		c.past = b.length(c.path+".past", f.Past, 0)
	case sizes.Mitre:
		b.mitre(c)
	}
	if c.close != sizes.Mitre && flat {
		b.problem(c.where(), c.a.name+" and "+c.b.name+", whose faces never meet", "a mitre, or apart")
	}
}

// tabbed is a tab on one of the ends that meet at the corner, which lies on the other wall's face.
func (c *corner) tabbed() *panel {
	if k := c.carrying(); k != nil && (k.against == c.a || k.against == c.b) {
		return k
	}
	return nil
}

// carrying is a flange on one of the ends that meet at the corner, nil where both are free.
func (c *corner) carrying() *panel {
	for _, k := range c.a.kids {
		if k.side == endSide {
			return k
		}
	}
	for _, k := range c.b.kids {
		if k.side == start {
			return k
		}
	}
	return nil
}

func (c *corner) where() string {
	if c.path != "" {
		return c.path
	}
	return c.a.path + ".side"
}

// inner is the normal of a flange's inner face, out of the sheet.
func (n *panel) inner() geom.Vec3 {
	if n.bend.Up {
		return n.frame.Z
	}
	return n.frame.Z.Mul(-1)
}

// innerZ is that face's height in the sheet.
func (n *panel) innerZ() float64 {
	if n.bend.Up {
		return n.t
	}
	return 0
}

func (n *panel) dirIn() geom.Vec3 { return n.frame.Vector(vec3(n.bend.U)) }

func vec3(p geom.Vec2) geom.Vec3 { return geom.Vec3{p[0], p[1], 0} }

// mitre finds the plane between two flanges.
func (b *builder) mitre(c *corner) {
	da, db := c.a.dirIn(), c.b.dirIn()
	if o := c.over; o != nil {
		before := o.parent.frame.Vector(vec3(o.bend.N))
		after := o.frame.Vector(vec3(o.bend.N))
		p := before.Add(after)
		if p.Len() < sameTurn {
			b.problem(c.where(), "a mitre over a hem", "apart")
			return
		}
		c.p = p.Normalize()
		if c.p.Dot(da) < 0 { // from a to b
			c.p = c.p.Mul(-1)
		}
		z := b.t + o.bend.Radius
		if !o.bend.Up {
			z = -o.bend.Radius
		}
		q := o.bend.Q
		c.d = c.p.Dot(o.parent.frame.Point(geom.Vec3{q[0], q[1], z}))
		c.away = o.bend.Up != c.wall(c.a).bend.Up
		c.plane = true
		return
	}
	p := da.Add(db)
	if p.Len() < sameTurn {
		b.problem(c.where(), c.a.name+" and "+c.b.name+", which run against each other", "edge to edge, or apart")
		return
	}
	c.p = p.Normalize()
	// Through where the lines of the outside sharps pass each other most nearly.
	pa, pb := c.sharpLine(c.a), c.sharpLine(c.b)
	w := pa.Sub(pb)
	e := da.Dot(db)
	den := 1 - e*e
	var mid geom.Vec3
	if den < sameTurn {
		mid = c.a.frame.Point(vec3(c.a.point(c.a.long, 0)))
	} else {
		s := (e*db.Dot(w) - da.Dot(w)) / den
		u := (db.Dot(w) - e*da.Dot(w)) / den
		mid = pa.Add(da.Mul(s)).Add(pb.Add(db.Mul(u))).Mul(0.5)
	}
	c.d = c.p.Dot(mid)
	c.plane = true
}

// mirrored reports whether two rims lie about alike on both sides of the plane between them, so that their ends can meet along it.
func (c *corner) mirrored() bool {
	p := c.a.dirIn().Add(c.b.dirIn())
	if o := c.over; o != nil {
		p = o.parent.frame.Vector(vec3(o.bend.N)).Add(o.frame.Vector(vec3(o.bend.N)))
	}
	if p.Len() < sameTurn {
		return false
	}
	p = p.Normalize()
	na, nb := c.a.inner(), c.b.inner()
	if na.Sub(p.Mul(2*na.Dot(p))).Dot(nb) < rimsAlike {
		return false
	}
	// Their bends' sharps come to the plane at nearly one place.
	pa, pb, da, db := c.sharpLine(c.a), c.sharpLine(c.b), c.a.dirIn(), c.b.dirIn()
	w := pb.Sub(pa)
	if side := da.Cross(db); c.over == nil && side.Len() > leastAcross {
		return math.Abs(w.Dot(side.Normalize())) < c.a.t
	}
	at := 0.0
	if o := c.over; o != nil {
		q := o.bend.Q
		at = p.Dot(o.parent.frame.Point(geom.Vec3{q[0], q[1], 0}))
	} else {
		at = p.Dot(pa.Add(pb)) / 2
	}
	xa := pa.Add(da.Mul((at - p.Dot(pa)) / p.Dot(da)))
	xb := pb.Add(db.Mul((at - p.Dot(pb)) / p.Dot(db)))
	return xa.Sub(xb).Len() < rimsMeet*c.a.t
}

// sharpLine is a point of the line in which the outside faces meet at a flange's bend.
func (c *corner) sharpLine(n *panel) geom.Vec3 {
	z := n.t - n.innerZ() // the outside face
	p := n.point(0, -setback(n.angle, n.bend.Radius, n.t, sizes.Outside))
	return n.frame.Point(geom.Vec3{p[0], p[1], z})
}

// cornered reports whether a corner decides how a flange ends at its start (0) or end (1).
func (b *builder) cornered(n *panel, end int) bool {
	c := b.cornerAt(n, end)
	return c != nil && c.close != sizes.Apart && !n.hasKid(c.sideAt(n))
}

// cornerAt is the corner at a flange's start (0) or end (1), nil for none.
func (b *builder) cornerAt(n *panel, end int) *corner {
	for _, c := range b.corners {
		if end == 1 && c.a == n || end == 0 && c.b == n {
			return c
		}
	}
	return nil
}
