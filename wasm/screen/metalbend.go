package screen

// This file holds what the bends are reckoned with: what stays when a number changes,
// K with its source, the inside radii with how they are known.

import (
	"fmt"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// keepBox is the choice of what stays as it is when a number changes.
func (c *Screen) keepBox() *node.Node {
	s := c.S
	if len(s.Part().Bends) == 0 {
		return nil
	}
	n := node.E("section.pad", node.Key("keep"), node.E("h2", "When a number changes, keep"))
	if s.BySizes() {
		put(n, node.E("p", "The finished sizes stay and the blank is made anew: this part is given by its sizes. One whose blank is cut already is frozen to it first, under Sizes."))
		return n
	}
	if !s.CanRedevelop() {
		put(n, node.E("p", "The blank stays as it is and the finished sizes move: this blank can’t be laid out anew from its finished sizes."))
		return n
	}
	now, words := "sizes", "Another metal, thickness, K or radius, here or on a card, lays the blank out anew; the finished outside sizes stay, measured to the sharp corners."
	if !s.KeepsSizes() {
		now, words = "blank", "The blank stays as it is, as if it were cut already; the finished sizes move."
	}
	put(n, seg("When a number changes, keep", [][2]string{{"sizes", "the finished sizes"}, {"blank", "the blank"}}, now, func(v string) { s.KeepSizes(v == "sizes") }),
		node.E("p.src", words))
	return n
}

// kBox is K: how it is come by, and which is used.
func (c *Screen) kBox() *node.Node {
	s := c.S
	if len(s.Part().Bends) == 0 {
		return nil
	}
	sh := s.Part().Spec.Sheet
	by := s.KBy()
	n := node.E("section.pad", node.Key("k"), node.E("h2", "K factor"), kUsed(s.KsUsed()), c.spreadWorth())
	var choices [][2]string
	for _, w := range s.KWays() {
		choices = append(choices, [2]string{w, map[string]string{session.KByTests: "my test bends", session.KByMetal: "my metal", session.KByRule: "a rule", session.KByFigure: "a figure"}[w]})
	}
	put(n, node.E("div.stack", node.E("span", "Comes from"), seg("K factor comes from", choices, by, func(v string) {
		_ = s.SetKBy(v) // what is wrong stands below
	})))
	switch by {
	case session.KByFigure:
		n.Kids = append(n.Kids,
			c.field("k", "K", fmt.Sprint(*sh.K), "", s.SetK),
			c.field("k-from", "Where from", sh.KFrom, "", s.SetKFrom, node.A("class", "text"), node.A("placeholder", "else assumed")))
	case session.KByRule:
		put(n, c.rulePick()...)
	case session.KByTests:
		put(n, node.E("p.src.under", node.Key("tests"), upper(count(s.FittingTests(), "test bend"))+" of this metal and thickness. Where they say nothing of a bend’s radius, the rule stands in: "+s.RuleUsed().Name+"."))
	}
	if by != session.KByFigure {
		put(n, c.fault("k"), c.told("k"))
	}
	return n
}

// spreadWorth is what the ± of K is worth on this part.
func (c *Screen) spreadWorth() *node.Node {
	worth := c.S.SpreadWorth()
	if worth == "" {
		return nil
	}
	return node.E("p.src.under", node.Key("spread"), "The ± moves blank or finished part by up to "+worth+".")
}

// kUsed is every K that is used, with its source, kind and spread.
func kUsed(used []session.KUse) *node.Node {
	n := node.E("div.used", node.Key("used"))
	for i, k := range used {
		words := fmt.Sprintf("%.3f", k.K)
		if k.Spread > 0 {
			words += fmt.Sprintf(" ± %.3f", k.Spread)
		}
		which := ""
		if len(used) > 1 {
			which = session.Title(names(k.Bends, 3))
		}
		put(n, node.E("p", node.Key(fmt.Sprint(i)), node.E("b.figure", words), node.E("span.kind."+kindClass(k.Kind), k.Kind), node.E("small", which), node.E("small", upper(k.Source))))
	}
	return n
}

// kindClass is a kind of source as a class of the style.
func kindClass(kind string) string {
	return strings.ReplaceAll(strings.Fields(kind + " -")[0], ",", "")
}

// names joins names for a line of the column: so many, the rest counted.
func names(list []string, most int) string {
	if len(list) > most+1 {
		list = append(list[:most:most], fmt.Sprintf("%d more", len(list)-most))
	}
	return session.List(list)
}

// rulePick is the choice of the rule with its formula and source.
func (c *Screen) rulePick() []*node.Node {
	s := c.S
	var list [][2]string
	for _, r := range metal.Rules {
		list = append(list, [2]string{r.ID, r.Name})
	}
	now := s.RuleUsed()
	formula := now.Formula + ". "
	if strings.Contains(now.Source.Title, now.Formula) {
		formula = ""
	}
	box := []*node.Node{
		pick("f-rule", "Rule", list, now.ID, func(v string) {
			if err := s.SetRule(v); err != nil {
				c.say(err)
			}
		}),
		node.E("p.src.under", node.Key("formula"), formula+upper(now.Source.String())+"."),
	}
	return append(box, c.fault("rule"), c.told("rule"))
}

// radiusWords are how a radius is known, as shown.
var radiusWords = [][2]string{{"assumed", "assumed"}, {"strip", "measured on a strip"}, {"nose", "by the nose’s radius"}, {"bar-back", "by the bar-back set"}}

// radiiBox is every different inside radius, to be changed for all its bends at once.
func (c *Screen) radiiBox() *node.Node {
	s := c.S
	list := s.Radii()
	if len(list) == 0 {
		return nil
	}
	u := s.Units()
	n := node.E("section.pad.radii", node.Key("radii"), node.E("h2", "Inside radii"))
	for _, r := range list {
		key := session.RadiusField(r.Bends)
		known := radiusWords
		if r.From == "" {
			known = append([][2]string{{"", "some this, some that"}}, radiusWords...)
		}
		row := node.E("div.radius", node.Key("row-"+key),
			c.field(key, "Inside radius", session.FieldLength(r.Radius, u), u.String(), func(t string) error { return s.SetRadii(r.Bends, t) }),
			node.E("p.src.under", upper(count(len(r.Bends), "bend"))+": "+names(r.Names, 3)+"."),
			pick("f-"+key+"-from", "How do you know it?", known, r.From, func(v string) {
				_ = s.SetRadiusFrom(r.Bends, v) // what is wrong stands below
			}))
		if says, bad := s.StripWords(r); bad {
			put(row, node.E("p.uses", node.Key("by"), glyph("watch"), node.E("span", says)))
		} else if says != "" {
			put(row, node.E("p.src.under", node.Key("by"), says))
		}
		put(row, c.fault(key+"-from"), c.least(r))
		put(n, row)
	}
	put(n, node.E("p.src", node.Key("known"), "The nose’s radius and the bar-back give about the radius; only a bent strip says what comes out."))
	return n
}

// least is the least radius by the lists, beside a radius.
func (c *Screen) least(r session.RadiusRow) *node.Node {
	u := c.S.Units()
	if len(r.Least) == 0 {
		return node.E("p.src", node.Key("least"), "No list gives a least radius for this metal and thickness.")
	}
	line := func(l fold.LeastRadius) *node.Node {
		figure := session.Fine(l.Radius, u)
		if l.High > l.Radius {
			figure += " to " + session.Fine(l.High, u)
		}
		figure += " " + u.String()
		if l.Direction != "" {
			figure += " " + l.Direction + " the grain"
		}
		if l.Advice {
			figure += ", advised"
		}
		return node.E("li", node.E("b", figure), " "+upper(l.Source)+".")
	}
	head := node.E("p", "No list gives a least radius here, only advice.")
	if lo, hi, ok := r.Range(); ok {
		words := session.Fine(hi, u)
		if low := session.Fine(lo, u); low != words {
			words = low + " to " + words
		}
		st := state(r.State)
		if r.State == "note" {
			why := "lists disagree:"
			if r.Lists() == 1 {
				why = "in doubt:"
			}
			st, words = node.E("span.st.note", glyph("note"), why), "least "+words
		} else {
			words = "least by list " + words
		}
		head = node.E("p", st, node.E("span", words+" "+u.String()))
	}
	n := node.E("div.least", node.Key("least"), head)
	list := node.E("ul")
	for _, l := range r.Least {
		put(list, line(l))
	}
	if len(r.Least) > 1 {
		put(n, more("lists", fmt.Sprintf("Each of the %d lists", len(r.Least)), list))
	} else {
		put(n, list)
	}
	return n
}
