package shape

// This file finds the points by which the panels of a drawn blank are named.

import (
	"cmp"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// addPanels names the panels, each by a point well inside it.
func (b *builder) addPanels(made *Made, out []fold.Vertex) {
	var holes []geom.Loop
	for _, h := range made.Spec.Holes {
		r := h.Diameter / 2
		holes = append(holes, geom.Loop{h.At.Add(geom.Vec2{-r, -r}), h.At.Add(geom.Vec2{-r, r}), h.At.Add(geom.Vec2{r, r}), h.At.Add(geom.Vec2{r, -r})})
	}
	for _, c := range made.Spec.Cutouts {
		holes = append(holes, cornersOf(c))
	}
	blank := cornersOf(out)
	for _, n := range b.panels {
		loop := n.loop
		if n.at >= 0 {
			if cut := halfPlane(loop, clip{bottom, n.bend.N, n.bend.N.Dot(n.point(0, b.past()))}); len(cut) >= 3 {
				loop = cut
			}
		}
		made.Spec.Panels = append(made.Spec.Panels, fold.PanelName{Name: n.name, At: roomiest([]geom.Loop{n.flatPart(loop), blank}, holes)})
	}
}

func cornersOf(c []fold.Vertex) geom.Loop {
	var l geom.Loop
	for i, v := range c {
		if v.Through != nil {
			l = append(l, alongArc(c[(i+len(c)-1)%len(c)].At, *v.Through, v.At)...)
		}
		l = append(l, v.At)
	}
	return l
}

// alongArc is points between the ends of an arc from a through t to b; t alone where it is no arc.
func alongArc(a, t, b geom.Vec2) []geom.Vec2 {
	o, ok := circle(a, t, b)
	if !ok {
		return []geom.Vec2{t}
	}
	turn := func(p, q geom.Vec2) float64 {
		d, e := p.Sub(o), q.Sub(o)
		return math.Atan2(geom.Cross2(d, e), d.Dot(e))
	}
	whole, way := turn(a, b), 1.0
	if geom.Cross2(t.Sub(a), b.Sub(t)) < 0 {
		whole, way = -whole, -1
	}
	if whole < 0 {
		whole += 2 * math.Pi
	}
	var out []geom.Vec2
	for i := 1; i < nameChords; i++ {
		sin, cos := math.Sincos(way * whole * float64(i) / nameChords)
		d := a.Sub(o)
		out = append(out, o.Add(geom.Vec2{d[0]*cos - d[1]*sin, d[0]*sin + d[1]*cos}))
	}
	return out
}

// flatPart is the outline of what stays flat of a panel: its edges, moved in to the tangent lines where flanges stand.
func (n *panel) flatPart(loop []edge) (l geom.Loop) {
	for i, e := range loop {
		l = append(l, e.a)
		if e.through != nil {
			l = append(l, alongArc(e.a, *e.through, loop[(i+1)%len(loop)].a)...)
			continue
		}
		if e.side == bottom {
			continue
		}
		for _, k := range n.on(e.side) {
			at := func(u, s float64) geom.Vec2 { return k.bend.Q.Add(k.bend.U.Mul(u)).Add(k.bend.N.Mul(s)) }
			if u, _ := k.bend.Coord(e.a); u > k.zone[0] && !k.reaches(0) {
				continue // of a side in several pieces, not this one
			}
			if u, _ := k.bend.Coord(loop[(i+1)%len(loop)].a); u < k.zone[1] && !k.reaches(1) {
				continue
			}
			if !k.reaches(0) {
				l = append(l, at(k.zone[0], k.inset), at(k.zone[0], 0))
			}
			if !k.reaches(1) {
				l = append(l, at(k.zone[1], 0), at(k.zone[1], k.inset))
			}
		}
	}
	return l
}

// roomiest is a point that lies in all of some loops and in none of others, with about the most room about it.
func roomiest(in, out []geom.Loop) geom.Vec2 {
	var ys []float64
	lo, hi := math.Inf(-1), math.Inf(1)
	for _, l := range in {
		a, b := math.Inf(1), math.Inf(-1)
		for _, p := range l {
			a, b = min(a, p[1]), max(b, p[1])
		}
		lo, hi = max(lo, a), min(hi, b)
	}
	for _, l := range slices.Concat(in, out) {
		for _, p := range l {
			if p[1] >= lo && p[1] <= hi {
				ys = append(ys, p[1])
			}
		}
	}
	ys = append(ys, lo, hi)
	slices.Sort(ys)
	type level struct{ wide, y float64 }
	levels := []level{{hi - lo, (lo + hi) / 2}}
	for i := 1; i < len(ys); i++ {
		levels = append(levels, level{ys[i] - ys[i-1], (ys[i] + ys[i-1]) / 2})
	}
	geom.SortStable(levels, func(a, b level) int { return cmp.Compare(b.wide, a.wide) })
	best, room := geom.Vec2{}, -1.0
	for _, v := range levels[:min(len(levels), nameLevels)] {
		if v.wide/2 <= room {
			break
		}
		// How deep a place on this level lies: in all loops of the first kind, in none of the second.
		type stop struct {
			x  float64
			by int
		}
		var stops []stop
		for i, l := range slices.Concat(in, out) {
			way := 1
			if i >= len(in) {
				way = -1
			}
			var xs []float64
			for k, p := range l {
				if q := l[(k+1)%len(l)]; (p[1] > v.y) != (q[1] > v.y) {
					xs = append(xs, p[0]+(v.y-p[1])/(q[1]-p[1])*(q[0]-p[0]))
				}
			}
			slices.Sort(xs)
			for k, x := range xs {
				if k%2 == 0 {
					stops = append(stops, stop{x, way})
				} else {
					stops = append(stops, stop{x, -way})
				}
			}
		}
		geom.SortStable(stops, func(a, b stop) int { return cmp.Compare(a.x, b.x) })
		depth := 0
		for k := 0; k+1 < len(stops); k++ {
			depth += stops[k].by
			if depth < len(in) {
				continue
			}
			if w := min(stops[k+1].x-stops[k].x, v.wide) / 2; w > room {
				best, room = geom.Vec2{(stops[k].x + stops[k+1].x) / 2, v.y}, w
			}
		}
	}
	return best
}
