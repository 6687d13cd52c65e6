package screen

// This file holds a field of the sizes form: a number or a formula, with what the formula
// comes to, the usual value where nothing is given, and arrow keys that step it.

import (
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// size is the field of a path of the sizes form; nil where the form has none.
func (c *Screen) size(path, label string) *node.Node {
	f, ok := c.S.SizeField(path)
	if !ok {
		return nil
	}
	return c.sizeField(path, label, f, func(t string) error { return c.S.SetField(path, t) })
}

// sizeField is a field of sizes by its key: what stands in it, and what takes a text.
func (c *Screen) sizeField(key, label string, f session.SizeField, set func(string) error) *node.Node {
	u := c.S.Units()
	unit, show := u.String(), func(v float64) string { return session.FieldLength(v, u) }
	if f.Angle {
		unit, show = "°", session.FieldDegrees
	}
	beside := func(text string) string {
		if f.Formula && text == f.Text {
			if !f.Known {
				return ""
			}
			if f.Angle {
				return "= " + session.Degrees(f.Value) + "°"
			}
			words := "= " + session.Fine(f.Value, u) + " " + unit
			if own := c.S.Spec().Units; own != u && bareFigure(text) {
				words = "in " + own.String() + ": " + words
			}
			return words
		}
		return session.UnitBeside(text, unit, u)
	}
	parts := []any{
		node.On("focus", func(node.Event) { c.at = key }),
		node.On("blur", func(node.Event) {
			c.typing = typing{}
			if c.at == key {
				c.at = ""
			}
		}),
		node.On("keydown", func(e node.Event) { c.stepSize(f, e, show, set) }),
	}
	if !f.Given && f.Known {
		parts = append(parts, node.A("placeholder", show(f.Value)))
	}
	n := c.fieldBeside(key, label, f.Text, beside, set, parts...)
	if len(f.Text) > longFormula {
		n.Attrs = append(n.Attrs, node.Attr{Name: "data-long", Value: "1"})
	}
	return n
}

// bareFigure reports whether a formula has a figure in it, which it takes in the part's own units.
func bareFigure(formula string) bool {
	name := false
	for _, r := range formula {
		digit := r >= '0' && r <= '9'
		if digit && !name {
			return true
		}
		name = r == '_' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || name && digit
	}
	return false
}

// stepSize steps a plain number by the arrow keys: 1 mm or 1/16 in, 1 degree; ten times as much with shift.
func (c *Screen) stepSize(f session.SizeField, e node.Event, show func(float64) string, set func(string) error) {
	by := 1.0
	switch {
	case e.Alt || e.Ctrl:
		return
	case e.Key == "ArrowDown":
		by = -1
	case e.Key != "ArrowUp":
		return
	}
	if e.Shift {
		by *= 10
	}
	v, err := 0.0, error(nil)
	if f.Angle {
		v, err = session.ReadAngle(e.Value)
	} else {
		v, err = session.ReadLength(e.Value, c.S.Units())
		if c.S.Units() == fold.Inch {
			by *= 25.4 / 16
		}
	}
	if err != nil {
		return
	}
	e.Stop()
	c.typing = typing{}
	_ = set(show(v + by)) // what is wrong stands under the field
}

// choose is a list to choose from, with what was wrong with the last choice.
func (c *Screen) choose(id, label string, choices [][2]string, now string, set func(string) error) *node.Node {
	return node.E("div.fl", node.Key(id), pick("f-"+id, label, choices, now, func(v string) { _ = set(v) }), c.fault(id))
}

// either is a labelled choice of few side by side, with what was wrong with the last one.
func (c *Screen) either(key, label string, choices [][2]string, now string, set func(string) error) *node.Node {
	return node.E("div.fl", node.Key(key), node.E("div.fr", node.E("span", label), seg(label, choices, now, func(v string) { _ = set(v) })), c.fault(key))
}

// item is what stands open of the form's lists.
type item struct {
	kind string // "base", "flange", "corner", "hole", "named"; "" for none
	i    int
	key  string // a corner's two flanges
}

// id is the id of an item's line on the page.
func (it item) id() string {
	return "item-" + it.kind + strings.ReplaceAll(it.key, " ", "-") + itoa(it.i)
}

// row is one line of a list that opens: its name, what it is in short, and the form under it while it is open.
func (c *Screen) row(it item, name, words string, bad bool, form func() []*node.Node) *node.Node {
	open := c.item == it
	cls := "li"
	if open {
		cls = "li.on"
	}
	head := button("itemhead", node.A("id", it.id()), node.A("aria-expanded", onOff(open)), icon("open"), node.E("span", node.E("b", name), node.E("small", words)),
		node.Click(func() {
			if open {
				c.item = item{}
				return
			}
			c.openItem(it)
		}))
	if bad {
		put(head, glyph("stop"))
	}
	n := node.E(cls, node.Key(it.kind+it.key+itoa(it.i)), head)
	if open {
		put(n, node.E("div.form", form()))
	}
	return n
}

func onOff(on bool) string {
	if on {
		return "true"
	}
	return "false"
}

// openItem opens an item of the form's lists and lights it on the bench.
func (c *Screen) openItem(it item) { c.item, c.ask = it, "" }

// confirm asks before something is deleted that others depend on: what goes with it is named. It is nil while nothing
// is asked under that key.
func (c *Screen) confirm(key, what string, with []string, del func() error) *node.Node {
	if c.ask != key {
		return nil
	}
	return node.E("div.asks", node.Key("ask"), node.A("role", "alert"),
		node.E("p", "Deleting "+what+" takes with it: "+session.List(with)+"."),
		node.E("div.acts", button("b.main", "Delete all of it", node.Click(func() { c.ask = ""; c.deleted(what, del()) })), button("b.line", "Keep it", node.Click(func() { c.ask = "" }))))
}

// remove deletes what nothing depends on, or asks.
func (c *Screen) remove(key, what string, with []string, del func() error) *node.Node {
	return button("b.line", "Delete "+what, node.Click(func() {
		if len(with) > 0 {
			c.ask = key
			return
		}
		c.deleted(what, del())
	}))
}

func (c *Screen) deleted(what string, err error) {
	if err != nil {
		c.say(err)
		return
	}
	c.item, c.at = item{}, ""
	c.Tell(session.Title(what) + " is deleted. Undo brings it back.")
}

// fieldsOf are several fields of the form by path and label: path, label, path, label.
func (c *Screen) fieldsOf(prefix string, pairs ...string) []*node.Node {
	var out []*node.Node
	for p := range slices.Chunk(pairs, 2) {
		if n := c.size(prefix+p[0], p[1]); n != nil {
			out = append(out, n)
		}
	}
	return out
}
