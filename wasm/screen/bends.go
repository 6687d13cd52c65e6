package screen

// This file holds the column under Bends: the job cards.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// More cards than this and runs of done and of waiting ones fold up. Beside the
// open card this many stay on either side, on a sheet from below none.
const (
	manyCards = 5
	nearCards = 2
)

func (c *Screen) bends() []*node.Node {
	s := c.S
	cards := s.Cards()
	if len(cards) == 0 {
		words := "This blank has no bends: it is finished as it lies."
		if !s.Part().Foldable {
			words = "The cards come once the part folds. What stands in the way is above."
		}
		return []*node.Node{node.E("section.pad", node.E("p", words))}
	}
	open, frac := s.OpenCard()
	run := "Run through"
	if c.Running {
		run = "Stop"
	}
	head := node.E("header.run", node.Key("run"), node.E("h2", fmt.Sprintf("Card %d of %d", open+1, len(cards))),
		button("b.line.runthrough", run, node.Click(func() { c.Do.RunThrough(!c.Running) })))
	list := node.E("ol.cards", node.Key("cards"))
	if c.dragFrom >= 0 {
		list.Attrs = append(list.Attrs, node.Attr{Name: "data-dragging", Value: "1"})
	}
	first, last := 0, len(cards)
	near, many := nearCards, manyCards
	if c.Narrow {
		near, many = 0, 2
	}
	if len(cards) > many && !c.allCards {
		if first = max(0, open-near); first == 1 { // one card takes no less room folded up
			first = 0
		}
		if last = min(len(cards), open+near+1); last == len(cards)-1 {
			last = len(cards)
		}
	}
	if first > 0 {
		put(list, c.fold(cards[:first], "done"))
	}
	for i := first; i < last; i++ {
		put(list, c.card(cards[i], i == open, frac))
	}
	if last < len(cards) {
		put(list, c.fold(cards[last:], "wait"))
	}
	if len(cards) > many && c.allCards {
		put(list, node.E("li", node.Key("fewer"), button("card.wait", node.E("span.n", ""), node.E("span.t", "Fold the runs up"), node.Click(func() { c.allCards = false }))))
	}
	var err *node.Node
	if e, bad := s.Error("order"); bad {
		err = node.E("p.err.pad", node.Key("order-e"), node.A("role", "alert"), upper(e.Message))
	}
	here := button("b.line.runhere", node.Key("run"), run, node.Click(func() { c.Do.RunThrough(!c.Running) })) // on a phone, in place of the one above
	nav := node.E("nav.pn", node.Key("pn"), node.A("aria-label", "Cards"))
	if open > 0 {
		put(nav, button("b.prev", node.Key("prev"), icon("prev"), node.E("span", fmt.Sprintf("%d %s", open, cards[open-1].Name)), node.Click(func() { s.SetCard(open-1, 0) })))
	} else {
		put(nav, button("b.prev", node.Key("prev"), node.If("disabled", frac == 0), icon("prev"), node.E("span", "Flat"), node.Click(func() { s.SetCard(0, 0) })))
	}
	put(nav, here)
	if open+1 < len(cards) {
		put(nav, button("b.next", node.Key("next"), node.E("span", fmt.Sprintf("%d %s", open+2, cards[open+1].Name)), icon("next"), node.Click(func() { s.SetCard(open+1, 0) })))
	} else {
		put(nav, button("b.next", node.Key("next"), node.If("disabled", frac == 1), node.E("span", "Finished"), icon("next"), node.Click(func() { s.SetCard(open, 1) })))
	}
	return []*node.Node{c.facts(), head, err, list, nav}
}

// fold is a run of cards in one line.
func (c *Screen) fold(run []session.Card, stage string) *node.Node {
	a, b := run[0], run[len(run)-1]
	return node.E("li", node.Key("run-"+stage), button("card."+stage, node.A("aria-expanded", "false"), node.A("title", "Show these cards"),
		node.E("span.n", fmt.Sprintf("%d–%d", a.Number, b.Number)), node.E("span.t", runNames(run)), worst(run), node.Click(func() { c.allCards = true })))
}

func runNames(run []session.Card) string {
	words := run[0].Name
	if len(run) == 2 {
		return words + ", " + run[1].Name
	}
	return fmt.Sprintf("%s to %s", words, run[len(run)-1].Name)
}

func worst(run []session.Card) *node.Node {
	w := "ok"
	for _, k := range run {
		switch {
		case k.State == "stop", k.State == "watch" && w != "stop":
			w = k.State
		case k.State == "":
			return nil
		}
	}
	return stateShape(w)
}

// stateShape is a state's shape with its word for those who can't see it.
func stateShape(s string) *node.Node {
	return node.E("span.st."+s, glyph(s), node.E("span.quiet", s))
}

// card is one job card: a line, or the open card.
func (c *Screen) card(k session.Card, open bool, frac float64) *node.Node {
	s := c.S
	cls := "li"
	if c.dragFrom >= 0 && c.dragTo == k.Index && c.dragTo != c.dragFrom {
		cls = "li.before"
		if c.dragTo > c.dragFrom {
			cls = "li.after"
		}
	}
	at := node.A("data-at", fmt.Sprint(k.Index))
	if open {
		return node.E(cls, node.Key(fmt.Sprint("card", k.Index)), at, c.openCard(k))
	}
	stage := "wait"
	var look *node.Node
	if k.Stage == session.Done {
		stage = "done"
		look = c.section(k)
	} else {
		look = wayOf(k)
	}
	var st *node.Node
	if k.State != "" {
		st = stateShape(k.State)
	}
	return node.E(cls, node.Key(fmt.Sprint("card", k.Index)), at,
		button("card."+stage, node.E("span.n", fmt.Sprint(k.Number)), node.E("span.t", k.Name), look, st,
			node.A("id", cardID(k.Index)), node.A("title", "Open this card. Alt with an arrow key moves it in the order"),
			node.Click(func() { s.SetCard(k.Index, 0) }), c.orderKeys(k.Index)),
		c.handle(k))
}

// cardID is the id of what a card is opened or moved by.
func cardID(i int) string { return fmt.Sprintf("card-%d", i) }

// orderKeys moves a card by keyboard: Alt and an arrow.
func (c *Screen) orderKeys(i int) any {
	return node.On("keydown", func(e node.Event) {
		to := i
		switch {
		case !e.Alt:
			return
		case e.Key == "ArrowUp":
			to--
		case e.Key == "ArrowDown":
			to++
		default:
			return
		}
		e.Stop()
		c.move(i, to)
	})
}

func (c *Screen) move(from, to int) {
	if to >= 0 && to < len(c.S.Part().Swings) && to != from {
		if c.S.MoveSwing(from, to) == nil { // a refusal stands above the cards
			c.Focus = cardID(to)
		}
	}
}

// handle is what a card is dragged by.
func (c *Screen) handle(k session.Card) *node.Node {
	return node.E("span.handle", node.A("title", "Drag to change the order"), node.A("aria-hidden", "true"), icon("grip"),
		node.On("pointerdown", func(e node.Event) { e.Stop(); c.dragFrom, c.dragTo = k.Index, k.Index }),
		node.On("pointermove", func(e node.Event) {
			var to int
			if _, err := fmt.Sscan(e.Over, &to); err == nil && c.dragFrom >= 0 {
				c.dragTo = to
			}
		}),
		node.On("pointerup", func(node.Event) {
			from, to := c.dragFrom, c.dragTo
			c.dragFrom = -1
			if from >= 0 {
				c.move(from, to)
			}
		}),
		node.On("pointercancel", func(node.Event) { c.dragFrom = -1 }))
}

func wayOf(k session.Card) *node.Node {
	if k.Mixed {
		return node.E("span.way", "up and down")
	}
	return way(k.Up)
}

func (c *Screen) openCard(k session.Card) *node.Node {
	s := c.S
	u := s.Units()
	p := s.Part()
	cls := "section.open"
	if k.State == "stop" {
		cls = "section.open.isstop"
	}
	var st *node.Node
	if k.State != "" {
		st = state(k.State)
	} else if p.Foldable {
		st = node.E("span.st.checking", node.E("i.spin"), "checking")
	}
	set, spring := setAngle(k)
	m := p.MarkOf(k.Bends...)
	unit := " " + u.String()
	mark := node.E("dd", session.Length(m.From, u), node.E("small", unit+" from edge\u00a0"), m.Edge)
	if m.From != m.To {
		mark = node.E("dd", session.Length(m.From, u), node.E("small", unit+" from edge\u00a0"), m.Edge, node.E("small", " at its end by\u00a0"), m.Other, node.E("small", ", "),
			session.Length(m.To, u), node.E("small", " at the other"))
	}
	facts := node.E("dl.facts", node.E("dt", "Bend line"), mark)
	if !k.Mixed && !k.Up {
		put(facts, node.E("dt", "Sheet"), node.E("dd", "turned over", node.E("small", ", so that the leaf still swings up")))
	}
	put(facts, node.E("dt", "Held"), node.E("dd", p.Panels[p.Bends[k.Bends[0]].A].Name))
	if k.Set > k.To {
		put(facts, node.E("dt", "Leaf"), node.E("dd.leafnow", leafNow(k)...))
	}
	room := (*node.Node)(nil)
	if words, tight := s.RoomWords(k.Index); tight {
		room = node.E("p.said", glyph("watch"), node.E("span", node.E("span.quiet", "watch: "), words))
	} else if words != "" {
		room = node.E("p.src", words)
	}
	head := node.E("header", node.A("id", cardID(k.Index)), node.A("tabindex", "0"), node.A("aria-label", fmt.Sprintf("Card %d, %s. Alt with an arrow key moves it in the order", k.Number, k.Name)), c.orderKeys(k.Index),
		node.E("span.n", fmt.Sprint(k.Number)), node.E("b", k.Name), wayOf(k), st, c.handle(k))
	oc := "div.oc"
	if arcTop(k) > wideArc {
		oc = "div.oc.tallarc"
	}
	edit := node.E("div.edit")
	for _, b := range k.Bends {
		put(edit, c.bendFields(b, len(k.Bends) > 1))
	}
	put(edit, node.E("p.src.assumed", c.knownBy(k.Bends)), node.E("div.acts",
		button("b.line.earlier", icon("up"), "Earlier", node.If("disabled", k.Index == 0), node.Click(func() { c.move(k.Index, k.Index-1) })),
		button("b.line.later", icon("down"), "Later", node.If("disabled", k.Index == len(p.Swings)-1), node.Click(func() { c.move(k.Index, k.Index+1) }))))
	return node.E(cls, node.A("aria-label", "Open card"), head, node.E("div.lead", node.E(oc, set, c.arc(k)), facts, room, spring), edit)
}

// setAngle is the open card's number: where its swing ends. more is the rest of it, folded.
func setAngle(k session.Card) (set, rest *node.Node) {
	w := k.SetWords()
	var under []any
	for _, words := range w.Under {
		cls := "span.u"
		if words == fold.StripFirst {
			cls = "span.u.first"
		}
		under = append(under, node.E(cls, words))
	}
	if w.More != "" {
		rest = more("spring", w.More, node.E("p.src", w.Rest))
	}
	v := "span.v"
	if len(w.Figure) > 3 {
		v = "span.v.long"
	}
	return node.E("div.set", append([]any{node.E("span.k", w.Name), node.E(v, w.Figure, "°")}, under...)...), rest
}

// leafAngle is the leaf's angle now as a protractor reads it; at the ends of its way as they are given.
func leafAngle(k session.Card) string {
	switch {
	case k.Stage == session.Done:
		return session.Degrees(k.To) + "°"
	case k.Set > k.To && !k.Back && k.At >= k.Set-1e-6:
		return k.StopAt() + "°"
	}
	return whole(k.At)
}

// leafNow follows the leaf of a bend that springs back.
func leafNow(k session.Card) []any {
	to := session.Degrees(k.To) + "°"
	switch {
	case k.Stage == session.Done:
		return []any{to, node.E("small", ", let go")}
	case k.Back:
		return []any{whole(k.At), node.E("small", ", let go, springing back to "+to)}
	case k.At > k.To:
		return []any{leafAngle(k), node.E("small", " on the leaf, springs back to "+to)}
	}
	return []any{whole(k.At), node.E("small", " of "+k.StopAt()+"°")}
}

// knownBy says what the radius and K of the card's first bend rest on.
func (c *Screen) knownBy(bends []int) string {
	r := c.S.Report()
	if bends[0] >= len(r.Bends) {
		return ""
	}
	b := r.Bends[bends[0]]
	radius := "Radius assumed"
	switch b.RadiusFrom {
	case "nose":
		radius = "Radius by the nose"
	case "strip":
		radius = "Radius measured on a strip"
	}
	return fmt.Sprintf("%s; K %.3f, %s. What their doubt is worth stands under Metal.", radius, b.K, b.KKind)
}

// bendFields is what can be changed of a bend.
func (c *Screen) bendFields(b int, named bool) *node.Node {
	s := c.S
	bend := s.Part().Bends[b]
	u := s.Units()
	n := node.E("div.bf", node.Key(fmt.Sprint("bf", b)))
	if named {
		put(n, node.E("h3", session.Title(bend.Name)))
	}
	dir := "down"
	if bend.Up {
		dir = "up"
	}
	n.Kids = append(n.Kids,
		c.field(session.BendField(b, "angle"), "Bend angle", session.FieldDegrees(bend.Angle.Degrees()), "°", func(t string) error { return s.SetAngle(b, t) }),
		c.field(session.BendField(b, "radius"), "Inside radius", session.FieldLength(bend.Radius, u), u.String(), func(t string) error { return s.SetRadius(b, t) }),
		node.E("div.fr", node.Key("way"), node.E("span", "Way"), seg("Way", [][2]string{{"up", "up"}, {"down", "down"}}, dir, func(v string) {
			if err := s.SetWay(b, v == "up"); err != nil {
				c.say(err)
			}
		})),
		c.field(session.BendField(b, "name"), "Name", bend.Name, "", func(t string) error { return s.SetBendName(b, t) }, node.A("class", "text")))
	return n
}

// section is a done card's little section: the part cut across the bend, what the
// swing turned in the accent.
func (c *Screen) section(k session.Card) *node.Node {
	p := c.S.Part()
	if c.cutsOf != p {
		c.cuts, c.cutsOf = map[int]*node.Node{}, p
	}
	if c.cuts[k.Index] == nil {
		c.cuts[k.Index] = c.cut(k)
	}
	return c.cuts[k.Index]
}

func (c *Screen) cut(k session.Card) *node.Node {
	const w, h, edge = 78.0, 26.0, 2.0
	p := c.S.Part()
	runs := p.Section(p.StateAt(k.Index+1, 0), k.Bends[0])
	box := geom.EmptyBox2()
	for _, r := range runs {
		for _, q := range r.Points {
			box.Add(q)
		}
	}
	if len(runs) == 0 {
		return wayOf(k)
	}
	z := box.Size()
	scale := min((w-2*edge)/max(z[0], 1e-6), (h-2*edge)/max(z[1], 1e-6))
	n := node.E("svg.g", node.A("viewBox", fmt.Sprintf("0 0 %g %g", w, h)), node.A("aria-hidden", "true"))
	for pass := range 2 {
		for _, r := range runs {
			if r.Now != (pass == 1) {
				continue
			}
			pts := ""
			for _, q := range r.Points {
				x := w - edge - (box.Max[0]-q[0])*scale
				y := h/2 - (q[1]-(box.Min[1]+box.Max[1])/2)*scale
				pts += fmt.Sprintf("%.1f,%.1f ", x, y)
			}
			cls := "polyline"
			if r.Now {
				cls = "polyline.m"
			}
			put(n, node.E(cls, node.A("points", pts)))
		}
	}
	return n
}
