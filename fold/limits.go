package fold

import "math"

// Every tolerance of the kernel, with its unit and its reason. mm and radians
// unless said.
const (
	// ArcChord: chords lie within this of the true arc in solids (mm). From the
	// part file's promise; an order finer than a scribed line.
	ArcChord = 0.005
	// Weld: points of the blank nearer than this are one point (mm). A thousand
	// times float64's noise on a 1e6 mm sheet, a thousandth of a gap anyone measures.
	Weld = 1e-6
	// EdgeReach: a bend line's end lies within this of a free edge (mm). Part file.
	EdgeReach = 0.05
	// SeamReach: a named seam's point lies within this of one free edge (mm). Part file.
	SeamReach = 1.0
	// ClashDepth: solids that overlap by more than this clash; less is contact (mm).
	ClashDepth = 0.01
	// ClashAngle: first contact is bracketed at least this closely (radians, 1e-4 degrees).
	ClashAngle = 1e-4 * math.Pi / 180
	// ZoneFacet: facets that stand for a bend zone in contact stay within this of
	// its true faces (mm).
	ZoneFacet = 0.001
	// DrawChord: facets of drawn bends stay within this of the true cylinder (mm).
	DrawChord = 0.02
	// MinZone: a bend allowance under this makes a bend of no width, a plain crease (mm).
	MinZone = 1e-5
	// GapSolve: seams by calculation are solved to this (mm).
	GapSolve = 1e-6

	// ProfileError: a seam's profile is straight between its points to within this (mm); half of what is shown.
	ProfileError = 0.005
	// RoomLook: how close solids must pass in a swing for it to be told (mm): more than hand and machine
	// are out by on any part that a hand can hold.
	RoomLook = 5.0

	// NotchTurn: edges of a notch pair lie within this in the finished part (30 degrees).
	NotchTurn = 30 * math.Pi / 180
	// ReachTurn: edges of a reach pair lie within this (10 degrees).
	ReachTurn = 10 * math.Pi / 180
)

// Bounds on what a part file may hold, so that no file can make the program grow
// without end. They are printed in the messages that refuse more.
const (
	MaxOutline = 100_000 // vertices over all contours
	MaxBends   = 1_000
	MaxHoles   = 10_000
	MaxSeams   = 1_000
	MaxSteps   = 4_000
	MaxAsCut   = 100          // sizes measured on the cut blank
	MaxStruck  = 100          // lines scribed by mistake
	MaxSize    = 1e6          // mm, any coordinate, length or diameter
	MinSize    = 1e-3         // mm, thickness, diameters
	MaxName    = 200          // characters in any name
	MaxNotes   = 2_000        // characters in a part's notes
	MaxPanels  = MaxBends + 1 // panel names: a tree of bends has one panel more
	// MaxChords bounds the chords that all arcs and holes together need at ArcChord,
	// so that many huge arcs can't grow into more corners than a blank can be cut with.
	MaxChords = 1_000_000
	MaxK      = 0.6
	MaxMetals = 50  // metals that the maker describes
	MaxTests  = 200 // test bends
	MaxPrice  = 1e9 // any price, and hours
	// MaxCurrency is how many characters the name of a currency may have.
	MaxCurrency = 20
)

const (
	// maxRedevelop bounds the corners times panels and bends of a blank that is laid out anew: some
	// tenths of a second.
	maxRedevelop = 2_000_000
	// maxWorth bounds the corners times bends of a part whose numbers' worth is worked out: some tenths of a second.
	maxWorth = 20_000
	// maxWorthHoles bounds its holes: each is sought among all others again for each number. 1,000 take some tenths of a second, 10,000 minutes.
	maxWorthHoles = 1000
	// reliefReach: how far a relief reaches from its bend's end, behind it and along it, in R + 2T. Lists make it
	// R + T to R + 2T; as much again leaves room for one that was cut for thicker sheet or wider (common practice, no source).
	reliefReach = 2
	// leastCorner: walls whose plan turns by less (the sine, 24 degrees) need not make room for each other's thickness when it
	// changes: it would be a fifth of the change at most.
	leastCorner = 0.4
	// lineSlack: a corner this near to a tangent line is meant to lie on it (mm): files are often written to 0.01 mm. Twice ArcChord.
	lineSlack = 0.01
	// radiusSlack: a radius short of a list's least by less is not told (mm): lists in inches and in mm
	// differ by as much.
	radiusSlack = 0.05
	// lipSlack is the same for the shortest lip: less than a tape shows (mm).
	lipSlack = 0.1
	// grainSlant: a bend within this of the grain lies along it, within this of square to it
	// across (radians, 30 degrees). Assumed: lists know along and across alone.
	grainSlant = 30 * math.Pi / 180
	// hemAngle and over is a hem: it is flattened, and gives nothing back (degrees).
	hemAngle = 180 - 1e-9
)

// Tolerances and bounds of the search for clashes.
const (
	// clashSlack: the search proves that no overlap reaches ClashDepth plus this (mm). What lies
	// between may be called either; it lets solids slide along at ClashDepth without
	// endless steps.
	clashSlack = 0.001
	// partingSteps: a pair that lies in itself when a swing starts is looked at so often, at most, for the moment it has parted.
	partingSteps = 512
	// maxSteps bounds the search of one pair in one swing; more is Undecided. A graze takes
	// some hundreds.
	maxSteps = 4000
	// checkWork bounds the search over all swings, in pairs of balls and pieces looked at: about
	// 10 s on one core of a small machine. viewWork is what a moment of a swing counts.
	checkWork = 16_000_000
	viewWork  = 10
	boxWork   = 5 // what a box round a solid counts
	// sweepParts: a swing is cut into so many when the pairs that may meet in it are
	// sought; boxes round all of it at once would let far too many through.
	sweepParts = 12
	// maxClashes bounds how many clashes, and how many overlaps of the finished part, are listed:
	// more than anyone mends before looking again.
	maxClashes = 200
	// touchSteps: so many steps back from a clash to first contact are proved to miss no moment
	// without overlap; solids that slide along in contact would take them without end.
	touchSteps = 200
	// touchFine: first contact is halved down to ClashAngle over this, so that its angle is the same
	// to 1e-6 degrees whatever the steps that led there.
	touchFine = 1000
	// depthSamples: the overlap's course is sampled this often between first contact and the
	// swing's end, and then at up to depthLooks more places, until no deeper place is left by
	// more than depthNear (mm), or depthWork is done with it.
	depthSamples = 24
	depthLooks   = 120
	depthNear    = 0.003
	depthWork    = 10_000

	// RoomStep: the room in a swing is found to this (mm), finer than errors of the hand.
	RoomStep = 0.1
	// roomSlack: steps are proved to keep the room less this (mm); it keeps them long along walls that slide past each other.
	roomSlack = 0.02
	// roomSteps bounds the steps of one pair with one room; roomWork all of it, as checkWork counts; maxPasses the passes told
	// for one swing.
	roomSteps, roomWork, maxPasses = 400, 2_000_000, 500
	// cutStep: what a panel must be cut back by is given to this, rounded up (mm): finer than snips cut.
	cutStep = 0.1
	// cutWork bounds the search for one length tried, as checkWork counts; cutAllWork all of them in one check.
	cutWork    = 20_000
	cutAllWork = 300_000
	// maxCuts bounds the ways told for one clash, maxWays the directions tried on a panel, maxCutClashes the clashes looked at;
	// with more panels than maxShortened no flange is made shorter, for all clashes are sought again to prove it.
	maxCuts, maxWays, maxCutClashes, maxShortened = 3, 6, 12, 30
	// sameWay: edges whose outward directions have a greater cosine are cut along one line (2.5 degrees); farWay: an edge lies across
	// the far end of its panel if its direction is so near to the bend's (37 degrees).
	sameWay, farWay = 0.999, 0.8
	// zoneSide is how far the facets of a zone's bitten or slanting sides stand out from
	// their true faces at most (mm). Sides square to the bend line are exact. A tenth
	// of ClashDepth, so that it can't make a clash of a touch.
	zoneSide = 0.001
	// maxFacets bounds the facets of one zone, whatever its radius.
	maxFacets = 2000
	// handAlike: two places, radii (mm) or angles (radians) are one when a part is held against its mirror image: less than a
	// hand cuts. Parts of more points than maxHandPoints are not held against theirs; it would take too long.
	handAlike     = 0.02
	maxHandPoints = 600
)

// What a hand brake can't do by its leaf alone.
const (
	// LeafLow and LeafHigh: a hand brake's leaf commonly stops somewhere between (degrees from flat; common practice, no source).
	LeafLow, LeafHigh = 120, 135
	// joggleFlat: two opposite bends with less flat metal between them than so many thicknesses leave the nose no place for the second;
	// joggleStep: they are a joggle where the step that they make is no more than so many (common practice, no source).
	joggleFlat, joggleStep = 4, 3
	// joggleAlike: its bends are parallel and of one angle, to this (radians, 2 degrees).
	joggleAlike = 2 * math.Pi / 180
)
