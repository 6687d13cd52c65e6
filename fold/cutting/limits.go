package cutting

// Tolerances and set sizes, in mm unless said.
const (
	// noise: numbers that differ by less are one (as a part of 1): float64's own, with a margin.
	noise = 1e-9
	// pieceMore is what a piece of sheet has over on each side of the blank: enough to hold, and for the waste to
	// curl away in one strip (common practice, no source).
	pieceMore = 10.0
	// shearLeast: a slanting edge shorter than this isn't worth a setting of the shears where another tool makes it (common
	// practice, no source).
	shearLeast = 40.0
	// maxShears is how many cuts across are planned for shears: more than anyone sets up by hand.
	maxShears = 40
	// inLine: edges whose lines lie nearer to each other than this are sheared in one cut: ten times fold.Weld.
	inLine = 1e-5
	// discLeast is the shortest edge for a cut-off disc of 125 mm: it makes a cut of about this length where it goes in (common practice,
	// no source).
	discLeast = 30.0
	// shearSlack: a cut longer than the shears by less fits them: finer than anyone files.
	shearSlack = 0.01
	// innerNear: an inside corner so near past an edge's end is what its cut runs towards: a relief's mouth is
	// about so wide.
	innerNear = 8.0
	// fileRound: an outside corner up to this radius is filed round from a short straight cut (common practice, no source).
	fileRound = 10.0
	// snipsTips: an edge shorter than this that ends in an inside corner is filed to its line: snips' tips are about so
	// long where they still cut clean, and run past such an edge at both ends (common practice, no source).
	snipsTips = 4.0
	// pilotFrom and pilotSize: drills over pilotFrom follow a small one of about pilotSize, or they wander (common practice, no
	// source).
	pilotFrom = 6.5
	pilotSize = 3.175
	// largeDrill: over this a drill grabs in thin sheet (common practice, no source).
	largeDrill = 10.0
	// struckNear: a struck line nearer to an edge or bend line than this lies on it as far as anyone can tell: two scribed lines'
	// widths and a little.
	struckNear = 0.3
	// struckLong: it coincides where it runs along it for so long at least.
	struckLong = 1.0
	// maxStruckLooks bounds the pairs of struck lines and edges that are looked at.
	maxStruckLooks = 2_000_000
)
