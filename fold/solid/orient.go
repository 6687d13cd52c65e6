package solid

import (
	"math"

	"dryfold/fold/geom"
)

// orientFilter is the relative rounding error of the plain determinant, from
// Shewchuk, "Adaptive precision floating-point arithmetic" (from memory):
// (3 + 16 eps) eps with eps = 2^-53.
const orientFilter = 3.3306690738754716e-16

// orient is the exact sign of the turn a, b, c: +1 counter-clockwise, -1
// clockwise, 0 on one line. Plain arithmetic decides unless rounding could
// matter, then exact sums of exact products do. Coordinates must be finite, and of
// products within 1e-290..1e290 where they are not 0.
func orient(a, b, c geom.Vec2) int {
	left := (a[0] - c[0]) * (b[1] - c[1])
	right := (a[1] - c[1]) * (b[0] - c[0])
	det := left - right
	if bound := orientFilter * (math.Abs(left) + math.Abs(right)); det > bound || -det > bound {
		return sign(det)
	}
	if left == 0 && right == 0 && ((a[0] == c[0] || b[1] == c[1]) && (a[1] == c[1] || b[0] == c[0])) {
		return 0
	}
	// The determinant multiplied out: a x b - a x c - c x b, each product with its rounding error, summed exactly.
	var sum expansion
	sum.product(a[0], b[1])
	sum.product(-a[1], b[0])
	sum.product(-a[0], c[1])
	sum.product(a[1], c[0])
	sum.product(-c[0], b[1])
	sum.product(c[1], b[0])
	return sum.sign()
}

// expansion is an exact sum as floats that do not overlap, the least first (Shewchuk, Grow-Expansion, from memory).
type expansion struct {
	parts [12]float64
	n     int
}

// product adds x*y, exact unless it is under 1e-290 and not 0.
func (e *expansion) product(x, y float64) {
	p := x * y
	e.add(math.FMA(x, y, -p))
	e.add(p)
}

func (e *expansion) add(x float64) {
	for i, p := range e.parts[:e.n] {
		// two-sum (Knuth): hi + lo is x + p exactly
		hi := x + p
		v := hi - x
		e.parts[i] = (x - (hi - v)) + (p - v)
		x = hi
	}
	e.parts[e.n] = x
	e.n++
}

// sign is that of the greatest part that is not 0, which outweighs the others together.
func (e *expansion) sign() int {
	for i := e.n - 1; i >= 0; i-- {
		if s := sign(e.parts[i]); s != 0 {
			return s
		}
	}
	return 0
}

func sign(x float64) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// lexLess orders points by x, then y: the order of a sweep along x leant over
// so little that no two different points are met at once.
func lexLess(a, b geom.Vec2) bool {
	return a[0] < b[0] || a[0] == b[0] && a[1] < b[1]
}
