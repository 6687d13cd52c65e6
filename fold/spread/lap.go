package spread

// This file holds what is done where the two panels of a seam come to lie in each other: there the gap is minus the
// depth of the least move that parts their pieces, as fold measures it.

import (
	"cmp"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// lap is a pair of pieces, one of each panel, that errors can bring into each other.
type lap struct {
	a, b  int     // pieces of side A and B
	apart float64 // without errors; under 0 where they lie in each other
	dirs  [2]vec  // directions, in A's coordinates, that parted them last

	// At the pose last measured, for those that cheap directions don't part:
	most   float64 // they lie no deeper in each other
	known  bool    // depth is worked out
	depth  float64
	lo, hi float64         // the stretch along e that both reach over
	body   [2]solid.Convex // both in A's coordinates, filled when they are needed
}

// keepLaps makes the laps, and the hulls of the panels' pieces in them.
func (m *seam) keepLaps(reach float64) {
	frames := [2]frame{identity(), m.rel[0]}
	var boxes [2][]geom.Box3 // along A's edge, square to it, upwards
	along := vec{-m.side[0].out.y, m.side[0].out.x, 0}
	out := vec{m.side[0].out.x, m.side[0].out.y, 0}
	for k, f := range frames {
		up := f.z.mul(m.t)
		for i := range m.side[k].pieces {
			box := geom.EmptyBox3()
			for _, q := range m.side[k].pieces[i].now {
				low := f.point(vec{q.x, q.y, 0})
				for _, v := range [2]vec{low, low.add(up)} {
					box.Add(geom.Vec3{v.dot(along), v.dot(out), v.z})
				}
			}
			boxes[k] = append(boxes[k], box)
		}
	}
	var bodies [2][]*solid.Convex
	for k := range bodies {
		bodies[k] = make([]*solid.Convex, len(boxes[k]))
	}
	body := func(k, i int) *solid.Convex {
		if bodies[k][i] == nil {
			w := &m.side[k].pieces[i]
			c := prism(w)
			m.put(&c, w, frames[k])
			bodies[k][i] = &c
		}
		return bodies[k][i]
	}
	pairs, reach := nearBoxes(boxes, reach)
	for _, x := range pairs {
		i, j := int(x[0]), int(x[1])
		if c, ok := solid.Nearer(body(0, i), body(1, j), reach); ok {
			m.laps = append(m.laps, lap{a: i, b: j, apart: c.D, dirs: [2]vec{from3(c.N), out.mul(-1)}})
		}
	}
	geom.SortStable(m.laps, func(x, y lap) int { return cmp.Compare(x.apart, y.apart) })
	if len(m.laps) == 0 {
		return
	}
	m.parts[0] = m.laps[0].dirs[0]
	m.parts[1] = out.mul(-1)
	for k := range m.hulls {
		m.hulls[k] = m.hullOf(k)
		for i := range m.reach {
			m.reach[i][k] = make([]float64, len(m.side[k].pieces))
		}
	}
}

// hullOf is the hull of a side's pieces that are in laps.
func (m *seam) hullOf(k int) piece {
	var all geom.Loop
	for _, o := range m.laps {
		for _, q := range m.side[k].pieces[[2]int{o.a, o.b}[k]].loop {
			all = append(all, geom.Vec2{q.x, q.y})
		}
	}
	d := &m.side[k]
	var l geom.Loop
	for _, q := range hull(all) {
		l = append(l, geom.Vec2{q.x, q.y})
	}
	return newPiece(l, &cutEdge{p: d.p, out: d.out}, m.slides[k])
}

// prism is a body for a piece, its corners not yet placed.
func prism(w *piece) solid.Convex {
	loop := make(geom.Loop, len(w.loop))
	for n, q := range w.loop {
		loop[n] = geom.Vec2{q.x, q.y}
	}
	return solid.Prism(loop, 0, 1, geom.Identity())
}

// fill places a lap's bodies as the pieces are now.
func (m *seam) fill(o *lap) {
	a, b := &m.side[0].pieces[o.a], &m.side[1].pieces[o.b]
	if o.body[0].Points == nil {
		o.body = [2]solid.Convex{prism(a), prism(b)}
	}
	m.put(&o.body[0], a, identity())
	m.put(&o.body[1], b, m.rel[0])
}

// put places a piece's body as the piece is now, at a frame.
func (m *seam) put(c *solid.Convex, w *piece, f frame) {
	n := len(w.now)
	box := geom.EmptyBox3()
	up := f.z.mul(m.t)
	for i, q := range w.now {
		low := f.point(vec{q.x, q.y, 0})
		c.Points[i], c.Points[n+i] = low.geom(), low.add(up).geom()
		box.Add(c.Points[i])
		box.Add(c.Points[n+i])
	}
	c.Normals, c.Dirs = c.Normals[:0], c.Dirs[:0]
	for i, q := range w.now {
		d := w.now[(i+1)%n].sub(q)
		if d.dot(d) == 0 {
			continue
		}
		d = d.unit()
		c.Dirs = append(c.Dirs, f.vector(vec{d.x, d.y, 0}).geom())
		c.Normals = append(c.Normals, f.vector(vec{d.y, -d.x, 0}).geom())
	}
	c.Dirs = append(c.Dirs, f.z.geom())
	c.Normals = append(c.Normals, f.z.geom(), f.z.mul(-1).geom())
	c.Centre = box.Min.Add(box.Max).Mul(0.5)
	c.Radius = box.Max.Sub(c.Centre).Len()
}

// parted reports whether the direction n, in A's coordinates, parts a piece of A and one of B.
func (m *seam) parted(a, b *piece, n vec) bool {
	if n == (vec{}) {
		return false
	}
	nb := m.rel[0].localVector(n)
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range a.now {
		lo = min(lo, n.x*q.x+n.y*q.y)
	}
	for _, q := range b.now {
		hi = max(hi, nb.x*q.x+nb.y*q.y)
	}
	lo += min(0, n.z*m.t)
	hi += max(0, nb.z*m.t) + n.dot(m.rel[0].o)
	return lo-hi >= -fold.Weld
}

// findLaps finds which pieces lie in each other.
func (m *seam) findLaps() {
	for i := range m.lines {
		m.lines[i].known = [2]bool{}
	}
	m.on = m.on[:0]
	if len(m.laps) == 0 || m.laps[0].apart-m.moved > 0 {
		return
	}
	if m.hullsParted() {
		return
	}
	// Only pieces that reach over each other across both cut edges, and along the seam, can lie in each other.
	for k, n := range [...]vec{{-m.side[0].out.x, -m.side[0].out.y, 0}, m.rel[0].vector(vec{m.side[1].out.x, m.side[1].out.y, 0}), m.e, m.e.mul(-1)} {
		m.reachAlong(&m.reach[k], n)
	}
	for i := range m.laps {
		o := &m.laps[i]
		if o.apart-m.moved > 0 {
			break
		}
		apart := false
		for k := range m.reach[:4] {
			if m.reach[k][0][o.a]-m.reach[k][1][o.b] >= -fold.Weld {
				apart = true
				break
			}
		}
		if apart {
			continue
		}
		a, b := &m.side[0].pieces[o.a], &m.side[1].pieces[o.b]
		if m.parted(a, b, o.dirs[0]) {
			continue
		}
		if m.parted(a, b, o.dirs[1]) {
			o.dirs[0], o.dirs[1] = o.dirs[1], o.dirs[0]
			continue
		}
		o.known = false
		o.most = math.Inf(1)
		for k := range m.reach[:4] {
			o.most = min(o.most, m.reach[k][1][o.b]-m.reach[k][0][o.a])
		}
		o.lo, o.hi = max(m.reach[2][0][o.a], -m.reach[3][1][o.b]), min(-m.reach[3][0][o.a], m.reach[2][1][o.b])
		m.on = append(m.on, i)
		if k := len(m.on) - 1; o.most > m.laps[m.on[0]].most { // the one that may be deepest is looked at first
			m.on[0], m.on[k] = m.on[k], m.on[0]
		}
	}
}

// reachAlong sets how far each piece of A reaches against n, and each of B along it; n is in A's coordinates.
func (m *seam) reachAlong(r *[2][]float64, n vec) {
	nb := m.rel[0].localVector(n).mul(-1)
	for i := range m.side[0].pieces {
		r[0][i] = m.side[0].pieces[i].least(n, m.t)
	}
	for i := range m.side[1].pieces {
		r[1][i] = n.dot(m.rel[0].o) - m.side[1].pieces[i].least(nb, m.t)
	}
}

// tighten lowers how deep the laps can be: no deeper than they reach over each other along n.
func (m *seam) tighten(n vec) {
	r := &m.reach[4]
	m.reachAlong(r, n)
	for _, i := range m.on {
		o := &m.laps[i]
		o.most = min(o.most, r[1][o.b]-r[0][o.a])
	}
}

// find finds how deep the pieces of a lap lie in each other, 0 where they don't after all.
func (m *seam) find(o *lap) float64 {
	if o.known {
		return o.depth
	}
	o.known, o.depth = true, 0
	m.fill(o)
	c, ok := solid.Nearer(&o.body[0], &o.body[1], -fold.Weld)
	if ok {
		o.depth = -c.D
		m.tighten(from3(c.N))
	} else if n := from3(c.N); n != (vec{}) {
		o.dirs[0], o.dirs[1] = n, o.dirs[0]
	}
	return o.depth
}

// hullsParted reports whether a direction that is likely to parts the hulls: the one that did last, those that were found
// before, across the cut edges, across the sheets.
func (m *seam) hullsParted() bool {
	a, b := &m.hulls[0], &m.hulls[1]
	if m.parted(a, b, m.parts[0]) {
		return true
	}
	r := &m.rel[0]
	out := r.vector(vec{m.side[1].out.x, m.side[1].out.y, 0})
	for i, n := range [...]vec{m.parts[1], m.parts[2], {-m.side[0].out.x, -m.side[0].out.y, 0}, out, {0, 0, 1}, {0, 0, -1}, r.z, r.z.mul(-1)} {
		if m.parted(a, b, n) {
			if i < 2 {
				m.parts[1+i] = m.parts[0]
			}
			m.parts[0] = n
			return true
		}
	}
	return false
}

// least is the least of a piece, as it is now, along n in its own coordinates.
func (w *piece) least(n vec, t float64) float64 {
	lo := math.Inf(1)
	for _, q := range w.now {
		lo = min(lo, n.x*q.x+n.y*q.y)
	}
	return lo + min(0, n.z*t)
}

// lapped is how deep the panels lie in each other at the part s of the seam; false where they don't.
func (m *seam) lapped(s float64) (depth float64, ok bool) {
	if len(m.on) == 0 || !m.sectionsOverlap(&m.hulls[0], &m.hulls[1], s) {
		return 0, false
	}
	for _, i := range m.on {
		if o := &m.laps[i]; o.most > depth+lapNoise && m.shows(o, s) {
			depth = max(depth, m.find(o))
		}
	}
	return depth, depth > 0
}

// gap is the gap at the part s of the seam.
func (m *seam) gap(s float64) float64 {
	if d, ok := m.lapped(s); ok {
		return -d
	}
	if s > 0 && s < 1 {
		return m.between(s, m.near)
	}
	d, _ := m.clear(s)
	return d
}

// deepest is the depth of the deepest lap that shows anywhere along the seam.
func (m *seam) deepest() (depth float64, ok bool) {
	if len(m.on) == 0 {
		return 0, false
	}
	for n := range m.looks {
		m.looks[n] = m.sectionsOverlap(&m.hulls[0], &m.hulls[1], float64(n)/lapLooks)
	}
	for _, i := range m.on {
		o := &m.laps[i]
		if o.most <= depth+lapNoise {
			continue
		}
		for n, ok := range m.looks {
			if ok && m.shows(o, float64(n)/lapLooks) {
				depth = max(depth, m.find(o))
				break
			}
		}
	}
	return depth, depth > 0
}

// widest is the widest gap along the seam; from and to are the gaps at its ends.
func (m *seam) widest(from, to float64) float64 {
	if len(m.on) == 0 {
		return m.widestClear(0, 1)
	}
	clear := m.widestClear(0, 1)
	if max(from, to) >= clear-m.tol {
		return max(from, to)
	}
	// What lies in each other leaves stretches between: from place to place, their ends found by halving.
	best := max(from, to)
	last, a := 0.0, math.NaN() // a: where the present clear stretch began
	lap := func(s float64) bool { d, ok := m.lapped(s); best = max(best, ifElse(ok, -d, best)); return ok }
	edge := func(x, y float64, ofX bool) float64 { // where it changes between x and y, on the clear side
		for y-x > 1e-9 {
			if h := (x + y) / 2; lap(h) == ofX {
				x = h
			} else {
				y = h
			}
		}
		if ofX {
			return y
		}
		return x
	}
	was := lap(0)
	if !was {
		a = 0
	}
	for n := 1; n <= lapLooks; n++ {
		s := float64(n) / lapLooks
		is := lap(s)
		switch {
		case was && !is:
			a = edge(last, s, true)
		case !was && is:
			best = max(best, m.widestClear(a, edge(last, s, false)))
		}
		last, was = s, is
	}
	if !was {
		best = max(best, m.widestClear(a, 1))
	}
	return best
}

func ifElse(ok bool, a, b float64) float64 {
	if ok {
		return a
	}
	return b
}
