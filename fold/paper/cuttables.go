package paper

// This file has the tables of the cutting sheet, and its words.

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/cutting"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// wrapTable is a table whose cells may be of several lines.
type wrapTable struct {
	class, title string
	cols         []column
	rows         [][][]string // lines by row and column
	high         []float64    // of each row
}

// held stands for a space at which a line isn't broken, until it is.
const held = "\uE000"

// add breaks a row's cells into lines.
func (t *wrapTable) add(cells ...string) {
	row := make([][]string, len(t.cols))
	lines := 1
	for i, col := range t.cols {
		row[i] = draft.Wrap(cells[i], 2.8*1.03, col.width-2)
		for k, l := range row[i] {
			row[i][k] = strings.ReplaceAll(l, held, " ")
		}
		lines = max(lines, len(row[i]))
	}
	t.rows = append(t.rows, row)
	t.high = append(t.high, cutLine*float64(lines)+1.3)
}

func (t *wrapTable) headHigh() float64 { return 6 + rowHeight }

// height of the whole table, 0 where it is empty.
func (t *wrapTable) height() float64 {
	if len(t.rows) == 0 {
		return 0
	}
	h := t.headHigh() + 3
	for _, x := range t.high {
		h += x
	}
	return h
}

// draw writes rows from..to with the head, its top left corner at x, y, and gives where it ends.
func (t *wrapTable) draw(s *draft.Page, x, y float64, from, to int) float64 {
	if from >= to {
		return y
	}
	wide := 0.0
	for _, col := range t.cols {
		wide += col.width
	}
	s.Group(t.class)
	name := t.title
	if from > 0 {
		name += ", on"
	}
	s.Text("head", draft.Start, geom.Vec2{x, y + 4}, name)
	y += 6
	at := x
	s.Group("th")
	for _, col := range t.cols {
		p, to := geom.Vec2{at, y + rowHeight - 1.35}, draft.Start
		if col.right {
			p[0], to = at+col.width-2, draft.End
		}
		s.Text("note", to, p, col.head)
		at += col.width
	}
	s.End()
	y += rowHeight
	s.Line("rule", geom.Vec2{x, y}, geom.Vec2{x + wide, y})
	for i := from; i < to; i++ {
		s.Group("row")
		at := x
		for k, col := range t.cols {
			class := "note"
			if col.bold {
				class = "dimb"
			}
			for n, l := range t.rows[i][k] {
				p, to := geom.Vec2{at, y + 3.3 + cutLine*float64(n)}, draft.Start
				if col.right {
					p[0], to = at+col.width-2, draft.End
				}
				s.Text(class, to, p, l)
			}
			at += col.width
		}
		s.End()
		y += t.high[i]
		s.Line("hair", geom.Vec2{x, y}, geom.Vec2{x + wide, y})
	}
	s.End()
	return y + 3
}

// cornerNumbers are the numbers of corners on the marking-out sheet, by contour and vertex.
func cornerNumbers(p *fold.Part, opt Options) [][]int {
	m := takeMarks(p, calliper(opt.Units, 0))
	k := p.Spec.Units.Scale()
	var out [][]int
	for i, c := range append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		n := len(c)
		c = tidy(c)
		nos := make([]int, n)
		marks := m.contours[i]
		// The marks go round the same corners, from another one and maybe the other way.
		fits := func(first, step int) bool {
			for v := range c {
				mark := marks[((first+step*v)%len(marks)+len(marks))%len(marks)]
				if m.mm(mark.exact).Sub(c[v].At.Mul(k).Sub(p.Blank.Box.Min)).Len() > cornerNear {
					return false
				}
			}
			return true
		}
		for try := range 2 * len(c) {
			first, step := try/2, 1-try%2*2
			if !fits(first, step) {
				continue
			}
			for v := range nos {
				nos[v] = marks[((first+step*v)%len(marks)+len(marks))%len(marks)].no
			}
			break
		}
		out = append(out, nos)
	}
	return out
}

// cornerNear: a mark is that of a corner within this (mm): float64’s noise of turning inches and mm into each other, with a margin.
const cornerNear = 1e-6

// number of a vertex; 0 where it has none.
func (c *cutSheet) number(contour, vertex int) int {
	if contour < len(c.numbers) && vertex >= 0 && vertex < len(c.numbers[contour]) {
		return c.numbers[contour][vertex]
	}
	return 0
}

// edge names an edge in the way in which it is cut: "12–13", "H3" for a hole.
func (c *cutSheet) edge(i int, back bool) string {
	e := &c.plan.Edges[i]
	if e.Whole || e.Corners[0] < 0 || e.Corners[1] < 0 {
		if n := e.Contour - len(c.part.Spec.Cutouts); n > 0 {
			return "H" + strconv.Itoa(n)
		}
		if e.Contour > 0 {
			return e.Hole
		}
		return "outline"
	}
	a, b := c.number(e.Contour, e.Corners[0]), c.number(e.Contour, e.Corners[1])
	if back {
		a, b = b, a
	}
	return fmt.Sprintf("%d–%d", a, b)
}

// most edges that a step lists: a blank with more is cut by machine.
const maxCutEdges = 150

// cuts lists a step's cuts in order, each run of one tool with its letter first.
func (c *cutSheet) cuts(st *cutting.Step) string {
	var out []string
	tool := cutting.None
	for i, x := range st.Cuts {
		if i == maxCutEdges {
			out = append(out, fmt.Sprintf("and %d more", len(st.Cuts)-i))
			break
		}
		t := c.edge(x.Edge, x.Back)
		if x.Through > 0 {
			t += held + "(" + strings.ReplaceAll(c.say(x.Through), " ", held) + held + "across)"
		} else if x.Tool == cutting.Shears {
			t = "with" + held + "it" + held + t
		}
		if x.Tool != tool || i == 0 {
			t = x.Tool.Letter() + held + t
			if st.Kind == cutting.NoTool {
				t = strings.TrimPrefix(t, "?"+held)
			}
			tool = x.Tool
		}
		out = append(out, t)
	}
	return strings.Join(out, ", ")
}

// stepTable are the steps in order.
func (c *cutSheet) stepTable(width float64) wrapTable {
	rest := width - 7 - 27 - 35
	t := wrapTable{class: "steps", title: "In this order", cols: []column{
		{"", 7, false, true}, {"What to do, and why", rest * 0.55, false, false}, {"Tool, from corner to corner", rest * 0.45, false, false}, {"Waste", 27, false, false}, {"Hold", 35, false, false}}}
	for i := range c.plan.Steps {
		st := &c.plan.Steps[i]
		do := fold.InUnits(st.Do, c.opt.Units)
		if st.Sizes != "" { // drills keep what is stamped on them
			do += " " + st.Sizes + "."
		}
		if st.Why != "" {
			do += " (" + capital(st.Why) + ".)"
		}
		t.add(strconv.Itoa(st.Number), do, c.where(st), capital(st.Waste), capital(st.Hold))
	}
	return t
}

// drillNames are "D1 to D8".
func (c *cutSheet) drillNames(list []int) string {
	if len(list) == 0 {
		return ""
	}
	var out []string
	for i := 0; i < len(list); {
		j := i
		for j+1 < len(list) && list[j+1] == list[j]+1 {
			j++
		}
		t := "D" + strconv.Itoa(list[i]+1)
		if j > i {
			t += " to D" + strconv.Itoa(list[j]+1)
		}
		out = append(out, t)
		i = j + 1
	}
	return strings.Join(out, ", ")
}

// drillFor says what a hole is drilled for, by the names of the marking-out sheet.
func (c *cutSheet) drillFor(b *cutting.Bore) string {
	hole := b.Hole
	if n, ok := strings.CutPrefix(hole, "hole "); ok {
		hole = "H" + n
	}
	corner := ""
	if b.Edge >= 0 {
		e := &c.plan.Edges[b.Edge]
		corner = strconv.Itoa(c.number(e.Contour, e.Corners[0]))
		if b.For == cutting.Corner {
			corner = c.edge(b.Edge, false)
		}
	}
	switch b.For {
	case cutting.Hole:
		return hole
	case cutting.Corner:
		return "round corner " + corner
	case cutting.Stop:
		if e := &c.plan.Edges[max(0, b.Edge)]; b.Edge >= 0 && !e.Arc && c.plan.Edges[e.Next].Turn < 0 { // at which end of a notch’s bottom it lies
			switch a, z := b.At.Sub(e.A).Len(), b.At.Sub(e.B).Len(); {
			case math.Abs(a-z) < 0.01:
				return "end " + c.edge(b.Edge, false)
			case z < a:
				corner = strconv.Itoa(c.number(e.Contour, e.Corners[1]))
			}
		}
		return "inside corner " + corner
	case cutting.Point:
		return "notch’s point " + corner
	}
	return "to begin " + hole
}

// drillTable is the drill list.
func (c *cutSheet) drillTable(width float64) wrapTable {
	t := wrapTable{class: "drills", title: "Centre-punch and drill list", cols: []column{
		{"No.", 11, false, true}, {"from A", 17, true, false}, {"from B", 17, true, false}, {"drill", 19, true, true}, {"first with", 18, true, false},
		{"for", 36, false, false}, {"when, and mind", width - 118, false, false}}}
	const first = 4
	small := slices.ContainsFunc(c.plan.Drills, func(b cutting.Bore) bool { return b.Pilot > 0 })
	if !small { // nothing would stand in that column
		t.cols[len(t.cols)-1].width += t.cols[first].width
		t.cols = slices.Delete(t.cols, first, first+1)
	}
	said := map[string]bool{}
	for i := range c.plan.Drills {
		b := &c.plan.Drills[i]
		when := b.When.String()
		why := b.Why
		if said[why] || b.For == cutting.Hole && b.Why == "the hole itself" {
			why = ""
		}
		said[b.Why] = true
		if why != "" {
			when += ". " + capital(fold.InUnits(strings.TrimPrefix(why, "the hole itself; "), c.opt.Units)) + "."
		}
		w := c.drillWords(i)
		cells := []string{w.No, w.A, w.B, w.Drill, w.First, w.For, capital(when)}
		if !small {
			cells = slices.Delete(cells, first, first+1)
		}
		t.add(cells...)
	}
	return t
}

// DrillWords is a drilled place as the cutting sheet prints it.
type DrillWords struct {
	No    string // in the drawing and the list
	A, B  string // from the edges A and B
	Drill string // as it is stamped
	First string // the smaller drill that goes before, "" for none
	For   string
}

// drillWords are the words of place i of the plan.
func (c *cutSheet) drillWords(i int) DrillWords {
	b := &c.plan.Drills[i]
	at := b.At.Sub(c.part.Blank.Box.Min)
	w := DrillWords{"D" + strconv.Itoa(i+1), c.say(at[0]), c.say(at[1]), b.Size, b.PilotAs, c.drillFor(b)}
	if b.Row {
		w.For += ", a row of holes about here"
	}
	return w
}

// CutWords are words of a cutting sheet, for who shows them beside it.
type CutWords struct {
	Where  []string // by step: which tool from corner to corner, or which drilled places
	Drills []DrillWords
}

// CuttingWords are the words that Cutting prints of the same part, plan and Options: steps and drilled places in the plan’s order, or in
// that of the other hand’s plan where Options ask for it.
func CuttingWords(p *fold.Part, rep *fold.Report, plan cutting.Plan, opt Options) (CutWords, error) {
	c, err := newCutSheet(p, rep, plan, opt)
	if err != nil {
		return CutWords{}, err
	}
	var out CutWords
	for i := range c.plan.Steps {
		out.Where = append(out.Where, strings.ReplaceAll(c.where(&c.plan.Steps[i]), held, " "))
	}
	for i := range c.plan.Drills {
		out.Drills = append(out.Drills, c.drillWords(i))
	}
	return out, nil
}

// where says which edges a step cuts, or which places it drills.
func (c *cutSheet) where(st *cutting.Step) string {
	if len(st.Drills) > 0 {
		return c.drillNames(st.Drills)
	}
	return c.cuts(st)
}

func capital(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// cautionWords belong to cutting, drilling and grinding.
func (c *cutSheet) cautionWords() string {
	t := "Cautions. "
	if m, known := c.part.MetalFacts(); known {
		for _, w := range m.Cautions {
			if !strings.Contains(w, "scribed line") && !strings.Contains(strings.ToLower(w), "weld") { // those are other sheets’
				t += w + " "
			}
		}
	}
	t += "Fresh-cut sheet has razor edges: wear gloves while handling it and deburr before bending; but none at the drill, which winds them in (common practice). " +
		"Shield eyes and face at shears, grinders and drills, and ears at grinders. "
	if slices.Contains(c.plan.Tools, cutting.Drill) {
		t += "Clamp the sheet for drilling: a drill that breaks through makes a propeller of it (common practice). "
	}
	if slices.Contains(c.plan.Tools, cutting.Shears) {
		t += "Keep fingers clear of the shears’ hold-down and blade. "
	}
	if slices.Contains(c.plan.Tools, cutting.Disc) {
		t += "Cut-off disc: guard on, sparks away from what burns, never grind with its side (common practice). "
	}
	return t + "Follow the machine’s manual, local codes, and a qualified person where one is required."
}
