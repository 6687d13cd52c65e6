package paper

import (
	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// Blank draws the blank at true scale as SVG: outline and cutouts with exact
// arcs, holes, bend lines (narrow continuous) and tangent lines (dashed), each
// kind in a group of its own ("outline", "holes", "bends", "tangents"). One unit
// is 1 mm; the blank's lower left corner is the drawing's. A part that can't be
// folded has no bend and tangent lines.
func Blank(p *fold.Part) draft.Page {
	box := p.Blank.Box
	size := box.Size()
	at := func(v geom.Vec2) geom.Vec2 { return geom.Vec2{v[0] - box.Min[0], box.Max[1] - v[1]} }
	k := p.Spec.Units.Scale()
	s := draft.Page{Title: p.Spec.Name, W: size[0], H: size[1]}
	s.Named("outline")
	for _, c := range append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		if d := contourPath(tidy(c), func(v geom.Vec2) geom.Vec2 { return at(v.Mul(k)) }, k); d != nil {
			s.Path("outline", d)
		}
	}
	s.End()
	s.Named("holes")
	for _, h := range p.Spec.Holes {
		s.Circle("outline", at(h.At.Mul(k)), h.Diameter*k/2)
	}
	s.End()
	s.Named("bends")
	for _, b := range p.Bends {
		s.Line("bendline", at(b.Line[0]), at(b.Line[1]))
	}
	s.End()
	s.Named("tangents")
	for i := range p.Bends {
		for _, l := range tangents(&p.Bends[i]) {
			s.Line("tangent", at(l[0]), at(l[1]))
		}
	}
	s.End()
	return s
}

// tangents are the stretches of a bend's zone that lie on its two tangent lines.
func tangents(b *fold.Bend) [][2]geom.Vec2 {
	var out [][2]geom.Vec2
	for r, reg := range b.Zone {
		for l, loop := range reg.Loops() {
			for i := range loop {
				if r < len(b.ZoneEdges) && l < len(b.ZoneEdges[r]) && i < len(b.ZoneEdges[r][l]) && !b.ZoneEdges[r][l][i].Free() {
					out = append(out, [2]geom.Vec2{loop[i], loop[(i+1)%len(loop)]})
				}
			}
		}
	}
	return out
}

// contourPath is a contour as a path; at carries its points to the paper
// (y downwards) and scale its lengths.
func contourPath(c fold.Contour, at func(geom.Vec2) geom.Vec2, scale float64) (d draft.Path) {
	for i := range c {
		if i == 0 {
			d = d.M(at(c[0].At))
		}
		from, to := c[i], c[(i+1)%len(c)]
		d = edgePath(d, from.At, to, at, scale)
	}
	if len(c) > 0 {
		d = d.Z()
	}
	return d
}

// edgePath goes along the edge from a point to a vertex.
func edgePath(d draft.Path, from geom.Vec2, to fold.Vertex, at func(geom.Vec2) geom.Vec2, scale float64) draft.Path {
	if to.Through != nil {
		a := arc{through: *to.Through}
		a.measure(from, to.At)
		if a.radius > 0 {
			return d.A(a.radius*scale, a.large, !a.ccw, at(to.At))
		}
	}
	return d.L(at(to.At))
}
