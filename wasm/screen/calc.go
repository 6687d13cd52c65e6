package screen

// This file holds the bend calculator, a sheet in the column under Metal that works
// without a part.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// calcBox is the bend calculator, a section of the column under Metal.
func (c *Screen) calcBox() *node.Node {
	s := c.S
	f := s.Calc()
	open := f != nil && f.Open
	box := node.E("section.pad.calc", node.Key("calc"),
		node.E("h2", button("fold", node.A("aria-expanded", fmt.Sprint(open)), node.E("span", "Bend calculator"), icon("open"), node.Click(func() { s.OpenCalc(!open) }))))
	if !open {
		put(box, node.E("p.src", "One bend by itself: allowance, setback, deduction and the strip’s length, by any rule."))
		return box
	}
	a, err := s.Reckoned()
	put(box, c.calcForm(f, a))
	if err == nil {
		put(box, c.calcAnswer(a)...)
	}
	return box
}

func (c *Screen) calcForm(f *session.Calc, a *metal.Answer) *node.Node {
	s := c.S
	u := s.Units().String()
	text := func(name string) string {
		for i, n := range session.CalcFields {
			if n == name {
				return f.Texts[i]
			}
		}
		return ""
	}
	field := func(name, label, unit string, extra ...any) *node.Node {
		return c.field(session.CalcField(name), label, text(name), unit, func(t string) error { return s.SetCalc(name, t) }, extra...)
	}
	between, side := "flat", "outside"
	if f.Between {
		between = "legs"
	}
	if f.Inside {
		side = "inside"
	}
	deg := 90.0
	if a != nil {
		deg = a.Angle
	}
	form := node.E("div.cform", node.Key("form"))
	add := func(n ...*node.Node) { put(form, n...) }
	add(c.calcMetal(f), field("thickness", "Thickness", u, node.A("class", "wider")))
	if g, ok := s.CalcGauge(); ok {
		add(node.E("p.src", node.Key("gauge"), fmt.Sprintf("%s is %s mm, %s in; %s.", g, fmt.Sprintf("%.3f", g.Thickness), fmt.Sprintf("%.4f", g.Inch), g.Source)))
	}
	if list := s.CalcGauges(); len(list) > 0 {
		ask := node.E("div.acts.whichgauge", node.Key("gauges"), node.A("role", "group"), node.A("aria-label", "Which gauge table"))
		for _, g := range list {
			put(ask, button("b.line", fmt.Sprintf("%s, %s %s", session.TableName(g.Table), session.Thickness(g.Thickness, s.Units()), u), node.Click(func() {
				c.did(s.SetCalc("thickness", g.Number+" ga "+session.TableName(g.Table)))
			})))
		}
		add(ask)
	}
	add(field("radius", "Inside radius", u), field("angle", "Angle", "°"),
		node.E("div.fr", node.Key("conv"), node.E("span", "Counted"), seg("The angle is counted", [][2]string{{"flat", "from flat"}, {"legs", "between legs"}}, between, func(v string) { s.SetCalcBetween(v == "legs") })),
		node.E("div.conv."+between, node.Key("angles"), c.angles(deg)))
	by := [][2]string{{"", "test bends, else rule"}}
	for i := range metal.Rules {
		by = append(by, [2]string{metal.Rules[i].ID, metal.Rules[i].Name})
	}
	by = append(by, [2]string{session.CalcGiven, "a figure"})
	add(pick("f-"+session.CalcField("by"), "K by", by, f.By, s.SetCalcBy))
	if f.By == session.CalcGiven {
		add(field("k", "K", ""))
	}
	add(field("legs", "Legs in a row", u, node.A("class", "wider"), node.A("placeholder", "40 + 60 + 40")))
	if w := s.CalcLegsRead(); w != "" {
		add(node.E("p.src", node.Key("legsread"), w))
	}
	if text("legs") != "" {
		add(node.E("div.fr", node.Key("side"), node.E("span", "Legs are sizes"), seg("The legs are sizes", [][2]string{{"outside", "outside"}, {"inside", "inside"}}, side, func(v string) { s.SetCalcInside(v == "inside") })))
	}
	return form
}

// calcMetal is the list of metals: the maker's own first.
func (c *Screen) calcMetal(f *session.Calc) *node.Node {
	s := c.S
	options := [][2]string{{"", "not said"}}
	known := f.Metal == ""
	offer := func(name string) {
		for _, o := range options {
			if o[0] == name {
				return
			}
		}
		options = append(options, [2]string{name, name})
		known = known || name == f.Metal
	}
	for _, m := range s.OwnMetals() {
		offer(m.Name)
	}
	for i := range metal.Metals {
		offer(metal.Metals[i].Name)
	}
	if !known {
		offer(f.Metal)
	}
	n := node.E("div.fl", node.Key("metal"), pick("f-"+session.CalcField("metal"), "Metal", options, f.Metal, s.SetCalcMetal))
	if e := c.fault(session.CalcField("metal")); e != nil {
		put(n, e)
	}
	return n
}

// calcAnswer is all that the calculator says.
func (c *Screen) calcAnswer(a *metal.Answer) []*node.Node {
	s := c.S
	u := s.Units()
	unit := u.String()
	len3 := func(mm float64) string { return places(mm, u) }
	cell := func(k, v, unit string) *node.Node {
		return node.E("div", node.E("dt", k), node.E("dd", v, " ", node.E("small", unit)))
	}
	big := node.E("dl.cells", node.Key("big"))
	if a.Developed > 0 {
		put(big, cell("Strip’s length, flat", len3(a.Developed), unit))
	}
	put(big, cell("Allowance", len3(a.Allowance), unit), cell("Deduction", len3(a.Deduction), unit))
	kind := fmt.Sprintf("K %.3f", a.K)
	if a.KSpread > 0 {
		kind = "K " + kWords(a.K, a.KSpread)
	}
	list := [][2]string{
		{"Setback", len3(a.Setback) + " " + unit},
	}
	if a.Angle > 90 {
		mold := "none: the outside faces never meet"
		if !math.IsInf(a.Mold, 0) {
			mold = len3(a.Mold) + " " + unit
		}
		list = append(list, [2]string{"To the outside sharp", mold})
	}
	list = append(list, [2]string{"Bend angle", session.Degrees(a.Angle) + "° from flat"})
	if a.Included >= 0 {
		list = append(list, [2]string{"Between the legs", session.Degrees(a.Included) + "°"})
	}
	sizes := func(v []float64) string {
		t := ""
		for i, x := range v {
			if i > 0 {
				t += " + "
			}
			t += session.Length(x, u)
		}
		return t + " " + unit
	}
	if a.Developed > 0 {
		list = append(list, [2]string{"Legs, outside", sizes(a.Outside)}, [2]string{"Legs, inside", sizes(a.Inside)}, [2]string{"Straight parts", sizes(a.Flats)})
	}
	out := []*node.Node{big,
		node.E("p", node.Key("k"), node.E("b", kind), node.E("span", ", "+a.KSource.String()+".")),
		node.E("div", node.Key("facts"), rows(list)), c.calcOthers(a), c.calcSet(a)}
	if len(a.Least) > 0 {
		t := node.E("dl.facts")
		for i := range a.Least {
			l := &a.Least[i]
			r := session.Thickness(l.Radius, u)
			if l.High > l.Radius {
				r += " to " + session.Thickness(l.High, u)
			}
			what := r + " " + unit
			if l.Direction != "" {
				what += ", " + l.Direction + " the grain"
			}
			if l.Advice {
				what += ", recommended"
			}
			put(t, node.E("dt", what), node.E("dd.srcs", l.Source.String()))
		}
		out = append(out, node.E("div.least", node.Key("least"), node.E("h3", "Least inside radius, by list"), t))
	}
	if len(a.Notes) > 0 {
		n := node.E("div.said", node.Key("notes"))
		for _, w := range a.Notes {
			put(n, node.E("p.src", fold.InUnits(w, u)))
		}
		out = append(out, n)
	}
	return append(out, button("b.line.wide", node.Key("part"), "Take the part’s figures again", node.Click(s.CalcFromPart)))
}

// calcOthers is the same bend by other rules and with the next likely figures.
func (c *Screen) calcOthers(a *metal.Answer) *node.Node {
	u := c.S.Units()
	body := node.E("tbody")
	row := func(key, name, k, deduction, differs string) {
		put(body, node.E("tr", node.Key(key), node.E("th", node.A("scope", "row"), name), node.E("td.ra", k), node.E("td.ra", deduction), node.E("td.ra", differs)))
	}
	for i := range a.Others {
		o := &a.Others[i]
		if o.Why != "" {
			put(body, node.E("tr", node.Key("o"+o.Rule), node.E("th", node.A("scope", "row"), o.Name), node.E("td.src", node.A("colspan", "3"), fold.InUnits(upper(o.Why), u)+".")))
			continue
		}
		row("o"+o.Rule, o.Name, fmt.Sprintf("%.3f", o.K), places(o.Deduction, u), longer(o.Differs, u))
	}
	for i := range a.Nexts {
		n := &a.Nexts[i]
		name := fmt.Sprintf("K %.2f instead", n.K)
		if n.About == "radius" {
			name = "R " + session.Thickness(n.Radius, u) + " instead"
		}
		row(fmt.Sprint("n", i), name, fmt.Sprintf("%.3f", n.K), places(n.Deduction, u), longer(n.Differs, u))
	}
	what := "How much longer or shorter the strip gets if that were right"
	col := func(cls, words string) *node.Node { return node.E(cls, node.A("scope", "col"), words) }
	return node.E("div.wide", node.Key("others"), node.E("h3", "If it were otherwise"), node.E("table", node.E("thead", node.E("tr", col("th", "By"), col("th.ra", "K"), col("th.ra", "Deduc-tion"), col("th.ra", "Strip, "+u.String()))), body),
		node.E("p.src", what+", the outside sizes kept."))
}

// longer is a difference with its sign: "+0.12", "−0.30", "0".
func longer(mm float64, u fold.Units) string {
	t := places(math.Abs(mm), u)
	if t == places(0, u) {
		return "0"
	}
	if mm < 0 {
		return "−" + t
	}
	return "+" + t
}

// calcSet is what is known of the angle to stop the leaf at.
func (c *Screen) calcSet(a *metal.Answer) *node.Node {
	if a.Set == 0 && a.SetLeast.Hi == 0 {
		return nil
	}
	n := node.E("div.setbox", node.Key("set"))
	if a.Set > 0 {
		put(n, node.E("p", node.E("span", "Stop the leaf at about "), node.E("b", session.Degrees(math.Round(a.Set*10)/10)+"°"), node.E("span", fmt.Sprintf(", give or take %s°: %s.", session.Degrees(a.SetDoubt), a.SetSource))))
	}
	if a.SetLeast.Hi > 0 {
		lo, hi := session.Degrees(a.SetLeast.Lo), session.Degrees(a.SetLeast.Hi)
		if lo != hi {
			lo += "° to " + hi
		}
		put(n, node.E("p.src", fmt.Sprintf("Lower limit of the set angle %s° (%s).", lo, a.SetLeastSource)))
	}
	if a.Set == 0 {
		put(n, node.E("p", node.E("b", "Bend a strip first: "), node.E("span", "hand brakes see several degrees more (common practice, no source).")))
	}
	return n
}
