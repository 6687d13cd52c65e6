package ascut

// This file holds what a rule is held to: corners, edges, holes and bend lines of the blank, and the distance between two of them.

import (
	"math"

	"dryfold/fold/geom"
)

// spotKind is what a rule is held to.
type spotKind int

const (
	atCorner spotKind = iota // of the outline
	atEdge                   // square across from a place on a cut
	atHole                   // its centre
	atBend                   // an end of a bend line
	atVoid                   // the side of a cutout
)

// spot is a place of the blank that is measured to.
type spot struct {
	kind  spotKind
	index int       // corner, cut, hole, bend
	cut   int       // the cut that a corner is measured for, or of an edge; -1
	end   int       // of a bend line
	at    geom.Vec2 // mm
}

// place is where a spot lies on the blank with cuts moved and leaning.
func (b *blank) place(s spot, out []float64, lean float64) geom.Vec2 {
	p := s.at
	switch s.kind {
	case atCorner:
		p = b.corner(s.index, s.cut, out)
	case atEdge:
		p = s.at.Add(b.cuts[s.index].Out.Mul(out[s.index]))
	}
	return geom.Vec2{p[0] + lean*(p[1]-b.box.Min[1]), p[1]}
}

// distance is what is measured between two spots on the blank with cuts moved and leaning: between edges square to the first.
func (b *blank) distance(x, y spot, out []float64, lean float64) float64 {
	p, q := b.place(x, out, lean), b.place(y, out, lean)
	if x.kind != atEdge || y.kind != atEdge {
		return q.Sub(p).Len()
	}
	skew := func(v geom.Vec2) geom.Vec2 { return geom.Vec2{v[0] + lean*v[1], v[1]} }
	n := geom.Perp(skew(geom.Perp(b.cuts[x.index].Out))).Normalize()
	d := skew(geom.Perp(b.cuts[y.index].Out))
	cross := geom.Cross2(n, d)
	if math.Abs(cross) < leastSlide {
		return q.Sub(p).Len()
	}
	return math.Abs(geom.Cross2(q.Sub(p), d) / cross)
}

// sharpAt reports whether a rule can be held to a corner of the outline.
func (b *blank) sharpAt(k int) bool {
	n := len(b.at)
	c, d := b.of[k], b.of[(k+1)%n]
	if c < 0 || d < 0 || c == d {
		return false
	}
	x, y := &b.cuts[c], &b.cuts[d]
	if min(x.length(), y.length()) < leastStep {
		return false
	}
	if math.Abs(geom.Cross2(x.Out, y.Out)) < sharp {
		return x.Out.Dot(y.Out) < 0
	}
	return true
}

// cornersOf are the two corners of a cut, at its Ends.
func (b *blank) cornersOf(c int) (out [2]int) {
	for k := range b.at {
		for i, e := range b.cuts[c].Ends {
			if b.at[k] == e {
				out[i] = k
			}
		}
	}
	return out
}

func (b *blank) cornerSpot(k, cut int) spot { return spot{atCorner, k, cut, 0, b.at[k]} }

// slopes are what a mm of each cut, moved outward, does to a distance, and what a lean of 1 does. The short sides of reliefs are left out.
func (b *blank) slopes(x, y spot) (by map[int]float64, lean float64) {
	const h = 1e-3 // mm; distances of more than this are smooth in it
	by = map[int]float64{}
	out := make([]float64, len(b.cuts))
	try := func(c int) {
		if _, done := by[c]; done || c < 0 || !b.held(c) {
			return
		}
		out[c] = h
		up := b.distance(x, y, out, 0)
		out[c] = -h
		v := (up - b.distance(x, y, out, 0)) / (2 * h)
		out[c] = 0
		by[c] = v
	}
	n := len(b.at)
	for _, s := range []spot{x, y} {
		switch s.kind {
		case atCorner:
			try(b.of[s.index])
			try(b.of[(s.index+1)%n])
		case atEdge:
			try(s.index)
		}
	}
	const g = 1e-6
	lean = (b.distance(x, y, out, g) - b.distance(x, y, out, -g)) / (2 * g)
	return by, lean
}

// held reports whether a rule can be held against a cut.
func (b *blank) held(c int) bool { return b.cuts[c].length() >= leastEdge }
