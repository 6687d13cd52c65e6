package screen

// This file holds what is known of a metal, each figure with its source, and the form
// in which the maker describes one.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// metalFacts is what is known of the chosen metal, folded.
func (c *Screen) metalFacts(m metal.Metal) *node.Node {
	dl := node.E("dl.sourced")
	fact := func(what, figure, source string) {
		put(dl, node.E("div", node.E("dt", what), node.E("dd", figure, node.E("small", upper(source)))))
	}
	inches := c.S.Units() == fold.Inch
	known := func(what string, f metal.Fact, unit, other string, by float64, places int) {
		if !f.Known() {
			fact(what, "not known", "")
			return
		}
		words := spread(f.Range, 0) + " " + unit
		if inches {
			words = spread(metal.Range{Lo: f.Lo / by, Hi: f.Hi / by}, places) + " " + other
		}
		fact(what, words, f.Source.String())
	}
	known("Density", m.Density, "kg/m³", "lb/cu in", 27679.904710, 3)
	known("Stiffness E", metal.Fact{Range: metal.Range{Lo: m.Modulus.Lo / 1000, Hi: m.Modulus.Hi / 1000}, Source: m.Modulus.Source}, "GPa", "million psi", 6.894757, 1)
	known("Yield", m.Yield, "MPa", "ksi", 6.894757, 1)
	known("Tensile strength", m.Tensile, "MPa", "ksi", 6.894757, 1)
	if m.K != nil {
		fact("K", fmt.Sprint(*m.K), ownSource(m))
	}
	if m.LeastRT != nil {
		fact("Least radius", fmt.Sprintf("%g times the thickness", *m.LeastRT), ownSource(m))
	}
	for _, x := range [][2]string{{"Grain", m.GrainNote}, {"Welding", m.Weld}, {"Coating", m.Coating}, {"Note", m.Note}} {
		if x[1] != "" {
			put(dl, node.E("div.note", node.E("dt", x[0]), node.E("dd", x[1])))
		}
	}
	n := node.E("div.facts-of", node.Key("facts-of"), more("facts", "What is known of "+m.Name, dl))
	if len(m.Cautions) > 0 {
		list := node.E("ul.cautions")
		for _, w := range m.Cautions {
			put(list, node.E("li", w))
		}
		put(n, more("cautions", "Cautions ("+fmt.Sprint(len(m.Cautions))+")", list))
	}
	return n
}

func ownSource(m metal.Metal) string {
	if m.Note != "" {
		return "given by you: " + m.Note
	}
	return "assumed: given by you, without a source"
}

// spread writes a range of a figure: "205", "205 to 515".
func spread(r metal.Range, places int) string {
	lo, hi := fmt.Sprintf("%.*f", places, r.Lo), fmt.Sprintf("%.*f", places, r.Hi)
	if lo == hi {
		return lo
	}
	return lo + " to " + hi
}

// metalForm is the form of a metal of the maker's own.
func (c *Screen) metalForm() *node.Node {
	s := c.S
	f := s.MetalForm()
	field := func(what, label, value, unit string, extra ...any) *node.Node {
		return c.field(session.MetalField(what), label, value, unit, func(t string) error { return s.SetMetalForm(what, t) }, extra...)
	}
	like := [][2]string{{"", "none"}}
	for _, m := range metal.Metals {
		like = append(like, [2]string{m.Name, m.Name})
	}
	rest := func(f metal.Fact, by float64) any { // what is taken where the field stays empty
		if !f.Known() {
			return node.A("placeholder", "–")
		}
		return node.A("placeholder", spread(metal.Range{Lo: f.Lo / by, Hi: f.Hi / by}, 0))
	}
	m, _ := metal.ByName(f.Like)
	lo, hi := m.Yield, m.Yield
	lo.Hi, hi.Lo = lo.Lo, hi.Hi
	title := "A metal of your own"
	if f.Was != "" {
		title = f.Was + ", as you know it"
	}
	n := node.E("div.form", node.Key("metalform"), node.A("role", "group"), node.A("aria-label", title), node.E("h3", title),
		field("name", "Name", f.Name, "", node.A("class", "text")),
		pick("f-"+session.MetalField("like"), "Like", like, f.Like, func(v string) { _ = s.SetMetalForm("like", v) }),
		c.fault(session.MetalField("like")),
		node.E("p.src.under", "What you leave empty is taken from there."),
		field("density", "Density", f.Density, "kg/m³", rest(m.Density, 1)),
		field("yield-lo", "Yield, from", f.YieldLo, "MPa", rest(lo, 1)),
		field("yield-hi", "Yield, to", f.YieldHi, "MPa", rest(hi, 1)),
		field("modulus", "Stiffness E", f.Modulus, "GPa", rest(m.Modulus, 1000)),
		field("least-rt", "Least inside radius over thickness", f.LeastRT, "", node.A("placeholder", "–")),
		field("k", "K factor", f.K, "", node.A("placeholder", "–")),
		field("note", "Where from", f.Note, "", node.A("class", "text"), node.A("placeholder", "else assumed")))
	acts := node.E("div.acts",
		button("b.main", "Keep this metal", node.Click(func() {
			if s.SaveMetal() == nil {
				c.Focus = "f-metal"
			}
		})),
		button("b.line", "Leave it", node.Click(func() { s.DropMetal(); c.Focus = "f-metal" })))
	if f.Own {
		put(acts, button("b.line", "Take it out", node.Click(func() {
			if err := s.RemoveMetal(f.Was); err != nil {
				c.say(err)
			}
		})))
	}
	put(n, acts)
	return n
}
