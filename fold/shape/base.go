package shape

// This file lays out the base: the lines that were measured, and its sides' names.

import (
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// wallNames are the sides of a floor with four of them, in order, and what starters call the walls on them.
var wallNames = [4]string{"front", "right", "back", "left"}

// sideNames are the names of the base's sides, in order.
func (b *builder) sideNames() []string {
	n := len(b.base.flat)
	names := make([]string, n)
	for k := range names {
		i := k // as given
		if b.reversed {
			i = n - 1 - k
		}
		switch {
		case i < len(b.form.Base.Sides) && strings.TrimSpace(b.form.Base.Sides[i]) != "":
			names[k] = b.form.Base.Sides[i]
		case n == 4:
			names[k] = wallNames[i]
		default:
			names[k] = fmt.Sprintf("side %d", i+1)
		}
	}
	return names
}

// sidesAsGiven are the base's sides by name, in the form's order.
func (b *builder) sidesAsGiven() []string {
	names := b.sideNames()
	if b.reversed {
		slices.Reverse(names)
	}
	return names
}

// outlineOfBase lays out the base as measured.
func (b *builder) outlineOfBase() {
	f := &b.form.Base
	var lines []sideLine
	switch {
	case f.Measured != nil:
		if len(f.Points) > 0 || f.Wide.Given || f.Long.Given {
			b.problem("sizes.base.measured", "a base given in two ways", "one of them alone")
			return
		}
		pts, notes, problems := measuredBase(f.Measured, b.spec.Units, b.reading)
		b.problems = append(b.problems, problems...)
		for _, m := range notes {
			severity := fold.Note
			if m.Watch {
				severity = fold.Watch
			}
			b.notes = append(b.notes, fold.Trouble{Severity: severity, Rule: "misfit", Kind: "panel", Name: b.base.name, Message: m.Text})
		}
		lines = around(pts)
	case len(f.Points) > 0:
		lines = b.drawnBase()
	default:
		wide := b.length("sizes.base.wide", f.Wide, 0)
		back := b.length("sizes.base.wide_back", f.WideBack, wide)
		long := b.length("sizes.base.long", f.Long, 0)
		b.atLeast("sizes.base.wide", wide, 0, true)
		b.atLeast("sizes.base.wide_back", back, 0, true)
		b.atLeast("sizes.base.long", long, 0, true)
		lines = around([]geom.Vec2{{-wide / 2, 0}, {wide / 2, 0}, {back / 2, long}, {-back / 2, long}})
	}
	if b.failed() {
		return
	}
	b.base.flat = lines
	names := b.sideNames()
	for i, name := range names {
		if slices.Index(names, name) < i {
			b.problem(fmt.Sprintf("sizes.base.sides[%d]", i), sizes.Quote(name)+" again", "a name that no other side has")
		}
	}
}

// reading is a measured field's number in mm, or degrees under angles; false where it has
// none, which is told.
func (b *builder) reading(path string, f sizes.Field) (float64, bool) {
	before := len(b.problems)
	var x float64
	if strings.Contains(path, "angles") {
		x = b.num(path, f, 0)
	} else {
		x = b.length(path, f, 0)
	}
	return x, len(b.problems) == before
}

func around(pts []geom.Vec2) []sideLine {
	var lines []sideLine
	for i, p := range pts {
		lines = append(lines, sideLine{a: p, b: pts[(i+1)%len(pts)]})
	}
	return lines
}

// drawnBase is a base given by its corners, turned counter-clockwise.
func (b *builder) drawnBase() []sideLine {
	pts := b.form.Base.Points
	if len(pts) < 3 {
		b.problem("sizes.base.points", fmt.Sprintf("%d corners", len(pts)), "at least 3")
		return nil
	}
	at := make([]geom.Vec2, len(pts))
	by := make([]*geom.Vec2, len(pts)) // of the edge that ends here
	for i, p := range pts {
		path := fmt.Sprintf("sizes.base.points[%d]", i)
		at[i][0], at[i][1] = b.point(path, p)
		if p.Through {
			var t geom.Vec2
			t[0], t[1] = b.through(path, p)
			by[i] = &t
		}
		if i > 0 && at[i].Sub(at[i-1]).Len() < leastLine {
			b.problem(path, "the corner before again", "a corner further on")
		}
	}
	var lines []sideLine
	for i, p := range at {
		j := (i + 1) % len(at)
		lines = append(lines, sideLine{a: p, b: at[j], through: by[j]})
	}
	for _, p := range checkLines(lines, func(i int) string { return fmt.Sprintf("sizes.base.points[%d]", i) }) {
		b.problem(p.Path, p.Found, p.Need)
	}
	if p, _ := pieces(lines); geom.Loop(p).Area() < 0 { // the side between two corners keeps its place in the list
		for i := range lines {
			lines[i].a, lines[i].b = lines[i].b, lines[i].a
		}
		slices.Reverse(lines)
		b.reversed = true
	}
	return lines
}
