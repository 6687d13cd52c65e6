package ascut

// Every tolerance and bound of this room, with its unit and reason.

const (
	// MaxSizes bounds the list: more than a dozen lines are not measured with care.
	MaxSizes = 12
	// voidSizes of them tell where holes and cutouts lie, where a blank has any.
	voidSizes = 2
	// MatchReach: a measured value belongs to a size whose two points lie within this of its own (mm): less than any two features that
	// are measured lie apart, more than what a size changed in its last decimal moves them by.
	MatchReach = 1.0
	// ruleStep is what a rule shows in mm (common practice), ruleInch in inches: 1/64, written as mm.
	ruleStep, ruleInch = 0.5, 25.4 / 64
	// calliperStep and calliperInch are what a calliper is read to (common practice); fineStep and fineInch what it shows.
	calliperStep, calliperInch = 0.1, 25.4 * 0.005
	fineStep, fineInch         = 0.02, 25.4 * 0.001
	// readNoise is what rounding in a typed value may make of it (mm): half of the last place that a calliper shows.
	readNoise = 0.005
	// seamLook: how far an edge is moved to find a seam's limit (mm): what is out by more is seen without a rule.
	seamLook = 3.0
	// solved: a limit is found to this (mm), and taken so much inside of it: a hundredth of what is shown.
	solved = 1e-4
	// nearlySolved: from a gap so near to its limit (mm) one goes straight to it.
	nearlySolved = 0.005
	// maxLooks bounds the looks for one limit.
	maxLooks = 12
	// tryMove: an edge is moved so far to see which seams it makes (mm); dead: seams that change by less for it are not its.
	tryMove, dead = 0.25, 1e-4
	// onLine: a point this near to a cut edge lies on it (mm); ten times fold.Weld.
	onLine = 1e-5
	// lineEnd: a bend line's end so near to an edge goes with it (mm): fold.EdgeReach and a hair.
	lineEnd = 0.05 + 1e-6
	// leastSlide: a corner goes along the next edge where that turns from the moved one by more (the sine, 17 degrees); else a step is cut.
	leastSlide = 0.3
	// leastEdge: shorter edges are no place to hold a rule against (mm): they are sides of reliefs.
	leastEdge = 4.0
	// leastStep: a rule can't be hooked over a shorter side of a corner (mm).
	leastStep = 2.0
	// smooth: an arc runs smoothly into an edge whose line lies from its centre by its radius to within this part of it.
	smooth = 0.02
	// parallel: edges face each other squarely where the sine of what they turn is less (0.06 degrees): over 100 mm it is a tenth of one.
	parallel = 1e-3
	// opposite: two edges make a width where their outward directions have a lesser cosine (45 degrees).
	opposite = -0.7
	// tells: a size tells where an edge lies where a mm of the edge changes it by so much at least (mm).
	tells = 0.45
	// across: the two edges of a width lie so nearly square to it that a mm of either changes it by so much at least (mm): 35 degrees.
	across = 0.8
	// level: corners lie level with each other where the way between them rises by less than this part of its length.
	level = 0.02
	// acrossBends: a mm of deduction that a width runs across counts as so many mm of width when widths are chosen: a forgotten one must show.
	acrossBends = 1000.0
	// leastDoes: seams that change by less for a mm are not told of with a size (mm).
	leastDoes = 0.05
	// maxCuts bounds the edges between which widths are sought, the longest ones: some hundredths of a second.
	maxCuts = 150
	// maxSeamCuts bounds the edges of seams that are looked at: a tenth of a second.
	maxSeamCuts = 60
	// leanNear: the lean's limit is found so near to the seam's (mm).
	leanNear = 0.01
	// maxOwn bounds the corners, squared, of a blank that is compared with its mirror image.
	maxOwn = 4_000_000
	// farFrom: a straight cut within this of the blank's box lies on it (mm).
	farFrom = 0.01
	// sharp: a corner is one to measure to where its edges turn by more (the sine, 15 degrees).
	sharp = 0.25
	// roomNear: a pass counts for an edge that lies so near to its place (mm): solids' edges are that near to where they are closest.
	roomNear = 0.05
	// noFigure: where nobody says how wide a seam may be, so many thicknesses are passed over, as fold's judge does (common practice).
	noFigure = 0.5
)

// Mirror images.
const (
	// MirrorTold: a size tells a mirror image where it differs by more (mm): four times what a rule is read to.
	MirrorTold = 2.0
	// mirrorSame: a blank whose every corner, hole and bend line lies so near to its mirror image's is its own (mm): what a rule shows.
	mirrorSame = 0.5
	// aboutSquare: a blank whose sides differ by less, as part of the longer, may also be laid down turned by a quarter.
	aboutSquare = 0.02
	// maxMirror bounds the corners and holes that are tried for a size that tells the mirror image.
	maxMirror = 40
	// mirrorWork bounds that number times the image's corners: some hundredths of a second.
	mirrorWork = 20_000
)

// Verdicts.
const (
	// slipped: what is so many times too large or too small, and by more than slipLeast (mm), is no measure of it but a slip of the pen;
	// small openings may well come out at twice their size.
	slipped, slipLeast = 2.0, 5.0
	// inCentimetres: a size in mm was written in centimetres if it is that within as much (mm): half of what is read, to a mm.
	inCentimetres = 0.6
	// inInches is how near the ratio of measured and wanted must be to 25.4 for a wrong unit (as part of it).
	inInches = 0.02
	// chased: an error of less needs no edge to be moved for it (mm): half of what a rule shows.
	chased = 0.25
	// fits: measures that a pattern explains to within this fit it (mm): twice what a rule shows. And plain errors must be so many times as large.
	fits, muchBetter = 1.0, 2.5
	// held: measured distances of the blank as cut are met to this (mm).
	held = 1e-9
	// maxRounds bounds the rounds in which they are met.
	maxRounds = 12
	// sameTelling: edges whose moves change the measures alike to within this (part of one) can't be told apart.
	sameTelling = 1e-6
	// better: an edge explains measures better than another where the squares of what it leaves are less by more (mm2).
	better = 1e-9
	// tolerated: sizes of the finished part are told where they change by more (mm).
	tolerated = 0.05
	// gapTold: gaps are told where they change by more (mm): fold.ProfileError.
	gapTold = 0.005
	// gapMatters: gaps that stay within their limits are told of in the outcome where they change by more (mm): a feeler's thinnest leaf (common practice).
	gapMatters = 0.05
)

// A blank that is out of scale as a whole: so many sizes are measured at least, one of them out by scaleMost (mm), and all within scaleNear (mm) of the
// same share: what a rule shows.
const (
	scaleSizes = 4
	scaleMost  = 1.5
	scaleNear  = 0.5
)
