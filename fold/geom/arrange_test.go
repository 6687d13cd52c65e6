package geom

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

var seed = flag.Uint64("geom.seed", 1, "first seed of the random arrangements")

// faceArea is a face's area, its outer loop less its holes.
func (a *Arrangement) faceArea(f int) float64 {
	sum := 0.0
	for _, h := range a.Faces[f].Loops {
		sum += a.LoopPoints(h).Area()
	}
	return sum
}

func TestArrangeSquareWithHole(t *testing.T) {
	square := func(x0, y0, x1, y1 float64) []Segment {
		p := []Vec2{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
		var s []Segment
		for i := range p {
			s = append(s, Segment{A: p[i], B: p[(i+1)%4]})
		}
		return s
	}
	a, _ := Arrange(append(square(0, 0, 10, 10), square(4, 4, 6, 6)...), 1e-6, math.MaxInt)
	require.Len(t, a.Faces, 3)
	require.Empty(t, a.Meetings)
	require.InDelta(t, 96, a.faceArea(1), 1e-12)
	require.Len(t, a.Faces[1].Loops, 2)
	q, room := a.Inside(1)
	require.True(t, q[0] > 0 && q[0] < 10 && !(q[0] > 4 && q[0] < 6 && q[1] > 4 && q[1] < 6))
	require.Greater(t, room, 1.0)
	require.InDelta(t, 4, a.faceArea(2), 1e-12)
}

// A line laid along an edge becomes one edge with both segments on it; a line
// that passes a corner within weld goes through it.
func TestArrangeTouching(t *testing.T) {
	s := []Segment{{A: Vec2{0, 0}, B: Vec2{10, 0}}, {A: Vec2{2, 0}, B: Vec2{4, 0}, Tag: 1}, {A: Vec2{4, 5e-7}, B: Vec2{4, 8}, Tag: 2}}
	a, _ := Arrange(s, 1e-6, math.MaxInt)
	both := 0
	for _, tags := range a.Tags {
		if len(tags) == 2 {
			both++
		}
	}
	require.Equal(t, 1, both)
	require.Len(t, a.Points, 5)
	require.Len(t, a.Tags, 4)
}

// A tangle of more pairs than allowed is refused with a place in it.
func TestArrangeRefusesTangles(t *testing.T) {
	var segs []Segment
	for i := range 20 {
		x := float64(i)
		segs = append(segs, Segment{A: Vec2{x, -1}, B: Vec2{x, 20}}, Segment{A: Vec2{-1, x}, B: Vec2{20, x}})
	}
	a, at := Arrange(segs, 1e-6, 100)
	require.Nil(t, a)
	require.Equal(t, Vec2{math.Round(at[0]), math.Round(at[1])}, at)
	a, _ = Arrange(segs, 1e-6, 400)
	require.NotNil(t, a)
}

// For random tangles: Euler's formula, each face's area positive, the faces' areas add
// up to what the outside's loops enclose, crossings agree with a test of every pair, and
// a point inside each face is inside it by counting crossings of a ray.
func TestArrangeRandom(t *testing.T) {
	for s := *seed; s < *seed+200; s++ {
		r := rand.New(rand.NewPCG(s, 7))
		size := math.Exp2(-3 + 10*r.Float64())
		n := 3 + r.IntN(30)
		var segs []Segment
		for i := range n {
			p := Vec2{r.Float64() * size, r.Float64() * size}
			q := Vec2{r.Float64() * size, r.Float64() * size}
			if r.IntN(3) == 0 { // on a lattice, so that ends, edges and corners coincide
				k := size / 4
				for j := range 2 {
					p[j], q[j] = math.Round(p[j]/k)*k, math.Round(q[j]/k)*k
				}
			}
			segs = append(segs, Segment{p, q, i})
		}
		a, _ := Arrange(segs, 1e-7*size, math.MaxInt)

		parent := make([]int, len(a.Points))
		for i := range parent {
			parent[i] = i
		}
		var root func(int) int
		root = func(i int) int {
			if parent[i] != i {
				parent[i] = root(parent[i])
			}
			return parent[i]
		}
		used := map[int]bool{}
		for h := range a.From {
			parent[root(a.From[h])] = root(a.To(h))
			used[a.From[h]] = true
		}
		parts := map[int]bool{}
		for p := range used {
			parts[root(p)] = true
		}
		require.Equal(t, 1+len(parts), len(used)-len(a.Tags)+len(a.Faces), "Euler, seed %d", s)

		sum := 0.0
		for f := 1; f < len(a.Faces); f++ {
			area := a.faceArea(f)
			require.Greater(t, area, 0.0, "seed %d face %d", s, f)
			sum += area
			q, room := a.Inside(f)
			require.Greater(t, room, 0.0, "seed %d", s)
			in := false
			for _, h := range a.Faces[f].Loops {
				if a.LoopPoints(h).Contains(q) {
					in = !in
				}
			}
			require.True(t, in, "seed %d face %d: %v is not inside", s, f, q)
		}
		require.InDelta(t, sum, -a.faceArea(0), 1e-9*size*size, "seed %d", s)

		crossings := 0
		for i := range segs {
			for j := i + 1; j < len(segs); j++ {
				p, q := segs[i], segs[j]
				d := p.B.Sub(p.A)
				e := q.B.Sub(q.A)
				s1, s2 := Cross2(d, q.A.Sub(p.A)), Cross2(d, q.B.Sub(p.A))
				s3, s4 := Cross2(e, p.A.Sub(q.A)), Cross2(e, p.B.Sub(q.A))
				tol := 1e-6 * size
				if s1*s2 < 0 && s3*s4 < 0 && min(math.Abs(s1), math.Abs(s2)) > tol*d.Len() && min(math.Abs(s3), math.Abs(s4)) > tol*e.Len() {
					crossings++
					found := false
					for _, m := range a.Meetings {
						found = found || m.I == i && m.J == j
					}
					require.True(t, found, "seed %d: %d and %d cross", s, i, j)
				}
			}
		}
		if n > 15 {
			require.Positive(t, crossings, "seed %d: the test crosses nothing", s)
		}
	}
}

func TestFrame(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 9))
	random := func() Frame {
		v := func() Vec3 { return Vec3{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()} }
		return Frame{X: v(), Y: v(), O: v().Mul(100)}.Orthonormal()
	}
	for range 100 {
		f, g := random(), random()
		p := Vec3{r.Float64(), r.Float64(), r.Float64()}
		require.InDelta(t, 0, f.Compose(g).Point(p).Sub(f.Point(g.Point(p))).Len(), 1e-12)
		require.InDelta(t, 0, f.LocalPoint(f.Point(p)).Sub(p).Len(), 1e-12)
		require.InDelta(t, 1, f.X.Cross(f.Y).Dot(f.Z), 1e-12)
	}
}

func BenchmarkArrange(b *testing.B) {
	r := rand.New(rand.NewPCG(3, 4))
	var segs []Segment
	for i := range 2000 {
		p := Vec2{r.Float64() * 1000, r.Float64() * 1000}
		segs = append(segs, Segment{p, p.Add(Vec2{r.Float64() * 20, r.Float64() * 20}), i})
	}
	for b.Loop() {
		Arrange(segs, 1e-6, math.MaxInt)
	}
}
