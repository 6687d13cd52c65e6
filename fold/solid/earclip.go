package solid

import (
	"math"

	"dryfold/fold/geom"
)

// clipEars is the plain, slow way to Triangulate, of order n^2 and more: holes are
// joined to the outline by bridges, then ears are cut off one at a time. It always
// ends, and for a region that touches itself it still covers most of it. It stands
// in where the sweep meets such a region, and is the sweep's twin in tests.
func clipEars(pts []geom.Vec2, loops [][]int) [][3]int {
	if len(loops) == 0 {
		return nil
	}
	ring := append([]int(nil), loops[0]...)
	rest := loops[1:]
	for len(rest) > 0 {
		var ok bool
		if ring, rest, ok = bridge(pts, ring, rest); !ok {
			rest = rest[1:] // a hole that can't be seen from the outline: left filled
		}
	}
	var tris [][3]int
	turn := func(i, j, k int) int { return orient(pts[ring[i]], pts[ring[j]], pts[ring[k]]) }
	for i, failed := 0, 0; len(ring) > 3 && failed <= len(ring); {
		n := len(ring)
		i %= n
		a, b, c := (i+n-1)%n, i, (i+1)%n
		if turn(a, b, c) <= 0 || !coneHolds(pts, ring, a, pts[ring[c]]) || !coneHolds(pts, ring, c, pts[ring[a]]) || earBlocked(pts, ring, a, b, c) {
			i++
			failed++
			continue
		}
		tris = append(tris, [3]int{ring[a], ring[b], ring[c]})
		ring = append(ring[:b], ring[b+1:]...)
		failed = 0
		if b < len(ring) { // leave the next corner be, which keeps fans short
			i = b + 1
		}
	}
	if len(ring) == 3 && turn(0, 1, 2) > 0 {
		tris = append(tris, [3]int{ring[0], ring[1], ring[2]})
	}
	return tris
}

// earBlocked: another corner lies in the closed triangle. Corners at its own
// points (the other ends of bridges) do not block.
func earBlocked(pts []geom.Vec2, ring []int, a, b, c int) bool {
	pa, pb, pc := pts[ring[a]], pts[ring[b]], pts[ring[c]]
	for _, k := range ring {
		p := pts[k]
		if p == pa || p == pb || p == pc {
			continue
		}
		if p[0] < min(pa[0], pb[0], pc[0]) || p[0] > max(pa[0], pb[0], pc[0]) ||
			p[1] < min(pa[1], pb[1], pc[1]) || p[1] > max(pa[1], pb[1], pc[1]) {
			continue
		}
		if orient(pa, pb, p) >= 0 && orient(pb, pc, p) >= 0 && orient(pc, pa, p) >= 0 {
			return true
		}
	}
	return false
}

// bridge joins one hole to the ring by the shortest line between corners that
// crosses and touches nothing.
func bridge(pts []geom.Vec2, ring []int, holes [][]int) (newRing []int, rest [][]int, ok bool) {
	hole := 0
	for h := range holes { // the hole with the leftmost point sees the ring or nothing does
		if leftmost(pts, holes[h]) < leftmost(pts, holes[hole]) {
			hole = h
		}
	}
	h := holes[hole]
	hi := 0
	for i := range h {
		if lexLess(pts[h[i]], pts[h[hi]]) {
			hi = i
		}
	}
	rest = append(append([][]int(nil), holes[:hole]...), holes[hole+1:]...)
	from := pts[h[hi]]
	best, bestAt := math.Inf(1), -1
	for i := range ring {
		d := pts[ring[i]].Sub(from).Len()
		if d == 0 && coneHolds(pts, ring, i, pts[h[(hi+1)%len(h)]]) { // they touch: no bridge is needed
			out := append([]int(nil), ring[:i+1]...)
			out = append(out, h[hi+1:]...)
			out = append(out, h[:hi+1]...)
			return append(out, ring[i+1:]...), rest, true
		}
		if d == 0 || d >= best || !coneHolds(pts, ring, i, from) {
			continue
		}
		clear := true
		for _, l := range append([][]int{ring}, holes...) {
			if !clearOf(pts, l, from, pts[ring[i]]) {
				clear = false
				break
			}
		}
		if clear {
			best, bestAt = d, i
		}
	}
	if bestAt < 0 {
		return ring, holes, false
	}
	out := append([]int(nil), ring[:bestAt+1]...)
	out = append(out, h[hi:]...)
	out = append(out, h[:hi+1]...)
	out = append(out, ring[bestAt:]...)
	return out, rest, true
}

func leftmost(pts []geom.Vec2, l []int) float64 {
	x := math.Inf(1)
	for _, i := range l {
		x = min(x, pts[i][0])
	}
	return x
}

// coneHolds: the line from ring corner i to t leaves i into the material.
func coneHolds(pts []geom.Vec2, ring []int, i int, t geom.Vec2) bool {
	n := len(ring)
	p, v, q := pts[ring[(i+n-1)%n]], pts[ring[i]], pts[ring[(i+1)%n]]
	if v == t {
		return false
	}
	if orient(p, v, q) > 0 {
		return orient(v, q, t) > 0 && orient(v, t, p) > 0
	}
	return orient(v, q, t) > 0 || orient(v, t, p) > 0
}

// clearOf: segment a-b meets no edge of the loop but at a or b themselves.
func clearOf(pts []geom.Vec2, l []int, a, b geom.Vec2) bool {
	for i := range l {
		p, q := pts[l[i]], pts[l[(i+1)%len(l)]]
		if p == a || p == b || q == a || q == b {
			for _, e := range [2]geom.Vec2{p, q} {
				if e != a && e != b && orient(a, b, e) == 0 && e.Sub(a).Dot(e.Sub(b)) < 0 {
					return false
				}
			}
			continue
		}
		if orient(a, b, p)*orient(a, b, q) <= 0 && orient(p, q, a)*orient(p, q, b) <= 0 &&
			max(a[0], b[0]) >= min(p[0], q[0]) && max(p[0], q[0]) >= min(a[0], b[0]) &&
			max(a[1], b[1]) >= min(p[1], q[1]) && max(p[1], q[1]) >= min(a[1], b[1]) {
			return false
		}
	}
	return true
}
