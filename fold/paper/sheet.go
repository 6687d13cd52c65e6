package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// sheet is one marking-out sheet in the making.
type sheet struct {
	part  *fold.Part
	rep   *fold.Report
	opt   Options
	m     marks
	worth worth
	cards []string // each bend's number
	dims  [2][]dim

	// Made once: fit tries many frames.
	bends      table
	rest       []table
	sideHigh   float64
	restHigh   map[float64]float64  // height of rest by the width it flows in
	footByWide map[float64][]string // the lines at the foot by the page's width
}

// MarkingOut gives the marking-out sheet's pages: first the drawing with its running
// dimensions and bend table, then the tables of corners, arcs, holes and seams. The
// first page is A4, upright or across, at a stated scale, or larger where A4 has no
// room; with TrueScale as large as the blank takes; the others are A4. A part that
// can't be folded is an error.
func MarkingOut(p *fold.Part, rep *fold.Report, opt Options) ([]draft.Page, error) {
	pages, err := layOut(p, rep, opt)
	for i := range pages {
		pages[i].Title = fmt.Sprintf("%s, marking out, page %d of %d", p.Spec.Name, i+1, len(pages))
	}
	return pages, err
}

func layOut(p *fold.Part, rep *fold.Report, opt Options) ([]draft.Page, error) {
	if !p.Foldable {
		for _, t := range p.Troubles {
			if t.Severity == fold.Stop {
				return nil, fmt.Errorf("the blank can't be marked out until it can be folded: %s", t.Message)
			}
		}
		return nil, fmt.Errorf("the blank can't be marked out until it can be folded")
	}
	sh := &sheet{part: p, rep: rep, opt: opt, cards: cardNumbers(p)}
	sh.worth = chooseRounding(p, rep, opt.Units)
	sh.m = sh.worth.marks
	sh.dims = [2][]dim{sh.m.dims(0, sh.cards), sh.m.dims(1, sh.cards)}

	sh.bends, sh.rest = sh.bendTable(), sh.tables()
	sh.restHigh, sh.footByWide = map[float64]float64{}, map[float64][]string{}
	var scratch draft.Page
	sh.sideHigh = sh.side(&scratch, 0, 0) + 4
	first := sh.fit()
	pages := []draft.Page{sh.drawingPage(first)}
	if !first.single {
		pages = append(pages, sh.tablePages()...)
	}
	for i := range pages {
		g := &pages[i]
		g.Text("note", draft.End, geom.Vec2{g.W - margin, g.H - 6}, fmt.Sprintf("%s, page %d of %d", draft.Clip(p.Spec.Name, 2.8, 80), i+1, len(pages)))
	}
	return pages, nil
}

// frame is how the first page is divided.
type frame struct {
	w, h   float64
	scale  float64 // paper mm per mm
	origin geom.Vec2
	turned bool // the dimensions from A stand upright
	split  bool // they stand below and above
	short  bool // the bend table stands on a later page
	single bool // every table stands on the first page
	foot   []string
}

// scales that are drawn, as how many mm one mm on paper stands for.
var scales = []float64{0.2, 0.5, 1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 250, 500, 1000, 2000, 5000, 10000, 20000}

// papers are A4 to A0, upright and across.
var papers = [][2]float64{{210, 297}, {297, 210}, {297, 420}, {420, 297}, {420, 594}, {594, 420}, {594, 841}, {841, 594}, {841, 1189}, {1189, 841}}

const headHeight = 22.0

// fit chooses paper and scale. A single A4 page with everything on it, if the
// drawing is then at least 60 mm long and half as large as it could be;
// else the smallest paper on which the drawing alone is at least 75 mm long. Of
// a paper's two ways round, the one that gives the larger scale.
func (sh *sheet) fit() frame {
	size := sh.part.Blank.Box.Size()
	long := max(size[0], size[1])
	if sh.opt.TrueScale {
		return sh.ownSize(1)
	}
	best := func(i int, single bool, least float64) *frame {
		var best *frame
		for _, wh := range papers[i : i+2] {
			for _, s := range scales {
				f := sh.frameOn(wh[0], wh[1], s, single)
				if n := sh.needs(f); n[0] > f.w || n[1] > f.h {
					continue
				}
				if (long*f.scale >= least || s == scales[0]) && (best == nil || f.scale > best.scale) {
					best = &f
				}
				break
			}
		}
		return best
	}
	single, apart := best(0, true, 60), best(0, false, 75)
	if single != nil && (apart == nil || single.scale >= 0.5*apart.scale) {
		return sh.arrange(*single)
	}
	for i := 0; i < len(papers); i += 2 {
		if f := best(i, false, 75); f != nil {
			return sh.arrange(*f)
		}
	}
	for _, s := range scales {
		if long/s < 900 {
			return sh.ownSize(s)
		}
	}
	return sh.ownSize(scales[len(scales)-1])
}

// ownSize is a frame on paper as large as the drawing takes at a scale.
func (sh *sheet) ownSize(s float64) frame {
	f := sh.frameOn(1e9, 1e9, s, false)
	n := sh.needs(f)
	f.w, f.h = max(210, math.Ceil(n[0])), max(297, math.Ceil(n[1]))
	return sh.arrange(f)
}

// frameOn is the frame on a paper at a scale; needs says whether it fits.
func (sh *sheet) frameOn(w, h, s float64, single bool) frame {
	f := frame{w: w, h: h, scale: 1 / s, single: single}
	wide, room := 0.0, sh.part.Blank.Box.Size()[0]*f.scale
	n := 0
	for _, d := range sh.shown(0) {
		wide += d.wide + 1.5
		n++
	}
	f.turned = wide > room*1.12
	f.split = float64(n)*dimPitch > room*1.12
	f.short = len(sh.bends.rows) > maxBendRows
	f.foot = sh.footLines(min(w, 400))
	return f
}

// shown are the running dimensions that the drawing carries.
func (sh *sheet) shown(axis int) []dim {
	d := sh.dims[axis]
	if len(d) <= maxDims {
		return d
	}
	var few []dim
	for i, x := range d {
		if x.strong && len(few) < maxDims || i == 0 || i == len(d)-1 {
			few = append(few, x)
		}
	}
	return few
}

// needs is the paper that a frame takes, margins included.
func (sh *sheet) needs(f frame) geom.Vec2 {
	r := sh.roomFor(f)
	size := sh.part.Blank.Box.Size().Mul(f.scale)
	w := margin*2 + r.Min[0] + size[0] + r.Max[0] + sideWidth
	h := margin*2 + headHeight + max(r.Max[1]+size[1]+r.Min[1], sh.sideHigh) + sh.footHeight(f)
	return geom.Vec2{max(w, margin*2+tableWidth), h}
}

// roomFor is what the drawing takes round the blank's box: Min to the left and
// below, Max to the right and above.
func (sh *sheet) roomFor(f frame) geom.Box2 {
	l, d, u := sh.gutters(f)
	b0, b1 := sh.overhang(below, f)
	a0, a1 := sh.overhang(above, f)
	l0, l1 := sh.overhang(left, f)
	return geom.Box2{Min: geom.Vec2{max(l, b0, a0), max(d, l0)}, Max: geom.Vec2{max(8, b1, a1) + 2, max(8, u, l1)}}
}

func (sh *sheet) footHeight(f frame) float64 {
	h := 6 + float64(len(f.foot))*3.8
	if !f.short {
		h += sh.bends.height(len(sh.bends.rows)) + 2
	}
	if f.single {
		w := f.w - 2*margin
		if _, known := sh.restHigh[w]; !known {
			sh.restHigh[w] = flow(nil, sh.rest, w, 0, math.Inf(1), nil) + 1
		}
		h += sh.restHigh[w]
	}
	return h
}

// rounding says what the printed places are worth, and what of them the drawing leaves out.
func (sh *sheet) rounding() string {
	t := sh.worth.say(sh)
	if n := len(sh.dims[0]) + len(sh.dims[1]); len(sh.dims[0]) > maxDims || len(sh.dims[1]) > maxDims {
		t += fmt.Sprintf(" There are %d running dimensions: the drawing carries those of the bends, the tables all.", n)
	}
	return t
}

// footLines are the notes on the bends and the cautions as they break on a page of a width.
func (sh *sheet) footLines(w float64) []string {
	if _, known := sh.footByWide[w]; !known {
		var lines []string
		for _, t := range []string{strings.Join(append(sh.bendNotes(), sh.rounding()), " "), sh.cautions()} {
			lines = append(lines, draft.Wrap(t, 2.8, w-2*margin)...)
		}
		sh.footByWide[w] = lines
	}
	return sh.footByWide[w]
}

// arrange places the drawing in its frame.
func (sh *sheet) arrange(f frame) frame {
	f.foot = sh.footLines(f.w)
	// Spare room goes half before and half past the drawing, up to a limit.
	size := sh.part.Blank.Box.Size().Mul(f.scale)
	r := sh.roomFor(f)
	wide := f.w - 2*margin - sideWidth - r.Min[0] - size[0] - r.Max[0]
	high := f.h - 2*margin - headHeight - sh.footHeight(f) - r.Max[1] - size[1] - r.Min[1]
	f.origin = geom.Vec2{margin + r.Min[0] + max(0, min(wide/2, 30)), margin + headHeight + r.Max[1] + max(0, min(high/2, 12)) + size[1]}
	return f
}

// at carries a printed point (mm from the datum corner) to the paper.
func (f frame) at(p geom.Vec2) geom.Vec2 {
	return geom.Vec2{f.origin[0] + p[0]*f.scale, f.origin[1] - p[1]*f.scale}
}

// scaleName is "1 : 3" or "2 : 1".
func (f frame) scaleName() string {
	if f.scale > 1 {
		return trim(f.scale, 2) + " : 1"
	}
	return "1 : " + trim(1/f.scale, 2)
}

// drawingPage draws the first page.
func (sh *sheet) drawingPage(f frame) draft.Page {
	s := &draft.Page{W: f.w, H: f.h}
	s.Box("paper", 0, 0, f.w, f.h)
	sh.header(s, f)
	sh.drawing(s, f)
	sh.side(s, f.w-margin-sideWidth, margin+headHeight+4)
	y := f.h - margin - sh.footHeight(f) + 2
	if !f.short {
		sh.bends.draw(s, margin, y, 0, len(sh.bends.rows))
		y += sh.bends.height(len(sh.bends.rows)) + 2
	}
	if f.single {
		y = flow(s, sh.rest, f.w-2*margin, y, math.Inf(1), nil) + 1
	}
	sh.bar(s, f.h)
	s.Line("rule", geom.Vec2{margin, y - 1.5}, geom.Vec2{f.w - margin, y - 1.5})
	for i, l := range f.foot {
		s.Text("note", draft.Start, geom.Vec2{margin, y + 2.6 + 3.8*float64(i)}, l)
	}
	return *s
}

// longFirst puts what belongs to the finished part's two flat sizes in the order in which they are told, here as on
// the page: the larger first.
func (sh *sheet) longFirst(v [3]float64) [3]float64 {
	if z := sh.rep.Finished.Box(); z[1] > z[0] {
		v[0], v[1] = v[1], v[0]
	}
	return v
}

// header writes the part's name and what it is cut from.
func (sh *sheet) header(s *draft.Page, f frame) {
	fin := sh.longFirst(sh.rep.Finished.Box())
	facts := [][2]string{
		{"Blank", sh.m.say(sh.m.width) + " × " + sh.m.say(sh.m.height)},
		{"Finished, overall", strings.Join([]string{sh.say(fin[0]), sh.say(fin[1]), sh.say(fin[2])}, " × ")},
		{"Drawn", f.scaleName()},
	}
	x := f.w - margin
	for i := len(facts) - 1; i >= 0; i-- {
		w := max(draft.Width(facts[i][0], textSize), draft.Width(facts[i][1], 4.2)) + 3
		x -= w
		s.Text("body", draft.Start, geom.Vec2{x, margin + 2.5}, facts[i][0])
		s.Text("fact", draft.Start, geom.Vec2{x, margin + 7.5}, facts[i][1])
	}
	title(s, sh.part.Spec.Name, x-margin-4)
	s.Text("body", draft.Start, geom.Vec2{margin, margin + 13}, sh.stock(f.w-2*margin))
	if n, first := sh.stops(); n > 0 {
		s.Text("bold", draft.Start, geom.Vec2{margin, margin + 17.5}, draft.Clip(fmt.Sprintf("NOT READY TO CUT: %d to put right. %s", n, first), textSize, f.w-2*margin))
	}
	s.Line("rule", geom.Vec2{margin, margin + headHeight - 3}, geom.Vec2{f.w - margin, margin + headHeight - 3})
}

// stock says what the part is cut from, in a line of a width.
func (sh *sheet) stock(width float64) string {
	metal := sh.part.Metal
	if metal == "" {
		metal = "metal not said"
	}
	first, n := utf8.DecodeRuneInString(metal)
	metal = string(unicode.ToUpper(first)) + metal[n:]
	rest := fmt.Sprintf(", %s %s thick. All lengths in %s. Good face: %s.%s", sh.fine(sh.part.Thickness), unitName(sh.m.units), unitName(sh.m.units), sh.goodFace(), sh.grain())
	if t := "Marking out. " + metal + rest; draft.Width(t, textSize) <= width {
		return t
	}
	return draft.Clip(metal, textSize, width-draft.Width(rest, textSize)) + rest
}

// grain says how the sheet's grain runs on the blank; "" where it is not said.
func (sh *sheet) grain() string {
	g := sh.part.Spec.Sheet.Grain
	if g == nil {
		return ""
	}
	a := math.Mod(math.Mod(*g, 180)+180, 180)
	switch {
	case a < grainSquare || a > 180-grainSquare:
		return " Grain: along edge B."
	case math.Abs(a-90) < grainSquare:
		return " Grain: along edge A."
	case a < 90:
		return fmt.Sprintf(" Grain: %s° off edge B, up to the right.", trim(a, 1))
	}
	return fmt.Sprintf(" Grain: %s° off edge B, up to the left.", trim(180-a, 1))
}

func unitName(u fold.Units) string {
	if u == fold.Inch {
		return "inches"
	}
	return "mm"
}

func (sh *sheet) goodFace() string {
	switch sh.part.Spec.Sheet.Good {
	case "up":
		return "this one"
	case "down":
		return "the other one, underneath"
	}
	return "not said"
}

// stops counts the report's stop troubles and gives the first one's message.
func (sh *sheet) stops() (n int, first string) {
	for _, t := range sh.rep.Troubles {
		if t.Severity == fold.Stop.String() {
			if n++; n == 1 {
				first = fold.InUnits(t.Message, sh.m.units)
			}
		}
	}
	return n, first
}

// cautions that belong to marking out, cutting and the bends that follow.
func (sh *sheet) cautions() string {
	var down []string
	for i, b := range sh.part.Bends {
		if !b.Up && !slices.Contains(down, sh.cards[i]) {
			down = append(down, sh.cards[i])
		}
	}
	slices.SortFunc(down, byNumber)
	c := "Cautions. "
	if len(down) > 12 {
		c += "Carry the lines of the down bends over to the other face. "
	} else if len(down) > 0 {
		c += "Carry over to the other face, where they are bent from: " + strings.Join(down, ", ") + " (down). "
	}
	if m, known := sh.part.MetalFacts(); known {
		for _, t := range m.Cautions {
			if !strings.Contains(t, "scribed line") { // that is said below of every metal
				c += t + " "
			}
		}
	}
	return c + "Scribe cut lines only; draw bend lines with a felt pen: a scribed line on the outside of a bend starts a crack. " +
		"Fresh-cut sheet has razor edges: wear gloves while handling it and deburr before bending. " +
		"Shield eyes and face at shears, grinders and drills, and ears at grinders. " +
		"Brake: keep hands and feet clear of the leaf's swing, the counterweights and the clamp's pinch point; one person works the brake; see that all fingers used are seated and tight; never go past its capacity. " +
		"These numbers give shape, not strength. Follow the machine's manual, local codes, and a qualified person where one is required."
}

// tables are those that stand after the bend table.
func (sh *sheet) tables() []table {
	out := sh.cornerTables()
	if len(sh.rep.Seams) > 0 {
		out = append(out, sh.seamTable())
	}
	if f := sh.bendTable(); len(f.rows) > maxBendRows {
		out = append([]table{f}, out...)
	}
	return out
}

// bar is a length to hold a rule against: printers like to shrink a page.
func (sh *sheet) bar(s *draft.Page, pageHeight float64) {
	long, name := 50.0, "50 mm"
	if sh.m.units == fold.Inch {
		long, name = 50.8, "2 inches"
	}
	y := pageHeight - 6.5
	s.Path("rule", draft.Path{}.M(geom.Vec2{margin, y}).L(geom.Vec2{margin, y - 2}).M(geom.Vec2{margin, y - 1}).L(geom.Vec2{margin + long, y - 1}).
		M(geom.Vec2{margin + long, y - 2}).L(geom.Vec2{margin + long, y}))
	s.Text("note", draft.Start, geom.Vec2{margin + long + 2, y}, "This bar is "+name+" long: check the print against a rule.")
}

// tablePages lays the tables out on A4 pages.
func (sh *sheet) tablePages() (pages []draft.Page) {
	const w, h = 210.0, 297.0
	var fresh []*draft.Page
	next := func() (*draft.Page, float64) {
		g := &draft.Page{W: w, H: h}
		fresh = append(fresh, g)
		g.Box("paper", 0, 0, w, h)
		title(g, sh.part.Spec.Name, w-2*margin)
		g.Text("body", draft.Start, geom.Vec2{margin, margin + 13}, sh.stock(w-2*margin))
		g.Line("rule", geom.Vec2{margin, margin + 15.5}, geom.Vec2{w - margin, margin + 15.5})
		return g, margin + 19
	}
	s, y := next()
	flow(s, sh.rest, w-2*margin, y, h-margin-4, next)
	for _, g := range fresh {
		pages = append(pages, *g)
	}
	return pages
}

// title writes a name as large as its room allows.
func title(s *draft.Page, name string, room float64) {
	size := 7.2
	for size > 4 && draft.Width(name, size)*1.05 > room {
		size *= 0.95
	}
	s.Sized("name", size, draft.Start, geom.Vec2{margin, margin + 6}, draft.Clip(name, size*1.05, room))
}

// diagonals are two pairs of corners far apart along the blank's two diagonal
// directions, with their distances in printed units.
type diagonal struct {
	a, b corner
	d    float64
}

func (sh *sheet) diagonals() []diagonal {
	c := sh.m.contours[0]
	var out []diagonal
	for _, dir := range []geom.Vec2{{sh.m.height, sh.m.width}, {sh.m.height, -sh.m.width}} {
		lo, hi := c[0], c[0]
		for _, k := range c {
			if k.at.Dot(dir) < lo.at.Dot(dir) {
				lo = k
			}
			if k.at.Dot(dir) > hi.at.Dot(dir) {
				hi = k
			}
		}
		if lo.no != hi.no {
			out = append(out, diagonal{lo, hi, math.Hypot(hi.at[0]-lo.at[0], hi.at[1]-lo.at[1])})
		}
	}
	return out
}
