package paper

import (
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Blank draws the blank at true scale as SVG: outline and cutouts with exact
// arcs, holes, bend lines (narrow continuous) and tangent lines (dashed), each
// kind in a group of its own ("outline", "holes", "bends", "tangents"). One unit
// is 1 mm; the blank's lower left corner is the drawing's. A part that can't be
// folded has no bend and tangent lines.
func Blank(p *fold.Part) []byte {
	box := p.Blank.Box
	size := box.Size()
	at := func(v geom.Vec2) geom.Vec2 { return geom.Vec2{v[0] - box.Min[0], box.Max[1] - v[1]} }
	k := p.Spec.Units.Scale()
	var s svg
	s.f(`<g id="outline">` + "\n")
	for _, c := range append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		if d := contourPath(tidy(c), func(v geom.Vec2) geom.Vec2 { return at(v.Mul(k)) }, k); d != "" {
			s.f(`<path %s d="%s"/>`+"\n", attrs("outline"), d)
		}
	}
	s.f("</g>\n" + `<g id="holes">` + "\n")
	for _, h := range p.Spec.Holes {
		s.circle("outline", at(h.At.Mul(k)), h.Diameter*k/2)
	}
	s.f("</g>\n" + `<g id="bends">` + "\n")
	for _, b := range p.Bends {
		s.line("bendline", at(b.Line[0]), at(b.Line[1]))
	}
	s.f("</g>\n" + `<g id="tangents">` + "\n")
	for i := range p.Bends {
		for _, l := range tangents(&p.Bends[i]) {
			s.line("tangent", at(l[0]), at(l[1]))
		}
	}
	s.f("</g>\n")
	return document(p.Spec.Name, size[0], size[1], s.Bytes())
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

// contourPath writes a contour as path data; at carries its points to the paper
// (y downwards) and scale its lengths.
func contourPath(c fold.Contour, at func(geom.Vec2) geom.Vec2, scale float64) string {
	var d strings.Builder
	for i := range c {
		if i == 0 {
			d.WriteString("M" + xy(at(c[0].At)))
		}
		from, to := c[i], c[(i+1)%len(c)]
		d.WriteString(edgePath(from.At, to, at, scale))
	}
	if len(c) > 0 {
		d.WriteString(" Z")
	}
	return d.String()
}

// edgePath writes the edge from a point to a vertex.
func edgePath(from geom.Vec2, to fold.Vertex, at func(geom.Vec2) geom.Vec2, scale float64) string {
	if to.Through != nil {
		a := arc{through: *to.Through}
		a.measure(from, to.At)
		if a.radius > 0 {
			r := num(a.radius * scale)
			return " A" + r + " " + r + " 0 " + flag(a.large) + " " + flag(!a.ccw) + " " + xy(at(to.At))
		}
	}
	return " L" + xy(at(to.At))
}

func flag(b bool) string {
	if b {
		return "1"
	}
	return "0"
}
