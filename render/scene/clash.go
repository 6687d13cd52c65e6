package scene

import (
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// This file marks a clash: hatch on both solids where they will meet, a dashed
// ghost of what swings at first contact, a ring, and a leader to words.

func (s *Scene) clash() {
	c, p := s.Picture.Clash, s.Picture.Part
	if c == nil || BodyName(p, c.A) == "" || BodyName(p, c.B) == "" {
		return
	}
	up := geom.Vec3{0, 0, s.Lift}
	at := c.Point.Add(up)
	meet := p.Pose(p.StateAt(c.Swing, c.Fraction))
	for i := range meet.Panels {
		meet.Panels[i].O = meet.Panels[i].O.Add(up)
	}
	s.hatch(c.A, s.carried(meet, c.A, at), geom.Vec3{1, .35, .8}.Normalize())
	s.hatch(c.B, s.carried(meet, c.B, at), geom.Vec3{-1, .35, .8}.Normalize())
	s.ghost(meet, c.A)
	if c.A != c.B {
		s.ghost(meet, c.B)
	}
	s.cutBack()
	text := s.Picture.ClashText
	if text == "" {
		text = fmt.Sprintf("%s meets %s at %.0f°", BodyName(p, c.A), BodyName(p, c.B), c.Angle.Degrees())
	}
	s.Mark = &ClashMark{At: at, Text: text, Watch: c.Overbend}
}

// cutBack draws where a panel would be cut back to free the clash: dashed on the blank and on both its faces, with how much comes off.
func (s *Scene) cutBack() {
	c, p := s.Picture.Cut, s.Picture.Part
	if c == nil || c.Line[0] == c.Line[1] {
		return
	}
	k := slices.IndexFunc(p.Panels, func(q fold.Panel) bool { return q.Name == c.Panel })
	if k < 0 {
		return
	}
	ink := s.Picture.Colours().Accent
	a, b := geom.Vec2(c.Line[0]), geom.Vec2(c.Line[1])
	put := func(x, y geom.Vec3, lift float32) {
		s.Lines = append(s.Lines, Line{A: x, B: y, Width: 2, C: ink, Lift: lift, Dash: 6})
	}
	put(onBench(a), onBench(b), 0)
	for _, z := range []float64{0, p.Thickness} {
		put(s.Pose.PanelPoint(k, a, z), s.Pose.PanelPoint(k, b, z), biasPx)
	}
	s.Labels = append(s.Labels, Label{At: onBench(a.Add(b).Mul(.5)), Text: "−" + s.Picture.length(c.By), Style: StyleName})
}

// clashInk is what the picture's clash is drawn in: one that is over once the metal has sprung back
// is to be watched only.
func (s *Scene) clashInk() Colour {
	if s.Picture.Clash.Overbend {
		return s.Picture.Colours().Watch
	}
	return s.Picture.Colours().Stop
}

// frameOf is the frame that carries a body: a panel's own, a zone's held panel's.
func frameOf(p *fold.Part, ps fold.Pose, b fold.Body) geom.Frame {
	if b.Zone {
		return ps.Panels[p.Bends[b.Index].A]
	}
	return ps.Panels[b.Index]
}

// carried is where the place of contact on a body lies in the picture's own pose.
func (s *Scene) carried(meet fold.Pose, b fold.Body, at geom.Vec3) geom.Vec3 {
	p := s.Picture.Part
	return frameOf(p, s.Pose, b).Point(frameOf(p, meet, b).LocalPoint(at))
}

// hatch draws lines over the faces of a body near a place: cuts of the faces with
// parallel planes, clipped to a ball.
func (s *Scene) hatch(b fold.Body, at geom.Vec3, along geom.Vec3) {
	size := s.partSize()
	step, reach := size*hatchStep, size*hatchReach
	c := s.clashInk()
	for _, t := range s.Tris {
		if t.Body != b {
			continue
		}
		v := [3]geom.Vec3{s.Verts[t.V[0]].P, s.Verts[t.V[1]].P, s.Verts[t.V[2]].P}
		n := v[1].Sub(v[0]).Cross(v[2].Sub(v[0]))
		if l := n.Len(); l < 1e-9 || abs(v[0].Sub(at).Dot(n))/l > reach {
			continue
		}
		h := along
		if n = n.Normalize(); abs(n.Dot(h)) > .85 { // the planes would hardly cut this face
			h = geom.Vec3{h[1], h[2], h[0]}
		}
		base := at.Dot(h)
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range v {
			d := p.Dot(h) - base
			lo, hi = min(lo, d), max(hi, d)
		}
		lo, hi = max(lo, -reach), min(hi, reach)
		for k := math.Ceil(lo / step); k*step <= hi; k++ {
			if p, q, ok := cutTriangle(v, h, base+k*step); ok {
				if p, q, ok = inBall(p, q, at, reach); ok {
					s.Lines = append(s.Lines, Line{A: p, B: q, Width: 1.3, C: c, Lift: biasPx})
				}
			}
		}
	}
}

// cutTriangle is where the plane p.h = d cuts a triangle.
func cutTriangle(v [3]geom.Vec3, h geom.Vec3, d float64) (p, q geom.Vec3, ok bool) {
	n := 0
	for i := range v {
		a, b := v[i], v[(i+1)%3]
		da, db := a.Dot(h)-d, b.Dot(h)-d
		if (da < 0) == (db < 0) {
			continue
		}
		x := a.Add(b.Sub(a).Mul(da / (da - db)))
		if n == 0 {
			p = x
		} else {
			q = x
		}
		n++
	}
	return p, q, n == 2
}

// inBall is the stretch of p-q inside a ball.
func inBall(p, q, c geom.Vec3, r float64) (geom.Vec3, geom.Vec3, bool) {
	d := q.Sub(p)
	l := d.Len()
	if l < 1e-9 {
		return p, q, false
	}
	d = d.Mul(1 / l)
	mid := c.Sub(p).Dot(d)
	h2 := r*r - p.Add(d.Mul(mid)).Sub(c).Dot(p.Add(d.Mul(mid)).Sub(c))
	if h2 <= 0 {
		return p, q, false
	}
	h := math.Sqrt(h2)
	t0, t1 := max(0, mid-h), min(l, mid+h)
	if t1 <= t0 {
		return p, q, false
	}
	return p.Add(d.Mul(t0)), p.Add(d.Mul(t1)), true
}

// ghost draws a panel's outline at first contact, dashed, where the picture shows
// it elsewhere.
func (s *Scene) ghost(meet fold.Pose, b fold.Body) {
	if b.Zone {
		return
	}
	p := s.Picture.Part
	outer := p.Panels[b.Index].Region.Outer
	moved := 0.0
	for _, v := range outer {
		moved = max(moved, meet.PanelPoint(b.Index, v, 0).Sub(s.Pose.PanelPoint(b.Index, v, 0)).Len())
	}
	if moved < s.partSize()*.01 {
		return
	}
	for i, v := range outer {
		w := outer[(i+1)%len(outer)]
		s.Lines = append(s.Lines, Line{
			A: meet.PanelPoint(b.Index, v, p.Thickness), B: meet.PanelPoint(b.Index, w, p.Thickness),
			Width: 1.2, C: s.clashInk().Alpha(.85), Lift: biasPx, Dash: 6,
		})
	}
}
