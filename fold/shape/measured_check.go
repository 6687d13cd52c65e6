package shape

// This file refuses readings that no shape has, and asks for what they lack to hold one.

import (
	"fmt"
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// ranges refuses lengths that no shape has: a side longer than all others together, and
// three lengths between three corners of which one is too long.
func (b *measuring) ranges() {
	sum, longest := 0.0, (*reading)(nil)
	for i := range b.n {
		r := b.length(i, (i+1)%b.n)
		if r == nil {
			sum, longest = 0, nil
			break
		}
		sum += r.value
		if longest == nil || r.value > longest.value {
			longest = r
		}
	}
	if longest != nil && !(longest.value < sum-longest.value) {
		b.problem(longest.path, b.say(longest.value), "less than "+b.down(sum-longest.value)+", which is all the other sides together: sides like these never close")
		return
	}
	slack := 0.0
	if len(b.given) > 2*b.n-3 {
		slack = grossMisfit * b.longest() // the fit tells more
	}
	for i := range b.n {
		for j := i + 1; j < b.n; j++ {
			for k := j + 1; k < b.n; k++ {
				x, y, z := b.length(i, j), b.length(j, k), b.length(i, k)
				if x == nil || y == nil || z == nil || triangle(x.value, y.value, z.value, slack) {
					continue
				}
				b.outOfRange([]*reading{x, y, z})
				return
			}
		}
	}
}

// triangle reports whether three lengths make a triangle that is not flat, or would if one
// were changed by less than slack.
func triangle(a, b, c, slack float64) bool {
	return a < b+c+slack && b < a+c+slack && c < a+b+slack
}

// outOfRange refuses one of three lengths that make no triangle: a diagonal, if there is one.
func (b *measuring) outOfRange(three []*reading) {
	bad := three[0]
	for _, r := range three[1:] {
		if d, e := b.diagonal(r), b.diagonal(bad); d && !e || d == e && r.value > bad.value {
			bad = r
		}
	}
	lo, hi := 0.0, math.Inf(1)
	for k := range b.n {
		if k == bad.a || k == bad.b {
			continue
		}
		if x, y := b.length(bad.a, k), b.length(k, bad.b); x != nil && y != nil {
			lo, hi = max(lo, math.Abs(x.value-y.value)), min(hi, x.value+y.value)
		}
	}
	var others []string
	for _, r := range three {
		if r != bad {
			others = append(others, r.name)
		}
	}
	need := "more than " + b.up(lo) + " and less than " + b.down(hi)
	if lo == 0 {
		need = "less than " + b.down(hi)
	}
	need += ": with " + others[0] + " and " + others[1] + " nothing else closes"
	if !(b.step(lo, math.Ceil) < b.step(hi, math.Floor)) {
		need = "another reading of it, or of " + others[0] + " or " + others[1] + ": the three close to no triangle"
	}
	b.problem(bad.path, b.say(bad.value), need)
}

func (b *measuring) diagonal(r *reading) bool {
	return r.b-r.a != 1 && !(r.a == b.n-1 && r.b == 0)
}

// missing asks for what the readings lack to hold the shape. With too few of them p is
// some shape that agrees with those there are.
func (b *measuring) missing(p []geom.Vec2) {
	h := &hold{}
	for _, r := range b.given {
		h.add(r, p)
	}
	open := 2*b.n - 3 - h.count
	if open <= 0 {
		return
	}
	why := "without it the base can still change its shape"
	if open > 1 {
		why = fmt.Sprintf("the base can still change its shape; %d more readings hold it", open)
	}
	// What the way of measuring is named for comes before the rest.
	for _, rest := range []bool{false, true} {
		for _, r := range b.blank {
			other := r.angle && b.m.Way == sizes.BySides || !r.angle && b.diagonal(&r) && b.m.Way == sizes.ByAngles
			if open == 0 || other != rest || !h.add(r, p) {
				continue
			}
			open--
			b.problem(r.path, "nothing", r.name+": "+why)
		}
	}
	if open > 0 {
		b.problem(measuredPath+".sides", "readings that don't hold the base's shape", "corners that lie farther off a straight line")
	}
}

// clockwise refuses readings that only an outline that runs clockwise has: at the widest angle.
func (b *measuring) clockwise() {
	r := b.given[0]
	for _, x := range b.given {
		if x.angle && (!r.angle || x.value > r.value) {
			r = x
		}
	}
	b.problem(r.path, b.value(r, r.value)+", in an outline that runs clockwise", "sides in order counter-clockwise seen from above, and the angles inside the base")
}

// reflex notes corners that point inwards where no angle says so.
func (b *measuring) reflex(p []geom.Vec2) {
	for i := range p {
		r := reading{a: i, angle: true}
		if x := r.model(p); x > math.Pi+leastTurn && !b.reflexGiven(i) {
			b.notes = append(b.notes, Misfit{Path: fmt.Sprintf("%s.sides[%d]", measuredPath, i), Off: 0,
				Text: fmt.Sprintf("The corner at %s points inwards by these readings: %s inside. If it does not, one of them is wrong.", b.cornerName(i), degreesWord(x))})
		}
	}
}

func (b *measuring) reflexGiven(i int) bool {
	for _, r := range b.given {
		if r.angle && r.a == i && r.value > math.Pi {
			return true
		}
	}
	return false
}
