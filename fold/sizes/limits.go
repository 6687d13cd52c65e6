package sizes

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
	// maxValue is the largest value that any step of a formula may give, in the part's
	// units: past every length a part may have (1e6 mm) squared, far from overflow.
	maxValue = 1e15
	// noSize: what is left of a step of a formula whose terms cancel is no divisor, as part
	// of the terms' own size. float64 carries 2.2e-16; some dozens of steps lose two digits.
	noSize = 1e-14
)
