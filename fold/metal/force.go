package metal

import "math"

// This file holds what bending takes, and what sheet bears at most before it cracks, by formula.

// PlasticMoment is the moment in N mm that bends a strip of the width and thickness (mm) fully plastic:
// sigma b t^2/4, sigma the flow stress in MPa.
func PlasticMoment(sigma, width, thickness float64) float64 {
	return sigma * width * thickness * thickness / 4
}

// SameLoad is the thickness that loads a brake over the length other as much as the thickness over the length does:
// L t^2 stays the same (common practice). Lengths in one unit, thicknesses in one unit.
func SameLoad(length, thickness, other float64) float64 {
	return thickness * math.Sqrt(length/other)
}

// AluminiumOver is how much thicker aluminium may be than the mild steel a brake is rated for (common practice).
const AluminiumOver = 1.5

// ReductionRadius is the least inside radius T(50/r - 1), r the reduction of area in the tensile test in
// percent; 0 where r is 50 or more (Machinery's Handbook).
func ReductionRadius(thickness, reduction float64) float64 {
	return math.Max(0, thickness*(50/reduction-1))
}
