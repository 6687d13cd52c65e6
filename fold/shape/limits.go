package shape

import "math"

// This file holds the room's tolerances, set proportions and bounds, each with its unit and reason. Lengths are in mm,
// proportions in thicknesses.

// Of parts by sizes.
const (
	// reliefPast is how far a corner relief reaches past the tangent lines, in
	// thicknesses. Common practice: half a thickness at least.
	reliefPast = 0.5
	// snapEdge: a wall's end nearer than this to its bend zone's end is cut in line
	// with it, in thicknesses: nobody cuts a shorter step.
	snapEdge = 0.1
	// leastFlat is the least flat width that a wall or rim may keep beside its bends
	// and reliefs, in thicknesses: less can't be held against the leaf at all.
	leastFlat = 1.0
	// leastLine is the least of the same in mm, however thin the sheet: under it the
	// kernel would see no bend line.
	leastLine = 0.1
	// MaxLean is the most that a flange's ends may lean, degrees from square to its bend. Past it hardly a
	// flange is left.
	MaxLean = 80
	// maxProblems is how many problems of a form are told at once: more than anyone mends before looking again.
	maxProblems = 20
	// clearOnBlank is how far flanges that lay over each other on the blank are told to stay apart there, in thicknesses:
	// room for a cut between them (common practice, no source).
	clearOnBlank = 2.0
	// maxSpoilers is how many of a form's holes are left out one by one, to find the one that cuts a bend off: each
	// costs a build of the part.
	maxSpoilers = 20
	// maxRounds bounds how often a part is cut anew to bring its seams' gaps to the wanted ones: parallel edges take one, others
	// halve what is missing at least.
	maxRounds = 12
	// gapNear: a seam's least gap is the wanted one within this (mm): a tenth of what the kernel promises.
	gapNear = 1e-7
	// sameLength: insets and ends nearer than this are one (mm); under any tape, over float64's noise at 1e6 mm.
	sameLength = 1e-7
	// samePoint: corners of a drawn outline nearer than this are one (mm): a thousandth of fold.Weld.
	samePoint = 1e-9
	// sameTurn: directions that differ by less are one (radians).
	sameTurn = 1e-9
	// noise: numbers reckoned in two ways that differ by less are one (mm, degrees, or as a part of 1): float64's own at
	// 1e6 mm, with a margin.
	noise = 1e-9
	// upNoise: a length that is told rounded up to a thousandth may lie over it by so much of one.
	upNoise = 1e-6
	// leastRun: the plane of a wall that is to lie in one plane with another has to cross the floor's bend: by at least
	// this for one along itself, 6 degrees; else it meets the floor too far away.
	leastRun = 0.1
	// mostInPlane: such a wall is turned up to so many degrees; further on it lies nearly on the floor.
	mostInPlane = 175
	// steepEdge: a sloped free edge goes on beyond its ends, to be cut by its corners, as if it ran along its bend by no less than this for
	// one along itself; a steeper one needs no more.
	steepEdge = 0.2
	// leastRise: a height square to a panel asks for a flange that rises by at least this for one along itself: 3 degrees
	// from flat; under that the flat height is worked out from a size that hardly shows it.
	leastRise = 0.05
	// widestDrill: a relief over a bend that would take a drill of a larger radius is sawn (mm): thin sheet is
	// drilled by hand up to about 20 mm across (common practice, no source).
	widestDrill = 10.0
	// cutBehind: where an edge would run along a tangent line it is cut so many thicknesses behind it.
	cutBehind = 0.1
	// rimsAlike: two rims meet in a mitre unless something else is said where their faces mirror each other within
	// acos of this, 25 degrees: further apart their edges would cross, not meet.
	rimsAlike = 0.906
	// rimsMeet: rims on a bend's two walls meet where their sharps come to the plane between them within so many
	// thicknesses; a taper moves them apart a little, and the step is told.
	rimsMeet = 3
	// steepest: a flange bent by more is a wall, and what stands on its end a tab that lies on the next wall's face; one bent
	// by less is a floor that goes on (radians, 45 degrees).
	steepest = math.Pi / 4
	// tabTurn: a tab bent to within this of the next wall's plane is turned into it (radians, 25 degrees); one bent otherwise is
	// meant so.
	tabTurn = 25 * math.Pi / 180
	// straightCorner: a panel's corner that turns by less than this is none: no relief lies inside it (radians).
	straightCorner = 1e-6
	// leastAcross and leastOff are the least cosines that a cut along a bend, and a zone's end off a mitre's plane, are reckoned with: of
	// sides that run nearly along them the cut would have no end.
	leastAcross = 0.1
	leastOff    = 0.01
	// sameExtra: a corner's correction changed by less says nothing of its slope (mm); leastSlope: nor does a slope flatter
	// than this, or steeper than one over it, as edges that pass each other have.
	sameExtra  = 1e-12
	leastSlope = 0.05
	// tabClear: a tab's foot leans so much further from the wall it lies on than it must (radians, 1 degree).
	tabClear = math.Pi / 180
	// leastSlit is the narrowest slit beside a bend whose relief is none (mm): a saw blade's (common practice, no source).
	leastSlit = 0.8
	// zoneSlack: a rim's bend zone is not cut shorter for less (mm): under what counts as a clash.
	zoneSlack = 0.005
	// nameChords: an arc counts as so many chords where such a point is sought.
	nameChords = 16
	// nameLevels: a point by which a panel is named is sought on so many levels, those first that are farthest from any corner.
	nameLevels = 24
	// leastCut: two walls that lie beside each other on the blank are parted by at least this (mm): a scribed line's width.
	leastCut = 0.1
	// zoneLooks: a bend zone's end is looked at in so many places across.
	zoneLooks = 48
)

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
	// metWell: readings that just do for a shape are met by it where the sum of their squared offs, in doubts, is less.
	metWell = 1e-6
	// alikeReadings: readings that disagree, or are checked, alike within this part are told in the order in which they
	// were likely taken.
	alikeReadings = 1e-3
	// A fit's damping, as a part of the largest of its equations' weights: to begin with, the least that it falls to, and the
	// most, after which no step betters anything. leastStep: steps smaller than this part of the base are float64's noise.
	firstDamp, leastDamp, mostDamp = 1e-3, 1e-15, 1e14
	leastStep                      = 1e-14
	// leastTurn: a side turns from the one before by more than this (radians), or the corner
	// between them is none.
	leastTurn = 1e-6
)

// Of the check whether a blank can be cut.
const (
	// flatArc: an arc whose middle lies nearer to its chord than this times the chord is straight: as the kernel
	// takes it, some hundred times float64's noise.
	flatArc = 1e-12
	// alongside: two edges whose directions differ by less (radians) lie alongside; at 1e6 mm that is a micrometre's lean.
	alongside = 1e-9
	// evenly: a slot or strip whose ends lie square to it within this (radians) is of one width.
	evenly = 1e-6
	// wholeRound: an arc whose ends lie nearer than this (radians) to a whole turn is a round hole.
	wholeRound = 1e-6
	// widestNear: the widest place of a cutout is found to this part of its width: finer than any blade's hole is known.
	widestNear = 0.005
	// noLean: a direction leans towards a point only where its cosine is larger; noise of unit vectors, with a margin.
	noLean = 1e-9
	// maxLooks bounds the pairs of edges that the search for narrow places looks at: about a second. A perforated
	// sheet of 10,000 holes takes a tenth of it.
	maxLooks = 4_000_000
	// drillNear: a hole counts as that drill's if it is no farther from it than this (mm): a hole drilled by hand in
	// thin sheet comes out about as much over (common practice, no source).
	drillNear = 0.05
	// cutSlack: sizes short of a tool's by less are the tool's (mm): finer than anyone files.
	cutSlack = 0.01
	// sawRound: a round hole this many times as wide as the hole that a saw's blade begins in can be sawn round; in a
	// smaller one the blade can't turn (common practice, no source).
	sawRound = 3.0
	// stopDrill: a sharp inside corner is drilled first with about this (mm, 1/8 in): wide enough for the tips of
	// snips to end in, small enough to file square (common practice, no source).
	stopDrill = 3.175
	// discShort: a cut-off disc of 125 mm held 2 mm through the sheet cuts so much farther on top than below (mm): half the
	// chord, sqrt(62.5^2 - 60.5^2).
	discShort = 15.7
	// stampNear: a drill is that of a 64th of an inch if it is no farther from it (mm): what two places of an inch leave out.
	stampNear = 0.005
	// stripLeast and stripThick: a strip of metal narrower than so many mm or thicknesses beside a cut is a sliver: it curls
	// before the snips, tears under the drill and bends when the burr is taken off (common practice, no source).
	stripLeast = 1.0
	stripThick = 2.0
	// stripNone: a strip narrower than this part of that is no strip at all.
	stripNone = 0.25
	// pocketTurn: the sides of a cut that turn towards each other by more than this from its bottom make it a
	// pocket: its bottom has to be cut between two walls (radians, 120 degrees).
	pocketTurn = 120.0 / 180 * math.Pi
	// straightOn: corners that turn by less aren't there for snips or saw (radians, 3 degrees).
	straightOn = 3.0 / 180 * math.Pi
	// maxRooms bounds the squares looked at for the widest places of all cutouts, of fifty pieces each; mostRooms those of
	// one. Some tenths of a second; a window takes about a hundred.
	maxRooms  = 40_000
	mostRooms = 2000
	// sheetSlack: a blank larger than its sheet by less fits it (mm): less than a shear's own error.
	sheetSlack = 0.05
	// mendNear: sizes of reliefs and holes nearer than this are one (mm): a tenth of what is read off any drill.
	mendNear = 1e-4
	// gapShown: a gap's least and most that differ by less are told as one (mm): less than any feeler gauge shows.
	gapShown = 1e-3
	// mendStep: sawn and snipped reliefs are made larger in steps of this (mm; 1/64 in for parts in inches), as they are
	// marked out with a rule and a scriber (common practice, no source).
	mendStep = 0.5
	// mendOptions: so many sizes of each kind of relief are tried before a corner is left as it is.
	mendOptions = 5
	// maxMends bounds how often all reliefs are gone through, maxMendTries how often the part is made anew: a minute's work for
	// the largest parts, moments for a tray.
	maxMends     = 6
	maxMendTries = 400
)

// How light holes are measured.
const (
	// rimMost: the outline's way from one edge of a seam to the other is the rim of a hole of its own up to so many times the
	// shorter edge; a longer one goes round other panels.
	rimMost = 2
	// lightNear: a throat is looked for to this (mm), far under what can be seen or felt.
	lightNear = 0.002
	// lightRound: light holes are told to this (mm), to which the search is right.
	lightRound = 0.01
	// lightGrid: a way through a hole is sought over a grid of so many steps each way from its middle; fine enough to tell the hole from
	// the sheet beside it.
	lightGrid = 8
	// lightStrips: across a bend zone its cut end is taken as so many straight strips, which lie within a thousandth of the bend's radius;
	// mostStrips bounds them for one edge of the rim.
	lightStrips = 16
	mostStrips  = 400
)
