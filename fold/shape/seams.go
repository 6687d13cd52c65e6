package shape

// This file names the seams of what was drawn, each by a point on either edge.

import (
	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// addSeams names the corners' seams, each by points on the two edges as far from other edges as can be had. On a
// blank too tight for that they are left for the kernel to find.
func (b *builder) addSeams(made *Made, out []fold.Vertex) {
	loop := make([]geom.Vec2, len(out))
	for i, v := range out {
		loop[i] = v.At
	}
	for _, c := range b.corners {
		c.seamed = false
		if c.close == sizes.Apart || c.strange || c.carrying() != nil { // what is left of an end that carries a flange is no seam
			continue
		}
		p, q := b.onEdge(c.a, endSide, loop), b.onEdge(c.b, start, loop)
		if p == nil || q == nil {
			continue
		}
		c.seamed = true
		gap := c.gap
		made.Spec.Seams = append(made.Spec.Seams, fold.SeamSpec{Name: c.name(), A: *p, B: *q, Gap: &gap})
	}
}

func (c *corner) name() string { return c.a.name + " to " + c.b.name }

// onEdge is a point on the longest straight edge of a flange's end.
func (b *builder) onEdge(n *panel, s sideNo, loop []geom.Vec2) *geom.Vec2 {
	var best [2]geom.Vec2
	long := 0.0
	for i, e := range n.loop {
		if e.side != s || e.through != nil {
			continue
		}
		p, q := e.a, n.loop[(i+1)%len(n.loop)].a
		if l := q.Sub(p).Len(); l > long {
			long, best = l, [2]geom.Vec2{p, q}
		}
	}
	if long == 0 {
		return nil
	}
	return clearPoint(loop, best[0], best[1])
}

// clearPoint gives the point of the edge a-b of a blank's outline, mm, that lies furthest from the outline's other
// edges; nil if none is clear of them by what a seam's point needs.
func clearPoint(loop []geom.Vec2, a, b geom.Vec2) *geom.Vec2 {
	least := 1.05 * fold.SeamReach
	var best *geom.Vec2
	const steps = 20
	for i := 1; i < steps; i++ {
		q := a.Add(b.Sub(a).Mul(float64(i) / steps))
		room := b.Sub(a).Len()
		for j := range loop {
			c, d := loop[j], loop[(j+1)%len(loop)]
			if away(q, c, d) >= room {
				continue
			}
			if off, _ := geom.SegmentDistance(q, c, d); off > noise*room { // not the edge itself
				room = min(room, off)
			}
			if room <= least {
				break
			}
		}
		if room > least {
			least, best = room, &q
		}
	}
	return best
}

// away is how far a point lies at least from a segment: from the box round it, along x or y.
func away(q, a, b geom.Vec2) float64 {
	far := 0.0
	for k := range q {
		lo, hi := min(a[k], b[k]), max(a[k], b[k])
		far = max(far, lo-q[k], q[k]-hi)
	}
	return far
}
