package assets

// This file makes the uncapping tray and its faulty variant from their sizes. The
// cut lines of its corners come from where the walls' planes meet in space: each
// panel's frame is composed down the tree, the meeting lines are taken back to
// the blank, and the notches' offset is then corrected until the least gap is the
// wanted one.

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/shape"
)

// Sizes of the uncapping tray, mm and degrees. Ours, made up.
const (
	trayT, trayR, trayK = 1.0, 1.5, 0.42
	trayGap             = 0.6
	trayHalf            = 118.0 // half the floor's width at the back's tangent line
	trayTaper           = 3.2   // each side narrows by, degrees
	trayRear            = 190.0 // flat floor from the back to the fall
	trayFront           = 164.0 // and from the fall to the lip
	trayFall            = 14.0
	traySide            = 84.0
	trayBack            = 60.0
	trayBackFlat        = 44.0 // flat height of the back along its slope
	trayHook            = 22.0 // flat width of the hook, level on the tub's rim
	trayHookHalf        = 154.0
	trayGrip            = 15.0 // flat height of the part that hangs behind the rim
	trayGripBend        = 80.0
	trayLip             = 24.0
	trayLipBend         = 25.0
	traySideBack        = 56.0 // how far the sides reach across the blank at the back,
	traySideFall        = 35.0 // at the fall
	traySideSpout       = 31.0 // and at the spout
	trayShort           = 3.0  // the faulty tray's left front wall is cut this much short at its top
)

// strip is a bend of the tray before there is a part: coordinates and frames.
type strip struct {
	fold.Bend
	name string
}

func newStrip(name string, degrees float64, up bool, q, u geom.Vec2) strip {
	b := fold.Bend{Angle: geom.Degrees(degrees), Radius: trayR, K: trayK, Up: up, Q: q, U: u}
	b.Rho = trayR + trayK*trayT
	b.Allowance = float64(b.Angle) * b.Rho
	b.N = geom.Vec2{u[1], -u[0]}
	return strip{b, name}
}

// at gives the blank's point along c and across s.
func (b strip) at(c, s float64) geom.Vec2 { return b.Q.Add(b.U.Mul(c)).Add(b.N.Mul(s)) }

// plane is n.x = d in space.
type plane struct {
	n geom.Vec3
	d float64
}

// upper is the plane of a panel's upper face.
func upper(f geom.Frame) plane { return plane{f.Z, f.Z.Dot(f.Point(geom.Vec3{0, 0, trayT}))} }

// trace gives how far along c a point (c, s, z) of the panel beyond b, in frame f,
// meets the plane.
func (b strip) trace(f geom.Frame, p plane, s, z float64) float64 {
	at := func(c float64) float64 {
		q := b.at(c, s)
		return p.n.Dot(f.Point(geom.Vec3{q[0], q[1], z})) - p.d
	}
	a := at(0)
	return -a / (at(1) - a)
}

// tray makes the tray with its notches cut the given offset from the plane that
// halves the fall; fault is the faulty variant.
func tray(offset float64, fault bool) fold.Spec {
	tau := geom.Degrees(trayTaper)
	sin, cos := math.Sincos(float64(tau))
	fall := newStrip("fall", trayFall, true, geom.Vec2{0, trayRear}, geom.Vec2{-1, 0})
	back := newStrip("back", trayBack, true, geom.Vec2{}, geom.Vec2{1, 0})
	side := newStrip("right", traySide, true, geom.Vec2{trayHalf, 0}, geom.Vec2{-sin, cos})
	backTop := back.Allowance + trayBackFlat
	hookOut := newStrip("hook out", trayBack, false, geom.Vec2{0, -backTop}, geom.Vec2{1, 0})
	hookEnd := backTop + hookOut.Allowance + trayHook
	hookDown := newStrip("hook down", trayGripBend, false, geom.Vec2{0, -hookEnd}, geom.Vec2{1, 0})
	bottom := -hookEnd - hookDown.Allowance - trayGrip
	frontFrom := trayRear + fall.Allowance
	spout := frontFrom + trayFront
	lip := newStrip("spout lip", trayLipBend, false, geom.Vec2{0, spout}, geom.Vec2{-1, 0})
	topY := spout + lip.Allowance + trayLip

	// Frames as finished.
	rearF := side.Hinge(side.Angle, trayT)
	backF := back.Hinge(back.Angle, trayT)
	frontF := fall.Hinge(fall.Angle, trayT).Compose(rearF)

	// Corner of side and back: both edges stop short of the line where the inner faces meet.
	delta := geom.Angle(math.Pi - math.Acos(rearF.Z.Dot(backF.Z)))
	d := shape.EdgeToEdge(trayGap, delta, trayT)
	corner := func(b strip, f geom.Frame, p plane, s float64) float64 {
		slope := b.trace(f, p, 1, trayT) - b.trace(f, p, 0, trayT)
		return b.trace(f, p, s, trayT) + d*math.Hypot(1, slope)
	}
	rearEdge := func(s float64) float64 { return corner(side, rearF, upper(backF), s) }
	mirrored := strip{back.Bend, ""} // the back seen from its right end
	mirrored.U, mirrored.Q = geom.Vec2{-1, 0}, geom.Vec2{trayHalf, 0}
	backEdge := func(s float64) float64 { return trayHalf - corner(mirrored, backF, upper(rearF), s) }

	// Notch: both walls are cut along the plane that holds the fall's axis and halves
	// its angle, the tighter face the offset from it.
	sh, ch := math.Sincos(float64(fall.Angle) / 2)
	halving := plane{n: geom.Vec3{0, ch, sh}}
	halving.d = halving.n.Dot(geom.Vec3{0, trayRear, trayT + trayR})
	notch := func(f geom.Frame, by, s float64) float64 {
		p := plane{halving.n, halving.d + by}
		low, high := side.trace(f, p, s, 0), side.trace(f, p, s, trayT)
		if by < 0 {
			return min(low, high)
		}
		return max(low, high)
	}
	rearV := func(s float64) float64 { return notch(rearF, -offset, s) }
	frontV := func(s float64) float64 { return notch(frontF, offset, s) }

	// Reliefs reach half a thickness past the zones, a thickness into the floor.
	const in = trayT
	foot := side.Allowance + trayT/2
	plan := math.Pi/2 - float64(tau) // of the floor's back corners
	zoneAt := in / math.Tan(plan/2)  // where the relief's corner lies along both walls
	rearEnd := (trayRear - in - foot*sin) / cos
	frontEnd := (frontFrom + in + in*sin) / cos
	spoutEnd := (spout - 4) / cos

	var right, left fold.Contour // from the hook to the lip
	add := func(q geom.Vec2) {
		right = append(right, fold.Vertex{At: q})
		left = append(left, fold.Vertex{At: geom.Vec2{-q[0], q[1]}})
	}
	// round adds a quarter circle of radius r about c from one direction to the other.
	round := func(c geom.Vec2, r float64, from, to geom.Vec2) {
		add(c.Add(from.Mul(r)))
		m := c.Add(from.Add(to).Normalize().Mul(r))
		add(c.Add(to.Mul(r)))
		right[len(right)-1].Through = &m
		mm := geom.Vec2{-m[0], m[1]}
		left[len(left)-2].Through = &mm // the left is walked back
	}
	// ease rounds the corner c between edges from a and to b with radius r.
	ease := func(a, c, b geom.Vec2, r float64) {
		u, v := a.Sub(c).Normalize(), b.Sub(c).Normalize()
		half := math.Acos(u.Dot(v)) / 2
		m := c.Add(u.Add(v).Normalize().Mul(r/math.Sin(half) - r))
		add(c.Add(u.Mul(r / math.Tan(half))))
		add(c.Add(v.Mul(r / math.Tan(half))))
		right[len(right)-1].Through = &m
		mm := geom.Vec2{-m[0], m[1]}
		left[len(left)-2].Through = &mm
	}
	const ear, lipRound, tip = 5.0, 8.0, 3.0
	xTop := backEdge(backTop)
	round(geom.Vec2{trayHookHalf - ear, bottom + ear}, ear, geom.Vec2{0, -1}, geom.Vec2{1, 0})
	earY := -backTop - hookOut.Allowance - in
	add(geom.Vec2{trayHookHalf, earY})
	add(geom.Vec2{xTop, earY})
	add(geom.Vec2{xTop, -backTop})
	backFoot := back.Allowance + trayT/2
	add(geom.Vec2{backEdge(backFoot), -backFoot})
	zoneX := trayHalf - zoneAt
	add(geom.Vec2{zoneX, -backFoot})
	add(geom.Vec2{zoneX, in})
	add(side.at(zoneAt, foot))
	add(side.at(rearEdge(foot), foot))
	rearTop := side.at(rearV(traySideFall), traySideFall)
	ease(side.at(rearEdge(foot), foot), side.at(rearEdge(traySideBack), traySideBack), rearTop, tip)
	add(rearTop)
	add(side.at(rearV(foot), foot))
	add(side.at(rearEnd, foot))
	add(side.at(rearEnd, -in))
	add(side.at(frontEnd, -in))
	add(side.at(frontEnd, foot))
	add(side.at(frontV(foot), foot))
	frontTop := side.at(frontV(traySideFall), traySideFall)
	add(frontTop)
	if fault {
		q := side.U.Mul(trayShort)
		k := len(left) - 1
		left[k].At = left[k].At.Add(geom.Vec2{-q[0], q[1]})
	}
	ease(frontTop, side.at(spoutEnd, traySideSpout), side.at(spoutEnd, -in), tip)
	add(side.at(spoutEnd, -in))
	lipX := side.at(spoutEnd, -in)[0]
	round(geom.Vec2{lipX - lipRound, topY - lipRound}, lipRound, geom.Vec2{1, 0}, geom.Vec2{0, 1})

	k, gap := trayK, trayGap
	s := fold.Spec{
		Name:  "Uncapping tray",
		Units: fold.MM,
		Sheet: fold.Sheet{Thickness: trayT, Metal: "Stainless 304", K: &k, Good: "up"},
		Base:  "floor",
	}
	s.Outline = right
	for i := len(left) - 1; i >= 0; i-- {
		s.Outline = append(s.Outline, left[i])
	}
	across := func(b strip, half, s float64) [2]geom.Vec2 {
		y := b.at(0, s)[1]
		return [2]geom.Vec2{{-half, y}, {half, y}}
	}
	bend := func(b strip, line [2]geom.Vec2) {
		s.Bends = append(s.Bends, fold.BendSpec{Name: b.name, Line: line, Angle: math.Round(b.Angle.Degrees()), Radius: trayR, Up: b.Up})
	}
	both := func(name string, c0, c1 float64) {
		b := side
		r := [2]geom.Vec2{side.at(c0, side.Allowance/2), side.at(c1, side.Allowance/2)}
		b.name = "right " + name
		bend(b, r)
		b.name = "left " + name
		bend(b, [2]geom.Vec2{{-r[0][0], r[0][1]}, {-r[1][0], r[1][1]}})
	}
	mid := (trayRear + frontFrom) / 2
	bend(hookDown, across(hookDown, trayHookHalf, hookDown.Allowance/2))
	bend(hookOut, across(hookOut, xTop, hookOut.Allowance/2))
	bend(lip, across(lip, lipX, lip.Allowance/2))
	both("rear", zoneAt, rearEnd)
	both("front", frontEnd, spoutEnd)
	bend(back, across(back, zoneX, back.Allowance/2))
	bend(fall, across(fall, side.at((mid+in*sin)/cos, -in)[0], fall.Allowance/2))

	name := func(n string, at geom.Vec2) { s.Panels = append(s.Panels, fold.PanelName{Name: n, At: at}) }
	two := func(n string, at geom.Vec2) {
		name("right "+n, at)
		name("left "+n, geom.Vec2{-at[0], at[1]})
	}
	name("floor", geom.Vec2{0, math.Round(trayRear / 2)})
	name("front floor", geom.Vec2{0, math.Round(mid + trayFront/2)})
	name("back", geom.Vec2{0, -math.Round(backTop / 2)})
	name("hook", geom.Vec2{0, -math.Round(hookEnd - trayHook/2)})
	name("grip", geom.Vec2{0, math.Round(bottom + trayGrip/2)})
	name("lip", geom.Vec2{0, math.Round(topY - trayLip/2)})
	two("rear", geom.Vec2{math.Round(trayHalf + 20), math.Round(trayRear / 2)})
	two("front", geom.Vec2{math.Round(trayHalf + 10), math.Round(mid + trayFront/2)})

	seam := func(n string, a, b geom.Vec2) {
		s.Seams = append(s.Seams,
			fold.SeamSpec{Name: "right " + n, A: a, B: b, Gap: &gap},
			fold.SeamSpec{Name: "left " + n, A: geom.Vec2{-a[0], a[1]}, B: geom.Vec2{-b[0], b[1]}, Gap: &gap})
	}
	half := (foot + traySideFall) / 2
	seam("notch", side.at(rearV(half), half), side.at(frontV(half), half))
	if fault {
		q := side.U.Mul(trayShort / 2)
		s.Seams[1].B = s.Seams[1].B.Add(geom.Vec2{-q[0], q[1]})
	}
	half = (foot + backTop) / 2
	seam("corner", side.at(rearEdge(half), half), geom.Vec2{backEdge(half), -half})

	one := func(names ...string) fold.Step { return fold.Step{Bends: names} }
	sideStep := func(hand string) fold.Step { return one(hand+" rear", hand+" front") }
	s.Order = []fold.Step{one("hook down"), one("hook out"), one("spout lip"),
		sideStep("left"), sideStep("right"), one("back"), one("fall")}
	s.Notes = "Hangs by its hook on the rim of a 60-litre tub; the comb is uncapped over it and the honey runs off by the spout. Corners and notches TIG-welded outside, ground flush inside."
	if fault {
		s.Name = "Uncapping tray, spoilt"
		s.Notes = "Spoilt on purpose: the back goes up before the left side, and the left front wall is cut short at the notch."
		s.Order = []fold.Step{one("hook down"), one("hook out"), one("spout lip"),
			sideStep("right"), one("back"), sideStep("left"), one("fall")}
	}
	return s
}

// solvedTray is the tray with its notches' least gap corrected to the wanted one.
func solvedTray(t *testing.T, fault bool) fold.Spec {
	least := func(offset float64) float64 {
		r := fold.Build(tray(offset, false)).Quick()
		for _, s := range r.Seams {
			if s.Name == "right notch" {
				return s.GapMin
			}
		}
		require.Fail(t, "no notch")
		return 0
	}
	lo, hi := 0.0, trayGap
	require.Less(t, least(lo), trayGap)
	require.Greater(t, least(hi), trayGap)
	for hi-lo > 1e-9 {
		if m := (lo + hi) / 2; least(m) < trayGap {
			lo = m
		} else {
			hi = m
		}
	}
	return tray(hi, fault)
}
