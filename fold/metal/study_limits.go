package metal

// This file holds the bounds and tolerances of test bends and of the bend calculator, with
// their units and reasons. mm and degrees unless said.

// Bounds on what may be asked or measured; the messages print them.
const (
	MinThickness = 1e-3 // mm, as in part files
	MaxLength    = 1e6  // mm, any thickness, radius, leg or strip
	MaxK         = 0.6  // K lies between 0 and this: past half the thickness only by what formulas round
	MaxAngle     = 240  // degrees, a teardrop hem
	MaxStripTurn = 180  // degrees, a test bend
	MaxLegs      = 1000 // of one strip, as many bends as a part may have and one more
)

// What a reading may be out by. Common practice, no source.
const (
	LengthError   = 0.2  // mm, one length with a steel rule or tape
	CalliperError = 0.05 // mm, one with a calliper: it shows 0.02, sheared edges and a leg held to a straightedge are no truer
	AngleError    = 0.5  // degrees, an angle with a protractor
	RadiusError   = 0.1  // mm, an inside radius by gauge or drill shank
)

// What counts as the same.
const (
	// RadiusSame: inside radii within this are one (mm), the step of radius gauges.
	RadiusSame = 0.25
	// noseSame: noses within this are one (mm): they are ground to a figure.
	noseSame = 0.05
	// ThicknessSame: thicknesses within this share are one; neighbours in gauge tables
	// are 10 % apart or more, rolled sheet is held closer.
	ThicknessSame = 0.06
	// AnglesSame: test bends within this count as bent to one angle (degrees); what sizes
	// they share out between R and K otherwise than one angle does is under a reading error.
	AnglesSame = 5
	// AnglesClear: test bends tell R from K when the millimetres of deduction per mm of R, over those per
	// mm of K*T, differ by this between them; 60 and 90 degrees do (0.17), 30 and 60 do not (0.08).
	AnglesClear = 0.1
	// angleTells: test bends under this (degrees) tell nothing of the inside radius: at 45 degrees a rule's error of 0.35 mm in the three
	// lengths is 8 mm of R, at 30 degrees 28 mm, at 90 degrees 0.8 mm.
	angleTells = 45
	// AngleFar: further than this from any tested angle a measured overbend is said to be far (degrees).
	AngleFar = 30
)

// When strips are at odds.
const (
	// readingMargin is what the root of the summed squares of reading errors is widened by, so that nine
	// cases of ten lie within it: with many even errors the root alone holds 91.6 %, and at 90 degrees, where
	// sizes turn from sharp to tangent plane, misreading the angle either way shortens what is reckoned.
	readingMargin = 1.15
	// outlierSpreads: a strip is left out when it lies this many times the others' usual
	// spread off their middle, and outlierReading times what its own reading may be out by.
	outlierSpreads = 3.5
	outlierReading = 1.4
	// madSigma turns the median of deviations into a standard deviation, for a normal law.
	madSigma = 1.4826
	// pairsFrom bounds how many strips of a group the robust fit draws its pairs from.
	pairsFrom = 40
)

// What the bend calculator shows as the next likely figures. Common practice, no source.
const (
	nextRadius = 0.5  // of the thickness, less and more
	nextK      = 0.05 // less and more
)
