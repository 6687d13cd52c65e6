package screen

// This file holds the part's named sizes under Sizes: those that formulas use.

import (
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// newSize is a named size that is being typed.
type newSize struct {
	open       bool
	name, text string
	angle      bool
}

func (c *Screen) namedBox() *node.Node {
	s, f := c.S, c.S.Form()
	n := node.E("section.pad.parts", node.Key("named"), node.E("h2", upper(count(len(f.Named), "named size"))),
		node.E("p.src", "Any field may be a formula over these, as wide - 12."))
	list := node.E("ul.items")
	for i := range f.Named {
		m := &f.Named[i]
		words := c.figure(session.NamedField(i, "is"))
		if m.Label != "" {
			words = m.Label + " · " + words
		}
		put(list, c.row(item{kind: "named", i: i}, m.Name, words, false, func() []*node.Node {
			out := []*node.Node{
				c.field(session.NamedField(i, "name"), "Name in formulas", m.Name, "", func(t string) error { return s.RenameNamed(i, t) }, node.A("class", "text"), node.A("autocapitalize", "none")),
				c.field(session.NamedField(i, "label"), "In plain words", m.Label, "", func(t string) error { return s.SetNamedLabel(i, t) }, node.A("class", "text")),
			}
			if uses := c.uses(i); len(uses) > 0 {
				return append(out, node.E("p.src", node.Key("uses"), "Used by "+session.List(uses)+". Give those numbers before this is deleted."))
			}
			return append(out, node.E("div.acts", button("b.line", "Delete "+m.Name, node.Click(func() { c.deleted(m.Name, s.DeleteNamed(i)) }))))
		}))
	}
	put(n, list)
	if !c.named.open {
		put(n, button("b.line", node.Key("more"), "Add a named size", node.Click(func() {
			c.named = newSize{open: true}
			c.Focus = "f-" + session.NamedField(len(f.Named), "name")
		})))
		return n
	}
	i, add := len(f.Named), &c.named
	put(n, node.E("div.form", node.Key("new"),
		c.field(session.NamedField(i, "name"), "Name in formulas", add.name, "", func(t string) error { add.name = t; return nil }, node.A("class", "text"), node.A("autocapitalize", "none")),
		c.either("new-angle", "It is", [][2]string{{"", "a length"}, {"angle", "an angle"}}, map[bool]string{true: "angle"}[add.angle], func(v string) error { add.angle = v != ""; return nil }),
		c.field(session.NamedField(i, "is"), "Number or formula", add.text, c.unitOf(add.angle), func(t string) error { add.text = t; return nil }, node.A("class", "size")),
		node.E("div.acts",
			button("b.main", "Add it", node.Click(func() {
				if s.AddNamed(add.name, add.text, add.angle) == nil {
					c.named = newSize{}
				}
			})),
			button("b.line", "Leave it", node.Click(func() { c.named = newSize{} })))))
	return n
}

func (c *Screen) unitOf(angle bool) string {
	if angle {
		return "°"
	}
	return c.S.Units().String()
}

// uses are the fields that use a named size, in words.
func (c *Screen) uses(i int) []string {
	f := c.S.Form()
	var out []string
	for _, path := range f.Uses(f.Named[i].Name) {
		if x, ok := c.S.SizeField(path); ok {
			out = append(out, lower(x.Label))
		}
	}
	if len(out) > mostUses {
		out = append(out[:mostUses:mostUses], count(len(out)-mostUses, "more"))
	}
	return out
}
