package metal

import "math"

// This file holds springback by formula: what a bend gives back once it is let go. The
// formula knows nothing of hand brakes, and what it gives is a lower limit.

// springbackTitle is where the formula was recalled from.
const springbackTitle = "Kalpakjian & Schmid, Ri/Rf = 4 x^3 - 3 x + 1, x = Ri Y/(E T)"

// Springback is the finished angle over the set angle for a bend whose finished inside radius is
// radius, in sheet of the thickness, yield and modulus given (lengths in one unit, stresses in one
// unit). The bend is set at the smaller radius Ri that springs to it. ok is false where a figure is
// impossible.
func Springback(radius, thickness, yield, modulus float64) (ks float64, ok bool) {
	ri, ok := setRadius(radius, thickness, yield, modulus)
	if !ok {
		return 0, false
	}
	return (2*ri + thickness) / (2*radius + thickness), true
}

// setRadius solves the formula for the radius Ri that springs to the given one. With c = R Y/(E T)
// it is c (4x^3 - 3x + 1) = x: left less right is -c at 0 and 1/2 at 1/2, where the sheet would spring flat,
// and rises steadily between, so halving finds x to the last place.
func setRadius(radius, thickness, yield, modulus float64) (float64, bool) {
	c := radius * yield / (modulus * thickness)
	if !(radius >= 0) || !(thickness > 0) || !(yield > 0) || !(modulus > 0) || math.IsInf(c, 0) || math.IsNaN(c) {
		return 0, false
	}
	lo, hi := 0.0, 0.5
	for range springbackSteps {
		x := (lo + hi) / 2
		if x > c*((4*x*x-3)*x+1) {
			hi = x
		} else {
			lo = x
		}
	}
	return math.Min((lo+hi)/2*thickness*modulus/yield, radius), true
}

// LeastSet is the least angle to stop the leaf at, by the springback formula over the range of the metal's
// yield and modulus, for a bend of angleDeg and the finished inside radius in sheet of the
// thickness: a lower limit, never the set angle itself. ok is false where the metal's figures are not known.
func LeastSet(m Metal, angleDeg, radius, thickness float64) (lo, hi float64, src Source, ok bool) {
	if !m.Yield.Known() || !m.Modulus.Known() {
		return 0, 0, Source{}, false
	}
	least, ok1 := Springback(radius, thickness, m.Yield.Lo, m.Modulus.Hi)
	most, ok2 := Springback(radius, thickness, m.Yield.Hi, m.Modulus.Lo)
	if !ok1 || !ok2 {
		return 0, 0, Source{}, false
	}
	src = Source{Kind: Published, Memory: true, Title: springbackTitle + "; yield " + m.Yield.Source.String()}
	return angleDeg / least, angleDeg / most, src, true
}

// GreatestRadius is T E/(2 Y): sheet bent round more than this springs flat again (Machinery's Handbook, from
// memory; also where the springback formula's x is 1/2).
func GreatestRadius(thickness, yield, modulus float64) float64 {
	return thickness * modulus / (2 * yield)
}
