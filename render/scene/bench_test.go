package scene

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
)

// demo is the uncapping tray that the page opens with.
func demo(t testing.TB) *fold.Part {
	data, err := os.ReadFile("../../assets/uncapping-tray.dryfold")
	require.NoError(t, err)
	spec, err := partfile.Read(data)
	require.NoError(t, err)
	return build(t, spec)
}

// BenchmarkMake poses and meshes the tray with its shadow, as at each frame of a swing.
func BenchmarkMake(b *testing.B) {
	p := demo(b)
	m := NewMesher(p)
	pic := Picture{Part: p, State: p.StateAt(3, .6), Turning: []int{3}}
	s := m.Make(pic, nil)
	b.ReportAllocs()
	for b.Loop() {
		s = m.Make(pic, s)
	}
	b.ReportMetric(float64(len(s.Tris)), "triangles")
}

// BenchmarkProject is the camera's part of a frame.
func BenchmarkProject(b *testing.B) {
	p := demo(b)
	s := Make(Picture{Part: p, State: p.StateAt(3, .6)})
	c := NewCamera(820, 680)
	s.Frame(&c)
	o := s.Project(&c, nil)
	b.ReportAllocs()
	for b.Loop() {
		o = s.Project(&c, o)
	}
}

// The shadow is darkest under a part that lies flat, and none falls far off.
func TestShadow(t *testing.T) {
	p := build(t, tray(90, 90))
	s := Make(Picture{Part: p})
	sh := &s.Shadow
	at := func(x, y float64) float32 {
		size := sh.Box.Size()
		return sh.At(float32((x-sh.Box.Min[0])/size[0]), float32((y-sh.Box.Min[1])/size[1]))
	}
	under, edge, corner := at(100, 100), at(100, -52), at(sh.Box.Min[0], sh.Box.Min[1])
	require.InDelta(t, light.shadow, under, .05)
	require.Less(t, edge, under)
	require.Greater(t, edge, corner)
	require.Zero(t, corner)
	// every cell whose middle lies under a stamped triangle is stamped: against a plain test
	for _, q := range [][3]geom.Vec2{{{1.2, 1.1}, {9.3, 2.2}, {4.4, 11.7}}, {{3, 3}, {3, 9}, {11, 3}}, {{2.4, 2.6}, {10, 2.6}, {10, 2.7}}, {{5.1, 1}, {5.2, 11}, {5.3, 1}}} {
		const n = 12
		g := make([]float32, n*n)
		stamp(g, n, q, 1)
		total := 0
		for y := range n {
			for x := range n {
				c := geom.Vec2{float64(x) + .5, float64(y) + .5}
				if (geom.Loop{q[0], q[1], q[2]}).Contains(c) {
					require.EqualValues(t, 1, g[y*n+x], "%v at %v", q, c)
				}
				far := true
				for k := range q {
					d, _ := geom.SegmentDistance(c, q[k], q[(k+1)%3])
					far = far && d > 1.1
				}
				if far && !(geom.Loop{q[0], q[1], q[2]}).Contains(c) {
					require.Zero(t, g[y*n+x], "%v at %v", q, c)
				}
				total += int(g[y*n+x])
			}
		}
		require.Positive(t, total, "a sliver casts too: %v", q)
	}
}
