package screen

// This file says under Sizes whether the blank can be cut with the maker's own tools, and
// holds the form of these.

import (
	"dryfold/fold"
	"strings"

	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// cutBox is the advice on cutting, the way to a part that can be cut, and the tools.
func (c *Screen) cutBox() *node.Node {
	s := c.S
	if !s.Part().Foldable || len(s.Problems()) > 0 {
		return nil
	}
	n := node.E("section.pad.parts.cutting", node.Key("cut"), node.E("h2", "Can it be cut?"))
	list := s.Uncuttable()
	if len(list) == 0 {
		put(n, node.E("p.said", node.Key("fine"), glyph("ok"), node.E("span", "Yes, with "+c.toolWords()+".")))
	}
	mend := false
	for i, a := range list {
		if i == mostAdvice && !c.allCuts {
			put(n, button("b.line", node.Key("more"), count(len(list)-mostAdvice, "more place"), node.Click(func() { c.allCuts = true })))
			break
		}
		put(n, node.E("p.said."+a.Severity, node.Key("cut"+itoa(i)), glyph(a.Severity), node.E("span", node.E("span.quiet", a.Severity+": "), a.Message)))
		mend = mend || a.Severity != "note"
	}
	if mend && s.BySizes() {
		if c.mending {
			put(n, node.E("p.said", node.Key("mending"), node.A("role", "status"), "Trying reliefs and drills that your tools make: ", count(c.mendTried, "part"), " so far."),
				button("b.line.wide", node.Key("mendstop"), "Stop", node.Click(func() { c.mending = false })))
		} else {
			put(n, button("b.main.wide", node.Key("mend"), "Make it so that my tools can cut it", node.Click(c.mend)))
		}
	}
	if len(c.mended) > 0 && c.mendedOf == s.Serial() {
		box := node.E("ul.mended", node.Key("mended"), node.A("role", "status"))
		for _, w := range c.mended {
			put(box, node.E("li", upper(w)))
		}
		put(n, box)
	}
	put(n, more("m-tools", "My tools", c.toolsForm()))
	return n
}

// mend changes what the tools can't cut, a part on trial after the other, with rests in which the page answers.
func (c *Screen) mend() {
	c.mending, c.mendTried = true, 0
	c.Do.Slowly(func(rest func()) {
		said, err := c.S.MakeCuttableInSteps(func() bool {
			c.mendTried++
			rest()
			return c.mending
		})
		c.mending = false
		if err != nil {
			c.say(err)
			return
		}
		c.mended, c.mendedOf = said, c.S.Serial()
	})
}

// toolWords name the tools that the blank's places take, in the order in which they come.
func (c *Screen) toolWords() string {
	var tools []string
	seen := map[string]bool{}
	for _, k := range c.S.Cuts() {
		if k.Tool == "" || seen[k.Tool] {
			continue
		}
		seen[k.Tool] = true
		tools = append(tools, k.Tool)
	}
	if len(tools) == 0 {
		return "straight cuts"
	}
	return fold.InUnits(session.List(tools), c.S.Units())
}

// toolsForm are the maker's tools. They are kept for all parts.
func (c *Screen) toolsForm() []*node.Node {
	s := c.S
	t := s.Tools()
	u := s.Units()
	_, usualDrills, _ := strings.Cut(t.DrillsFrom(u.String() == "in"), ": ")
	drills := c.fieldBeside(session.ToolField("drills"), "Drills, "+u.String(), s.ToolText("drills"), func(string) string { return "" }, func(v string) error { return s.SetTool("drills", v) },
		node.A("class", "text"), node.A("placeholder", usualDrills))
	drills.Attrs = append(drills.Attrs, node.Attr{Name: "data-long", Value: "1"})
	out := []*node.Node{
		node.E("p.src", node.Key("src"), "What is left empty is taken as is common practice, without a source. They are kept in this browser for every part."),
		drills,
		c.either(session.ToolField("no_saw"), "A saw", [][2]string{{"yes", "yes"}, {"no", "no"}}, map[bool]string{false: "yes", true: "no"}[t.NoSaw], func(v string) error { s.SetSaw(v == "yes"); return nil }),
		c.either(session.ToolField("no_snips"), "Snips", [][2]string{{"yes", "yes"}, {"no", "no"}}, map[bool]string{false: "yes", true: "no"}[t.NoSnips], func(v string) error { s.SetSnips(v == "yes"); return nil }),
	}
	for _, l := range t.Lines() {
		usual := "–"
		unit := u.String()
		switch {
		case l.Angle:
			unit, usual = "°", session.FieldDegrees(l.Value)
		case l.Value > 0:
			usual = session.FieldLength(l.Value, u)
		}
		out = append(out, c.field(session.ToolField(l.Key), l.Label, s.ToolText(l.Key), unit, func(v string) error { return s.SetTool(l.Key, v) }, node.A("placeholder", usual)))
	}
	return out
}
