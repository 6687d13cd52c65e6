package fold

// This file finds by how much a panel must be shorter for a clash to be gone: by bisection on the solids themselves, followed
// through the whole swing.

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// betweenBends is what CutBack.Edge says where a flange is made shorter with what hangs on it.
const betweenBends = "between its bends"

// cuts lists ways to free a pair that clashes, those that open no seam first, then the least, no more than maxCuts: one of the two panels cut back along a
// free edge, or a flange made shorter with what hangs on it. None take more than half of the panel across the
// edge. Solids of bends are not cut: that is what reliefs are for. all is how many clashes the part has.
func (s *shapes) cuts(c *Clash, all int) []CutBack {
	if c.Undecided || c.Rest {
		return nil
	}
	var out []CutBack
	for _, body := range []Body{c.A, c.B} {
		if !body.Zone {
			out = append(out, s.trims(c, body.Index)...)
		}
		out = append(out, s.shortenings(c, body, all)...)
	}
	geom.SortStable(out, func(a, b CutBack) int { // those that open no seam first
		return cmp.Or(cmp.Compare(min(len(a.Seams), 1), min(len(b.Seams), 1)), cmp.Compare(a.By, b.By))
	})
	return out[:min(len(out), maxCuts)]
}

// cutBack is a way to free a clash: panel k made shorter along n to n.p = at. opens tells the seams that open by it.
func (p *Part) cutBack(k int, edge string, by float64, n geom.Vec2, at float64, opens func(Seam) bool) CutBack {
	c := CutBack{Panel: p.Panels[k].Name, Edge: edge, By: by, way: n}
	u := geom.Perp(n)
	lo, hi := math.Inf(1), math.Inf(-1)
	l := p.Panels[k].Region.Outer
	for i, a := range l {
		b := l[(i+1)%len(l)]
		da, db := n.Dot(a)-at, n.Dot(b)-at
		if (da < 0) == (db < 0) {
			continue
		}
		x := u.Dot(a.Add(b.Sub(a).Mul(da / (da - db))))
		lo, hi = min(lo, x), max(hi, x)
	}
	if lo <= hi {
		for i, x := range []float64{lo, hi} {
			c.Line[i] = n.Mul(at).Add(u.Mul(x))
		}
	}
	for _, s := range p.foundSeams() {
		if opens(s) {
			c.Seams = append(c.Seams, s.Name)
		}
	}
	return c
}

// hangsOn reports whether panel k is panel root or hangs on it.
func (p *Part) hangsOn(k, root int) bool {
	for k != root {
		if p.Panels[k].Parent < 0 {
			return false
		}
		k = p.Bends[p.Panels[k].Parent].A
	}
	return true
}

// trims are the cuts along panel k's own free edges.
func (s *shapes) trims(c *Clash, k int) []CutBack {
	p := s.part
	var out []CutBack
	for _, n := range p.freeWays(k) {
		most := p.spare(k, n)
		if most < cutStep {
			continue
		}
		_, h := spanAlong(p.Panels[k].Region.Outer, n)
		free := func(x float64) bool {
			var left []geom.Loop
			for _, l := range p.Panels[k].Pieces {
				if l = solid.Clip(l, n.Mul(-1), x-h); l != nil {
					left = append(left, l)
				}
			}
			q := s.pair(c.A, c.B)
			body := solid.Prisms(s.beyondZone(left, k, c), p.Thickness)
			if c.A == (Body{false, k}) {
				q.pa = body
			} else {
				q.pb = body
			}
			return s.clears(c.Swing, q)
		}
		if by, ok := leastCut(most, free); ok {
			out = append(out, p.cutBack(k, p.edgeWords(k, n, h), by, n, h-by, func(s Seam) bool {
				on := func(panel int, e [2]geom.Vec2) bool {
					return panel == k && max(n.Dot(e[0]), n.Dot(e[1])) > h-by+Weld
				}
				return on(s.A, s.EdgeA) || on(s.B, s.EdgeB)
			}))
		}
	}
	return out
}

// beyondZone leaves out of a panel's pieces what the clash's other solid, the zone of one of its own bends, is exempt from.
func (s *shapes) beyondZone(loops []geom.Loop, k int, c *Clash) []geom.Loop {
	for _, z := range []Body{c.A, c.B} {
		if n, at, own := s.tangentPlane(k, z); own {
			var left []geom.Loop
			for _, l := range loops {
				if l = solid.Clip(l, n, at+Weld); l != nil {
					left = append(left, l)
				}
			}
			loops = left
		}
	}
	return loops
}

// freeWays lists the outward directions, on the blank, of the panel's straight free edges, longest edges first, each direction once.
func (p *Part) freeWays(k int) []geom.Vec2 {
	q := &p.Panels[k]
	type way struct {
		n geom.Vec2
		l float64
	}
	var all []way
	for i, a := range q.Region.Outer {
		if e := q.Edges[0][i]; !e.Free() || e.Arc {
			continue
		}
		d := q.Region.Outer[(i+1)%len(q.Region.Outer)].Sub(a)
		l := d.Len()
		if l < 2*p.Thickness {
			continue
		}
		n := geom.Vec2{d[1] / l, -d[0] / l}
		if j := slices.IndexFunc(all, func(w way) bool { return w.n.Dot(n) > sameWay }); j >= 0 {
			all[j].l += l
			continue
		}
		all = append(all, way{n, l})
	}
	geom.SortStable(all, func(a, b way) int { return cmp.Compare(b.l, a.l) })
	var out []geom.Vec2
	for _, w := range all[:min(len(all), maxWays)] {
		out = append(out, w.n)
	}
	return out
}

// spare is how far panel k may be cut back along n: to half of it, and not into its bends.
func (p *Part) spare(k int, n geom.Vec2) float64 {
	lo, hi := spanAlong(p.Panels[k].Region.Outer, n)
	most := (hi - lo) / 2
	for li, l := range p.Panels[k].Region.Loops() {
		for i, a := range l {
			if p.Panels[k].Edges[li][i].Bend >= 0 {
				most = min(most, hi-max(n.Dot(a), n.Dot(l[(i+1)%len(l)])))
			}
		}
	}
	return most
}

// shortenings are the flanges between a solid and the base that may be made shorter, with what hangs on them, until the pair
// clears and nothing clashes that did not before.
func (s *shapes) shortenings(c *Clash, body Body, all int) []CutBack {
	p := s.part
	if len(p.Panels) > maxShortened {
		return nil
	}
	other := c.A
	if body == c.A {
		other = c.B
	}
	holds := map[int]bool{} // panels on the other's way to the base: making them shorter moves both
	for k := p.carrier(other); ; k = p.Bends[p.Panels[k].Parent].A {
		holds[k] = true
		if p.Panels[k].Parent < 0 {
			break
		}
	}
	var out []CutBack
	child := p.carrier(body)
	for p.Panels[child].Parent >= 0 {
		bend := p.Panels[child].Parent
		k := p.Bends[bend].A
		if holds[k] || p.Panels[k].Parent < 0 {
			break
		}
		if by, ok := s.shorten(c, k, bend, all); ok {
			b := &p.Bends[bend]
			out = append(out, p.cutBack(k, betweenBends, by, p.Bends[p.Panels[k].Parent].N, b.Q.Dot(b.N)-by, func(s Seam) bool {
				return p.hangsOn(s.A, b.B) != p.hangsOn(s.B, b.B)
			}))
		}
		child = k
	}
	return out
}

// shorten finds how much shorter flange k must be between its own bend and bend, which lies across it.
func (s *shapes) shorten(c *Clash, k, bend, all int) (float64, bool) {
	p := s.part
	own, b := &p.Bends[p.Panels[k].Parent], &p.Bends[bend]
	n := own.N
	if b.N.Dot(n) < sameWay { // a return at its side moves with nothing
		return 0, false
	}
	foot, far := own.Q.Dot(n)+own.Allowance, b.Q.Dot(n)
	most := (far - foot) / 2
	if most < cutStep {
		return 0, false
	}
	var t *shapes
	free := func(x float64) bool {
		t = s.with(p.shortened(k, bend, n, far, x), k)
		ok := t.clears(c.Swing, t.pair(c.A, c.B))
		s.work = t.work
		return ok
	}
	by, ok := leastCut(most, free)
	if !ok {
		return 0, false
	}
	t = s.with(p.shortened(k, bend, n, far, by), k)
	count := 0
	for i := range p.Swings {
		count += len(t.swingClashes(i, s.work+cutAllWork, all-count))
	}
	s.work = t.work
	return by, count < all
}

// with is the shapes of a part that differs in panel k's pieces alone, and in where its bends are set.
func (s *shapes) with(q *Part, k int) *shapes {
	t := *s
	t.part, t.panels = q, slices.Clone(s.panels)
	t.panels[k] = solid.Prisms(q.Panels[k].Pieces, q.Thickness)
	return &t
}

// shortened is the part with flange k made x shorter along n, just under where n.p is far: bend and all that hangs on it come nearer. A
// part for posing only: its blank is as it was.
func (p *Part) shortened(k, bend int, n geom.Vec2, far, x float64) *Part {
	q := *p
	q.Bends, q.Panels = slices.Clone(p.Bends), slices.Clone(p.Panels)
	q.measured = &seamStore{}
	q.Bends[bend].moved = q.Bends[bend].moved.Sub(n.Mul(x))
	var pieces []geom.Loop
	for _, l := range p.Panels[k].Pieces {
		if low := solid.Clip(l, n.Mul(-1), x-far); low != nil {
			pieces = append(pieces, low)
		}
		if high := solid.Clip(l, n, far); high != nil {
			for i := range high {
				high[i] = high[i].Sub(n.Mul(x))
			}
			pieces = append(pieces, high)
		}
	}
	q.Panels[k].Pieces = pieces
	return &q
}

// clears reports that a pair is proved to come through a swing, out and back, without a clash.
func (s *shapes) clears(swing int, q pair) bool {
	for _, back := range []bool{false, true} {
		if back && s.part.Swings[swing].Out == 1 {
			break
		}
		c := s.course(swing, back)
		c.limit = s.work + cutWork
		if len(c.bends) > 0 && c.at(0).seek(q, 0).end != clears {
			return false
		}
	}
	return true
}

// leastCut is the least cut up to most that is free, rounded up to cutStep.
func leastCut(most float64, free func(x float64) bool) (float64, bool) {
	steps := int(most / cutStep)
	if steps < 1 || !free(float64(steps)*cutStep) {
		return 0, false
	}
	lo, hi := 0, steps
	for hi-lo > 1 {
		if m := (lo + hi) / 2; free(float64(m) * cutStep) {
			hi = m
		} else {
			lo = m
		}
	}
	return float64(hi) * cutStep, true
}

// edgeWords calls the edge of panel k that lies farthest along n.
func (p *Part) edgeWords(k int, n geom.Vec2, h float64) string {
	if b := p.Panels[k].Parent; b >= 0 && p.Bends[b].N.Dot(n) > farWay {
		return "its far edge"
	}
	// The panel that stands nearest to the edge's middle, once all is bent.
	l := p.Panels[k].Region.Outer
	var mid geom.Vec2
	count := 0.0
	for _, a := range l {
		if n.Dot(a) > h-p.Thickness {
			mid = mid.Add(a)
			count++
		}
	}
	mid = mid.Mul(1 / count)
	ps := p.Pose(p.Finished())
	at := ps.PanelPoint(k, mid, p.Thickness/2)
	best, who := math.Inf(1), -1
	for j := range p.Panels {
		if j == k || p.joined(j, k) {
			continue
		}
		q := ps.Panels[j].LocalPoint(at)
		for _, piece := range p.Panels[j].Pieces {
			if d, _, _ := segmentToPrism(q, q, piece, p.Thickness); d < best {
				best, who = d, j
			}
		}
	}
	if who < 0 {
		return "its side edge"
	}
	return "its end towards " + p.Panels[who].Name
}

// Words say what a cut is, as advice, and what it costs.
func (c CutBack) Words() string {
	s := fmt.Sprintf("take %.1f mm off %s at %s", c.By, c.Panel, c.Edge)
	if c.Edge == betweenBends {
		s = fmt.Sprintf("make %s %.1f mm shorter between its bends", c.Panel, c.By)
	}
	switch len(c.Seams) {
	case 0:
		return s
	case 1:
		return s + fmt.Sprintf(" (which opens the seam %s by as much)", c.Seams[0])
	}
	return s + fmt.Sprintf(" (which opens %d seams by as much)", len(c.Seams))
}
