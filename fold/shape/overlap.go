package shape

// This file finds flanges that lie over each other on the blank, and how short one has to be so that they don't.

import (
	"fmt"
	"math"
	"slices"

	"dryfold/fold/geom"
)

// overlap names the two flanges that share the largest piece of the blank, at the height of the one that has to lose
// less. It is nil where no two share more than a little: some mm2, as what reliefs take off is shared.
func (b *builder) overlap(little float64) *Problem {
	var x, y *panel
	most := little
	for i, n := range b.panels {
		for _, m := range b.panels[:i] {
			if n.parent == m { // the zone of a flange with insets lies within what it stands on
				continue
			}
			if a := sharedArea(n.onBlank(math.Inf(1)), m.onBlank(math.Inf(1))); a > most {
				most, x, y = a, n, m
			}
		}
	}
	if x == nil {
		return nil
	}
	best, loss, kept := (*panel)(nil), math.Inf(1), 0.0
	for _, p := range [][2]*panel{{x, y}, {y, x}} {
		n, other := p[0], p[1]
		if n.at < 0 || n.step > 0 {
			continue
		}
		high := 0.0
		for _, e := range n.loop {
			_, v := n.coord(e.a)
			high = max(high, v)
		}
		lo, hi := 0.0, high // clear at lo, if anywhere
		if sharedArea(n.onBlank(lo), other.onBlank(math.Inf(1))) > little {
			continue
		}
		for hi-lo > leastLine {
			if mid := (lo + hi) / 2; sharedArea(n.onBlank(mid), other.onBlank(math.Inf(1))) > little {
				hi = mid
			} else {
				lo = mid
			}
		}
		lo -= clearOnBlank * b.t
		if high-lo < loss && lo > b.leastFlat() {
			best, loss, kept = n, high-lo, lo
		}
	}
	area := fig(most/b.unit/b.unit) + " sq " + b.spec.Units.String()
	if best == nil {
		n := x
		if n.at < 0 {
			n = y
		}
		return &Problem{n.path + ".height", b.say(b.length("", n.flange.Height, 0)), fmt.Sprintf("an inset, or another height: on the blank %s and %s lie over each other by %s", x.name, y.name, area)}
	}
	other := x
	if best == x {
		other = y
	}
	down := math.Floor((kept/best.scale+best.zero)/b.unit*100) / 100
	return &Problem{best.path + ".height", b.say(b.length("", best.flange.Height, 0)),
		fmt.Sprintf("at most about %s %s, or %s shorter: on the blank they lie over each other by %s", fig(down), b.spec.Units, other.name, area)}
}

// onBlank is a panel's outline on the blank with its bend's zone, of a flange no higher than v over its tangent line.
func (n *panel) onBlank(v float64) geom.Loop {
	loop := n.loop
	if n.at >= 0 && !math.IsInf(v, 1) {
		loop = halfPlane(loop, clip{bottom, n.bend.N.Mul(-1), -n.bend.N.Dot(n.point(0, v))})
	}
	var out geom.Loop
	for i, e := range loop {
		if n.at >= 0 && e.side == bottom && i == 0 { // down over the zone and back
			out = append(out, e.a, n.point(n.zone[1], -n.bend.Allowance), n.point(n.zone[0], -n.bend.Allowance))
			continue
		}
		out = append(out, e.a)
	}
	return out
}

// sharedArea is the area that lies in both of two outlines, each simple: the integral over y of the length that both
// cover, which is straight between the heights of their corners and crossings.
func sharedArea(p, q geom.Loop) float64 {
	if len(p) < 3 || len(q) < 3 {
		return 0
	}
	boxes := [2]geom.Box2{geom.EmptyBox2(), geom.EmptyBox2()}
	var ys []float64
	for k, l := range []geom.Loop{p, q} {
		for _, a := range l {
			boxes[k].Add(a)
			ys = append(ys, a[1])
		}
	}
	for axis := range 2 {
		if boxes[0].Min[axis] >= boxes[1].Max[axis] || boxes[1].Min[axis] >= boxes[0].Max[axis] {
			return 0
		}
	}
	for i, a := range p {
		d := p[(i+1)%len(p)].Sub(a)
		for j, c := range q {
			e := q[(j+1)%len(q)].Sub(c)
			if den := geom.Cross2(d, e); den != 0 {
				s, t := geom.Cross2(c.Sub(a), e)/den, geom.Cross2(c.Sub(a), d)/den
				if s > 0 && s < 1 && t > 0 && t < 1 {
					ys = append(ys, a[1]+s*d[1])
				}
			}
		}
	}
	slices.Sort(ys)
	sum := 0.0
	for i := 1; i < len(ys); i++ {
		if h := ys[i] - ys[i-1]; h > 0 { // straight in between: the middle's length is the mean
			sum += h * sharedLength(crossings(p, ys[i-1]+h/2), crossings(q, ys[i-1]+h/2))
		}
	}
	return sum
}

// crossings are where a level line enters and leaves an outline, sorted.
func crossings(l geom.Loop, y float64) (xs []float64) {
	for i, a := range l {
		c := l[(i+1)%len(l)]
		if (a[1] > y) != (c[1] > y) {
			xs = append(xs, a[0]+(c[0]-a[0])*(y-a[1])/(c[1]-a[1]))
		}
	}
	slices.Sort(xs)
	return xs
}

// sharedLength is the length that lies in both of two lists of stretches.
func sharedLength(p, q []float64) (sum float64) {
	for i := 1; i < len(p); i += 2 {
		for j := 1; j < len(q); j += 2 {
			sum += max(0, min(p[i], q[j])-max(p[i-1], q[j-1]))
		}
	}
	return sum
}
