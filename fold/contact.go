package fold

// This file finds clashes: solids of the part that come to lie in each other while a
// swing is made. solids.go makes the solids, view.go moves them, search.go follows
// one pair through a swing.

import (
	"cmp"
	"slices"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// Clashes finds, for every swing, the pairs of solids that overlap by more than
// ClashDepth anywhere in it, and where they first touch: the last angle before the clash at
// which they do not overlap. Tested are all pairs with a turning bend between them in the tree, a zone's
// own bend counting as one; exempt is a panel against the zones of its own bends, as far as
// it lies behind the tangent plane they share. Pairs that overlap already when a swing starts
// belong to an earlier one, unless they part and meet again.
//
// No thin part is jumped over: every step is proved free by the speed of the moving
// points. Where the proof would take too much work the pair is given as Undecided, and where
// a whole swing would, the first pair that is left, with Rest set.
// Ordered by swing, fraction, and the bodies' names. The Part must be Foldable.
func (p *Part) Clashes() []Clash {
	if !p.Foldable {
		return nil
	}
	return newShapes(p).clashes()
}

func (s *shapes) clashes() []Clash {
	var out []Clash
	s.work = 0
	for i := range s.part.Swings {
		// One hard swing leaves the others half of what there is.
		out = append(out, s.swingClashes(i, s.work+(checkWork-s.work)/2)...)
	}
	return out
}

// overlap is a pair of solids that lie in each other.
type overlap struct {
	a, b  Body
	depth float64
}

// finishedOverlaps lists the pairs of solids, but the exempt ones, that overlap by more than
// ClashDepth in the finished part.
func (s *shapes) finishedOverlaps() []overlap {
	p := s.part
	v := s.still(p.Pose(p.Finished())).at(0)
	var out []overlap
	bodies := p.bodies()
	boxes, of := v.boxes(bodies)
	whole := solid.NewBody(boxes).Place(geom.Identity())
	near := map[[2]Body]bool{}
	solid.Overlaps(whole, whole, 0, func(i, j int, _ float64) { near[[2]Body{of[i], of[j]}] = true })
	for i, a := range bodies {
		for _, b := range bodies[i+1:] {
			if !near[[2]Body{a, b}] {
				continue
			}
			if c, ok := v.apart(s.pair(a, b), -ClashDepth); ok {
				out = append(out, overlap{a, b, -c.D})
			}
		}
	}
	return out
}

// boxes are boxes round solids, in space, and whose each is.
func (v *view) boxes(bodies []Body) (boxes []solid.Convex, of []Body) {
	for _, b := range bodies {
		var whole *solid.Body
		if !b.Zone {
			whole = v.panels[b.Index]
		}
		for _, g := range v.groups(b, whole) {
			if !g.Empty() {
				boxes = append(boxes, g.Box())
				of = append(of, b)
			}
		}
	}
	return boxes, of
}

// bodies lists all solids: panels, then zones.
func (p *Part) bodies() []Body {
	var out []Body
	for i := range p.Panels {
		out = append(out, Body{false, i})
	}
	for i := range p.Bends {
		out = append(out, Body{true, i})
	}
	return out
}

// swingClashes finds the clashes of one swing, as long as no more than limit is worked.
func (s *shapes) swingClashes(swing, limit int) []Clash {
	p := s.part
	c := s.course(swing)
	c.limit = limit
	if len(c.bends) == 0 {
		return nil
	}
	start := c.at(0)
	var out []Clash
	pairs, all := start.candidates()
	for _, q := range pairs {
		a, b := q[0], q[1]
		if len(c.routes[p.carrier(b)]) > len(c.routes[p.carrier(a)]) {
			a, b = b, a // the one that swings first
		}
		if c.spent() || !all {
			out = append(out, Clash{Swing: swing, A: a, B: b, Angle: p.Swings[swing].From[0], Undecided: true, Rest: true})
			break
		}
		if f, ok := start.follow(s.pair(a, b)); ok {
			f.Swing = swing
			f.Angle = p.Swings[swing].angle(f.Fraction)
			out = append(out, f)
		}
	}
	slices.SortStableFunc(out, func(a, b Clash) int {
		return cmp.Or(cmp.Compare(a.Fraction, b.Fraction),
			cmp.Compare(p.BodyName(a.A), p.BodyName(b.A)), cmp.Compare(p.BodyName(a.B), p.BodyName(b.B)))
	})
	return out
}

// angle is the first listed bend's at a fraction of the swing.
func (sw *Swing) angle(f float64) geom.Angle {
	return sw.From[0] + geom.Angle(f)*(sw.To[0]-sw.From[0])
}

// candidates lists the pairs of solids that have a turning bend between them and may meet in the swing.
// Solids that hang together while it is made are first taken as one, in a tree of their boxes, so
// that parts of many bends don't take all pairs one by one. all is false where there are too many to list.
func (v *view) candidates() (out [][2]Body, all bool) {
	p := v.part
	type set struct {
		panel  int // any that goes with it
		bodies []Body
		of     []Body // whose box a piece of tree is
		tree   *solid.Placed
	}
	var sets []*set
	by := map[int]*set{}     // by the last bend of its route
	add := func(a, b Body) { // panels first, by index
		if b.Zone != a.Zone && a.Zone || a.Zone == b.Zone && b.Index < a.Index {
			a, b = b, a
		}
		v.work++
		out = append(out, [2]Body{a, b})
	}
	turning := func(b Body) bool { return b.Zone && v.place[b.Index] >= 0 }
	bodies := p.bodies()
	for _, b := range bodies {
		if turning(b) {
			continue
		}
		last := -1
		if r := v.routes[p.carrier(b)]; len(r) > 0 {
			last = r[len(r)-1]
		}
		t := by[last]
		if t == nil {
			t = &set{panel: p.carrier(b)}
			by[last] = t
			sets = append(sets, t)
		}
		t.bodies = append(t.bodies, b)
	}
	for _, t := range sets {
		var boxes []solid.Convex
		boxes, t.of = v.boxes(t.bodies)
		t.tree = solid.NewBody(boxes).Place(geom.Identity())
	}
	for i, x := range sets {
		for _, y := range sets[i+1:] {
			if v.spent() {
				return out, false
			}
			m := v.motion(group{panel: x.panel, zone: -1}, group{panel: y.panel, zone: -1})
			if len(m.Turns) == 1 {
				solid.Meet(x.tree, y.tree, &m, ClashDepth, func(k, l int) { add(x.of[k], y.of[l]) })
				continue
			}
			for _, a := range x.bodies {
				for _, b := range y.bodies {
					add(a, b)
				}
			}
		}
	}
	for _, k := range v.bends {
		for _, b := range bodies {
			if z := (Body{true, k}); b != z && !(turning(b) && b.Index < k) {
				add(b, z)
			}
		}
	}
	order := func(a, b Body) int {
		if a.Zone != b.Zone {
			if b.Zone {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.Index, b.Index)
	}
	slices.SortFunc(out, func(a, b [2]Body) int { return cmp.Or(order(a[0], b[0]), order(a[1], b[1])) })
	return slices.Compact(out), true // a part-bent zone has two boxes
}

// carrier is the panel that a solid hangs on: a zone's is the one that swings.
func (p *Part) carrier(b Body) int {
	if b.Zone {
		return p.Bends[b.Index].B
	}
	return b.Index
}

// pair is two solids to be tested, with the part of a panel that is, where the other is a
// zone of its own bend.
type pair struct {
	a, b   Body
	pa, pb *solid.Body // what stands for a panel; nil for a zone
}

// pair makes a pair of solids ready. An exempt pair has an empty body.
func (s *shapes) pair(a, b Body) pair {
	q := pair{a: a, b: b}
	if !a.Zone {
		q.pa = s.panels[a.Index]
	}
	if !b.Zone {
		q.pb = s.panels[b.Index]
	}
	if a.Zone == b.Zone {
		return q
	}
	if a.Zone {
		q.pb = s.beyond(b.Index, a.Index, q.pb)
	} else {
		q.pa = s.beyond(a.Index, b.Index, q.pa)
	}
	return q
}

// beyond is what is left of a panel when the part behind the tangent plane that it
// shares with a bend's zone is taken away: all of it where they share none.
func (s *shapes) beyond(panel, bend int, whole *solid.Body) *solid.Body {
	b := &s.part.Bends[bend]
	n, at := b.N, b.N.Dot(b.Q)
	switch panel {
	case b.A:
	case b.B:
		n, at = n.Mul(-1), -(at + b.Allowance)
	default:
		return whole
	}
	var left []geom.Loop
	for _, l := range s.part.Panels[panel].Pieces {
		if l = solid.Clip(l, n, at+Weld); l != nil {
			left = append(left, l)
		}
	}
	return prisms(left, s.part.Thickness)
}
