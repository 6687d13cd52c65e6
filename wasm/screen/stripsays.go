package screen

// This file holds what the test bends in use say: together, and one by one.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// verdict is what the strips say together: K, radius, springback, and whether the blank goes by it.
func (c *Screen) verdict(t *session.Tests) *node.Node {
	s := c.S
	u := s.Units()
	box := node.E("div.verdict", node.Key("verdict"), node.A("aria-live", "polite"))
	add := func(n ...*node.Node) { put(box, n...) }
	reaches := s.Reaches()
	cell := func(k, v, unit string) *node.Node {
		return node.E("div", node.E("dt", k), node.E("dd", v, " ", node.E("small", unit)))
	}
	cells := node.E("dl.cells")
	figure := func(k, v, unit string) { put(cells, cell(k, v, unit)) }
	for i := range reaches {
		if r := &reaches[i]; r.OK {
			figure(c.yourK(reaches, r), kWords(r.K, r.Spread), "")
		}
	}
	if len(cells.Kids) == 0 {
		for i := range t.Study.Groups {
			g := &t.Study.Groups[i]
			if g.KSpread > 0 {
				figure("Your K, R "+radiusText(g.Radius, u), kWords(g.K, g.KSpread), "")
			}
		}
	}
	for i := range t.Study.Groups {
		g := &t.Study.Groups[i]
		if g.RadiusFrom == "measured" || g.RadiusFrom == "fitted" {
			places, least := 1, 0.1
			if u == fold.Inch {
				places, least = 3, 0.001
			}
			figure("Inside radius", fmt.Sprintf("%.*f ± %.*f", places, g.Radius/u.Scale(), places, math.Max(least, g.RadiusSpread/u.Scale())), u.String())
		}
	}
	// Few cells keep their figures large.
	switch {
	case len(cells.Kids) > 2:
		add(rows(cellRows(cells)))
	case len(cells.Kids) > 0:
		add(cells)
	}
	add(c.springBack(t)...)
	add(c.usedNow(reaches)...)
	return box
}

func (c *Screen) yourK(all []session.Reach, r *session.Reach) string {
	if len(all) == 1 {
		return "Your K"
	}
	return "Your K, R " + radiusText(r.Radius, c.S.Units())
}

// cellRows turns cells into a list of facts.
func cellRows(cells *node.Node) (out [][2]string) {
	for _, k := range cells.Kids {
		out = append(out, [2]string{k.Kids[0].Words(), k.Kids[1].Words()})
	}
	return out
}

// springBack says where to stop the leaf, by the strips that noted it: for each radius of theirs.
func (c *Screen) springBack(t *session.Tests) (out []*node.Node) {
	u := c.S.Units()
	radius := 0.0
	if bends := c.S.Part().Bends; len(bends) > 0 {
		radius = bends[0].Radius
	}
	for i := range t.Study.Groups {
		g := &t.Study.Groups[i]
		if g.Sets == 0 {
			continue
		}
		angle := math.Round((g.SetAngles[0] + g.SetAngles[1]) / 2)
		r, by := g.Radius, ", by strips of R "+radiusText(g.Radius, u)+" "+u.String()
		switch g.RadiusFrom {
		case "":
			r, by = radius, ", by strips whose inside radius is not known"
		case "nose":
			by = ", by strips bent on a nose of " + radiusText(g.Radius, u) + " " + u.String()
		}
		if set, doubt, _, ok := t.Study.Set(angle, r, t.Study.Thickness); ok {
			out = append(out, node.E("p", node.Key(fmt.Sprint("spring", i)), fmt.Sprintf("Springback%s: for %s° stop the leaf at about ", by, session.Degrees(angle)), node.E("b", session.Degrees(math.Round(set*10)/10)+"°"), fmt.Sprintf(", give or take %s°.", session.Degrees(math.Max(0.1, doubt)))))
		}
	}
	return out
}

// usedNow says whether the blank goes by the strips, and offers what makes it so.
func (c *Screen) usedNow(reaches []session.Reach) (out []*node.Node) {
	s := c.S
	u := s.Units()
	if by := s.KBy(); by == session.KByFigure || by == session.KByRule {
		words := "the part goes by a rule, " + s.RuleUsed().Name
		if k := s.Spec().Sheet.K; k != nil {
			words = fmt.Sprintf("the part’s K is a given figure, %.4g", *k)
		}
		return []*node.Node{
			node.E("p.uses", node.Key("given"), glyph("note"), node.E("span", "The blank doesn’t use it yet: "+words+".")),
			button("b.main.wide.usetests", node.Key("use"), "Use my test bends", node.Click(func() { c.did(s.UseTests()) }))}
	}
	whole := true
	for i := range reaches {
		r := &reaches[i]
		whole = whole && r.OK
	}
	if whole && len(reaches) > 0 {
		out = append(out, node.E("p.uses", node.Key("uses"), glyph("ok"), node.E("span", node.E("b", "The blank uses it now.")), node.E("span.fit", s.FitWords())))
	}
	out = append(out, c.spreadWorth())
	for i := range reaches {
		r := &reaches[i]
		head := ""
		if len(reaches) > 1 {
			head = "Bends of R " + radiusText(r.Radius, u) + ": "
		}
		switch {
		case r.OK && !whole:
			out = append(out, node.E("p.uses", node.Key(fmt.Sprint("ok", i)), glyph("ok"), node.E("span", session.Title(head+"the blank uses it now."))))
		case !r.OK:
			out = append(out, node.E("p.uses", node.Key(fmt.Sprint("no", i)), glyph("watch"), node.E("span", session.Title(head+"the blank doesn’t use it. ")+r.Why)))
			for k, o := range r.Instead {
				cls := "b.main.wide.useradius"
				if k > 0 {
					cls = "b.line.wide.useradius"
				}
				as := "as on " + count(o.Strips, "strip")
				if o.Known == "nose" {
					as = "the nose of " + count(o.Strips, "strip")
				}
				out = append(out, button(cls, node.Key(fmt.Sprint("give", i, k)), fmt.Sprintf("Give %s R %s %s, %s", bendsWords(len(r.Bends), len(reaches)), radiusText(o.Radius, u), u, as),
					node.Click(func() { c.did(s.UseRadius(r.Radius, o.Radius, o.Known)) })))
			}
		}
		if o := r.Measured; o != nil {
			out = append(out, button("b.line.wide.measured", node.Key(fmt.Sprint("take", i)), fmt.Sprintf("Give %s R %s %s, measured on the strips", bendsWords(len(r.Bends), len(reaches)), radiusText(o.Radius, u), u),
				node.Click(func() { c.did(s.UseRadius(r.Radius, o.Radius, o.Known)) })))
		}
		if r.OK && r.Why != "" {
			out = append(out, node.E("p.src", node.Key(fmt.Sprint("why", i)), r.Why))
		}
	}
	return out
}

func radiusText(mm float64, u fold.Units) string {
	if u == fold.Inch {
		return session.Length(mm, u)
	}
	return session.FieldLength(math.Round(mm*100)/100, u)
}

func bendsWords(bends, kinds int) string {
	switch {
	case kinds == 1 && bends > 1:
		return "the bends"
	case bends == 1:
		return "the bend"
	}
	return "these bends"
}

// stripTable lists the strips in use; a row opens on what can be done with it.
func (c *Screen) stripTable(t *session.Tests) *node.Node {
	s := c.S
	u := s.Units()
	body := node.E("tbody")
	for n := range t.Used {
		strip := &t.Used[n]
		at := t.In[n]
		v := &t.Study.Strips[n]
		k, cls := "–", "td.ra"
		if a := t.Alone[n]; a.OK && strip.Length > 0 {
			k = fmt.Sprintf("%.2f", a.K)
		}
		var mark *node.Node
		if v.State != "used" {
			cls = "td.ra.watch"
			mark = node.E("small.watch", glyph("watch"), stateWords(v))
		}
		legs := "angle only"
		if strip.Length > 0 {
			legs = session.Length(strip.Legs[0], u) + " + " + session.Length(strip.Legs[1], u)
		}
		open := c.Tests.picked == n+1
		row := "tr"
		if open {
			row = "tr.sel"
		}
		toggle := func() {
			c.Tests.picked = n + 1
			if open {
				c.Tests.picked = 0
			}
		}
		put(body, node.E(row, node.Key(fmt.Sprint("s", n)), node.Click(toggle),
			node.E("th", node.A("scope", "row"), button("rowname", node.A("aria-expanded", fmt.Sprint(open)), fmt.Sprintf("%d", n+1), node.E("span.quiet", ", more"), node.Click(toggle))),
			node.E("td", legs, mark),
			node.E("td.ra", session.Degrees(strip.Angle)+"°"),
			node.E(cls, k)))
		if !open {
			continue
		}
		facts := [][2]string{}
		if strip.Length > 0 {
			facts = append(facts, [2]string{"Length, flat", session.FieldLength(strip.Length, u) + " " + u.String()}, [2]string{"Legs", sideWords(strip.Inside, strip.Calliper)})
		}
		if strip.Set != nil {
			facts = append(facts, [2]string{"Leaf stopped at", session.FieldDegrees(*strip.Set) + "°"})
		}
		if strip.Radius != nil {
			facts = append(facts, [2]string{"Inside radius", session.FieldLength(*strip.Radius, u) + " " + u.String()})
		}
		if strip.Nose > 0 {
			facts = append(facts, [2]string{"Nose radius", session.FieldLength(strip.Nose, u) + " " + u.String()})
		}
		if strip.Brake != "" {
			facts = append(facts, [2]string{"Brake", strip.Brake})
		}
		more := node.E("td", node.A("colspan", "4"))
		for _, w := range v.Words {
			put(more, node.E("p", fold.InUnits(w, u)))
		}
		put(more, rows(facts), node.E("div.acts",
			button("b.line", "Edit", node.Click(func() {
				c.Tests.picked = 0
				s.OpenStrip(at)
				c.Focus = "f-" + session.StripField("leg-a")
			})),
			button("b.line", "Leave out", node.Click(func() { c.Tests.picked = 0; c.did(s.LeaveOut(at)) })),
			button("b.line", "Delete", node.Click(func() { c.Tests.picked = 0; c.did(s.DropStrip(at)) }))))
		put(body, node.E("tr.more", node.Key(fmt.Sprint("m", n)), more))
	}
	col := func(cls, words string) *node.Node { return node.E(cls, node.A("scope", "col"), words) }
	return node.E("table.strips", node.Key("strips"), node.E("thead", node.E("tr", col("th", "Strip"), col("th", "Legs, "+u.String()), col("th.ra", "Angle"), col("th.ra", "K"))), body)
}

func sideWords(inside, calliper bool) string {
	words := "measured outside"
	if inside {
		words = "measured inside"
	}
	if calliper {
		words += ", with a calliper"
	}
	return words
}

// stateWords are the state of a strip that isn't used, as the table says it.
func stateWords(v *metal.Verdict) string {
	if v.State == "impossible" {
		return "can’t be"
	}
	return "doesn’t fit the others"
}

// studyWords are the study's own words on all strips together, and on those that were not used.
func (c *Screen) studyWords(t *session.Tests) *node.Node {
	box := node.E("div.said", node.Key("said"))
	for n := range t.Study.Strips {
		v := &t.Study.Strips[n]
		if v.State == "used" || c.Tests.picked == n+1 {
			continue
		}
		for _, w := range v.Words {
			put(box, node.E("p.src", fold.InUnits(w, c.S.Units())))
		}
	}
	for _, w := range t.Study.Words {
		put(box, node.E("p.src", fold.InUnits(w, c.S.Units())))
	}
	if len(box.Kids) == 0 {
		return nil
	}
	return box
}
