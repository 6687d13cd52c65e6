package spread

// Every tolerance and bound of this room, with its unit and reason.

// Samples and what they may cost.
const (
	// CommandSamples and PageSamples are how many samples are drawn where nobody says: the 5 and 95 % figures' own doubt
	// (one standard error) is 2.1 % of the standard deviation with 10,000, 6.7 % with 1,000; see the package's words.
	CommandSamples = 10_000
	PageSamples    = 1_000
	// pageWork bounds samples times seams where nobody says how many, and fewSamples is the least then (9.4 %): a check of a part of
	// 40 panels is to take no more than twice as long for it.
	pageWork   = 20_000
	fewSamples = 500
	// MaxSamples bounds what can be asked for: some seconds on a small part.
	MaxSamples = 100_000
	// leastSamples are drawn of a part however large it is.
	leastSamples = 200
	// maxWork bounds samples times bends and seams, so that a part of 1,000 bends takes seconds, not minutes.
	maxWork = 3_000_000
	// maxKept bounds how many figures are held at once (8 bytes each): quantities are reckoned in
	// batches, each with the same draws.
	maxKept = 4_000_000
	// askEvery: so many samples at most between two questions whether to stop, and askWork samples times bends and seams: under some 10 ms.
	askEvery, askWork = 64, 3_000
)

// Defaults of the trade, where a part says nothing.
const (
	angleClass = "c" // of ISO 2768-1, table 3: folding by hand
	cutClass   = "m" // of ISO 2768-1, table 1
	// lineError is how far a bend line comes to lie off its place (mm): sheet and marks are no better (common practice, no source).
	lineError = 0.2
	// thicknessPart is by how much of itself sheet may be thicker or thinner: assumed, no list at hand says it.
	thicknessPart = 0.05
)

// Tolerances.
const (
	// solved and solvedExact: a least or widest gap is searched to this (mm): a thousandth of what is shown, and for the part
	// without errors a hundredth of what the report's own figure is searched to.
	solved      = 1e-6
	solvedExact = 1e-11
	// drawn: gaps between a seam's ends are known to this at the samples (mm): a twentieth of what is shown.
	drawn = 0.0005
	// farMoves: pieces that only errors farther out than this bring near are left out (standard deviations of all errors
	// together): of ten errors they come so far out once in 10^9 samples.
	farMoves = 8
	// secondOrder: what bounds on moves of first order are taken times, for what they leave out.
	secondOrder = 1.2
	// maxLooks bounds the search for one gap's least or widest place.
	maxLooks = 60
	// onLine: a corner this near to a cut edge's line lies on it (mm); ten times fold.Weld.
	onLine = 1e-5
	// farSide: a bend within this part of a panel's size of the side that lies opposite an edge is that side: walls lean and taper.
	farSide = 0.2
	// leastSlide: a corner goes along the edge next to a cut where that turns from the cut by more (the sine); else it would go far.
	leastSlide = 0.3
	// sameCorner: corners of a panel nearer than this are one (mm): tangent lines miss the file's corners by what it rounds to.
	sameCorner = 0.05
	// onEdge: a nearest point this near to a cut edge lies on it (mm).
	onEdge = 1e-3
	// support: a cut edge this near to the finished box's side makes the overall size (mm).
	support = 0.01
	// lapNoise: a pair of pieces that can be deeper than another by no more need not be worked out (mm): rounding.
	lapNoise = 1e-12
	// maxLaps bounds the pairs of pieces of one seam that errors can bring into each other: a tenth of a second. Edges with more than some
	// fifty holes near both have more: the nearest are kept, and depths that only errors farther out would bring about are missed. maxLapLooks
	// bounds the looks for them, lapHalvings how finely their reach is sought.
	maxLaps, maxLapLooks, lapHalvings = 20_000, 5_000_000, 10
	// endLook: overlaps at a seam's ends are looked for so far inside (part of the thickness): a sheet tilted by 3 degrees has its whole
	// thickness there.
	endLook = 0.05
	// lapLooks: intervals of a seam that are looked at for where panels lie in each other.
	lapLooks = 16
	// thinnest is the least part of its thickness that a sheet is taken to have, whatever error is said.
	thinnest = 0.1
)

// Holes.
const (
	maxHolePairs = 40 // that face each other, the nearest ones; more than anyone reads
	// maxOtherPairs bounds those that do not: distances that need be held on a bracket are few.
	maxOtherPairs = 8
	maxHoles      = 300 // so many holes are paired at most, in the file's order
	// sameDiameter: holes whose diameters differ by no more belong together (mm); part files are often written to 0.01.
	sameDiameter = 0.01
	// facingTurn and facingOff: holes face each other where their axes turn from each other by less (radians, 5 degrees) and miss
	// each other by less than this part of their diameter.
	facingTurn = 0.0873
	facingOff  = 1.0
)

// Shares.
const (
	// leastShare: causes of less are left out (part of the variance).
	leastShare = 0.01
	// shareStep: shares are told in words in steps of this (percent): with 1,000 samples they are sure to about 2.
	shareStep = 5
	// worthWatching: what makes less of a spread, rounded so, is not named (percent).
	worthWatching = 15
	// asMuch and asMuchAnyway: bends that make less than another by no more than this part of what it makes, or by this much of the whole,
	// are named together: walls that are alike, within chance of 1,000 samples.
	asMuch       = 0.1
	asMuchAnyway = 0.05
	// maxItems bounds what is named of one spread, maxNames the bends that are named as one.
	maxItems, maxNames = 3, 4
	// littleSpread: what varies by less from 5 to 95 % needs no watching (mm); less than a rule shows.
	littleSpread = 0.1
)
