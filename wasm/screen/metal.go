package screen

// This file holds the column under Metal: thickness, K with its source, the good
// face, and what each bend takes.

import (
	"fmt"

	"dryfold/fold/metal"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

func (c *Screen) metal() []*node.Node {
	s := c.S
	p := s.Part()
	u := s.Units()
	names := node.E("datalist", node.A("id", "metals"))
	for _, m := range metal.Metals {
		names.Kids = append(names.Kids, node.E("option", node.A("value", m.Name)))
	}
	form := node.E("section.pad", node.Key("sheet"), node.E("h2", "Sheet"),
		c.field("metal", "Metal", p.Spec.Sheet.Metal, "", s.SetMetal, node.A("list", "metals"), node.A("class", "text")), names,
		c.field("thickness", "Thickness", session.FieldLength(p.Thickness, u), u.String(), s.SetThickness),
		node.E("div.fr", node.E("span", "Good face"), seg("Good face", [][2]string{{"up", "up"}, {"down", "down"}, {"", "not said"}}, p.Spec.Sheet.Good, func(v string) {
			if err := s.SetGood(v); err != nil {
				c.say(err)
			}
		})),
		node.E("p.src", "Up and down as the blank lies on the bench."))
	density := "Its weight is not known: the metal isn’t one of the list."
	if m, ok := metal.ByName(p.Metal); ok {
		density = fmt.Sprintf("Density %.0f kg/m³, %s.", m.Density.Mid(), m.Density.Source)
	}
	form.Kids = append(form.Kids, node.E("p.src", density))

	k, given := "", p.Spec.Sheet.K != nil
	if given {
		k = fmt.Sprint(*p.Spec.Sheet.K)
	}
	by := "rule"
	if given {
		by = "given"
	}
	ruled, source := metal.RuleK, "by rule, "+metal.RuleKSource
	if len(p.Bends) > 0 {
		ruled = p.Bends[0].K
		source = p.Bends[0].KSource
	}
	kbox := node.E("section.pad", node.Key("k"), node.E("h2", "K factor"),
		node.E("div.fr", node.E("span", "Comes from"), seg("K factor comes from", [][2]string{{"rule", "the rule"}, {"given", "a figure"}}, by, func(v string) {
			t := ""
			if v == "given" {
				t = fmt.Sprintf("%.3f", ruled)
			}
			_ = s.SetK(t) // what is wrong stands under its field
		})))
	if given {
		kbox.Kids = append(kbox.Kids, c.field("k", "K", k, "", s.SetK))
	}
	if given {
		source += ": assumed, for no source is named with it"
	}
	kbox.Kids = append(kbox.Kids, node.E("p.src", fmt.Sprintf("K is %.3f, ", ruled), source, "."))
	return []*node.Node{form, kbox, c.doubts(), c.bendTable()}
}

// doubts tells what the unmeasured numbers are worth on this part.
func (c *Screen) doubts() *node.Node {
	list := c.S.Doubts()
	if len(list) == 0 {
		return nil
	}
	n := node.E("section.pad", node.Key("doubts"), node.E("h2", "What doubt is worth here"))
	for _, d := range list {
		n.Kids = append(n.Kids, node.E("p", d.Words(c.S.Units())))
	}
	n.Kids = append(n.Kids, node.E("p.src", "With the blank cut as it is. The inside radii are assumed until a bent strip has been measured; by how much both may be out is common practice, without a source."))
	return n
}

// bendTable is what each bend takes of the sheet.
func (c *Screen) bendTable() *node.Node {
	s := c.S
	u := s.Units()
	r := s.Report()
	if len(r.Bends) == 0 {
		return nil
	}
	t := node.E("tbody")
	for i, b := range r.Bends {
		t.Kids = append(t.Kids, node.E("tr", node.Key(fmt.Sprint(i)),
			node.E("th", node.A("scope", "row"), session.Title(b.Name)),
			node.E("td.ra", session.Degrees(b.Angle)+"°"),
			node.E("td.ra", session.Length(b.Radius, u)),
			node.E("td.ra", places(b.Allowance, u)),
			node.E("td.ra", places(b.Deduction, u))))
	}
	return node.E("section.pad", node.Key("bendtable"), node.E("h2", "What the bends take"),
		node.E("div.wide", node.E("table", node.E("thead", node.E("tr",
			node.E("th", node.A("scope", "col"), "Bend"), node.E("th.ra", node.A("scope", "col"), "Angle"), node.E("th.ra", node.A("scope", "col"), "Inside radius"),
			node.E("th.ra", node.A("scope", "col"), "Allow-ance"), node.E("th.ra", node.A("scope", "col"), "Deduc-tion"))), t)),
		node.E("p.src", "Bend angles from flat; lengths in "+u.String()+". The allowance is the width of the bend on the blank, the deduction what the outside sizes have too much."))
}
