// Package model makes the folded part as a closed mesh of triangles in space, and writes it as STL and
// as glTF 2.0. Thickness and bends are true: every corner of a bend lies on its cylinders.
//
// The mesh is closed by how it is made: the blank is cut into triangles that meet edge to edge wherever the
// metal hangs together (sheet.go), and the same triangles once below and once above the sheet, with a wall under every
// edge that has no neighbour, bound a solid. The pose then carries every corner, and can't tear it.
//
// Metal where the zones of two bends overlap is left out, as in the part's solids: it can follow neither.
package model

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Mesh is a closed surface, or several: each edge of a triangle is that of just one other, run the other way.
// Points 2i and 2i+1 are one place of the blank on the sheet's lower and upper face, so that the normal
// of the sheet there is from the one to the other. With an inside radius of 0 points of the inner face
// lie in one place, and triangles between them have no area.
type Mesh struct {
	Points []geom.Vec3 // mm, axes of the blank, the base panel lying as in it
	Tris   []Tri
}

// Face says which surface of the sheet a triangle belongs to.
type Face uint8

// Faces of the sheet.
const (
	Upper Face = iota // z = T on the blank
	Lower             // z = 0
	Cut               // the sheet's edge. Its triangles stand in pairs: a, b below and b above; a below, b and a above
)

// Tri is a triangle, counter-clockwise seen from outside.
type Tri struct {
	V    [3]int32
	Body fold.Body
	Face Face
}

// Make folds the part to a state, nil being flat, and gives its surface. The part must be Foldable. Facets of bends stay
// within chord (mm; 0 takes Chord) of the true cylinders; arcs and round holes are those of Part.Outline and
// Part.Voids, within fold.ArcChord. It fails in words for a state that is none of the part's, and for
// more triangles than it should make.
func Make(p *fold.Part, s fold.State, chord float64) (Mesh, error) {
	if !p.Foldable {
		for _, t := range p.Troubles {
			if t.Severity == fold.Stop {
				return Mesh{}, fmt.Errorf("the part can't be folded: %s", t.Message)
			}
		}
		return Mesh{}, fmt.Errorf("the part can't be folded")
	}
	if chord == 0 {
		chord = Chord
	}
	if !(chord >= MinChord && chord <= MaxChord) {
		return Mesh{}, fmt.Errorf("a chord of %g mm; %g to %g mm is needed", chord, MinChord, MaxChord)
	}
	if s == nil {
		s = p.Flat()
	}
	if len(s) != len(p.Bends) {
		return Mesh{}, fmt.Errorf("%d angles for %d bends", len(s), len(p.Bends))
	}
	for i, a := range s {
		if b := &p.Bends[i]; !(a >= 0 && a <= 2*b.Set) {
			return Mesh{}, fmt.Errorf("bend %s at %g degrees; 0 to %g is needed", b.Name, a.Degrees(), (2 * b.Set).Degrees())
		}
	}
	sh := sheet{part: p, state: s, chord: chord, index: map[geom.Vec2]int32{}}
	if err := sh.cut(); err != nil {
		return Mesh{}, err
	}
	sh.join()
	m := sh.fold()
	if !m.Closed() {
		return Mesh{}, fmt.Errorf("no closed surface can be laid round the part: edges of its blank lie in each other; dryfold check says what to mend")
	}
	return m, nil
}

// Closed reports whether each edge of a triangle is that of just one other, run the other way.
func (m Mesh) Closed() bool {
	seen := make(map[[2]int32]struct{}, 3*len(m.Tris))
	for _, t := range m.Tris {
		for k := range 3 {
			e := [2]int32{t.V[k], t.V[(k+1)%3]}
			if _, twice := seen[e]; twice || e[0] == e[1] {
				return false
			}
			seen[e] = struct{}{}
		}
	}
	for e := range seen {
		if _, ok := seen[[2]int32{e[1], e[0]}]; !ok {
			return false
		}
	}
	return true
}

// Box is the box round the mesh.
func (m Mesh) Box() geom.Box3 {
	b := geom.EmptyBox3()
	for _, p := range m.Points {
		b.Add(p)
	}
	return b
}

// Volume is what the mesh encloses, mm3. Where the part lies in itself that counts twice.
func (m Mesh) Volume() float64 {
	if len(m.Points) == 0 {
		return 0
	}
	o, sum := m.Points[0], 0.0
	for _, t := range m.Tris {
		a, b, c := m.Points[t.V[0]].Sub(o), m.Points[t.V[1]].Sub(o), m.Points[t.V[2]].Sub(o)
		sum += a.Dot(b.Cross(c))
	}
	return sum / 6
}

// up is the normal of the sheet at a corner: from its lower to its upper face.
func (m Mesh) up(v int32) geom.Vec3 {
	v &^= 1
	d := m.Points[v+1].Sub(m.Points[v])
	if l := d.Len(); l > 0 && !math.IsInf(l, 0) {
		return d.Mul(1 / l)
	}
	return geom.Vec3{0, 0, 1}
}
