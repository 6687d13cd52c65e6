package screen

// This file holds the column under Metal and its first part, the sheet: metal,
// thickness by measure or gauge, grain, good face. metalown.go holds what is known of
// a metal and the maker's own, metalbend.go K and the inside radii, metalworth.go what
// doubt is worth and what the bends take, metalprice.go weight and price.

import (
	"fmt"
	"strings"

	"dryfold/fold/metal"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

func (c *Screen) metal() []*node.Node {
	return []*node.Node{c.sheetBox(), c.keepBox(), c.kBox(), c.stripsBox(), c.radiiBox(), c.adviceBox(), c.worthBox(), c.bendTable(), c.priceBox(), c.calcBox()}
}

// more folds what is not wanted at every look under a line of words.
func more(key, words string, parts ...any) *node.Node {
	return node.E("details.more", append([]any{node.Key(key), node.E("summary", icon("open"), node.E("span", words))}, parts...)...)
}

// pick is a labelled list to choose from. A choice is its value and what it shows.
func pick(id, label string, choices [][2]string, now string, set func(string)) *node.Node {
	list := node.E("select", node.A("id", id), node.A("value", now), node.On("change", func(e node.Event) { set(e.Value) }))
	for _, ch := range choices {
		put(list, option(ch, now))
	}
	return node.E("label.fr", node.Key(id), node.A("for", id), node.E("span", label), node.E("span.fld.sel", list))
}

func option(ch [2]string, now string) *node.Node {
	return node.E("option", node.A("value", ch[0]), node.If("selected", ch[0] == now), ch[1])
}

// fault is what was wrong with a choice that has no field to stand under.
func (c *Screen) fault(key string) *node.Node {
	e, bad := c.S.Error(key)
	if !bad {
		return nil
	}
	return node.E("p.err", node.Key(key+"-e"), node.A("role", "alert"), upper(e.Message))
}

// sheetBox is the sheet that the part is cut from.
func (c *Screen) sheetBox() *node.Node {
	s := c.S
	sh := s.Part().Spec.Sheet
	u := s.Units()
	n := node.E("section.pad", node.Key("sheet"), node.E("h2", "Sheet"))
	if s.MetalForm() != nil {
		put(n, c.metalForm())
	} else {
		put(n, c.metalPick())
	}
	thick, unit := session.FieldLength(s.Part().Thickness, u), u.String()
	q, asked := s.GaugeQuestion()
	if asked {
		thick, unit = q.Typed, ""
	}
	put(n, c.field("thickness", "Thickness", thick, unit, s.SetThickness))
	if asked {
		put(n, c.gaugeChoices(q))
	} else if near := s.NearestGauge(); near != "" {
		put(n, node.E("p.src.under", node.Key("nearest"), near))
	}
	way := s.GrainWay()
	put(n, node.E("div.stack", node.Key("grain"), node.E("span", "Grain, the way the sheet was rolled"),
		seg("Grain", [][2]string{{session.GrainUnsaid, "not said"}, {session.GrainLong, "lengthways"}, {session.GrainCross, "across"}, {session.GrainSlant, "slant"}}, way, func(v string) {
			if err := s.SetGrainWay(v); err != nil {
				c.say(err)
			}
		})))
	if way == session.GrainSlant {
		put(n, c.field("grain", "Grain, from the lower edge B", session.FieldDegrees(*sh.Grain), "°", s.SetGrain))
	}
	side := "A"
	if s.LongSideIsX() {
		side = "B"
	}
	switch way {
	case session.GrainUnsaid:
	case session.GrainSlant:
		put(n, node.E("p.src.under", node.Key("grain-is"), "Counter-clockwise, as the blank lies on the bench."))
	default:
		put(n, node.E("p.src.under", node.Key("grain-is"), "Lengthways is along the blank’s longer side, edge "+side+"."))
	}
	lip := ""
	if sh.Lip != nil {
		lip = session.FieldLength(*sh.Lip*s.Part().Spec.Units.Scale(), u)
	}
	n.Kids = append(n.Kids,
		node.E("div.fr", node.Key("good"), node.E("span", "Good face"), seg("Good face", [][2]string{{"up", "up"}, {"down", "down"}, {"", "not said"}}, sh.Good, func(v string) {
			if err := s.SetGood(v); err != nil {
				c.say(err)
			}
		})),
		node.E("p.src.under", node.Key("good-is"), "Up and down as the blank lies on the bench."),
		c.field("lip", "Shortest lip my brake has turned", lip, u.String(), s.SetLip, node.A("placeholder", "–")))
	if mm := s.Bench().Lip; mm > 0 && sh.Lip == nil {
		words := session.FieldLength(mm, u) + " " + u.String()
		put(n, button("b.line", node.Key("use-lip"), "Use "+words+", as on other parts", node.Click(func() {
			if err := s.SetLip(words); err != nil {
				c.say(err)
			}
		})))
	}
	return n
}

// metalPick is the choice of the metal, with the ways to one of the maker's own.
func (c *Screen) metalPick() *node.Node {
	s := c.S
	spec := s.Part().Spec
	m, known := s.TheMetal()
	now := spec.Sheet.Metal
	own := s.IsOwnMetal(now)
	if known && !own {
		now = m.Name // an alias is shown as the metal it stands for
	}
	list := node.E("select", node.A("id", "f-metal"), node.A("value", now), node.On("change", func(e node.Event) {
		if err := s.SetMetal(e.Value); err != nil {
			c.say(err)
		}
	}))
	put(list, option([2]string{"", "not said"}, now))
	if now != "" && !known {
		put(list, option([2]string{now, now + " (not in the list)"}, now))
	}
	yours := map[string]bool{}
	if own := s.OwnMetals(); len(own) > 0 {
		mine := node.E("optgroup", node.A("label", "Yours"))
		for _, o := range own {
			yours[strings.ToLower(o.Name)] = true
			put(mine, option([2]string{o.Name, o.Name}, now))
		}
		put(list, mine)
	}
	all := node.E("optgroup", node.A("label", "Listed"))
	for _, l := range metal.Metals {
		if !yours[strings.ToLower(l.Name)] {
			put(all, option([2]string{l.Name, l.Name}, now))
		}
	}
	put(list, all)
	box := node.E("div.metalpick", node.Key("metalpick"), node.E("label.fr", node.A("for", "f-metal"), node.E("span", "Metal"), node.E("span.fld.sel", list)), c.fault("metal"), c.told("metal"))
	if known {
		put(box, c.metalFacts(m))
	} else if now != "" {
		put(box, node.E("p.src", "Nothing is known of it, not even its weight. Describe it, and say what it is like."))
	}
	acts := node.E("div.acts")
	switch {
	case own:
		put(acts, button("b.line", "Edit "+spec.Sheet.Metal, node.Click(func() { c.openMetal(spec.Sheet.Metal) })))
	case known:
		put(acts, button("b.line", "Correct its figures", node.Click(func() { c.openMetal(m.Name) })))
	case now != "":
		put(acts, button("b.line", "Describe it", node.Click(func() { c.openMetal(now) })))
	}
	put(acts, button("b.line", "Add a metal", node.Click(func() { c.openMetal("") })))
	put(box, acts)
	return box
}

func (c *Screen) openMetal(name string) {
	c.S.OpenMetal(name)
	c.Focus = "f-" + session.MetalField("name")
}

// gaugeChoices asks which table a gauge number belongs to: one button for every table
// that has it, with its thickness.
func (c *Screen) gaugeChoices(q session.GaugeQuestion) *node.Node {
	u := c.S.Units()
	n := node.E("div.gauges", node.Key("gauges"), node.A("role", "group"), node.A("aria-label", "Which gauge table"),
		node.E("p", node.A("role", "alert"), fmt.Sprintf("“%s” is another thickness in every table. Which one?", q.Typed)))
	for _, g := range q.Choices {
		cls, note := "gauge", (*node.Node)(nil)
		if g.Usual {
			cls = "gauge.usual"
			if m, ok := c.S.TheMetal(); ok {
				note = node.E("small", "usual for "+m.Name)
			}
		}
		put(n, button(cls, node.Key(g.Table), node.E("span", node.E("b", g.Number+" ga "+session.TableName(g.Table)), note),
			node.E("span.mm", session.GaugeThickness(g.Thickness, u)+" "+u.String()), node.Click(func() {
				if err := c.S.TakeGauge(g.Gauge); err != nil {
					c.say(err)
				}
			})))
	}
	return n
}
