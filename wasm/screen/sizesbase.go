package screen

// This file holds the base under Sizes: its finished sizes, or as it was measured in
// another way, and what was told of it.

import (
	"strings"

	"dryfold/fold"
	"dryfold/fold/sizes"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// baseShapes are the ways to give a base, in the order of session.BaseShape.
var baseShapes = [...]string{"long and wide", "wider at one end", "corner by corner", "sides and diagonals", "widths at stations", "sides and angles"}

func (c *Screen) baseName() string {
	if n := c.S.Form().Base.Name; n != "" {
		return n
	}
	return "floor"
}

// baseBox is the base, in one line until it is opened.
func (c *Screen) baseBox() *node.Node {
	f := c.S.Form()
	shape := session.BaseOf(f)
	it := item{kind: "base"}
	words := baseShapes[shape]
	if w, l := c.figure("sizes.base.wide"), c.figure("sizes.base.long"); w != "" && l != "" && shape <= session.Trapezoid {
		words = w + " wide, " + l + " long"
	}
	if shape > session.Outline {
		words = "measured by its " + words
	}
	return node.E("section.pad.parts", node.Key("base"), node.E("h2", "Base"),
		node.E("ul.items", c.row(it, session.Title(c.baseName()), words, c.S.ErrorUnder("sizes.base"), c.baseForm)))
}

func (c *Screen) baseForm() []*node.Node {
	s, f := c.S, c.S.Form()
	shape := session.BaseOf(f)
	var ways [][2]string
	for i, w := range baseShapes {
		ways = append(ways, [2]string{itoa(i), w})
	}
	out := []*node.Node{
		c.choose("sizes.base", "Measured by", ways, itoa(int(shape)), func(v string) error { return s.SetBase(session.BaseShape(v[0] - '0')) }),
		wayWords(shape),
	}
	switch shape {
	case session.Rectangle, session.Trapezoid:
		out = append(out, c.fieldsOf("sizes.base.", "wide", map[bool]string{false: "Wide", true: "Wide at the front"}[shape == session.Trapezoid])...)
		if shape == session.Trapezoid {
			out = append(out, c.size("sizes.base.wide_back", "Wide at the back"))
		}
		out = append(out, c.size("sizes.base.long", "Long"))
	case session.Outline:
		out = append(out, c.points("sizes.base.points", true, len(f.Base.Points), func(edit func([]sizes.Point) []sizes.Point) error {
			return s.EditForm("sizes.base", func(f *sizes.Form) error { f.Base.Points = edit(f.Base.Points); return nil })
		})...)
	case session.ByStations:
		for i := range f.Base.Measured.Stations {
			p := "sizes.base.measured.stations[" + itoa(i) + "]."
			row := node.E("div.station", node.Key(p), node.E("h3", "Station "+itoa(i+1)), c.size(p+"at", "From the front"), c.size(p+"wide", "Wide"), c.size(p+"left", "Left of the line"), c.size(p+"right", "Right of it"))
			if len(f.Base.Measured.Stations) > 2 {
				put(row, button("b.line", "Take station "+itoa(i+1)+" out", node.Click(func() {
					_ = s.EditForm("sizes.base", func(f *sizes.Form) error {
						l := f.Base.Measured.Stations
						f.Base.Measured.Stations = append(l[:i:i], l[i+1:]...)
						return nil
					})
				})))
			}
			out = append(out, row)
		}
		out = append(out, button("b.line", node.Key("station+"), "Add a station", node.Click(func() { c.addStation() })))
	default:
		for _, part := range []string{"sides", "diagonals", "angles"} {
			for _, x := range s.SizeFields("sizes.base.measured." + part) {
				label, _, _ := strings.Cut(x.Label, " of "+c.baseName())
				out = append(out, c.size(x.Path, label))
			}
		}
	}
	out = append(out, c.fault("sizes.base.measured"))
	for _, t := range c.misfits() {
		out = append(out, node.E("p.said", node.Key("misfit"), glyph(t.Severity.String()), node.E("span", fold.InUnits(t.Message, s.Units()))))
	}
	out = append(out, c.fittedBox())
	out = append(out,
		c.either("sizes.base.at_top", "Sizes taken", [][2]string{{"", "at the base"}, {"top", "at the top"}}, map[bool]string{true: "top"}[f.Base.AtTop], func(v string) error { return s.SetAtTop(v != "") }),
		c.field("sizes.base.name", "Name", c.baseName(), "", s.SetBaseName, node.A("class", "text")))
	return append(out, c.sideNames(), c.onIt(c.baseName()))
}

// sideNames are the base's sides, with their names to change.
func (c *Screen) sideNames() *node.Node {
	var fields []*node.Node
	for i, x := range c.S.Sides(c.baseName()) {
		fields = append(fields, c.field(session.SideField(i), "Side "+itoa(i+1), x.Side, "", func(t string) error { return c.S.SetSideName(i, t) }, node.A("class", "text")))
	}
	return more("m-sides", "Names of its sides", fields)
}

// wayWords say how a base is read that is measured in another way.
func wayWords(shape session.BaseShape) *node.Node {
	words := ""
	switch shape {
	case session.Outline:
		words = "Corners in order, each by how far along and how far back it lies from a square corner of your own."
	case session.BySides:
		words = "Read all sides and both diagonals. One more than is needed shows whether the tape was read right."
	case session.ByStations:
		words = "Stretch a line square from the front. Read how wide it is at each distance from the front, or how far each side lies from the line."
	case session.ByAngles:
		words = "Read each side, and the angle inside each corner."
	}
	if words == "" {
		return nil
	}
	return node.E("p.src", node.Key("way"), words)
}

// addStation reads one more width, between the last two.
func (c *Screen) addStation() {
	_ = c.S.EditForm("sizes.base", func(f *sizes.Form) error {
		l := f.Base.Measured.Stations
		at, _ := c.S.SizeField("sizes.base.measured.stations[" + itoa(len(l)-1) + "].at")
		before, _ := c.S.SizeField("sizes.base.measured.stations[" + itoa(len(l)-2) + "].at")
		k := c.S.Spec().Units.Scale()
		last := l[len(l)-1]
		mid := last
		mid.At = sizes.Is((at.Value + before.Value) / 2 / k)
		f.Base.Measured.Stations = append(append(l[:len(l)-1:len(l)-1], mid), last)
		return nil
	})
}

// misfits are what is told of what was measured more than once.
func (c *Screen) misfits() []fold.Trouble {
	var out []fold.Trouble
	if m := c.S.Made(); m != nil {
		for _, t := range m.Notes {
			if t.Rule == "misfit" {
				out = append(out, t)
			}
		}
	}
	return out
}

// fittedBox lists each reading of a measured base beside what it is fitted to, as it will be cut; nil where both are alike to
// what a tape shows.
func (c *Screen) fittedBox() *node.Node {
	made, u := c.S.Made(), c.S.Units()
	if made == nil {
		return nil
	}
	var list [][2]string
	differ := false
	for i := range made.Marks {
		m := &made.Marks[i]
		x, ok := c.S.SizeField(m.Path)
		if !ok || !strings.HasPrefix(m.Path, "sizes.base.measured") {
			continue
		}
		label, _, _ := strings.Cut(x.Label, " of "+c.baseName())
		read, cut, unit := session.Size(x.Value, u), session.Size(m.Value, u), " "+u.String()
		if m.Arc {
			read, cut, unit = session.Degrees(x.Value), session.Degrees(m.Value), "°"
		}
		switch {
		case !x.Known:
			read = "– → "
		case read == cut:
			read = ""
		default:
			differ = true
			read += " → "
		}
		list = append(list, [2]string{label, read + cut + unit})
	}
	if !differ {
		return nil
	}
	return node.E("div.fitted", node.Key("fitted"), node.E("h3", "As read → as it will be cut"), rows(list))
}
