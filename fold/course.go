package fold

// This file follows the gap along a stretch of a seam where the panels do not lie in each other, and misses nothing on the way:
// neither a dip nor a hump, however narrow. profile.go makes a seam's figures of it.
//
// There the gap is the least of distances, each of one edge's section across the thickness, as it goes along, to one
// convex piece of the other panel. Such a distance is convex along the seam: between two places it lies under its chord, and
// over its tangents at both. So over any span the gap lies under the lowest of the chords and over the lowest of the tangents;
// spans are cut until the two are near enough for what is asked. The slope of a distance is that of the way between its
// nearest points.

import (
	"math"
	"slices"

	"dryfold/fold/geom"
)

// gapFunc is one of the distances: of a section that goes along, to a convex piece of the other panel.
type gapFunc struct {
	side *seamSide // of the piece
	loop geom.Loop
}

// gapAt is a distance at a place, and its slope along the seam.
type gapAt struct{ d, slope float64 }

// live is a distance that may be the least somewhere in a span, at the span's ends.
type live struct {
	f    int
	a, b gapAt
}

// span is a stretch with all distances that may be the least in it. Places are from the seam's start.
type span struct {
	a, b   float64
	live   []live
	ia, ib int // the least in live at a and b
}

func (s *span) atA() float64 { return s.live[s.ia].a.d }
func (s *span) atB() float64 { return s.live[s.ib].b.d }

// gapCourse is the gap along a stretch.
type gapCourse struct {
	t        float64 // sheet thickness
	fs       []gapFunc
	noise    float64 // what rounding makes of a nearest point (mm)
	left     int     // distances that may still be taken
	min, max float64 // of all places that were looked at
	scale    float64 // of the gap, for the integral
	length   float64 // of the seam
}

// courseWork, and courseEach for each piece that may come near, bound how many distances are taken along one seam: about a tenth of a
// second. What is not settled then stays as near as it is. A straight seam takes some ten.
const (
	courseWork = 20_000
	courseEach = 100
)

// courseTie: of two distances that differ by less, one is left out (mm).
const courseTie = 1e-11

// newCourse is the gap along the whole seam, and its span.
func newCourse(l *seamLine) (*gapCourse, span) {
	c := &gapCourse{t: l.t, left: courseWork, min: math.Inf(1), max: math.Inf(-1), length: l.hi - l.lo}
	var all []live
	for _, x := range []*seamSide{&l.b, &l.a} {
		for i := range x.pieces {
			p := &x.pieces[i]
			all = append(all, live{len(c.fs), p.ends[0], p.ends[1]})
			c.fs = append(c.fs, gapFunc{x, p.loop})
		}
		for i := range 3 {
			c.noise = max(c.noise, math.Abs(x.u[i]), math.Abs(x.v[i]))
		}
	}
	c.left += courseEach * len(all)
	c.noise = 0x1p-51 * (c.noise + c.length)
	s := c.span(0, c.length, all)
	c.scale = max(1e-3, (s.atA()+s.atB())/2)
	return c, s
}

// take is distance f at a place.
func (c *gapCourse) take(f int, at float64) gapAt {
	c.left--
	x := c.fs[f].side
	way := x.w.Mul(at)
	return gapSlope(x.w, x.u.Add(way), x.v.Add(way), c.fs[f].loop, c.t)
}

// gapSlope is the distance of the segment u-v to a prism, and its slope when the segment moves along w.
func gapSlope(w, u, v geom.Vec3, loop geom.Loop, t float64) gapAt {
	d, on, near := segmentToPrism(u, v, loop, t)
	if d == 0 {
		return gapAt{}
	}
	return gapAt{d, on.Sub(near).Dot(w) / d}
}

// span makes a span, without the distances that can't be the least in it. It keeps the list that it is given as it is.
func (c *gapCourse) span(a, b float64, all []live) span {
	s := span{a: a, b: b}
	ia, ib := 0, 0
	for i := range all {
		if all[i].a.d < all[ia].a.d {
			ia = i
		}
		if all[i].b.d < all[ib].b.d {
			ib = i
		}
	}
	s.live = make([]live, 0, len(all))
	for i := range all {
		if i != ia && i != ib && (c.above(&all[i], &all[ia], b-a) || c.above(&all[i], &all[ib], b-a)) {
			continue
		}
		if i == ia {
			s.ia = len(s.live)
		}
		if i == ib {
			s.ib = len(s.live)
		}
		s.live = append(s.live, all[i])
	}
	c.look(s.atA())
	c.look(s.atB())
	return s
}

func (c *gapCourse) look(d float64) { c.min, c.max = min(c.min, d), max(c.max, d) }

// above reports whether k lies over the chord of o all along.
func (c *gapCourse) above(k, o *live, h float64) bool {
	if k.a.d < o.a.d-courseTie || k.b.d < o.b.d-courseTie {
		return false
	}
	t, v, _, _ := c.under(k, h)
	return v >= o.a.d+(o.b.d-o.a.d)*t/h-courseTie
}

// under gives where k's tangents at the ends of a span of length h meet, from its start, and their height and slopes there. Slopes are
// taken steeper by what rounding makes of them: it turns the way between nearest points by so much over their distance.
func (c *gapCourse) under(k *live, h float64) (t, v, sa, sb float64) {
	fa, fb := k.a.d, k.b.d
	if fa > 0 {
		sa = k.a.slope - c.noise/fa
	}
	if fb > 0 {
		sb = k.b.slope + c.noise/fb
	}
	if t = h / 2; sb > sa {
		t = max(0, min(h, (fa-fb+sb*h)/(sb-sa)))
	}
	return t, max(0, fa+sa*t, fb-sb*(h-t)), sa, sb
}

// bracket is what is known of the gap between the ends of a span. Places are from its start.
type bracket struct {
	least, leastAt float64 // it is nowhere less; about where it may be so
	most, mostAt   float64 // it is nowhere more; and where that may be
	over           float64 // how far it may rise over the straight line between its ends
	under, underAt float64 // and fall under it
}

func (c *gapCourse) bracket(s *span) (o bracket) {
	h := s.b - s.a
	fa, fb := s.atA(), s.atB()
	line := func(t float64) float64 { return fa + (fb-fa)*t/h }
	o.most, o.mostAt, o.underAt = max(fa, fb), h/2, h/2
	if i, j := &s.live[s.ia], &s.live[s.ib]; s.ia != s.ib {
		if da, db := j.a.d-fa, i.b.d-fb; da+db > 0 { // where the chords of the two cross
			t := h * da / (da + db)
			v := fa + (i.b.d-fa)*t/h
			o.mostAt, o.most, o.over = t, max(o.most, v), v-line(t)
		}
	}
	o.least = math.Inf(1)
	for k := range s.live {
		x := &s.live[k]
		t, v, sa, sb := c.under(x, h)
		if u := line(t) - v; u > o.under {
			o.under, o.underAt = u, t
		}
		switch {
		case sa >= 0:
			v = x.a.d
		case sb <= 0:
			v = x.b.d
		}
		if v < o.least {
			o.least, o.leastAt = v, t
		}
	}
	return o
}

// cut cuts a span at a place from its start, or at its middle where that is too near an end.
func (c *gapCourse) cut(s *span, at float64) (left, right span) {
	h := s.b - s.a
	if !(at > 1e-9*h && at < h-1e-9*h) {
		at = h / 2
	}
	x := s.a + at
	l, r := make([]live, len(s.live)), make([]live, len(s.live))
	for i, k := range s.live {
		m := c.take(k.f, x)
		l[i], r[i] = live{k.f, k.a, m}, live{k.f, m, k.b}
	}
	return c.span(s.a, x, l), c.span(x, s.b, r)
}

// within is the part of a span between two places.
func (c *gapCourse) within(s *span, a, b float64) span {
	l := make([]live, len(s.live))
	for i, k := range s.live {
		l[i] = live{k.f, c.take(k.f, a), c.take(k.f, b)}
	}
	return c.span(a, b, l)
}

const (
	// courseDepth bounds how often a span is halved, two cuts at a time.
	courseDepth = 80
	// courseShort: shorter spans are not cut (mm).
	courseShort = 1e-9
	// leafError: spans of a course are straight to within this (mm); the rest of ProfileError is for joining them.
	leafError = ProfileError / 4
	// meanError: the integral is as near as this of the gap's size, about: a fifth of what is promised.
	meanError = 2e-7
)

// leaf is a span that is as straight as is asked, and how far it may be from straight.
type leaf struct {
	span
	err float64
}

// settled is how near the least and the largest gap are to be known (mm). Rounding makes it coarser where edges all but touch, and on
// seams of many metres.
func (c *gapCourse) settled(gap float64) float64 {
	if gap < 1e-3 || c.noise*c.length > 1e-9*gap {
		return 1e-7
	}
	return 1e-9
}

// follow cuts a span into leaves, and gives the integral of the gap over it.
func (c *gapCourse) follow(s span, depth int, out *[]leaf) float64 {
	h := s.b - s.a
	o := c.bracket(&s)
	sum := h / 2 * (s.atA() + s.atB())
	miss := o.over + o.under
	if h <= courseShort || depth >= courseDepth || c.left <= 0 ||
		miss <= leafError && (miss <= meanError*c.scale || miss*h <= meanError/10*c.scale*c.length) {
		*out = append(*out, leaf{s, max(o.over, o.under)})
		return sum
	}
	at := h / 2
	switch {
	case depth%2 == 1: // now and then at the middle, so that spans do get shorter
	case o.over > o.under:
		at = o.mostAt
	case miss > leafError:
		at = o.underAt
	}
	l, r := c.cut(&s, at)
	if miss <= leafError && s.ia == s.ib && at == h/2 {
		// By slopes at the ends an integral is as near as by the fourth power of the length.
		i := &s.live[s.ia]
		whole := sum + h*h/12*(i.a.slope-i.b.slope)
		half := c.byEnds(&l) + c.byEnds(&r)
		if math.Abs(whole-half) <= meanError*c.scale*h {
			*out = append(*out, leaf{s, max(o.over, o.under)})
			return half
		}
	}
	return c.follow(l, depth+1, out) + c.follow(r, depth+1, out)
}

func (c *gapCourse) byEnds(s *span) float64 {
	h := s.b - s.a
	return h/2*(s.atA()+s.atB()) + h*h/12*(s.live[s.ia].a.slope-s.live[s.ib].b.slope)
}

// settle cuts spans on until the least gap is known, and the largest if that is asked too.
func (c *gapCourse) settle(s leaf, both bool, depth int, out *[]leaf) {
	o := c.bracket(&s.span)
	low := o.least < c.min-c.settled(c.min)
	high := both && o.most > c.max+c.settled(c.max)
	if !low && !high || s.b-s.a <= courseShort || depth >= courseDepth || c.left <= 0 {
		*out = append(*out, s)
		return
	}
	at := o.mostAt
	if low {
		at = o.leastAt
	}
	if depth%2 == 1 {
		at = (s.b - s.a) / 2
	}
	l, r := c.cut(&s.span, at)
	a, b := c.bracket(&l), c.bracket(&r)
	c.settle(leaf{l, max(a.over, a.under)}, both, depth+1, out)
	c.settle(leaf{r, max(b.over, b.under)}, both, depth+1, out)
}

// least is the least gap over spans.
func (c *gapCourse) least(spans []span) float64 {
	var done []leaf
	for _, s := range spans {
		c.settle(leaf{span: s}, false, 0, &done)
	}
	return c.min
}

// lapLevel is a stretch on which the panels lie in each other, and how deep.
type lapLevel struct{ a, b, depth float64 }

// levels are the stretches of a seam on which the panels lie in each other, in order, without overlaps: where several pairs of pieces
// do, the deepest counts. Places are from the seam's start.
func (l *seamLine) levels() (out []lapLevel) {
	if len(l.laps) == 0 {
		return nil
	}
	length := l.hi - l.lo
	ends := []float64{0, length}
	for _, o := range l.laps {
		ends = append(ends, max(0, min(length, o.lo-l.lo)), max(0, min(length, o.hi-l.lo)))
	}
	slices.Sort(ends)
	ends = slices.Compact(ends)
	for i := range ends[1:] {
		a, b := ends[i], ends[i+1]
		k := slices.IndexFunc(l.laps, func(o lap) bool { return o.lo-l.lo <= a && o.hi-l.lo >= b }) // deepest first
		if k < 0 {
			continue
		}
		d := l.laps[k].depth
		if n := len(out) - 1; n >= 0 && out[n].b == a && out[n].depth == d {
			out[n].b = b
			continue
		}
		out = append(out, lapLevel{a, b, d})
	}
	return out
}

// free cuts a seam's span where the panels lie in each other; what is left lies between levels.
func (c *gapCourse) free(s span, levels []lapLevel) (out []span) {
	if len(levels) == 0 {
		return []span{s}
	}
	c.min, c.max = math.Inf(1), math.Inf(-1)
	at := s.a
	for _, k := range append(slices.Clone(levels), lapLevel{s.b, s.b, 0}) {
		if k.a-at > courseShort {
			out = append(out, c.within(&s, at, k.a))
		}
		at = k.b
	}
	return out
}
