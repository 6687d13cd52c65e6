package screen

// This file holds the form that a test bend is typed into.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// stripForm is the form of one test bend.
func (c *Screen) stripForm(form *session.StripForm, used int) *node.Node {
	s := c.S
	u := s.Units()
	take := func() {
		field, err := s.AddStrip()
		switch {
		case field != "":
			c.Focus = "f-" + session.StripField(field)
		case err != nil:
			c.say(err)
		case s.Strip() != nil:
			c.Focus = "f-" + session.StripField("leg-a")
		}
	}
	field := func(name, label, unit, hint string) *node.Node {
		next := ""
		for i, n := range session.StripFields {
			if n == name && i+1 < len(session.StripFields) {
				next = session.StripFields[i+1]
			}
		}
		extra := []any{
			node.On("input", func(e node.Event) { s.TypeStrip(name, e.Value) }),
			node.On("keydown", func(e node.Event) {
				if e.Key != "Enter" {
					return
				}
				e.Stop()
				if err := s.SetStrip(name, e.Value); err != nil && s.StripText(name) != "" {
					if _, bad := s.Error(session.StripField(name)); bad {
						return
					}
				}
				if next == "" {
					take()
					return
				}
				c.Focus = "f-" + session.StripField(next)
			}),
		}
		if hint != "" {
			extra = append(extra, node.A("placeholder", hint))
		}
		if name == "brake" {
			extra = append(extra, node.A("class", "text"), node.A("maxlength", fmt.Sprint(fold.MaxName)))
		}
		n := c.field(session.StripField(name), label, s.StripText(name), unit, func(t string) error { return s.SetStrip(name, t) }, extra...)
		if ask := s.StripDoubt(name); ask != "" {
			put(n, node.E("p.told", node.Key("ask"), node.A("role", "status"), glyph("note"), node.E("span", ask)))
		}
		return n
	}
	side := "outside"
	if form.Inside {
		side = "inside"
	}
	with := "rule"
	if form.Calliper {
		with = "calliper"
	}
	name, words := fmt.Sprintf("Strip %d", used+1), "Add this strip"
	if form.At >= 0 {
		name, words = "The strip as measured", "Keep the change"
		for n, i := range s.Tests().In {
			if i == form.At {
				name = fmt.Sprintf("Strip %d", n+1)
			}
		}
	}
	done := "Close"
	if form.Added > 0 {
		done = "Done"
	}
	return node.E("div.bf.strip", node.Key("form"), node.A("role", "group"), node.A("aria-label", name),
		node.E("h3", name),
		field("length", "Strip’s length, flat", u.String(), ""),
		node.E("div.fl", node.Key("side"), node.E("div.fr", node.E("span", "Legs measured"), seg("Legs measured", [][2]string{{"outside", "outside"}, {"inside", "inside"}}, side, func(v string) { s.SetStripInside(v == "inside") }))),
		legSketch(form.Inside),
		field("leg-a", "Leg a", u.String(), ""),
		field("leg-b", "Leg b", u.String(), ""),
		node.E("div.fl", node.Key("with"), node.E("div.fr", node.E("span", "Lengths read with"), seg("Lengths read with", [][2]string{{"rule", "a rule"}, {"calliper", "a calliper"}}, with, func(v string) { s.SetStripCalliper(v == "calliper") }))),
		field("angle", "Bend angle", "°", ""),
		field("set", "Leaf stopped at", "°", "if noted"),
		field("radius", "Inside radius", u.String(), "if known"),
		field("nose", "Nose radius", u.String(), "if known"),
		field("brake", "Brake", "", "if you have several"),
		node.E("div.acts", node.Key("acts"), button("b.main.takestrip", words, node.Click(take)), button("b.line", done, node.Click(s.CloseStrip))),
		c.stripNow())
}

// stripNow says what the strip in the form gives by itself; it keeps its room while there is nothing to say.
func (c *Screen) stripNow() *node.Node {
	n := node.E("p.src.now", node.Key("now"), node.A("aria-live", "polite"))
	t, alone, ok := c.S.StripNow()
	switch {
	case ok && alone.OK && t.Length > 0:
		put(n, node.E("span", "This strip alone: "), node.E("b", "K "+kWords(alone.K, alone.Spread)))
	case ok && t.Length > 0:
		put(n, node.E("span", "This strip alone gives no K between 0 and 0.6 with the radius it has: see its length, legs and radius again."))
	case ok:
		put(n, node.E("span", "This strip tells of springback alone."))
	default:
		put(n, node.E("span", "The metal and the thickness are the part’s. Lengths may be 51.2, 2 1/64\" or 51mm."))
	}
	return n
}

// kWords is a K with its spread: "0.43 ± 0.02".
func kWords(k, spread float64) string {
	if spread <= 0 {
		return fmt.Sprintf("%.2f", k)
	}
	return fmt.Sprintf("%.2f ± %.2f", k, math.Max(0.01, spread))
}
