package spread

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestLn(t *testing.T) {
	r := newRand(t)
	for range 20_000 {
		x := math.Ldexp(1-r.Float64()/2, -r.IntN(60))
		require.InDelta(t, math.Log(x), ln(x), 1e-15*math.Abs(math.Log(x))+1e-16, "%v", x)
	}
	require.Zero(t, ln(1))
	require.InDelta(t, -53*math.Ln2, ln(math.Ldexp(1, -53)), 1e-14)
}

// TestDraws: mean, standard deviation, and how many lie within one and two of them.
func TestDraws(t *testing.T) {
	d := newDraws(7)
	z := make([]float64, 7) // an odd number
	const n = 30_000
	var sum, square, one, two, cross float64
	for range n {
		d.fill(z)
		for i, v := range z {
			sum += v
			square += v * v
			if math.Abs(v) < 1 {
				one++
			}
			if math.Abs(v) < 2 {
				two++
			}
			if i > 0 {
				cross += v * z[i-1]
			}
		}
	}
	const all = 7 * n
	require.InDelta(t, 0, sum/all, 0.01)
	require.InDelta(t, 1, square/all, 0.01)
	require.InDelta(t, 0.6827, one/all, 0.004)
	require.InDelta(t, 0.9545, two/all, 0.002)
	require.InDelta(t, 0, cross/all, 0.01)
}

func TestQuantile(t *testing.T) {
	require.Equal(t, 3.0, quantile([]float64{1, 2, 3, 4, 5}, 0.5))
	require.Equal(t, 1.2, quantile([]float64{1, 2, 3, 4, 5}, 0.05))
	require.Equal(t, 5.0, quantile([]float64{1, 2, 3, 4, 5}, 1))
	require.Equal(t, 7.0, quantile([]float64{7}, 0.95))
}
