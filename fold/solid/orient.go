package solid

import (
	"math"
	"math/big"

	"dryfold/fold/geom"
)

// orientFilter is the relative rounding error of the plain determinant, from
// Shewchuk, "Adaptive precision floating-point arithmetic" (from memory):
// (3 + 16 eps) eps with eps = 2^-53.
const orientFilter = 3.3306690738754716e-16

// orient is the exact sign of the turn a, b, c: +1 counter-clockwise, -1
// clockwise, 0 on one line. Plain arithmetic decides unless rounding could
// matter, then rational arithmetic does. Coordinates must be finite.
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
	rat := func(x, y float64) *big.Rat {
		r := new(big.Rat).SetFloat64(x)
		return r.Sub(r, new(big.Rat).SetFloat64(y))
	}
	l := rat(a[0], c[0])
	r := rat(a[1], c[1])
	return l.Mul(l, rat(b[1], c[1])).Cmp(r.Mul(r, rat(b[0], c[0])))
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
