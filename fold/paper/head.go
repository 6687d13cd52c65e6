package paper

// This file writes what stands above the drawing and below everything: the part's name and sizes, which face carries
// which mark, what must not be overlooked, the cautions, and the foot of each page.

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
		{"Blank", blankWords(sh.part, sh.m.units)},
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
	s.Line("rule", geom.Vec2{margin, margin + 16}, geom.Vec2{f.w - margin, margin + 16})
	y := sh.band(s, margin+18, f.w-2*margin)
	for _, l := range sh.loud(f.w - 2*margin) {
		s.Text("loud", draft.Start, geom.Vec2{margin, y + 3.2}, l)
		y += loudLine
	}
}

const loudLine = 4.4 // from line to line of what must not be overlooked

// headHigh is the height of what header writes on a page of a width.
func (sh *sheet) headHigh(w float64) float64 {
	h, known := sh.heads[w]
	if !known {
		var scratch draft.Page
		h = sh.band(&scratch, 18, w-2*margin) + loudLine*float64(len(sh.loud(w-2*margin))) + 1
		sh.heads[w] = h
	}
	return h
}

// loud are the lines that must not be overlooked, as they break in a width.
func (sh *sheet) loud(width float64) (lines []string) {
	var out []string
	if t := notReady(sh.rep, sh.m.units); t != "" {
		out = append(out, draft.Clip(t, 3.3, width*2.9))
	}
	for _, t := range append(out, sh.worth.loud(sh)...) {
		lines = append(lines, draft.Wrap(t, 3.3*1.05, width)...)
	}
	return lines
}

// stamp of the band: large words in a box, smaller ones below them.
type bandStamp struct{ large, small string }

// band says in large stamps which face is up, which carries which mark, and which hand the part is. It returns where it
// ends.
func (sh *sheet) band(s *draft.Page, y, width float64) float64 {
	stamps := sh.stamps()
	const gap, pad = 2.5, 2.0
	w := (width - gap*float64(len(stamps)-1)) / float64(len(stamps))
	lines := 0
	for _, st := range stamps {
		lines = max(lines, len(sh.wrap(st.small, w-2*pad)))
	}
	h := 7.2 + 3.6*float64(lines)
	size := 4.4 // of the large words, the same in all
	for _, st := range stamps {
		for size > 3 && draft.Width(st.large, size)*1.06 > w-2*pad {
			size *= 0.96
		}
	}
	for i, st := range stamps {
		x := float64(i)*(w+gap) + margin
		s.Box("box", x, y, w, h)
		s.Sized("stamp", size, draft.Start, geom.Vec2{x + pad, y + 5.2}, st.large)
		for k, l := range sh.wrap(st.small, w-2*pad) {
			s.Text("note", draft.Start, geom.Vec2{x + pad, y + 9 + 3.6*float64(k)}, l)
		}
	}
	return y + h + 2
}

// stamps are the band's.
func (sh *sheet) stamps() []bandStamp {
	up, down := sh.byWay()
	good := sh.part.Spec.Sheet.Good
	out := []bandStamp{{"THIS FACE UP", map[string]string{"up": "It is the good face.", "down": "The good face is underneath.", "": "Which face is the good one is not said."}[good]}}
	cuts := "Cut lines, on this face."
	switch {
	case good == "up" && len(up) > 0:
		cuts = "On this face. Never the marks of " + few(up) + ": it is the good face."
	case good == "down" && len(down) > 0:
		cuts = "On this face. Never the marks of " + few(down) + ", on the good face below."
	}
	out = append(out, bandStamp{"SCRIBE CUTS ONLY", cuts})
	if len(up)+len(down) > 0 {
		var t []string
		if len(up) > 0 {
			t = append(t, "Up, "+few(up)+": this face.")
		}
		if len(down) > 0 {
			t = append(t, "Down, "+few(down)+": other face.")
		}
		out = append(out, bandStamp{"BENDS: " + strings.ToUpper(sh.pen()), strings.Join(t, " ") + " Inside the bend."})
	}
	switch h := sh.hand(); {
	case h == "":
	case sh.alike:
		out = append(out, bandStamp{"BOTH HANDS ALIKE", "Its mirror image is the same part."})
	case sh.opt.Other:
		out = append(out, bandStamp{h, "The mirror image. Left and right have changed places in the names."})
	default:
		out = append(out, bandStamp{h, "Not the mirror image."})
	}
	return out
}

// hand is the stamp of which hand the sheet is for; "" where that isn't asked.
func (sh *sheet) hand() string {
	h := sh.opt.Hand
	if sh.opt.Other {
		h = fold.OtherHand(h)
	}
	switch {
	case sh.alike && (h != "" || sh.opt.Other):
		return "BOTH HANDS ALIKE"
	case sh.opt.Other && h != "":
		return "OTHER HAND: " + strings.ToUpper(h)
	case sh.opt.Other:
		return "OTHER HAND"
	case h != "":
		return strings.ToUpper(h) + " HAND"
	}
	return ""
}

// pen is what bends are marked with.
func (sh *sheet) pen() string {
	if m, known := sh.part.MetalFacts(); known && m.Family == "aluminium" {
		return "soft pencil"
	}
	return "felt pen"
}

// byWay lists the card numbers of the up and the down bends.
func (sh *sheet) byWay() (up, down []string) {
	for i, b := range sh.part.Bends {
		to := &down
		if b.Up {
			to = &up
		}
		if !slices.Contains(*to, sh.cards[i]) {
			*to = append(*to, sh.cards[i])
		}
	}
	slices.SortFunc(up, byNumber)
	slices.SortFunc(down, byNumber)
	return up, down
}

// few lists names, of many the first and how many more.
func few(names []string) string {
	const most = 12
	if len(names) > most {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most-2], ", "), len(names)-most+2)
	}
	return strings.Join(names, ", ")
}

// stock says what the part is cut from, in a line of a width.
func (sh *sheet) stock(width float64) string {
	metal := sh.part.Metal
	if metal == "" {
		metal = "metal not said"
	}
	first, n := utf8.DecodeRuneInString(metal)
	metal = string(unicode.ToUpper(first)) + metal[n:]
	rest := fmt.Sprintf(", %s %s thick. All lengths in %s, to %s. Good face: %s.%s", sh.fine(sh.part.Thickness), unitName(sh.m.units), unitName(sh.m.units),
		strings.TrimSuffix(sh.m.rule.name(), " "+sh.m.units.String()), sh.goodFace(), sh.grain())
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

// cautions that belong to marking out and cutting.
func (sh *sheet) cautions() string {
	return "Cautions. A scribed line on the outside of a bend starts a crack: bends are marked with a " + sh.pen() + ". " +
		"Fresh-cut sheet has razor edges: wear gloves while handling it and deburr before bending. " +
		"Shield eyes and face when punching, and at shears, grinders and drills; ears at grinders. " +
		"These numbers give shape, not strength. Follow the machine's manual, local codes, and a qualified person where one is required."
}

// lineWords say what the lines of a bend are.
const lineWords = "Words: the mark, or sight line, is what the nose's edge is set over. The held tangent line is where the bend begins on the panel that is clamped, the far one where it ends on what swings; the middle lies halfway. A bend takes so much of the blank, from one tangent line to the other."

// brakeCaution stands with the notes on the bends.
const brakeCaution = "At the brake keep hands and feet clear of the leaf's swing, the counterweights and the clamp's pinch point; one person works the brake; see that all fingers used are seated and tight; never go past its capacity."

// notes are what the figures rest on: a paragraph each.
func (sh *sheet) notes() []string {
	out := []string{sh.rounding()}
	out = append(out, sh.bendNotes()...)
	if len(sh.part.Bends) > 0 {
		for i := range sh.part.Bends {
			if sh.m.runTogether(i) {
				out = append(out, "Lines of a bend that "+sh.m.rule.name()+" would make one are given to "+calliper(sh.m.units, 0).name()+".")
				break
			}
		}
		out = append(out, lineWords, brakeCaution)
	}
	if m, known := sh.part.MetalFacts(); known {
		for _, t := range m.Cautions {
			if !strings.Contains(t, "scribed line") { // that is said of every metal
				out = append(out, t)
			}
		}
	}
	return out
}

// rounding says what the printed places are worth, and what of them the drawing leaves out.
func (sh *sheet) rounding() string {
	t := sh.worth.say(sh)
	if sh.told() {
		t += " Under “off” stands by how much a printed figure is more than the exact one, or less."
	}
	a, b := sh.dimsAt(0)[0], sh.dimsAt(0)[1]
	if n := len(a) + len(b); len(a) > maxDims || len(b) > maxDims {
		t += fmt.Sprintf(" There are %d running dimensions: the drawing carries those of the bends, the tables all.", n)
	}
	return t
}

// tables are those that stand after the bend table.
func (sh *sheet) tables() []table {
	var out []table
	if t, ok := sh.careTable(); ok {
		out = append(out, t)
	}
	out = append(out, sh.cornerTables()...)
	if len(sh.part.Bends) > 0 {
		out = append(out, sh.lineTable(), sh.basisTable())
	}
	if len(sh.rep.Seams) > 0 {
		out = append(out, sh.seamTable())
	}
	return out
}

// tablePages lays the tables out on pages of the paper asked for, and the notes after them.
func (sh *sheet) tablePages(f frame) (pages []draft.Page) {
	paper := papersFrom(sh.opt.Paper)[0]
	w, h := paper[0], paper[1]
	var fresh []*draft.Page
	next := func() (*draft.Page, float64) {
		g := &draft.Page{W: w, H: h}
		fresh = append(fresh, g)
		g.Box("paper", 0, 0, w, h)
		room := w - 2*margin
		if t := sh.hand(); t != "" {
			room -= draft.Width(t, 4.2)*1.06 + 6
			g.Text("fact", draft.End, geom.Vec2{w - margin, margin + 6}, t)
		}
		title(g, sh.part.Spec.Name, room)
		g.Text("body", draft.Start, geom.Vec2{margin, margin + 13}, sh.stock(w-2*margin))
		g.Line("rule", geom.Vec2{margin, margin + 15.5}, geom.Vec2{w - margin, margin + 15.5})
		return g, margin + 19
	}
	s, y := next()
	tables := sh.rest
	if f.short && len(sh.bends.rows) > 0 {
		tables = append([]table{sh.bends}, tables...)
	}
	bottom := h - margin - 4
	for all, from := sh.crowds(f.scale), 0; from < len(all); {
		per := placesPer(w)
		to := min(len(all), from+per*max(1, int((bottom-y-7)/(placeSize+placeGap+4))))
		sh.drawCrowds(s, all, from, to, y)
		y += placesHigh(to-from, w) + 2
		if from = to; from < len(all) {
			s, y = next()
		}
	}
	y = flow(s, tables, w-2*margin, y, bottom, next) + 1
	s = fresh[len(fresh)-1]
	if i, ok := sh.detailed(); ok && f.bare {
		if y+detailHigh > bottom {
			s, y = next()
		}
		y = sh.detail(s, i, margin, y) + 2
	}
	for _, t := range sh.notes() {
		for _, l := range sh.wrap(t, w-2*margin) {
			if y+3.8 > bottom {
				s, y = next()
			}
			s.Text("note", draft.Start, geom.Vec2{margin, y + 2.8}, l)
			y += 3.8
		}
		y += 1
	}
	for _, g := range fresh {
		pages = append(pages, *g)
	}
	return pages
}

// footer writes a page's foot: a length to hold a rule against, for printers like to shrink a page, whose page it is,
// and its number.
func footer(s *draft.Page, u fold.Units, name string, page, of int) {
	long, words := 50.0, "50 mm"
	if u == fold.Inch {
		long, words = 50.8, "2 inches"
	}
	y := s.H - 6.5
	s.Path("rule", draft.Path{}.M(geom.Vec2{margin, y}).L(geom.Vec2{margin, y - 2}).M(geom.Vec2{margin, y - 1}).L(geom.Vec2{margin + long, y - 1}).
		M(geom.Vec2{margin + long, y - 2}).L(geom.Vec2{margin + long, y}))
	words = "This bar is " + words + " long: check the print against a rule."
	s.Text("note", draft.Start, geom.Vec2{margin + long + 2, y}, words)
	room := s.W - 2*margin - long - 6 - draft.Width(words, 2.8)
	number := fmt.Sprintf(", page %d of %d", page, of)
	s.Text("note", draft.End, geom.Vec2{s.W - margin, y}, draft.Clip(name, 2.8, room-draft.Width(number, 2.8))+number)
}

// title writes a name as large as its room allows.
func title(s *draft.Page, name string, room float64) {
	size := 7.2
	for size > 4 && draft.Width(name, size)*1.05 > room {
		size *= 0.95
	}
	s.Sized("name", size, draft.Start, geom.Vec2{margin, margin + 6}, draft.Clip(name, size*1.05, room))
}
