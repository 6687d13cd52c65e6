package fold

// This file cuts the folded part across a bend: the little sections on the cards, on the page and on paper.

import (
	"cmp"
	"math"
	"slices"

	"dryfold/fold/geom"
)

// Run is one stretch of a section: a polyline at half thickness, in mm, along
// (x, away from the held panel) and up (y, out of its upper face). Now marks what
// the swing turns.
type Run struct {
	Points []geom.Vec2
	Now    bool
}

// zoneSteps is how many chords stand for a bent zone in a section, which is some
// mm on the screen or on paper.
const zoneSteps = 8

// sectionPanels bounds the panels of a section: more than can be told apart in a drawing of its size.
const sectionPanels = 150

// Section cuts the part at a state by the plane square to a bend's line at its
// middle. What the bend itself carries is Now. Of a part with more panels than sectionPanels those are left out that
// are joined to the bend by the most others.
func (p *Part) Section(st State, bend int) []Run {
	if !p.Foldable || bend < 0 || bend >= len(p.Bends) {
		return nil
	}
	ps := p.Pose(st)
	b := &p.Bends[bend]
	held := ps.Panels[b.A]
	mid := b.Line[0].Add(b.Line[1]).Mul(0.5)
	o := held.Point(geom.Vec3{mid[0], mid[1], p.Thickness / 2})
	n := held.Vector(geom.Vec3{b.U[0], b.U[1], 0})
	ex, ey := held.Vector(geom.Vec3{b.N[0], b.N[1], 0}), held.Z
	flat := func(v geom.Vec3) geom.Vec2 { d := v.Sub(o); return geom.Vec2{d.Dot(ex), d.Dot(ey)} }
	now, seen := p.carried(bend), p.near(bend, sectionPanels)
	runs := make([]Run, 0, len(p.Panels)+len(p.Bends))
	for i := range p.Panels {
		if !seen[i] {
			continue
		}
		f := ps.Panels[i]
		// The plane in the panel's blank axes at half thickness: q·a = c.
		la := f.LocalVector(n)
		a, c := geom.Vec2{la[0], la[1]}, n.Dot(o)-n.Dot(f.Point(geom.Vec3{0, 0, p.Thickness / 2}))
		for _, cut := range cutRegion(p.Panels[i].Region, a, c) {
			run := Run{Points: make([]geom.Vec2, 2), Now: now[i]}
			for k, q := range cut {
				run.Points[k] = flat(f.Point(geom.Vec3{q[0], q[1], p.Thickness / 2}))
			}
			runs = append(runs, run)
		}
	}
	for i := range p.Bends {
		z := &p.Bends[i]
		if !seen[z.A] || !seen[z.B] {
			continue
		}
		f := ps.Panels[z.A]
		if math.Abs(f.LocalVector(n).Dot(geom.Vec3{z.U[0], z.U[1], 0})) < 0.5 {
			continue // nearly along the plane: its zone would be a smear
		}
		// Where the plane meets the zone's axis direction, the arc is followed.
		u := f.LocalVector(n)
		at := n.Dot(o.Sub(f.Point(geom.Vec3{z.Q[0], z.Q[1], p.Thickness / 2}))) / u.Dot(geom.Vec3{z.U[0], z.U[1], 0})
		if !slices.ContainsFunc(z.Zone, func(r geom.Region) bool {
			return r.Contains(z.Q.Add(z.U.Mul(at)).Add(z.N.Mul(z.Allowance / 2)))
		}) {
			continue
		}
		run := Run{Points: make([]geom.Vec2, zoneSteps+1), Now: i == bend || now[z.A]}
		for k := range run.Points {
			q := z.Q.Add(z.U.Mul(at)).Add(z.N.Mul(z.Allowance * float64(k) / zoneSteps))
			run.Points[k] = flat(ps.ZonePoint(i, q, p.Thickness/2))
		}
		runs = append(runs, run)
	}
	return runs
}

// carried says which panels a bend carries with it.
func (p *Part) carried(bend int) []bool {
	out := make([]bool, len(p.Panels))
	for _, k := range p.order { // each after its parent
		if b := p.Panels[k].Parent; b >= 0 {
			out[k] = b == bend || out[p.Bends[b].A]
		}
	}
	return out
}

// near says which panels, about most of them, are joined to a bend by the fewest others. Its own two always are.
func (p *Part) near(bend, most int) []bool {
	out, far := make([]bool, len(p.Panels)), make([]int, len(p.Panels)) // far counts from 1
	count := make([]int, len(p.Panels)+2)
	for k, d := p.Bends[bend].A, 1; ; d++ {
		far[k] = d
		b := p.Panels[k].Parent
		if b < 0 {
			break
		}
		k = p.Bends[b].A
	}
	for _, k := range p.order { // each after its parent
		if far[k] == 0 {
			if far[k] = 1; k != p.Bends[bend].B {
				far[k] += far[p.Bends[p.Panels[k].Parent].A]
			}
		}
		count[far[k]]++
	}
	limit, sum := 1, count[1]
	for limit < len(p.Panels) && sum+count[limit+1] <= most {
		limit++
		sum += count[limit]
	}
	for k := range out {
		out[k] = far[k] <= limit
	}
	return out
}

// cutRegion gives the stretches of the line q·a = c inside a region.
func cutRegion(r geom.Region, a geom.Vec2, c float64) [][2]geom.Vec2 {
	l := a.Len()
	if l < 1e-9 {
		return nil
	}
	dir := geom.Perp(a).Mul(1 / l)
	type hit struct {
		t float64
		p geom.Vec2
	}
	var hits []hit
	for _, loop := range r.Loops() {
		for i, p := range loop {
			q := loop[(i+1)%len(loop)]
			dp, dq := p.Dot(a)-c, q.Dot(a)-c
			if (dp < 0) == (dq < 0) {
				continue
			}
			x := p.Add(q.Sub(p).Mul(dp / (dp - dq)))
			hits = append(hits, hit{x.Dot(dir), x})
		}
	}
	geom.SortStable(hits, func(x, y hit) int {
		return cmp.Compare(x.t, y.t)
	})
	var out [][2]geom.Vec2
	for i := 0; i+1 < len(hits); i += 2 {
		out = append(out, [2]geom.Vec2{hits[i].p, hits[i+1].p})
	}
	return out
}
