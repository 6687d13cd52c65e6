package screen

// This file holds the steps Cut and Check blank under Marking out: in which order and with which tools the blank is cut, and
// what is measured on it before the first bend.

import (
	"fmt"
	"strings"

	"dryfold/fold"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
	"dryfold/wasm/session/ask"
)

// inUnits are a sheet's words, with lengths in the units shown.
func (c *Screen) inUnits(words string) string { return fold.InUnits(words, c.S.Units()) }

// cutStep is the step Cut.
func (c *Screen) cutStep() []*node.Node {
	s := c.S
	out := []*node.Node{c.printed("Which tool cuts which edge, in an order that keeps something to hold; what is drilled first, and which side is waste.")}
	plan := s.SheetFacts().Plan
	if plan != nil {
		n := node.E("section.pad.plan", node.Key("plan"), node.E("h2", "In this order"))
		for i, t := range plan.Problems {
			sev := t.Severity.String()
			put(n, node.E("p.said."+sev, node.Key("prob"+itoa(i)), glyph(sev), node.E("span", node.E("span.quiet", sev+": "), upper(c.inUnits(t.Message)))))
		}
		list := node.E("ol.order", node.Key("order"))
		for _, x := range plan.Steps {
			li := node.E("li", node.Key("st"+itoa(x.Number)), node.E("b", upper(c.inUnits(x.Do))))
			for _, w := range []string{x.Sizes, x.Where} { // as they are printed
				if w != "" {
					put(li, node.E("span", w))
				}
			}
			for _, w := range []string{x.Why, x.Waste, x.Hold} {
				if w != "" {
					put(li, node.E("span", upper(c.inUnits(w))))
				}
			}
			put(list, li)
		}
		put(n, list)
		if len(plan.Drills) > 0 {
			rows := node.E("table.tab", node.Key("drills"), node.E("caption", "Centre-punch and drill"), node.E("thead", node.E("tr", node.E("th", "No."), node.E("th", "From A"), node.E("th", "From B"), node.E("th", "Drill"), node.E("th", "For, and when"))))
			body := node.E("tbody")
			for _, d := range plan.Drills {
				drill := d.Size // as it is stamped, in either unit
				if d.First != "" {
					drill = d.First + ", then " + drill
				}
				put(body, node.E("tr", node.E("td", d.No), node.E("td", d.A), node.E("td", d.B), node.E("td", drill), node.E("td", upper(d.Where)+": "+d.When)))
			}
			put(rows, body)
			put(n, more("drilled", "Centre-punch and drill: "+count(len(plan.Drills), "place"), rows))
		}
		out = append(out, n)
	}
	return append(out, c.strikeBox(), node.E("section.pad", node.Key("mytools"), more("m-tools", "My tools", c.toolsForm()), c.paperChoice()))
}

// strikeBox is the form for lines that were scribed by mistake.
func (c *Screen) strikeBox() *node.Node {
	s := c.S
	n := node.E("section.pad", node.Key("strike"), node.E("h2", "A line scribed by mistake?"),
		node.E("p.src", "Strike it out here, and across with the scriber on the sheet: the plan and its drawing then say not to cut it."))
	for i, w := range s.Struck() {
		put(n, node.E("p.row", node.Key("struck"+itoa(i)), node.E("span", "Struck out: "+w), button("b.line", "Take back", node.Click(func() {
			if err := s.Unstrike(i); err != nil {
				c.say(err)
			}
		}))))
	}
	from := c.strikeFrom
	if from == "" {
		from = "A"
	}
	put(n, c.either("strikefrom", "Measured from edge", [][2]string{{"A", "A, left"}, {"B", "B, below"}}, from, func(v string) error { c.strikeFrom = v; return nil }),
		c.field("strike", "Line at", "", s.Units().String(), func(v string) error {
			if strings.TrimSpace(v) == "" {
				return nil
			}
			return s.Strike(from, v)
		}, number...))
	return n
}

// verdictWords are what each verdict says large, with its shape.
var verdictWords = map[string][2]string{
	"bend":                {"ok", "Bend"},
	"trim":                {"watch", "Trim first"},
	"accept or cut again": {"stop", "Accept or cut again"},
	"measure":             {"note", "Measure before you bend"},
}

// checkStep is the step Check blank.
func (c *Screen) checkStep() []*node.Node {
	s := c.S
	out := []*node.Node{c.printed("A few sizes to measure on the cut blank, before the first bend. Together they catch a wrong datum, a blank marked from the wrong face, and a wrong allowance.")}
	k := s.SheetFacts().Check
	if k == nil {
		return out
	}
	n := node.E("section.pad.measured", node.Key("measured"))
	v := verdictWords[k.Word]
	put(n, node.E("p.goword."+v[0], node.Key("goword"), node.A("role", "status"), glyph(v[0]), node.E("b", v[1])))
	box := node.E("div.ruling."+v[0], node.Key("verdict"))
	for _, w := range k.Say {
		put(box, node.E("p", upper(c.inUnits(w))))
	}
	put(n, box)
	for _, w := range k.Notes {
		put(n, node.E("p.src", c.inUnits(w)))
	}
	for i := range k.Sizes {
		put(n, c.cutSize(&k.Sizes[i]))
	}
	if len(s.Spec().AsCut) > 0 {
		put(n, button("b.line.wide", node.Key("forget"), "Clear what was measured", node.Click(func() {
			if err := s.ForgetCut(); err != nil {
				c.say(err)
			}
		})))
	}
	out = append(out, n)
	if len(k.Seams) > 0 || k.Finished[1] != k.Finished[0] {
		out = append(out, c.comesOut(k))
	}
	return append(out, node.E("section.pad", node.Key("paper"), c.paperChoice()))
}

// cutSize is one size to measure: what, its limits, a field, and what the value means.
func (c *Screen) cutSize(x *ask.CheckSize) *node.Node {
	s := c.S
	u := s.Units()
	li := node.E("div.cutsize", node.Key("cs"+itoa(x.No)),
		c.field(session.CutField(x.No), fmt.Sprintf("%d. %s", x.No, upper(c.inUnits(x.What))), s.CutIs(x), u.String(), func(v string) error { return s.SetCut(x, v) }, number...))
	limits := x.As[0] + " to " + x.As[2] + " " + u.String()
	if x.Calliper {
		limits += ", by calliper"
	}
	row := node.E("p.limits", node.E("span", "Should be ", node.E("b", x.As[1]), ": ", limits))
	switch x.State {
	case "ok":
		put(row, state("ok"))
	case "large", "small", "bad":
		sev := "stop"
		put(row, node.E("span.st."+sev, glyph(sev), map[string]string{"large": "too large", "small": "too small", "bad": "can’t be"}[x.State]))
	}
	put(li, row)
	if x.Say != "" && x.State != "ok" {
		put(li, node.E("p.src", upper(c.inUnits(x.Say))))
	}
	var why []any
	for _, w := range []string{x.Limits, x.Short, x.Long} {
		if w != "" {
			why = append(why, node.E("p.src", upper(c.inUnits(w))))
		}
	}
	if len(x.Catches) > 0 {
		why = append(why, node.E("p.src", "Catches "+session.List(x.Catches)+"."))
	}
	put(li, more("why"+itoa(x.No), "Why, and what it does", why...))
	return li
}

// comesOut says what the part comes to from the blank as it was cut.
func (c *Screen) comesOut(k *ask.CutCheck) *node.Node {
	s := c.S
	u := s.Units()
	n := node.E("section.pad", node.Key("comes"), node.E("h2", "From this blank the part comes out so"))
	if len(k.Seams) > 0 {
		body := node.E("tbody")
		for _, x := range k.Seams {
			gap := func(g [2]float64) string { return session.Gap(g[0], u) + " to " + session.Gap(g[1], u) }
			after := gap(x.After)
			if x.Gone {
				after = "no longer side by side"
			}
			row := node.E("td", after)
			if x.Worse {
				put(row, glyph("stop"))
			}
			put(body, node.E("tr", node.E("td", upper(x.Name)), node.E("td", gap(x.Before)), row))
		}
		put(n, node.E("table.tab", node.Key("seams"), node.E("caption.quiet", "Gaps of seams, in "+u.String()), node.E("thead", node.E("tr", node.E("th", "Seam"), node.E("th", "Drawn"), node.E("th", "As cut"))), body))
	}
	if k.Finished[1] != k.Finished[0] && k.Finished[1] != [3]float64{} {
		size := func(z [3]float64) string {
			return session.Size(z[0], u) + " × " + session.Size(z[1], u) + " × " + session.Size(z[2], u)
		}
		put(n, rows([][2]string{{"Finished, drawn", size(k.Finished[0])}, {"As cut", size(k.Finished[1])}}))
	}
	return n
}
