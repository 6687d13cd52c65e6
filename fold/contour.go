package fold

// This file turns contours of straight edges and arcs into exact pieces, and into chords.

import (
	"math"
	"slices"

	"dryfold/fold/geom"
)

// chord is one straight piece of a contour: part of edge Index of contour Contour.
type chord struct {
	a, b    geom.Vec2
	contour int
	index   int
	arc     *arc // nil for a straight edge
}

// arc is a piece of a circle.
type arc struct {
	centre geom.Vec2
	radius float64
}

// segmentArea is the area between the arc and a chord of it from a to b, counted
// positive when the arc bulges to the right of a->b (outwards on a counter-clockwise loop).
func (c *arc) segmentArea(a, b geom.Vec2) float64 {
	half := b.Sub(a).Len() / 2 / c.radius
	phi := 2 * math.Asin(min(half, 1))
	area := c.radius * c.radius / 2 * (phi - math.Sin(phi))
	if phi < 1e-3 { // the difference cancels for short chords
		area = c.radius * c.radius / 2 * phi * phi * phi / 6 * (1 - phi*phi/20)
	}
	if geom.Cross2(b.Sub(a), c.centre.Sub(a)) < 0 {
		return -area
	}
	return area
}

// chordsFor is how many chords keep an arc of the given radius and angle within ArcChord.
func chordsFor(radius, angle float64) int {
	if radius <= ArcChord {
		return max(2, int(math.Ceil(angle/(math.Pi/4))))
	}
	step := 4 * math.Asin(math.Sqrt(ArcChord/(2*radius))) // ArcChord = r(1 - cos(step/2)) = 2r sin^2(step/4)
	return max(2, int(min(maxArcChords, math.Ceil(angle/step))))
}

// maxArcChords is more than any arc within MaxSize of the origin needs: the whole
// round of radius MaxSize takes 31,416.
const maxArcChords = 32_000

// countChords is how many chords the contours and holes of the Spec take.
func (s *Spec) countChords() int {
	k, n := s.Units.Scale(), 0
	for _, c := range append([]Contour{s.Outline}, s.Cutouts...) {
		for i, v := range c {
			n++
			if v.Through == nil {
				continue
			}
			a := c[(i+len(c)-1)%len(c)].At
			if o, r, ok := geom.Circle(a.Mul(k), v.Through.Mul(k), v.At.Mul(k)); ok {
				o = o.Mul(1 / k)
				n += chordsFor(r, math.Abs(turnVia(a.Sub(o), v.Through.Sub(o), v.At.Sub(o))))
			}
		}
	}
	for _, h := range s.Holes {
		n += chordsFor(h.Diameter*k/2, 2*math.Pi)
	}
	return n
}

// contourChords cuts a contour (already in mm) into chords, counter-clockwise if
// ccw, else clockwise. area is the true area inside, arcs counted exactly. Points
// that repeat the one before are dropped.
func contourChords(c Contour, id int, ccw bool) (out []chord, area float64) {
	for i, v := range c {
		prev := c[(i+len(c)-1)%len(c)].At
		index := (i + len(c) - 1) % len(c)
		add := func(to geom.Vec2, a *arc) {
			if to.Sub(prev).Len() > Weld {
				out = append(out, chord{prev, to, id, index, a})
				prev = to
			}
		}
		if v.Through != nil {
			if o, r, ok := geom.Circle(prev, *v.Through, v.At); ok {
				a := &arc{o, r}
				from := math.Atan2(prev[1]-o[1], prev[0]-o[0])
				sweep := turnVia(prev.Sub(o), v.Through.Sub(o), v.At.Sub(o))
				n := chordsFor(r, math.Abs(sweep))
				for k := 1; k < n; k++ {
					s, cs := math.Sincos(from + sweep*float64(k)/float64(n))
					add(o.Add(geom.Vec2{cs, s}.Mul(r)), a)
				}
				add(v.At, a)
				continue
			}
		}
		add(v.At, nil)
	}
	for _, ch := range out {
		area += geom.Cross2(ch.a.Sub(c[0].At), ch.b.Sub(c[0].At)) / 2
		if ch.arc != nil {
			area += ch.arc.segmentArea(ch.a, ch.b)
		}
	}
	if (area > 0) != ccw {
		for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
			out[i], out[j] = out[j], out[i]
		}
		for i := range out {
			out[i].a, out[i].b = out[i].b, out[i].a
		}
	}
	return out, math.Abs(area)
}

// turnVia is the signed angle from a to c about the origin, going past b.
func turnVia(a, b, c geom.Vec2) float64 {
	ang := func(p, q geom.Vec2) float64 { // counter-clockwise, 0..2 pi
		t := math.Atan2(geom.Cross2(p, q), p.Dot(q))
		if t < 0 {
			t += 2 * math.Pi
		}
		return t
	}
	if ac, ab := ang(a, c), ang(a, b); ab < ac {
		return ac
	} else {
		return ac - 2*math.Pi
	}
}

// holeChords is a round hole as chords, clockwise.
func holeChords(at geom.Vec2, diameter float64, id int) []chord {
	r := diameter / 2
	a := &arc{at, r}
	n := max(8, chordsFor(r, 2*math.Pi))
	out := make([]chord, 0, n)
	p := func(k int) geom.Vec2 {
		s, c := math.Sincos(-2 * math.Pi * float64(k%n) / float64(n))
		return at.Add(geom.Vec2{c, s}.Mul(r))
	}
	for k := range n {
		out = append(out, chord{p(k), p(k + 1), id, 0, a})
	}
	return out
}

// scaled gives the contour with every coordinate multiplied by k.
func (c Contour) scaled(k float64) Contour {
	out := make(Contour, 0, len(c))
	for _, v := range c {
		w := Vertex{At: v.At.Mul(k)}
		if v.Through != nil {
			t := v.Through.Mul(k)
			w.Through = &t
		}
		out = append(out, w)
	}
	return out
}

func chordLoop(cs []chord) geom.Loop {
	l := make(geom.Loop, len(cs))
	for i, c := range cs {
		l[i] = c.a
	}
	return l
}

// Pieces are the contour's straight edges and arcs, exact, every coordinate times k; counter-clockwise
// if ccw, else clockwise. Each ends where the next begins, the last where the first does. Points that repeat the
// one before are dropped. of[i] is the contour's edge that piece i is, or is part of: the one that ends at
// vertex of[i]+1.
func (c Contour) Pieces(k float64, ccw bool) (ps []geom.Piece, of []int) {
	n := len(c)
	if n == 0 {
		return nil, nil
	}
	prev := c[n-1].At.Mul(k)
	for i, v := range c {
		to := v.At.Mul(k)
		add := func(pieces ...geom.Piece) {
			for _, q := range pieces {
				ps, of = append(ps, q), append(of, (i+n-1)%n)
			}
			prev = to
		}
		if v.Through != nil {
			if arc := geom.Through(prev, v.Through.Mul(k), to); len(arc) > 1 || arc[0].Turn != 0 && to.Sub(prev).Len() > Weld {
				add(arc...)
				continue
			}
		}
		if to.Sub(prev).Len() > Weld {
			add(geom.Piece{A: prev, B: to})
		}
	}
	if len(ps) > 0 { // where the last points were dropped
		ps[0].A = ps[len(ps)-1].B
	}
	if (geom.PiecesArea(ps) > 0) != ccw {
		ps = geom.ReversedPieces(ps)
		slices.Reverse(of)
	}
	return ps, of
}
