package shape

import (
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// This file holds the formulas of bends and corners: plain functions of plain
// numbers, in any one unit of length.

// setback is how far the sharp of the measured faces lies from either tangent line of their bend: r tan(angle/2), r the
// inside radius, or with outside faces that and the thickness. angle in radians, over 0 to 240 degrees; past 90 degrees
// the sharp runs away, and r stands for it, the distance to the outermost line of the round.
func setback(angle, radius, t float64, faces sizes.Faces) float64 {
	r := radius
	if faces == sizes.Outside {
		r += t
	}
	if angle > math.Pi/2 {
		return r // to the outermost tangent plane
	}
	return r * math.Tan(angle/2)
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
