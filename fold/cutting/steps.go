package cutting

// This file puts the cuts in order. What lies inside comes before what lies outside, through cuts by shears before the
// notches, while the piece is still a full one to lay against the fence, and notches before the edges that hold their waste.

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// kindOf says in which step an edge is made. snipped: some notch is made by snips.
func (m *maker) kindOf(i int, snipped bool) Kind {
	e := &m.plan.Edges[i]
	if len(e.Tools) == 0 {
		return NoTool
	}
	switch t := e.Tools[0]; {
	case t == Drill && m.later[i]:
		return Later
	case t == Drill:
		return Bored
	case e.Contour > 0:
		return Inside
	case t == Shears:
		return Through
	case e.Arc && !e.Hollow() && (t == File || t == StraightSnips):
		return Round
	case m.bay[i] > 0 && t == File:
		return Square
	case m.bay[i] > 0 && !t.Snips() && snipped:
		return Relief
	case m.bay[i] > 0 && (e.Arc || m.inner(i, 0) || m.inner(i, 1)):
		return Notch
	}
	return Outer
}

// steps makes the steps, each edge in one of them.
func (m *maker) steps() {
	snipped := false
	for i := range m.plan.Edges {
		e := &m.plan.Edges[i]
		snipped = snipped || m.bay[i] > 0 && len(e.Tools) > 0 && e.Tools[0].Snips()
	}
	of := map[Kind][]Cut{}
	for _, l := range m.lines {
		for k, i := range l {
			c := Cut{Edge: i, Tool: Shears}
			if k == 0 {
				c.Through = m.length[i]
			}
			of[Through] = append(of[Through], c)
		}
	}
	order := make([]int, len(m.plan.Edges))
	for i := range order {
		order[i] = i
	}
	rank := func(i int) int { // in a bay the sides go before the bottom
		if m.bay[i] > 0 && m.inner(i, 0) && m.inner(i, 1) {
			return 1
		}
		return 0
	}
	geom.SortStable(order, func(i, j int) int {
		return cmp.Or(cmp.Compare(m.bay[i], m.bay[j]), cmp.Compare(rank(i), rank(j)))
	})
	for _, i := range order {
		k := m.kindOf(i, snipped)
		if k == Through {
			continue
		}
		c := Cut{Edge: i}
		if k != NoTool {
			c.Tool = m.plan.Edges[i].Tools[0]
			c.Back = m.back(i, c.Tool)
		}
		of[k] = append(of[k], c)
	}
	// Round the blank, from where the edges A and B meet.
	n, first := 0, 0
	for ; n < len(m.rims) && m.rims[n].Contour == 0; n++ {
		if a, b := m.rims[n].A, m.rims[first].A; a[0]+a[1] < b[0]+b[1] {
			first = n
		}
	}
	for _, k := range [...]Kind{Outer, Round} {
		geom.SortStable(of[k], func(a, b Cut) int { return cmp.Compare((a.Edge-first+n)%n, (b.Edge-first+n)%n) })
	}
	drills := map[Kind][]int{}
	for i := range m.plan.Drills {
		b := &m.plan.Drills[i]
		drills[Punch] = append(drills[Punch], i)
		if b.When != After {
			drills[Bored] = append(drills[Bored], i)
		}
		if b.When != Before {
			drills[Later] = append(drills[Later], i)
		}
	}
	for k := Piece; k <= NoTool; k++ {
		s := Step{Kind: k, Cuts: of[k], Drills: drills[k]}
		if len(s.Cuts)+len(s.Drills) == 0 && k != Piece && k != Burrs {
			continue
		}
		s.Number = len(m.plan.Steps) + 1
		for _, c := range s.Cuts {
			m.plan.Edges[c.Edge].Step = s.Number
			s.use(c.Tool)
		}
		if len(s.Drills) > 0 && k != Punch {
			s.use(Drill)
		}
		if k == Burrs {
			s.use(File)
		}
		if k != Punch {
			s.Sizes = m.sizesOf(s.Drills, k)
		}
		m.say(&s)
		for _, t := range s.Tools {
			if t != None && !slices.Contains(m.plan.Tools, t) {
				m.plan.Tools = append(m.plan.Tools, t)
			}
		}
		m.plan.Steps = append(m.plan.Steps, s)
	}
	slices.Sort(m.plan.Tools)
}

func (s *Step) use(t Tool) {
	if !slices.Contains(s.Tools, t) {
		s.Tools = append(s.Tools, t)
	}
}

// say puts a step into words.
func (m *maker) say(s *Step) {
	switch s.Kind {
	case Piece:
		box := m.part.Blank.Box.Size()
		two := [2]float64{min(m.plan.Piece[0], box[0]+pieceMore), min(m.plan.Piece[1], box[1]+pieceMore)}
		s.Do = fmt.Sprintf("Take a piece of sheet of at least %s by %s, and mark out with waste all round. Or one with two straight edges, square to each other, that are A and B: then %s by %s do, and what lies on A and B is cut already.",
			m.upTo(m.plan.Piece[0]), m.upTo(m.plan.Piece[1]), m.upTo(two[0]), m.upTo(two[1]))
		s.Why = "waste to hold by; it curls away in strips"
	case Punch:
		s.Do = "Centre-punch every place of the drill list: lightly, look at it, then firmly."
		s.Why = "a drill wanders off a mark that isn't punched"
		s.Hold = "the sheet flat on something solid"
	case Bored:
		s.Do = "Drill on a piece of wood."
		s.Why = "the whole sheet can be clamped, and cuts then end in a hole instead of running on"
		s.Hold = "clamp the sheet; a drill that breaks through grabs it"
		if m.anyOver(s.Drills, largeDrill) {
			s.Do += " Over " + mm(largeDrill) + " go up in steps: large drills tear thin sheet."
		}
	case Inside:
		s.Do = "Cut out the cutouts and the holes that are larger than your drills, from the holes that begin them."
		if slices.ContainsFunc(s.Cuts, func(c Cut) bool { return c.Tool == File && m.plan.Edges[c.Edge].Whole }) {
			s.Do += " Round holes marked F: a hole saw or step drill of the hole’s size; without one, file them out from the drilled hole (common practice, no source)."
		}
		s.Why = "the sheet round them is still whole and stiff"
		s.Waste = "inside the line"
		s.Hold = "the sheet, on both sides of the cutout"
	case Through:
		s.Do = "Shear right across, one line after the other, in this order."
		s.Why = "shears cut from edge to edge; the piece is still a full one to lay against the fence"
		s.Waste = "beyond the line: nothing of the blank lies there"
		s.Hold = "the blank's side, under the hold-down"
	case Relief:
		s.Do = "Cut the reliefs and slots in through the waste, before the notches are opened."
		s.Why = "the waste holds the blade straight, and the snips' cuts end in them"
		s.Waste = "inside the slot"
		s.Hold = "the blank beside it, close to the cut"
	case Notch:
		s.Do = "Cut the notches from the outside inwards: first both sides, then across."
		if m.plan.hasSnips(s) {
			s.Do += " Stop where the lines or holes meet: snips cut past by about " + mm(m.SnipsPast) + "."
		}
		s.Why = "each piece of waste stays on till its last cut; the long edges still stiffen the blank"
		if len(m.lines) > 0 {
			s.Why = "each piece of waste stays on till its last cut"
		}
		s.Waste = "inside the notch"
		s.Hold = "the blank, well away from the notch"
	case Outer:
		s.Do = "Cut the outside edges, one after the other round the blank."
		s.Why = "last, since their waste stiffened the blank till now; it comes off in strips"
		s.Waste = "outside the line"
		s.Hold = "the blank flat on the bench, the edge over its end"
	case Round:
		s.Do = "Round the outside corners: snip them off in short straight cuts, file to the line."
		if !m.snips {
			s.Do = "Round the outside corners with a file."
		}
		s.Why = "they need no waste to hold by"
		s.Waste = "outside the line"
		s.Hold = "the blank, near the corner, in soft jaws"
	case Square:
		s.Do = "File to their lines the short edges at reliefs and the ends of slots."
		s.Why = "snips’ tips and blades are too long for them"
		s.Waste = "inside the line"
		s.Hold = "the blank between two straight bars in the vice, the line level with them"
	case Burrs:
		s.Do = "File square the inside corners that were drilled, and take the burrs off every edge and hole, both faces."
		if !slices.ContainsFunc(m.plan.Drills, func(b Bore) bool { return b.For == Stop }) {
			s.Do = "Take the burrs off every edge and hole, both faces."
		}
		s.Why = "burrs cut hands, mark the good face and hold the sheet off the bed"
		s.Hold = "with gloves, flat on the bench"
	case Later:
		s.Do = "After bending: drill, or open to size, what the drill list says."
		s.Why = "so near to a bend the bend would draw the hole out of shape"
		s.Hold = "wood behind the hole; see first that the drill gets there once it is folded"
	case NoTool:
		s.Do = "None of your tools makes these edges: have them cut, change them, or say which other tools there are."
	}
	if i := slices.IndexFunc(s.Cuts, func(c Cut) bool { return c.Tool == Disc }); i >= 0 {
		s.Do += " With the cut-off disc stop short of inside corners: it cuts farther above than below."
	}
}

func (p *Plan) hasSnips(s *Step) bool {
	return slices.ContainsFunc(s.Tools, Tool.Snips)
}

func (m *maker) anyOver(drills []int, d float64) bool {
	return slices.ContainsFunc(drills, func(i int) bool { return m.plan.Drills[i].Diameter > d })
}

// sizesOf counts the drills of a step by their sizes, the smallest first, rows last: "3 mm (8), 2 rows of holes of 5 mm".
func (m *maker) sizesOf(drills []int, k Kind) string {
	type size struct {
		d   float64
		as  string
		row bool
		n   int
	}
	var list []size
	for _, i := range drills {
		b := &m.plan.Drills[i]
		d, as := b.Diameter, b.Size
		if k == Bored && b.When == Opened {
			d, as = b.Pilot, b.PilotAs
		}
		k := slices.IndexFunc(list, func(s size) bool { return s.as == as && s.row == b.Row })
		if k < 0 {
			k = len(list)
			list = append(list, size{d, as, b.Row, 0})
		}
		list[k].n++
	}
	geom.SortStable(list, func(a, b size) int { // rows last
		switch {
		case a.row == b.row:
			return cmp.Compare(a.d, b.d)
		case a.row:
			return 1
		}
		return -1
	})
	var out []string
	for _, s := range list {
		switch {
		case !s.row:
			out = append(out, s.as+" ("+strconv.Itoa(s.n)+")")
		case s.n == 1:
			out = append(out, "a row of holes of "+s.as)
		default:
			out = append(out, strconv.Itoa(s.n)+" rows of holes of "+s.as)
		}
	}
	return strings.Join(out, ", ")
}

// untold tells of edges that no tool makes where nothing else has.
func (m *maker) untold() {
	n, first := 0, -1
	for i := range m.plan.Edges {
		e := &m.plan.Edges[i]
		if len(e.Tools) > 0 {
			continue
		}
		if b, ok := m.known[i]; ok && b.cut.Rule != "" {
			continue
		}
		if w := m.window[e.Contour]; e.Contour > 0 && w != nil && w.Rule != "" {
			continue
		}
		if n++; first < 0 {
			first = i
		}
	}
	told := slices.ContainsFunc(m.plan.Problems, func(t fold.Trouble) bool { return t.Rule == "cut-no-tool" })
	if n == 0 || told {
		return
	}
	what := "the blank's edge has"
	if n > 1 {
		what = strconv.Itoa(n) + " edges of the blank have"
	}
	have := m.plan.Edges[first].Length
	m.plan.Problems = append(m.plan.Problems, fold.Trouble{Severity: fold.Stop, Rule: "cut-no-tool", At: m.plan.Edges[first].Mid, Have: &have, Message: strings.ToUpper(what[:1]) + what[1:] +
		" no tool that makes them. Say which tools there are, or have the blank cut."})
}

// upTo is a length in words, rounded up to what a tape shows: whole mm, or 1/8 in for parts in inches.
func (m *maker) upTo(x float64) string {
	step := 1.0
	if m.inch {
		step = 25.4 / 8
	}
	return strconv.FormatFloat(math.Round(math.Ceil(x/step-noise)*step*1000)/1000, 'f', -1, 64) + " mm"
}
