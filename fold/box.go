package fold

// This file holds the box of the folded solid, bend zones' extremes taken exactly.

import (
	"math"

	"dryfold/fold/geom"
)

// Box is the axis-parallel box of the folded solid in the pose's space. A zone's
// curved faces are taken at their true extremes, not at facets.
func (ps Pose) Box() geom.Box3 {
	box := geom.EmptyBox3()
	p := ps.Part
	for k := range p.Panels {
		for _, l := range p.Panels[k].Region.Loops() {
			for _, q := range l {
				box.Add(ps.PanelPoint(k, q, 0))
				box.Add(ps.PanelPoint(k, q, p.Thickness))
			}
		}
	}
	for i := range p.Bends {
		if p.Bends[i].Allowance == 0 {
			ps.growByCrease(&box, i)
		}
		for _, r := range p.Bends[i].Zone {
			for _, l := range r.Loops() {
				for k, a := range l {
					ps.growByZoneEdge(&box, i, a, l[(k+1)%len(l)])
				}
			}
		}
	}
	return box
}

// growByZoneEdge takes in the curves that a zone's boundary edge a-b becomes on
// both faces. A face's extreme in any direction lies on its boundary.
func (ps Pose) growByZoneEdge(box *geom.Box3, bend int, a, b geom.Vec2) {
	p := ps.Part
	bd := &p.Bends[bend]
	rho, full := bd.Curl(ps.State[bend])
	phi := float64(full)
	f := ps.Panels[bd.A]
	ua, sa := bd.Coord(a)
	ub, sb := bd.Coord(b)
	at := func(s, z float64) {
		t := 0.0
		if sb != sa {
			t = (s - sa) / (sb - sa)
		}
		if t >= 0 && t <= 1 {
			box.Add(ps.ZonePoint(bend, a.Add(b.Sub(a).Mul(t)), z))
		}
	}
	for _, z := range []float64{0, p.Thickness} {
		box.Add(ps.ZonePoint(bend, a, z))
		if sa == sb || rho == 0 {
			continue
		}
		at(rho*phi, z) // where the bent piece ends
		r := rho - bd.Sigma()*(z-bd.neutralHeight(p.Thickness))
		slope := (ub - ua) / (sb - sa) * rho // along, for a radian
		for k := range 3 {
			axis := geom.Vec3{}
			axis[k] = 1
			du := f.Vector(geom.Vec3{bd.U[0], bd.U[1], 0}).Dot(axis) * slope
			dn := f.Vector(geom.Vec3{bd.N[0], bd.N[1], 0}).Dot(axis) * r
			dz := -f.Vector(geom.Vec3{0, 0, 1}).Dot(axis) * bd.Sigma() * r
			// height along the axis: du*a + dn*sin a + dz*cos a; its slope is
			// du + dn cos a - dz sin a = du + h cos(a + psi).
			h := math.Hypot(dn, dz)
			if h == 0 || math.Abs(du) > h {
				continue
			}
			psi, w := math.Atan2(dz, dn), math.Acos(-du/h)
			for _, root := range []float64{w - psi, -w - psi} {
				for root < 0 {
					root += 2 * math.Pi
				}
				for ; root <= phi; root += 2 * math.Pi {
					at(rho*root, z)
				}
			}
		}
	}
}

// growByCrease takes in the round of a bend of no width: its outer face turns about its
// line at the sheet's thickness.
func (ps Pose) growByCrease(box *geom.Box3, bend int) {
	p := ps.Part
	bd := &p.Bends[bend]
	f := ps.Panels[bd.A]
	n, up := f.Vector(geom.Vec3{bd.N[0], bd.N[1], 0}), f.Vector(geom.Vec3{0, 0, 1})
	phi := float64(ps.State[bend])
	for k := range 3 {
		// height along the axis: r*(n sin a - sigma up cos a)
		a := math.Atan2(n[k], -bd.Sigma()*up[k])
		for _, root := range []float64{a, a + math.Pi, a + 2*math.Pi} {
			if root < 0 || root > phi {
				continue
			}
			for _, end := range bd.Line {
				for _, z := range []float64{0, p.Thickness} {
					box.Add(f.Point(bd.Roll(end, z, geom.Angle(root), p.Thickness)))
				}
			}
		}
	}
}
