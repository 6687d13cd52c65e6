package paper

// This file writes the panels' names on a drawing of the blank, and finds room for labels inside panels.

import (
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// nameTries is how many places along each side of a panel's box are tried for its name.
const nameTries = 15

// panelNames writes each panel's name in it, small and light, upright where it is narrow, clear of all that a placer has; the
// name of a panel without room stands beside the metal with a leader, or is left out. at carries a point of the blank (mm, file axes)
// to the paper. faint are lines that a name keeps off where it can.
func panelNames(s *draft.Page, p *fold.Part, at func(geom.Vec2) geom.Vec2, pl *placer, faint ...ink) {
	if len(p.Panels) > maxNumbered {
		return
	}
	s.Group("panels")
	defer s.End()
	size := draft.Styles["panel"].Size
	for i := range p.Panels {
		q := &p.Panels[i]
		half := geom.Vec2{draft.Width(q.Name, size)/2 + 0.3, size*0.45 + 0.2}
		c, ok := roomInPanel(q, at, &placer{slices.Concat(faint, pl.lines), pl.boxes, pl.limit}, half)
		if !ok {
			c, ok = roomInPanel(q, at, pl, half)
		}
		if ok {
			pl.boxes = append(pl.boxes, around(c, half[0], half[1]))
			s.Text("panel", draft.Middle, c.Add(geom.Vec2{0, size * 0.34}), q.Name)
			continue
		}
		if c, ok := roomInPanel(q, at, pl, geom.Vec2{half[1], half[0]}); ok {
			pl.boxes = append(pl.boxes, around(c, half[1], half[0]))
			s.Turned("panel", 90, draft.Middle, c.Add(geom.Vec2{size * 0.34, 0}), q.Name)
			continue
		}
		label := at(q.Label)
		sp, ok := pl.near(label, 2*half[0], 2*half[1])
		if !ok {
			continue
		}
		if onBlank(p, at, sp.box) { // it would seem to name another panel
			pl.boxes = pl.boxes[:len(pl.boxes)-1]
			continue
		}
		s.Line("leader", label, sp.from)
		s.Text("panel", draft.Middle, sp.centre().Add(geom.Vec2{0, size * 0.34}), q.Name)
	}
}

// roomInPanel finds the free place for a box of half sizes inside a panel that is nearest to its middle.
func roomInPanel(q *fold.Panel, at func(geom.Vec2) geom.Vec2, pl *placer, half geom.Vec2) (centre geom.Vec2, ok bool) {
	box := geom.EmptyBox2()
	var loops [][]geom.Vec2
	for _, l := range q.Region.Loops() {
		var on []geom.Vec2
		for _, v := range l {
			on = append(on, at(v))
		}
		loops = append(loops, on)
	}
	if len(loops) == 0 {
		return centre, false
	}
	for _, v := range loops[0] {
		box.Add(v)
	}
	low, high := box.Min.Add(half), box.Max.Sub(half) // where its middle may lie
	if low[0] > high[0] || low[1] > high[1] {
		return centre, false
	}
	near := pl.within(box)
	for _, l := range loops { // a panel's edges are not all lines of the drawing
		for i, v := range l {
			near.lines = append(near.lines, ink{v, l[(i+1)%len(l)], -1})
		}
	}
	middle, best := at(q.Label), math.Inf(1)
	for i := range nameTries * nameTries {
		t := geom.Vec2{float64(i%nameTries) + 0.5, float64(i/nameTries) + 0.5}.Mul(1.0 / nameTries)
		c := geom.Vec2{low[0] + (high[0]-low[0])*t[0], low[1] + (high[1]-low[1])*t[1]}
		if d := c.Sub(middle).Len(); d < best && inside(loops, c) && near.free(around(c, half[0], half[1])) {
			best, centre, ok = d, c, true
		}
	}
	return centre, ok
}

// inside reports whether a point lies in the first of some loops and in none of the others.
func inside(loops [][]geom.Vec2, p geom.Vec2) bool {
	for i, l := range loops {
		if geom.Loop(l).Contains(p) != (i == 0) {
			return false
		}
	}
	return true
}

// onBlank reports whether a box on paper covers metal, by its corners and middle.
func onBlank(p *fold.Part, at func(geom.Vec2) geom.Vec2, b geom.Box2) bool {
	var l geom.Loop
	for _, v := range p.Outline {
		l = append(l, at(v))
	}
	for _, v := range []geom.Vec2{b.Min, b.Max, {b.Min[0], b.Max[1]}, {b.Max[0], b.Min[1]}, b.Min.Add(b.Max).Mul(0.5)} {
		if l.Contains(v) {
			return true
		}
	}
	return false
}
