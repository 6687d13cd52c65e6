package screen

// This file says what of a part by sizes was touched on the bench, and offers what can be
// done there: a flange on a free side, a hole, how a corner closes.

import (
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
	"dryfold/render/scene"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// Tapped takes what was touched on the bench.
func (c *Screen) Tapped(h scene.Hit) {
	c.touched, c.touchedAt = h.Select, h.At
	if h.Mark >= 0 {
		c.TouchSize(h.Mark)
		return
	}
	c.S.Select(h.Select)
	if h.Kind == scene.Seam && !c.S.ViewOnly() && !(c.S.BySizes() && c.S.Word() == session.Sizes) {
		c.S.SetWord(session.Seams)
		c.S.Select(h.Select)
	}
}

// offers are what can be done with what was touched; nil where there is nothing.
func (c *Screen) offers() *node.Node {
	s := c.S
	if !s.BySizes() || s.Word() != session.Sizes {
		return nil
	}
	n := node.E("div.acts", node.Key("offers"))
	sel := s.Selected()
	flange := func(i int) {
		if i < 0 {
			put(n, c.opener("Its sizes", item{kind: "base"}))
			return
		}
		put(n, c.opener("Its sizes", item{kind: "flange", i: i}))
	}
	switch sel.Kind {
	case scene.Panel:
		flange(s.PanelFlange(sel.Index))
		put(n, button("b.line", "Add a hole here", node.Click(func() {
			at := s.Part().Panels[sel.Index].Label
			if c.touched == sel {
				at = c.touchedAt
			}
			c.drilled(s.AddHoleAt(sel.Index, at))
		})))
	case scene.Bend:
		flange(s.BendFlange(sel.Index))
	case scene.Hole, scene.Cutout:
		if i := s.HoleOf(sel); i >= 0 {
			put(n, c.opener("Its sizes", item{kind: "hole", i: i}))
		}
	case scene.Seam:
		if a, b, ok := s.SeamCorner(sel.Index); ok {
			put(n, c.opener("How it closes", cornerItem(a, b)))
		}
	case scene.Edge:
		on, side, ok := c.sideAt(sel)
		if !ok {
			return nil
		}
		for _, x := range s.Sides(on) {
			if x.Side == side && x.Flange < 0 {
				put(n, button("b.main", "Raise a flange here", node.Click(func() { c.raise(on, side) })))
			}
		}
		if i := slices.IndexFunc(s.Form().Flanges, func(l sizes.Flange) bool { return l.Name == on }); i >= 0 || on == c.baseName() {
			flange(i)
		}
	}
	if len(n.Kids) == 0 {
		return nil
	}
	return n
}

// opener opens an item of the form's lists and brings it into sight.
func (c *Screen) opener(words string, it item) *node.Node {
	return button("b.line", words, node.Click(func() {
		c.openItem(it)
		c.Reveal = it.id()
	}))
}

// sideAt is the side of the form that a free edge of the blank belongs to: the panel's name and the side's. ok is false
// where it is none: an edge of a relief, a cutout.
func (c *Screen) sideAt(sel scene.Select) (on, side string, ok bool) {
	p := c.S.Part()
	if sel.Contour != 0 || c.S.Made() == nil {
		return "", "", false
	}
	for i := range p.Panels {
		pn := &p.Panels[i]
		for k, e := range pn.Edges[0] {
			if !e.Free() || e.Contour != 0 || e.Index != sel.Index {
				continue
			}
			if fl := c.S.PanelFlange(i); fl >= 0 {
				return c.S.Form().Flanges[fl].Name, c.flangeSide(pn, k), true
			}
			side := c.baseSide(pn, k)
			return c.baseName(), side, side != ""
		}
	}
	return "", "", false
}

// flangeSide is the side of a flange that edge k of its panel is of: "start", "top" or "end", as one goes round it
// counter-clockwise from its bend.
func (c *Screen) flangeSide(pn *fold.Panel, k int) string {
	b := &c.S.Part().Bends[pn.Parent]
	out := pn.Region.Outer
	a, q := out[k], out[(k+1)%len(out)]
	along := geom.Vec2{-b.N[1], b.N[0]} // counter-clockwise round the panel it stands on
	most := 0.0
	for _, v := range out {
		_, s := b.Coord(v)
		most = max(most, s)
	}
	_, sa := b.Coord(a)
	_, sq := b.Coord(q)
	d := q.Sub(a).Normalize()
	switch {
	case min(sa, sq) > (b.Allowance+most)/2 && d.Dot(along) > .5:
		return "top"
	case (d.Dot(b.N) > 0) != c.S.Form().Mirror:
		return "start"
	}
	return "end"
}

// baseSide is the side of the base that edge k of its panel is of. Of four sides it is told by where the edge looks;
// of others by the sides before it on which flanges stand. "" where it can't be told.
func (c *Screen) baseSide(pn *fold.Panel, k int) string {
	out := pn.Region.Outer
	sides := c.S.Sides(c.baseName())
	d := out[(k+1)%len(out)].Sub(out[k])
	if len(sides) == 4 {
		i := int(math.Round(math.Atan2(d[1], d[0])/(math.Pi/2))+4) % 4 // front runs along x, then counter-clockwise
		if c.S.Form().Mirror && i%2 == 1 {
			i = 4 - i
		}
		return sides[i].Side
	}
	if c.S.Form().Mirror {
		return ""
	}
	free := 0
	for j := 1; j <= len(out); j++ {
		at := (k - j + len(out)) % len(out)
		e := pn.Edges[0][at]
		if !e.Free() {
			fl := c.S.BendFlange(e.Bend)
			for i, x := range sides {
				if x.Flange == fl && fl >= 0 {
					return sides[(i+1+free)%len(sides)].Side
				}
			}
			return ""
		}
		if out[(at+1)%len(out)].Sub(out[at]).Len() > d.Len()/3 {
			free++
		}
	}
	return ""
}

// edgeName calls an edge by its side, "" where it is of none.
func (c *Screen) edgeName(sel scene.Select) string {
	on, side, ok := c.sideAt(sel)
	switch {
	case !ok:
		return ""
	case strings.HasPrefix(side, "top"), side == "start", side == "end":
		return side + " of " + on
	}
	return side + " side of " + on
}
