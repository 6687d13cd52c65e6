package solid

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

func points(r geom.Region) []geom.Vec2 {
	var pts []geom.Vec2
	for _, l := range r.Loops() {
		pts = append(pts, l...)
	}
	return pts
}

// checkTriangles proves a cover: every boundary edge once, every other edge once
// each way, no triangle turned over, and the areas add up.
func checkTriangles(t *testing.T, r geom.Region, tris [][3]int) {
	t.Helper()
	pts := points(r)
	require.Len(t, tris, len(pts)+2*len(r.Holes)-2)
	edges := map[[2]int]bool{}
	for _, tri := range tris {
		require.Positive(t, orient(pts[tri[0]], pts[tri[1]], pts[tri[2]]))
		for k := range 3 {
			e := [2]int{tri[k], tri[(k+1)%3]}
			require.False(t, edges[e], "edge used twice")
			edges[e] = true
		}
	}
	start, boundary := 0, map[[2]int]bool{}
	for _, l := range r.Loops() {
		for i := range l {
			e := [2]int{start + i, start + (i+1)%len(l)}
			boundary[e] = true
			require.True(t, edges[e], "boundary edge missing")
		}
		start += len(l)
	}
	for e := range edges {
		require.True(t, boundary[e] != edges[[2]int{e[1], e[0]}], "edge without a partner")
	}
	require.InEpsilon(t, r.Area(), coverage(pts, tris), 1e-9)
}

func TestTriangulateRandomRegions(t *testing.T) {
	rnd := newRand(t)
	for range 3000 {
		r := randomRegion(rnd)
		checkTriangles(t, r, sweepOnly(r))
	}
}

// sweepOnly fails where Triangulate would fall back on the slow twin.
func sweepOnly(r geom.Region) [][3]int {
	s := newSweep(r)
	s.run()
	return s.triangles()
}

func TestSlowTwin(t *testing.T) {
	rnd := newRand(t)
	for range 300 {
		r := randomRegion(rnd)
		s := newSweep(r)
		checkTriangles(t, r, clipEars(s.pts, s.loops))
	}
}

func TestTriangulateTouching(t *testing.T) {
	sq := geom.Loop{{0, 0}, {10, 0}, {10, 10}, {0, 10}}
	cases := map[string]struct {
		r    geom.Region
		area float64
	}{
		"hole touches a side in a corner": {geom.Region{Outer: sq, Holes: []geom.Loop{{{0, 5}, {2, 6}, {2, 4}}}}, 98},
		"hole corner at an outer corner":  {geom.Region{Outer: sq, Holes: []geom.Loop{{{0, 0}, {2, 4}, {4, 2}}}}, 94},
		"two holes touch": {geom.Region{Outer: sq, Holes: []geom.Loop{
			{{2, 2}, {2, 4}, {4, 4}, {4, 2}}, {{4, 4}, {4, 6}, {6, 6}, {6, 4}}}}, 92},
		"bow of two triangles": {geom.Region{Outer: geom.Loop{{0, 0}, {4, 2}, {8, 0}, {8, 4}, {4, 2}, {0, 4}}}, 16},
		"repeated points":      {geom.Region{Outer: geom.Loop{{0, 0}, {0, 0}, {10, 0}, {10, 10}, {10, 10}, {0, 10}, {0, 0}}}, 100},
		"clockwise outer":      {geom.Region{Outer: sq.Reversed(), Holes: []geom.Loop{{{2, 2}, {4, 2}, {4, 4}, {2, 4}}}}, 96},
		"spike":                {geom.Region{Outer: geom.Loop{{0, 0}, {10, 0}, {15, 0}, {10, 0}, {10, 10}, {0, 10}}}, 100},
		"nothing":              {geom.Region{}, 0},
		"a line":               {geom.Region{Outer: geom.Loop{{0, 0}, {1, 0}, {2, 0}}}, 0},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			sum := 0.0
			for _, l := range Decompose(c.r) {
				sum += l.Area()
			}
			require.InDelta(t, c.area, sum, 1e-9)
			require.InDelta(t, c.area, coverage(points(c.r), Triangulate(c.r)), 1e-9)
		})
	}
}

func TestDecomposeRandomRegions(t *testing.T) {
	rnd := newRand(t)
	for range 2000 {
		r := randomRegion(rnd)
		pieces := Decompose(r)
		sum := 0.0
		box := geom.EmptyBox2()
		for _, l := range pieces {
			for i := range l {
				require.Positive(t, orient(l[i], l[(i+1)%len(l)], l[(i+2)%len(l)]))
				box.Add(l[i])
			}
			sum += l.Area()
		}
		require.InEpsilon(t, r.Area(), sum, 1e-9)
		for range 20 {
			size := box.Size()
			p := box.Min.Add(geom.Vec2{size[0] * rnd.Float64(), size[1] * rnd.Float64()})
			in := 0
			for _, l := range pieces {
				if l.Contains(p) {
					in++
				}
			}
			want := 0
			if r.Contains(p) {
				want = 1
			}
			require.Equal(t, want, in, "point %v lies in %d pieces", p, in)
		}
	}
}

func TestDecomposeCounts(t *testing.T) {
	// At least ceil(reflex/2)+1 pieces are needed; Hertel-Mehlhorn gives at most 4 times the least.
	// An L: at least 2; a square ring: at least 4.
	require.LessOrEqual(t, len(Decompose(geom.Region{Outer: geom.Loop{{0, 0}, {4, 0}, {4, 2}, {2, 2}, {2, 4}, {0, 4}}})), 3)
	ring := geom.Region{Outer: geom.Loop{{0, 0}, {9, 0}, {9, 9}, {0, 9}}, Holes: []geom.Loop{{{3, 3}, {3, 6}, {6, 6}, {6, 3}}}}
	require.LessOrEqual(t, len(Decompose(ring)), 6)
	require.Len(t, Decompose(geom.Region{Outer: circle(geom.Vec2{}, 5, 100, 0)}), 1)
}

func TestOrientExact(t *testing.T) {
	// Points on y = x moved by one unit in the last place: plain arithmetic gets some wrong.
	up := math.Nextafter
	a, b := geom.Vec2{0.5, 0.5}, geom.Vec2{12, 12}
	for _, x := range []float64{24, 17.3, 0.7, 3.3} {
		require.Equal(t, 0, orient(a, b, geom.Vec2{x, x}))
		require.Equal(t, 1, orient(a, b, geom.Vec2{x, up(x, 99)}))
		require.Equal(t, -1, orient(a, b, geom.Vec2{up(x, 99), x}))
	}
}

func plate(n int) geom.Region {
	r := geom.Region{Outer: geom.Loop{{0, 0}, {float64(n) * 10, 0}, {float64(n) * 10, float64(n) * 10}, {0, float64(n) * 10}}}
	for i := range n * n {
		r.Holes = append(r.Holes, circle(geom.Vec2{5 + 10*float64(i%n), 5 + 10*float64(i/n)}, 3.25, 56, 0).Reversed())
	}
	return r
}

func BenchmarkDecompose(b *testing.B) {
	for name, n := range map[string]int{"1hole": 1, "25holes": 5, "400holes": 20} {
		r := plate(n)
		b.Run(name, func(b *testing.B) {
			for range b.N {
				Decompose(r)
			}
			b.ReportMetric(float64(len(Decompose(r))), "pieces")
		})
	}
}

func FuzzTriangulate(f *testing.F) {
	f.Add(int64(1), 8, 3)
	f.Fuzz(func(t *testing.T, seed int64, n, m int) {
		// Any loops, crossing themselves and each other: no panic, no turned triangle.
		rnd := rand.New(rand.NewSource(seed))
		loop := func(n int) geom.Loop {
			l := make(geom.Loop, min(max(n, 0), 60))
			for i := range l {
				l[i] = geom.Vec2{float64(rnd.Intn(8)), float64(rnd.Intn(8))}
			}
			return l
		}
		r := geom.Region{Outer: loop(n), Holes: []geom.Loop{loop(m), loop(m / 2)}}
		pts := points(r)
		for _, tri := range Triangulate(r) {
			if orient(pts[tri[0]], pts[tri[1]], pts[tri[2]]) <= 0 {
				t.Fatal("triangle turned over")
			}
		}
		for _, l := range Decompose(r) {
			if l.Area() <= 0 {
				t.Fatal("piece turned over")
			}
		}
	})
}
