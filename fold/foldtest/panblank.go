package foldtest

// This file draws a pan's blank.

import (
	"dryfold/fold"
	"dryfold/fold/geom"
)

// wall is one wall's coordinates on the blank: u along the floor's tangent line
// from its first corner, s across from it outwards.
type wall struct {
	o, along, out geom.Vec2
	length        float64
}

func (p *pan) wall(i int) wall {
	o, along := p.tangent[i], p.direction(i)
	return wall{o, along, geom.Perp(along).Mul(-1), p.tangent[(i+1)%4].Sub(o).Dot(along)}
}

func (w wall) at(u, s float64) geom.Vec2 {
	return w.o.Add(w.along.Mul(u)).Add(w.out.Mul(s))
}

// side is one end of a wall and its rim on the blank, from the floor outwards, as
// (u, s) with u from that end's own tangent corner.
func (p *pan) side(i int) []geom.Vec2 {
	foot, top := p.ba+p.past, p.top()
	var pts []geom.Vec2
	add := func(u, s float64) {
		q := geom.Vec2{u, s}
		if k := len(pts); k == 0 || pts[k-1].Sub(q).Len() > 1e-9*p.sizes.Thickness {
			pts = append(pts, q)
		}
	}
	add(p.end[i], foot)
	add(p.edge(i, foot), foot)
	u := p.edge(i, top)
	add(u, top)
	if p.sizes.Rim == PlainRim {
		return pts
	}
	start := top + p.rimBA
	raw := start + p.rim
	switch {
	case p.sizes.Rim == HemRim:
		add(u, start)
		add(p.hem(i, raw), raw)
	case p.sizes.RimClear:
		add(u, raw)
	default:
		step := start + p.past
		w := p.rimFlatFrom()
		if m := p.mitre(i, w+p.past); m < u {
			add(u, step)
			add(m, step)
		}
		add(p.mitre(i, w+p.rim), raw)
	}
	return pts
}

// hem is where a hem's edge lies at corner i, s across from the floor's tangent
// line: folded back, it follows its wall's edge.
func (p *pan) hem(i int, s float64) float64 {
	u := p.edge(i, p.top())
	return u + (p.edge(i, p.top()-1)-u)*(s-p.top()-p.rimBA)
}

// top is the distance across the blank from the floor's tangent line to the
// wall's cut edge, or to its rim's tangent line.
func (p *pan) top() float64 { return p.ba + p.flat - p.back }

// rimFlatFrom is how far out from the wall's inner face a lip's flat part begins.
func (p *pan) rimFlatFrom() float64 { return setback(p.rimA, p.rimR+p.sizes.Thickness) }

func (p *pan) rimName(i int) string {
	if p.sizes.Rim == HemRim {
		return panWalls[i] + " hem"
	}
	return panWalls[i] + " lip"
}

// blank draws the whole part. Its outline can't run into itself: at a corner all
// edges keep to their own side of the line that halves the corner on the blank,
// mitres running along it, walls and hems away from it.
func (p *pan) blank() fold.Spec {
	z := p.sizes
	gap := z.Gap
	spec := fold.Spec{
		Name: z.Name, Units: z.Units, Base: "floor",
		Sheet: fold.Sheet{Thickness: z.Thickness, Metal: z.Metal, K: z.K, Good: "up"},
	}
	if spec.Name == "" {
		spec.Name = "Pan"
	}
	var loop []geom.Vec2
	middle := geom.Vec2{}
	for i := range 4 {
		w := p.wall(i)
		middle = middle.Add(w.o.Mul(0.25))
		loop = append(loop, p.relief(i))
		for _, q := range p.side(i) {
			loop = append(loop, w.at(q[0], q[1]))
		}
		j := (i + 1) % 4
		far := p.side(j)
		for k := len(far) - 1; k >= 0; k-- {
			loop = append(loop, w.at(w.length-far[k][0], far[k][1]))
		}
	}
	for _, q := range loop {
		spec.Outline = append(spec.Outline, fold.Vertex{At: q})
	}
	spec.Panels = []fold.PanelName{{Name: "floor", At: middle}}
	foot, top := p.ba+p.past, p.top()
	var rims []fold.BendSpec
	for i := range 4 {
		w, j := p.wall(i), (i+1)%4
		line := func(u0, u1, s float64) [2]geom.Vec2 {
			return [2]geom.Vec2{w.at(u0, s), w.at(w.length-u1, s)}
		}
		spec.Bends = append(spec.Bends, fold.BendSpec{
			Name: panWalls[i], Line: line(p.end[i], p.end[j], p.ba/2),
			Angle: 90 - z.Lean, Radius: z.Radius, Up: true,
		})
		spec.Panels = append(spec.Panels, fold.PanelName{Name: panWalls[i], At: w.at(w.length/2, (foot+top)/2)})
		if z.Rim == PlainRim {
			continue
		}
		rims = append(rims, fold.BendSpec{
			Name: p.rimName(i), Line: line(p.edge(i, top), p.edge(j, top), top+p.rimBA/2),
			Angle: p.rimA.Degrees(), Radius: p.rimR,
		})
		if z.Rim == LipRim {
			rims[len(rims)-1].Angle = 90 - z.Lean
		}
		spec.Panels = append(spec.Panels, fold.PanelName{Name: p.rimName(i), At: w.at(w.length/2, top+p.rimBA+p.rim/2)})
	}
	spec.Bends = append(spec.Bends, rims...)

	// Seams, named by points on their edges, each as far from every other edge as can
	// be had. On a blank too tight for that they are left for the kernel to find.
	name := func(what string, i int, s0, s1 float64, edge func(s float64) float64) {
		before, after := p.wall((i+3)%4), p.wall(i)
		a := clearPoint(loop, before.at(before.length-edge(s0), s0), before.at(before.length-edge(s1), s1), z.Units)
		b := clearPoint(loop, after.at(edge(s0), s0), after.at(edge(s1), s1), z.Units)
		if a != nil && b != nil {
			spec.Seams = append(spec.Seams, fold.SeamSpec{Name: panCorners[i] + what, A: *a, B: *b, Gap: &gap})
		}
	}
	for i := range 4 {
		name(" corner", i, foot, top, func(s float64) float64 { return p.edge(i, s) })
	}
	if z.Rim == LipRim && !z.RimClear {
		start := top + p.rimBA
		for i := range 4 {
			name(" lip", i, start+p.past, start+p.rim, func(s float64) float64 { return p.mitre(i, p.rimFlatFrom()+s-start) })
		}
	}
	if z.Rim == HemRim { // the hems' ends stand clear of each other; nothing closes them
		n := len(spec.Seams)
		for i := range 4 {
			name(" hem", i, top+p.rimBA, top+p.rimBA+p.rim, func(s float64) float64 { return p.hem(i, s) })
		}
		for i := range spec.Seams[n:] {
			spec.Seams[n+i].Gap, spec.Seams[n+i].Open = nil, true
		}
	}
	// Rims first, while the blank is flat; the sides before front and back, whose
	// fingers then stand between them.
	order := []int{0, 2, 3, 1}
	if len(rims) > 0 {
		for _, i := range order {
			spec.Order = append(spec.Order, fold.Step{Bends: []string{rims[i].Name}})
		}
	}
	for _, i := range []int{3, 1, 0, 2} {
		spec.Order = append(spec.Order, fold.Step{Bends: []string{panWalls[i]}})
	}
	return toOrigin(spec)
}

// clearPoint gives the point of the edge a-b of a blank's outline that lies furthest
// from the outline's other edges; nil if none is clear of them by what a seam's
// point needs.
func clearPoint(loop []geom.Vec2, a, b geom.Vec2, units fold.Units) *geom.Vec2 {
	least := 1.05 * fold.SeamReach / units.Scale()
	var best *geom.Vec2
	const steps = 20
	for i := 1; i < steps; i++ {
		q := a.Add(b.Sub(a).Mul(float64(i) / steps))
		room := b.Sub(a).Len()
		for j, c := range loop {
			if off, _ := geom.SegmentDistance(q, c, loop[(j+1)%len(loop)]); off > 1e-9*room { // not the edge itself
				room = min(room, off)
			}
		}
		if room > least {
			least, best = room, &q
		}
	}
	return best
}

// toOrigin moves a part of straight edges so that its blank's box begins at the origin.
func toOrigin(s fold.Spec) fold.Spec {
	box := geom.EmptyBox2()
	for _, v := range s.Outline {
		box.Add(v.At)
	}
	return Map(s, func(q geom.Vec2) geom.Vec2 { return q.Sub(box.Min) })
}
