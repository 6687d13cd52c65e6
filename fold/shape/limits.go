package shape

// Tolerances and set proportions of shapes by sizes. Lengths are in the part's
// own units, so proportions are given in thicknesses.
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
	// MaxLean is the most that a pan's walls may lean out, degrees. Past it hardly a
	// wall is left to bend.
	MaxLean = 80
	// MaxTaper is the most that a pan's sides may run off straight, degrees: its corners
	// are 45 to 135 degrees then. In sharper ones reliefs reach far along the walls, and
	// two walls lie so near one plane that a seam's step would be measured.
	MaxTaper = 45
)
