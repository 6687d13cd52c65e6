package paper

// Sizes on paper, in mm on the sheet unless said.
const (
	// margin is left white round every sheet; home printers need 5 to 10.
	margin = 11.0
	// textSize is the size of running text: 3.1 mm is about 9 point, read at
	// half a metre.
	textSize = 3.1
	// smallSize is the size of corner numbers; nothing printed is smaller.
	smallSize = 2.4
	// rowHeight of the tables.
	rowHeight = 4.6
	// dimPitch is the least distance between the middles of two running dimensions.
	dimPitch = 3.7
	// dimLeader is how far a running dimension stands off the drawing.
	dimLeader = 9.0
	// maxDimNames is how wide the names before a running dimension may be; longer
	// lists are written as first…last.
	maxDimNames = 9.0
	// sideWidth is the column beside the drawing.
	sideWidth = 47.0
	// tableWidth is that of the bend table, the widest.
	tableWidth = 188.0

	// leastStamp is how small the stamp may get: its words are then as small as anything printed.
	leastStamp = 0.48
	// stampTries is how many places along each side of the base panel are tried for it.
	stampTries = 31
	// maxBendRows is how many bends the first page's table takes.
	maxBendRows = 24
	// tangentsFrom is how wide a bend is on paper before its tangent lines are drawn.
	tangentsFrom = 1.5

	// maxDims is how many running dimensions one edge of a drawing takes; more
	// stand in the table alone, and the sheet says so.
	maxDims = 150
	// maxNumbered is how many corners are numbered in the drawing; past it only
	// every n-th one is. A sheet with more is cut by machine.
	maxNumbered = 600
	// numberRoom is how much of the blank's box, all round, a corner's number takes (mm on the sheet): of corners that lie
	// closer only every n-th is numbered.
	numberRoom = 2.2
)

// grainLong is the length of the grain's arrows with their word, mm on the sheet; down to 0.6 of
// it where that has no room.
const grainLong = 26.0

// grainSquare is how far from a datum edge's direction the grain may run and be said to run
// along it (degrees): nobody sees less.
const grainSquare = 0.5

// squareEnough is how much the ends of a line may differ in their distance from a datum edge and still be given by one
// figure (mm): less than shows.
const squareEnough = 0.05
