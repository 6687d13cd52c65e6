package cutfile

// This file judges an offset: what of the contour the cut does not follow, and whether each point of it is right.

import (
	"math"
	"slices"

	"dryfold/fold/geom"
)

// uncut is a corner or the point of a notch that the cut does not reach.
type uncut struct {
	point geom.Vec2 // the farthest point of the contour
	deep  float64   // how far it stays from the cut
}

// judge looks at the loop: it must go once along the contour and lose no notch, and lie at the distance everywhere.
func (o *offsetter) judge() bool {
	n := float64(len(o.ps))
	o.left = nil
	if len(o.strands) < 2 {
		o.at = middle(o.ps)
		return false
	}
	worst, bad := -1.0, false
	gone := 0.0
	for i, s := range o.strands {
		next := &o.strands[(i+1)%len(o.strands)]
		gone += s.to - s.from
		skip := math.Mod(next.from-s.to+2*n, n)
		if skip > n-1e-6 || skip < 1e-9 { // rounding
			gone += math.Remainder(next.from-s.to, n)
			continue
		}
		gone += skip
		l, whole := o.lost(s, *next, skip)
		switch {
		case whole || l.deep > deepLeft*2*o.d:
			bad = true
			if l.deep > worst {
				worst, o.at = l.deep, s.B
			}
		case l.deep > max(shallow, o.d):
			o.left = append(o.left, l)
		}
	}
	if bad {
		return false
	}
	if math.Abs(gone-n) > 1e-3 {
		o.at = middle(o.ps)
		return false
	}
	area := 0.0
	pieces := make([]geom.Piece, len(o.strands))
	for i, s := range o.strands {
		pieces[i] = s.Piece
		for _, f := range []float64{0, 0.25, 0.5, 0.75} {
			v := s.At(f)
			if d := o.distance(v, 0); math.Abs(d-o.d) > exactly {
				o.at = v
				return false
			}
		}
	}
	area = geom.PiecesArea(pieces)
	if (area < 0) != o.void {
		o.at = middle(o.ps)
		return false
	}
	return true
}

// lost is what of the contour lies between two strands of the loop that follow each other but are not of neighbouring
// places, skip places on; whole tells that it holds a notch with its mouth.
func (o *offsetter) lost(s, next strand, skip float64) (l uncut, whole bool) {
	n := len(o.ps)
	x := s.B // the middle of the cut when it touches both sides
	look := func(v geom.Vec2) {
		if d := v.Sub(x).Len() - o.d; d > l.deep {
			l = uncut{v, d}
		}
	}
	outwards := 0.0
	first := int(math.Floor(s.to))
	for k := first; float64(k) < s.to+skip; k++ {
		p := o.ps[k%n]
		lo, hi := max(0, s.to-float64(k)), min(1, s.to+skip-float64(k))
		if hi <= lo {
			continue
		}
		look(p.At(lo))
		look(p.At(hi))
		if p.Turn != 0 {
			for f := 0.125; f < 1; f += 0.125 {
				look(p.At(lo + (hi-lo)*f))
			}
			outwards += max(0, p.Turn*(hi-lo))
		}
		if hi == 1 && float64(k+1) < s.to+skip-1e-9 {
			q := o.ps[(k+1)%n]
			e, b := p.End(), q.Start()
			outwards += max(0, math.Atan2(geom.Cross2(e, b), e.Dot(b)))
		}
	}
	round := func(s strand) bool { return s.corner || s.Turn > 0 }
	switch {
	case l.deep <= shallow:
	case outwards > leftTurn, round(s) && round(next):
		whole = true
	case s.corner || next.corner:
		whole = l.deep > o.d/2+shallow
	}
	return l, whole
}

// noteUncut tells of the corners and notches that the cut leaves closed at their points; those cut to mark bends lose
// nothing by it.
func (b *blank) noteUncut(what string, kerf float64, left []uncut) {
	n, most := 0, uncut{}
	for _, l := range left {
		if slices.Contains(b.vees, l.point) {
			continue
		}
		n++
		if l.deep > most.deep {
			most = l
		}
	}
	where := b.spot(most.point)
	switch {
	case n == 1:
		b.note("The cut of %.2f mm does not reach the point of a notch of %s at %s: the last %.1f mm stay uncut.", kerf, what, where, most.deep)
	case n > 1:
		b.note("The cut of %.2f mm does not reach the points of %d notches of %s: up to %.1f mm stay uncut, most at %s.", kerf, n, what, most.deep, where)
	}
}
