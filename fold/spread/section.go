package spread

// This file holds the sections of pieces square to a seam: where they overlap, panels lie in each other.

import (
	"math"

	"dryfold/fold"
)

// inside is the place along e of the part s of the seam at which sections are looked at. The very ends are looked at a little inside: the sheets'
// square ends lie in the plane there, and where an error tilts one, the section at the very end holds only a part of its thickness.
func (m *seam) inside(s float64) float64 {
	length := m.hi - m.lo
	hair := min(endLook*m.t, length/4)
	return max(m.lo+hair, min(m.hi-hair, m.lo+s*length))
}

// shows reports whether the sections of a lap's pieces overlap at the part s of the seam.
func (m *seam) shows(o *lap, s float64) bool {
	if at := m.inside(s); at < o.lo || at > o.hi {
		return false
	}
	return m.sectionsOverlap(&m.side[0].pieces[o.a], &m.side[1].pieces[o.b], s)
}

// sectionsOverlap reports whether the sections of a piece of A and one of B, square to the seam at its part s, overlap by more
// than fold.Weld.
func (m *seam) sectionsOverlap(a, b *piece, s float64) bool {
	at := m.inside(s)
	// Axes square to e, in A's coordinates.
	x := m.e.cross(vec{0, 0, 1})
	if x.len() < 0.1 {
		x = m.e.cross(vec{1, 0, 0})
	}
	x = x.unit()
	y := m.e.cross(x)
	id := identity()
	var pa, pb [maxSection]vec2
	return hullsOverlap(m.section(pa[:0], &id, a.now, at, x, y), m.section(pb[:0], &m.rel[0], b.now, at, x, y))
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
