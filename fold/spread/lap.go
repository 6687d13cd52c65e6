package spread

// This file holds what is done where the two panels of a seam come to lie in each other: there the gap is minus the
// depth of the least move that parts their pieces, as fold measures it.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// lap is a pair of pieces, one of each panel, that errors can bring into each other.
type lap struct {
	a, b  int    // pieces of side A and B
	dirs  [2]vec // directions, in A's coordinates, that parted them last
	depth float64
	on    bool
	body  [2]solid.Convex // both in A's coordinates, filled when they are needed
}

// keepLaps makes the laps.
func (m *seam) keepLaps(x *poser, reach float64) {
	a, b := &m.side[0], &m.side[1]
	for i := range a.pieces {
		for j := range b.pieces {
			o := lap{a: i, b: j}
			for k, w := range []*piece{&a.pieces[i], &b.pieces[j]} {
				loop := make(geom.Loop, len(w.loop))
				for n, q := range w.loop {
					loop[n] = geom.Vec2{q.x, q.y}
				}
				o.body[k] = solid.Prism(loop, 0, m.t, geom.Identity())
			}
			m.fill(&o)
			c := solid.Distance(&o.body[0], &o.body[1])
			if c.D > 2*reach {
				continue
			}
			o.dirs[0] = from3(c.N)
			o.dirs[1] = vec{a.out.x, a.out.y, 0}.mul(-1)
			m.laps = append(m.laps, o)
		}
	}
}

// fill places a lap's bodies as the pieces are now.
func (m *seam) fill(o *lap) {
	id := identity()
	for k := range 2 {
		w, f := &m.side[0].pieces[o.a], &id
		if k == 1 {
			w, f = &m.side[1].pieces[o.b], &m.rel[0]
		}
		c := &o.body[k]
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
}

// parted reports whether the direction n, in A's coordinates, parts the pieces of a lap.
func (m *seam) parted(o *lap, n vec) bool {
	if n == (vec{}) {
		return false
	}
	nb := m.rel[0].localVector(n)
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range m.side[0].pieces[o.a].now {
		lo = min(lo, n.x*q.x+n.y*q.y)
	}
	for _, q := range m.side[1].pieces[o.b].now {
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
	for i := range m.laps {
		o := &m.laps[i]
		o.on = false
		if m.parted(o, o.dirs[0]) {
			continue
		}
		if m.parted(o, o.dirs[1]) {
			o.dirs[0], o.dirs[1] = o.dirs[1], o.dirs[0]
			continue
		}
		m.fill(o)
		c, ok := solid.Nearer(&o.body[0], &o.body[1], -fold.Weld)
		if !ok {
			if n := from3(c.N); n != (vec{}) {
				o.dirs[0], o.dirs[1] = n, o.dirs[0]
			}
			continue
		}
		o.on, o.depth = true, -c.D
	}
}

// lapped is how deep the panels lie in each other at the part s of the seam; false where they don't.
func (m *seam) lapped(s float64) (depth float64, ok bool) {
	for i := range m.laps {
		o := &m.laps[i]
		if o.on && (!ok || o.depth > depth) && m.sectionsOverlap(o, s) {
			depth, ok = o.depth, true
		}
	}
	return depth, ok
}

// gap is the gap at the part s of the seam.
func (m *seam) gap(s float64) float64 {
	if d, ok := m.lapped(s); ok {
		return -d
	}
	d, _ := m.clear(s)
	return d
}

// anyLap reports whether any pieces lie in each other at this pose.
func (m *seam) anyLap() bool {
	for i := range m.laps {
		if m.laps[i].on {
			return true
		}
	}
	return false
}

// deepest is the depth of the deepest lap that shows anywhere along the seam.
func (m *seam) deepest() (depth float64, ok bool) {
	if !m.anyLap() {
		return 0, false
	}
	for i := range m.laps {
		o := &m.laps[i]
		if !o.on || ok && o.depth <= depth {
			continue
		}
		for n := 0; n <= lapLooks; n++ {
			if m.sectionsOverlap(o, float64(n)/lapLooks) {
				depth, ok = o.depth, true
				break
			}
		}
	}
	return depth, ok
}

// widest is the widest gap along the seam; from and to are the gaps at its ends.
func (m *seam) widest(from, to float64) float64 {
	if !m.anyLap() {
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

// sectionsOverlap reports whether the sections of a lap's pieces, square to the seam at its part s, overlap by more
// than fold.Weld. The very ends are looked at a hair inside, for square ends lie in the plane there.
func (m *seam) sectionsOverlap(o *lap, s float64) bool {
	length := m.hi - m.lo
	hair := min(10*fold.Weld, length/4)
	at := max(m.lo+hair, min(m.hi-hair, m.lo+s*length))
	// Axes square to e, in A's coordinates.
	x := m.e.cross(vec{0, 0, 1})
	if x.len() < 0.1 {
		x = m.e.cross(vec{1, 0, 0})
	}
	x = x.unit()
	y := m.e.cross(x)
	id := identity()
	var pa, pb [maxSection]vec2
	na := m.section(pa[:0], &id, m.side[0].pieces[o.a].now, at, x, y)
	nb := m.section(pb[:0], &m.rel[0], m.side[1].pieces[o.b].now, at, x, y)
	return hullsOverlap(na, nb)
}

// maxSection: so many points of a section need no memory of their own.
const maxSection = 24

// section adds where a prism's edges cross the plane at, square to e.
func (m *seam) section(out []vec2, f *frame, loop []vec2, at float64, x, y vec) []vec2 {
	edge := func(p, q vec) {
		dp, dq := p.dot(m.e)-at, q.dot(m.e)-at
		if dp == 0 {
			out = append(out, vec2{p.dot(x), p.dot(y)})
		}
		if (dp > 0) != (dq > 0) {
			c := p.plus(q.sub(p), dp/(dp-dq))
			out = append(out, vec2{c.dot(x), c.dot(y)})
		}
	}
	up := f.z.mul(m.t)
	a := loop[len(loop)-1]
	p := f.point(vec{a.x, a.y, 0})
	for _, b := range loop {
		q := f.point(vec{b.x, b.y, 0})
		edge(p, q)
		edge(p.add(up), q.add(up))
		edge(p, p.add(up))
		p = q
	}
	return out
}

// hullsOverlap reports whether the convex hulls of two small sets overlap by more than fold.Weld.
func hullsOverlap(a, b []vec2) bool {
	if len(a) == 0 || len(b) == 0 {
		return false
	}
	for _, set := range [2][]vec2{a, b} {
		for i := range set {
			for _, q := range set[i+1:] {
				d := q.sub(set[i])
				if d.dot(d) <= fold.Weld*fold.Weld {
					continue
				}
				n := vec2{-d.y, d.x}.unit()
				a0, a1 := span(a, n)
				b0, b1 := span(b, n)
				if a1 <= b0+fold.Weld || b1 <= a0+fold.Weld {
					return false
				}
			}
		}
	}
	return true
}

func span(ps []vec2, n vec2) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range ps {
		d := p.dot(n)
		lo, hi = min(lo, d), max(hi, d)
	}
	return lo, hi
}
