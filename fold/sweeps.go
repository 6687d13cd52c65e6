package fold

// This file puts boxes round what the solids of a part go through in a swing.

import (
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// sweep is what a solid goes through in a swing: boxes round it, along the axes of the frame that view.sweeps takes.
type sweep struct {
	body  Body
	last  int         // last bend of its panel's route; -1 where it lies still
	turns bool        // the zone of a bend that turns
	all   geom.Box3   // all through the swing
	part  []geom.Box3 // in each of sweepParts equal parts of it; nil where it lies still
}

// meets reports whether two sweeps come within reach of each other, and from which fraction of the swing on they may.
func (x *sweep) meets(y *sweep, reach float64) (from float64, ok bool) {
	if !near(&x.all, &y.all, reach) {
		return 0, false
	}
	for k := range x.part {
		other := &y.all
		if y.part != nil {
			other = &y.part[k]
		}
		if near(&x.part[k], other, reach) {
			return float64(k) / sweepParts, true
		}
	}
	return 0, false
}

// oriented is a box in the axes of a set's frame: its middle, and half its edges as vectors.
type oriented struct {
	mid  geom.Vec3
	half [3]geom.Vec3
}

// in is the box along the axes of f's outer space when the set's frame is f.
func (o *oriented) in(f *geom.Frame) geom.Box3 {
	m := f.Point(o.mid)
	var r geom.Vec3
	for i := range o.half {
		h := &o.half[i]
		for k := range 3 {
			r[k] += math.Abs(f.X[k]*h[0] + f.Y[k]*h[1] + f.Z[k]*h[2])
		}
	}
	return geom.Box3{Min: m.Sub(r), Max: m.Add(r)}
}

// orient is a body's box, the body placed at f.
func orient(b *solid.Body, f geom.Frame) oriented {
	mid, half := b.Bounds()
	return oriented{f.Point(mid), [3]geom.Vec3{f.X.Mul(half[0]), f.Y.Mul(half[1]), f.Z.Mul(half[2])}}
}

// sweeps boxes all solids of the part in the swing whose start v is, along the axes of its first bend: those that move, and
// those that lie still.
func (v *view) sweeps() (moving, still []sweep) {
	p := v.part
	axes := geom.Identity()
	if len(v.bends) > 0 {
		b := &p.Bends[v.bends[0]]
		axes = v.frame(b.A).Compose(geom.Frame{X: geom.Vec3{b.U[0], b.U[1], 0}, Y: geom.Vec3{b.N[0], b.N[1], 0}, Z: geom.Vec3{0, 0, 1}}).Orthonormal()
	}
	outOf := solid.InFrame(axes, geom.Identity()) // space as the axes have it
	var steps [sweepParts + 1]view
	swung := make([]geom.Frame, sweepParts*len(v.bends))
	steps[0] = *v
	for k := 1; k <= sweepParts; k++ {
		n := len(v.bends)
		steps[k] = view{course: v.course, f: float64(k) / sweepParts, swung: swung[(k-1)*n : k*n : k*n]}
		v.work += viewWork
	}
	// By the last bend of a route: where its set stands at each step, and its motion.
	type set struct {
		frames [sweepParts + 1]geom.Frame
		back   geom.Frame // from space, as at the start, to the set's own axes
	}
	sets := make([]*set, len(p.Bends))
	setOf := func(last int) *set {
		if sets[last] == nil {
			s := &set{back: solid.InFrame(v.frame(p.Bends[last].B), geom.Identity())}
			for k := range steps {
				s.frames[k] = outOf.Compose(steps[k].frame(p.Bends[last].B))
			}
			sets[last] = s
		}
		return sets[last]
	}
	// path boxes a box that a panel carries through the swing.
	path := func(x *sweep, box oriented, panel int, first bool) {
		last := v.last(panel)
		if last < 0 {
			b := box.in(&outOf)
			if !first {
				b.Add(x.all.Min)
				b.Add(x.all.Max)
			}
			x.all = b
			return
		}
		s := setOf(last)
		m, r := box.mid, box.half[0].Len()+box.half[1].Len()+box.half[2].Len()
		local := oriented{s.back.Point(box.mid), [3]geom.Vec3{s.back.Vector(box.half[0]), s.back.Vector(box.half[1]), s.back.Vector(box.half[2])}}
		bulge := v.bulge(panel, m, r)
		if first {
			x.part = make([]geom.Box3, sweepParts)
			x.all = geom.EmptyBox3()
		}
		was := local.in(&s.frames[0])
		for k := range sweepParts {
			now := local.in(&s.frames[k+1])
			for i := range 3 {
				lo, hi := min(was.Min[i], now.Min[i])-bulge, max(was.Max[i], now.Max[i])+bulge
				if i == 0 && len(v.bends) == 1 { // nothing moves along the one line that is bent
					lo, hi = lo+bulge, hi-bulge
				}
				if first {
					x.part[k].Min[i], x.part[k].Max[i] = lo, hi
				} else {
					x.part[k].Min[i], x.part[k].Max[i] = min(x.part[k].Min[i], lo), max(x.part[k].Max[i], hi)
				}
			}
			x.all.Add(x.part[k].Min)
			x.all.Add(x.part[k].Max)
			was = now
		}
	}
	bodies := p.bodies()
	still = make([]sweep, 0, len(bodies))
	for _, b := range bodies {
		v.work++
		x := sweep{body: b, last: v.last(p.carrier(b)), turns: v.turning(b)}
		if x.turns {
			held, led := x, x
			v.zoneReach(b.Index, func(box oriented, panel int, ofB bool) {
				if ofB {
					path(&led, box, panel, true)
				} else {
					path(&held, box, panel, true)
				}
			})
			moving = append(moving, held.and(&led))
			continue
		}
		first := true
		if body, panel := v.rigid(b); body != nil {
			if len(body.Pieces) > 0 {
				path(&x, orient(body, v.heldFrame(b, panel)), panel, true)
				first = false
			}
		} else {
			for _, g := range v.groups(b, nil) {
				if !g.Empty() {
					path(&x, orient(g.Body, g.Frame), g.panel, first)
					first = false
				}
			}
		}
		switch {
		case first:
		case x.last < 0:
			still = append(still, x)
		default:
			moving = append(moving, x)
		}
	}
	v.work += boxWork * len(moving)
	return moving, still
}

// rigid is the whole of a solid that hangs on one panel, and that panel: a panel's own, a zone's that is flat or finished; nil for
// others.
func (v *view) rigid(b Body) (*solid.Body, int) {
	if !b.Zone {
		return v.panels[b.Index], b.Index
	}
	bend, z := &v.part.Bends[b.Index], &v.zones[b.Index]
	switch state := v.angle(b.Index); {
	case z.bent == nil:
		return nil, 0
	case state == bend.Angle:
		return z.bent, bend.A
	case state == 0:
		return z.flat, bend.B
	}
	return nil, 0
}

// heldFrame is where a rigid solid stands that hangs on a panel.
func (v *view) heldFrame(b Body, panel int) geom.Frame {
	f := v.frame(panel)
	if b.Zone {
		if bend := &v.part.Bends[b.Index]; panel == bend.A && bend.moved != (geom.Vec2{}) {
			f.O = f.Point(geom.Vec3{bend.moved[0], bend.moved[1], 0})
		}
	}
	return f
}

// and keeps, of two sweeps that both hold a solid, what they share.
func (x sweep) and(y *sweep) sweep {
	part := make([]geom.Box3, sweepParts)
	all := geom.EmptyBox3()
	for k := range part {
		bx, by := &x.all, &y.all
		if x.part != nil {
			bx = &x.part[k]
		}
		if y.part != nil {
			by = &y.part[k]
		}
		for i := range 3 {
			part[k].Min[i], part[k].Max[i] = max(bx.Min[i], by.Min[i]), min(bx.Max[i], by.Max[i])
		}
		all.Add(part[k].Min)
		all.Add(part[k].Max)
	}
	x.all, x.part = all, part
	return x
}

// zoneReach calls take with boxes, in space, that hold a turning zone whatever its angle: one as its held panel
// carries it, one as its swinging panel does. Seen from either the zone stays within its allowance and twice the
// thickness of the tangent line that they share.
func (v *view) zoneReach(bend int, take func(box oriented, panel int, ofB bool)) {
	b := &v.part.Bends[bend]
	from, to := b.run()
	t := v.part.Thickness
	r := b.Allowance + 2*t
	for _, panel := range []int{b.A, b.B} {
		at := b.Q.Add(b.U.Mul((from + to) / 2))
		if panel == b.B {
			at = at.Add(b.N.Mul(b.Allowance))
		}
		f := v.frame(panel)
		take(oriented{f.Point(geom.Vec3{at[0], at[1], t / 2}), [3]geom.Vec3{
			f.Vector(geom.Vec3{b.U[0], b.U[1], 0}.Mul((to-from)/2 + Weld)), f.Vector(geom.Vec3{b.N[0], b.N[1], 0}.Mul(r)), f.Z.Mul(r)}},
			panel, panel == b.B)
	}
}

// bulge is how far, in one of sweepParts parts of the swing, points within radius r of m - in space as at the start - stray
// from the straight way between where they are at its ends, as a panel carries them. One bend that turns at the rate
// w: the speed is w times the distance d to the line of contact, which creeps by rho, so that the way's second derivative is at
// most w^2 (d + rho) and the bulge that over 8. Else by the speed: no point is farther than half the way from both.
func (v *view) bulge(panel int, m geom.Vec3, r float64) float64 {
	route := v.routes[panel]
	const part = 1.0 / sweepParts
	if len(route) == 1 && !v.back {
		t := v.turn(route[0])
		off := m.Sub(t.At)
		w := math.Abs(t.Rate)
		d := off.Sub(t.Axis.Mul(off.Dot(t.Axis))).Len() + r + t.Creep*w
		return w * w * (d + t.Creep) * part * part / 8
	}
	// Seen from the base: inner turns move a point against the outer lines. The sum of rates times distances grows at most
	// as fast as itself times the rates; and no distance is longer than the way along the sheet.
	speed, rates, along := 0.0, 0.0, 2*r
	for _, b := range route {
		rates += v.rate(b)
	}
	for k := panel; v.part.Panels[k].Parent >= 0; k = v.part.Bends[v.part.Panels[k].Parent].A {
		b := &v.part.Bends[v.part.Panels[k].Parent]
		along += 2*v.panels[k].Radius() + b.Allowance + 2*v.part.Thickness + 2*v.panels[b.A].Radius()
	}
	creep := 0.0
	for _, b := range route {
		t := v.turn(b)
		off := m.Sub(t.At)
		speed += v.rate(b) * (off.Sub(t.Axis.Mul(off.Dot(t.Axis))).Len() + r)
		creep += v.rate(b) * t.Creep
		if v.back {
			creep += v.rate(b) * v.part.Bends[b].Allowance / 2
		}
	}
	most := rates*along + creep
	if rates < 1 { // exp(x) < 1 + x + x^2 there
		most = min(most, (speed+creep)*(1+rates+rates*rates)+creep)
	}
	return most * part / 2
}
