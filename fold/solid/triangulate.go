// Package solid holds convex bodies in space: their distance and overlap, and
// the cutting of flat areas into triangles and convex pieces. It knows geom alone.
//
// This file cuts a flat area into triangles. Decompose joins them to convex
// pieces; convex.go makes bodies of these.
package solid

import (
	"math"
	"slices"

	"dryfold/fold/geom"
)

// Triangulate cuts a region into triangles that use every vertex of its
// boundary and no other, so that triangles of neighbouring regions meet
// vertex to vertex. Indices count the points of r.Loops() one loop after
// another; triangles run counter-clockwise, none has zero area. A simple
// region of n points and h holes gives n + 2h - 2 triangles.
//
// Points repeated one after another are used once, spikes not at all. Any way round of the loops
// will do. A region that crosses or touches itself still gives triangles, but
// they may not cover it exactly; fewer than three points give none.
//
// A sweep along x splits the region into monotone pieces, each of which falls
// into triangles at once: n log n steps. All turns are decided exactly.
func Triangulate(r geom.Region) [][3]int {
	s := newSweep(r)
	if s == nil {
		return nil
	}
	s.run()
	tris := s.triangles()
	off := func(t [][3]int) float64 { return math.Abs(coverage(s.pts, t) - s.area) }
	if len(s.order) <= slowLimit && (len(tris) != s.want || off(tris) > areaNoise*s.boxArea()) {
		if t := clipEars(s.pts, s.loops); off(t) < off(tris) {
			return t
		}
	}
	return tris
}

// boxArea is the area of the box round all points.
func (s *sweep) boxArea() float64 {
	box := geom.EmptyBox2()
	for _, v := range s.order {
		box.Add(s.pts[v])
	}
	return box.Size()[0] * box.Size()[1]
}

// coverage is how much area the triangles hold.
func coverage(pts []geom.Vec2, tris [][3]int) float64 {
	sum := 0.0
	for _, t := range tris {
		sum += geom.Cross2(pts[t[1]].Sub(pts[t[0]]), pts[t[2]].Sub(pts[t[0]])) / 2
	}
	return sum
}

// sweep is the state of the cut into monotone pieces. Edge i runs from point i
// to next[i], material on its left.
type sweep struct {
	pts        []geom.Vec2
	loops      [][]int // indices, outer counter-clockwise, holes clockwise
	next, prev []int   // -1 for points left out
	order      []int   // points from left to right
	want       int     // triangles of a simple region
	area       float64 // of the outline less the holes

	status []int // lower edges (material above them) that the sweep line cuts, from low to high
	helper []int // of an edge: the last point met above it
	merge  []bool
	diags  [][]int // of a point: the points it was joined to
}

// newSweep links the loops; nil where there is nothing to cut.
func newSweep(r geom.Region) *sweep {
	s := &sweep{}
	for k, l := range r.Loops() {
		start := len(s.pts)
		s.pts = append(s.pts, l...)
		loop := tidy(s.pts, start, len(l))
		if len(loop) < 3 {
			if k == 0 {
				return nil
			}
			continue
		}
		if (l.Area() < 0) != (k > 0) {
			slices.Reverse(loop)
		}
		s.loops = append(s.loops, loop)
		if a := math.Abs(l.Area()); k == 0 {
			s.area += a
		} else {
			s.area -= a
		}
	}
	n := len(s.pts)
	s.next, s.prev = make([]int, n), make([]int, n)
	s.helper, s.merge, s.diags = make([]int, n), make([]bool, n), make([][]int, n)
	for i := range n {
		s.next[i], s.prev[i] = -1, -1
	}
	for _, loop := range s.loops {
		for i, v := range loop {
			w := loop[(i+1)%len(loop)]
			s.next[v], s.prev[w] = w, v
		}
		s.order = append(s.order, loop...)
	}
	s.want = len(s.order) + 2*(len(s.loops)-1) - 2
	slices.SortFunc(s.order, func(a, b int) int {
		switch {
		case s.before(a, b):
			return -1
		case s.before(b, a):
			return 1
		}
		return 0
	})
	return s
}

// tidy lists the n points from start on without repeats and without spikes: points
// from which the boundary runs straight back.
func tidy(pts []geom.Vec2, start, n int) []int {
	var loop []int
	spike := func(a, b, c int) bool {
		p, q, r := pts[a], pts[b], pts[c]
		return p == q || q == r || orient(p, q, r) == 0 && p.Sub(q).Dot(r.Sub(q)) > 0
	}
	for i := start; i < start+n; i++ {
		for len(loop) >= 2 && spike(loop[len(loop)-2], loop[len(loop)-1], i) {
			loop = loop[:len(loop)-1]
		}
		if len(loop) == 0 || pts[loop[len(loop)-1]] != pts[i] {
			loop = append(loop, i)
		}
	}
	for len(loop) >= 3 {
		k := len(loop)
		if spike(loop[k-2], loop[k-1], loop[0]) {
			loop = loop[:k-1]
		} else if spike(loop[k-1], loop[0], loop[1]) {
			loop = loop[1:]
		} else {
			break
		}
	}
	return loop
}

func (s *sweep) before(a, b int) bool {
	if s.pts[a] == s.pts[b] {
		return a < b
	}
	return lexLess(s.pts[a], s.pts[b])
}

func (s *sweep) turn(a, b, c int) int { return orient(s.pts[a], s.pts[b], s.pts[c]) }

// rank is how many edges of the status lie below point v.
func (s *sweep) rank(v int) int {
	lo, hi := 0, len(s.status)
	for lo < hi {
		m := (lo + hi) / 2
		e := s.status[m]
		if s.turn(e, s.next[e], v) > 0 {
			lo = m + 1
		} else {
			hi = m
		}
	}
	return lo
}

func (s *sweep) insert(e int) {
	k := s.rank(e)
	// Only where boundaries touch: of edges through one point the lower goes first.
	for k < len(s.status) && s.turn(s.status[k], s.next[s.status[k]], e) == 0 &&
		s.turn(s.status[k], s.next[s.status[k]], s.next[e]) > 0 {
		k++
	}
	s.status = slices.Insert(s.status, k, e)
	s.helper[e] = e
}

// remove takes edge e, which ends at v, out of the status.
func (s *sweep) remove(e, v int) {
	k := s.rank(v)
	if k >= len(s.status) || s.status[k] != e {
		k = slices.Index(s.status, e)
	}
	if k >= 0 {
		s.status = slices.Delete(s.status, k, k+1)
	}
}

// below is the edge next below v, -1 for none (only where the region crosses itself).
func (s *sweep) below(v int) int {
	if k := s.rank(v); k > 0 {
		return s.status[k-1]
	}
	return -1
}

func (s *sweep) join(a, b int) {
	if a == b || s.pts[a] == s.pts[b] || s.next[a] == b || s.next[b] == a || slices.Contains(s.diags[a], b) {
		return
	}
	s.diags[a] = append(s.diags[a], b)
	s.diags[b] = append(s.diags[b], a)
}

// run joins points so that every piece is monotone along x: the method of de Berg
// and others, "Computational Geometry", chapter 3 (from memory).
func (s *sweep) run() {
	closeMerge := func(e, v int) {
		if e >= 0 && s.merge[s.helper[e]] {
			s.join(v, s.helper[e])
		}
	}
	for _, v := range s.order {
		p, n := s.prev[v], s.next[v]
		left, right := s.before(p, v), s.before(v, n)
		switch {
		case left && right: // on a lower boundary
			closeMerge(p, v)
			s.remove(p, v)
			s.insert(v)
		case !left && !right: // on an upper boundary
			if e := s.below(v); e >= 0 {
				closeMerge(e, v)
				s.helper[e] = v
			}
		case !left && right:
			if s.turn(p, v, n) <= 0 { // a split: material before v is cut in two
				if e := s.below(v); e >= 0 {
					s.join(v, s.helper[e])
					s.helper[e] = v
				}
			}
			s.insert(v)
		default:
			closeMerge(p, v)
			s.remove(p, v)
			if s.turn(p, v, n) <= 0 { // a merge: to be joined to a later point
				s.merge[v] = true
				if e := s.below(v); e >= 0 {
					closeMerge(e, v)
					s.helper[e] = v
				}
			}
		}
	}
}

// triangles walks round every monotone piece and cuts it up.
func (s *sweep) triangles() [][3]int {
	// Edges leaving v, counter-clockwise through the material: next[v] (slot 0), then diags[v].
	for _, v := range s.order {
		if len(s.diags[v]) == 0 {
			continue
		}
		n := s.next[v]
		half := func(a int) int {
			switch s.turn(v, n, a) {
			case 1:
				return 0
			case 0:
				return 1
			}
			return 2
		}
		slices.SortFunc(s.diags[v], func(a, b int) int {
			if d := half(a) - half(b); d != 0 {
				return d
			}
			return -s.turn(v, a, b)
		})
	}
	used := make([][]bool, len(s.pts))
	for _, v := range s.order {
		used[v] = make([]bool, 1+len(s.diags[v]))
	}
	tris := make([][3]int, 0, s.want)
	var face []int
	for _, v := range s.order {
		for slot := range used[v] {
			if used[v][slot] {
				continue
			}
			face = face[:0]
			for a, k := v, slot; !used[a][k]; {
				used[a][k] = true
				face = append(face, a)
				// Having come to b from a, the same piece goes on with the edge
				// next clockwise from b-a.
				b := s.next[a]
				if k > 0 {
					b = s.diags[a][k-1]
					k = slices.Index(s.diags[b], a)
				} else {
					k = len(s.diags[b])
				}
				a = b
			}
			tris = s.monotone(face, tris)
		}
	}
	return tris
}

// monotone cuts one piece, monotone along x and counter-clockwise.
func (s *sweep) monotone(face []int, tris [][3]int) [][3]int {
	if len(face) < 3 {
		return tris
	}
	add := func(a, b, c int) {
		switch s.turn(a, b, c) {
		case 1:
			tris = append(tris, [3]int{a, b, c})
		case -1:
			tris = append(tris, [3]int{a, c, b})
		}
	}
	if len(face) == 3 {
		add(face[0], face[1], face[2])
		return tris
	}
	n := len(face)
	lo := 0
	for i := range face {
		if s.before(face[i], face[lo]) {
			lo = i
		}
	}
	// Merge the lower chain (forwards from lo) and the upper (backwards) by the sweep's order.
	type step struct {
		v     int
		lower bool
	}
	seq := make([]step, 0, n)
	seq = append(seq, step{face[lo], true})
	i, j := lo+1, lo+n-1
	for i <= j {
		a, b := face[i%n], face[j%n]
		if i == j || s.before(a, b) {
			seq = append(seq, step{a, true})
			i++
		} else {
			seq = append(seq, step{b, false})
			j--
		}
	}
	stack := []step{seq[0], seq[1]}
	for k := 2; k < n; k++ {
		c := seq[k]
		top := stack[len(stack)-1]
		if k == n-1 || c.lower != top.lower {
			for m := 0; m+1 < len(stack); m++ {
				add(c.v, stack[m].v, stack[m+1].v)
			}
			stack = append(stack[:0], top, c)
			continue
		}
		for len(stack) >= 2 {
			a, b := stack[len(stack)-2], stack[len(stack)-1]
			t := s.turn(a.v, b.v, c.v)
			if !c.lower {
				t = -t
			}
			if t <= 0 {
				break
			}
			add(a.v, b.v, c.v)
			stack = stack[:len(stack)-1]
		}
		stack = append(stack, c)
	}
	return tris
}
