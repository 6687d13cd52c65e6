package screen

// This file holds the small pieces that everything on the page is made of.

import (
	"fmt"

	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// paths are the strokes of the small drawings, in a box of 24.
var paths = map[string][]string{
	"undo":  {"M8.5 5 4 9.5l4.5 4.5M4.5 9.5H15a5 5 0 0 1 0 10h-4"},
	"redo":  {"M15.5 5 20 9.5 15.5 14M19.500 9.5H9a5 5 0 0 0 0 10h4"},
	"open":  {"m7 10 5 5 5-5"},
	"close": {"M6 6l12 12M18 6 6 18"},
	"up":    {"M12 19V5M6 11l6-6 6 6"},
	"down":  {"M12 5v14M6 13l6 6 6-6"},
	"prev":  {"m14 6-6 6 6 6"},
	"next":  {"m10 6 6 6-6 6"},
	"lock":  {"M6 11h12v9H6ZM8.5 11V8a3.500 3.500 0 0 1 7 0v3"},
	"play":  {"M8 5.500v13l10-6.500Z"},
	"stop":  {"M7 7h10v10H7Z"},
	"grip":  {"M9 6v.01M15 6v.01M9 12v.01M15 12v.01M9 18v.01M15 18v.01"},
}

// icon is a small drawing beside words; it says nothing by itself.
func icon(name string) *node.Node {
	n := node.E("svg.ic", node.A("viewBox", "0 0 24 24"), node.A("aria-hidden", "true"))
	for _, d := range paths[name] {
		put(n, node.E("path", node.A("d", d)))
	}
	return n
}

// glyph is a severity's shape: a tick, a triangle, an octagon or a dot.
func glyph(severity string) *node.Node {
	n := node.E("svg.i."+severity, node.A("viewBox", "0 0 24 24"), node.A("aria-hidden", "true"))
	p := func(cls, d string) { put(n, node.E("path"+cls, node.A("d", d))) }
	switch severity {
	case "ok":
		p("", "m4 13 5.5 5.500L20 6.500")
	case "watch":
		p("", "M12 2.500 23 21.500H1Z")
		p(".k", "M12 9.500v5.500M12 18.200v.1")
	case "stop":
		p("", "M7.500 1.500h9l6 6v9l-6 6h-9l-6-6v-9Z")
		p(".k", "M6.500 12h11")
	default:
		p("", "M12 4a8 8 0 1 0 .01 0Z")
		p(".k", "M12 11v5.500M12 7.500v.1")
	}
	return n
}

// state is a state as shape and word.
func state(s string) *node.Node { return node.E("span.st."+s, glyph(s), s) }

// put adds what there is to a node; nil is passed over. Like button it is not inlined: there are
// hundreds of calls, and the page's program is smaller so.
//
//go:noinline
func put(n *node.Node, kids ...*node.Node) {
	for _, k := range kids {
		if k != nil {
			n.Kids = append(n.Kids, k)
		}
	}
}

// button is a button of a class, never a form's own.
//
//go:noinline
func button(class string, parts ...any) *node.Node {
	return node.E("button."+class, append([]any{node.A("type", "button")}, parts...)...)
}

// way is a bend's way, in word and arrow.
func way(up bool) *node.Node {
	if up {
		return node.E("span.way", icon("up"), "up")
	}
	return node.E("span.way", icon("down"), "down")
}

// seg is a choice of few, side by side.
func seg(label string, choices [][2]string, chosen string, set func(string)) *node.Node {
	n := node.E("div.seg", node.A("role", "group"), node.A("aria-label", label))
	for _, ch := range choices {
		cls := "button"
		if ch[0] == chosen {
			cls = "button.on"
		}
		put(n, node.E(cls, node.A("type", "button"), node.A("aria-pressed", fmt.Sprint(ch[0] == chosen)), ch[1],
			node.Click(func() { set(ch[0]) })))
	}
	return n
}

// typing is a text while it is being typed: it stands in its field whatever the session says, until it is taken.
type typing struct {
	key, text string
	serial    int // of the part shown then
}

// field is a labelled box to type in. What is wrong with the text stands under it.
func (c *Screen) field(key, label, value, unit string, set func(string) error, extra ...any) *node.Node {
	return c.fieldBeside(key, label, value, func(text string) string { return session.UnitBeside(text, unit, c.S.Units()) }, set, extra...)
}

// fieldBeside is field with what stands beside the text that it shows.
func (c *Screen) fieldBeside(key, label, value string, beside func(text string) string, set func(string) error, extra ...any) *node.Node {
	id := "f-" + key
	if e, bad := c.S.Error(key); bad {
		value = e.Typed
	}
	if t := c.typing; t.key == key && t.serial == c.S.Serial() {
		value = t.text
	}
	in := node.E("input", append([]any{node.A("id", id), node.A("value", value), node.A("autocomplete", "off"), node.A("spellcheck", "false"), node.A("enterkeyhint", "done"),
		node.On("input", func(e node.Event) { c.typing = typing{key, e.Value, c.S.Serial()} }),
		node.On("blur", func(node.Event) { c.typing = typing{} }),
		node.On("change", func(e node.Event) {
			c.typing = typing{}
			set(e.Value)
		})}, extra...)...)
	cls, note := "label.fr", (*node.Node)(nil)
	if e, bad := c.S.Error(key); bad {
		cls = "label.fr.bad"
		in.Attrs = append(in.Attrs, node.Attr{Name: "aria-invalid", Value: "true"}, node.Attr{Name: "aria-describedby", Value: id + "-e"})
		note = node.E("p.err", node.Key(key+"-e"), node.A("id", id+"-e"), node.A("role", "alert"), upper(e.Message))
	} else {
		note = c.told(key)
	}
	var u *node.Node
	if words := beside(value); words != "" {
		u = node.E("small", words)
	}
	return node.E("div.fl", node.Key(key), node.E(cls, node.A("for", id), node.E("span", label), node.E("span.fld", in, u)), note)
}

// told is what the last change in a field did, under it.
func (c *Screen) told(key string) *node.Node {
	words := c.S.Told(key)
	if words == "" {
		return nil
	}
	return node.E("p.told", node.Key(key+"-t"), node.A("role", "status"), words)
}

// number makes a field's keyboard one for numbers, where the device has one that
// also has fractions and units.
var number = []any{node.A("inputmode", "text")}

// Upper is words with a first capital.
func Upper(s string) string { return upper(s) }

func upper(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	if r[0] >= 'a' && r[0] <= 'z' {
		r[0] -= 'a' - 'A'
	}
	return string(r)
}

// lower takes a first capital off, within a sentence.
func lower(s string) string {
	if len(s) > 1 && s[0] >= 'A' && s[0] <= 'Z' && (s[1] < 'A' || s[1] > 'Z') {
		return string(s[0]+'a'-'A') + s[1:]
	}
	return s
}

// count is a number with its noun: "1 trouble", "2 troubles", "no troubles".
func count(n int, noun string) string { return session.Count(n, noun) }

// rows makes a list of facts.
func rows(list [][2]string) *node.Node {
	n := node.E("dl.facts")
	for _, r := range list {
		put(n, node.E("dt", r[0]), node.E("dd", r[1]))
	}
	return n
}
