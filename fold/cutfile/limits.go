package cutfile

// Tolerances and bounds. mm and radians unless said.
const (
	// MaxKerf is the widest cut that is allowed for: more than any saw, torch or beam takes out of sheet.
	MaxKerf = 20.0
	// MaxGaps is how many gaps one contour can have, and LeastGap and MostGap how wide they can be: less burns
	// away, more is no gap (common practice, no source).
	MaxGaps           = 100
	LeastGap, MostGap = 0.05, 50.0
	// LeastNotch and MostNotch are how deep the notches at the ends of bend lines can be: less can't be seen after
	// deburring, more is a relief (common practice, no source).
	LeastNotch, MostNotch = 0.2, 20.0
	// maxOffset is the most edges that a contour may have for a cut's width to be allowed for, and offsetWork how many
	// pairs of edges, and of edges and places, may be looked at for all widths that are tried: some seconds at worst.
	maxOffset, offsetWork = 10_000, 4_000_000

	// smooth: edges whose directions differ by less meet without a corner (0.01 degrees): an arc round the corner
	// would be shorter than a beam's play, and the offsets' crossing stands off by under 1e-8 of their distance.
	smooth = 2e-4
	// nearSlack: what lies nearer than the distance by more than this is inside the cut. Thousands of times
	// the noise of the numbers, far under what a cutter resolves.
	nearSlack = 1e-8
	// exactly: each point of an offset lies at its distance to within this, or it is not drawn.
	exactly = 1e-6
	// join: ends nearer than this are one; what is shorter is left out.
	join = 1e-6
	// shallow: a corner or notch that the cut leaves unopened by less is not told: less than deburring takes.
	shallow = 0.05
	// deepLeft: a notch may stay uncut at its point for so many widths of the cut, as it does where its sides
	// close by 10 degrees; what is longer is a slit that the cut does not enter.
	deepLeft = 5
	// leftTurn: an uncut stretch that turns outwards by more holds a notch's mouth, and so the whole notch (45 degrees).
	leftTurn = 0.8
	// kerfStep: the widest cut that works is found to this.
	kerfStep = 0.001

	// gapRoom is how far a gap stands from the ends of its edge, in its own widths.
	gapRoom = 1.0
	// voidPitch: a cutout has no more gaps than one for so much of its length: what drops out of a small one may fall
	// (common practice, no source).
	voidPitch = 50.0
	// gapTries is how many places along a contour are looked at for a gap.
	gapTries = 1000
	// onSeam: a gap so near to an edge of a seam lies on it.
	onSeam = 0.001
	// notchRoom is how far a notch stands from the ends of its edge, in its own depths.
	notchRoom = 0.5
	// notchSlant: a bend line nearer to its edge's direction gets no notch there (30 degrees).
	notchSlant = 0.5236
	// endReach: a bend line's ends and a notch's edge lie within this of each other: twice how far chords stand off arcs.
	endReach = 0.01

	// textHeight of the words beside the blank, lineHeight from one line to the next; textRoom between blank and words.
	textHeight, lineHeight, textRoom = 4.0, 6.4, 6.0
	// markArm is how far the arms of a hole's mark reach from its middle.
	markArm = 2.0
	// places that numbers are written to: areas come out to 1e-6 mm2 on blanks of metres.
	places = 10
	// bulgePlaces are those of an arc's bulge, which is multiplied by its chord twice.
	bulgePlaces = 15
	// flatArc: an SVG's arcs turn by no more (120 degrees): nearer to a half turn the centre that a reader works out
	// from radius and ends moves by the root of their rounding.
	flatArc = 2.0944
)
