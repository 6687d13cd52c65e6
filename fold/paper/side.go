package paper

import (
	"fmt"
	"math"

	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// side writes the column beside the drawing: how to lay out, how to prove it
// square, what to check, and the kinds of line.
// It returns where it ends.
func (sh *sheet) side(s *draft.Page, x, y float64) float64 {
	para := func(t string) {
		for _, l := range draft.Wrap(t, textSize, sideWidth-1) {
			s.Text("body", draft.Start, geom.Vec2{x, y + 3}, l)
			y += 4.1
		}
		y += 0.8
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
		s.Text("body", draft.Start, geom.Vec2{x, y + 3.3}, label)
		s.Text("bold", draft.End, geom.Vec2{right, y + 3.3}, value)
		y += rowHeight
	}
	m := &sh.m
	head("Lay out")
	para("Take a sheet with edges A and B straight and square. Measure everything from A and from B, never from mark to mark.")
	head("Prove it square")
	row("Sheet, both diagonals", m.say(math.Hypot(m.width, m.height)), false)
	for _, d := range sh.diagonals() {
		row(fmt.Sprintf("Corner %d to %d", d.a.no, d.b.no), m.say(d.d), false)
	}
	y += 2.5
	head("Check before bending")
	row("From A, overall", m.say(m.width), true)
	row("From B, overall", m.say(m.height), true)
	row("Thickness", sh.fine(sh.part.Thickness), true)
	y += 2.5
	head("Lines")
	for _, l := range []struct{ class, what string }{
		{"outline", "cut"}, {"bendline", "middle of a bend"}, {"tangent", "edge of a bend"}, {"centre", "middle of a hole"},
		{"diagonal", "diagonal to measure"}, {"datum", "datum edge A or B"}} {
		if l.class == "centre" && len(m.holes) == 0 {
			continue
		}
		s.Line(l.class, geom.Vec2{x, y + 2}, geom.Vec2{x + 10, y + 2})
		s.Text("body", draft.Start, geom.Vec2{x + 13, y + 3}, l.what)
		y += 4.3
	}
	return y
}
