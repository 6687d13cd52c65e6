// Contours of a part file: their normal form, and the judgement of outlines and arcs.

package partfile

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// normal is the spec as Read gives it: contours without a last point that repeats
// the first, empty lists nil, no minus zero, nothing that is made from its sizes. Its contours and lists are shared
// with s where nothing had to change.
func normal(s fold.Spec) fold.Spec {
	if s.Sizes != nil {
		s.Sizes = normalForm(s.Sizes)
		s.Outline, s.Cutouts, s.Holes, s.Bends, s.Panels, s.Base, s.Seams = nil, nil, nil, nil, nil, "", nil
	}
	s.Outline = normalContour(s.Outline)
	var cutouts []fold.Contour
	for _, c := range s.Cutouts {
		cutouts = append(cutouts, normalContour(c))
	}
	s.Cutouts = cutouts
	s.Holes = nilIfEmpty(s.Holes)
	s.Bends = nilIfEmpty(s.Bends)
	s.Panels = nilIfEmpty(s.Panels)
	s.Seams = nilIfEmpty(s.Seams)
	s.Order = nilIfEmpty(s.Order)
	s.Joins = nilIfEmpty(s.Joins)
	s.Metals = nilIfEmpty(s.Metals)
	s.Tests = nilIfEmpty(s.Tests)
	return s
}

func nilIfEmpty[T any](l []T) []T {
	if len(l) == 0 {
		return nil
	}
	return l
}

func normalContour(c fold.Contour) fold.Contour {
	for n := len(c); n > 1 && c[n-1].At == c[0].At && c[0].Through == nil; n-- {
		arc := c[n-1].Through
		c = c[: n-1 : n-1]
		if arc != nil {
			c = append(fold.Contour(nil), c...)
			c[0].Through = arc
		}
	}
	return c
}

// contours judges the outline and the cutouts: counts, coordinates, arcs, and
// that each holds some area.
func (c *checker) contours(p *path) {
	total := 0
	one := func(p *path, k fold.Contour) {
		if total += len(k); total > fold.MaxOutline {
			c.fail(p, fmt.Sprintf("more than %d points in all outlines together", fold.MaxOutline),
				fmt.Sprintf("at most %d", fold.MaxOutline))
			return
		}
		if c.err == nil {
			c.contour(p, k)
		}
	}
	one(p.field("outline"), c.spec.Outline)
	for i, k := range c.spec.Cutouts {
		one(p.field("cutouts").item(i), k)
	}
}

func (c *checker) contour(p *path, k fold.Contour) {
	arcs := 0
	var through geom.Loop // every given point in order
	for i, v := range k {
		to := p.item(i)
		if v.Through != nil {
			arcs++
			to = to.field("to")
		}
		c.point(to, v.At)
		if v.Through != nil {
			c.point(p.item(i).field("through"), *v.Through)
			from := k[(i+len(k)-1)%len(k)].At
			if c.err == nil {
				c.arc(p.item(i).field("through"), from, *v.Through, v.At)
			}
			through = append(through, *v.Through)
		}
		through = append(through, v.At)
		if c.err != nil {
			return
		}
	}
	if len(k) < 2 || len(k) < 3 && arcs == 0 {
		c.fail(p, fmt.Sprintf("an outline of %d points", len(k)), contourNeed)
		return
	}
	scale := c.spec.Units.Scale()
	if through.Spread()*scale*scale < minArea { // one that crosses itself is the kernel's matter
		c.fail(p, "an outline that encloses no area", "points that go round an area once")
	}
}

func (c *checker) arc(p *path, from, through, to geom.Vec2) {
	switch {
	case from == to:
		c.fail(p, "an arc that ends where it began", "two arcs for a full circle, or one of the holes")
	case through == from || through == to:
		c.fail(p, "an end of the arc", "a point between the arc's ends")
	default:
		r, sweep := arcOf(from, through, to)
		if sweep > math.Pi && !(r*c.spec.Units.Scale() <= fold.MaxSize) {
			c.fail(p, "a point in line with the arc's ends but not between them", "a point on the arc")
		}
	}
}

// arcOf is the radius and the angle (radians, 0 to 2 pi) of the arc. A straight
// one has an infinite radius and no angle, or, where through is not between the
// ends, 2 pi.
func arcOf(from, through, to geom.Vec2) (r, sweep float64) {
	a, b := from.Sub(through), to.Sub(through)
	cross := geom.Cross2(a, b)
	// The angle seen from through is half of what is left of the circle.
	seen := math.Atan2(math.Abs(cross), a.Dot(b))
	if cross == 0 {
		if a.Dot(b) > 0 {
			return math.Inf(1), 2 * math.Pi
		}
		return math.Inf(1), 0
	}
	return to.Sub(from).Len() / (2 * math.Sin(seen)), 2 * (math.Pi - seen)
}

// chords bounds how many chords all arcs and holes need.
func (c *checker) chords(p *path) {
	if c.err != nil {
		return
	}
	scale, sum := c.spec.Units.Scale(), 0.0
	add := func(r, sweep float64) {
		if x := fold.ArcChord / (r * scale); x > 0 {
			sum += 1 + sweep/(2*math.Acos(max(1-x, -1)))
		}
	}
	one := func(k fold.Contour) {
		for i, v := range k {
			if v.Through != nil {
				add(arcOf(k[(i+len(k)-1)%len(k)].At, *v.Through, v.At))
			}
		}
	}
	one(c.spec.Outline)
	for _, k := range c.spec.Cutouts {
		one(k)
	}
	for _, h := range c.spec.Holes {
		add(h.Diameter/2, 2*math.Pi)
	}
	if sum > fold.MaxChords {
		c.fail(p, fmt.Sprintf("arcs and holes of %.0f chords", sum),
			fmt.Sprintf("at most %d, each within %g mm of its arc", fold.MaxChords, fold.ArcChord))
	}
}
