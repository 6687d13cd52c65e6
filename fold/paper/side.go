package paper

import (
	"fmt"
	"math"

	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// This file writes the column beside the drawing: in which order to lay out, how to prove it
// square, what to check, the kinds of line, and one bend's lines enlarged.

// side writes the column, bare without the bend's lines, and returns where it ends.
func (sh *sheet) side(s *draft.Page, bare bool, x, y float64) float64 {
	para := func(in float64, t string) {
		for _, l := range draft.Wrap(t, 2.8, sideWidth-1-in) {
			s.Text("note", draft.Start, geom.Vec2{x + in, y + 3}, l)
			y += 3.7
		}
	}
	head := func(t string) {
		s.Text("head", draft.Start, geom.Vec2{x, y + 4}, t)
		y += 6
	}
	row := func(label, value string, box bool) {
		s.Line("hair", geom.Vec2{x, y}, geom.Vec2{x + sideWidth, y})
		right := x + sideWidth
		if box {
			s.Box("box", right-3, y+0.9, 2.8, 2.8)
			right -= 5
		}
		s.Text("body", draft.Start, geom.Vec2{x, y + 3.3}, draft.Clip(label, textSize, right-x-2-draft.Width(value, textSize)*1.06))
		s.Text("bold", draft.End, geom.Vec2{right, y + 3.3}, value)
		y += rowHeight
	}
	m := &sh.m
	head("Lay out, in this order")
	for i, t := range sh.steps() {
		s.Text("dimb", draft.Start, geom.Vec2{x, y + 3}, fmt.Sprint(i+1))
		para(4.4, t)
	}
	y += 2
	head("Prove it square")
	row("Sheet, diagonals", m.say(math.Hypot(m.width, m.height)), false)
	for _, d := range sh.diagonals() {
		row(fmt.Sprintf("Corner %d to %d", d.a.no, d.b.no), m.say(d.d), false)
	}
	y += 2
	head("Check before bending")
	row("Marked, from A", m.say(m.width), true)
	row("Marked, from B", m.say(m.height), true)
	row("Thickness", sh.fine(sh.part.Thickness), true)
	y += 0.8
	para(0, "More: on the sheet “Check before bending”.")
	y += 1
	head("Lines")
	for _, l := range sh.legend() {
		s.Line(l.class, geom.Vec2{x, y + 2}, geom.Vec2{x + 10, y + 2})
		s.Text("note", draft.Start, geom.Vec2{x + 12.5, y + 3}, l.what)
		y += 4
	}
	if i, ok := sh.detailed(); ok && !bare {
		y = sh.detail(s, i, x, y+1)
	}
	return y
}

// steps are the order of marking in a few words each.
func (sh *sheet) steps() []string {
	m := &sh.m
	square := "Edges A and B: straight, and square to each other."
	along := [2]float64{3, 4} // up A, along B
	if m.height > m.width {
		along = [2]float64{4, 3}
	}
	for _, k := range []float64{1000, 500, 200, 100, 50, 20, 10, 8, 5, 4, 3, 2, 1, 0.5, 0.25} {
		if k*along[0] <= m.height && k*along[1] <= m.width {
			square = fmt.Sprintf("Edges A and B: straight, square (%s up A, %s along B: %s across).", trim(k*along[0], 2), trim(k*along[1], 2), trim(5*k, 2))
			break
		}
	}
	out := []string{square, "All figures from A,", "all figures from B: each from its edge, not from mark to mark."}
	n := len(m.contours[0])
	cut := fmt.Sprintf("Scribe corners 1 to %d.", n)
	if k := len(m.contours); k > 1 {
		last := m.contours[k-1]
		cut = fmt.Sprintf("Scribe corners 1 to %d, cutouts %d to %d.", n, n+1, last[len(last)-1].no)
	}
	out = append(out, cut)
	if n := len(m.holes); n == 1 {
		out = append(out, "Punch the hole’s centre, H1.")
	} else if n > 1 {
		out = append(out, fmt.Sprintf("Punch hole centres, H1 to H%d.", n))
	}
	if len(sh.part.Bends) > 0 {
		t := "Bend marks last, with a " + sh.pen() + "."
		if _, down := sh.byWay(); len(down) > 0 {
			t += " On the other face: " + few(down) + "."
		}
		out = append(out, t)
	}
	return append(out, "Check the diagonals. Then cut.")
}

type legendLine struct{ class, what string }

// legend are the kinds of line that the drawing has, but for those of bends, which detail shows.
func (sh *sheet) legend() []legendLine {
	out := []legendLine{{"outline", "cut: scribe"}}
	if len(sh.m.holes) > 0 {
		out = append(out, legendLine{"centre", "middle of a hole"})
	}
	return append(out, legendLine{"diagonal", "diagonal to measure"}, legendLine{"datum", "datum edge A or B"})
}

// detailed is the bend whose lines are shown enlarged: the first on the cards, or the first of which mark and middle
// don't nearly meet.
func (sh *sheet) detailed() (bend int, ok bool) {
	all := sh.byCard()
	for _, i := range all {
		b := &sh.part.Bends[i]
		if d := math.Abs(b.Radius - b.Allowance/2); d > 0.15*max(b.Allowance, b.Radius) && !sh.hem(i) {
			return i, true
		}
	}
	if len(all) == 0 {
		return 0, false
	}
	return all[0], true
}

// detailHigh is how high detail is at most.
const detailHigh = 32.0

// detail draws a bend's lines enlarged, with their distances from the held tangent line. It returns where it ends.
func (sh *sheet) detail(s *draft.Page, i int, x, y float64) float64 {
	b := &sh.part.Bends[i]
	s.Text("head", draft.Start, geom.Vec2{x, y + 4}, "Lines of bend "+sh.cards[i])
	y += 6.5
	type mark struct {
		class, what string
		s           float64
	}
	marks := []mark{{"tangent", "held tangent line", 0}, {"bendline", "middle", b.Allowance / 2}, {"sight", "mark: sight line", b.Radius}, {"tangent", "far tangent line", b.Allowance}}
	geom.SortStable(marks, func(a, b mark) int {
		switch {
		case a.s < b.s:
			return -1
		case a.s > b.s:
			return 1
		}
		return 0
	})
	const wide, high, over = 13.0, 9.5, 2.0
	k := high / max(b.Allowance, b.Radius, 1e-9)
	bottom := y + over + high
	s.Box("sheet", x, y, wide, high+2*over)
	at, size := make([]float64, len(marks)), make([]float64, len(marks))
	for n, m := range marks {
		at[n], size[n] = m.s*k, 3.8
	}
	label := spread(at, size, math.Inf(-1))
	for n, m := range marks {
		line, text := bottom-at[n], bottom-label[n]
		s.Line(m.class, geom.Vec2{x, line}, geom.Vec2{x + wide, line})
		s.Line("leader", geom.Vec2{x + wide + 0.3, line}, geom.Vec2{x + wide + 2.2, text})
		style := "note"
		if m.class == "sight" {
			style = "dimb"
		}
		s.Text(style, draft.Start, geom.Vec2{x + wide + 2.8, text + 1}, m.what)
		s.Text(style, draft.End, geom.Vec2{x + sideWidth, text + 1}, sh.say2(m.s))
	}
	low := max(bottom+over, bottom-label[0]+2)
	s.Text("small", draft.Start, geom.Vec2{x, low + 3}, draft.Clip("held side below: "+sh.part.Panels[b.A].Name, smallSize, sideWidth))
	return low + 4
}

// diagonals are pairs of corners far apart along the blank's two diagonal
// directions, with their distances in printed units: the blank's farthest, and those next to the base panel's corners.
type diagonal struct {
	a, b corner
	d    float64
}

func (sh *sheet) diagonals() []diagonal {
	c := sh.m.contours[0]
	var out []diagonal
	add := func(a, b corner) {
		for _, d := range out {
			if d.a.no == a.no && d.b.no == b.no || d.a.no == b.no && d.b.no == a.no {
				return
			}
		}
		if a.no != b.no {
			out = append(out, diagonal{a, b, math.Hypot(b.exact[0]-a.exact[0], b.exact[1]-a.exact[1])})
		}
	}
	for _, dir := range []geom.Vec2{{sh.m.height, sh.m.width}, {sh.m.height, -sh.m.width}} {
		lo, hi := c[0], c[0]
		for _, k := range c {
			if k.exact.Dot(dir) < lo.exact.Dot(dir)-1e-9 {
				lo = k
			}
			if k.exact.Dot(dir) > hi.exact.Dot(dir)+1e-9 {
				hi = k
			}
		}
		add(lo, hi)
	}
	// The corners nearest to those of the base panel's box, where they are four.
	box := geom.EmptyBox2()
	for _, v := range sh.part.Panels[sh.part.Base].Region.Outer {
		box.Add(v.Sub(sh.part.Blank.Box.Min).Mul(1 / sh.m.units.Scale()))
	}
	near := func(x, y float64) corner {
		best := c[0]
		for _, k := range c {
			if k.exact.Sub(geom.Vec2{x, y}).Len() < best.exact.Sub(geom.Vec2{x, y}).Len()-1e-9 {
				best = k
			}
		}
		return best
	}
	if len(c) > 3 {
		add(near(box.Min[0], box.Min[1]), near(box.Max[0], box.Max[1]))
		add(near(box.Max[0], box.Min[1]), near(box.Min[0], box.Max[1]))
	}
	return out
}
