package sizes

// This file holds the room's bounds, each with its reason.

// Bounds on what a form may hold, so that no form can make the program work or grow
// without end. They are printed in the messages that refuse more.
const (
	// MaxFormula is the longest formula, in characters: more than anyone writes in one field.
	MaxFormula = 200
	// MaxNesting is how deep parentheses, functions and signs may lie in each other.
	MaxNesting = 20
	// MaxNamed is how many named sizes a form may have.
	MaxNamed = 100
	// MaxNameLength is the longest name of a named size, in characters.
	MaxNameLength = 40
	// MaxFlanges, MaxCorners and MaxHoles are how many of each a form may have. A part of forty panels is a
	// large one; five times that is still made and checked while one waits.
	MaxFlanges = 200
	MaxCorners = 200
	MaxHoles   = 1000
	// MaxMade is how many holes all patterns may make together: as many as a blank may have.
	MaxMade = 10_000
	// MaxSides is how many sides, diagonals, angles or stations of a base may be named or measured: more than
	// anyone reads off a tape.
	MaxSides = 200
	// MaxPoints is how many points all outlines and edges of a form may have together, each hole of a
	// pattern counted: half of what a blank's outlines may have, which leaves room for what is made besides.
	MaxPoints = 50_000
	// maxShown is how many characters of a formula or name a message shows: what fits beside what is said of it.
	maxShown = 40
	// maxValue is the largest that a number or any step of a formula may be, in the part's
	// units: past the square of every length that a part may have (1e6 mm), far from overflow.
	maxValue = 1e15
)

// Bounds on what tools may be.
const (
	// MaxDrills is how many drills may be owned: two full sets of 115 and a few over.
	MaxDrills = 250
	// MaxDrill is the largest (mm): no hand drill turns a larger one; hole saws count.
	MaxDrill = 250
	// LeastTool is the least of any of their figures (mm, or degrees): finer cuts no one makes by hand.
	LeastTool = 0.05
)
