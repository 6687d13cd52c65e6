package solid

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// orientPlain is orient in rational numbers, the standard library's.
func orientPlain(a, b, c geom.Vec2) int {
	rat := func(x, y float64) *big.Rat {
		r := new(big.Rat).SetFloat64(x)
		return r.Sub(r, new(big.Rat).SetFloat64(y))
	}
	l, r := rat(a[0], c[0]), rat(a[1], c[1])
	return l.Mul(l, rat(b[1], c[1])).Cmp(r.Mul(r, rat(b[0], c[0])))
}

// Points on one line but for a last digit, slivers, points far from the origin, of very different sizes.
func TestOrientIsExact(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 4))
	turns := map[int]int{}
	for n := range 20000 {
		size := math.Ldexp(1, r.IntN(60)-30)
		p := func() geom.Vec2 { return geom.Vec2{size * (r.Float64() - 0.5), size * (r.Float64() - 0.5)} }
		a, b := p(), p()
		c := a.Add(b.Sub(a).Mul(r.Float64() * 3))
		switch n % 4 {
		case 1: // off by last digits
			c[r.IntN(2)] = math.Nextafter(c[r.IntN(2)], math.Inf(r.IntN(2)*2-1))
		case 2: // on a grid: truly on one line
			g := func(v geom.Vec2) geom.Vec2 {
				return geom.Vec2{math.Round(v[0] / size * 8), math.Round(v[1] / size * 8)}
			}
			a, b = g(a), g(b)
			c = a.Add(b.Sub(a).Mul(float64(r.IntN(5))))
		case 3: // far off
			o := geom.Vec2{1e6, -1e6}
			a, b, c = a.Add(o), b.Add(o), c.Add(o)
		}
		got := orient(a, b, c)
		require.Equal(t, orientPlain(a, b, c), got, "%v %v %v", a, b, c)
		turns[got]++
	}
	require.Len(t, turns, 3)
	require.Greater(t, turns[0], 1000)
}
