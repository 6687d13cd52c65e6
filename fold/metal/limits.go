package metal

// This file holds the tolerances of this room, each with its unit and reason.

const (
	// springbackSteps halvings of 0..1/2 reach the last place of a float64.
	springbackSteps = 60
	// rowReach, of the thickness: how much thicker than a row of a list of least radii the sheet may be and still be
	// taken for that row. Sheet sold in mm for an inch size (1.6 for 1/16) is up to 0.8 % thicker.
	rowReach = 0.01
	// gaugeReach, of the thickness: how far beyond the ends of a gauge table a thickness still has a nearest gauge.
	gaugeReach = 0.1
	// ratioSame, of R/T: a bound of a rule's ranges that R/T passes by less belongs to the range below it. R = 3T typed in inches,
	// or read from a file that keeps lengths to a millionth, is 3T to no more than that.
	ratioSame = 1e-6
	// leastSlack, mm: a radius short of a list's least by less is not told; lists in inches and in mm round one size by up to as
	// much.
	leastSlack = 0.05
	// halfUp, mm: 1.5875 is printed as 1.588, though a float64 holds a little less; a ten-thousandth of the last digit printed.
	halfUp = 1e-7
)
