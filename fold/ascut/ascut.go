// Package ascut is the stop before the first bend: a short list of sizes to measure on the cut blank, how far each may be out, and what to do
// when one is: bend, trim, accept or cut again. It knows fold and the leaves.
//
// # The sizes
//
// At most MaxSizes, chosen so that together they catch the overall sizes, a wrong datum or a sheet that was not square (the two diagonals), a mirror image (a
// distance that differs by MirrorTold and more, however it is laid down; a blank that is its own mirror image has none), a wrong allowance
// (the widths that run across most deductions, both ways), and the edges that make the tightest seams.
//
// # The limits
//
// A size hangs on the straight edges at its two ends. Each is moved outward and inward, whole, and the seams that it makes are measured again,
// until one touches or opens past its limit (fold.JudgeSeams' figures), by search on the folded panels. The nearest of these is the size's limit that way, rounded
// inward to what a rule shows, or a calliper where a rule is too coarse. Diagonals take the lean of the whole blank. Where no seam speaks, the maker's own figure
// for cut edges holds, else ISO 2768-1.
//
// # The verdict
//
// The fewest edges, and the least moves of them, that make every measured size come out are taken for the blank as cut; edges at
// the left and below stay, for the marking began there, unless only they can be it. That blank is built anew and its seams are measured.
package ascut

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Size is a distance to measure on the cut blank. Lengths in mm.
type Size struct {
	No       int       // from 1
	From, To geom.Vec2 // on the blank
	What     string    // in words: "across, left end of front to right end of front"
	Want     float64
	// Low and High are the least and the largest that may be read, rounded inward to Step.
	Low, High float64
	Step      float64
	Calliper  bool   // a rule is too coarse
	Square    bool   // measured square across from edge to edge; else between two corners or marks
	Void      string // the hole or cutout that it tells of: "hole H1"; "" of edges
	Opening   bool   // there is no metal between the two: too large means that metal is missing
	Catches   []string
	// Where the limits come from: fold.SeamReport's kinds, "the seam" where one touches, "the swing"; in short; and the source of the figure in
	// that, "" where it says all.
	LowKind, LowFrom, LowSource    string
	HighKind, HighFrom, HighSource string
	// Edges are those that a size tells of, by name: first the one that is taken to be out where the size alone is.
	Edges       []string
	Ends        [2][]geom.Vec2 // the outline's corners that it is measured at: one, or the two of an edge; none at a hole or a bend line
	Short, Long []Does         // what it does where the size is too small, and where it is too large

	work *movable
	cand candidate
	// The least and the largest before rounding.
	least, most float64
	// Whether no seam, but what holds for any size, sets them.
	lowGeneral, highGeneral bool
}

// Does is what becomes of a seam for a mm that a size is out.
type Does struct {
	Seam  string
	Opens bool    // else it closes
	By    float64 // mm
}

// In is the size with its limits rounded for a rule in other units.
func (s Size) In(u fold.Units) Size { return s.ByRule(u, 0) }

// ByRule is the size with its limits rounded for a rule that shows so much (mm), 0 for what rules show.
func (s Size) ByRule(u fold.Units, rule float64) Size {
	s.round(u, rule)
	return s
}

// ByRule is the list for a rule that shows so much (mm), 0 for what rules show.
func (l *List) ByRule(u fold.Units, rule float64) *List {
	out := *l
	out.Sizes = nil
	for _, s := range l.Sizes {
		out.Sizes = append(out.Sizes, s.ByRule(u, rule))
	}
	return &out
}

// List is what to measure, and what there is to say of it.
type List struct {
	Sizes []Size
	// Own: the blank is its own mirror image, so that no size can tell one, and none need.
	Own   bool
	Notes []string
	work  *movable
	plays map[int]play
}

// Sizes chooses what to measure on the part's blank; r is its report, by Check or Quick. A part that can't be folded has none.
func Sizes(p *fold.Part, r *fold.Report) []Size { return Look(p, r).Sizes }

// Look is Sizes with what there is to say of them.
func Look(p *fold.Part, r *fold.Report) *List {
	l := &List{}
	if !p.Foldable || len(p.Panels) == 0 {
		l.Notes = append(l.Notes, "The part can't be folded as it is, so nothing is to be measured on its blank.")
		return l
	}
	h := &chooser{movable: newMovable(p, r), plays: map[int]play{}}
	l.work, l.plays = h.movable, h.plays
	h.nameCuts()
	h.longest()
	h.overall(0)
	h.overall(1)
	h.width(0)
	h.width(1)
	h.diagonals()
	h.seamCuts()
	own, all := h.mirror()
	l.Own = own
	h.voids()
	switch {
	case own:
		l.Notes = append(l.Notes, "The blank is its own mirror image: it can't be marked from the wrong face, and no size is needed to tell.")
	case !all:
		l.Notes = append(l.Notes, "No distance tells this blank from its mirror image well enough: write on the sheet which face is up before it is cut.")
	}
	for i := range h.out {
		l.Sizes = append(l.Sizes, h.size(i+1, &h.out[i], own))
	}
	if len(l.Sizes) == 0 {
		l.Notes = append(l.Notes, "The blank has no two corners or edges that a rule can be held against.")
	}
	return l
}

// size is a candidate as a Size.
func (h *chooser) size(no int, c *candidate, own bool) Size {
	s := Size{No: no, From: c.x.at, To: c.y.at, Want: c.want, Opening: c.opening, Square: c.x.kind == atEdge && c.y.kind == atEdge, work: h.movable, cand: *c}
	var low, high limit
	if c.use == forDiagonal {
		h.leanLimits(c, &low, &high)
	} else {
		for cut := range h.cuts {
			by := c.by[cut]
			if math.Abs(by) < tells {
				continue
			}
			p := h.playOf(cut)
			more, less := p.out, p.in // of the size, where by is positive
			if by < 0 {
				more, less = less, more
			}
			if more.set {
				high.tighten(more.mm*math.Abs(by), more.kind, more.from, more.source)
			}
			if less.set {
				low.tighten(less.mm*math.Abs(by), less.kind, less.from, less.source)
			}
		}
	}
	plus, kind, from := generalPlus(&h.part.Spec, c.want)
	for k, l := range []*limit{&low, &high} {
		if !l.set || l.kind == "the swing" && l.mm > plus { // room in a swing is no leave to be out by as much
			*l = limit{plus, kind, from, "", true}
			*[]*bool{&s.lowGeneral, &s.highGeneral}[k] = true
		}
	}
	s.LowKind, s.LowFrom, s.LowSource = low.kind, low.from, low.source
	s.HighKind, s.HighFrom, s.HighSource = high.kind, high.from, high.source
	s.least, s.most = c.want-low.mm, c.want+high.mm
	if c.use == forVoid {
		s.Void = h.voidName(c.y)
	}
	s.round(h.part.Spec.Units, 0)
	s.What = h.what(c)
	s.Catches = h.catches(c, own)
	s.Short, s.Long = h.does(c, -1), h.does(c, 1)
	s.Edges = h.edges(c)
	for k, x := range []spot{c.x, c.y} {
		switch x.kind {
		case atCorner:
			s.Ends[k] = []geom.Vec2{h.at[x.index]}
		case atEdge:
			s.Ends[k] = []geom.Vec2{h.cuts[x.index].Ends[0], h.cuts[x.index].Ends[1]}
		}
	}
	return s
}

// round takes the limits inward to the coarsest step that leaves more than half of the room on each side of what is wanted.
func (s *Size) round(u fold.Units, rule float64) {
	steps := []float64{ruleStep, calliperStep, fineStep}
	if u == fold.Inch {
		steps = []float64{ruleInch, calliperInch, fineInch}
	}
	if rule > 0 {
		steps[0] = rule
	}
	for i, step := range steps {
		if i > 0 && step >= steps[0]*(1-1e-9) { // the maker's own rule is as fine
			continue
		}
		s.Step, s.Calliper = step, i > 0
		s.Low, s.High = math.Ceil(s.least/step-1e-9)*step, math.Floor(s.most/step+1e-9)*step
		half := s.Low-s.least <= (s.Want-s.least)/2 && s.most-s.High <= (s.most-s.Want)/2 || step <= calliperStep*1.5 // 0.1 mm is near enough to the limit
		if half && s.Low <= s.Want && s.Want <= s.High && s.High-s.Low >= step*(1-1e-9) {
			return
		}
	}
	// No room on one side: what is wanted is the limit there, to within what a calliper shows.
	s.Low, s.High = min(s.Low, s.Want), max(s.High, s.Want)
}

// leanLimits finds how far a diagonal may be out by the blank's lean before a seam reaches its limit.
func (h *chooser) leanLimits(c *candidate, low, high *limit) {
	if c.lean == 0 {
		return
	}
	for _, way := range []float64{-1, 1} {
		l := h.leanOf(way * math.Copysign(1, c.lean))
		if !l.set {
			continue
		}
		l.mm *= math.Abs(c.lean)
		if way < 0 {
			*low = l
		} else {
			*high = l
		}
	}
}
