package shape

import "math"

// Doubts and bounds of bases that were measured.
const (
	// tapeDoubt is what a reading off a tape may well be out by (mm): half of its finest
	// marks. Common practice, no source.
	tapeDoubt = 0.5
	// bevelDoubt is the same for an angle off a level or bevel (radians, 0.2 degrees): what
	// digital ones are commonly sold as keeping to. Common practice, no source.
	bevelDoubt = 0.2 * math.Pi / 180
	// beyondDoubt: a reading that the others deny by more than so many of its doubts, as a standard
	// deviation, is told as a misfit: one in four hundred good ones is.
	beyondDoubt = 3
	// grossMisfit: where the readings disagree by more than this part of the longest one, no shape fitted
	// to them means anything; assumed.
	grossMisfit = 0.1
	// leastCheck: a reading of which the others tell less than this part is not checked by them (of 1,
	// its redundancy number): an error in it would hide in the shape.
	leastCheck = 0.001
	// maxSuspects is how many readings are left out one by one to find the wrong one: all of a
	// four-sided base's.
	maxSuspects = 10
	// maxTurned is the most sides at which corners that point inwards are tried without an angle that
	// says so: with more of them the shapes are too many to be told apart.
	maxTurned = 8
	// outlineChord is how far the chords that stand for a base's arcs while it is judged lie off them (mm): less than
	// any strip of metal between two sides. maxPieces bounds them, of one arc.
	outlineChord = 0.05
	maxPieces    = 200
	// maxCrossings bounds the pairs of sides that are looked at for crossings: a tenth of a second. What
	// is left shows when the blank is cut.
	maxCrossings = 5_000_000
	// leastHold: a reading that holds the shape by less than this beside the others holds nothing: an
	// error in it would move corners by ten thousand times as much.
	leastHold = 1e-4
	// exactly: readings that just do for a shape are met by one within this part of the
	// longest; more is no rounding.
	exactly = 1e-9
	// maxMeasured is the most sides that a base may be measured by: each one more makes the fit
	// longer by its square, and a tape's errors add up.
	maxMeasured = 40
	// maxFits bounds the steps of one fit: good readings take 4 to 8.
	maxFits = 80
	// fitEnough: a fit ends when a step betters the misfit by less than this part of it. Good readings are
	// there long before: each of their steps betters it a hundredfold or not at all.
	fitEnough = 1e-12
	// leastTurn: a side turns from the one before by more than this (radians), or the corner
	// between them is none.
	leastTurn = 1e-6
)
