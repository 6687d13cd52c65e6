package paper

// This file draws job cards on their pages.

import (
	"fmt"
	"strings"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// Sizes of a job card, mm on paper.
const (
	cardLeast = 88.0  // width
	cardHigh  = 110.0 // the least height
	cardPad   = 4.0
	cardHead  = 15.5 // of the page
	bigFigure = 8.6  // digits 6.2 high: read at arm's length
	figureRow = 9.4
	// leastFigure: a figure that is too wide gets smaller, to digits 4.3 high.
	leastFigure = 6
	noteRow     = 3.5
	angleWide   = 19.0 // of the drawing beside the angle
)

// brakeCautions stand at the foot of each page of cards.
const brakeCautions = "Cautions. Keep hands and feet clear of the leaf's swing, the counterweights and the clamp's pinch point; one person works the brake; see that all fingers used are seated and tight; " +
	"never go past its capacity, and never bend rod, wire or spring steel in it. Deburr before bending; wear gloves while handling cut sheet. Follow the machine's manual, local codes, and a qualified person where one is required."

// pages lays the cards out, in order, row by row.
func (d *deck) pages(cards []jobCard) []draft.Page {
	sheet := papersFrom(d.opt.Paper)[0]
	w, h := sheet[0], sheet[1]
	foot := draft.Wrap(brakeCautions, 2.8, w-2*margin)
	top := margin + cardHead
	stop := notReady(d.rep, d.m.units)
	if stop != "" {
		top += loudLine
	}
	high := h - margin - top - 3.8*float64(len(foot)) - 5
	cols, rows := max(1, int((w-2*margin)/cardLeast)), max(1, int(high/cardHigh))
	cw, ch := (w-2*margin)/float64(cols), high/float64(rows)
	n := (len(cards) + cols*rows - 1) / (cols * rows)
	var out []draft.Page
	for page := range n {
		s := &draft.Page{Title: fmt.Sprintf("%s, job cards, page %d of %d", d.part.Spec.Name, page+1, n), W: w, H: h}
		s.Box("paper", 0, 0, w, h)
		room := w - 2*margin
		if t := d.hand(); t != "" {
			room -= draft.Width(t, wideSize("fact")) + 6
			s.Text("fact", draft.End, geom.Vec2{w - margin, margin + 6}, t)
		}
		title(s, d.part.Spec.Name, room)
		s.Text("body", draft.Start, geom.Vec2{margin, margin + 12}, d.stockWords(w-2*margin))
		stopLine(s, stop, margin+16.4)
		here := cards[page*cols*rows : min(len(cards), (page+1)*cols*rows)]
		for i := range here {
			x, y := margin+cw*float64(i%cols), top+ch*float64(i/cols)
			s.Group("card")
			s.Box("cutcard", x, y, cw, ch)
			c := &cardPen{deck: d, s: s, x: x + cardPad, y: y + cardPad, w: cw - 2*cardPad, bottom: y + ch - cardPad}
			c.card(&here[i])
			s.End()
		}
		y := h - margin - 3.8*float64(len(foot)-1) - 2.5
		for i, l := range foot {
			s.Text("note", draft.Start, geom.Vec2{margin, y + 3.8*float64(i)}, l)
		}
		footer(s, d.m.units, d.part.Spec.Name+", job cards", page+1, n)
		out = append(out, *s)
	}
	return out
}

// stockWords says what the part is cut from, in a line of a width.
func (d *deck) stockWords(width float64) string {
	metal := d.part.Metal
	if metal == "" {
		metal = "metal not said"
	}
	u := unitName(d.m.units)
	const before = "Job cards, to be cut apart. "
	rest := fmt.Sprintf(", %s %s thick. Lengths in %s, from edges A and B; angles from flat.", d.fine(d.part.Thickness), u, u)
	return before + draft.Clip(fold.Title(metal), textSize, width-draft.Width(before+rest, textSize)) + rest
}

// cardPen writes a card from the top down.
type cardPen struct {
	*deck
	s      *draft.Page
	x, y   float64
	w      float64
	bottom float64
}

func (c *cardPen) card(k *jobCard) {
	c.head(k)
	if k.rows != nil {
		c.check(k)
		return
	}
	c.turning(k)
	c.numbers(k)
	// From the bottom up: what is written in, the state with its reason, the facts; the drawings take what is left.
	c.done(k)
	c.reasons(k)
	c.factRows(k)
	c.drawings(k)
}

func (c *cardPen) text(class string, to draft.Anchor, x, y float64, words string, room float64) {
	if words == "" {
		return
	}
	c.s.Text(class, to, geom.Vec2{x, y}, draft.Clip(words, wideSize(class), room))
}

// wideSize is a class's size as draft.Width has to be told it: bold letters run wider.
func wideSize(class string) float64 {
	s := draft.Styles[class]
	if s.Bold {
		return s.Size * 1.06
	}
	return s.Size
}

// notes writes words in lines of a class, at most so many, and gives where they end.
func (c *cardPen) notes(class string, x, y, room, row float64, most int, words string) float64 {
	lines := draft.Wrap(words, draft.Styles[class].Size, room)
	for i, l := range lines {
		if i == most {
			break
		}
		if i == most-1 && len(lines) > most {
			l = draft.Clip(l+"…", draft.Styles[class].Size, room)
		}
		c.text(class, draft.Start, x, y+row*float64(i), l, room)
	}
	return y + row*float64(min(len(lines), most))
}

// head is the number, the name and the way.
func (c *cardPen) head(k *jobCard) {
	x, right := c.x, c.x+c.w
	if k.no != "" {
		c.s.Text("cardno", draft.Start, geom.Vec2{x, c.y + 8}, k.no)
		x += draft.Width(k.no, wideSize("cardno")) + 3
	} else {
		c.s.Box("box", x, c.y+0.8, 7, 7)
		x += 10
	}
	if k.way != "" {
		w := draft.Width(k.way, wideSize("fact"))
		c.text("fact", draft.End, right, c.y+5.6, k.way, 20)
		bigArrow(c.s, geom.Vec2{right - w - 3, c.y + 4.2}, k.way == "up")
		right -= w + 6.5
	}
	y := c.y + 5.6
	if k.small != "" {
		y = c.y + 4.4
		c.text("note", draft.Start, x, c.y+8.6, k.small, right-x-1)
	}
	c.text("cardname", draft.Start, x, y, k.name, right-x-1)
	c.y += 10.5
	c.s.Line("rule", geom.Vec2{c.x, c.y}, geom.Vec2{c.x + c.w, c.y})
	c.y += 1.5
}

// bigArrow is an upright arrow 6 high.
func bigArrow(s *draft.Page, c geom.Vec2, up bool) {
	h := 3.0
	if !up {
		h = -h
	}
	tip, wing := c[1]-h, c[1]-h*0.35
	s.Path("moved", draft.Path{}.M(geom.Vec2{c[0], c[1] + h}).L(geom.Vec2{c[0], tip}).
		M(geom.Vec2{c[0] - 1.7, wing}).L(geom.Vec2{c[0], tip}, geom.Vec2{c[0] + 1.7, wing}))
}

// done is the row that is written in.
func (c *cardPen) done(k *jobCard) {
	y := c.bottom
	c.s.Box("box", c.x, y-4.2, 4.2, 4.2)
	c.text("body", draft.Start, c.x+6, y-0.8, "done", 15)
	c.text("body", draft.End, c.x+c.w-22, y-0.8, k.made, c.w-45)
	c.s.Line("dimline", geom.Vec2{c.x + c.w - 21, y}, geom.Vec2{c.x + c.w, y})
	c.bottom -= 6.5
}

// reasonLines is how many lines of the reason for its state a card takes, while leastDrawing is left for its drawings.
const (
	reasonLines  = 5
	leastDrawing = 14
)

func (c *cardPen) reasons(k *jobCard) {
	if k.state == "" && k.why == "" {
		return
	}
	at := c.x + 19.0
	if k.state == "ok" {
		at = c.x + 24
	}
	lines := draft.Wrap(k.why, 2.8, c.x+c.w-at)
	room := int((c.bottom - c.y - factRow*float64(k.factLines()) - leastDrawing - 4) / noteRow)
	n := max(1, min(len(lines), reasonLines, room))
	y := c.bottom - noteRow*float64(n) - 0.5
	switch k.state {
	case "":
	case "ok": // in words: a mark of its own would pass for a tick in the box below
		c.text("loud", draft.Start, c.x, y+3, "nothing fouls", 23)
	default:
		stateMark(c.s, geom.Vec2{c.x + 2.3, y + 1.9}, k.state)
		c.text("loud", draft.Start, c.x+6, y+3, k.state, 13)
	}
	c.notes("note", at, y+2.9, c.x+c.w-at, noteRow, n, k.why)
	c.s.Line("hair", geom.Vec2{c.x, y - 1.2}, geom.Vec2{c.x + c.w, y - 1.2})
	c.bottom = y - 1.8
}

// stateMark is the shape of a state that is not ok: a triangle for watch, a filled square for stop.
func stateMark(s *draft.Page, c geom.Vec2, state string) {
	switch state {
	case "watch":
		s.Path("arrow", draft.Polygon(c.Add(geom.Vec2{0, -1.9}), c.Add(geom.Vec2{2.2, 1.8}), c.Add(geom.Vec2{-2.2, 1.8})))
		s.Line("arrow", c.Add(geom.Vec2{0, -0.6}), c.Add(geom.Vec2{0, 0.6}))
	default:
		s.Path("dot", draft.Polygon(c.Add(geom.Vec2{-2, -2}), c.Add(geom.Vec2{2, -2}), c.Add(geom.Vec2{2, 2}), c.Add(geom.Vec2{-2, 2})))
	}
}

const factRow = 4.1

func (k *jobCard) factLines() int { return len(k.facts) + (len(k.pair)+1)/2 }

// factRows are the small facts: the short ones two to a line, the others one.
func (c *cardPen) factRows(k *jobCard) {
	const row = factRow
	y := c.bottom - row*float64(k.factLines())
	c.bottom = y - 1
	first := c.w * 0.54 // with its source the radius is the longer
	put := func(x, y, room float64, f [2]string) {
		at := draft.Width(f[0], textSize) + 2
		c.text("body", draft.Start, x, y+3, f[0], room)
		c.text("bold", draft.Start, x+at, y+3, f[1], room-at)
	}
	for i, f := range k.pair {
		if i%2 == 0 {
			put(c.x, y, first-1, f)
		} else {
			put(c.x+first, y, c.w-first, f)
		}
		if i%2 == 1 || i == len(k.pair)-1 {
			y += row
		}
	}
	for _, f := range k.facts {
		put(c.x, y, c.w, f)
		y += row
	}
}

// turning says how the sheet is handled and held.
func (c *cardPen) turning(k *jobCard) {
	c.text("fact", draft.Start, c.x, c.y+4, k.turn, c.w)
	c.text("body", draft.Start, c.x, c.y+8.6, k.hold, c.w)
	c.y += 11
	c.s.Line("hair", geom.Vec2{c.x, c.y}, geom.Vec2{c.x + c.w, c.y})
	c.y += 1
}

// numbers are the two that matter: the mark and the angle.
func (c *cardPen) numbers(k *jobCard) {
	half := c.w * 0.5
	room := half - 3
	left, right := c.x, c.x+half+1
	y := c.column(left, room, k.marks, k.mark, k.beside)
	wide := room
	if k.angle > 0 {
		wide -= angleWide
		box := geom.Box2{Min: geom.Vec2{right + wide, c.y + 4}, Max: geom.Vec2{right + room + 2, c.y + 4 + figureRow}}
		anglePicture(c.s, box, k.angle)
	}
	y2 := c.angles(right, room, wide, k)
	top := c.y
	c.y = max(y, y2) + 1
	c.s.Line("hair", geom.Vec2{c.x + half - 1, top - 1}, geom.Vec2{c.x + half - 1, c.y})
	c.s.Line("hair", geom.Vec2{c.x, c.y}, geom.Vec2{c.x + c.w, c.y})
	c.y++
}

// column writes figures below a label, then notes, and gives where it ends.
func (c *cardPen) column(x, room float64, label string, figures []figure, notes []string) float64 {
	c.text("body", draft.Start, x, c.y+3.4, label, room)
	y := c.y + 4
	for _, f := range figures {
		y = c.figure(x, y, room, f)
	}
	y += 3.2
	for _, n := range notes {
		y = c.notes("note", x, y, room, noteRow, 3, n)
	}
	return y - 2.2
}

// figure writes a number large, what belongs to it in two small lines beside it or below, and gives where it ends.
func (c *cardPen) figure(x, y, room float64, f figure) float64 {
	size := bigFigure
	for size > leastFigure && draft.Width(f.big, size) > room {
		size *= 0.96
	}
	c.s.Sized("figure", size, draft.Start, geom.Vec2{x, y + 7.4}, draft.Clip(f.big, size, room))
	y += figureRow
	beside := x + draft.Width(f.big, size) + 1.5
	if left := x + room - beside; draft.Width(f.unit, 2.8) <= left && draft.Width(f.small, 2.8) <= left {
		if f.small == "" {
			c.text("note", draft.Start, beside, y-2.2, f.unit, left)
		} else {
			c.text("note", draft.Start, beside, y-5.4, f.unit, left)
			c.text("note", draft.Start, beside, y-2.2, f.small, left)
		}
		return y
	}
	return c.notes("note", x, y+2, room, noteRow, 2, strings.TrimSpace(f.unit+" "+f.small)) - 1.6
}

// angles writes where the swing ends.
func (c *cardPen) angles(x, room, wide float64, k *jobCard) float64 {
	c.text("body", draft.Start, x, c.y+3.4, k.sets, room)
	y := c.figure(x, c.y+4, wide, k.set) + 3.2 // the words below go under the little drawing too
	for _, n := range k.under {
		y = c.notes("note", x, y, room, noteRow, 6, n)
	}
	return y - 2.2
}

// drawings are the section before and after, in what room is left.
func (c *cardPen) drawings(k *jobCard) {
	high := c.bottom - c.y
	w := (c.w - 4) / 2
	for i, p := range k.pictures {
		if p.draw == nil || high < 8 {
			continue
		}
		x := c.x + (w+4)*float64(i)
		c.text("small", draft.Start, x, c.y+2.4, p.name, w)
		p.draw(c.s, geom.Box2{Min: geom.Vec2{x, c.y + 3.2}, Max: geom.Vec2{x + w, c.bottom}})
	}
}

// fitting is the class of plain text, as large as fits.
func fitting(words string, room float64) string {
	for _, class := range []string{"body", "note"} {
		if draft.Width(words, draft.Styles[class].Size) <= room {
			return class
		}
	}
	return "small"
}

// check is the table of the last card.
func (c *cardPen) check(k *jobCard) {
	const box, row, made = 3.4, 5.6, 12.0
	lineEnd := c.x + c.w - box - 1.5
	expect := lineEnd - made - 1.5
	most := expect - 22
	want := most - 11
	c.y += 1
	c.text("note", draft.End, want, c.y+3, "wanted", 16)
	c.text("note", draft.End, most, c.y+3, "at most", 11)
	c.text("note", draft.End, expect, c.y+3, "expected", 21)
	c.text("note", draft.Start, lineEnd-made+0.5, c.y+3, "as made", made)
	c.y += 4.5
	for _, r := range k.rows {
		c.s.Line("hair", geom.Vec2{c.x, c.y}, geom.Vec2{c.x + c.w, c.y})
		if r.want == "" {
			c.text("bold", draft.Start, c.x, c.y+4, r.name, c.w)
			c.y += row
			continue
		}
		c.text(fitting(r.name, want-c.x-12), draft.Start, c.x, c.y+4, r.name, want-c.x-12)
		c.text("bold", draft.End, want, c.y+4, r.want, 12)
		c.text("bold", draft.End, most, c.y+4, r.most, 10)
		c.text(fitting(r.expect, 21.5), draft.End, expect, c.y+4, r.expect, 21.5)
		c.s.Line("dimline", geom.Vec2{lineEnd - made, c.y + 4.6}, geom.Vec2{lineEnd, c.y + 4.6})
		c.s.Box("box", c.x+c.w-box, c.y+1.1, box, box)
		c.y += row
	}
	c.notes("note", c.x, c.bottom-noteRow*2-0.1, c.w, noteRow, 3, k.foot)
}
