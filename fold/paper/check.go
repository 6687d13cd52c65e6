package paper

// This file lays out the sheet for checking the cut blank before the first bend. checkdraw.go has its drawing.

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/ascut"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// checkSheet is the sheet in the making.
type checkSheet struct {
	part  *fold.Part
	rep   *fold.Report
	sizes []ascut.Size
	units fold.Units
	hand  string // the stamp of which hand the part is, "" where it isn't said
	rule  ruler
	own   bool // the rule is the maker's own, not what rules show
	// The outline's corners (mm) with their numbers on the marking-out sheet.
	corners []geom.Vec2
	numbers []int
	w, h    float64
	rows    [][]checkCell
	high    []float64 // of each row
	foot    []string
}

// checkCell is a cell's lines.
type checkCell struct {
	class string
	lines []string
}

// The table's columns: number, what is measured, least, wanted, largest, what was measured, tick, what to do.
var checkCols = [...]float64{8, 54, 17, 14, 17, 21, 8, 49}

const (
	checkLine  = 3.05 // from line to line in a cell
	rowHigh    = 8.8  // least height of a row: room to write in
	checkHead  = 27.0 // of the page
	checkEnd   = 9.5  // white below, with the page's number in it
	checkDraw  = 62.0 // least height of the drawing
	checkSmall = 2.5  // size of what stands in cells
)

// Check gives the sheet for checking the cut blank before the first bend: where to measure, how far each size may be out, room to write in what was
// measured, and what to do where one is out. One page, more where the rows take them. l is the part's list by ascut.Look, or nil.
func Check(p *fold.Part, rep *fold.Report, l *ascut.List, o Options) ([]draft.Page, error) {
	if !p.Foldable {
		return nil, errors.New("the blank can't be checked until it can be folded")
	}
	stamp := &sheet{opt: o}
	if o.Hand != "" || o.Other {
		stamp.alike, _ = p.BothHands()
	}
	p, rep, l, err := CheckList(p, rep, l, o)
	if err != nil {
		return nil, err
	}
	if len(l.Sizes) == 0 {
		return nil, errors.New(strings.Join(append([]string{"there is nothing to measure on this blank"}, l.Notes...), ": "))
	}
	sh := &checkSheet{part: p, rep: rep, units: o.Units, hand: stamp.hand(), sizes: l.Sizes, own: o.Rule != 0}
	sh.rule, _ = newRuler(o.Units, o.Rule)
	sh.number(o)
	sh.w, sh.h = 210, 297
	if o.Paper == "Letter" || o.Paper == "Tabloid" {
		sh.w, sh.h = 215.9, 279.4
	}
	for i := range sh.sizes {
		sh.row(&sh.sizes[i])
	}
	sh.thickness()
	sh.footLines(l)
	pages := sh.pages()
	for i := range pages {
		g := &pages[i]
		g.Title = fmt.Sprintf("%s, check before bending, page %d of %d", p.Spec.Name, i+1, len(pages))
		g.Text("note", draft.End, geom.Vec2{g.W - margin, g.H - 6}, fmt.Sprintf("%s, check before bending, page %d of %d", draft.Clip(p.Spec.Name, 2.8, 80), i+1, len(pages)))
	}
	return pages, nil
}

// CheckList gives what the check sheet is made from: the part of the hand that is printed, its report, and its list with limits rounded to what
// the maker's rule shows. l is p's list by ascut.Look, or nil.
func CheckList(p *fold.Part, rep *fold.Report, l *ascut.List, o Options) (*fold.Part, *fold.Report, *ascut.List, error) {
	rule, err := newRuler(o.Units, o.Rule)
	if err != nil {
		return nil, nil, nil, err
	}
	if o.Other { // its own list: left and right change places
		spec := p.Spec.Mirrored()
		spec.AsCut = p.Spec.AsCut // measured on the blank that is printed for
		if p = fold.Build(spec); !p.Foldable {
			return nil, nil, nil, errors.New("the part for the other hand can't be folded")
		}
		r := p.Quick()
		rep, l = &r, nil
	}
	if l == nil {
		if len(rep.Seams) == 0 { // not measured yet, or there are none
			r := p.Quick()
			rep = &r
		}
		l = ascut.Look(p, rep)
	}
	return p, rep, l.ByRule(o.Units, rule.step*o.Units.Scale()), nil
}

// number fills in the corners that sizes are measured at, as the marking-out sheet numbers them.
func (sh *checkSheet) number(o Options) {
	k := sh.part.Spec.Units.Scale()
	numbers := cornerNumbers(sh.part, o)
	for i, v := range tidy(sh.part.Spec.Outline) {
		if len(numbers) > 0 && i < len(numbers[0]) && numbers[0][i] > 0 {
			sh.corners, sh.numbers = append(sh.corners, v.At.Mul(k)), append(sh.numbers, numbers[0][i])
		}
	}
}

// cornerOf is the number of the corner at a place, 0 where it has none.
func (sh *checkSheet) cornerOf(at geom.Vec2) int {
	for i, c := range sh.corners {
		if c.Sub(at).Len() <= cornerNear {
			return sh.numbers[i]
		}
	}
	return 0
}

// words are a size's words with the numbers of the corners on the marking-out sheet: "up: left corner 14 of back to right corner 22 of back".
func (sh *checkSheet) words(s *ascut.Size) string {
	head, rest, ok := strings.Cut(s.What, ": ")
	parts := strings.Split(rest, " to ")
	if !ok || len(parts) != 2 {
		return s.What
	}
	for k, e := range s.Ends {
		var nos []string
		for _, at := range e {
			if n := sh.cornerOf(at); n > 0 {
				nos = append(nos, fmt.Sprint(n))
			}
		}
		switch {
		case len(nos) == 0 || len(nos) < len(e):
		case len(nos) == 1:
			parts[k] = strings.Replace(parts[k], "corner", "corner "+nos[0], 1)
		default:
			parts[k] = strings.Replace(parts[k], "edge", "edge "+nos[0]+"–"+nos[1], 1)
		}
	}
	return head + ": " + parts[0] + " to " + parts[1]
}

// row makes a size's cells.
func (sh *checkSheet) row(s *ascut.Size) {
	u := sh.units
	wrap := func(class, text string, col int) checkCell {
		return checkCell{class, draft.Wrap(fold.InUnits(text, u), checkSmall, checkCols[col]-2)}
	}
	big := func(mm, step float64) checkCell { return checkCell{"fact", []string{ascut.Length(mm, u, step)}} }
	what := wrap("check", sh.words(s), 1)
	tool := checkCell{"small", nil}
	if s.Calliper {
		tool.lines = []string{"calliper"}
	}
	row := []checkCell{{"ball", []string{fmt.Sprint(s.No)}}, what, big(s.Low, s.Step), {"way", []string{wantedLength(s, u)}}, big(s.High, s.Step), tool, {}, sh.doing(s)}
	high := rowHigh
	for _, c := range row {
		high = max(high, float64(len(c.lines))*checkLine+1.2)
	}
	sh.rows, sh.high = append(sh.rows, row), append(sh.high, high)
}

// thickness makes the row of the sheet's thickness: it has no number and no limits, for the figures of all bends hang on it.
func (sh *checkSheet) thickness() {
	what := draft.Wrap("thickness of the sheet, at an edge without burr", checkSmall, checkCols[1]-2)
	do := draft.Wrap("Another: don’t bend; type it into Dryfold, for every allowance changes.", checkSmall, checkCols[7]-1)
	row := []checkCell{{}, {"check", what}, {}, {"way", []string{trim(sh.part.Thickness/sh.units.Scale(), 4)}}, {}, {"small", []string{"calliper"}}, {}, {"check", do}}
	sh.rows, sh.high = append(sh.rows, row), append(sh.high, max(rowHigh, float64(len(do))*checkLine+1.2))
}

// wantedLength writes what is wanted as a rule or calliper shows it, to one place more in mm.
func wantedLength(s *ascut.Size, u fold.Units) string { return ascut.Length(s.Want, u, 1) }

// doing says what to do where a size is out.
func (sh *checkSheet) doing(s *ascut.Size) checkCell {
	var out []string
	say := func(t string) { out = append(out, draft.Wrap(t, checkSmall, checkCols[7]-1)...) }
	large, small := "Too large: ", "Too small: "
	if s.Opening {
		large, small = "Too wide: ", "Too narrow: "
	}
	switch {
	case len(s.Edges) == 0 && strings.HasPrefix(s.What, "diagonal"):
		say("Out, and all else right: the sheet’s corner was not square. Don’t bend.")
	case s.Void != "":
		say("Out: " + s.Void + " lies in the wrong place. See whether it will do; else cut again.")
	case len(s.Edges) == 0:
		say("Out by much: it may be the mirror image, marked from the wrong face. Don’t bend.")
	default:
		trim := "trim " + edgeWords(s)
		over, under := sh.does(s.Long), sh.does(s.Short)
		if s.Opening {
			say(small + trim + ".")
			say(large + over)
		} else {
			say(large + trim + ".")
			say(small + under)
		}
	}
	return checkCell{"check", out}
}

// edgeWords names the edges that a size tells of: "left or upper edge of front lip".
func edgeWords(s *ascut.Size) string {
	if s.Square && len(s.Edges) == 2 {
		return "the edge that lies off its mark"
	}
	var panels []string
	sides := map[string][]string{}
	for _, e := range s.Edges {
		side, panel, ok := strings.Cut(e, " edge of ")
		if !ok {
			side, panel = strings.TrimSuffix(e, " edge"), ""
		}
		if !slices.Contains(panels, panel) {
			panels = append(panels, panel)
		}
		sides[panel] = append(sides[panel], side)
	}
	var out []string
	for _, p := range panels {
		t := strings.Join(sides[p], " or ") + " edge"
		if p != "" {
			t += " of " + p
		}
		out = append(out, t)
	}
	return strings.Join(out, ", or ")
}

func (sh *checkSheet) does(list []ascut.Does) string { return DoesWords(list, sh.units) }

// DoesWords says what becomes of the seams where a size is out by a mm.
func DoesWords(list []ascut.Does, u fold.Units) string {
	if len(list) == 0 {
		return "the part is smaller by it."
	}
	each := "each mm "
	if u == fold.Inch {
		each = ""
	}
	var out []string
	for _, opens := range []bool{true, false} {
		var by []string // alike ones are told together
		seams := map[string][]string{}
		for _, d := range list {
			if d.Opens != opens {
				continue
			}
			t := fmt.Sprintf("%.1f mm", d.By)
			if u == fold.Inch {
				if t = fmt.Sprintf("%.1f of it", d.By); math.Abs(d.By-1) < 0.05 {
					t = "as much"
				}
			}
			if !slices.Contains(by, t) {
				by = append(by, t)
			}
			seams[t] = append(seams[t], d.Seam)
		}
		var says []string
		for _, t := range by {
			says = append(says, strings.Join(seams[t], " or ")+" by "+t)
		}
		if len(says) > 0 {
			out = append(out, map[bool]string{true: "opens ", false: "closes "}[opens]+strings.Join(says, " or "))
		}
	}
	return each + strings.Join(out, ", ") + "."
}

// LimitWords says where a size's limits come from, in short.
func LimitWords(s *ascut.Size) string {
	if s.LowFrom == s.HighFrom {
		return s.LowFrom
	}
	if a, b, ok := strings.Cut(s.LowFrom, " touches"); ok && b == "" && strings.HasPrefix(s.HighFrom, a+" opens") {
		return s.LowFrom + ", or" + strings.TrimPrefix(s.HighFrom, a)
	}
	if a, b, ok := strings.Cut(s.HighFrom, " touches"); ok && b == "" && strings.HasPrefix(s.LowFrom, a+" opens") {
		return s.HighFrom + ", or" + strings.TrimPrefix(s.LowFrom, a)
	}
	return "least, " + s.LowFrom + "; largest, " + s.HighFrom
}

// footLines are what stands below the table.
func (sh *checkSheet) footLines(l *ascut.List) {
	grouped := func(of func(s *ascut.Size) []string) (texts []string, numbers [][]string) {
		for k := range sh.sizes {
			s := &sh.sizes[k]
			for _, t := range of(s) {
				if t == "" {
					continue
				}
				i := slices.Index(texts, t)
				if i < 0 {
					i = len(texts)
					texts, numbers = append(texts, t), append(numbers, nil)
				}
				if n := fmt.Sprint(s.No); !slices.Contains(numbers[i], n) {
					numbers[i] = append(numbers[i], n)
				}
			}
		}
		return texts, numbers
	}
	limits := "Limits, one edge being out:"
	texts, numbers := grouped(func(s *ascut.Size) []string { return []string{LimitWords(s)} })
	for i, t := range texts {
		limits += " " + strings.Join(numbers[i], ", ") + ": " + t + "."
	}
	texts, _ = grouped(func(s *ascut.Size) []string { return []string{s.LowSource, s.HighSource} })
	for _, t := range texts {
		limits += " How wide: " + t + "."
	}
	limits += " All rounded inward, to stay within them, to what "
	if sh.own {
		limits += "your rule shows, " + sh.rule.name()
	} else {
		limits += "a rule shows, " + sh.rule.name() + " (common practice)"
	}
	if slices.ContainsFunc(sh.sizes, func(s ascut.Size) bool { return s.Calliper }) {
		limits += "; where calliper stands that would take more than half of the room: to 0.1 mm"
	}
	limits += "."
	last := strings.Join(append(slices.Clone(l.Notes), "Type what you measured into Dryfold: it says which edge to trim by how much, or what the part comes out as. Fresh-cut edges are sharp: wear gloves."), " ")
	for _, t := range []string{limits, last} {
		sh.foot = append(sh.foot, draft.Wrap(fold.InUnits(t, sh.units), 2.8, sh.w-2*margin)...)
	}
}

// pages lays the sheet out.
func (sh *checkSheet) pages() (out []draft.Page) {
	wide := sh.tableWidth()
	footHigh := float64(len(sh.foot))*3.8 + 9
	total := 8.0
	for _, h := range sh.high {
		total += h
	}
	top := margin + checkHead
	room := sh.h - checkEnd - top - footHigh - total
	drawing := max(checkDraw, min(room, 140))
	g := sh.fresh(true)
	sh.drawing(g, geom.Box2{Min: geom.Vec2{margin, top}, Max: geom.Vec2{sh.w - margin, top + drawing}})
	y := sh.heads(g, top+drawing+3, wide)
	for i := range sh.rows {
		if y+sh.high[i] > sh.h-checkEnd-footHigh+1e-9 {
			out = append(out, *g)
			g = sh.fresh(false)
			y = sh.heads(g, margin+checkHead, wide)
		}
		y = sh.put(g, i, y, wide)
	}
	y += 4.5
	g.Text("loud", draft.Start, geom.Vec2{margin, y}, "Checked by ______________________   Date ______________   Every line ticked: bend.")
	y += 5.2
	for _, line := range sh.foot {
		g.Text("note", draft.Start, geom.Vec2{margin, y}, line)
		y += 3.8
	}
	return append(out, *g)
}

func (sh *checkSheet) tableWidth() (w float64) {
	for _, c := range checkCols {
		w += c
	}
	return w
}

// fresh begins a page.
func (sh *checkSheet) fresh(first bool) *draft.Page {
	p := sh.part
	g := &draft.Page{W: sh.w, H: sh.h}
	g.Box("paper", 0, 0, sh.w, sh.h)
	facts := [][2]string{{"Blank", blankWords(p, sh.units)}, {"Thickness", trim(p.Thickness/sh.units.Scale(), 4)}, {"All lengths in", unitName(sh.units)}}
	x := sh.w - margin
	for i := len(facts) - 1; i >= 0; i-- {
		x -= max(draft.Width(facts[i][0], textSize), draft.Width(facts[i][1], 4.2)) + 3
		g.Text("body", draft.Start, geom.Vec2{x, margin + 2.5}, facts[i][0])
		g.Text("fact", draft.Start, geom.Vec2{x, margin + 7.5}, facts[i][1])
	}
	title(g, p.Spec.Name, x-margin-4)
	g.Text("body", draft.Start, geom.Vec2{margin, margin + 13}, "Check the cut blank before the first bend: lay it down as it is drawn and measure each line, edge to edge or corner to corner.")
	g.Box("box", margin, margin+15.6, sh.w-2*margin, 7)
	g.Text("loud", draft.Middle, geom.Vec2{sh.w / 2, margin + 20.3}, "Do not bend before every line is ticked. A cut edge can be trimmed now; after the first bend it can’t.")
	stopLine(g, notReady(sh.rep, sh.units), margin+26)
	return g
}

// heads writes the table's head.
func (sh *checkSheet) heads(g *draft.Page, y, wide float64) float64 {
	x := margin
	for i, h := range [...]string{"No.", "Measure", "least", "wanted", "largest", "measured", "", "If it is out"} {
		if i >= 2 && i <= 5 {
			g.Text("note", draft.Middle, geom.Vec2{x + checkCols[i]/2, y + 3}, h)
		} else {
			g.Text("note", draft.Start, geom.Vec2{x + 0.8, y + 3}, h)
		}
		x += checkCols[i]
	}
	g.Line("rule", geom.Vec2{margin, y + 4.4}, geom.Vec2{margin + wide, y + 4.4})
	return y + 4.4
}

// put writes a row.
func (sh *checkSheet) put(g *draft.Page, i int, y, wide float64) float64 {
	g.Group("size")
	x, high := margin, sh.high[i]
	mid := y + high/2
	for k, c := range sh.rows[i] {
		w := checkCols[k]
		switch k {
		case 0:
			if len(c.lines) == 0 {
				break
			}
			g.Circle("box", geom.Vec2{x + 3.4, mid}, 2.9)
			g.Text("ball", draft.Middle, geom.Vec2{x + 3.4, mid + 1.05}, c.lines[0])
		case 2, 3, 4:
			if len(c.lines) == 0 {
				break
			}
			g.Text(c.class, draft.Middle, geom.Vec2{x + w/2, mid + 1.4}, c.lines[0])
		case 5: // to write in
			g.Box("box", x+1, mid-3.8, w-2, 7.6)
			for _, l := range c.lines {
				g.Sized("note", 2.2, draft.Start, geom.Vec2{x + 1.6, mid + 3.2}, l)
			}
		case 6: // to tick
			g.Box("box", x+2, mid-2.5, 5, 5)
		default:
			at := mid - float64(len(c.lines))*checkLine/2 + 2.45
			for _, l := range c.lines {
				g.Sized("note", checkSmall, draft.Start, geom.Vec2{x + 0.8, at}, l)
				at += checkLine
			}
		}
		x += w
	}
	g.Line("hair", geom.Vec2{margin, y + high}, geom.Vec2{margin + wide, y + high})
	g.End()
	return y + high
}
