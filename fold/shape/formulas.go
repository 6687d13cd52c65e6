package shape

import (
	"math"

	"dryfold/fold/geom"
)

// This file holds the formulas of bends and corners: plain functions of plain
// numbers, in any one unit of length.

// Allowance is the width of a bend's zone on the blank: angle * (radius + k*t).
func Allowance(angle geom.Angle, radius, t, k float64) float64 {
	return float64(angle) * (radius + k*t)
}

// Setback is how far the sharp corner of two faces that meet on a cylinder of
// radius r lies from either tangent line: r tan(angle/2), for angles under 180.
// With r the inside radius it is the inside sharp, with radius + t the outside one.
func Setback(angle geom.Angle, r float64) float64 {
	return r * math.Tan(float64(angle)/2)
}

// InteriorAngle is the angle between the inner faces of two neighbouring walls
// that lean out alike (0 is square to the floor) over a floor corner of the plan
// angle given. Both faces' normals are taken in space, and it is what is left of
// 180 degrees.
func InteriorAngle(plan, lean geom.Angle) geom.Angle {
	sin, cos := math.Sincos(float64(lean))
	dot := -cos*cos*math.Cos(float64(plan)) + sin*sin
	return geom.Angle(math.Pi - math.Acos(max(-1, min(1, dot))))
}

// EdgeToEdge is how far both inner edges stop short of the line where the inner
// faces of two walls meet, so that the walls' least distance is gap:
// gap/(2 sin(delta/2)) + max(0, -t cot(delta/2)), delta the interior angle
// between the inner faces, over 0 to under 360 degrees. Past 180 the outer edges
// are the nearer ones.
func EdgeToEdge(gap float64, delta geom.Angle, t float64) float64 {
	sin, cos := math.Sincos(float64(delta) / 2)
	return gap/(2*sin) + max(0, -t*cos/sin)
}
