package spread

// This file draws errors: normal numbers from a seed, the same on every machine.

import (
	"math"
	"math/rand/v2"
)

// draws gives normal numbers of mean 0 and standard deviation 1, by Box and Muller's way (1958, from memory):
// of two even numbers u, v in (0, 1], sqrt(-2 ln u) times the cosine and the sine of 2 pi v.
type draws struct{ source *rand.PCG }

func newDraws(seed int64) draws {
	return draws{rand.NewPCG(uint64(seed), 0x5eed)}
}

// even is a number in (0, 1], a multiple of 2^-53.
func (d draws) even() float64 { return float64(d.source.Uint64()>>11+1) / (1 << 53) }

// fill sets all of z.
func (d draws) fill(z []float64) {
	for i := 0; i < len(z); i += 2 {
		r := math.Sqrt(-2 * ln(d.even()))
		sin, cos := math.Sincos(2 * math.Pi * d.even())
		z[i] = r * cos
		if i+1 < len(z) {
			z[i+1] = r * sin
		}
	}
}

// ln is the natural logarithm of 0 < x <= 1, to 1e-15 of itself or 1e-16, by plain arithmetic alone: the library's is
// written in assembly on some machines. With x = m 2^k and m between sqrt(1/2) and sqrt(2), s = (m-1)/(m+1):
// ln x = k ln 2 + 2 (s + s^3/3 + s^5/5 + ...).
func ln(x float64) float64 {
	m, k := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m *= 2
		k--
	}
	s := (m - 1) / (m + 1)
	s2 := s * s
	sum := 1 + s2*(1./3+s2*(1./5+s2*(1./7+s2*(1./9+s2*(1./11+s2*(1./13+s2*(1./15+s2*(1./17+s2*(1./19)))))))))
	return float64(k)*math.Ln2 + 2*s*sum
}
