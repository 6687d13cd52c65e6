package paper

import (
	opt "flag"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

// slowSpread is spread by the min-max formula of isotonic regression:
// z(i) is the largest, over j <= i, of the least, over k >= i, mean of y(j..k).
func slowSpread(at, size []float64, least float64) []float64 {
	off := make([]float64, len(at))
	for i := 1; i < len(at); i++ {
		off[i] = off[i-1] + (size[i-1]+size[i])/2
	}
	out := make([]float64, len(at))
	for i := range at {
		z := math.Inf(-1)
		for j := 0; j <= i; j++ {
			low := math.Inf(1)
			for k := i; k < len(at); k++ {
				sum := 0.0
				for m := j; m <= k; m++ {
					sum += at[m] - off[m]
				}
				low = min(low, sum/float64(k-j+1))
			}
			z = max(z, low)
		}
		out[i] = max(z, least) + off[i]
	}
	return out
}

var seedFlag = opt.Uint64("seed", 1, "seed of the random test; 0 takes a new one")

func TestSpread(t *testing.T) {
	seed := *seedFlag
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	r := rand.New(rand.NewPCG(seed, 1))
	for range 300 {
		n := r.IntN(25)
		at, size := make([]float64, n), make([]float64, n)
		for i := range at {
			at[i], size[i] = math.Floor(r.Float64()*80)/2, 1+r.Float64()*6
		}
		slices.Sort(at)
		least := -5 + r.Float64()*10
		got, want := spread(at, size, least), slowSpread(at, size, least)
		for i := range got {
			if math.Abs(got[i]-want[i]) > 1e-9 {
				t.Fatalf("seed %d: spread(%v, %v, %g)\n got %v\nwant %v", seed, at, size, least, got, want)
			}
			if i > 0 && got[i]-got[i-1] < (size[i]+size[i-1])/2-1e-9 {
				t.Fatalf("seed %d: labels %d and %d overlap: %v", seed, i-1, i, got)
			}
		}
	}
}
