package screen

// This file holds the list of holes under Sizes, placed as measured on the finished part.

import (
	"errors"
	"strconv"

	"dryfold/fold/sizes"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

func itoa(i int) string { return strconv.Itoa(i) }

var holeShapes = [...]string{"hole", "slot", "window", "cutout"}

func (c *Screen) holesBox() *node.Node {
	f := c.S.Form()
	n := node.E("section.pad.parts", node.Key("holes"), node.E("h2", upper(count(len(f.Holes), "hole"))))
	list := node.E("ul.items")
	for i := range f.Holes {
		h := &f.Holes[i]
		put(list, c.row(item{kind: "hole", i: i}, session.Title(holeName(h, i)), c.holeWords(i, h), c.S.ErrorUnder(session.HoleField(i, "")), func() []*node.Node { return c.holeForm(i, h) }))
	}
	panels := [][2]string{{"", "choose a panel"}}
	for _, p := range c.panelNames() {
		panels = append(panels, [2]string{p, p})
	}
	put(n, list, node.E("div.addrow", node.Key("add"), pick("f-drill", "Add a hole in", panels, "", func(v string) {
		if v != "" {
			c.drill(v)
		}
	})))
	return n
}

// panelNames are the base's name and the flanges'.
func (c *Screen) panelNames() []string {
	f := c.S.Form()
	out := []string{c.baseName()}
	for i := range f.Flanges {
		out = append(out, f.Flanges[i].Name)
	}
	return out
}

func holeName(h *sizes.Hole, i int) string {
	if h.Name != "" {
		return h.Name
	}
	return holeShapes[h.Shape] + " " + itoa(i+1)
}

// drill adds a hole in a panel's middle and opens it.
func (c *Screen) drill(panel string) {
	for i, p := range c.S.Part().Panels {
		if p.Name == panel {
			k, err := c.S.AddHoleAt(i, p.Label)
			c.drilled(k, err)
			return
		}
	}
	c.say(errors.New("the panel must be made first: put right what is wrong with its sizes"))
}

func (c *Screen) drilled(k int, err error) {
	if err != nil {
		c.say(err)
		return
	}
	c.openItem(item{kind: "hole", i: k})
	c.Focus = "f-" + session.HoleField(k, "x")
}

func (c *Screen) holeWords(i int, h *sizes.Hole) string {
	words := ""
	if w := c.figure(session.HoleField(i, "wide")); w != "" {
		words = w + " across"
		if l := c.figure(session.HoleField(i, "long")); l != "" && h.Shape != sizes.Round {
			words = l + " × " + w
		}
		words += " · "
	}
	words += "in " + h.On
	if n := max(h.Count, 1) * max(h.Rows, 1); n > 1 || h.Mirrored {
		if h.Mirrored {
			n *= 2
		}
		words += " · " + itoa(n) + " of them"
	}
	return words
}

func (c *Screen) holeForm(i int, h *sizes.Hole) []*node.Node {
	s := c.S
	p := session.HoleField(i, "")
	edit := func(what string, f func(*sizes.Hole)) error {
		return s.EditHole(i, what, func(h *sizes.Hole) error { f(h); return nil })
	}
	var kinds, panels, sides [][2]string
	for _, k := range holeShapes {
		kinds = append(kinds, [2]string{k, k})
	}
	for _, n := range c.panelNames() {
		panels = append(panels, [2]string{n, n})
	}
	sides = append(sides, [2]string{"", "its bend"})
	if h.On == c.baseName() {
		sides = nil
	}
	for _, x := range s.Sides(h.On) {
		if h.On == c.baseName() || x.Side == "top" {
			sides = append(sides, [2]string{x.Side, x.Side})
		}
	}
	side := h.Side
	if side == "" && h.On == c.baseName() && len(sides) > 0 {
		side = sides[0][0]
	}
	end := map[bool]string{false: "start", true: "end"}
	out := []*node.Node{
		c.choose(p+"shape", "Shape", kinds, holeShapes[h.Shape], func(v string) error {
			for k, w := range holeShapes {
				if w == v {
					return s.SetHoleShape(i, sizes.HoleShape(k))
				}
			}
			return nil
		}),
	}
	switch h.Shape {
	case sizes.Round:
		out = append(out, c.size(p+"wide", "Across"))
	case sizes.Slot, sizes.Window:
		out = append(out, c.fieldsOf(p, "long", "Long, over all", "wide", "Wide", "turn", "Turned by")...)
	case sizes.Cutout:
		out = append(out, c.points(p+"points", true, len(h.Points), func(f func([]sizes.Point) []sizes.Point) error {
			return edit("points", func(h *sizes.Hole) { h.Points = f(h.Points) })
		})...)
		out = append(out, c.size(p+"turn", "Turned by"))
	}
	if h.Shape == sizes.Round || h.Shape == sizes.Slot {
		out = append(out, c.either(p+"drilled", "Width may go to my nearest drill", [][2]string{{"", "no"}, {"yes", "yes"}}, map[bool]string{true: "yes"}[h.Drilled], func(v string) error { return s.SetHoleDrilled(i, v == "yes") }))
	}
	out = append(out,
		c.choose(p+"on", "In", panels, h.On, func(v string) error { return edit("on", func(h *sizes.Hole) { h.On, h.Side = v, "" }) }),
		c.choose(p+"side", "Measured from", sides, side, func(v string) error { return s.SetHoleSide(i, v, h.FromEnd) }),
		c.either(p+"from_end", "Along, from its", [][2]string{{"start", "start"}, {"end", "end"}}, end[h.FromEnd], func(v string) error { return s.SetHoleSide(i, h.Side, v == "end") }),
		c.size(p+"x", "Along"), c.size(p+"y", "Square to it"))
	n, rows := max(h.Count, 1), max(h.Rows, 1)
	whole := func(what, label string, now int, set func(int) error) *node.Node {
		return c.fieldBeside(p+what, label, itoa(now), func(string) string { return "" }, func(t string) error {
			k, err := strconv.Atoi(t)
			if err != nil {
				k = -1
			}
			return set(k)
		}, node.A("inputmode", "numeric"))
	}
	pattern := []*node.Node{
		whole("count", "Holes along", n, func(k int) error { return s.SetHoleCount(i, k, rows) }),
	}
	if n > 1 {
		pattern = append(pattern, c.size(p+"step", "Step along"))
	}
	pattern = append(pattern, whole("rows", "Rows", rows, func(k int) error { return s.SetHoleCount(i, n, k) }))
	if rows > 1 {
		pattern = append(pattern, c.size(p+"row_step", "Step from row to row"))
	}
	pattern = append(pattern,
		c.either(p+"mirrored", "Again from the other end", [][2]string{{"", "no"}, {"yes", "yes"}}, map[bool]string{true: "yes"}[h.Mirrored], func(v string) error { return s.SetHoleMirrored(i, v == "yes") }),
		c.field(p+"name", "Name", h.Name, "", func(t string) error { return s.SetHoleName(i, t) }, node.A("class", "text"), node.A("placeholder", holeName(h, i))))
	return append(out, more("m-pattern"+itoa(i), "Pattern and name", pattern),
		node.E("div.acts", node.Key("acts"), button("b.line", "Delete "+holeName(h, i), node.Click(func() { c.deleted(holeName(h, i), s.DeleteHole(i)) }))))
}
