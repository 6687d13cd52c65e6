package scene

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// This file makes the standing part: the triangles and edges of its panels and zones.

// solids places every panel and zone.
func (s *Scene) solids() {
	p := s.Picture.Part
	s.Pose = p.Pose(s.Picture.state())
	turning := map[int]bool{}
	for _, b := range s.Picture.Turning {
		if b >= 0 && b < len(p.Bends) {
			turning[p.Bends[b].B] = true
		}
	}
	for i := range p.Panels {
		f := s.Pose.Panels[i]
		up := f.Z.Mul(p.Thickness)
		s.plate(&s.Mesher.panels[i], fold.Body{Index: i}, turning[i], func(v geom.Vec2) (lo, hi geom.Vec3) {
			lo = f.Point(geom.Vec3{v[0], v[1], 0})
			return lo, lo.Add(up)
		})
	}
	for i := range p.Bends {
		b, phi := &p.Bends[i], s.Pose.State[i]
		f := s.Pose.Panels[b.A]
		s.plate(&s.Mesher.zones[i], fold.Body{Zone: true, Index: i}, turning[b.B], func(v geom.Vec2) (lo, hi geom.Vec3) {
			return f.Point(b.Roll(v, 0, phi, p.Thickness)), f.Point(b.Roll(v, p.Thickness, phi, p.Thickness))
		})
	}
}

// faces gives the colours of a body's upper, lower and cut faces.
func (s *Scene) faces(body fold.Body, turning bool) (upper, lower, cut Colour) {
	pl := s.Picture.Colours()
	upper, lower, cut = pl.Good, pl.Back, pl.Cut
	if turning {
		upper, lower = pl.SwingGood, pl.SwingBack
	}
	if s.Picture.Part.Spec.Sheet.Good == "down" {
		upper, lower = lower, upper
	}
	if s.lit(body) {
		upper, lower, cut = upper.Mix(pl.Accent, .3), lower.Mix(pl.Accent, .3), pl.Accent
	}
	return upper, lower, cut
}

// lit reports whether a body is what is selected.
func (s *Scene) lit(b fold.Body) bool {
	sel := s.Picture.Select
	return sel.Index == b.Index && (sel.Kind == Panel && !b.Zone || sel.Kind == Bend && b.Zone)
}

// litEdge reports whether a cut edge belongs to what is selected.
func (s *Scene) litEdge(b fold.Body, e fold.Edge) bool {
	sel, cutouts := s.Picture.Select, len(s.Picture.Part.Spec.Cutouts)
	if !e.Free() || e.Contour < 0 {
		return s.lit(b)
	}
	switch sel.Kind {
	case Edge:
		return e.Contour == sel.Contour && e.Index == sel.Index
	case Cutout:
		return e.Contour == 1+sel.Index && sel.Index < cutouts
	case Hole:
		return e.Contour == 1+cutouts+sel.Index
	}
	return s.lit(b)
}

// plate adds one solid: place gives a blank point's place on the lower and upper face.
func (s *Scene) plate(pl *plate, body fold.Body, turning bool, place func(geom.Vec2) (lo, hi geom.Vec3)) {
	pal := s.Picture.Colours()
	upper, lower, cut := s.faces(body, turning)
	base, n := int32(len(s.Verts)), int32(len(pl.pts))
	t := s.Picture.Part.Thickness
	for _, v := range pl.pts { // point i: lower face at base+2i, upper at base+2i+1
		lo, hi := place(v)
		s.Verts = append(s.Verts, Vertex{P: lo}, Vertex{P: hi})
	}
	var flatN geom.Vec3
	var flatU, flatL Colour
	for i := int32(0); i < n; i++ {
		lo, hi := &s.Verts[base+2*i], &s.Verts[base+2*i+1]
		if body.Zone || i == 0 {
			flatN = hi.P.Sub(lo.P).Mul(1 / t)
			flatU, flatL = pal.shade(upper, flatN), pal.shade(lower, flatN.Mul(-1))
		}
		lo.C, hi.C = flatL, flatU
	}
	for _, tr := range pl.tris {
		a, b, c := base+2*tr[0], base+2*tr[1], base+2*tr[2]
		s.Tris = append(s.Tris, Tri{[3]int32{a + 1, b + 1, c + 1}, body, Upper}, Tri{[3]int32{a, c, b}, body, Lower})
	}
	s.walls(pl, body, base, pal, cut)
	if body.Zone {
		s.rungs(pl, body, base)
	}
}

// up is the sheet's normal at a plate's point.
func (s *Scene) up(base, i int32) geom.Vec3 {
	return s.Verts[base+2*i+1].P.Sub(s.Verts[base+2*i].P).Mul(1 / s.Picture.Part.Thickness)
}

// walls adds a plate's cut faces and their edges.
func (s *Scene) walls(pl *plate, body fold.Body, base int32, pal *Palette, cut Colour) {
	normal := func(w *wall) geom.Vec3 { // outward: along the edge x up
		a, b := s.Verts[base+2*w.a].P, s.Verts[base+2*w.b].P
		return b.Sub(a).Cross(s.up(base, w.a).Add(s.up(base, w.b))).Normalize()
	}
	var last geom.Vec3
	lastAt := int32(-1)
	for i := range pl.walls {
		w := &pl.walls[i]
		if !w.edge.Free() {
			continue
		}
		n := last
		if lastAt != int32(i) {
			n = normal(w)
		}
		lit := s.litEdge(body, w.edge)
		c := cut
		if lit {
			c = pal.Accent
		}
		c = pal.shade(c, n)
		aLo, aHi, bLo, bHi := s.Verts[base+2*w.a].P, s.Verts[base+2*w.a+1].P, s.Verts[base+2*w.b].P, s.Verts[base+2*w.b+1].P
		k := int32(len(s.Verts))
		s.Verts = append(s.Verts, Vertex{aLo, c}, Vertex{bLo, c}, Vertex{bHi, c}, Vertex{aHi, c})
		s.Tris = append(s.Tris, Tri{[3]int32{k, k + 1, k + 2}, body, Cut}, Tri{[3]int32{k, k + 2, k + 3}, body, Cut})
		up := s.up(base, w.a)
		if body.Zone {
			up = up.Add(s.up(base, w.b)).Normalize()
		}
		s.Edges = append(s.Edges,
			EdgeLine{aHi, bHi, up, n, Sharp, lit},
			EdgeLine{aLo, bLo, up.Mul(-1), n, Sharp, lit})
		if nx := &pl.walls[w.next]; nx.edge.Free() {
			m := normal(nx)
			if w.next == int32(i)+1 {
				last, lastAt = m, w.next
			}
			kind := Smooth
			if n.Dot(m) < math.Cos(sharpTurn) && !nx.fine {
				kind = Sharp
			}
			s.Edges = append(s.Edges, EdgeLine{bLo, bHi, n, m, kind, lit && kind == Sharp})
		}
	}
}

// rungs adds the lines across a zone: tangents at its borders, silhouettes between facets.
func (s *Scene) rungs(pl *plate, body fold.Body, base int32) {
	bd := &s.Picture.Part.Bends[body.Index]
	rho, full := bd.Curl(s.Pose.State[body.Index])
	phi := float64(full)
	f, sg := s.Pose.Panels[bd.A], bd.Sigma()
	z := geom.Vec3{0, 0, 1}
	across := geom.Vec3{bd.N[0], bd.N[1], 0}
	at := func(across2 float64) geom.Vec3 { // the upper face's normal at a distance across
		a := phi
		if r := rho * phi; r > 0 && across2 < r {
			a = across2 / rho
		}
		sin, cos := math.Sincos(a)
		return f.Vector(z.Mul(cos).Sub(across.Mul(sg * sin)))
	}
	n := len(pl.grid) - 1
	normals := make([]geom.Vec3, n+2) // of the facets before and beyond each grid line
	normals[0], normals[n+1] = at(0), at(bd.Allowance)
	for k := 0; k < n; k++ {
		normals[k+1] = at((pl.grid[k] + pl.grid[k+1]) / 2)
	}
	lit := s.lit(body)
	for _, r := range pl.seams {
		kind, l := Smooth, false
		if r.k == 0 || r.k == n {
			kind, l = Tangent, lit
		}
		n0, n1 := normals[r.k], normals[r.k+1]
		if kind == Smooth && n0 == n1 {
			continue // still flat
		}
		a, b := base+2*r.a, base+2*r.b
		s.Edges = append(s.Edges,
			EdgeLine{s.Verts[a+1].P, s.Verts[b+1].P, n0, n1, kind, l},
			EdgeLine{s.Verts[a].P, s.Verts[b].P, n0.Mul(-1), n1.Mul(-1), kind, l})
	}
}
