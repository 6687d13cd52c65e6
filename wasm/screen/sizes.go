package screen

// This file holds the column under Sizes: what the part measures, and the ways to
// another part: one of one's own, or a ready one.

import (
	"fmt"

	"dryfold/fold/metal"
	"dryfold/fold/shape"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

func (c *Screen) sizes() []*node.Node {
	return []*node.Node{
		c.facts(),
		c.measures(),
		node.E("section.start", node.Key("start"),
			node.E("h2", "Start your own"),
			button("way-in", traySketch(), node.E("span", node.E("b", "Tray or pan"), node.E("small", "From tape sizes: four walls, square or leaning")),
				node.Click(func() { c.S.StartOwn(); c.turn("home") })),
			button("way-in", fileSketch(), node.E("span", node.E("b", "A part file"), node.E("small", "Pick one, or drop it on the page")),
				node.Click(c.Do.PickFile))),
		c.demos(),
		c.panels(),
	}
}

// facts tells of the thing that was touched.
func (c *Screen) facts() *node.Node {
	f, ok := c.S.Facts()
	if !ok {
		return nil
	}
	return node.E("section.pad.picked", node.Key("picked"), node.A("aria-live", "polite"),
		node.E("h2", f.Name, " ", node.E("small", f.Kind)), rows(f.Rows))
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

// draft is the column while a tray is made up.
func (c *Screen) draft() []*node.Node {
	s := c.S
	d := s.Draft()
	z := d.Sizes
	u := s.Units().String()
	length := func(path, label string) *node.Node {
		return c.field(session.DraftField(path), label, s.DraftText(path), u, func(t string) error { return s.SetDraft(path, t) })
	}
	choose := func(label string, list [][2]string, now string, set func(*shape.PanSizes, string)) *node.Node {
		return node.E("div.fr", node.E("span", label), seg(label, list, now, func(v string) {
			_ = s.ChangeDraft(func(z *shape.PanSizes) { set(z, v) }) // what is wrong stands under its field
		}))
	}
	level := "floor"
	where := " at the floor"
	if z.Level == shape.AtTop {
		level, where = "top", " at the top"
	}
	if z.Lean == 0 && z.Rim == shape.PlainRim {
		where = ""
	}
	side := "inside"
	if z.Outside {
		side = "outside"
	}
	rim := [...]string{"plain", "lip", "hem"}[z.Rim]
	form := []*node.Node{
		node.E("h2.title", "Tray"),
		length("length", "Long"+where),
		length("width_front", "Wide"+where+", front"),
		length("width_back", "Wide"+where+", back"),
		length("depth", "High"),
		c.field(session.DraftField("lean"), "Walls lean out", s.DraftText("lean"), "°", func(t string) error { return s.SetDraft("lean", t) }),
		choose("Measured", [][2]string{{"outside", "outside"}, {"inside", "inside"}}, side, func(z *shape.PanSizes, v string) { z.Outside = v == "outside" }),
	}
	if z.Lean != 0 || z.Rim != shape.PlainRim {
		form = append(form, choose("Long and wide", [][2]string{{"top", "at the top"}, {"floor", "at the floor"}}, level, func(z *shape.PanSizes, v string) {
			z.Level = shape.AtFloor
			if v == "top" {
				z.Level = shape.AtTop
			}
		}))
	}
	form = append(form, choose("Top edge", [][2]string{{"plain", "plain"}, {"lip", "lip"}, {"hem", "hem"}}, rim, func(z *shape.PanSizes, v string) {
		z.Rim = map[string]shape.Rim{"plain": shape.PlainRim, "lip": shape.LipRim, "hem": shape.HemRim}[v]
	}))
	switch z.Rim {
	case shape.LipRim:
		form = append(form, length("rim_width", "Lip, wide"))
	case shape.HemRim:
		form = append(form, length("rim_width", "Hem, wide"), length("rim_radius", "Hem, half its clear gap"))
	}
	metals := node.E("select", node.A("id", "f-own-metal"), node.A("value", z.Metal), node.On("change", func(e node.Event) {
		_ = s.ChangeDraft(func(z *shape.PanSizes) { z.Metal = e.Value })
	}))
	for _, m := range metal.Metals {
		put(metals, node.E("option", node.A("value", m.Name), node.If("selected", m.Name == z.Metal), m.Name))
	}
	form = append(form,
		node.E("label.fr", node.A("for", "f-own-metal"), node.E("span", "Metal"), node.E("span.fld.sel", metals)),
		length("thickness", "Thickness"),
		length("radius", "Inside radius of the bends"),
		length("gap", "Wanted gap at the corners"))
	b := d.Report.Blank
	res := node.E("p.res", "Blank ", node.E("b", session.Size(b.Width, s.Units())+" × "+session.Size(b.Height, s.Units())), " "+u+" · ")
	put(res, node.E("b", fmt.Sprint(len(d.Report.Bends))), node.E("span", " bends"))
	if b.Mass != nil {
		m, mu := session.Mass(*b.Mass)
		put(res, node.E("span", " · "), node.E("b", m), node.E("span", " "+mu))
	}
	form = append(form, res,
		button("b.main.wide.take", "Start with this tray", node.If("disabled", d.Bad != ""), node.Click(func() {
			if err := s.TakeOwn(); err != nil {
				c.say(err)
				return
			}
			c.turn("home")
		})),
		button("b.line.wide", "Back to "+s.OwnName(), node.Click(func() { s.DropOwn(); c.turn("home") })))
	return []*node.Node{node.E("section.pad.own", node.Key("own"), form)}
}

func traySketch() *node.Node {
	n := node.E("svg.sd", node.A("viewBox", "0 0 78 44"), node.A("aria-hidden", "true"))
	for _, p := range [][2]string{{"a", "M10 16 33 4 76 13 54 28Z"}, {"c", "M10 16 14 30 55 42 54 28Z"}, {"b", "M54 28 55 42 72 25 76 13Z"}, {"b", "M10 16 33 4 35 14 16 25Z"}, {"c", "M33 4 76 13 71 22 35 14Z"}, {"a", "M16 25 35 14 71 22 54 33Z"}, {"c", "M10 16 16 25 54 33 54 28Z"}} {
		put(n, node.E("path."+p[0], node.A("d", p[1])))
	}
	return n
}

func fileSketch() *node.Node {
	return node.E("svg.sd", node.A("viewBox", "0 0 78 44"), node.A("aria-hidden", "true"),
		node.E("path.a", node.A("d", "M26 3h18l9 9v29H26Z")), node.E("path.c", node.A("d", "M44 3v9h9Z")))
}
