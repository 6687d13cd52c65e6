package shape

// This file judges a base's outline of straight sides: what no base can have, at its side.

import (
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// checkOutline refuses corners (mm) that make no base: fewer than three, two in one place,
// sides that cross or lie on each other, sides that fold back, no area. pathOf is the field
// of side i, which runs from corner i. One problem for each place.
//
// The corners may run either way round: see counterClockwise.
func checkOutline(p []geom.Vec2, pathOf func(i int) string) []*Problem {
	n := len(p)
	if n < 3 {
		return []*Problem{{pathOf(0), fmt.Sprintf("%d corners", n), "3 or more"}}
	}
	var out []*Problem
	for i, a := range p {
		b := p[(i+1)%n]
		if !finite(a) {
			return []*Problem{{pathOf(i), "a corner that lies nowhere", fmt.Sprintf("corners within %s mm", fig(fold.MaxSize))}}
		}
		if !(b.Sub(a).Len() >= fold.MinSize) {
			out = append(out, &Problem{pathOf(i), fmt.Sprintf("side %d, from corner %d to %d, of no length", i+1, i+1, (i+1)%n+1), "corners in different places, or one of the two left out"})
		}
	}
	if len(out) > 0 {
		return out
	}
	for i := range p {
		a, b, c := p[(i+n-1)%n], p[i], p[(i+1)%n]
		if back := b.Sub(a).Normalize().Dot(c.Sub(b).Normalize()); back < 0 && math.Abs(geom.Cross2(b.Sub(a).Normalize(), c.Sub(b).Normalize())) < leastTurn {
			out = append(out, &Problem{pathOf(i), fmt.Sprintf("side %d, which runs back along the side before it", i+1), "sides with metal between them"})
		}
	}
	if len(out) > 0 {
		return out
	}
	for _, c := range crossing(p) {
		out = append(out, &Problem{pathOf(c[1]), fmt.Sprintf("side %d, which meets side %d", c[1]+1, c[0]+1), "an outline whose sides meet at its corners alone"})
		if len(out) >= 10 {
			break
		}
	}
	if len(out) == 0 && geom.Loop(p).Spread() < fold.MinSize*fold.MinSize {
		out = append(out, &Problem{pathOf(0), "corners on one line", "corners with metal between them"})
	}
	return out
}

func finite(p geom.Vec2) bool {
	return math.Abs(p[0]) <= fold.MaxSize*2 && math.Abs(p[1]) <= fold.MaxSize*2
}

// counterClockwise gives the corners counter-clockwise seen from above, the first one still
// first, and reports whether they ran the other way. Then side i is what was side n-1-i.
func counterClockwise(p []geom.Vec2) (out []geom.Vec2, turned bool) {
	if geom.Loop(p).Area() >= 0 {
		return p, false
	}
	out = append(out, p[0])
	for i := len(p) - 1; i > 0; i-- {
		out = append(out, p[i])
	}
	return out, true
}

// crossing finds pairs of sides, no neighbours, that cross or touch, in order. It looks at
// maxCrossings pairs at most.
func crossing(p []geom.Vec2) [][2]int {
	n := len(p)
	low := func(i int) float64 { return min(p[i][0], p[(i+1)%n][0]) }
	order := make([]int, n) // from left to right
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		if low(i) == low(j) {
			return 0
		}
		return sign(low(i) - low(j))
	})
	var out [][2]int
	looks := 0
	for a, i := range order {
		right := max(p[i][0], p[(i+1)%n][0]) + fold.Weld
		for _, j := range order[a+1:] {
			if looks++; low(j) > right || looks > maxCrossings {
				break
			}
			if (i+1)%n == j || (j+1)%n == i {
				continue
			}
			if meet(p[i], p[(i+1)%n], p[j], p[(j+1)%n]) {
				out = append(out, [2]int{min(i, j), max(i, j)})
			}
		}
	}
	slices.SortFunc(out, func(x, y [2]int) int {
		if x[1] != y[1] {
			return x[1] - y[1]
		}
		return x[0] - y[0]
	})
	return out
}

// meet reports whether two segments have a point in common, within the kernel's weld.
func meet(a, b, c, d geom.Vec2) bool {
	side := func(p, q, r geom.Vec2) float64 { return geom.Cross2(q.Sub(p), r.Sub(p)) }
	if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
		return true
	}
	near := func(p, q, r geom.Vec2) bool {
		dist, _ := geom.SegmentDistance(p, q, r)
		return dist < fold.Weld
	}
	return near(a, c, d) || near(b, c, d) || near(c, a, b) || near(d, a, b)
}
