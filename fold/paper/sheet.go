package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"

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
	alike bool     // the part serves for both hands

	// Made once: fit tries many frames.
	bends    table
	rest     []table                // after the bend table
	sideHigh [2]float64             // bare, whole
	apart    map[float64][]bool     // by scale, which bends' lines are drawn apart
	dims     map[string][2][]dim    // by which are
	restHigh map[float64]float64    // height of rest by the width it flows in
	heads    map[float64]float64    // headHigh by the page's width
	wrapped  map[wrapKey][]string   // notes by how they break
	sides    map[sideKey]sideDims   // running dimensions as they stand
	crowded  map[float64][]cutPlace // by scale, where corners crowd
}

type wrapKey struct {
	what  string
	width float64
}

// MarkingOut gives the marking-out sheet's pages: first the drawing with its running
// dimensions and bend table, then the tables of corners, arcs, holes, the bends' lines and seams. The
// first page is on the paper asked for, upright or across, at a stated scale, or on larger where that has no
// room; with TrueScale on as large as the blank takes; the others are on the paper asked for. A part that
// can't be folded is an error, and so is an option that is none.
func MarkingOut(p *fold.Part, rep *fold.Report, opt Options) ([]draft.Page, error) {
	pages, name, err := layOut(p, rep, opt)
	for i := range pages {
		pages[i].Title = fmt.Sprintf("%s, marking out, page %d of %d", name, i+1, len(pages))
	}
	return pages, err
}

// newSheet makes a sheet ready: it takes the part, or that for the other hand, and refuses options that are none. what is done to the
// blank with it, for the words of the error where the part can't be folded.
func newSheet(p *fold.Part, rep *fold.Report, opt Options, what string) (*sheet, error) {
	if !p.Foldable {
		return nil, cantFold(p, what)
	}
	if _, err := newRuler(opt.Units, opt.Rule); err != nil {
		return nil, err
	}
	if opt.Paper == "" {
		opt.Paper = Papers[0]
	}
	if len(papersFrom(opt.Paper)) == 0 {
		return nil, fmt.Errorf("the paper: %q, where one of %s is needed", opt.Paper, strings.Join(Papers, ", "))
	}
	if opt.Hand != "" && opt.Hand != "left" && opt.Hand != "right" {
		return nil, fmt.Errorf("the hand: %q, where left, right or nothing is needed", opt.Hand)
	}
	sh := &sheet{opt: opt}
	if opt.Hand != "" || opt.Other {
		sh.alike, _ = p.BothHands()
	}
	if opt.Other {
		p, rep = otherHand(p, rep)
	}
	sh.part, sh.rep, sh.cards = p, rep, cardNumbers(p)
	return sh, nil
}

func layOut(p *fold.Part, rep *fold.Report, opt Options) (pages []draft.Page, name string, err error) {
	sh, err := newSheet(p, rep, opt, "marked out")
	if err != nil {
		return nil, p.Spec.Name, err
	}
	p, rep, name = sh.part, sh.rep, sh.part.Spec.Name
	sh.apart, sh.dims = map[float64][]bool{}, map[string][2][]dim{}
	sh.heads, sh.crowded = map[float64]float64{}, map[float64][]cutPlace{}
	sh.restHigh, sh.wrapped, sh.sides = map[float64]float64{}, map[wrapKey][]string{}, map[sideKey]sideDims{}
	if sh.worth, err = opt.weigh(p, rep); err != nil {
		return nil, name, err
	}
	sh.m = sh.worth.marks

	sh.bends, sh.rest = sh.bendTable(), sh.tables()
	var scratch draft.Page
	sh.sideHigh = [2]float64{sh.side(&scratch, true, 0, 0) + 4, sh.side(&scratch, false, 0, 0) + 4}
	first := sh.fit()
	pages = []draft.Page{sh.drawingPage(first)}
	if !first.single {
		pages = append(pages, sh.tablePages(first)...)
	}
	for i := range pages {
		footer(&pages[i], sh.m.units, name, i+1, len(pages))
	}
	return pages, name, nil
}

// otherHand is the part for the other hand with its report: what the part itself was found out about holds of it too.
func otherHand(p *fold.Part, rep *fold.Report) (*fold.Part, *fold.Report) {
	s := p.Spec
	s.Panels = nil // as they were found, so that the same one lies still
	for _, q := range p.Panels {
		s.Panels = append(s.Panels, fold.PanelName{Name: q.Name, At: q.Label.Mul(1 / s.Units.Scale())})
	}
	s.Base = p.Panels[p.Base].Name
	s.Bends = slices.Clone(s.Bends)
	for i := range s.Bends {
		s.Bends[i].Name = p.Bends[i].Name
	}
	q := fold.Build(s.Mirrored())
	if !q.Foldable { // it is, if the part is
		panic("the mirror image of a part that folds does not")
	}
	r := q.Quick()
	r.Worth, r.Bends = rep.Worth, slices.Clone(rep.Bends)
	for i := range r.Bends {
		r.Bends[i].Name = fold.OtherHand(r.Bends[i].Name)
	}
	r.Troubles = slices.Clone(rep.Troubles)
	for i := range r.Troubles {
		r.Troubles[i].Message = fold.OtherHand(r.Troubles[i].Message)
	}
	others := func(names []string) (out []string) {
		for _, n := range names {
			out = append(out, fold.OtherHand(n))
		}
		return out
	}
	r.Swings, r.Clashes, r.Spread = slices.Clone(rep.Swings), slices.Clone(rep.Clashes), rep.Spread
	for i := range r.Swings {
		w := &r.Swings[i]
		w.Bends = others(w.Bends)
		if w.Room != nil {
			k := *w.Room
			k.A, k.B = fold.OtherHand(k.A), fold.OtherHand(k.B)
			w.Room = &k
		}
	}
	for i := range r.Clashes {
		c := &r.Clashes[i]
		c.Bends, c.A, c.B = others(c.Bends), fold.OtherHand(c.A), fold.OtherHand(c.B)
	}
	for i := range rep.Seams {
		if k := slices.IndexFunc(r.Seams, func(x fold.SeamReport) bool { return x.Name == fold.OtherHand(rep.Seams[i].Name) }); k >= 0 {
			r.Seams[k].Spread, r.Seams[k].State = rep.Seams[i].Spread, rep.Seams[i].State
		}
	}
	return q, &r
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
	bare   bool // the enlarged bend stands on a later page
	foot   []string
	head   float64 // height of what stands above the drawing
}

// scales that are drawn, as how many mm one mm on paper stands for.
var scales = []float64{0.2, 0.5, 1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 250, 500, 1000, 2000, 5000, 10000, 20000}

// papersFrom are the papers, upright, from a named one to the largest of its kind; none for a name that is unknown.
func papersFrom(name string) [][2]float64 {
	metric := [][2]float64{{210, 297}, {297, 420}, {420, 594}, {594, 841}, {841, 1189}} // A4 to A0, ISO 216
	inches := [][2]float64{{8.5, 11}, {11, 17}, {17, 22}, {22, 34}, {34, 44}}
	for i := range inches {
		inches[i] = [2]float64{inches[i][0] * inch, inches[i][1] * inch}
	}
	switch name {
	case "A4":
		return metric
	case "A3":
		return metric[1:]
	case "Letter":
		return inches
	case "Tabloid":
		return inches[1:]
	}
	return nil
}

// holding is what the first page holds besides the drawing.
type holding int

const (
	holdAll   holding = iota // every table
	holdBends                // the bend table
	holdBare                 // that, but no enlarged bend
	holdNone                 // no table
)

// fit chooses paper and scale. A single page of the paper asked for with everything on it, if the
// drawing is then at least 60 mm long and half as large as it could be;
// else the smallest paper on which the drawing, with the bend table or without, is at least 75 mm long. Of
// a paper's two ways round, the one that gives the larger scale.
func (sh *sheet) fit() frame {
	size := sh.part.Blank.Box.Size()
	long := max(size[0], size[1])
	if sh.opt.TrueScale {
		return sh.ownSize(1)
	}
	papers := papersFrom(sh.opt.Paper)
	best := func(paper [2]float64, k holding, least float64) *frame {
		var best *frame
		for _, wh := range [][2]float64{paper, {paper[1], paper[0]}} {
			for _, s := range scales {
				if best != nil && 1/s <= best.scale {
					break
				}
				if size[0]/s > wh[0] || size[1]/s > wh[1] {
					continue
				}
				f := sh.frameOn(wh[0], wh[1], s, k)
				n := sh.needs(f)
				if n[0] > f.w && !f.turned {
					f.turned = true
					n = sh.needs(f)
				}
				if n[0] > f.w || n[1] > f.h {
					continue
				}
				if long*f.scale >= least || s == scales[0] {
					best = &f
				}
				break
			}
		}
		return best
	}
	// Of the first paper's ways the first in which the drawing is not much smaller than it could be.
	var found [holdNone + 1]*frame
	largest := 0.0
	for k := range found {
		least := 75.0
		if holding(k) == holdAll {
			least = 60
		}
		if found[k] = best(papers[0], holding(k), least); found[k] != nil {
			largest = max(largest, found[k].scale)
		}
	}
	for k, f := range found {
		if f != nil && f.scale >= largest*[...]float64{holdAll: 0.5, holdBends: 0.6, holdBare: 0.5, holdNone: 0}[k] {
			return sh.arrange(*f)
		}
	}
	for _, paper := range papers[1:] {
		for k := holdBends; k <= holdNone; k++ {
			if f := best(paper, k, 75); f != nil {
				return sh.arrange(*f)
			}
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
	f := sh.frameOn(1e9, 1e9, s, holdBends)
	least := papersFrom(sh.opt.Paper)[0]
	f.w = max(least[0], math.Ceil(sh.needs(f)[0]))
	f.head, f.foot = sh.headHigh(f.w), sh.footLines(f.w, f.single)
	f.h = max(least[1], math.Ceil(sh.needs(f)[1]))
	return sh.arrange(f)
}

// frameOn is the frame on a paper at a scale; needs says whether it fits.
func (sh *sheet) frameOn(w, h, s float64, k holding) frame {
	f := frame{w: w, h: h, scale: 1 / s, single: k == holdAll, bare: k == holdBare}
	wide, room := 0.0, sh.part.Blank.Box.Size()[0]*f.scale
	n := 0
	for _, d := range sh.shown(0, f.scale) {
		wide += d.wide + 1.5
		n++
	}
	f.turned = wide > room*1.12
	f.split = float64(n)*dimPitch > room*1.12
	f.short = k == holdNone || len(sh.bends.rows) > maxBendRows || len(sh.bends.rows) == 0
	f.foot = sh.footLines(min(w, 400), f.single)
	f.head = sh.headHigh(min(w, 400))
	return f
}

// dimsAt are the running dimensions of a drawing at a scale.
func (sh *sheet) dimsAt(scale float64) [2][]dim {
	apart := sh.apartAt(scale)
	key := make([]byte, len(apart))
	for i, a := range apart {
		if a {
			key[i] = 1
		}
	}
	d, known := sh.dims[string(key)]
	if !known {
		d = [2][]dim{sh.m.dims(0, sh.cards, apart), sh.m.dims(1, sh.cards, apart)}
		sh.dims[string(key)] = d
	}
	return d
}

// apartAt says of which bends the drawing shows every line, at a scale: of those so wide that they don't run together.
func (sh *sheet) apartAt(scale float64) []bool {
	out, known := sh.apart[scale]
	if !known {
		out = make([]bool, len(sh.part.Bends))
		for i := range out {
			out[i] = sh.part.Bends[i].Allowance*scale >= tangentsFrom
		}
		sh.apart[scale] = out
	}
	return out
}

// shown are the running dimensions that the drawing carries.
func (sh *sheet) shown(axis int, scale float64) []dim {
	d := sh.dimsAt(scale)[axis]
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
	side := 1
	if f.bare {
		side = 0
	}
	h := margin*2 + f.head + max(r.Max[1]+size[1]+r.Min[1], sh.sideHigh[side]) + sh.footHeight(f)
	return geom.Vec2{max(w, min(margin*2+tableWidth, papersFrom(sh.opt.Paper)[0][0])), h}
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
		h += sh.restHigh[w] + placesHigh(len(sh.crowds(f.scale)), f.w)
	}
	return h
}

// footLines are what stands at the foot of the first page as it breaks on a page of a width: the cautions, and on a
// single page all notes.
func (sh *sheet) footLines(w float64, single bool) (lines []string) {
	var notes []string
	if single {
		notes = append(notes, strings.Join(sh.notes(), " "))
	} else if n := sh.bendNotes(); len(n) > 0 && n[0][0] == '*' { // the table above refers to it
		notes = append(notes, n[0])
	}
	for _, t := range append(notes, sh.cautions()) {
		lines = append(lines, sh.wrap(t, w-2*margin)...)
	}
	return lines
}

func (sh *sheet) wrap(t string, width float64) []string {
	k := wrapKey{t, width}
	if _, known := sh.wrapped[k]; !known {
		sh.wrapped[k] = draft.Wrap(t, 2.8, width)
	}
	return sh.wrapped[k]
}

// arrange places the drawing in its frame.
func (sh *sheet) arrange(f frame) frame {
	f.foot = sh.footLines(f.w, f.single)
	f.head = sh.headHigh(f.w)
	// Spare room goes half before and half past the drawing, up to a limit.
	size := sh.part.Blank.Box.Size().Mul(f.scale)
	r := sh.roomFor(f)
	wide := f.w - 2*margin - sideWidth - r.Min[0] - size[0] - r.Max[0]
	high := f.h - 2*margin - f.head - sh.footHeight(f) - r.Max[1] - size[1] - r.Min[1]
	f.origin = geom.Vec2{margin + r.Min[0] + max(0, min(wide/2, 30)), margin + f.head + r.Max[1] + max(0, min(high/2, 12)) + size[1]}
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
	sh.side(s, f.bare, f.w-margin-sideWidth, margin+f.head+4)
	y := f.h - margin - sh.footHeight(f) + 2
	if !f.short {
		sh.bends.draw(s, margin, y, 0, len(sh.bends.rows))
		y += sh.bends.height(len(sh.bends.rows)) + 2
	}
	if f.single {
		if places := sh.crowds(f.scale); len(places) > 0 {
			sh.drawCrowds(s, places, 0, len(places), y)
			y += placesHigh(len(places), f.w)
		}
		y = flow(s, sh.rest, f.w-2*margin, y, math.Inf(1), nil) + 1
	}
	s.Line("rule", geom.Vec2{margin, y - 1.5}, geom.Vec2{f.w - margin, y - 1.5})
	for i, l := range f.foot {
		s.Text("note", draft.Start, geom.Vec2{margin, y + 2.6 + 3.8*float64(i)}, l)
	}
	return *s
}
