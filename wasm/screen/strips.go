package screen

// This file holds My test bends in the column under Metal: the form for a strip, the
// strips in use, and what they say. bendsketch.go has the drawing of what is measured.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// stripsView is how My test bends stands folded open.
type stripsView struct {
	picked int  // the strip in use whose row is open, counted from 1; 0 none
	off    bool // the strips on the bench that the part leaves out are shown
}

// stripsBox is My test bends, a section of the column under Metal.
func (c *Screen) stripsBox() *node.Node {
	s := c.S
	t := s.Tests()
	box := node.E("section.pad.tests", node.Key("tests"), node.E("h2", "My test bends"))
	add := func(parts ...*node.Node) { put(box, parts...) }
	form := s.Strip()
	if len(t.Used) == 0 && form == nil {
		add(node.E("p", "Bend a few strips of this sheet and measure them: the blank is then made by your own metal and brake, not by a rule."))
	}
	if n := len(t.Off); n > 0 && len(t.Used) == 0 && form == nil {
		add(node.E("p.offer", node.Key("offer"), node.E("span", fmt.Sprintf("You have %s of this metal and thickness.", session.Count(n, "test bend"))),
			button("b.main", useWords(n), node.Click(func() { c.did(s.UseStrips(t.Off)) }))))
	}
	if form != nil {
		add(c.stripForm(form, len(t.Used)))
	} else {
		words := "Add a test bend"
		if len(t.Used) > 0 {
			words = "Add another test bend"
		}
		add(button("b.main.wide.addstrip", node.Key("add"), words, node.Click(func() {
			c.Tests.picked = 0
			s.OpenStrip(-1)
			c.Focus = "f-" + session.StripField("length")
			if s.StripText("length") != "" {
				c.Focus = "f-" + session.StripField("leg-a")
			}
		})))
	}
	if len(t.Used) > 0 {
		add(c.stripResults(t)...)
	}
	add(c.stripsOff(t)...)
	if n := len(t.Other); n > 0 {
		add(node.E("p.src", node.Key("other"), fmt.Sprintf("The part also keeps %s of another metal or thickness: %s. They say nothing of this sheet.", session.Count(n, "test bend"), c.otherSheets(t))))
	}
	add(c.stripTools())
	return box
}

// put adds what there is to a node.
func put(n *node.Node, kids ...*node.Node) {
	for _, k := range kids {
		if k != nil {
			n.Kids = append(n.Kids, k)
		}
	}
}

func useWords(n int) string {
	if n == 1 {
		return "Use it"
	}
	return "Use them"
}

// did shows what could not be done.
func (c *Screen) did(err error) {
	if err != nil {
		c.say(err)
	}
}

// otherSheets names the sheets of the strips that don't fit: "Copper 1.0 mm".
func (c *Screen) otherSheets(t session.Tests) string {
	var names []string
	seen := map[string]bool{}
	for _, i := range t.Other {
		o := c.S.OtherStrip(i)
		name := o.Metal
		if name == "" {
			name = "a metal not said"
		}
		name += " " + session.Thickness(o.Thickness, c.S.Units()) + " " + c.S.Units().String()
		if !seen[name] {
			seen[name] = true
			names = append(names, name)
		}
	}
	return session.List(names)
}

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
		return c.field(session.StripField(name), label, s.StripText(name), unit, func(t string) error { return s.SetStrip(name, t) }, extra...)
	}
	side := "outside"
	if form.Inside {
		side = "inside"
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
		n.Kids = append(n.Kids, node.E("span", "This strip alone: "), node.E("b", "K "+kWords(alone.K, alone.Spread)))
	case ok && t.Length > 0:
		n.Kids = append(n.Kids, node.E("span", "This strip alone gives no K between 0 and 0.6 with the radius it has: see its length, legs and radius again."))
	case ok:
		n.Kids = append(n.Kids, node.E("span", "This strip tells of springback alone."))
	default:
		n.Kids = append(n.Kids, node.E("span", "The metal and the thickness are the part’s. Lengths may be 51.2, 2 1/64\" or 51mm."))
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

// stripResults are the table of the strips in use and what they say together.
func (c *Screen) stripResults(t session.Tests) []*node.Node {
	return []*node.Node{c.verdict(t), c.stripTable(t), c.studyWords(t)}
}

// verdict is what the strips say together: K, radius, springback, and whether the blank goes by it.
func (c *Screen) verdict(t session.Tests) *node.Node {
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
	for _, r := range reaches {
		if r.OK {
			figure(c.yourK(reaches, r), kWords(r.K, r.Spread), "")
		}
	}
	if len(cells.Kids) == 0 {
		for _, g := range t.Study.Groups {
			if g.KSpread > 0 {
				figure("Your K, R "+session.FieldLength(math.Round(g.Radius*100)/100, u), kWords(g.K, g.KSpread), "")
			}
		}
	}
	for _, g := range t.Study.Groups {
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

func (c *Screen) yourK(all []session.Reach, r session.Reach) string {
	if len(all) == 1 {
		return "Your K"
	}
	return "Your K, R " + session.FieldLength(r.Radius, c.S.Units())
}

// cellRows turns cells into a list of facts.
func cellRows(cells *node.Node) (out [][2]string) {
	for _, k := range cells.Kids {
		out = append(out, [2]string{k.Kids[0].Words(), k.Kids[1].Words()})
	}
	return out
}

// springBack says where to stop the leaf, by the strips that noted it.
func (c *Screen) springBack(t session.Tests) []*node.Node {
	radius := 0.0
	if bends := c.S.Part().Bends; len(bends) > 0 {
		radius = bends[0].Radius
	}
	for _, g := range t.Study.Groups {
		if g.Sets == 0 {
			continue
		}
		angle := math.Round((g.SetAngles[0] + g.SetAngles[1]) / 2)
		r := g.Radius
		if g.RadiusFrom == "" {
			r = radius
		}
		if set, doubt, _, ok := t.Study.Set(angle, r, c.S.Part().Thickness); ok {
			return []*node.Node{node.E("p", node.Key("spring"), fmt.Sprintf("Springback: for %s° stop the leaf at about ", session.Degrees(angle)), node.E("b", session.Degrees(math.Round(set*10)/10)+"°"), fmt.Sprintf(", give or take %s°.", session.Degrees(math.Max(0.1, doubt))))}
		}
	}
	return nil
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
	for _, r := range reaches {
		whole = whole && r.OK
	}
	if whole && len(reaches) > 0 {
		out = append(out, node.E("p.uses", node.Key("uses"), glyph("ok"), node.E("span", node.E("b", "The blank uses it now.")), node.E("span.fit", s.FitWords())))
	}
	for i, r := range reaches {
		head := ""
		if len(reaches) > 1 {
			head = "Bends of R " + session.FieldLength(r.Radius, u) + ": "
		}
		switch {
		case r.OK && !whole:
			out = append(out, node.E("p.uses", node.Key(fmt.Sprint("ok", i)), glyph("ok"), node.E("span", head+"the blank uses it now.")))
		case !r.OK:
			out = append(out, node.E("p.uses", node.Key(fmt.Sprint("no", i)), glyph("watch"), node.E("span", head+"the blank doesn’t use it. "+r.Why)))
			if r.Instead >= 0 {
				out = append(out, button("b.main.wide.useradius", node.Key(fmt.Sprint("give", i)), fmt.Sprintf("Give %s R %s %s, as the strips have it", bendsWords(len(r.Bends), len(reaches)), session.FieldLength(r.Instead, u), u),
					node.Click(func() { c.did(s.UseRadius(r.Radius, r.Instead, r.Known)) })))
			}
		}
		if r.Measured >= 0 {
			out = append(out, button("b.line.wide.measured", node.Key(fmt.Sprint("take", i)), fmt.Sprintf("Give %s R %s %s, measured on the strips", bendsWords(len(r.Bends), len(reaches)), session.FieldLength(r.Measured, u), u),
				node.Click(func() { c.did(s.UseRadius(r.Radius, r.Measured, r.Known)) })))
		}
		if r.OK && r.Why != "" {
			out = append(out, node.E("p.src", node.Key(fmt.Sprint("why", i)), r.Why))
		}
	}
	return out
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
func (c *Screen) stripTable(t session.Tests) *node.Node {
	s := c.S
	u := s.Units()
	body := node.E("tbody")
	for n, strip := range t.Used {
		at := t.In[n]
		v := t.Study.Strips[n]
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
		body.Kids = append(body.Kids, node.E(row, node.Key(fmt.Sprint("s", n)), node.Click(toggle),
			node.E("th", node.A("scope", "row"), button("rowname", node.A("aria-expanded", fmt.Sprint(open)), fmt.Sprintf("%d", n+1), node.E("span.quiet", ", more"), node.Click(toggle))),
			node.E("td", legs, mark),
			node.E("td.ra", session.Degrees(strip.Angle)+"°"),
			node.E(cls, k)))
		if !open {
			continue
		}
		facts := [][2]string{}
		if strip.Length > 0 {
			facts = append(facts, [2]string{"Length, flat", session.FieldLength(strip.Length, u) + " " + u.String()}, [2]string{"Legs", sideWords(strip.Inside)})
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
			more.Kids = append(more.Kids, node.E("p", fold.InUnits(w, u)))
		}
		more.Kids = append(more.Kids, rows(facts), node.E("div.acts",
			button("b.line", "Edit", node.Click(func() {
				c.Tests.picked = 0
				s.OpenStrip(at)
				c.Focus = "f-" + session.StripField("leg-a")
			})),
			button("b.line", "Leave out", node.Click(func() { c.Tests.picked = 0; c.did(s.LeaveOut(at)) })),
			button("b.line", "Delete", node.Click(func() { c.Tests.picked = 0; c.did(s.DropStrip(at)) }))))
		body.Kids = append(body.Kids, node.E("tr.more", node.Key(fmt.Sprint("m", n)), more))
	}
	col := func(cls, words string) *node.Node { return node.E(cls, node.A("scope", "col"), words) }
	return node.E("table.strips", node.Key("strips"), node.E("thead", node.E("tr", col("th", "Strip"), col("th", "Legs, "+u.String()), col("th.ra", "Angle"), col("th.ra", "K"))), body)
}

func sideWords(inside bool) string {
	if inside {
		return "measured inside"
	}
	return "measured outside"
}

// stateWords are the state of a strip that isn't used, as the table says it.
func stateWords(v metal.Verdict) string {
	if v.State == "impossible" {
		return "can’t be"
	}
	return "doesn’t fit the others"
}

// studyWords are the study's own words on all strips together, and on those that were not used.
func (c *Screen) studyWords(t session.Tests) *node.Node {
	box := node.E("div.said", node.Key("said"))
	for n, v := range t.Study.Strips {
		if v.State == "used" || c.Tests.picked == n+1 {
			continue
		}
		for _, w := range v.Words {
			box.Kids = append(box.Kids, node.E("p.src", fold.InUnits(w, c.S.Units())))
		}
	}
	for _, w := range t.Study.Words {
		box.Kids = append(box.Kids, node.E("p.src", fold.InUnits(w, c.S.Units())))
	}
	if len(box.Kids) == 0 {
		return nil
	}
	return box
}

// stripsOff lists the strips of this metal and thickness that are on the bench but not in the part.
func (c *Screen) stripsOff(t session.Tests) (out []*node.Node) {
	if len(t.Off) == 0 || len(t.Used) == 0 && !c.Tests.off && c.S.Strip() != nil {
		return nil
	}
	s := c.S
	u := s.Units()
	words := fmt.Sprintf("%s left out of this part", session.Count(len(t.Off), "test bend"))
	out = append(out, button("b.line.wide.off", node.Key("off"), node.A("aria-expanded", fmt.Sprint(c.Tests.off)), words, icon("open"), node.Click(func() { c.Tests.off = !c.Tests.off })))
	if !c.Tests.off {
		return out
	}
	list := node.E("ul.offs", node.Key("offs"))
	for i, strip := range t.Off {
		what := fmt.Sprintf("%s° only", session.Degrees(strip.Angle))
		if strip.Length > 0 {
			what = fmt.Sprintf("%s + %s of %s, %s°", session.Length(strip.Legs[0], u), session.Length(strip.Legs[1], u), session.Length(strip.Length, u), session.Degrees(strip.Angle))
		}
		if strip.Brake != "" {
			what += ", " + strip.Brake
		}
		list.Kids = append(list.Kids, node.E("li", node.Key(fmt.Sprint(i)), node.E("span", what), node.E("div.acts",
			button("b.line", "Use", node.A("aria-label", "Use the strip "+what), node.Click(func() { c.did(s.UseStrips([]metal.Strip{strip})) })),
			button("b.line", "Delete", node.A("aria-label", "Delete the strip "+what), node.Click(func() { s.ForgetStrip(strip) })))))
	}
	return append(out, list)
}

// stripTools are the guide to print, and the bench as a file.
func (c *Screen) stripTools() *node.Node {
	n := node.E("div.acts.tools2", node.Key("tools"))
	if len(c.Guide) == 0 {
		n.Kids = append(n.Kids, button("b.line.guide", "Print the guide", node.If("disabled", c.Guiding), node.Click(c.Do.Guide)))
	} else {
		n.Kids = append(n.Kids, button("b.line.guide", "Print it again", node.Click(c.Do.Guide)), button("b.line.away", "Put the guide away", node.Click(func() { c.Guide = nil })))
	}
	if b := c.S.Bench(); len(b.Tests)+len(b.Metals) > 0 {
		n.Kids = append(n.Kids, button("b.line", "Save as a file", node.Click(c.Do.SaveBench)))
	}
	n.Kids = append(n.Kids, button("b.line", "Open a file", node.Click(c.Do.PickFile)))
	words := "Your test bends stay in this browser for other parts, and in the part."
	if c.BenchLost {
		return node.E("div.kept", node.Key("kept"), n, node.E("p.err", node.A("role", "alert"), "This browser can’t keep your test bends for other parts: its store is full or switched off. They stay in the part; save them as a file too."))
	}
	return node.E("div.kept", node.Key("kept"), n, node.E("p.src", words))
}
