package solid

import (
	"flag"
	"math"
	"math/rand"
	"testing"
	"time"

	"dryfold/fold/geom"
)

var seedFlag = flag.Int64("seed", 1, "seed of the random tests; 0 takes a new one")

// newRand is a random source whose seed is printed when the test fails.
func newRand(t testing.TB) *rand.Rand {
	seed := *seedFlag
	if seed == 0 {
		seed = time.Now().UnixNano()
	}
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("again with: go test -run '^%s$' -seed %d", t.Name(), seed)
		}
	})
	return rand.New(rand.NewSource(seed))
}

// logUniform draws between lo and hi, each order of size as likely; the same in WebAssembly, where
// math.Pow is not.
func logUniform(r *rand.Rand, lo, hi float64) float64 {
	return lo * math.Exp2(math.Log2(hi/lo)*r.Float64())
}

func circle(c geom.Vec2, radius float64, n int, turn float64) geom.Loop {
	l := make(geom.Loop, n)
	for i := range l {
		sin, cos := math.Sincos(turn + 2*math.Pi*float64(i)/float64(n))
		l[i] = c.Add(geom.Vec2{radius * cos, radius * sin})
	}
	return l
}

// star is a loop seen whole from c: simple by its making.
func star(r *rand.Rand, c geom.Vec2, lo, hi float64, n int) geom.Loop {
	l := make(geom.Loop, n)
	for i := range l {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.8*r.Float64()) / float64(n))
		d := lo + (hi-lo)*r.Float64()
		l[i] = c.Add(geom.Vec2{d * cos, d * sin})
	}
	return l
}

// comb is a plank with teeth: many straight collinear ends, thin slots.
func comb(r *rand.Rand, teeth int, slot float64) geom.Loop {
	l := geom.Loop{{0, 0}, {float64(teeth) * 10, 0}}
	for i := teeth - 1; i >= 0; i-- {
		x, y := float64(i)*10, 5+10*r.Float64()
		l = append(l, geom.Vec2{x + 10 - slot, 20}, geom.Vec2{x + slot, 20})
		if i > 0 {
			l = append(l, geom.Vec2{x + slot, y}, geom.Vec2{x - slot, y})
		}
	}
	return l
}

// withFlats adds points in the middle of sides; on axis-parallel sides they lie exactly on them.
func withFlats(r *rand.Rand, l geom.Loop) geom.Loop {
	var out geom.Loop
	for i, p := range l {
		out = append(out, p)
		q := l[(i+1)%len(l)]
		if (p[0] == q[0] || p[1] == q[1]) && r.Intn(2) == 0 {
			out = append(out, p.Mul(0.75).Add(q.Mul(0.25)), p.Add(q).Mul(0.5))
		}
	}
	return out
}

// randomRegion makes simple regions of the kinds that blanks are made of.
func randomRegion(r *rand.Rand) geom.Region {
	var g geom.Region
	switch r.Intn(4) {
	case 0: // star with a few star holes
		big := logUniform(r, 1, 1000)
		g.Outer = star(r, geom.Vec2{}, big*0.5, big, 3+r.Intn(40)+2)
		if len(g.Outer) < 8 {
			break
		}
		for k := range r.Intn(4) {
			sin, cos := math.Sincos(float64(k) * math.Pi / 2)
			g.Holes = append(g.Holes, star(r, geom.Vec2{big * 0.2 * cos, big * 0.2 * sin}, big*0.01, big*0.1, 5+r.Intn(20)).Reversed())
		}
	case 1: // perforated plate: circles in rows, exactly aligned
		nx, ny := 1+r.Intn(6), 1+r.Intn(5)
		g.Outer = withFlats(r, geom.Loop{{0, 0}, {float64(nx) * 10, 0}, {float64(nx) * 10, float64(ny) * 10}, {0, float64(ny) * 10}})
		rad := logUniform(r, 1e-3, 4.9999)
		for i := range nx * ny {
			c := geom.Vec2{5 + 10*float64(i%nx), 5 + 10*float64(i/nx)}
			g.Holes = append(g.Holes, circle(c, rad, 3+r.Intn(60), 0).Reversed())
		}
	case 2:
		g.Outer = withFlats(r, comb(r, 1+r.Intn(12), logUniform(r, 1e-6, 4)))
	case 3: // steps on a grid: many points on one line
		l := geom.Loop{{0, 0}}
		n := 2 + r.Intn(10)
		for i := range n {
			l = append(l, geom.Vec2{float64(i + 1), -float64(i)}, geom.Vec2{float64(i + 1), -float64(i + 1)})
		}
		g.Outer = withFlats(r, append(l[:len(l)-1], geom.Vec2{float64(n), 1}, geom.Vec2{0, 1}))
		if r.Intn(2) == 0 { // a square hole whose corners line up with the steps
			g.Holes = append(g.Holes, geom.Loop{{0.25, 0.25}, {0.25, 0.75}, {0.75, 0.75}, {0.75, 0.25}})
		}
	}
	if r.Intn(2) == 0 { // turned and moved: collinear points are so only nearly
		sin, cos := math.Sincos(r.Float64() * 7)
		off := geom.Vec2{r.NormFloat64() * 100, r.NormFloat64() * 100}
		for _, l := range g.Loops() {
			for i, p := range l {
				l[i] = geom.Vec2{p[0]*cos - p[1]*sin, p[0]*sin + p[1]*cos}.Add(off)
			}
		}
	}
	return g
}
