package foldtest

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// ToPanel is the distance of a point in space to a panel's solid, from its whole
// region with holes: no convex pieces, no trees. 0 inside.
func ToPanel(ps fold.Pose, panel int, p geom.Vec3) float64 {
	l := ps.Panels[panel].LocalPoint(p)
	reg := ps.Part.Panels[panel].Region
	q := geom.Vec2{l[0], l[1]}
	side := 0.0
	if !reg.Contains(q) {
		side = math.Inf(1)
		for _, loop := range reg.Loops() {
			for i, a := range loop {
				d, _ := geom.SegmentDistance(q, a, loop[(i+1)%len(loop)])
				side = min(side, d)
			}
		}
	}
	return math.Hypot(side, max(0, -l[2], l[2]-ps.Part.Thickness))
}

// SegmentToPanel is the distance of the segment a-b to a panel's solid: many
// points of it, each refined by halving.
func SegmentToPanel(ps fold.Pose, panel int, a, b geom.Vec3) float64 {
	const n = 16
	f := func(t float64) float64 { return ToPanel(ps, panel, a.Add(b.Sub(a).Mul(t))) }
	best := math.Inf(1)
	var at [n + 1]float64
	for i := range at {
		at[i] = f(float64(i) / n)
		best = min(best, at[i])
	}
	step := b.Sub(a).Len() / n // the distance changes by no more than the way along
	for i := range n {
		if min(at[i], at[i+1])-step >= best {
			continue
		}
		lo, hi := float64(i)/n, float64(i+1)/n
		for hi-lo > 1e-9 {
			x, y := lo+(hi-lo)/3, hi-(hi-lo)/3
			if f(x) < f(y) {
				hi = y
			} else {
				lo = x
			}
		}
		best = min(best, f((lo+hi)/2))
	}
	return best
}

// SeamGapAt is the clear distance of a seam at the share t (0..1) of its run, from
// the definition: the stretch that both mid-thickness edges cover along their mean
// direction, there each edge's segment across the thickness to the other's panel,
// the lesser of the two. 0 where the panels lie in each other. The run starts at
// either end; length is the run's.
func SeamGapAt(ps fold.Pose, s fold.Seam, t float64) (gap, length float64) {
	th := ps.Part.Thickness
	mid := func(panel int, p geom.Vec2) geom.Vec3 { return ps.PanelPoint(panel, p, th/2) }
	a0, a1 := mid(s.A, s.EdgeA[0]), mid(s.A, s.EdgeA[1])
	b0, b1 := mid(s.B, s.EdgeB[0]), mid(s.B, s.EdgeB[1])
	da, db := a1.Sub(a0).Normalize(), b1.Sub(b0).Normalize()
	if da.Dot(db) < 0 {
		db = db.Mul(-1)
	}
	e := da.Add(db).Normalize()
	lo := max(min(a0.Dot(e), a1.Dot(e)), min(b0.Dot(e), b1.Dot(e)))
	hi := min(max(a0.Dot(e), a1.Dot(e)), max(b0.Dot(e), b1.Dot(e)))
	at := lo + (hi-lo)*t
	across := func(panel int, edge [2]geom.Vec2, p, q geom.Vec3) (geom.Vec3, geom.Vec3) {
		k := (at - p.Dot(e)) / (q.Dot(e) - p.Dot(e))
		x := edge[0].Add(edge[1].Sub(edge[0]).Mul(k))
		return ps.PanelPoint(panel, x, 0), ps.PanelPoint(panel, x, th)
	}
	al, au := across(s.A, s.EdgeA, a0, a1)
	bl, bu := across(s.B, s.EdgeB, b0, b1)
	return min(SegmentToPanel(ps, s.B, al, au), SegmentToPanel(ps, s.A, bl, bu)), hi - lo
}
