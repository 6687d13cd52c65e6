package shape

// This file makes the Spec of what was drawn, in the form's units: outline, bends, panels; seams.go its seams.

import (
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// draw makes the part as it is cut now.
func (b *builder) draw() Made {
	w := b.walk()
	if b.failed() {
		return Made{}
	}
	out := w.out
	for len(out) > 3 && out[len(out)-1].At.Sub(out[0].At).Len() < samePoint {
		if out[len(out)-1].Through != nil {
			out[0].Through = out[len(out)-1].Through
		}
		out = out[:len(out)-1]
	}
	out = straightened(out)
	made := Made{Spec: b.spec, Sides: b.sidesAsGiven()}
	s := &made.Spec
	s.Outline, s.Cutouts, s.Holes, s.Bends, s.Panels, s.Seams = nil, nil, nil, nil, nil, nil
	s.Base = b.base.name
	for _, v := range out {
		s.Outline = append(s.Outline, v)
	}
	b.openings(&made)
	b.addBends(&made)
	b.addPanels(&made, out)
	b.addSeams(&made, out)
	b.marks(&made)
	b.toUnits(&made)
	return made
}

// straightened leaves out corners that lie on a straight line between their neighbours.
func straightened(loop []fold.Vertex) []fold.Vertex {
	out := make([]fold.Vertex, 0, len(loop))
	n := len(loop)
	for i, v := range loop {
		prev := loop[(i+n-1)%n].At
		if len(out) > 0 {
			prev = out[len(out)-1].At
		}
		next := loop[(i+1)%n]
		if v.Through == nil && next.Through == nil {
			d, e := v.At.Sub(prev), next.At.Sub(v.At)
			if d.Dot(e) > 0 && geom.Cross2(d, e) < samePoint*d.Len() && geom.Cross2(d, e) > -samePoint*d.Len() {
				continue
			}
		}
		out = append(out, v)
	}
	return out
}

// deep is how many bends a panel lies from the base.
func (n *panel) deep() int {
	d := 0
	for ; n.parent != nil; n = n.parent {
		d++
	}
	return d
}

// addBends adds the bends, those furthest from the base first: rims before their walls, as the brake wants
// them where the order says nothing.
func (b *builder) addBends(made *Made) {
	list := slices.Clone(b.panels[1:])
	geom.SortStable(list, func(x, y *panel) int { return y.deep() - x.deep() })
	for _, n := range list {
		at := func(u float64) geom.Vec2 {
			return n.bend.Q.Add(n.bend.U.Mul(u)).Add(n.bend.N.Mul(n.bend.Allowance / 2))
		}
		made.Spec.Bends = append(made.Spec.Bends, fold.BendSpec{
			Name: n.line, Line: [2]geom.Vec2{at(n.zone[0]), at(n.zone[1])},
			Angle: n.degrees, Radius: n.bend.Radius, Up: n.bend.Up, RadiusFrom: n.flange.RadiusFrom,
		})
		made.By = append(made.By, n.at)
	}
}

// toUnits moves the part so that its blank's box begins at the origin, turns it into its other hand where that is asked for,
// and gives lengths in the form's units.
func (b *builder) toUnits(made *Made) {
	flip := 1.0
	if b.form.Mirror {
		flip = -1
	}
	part := made.Spec.Mapped(func(q geom.Vec2) geom.Vec2 { return geom.Vec2{flip * q[0], q[1]} })
	part.Units = fold.MM
	box := b.boxOf(part)
	b.flip, b.lowLeft = flip, box
	part = part.Mapped(func(q geom.Vec2) geom.Vec2 { return b.own(q.Sub(box)) })
	part.Units = b.spec.Units
	for i := range part.Bends {
		part.Bends[i].Radius /= b.unit
		if b.form.Mirror { // the same line, the same way along the blank
			part.Bends[i].Line[0], part.Bends[i].Line[1] = part.Bends[i].Line[1], part.Bends[i].Line[0]
		}
	}
	for i := range part.Holes {
		part.Holes[i].Diameter /= b.unit
	}
	for i := range part.Seams {
		g := *part.Seams[i].Gap / b.unit
		part.Seams[i].Gap = &g
	}
	made.Spec = part
	for i := range made.Marks {
		for _, s := range []*Spot{&made.Marks[i].A, &made.Marks[i].B, &made.Marks[i].Pivot} {
			s.X, s.Y = flip*s.X-box[0], s.Y-box[1]
		}
	}
}

// boxOf is the lower left corner of a part's blank, arcs and all.
func (b *builder) boxOf(s fold.Spec) geom.Vec2 {
	box := geom.EmptyBox2()
	for i, v := range s.Outline {
		box.Add(v.At)
		if v.Through != nil {
			a := s.Outline[(i+len(s.Outline)-1)%len(s.Outline)].At
			for _, axis := range []geom.Vec2{{1, 0}, {0, 1}} {
				for _, p := range splitArc(a, *v.Through, v.At, clip{m: axis, c: axis.Dot(centreOr(a, *v.Through, v.At))}) {
					box.Add(p[1])
				}
			}
		}
	}
	return box.Min
}

func centreOr(a, t, b geom.Vec2) geom.Vec2 {
	if o, ok := circle(a, t, b); ok {
		return o
	}
	return a
}
