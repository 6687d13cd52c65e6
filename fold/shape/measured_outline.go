package shape

// This file judges a base's outline: what no base can have, at its side.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// checkOutline refuses corners (mm), joined by straight sides, that make no base: see checkLines.
func checkOutline(p []geom.Vec2, pathOf func(i int) string) []*Problem {
	return checkLines(around(p), pathOf)
}

// checkLines refuses sides (mm), each from where the one before ends, that make no base: fewer than
// three, one of no length, sides that cross or lie on each other, that fold back, without area between
// them. pathOf is the field of side i. They may run either way round.
func checkLines(lines []sideLine, pathOf func(i int) string) []*Problem {
	if len(lines) < 3 {
		return []*Problem{{pathOf(0), fmt.Sprintf("%d corners", len(lines)), "3 or more"}}
	}
	var out []*Problem
	for i, l := range lines {
		if !finite(l.a) || l.through != nil && !finite(*l.through) {
			return []*Problem{{pathOf(i), "a corner that lies nowhere", fmt.Sprintf("corners within %s mm", fig(fold.MaxSize))}}
		}
		if !(l.b.Sub(l.a).Len() >= fold.MinSize) {
			out = append(out, &Problem{pathOf(i), fmt.Sprintf("side %d, from corner %d to %d, of no length", i+1, i+1, (i+1)%len(lines)+1), "corners in different places, or one of the two left out"})
		}
	}
	if len(out) > 0 {
		return out
	}
	p, side := pieces(lines)
	n := len(p)
	for i := range p {
		a, b, c := p[(i+n-1)%n], p[i], p[(i+1)%n]
		u, v := b.Sub(a).Normalize(), c.Sub(b).Normalize()
		if u.Dot(v) < 0 && math.Abs(geom.Cross2(u, v)) < leastTurn {
			out = append(out, &Problem{pathOf(side[i]), fmt.Sprintf("side %d, which runs back along the side before it", side[i]+1), "sides with metal between them"})
		}
	}
	if len(out) > 0 {
		return out
	}
	told := map[[2]int]bool{}
	for _, c := range crossing(p) {
		pair := [2]int{side[c[0]], side[c[1]]}
		if told[pair] || len(out) >= 10 {
			continue
		}
		told[pair] = true
		out = append(out, &Problem{pathOf(pair[1]), fmt.Sprintf("side %d, which meets side %d", pair[1]+1, pair[0]+1), "an outline whose sides meet at its corners alone"})
	}
	if len(out) == 0 && geom.Loop(p).Spread() < fold.MinSize*fold.MinSize {
		out = append(out, &Problem{pathOf(0), "corners on one line", "corners with metal between them"})
	}
	return out
}

// pieces are the sides with their arcs cut into chords that stay within outlineChord of them: p[i] begins
// a piece of the side side[i].
func pieces(lines []sideLine) (p []geom.Vec2, side []int) {
	for i, l := range lines {
		p, side = append(p, l.a), append(side, i)
		if l.through == nil {
			continue
		}
		o, ok := circle(l.a, *l.through, l.b)
		if !ok {
			continue
		}
		d := l.a.Sub(o)
		turn := func(q geom.Vec2) float64 { // counter-clockwise from a
			w := math.Atan2(geom.Cross2(d, q.Sub(o)), d.Dot(q.Sub(o)))
			if w < 0 {
				w += 2 * math.Pi
			}
			return w
		}
		all := turn(l.b)
		if turn(*l.through) > all {
			all -= 2 * math.Pi
		}
		count := min(maxPieces, 2+int(math.Abs(all)*math.Sqrt(d.Len()/(8*outlineChord))))
		for k := 1; k < count; k++ {
			sin, cos := math.Sincos(all * float64(k) / float64(count))
			p = append(p, o.Add(geom.Vec2{d[0]*cos - d[1]*sin, d[0]*sin + d[1]*cos}))
			side = append(side, i)
		}
	}
	return p, side
}

func finite(p geom.Vec2) bool {
	return math.Abs(p[0]) <= fold.MaxSize*2 && math.Abs(p[1]) <= fold.MaxSize*2
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
	geom.SortStable(order, func(i, j int) int {
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
	geom.SortStable(out, func(x, y [2]int) int {
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
