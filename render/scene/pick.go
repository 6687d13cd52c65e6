package scene

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Pick finds what lies under a point of the canvas (px): a seam's ticks before a
// hole or an edge within PickReach, these before the panel or bend; on the
// standing part, else on the blank scribed on the bench.
func (s *Scene) Pick(c *Camera, x, y float64) Hit {
	none := Hit{Body: fold.Body{Index: -1}, Swings: -1, Mark: -1}
	p := s.Picture.Part
	if p == nil {
		return none
	}
	k := newPicker(s, c, x, y)
	h := none
	if p.Foldable {
		if body, dist, ok := k.solid(); ok {
			h = k.onBody(body, dist)
		}
		if seam, point, ok := k.seam(); ok {
			h.Select, h.Name, h.Point = Select{Kind: Seam, Index: seam}, s.Picture.Report.Seams[seam].Name, point
			return h
		}
		if s.Picture.Touch {
			if e, ok := k.rim(); ok {
				return e
			}
		}
		if h.Kind != None {
			return h
		}
	}
	if hit, ok := k.bench(); ok {
		return hit
	}
	return none
}

// picker is one line of sight.
type picker struct {
	s        *Scene
	c        *Camera
	x, y     float64
	eye, dir geom.Vec3
	v        viewer
}

func newPicker(s *Scene, c *Camera, x, y float64) *picker {
	k := &picker{s: s, c: c, x: x, y: y, v: newViewer(c)}
	k.eye, k.dir = c.Ray(x, y)
	return k
}

// solid is the body that is seen, and how far along the ray. A hole's opening counts
// as its panel, so that holes can be touched.
func (k *picker) solid() (fold.Body, float64, bool) {
	best, body, ok := math.Inf(1), fold.Body{Index: -1}, false
	for _, t := range k.s.Tris {
		if d, hit := rayTriangle(k.eye, k.dir, k.s.Verts[t.V[0]].P, k.s.Verts[t.V[1]].P, k.s.Verts[t.V[2]].P); hit && d < best {
			best, body, ok = d, t.Body, true
		}
	}
	p := k.s.Picture.Part
	for i, h := range k.s.Mesher.blank.holes {
		at := k.s.Mesher.blank.in[i]
		if at.Index < 0 || at.Zone {
			continue
		}
		f := k.s.Pose.Panels[at.Index]
		for _, z := range [2]float64{p.Thickness, 0} {
			d, q, hit := k.plane(f, z)
			if hit && d < best && q.Sub(h.At).Len() < h.Diameter/2 {
				best, body, ok = d, at, true
			}
		}
	}
	return body, best, ok
}

// plane is where the ray meets a panel's face at height z in the sheet.
func (k *picker) plane(f geom.Frame, z float64) (dist float64, at geom.Vec2, ok bool) {
	o, d := f.LocalPoint(k.eye), f.LocalVector(k.dir)
	if abs(d[2]) < 1e-9 {
		return 0, at, false
	}
	t := (z - o[2]) / d[2]
	return t, geom.Vec2{o[0] + t*d[0], o[1] + t*d[1]}, t > 0
}

// rayTriangle is the distance along a ray (unit direction) to a triangle, from either side.
func rayTriangle(eye, dir, a, b, c geom.Vec3) (float64, bool) {
	e1, e2 := b.Sub(a), c.Sub(a)
	h := dir.Cross(e2)
	det := e1.Dot(h)
	if abs(det) < 1e-12 {
		return 0, false
	}
	q := eye.Sub(a)
	u := q.Dot(h) / det
	if u < 0 || u > 1 {
		return 0, false
	}
	r := q.Cross(e1)
	v := dir.Dot(r) / det
	if v < 0 || u+v > 1 {
		return 0, false
	}
	t := e2.Dot(r) / det
	return t, t > 0
}

// onBody tells what of a body was touched, dist along the ray.
func (k *picker) onBody(b fold.Body, dist float64) Hit {
	p := k.s.Picture.Part
	h := Hit{Body: b, Point: k.eye.Add(k.dir.Mul(dist)), Swings: k.s.swings(b), Mark: -1}
	h.At = k.s.onBlank(b, h.Point)
	perPx := dist / k.v.f // mm under a pixel
	k.s.name(&h, b, PickReach*perPx, func(q geom.Vec2) float64 {
		x, y, d := k.v.project(k.s.bodyPoint(b, q, p.Thickness/2))
		if d <= 0 {
			return math.Inf(1)
		}
		return math.Hypot(x-k.x, y-k.y)
	})
	return h
}

// onBlank is the blank point of a place on a body.
func (s *Scene) onBlank(b fold.Body, at geom.Vec3) geom.Vec2 {
	p := s.Picture.Part
	f := frameOf(p, s.Pose, b)
	l := f.LocalPoint(at)
	q := geom.Vec2{l[0], l[1]}
	if !b.Zone {
		return q
	}
	bd := &p.Bends[b.Index]
	rho, full := bd.Curl(s.Pose.State[b.Index])
	phi := float64(full)
	u, across := bd.Coord(q)
	if phi > 0 && rho > 0 { // unroll: the angle about the zone's axis, then straight on
		sg := bd.Sigma()
		zn := bd.K * p.Thickness
		if bd.Up {
			zn = p.Thickness - zn
		}
		rise := rho - sg*(l[2]-zn) // from the axis towards the flat sheet
		a := math.Atan2(across, rise)
		if a < 0 && phi > math.Pi/2 {
			a += 2 * math.Pi
		}
		if a > phi {
			sin, cos := math.Sincos(phi)
			across = rho*phi + across*cos - rise*sin
		} else {
			across = rho * max(a, 0)
		}
	}
	across = max(0, min(bd.Allowance, across))
	return bd.Q.Add(bd.U.Mul(u)).Add(bd.N.Mul(across))
}

// swings is the bend that a drag on a body would swing: the first on its way to the
// base that the picture lets be dragged. A zone is carried by the bends before its own.
func (s *Scene) swings(b fold.Body) int {
	p := s.Picture.Part
	panel := b.Index
	if b.Zone {
		panel = p.Bends[b.Index].A
	}
	for range p.Panels { // never further than there are panels
		i := p.Panels[panel].Parent
		if i < 0 {
			break
		}
		for _, d := range s.Picture.Draggable {
			if d == i {
				return i
			}
		}
		panel = p.Bends[i].A
	}
	return -1
}

// name fills in what of a body lies at h.At: a hole or an edge near by, else the
// body itself. reach is in mm of the blank, px measures on the screen.
func (s *Scene) name(h *Hit, b fold.Body, reach float64, px func(geom.Vec2) float64) {
	p := s.Picture.Part
	small := reach * 1.2 // the larger of the hole and a finger
	for i, hole := range s.Mesher.blank.holes {
		if d := h.At.Sub(hole.At).Len(); d < max(hole.Diameter/2*1.15, min(small, hole.Diameter*2)) {
			h.Select, h.Name = Select{Kind: Hole, Index: i}, fmt.Sprintf("hole %d", i+1)
			return
		}
	}
	var pl *plate
	if b.Zone {
		pl = &s.Mesher.zones[b.Index]
	} else {
		pl = &s.Mesher.panels[b.Index]
	}
	cutouts, best := len(p.Spec.Cutouts), float64(PickReach)
	var edge fold.Edge
	found := false
	for _, w := range pl.walls {
		if !w.edge.Free() || w.edge.Contour < 0 {
			continue
		}
		a, q := pl.pts[w.a], pl.pts[w.b]
		d, t := geom.SegmentDistance(h.At, a, q)
		if d > reach*6 { // far even along a slant
			continue
		}
		if d := px(a.Add(q.Sub(a).Mul(t))); d < best {
			best, edge, found = d, w.edge, true
		}
	}
	// an edge must leave the middle of a narrow panel to the panel
	if found && (b.Zone || best < PickReach*.7) {
		switch {
		case edge.Contour > cutouts:
			h.Select = Select{Kind: Hole, Index: edge.Contour - 1 - cutouts}
			h.Name = fmt.Sprintf("hole %d", h.Index+1)
			return
		case edge.Contour > 0 && !b.Zone:
			h.Select = Select{Kind: Cutout, Index: edge.Contour - 1}
			h.Name = fmt.Sprintf("cutout %d", edge.Contour)
			return
		case !b.Zone:
			h.Select = Select{Kind: Edge, Index: edge.Index, Contour: edge.Contour}
			h.Name = fmt.Sprintf("edge %d", edge.Index+1)
			return
		}
	}
	if b.Zone {
		h.Select, h.Name = Select{Kind: Bend, Index: b.Index}, p.Bends[b.Index].Name
		return
	}
	// a bend's zone is often thinner than a finger: its tangent lines take touches close by
	best, near := float64(PickReach)*.6, -1
	for _, w := range pl.walls {
		if w.edge.Free() {
			continue
		}
		a, q := pl.pts[w.a], pl.pts[w.b]
		_, t := geom.SegmentDistance(h.At, a, q)
		if d := px(a.Add(q.Sub(a).Mul(t))); d < best {
			best, near = d, w.edge.Bend
		}
	}
	if near >= 0 && near < len(p.Bends) {
		h.Select, h.Name = Select{Kind: Bend, Index: near}, p.Bends[near].Name
		return
	}
	h.Select, h.Name = Select{Kind: Panel, Index: b.Index}, p.Panels[b.Index].Name
}

// seam is the seam whose drawn ticks lie under the finger.
func (k *picker) seam() (int, geom.Vec3, bool) {
	s := k.s
	r := s.Picture.Report
	all := s.Picture.Ticks || s.Picture.Touch
	if r == nil || !all && s.Picture.Select.Kind != Seam || !s.finished() {
		return 0, geom.Vec3{}, false
	}
	best, index, at := float64(PickReach), -1, geom.Vec3{}
	up := geom.Vec3{0, 0, s.Lift}
	for i := range r.Seams {
		if !all && s.Picture.Select.Index != i {
			continue
		}
		t := r.Seams[i].Ticks
		for j := range t { // along the seam from tick to tick
			m := t[j].A.Add(t[j].B).Mul(.5).Add(up)
			n := m
			if j+1 < len(t) {
				n = t[j+1].A.Add(t[j+1].B).Mul(.5).Add(up)
			}
			x0, y0, d0 := k.v.project(m)
			x1, y1, d1 := k.v.project(n)
			if d0 <= 0 || d1 <= 0 {
				continue
			}
			if d, _ := geom.SegmentDistance(geom.Vec2{k.x, k.y}, geom.Vec2{x0, y0}, geom.Vec2{x1, y1}); d < best {
				best, index, at = d, i, m
			}
		}
	}
	return index, at, index >= 0
}

// rim is the free edge of a standing panel that is seen near the finger, also where the finger itself lies beside the
// panel, on what is behind it.
func (k *picker) rim() (Hit, bool) {
	s, p := k.s, k.s.Picture.Part
	best, h := float64(PickReach), Hit{Swings: -1, Mark: -1}
	for i := range s.Mesher.panels {
		pl := &s.Mesher.panels[i]
		for _, w := range pl.walls {
			if !w.edge.Free() || w.edge.Contour != 0 {
				continue
			}
			a, b := s.Pose.PanelPoint(i, pl.pts[w.a], p.Thickness/2), s.Pose.PanelPoint(i, pl.pts[w.b], p.Thickness/2)
			x0, y0, d0 := k.v.project(a)
			x1, y1, d1 := k.v.project(b)
			if d0 <= 0 || d1 <= 0 {
				continue
			}
			d, t := geom.SegmentDistance(geom.Vec2{k.x, k.y}, geom.Vec2{x0, y0}, geom.Vec2{x1, y1})
			if d >= best {
				continue
			}
			t = t * d0 / (t*d0 + (1-t)*d1) // along the edge in space
			q := a.Add(b.Sub(a).Mul(t))
			if k.hides(q) {
				continue
			}
			best = d
			h.Select, h.Name = Select{Kind: Edge, Index: w.edge.Index}, fmt.Sprintf("edge %d", w.edge.Index+1)
			h.Body, h.Point = fold.Body{Index: i}, q
			h.At = pl.pts[w.a].Add(pl.pts[w.b].Sub(pl.pts[w.a]).Mul(t))
		}
	}
	return h, h.Kind != None
}

// hides reports whether the part hides a place from the eye.
func (k *picker) hides(q geom.Vec3) bool {
	at := *k
	d := q.Sub(k.eye)
	at.dir = d.Normalize()
	_, dist, ok := at.solid()
	return ok && dist < d.Len()-hiddenBy*k.s.partSize()
}

// bench is what of the scribed blank lies under the finger.
func (k *picker) bench() (Hit, bool) {
	h := Hit{Body: fold.Body{Index: -1}, OnBlank: true, Swings: -1, Mark: -1}
	s, p := k.s, k.s.Picture.Part
	if s.Picture.NoBlank || !p.Foldable || abs(k.dir[2]) < 1e-9 {
		return h, false
	}
	t := -k.eye[2] / k.dir[2]
	if t <= 0 {
		return h, false
	}
	h.Point = k.eye.Add(k.dir.Mul(t))
	h.At = geom.Vec2{h.Point[0], h.Point[1]}
	px := func(q geom.Vec2) float64 {
		x, y, d := k.v.project(onBench(q))
		if d <= 0 {
			return math.Inf(1)
		}
		return math.Hypot(x-k.x, y-k.y)
	}
	body, ok := s.Mesher.bodyAt(h.At)
	if !ok { // a finger just outside the outline means it
		best := float64(PickReach)
		for _, o := range s.Mesher.blank.outline {
			_, t := geom.SegmentDistance(h.At, o.a, o.b)
			if d := px(o.a.Add(o.b.Sub(o.a).Mul(t))); d < best && o.contour == 0 {
				best = d
				h.Select, h.Name = Select{Kind: Edge, Index: o.index}, fmt.Sprintf("edge %d", o.index+1)
			}
		}
		return h, h.Kind != None
	}
	h.Body = body
	s.name(&h, body, PickReach*t/k.v.f, px)
	return h, true
}
