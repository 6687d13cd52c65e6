package model

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// readSTL reads a binary STL as its layout says: 80 bytes, a count, 50 bytes a triangle.
func readSTL(t *testing.T, data []byte) (head string, tris [][3][3]float32, normals [][3]float32) {
	require.GreaterOrEqual(t, len(data), 84)
	n := int(binary.LittleEndian.Uint32(data[80:]))
	require.Len(t, data, 84+50*n)
	for i := range n {
		var q [12]float32
		for k := range q {
			q[k] = math.Float32frombits(binary.LittleEndian.Uint32(data[84+50*i+4*k:]))
		}
		normals = append(normals, [3]float32(q[:3]))
		tris = append(tris, [3][3]float32{[3]float32(q[3:6]), [3]float32(q[6:9]), [3]float32(q[9:12])})
	}
	return string(bytes.TrimRight(data[:80], "\x00")), tris, normals
}

// The STL of every part at hand: its triangles are closed when told apart by their places alone, as a reader does, hold the
// mesh's volume, and their normals look out.
func TestSTL(t *testing.T) {
	parts := known(t)
	for _, name := range names(parts) {
		p := parts[name]
		for _, f := range []float64{0, .5, 1} {
			m, err := Make(p, p.StateAt(int(f*float64(len(p.Swings))), 0), 0)
			require.NoError(t, err)
			head, tris, normals := readSTL(t, STL(m, p.Spec.Name))
			require.NotEqual(t, "solid", head[:5])
			require.Contains(t, head, "mm, z up")
			edges := map[[2][3]float32]int{}
			volume := 0.0
			v := func(p [3]float32) geom.Vec3 { return geom.Vec3{float64(p[0]), float64(p[1]), float64(p[2])} }
			o := v(tris[0][0])
			for i, q := range tris {
				for k := range 3 {
					edges[[2][3]float32{q[k], q[(k+1)%3]}]++
				}
				a, b, c := v(q[0]).Sub(o), v(q[1]).Sub(o), v(q[2]).Sub(o)
				volume += a.Dot(b.Cross(c)) / 6
				longest := max(a.Sub(b).Len(), b.Sub(c).Len(), c.Sub(a).Len())
				if n := b.Sub(a).Cross(c.Sub(a)); n.Len() > .02*longest { // slimmer ones turn with float32's last digit
					require.Greater(t, n.Normalize().Dot(v(normals[i])), .999, name)
				}
			}
			for e, n := range edges {
				require.Equal(t, n, edges[[2][3]float32{e[1], e[0]}], "%s: edge %v", name, e)
			}
			require.InDelta(t, m.Volume(), volume, 1e-5*volume+1e-3, name)
		}
	}
}

// Names of any length and letters fit the heading and the node.
func TestNames(t *testing.T) {
	p := build(t, strip(.4, 90, 2))
	m, err := Make(p, p.Finished(), 0)
	require.NoError(t, err)
	for _, name := range []string{"", "tray", "\"quoted\\ \x01\n", "wrong \xff bytes", string(bytes.Repeat([]byte("ä"), 200)), "Schüttkegel Größe \u2028 \U0001F600"} {
		head, _, _ := readSTL(t, STL(m, name))
		require.LessOrEqual(t, len(head), 80)
		doc, _ := readGLB(t, GLB(m, Options{Name: name}))
		if name == "" {
			name = "part"
		}
		require.Equal(t, string([]rune(name)), doc.Nodes[0].Name)
	}
}

// gltf is what the tests look at of the JSON.
type gltf struct {
	Asset       struct{ Version string }
	Nodes       []struct{ Name string }
	Meshes      []struct{ Primitives []primitive }
	Materials   []struct{ Name string }
	Accessors   []accessor
	BufferViews []struct{ ByteOffset, ByteLength, Target int }
	Buffers     []struct{ ByteLength int }
}

type primitive struct {
	Attributes        map[string]int
	Indices, Material int
}

type accessor struct {
	BufferView, ComponentType, Count int
	Type                             string
	Min, Max                         []float64
}

// readGLB reads the chunks as the standard lays them out (glTF 2.0, section 4).
func readGLB(t *testing.T, data []byte) (gltf, []byte) {
	u := func(at int) int { return int(binary.LittleEndian.Uint32(data[at:])) }
	require.Equal(t, "glTF", string(data[:4]))
	require.Equal(t, 2, u(4))
	require.Equal(t, len(data), u(8))
	require.Equal(t, "JSON", string(data[16:20]))
	n := u(12)
	require.Zero(t, n%4)
	var g gltf
	require.NoError(t, json.Unmarshal(data[20:20+n], &g))
	bin := data[20+n:]
	require.Equal(t, "BIN\x00", string(bin[4:8]))
	require.Equal(t, len(bin)-8, u(20+n))
	require.Equal(t, len(bin)-8, g.Buffers[0].ByteLength)
	return g, bin[8:]
}

// The .glb of every part at hand, read back: metres, y up, min and max as they are, normals of unit length on the outer side, and
// a closed surface of the mesh's volume once corners in one place are one.
func TestGLB(t *testing.T) {
	parts := known(t)
	for _, name := range names(parts) {
		for _, tint := range []bool{false, true} {
			p := parts[name]
			m, err := Make(p, p.Finished(), 0)
			require.NoError(t, err)
			g, bin := readGLB(t, GLB(m, Options{Name: p.Spec.Name, Tint: tint}))
			require.Equal(t, "2.0", g.Asset.Version)
			volume := 0.0
			edges := map[[2]geom.Vec3]int{}
			box := geom.EmptyBox3()
			real := func(at int) float64 { return float64(math.Float32frombits(binary.LittleEndian.Uint32(bin[at:]))) }
			vec := func(a accessor, i int) geom.Vec3 {
				at := g.BufferViews[a.BufferView].ByteOffset + 12*i
				return geom.Vec3{real(at), real(at + 4), real(at + 8)}
			}
			for _, pr := range g.Meshes[0].Primitives {
				pos, nor, idx := g.Accessors[pr.Attributes["POSITION"]], g.Accessors[pr.Attributes["NORMAL"]], g.Accessors[pr.Indices]
				own := geom.EmptyBox3()
				for i := range pos.Count {
					own.Add(vec(pos, i))
					require.InDelta(t, 1, vec(nor, i).Len(), 1e-6, name)
				}
				require.Equal(t, []float64{own.Min[0], own.Min[1], own.Min[2]}, pos.Min, name)
				require.Equal(t, []float64{own.Max[0], own.Max[1], own.Max[2]}, pos.Max, name)
				box.Add(own.Min)
				box.Add(own.Max)
				index := func(i int) int {
					at := g.BufferViews[idx.BufferView].ByteOffset
					if idx.ComponentType == 5123 {
						return int(binary.LittleEndian.Uint16(bin[at+2*i:]))
					}
					return int(binary.LittleEndian.Uint32(bin[at+4*i:]))
				}
				for i := 0; i < idx.Count; i += 3 {
					var v [3]geom.Vec3
					n := geom.Vec3{}
					for k := range 3 {
						v[k] = vec(pos, index(i+k))
						n = n.Add(vec(nor, index(i+k)))
					}
					for k := range 3 {
						edges[[2]geom.Vec3{v[k], v[(k+1)%3]}]++
					}
					volume += v[0].Dot(v[1].Cross(v[2])) / 6
					if c := v[1].Sub(v[0]).Cross(v[2].Sub(v[0])); c.Len() > 1e-8 {
						require.Greater(t, c.Normalize().Dot(n.Normalize()), .9, name)
					}
				}
			}
			for e, n := range edges {
				require.Equal(t, n, edges[[2]geom.Vec3{e[1], e[0]}], "%s: edge %v", name, e)
			}
			require.InDelta(t, m.Volume()*1e-9, volume, 2e-5*volume+1e-12, name)
			want := m.Box()
			for k, w := range [3][2]float64{{want.Min[0], want.Max[0]}, {want.Min[2], want.Max[2]}, {-want.Max[1], -want.Min[1]}} {
				require.InDelta(t, w[0]/1000, box.Min[k], 1e-6, name)
				require.InDelta(t, w[1]/1000, box.Max[k], 1e-6, name)
			}
		}
	}
}

// The numbers stay the same from one machine to another, and from one change of the program to the next but those meant.
func TestGolden(t *testing.T) {
	const file = "../../testdata/golden/model.txt"
	got := ""
	parts := known(t)
	for _, name := range []string{"bracket", "hem", "slot", "uncapping-tray"} {
		p := parts[name]
		m, err := Make(p, p.StateAt(1, .5), 0)
		require.NoError(t, err)
		stl := STL(m, p.Spec.Name)
		sum := fnv.New64a()
		_, tris, _ := readSTL(t, stl)
		for _, q := range tris { // to 0.001 mm: the sines of another machine may differ in their last digit
			for _, v := range q {
				for _, x := range v {
					fmt.Fprintf(sum, "%d ", int(math.Floor(float64(x)*1000+.123)))
				}
			}
		}
		g, bin := readGLB(t, GLB(m, Options{Name: p.Spec.Name, Tint: true}))
		got += fmt.Sprintf("%s: %d points, %d triangles, %.3f mm3, corners %016x; glb of %d accessors, %d bytes\n",
			name, len(m.Points), len(m.Tris), m.Volume(), sum.Sum64(), len(g.Accessors), len(bin))
	}
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "go test ./fold/model -update writes it")
	require.Equal(t, string(want), got)
}
