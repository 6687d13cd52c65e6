package model

// This file writes a mesh as glTF 2.0 in its binary form, .glb: a heading, the scene as JSON, and the numbers.
// The standard's axes and unit: y up, metres.

import (
	"encoding/binary"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"dryfold/fold/geom"
)

// Options of a .glb.
type Options struct {
	Name string // of the part, for its node; may be empty
	// Tint colours the two faces as on the bench, the upper one cool and the lower one warm; else all is of one metal.
	Tint bool
}

// material is a plain metal: base colour (linear), and how rough it is.
type material struct {
	name      string
	colour    [3]float64
	roughness float64
}

// The look of satin sheet: chosen by eye, lighter where it was cut.
var (
	satin    = material{"satin metal", [3]float64{.60, .61, .63}, .42}
	coolFace = material{"upper face", [3]float64{.55, .61, .68}, .42}
	warmFace = material{"lower face", [3]float64{.66, .60, .52}, .42}
	bright   = material{"cut edge", [3]float64{.72, .73, .74}, .34}
)

// metalness is under 1, so that the part can be told from the ground in a viewer that has nothing to mirror in it.
const metalness = .7

// patch is what one material covers.
type patch struct {
	material
	points, normals []geom.Vec3
	tris            [][3]uint32
}

// GLB writes the mesh in metres, y up: x of the blank stays x, its y goes away from the viewer, its z up. Normals are
// the sheet's own, so that bends look round, with hard edges where it was cut; cut faces are flat but along arcs.
func GLB(m Mesh, o Options) []byte {
	upper, lower, cut := patch{material: satin}, patch{material: satin}, patch{material: bright}
	if o.Tint {
		upper.material, lower.material = coolFace, warmFace
	}
	m.faces(&upper, &lower)
	m.walls(&cut)
	all := []*patch{&upper, &lower, &cut}
	if !o.Tint { // one metal: one patch
		upper.join(&lower)
		all = []*patch{&upper, &cut}
	}
	var kept []*patch
	for _, p := range all {
		if len(p.tris) > 0 {
			kept = append(kept, p)
		}
	}
	text, bin := scene(kept, o.Name)
	for len(text)%4 != 0 {
		text += " "
	}
	out := binary.LittleEndian.AppendUint32(append(make([]byte, 0, 28+len(text)+len(bin)), "glTF"...), 2)
	size := 12 + 8 + len(text)
	if len(bin) > 0 {
		size += 8 + len(bin)
	}
	out = binary.LittleEndian.AppendUint32(out, uint32(size))
	out = binary.LittleEndian.AppendUint32(out, uint32(len(text)))
	out = append(append(out, "JSON"...), text...)
	if len(bin) > 0 {
		out = binary.LittleEndian.AppendUint32(out, uint32(len(bin)))
		out = append(append(out, "BIN\x00"...), bin...)
	}
	return out
}

// join takes another patch in.
func (p *patch) join(o *patch) {
	n := uint32(len(p.points))
	p.points, p.normals = append(p.points, o.points...), append(p.normals, o.normals...)
	for _, t := range o.tris {
		p.tris = append(p.tris, [3]uint32{t[0] + n, t[1] + n, t[2] + n})
	}
}

// faces fills the sheet's two faces.
func (m Mesh) faces(upper, lower *patch) {
	seen := make([]uint32, len(m.Points)) // of a point: its place in its patch, and one
	for _, t := range m.Tris {
		to, sign := upper, 1.0
		switch t.Face {
		case Cut:
			continue
		case Lower:
			to, sign = lower, -1
		}
		var q [3]uint32
		for k, v := range t.V {
			if seen[v] == 0 {
				to.points, to.normals = append(to.points, m.Points[v]), append(to.normals, m.up(v).Mul(sign))
				seen[v] = uint32(len(to.points))
			}
			q[k] = seen[v] - 1
		}
		to.tris = append(to.tris, q)
	}
}

// walls fills the cut faces, each with its own normals, evened out between chords of an arc.
func (m Mesh) walls(cut *patch) {
	var first []int // the first of each wall's pair of triangles
	from := map[int32]int{}
	for i := 0; i < len(m.Tris); i++ {
		if m.Tris[i].Face == Cut {
			from[m.Tris[i].V[0]] = len(first)
			first = append(first, i)
			i++
		}
	}
	normals := make([][2]geom.Vec3, len(first)) // at a, at b
	for w, i := range first {
		a, b := m.Tris[i].V[0], m.Tris[i].V[1]
		along := m.Points[b].Sub(m.Points[a])
		if along.Len() == 0 { // an inner edge of radius 0
			along = m.Points[b+1].Sub(m.Points[a+1])
		}
		normals[w] = [2]geom.Vec3{unit(along.Cross(m.up(a))), unit(along.Cross(m.up(b)))}
	}
	for w, i := range first {
		b := m.Tris[i].V[1]
		if o, ok := from[b]; ok && normals[w][1].Dot(normals[o][0]) > math.Cos(roundTurn) {
			n := unit(normals[w][1].Add(normals[o][0]))
			normals[w][1], normals[o][0] = n, n
		}
	}
	for w, i := range first {
		a, b := m.Tris[i].V[0], m.Tris[i].V[1]
		n := uint32(len(cut.points))
		cut.points = append(cut.points, m.Points[a], m.Points[b], m.Points[b+1], m.Points[a+1])
		cut.normals = append(cut.normals, normals[w][0], normals[w][1], normals[w][1], normals[w][0])
		cut.tris = append(cut.tris, [3]uint32{n, n + 1, n + 2}, [3]uint32{n, n + 2, n + 3})
	}
}

// unit is v of length 1; up for one of no length, for the standard wants a direction.
func unit(v geom.Vec3) geom.Vec3 {
	if l := v.Len(); l > 0 && !math.IsInf(l, 0) {
		return v.Mul(1 / l)
	}
	return geom.Vec3{0, 0, 1}
}

// turned is a vector of ours in the standard's axes.
func turned(v geom.Vec3) [3]float32 {
	return [3]float32{float32(v[0]), float32(v[2]), float32(-v[1])}
}

// scene writes the patches' numbers, and the JSON that says where they lie.
func scene(all []*patch, name string) (string, []byte) {
	var bin []byte
	var views, accessors, materials, primitives []string
	view := func(from, target int) int {
		views = append(views, `{"buffer":0,"byteOffset":`+strconv.Itoa(from)+`,"byteLength":`+strconv.Itoa(len(bin)-from)+`,"target":`+strconv.Itoa(target)+`}`)
		return len(views) - 1
	}
	accessor := func(view, component, count int, kind, more string) string {
		accessors = append(accessors, `{"bufferView":`+strconv.Itoa(view)+`,"componentType":`+strconv.Itoa(component)+
			`,"count":`+strconv.Itoa(count)+`,"type":"`+kind+`"`+more+`}`)
		return strconv.Itoa(len(accessors) - 1)
	}
	const (
		vertices, indices             = 34962, 34963 // targets
		unsignedShort, unsigned, real = 5123, 5125, 5126
	)
	for i, p := range all {
		from := len(bin)
		lo, hi := [3]float32{}, [3]float32{}
		for k, q := range p.points {
			v := turned(q.Mul(1e-3))
			for c, x := range v {
				if k == 0 || x < lo[c] {
					lo[c] = x
				}
				if k == 0 || x > hi[c] {
					hi[c] = x
				}
			}
			bin = floats(bin, v[:]...)
		}
		at := accessor(view(from, vertices), real, len(p.points), "VEC3", `,"min":`+list(lo)+`,"max":`+list(hi))
		from = len(bin)
		for _, q := range p.normals {
			v := turned(q)
			bin = floats(bin, v[:]...)
		}
		normal := accessor(view(from, vertices), real, len(p.points), "VEC3", "")
		from = len(bin)
		kind := unsignedShort
		if len(p.points) >= 0xffff { // the last number is kept for other uses
			kind = unsigned
		}
		for _, t := range p.tris {
			for _, v := range t {
				if kind == unsigned {
					bin = binary.LittleEndian.AppendUint32(bin, v)
				} else {
					bin = binary.LittleEndian.AppendUint16(bin, uint16(v))
				}
			}
		}
		index := accessor(view(from, indices), kind, 3*len(p.tris), "SCALAR", "")
		for len(bin)%4 != 0 {
			bin = append(bin, 0)
		}
		primitives = append(primitives, `{"attributes":{"POSITION":`+at+`,"NORMAL":`+normal+`},"indices":`+index+`,"material":`+strconv.Itoa(i)+`}`)
		c := p.colour
		materials = append(materials, `{"name":`+quote(p.name)+`,"pbrMetallicRoughness":{"baseColorFactor":[`+number(c[0])+`,`+number(c[1])+`,`+number(c[2])+
			`,1],"metallicFactor":`+number(metalness)+`,"roughnessFactor":`+number(p.roughness)+`}}`)
	}
	node := `{"name":` + quote(name)
	if name == "" {
		node = `{"name":"part"`
	}
	out := `{"asset":{"version":"2.0","generator":"Dryfold"},"scene":0,"scenes":[{"nodes":[0]}],"nodes":[` + node
	if len(all) == 0 {
		return out + `}]}`, nil
	}
	array := func(key string, of []string) string { return `,"` + key + `":[` + strings.Join(of, ",") + `]` }
	return out + `,"mesh":0}],"meshes":[{"primitives":[` + strings.Join(primitives, ",") + `]}]` +
		array("materials", materials) + array("accessors", accessors) + array("bufferViews", views) +
		`,"buffers":[{"byteLength":` + strconv.Itoa(len(bin)) + `}]}`, bin
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// list writes a vector; the standard wants min and max to be the float32 numbers themselves.
func list(v [3]float32) string {
	var s []string
	for _, x := range v {
		s = append(s, number(float64(x+0)))
	}
	return "[" + strings.Join(s, ",") + "]"
}

// quote writes text as a JSON string. Bytes that are no UTF-8 become the sign for that.
func quote(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range strings.ToValidUTF8(text, string(utf8.RuneError)) {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ':
			b.WriteString(`\u00` + string("0123456789abcdef"[r>>4]) + string("0123456789abcdef"[r&15]))
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
