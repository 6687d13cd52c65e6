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

	sizeLines []sizeLine
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
	At    geom.Vec3
	Text  string
	Watch bool // it is to be watched, no more
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
		Fills: s.Fills[:0], Labels: s.Labels[:0], Shadow: Shadow{Alpha: s.Shadow.Alpha, work: s.Shadow.work}, sizeLines: s.sizeLines[:0],
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
		if !p.NoBlank {
			s.grain()
		}
		s.litNames()
		s.feelers()
		s.clash()
		s.dims()
		s.sizes()
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
