package scene

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Scene is a picture in space: everything drawn, in bench coordinates (mm, the
// bench at z = 0), still without a camera.
type Scene struct {
	Picture Picture
	Mesher  *Mesher
	Pose    fold.Pose // lift included; Panels empty where the part can't be folded
	Lift    float64   // how far the part is raised so that its lowest point touches the bench, mm
	Box     geom.Box3 // of the standing part; empty where there is none
	Reach   geom.Box3 // of all that is drawn

	Verts  []Vertex
	Tris   []Tri
	Edges  []EdgeLine
	Lines  []Line
	Fills  []Fill
	Labels []Label
	Shadow Shadow
	Dims   *DimBox
	Mark   *ClashMark
}

// Vertex is a corner of triangles with its colour, already shaded.
type Vertex struct {
	P geom.Vec3
	C Colour
}

// Face says which surface of the sheet a triangle belongs to.
type Face uint8

// Faces of the sheet.
const (
	Upper Face = iota // z = T on the blank
	Lower             // z = 0
	Cut               // the edge of the sheet
)

// Tri is a triangle of a solid's surface, counter-clockwise seen from outside.
type Tri struct {
	V    [3]int32
	Body fold.Body
	Face Face
}

// EdgeKind says how an edge is drawn.
type EdgeKind uint8

// Kinds of edges.
const (
	Sharp   EdgeKind = iota // drawn wherever it is seen
	Tangent                 // between a flat and a bend: thin where both faces are seen
	Smooth                  // between facets of a round: drawn only as a silhouette
)

// EdgeLine is an edge of a solid with the normals of the two faces beside it, from
// which the camera knows whether it is hidden, an inner edge or a silhouette.
type EdgeLine struct {
	A, B   geom.Vec3
	N0, N1 geom.Vec3
	Kind   EdgeKind
	Lit    bool
}

// Line is a straight line of a given width on the screen (px).
type Line struct {
	A, B  geom.Vec3
	Width float32
	C     Colour
	Over  bool    // drawn over everything, not hidden by the part
	Lift  float32 // towards the eye, in px worth of depth; biasPx for lines on faces, 0 on the bench
	Dash  float32 // length of dashes and gaps, px; 0 unbroken
	Halo  float32 // drawn over a wider line in the halo's colour, this many px on each side
	Seam  int     // a feeler tick: number of its seam, from 1
	Tick  int     // and its place in the seam
}

// Fill is a tinted triangle on the bench, under everything that stands.
type Fill struct {
	P [3]geom.Vec3
	C Colour
}

// DimBox is the overall box with the words for its sizes along x, y and z. Which
// sides carry the dimension lines depends on the camera.
type DimBox struct {
	Box  geom.Box3
	Text [3]string
}

// ClashMark is where two solids meet: a ring, and a leader to words.
type ClashMark struct {
	At   geom.Vec3
	Text string
}

// Make builds the scene of a picture from scratch. To draw a part often keep its
// Mesher and call Mesher.Make.
func Make(p Picture) *Scene { return NewMesher(p.Part).Make(p, nil) }

// Make builds the scene of a picture of the Mesher's own part. The memory of into
// is used again if it is not nil; its content is lost.
func (m *Mesher) Make(p Picture, into *Scene) *Scene {
	s := into
	if s == nil {
		s = &Scene{}
	}
	*s = Scene{
		Verts: s.Verts[:0], Tris: s.Tris[:0], Edges: s.Edges[:0], Lines: s.Lines[:0],
		Fills: s.Fills[:0], Labels: s.Labels[:0], Shadow: Shadow{Alpha: s.Shadow.Alpha, work: s.Shadow.work},
	}
	p.Part = m.part
	s.Picture, s.Mesher, s.Box, s.Reach = p, m, geom.EmptyBox3(), geom.EmptyBox3()
	if m.part == nil {
		return s
	}
	if m.part.Foldable {
		s.solids()
		s.lift()
		s.castShadow()
	}
	if !p.NoBlank {
		s.scribeBlank()
	}
	s.grow()
	if m.part.Foldable {
		s.litNames()
		s.feelers()
		s.clash()
		s.dims()
	}
	return s
}

// grow fits Reach round the part and the blank.
func (s *Scene) grow() {
	if s.Box.Min[0] <= s.Box.Max[0] {
		s.Reach.Add(s.Box.Min)
		s.Reach.Add(s.Box.Max)
	}
	if b := s.Mesher.box; b.Min[0] <= b.Max[0] && (!s.Picture.NoBlank || len(s.Verts) == 0) {
		s.Reach.Add(geom.Vec3{b.Min[0], b.Min[1], 0})
		s.Reach.Add(geom.Vec3{b.Max[0], b.Max[1], 0})
	}
}

// Size is the diagonal of all that is drawn, mm; 1 for an empty scene.
func (s *Scene) Size() float64 {
	if d := s.Reach.Size().Len(); d > 0 && !math.IsInf(d, 0) {
		return d
	}
	return 1
}

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
	bd, phi := &s.Picture.Part.Bends[body.Index], float64(s.Pose.State[body.Index])
	f, sg := s.Pose.Panels[bd.A], bd.Sigma()
	z := geom.Vec3{0, 0, 1}
	across := geom.Vec3{bd.N[0], bd.N[1], 0}
	at := func(across2 float64) geom.Vec3 { // the upper face's normal at a distance across
		a := phi
		if r := bd.Rho * phi; r > 0 && across2 < r {
			a = across2 / bd.Rho
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

// lift raises the part so that its lowest point touches the bench.
func (s *Scene) lift() {
	for i := range s.Verts {
		s.Box.Add(s.Verts[i].P)
	}
	if len(s.Verts) == 0 {
		return
	}
	s.Lift = max(0, -s.Box.Min[2])
	if s.Lift < fold.DrawChord { // noise of facets
		s.Lift = 0
		return
	}
	for i := range s.Verts {
		s.Verts[i].P[2] += s.Lift
	}
	for i := range s.Edges {
		s.Edges[i].A[2] += s.Lift
		s.Edges[i].B[2] += s.Lift
	}
	for i := range s.Pose.Panels {
		s.Pose.Panels[i].O[2] += s.Lift
	}
	s.Box.Min[2] += s.Lift
	s.Box.Max[2] += s.Lift
}

// bodyPoint places a blank point of a body in the scene; z is its height in the sheet.
func (s *Scene) bodyPoint(b fold.Body, p geom.Vec2, z float64) geom.Vec3 {
	if b.Zone {
		return s.Pose.ZonePoint(b.Index, p, z)
	}
	return s.Pose.PanelPoint(b.Index, p, z)
}

// PanelMiddle is a point well inside a panel's upper face; false where there is none.
func (s *Scene) PanelMiddle(i int) (geom.Vec3, bool) {
	if i < 0 || i >= len(s.Pose.Panels) {
		return geom.Vec3{}, false
	}
	p := s.Picture.Part
	return s.Pose.PanelPoint(i, p.Panels[i].Label, p.Thickness), true
}
