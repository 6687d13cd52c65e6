package spread

// This file holds the cut edges that can lie off their place.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// edge gives the cut edge of a panel from p to q, which may be a stretch of it. What runs straight round the blank
// is one cut, whatever panels it runs along.
func (c *causes) edge(panel int, p, q geom.Vec2) int {
	a, b := from2(p), from2(q)
	d := b.sub(a).unit()
	out := vec2{d.y, -d.x}
	contour, first := c.contour(panel, a.plus(b.sub(a), 0.5))
	for i := range c.cuts {
		x := &c.cuts[i]
		if (x.panel == panel && contour < 0 || contour >= 0 && x.contour == contour && x.first == first) &&
			x.out.dot(out) > 1-1e-9 && math.Abs(a.sub(x.p).dot(x.out)) <= onLine {
			return i
		}
	}
	x := cutEdge{panel: panel, contour: contour, first: first, p: a, q: b, out: out}
	x.plus = c.cutPlus(panel, a, out)
	x.cause = c.add(cause{kind: byCut, name: "cut edges", plus: x.plus, cut: len(c.cuts)})
	c.cuts = append(c.cuts, x)
	return len(c.cuts) - 1
}

// across is how far a panel reaches behind an edge at a, and whether it ends there at a bend.
func (c *causes) across(panel int, a, out vec2) (size float64, bend bool) {
	p := &c.part.Panels[panel]
	loop := p.Region.Outer
	for _, r := range loop {
		size = max(size, -from2(r).sub(a).dot(out))
	}
	for i, r := range loop {
		q, next := from2(r), from2(loop[(i+1)%len(loop)])
		if p.Edges[0][i].Bend >= 0 && min(-q.sub(a).dot(out), -next.sub(a).dot(out)) > size-farSide*max(size, 1) {
			bend = true
		}
	}
	return size, bend
}

// contour finds the straight cut of the blank on which a panel's edge lies: the contour, as fold.Edge counts, and the corner
// of it from which it runs straight on, over any corners that the file has on the way. -1 where it is none.
func (c *causes) contour(panel int, at vec2) (contour, first int) {
	p := &c.part.Panels[panel]
	m := geom.Vec2{at.x, at.y}
	for k, l := range p.Region.Loops() {
		for i, q := range l {
			e := p.Edges[k][i]
			if !e.Free() || e.Contour < 0 || e.Arc {
				continue
			}
			if d, _ := geom.SegmentDistance(m, q, l[(i+1)%len(l)]); d <= onLine {
				return e.Contour, c.straight(e, m)
			}
		}
	}
	return -1, -1
}

// straight is the corner of a free edge's contour from which it runs straight through m, a point of the edge; -1 where m does not lie on it.
func (c *causes) straight(e fold.Edge, m geom.Vec2) int {
	key := [2]int{e.Contour, e.Index}
	first, ok := c.firsts[key]
	if !ok {
		first = c.follow(e.Contour, m)
		c.firsts[key] = first
	}
	return first
}

// follow is straight, looked for all along the contour.
func (c *causes) follow(contour int, m geom.Vec2) int {
	l := c.part.Outline
	if contour > 0 {
		if contour > len(c.part.Voids) {
			return -1
		}
		l = c.part.Voids[contour-1]
	}
	n := len(l)
	for i, q := range l {
		r := l[(i+1)%n]
		if d, _ := geom.SegmentDistance(m, q, r); d > onLine || q == r {
			continue
		}
		d := from2(r).sub(from2(q)).unit()
		for range n {
			j := (i + n - 1) % n
			back := from2(l[i]).sub(from2(l[j]))
			if math.Abs(back.cross(d)) > onLine || back.dot(d) < 0 {
				break
			}
			i = j
		}
		return i
	}
	return -1
}

// cutPlus is how far an edge of a panel may be out. The tables speak of sizes: one from a bend line to a cut edge is out by that edge, one
// between two cut edges by both, each then by the root of a half.
func (c *causes) cutPlus(panel int, a, out vec2) float64 {
	s := &c.part.Spec
	if own, ok := given(s.Errors.Cut, s.Units.Scale(), 1000); ok {
		return own
	}
	cl, _ := class(s.Errors.CutClass, cutClass)
	size, bend := c.across(panel, a, out)
	plus := look(linear, size, cl)
	if !bend {
		plus /= math.Sqrt2
	}
	return plus
}

// tellCuts tells of the cut edges that were taken in.
func (c *causes) tellCuts() {
	if len(c.cuts) == 0 {
		return
	}
	s := &c.part.Spec
	low, high := math.Inf(1), 0.0
	for i := range c.cuts {
		v := c.cuts[i].plus
		low, high = min(low, v), max(high, v)
	}
	r := fold.ErrorReport{Name: "cut edge", Low: low, High: high, Unit: "mm"}
	if _, ok := given(s.Errors.Cut, s.Units.Scale(), 1000); ok {
		r.Source, r.Kind, r.Given = "your own figure", "yours", true
	} else {
		r.Class, r.Given = class(s.Errors.CutClass, cutClass)
		r.Kind = "published"
		r.Source = fmt.Sprintf("ISO 2768-1, table 1, class %s, by the panel's size square to the edge; of a size between two cut edges each makes half the variance", r.Class)
	}
	c.told = append(c.told, r)
}
