// Package cutting says how a blank is cut by hand with the maker's own tools: which tool makes which edge, on which side
// of it the waste lies, what is drilled and when, and in what order, so that there is always something to hold.
//
// What a tool can and can't make is known by fold/shape (CheckCut); this package makes a plan of it. cutting.go has the
// plan's types, reach.go the tools of each edge, through.go what shears cut right across, drills.go the drill list,
// steps.go the order, struck.go lines that were scribed by mistake.
package cutting

import (
	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// Tool is a kind of tool.
type Tool int

// Tools. None makes nothing.
const (
	None          Tool = iota
	Shears             // or guillotine: right across what is left of the sheet
	LeftSnips          // the waste on the left of the way they go, or a curve to the left
	RightSnips         // the same to the right
	StraightSnips      // straight cuts with the waste on either side
	Nibbler
	Saw
	Disc // cut-off disc
	Drill
	File
)

var toolNames = [...]struct{ letter, name, words string }{
	None:          {"?", "no tool", "none of your tools makes it"},
	Shears:        {"S", "shears", "right across, from edge to edge of what is left of the sheet"},
	LeftSnips:     {"L", "left-hand snips", "the waste on your left as you cut, or a curve to the left (common practice, no source)"},
	RightSnips:    {"R", "right-hand snips", "the waste on your right as you cut, or a curve to the right (common practice, no source)"},
	StraightSnips: {"T", "straight snips", "straight edges, the waste on either side"},
	Nibbler:       {"N", "nibbler", "beside the line, in the waste"},
	Saw:           {"W", "saw", "beside the line, in the waste"},
	Disc:          {"C", "cut-off disc", "beside the line, in the waste; it cuts farther above than below: stop short of inside corners"},
	Drill:         {"D", "drill", "the hole itself is the edge"},
	File:          {"F", "file", "to the line"},
}

// Letter is the tool's code in a drawing: one letter.
func (t Tool) Letter() string { return toolNames[t].letter }

// String is the tool's name.
func (t Tool) String() string { return toolNames[t].name }

// Words say how the tool is used.
func (t Tool) Words() string { return toolNames[t].words }

// Snips reports that it is one of the three.
func (t Tool) Snips() bool { return t == LeftSnips || t == RightSnips || t == StraightSnips }

// Edge is one straight or round piece of the blank's edge. The metal lies on the left of the way from A to B.
type Edge struct {
	shape.Rim
	Corners [2]int // the contour's vertices at A and B as the file counts them, from 0; -1 for a round hole
	Length  float64
	Mid     geom.Vec2
	Out     geom.Vec2 // unit direction into the waste at Mid
	Tools   []Tool    // that can make it, best first; none where no tool does
	Step    int       // the number of the step that makes it
}

// Cut is one edge being cut.
type Cut struct {
	Edge    int
	Tool    Tool
	Back    bool    // from the edge's B to its A
	Through float64 // of shears: how long the cut is, right across what is left of the sheet, mm; 0: done with the cut before, in one line with it
}

// Kind is what is done in a step.
type Kind int

// Kinds of steps, in the order in which they are done.
const (
	Piece   Kind = iota // a piece of sheet to begin with
	Punch               // centre-punch
	Bored               // drill
	Inside              // cutouts and holes that are not drilled
	Through             // with shears, right across
	Relief              // narrow slots and bottoms of notches that snips don't reach
	Notch               // notches from the outside
	Outer               // outside edges that shears didn't cut
	Round               // outside corners that are rounded
	Square              // what is filed to its line
	Burrs               // burrs off
	Later               // drilled after bending
	NoTool              // what no tool makes
)

var kindNames = [...]string{"begin with", "centre-punch", "drill", "cut out the inside", "shear across", "reliefs and slots", "notches", "outside edges", "round the corners", "file to the line", "take the burrs off", "after bending", "no tool"}

// String is what is done, in a word or two.
func (k Kind) String() string { return kindNames[k] }

// Step is one of the numbered steps. Words have lengths in mm (fold.InUnits).
type Step struct {
	Number int // from 1
	Kind   Kind
	Tools  []Tool
	Cuts   []Cut // in order
	Drills []int // of Plan.Drills
	Do     string
	Sizes  string // of Drills, as they are stamped: "3 mm (8), 1/4 in (2)"
	Why    string
	Waste  string // which side is waste; "" where there is none
	Hold   string // what to hold
}

// When a hole is drilled.
type When int

// Before bending; after it; or small before, and opened to its size after.
const (
	Before When = iota
	After
	Opened
)

var whenNames = [...]string{"before bending", "after bending", "small before bending, opened after"}

// String says it in words.
func (w When) String() string { return whenNames[w] }

// For is what a hole is drilled for.
type For int

// What holes are drilled for.
const (
	Hole   For = iota // the hole itself
	Corner            // a round inside corner or relief: the drill makes the edge
	Stop              // a sharp inside corner: in the waste, so that cuts end in it
	Point             // through the point of a sharp notch
	Start             // to begin a cutout or large hole from
)

// Bore is one place to drill.
type Bore struct {
	At       geom.Vec2 // on the blank, mm
	Diameter float64   // of the drill, mm
	Size     string    // the same as it is stamped: "3 mm", "1/8 in"
	For      For
	Hole     string // the hole's or cutout's name; "" at the outline
	Edge     int    // of Plan.Edges: the edge that it makes, begins or ends at
	Row      bool   // a row of such holes about At
	When     When
	Pilot    float64 // drilled first, mm; 0: none. With Opened, what is drilled before bending
	PilotAs  string  // as Size
	Why      string
}

// Plan is how a blank is cut.
type Plan struct {
	Edges    []Edge
	Steps    []Step
	Drills   []Bore
	Tools    []Tool     // that the steps use, for a legend
	Piece    [2]float64 // the least piece of sheet to begin with, along the file's x and y, mm
	Struck   []StruckLine
	Problems []fold.Trouble // stop and watch, and notes on drills; stable order
	Inch     bool           // drills are named in inches
	Own      sizes.Tools    // the tools as Make was given them
}

// Make makes the plan of a part's blank. A blank that can't be read to an outline gives an empty plan.
func Make(p *fold.Part, tools sizes.Tools) Plan {
	if len(p.Outline) < 3 {
		return Plan{}
	}
	m := &maker{part: p, inch: p.Spec.Units == fold.Inch, rims: shape.Rims(p)}
	if len(m.rims) == 0 {
		return Plan{}
	}
	m.cuts = shape.CheckCut(p, tools)
	m.Tools = tools.Filled(m.inch)
	m.snips = !m.NoSnips && p.Thickness <= m.SnipsThick*(1+noise)
	m.plan.Inch, m.plan.Own = m.inch, tools
	m.plan.Problems = append(shape.CutTroubles(m.cuts), shape.FitsSheet(p)...)
	m.edges()
	m.bays()
	m.through()
	for i := range m.plan.Edges {
		m.reach(i)
	}
	m.drills()
	m.untold()
	m.steps()
	m.struck()
	return m.plan
}

// maker is what making one plan needs.
type maker struct {
	sizes.Tools
	part  *fold.Part
	inch  bool
	snips bool // owned, and the sheet isn't too thick for them
	rims  []shape.Rim
	cuts  []shape.Cut
	at    map[[2]int]int // contour and index -> edge
	later map[int]bool   // edges that get their size after bending
	bay   []int          // of each edge: the number of its bay in the outline from 1, 0 for none
	across
	plan Plan
}

// edges fills in the edges but for their tools.
func (m *maker) edges() {
	s := &m.part.Spec
	k := s.Units.Scale()
	contours := append([]fold.Contour{s.Outline}, s.Cutouts...)
	vertex := map[[3]float64]int{} // contour and place -> vertex
	for c := range contours {
		for i := len(contours[c]) - 1; i >= 0; i-- { // of two at one place the first
			at := contours[c][i].At.Mul(k)
			vertex[[3]float64{float64(c), at[0], at[1]}] = i
		}
	}
	find := func(c int, at geom.Vec2) int {
		if i, ok := vertex[[3]float64{float64(c), at[0], at[1]}]; ok {
			return i
		}
		return -1
	}
	m.at = map[[2]int]int{}
	for i := range m.rims {
		r := &m.rims[i]
		e := Edge{Rim: *r, Corners: [2]int{find(r.Contour, r.A), find(r.Contour, r.B)}, Length: r.Length(), Mid: r.Mid()}
		e.Out = geom.Perp(r.Way(e.Mid)).Mul(-1)
		m.at[[2]int{r.Contour, r.Index}] = i
		m.plan.Edges = append(m.plan.Edges, e)
	}
}

// edgeOf is the edge that a cut names; -1 where there is none.
func (m *maker) edgeOf(contour, index int) int {
	if i, ok := m.at[[2]int{contour, index}]; ok {
		return i
	}
	return -1
}

// inner reports that the edge's end, 0 at A and 1 at B, lies in an inside corner or at a hollow round, or that one is
// hardly farther on than that, as where a notch's side ends at a relief's mouth: cuts run towards it.
func (m *maker) inner(i, end int) bool {
	e := &m.rims[i]
	if e.Whole || e.Across > 0 {
		return false
	}
	reach := min(innerNear, e.Length()/2)
	if end == 0 {
		for gone := 0.0; gone <= reach; {
			f := &m.rims[e.Prev]
			if e.Turn < -shape.StraightOn || f.Hollow() {
				return true
			}
			gone += f.Length()
			e = f
		}
		return false
	}
	for gone := 0.0; gone <= reach; {
		f := &m.rims[e.Next]
		if f.Turn < -shape.StraightOn || f.Hollow() {
			return true
		}
		gone += f.Length()
		e = f
	}
	return false
}

// bays numbers the hollows of the outline: runs of edges between such as lie on its outside, with an inside corner in them.
func (m *maker) bays() {
	m.bay = make([]int, len(m.rims))
	n := 0
	for n < len(m.rims) && m.rims[n].Contour == 0 {
		n++
	}
	if n == 0 {
		return
	}
	first := -1
	for i := range n {
		if m.rims[i].Across > 0 {
			first = i
			break
		}
	}
	hollow := func(i int) bool { return m.rims[i].Hollow() || m.rims[i].Turn < -shape.StraightOn }
	mark := func(run []int, bay int) bool {
		for _, i := range run {
			if hollow(i) {
				for _, i := range run {
					m.bay[i] = bay
				}
				return true
			}
		}
		return false
	}
	var run []int
	if first < 0 { // nothing of it lies straight on its outside
		for i := range n {
			run = append(run, i)
		}
		mark(run, 1)
		return
	}
	bay := 1
	for k := 1; k <= n; k++ {
		i := (first + k) % n
		if m.rims[i].Across > 0 {
			if mark(run, bay) {
				bay++
			}
			run = run[:0]
			continue
		}
		run = append(run, i)
	}
}
