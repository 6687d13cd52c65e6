package screen

import "math"

// Every bound and tolerance of what is shown, with its unit and its reason.
const (
	// mostMarks: sizes drawn on the part at once; more hide each other.
	mostMarks = 14
	// longFormula: the longest text that stands in a field beside its label (characters): what
	// the field's width shows.
	longFormula = 12
	// longLabel: the longest label of a size on the part that is not cut at its comma (characters).
	longLabel = 18
	// mostAdvice: places that can't be cut and are told before the rest is counted.
	mostAdvice = 3
	// mostUses: fields that use a size and are named in one line.
	mostUses = 4
	// sameSize: a size hangs on another one for one where a change of 1 changes it by 1
	// within this (mm or degrees): formulas lose less, and no figure shows it.
	sameSize = 1e-9
	// arcMost: the largest bend angle that is drawn as an arc about its sharp (radians): past it
	// the sharp runs away.
	arcMost = 150 * math.Pi / 180
)
