package screen

// This file holds what doubt is worth on this part, and what each bend takes of the
// sheet, with the drawing of both conventions of angle.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// worthShown is how many lines of doubt stand open; the rest fold.
const worthShown = 3

// worthBox tells what the numbers that nobody measured are worth on this part.
func (c *Screen) worthBox() *node.Node {
	s := c.S
	if len(s.Part().Bends) == 0 || !s.Part().Foldable {
		return nil
	}
	n := node.E("section.pad", node.Key("worth"), node.E("h2", "What doubt is worth here"))
	if !s.WorthKnown() {
		put(n, node.E("p.tro.checking.working", node.E("i.spin"), "Being worked out…"))
		return n
	}
	list := s.Worth()
	if len(list) == 0 {
		put(n, node.E("p", "Nothing that another number would change."))
		return n
	}
	line := func(i int) *node.Node {
		l := list[i]
		d := node.E("div.worth", node.Key(fmt.Sprint("w", i)), node.E("p", node.E("b", l.If), node.E("b.most", l.Most)))
		if l.Most == "" {
			put(d, node.E("p", upper(l.Made)+"."))
			return d
		}
		if l.Blank != "" {
			put(d, node.E("p", "Blank ", node.E("span.say", l.Blank), "; cut as it is, the part comes out ", node.E("span.say", l.Made), "."))
		} else {
			put(d, node.E("p", "Cut as it is, the part comes out ", node.E("span.say", l.Made), "."))
		}
		return d
	}
	var rest []*node.Node
	for i := range list {
		if i < worthShown || len(list) == worthShown+1 {
			put(n, line(i))
		} else {
			rest = append(rest, line(i))
		}
	}
	if len(rest) > 0 {
		put(n, more("smaller", fmt.Sprintf("Smaller ones (%d)", len(rest)), rest))
	}
	put(n, node.E("p.src", node.Key("why"), "Each line reckons this very part once more with the other number. Measured on a bent strip, the doubt goes."))
	return n
}

// sameBend gathers the bends that take the same of the sheet.
func sameBend(a, b fold.BendReport) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) < 1e-6 }
	return near(a.Angle, b.Angle) && near(a.Radius, b.Radius) && near(a.K, b.K) && a.KSource == b.KSource && a.RadiusFrom == b.RadiusFrom &&
		near(a.SetAngle, b.SetAngle) && a.SetSource == b.SetSource && near(a.SetDoubt, b.SetDoubt)
}

// bendTable is what each bend takes of the sheet.
func (c *Screen) bendTable() *node.Node {
	s := c.S
	u := s.Units()
	r := s.Report()
	if len(r.Bends) == 0 {
		return nil
	}
	n := node.E("section.pad", node.Key("bendtable"), node.E("h2", "What the bends take"), c.angles(r.Bends[0].Angle))
	t := node.E("tbody")
	done := map[int]bool{}
	for i, b := range r.Bends {
		if done[i] {
			continue
		}
		var with []string
		for k := i; k < len(r.Bends); k++ {
			if !done[k] && sameBend(b, r.Bends[k]) {
				done[k] = true
				with = append(with, r.Bends[k].Name)
			}
		}
		open := c.bendOpen == i+1
		put(t, node.E("tr", node.Key(fmt.Sprint(i)),
			node.E("th", node.A("scope", "row"), button("rowname", node.A("aria-expanded", fmt.Sprint(open)), icon("open"), node.E("span", session.Title(names(with, 1))), node.Click(func() {
				c.bendOpen = i + 1
				if open {
					c.bendOpen = 0
				}
			}))),
			node.E("td.ra", session.Degrees(b.Angle)+"°"),
			node.E("td.ra", places(b.Allowance, u)),
			node.E("td.ra", places(b.Setback, u)),
			node.E("td.ra", places(b.Deduction, u))))
		if open {
			put(t, node.E("tr.more", node.Key(fmt.Sprint("more", i)), node.E("td", node.A("colspan", "5"), c.bendFacts(b, with))))
		}
	}
	put(n, node.E("div.wide", node.E("table.takes", node.E("thead", node.E("tr",
		node.E("th", node.A("scope", "col"), "Bend"), node.E("th.ra", node.A("scope", "col"), "Bend angle"),
		node.E("th.ra", node.A("scope", "col"), "Allow-ance"), node.E("th.ra", node.A("scope", "col"), "Set-back"), node.E("th.ra", node.A("scope", "col"), "Deduc-tion"))), t)),
		node.E("p.src", node.Key("units"), "Lengths in "+unitWord(u)+". The allowance is the width of the bend on the blank; the setback reaches from its tangent line to the outside sharp, past 90° to the face itself; the deduction is what the outside sizes have too much. Tap a bend for K, radius and set angle."))
	return n
}

// unitWord is a unit within a sentence.
func unitWord(u fold.Units) string {
	if u == fold.Inch {
		return "inches"
	}
	return "mm"
}

// bendFacts is all that is known of one bend's numbers, each with its source.
func (c *Screen) bendFacts(b fold.BendReport, with []string) *node.Node {
	u := c.S.Units()
	dl := node.E("dl.sourced")
	fact := func(what, figure, source string) {
		put(dl, node.E("div", node.E("dt", what), node.E("dd", figure, node.E("small", upper(source)))))
	}
	if len(with) > 2 {
		put(dl, node.E("div.note", node.E("dt", "These "+fmt.Sprint(len(with))+" bends"), node.E("dd", session.Title(session.List(with)))))
	}
	included := session.Degrees(180-b.Angle) + "° included"
	if b.Angle > 180 {
		included = "folded back past flat"
	}
	fact("Bend angle", session.Degrees(b.Angle)+"°", included)
	from := b.RadiusFrom
	if from == "" {
		from = "assumed"
	}
	for _, w := range radiusWords {
		if w[0] == from {
			from = w[1]
		}
	}
	if b.RadiusFrom == "strip" {
		from = "measured by you, on a strip"
	}
	fact("Inside radius", places(b.Radius, u)+" "+u.String(), from)
	k := fmt.Sprintf("%.3f", b.K)
	if b.KSpread > 0 {
		k += fmt.Sprintf(" ± %.3f", b.KSpread)
	}
	fact("K", k, b.KSource)
	if b.MoldSetback != nil && math.Abs(*b.MoldSetback-b.Setback) > 1e-9 {
		fact("Setback to the outside sharp", places(*b.MoldSetback, u)+" "+u.String(), "kept with the tangent past 90°")
	}
	set := session.Degrees(b.SetAngle) + "°"
	if b.SetDoubt > 0 {
		set += " ± " + session.Degrees(b.SetDoubt) + "°"
	}
	fact("Set angle", set, b.SetSource)
	if l := b.SetLeast; l != nil {
		words := session.Degrees(l[0]) + "°"
		if session.Degrees(l[0]) != session.Degrees(l[1]) {
			words = session.Degrees(l[0]) + "° to " + session.Degrees(l[1]) + "°"
		}
		fact("By the springback formula", "at least "+words, b.SetLeastSource)
	}
	return dl
}

// angles draws both ways of giving a bend's angle.
func (c *Screen) angles(deg float64) *node.Node {
	const w, h, x, y, leg, r = 300.0, 128.0, 150.0, 106.0, 96.0, 40.0
	deg = min(deg, 150) // beyond that the two arcs would lie in each other
	deg = max(deg, 20)
	a := deg * math.Pi / 180
	at := func(t, r float64) string { return fmt.Sprintf("%.1f %.1f", x+r*math.Cos(t), y-r*math.Sin(t)) }
	text := func(cls string, t, r float64, anchor, words string) *node.Node {
		return node.E("text"+cls, node.A("x", fmt.Sprintf("%.1f", x+r*math.Cos(t))), node.A("y", fmt.Sprintf("%.1f", y-r*math.Sin(t)+5)), node.A("text-anchor", anchor), words)
	}
	return node.E("svg.angles", node.Key("angles"), node.A("viewBox", fmt.Sprintf("0 0 %g %g", w, h)), node.A("role", "img"),
		node.A("aria-label", "The bend angle is how far the sheet is turned from flat; the included angle is 180 degrees less it"),
		node.E("path.gl", node.A("d", fmt.Sprintf("M%g %gH%g", x, y, x+leg))),
		node.E("path.sheet", node.A("d", fmt.Sprintf("M%g %gL%g %gL%s", x-leg, y, x, y, at(a, leg)))),
		node.E("path.go", node.A("d", fmt.Sprintf("M%g %gA%g %g 0 0 0 %s", x+r, y, r, r, at(a, r)))),
		node.E("path.in", node.A("d", fmt.Sprintf("M%s A%g %g 0 0 0 %g %g", at(a, r*0.75), r*0.75, r*0.75, x-r*0.75, y))),
		text(".acc", a/2*0.8, r+8, "start", "bend angle"),
		text(".sm", a+(math.Pi-a)*0.6, r+4, "end", "included angle"))
}
