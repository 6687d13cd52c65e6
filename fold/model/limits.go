package model

import "math"

// Every tolerance of the model, with its unit and its reason.
const (
	// Chord: facets of bends stay within this of the true cylinder where nothing else is asked for (mm).
	// Half of what the bench draws; finer than any print or cut shows.
	Chord = 0.01
	// MinChord, MaxChord bound what may be asked for (mm): finer only makes the file larger, coarser is no bend any more.
	MinChord, MaxChord = 0.0001, 10.0
	// mostTurn: a facet turns by no more than this whatever the chord, so that tight bends look round too (15 degrees).
	mostTurn = 15 * math.Pi / 180
	// maxFacets bounds the facets of one bend. At 90 degrees and MinChord it is reached at an outer radius of 35 m.
	maxFacets = 3000
	// maxTris bounds the triangles of a model: 50 MB as STL.
	maxTris = 1_000_000
	// onLine: a corner this near to a tangent line lies on it (mm); twice fold.Weld, by which the blank's cutting may move it.
	onLine = 2e-6
	// stripWeld: points of a bend's strips nearer than this are one (mm). Under fold.Weld, so that no two corners
	// of the blank become one; over the rounding of 1e6 mm.
	stripWeld = 1e-8
	// snapLine: a line between facets is moved by up to this share of a facet to run through a corner, which
	// would else leave a sliver beside it.
	snapLine = 0.05
	// roundTurn: cut faces that turn by less show no edge between them: chords of an arc (20 degrees, as on the bench).
	roundTurn = 20 * math.Pi / 180
	// areaSlack: triangles may cover this much more or less of the blank than its cutting says, as a share of it. Rounding is a thousandth of that.
	areaSlack = 1e-6
)
