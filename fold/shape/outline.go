package shape

// This file cuts panels to their outlines: the measured lines, cut off where corners say so, moved in to the
// tangent lines of what stands on them.

import (
	"math"
	"slices"

	"dryfold/fold/geom"
)

// edge is an edge of a panel's outline, from a to the next one's a.
type edge struct {
	a       geom.Vec2
	side    sideNo
	through *geom.Vec2 // an arc through this point
}

// clip keeps what lies at or beyond c along m, a unit vector; the cut edge belongs to a side.
type clip struct {
	side sideNo
	m    geom.Vec2
	c    float64
}

// cut gives each panel its outline.
func (b *builder) cut() {
	for _, n := range b.panels {
		n.clips = nil
	}
	for _, c := range b.corners {
		c.cut(b)
	}
	for _, n := range b.panels {
		if n.at < 0 {
			n.loop = n.baseLoop()
		} else {
			n.loop = b.flangeLoop(n)
		}
		if len(n.loop) < 3 {
			b.problem(n.path, "a panel of which nothing is left", "a larger one, or less cut off at its corners")
			return
		}
		b.moveIn(n)
	}
}

func (n *panel) baseLoop() []edge {
	var loop []edge
	for i, l := range n.flat {
		loop = append(loop, edge{l.a, sideNo(i), l.through})
	}
	return loop
}

// flangeLoop is a flange's outline from its tangent line on, as cut by its ends and corners. It begins
// with its bend's edge, which runs against U.
func (b *builder) flangeLoop(n *panel) []edge {
	first, last := n.flat[0], n.flat[len(n.flat)-1]
	u0, v0 := n.coord(first.a)
	u1, v1 := n.coord(last.b)
	wide := 4 * (n.long + math.Abs(u0) + math.Abs(u1) + math.Abs(v0) + math.Abs(v1) + 100*b.t)
	drawn := n.step == 0 && n.flange.Edge != nil
	a, z := first.a, last.b
	var head, tail []edge
	if drawn {
		// A drawn edge that begins at the side's end goes on level beyond it, as far as the corner lets it.
		if u0 <= n.from+sameLength {
			a = n.point(-wide, v0)
			head = []edge{{a, top, nil}}
		}
		if u1 >= n.long-n.to-sameLength {
			z = n.point(n.long+wide, v1)
			tail = []edge{{last.b, top + sideNo(len(n.flat)-1), nil}}
		}
	} else if len(n.flat) == 1 {
		d := last.b.Sub(first.a)
		if d.Dot(n.bend.U) <= 0 { // the ends meet under the edge
			d = n.bend.U
		}
		d = d.Normalize()
		run := wide / max(d.Dot(n.bend.U), steepEdge)
		a, z = first.a.Sub(d.Mul(run)), last.b.Add(d.Mul(run))
	}
	ua, _ := n.coord(a)
	uz, _ := n.coord(z)
	loop := []edge{{n.point(uz, -8*wide), bottom, nil}, {n.point(ua, -8*wide), start, nil}}
	loop = append(loop, head...)
	for i, l := range n.flat {
		p := l.a
		if i == 0 && len(head) == 0 {
			p = a
		}
		loop = append(loop, edge{p, top + sideNo(i), l.through})
	}
	loop = append(loop, tail...)
	loop = append(loop, edge{z, endSide, nil})
	loop = halfPlane(loop, clip{bottom, n.bend.N, n.bend.N.Dot(n.point(0, 0))})
	vb := n.sharp()
	for k := range 2 {
		if b.cornered(n, k) {
			continue
		}
		s := [2]sideNo{start, endSide}[k]
		inward := n.bend.U
		u0, u1 := n.ends()
		foot := n.point(u0, vb)
		if k == 1 {
			inward = inward.Mul(-1)
			foot = n.point(u1, vb)
		}
		if n.reaches(k) && !n.hasKid(s) && n.parent.at >= 0 && n.side >= top && n.side < endSide {
			foot = n.point(b.zoneEnd(n, k), 0) // flush with the end of the flange that it stands on
		}
		m := inward.Sub(n.bend.N.Mul(n.lean[k])).Normalize()
		loop = halfPlane(loop, clip{s, m, m.Dot(foot)})
	}
	for _, c := range n.clips {
		loop = halfPlane(loop, c)
	}
	for i, e := range loop {
		if e.side == bottom {
			return append(append([]edge(nil), loop[i:]...), loop[:i]...)
		}
	}
	return nil
}

func (n *panel) hasKid(s sideNo) bool {
	for _, k := range n.kids {
		if k.side == s {
			return true
		}
	}
	return false
}

// zoneEnd is where along U the edge of the parent ends that a flange stands on.
func (b *builder) zoneEnd(n *panel, end int) float64 {
	p, q, ok := n.parent.edgeOf(n.side)
	if !ok {
		return [2]float64{n.from, n.long - n.to}[end]
	}
	if end == 1 {
		p = q
	}
	u, _ := n.bend.Coord(p)
	return u
}

// edgeOf is a side as it has been cut: from its first point to its last.
func (n *panel) edgeOf(s sideNo) (p, q geom.Vec2, ok bool) {
	for i, e := range n.loop {
		if e.side == s {
			if !ok {
				p = e.a
			}
			q, ok = n.loop[(i+1)%len(n.loop)].a, true
		}
	}
	return p, q, ok
}

// moveIn moves the edges that flanges stand on in to their tangent lines, as far as the flanges reach.
func (b *builder) moveIn(n *panel) {
	old := append([]edge(nil), n.loop...)
	for i := range n.loop {
		j := (i + len(old) - 1) % len(old)
		before, after := b.moved(n, old, j, 1), b.moved(n, old, i, 0)
		if before == 0 && after == 0 {
			continue
		}
		if old[j].through != nil || old[i].through != nil {
			b.problem(n.path, "a flange beside a curved edge", "a straight piece between them, or an inset of the flange")
			return
		}
		p := old[i].a
		d0 := p.Sub(old[j].a).Normalize()
		d1 := old[(i+1)%len(old)].a.Sub(p).Normalize()
		q, ok := cross(p.Add(geom.Perp(d0).Mul(before)), d0, p.Add(geom.Perp(d1).Mul(after)), d1)
		if !ok { // one straight line: both have moved alike, or nothing joins them
			q = p.Add(geom.Perp(d1).Mul(after))
		}
		n.loop[i].a = q
	}
}

// moved is how far in the tangent line lies of a flange that stands on edge i of a loop and reaches its end: the edge's
// start (0) or end (1).
func (b *builder) moved(n *panel, loop []edge, i, end int) float64 {
	s := loop[i].side
	if end == 0 && loop[(i+len(loop)-1)%len(loop)].side == s || end == 1 && loop[(i+1)%len(loop)].side == s {
		// A side of several pieces: a flange stands on all or none of it.
		return 0
	}
	for _, k := range n.kids {
		if k.side == s && k.reaches(end) {
			return k.inset
		}
	}
	return 0
}

// cross is where two lines meet.
func cross(p, d, q, e geom.Vec2) (geom.Vec2, bool) {
	den := geom.Cross2(d, e)
	if math.Abs(den) < sameTurn {
		return geom.Vec2{}, false
	}
	return p.Add(d.Mul(geom.Cross2(q.Sub(p), e) / den)), true
}

// piece is a part of an edge that lies on one side of a line.
type piece struct {
	a, b    geom.Vec2
	through *geom.Vec2
	side    sideNo
	in      bool
}

// halfPlane cuts a loop off along a line; the new edge belongs to the clip's side. Nothing is left where all lies beyond.
func halfPlane(loop []edge, c clip) []edge {
	off := func(p geom.Vec2) float64 { return c.m.Dot(p) - c.c }
	var pieces []piece
	all := true
	add := func(e edge, a, b geom.Vec2, through *geom.Vec2) {
		if a == b {
			return
		}
		mid := a.Add(b).Mul(0.5)
		if through != nil {
			mid = *through
		}
		p := piece{a, b, through, e.side, off(mid) >= 0}
		all = all && p.in
		pieces = append(pieces, p)
	}
	for i, e := range loop {
		next := loop[(i+1)%len(loop)].a
		a, b := off(e.a), off(next)
		switch {
		case e.through != nil:
			last := e.a
			for _, p := range splitArc(e.a, *e.through, next, c) {
				t := p[0]
				add(e, last, p[1], &t)
				last = p[1]
			}
		case (a < 0) != (b < 0):
			m := e.a.Add(next.Sub(e.a).Mul(a / (a - b)))
			add(e, e.a, m, nil)
			add(e, m, next, nil)
		default:
			add(e, e.a, next, nil)
		}
	}
	if all {
		return loop
	}
	var out []edge
	for i, p := range pieces {
		if !p.in {
			continue
		}
		out = append(out, edge{p.a, p.side, p.through})
		if next := pieces[(i+1)%len(pieces)]; !next.in {
			out = append(out, edge{p.b, c.side, nil})
		}
	}
	return out
}

// splitArc cuts the arc from a through t to b where it crosses a line: for each piece a point on it and its end.
func splitArc(a, t, b geom.Vec2, c clip) [][2]geom.Vec2 {
	o, ok := circle(a, t, b)
	if !ok {
		return [][2]geom.Vec2{{t, b}}
	}
	r := a.Sub(o).Len()
	turn := 1.0
	if geom.Cross2(t.Sub(a), b.Sub(t)) < 0 {
		turn = -1
	}
	angle := func(p geom.Vec2) float64 { // from a, the way the arc goes, 0 to 2 pi
		d, e := a.Sub(o), p.Sub(o)
		w := math.Atan2(turn*geom.Cross2(d, e), d.Dot(e))
		if w < 0 {
			w += 2 * math.Pi
		}
		return w
	}
	end := angle(b)
	stops := []float64{end}
	if h := c.m.Dot(o) - c.c; math.Abs(h) < r {
		half := math.Sqrt(r*r - h*h)
		for _, s := range []float64{-1, 1} {
			w := angle(o.Sub(c.m.Mul(h)).Add(geom.Perp(c.m).Mul(s * half)))
			if w > sameTurn && w < end-sameTurn {
				stops = append(stops, w)
			}
		}
	}
	slices.Sort(stops)
	at := func(w float64) geom.Vec2 {
		sin, cos := math.Sincos(turn * w)
		d := a.Sub(o)
		return o.Add(geom.Vec2{d[0]*cos - d[1]*sin, d[0]*sin + d[1]*cos})
	}
	var out [][2]geom.Vec2
	last := 0.0
	for i, w := range stops {
		p := at(w)
		if i == len(stops)-1 {
			p = b
		}
		out = append(out, [2]geom.Vec2{at((last + w) / 2), p})
		last = w
	}
	return out
}

// circle is the centre of the circle through three points; ok is false where they lie on a line.
func circle(a, b, c geom.Vec2) (o geom.Vec2, ok bool) {
	d, e := b.Sub(a), c.Sub(a)
	den := 2 * geom.Cross2(d, e)
	if math.Abs(den) <= flatArc*d.Len()*e.Len() {
		return geom.Vec2{}, false
	}
	x := d.Dot(d)*e[1] - e.Dot(e)*d[1]
	y := e.Dot(e)*d[0] - d.Dot(d)*e[0]
	return a.Add(geom.Vec2{x / den, y / den}), true
}
