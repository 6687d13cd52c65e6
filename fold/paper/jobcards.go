package paper

// This file lays out the job cards: one for each swing of the leaf, in order, others for what is done by hand, and a last
// one to check the finished part by. carddraw.go draws a card, cardsection.go its drawings, cardcheck.go the last card.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// JobCards gives the pages of job cards, to be cut apart: what the page's Bends column says of each swing, with its
// mark, angle, radius and section. rep is the whole report, what errors of hand and machine make of the part
// included where it is known. A part that can't be folded is an error.
func JobCards(p *fold.Part, rep *fold.Report, o Options) ([]draft.Page, error) {
	sh, err := newSheet(p, rep, o, "put on job cards")
	if err != nil {
		return nil, err
	}
	p = sh.part
	rule, err := newRuler(o.Units, o.Rule)
	if err != nil {
		return nil, err
	}
	sh.m = takeMarks(p, rule)
	d := &deck{sheet: sh}
	d.at = make([][]int, len(p.Panels))
	for i := range p.Bends {
		b := &p.Bends[i]
		d.at[b.A], d.at[b.B] = append(d.at[b.A], i), append(d.at[b.B], i)
	}
	return d.pages(d.deal()), nil
}

// deck is the job cards in the making.
type deck struct {
	*sheet
	at [][]int // the bends of each panel
}

// jobCard is one card as it is printed: words and numbers, and what draws its pictures.
type jobCard struct {
	no    string // the swing's number, or its numbers
	name  string
	small string // under the name
	way   string // "up", "down", "" for none

	turn string // how the sheet is handled from the card before
	hold string

	mark   []figure // what is put under the nose
	marks  string   // what it is called
	beside []string // notes under it
	set    figure
	sets   string
	under  []string
	angle  float64 // of the little drawing, degrees; 0 for none

	pictures [2]picture
	pair     [][2]string // short facts
	facts    [][2]string
	state    string
	why      string
	made     string // what is written in as made

	rows []checkRow // of the last card
	foot string
}

// figure is a number to be read at arm's length, with the small words after it.
type figure struct{ big, unit, small string }

// picture draws into a box.
type picture struct {
	name string
	draw func(s *draft.Page, box geom.Box2)
}

// deal makes the cards.
func (d *deck) deal() []jobCard {
	var out []jobCard
	p := d.part
	joggles := p.Joggles()
	for i := 0; i < len(p.Swings); i++ {
		if g, n := d.joggle(joggles, i); n > 0 {
			out = append(out, d.joggleCard(g, i, n))
			i += n - 1
			continue
		}
		k := d.swing(i)
		for _, g := range joggles { // its two bends stand apart in the order
			if b := p.Swings[i].Bends; slices.Contains(b, g.Bends[0]) || slices.Contains(b, g.Bends[1]) {
				k.beside = append(k.beside, fmt.Sprintf("A joggle of %s and %s: the nose has no place for the second. Put both next to each other in the order, and press them at once.", p.Bends[g.Bends[0]].Name, p.Bends[g.Bends[1]].Name))
			}
		}
		if c, ok := p.Closing(i); ok {
			out = append(out, d.closing(k, i, c)...)
		} else {
			out = append(out, k)
		}
	}
	return append(out, d.checks()...)
}

// swing is the card of a swing that the leaf makes.
func (d *deck) swing(i int) jobCard {
	p := d.part
	c := p.Card(d.rep, i)
	b := &p.Bends[c.Bends[0]]
	w := stopWords(&c)
	k := jobCard{no: fmt.Sprint(c.Number), name: c.Name, way: wayWord(b.Up), marks: "Sight line, under the nose", sets: w.Name,
		set: figure{big: w.Figure + "°"}, under: w.Under, angle: c.To, state: c.State, made: "angle as made"}
	if c.Mixed {
		k.way, k.why = "", "Some of its bends go up and some down: no leaf makes them in one swing. "
	}
	if w.More != "" {
		k.under = append(k.under, w.More)
		if c.Spring.Measured {
			k.under[len(k.under)-1] = w.Rest
		}
	}
	k.turn, k.hold = d.handling(i)
	k.mark = d.figures(d.markAt(sightLine, c.Bends...))
	k.beside = append(k.beside, "bend line "+d.lineWords(d.markAt(bendLine, c.Bends...)))
	if !b.Up {
		k.beside = append(k.beside, "carried over to this face")
	}
	if c.From > 0 {
		k.beside = append(k.beside, fmt.Sprintf("bent to %s° already", fold.ShownDegrees(c.From)))
	}
	if c.To > fold.LeafLow && c.To <= fold.LeafHigh {
		k.beside = append(k.beside, fmt.Sprintf("see that your leaf goes so far: many stop between %d° and %d° (common practice)", fold.LeafLow, fold.LeafHigh))
	}
	k.pair = [][2]string{{"Radius", d.inside(c.Bends[0])}, {"Fingers", d.say(p.Stretch(c.Bends...)) + " " + d.m.units.String() + " wide"}}
	k.facts = d.standing(i)
	k.pictures = d.sections(i, 0)
	k.why += d.reason(i, &c)
	return k
}

func wayWord(up bool) string {
	if up {
		return "up"
	}
	return "down"
}

// stopWords are a card's words for where its swing ends, with what is to be done the largest: of a leaf that must go further than the
// finished angle, nobody has measured how far, past what it must go.
func stopWords(c *fold.Card) fold.SetWords {
	w := c.SetWords()
	sp := &c.Spring
	if sp.Measured || sp.Part || sp.Flat || c.To > 180 {
		return w
	}
	w.Name, w.Figure, w.More, w.Rest = "Stop the leaf past", fold.ShownDegrees(max(sp.Least, c.To)), "", ""
	w.Under = []string{"not measured: bend a strip first"}
	if sp.Least > 0 {
		w.Under = []string{"lower limit, by formula; not measured: bend a strip first"}
	}
	finished := "finished " + fold.ShownDegrees(c.To) + "°"
	if c.To != 90 {
		finished += ", included " + fold.ShownDegrees(180-c.To) + "°"
	}
	if w.Under = append(w.Under, finished); sp.Why != "" {
		w.Under = append(w.Under, sp.Why)
	}
	return w
}

// figures are a mark's numbers: one where the line runs along a datum edge, else one for each end.
func (d *deck) figures(m fold.Mark) []figure {
	u := d.m.units.String()
	if m.From == m.To {
		return []figure{{d.ruled(m.From), u, "from " + m.Edge}}
	}
	return []figure{{d.ruled(m.From), u + " from " + m.Edge, "end by " + m.Other}, {d.ruled(m.To), u + " from " + m.Edge, "other end"}}
}

// markAt is the mark of one of the lines of bends that lie on one line, by its ends as the marking-out sheet has them.
func (d *deck) markAt(kind int, bends ...int) fold.Mark {
	var lines [][2]geom.Vec2
	o := d.part.Blank.Box.Min
	for _, b := range bends {
		e := d.m.bends[b].lines[kind].exact
		lines = append(lines, [2]geom.Vec2{d.m.mm(e[0]).Add(o), d.m.mm(e[1]).Add(o)})
	}
	return d.part.MarkOfLines(lines...)
}

// lineWords is a mark within a line.
func (d *deck) lineWords(m fold.Mark) string {
	if m.From == m.To {
		return d.ruled(m.From) + " from " + m.Edge
	}
	return fmt.Sprintf("%s from %s by %s, %s at its other end", d.ruled(m.From), m.Edge, m.Other, d.ruled(m.To))
}

// inside is a bend's inside radius with how it is known in a word, as the marking-out sheet says it.
func (d *deck) inside(i int) string {
	return d.fine(d.part.Bends[i].Radius) + " " + d.m.units.String() + ", " + radiusKind(d.bendReport(i).RadiusFrom)
}

// Lines of two bends that differ by less than nearTurn run alike, within nearTurn of square they are a quarter turn apart: what the eye
// sees at the brake (degrees).
const nearTurn = 15

// handling says how the sheet is turned from the card before, and what is held.
func (d *deck) handling(i int) (turn, hold string) {
	p := d.part
	b := &p.Bends[p.Swings[i].Bends[0]]
	var say []string
	was := true
	if i > 0 {
		before := &p.Bends[p.Swings[i-1].Bends[0]]
		was = before.Up
		a := math.Abs(math.Atan2(geom.Cross2(before.N, b.N), before.N.Dot(b.N))) * 180 / math.Pi
		switch {
		case a < nearTurn:
		case a > 180-nearTurn:
			say = append(say, "end for end")
		case math.Abs(a-90) < nearTurn:
			say = append(say, "a quarter")
		default:
			say = append(say, fmt.Sprintf("by about %.0f°", math.Round(a/5)*5))
		}
	}
	switch {
	case was != b.Up:
		say = append([]string{"turn over"}, say...)
	case len(say) > 0:
		say[0] = "turn " + say[0]
	}
	face := "Marked face up"
	if !b.Up {
		face = "Marked face down"
	}
	if turn = face; len(say) > 0 {
		turn = fold.Title(strings.Join(say, ", "))
	}
	var swings []string
	for _, k := range p.Swings[i].Bends {
		if n := p.Panels[p.Bends[k].B].Name; !slices.Contains(swings, n) {
			swings = append(swings, n)
		}
	}
	hold = fmt.Sprintf("Hold %s, swing %s", p.Panels[b.A].Name, fold.List(swings))
	if turn != face {
		hold = face + ". " + hold
	}
	return turn, hold
}

// standing says what is up already of all that hangs on the flat piece in the brake, as it lies there.
func (d *deck) standing(i int) (facts [][2]string) {
	p := d.part
	st := p.StateAt(i, 0)
	first := &p.Bends[p.Swings[i].Bends[0]]
	turning := p.Swings[i].Bends
	flat := make([]bool, len(p.Panels)) // the piece that lies flat, with what the swing is about to turn
	var next []int
	reach := func(panel int) {
		if !flat[panel] {
			flat[panel] = true
			next = append(next, panel)
		}
	}
	for _, k := range turning {
		reach(p.Bends[k].A)
	}
	for len(next) > 0 {
		at := next[len(next)-1]
		next = next[:len(next)-1]
		for _, k := range d.at[at] {
			if st[k] == 0 {
				reach(p.Bends[k].A)
				reach(p.Bends[k].B)
			}
		}
	}
	var up, down []string
	for k := range p.Bends {
		b := &p.Bends[k]
		if st[k] == 0 || flat[b.A] == flat[b.B] || slices.Contains(turning, k) {
			continue
		}
		if b.Up == first.Up {
			up = append(up, b.Name)
		} else {
			down = append(down, b.Name)
		}
	}
	if len(up) > 0 {
		facts = append(facts, [2]string{"Stands up", strings.Join(up, ", ")})
	}
	if len(down) > 0 {
		facts = append(facts, [2]string{"Hangs down", strings.Join(down, ", ")})
	}
	if i > 0 && len(facts) == 0 {
		facts = append(facts, [2]string{"Up already", "nothing beside it"})
	}
	return facts
}

// reason is what the report says against a swing, or of how close things pass in it.
func (d *deck) reason(i int, c *fold.Card) string {
	words, _ := d.part.RoomWords(d.rep, i, d.m.units)
	if t := d.rep.FoulTrouble(c.Foul); t != nil {
		// The card's own number and name stand above.
		msg := strings.TrimPrefix(t.Message, fmt.Sprintf("Swing %d, %s: ", c.Number, fold.List(c.Foul.Bends)))
		words = strings.TrimSpace(fold.InUnits(fold.Title(msg), d.m.units) + " " + words)
	}
	return words
}

// closing makes of a swing's card those of a bend that the bar closes.
func (d *deck) closing(k jobCard, i int, c fold.Closing) []jobCard {
	u := " " + d.m.units.String()
	shut := k
	shut.small, shut.sets, shut.made = "by hand: close it under the bar", "Close it to", "gap as made"
	shut.marks, shut.mark, shut.beside = "Clear gap, inside", []figure{{d.say2(c.Gap), d.m.units.String(), "in the fold"}}, nil
	if c.End > 0 && math.Abs(c.End-c.Gap) > gapShown {
		shut.mark = append(shut.mark, figure{d.say2(c.End), d.m.units.String(), "at the edge"})
	}
	lay := fmt.Sprintf("Lay a strip %s%s thick in the fold and close the bar on it (common practice).", d.say2(c.Gap), u)
	switch {
	case c.Gap < gapShown:
		lay = "Close the bar on it until it lies flat (common practice)."
	case c.End <= 0 || shut.angle > 180:
		lay = fmt.Sprintf("Lay a rod %s%s thick in the fold, and close the bar until the free edge touches (common practice).", d.say2(c.Gap), u)
	case shut.angle < 180:
		lay = fmt.Sprintf("Lay a wedge in the fold that is %s%s thick where the free edge is, and close the bar on it (common practice).", d.say2(c.End), u)
	}
	shut.under = []string{lay}
	shut.pictures[1] = picture{"after, with its clear gap", d.gapPicture(i, c)}
	if !c.Leaf {
		return []jobCard{shut}
	}
	pair := d.sections(i, fold.LeafLow)
	shut.pictures[0] = picture{"before", pair[1].draw}
	leaf := k
	leaf.small, shut.small = "step 1 of 2: with the leaf", "step 2 of 2, by hand: close it under the bar"
	leaf.sets, leaf.set, leaf.angle = "As far as the leaf goes", figure{big: fmt.Sprintf("%d°", fold.LeafLow), unit: "or more"}, fold.LeafLow
	leaf.under = []string{fmt.Sprintf("A hand brake's leaf commonly stops between %d° and %d° (common practice, no source).", fold.LeafLow, fold.LeafHigh)}
	leaf.pictures = pair
	shut.turn = "Open the bar, push the fold under it"
	return []jobCard{leaf, shut}
}

// gapShown is the least clear gap that is told from none (mm).
const gapShown = 0.05

// joggle finds the joggle that begins with a swing, and how many swings make it; 0 where none does, or where its bends stand
// apart in the order.
func (d *deck) joggle(all []fold.Joggle, i int) (fold.Joggle, int) {
	p := d.part
	whole := func(i int, bends ...int) bool {
		if i >= len(p.Swings) || len(p.Swings[i].Bends) != len(bends) {
			return false
		}
		sw := &p.Swings[i]
		for k, b := range sw.Bends {
			if !slices.Contains(bends, b) || sw.From[k] != 0 || sw.To[k] != p.Bends[b].Angle {
				return false
			}
		}
		return true
	}
	for _, g := range all {
		a, b := g.Bends[0], g.Bends[1]
		switch {
		case whole(i, a, b):
			return g, 1
		case whole(i, a) && whole(i+1, b), whole(i, b) && whole(i+1, a):
			return g, 2
		}
	}
	return fold.Joggle{}, 0
}

// joggleCard is the card of a joggle that n swings from i on make.
func (d *deck) joggleCard(g fold.Joggle, i, n int) jobCard {
	p := d.part
	a, b := &p.Bends[g.Bends[0]], &p.Bends[g.Bends[1]]
	k := jobCard{no: fmt.Sprint(p.Swings[i].Number), name: fold.Title(fold.List([]string{a.Name, b.Name})), small: "joggle, by hand: both bends at once",
		marks: "Bend lines", sets: "Step", set: figure{d.say2(g.Step), d.m.units.String(), ""}, made: "step as made"}
	if n > 1 {
		k.no += "+" + fmt.Sprint(p.Swings[i+1].Number)
	}
	_, k.hold = d.handling(i)
	k.turn = "Marked face up"
	for _, x := range g.Bends {
		k.mark = append(k.mark, d.figures(d.markAt(bendLine, x))[0])
	}
	k.under = []string{fmt.Sprintf("from face to face; each bend %s°. Press it in a vice or under the bar between two strips as thick as the step, their edges on the lines (common practice).", degrees(a.Angle))}
	k.pair = [][2]string{{"Radius", d.inside(g.Bends[0])}, {"Long", d.say(p.Stretch(g.Bends[0])) + " " + d.m.units.String()}}
	k.facts = [][2]string{{fold.Title(a.Name), "bends " + wayWord(a.Up)}, {fold.Title(b.Name), "bends " + wayWord(b.Up)}}
	k.pictures = d.joggleSections(g, i, i+n)
	for m := i; m < i+n; m++ {
		c := p.Card(d.rep, m)
		if k.state == "" || c.State == "stop" || c.State == "watch" && k.state == "ok" {
			k.state = c.State
		}
		k.why = strings.TrimSpace(k.why + " " + d.reason(m, &c))
	}
	return k
}
