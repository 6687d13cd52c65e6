package paper

// This file lays out the cutting sheet: which tool cuts which edge, in what order, and what is drilled. cutdraw.go has its
// drawing, cuttables.go its tables and words.

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"dryfold/fold"
	"dryfold/fold/cutting"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// cutSheet is one cutting sheet in the making.
type cutSheet struct {
	part    *fold.Part
	plan    *cutting.Plan
	opt     Options
	rule    ruler   // that it is marked out with
	hand    string  // the stamp of which hand the part is for
	numbers [][]int // of the corners, by contour and vertex: those of the marking-out sheet
	w, h    float64 // of a page

	steps, drills wrapTable
	byScale       map[float64][]cutPlace // what is drawn enlarged, by the drawing’s scale
	cautions      []string
	problems      []string
	amiss         wrapTable // problems that the head has no room for
}

// Cutting gives the pages of the cutting sheet of a part by its plan: the drawing with each edge's tool and step, the side
// of the waste and what is drilled; the steps in order; the drill list. The first page is A4, or the paper asked for, upright or across. Part and
// plan are the part’s own also where Options ask for the other hand: its plan is then made here, with the same tools. A part that can’t be
// folded is an error, as for the marking-out sheet that goes with it, and so are a plan without steps and a paper that is none. TrueScale
// is the marking-out sheet’s alone.
func Cutting(p *fold.Part, rep *fold.Report, plan cutting.Plan, opt Options) ([]draft.Page, error) {
	c, err := newCutSheet(p, rep, plan, opt)
	if err != nil {
		return nil, err
	}
	return c.all(), nil
}

// newCutSheet checks what a sheet is to be made from, and takes it over.
func newCutSheet(p *fold.Part, rep *fold.Report, plan cutting.Plan, opt Options) (*cutSheet, error) {
	if !p.Foldable {
		for _, t := range p.Troubles {
			if t.Severity == fold.Stop {
				return nil, fmt.Errorf("the blank can't be cut until it can be folded: %s", t.Message)
			}
		}
		return nil, fmt.Errorf("the blank can't be cut until it can be folded")
	}
	if len(plan.Steps) == 0 {
		return nil, fmt.Errorf("there is nothing to cut: the blank has no outline")
	}
	rule, err := newRuler(opt.Units, opt.Rule)
	if err != nil {
		return nil, err
	}
	if opt.Paper == "" {
		opt.Paper = Papers[0]
	}
	papers := papersFrom(opt.Paper)
	if len(papers) == 0 {
		return nil, fmt.Errorf("the paper: %q, where one of %s is needed", opt.Paper, strings.Join(Papers, ", "))
	}
	size := papers[0]
	hand := &sheet{opt: opt}
	if opt.Hand != "" || opt.Other {
		hand.alike, _ = p.BothHands()
	}
	if opt.Other {
		p, rep = otherHand(p, rep)
		plan = cutting.Make(p, plan.Own)
	}
	c := &cutSheet{part: p, plan: &plan, opt: opt, rule: rule, hand: hand.hand(), numbers: cornerNumbers(p, opt), w: size[0], h: size[1], byScale: map[float64][]cutPlace{}}
	if t := notReady(rep, opt.Units); t != "" {
		c.problems = draft.Wrap(t, wideSize("bold"), min(c.w, c.h)-2*margin)
	}
	return c, nil
}

// all makes the pages.
func (c *cutSheet) all() []draft.Page {
	c.problemLines()
	p, opt := c.part, c.opt
	box := p.Blank.Box.Size()
	var best *cutFrame
	for _, f := range []cutFrame{{w: c.w, h: c.h}, {w: c.h, h: c.w}} {
		c.use(f.w)
		f.fit(c, box)
		// Upright, unless that is much smaller and doesn't hold everything in a good size either.
		if best == nil || f.largest > best.largest*1.3 && (best.with != allBlocks-1 || max(box[0], box[1])*best.scale < goodCutBox) {
			best = &f
		}
	}
	c.use(best.w)
	pages := c.pages(*best)
	for i := range pages {
		pages[i].Title = fmt.Sprintf("%s, cutting, page %d of %d", p.Spec.Name, i+1, len(pages))
		footer(&pages[i], opt.Units, p.Spec.Name+", cutting", i+1, len(pages))
	}
	return pages
}

// use makes the tables as wide as a page takes.
func (c *cutSheet) use(w float64) {
	c.steps, c.drills = c.stepTable(w-2*margin), c.drillTable(w-2*margin)
	c.cautions = draft.Wrap(c.cautionWords(), 2.8, w-2*margin)
}

// cutFrame is how the first page is divided.
type cutFrame struct {
	w, h    float64
	scale   float64
	largest float64 // the scale that it would have with no tables
	origin  geom.Vec2
	with    int // what stands on it beside the drawing
}

const (
	cutLine       = 3.7   // from line to line of notes
	cutRing       = 9.0   // left free about the blank for hatches, numbers and letters
	cutSide       = 50.0  // the column beside the drawing
	leastCutScale = 0.8   // for the tables beside it the drawing is not made smaller than that
	goodCutBox    = 100.0 // a drawing of this length is good enough to have everything on one page
	leastCutBox   = 75.0  // the drawing is at least so long on paper, where that is possible
)

// headHigh is what the head takes.
func (c *cutSheet) headHigh() float64 { return 17 + cutLine*float64(len(c.problems)) }

// What may stand on the first page beside the drawing, the most wanted last.
const (
	withDrills = 1 << iota
	withSteps
	withPlaces
	allBlocks
)

// fit chooses how much stands on the first page: what is drawn enlarged, the steps, the drill list, where the drawing is not much
// smaller for it.
func (f *cutFrame) fit(c *cutSheet, box geom.Vec2) {
	long := max(box[0], box[1])
	legend := c.legend(&draft.Page{}, 0, 4)
	for with := range allBlocks {
		scale, room := 0.0, geom.Vec2{}
		for _, s := range scales {
			high := 0.0
			if with&withDrills > 0 {
				high += c.drills.height()
			}
			if with&withSteps > 0 {
				high += c.steps.height()
			}
			if with&withPlaces > 0 {
				high += placesHigh(len(c.placesAt(1/s)), f.w)
			}
			above := f.h - 2*margin - c.headHigh() - high - cutLine*float64(len(c.cautions)) - 8
			room = geom.Vec2{f.w - 2*margin - cutSide - 2*cutRing, above - 2*cutRing}
			if box[0]/s <= room[0] && box[1]/s <= room[1] && (above >= legend || with == 0) {
				scale = 1 / s
				break
			}
		}
		if with == 0 {
			if scale == 0 { // on such paper not even the smallest scale: then as small as it takes
				scale = max(1e-9, min(room[0]/box[0], room[1]/box[1]))
			}
			f.largest = scale
		}
		if scale > 0 && scale >= leastCutScale*f.largest*(1-1e-9) && (with == 0 || long*scale >= min(leastCutBox, long*f.largest)) {
			f.scale, f.with = scale, with
			room[0] -= box[0] * scale
			room[1] -= box[1] * scale
			f.origin = geom.Vec2{margin + cutRing + room[0]/2, margin + c.headHigh() + cutRing + min(room[1]/2, 12) + box[1]*scale}
		}
	}
}

// placesAt are the places that are drawn enlarged beside a drawing at a scale.
func (c *cutSheet) placesAt(scale float64) []cutPlace {
	p, known := c.byScale[scale]
	if !known {
		p = c.places(scale)
		c.byScale[scale] = p
	}
	return p
}

// at carries a place of the blank, mm from A and B, to the paper.
func (f cutFrame) at(p geom.Vec2) geom.Vec2 {
	return geom.Vec2{f.origin[0] + p[0]*f.scale, f.origin[1] - p[1]*f.scale}
}

// pages draws them.
func (c *cutSheet) pages(f cutFrame) (out []draft.Page) {
	first := draft.Page{W: f.w, H: f.h}
	g := &first
	g.Box("paper", 0, 0, f.w, f.h)
	c.head(g, f)
	c.drawing(g, f)
	c.legend(g, f.w-margin-cutSide+6, margin+c.headHigh()+4)
	foot := f.h - margin - cutLine*float64(len(c.cautions)) - 3
	places := c.placesAt(f.scale)
	var here, later []*wrapTable
	for _, t := range []struct {
		bit int
		*wrapTable
	}{{withSteps, &c.steps}, {withDrills, &c.drills}} {
		if f.with&t.bit > 0 {
			here = append(here, t.wrapTable)
		} else {
			later = append(later, t.wrapTable)
		}
	}
	later = append(later, &c.amiss)
	y := foot - 2
	for _, t := range here {
		y -= t.height()
	}
	if f.with&withPlaces > 0 && len(places) > 0 {
		c.drawPlaces(g, places, 0, len(places), y-placesHigh(len(places), f.w))
		places = nil
	}
	for _, t := range here {
		t.draw(g, margin, y, 0, len(t.rows))
		y += t.height()
	}
	g.Line("rule", geom.Vec2{margin, foot}, geom.Vec2{f.w - margin, foot})
	for i, l := range c.cautions {
		g.Text("note", draft.Start, geom.Vec2{margin, foot + 3.8 + cutLine*float64(i)}, l)
	}
	out = append(out, first)
	// What is left goes on, row by row.
	var page *draft.Page
	bottom := 0.0
	fresh := func() {
		if page != nil {
			out = append(out, *page)
		}
		page = &draft.Page{W: f.w, H: f.h}
		page.Box("paper", 0, 0, f.w, f.h)
		y = c.smallHead(page, f.w)
		bottom = f.h - margin - 4
	}
	all := c.placesAt(f.scale)
	for from := 0; from < len(places); {
		fresh()
		per := placesPer(f.w)
		to := min(len(places), from+per*max(1, int((bottom-y-7)/(placeSize+placeGap+4))))
		c.drawPlaces(page, all, from, to, y)
		y += placesHigh(to-from, f.w)
		from = to
	}
	for _, t := range later {
		for from := 0; from < len(t.rows); {
			if page == nil || y+t.headHigh()+t.high[from] > bottom {
				fresh()
			}
			to, room := from, bottom-y-t.headHigh()
			for to < len(t.rows) && (room >= t.high[to] || to == from) {
				room -= t.high[to]
				to++
			}
			y = t.draw(page, margin, y, from, to)
			from = to
		}
	}
	if page != nil {
		out = append(out, *page)
	}
	return out
}

// head writes the part's name and what it is cut from, and what is amiss.
func (c *cutSheet) head(s *draft.Page, f cutFrame) {
	scale := "1 : " + trim(1/f.scale, 2)
	if f.scale > 1 {
		scale = trim(f.scale, 2) + " : 1"
	}
	x := f.w - margin
	for _, fact := range [][2]string{{"Drawn", scale}, {"Blank", blankWords(c.part, c.opt.Units)}} {
		x -= max(draft.Width(fact[0], textSize), draft.Width(fact[1], 4.2)) + 3
		s.Text("body", draft.Start, geom.Vec2{x, margin + 2.5}, fact[0])
		s.Text("fact", draft.Start, geom.Vec2{x, margin + 7.5}, fact[1])
	}
	if c.hand != "" {
		x -= draft.Width(c.hand, 4.2)*1.06 + 5
		s.Text("fact", draft.Start, geom.Vec2{x, margin + 7.5}, c.hand)
	}
	title(s, c.part.Spec.Name, x-margin-4)
	s.Text("body", draft.Start, geom.Vec2{margin, margin + 12}, c.stock(f.w-2*margin))
	for i, l := range c.problems {
		s.Text("bold", draft.Start, geom.Vec2{margin, margin + 16 + cutLine*float64(i)}, l)
	}
	y := margin + c.headHigh() - 2
	s.Line("rule", geom.Vec2{margin, y}, geom.Vec2{f.w - margin, y})
}

// smallHead is that of the pages that follow; it gives where they begin.
func (c *cutSheet) smallHead(s *draft.Page, w float64) float64 {
	room := w - 2*margin
	if c.hand != "" {
		room -= draft.Width(c.hand, 4.2)*1.06 + 6
		s.Text("fact", draft.End, geom.Vec2{w - margin, margin + 6}, c.hand)
	}
	title(s, c.part.Spec.Name, room)
	s.Text("body", draft.Start, geom.Vec2{margin, margin + 12}, c.stock(w-2*margin))
	s.Line("rule", geom.Vec2{margin, margin + 14.5}, geom.Vec2{w - margin, margin + 14.5})
	return margin + 17
}

// stock says what is cut, in a line of a width.
func (c *cutSheet) stock(width float64) string {
	metal := c.part.Metal
	if metal == "" {
		metal = "metal not said"
	}
	first, n := utf8.DecodeRuneInString(metal)
	metal = string(unicode.ToUpper(first)) + metal[n:]
	u := c.opt.Units
	rest := fmt.Sprintf(", %s %s thick. All lengths in %s. This face up, corners numbered as on the marking-out sheet.", trim(c.part.Thickness/u.Scale(), 4), unitName(u), unitName(u))
	const what = "Cutting. "
	return what + draft.Clip(metal, textSize, width-draft.Width(what+rest, textSize)) + rest
}

// problemLines writes what is amiss, the worst first: some few lines for the head, the others in a table.
func (c *cutSheet) problemLines() {
	most := len(c.problems) + 6 // lines
	width := min(c.w, c.h) - 2*margin
	c.amiss = wrapTable{class: "amiss", title: "What else is amiss", cols: []column{{"", 18, false, true}, {"", width - 18, false, false}}}
	for sev := fold.Stop; sev >= fold.Watch; sev-- {
		for _, t := range c.plan.Problems {
			if t.Severity != sev {
				continue
			}
			word, message := strings.ToUpper(sev.String()), fold.InUnits(t.Message, c.opt.Units)
			lines := draft.Wrap(word+": "+message, textSize*1.06, width)
			if len(c.amiss.rows) > 0 || len(c.problems)+len(lines) > most {
				c.amiss.add(word, message)
				continue
			}
			c.problems = append(c.problems, lines...)
		}
	}
	if n := len(c.amiss.rows); n > 0 {
		c.problems = append(c.problems, fmt.Sprintf("and %d more: they stand at the end of this sheet.", n))
	}
}

// say writes a length (mm) as the maker's rule shows it, like the marking-out sheet.
func (c *cutSheet) say(mm float64) string {
	x := mm / c.opt.Units.Scale()
	return c.rule.say(c.rule.round(x))
}
