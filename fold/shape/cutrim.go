package shape

// This file holds the edge of a blank as it is cut: straight and round pieces, arcs as arcs.
// cutpass.go finds its narrow places, cut.go says what tool makes what.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// cutRim is one straight or round piece of a blank's edge, in mm. The metal lies on its left.
type cutRim struct {
	a, b        geom.Vec2
	arc         bool
	o           geom.Vec2 // an arc's centre
	r           float64
	from, sweep float64 // an arc's angle at a, and how far it turns, counter-clockwise positive, radians
	whole       bool    // a round hole: it has no ends
	contour     int     // 0 the outline, then cutouts, then holes
	index       int     // the edge of the contour as the file gives it; of several in one line the longest
	prev, next  int
}

// cutRims are the pieces of the blank's edge. Neighbours that go on in one line or on one circle are one
// piece. A contour that encloses nothing is left out.
func cutRims(s fold.Spec) []cutRim {
	k := s.Units.Scale()
	var out []cutRim
	add := func(list []cutRim) {
		n := len(out)
		for i := range list {
			list[i].prev = n + (i+len(list)-1)%len(list)
			list[i].next = n + (i+1)%len(list)
		}
		out = append(out, list...)
	}
	add(contourCutRims(s.Outline, k, 0, true))
	for i, c := range s.Cutouts {
		add(contourCutRims(c, k, 1+i, false))
	}
	for i, h := range s.Holes {
		r, o := h.Diameter*k/2, h.At.Mul(k)
		at := o.Add(geom.Vec2{r, 0})
		add([]cutRim{{a: at, b: at, arc: true, o: o, r: r, sweep: -2 * math.Pi, whole: true, contour: 1 + len(s.Cutouts) + i}})
	}
	return out
}

// contourCutRims are the pieces of one contour, counter-clockwise if ccw, else clockwise.
func contourCutRims(c fold.Contour, k float64, id int, ccw bool) []cutRim {
	var list []cutRim
	var area float64
	for i, v := range c {
		index := (i + len(c) - 1) % len(c)
		e := cutRim{a: c[index].At.Mul(k), b: v.At.Mul(k), contour: id, index: index}
		if e.b.Sub(e.a).Len() <= fold.Weld {
			continue
		}
		if v.Through != nil {
			e.bend(v.Through.Mul(k))
		}
		list = append(list, e)
		o := c[0].At.Mul(k)
		area += geom.Cross2(e.a.Sub(o), e.b.Sub(o)) / 2
		if e.arc {
			area += e.r * e.r / 2 * (e.sweep - math.Sin(e.sweep))
		}
	}
	if len(list) < 2 || area == 0 {
		return nil
	}
	// Gaps that dropped points left are closed.
	for i := range list {
		list[i].a = list[(i+len(list)-1)%len(list)].b
	}
	if (area > 0) != ccw {
		for i, j := 0, len(list)-1; i < j; i, j = i+1, j-1 {
			list[i], list[j] = list[j], list[i]
		}
		for i := range list {
			e := &list[i]
			e.a, e.b = e.b, e.a
			e.from, e.sweep = e.from+e.sweep, -e.sweep
		}
	}
	return joinedRims(list)
}

// bend makes the piece the arc through a point, where the three lie on no line.
func (e *cutRim) bend(via geom.Vec2) {
	ab, ac := via.Sub(e.a), e.b.Sub(e.a)
	d := 2 * geom.Cross2(ab, ac)
	if math.Abs(d) <= flatArc*(ab.Dot(ab)+ac.Dot(ac)) {
		return
	}
	o := geom.Vec2{ac[1]*ab.Dot(ab) - ab[1]*ac.Dot(ac), ab[0]*ac.Dot(ac) - ac[0]*ab.Dot(ab)}.Mul(1 / d)
	e.arc, e.o, e.r = true, e.a.Add(o), o.Len()
	e.from = math.Atan2(-o[1], -o[0])
	to := e.b.Sub(e.o)
	e.sweep = wholeTurn(math.Atan2(to[1], to[0]) - e.from)
	if mid := via.Sub(e.o); wholeTurn(math.Atan2(mid[1], mid[0])-e.from) > e.sweep {
		e.sweep -= 2 * math.Pi
	}
}

// wholeTurn is an angle from 0 to under a whole turn.
func wholeTurn(a float64) float64 {
	a = math.Mod(a, 2*math.Pi)
	if a < 0 {
		a += 2 * math.Pi
	}
	return a
}

// joinedRims makes one piece of neighbours in one line or on one circle.
func joinedRims(list []cutRim) []cutRim {
	var out []cutRim
	for _, e := range list {
		if n := len(out); n > 0 && out[n-1].goesOn(&e) {
			out[n-1].take(&e)
			continue
		}
		out = append(out, e)
	}
	for n := len(out); n > 1 && out[n-1].goesOn(&out[0]); n = len(out) {
		out[n-1].take(&out[0])
		out[0] = out[n-1]
		out = out[:n-1]
	}
	if e := &out[0]; len(out) == 1 && e.arc && math.Abs(math.Abs(e.sweep)-2*math.Pi) < wholeRound {
		e.whole, e.b = true, e.a
		e.sweep = math.Copysign(2*math.Pi, e.sweep)
	}
	return out
}

// goesOn reports that f, which begins where e ends, is its straight or round continuation.
func (e *cutRim) goesOn(f *cutRim) bool {
	if e.arc != f.arc {
		return false
	}
	if e.arc {
		return e.o.Sub(f.o).Len() <= fold.Weld && math.Abs(e.r-f.r) <= fold.Weld && e.sweep*f.sweep > 0
	}
	d, _ := geom.SegmentDistance(e.b, e.a, f.b)
	return d <= fold.Weld && e.b.Sub(e.a).Dot(f.b.Sub(f.a)) > 0
}

func (e *cutRim) take(f *cutRim) {
	if f.length() > e.length() {
		e.index = f.index
	}
	e.b = f.b
	e.sweep += f.sweep
}

func (e *cutRim) length() float64 {
	if e.arc {
		return e.r * math.Abs(e.sweep)
	}
	return e.b.Sub(e.a).Len()
}

// inside reports that the piece is round and hollow: the middle of its circle lies off the metal.
func (e *cutRim) inside() bool { return e.arc && e.sweep < 0 }

// spot is the piece's point at angle t from a of an arc.
func (e *cutRim) spot(t float64) geom.Vec2 {
	s, c := math.Sincos(e.from + t)
	return e.o.Add(geom.Vec2{c, s}.Mul(e.r))
}

// mid is the point half way along the piece.
func (e *cutRim) mid() geom.Vec2 {
	if e.arc {
		return e.spot(e.sweep / 2)
	}
	return e.a.Add(e.b).Mul(0.5)
}

// way is the unit direction in which the piece runs at its point p.
func (e *cutRim) way(p geom.Vec2) geom.Vec2 {
	if !e.arc {
		return e.b.Sub(e.a).Normalize()
	}
	n := geom.Perp(p.Sub(e.o)).Normalize()
	if e.sweep < 0 {
		n = n.Mul(-1)
	}
	return n
}

// holds reports that the point of the arc's circle in direction d from its centre is one of the arc,
// its ends left out.
func (e *cutRim) holds(d geom.Vec2) bool {
	if e.whole {
		return true
	}
	t := math.Atan2(d[1], d[0]) - e.from
	sweep := e.sweep
	if sweep < 0 {
		t, sweep = -t, -sweep
	}
	edge := fold.Weld / e.r
	t = wholeTurn(t)
	return t > edge && t < sweep-edge
}

// box holds the whole piece.
func (e *cutRim) box() geom.Box2 {
	b := geom.EmptyBox2()
	b.Add(e.a)
	b.Add(e.b)
	if e.arc {
		for _, d := range []geom.Vec2{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
			if e.holds(d) {
				b.Add(e.o.Add(d.Mul(e.r)))
			}
		}
	}
	return b
}
