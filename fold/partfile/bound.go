// The least and greatest value of each kind of number, said in the file's units.

package partfile

import (
	"math"
	"strconv"

	"dryfold/fold"
	"dryfold/fold/metal"
)

// bound is a range of numbers, ends included unless over is set. A length's lo and
// hi are in mm; scale is mm to one unit, 1 for other numbers.
type bound struct {
	what   string
	lo, hi float64
	over   bool // lo itself is too little
	scale  float64
	unit   string
}

const (
	baseNeed    = `a panel's name from blank.panels, or "panel 1", "panel 2", ... by size`
	lineNeed    = "the two ends of the line, [[x, y], [x, y]]"
	contourNeed = "at least 3 points [x, y], or 2 and an arc"
)

var (
	nameNeed  = "text of 1 to " + strconv.Itoa(fold.MaxName) + " characters without control characters"
	notesNeed = "text of up to " + strconv.Itoa(fold.MaxNotes) + " characters without control characters other than new lines and tabs"
)

func lengthBound(u fold.Units, what string, lo float64) bound {
	return bound{what: what, lo: lo, hi: fold.MaxSize, scale: u.Scale(), unit: " " + u.String()}
}

func placeBound(u fold.Units) bound     { return lengthBound(u, "a number", -fold.MaxSize) }
func thicknessBound(u fold.Units) bound { return lengthBound(u, "a thickness", fold.MinSize) }
func diameterBound(u fold.Units) bound  { return lengthBound(u, "a diameter", fold.MinSize) }
func radiusBound(u fold.Units) bound    { return lengthBound(u, "an inside radius", 0) }
func gapBound(u fold.Units) bound       { return lengthBound(u, "a gap", 0) }
func angleBound() bound {
	return bound{what: "an angle", hi: maxAngle, over: true, scale: 1, unit: " degrees"}
}
func grainBound() bound {
	return bound{what: "an angle from x", lo: -360, hi: 360, scale: 1, unit: " degrees"}
}
func lipBound(u fold.Units) bound   { return lengthBound(u, "a lip", fold.MinSize) }
func stripBound(u fold.Units) bound { return lengthBound(u, "a length", fold.MinSize) }
func legBound(u fold.Units) bound   { return lengthBound(u, "a leg", fold.MinSize) }
func noseBound(u fold.Units) bound  { return lengthBound(u, "a nose radius", fold.MinSize) }
func stripAngleBound() bound {
	return bound{what: "a bend angle", hi: metal.MaxStripTurn, over: true, scale: 1, unit: " degrees"}
}
func setBound() bound {
	return bound{what: "a set angle", hi: metal.MaxStripTurn, over: true, scale: 1, unit: " degrees"}
}
func densityBound() bound {
	return bound{what: "a density", lo: 100, hi: 30_000, scale: 1, unit: " kg/m3"}
}
func modulusBound() bound {
	return bound{what: "a modulus of elasticity", lo: 1, hi: 1000, scale: 1, unit: " GPa"}
}
func yieldBound() bound {
	return bound{what: "a yield strength", hi: 5000, over: true, scale: 1, unit: " MPa"}
}
func leastRadiusBound() bound {
	return bound{what: "a least inside radius", hi: 50, scale: 1, unit: " thicknesses"}
}
func priceBound() bound { return bound{what: "a price", hi: fold.MaxPrice, scale: 1} }
func hoursBound() bound {
	return bound{what: "a time", hi: fold.MaxPrice, scale: 1, unit: " hours"}
}
func kBound() bound { return bound{what: "a number", hi: fold.MaxK, scale: 1} }

// holds reports whether v, in the file's units, lies in the range. NaN does not.
func (b bound) holds(v float64) bool {
	v *= b.scale
	return v >= b.lo && v <= b.hi && !(b.over && v == b.lo)
}

// need is the range in words. In inches the ends are rounded inwards.
func (b bound) need() string {
	from := " from "
	if b.over {
		from = " over "
	}
	return b.what + from + inwards(b.lo/b.scale, b.scale, 1) + " to " + inwards(b.hi/b.scale, b.scale, -1) + b.unit
}

// inwards writes an end of a range; one that was converted is rounded to a whole
// number where it is large, else to 5 places, up for dir 1 and down for dir -1.
func inwards(v, scale, dir float64) string {
	if scale != 1 && v != 0 {
		grid := 1.0
		if math.Abs(v) < 10 {
			grid = 1e5
		}
		v = dir * math.Ceil(dir*v*grid) / grid
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
