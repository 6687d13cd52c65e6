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

// table is a printed table. Its rows are text; a cell that starts with "↑" or
// "↓" gets a drawn arrow instead of the character.
type table struct {
	class string // names its group in the drawing
	title string
	brief string // the title where that has no room
	cols  []column
	rows  [][]string
}

type column struct {
	head  string
	width float64
	right bool
	bold  bool
}

// smallHead heads a column that is written small: by how much a figure is rounded.
const smallHead = "off"

func (t *table) width() float64 {
	w := 0.0
	for _, c := range t.cols {
		w += c.width
	}
	return w
}

// height of a stretch of n rows with its head.
func (t *table) height(n int) float64 {
	h := rowHeight * float64(n+1)
	if t.title != "" {
		h += 6
	}
	return h + 3
}

// draw writes rows from..to with the head, its top left corner at x, y.
func (t *table) draw(s *draft.Page, x, y float64, from, to int) {
	s.Group(t.class)
	if t.title != "" {
		on := ""
		if from > 0 {
			on = ", continued"
		}
		title := t.title + on
		if t.brief != "" && draft.Width(title, 3.6) > t.width() {
			title = t.brief + on
		}
		s.Text("head", draft.Start, geom.Vec2{x, y + 4}, draft.Clip(title, 3.6, t.width()+3))
		y += 6
	}
	y = t.row(s, "th", x, y, t.heads())
	s.Line("rule", geom.Vec2{x, y}, geom.Vec2{x + t.width(), y})
	for i := from; i < to; i++ {
		y = t.row(s, "row", x, y, t.rows[i])
		s.Line("hair", geom.Vec2{x, y}, geom.Vec2{x + t.width(), y})
	}
	s.End()
}

func (t *table) heads() []string {
	var h []string
	for _, c := range t.cols {
		h = append(h, c.head)
	}
	return h
}

func (t *table) row(s *draft.Page, class string, x, y float64, cells []string) float64 {
	s.Group(class)
	base := y + rowHeight - 1.35
	for i, c := range t.cols {
		style, size := "body", textSize
		if class == "th" {
			style, size = "note", 2.8
		} else if c.bold {
			style = "bold"
		} else if c.head == smallHead {
			style, size = "small", smallSize
		}
		text := cells[i]
		p := geom.Vec2{x, base}
		room := c.width - 1
		if rest, up := strings.CutPrefix(text, "↑ "); up || strings.HasPrefix(text, "↓ ") {
			if !up {
				rest = strings.TrimPrefix(text, "↓ ")
			}
			s.Arrow(geom.Vec2{x + 1.2, base - 1.1}, up)
			p[0] += 3.4
			room -= 3.4
			text = rest
		}
		anchor := draft.Start
		if c.right {
			p[0] = x + c.width - 2
			anchor = draft.End
		}
		s.Text(style, anchor, p, draft.Clip(text, size, room))
		x += c.width
	}
	s.End()
	return y + rowHeight
}

// flow lays tables out in a width from y down, side by side where they fit, long
// ones in several columns. Below bottom it goes on where fresh says. With no
// drawing it only measures. It returns where it ends.
func flow(s *draft.Page, tables []table, width, y, bottom float64, fresh func() (*draft.Page, float64)) float64 {
	const gap = 5.0
	x, shelf := 0.0, 0.0 // where the next table stands, and the height of those beside it
	for _, t := range tables {
		room := width // of the shelf, past what stands there
		if x > 0 && x+t.width() <= width {
			room -= x
		}
		cols := max(1, int((room+gap)/(t.width()+gap)))
		n := len(t.rows)
		per := max((n+cols-1)/cols, min(n, 6))
		for from := 0; from < n; {
			if x > 0 && x+t.width() > width {
				x, y, shelf = 0, y+shelf+2, 0
			}
			rows := min(per, n-from)
			if y+t.height(rows) > bottom {
				room := int((bottom - y - t.height(0)) / rowHeight)
				if room < min(rows, 4) && fresh != nil {
					if shelf == 0 || x == 0 {
						s, y = fresh()
					} else {
						x, y, shelf = 0, y+shelf+2, 0
					}
					continue
				}
				rows = min(rows, room)
			}
			if s != nil {
				t.draw(s, margin+x, y, from, from+rows)
			}
			from += rows
			x += t.width() + gap
			shelf = max(shelf, t.height(rows))
		}
	}
	return y + shelf + 2
}

// degrees writes an angle with as many places as it needs, at most two.
func degrees(a geom.Angle) string { return trim(a.Degrees(), 2) }

// trim writes a number with at most so many places.
func trim(x float64, places int) string {
	t := fmt.Sprintf("%.*f", places, x)
	if strings.Contains(t, ".") {
		t = strings.TrimRight(strings.TrimRight(t, "0"), ".")
	}
	return t
}

// fine writes a length that is not marked out (a thickness, a radius, a
// diameter): to 0.001 mm or 0.0001 in, without needless places.
func (m *marks) fine(mm float64) string { return trim(m.fineValue(mm), m.finePlaces()) }

// fineValue is the number that fine writes, in printed units.
func (m *marks) fineValue(mm float64) float64 {
	k := math.Pow10(m.finePlaces())
	return math.Round(mm/m.units.Scale()*k) / k
}

func (m *marks) finePlaces() int {
	if m.units == fold.Inch {
		return 4
	}
	return 3
}

func (sh *sheet) fine(mm float64) string { return sh.m.fine(mm) }

// told reports whether tables say by how much the printed figures are rounded: where a calliper would read finer.
func (sh *sheet) told() bool { return sh.m.rule.coarse() }

// lengthCols are the columns of running dimensions under the given heads, each with its rounding where that is told.
func (sh *sheet) lengthCols(heads ...string) (out []column) {
	wide, off := sh.lengthWide(), 8.0
	if sh.m.units == fold.Inch {
		off = 11.5
	}
	for _, h := range heads {
		out = append(out, column{h, wide, true, false})
		if sh.told() {
			out = append(out, column{smallHead, off, false, false})
		}
	}
	return out
}

// lengthWide is how wide a column of running dimensions is.
func (sh *sheet) lengthWide() float64 {
	longest := max(sh.m.width, sh.m.height)
	if n := float64(sh.m.rule.parts); n > 0 {
		longest = math.Floor(longest) + (n-1)/n
	}
	return max(draft.Width(sh.m.say(longest), textSize)+3.6, 11.5)
}

// noWide is how wide a column of corners' numbers is.
func (sh *sheet) noWide() float64 {
	n := 0
	for _, c := range sh.m.contours {
		n += len(c)
	}
	return max(11, draft.Width(fmt.Sprint(n, " arc"), textSize)*1.06+1.5)
}

// lengthCells are a point's cells in columns of lengthCols.
func (sh *sheet) lengthCells(at, exact geom.Vec2) (out []string) {
	for axis := range at {
		out = append(out, sh.m.say(at[axis]))
		if sh.told() {
			out = append(out, sh.m.rule.off(exact[axis]))
		}
	}
	return out
}

// exactCells are a point's cells where it is given as a calliper reads.
func (sh *sheet) exactCells(exact geom.Vec2) (out []string) {
	c := calliper(sh.m.units, 0)
	for axis := range exact {
		out = append(out, c.say(exact[axis]))
		if sh.told() {
			out = append(out, "0")
		}
	}
	return out
}

// cornerTables list the corners of each contour, and the arcs.
func (sh *sheet) cornerTables() []table {
	m := &sh.m
	var out []table
	wide := sh.lengthWide() + 1.5 // a centre may lie beyond the blank
	arcs := table{class: "arcs", title: "Arcs", cols: []column{
		{"to No.", 12, false, true}, {"bulges", 16, false, false}, {"radius", max(15, wide), true, false}, {"centre: from A", max(23, wide), true, false}, {"from B", max(16, wide), true, false},
		{"through: from A", max(24, wide), true, false}, {"from B", max(16, wide), true, false}}}
	for i, c := range m.contours {
		t := table{class: "corners", title: "Corners of the outline", brief: "Corners", cols: append([]column{{"No.", sh.noWide(), false, true}}, sh.lengthCols("from A", "from B")...)}
		if i > 0 {
			t.class, t.title = fmt.Sprintf("cutout %d", i), fmt.Sprintf("Cutout %d", i)
		}
		for _, k := range c {
			no := fmt.Sprint(k.no)
			if k.arc != nil {
				no += " arc"
				r := []string{fmt.Sprint(k.no), "", "straight", "", "", m.say(k.through[0]), m.say(k.through[1])}
				if k.radius > 0 {
					r[1], r[2], r[3], r[4] = "inwards", sh.radius(k.radius), m.say(k.centre[0]), m.say(k.centre[1])
					if k.ccw {
						r[1] = "outwards"
					}
				}
				arcs.rows = append(arcs.rows, r)
			}
			t.rows = append(t.rows, append([]string{no}, sh.lengthCells(k.at, k.exact)...))
		}
		out = append(out, t)
	}
	if len(arcs.rows) > 0 {
		out = append(out, arcs)
	}
	if len(m.holes) > 0 {
		t := table{class: "holes", title: "Holes: centre-punch", brief: "Holes", cols: append(append([]column{{"No.", 11, false, true}}, sh.lengthCols("from A", "from B")...), column{"diameter", 18, true, false})}
		for i, h := range m.holes {
			t.rows = append(t.rows, append(append([]string{fmt.Sprintf("H%d", i+1)}, sh.lengthCells(h.at, h.exact)...), sh.fine(h.diameter*m.units.Scale())))
		}
		out = append(out, t)
	}
	return out
}

// radius writes an arc's radius (printed units), as dividers can be set.
func (sh *sheet) radius(r float64) string {
	if sh.m.units == fold.Inch {
		return trim(r, 4)
	}
	return trim(r, 2)
}

// careTable has the figures of what has to be marked with a calliper.
func (sh *sheet) careTable() (t table, ok bool) {
	w := &sh.worth
	if w.fine == nil {
		return t, false
	}
	t = table{class: "care", title: "With a calliper", cols: []column{{"What", 25, false, true}, {"from A", max(17, sh.lengthWide()+3), true, false}, {"from B", max(17, sh.lengthWide()+3), true, false}}}
	for _, c := range w.fine.contours {
		for _, k := range c {
			if w.care.corners[k.no-1] {
				t.rows = append(t.rows, []string{fmt.Sprint("corner ", k.no), w.fine.say(k.at[0]), w.fine.say(k.at[1])})
			}
		}
	}
	for _, i := range sh.byCard() {
		if !w.care.bends[i] {
			continue
		}
		for e, at := range w.fine.bends[i].lines[sightLine].ends {
			t.rows = append(t.rows, []string{fmt.Sprintf("mark %s, %s", sh.cards[i], [2]string{"1st", "2nd"}[e]), w.fine.say(at[0]), w.fine.say(at[1])})
		}
	}
	return t, true
}

// careWords name what has to be marked with a calliper.
func (sh *sheet) careWords() string {
	w := &sh.worth
	var corners, bends []string
	all := true
	for i, on := range w.care.corners {
		all = all && on
		if on {
			corners = append(corners, fmt.Sprint(i+1))
		}
	}
	for _, i := range sh.byCard() {
		all = all && w.care.bends[i]
		if w.care.bends[i] && !slices.Contains(bends, sh.cards[i]) {
			bends = append(bends, sh.cards[i])
		}
	}
	few := func(what string, names []string) string {
		if len(names) > maxNoted {
			return fmt.Sprintf("%s %s and %d more", what, strings.Join(names[:maxNoted], ", "), len(names)-maxNoted)
		}
		return what + " " + strings.Join(names, ", ")
	}
	switch {
	case all:
		return "all corners and marks"
	case len(bends) == 0:
		return few("corners", corners)
	case len(corners) == 0:
		return few("the marks of bends", bends)
	}
	return few("corners", corners) + "; " + few("the marks of bends", bends)
}

// seamTable says which cut edges meet once the part is folded.
func (sh *sheet) seamTable() table {
	t := table{class: "seams", title: "Edges that meet, as finished", cols: []column{
		{"Seam", 35, false, false}, {"edge", 16.5, false, true}, {"meets edge", 18, false, true}, {"long", 15.5, true, false},
		{"least gap", 16, true, false}, {"largest gap", 18.5, true, false}, {"rounded so", 26, true, false}, {"at most", 15, true, false}, {"joined", 27, false, false}}}
	for i, s := range sh.rep.Seams {
		rounded := ""
		if i < len(sh.worth.seams) && sh.worth.seams[i].known {
			rounded = sh.gapWords(sh.worth.seams[i].is)
		}
		most := "not said" // neither by the maker nor by a list
		if s.Limit != nil {
			most = sh.say2(*s.Limit)
		} else if s.Open {
			most = "–"
		}
		t.rows = append(t.rows, []string{s.Name, sh.edgeName(s.Seam.EdgeA), sh.edgeName(s.Seam.EdgeB),
			sh.say(s.Length), sh.say2(s.GapMin), sh.say2(s.GapMax), rounded, most, joined(&s)})
	}
	return t
}

// joined is how a seam is closed, in the maker's words first.
func joined(s *fold.SeamReport) string {
	var out []string
	if s.Join != "" {
		out = append(out, s.Join)
	}
	switch {
	case s.Way == "open":
		out = append(out, "left open")
	case s.Way != "" && s.Way != s.Join:
		out = append(out, s.Way)
	}
	if s.Process != "" {
		out = append(out, s.Process)
	}
	return strings.Join(out, ", ")
}

// edgeName names the outline's edge that holds a stretch, by the corners at its ends.
func (sh *sheet) edgeName(e [2]geom.Vec2) string {
	from, to, ok := sh.m.edge(e, sh.part.Blank.Box.Min)
	if !ok {
		return ""
	}
	return fmt.Sprintf("%d–%d", from, to)
}

// ruled writes a length in mm as it is marked out.
func (sh *sheet) ruled(mm float64) string { return sh.m.say(mm / sh.m.units.Scale()) }

// say and say2 write a length in mm that is not marked out in the sheet's units: to 0.1 mm or 0.001 in, and say2 mm to one
// place more.
func (sh *sheet) say(mm float64) string { return calliper(sh.m.units, 0).say(mm / sh.m.units.Scale()) }

func (sh *sheet) say2(mm float64) string {
	if sh.m.units == fold.Inch {
		return sh.say(mm)
	}
	return calliper(sh.m.units, 1).say(mm)
}
