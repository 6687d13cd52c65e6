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
// a whole swing would, or more than maxClashes are found, the first pair that is left, with Rest set.
// Ordered by swing, fraction, and the bodies' names. The Part must be Foldable.
func (p *Part) Clashes() []Clash {
	if !p.Foldable {
		return nil
	}
	return newShapes(p).clashes()
}

func (s *shapes) clashes() []Clash {
	var out []Clash
	for i := range s.part.Swings {
		// One hard swing leaves the others half of what there is.
		out = append(out, s.swingClashes(i, s.work+(checkWork-s.work)/2, maxClashes-len(out))...)
	}
	return out
}

// overlap is a pair of solids that lie in each other.
type overlap struct {
	a, b  Body
	depth float64
}

// finishedOverlaps lists the pairs of solids, but the exempt ones, that overlap by more than
// ClashDepth in the finished part; all is false where there are more than maxClashes.
func (s *shapes) finishedOverlaps() (out []overlap, all bool) {
	p := s.part
	v := s.still(p.Pose(p.Finished())).at(0)
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
				if len(out) == maxClashes {
					return out, false
				}
				out = append(out, overlap{a, b, -c.D})
			}
		}
	}
	return out, true
}

// bodies lists all solids: panels, then zones.
func (p *Part) bodies() []Body {
	out := make([]Body, 0, len(p.Panels)+len(p.Bends))
	for i := range p.Panels {
		out = append(out, Body{false, i})
	}
	for i := range p.Bends {
		out = append(out, Body{true, i})
	}
	return out
}

// swingClashes finds the clashes of one swing, up to most, as long as no more than limit is worked.
func (s *shapes) swingClashes(swing, limit, most int) []Clash {
	out := s.courseClashes(swing, limit, most, false)
	p := s.part
	if sw := &p.Swings[swing]; sw.Out < 1 {
		s.deeper(out, sw, swing, limit)
		for _, c := range s.courseClashes(swing, limit, most-len(out), true) {
			if !slices.ContainsFunc(out, func(x Clash) bool { return x.A == c.A && x.B == c.B }) {
				out = append(out, c)
			}
		}
		s.onlyOverbent(out, swing, limit)
	}
	geom.SortStable(out, func(a, b Clash) int {
		if a.Rest != b.Rest {
			if b.Rest {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(a.Fraction, b.Fraction),
			cmp.Compare(p.BodyName(a.A), p.BodyName(b.A)), cmp.Compare(p.BodyName(a.B), p.BodyName(b.B)))
	})
	return out
}

// onlyOverbent marks the clashes that would not be if the leaf stopped at the bends' own angles: while the leaf goes
// further the sheet lies tighter round the nose, so that they may begin a little before.
func (s *shapes) onlyOverbent(clashes []Clash, swing, limit int) {
	asked := func(c *Clash) bool { return !c.AtEnd && !c.Undecided && !c.Overbend }
	if !slices.ContainsFunc(clashes, func(c Clash) bool { return asked(&c) }) {
		return
	}
	q := *s.part
	q.Bends = slices.Clone(q.Bends)
	for i := range q.Bends {
		q.Bends[i].Set, q.Bends[i].Work = q.Bends[i].Angle, q.Bends[i].Rho
	}
	q.Swings = q.makeSwings()
	plain := newShapes(&q)
	found := plain.swingClashes(swing, limit, maxClashes)
	for i := range clashes {
		c := &clashes[i]
		if asked(c) && !slices.ContainsFunc(found, func(x Clash) bool { return x.Rest || x.A == c.A && x.B == c.B }) {
			c.Overbend = true
		}
	}
}

// deeper looks whether pairs that clash on the leaf's way out lie deeper in each other on its way back.
func (s *shapes) deeper(clashes []Clash, sw *Swing, swing, limit int) {
	if len(clashes) == 0 {
		return
	}
	c := s.course(swing, true)
	c.limit = limit
	if len(c.bends) == 0 {
		return
	}
	for i := range clashes {
		k := &clashes[i]
		if k.Undecided {
			continue
		}
		if d, at := c.at(0).deepest(s.pair(k.A, k.B), 0); d > k.Depth {
			k.Depth, k.DepthAt = d, sw.part(at, true)
		}
	}
}

// courseClashes finds those on the leaf's way out, or on its way back.
func (s *shapes) courseClashes(swing, limit, most int, back bool) []Clash {
	p := s.part
	c := s.course(swing, back)
	c.limit = limit
	if len(c.bends) == 0 {
		return nil
	}
	sw := &p.Swings[swing]
	start := c.at(0)
	var out []Clash
	var pairs []candidate
	all := false
	if most > 0 {
		pairs, all = start.candidates(-ClashDepth)
	}
	if len(pairs) == 0 && !all {
		b := &p.Bends[c.bends[0]]
		pairs = []candidate{{Body{false, b.A}, Body{false, b.B}, 0}}
	}
	for _, q := range pairs {
		a, b := q.a, q.b
		if len(c.routes[p.carrier(b)]) > len(c.routes[p.carrier(a)]) {
			a, b = b, a // the one that swings first
		}
		if c.spent() || !all || len(out) >= most {
			out = append(out, Clash{Swing: swing, A: a, B: b, Angle: p.Swings[swing].From[0], Undecided: true, Rest: true})
			break
		}
		if f, ok := start.follow(s.pair(a, b), q.from); ok {
			f.Swing = swing
			f.Fraction, f.DepthAt = sw.part(f.Fraction, back), sw.part(f.DepthAt, back)
			f.Angle = sw.Leaf(0, f.Fraction)
			out = append(out, f)
		}
	}
	return out
}

// part is the fraction of the whole swing at a fraction of the leaf's way out, or back.
func (sw *Swing) part(f float64, back bool) float64 {
	if back {
		return sw.Out + f*(1-sw.Out)
	}
	return f * sw.Out
}

// over is the fraction of the leaf's way from which on every bend is past its angle; 2 where none goes past.
func (sw *Swing) over(back bool) float64 {
	if back {
		return 0
	}
	if sw.Out == 1 {
		return 2
	}
	f := 0.0
	for k := range sw.Bends {
		if way := sw.Set[k] - sw.From[k]; way > 0 {
			f = max(f, float64((sw.To[k]-sw.From[k])/way))
		}
	}
	return f
}

// Leaf is the angle to which the swing's bend k is bent at a fraction of the swing.
func (sw *Swing) Leaf(k int, f float64) geom.Angle {
	switch {
	case f >= 1:
		return sw.To[k]
	case f > sw.Out:
		return sw.Set[k] - geom.Angle((f-sw.Out)/(1-sw.Out))*(sw.Set[k]-sw.To[k])
	}
	return sw.From[k] + geom.Angle(f/sw.Out)*(sw.Set[k]-sw.From[k])
}

// Fraction is the fraction of the swing at which bend k is bent to an angle, on the leaf's way out;
// kept within 0..Out.
func (sw *Swing) Fraction(k int, a geom.Angle) float64 {
	if sw.Set[k] <= sw.From[k] {
		return sw.Out
	}
	return min(max(float64((a-sw.From[k])/(sw.Set[k]-sw.From[k])), 0), 1) * sw.Out
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

// tangentPlane is the plane that panel k shares with the zone of one of its own bends, as n.p = at on the blank with the zone
// on the near side; own is false for any other solid.
func (s *shapes) tangentPlane(k int, zone Body) (n geom.Vec2, at float64, own bool) {
	if !zone.Zone {
		return n, 0, false
	}
	b := &s.part.Bends[zone.Index]
	n, at = b.N, b.N.Dot(b.Q)
	switch k {
	case b.A:
		return n, at, true
	case b.B:
		return n.Mul(-1), -(at + b.Allowance), true
	}
	return n, 0, false
}

// beyond is what is left of a panel when the part behind the tangent plane that it
// shares with a bend's zone is taken away: all of it where they share none.
func (s *shapes) beyond(panel, bend int, whole *solid.Body) *solid.Body {
	n, at, own := s.tangentPlane(panel, Body{true, bend})
	if !own {
		return whole
	}
	var left []geom.Loop
	for _, l := range s.part.Panels[panel].Pieces {
		if l = solid.Clip(l, n, at+Weld); l != nil {
			left = append(left, l)
		}
	}
	return solid.Prisms(left, s.part.Thickness)
}
