package screen

// This file holds the list of corners under Sizes: how the walls meet, and their reliefs.

import (
	"strings"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// closings are the ways in which walls meet, in the order of sizes.Closing.
var closings = [...]string{"as usual", "edge to edge", "lap", "mitre", "apart"}

// reliefs are the kinds of reliefs, in the order of sizes.ReliefKind.
var reliefs = [...]string{"snipped", "drilled", "sawn", "none"}

func (c *Screen) cornersBox() *node.Node {
	rows := c.S.Corners()
	if len(rows) == 0 {
		return nil
	}
	n := node.E("section.pad.parts", node.Key("corners"), node.E("h2", upper(count(len(rows), "corner"))))
	list := node.E("ul.items")
	for _, r := range rows {
		put(list, c.row(cornerItem(r.A, r.B), session.Title(r.A)+" and "+r.B, c.cornerWords(&r), false, func() []*node.Node { return c.cornerForm(&r) }))
	}
	put(n, list)
	return n
}

func cornerItem(a, b string) item { return item{kind: "corner", key: session.CornerField(a, b, "")} }

// cornerWords are a corner in one line: how it closes and what gap that leaves.
func (c *Screen) cornerWords(r *session.CornerRow) string {
	m := r.Made
	if m == nil {
		return closings[r.Corner.Close]
	}
	u := c.S.Units()
	words := closings[m.Close]
	if m.Close == sizes.Apart || !m.Measured {
		return words
	}
	return words + " · gap " + strings.TrimSuffix(gapWords(m, u), " all along")
}

func (c *Screen) cornerForm(r *session.CornerRow) []*node.Node {
	s, u := c.S, c.S.Units()
	a, b := r.A, r.B
	key := func(what string) string { return session.CornerField(a, b, what) }
	ways := node.E("div.ways", node.Key("ways"), node.A("role", "group"), node.A("aria-label", "How they meet"))
	for k, w := range closings {
		how := sizes.Closing(k)
		cls := "button"
		if r.Corner.Close == how {
			cls = "button.on"
		}
		drawn := how
		if how == sizes.Usual && r.Made != nil {
			drawn = r.Made.Close
		}
		put(ways, node.E(cls, node.A("type", "button"), node.A("aria-pressed", onOff(r.Corner.Close == how)), closingSketch(drawn), node.E("span", w), node.Click(func() { _ = s.SetClosing(a, b, how) })))
	}
	out := []*node.Node{ways, c.fault(key("close"))}
	if r.Corner.Close == sizes.Lap {
		out = append(out,
			c.either(key("over"), "Runs over the other", [][2]string{{a, a}, {b, b}}, r.Corner.Over, func(v string) error { return s.SetOver(a, b, v) }),
			c.cornerSize(r, "past", "Past the other’s face by"))
	}
	if r.Corner.Close == sizes.Mitre {
		out = append(out, c.either(key("plane"), "Over a bend", [][2]string{{"", "step told"}, {"plane", "one plane"}}, map[bool]string{true: "plane"}[r.Corner.InPlane], func(v string) error { return s.SetInPlane(a, b, v != "") }))
	}
	out = append(out, c.cornerSize(r, "gap", "Wanted gap"))
	if m := r.Made; m != nil && m.Close != sizes.Apart {
		list := [][2]string{{"Gap as made", gapWords(m, u)}}
		if places(m.Step, u) != places(0, u) {
			list = append(list, [2]string{"Step of the faces", places(m.Step, u)})
		}
		out = append(out, rows(list))
	}
	kinds := [][2]string{{"", "as all corners"}}
	now := ""
	for k, w := range reliefs {
		kinds = append(kinds, [2]string{w, w})
		if r.Corner.Relief != nil && int(r.Corner.Relief.Kind) == k {
			now = w
		}
	}
	out = append(out, c.choose(key("relief"), "Relief", kinds, now, func(v string) error { return s.SetCornerRelief(a, b, reliefNamed(v)) }))
	if r.Corner.Relief != nil {
		out = append(out, c.cornerSize(r, "relief.size", "Its size"))
	}
	if m := r.Made; m != nil {
		list := [][2]string{{"Relief as cut", reliefs[m.Relief] + ", " + places(m.Size, u)}, {"Least that does", places(m.Need, u)}, {"Light left", lightWords(m.Light, c)}}
		out = append(out, rows(list))
	}
	return out
}

// gapWords are a corner's gap as it was made.
func gapWords(m *shape.MadeCorner, u fold.Units) string {
	if !m.Measured {
		return "not measured: see Seams"
	}
	least, most := places(m.Least, u), places(m.Most, u)
	if least == most {
		return least + " all along"
	}
	return least + " to " + most
}

func reliefNamed(name string) *sizes.ReliefKind {
	for k, w := range reliefs {
		if w == name {
			kind := sizes.ReliefKind(k)
			return &kind
		}
	}
	return nil
}

// lightWords say what passes through a closed corner.
func lightWords(mm float64, c *Screen) string {
	if t := places(mm, c.S.Units()); t != places(0, c.S.Units()) {
		return "a ball of " + t + " passes"
	}
	return "none"
}

// cornerSize is a corner's field, whether the form has the corner yet or not.
func (c *Screen) cornerSize(r *session.CornerRow, what, label string) *node.Node {
	f := session.SizeField{Text: c.S.CornerText(r.A, r.B, what)}
	if r.At >= 0 {
		if own, ok := c.S.SizeField("sizes.corners[" + itoa(r.At) + "]." + what); ok {
			f = own
		}
	} else if what == "gap" {
		f, _ = c.S.SizeField("sizes.gap")
		f.Text, f.Given, f.Formula = "", false, false
	}
	return c.sizeField(session.CornerField(r.A, r.B, what), label, f, func(t string) error { return c.S.SetCornerField(r.A, r.B, what, t) })
}
