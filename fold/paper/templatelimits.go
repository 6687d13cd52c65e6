package paper

// Limits of the template and the card model, in mm on the sheet unless said.
const (
	// usualMargin is white on most home printers' pages with room to spare; mostMargin and over is a mistake.
	usualMargin, mostMargin = 8.0, 60.0
	// usualOverlap takes a match mark and a word on either side of the cut; leastOverlap a small mark.
	usualOverlap, leastOverlap, mostOverlap = 10.0, 8.0, 40.0
	// printerOut is by how much a check square may measure another length (share). A printer set to actual size is within 1 %
	// (common practice, no source); one that fits pages to margins of 4 mm takes 2.8 % off A3 and 3.9 % off A4 across. And a
	// rule shows 0.5 %.
	printerOut = 0.02
	// leastCorrection and mostCorrection bound what corrections come to one after the other.
	leastCorrection, mostCorrection = 0.97, 1.03
	// squareRoom is left round the check square.
	squareRoom = 3.0
	// blankRoom is left round the blank: half the outline's pen, and what a printer cuts off.
	blankRoom = 2.0
	// longestPage: readers of PDF take pages up to 14,400 points, 5080 mm (ISO 32000-1, annex C).
	longestPage = 5000.0
	// widestRoll is wider than any printer's.
	widestRoll = 3000.0
	// leastAcross is the least length of a roll's page that lies across: its foot must have room for words.
	leastAcross = 200.0
	// maxPages is more than anyone tapes together; maxTiles bounds the places for them.
	maxPages, maxTiles = 200, 2000
	// diamondPitch is how far apart match marks stand at most along a join.
	diamondPitch = 150.0
	// printChord: chords that stand for an arc stay within this of it; a tenth of a printed line.
	printChord = 0.01
	// paperTooth is how far apart the teeth of a line stand along which paper is cut, paperToothHigh how far they reach.
	paperTooth, paperToothHigh = 8.0, 1.6
	// sightApart: a sight line nearer than this to the middle of its bend is drawn as one with it; two lines of a pen would touch.
	sightApart = 0.3
	// maxArcChords bounds the chords of one arc.
	maxArcChords = 3000
	// alongNear: a line this near to an edge of the check square, and along it, is not told from it.
	alongNear = 1.5
	// shallow: a line that crosses an edge of the check square under 20 degrees is not told from it where it does (the tangent).
	shallow = 0.36
	// squareWork bounds the search for the check square's place, in lines looked at.
	squareWork = 120_000
	// maxPlaced bounds the lines of one page that labels keep off, maxNamed the holes that are named on it.
	maxPlaced, maxNamed = 1500, 100
	// manyLines and more: few ways to lay the blank on the pages are tried.
	manyLines = 5000
	// leastStretch is how much of a bend line a page must show to name it there too.
	leastStretch = 12.0
	// nameWide and mapWide by mapHigh are the places of the page's name and map at its foot.
	nameWide, mapWide, mapHigh = 19.0, 34.0, 24.0
)

// Limits of the card model.
const (
	// usualCard is greyboard that stands up to being tried (common practice, no source); paper is thinner than thinnestCard, and
	// nobody folds more than thickestCard.
	usualCard, thinnestCard, thickestCard = 1.5, 0.2, 10.0
	// foldedBack and over (degrees) a fold goes right back, and is folded round.
	foldedBack = 150.0
	// cardTries is how often a thinner card is tried: to a hundredth of the thickness.
	cardTries = 7
	// maxCardSizes bounds the sizes listed, maxSizePages the pages they take.
	maxCardSizes, maxSizePages = 300, 20
)
