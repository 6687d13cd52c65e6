package model

// This file writes a mesh as STL, the binary form: 80 bytes of heading, a count, and for each triangle its
// normal and corners as float32, little end first, and two bytes of nothing. STL has no unit; it is mm here, z up.

import (
	"encoding/binary"
	"math"
	"unicode/utf8"

	"dryfold/fold/geom"
)

// STL writes the mesh, mm, with the part's name in the heading. Triangles of which two corners become one in float32
// are left out: their other two sides lie in each other, and the surface stays closed.
func STL(m Mesh, name string) []byte {
	head := "mm, z up; part " + name // a binary STL must not begin with "solid", as a text one does
	for len(head) > 80 {
		_, n := utf8.DecodeLastRuneInString(head)
		head = head[:len(head)-n]
	}
	out := make([]byte, 84, 84+50*len(m.Tris))
	copy(out, head)
	count := uint32(0)
	for _, t := range m.Tris {
		var p [3][3]float32
		for k, v := range t.V {
			for i, x := range m.Points[v] {
				p[k][i] = float32(x)
			}
		}
		if p[0] == p[1] || p[1] == p[2] || p[2] == p[0] {
			continue
		}
		count++
		n := normal(m.Points[t.V[0]], m.Points[t.V[1]], m.Points[t.V[2]])
		out = floats(out, float32(n[0]), float32(n[1]), float32(n[2]))
		for _, q := range p {
			out = floats(out, q[:]...)
		}
		out = append(out, 0, 0)
	}
	binary.LittleEndian.PutUint32(out[80:], count)
	return out
}

// normal is a triangle's unit normal, nought for one of no area.
func normal(a, b, c geom.Vec3) geom.Vec3 {
	n := b.Sub(a).Cross(c.Sub(a))
	if l := n.Len(); l > 0 {
		return n.Mul(1 / l)
	}
	return geom.Vec3{}
}

// floats appends numbers, little end first.
func floats(out []byte, xs ...float32) []byte {
	for _, x := range xs {
		out = binary.LittleEndian.AppendUint32(out, math.Float32bits(x+0)) // no minus nought
	}
	return out
}
