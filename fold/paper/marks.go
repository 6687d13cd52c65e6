package paper

// The numbers of a marking-out sheet: every corner, arc, hole and bend-line end
// as running dimensions from two datum edges, A at the left and B below,
// rounded as they are printed. They are all that the sheet says about the
// blank: rebuilt makes a part from them alone.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// marks are in printed units (mm or inches), rounded as the rule shows, measured from A and B. What is called exact is
// the same without rounding.
type marks struct {
	units    fold.Units
	rule     ruler
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
	no        int // numbered through all contours, from 1
	at, exact geom.Vec2
	*arc
}

// arc from the corner before: a point on it, its centre and radius. The radius is printed as fine as the part has it:
// dividers are set by it, and a rounded one would not reach from corner to corner.
type arc struct {
	through, centre geom.Vec2
	via             geom.Vec2 // through, exact
	radius          float64
	large           bool // more than half a turn
	ccw             bool
}

type hole struct {
	at, exact geom.Vec2
	diameter  float64
}

// The lines of a bend that are marked out.
const (
	sightLine = iota // the mark for the nose
	heldLine         // the tangent line at the held side
	bendLine         // the middle
	farLine          // the tangent line at the side that swings
	bendLines        // how many they are
)

var lineNames = [bendLines]string{"mark", "held tangent", "middle", "far tangent"}

// bend is a bend's lines.
type bend struct {
	index int // into Part.Bends
	lines [bendLines]line
}

// line is a straight line's two ends, the lower (then left) first.
type line struct {
	ends, exact [2]geom.Vec2
	along       int // 0 along A: both ends are as far from A; 1 along B; -1 neither
}

// takeMarks measures a part. Origin is the blank's lower left corner of its box.
func takeMarks(p *fold.Part, r ruler) marks {
	units := r.units
	m := marks{units: units, rule: r}
	toMM := p.Spec.Units.Scale()
	origin := p.Blank.Box.Min
	exact := func(v geom.Vec2) geom.Vec2 { return v.Mul(toMM).Sub(origin).Mul(1 / units.Scale()) }
	size := p.Blank.Box.Size()
	m.width, m.height = m.round(size[0]/units.Scale()), m.round(size[1]/units.Scale())

	no := 0
	for _, c := range append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		var out contour
		for _, v := range tidy(c) {
			k := corner{exact: exact(v.At)}
			if v.Through != nil {
				k.arc = &arc{through: exact(*v.Through), via: exact(*v.Through)}
			}
			out = append(out, k)
		}
		for i := range out {
			if a := out[i].arc; a != nil { // from the true points: rounded ones would give another centre
				a.measure(out[(i+len(out)-1)%len(out)].exact, out[i].exact)
				a.through, a.centre, a.radius = m.round2(a.through), m.round2(a.centre), m.radius(a.radius)
			}
		}
		for i := range out {
			out[i].at = m.round2(out[i].exact)
		}
		out = fromDatum(out)
		for i := range out {
			no++
			out[i].no = no
		}
		m.contours = append(m.contours, out)
	}
	for _, h := range p.Spec.Holes {
		m.holes = append(m.holes, hole{m.round2(exact(h.At)), exact(h.At), m.fineValue(h.Diameter * toMM)})
	}
	for i := range p.Bends {
		b := &p.Bends[i]
		out := bend{index: i}
		for k, s := range [bendLines]float64{sightLine: b.Radius, heldLine: 0, bendLine: b.Allowance / 2, farLine: b.Allowance} {
			out.lines[k] = m.line(b.LineAt(s), origin, size)
		}
		m.bends = append(m.bends, out)
	}
	return m
}

// line measures a line of the blank (mm, file axes); what of it lies beyond A or B can't be measured, and is left out.
func (m *marks) line(l [2]geom.Vec2, origin, size geom.Vec2) line {
	e := [2]geom.Vec2{l[0].Sub(origin), l[1].Sub(origin)}
	for axis := range 2 {
		for i := range e {
			to := min(max(e[i][axis], 0), size[axis])
			if d := e[1-i][axis] - e[i][axis]; to != e[i][axis] && math.Abs(d) > squareEnough {
				if t := (to - e[i][axis]) / d; t < 1 {
					e[i] = e[i].Add(e[1-i].Sub(e[i]).Mul(t))
				}
			}
		}
	}
	if e[1][1] < e[0][1]-squareEnough || e[1][1] <= e[0][1]+squareEnough && e[1][0] < e[0][0] {
		e[0], e[1] = e[1], e[0]
	}
	out := line{along: -1}
	for axis := range 2 {
		if math.Abs(e[0][axis]-e[1][axis]) <= squareEnough && math.Abs(e[0][1-axis]-e[1][1-axis]) > squareEnough {
			out.along = axis
			mid := (e[0][axis] + e[1][axis]) / 2
			e[0][axis], e[1][axis] = mid, mid
		}
	}
	for i := range e {
		out.exact[i] = e[i].Mul(1 / m.units.Scale())
		out.ends[i] = m.round2(out.exact[i])
	}
	return out
}

// round rounds to what the rule shows.
func (m *marks) round(x float64) float64 { return m.rule.round(x) }

func (m *marks) round2(v geom.Vec2) geom.Vec2 { return geom.Vec2{m.round(v[0]), m.round(v[1])} }

// radius rounds an arc's radius as it is printed: as dividers can be set.
func (m *marks) radius(r float64) float64 {
	k := 1e2
	if m.units == fold.Inch {
		k = 1e4
	}
	return math.Round(r*k) / k
}

// say writes a length as printed.
func (m *marks) say(x float64) string { return m.rule.say(x) }

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
			l = append(l, k.via)
		}
		l = append(l, k.exact)
	}
	if l.Area() < 0 {
		r := make(contour, n)
		for i := range c {
			// The edge that led from c[i-1] to c[i] now leads from c[i] to c[i-1].
			r[n-1-i] = corner{at: c[i].at, exact: c[i].exact}
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
		f := c[first].exact
		if s, t := k.exact[0]+k.exact[1], f[0]+f[1]; s < t-1e-6 || s <= t+1e-6 && k.exact[1] < f[1]-1e-6 {
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

// drawn is the point halfway along the arc as a hand draws it from one printed corner to the next: by its radius, or,
// where it turns by more than a third, about its printed centre.
func (a *arc) drawn(from, to geom.Vec2) geom.Vec2 {
	mid, d := from.Add(to).Mul(0.5), to.Sub(from)
	l := d.Len()
	if l == 0 || a.radius == 0 {
		return mid
	}
	out := geom.Vec2{d[1] / l, -d[0] / l} // to the right, where an arc that turns left bulges
	if !a.ccw {
		out = out.Mul(-1)
	}
	r := max(a.radius, l/2)
	high := r - math.Sqrt(max(0, r*r-l*l/4))
	if a.large || l > 1.7*r {
		if h := a.centre.Sub(mid).Dot(out) + r; h > 0 {
			high = h
		}
	}
	return mid.Add(out.Mul(high))
}
