package model

// This file says which triangles of the blank hang together, and carries them into space.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// side is a side of a cell from a point to another.
type side struct {
	body, from, to int32
}

// side gives side k%3 of cell k/3.
func (sh *sheet) side(k int32) side {
	c := &sh.cells[k/3]
	return side{c.body, c.v[k%3], c.v[(k+1)%3]}
}

// sides numbers every side of a cell.
func (sh *sheet) sides() map[side]int32 {
	out := make(map[side]int32, 3*len(sh.cells))
	for k := range int32(3 * len(sh.cells)) {
		if s := sh.side(k); s.from != s.to {
			if _, taken := out[s]; !taken {
				out[s] = k
			}
		}
	}
	return out
}

// join finds which sides of cells hang together: those within a panel or zone, and those where a zone goes over into the
// panels that its bend joins. Everywhere else the metal parts.
func (sh *sheet) join() {
	p, n := sh.part, int32(len(sh.part.Panels))
	sides := sh.sides()
	var over [][2]side // sides that meet although their points or bodies differ
	for i := range p.Bends {
		if b := &p.Bends[i]; b.Allowance == 0 {
			over = append(over, sh.crease(i, sides)...)
		}
	}
	if len(over) > 0 {
		sides = sh.sides()
	}
	sh.mate = make([]int32, 3*len(sh.cells))
	for k := range sh.mate {
		sh.mate[k] = -1
	}
	pair := func(a, b side) {
		x, okX := sides[a]
		y, okY := sides[b]
		if okX && okY && sh.mate[x] < 0 && sh.mate[y] < 0 {
			sh.mate[x], sh.mate[y] = y, x
		}
	}
	for k := range sh.mate {
		me := sh.side(int32(k))
		pair(me, side{me.body, me.to, me.from})
	}
	for k := range sh.mate {
		me := sh.side(int32(k))
		if sh.mate[k] >= 0 || me.body < n || p.Bends[me.body-n].Allowance == 0 {
			continue
		}
		b := &p.Bends[me.body-n]
		_, s0 := b.Coord(sh.pts[me.from])
		_, s1 := b.Coord(sh.pts[me.to])
		for end, panel := range [2]int{b.A, b.B} {
			if at := float64(end) * b.Allowance; math.Abs(s0-at) <= onLine && math.Abs(s1-at) <= onLine {
				pair(me, side{int32(panel), me.to, me.from})
			}
		}
	}
	for _, o := range over {
		pair(o[0], o[1])
	}
}

// crease lays facets between the panels of a bend of no width: at the one face they meet in a line, at the other
// they go round it. It gives the sides that meet.
func (sh *sheet) crease(bend int, sides map[side]int32) (over [][2]side) {
	p := sh.part
	b, body := &p.Bends[bend], sh.zoneBody(bend)
	a, far := int32(b.A), int32(b.B)
	_, phi := b.Curl(sh.state[bend])
	n := sh.facets(phi, p.Thickness)
	if sh.bent == nil {
		sh.bent = map[int32]geom.Angle{}
	}
	round := map[int32][]int32{} // of a corner on the line: the points round it
	at := func(v int32) []int32 {
		if round[v] == nil {
			for k := 0; k <= n; k++ {
				q := sh.fresh(v)
				sh.bent[q] = phi * geom.Angle(k) / geom.Angle(n)
				round[v] = append(round[v], q)
			}
		}
		return round[v]
	}
	for k := range int32(3 * len(sh.cells)) {
		me := sh.side(k)
		_, s0 := b.Coord(sh.pts[me.from])
		_, s1 := b.Coord(sh.pts[me.to])
		if me.body != a || math.Abs(s0) > onLine || math.Abs(s1) > onLine {
			continue
		}
		other := side{far, me.to, me.from}
		if _, ok := sides[other]; !ok {
			continue
		}
		if n == 0 {
			over = append(over, [2]side{me, other})
			continue
		}
		v, w := at(me.from), at(me.to)
		for i := range n {
			sh.cells = append(sh.cells, cell{[3]int32{w[i], v[i], v[i+1]}, body}, cell{[3]int32{w[i], v[i+1], w[i+1]}, body})
		}
		over = append(over, [2]side{me, {body, w[0], v[0]}}, [2]side{{body, v[n], w[n]}, other})
	}
	return over
}

// place carries a point of a body to its places on the sheet's lower and upper face.
func (sh *sheet) place(ps *fold.Pose, body, v int32) (lo, hi geom.Vec3) {
	t, q := sh.part.Thickness, sh.pts[v]
	at := sh.body(body)
	if !at.Zone {
		return ps.PanelPoint(at.Index, q, 0), ps.PanelPoint(at.Index, q, t)
	}
	b := &sh.part.Bends[at.Index]
	phi, ok := sh.bent[v]
	if !ok {
		phi = sh.state[at.Index]
	}
	f := ps.Panels[b.A]
	return f.Point(b.Roll(q, 0, phi, t)), f.Point(b.Roll(q, t, phi, t))
}

// fold makes the surface.
func (sh *sheet) fold() Mesh {
	corner := sh.corners()
	var m Mesh
	ps := sh.part.Pose(sh.state)
	number := make([]int32, len(corner)) // of a corner: its place in m.Points, less one
	flat := make([]bool, len(corner))
	id := make([]int32, len(corner))
	for k, c := range corner {
		body, v := sh.cells[k/3].body, sh.cells[k/3].v[k%3]
		panel := int(body) < len(sh.part.Panels)
		if number[c] == 0 {
			m.Points = append(m.Points, geom.Vec3{}, geom.Vec3{})
			number[c] = int32(len(m.Points) - 1)
		} else if flat[c] || !panel {
			id[k] = number[c] - 1
			continue
		}
		id[k] = number[c] - 1
		flat[c] = panel // a panel is the more exact
		m.Points[id[k]], m.Points[id[k]+1] = sh.place(&ps, body, v)
	}
	m.Tris = make([]Tri, 0, 2*len(sh.cells))
	for i, c := range sh.cells {
		v, at := id[3*i:3*i+3], sh.body(c.body)
		m.Tris = append(m.Tris, Tri{[3]int32{v[0] + 1, v[1] + 1, v[2] + 1}, at, Upper}, Tri{[3]int32{v[0], v[2], v[1]}, at, Lower})
	}
	for k := range int32(len(sh.mate)) {
		if sh.mate[k] >= 0 {
			continue
		}
		a, b, at := id[k], id[next(k)], sh.body(sh.cells[k/3].body)
		m.Tris = append(m.Tris, Tri{[3]int32{a, b, b + 1}, at, Cut}, Tri{[3]int32{a, b + 1, a + 1}, at, Cut})
	}
	return m
}

// next is the corner after corner k of the same cell.
func next(k int32) int32 { return k - k%3 + (k+1)%3 }

// corners gives for corner k%3 of cell k/3 the first corner that is one with it: corners of sides that hang
// together are. Metal that only touches at a point stays apart there.
func (sh *sheet) corners() []int32 {
	one := make([]int32, len(sh.mate))
	for k := range one {
		one[k] = int32(k)
	}
	find := func(k int32) int32 {
		for one[k] != k {
			one[k] = one[one[k]]
			k = one[k]
		}
		return k
	}
	unite := func(a, b int32) {
		a, b = find(a), find(b)
		one[max(a, b)] = min(a, b)
	}
	for k, o := range sh.mate {
		if o > int32(k) {
			unite(int32(k), next(o))
			unite(next(int32(k)), o)
		}
	}
	for k := range one {
		one[k] = find(int32(k))
	}
	return one
}
