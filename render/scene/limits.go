package scene

import "math"

// Every tolerance and measure of the drawing, with its unit and its reason.
// px are CSS pixels.
const (
	// MaxStrips: facets a bend zone is cut into at most. Keeps the chord under
	// fold.DrawChord up to outer radii of 700 mm at 180 degrees.
	MaxStrips = 256
	// sharpTurn: faces that turn by more than this show the edge between them;
	// less is part of a round (radians). Arcs of ArcChord turn by far less.
	sharpTurn = 20 * math.Pi / 180

	// PickReach: a finger this near an edge, tick or small hole means it (px).
	PickReach = 11
	// DragTravel: a press that moves less is a tap (px).
	DragTravel = 6

	// inkOutline, inkInner, inkTangent: widths of drawn edges (px), after ISO 128's
	// two widths; tangents of bends thinner still.
	inkOutline = 1.5
	inkInner   = 0.9
	inkTangent = 0.7
	inkLit     = 2.4 // an edge of what is selected
	scribeWide = 1.1 // the blank's outline on the bench
	scribeThin = 0.8 // its bend lines

	// hatchStep, hatchReach: distance between hatch lines and radius of the
	// hatched place around a clash, in shares of the part's size.
	hatchStep  = 0.005
	hatchReach = 0.045
	ringPx     = 21 // radius of a clash's ring (px)
	leaderPx   = 84 // length of a clash's leader (px)

	// grainSize: height of the letters of the grain's mark, in shares of the blank's
	// diagonal; down to grainLeast of that where there is less room. Tried are so many
	// panels, and so many places along each side of one.
	grainSize   = 0.03
	grainLeast  = 0.3
	grainPanels = 6
	grainTries  = 25
	grainWide   = 1.3 // its strokes (px)

	// tickStep: feeler ticks stand at least this far apart (px).
	tickStep = 5
	// seamLit: how wide the line under the chosen seam's ticks is (px): seen beside ticks of any length.
	seamLit = 9

	// sizeOff, sizeStep: how far the lines of sizes stand off the part, and from one to
	// the next, in shares of its size.
	sizeOff  = .05
	sizeStep = .045
	// coverPx: where the part is seen is kept on a grid of cells of this size (px), as fine
	// as a label's letters.
	coverPx = 6
	// gripPx, gripReach: radius of a drawn handle, and how near a finger must come to it
	// (px): a target of 44.
	gripPx    = 10
	gripReach = 22
	// hiddenBy: a place is hidden where the part is nearer by this share of its size: far over the
	// rounding, under what is seen.
	hiddenBy = .004
	// coverHides: the same by the coarse grid, whose cells are as wide as a wall is deep.
	coverHides = .03
	// leastArm: an angle between arms shorter than this has no direction (mm).
	leastArm = 1e-6
	// dragMost: a size that is dragged comes to at most so many times the size of the part as it was taken in hand: more
	// is no wish, but a line seen nearly end on. More than that is typed, or dragged again.
	dragMost = 2.0
	// heldFirst: what a size in hand is worth over the others of its group: more than all that a place can cost.
	heldFirst = 1e4
	// gripTaken: what speaks against a size of a group whose handle would lie on another's: as much as a label far off.
	gripTaken = 300
	// dragPivot: nearer to its pivot than this share of an angle's arm a finger turns it too fast to be meant.
	dragPivot = .1
	// labelHalf, labelHigh: half as much as a letter is wide, and how high a line of figures is (px), as they are drawn.
	labelHalf, labelHigh = 4.2, 15
	// leastTurn: an angle smaller than this can't be dragged: there is no plane to drag it in (radians).
	leastTurn = 1e-4

	// biasPx: lines are moved towards the eye by this many pixels' worth of
	// depth, so that the faces they bound do not hide them.
	biasPx = 1.5
	// shadowCells: the contact shadow is kept on a grid of this many cells a side.
	shadowCells = 52

	// fieldOfView is the angle under which the free area's lesser side is seen (radians).
	fieldOfView = 24 * math.Pi / 180
	// frameFill: a framed part fills this share of the free area.
	frameFill = 0.86
	// minPitch..maxPitch: how far the view may be tilted (radians).
	minPitch = -85 * math.Pi / 180
	maxPitch = 89.9 * math.Pi / 180
)
