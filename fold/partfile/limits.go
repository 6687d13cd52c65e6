package partfile

// Bounds on text before it is read. Those on what a part holds are fold's.
const (
	// MaxFile is the longest part file in bytes: more than the longest part within
	// fold's bounds can take as Write writes it.
	MaxFile = 32 << 20
	// MaxDepth is how deep lists and objects may lie in each other. A part takes 7.
	MaxDepth = 32
	// MaxPacked is the longest fragment of a link, in characters.
	MaxPacked = 64 << 10
	// MaxUnpacked is the longest text that a link may hold, in bytes.
	MaxUnpacked = 4 << 20
	// maxShown is how many characters of a wrong value a message shows.
	maxShown = 40
	// mmDigits and inchDigits are the significant digits of a bench's lengths. Both are far finer than
	// anyone measures, and coarser than a float64, so that 0.04 in is not 0.039999999999999994 once it
	// was mm; inches have more, so that mm come back from them.
	mmDigits   = 12
	inchDigits = 14
	// minArea: an outline or cutout holds more than this (mm2), fold.Weld by a mm.
	minArea = 1e-6
)

// What hand, machine and sheet may be out by: lengths in mm, angles in degrees. A part that is out by more is another part.
const (
	maxError      = 20
	maxAngleError = 10
	maxKError     = 0.3
)

// maxAngle is how far a bend may turn, in degrees: a teardrop hem's.
const maxAngle = 240

const (
	// maxLean is how far a flange's end may lean from square, in degrees: past it, next to nothing is left.
	maxLean = 89
	// maxBetween is the largest angle inside a base between two of its sides, in degrees: 360 would be a cut.
	maxBetween = 359
)
