// Package foldtest helps tests of parts: random parts from a seed, the same part
// laid otherwise on the sheet, and slow twins of what the kernel works out.
//
// chain.go holds strips with bends square across them and their section by plain
// trigonometry; tray.go floors with walls round them; place.go the same part
// moved, mirrored, the other way round, in inches, rounded; twin.go distances by brute
// force; pan.go four-walled pans by finished sizes, worked out wall by wall.
package foldtest

import (
	"math"
	"math/rand/v2"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Rand is a random source that gives the same numbers for the same seed everywhere.
func Rand(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 0x0f01d)) }

// Uniform draws between lo and hi.
func Uniform(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

// LogUniform draws between lo and hi, both positive, each order of size as likely.
func LogUniform(r *rand.Rand, lo, hi float64) float64 {
	return lo * math.Exp2(math.Log2(hi/lo)*r.Float64())
}

// Points makes a contour of straight edges from x, y, x, y...
func Points(xy ...float64) fold.Contour {
	var c fold.Contour
	for i := 0; i+1 < len(xy); i += 2 {
		c = append(c, fold.Vertex{At: geom.Vec2{xy[i], xy[i+1]}})
	}
	return c
}

// Near reports whether two points in space lie within tol of each other.
func Near(a, b geom.Vec3, tol float64) bool { return a.Sub(b).Len() <= tol }

// Random is a random part: a chain or a tray of any kind this package makes.
func Random(r *rand.Rand) fold.Spec {
	if r.IntN(3) == 0 {
		return RandomChain(r).Spec()
	}
	return RandomTray(r)
}
