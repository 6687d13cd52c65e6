package spread

// This file bounds what errors can do to a seam, and keeps what may matter of its panels.

import (
	"cmp"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// bound makes the moves: each bend's lever is the farthest that an edge's end lies from its axis.
func (m *seam) bound(x *poser) {
	c := x.c
	add := func(k int, by float64) {
		if k < 0 || !(by > 0) {
			return
		}
		by *= secondOrder * c.all[k].plus / 2
		for i := range m.moves {
			if m.moves[i].cause == k {
				m.moves[i].by += by
				return
			}
		}
		m.moves = append(m.moves, move{k, by})
	}
	add(c.thick, 2)
	for _, b := range between(x.part, m.side[0].panel, m.side[1].panel) {
		h := &x.hinge[b]
		held := &x.panels[x.part.Bends[b].A]
		axis := h.roll(held, 0, 0, 0, x.t)
		u := held.x.mul(h.u.x).plus(held.y, h.u.y)
		lever := 0.0
		for k := range m.side {
			d := &m.side[k]
			for _, q := range []vec2{d.p, d.q} {
				r := x.panels[d.panel].point(vec{q.x, q.y, 0}).sub(axis)
				lever = max(lever, r.plus(u, -r.dot(u)).len())
			}
		}
		add(c.angle[b], lever+h.rho+2*x.t)
		add(c.line[b], 2)
		add(c.thick, (h.phi+2)*(1+h.k))
		add(c.k, (h.phi+2)*c.kPlus[b]*1.5*x.t)
	}
	for k := range m.side {
		add(c.cuts[m.side[k].cut].cause, 1/leastSlide)
	}
}

// between lists the bends on the way from one panel to another.
func between(p *fold.Part, a, b int) []int {
	up := func(k int) (out []int) {
		for n := 0; n <= len(p.Panels) && p.Panels[k].Parent >= 0; n++ {
			bend := p.Panels[k].Parent
			out = append(out, bend)
			k = p.Bends[bend].A
		}
		return out
	}
	x, y := up(a), up(b)
	for len(x) > 0 && len(y) > 0 && x[len(x)-1] == y[len(y)-1] {
		x, y = x[:len(x)-1], y[:len(y)-1]
	}
	return append(x, y...)
}

// keepNear makes the lines: of each side's edge to those pieces of the other that it may be nearest to somewhere.
func (m *seam) keepNear(reach float64) {
	var all []line
	within := math.Inf(1)
	for k := range m.side {
		o := &m.side[1-k]
		for i := range o.pieces {
			all = append(all, line{side: k, piece: i, apart: m.boxApart(k, &o.pieces[i])})
		}
	}
	geom.SortStable(all, func(x, y line) int { return cmp.Compare(x.apart, y.apart) })
	for i := range all {
		j := &all[i]
		if j.apart > within+2*reach {
			break
		}
		j.apart = max(j.apart, m.lineLeast(j, math.Inf(1))-solved)
		within = min(within, max(j.f[0], j.f[1]))
		m.lines = append(m.lines, *j)
	}
	geom.SortStable(m.lines, func(x, y line) int { return cmp.Compare(x.apart, y.apart) })
}

// boxApart is no more than the distance of side k's whole stretch to a piece of the other side.
func (m *seam) boxApart(k int, w *piece) float64 {
	box := geom.EmptyBox3()
	for _, v := range m.from[k] {
		box.Add(v.geom())
		box.Add(v.add(m.step[k]).geom())
	}
	dx := max(0, w.box[0].x-box.Max[0], box.Min[0]-w.box[1].x)
	dy := max(0, w.box[0].y-box.Max[1], box.Min[1]-w.box[1].y)
	dz := max(0, -box.Max[2], box.Min[2]-m.t)
	return math.Sqrt(dx*dx + dy*dy + dz*dz)
}
