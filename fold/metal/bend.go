package metal

import "math"

// This file holds the formulas of one bend, angles in degrees turned from flat.

// Allowance is the arc of the neutral line, angle*(R + K*T): the width of the bend on the blank.
func Allowance(angleDeg, radius, thickness, k float64) float64 {
	return angleDeg * degree * (radius + k*thickness)
}

// Setback is the distance from a tangent line to the outside sharp, (R+T) tan(angle/2); past 90 degrees,
// where the outside faces meet ever further out, setback is R+T, to the tangent of the outside
// face, and mold keeps the tangent formula, +Inf at 180 and over.
func Setback(angleDeg, radius, thickness float64) (setback, mold float64) {
	side := radius + thickness
	mold = math.Inf(1)
	if angleDeg < 180 {
		mold = side * math.Tan(angleDeg*degree/2)
	}
	if angleDeg >= 90 {
		return side, mold
	}
	return mold, mold
}

// Deduction is 2 setbacks less the allowance: what the blank is shorter than the two outside sizes.
func Deduction(angleDeg, radius, thickness, k float64) float64 {
	s, _ := Setback(angleDeg, radius, thickness)
	return 2*s - Allowance(angleDeg, radius, thickness, k)
}
