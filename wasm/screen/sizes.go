package screen

// This file holds the column under Sizes: what the part measures, and the ways to
// another part: one of one's own, or a ready one.

import (
	"fmt"

	"dryfold/render/scene"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

func (c *Screen) sizes() []*node.Node {
	switch {
	case c.S.BySizes():
		return []*node.Node{c.facts(), c.asked(), c.baseBox(), c.flangesBox(), c.cornersBox(), c.holesBox(), c.allBends(), c.namedBox(), c.cutBox(), c.blankBox(), c.startBox(), c.demos()}
	case c.Phone:
		return []*node.Node{c.facts(), c.startBox(), c.measures(), c.demos(), c.cutBox(), c.panels()}
	}
	return []*node.Node{c.facts(), c.measures(), c.startBox(), c.demos(), c.cutBox(), c.panels()}
}

// startBox holds the ways to a part of one's own.
func (c *Screen) startBox() *node.Node {
	n := node.E("section.start", node.Key("start"), node.E("h2", "Start your own"))
	if c.Phone {
		put(n, c.starters())
	} else {
		put(n, node.E("p.src", "Pick a shape from the shelf over the bench, and say its sizes."))
	}
	put(n, button("way-in", fileSketch(), node.E("span", node.E("b", "A part file"), node.E("small", "Pick one, or drop it on the page")),
		node.Click(c.Do.PickFile)))
	return n
}

// blankBox is what is known of the blank, and the way to a part that is given by it.
func (c *Screen) blankBox() *node.Node {
	n := c.measures()
	if c.S.Made() != nil {
		put(n, more("m-freeze", "Freeze to its blank",
			node.E("p", "The part is then given by its outline and bend lines; its sizes are no more to be edited. Undo brings them back."),
			button("b.line", "Freeze it", node.Click(func() {
				if err := c.S.Freeze(); err != nil {
					c.say(err)
					return
				}
				c.item, c.at = item{}, ""
				c.Tell("The part is given by its blank now. Undo brings its sizes back.")
			}))))
	}
	return n
}

// facts tells of the thing that was touched.
func (c *Screen) facts() *node.Node {
	f, ok := c.S.Facts()
	if !ok {
		return nil
	}
	name := f.Name
	if sel := c.S.Selected(); c.S.BySizes() && sel.Kind == scene.Edge {
		if side := c.edgeName(sel); side != "" {
			name = session.Title(side)
		}
	}
	return node.E("section.pad.picked", node.Key("picked"), node.A("aria-live", "polite"),
		node.E("h2", name, " ", node.E("small", f.Kind)), rows(f.Rows), c.offers())
}

func (c *Screen) measures() *node.Node {
	s := c.S
	u := s.Units()
	long, wide, high := s.FinishedSize()
	b := s.Report().Blank
	cell := func(k, v, unit string) *node.Node {
		return node.E("div", node.E("dt", k), node.E("dd", v, " ", node.E("small", unit)))
	}
	big := node.E("dl.cells")
	if s.Part().Foldable {
		put(big, cell("Long", session.Size(long, u), u.String()), cell("Wide", session.Size(wide, u), u.String()), cell("High", session.Size(high, u), u.String()))
	}
	mass, massUnit := "not known", ""
	if b.Mass != nil {
		mass, massUnit = session.Mass(*b.Mass)
	}
	area := fmt.Sprintf("%.4f m²", b.Area/1e6)
	if u.String() == "in" {
		area = fmt.Sprintf("%.1f sq in", b.Area/25.4/25.4)
	}
	list := [][2]string{
		{"Blank", session.Size(b.Width, u) + " × " + session.Size(b.Height, u) + " " + u.String()},
		{"Area", area + ", holes taken off"},
		{"Weight", mass + " " + massUnit},
		{"Bends", fmt.Sprintf("%d, in %s", len(s.Part().Bends), count(len(s.Part().Swings), "swing"))},
	}
	head := []any{node.Key("measures"), node.E("h2", "Finished, outside"), big}
	if !s.Part().Foldable {
		head = []any{node.Key("measures"), node.E("h2", "The blank")}
	}
	return node.E("section.pad", append(head, rows(list))...)
}

func (c *Screen) demos() *node.Node {
	n := node.E("section.pad.demos", node.Key("demos"), node.E("h2", "Ready parts to look at"))
	for _, d := range c.Demos {
		put(n, button("demo", node.E("b", d.Title), node.E("small", d.Note), node.Click(func() { c.Do.Demo(d.Name) })))
	}
	if len(c.Demos) == 0 {
		return nil
	}
	return n
}

// panels is the table of panels, with their names to change.
func (c *Screen) panels() *node.Node {
	s := c.S
	r := s.Report()
	if len(r.Panels) == 0 {
		return nil
	}
	n := node.E("section.pad", node.Key("panels"), node.E("h2", "Panels"))
	for i, p := range r.Panels {
		area := fmt.Sprintf("%.0f", p.Area/100)
		unit := "cm²"
		if s.Units().String() == "in" {
			area, unit = fmt.Sprintf("%.1f", p.Area/25.4/25.4), "sq in"
		}
		put(n, c.field(fmt.Sprintf("panel-%d-name", i), area+" "+unit, p.Name, "", func(t string) error { return s.SetPanelName(i, t) }, node.A("class", "text")))
	}
	return n
}

func fileSketch() *node.Node {
	return node.E("svg.sd", node.A("viewBox", "0 0 78 44"), node.A("aria-hidden", "true"),
		node.E("path.a", node.A("d", "M26 3h18l9 9v29H26Z")), node.E("path.c", node.A("d", "M44 3v9h9Z")))
}
