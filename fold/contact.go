package fold

// This file finds clashes: solids of the part that come to lie in each other while a
// swing is made. solids.go makes the solids, search.go follows one pair through a swing.

import (
	"cmp"
	"fmt"
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
// points. Where the proof would take too many steps the pair is given as Undecided.
// Ordered by swing, fraction, and the bodies' names. The Part must be Foldable.
func (p *Part) Clashes() []Clash {
	if !p.Foldable || len(p.Swings) == 0 {
		return nil
	}
	var out []Clash
	s := newShapes(p)
	for i := range p.Swings {
		out = append(out, s.swingClashes(i)...)
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
func (p *Part) finishedOverlaps() []overlap {
	if !p.Foldable {
		return nil
	}
	s := newShapes(p)
	v := s.view(-1, 0)
	v.pose = p.Pose(p.Finished())
	var out []overlap
	bodies := p.bodies()
	for i, a := range bodies {
		for _, b := range bodies[i+1:] {
			if c, ok := v.apart(s.pair(a, b), -ClashDepth); ok {
				out = append(out, overlap{a, b, -c.D})
			}
		}
	}
	return out
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

// swingClashes finds the clashes of one swing.
func (s *shapes) swingClashes(swing int) []Clash {
	p := s.part
	sw := &p.Swings[swing]
	turning := make([]bool, len(p.Bends))
	for k, b := range sw.Bends {
		turning[b] = sw.From[k] != sw.To[k]
	}
	// The turning bends between each panel and the base, outermost first.
	routes := make([][]int, len(p.Panels))
	for _, k := range p.order {
		if b := p.Panels[k].Parent; b >= 0 {
			routes[k] = routes[p.Bends[b].A]
			if turning[b] {
				routes[k] = append(slices.Clone(routes[k]), b)
			}
		}
	}
	start := s.view(swing, 0)
	start.routes = routes
	var out []Clash
	for _, q := range start.candidates(turning) {
		a, b := q[0], q[1]
		if len(routes[p.carrier(b)]) > len(routes[p.carrier(a)]) {
			a, b = b, a // the one that swings first
		}
		if c, ok := start.follow(s.pair(a, b)); ok {
			c.Swing = swing
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b Clash) int {
		return cmp.Or(cmp.Compare(a.Fraction, b.Fraction),
			cmp.Compare(p.BodyName(a.A), p.BodyName(b.A)), cmp.Compare(p.BodyName(a.B), p.BodyName(b.B)))
	})
	return out
}

// candidates lists the pairs of solids that have a turning bend between them and may meet in the swing.
// Solids that hang together while it is made are first taken as one, in a tree of their boxes, so
// that parts of many bends don't take all pairs one by one.
func (v *view) candidates(turning []bool) [][2]Body {
	p := v.part
	type set struct {
		panel  int // any that goes with it
		bodies []Body
		boxes  []solid.Convex
		of     []Body // whose box it is
		tree   *solid.Placed
	}
	var sets []*set
	named := map[string]*set{}
	var out [][2]Body
	add := func(a, b Body) { // panels first, by index
		if b.Zone != a.Zone && a.Zone || a.Zone == b.Zone && b.Index < a.Index {
			a, b = b, a
		}
		out = append(out, [2]Body{a, b})
	}
	bodies := p.bodies()
	for _, b := range bodies {
		if b.Zone && turning[b.Index] {
			continue
		}
		key := fmt.Sprint(v.routes[p.carrier(b)])
		t := named[key]
		if t == nil {
			t = &set{panel: p.carrier(b)}
			named[key] = t
			sets = append(sets, t)
		}
		t.bodies = append(t.bodies, b)
		var whole *solid.Body
		if !b.Zone {
			whole = v.panels[b.Index]
		}
		for _, g := range v.groups(b, whole) {
			if !g.Empty() {
				t.boxes = append(t.boxes, g.Box())
				t.of = append(t.of, b)
			}
		}
	}
	for _, t := range sets {
		t.tree = solid.NewBody(t.boxes).Place(geom.Identity())
	}
	for i, x := range sets {
		for _, y := range sets[i+1:] {
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
	for k, on := range turning {
		if !on {
			continue
		}
		for _, b := range bodies {
			if z := (Body{true, k}); b != z && !(b.Zone && turning[b.Index] && b.Index < k) {
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
	return slices.Compact(out) // a part-bent zone has two boxes
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
