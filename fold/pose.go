package fold

import (
	"math"

	"dryfold/fold/geom"
)

// Pose places a part's panels and zones in space at a State. Poses are relative
// to the base panel, which lies as on the blank.
type Pose struct {
	Part   *Part
	State  State
	Panels []geom.Frame // carries a panel's blank points (x, y, z) into space
}

// Pose folds the part to a state. The part must be Foldable. Rolling on to the
// nose, springing back: kernel.md, Pose.
func (p *Part) Pose(s State) Pose {
	ps := Pose{Part: p, State: s, Panels: make([]geom.Frame, len(p.Panels))}
	for _, k := range p.order {
		if b := p.Panels[k].Parent; b < 0 {
			ps.Panels[k] = geom.Identity()
		} else {
			ps.Panels[k] = ps.Panels[p.Bends[b].A].Compose(p.Bends[b].Hinge(s[b], p.Thickness))
		}
	}
	return ps
}

// neutralHeight is the height of the neutral line in the sheet: K*T from the inside face.
func (b *Bend) neutralHeight(t float64) float64 {
	if b.Up {
		return t - b.K*t
	}
	return b.K * t
}

// Hinge is the placement of the swinging panel in the held panel's blank axes at angle phi.
func (b *Bend) Hinge(phi geom.Angle, t float64) geom.Frame {
	rho, full := b.Curl(phi)
	sin, cos := math.Sincos(float64(full))
	zn := b.neutralHeight(t)
	at := func(p geom.Vec2, z float64) geom.Vec3 {
		u, s := b.Coord(p)
		return b.bent(u, s-rho*float64(full), z, zn, rho, sin, cos)
	}
	o := at(geom.Vec2{}, 0)
	return geom.Frame{
		X: at(geom.Vec2{1, 0}, 0).Sub(o),
		Y: at(geom.Vec2{0, 1}, 0).Sub(o),
		Z: at(geom.Vec2{}, 1).Sub(o),
		O: o,
	}.Orthonormal()
}

// Roll places the blank point (p, z) of the bend's zone (or of the panel beyond
// it) in the held panel's blank axes at bend angle phi, with the sheet t thick.
// phi is the bend's State: see Curl. What is not bent is flat with the swinging side.
func (b *Bend) Roll(p geom.Vec2, z float64, phi geom.Angle, t float64) geom.Vec3 {
	u, s := b.Coord(p)
	rho, full := b.Curl(phi)
	a := float64(full)
	if rho*a > 0 && s < rho*a {
		a = max(s, 0) / rho
	}
	sin, cos := math.Sincos(a)
	return b.bent(u, s-rho*a, z, b.neutralHeight(t), rho, sin, cos)
}

// bent places a point at u along and height z: round the cylinder of neutral radius rho by an angle whose sine and cosine are given, then
// straight on by run, which is under nothing only outside the zone; zn is the neutral height.
func (b *Bend) bent(u, run, z, zn, rho, sin, cos float64) geom.Vec3 {
	sg := b.Sigma()
	r := rho - sg*(z-zn)
	across := r*sin + run*cos
	height := zn + sg*(rho-r*cos+run*sin)
	xy := b.Q.Add(b.U.Mul(u)).Add(b.N.Mul(across)).Add(b.moved)
	return geom.Vec3{xy[0], xy[1], height}
}

// PanelPoint places a blank point of a panel in space.
func (ps Pose) PanelPoint(panel int, p geom.Vec2, z float64) geom.Vec3 {
	return ps.Panels[panel].Point(geom.Vec3{p[0], p[1], z})
}

// ZonePoint places a blank point of a bend's zone in space.
func (ps Pose) ZonePoint(bend int, p geom.Vec2, z float64) geom.Vec3 {
	b := &ps.Part.Bends[bend]
	return ps.Panels[b.A].Point(b.Roll(p, z, ps.State[bend], ps.Part.Thickness))
}

// ZoneAxis gives a bend's cylinder in space: a point of its axis, the unit vector
// along it (U), and the angle up to which the zone is bent. The neutral line lies at Curl's
// radius from the axis; the bent piece starts at the held
// tangent line and does not move while the sheet rolls on to the nose.
func (ps Pose) ZoneAxis(bend int) (o, u geom.Vec3, bent geom.Angle) {
	b := &ps.Part.Bends[bend]
	f := ps.Panels[b.A]
	rho, bent := b.Curl(ps.State[bend])
	z := b.neutralHeight(ps.Part.Thickness) + b.Sigma()*rho
	return f.Point(geom.Vec3{b.Q[0] + b.moved[0], b.Q[1] + b.moved[1], z}), f.Vector(geom.Vec3{b.U[0], b.U[1], 0}), bent
}
