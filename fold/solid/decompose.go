package solid

import (
	"cmp"
	"slices"

	"dryfold/fold/geom"
)

// Decompose cuts a region into convex pieces, counter-clockwise, that cover it
// and do not overlap. At most four times the least number (Hertel and Mehlhorn,
// 1983, from memory): triangles are joined across every edge that is not needed
// to keep the corners convex, the longest edges first. Every corner of a piece is
// a point of the region's boundary; points in the middle of a straight side are
// left out. Convexity is exact.
func Decompose(r geom.Region) []geom.Loop {
	var pts []geom.Vec2
	for _, l := range r.Loops() {
		pts = append(pts, l...)
	}
	tris := Triangulate(r)
	// Half edge 3t+k runs from corner k of triangle t to the next.
	n := 3 * len(tris)
	org := make([]int, n)
	next, prev, twin := make([]int, n), make([]int, n), make([]int, n)
	first := make([]int, len(pts)) // the last half edge from a point, from 1
	degree := make([]int, len(pts))
	before := make([]int, n) // the one before it, from 1
	for t, tri := range tris {
		for k := range 3 {
			e := 3*t + k
			org[e] = tri[k]
			next[e], prev[e] = 3*t+(k+1)%3, 3*t+(k+2)%3
			before[e] = first[tri[k]]
			first[tri[k]] = e + 1
			degree[tri[k]]++
		}
	}
	// alone is the half edge from one point to another; -1 where there is none, or, as only where a
	// region crosses itself, several. It is looked for where fewer meet.
	alone := func(from, to int) int {
		found, at := -1, from
		if degree[to] < degree[from] {
			at = to
		}
		for e := first[at] - 1; e >= 0; e = before[e] - 1 {
			h := e
			if at == to {
				h = prev[e]
			}
			if org[h] != from || org[next[h]] != to {
				continue
			}
			if found >= 0 {
				return -1
			}
			found = h
		}
		return found
	}
	var inner []int
	length := make([]float64, n)
	for e := range n {
		a, b := org[e], org[next[e]]
		if twin[e] = alone(b, a); twin[e] >= 0 && alone(a, b) != e {
			twin[e] = -1
		}
		if e < twin[e] {
			inner = append(inner, e)
			length[e] = pts[a].Sub(pts[b]).Len()
		}
	}
	geom.SortStable(inner, func(a, b int) int { return cmp.Compare(length[b], length[a]) })
	gone := make([]bool, n)
	for _, e := range inner {
		w := twin[e]
		a, b := pts[org[e]], pts[org[w]]
		if orient(pts[org[prev[e]]], a, pts[org[next[next[w]]]]) < 0 ||
			orient(pts[org[prev[w]]], b, pts[org[next[next[e]]]]) < 0 {
			continue
		}
		gone[e], gone[w] = true, true
		next[prev[e]], prev[next[w]] = next[w], prev[e]
		next[prev[w]], prev[next[e]] = next[e], prev[w]
	}
	var out []geom.Loop
	for e := range n {
		if gone[e] {
			continue
		}
		var l geom.Loop
		for k := e; !gone[k]; k = next[k] {
			gone[k] = true
			if orient(pts[org[prev[k]]], pts[org[k]], pts[org[next[k]]]) != 0 {
				l = append(l, pts[org[k]])
			}
		}
		if len(l) >= 3 {
			out = append(out, l)
		}
	}
	return out
}

// Clip keeps the part of a convex loop with n.p >= at; nil where no area is left.
func Clip(l geom.Loop, n geom.Vec2, at float64) geom.Loop {
	var out geom.Loop
	for i, p := range l {
		q := l[(i+1)%len(l)]
		dp, dq := n.Dot(p)-at, n.Dot(q)-at
		if dp >= 0 {
			out = append(out, p)
		}
		if dp < 0 && dq > 0 || dp > 0 && dq < 0 {
			out = append(out, p.Add(q.Sub(p).Mul(dp/(dp-dq))))
		}
	}
	out = slices.CompactFunc(out, func(p, q geom.Vec2) bool { return p == q })
	for len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	if len(out) < 3 || out.Area() <= 0 {
		return nil
	}
	return out
}
