package solid

import (
	"encoding/csv"
	"math"
	"math/rand"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

func box(x0, x1, y0, y1, z0, z1 float64) Convex {
	return Prism(geom.Loop{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, z0, z1, geom.Identity())
}

func readCSV(t testing.TB, path string) [][]string {
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

func number(t testing.TB, s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

// trayRead is the tray of testdata/oracle: 13 boxes.
func trayRead(t testing.TB) (names []string, boxes []rivalBox) {
	for _, r := range readCSV(t, "testdata/oracle/tray13_boxes.csv") {
		var v [15]float64
		for i := range v {
			v[i] = number(t, r[i+1])
		}
		vec := func(k int) geom.Vec3 { return geom.Vec3{v[k], v[k+1], v[k+2]} }
		names = append(names, r[0])
		boxes = append(boxes, rivalBox{geom.Frame{X: vec(3), Y: vec(6), Z: vec(9), O: vec(0)}, vec(12)})
	}
	return names, boxes
}

func tray13(t testing.TB) map[string]Convex {
	out := map[string]Convex{}
	names, boxes := trayRead(t)
	for i, n := range names {
		out[n] = boxes[i].convex()
	}
	return out
}

// Exact values by a long-double program (testdata/oracle/README.md).
func TestTray13Distances(t *testing.T) {
	boxes := tray13(t)
	require.Len(t, boxes, 13)
	rows := readCSV(t, "testdata/oracle/tray13_dist_oracle.csv")
	require.Len(t, rows, 78)
	for _, r := range rows {
		a, b, want := boxes[r[0]], boxes[r[1]], number(t, r[2])
		for name, got := range map[string]Contact{"distance": Distance(&a, &b), "features": features(&a, &b)} {
			require.InDelta(t, want, got.D, 1e-9, "%s %s-%s", name, r[0], r[1])
			require.InDelta(t, want, got.A.Sub(got.B).Len(), 1e-9)
		}
	}
}

func randomFrame(r *rand.Rand, spread float64) geom.Frame {
	v := func(s float64) geom.Vec3 {
		return geom.Vec3{r.NormFloat64() * s, r.NormFloat64() * s, r.NormFloat64() * s}
	}
	f := geom.Frame{X: v(1), Y: v(1), O: v(spread)}
	if r.Intn(3) == 0 { // parallel and square faces are the daily case
		f = geom.Identity()
		if r.Intn(2) == 0 {
			f = geom.Frame{X: geom.Vec3{0, 0, 1}, Y: geom.Vec3{1, 0, 0}, Z: geom.Vec3{0, 1, 0}}
		}
		if r.Intn(3) == 0 { // turned by next to nothing
			f.Y = f.Y.Add(v(1e-8))
		}
		f.O = v(spread)
	}
	return f.Orthonormal()
}

// randomConvex makes planks, slivers, blocks, frustums.
func randomConvex(r *rand.Rand, spread float64) Convex {
	f := randomFrame(r, spread)
	thick := logUniform(r, 0.01, 10)
	switch r.Intn(4) {
	case 0:
		a, b := logUniform(r, 0.1, 300), logUniform(r, 0.01, 300)
		return Prism(geom.Loop{{0, 0}, {a, 0}, {a, b}, {0, b}}, 0, thick, f)
	case 1:
		return Prism(circle(geom.Vec2{}, logUniform(r, 0.01, 100), 3+r.Intn(12), r.Float64()), 0, thick, f)
	case 2: // sliver
		a := logUniform(r, 1, 500)
		return Prism(geom.Loop{{0, 0}, {a, 0}, {a * r.Float64(), logUniform(r, 1e-6, 1)}}, 0, thick, f)
	}
	flat := func() []geom.Vec2 {
		n := 1 + r.Intn(7)
		out := make([]geom.Vec2, n)
		s := logUniform(r, 0.01, 50)
		for i := range out {
			out[i] = geom.Vec2{r.NormFloat64() * s, r.NormFloat64() * s}
		}
		return out
	}
	return Frustum(append(flat(), geom.Vec2{0, 1}), flat(), 0, thick, f)
}

// TestDistanceAgainstFeatures: both ways of finding it agree, the points lie in the
// bodies and the slab between them proves that none are nearer.
func TestDistanceAgainstFeatures(t *testing.T) {
	r := newRand(t)
	apart := 0
	for range 6000 {
		a, b := randomConvex(r, 80), randomConvex(r, 80)
		c := Distance(&a, &b)
		require.InDelta(t, 1, c.N.Len(), 1e-12)
		require.InDelta(t, math.Abs(c.D), c.A.Sub(c.B).Len(), 1e-8)
		gap, _, _ := slab(&a, &b, c.N)
		require.InDelta(t, c.D, gap, 1e-8, "the slab is a proof")
		if c.D > 0 {
			apart++
			require.InDelta(t, features(&a, &b).D, c.D, 1e-9)
		}
		if d, ok := Nearer(&a, &b, c.D+1e-6); !ok || math.Abs(d.D-c.D) > 1e-9 {
			t.Fatalf("Nearer says %v %v, Distance %v", d.D, ok, c.D)
		}
		_, ok := Nearer(&a, &b, c.D-1e-6)
		require.False(t, ok)
		require.InDelta(t, c.D, Distance(&b, &a).D, 1e-9)
	}
	require.Greater(t, apart, 1000)
}

// TestDepth: no direction parts two bodies by a shorter move, and that move parts them.
func TestDepth(t *testing.T) {
	r := newRand(t)
	for done := 0; done < 300; {
		a, b := randomConvex(r, 5), randomConvex(r, 5)
		c := Distance(&a, &b)
		if c.D >= -1e-3 {
			continue
		}
		done++
		for range 300 {
			n := geom.Vec3{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}
			if r.Intn(2) == 0 {
				n = c.N.Add(n.Mul(logUniform(r, 1e-6, 1)))
			}
			gap, _, _ := slab(&a, &b, n.Normalize())
			require.LessOrEqual(t, gap, c.D+1e-9)
		}
		f := geom.Identity()
		f.O = c.N.Mul(-c.D)
		moved := a.Move(f)
		require.InDelta(t, 0, Distance(&moved, &b).D, 1e-8)
		f.O = c.N.Mul(-c.D + 0.5)
		moved = a.Move(f)
		require.InDelta(t, 0.5, Distance(&moved, &b).D, 1e-8)
	}
}

func TestKnownPairs(t *testing.T) {
	cases := []struct {
		name string
		a, b Convex
		want float64
	}{
		{"apart across faces", box(0, 1, 0, 1, 0, 1), box(3, 4, 0, 1, 0, 1), 2},
		{"apart across edges", box(0, 1, 0, 1, 0, 1), box(4, 5, 5, 6, 0, 1), 5},
		{"apart across corners", box(0, 1, 0, 1, 0, 1), box(2, 5, 3, 6, 3, 4), 3},
		{"touching", box(0, 1, 0, 1, 0, 1), box(1, 2, 0, 1, 0, 1), 0},
		{"the same twice", box(0, 3, 0, 2, 0, 1), box(0, 3, 0, 2, 0, 1), -1},
		{"plank across plank", box(0, 1000, 0, 5, 0, 1), box(500, 505, -500, 500, 0.25, 1.25), -0.75},
		{"inside", box(0, 100, 0, 100, 0, 100), box(10, 20, 30, 40, 50, 60), -20},
		{"crossed edges", Prism(geom.Loop{{-1, -100}, {0, -101}, {1, -100}, {1, 100}, {-1, 100}}, 0, 1, geom.Identity()),
			box(-1, 1, -103, -101.5, 0, 1), 0.5},
		{"pyramid tip in plate", Frustum([]geom.Vec2{{0, 0}}, []geom.Vec2{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}, 0.5, 3, geom.Identity()),
			box(-9, 9, -9, 9, 0, 1), -0.5},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.InDelta(t, c.want, Distance(&c.a, &c.b).D, 1e-12)
			require.InDelta(t, c.want, Distance(&c.b, &c.a).D, 1e-12)
		})
	}
}

// Bodies that hold nothing, and numbers that are none.
func TestDegenerate(t *testing.T) {
	point := func(x, y, z float64) Convex {
		p := geom.Vec3{x, y, z}
		return Convex{Points: []geom.Vec3{p}, Centre: p}
	}
	needle := func(x0, y0, x1, y1 float64) Convex {
		l := geom.Vec2{x1 - x0, y1 - y0}.Len()
		d := geom.Vec3{(x1 - x0) / l, (y1 - y0) / l, 0}
		return Frustum([]geom.Vec2{{0, 0}}, []geom.Vec2{{0, 0}}, 0, l,
			geom.Frame{X: geom.Vec3{0, 0, 1}, Y: d.Cross(geom.Vec3{0, 0, 1}), Z: d, O: geom.Vec3{x0, y0, 0}})
	}
	cases := []struct {
		name string
		a, b Convex
		want float64
	}{
		{"points", point(0, 0, 0), point(1, 2, 2), 3},
		{"the same point", point(1, 2, 3), point(1, 2, 3), 0},
		{"point on needle", point(1, 0, 0), needle(0, 0, 3, 0), 0},
		{"point beside needle", point(1, 2, 0), needle(0, 0, 3, 0), 2},
		{"point in box", point(1, 2, 3), box(0, 9, 0, 9, 0, 9), -1},
		{"crossing needles", needle(0, 0, 4, 4), needle(0, 4, 4, 0), 0},
		{"needles in line", needle(0, 0, 4, 0), needle(6, 0, 9, 0), 2},
		{"needles on each other", needle(0, 0, 4, 0), needle(3, 0, 9, 0), 0},
		{"needle in box", needle(1, 1, 4, 1), box(0, 9, 0, 9, -3, 9), -1},
		{"flat ones in a plane", box(0, 4, 0, 4, 0, 0), box(7, 9, 8, 9, 0, 0), 5},
		{"flat ones in a plane, on each other", box(0, 4, 0, 4, 0, 0), box(1, 9, 3, 9, 0, 0), 0},
		{"flat ones crossing", box(0, 4, 0, 4, 0, 0), box(2, 2, 1, 3, -5, 5), -2},
		{"flat in box", box(1, 4, 1, 4, 2, 2), box(0, 9, 0, 9, 0, 9), -2},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			x := Distance(&c.a, &c.b)
			require.InDelta(t, c.want, x.D, 1e-12)
			proven(t, &c.a, &c.b, x)
			require.InDelta(t, c.want, Distance(&c.b, &c.a).D, 1e-12)
		})
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), -math.Inf(1), 1e300, 1e-300} { // an end, no more
		for k := range 8 {
			a, b := box(0, 1, 0, 1, 0, 1), box(0.5, 2, 0.5, 2, 0.5, 2)
			a.Points[k][k%3] = x
			a.bound()
			Distance(&a, &b)
			Nearer(&b, &a, 3)
			b.Normals[k%6][0], b.Dirs[k%3][1] = x, x
			Distance(&a, &b)
			Nearer(&b, &a, -3)
		}
	}
}

// Two square planks on edge, crossed: 45 degree edges meet edges, depth in closed form.
func TestEdgeEdgeDepth(t *testing.T) {
	h := math.Sqrt2 / 2
	ridge := func(up float64, along geom.Vec3) Convex { // a square bar of side 1 standing on its edge
		z := geom.Vec3{0, 0, 1}
		side := z.Cross(along)
		return Prism(geom.Loop{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, -50, 50,
			geom.Frame{X: side.Mul(h).Add(z.Mul(h)), Y: side.Mul(-h).Add(z.Mul(h)), Z: along, O: geom.Vec3{0, 0, up}}.Orthonormal())
	}
	a, b := ridge(0, geom.Vec3{1, 0, 0}), ridge(math.Sqrt2-0.1, geom.Vec3{0, 1, 0})
	c := Distance(&b, &a)
	require.InDelta(t, -0.1, c.D, 1e-12)
	require.InDelta(t, 1, c.N[2], 1e-12)
	require.InDelta(t, 0, c.A[0]+0, 1e-9)
	require.InDelta(t, 0, c.A[1]+0, 1e-9)
}

func BenchmarkDistance(b *testing.B) {
	boxes := tray13(b)
	pair := func(name string, x, y Convex) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				Distance(&x, &y)
			}
		})
	}
	pair("apart", boxes["wallE"], boxes["wallW"])
	pair("near", boxes["wallE"], boxes["wallN"])
	pair("overlap", box(0, 400, 0, 200, 0, 1), box(390, 410, 10, 100, 0.5, 60))
	r := rand.New(rand.NewSource(1))
	for k, name := range pairKinds {
		var xs, ys [64]Convex
		for i := range xs {
			xs[i], ys[i] = randomPair(r, k)
		}
		b.Run(strings.ReplaceAll(name, " ", "_"), func(b *testing.B) {
			for i := range b.N {
				Distance(&xs[i%64], &ys[i%64])
			}
		})
	}
	x, y := boxes["wallE"], boxes["wallN"]
	b.Run("features", func(b *testing.B) {
		for range b.N {
			features(&x, &y)
		}
	})
}

// All 78 pairs of the tray's boxes.
func BenchmarkTray13(b *testing.B) {
	_, boxes := trayRead(b)
	var l []Convex
	for i := range boxes {
		l = append(l, boxes[i].convex())
	}
	b.ReportAllocs()
	for range b.N {
		for i := range l {
			for j := range i {
				Distance(&l[i], &l[j])
			}
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(78*b.N), "ns/pair")
}
