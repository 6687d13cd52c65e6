package paper

// The numbers of a marking-out sheet: every corner, arc, hole and bend-line end
// as running dimensions from two datum edges, A at the left and B below,
// rounded as they are printed. They are all that the sheet says about the
// blank: rebuilt makes a part from them alone.

import (
	"math"
	"strconv"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// marks are in printed units (mm or inches), rounded, measured from A and B.
type marks struct {
	units    fold.Units
	places   int
	width    float64 // of the blank, from A
	height   float64 // from B
	contours []contour
	holes    []hole
	bends    []bend
}

// contour 0 is the outline, counter-clockwise from the corner nearest to where A
// and B meet; the others are cutouts, likewise.
type contour []corner

// corner is one numbered corner. With arc set, the edge that leads to it is an arc.
type corner struct {
	no int // numbered through all contours, from 1
	at geom.Vec2
	*arc
}

// arc from the corner before: a point on it, its centre and radius.
type arc struct {
	through, centre geom.Vec2
	radius          float64
	large           bool // more than half a turn
	ccw             bool
}

type hole struct {
	at       geom.Vec2
	diameter float64
}

// bend is a bend line's two ends, the lower (then left) first.
type bend struct {
	index int // into Part.Bends
	ends  [2]geom.Vec2
}

// takeMarks measures a part. Origin is the blank's lower left corner of its box.
func takeMarks(p *fold.Part, units fold.Units, places int) marks {
	m := marks{units: units, places: places}
	toMM := p.Spec.Units.Scale()
	origin := p.Blank.Box.Min
	place := func(v geom.Vec2) geom.Vec2 { return m.round2(v.Sub(origin).Mul(1 / units.Scale())) }
	exact := func(v geom.Vec2) geom.Vec2 { return v.Mul(toMM).Sub(origin).Mul(1 / units.Scale()) }
	size := p.Blank.Box.Size()
	m.width, m.height = m.round(size[0]/units.Scale()), m.round(size[1]/units.Scale())

	no := 0
	for _, c := range append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		var out contour
		for _, v := range tidy(c) {
			k := corner{at: exact(v.At)}
			if v.Through != nil {
				k.arc = &arc{through: exact(*v.Through)}
			}
			out = append(out, k)
		}
		for i := range out {
			if a := out[i].arc; a != nil { // from the true points: rounded ones would give another centre
				a.measure(out[(i+len(out)-1)%len(out)].at, out[i].at)
				a.through, a.centre, a.radius = m.round2(a.through), m.round2(a.centre), m.round(a.radius)
			}
		}
		for i := range out {
			out[i].at = m.round2(out[i].at)
		}
		out = fromDatum(out)
		for i := range out {
			no++
			out[i].no = no
		}
		m.contours = append(m.contours, out)
	}
	for _, h := range p.Spec.Holes {
		m.holes = append(m.holes, hole{m.round2(exact(h.At)), m.fineValue(h.Diameter * toMM)})
	}
	for i, b := range p.Bends {
		e := [2]geom.Vec2{place(b.Line[0]), place(b.Line[1])}
		if e[1][1] < e[0][1] || e[1][1] == e[0][1] && e[1][0] < e[0][0] {
			e[0], e[1] = e[1], e[0]
		}
		m.bends = append(m.bends, bend{i, e})
	}
	return m
}

// round rounds to the printed places.
func (m *marks) round(x float64) float64 {
	s := 1.0
	for range m.places {
		s *= 10
	}
	return math.Round(x*s)/s + 0 // + 0 turns -0 into 0
}

func (m *marks) round2(v geom.Vec2) geom.Vec2 { return geom.Vec2{m.round(v[0]), m.round(v[1])} }

// say writes a length as printed.
func (m *marks) say(x float64) string {
	return strconv.FormatFloat(m.round(x), 'f', m.places, 64)
}

// mm is a printed point in mm from the datum corner.
func (m *marks) mm(v geom.Vec2) geom.Vec2 { return v.Mul(m.units.Scale()) }

// tidy drops a last vertex that repeats the first.
func tidy(c fold.Contour) fold.Contour {
	n := len(c)
	if n > 1 && c[0].At == c[n-1].At && c[0].Through == nil {
		last := c[n-1]
		c = append(fold.Contour{}, c[:n-1]...)
		c[0].Through = last.Through
	}
	return c
}

// fromDatum turns a contour counter-clockwise and starts it at the corner
// nearest to the datum corner (by the sum of both distances; then the lower).
func fromDatum(c contour) contour {
	n := len(c)
	if n == 0 {
		return c
	}
	var l geom.Loop
	for _, k := range c {
		if k.arc != nil {
			l = append(l, k.through)
		}
		l = append(l, k.at)
	}
	if l.Area() < 0 {
		r := make(contour, n)
		for i := range c {
			// The edge that led from c[i-1] to c[i] now leads from c[i] to c[i-1].
			r[n-1-i] = corner{at: c[i].at}
			if a := c[(i+1)%n].arc; a != nil {
				turned := *a
				turned.ccw = !a.ccw
				r[n-1-i].arc = &turned
			}
		}
		c = r
	}
	first := 0
	for i, k := range c {
		f := c[first].at
		if s, t := k.at[0]+k.at[1], f[0]+f[1]; s < t || s == t && k.at[1] < f[1] {
			first = i
		}
	}
	return append(append(contour{}, c[first:]...), c[:first]...)
}

// measure fills in an arc's centre, radius and sense; three points in a line
// give an arc of no radius, drawn and printed as a straight edge would be.
func (a *arc) measure(from, to geom.Vec2) {
	c, r, ok := geom.Circle(from, a.through, to)
	if !ok {
		return
	}
	a.centre, a.radius = c, r
	a.ccw = geom.Cross2(a.through.Sub(from), to.Sub(from)) > 0
	// More than half a turn: the centre lies on the same side of the chord as the arc.
	side := geom.Cross2(to.Sub(from), c.Sub(from))
	a.large = side*geom.Cross2(to.Sub(from), a.through.Sub(from)) > 0
}
