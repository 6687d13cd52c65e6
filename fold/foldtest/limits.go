package foldtest

// Set proportions and bounds of pans (pan.go).
const (
	// panPast is how far a corner relief reaches past the tangent lines, in thicknesses: as fold/shape's reliefs,
	// so that the two can be compared.
	panPast = 0.5
	// panSnap: a wall's end nearer than this to its bend zone's end is cut in line with it, in thicknesses; likewise.
	panSnap = 0.1
	// panFlat is the least flat width that a wall or rim may keep beside its bends and reliefs, in thicknesses, and
	// panLine the same in mm: under it the kernel would see no bend line.
	panFlat = 1.0
	panLine = 0.1
	// maxPanLean is the most that walls may lean out, degrees: past it hardly a wall is left to bend.
	maxPanLean = 80
	// maxPanTaper is the most that sides may run off straight, degrees: in corners sharper than 45 degrees reliefs
	// reach far along the walls, and two walls lie so near one plane that a seam's step would be measured.
	maxPanTaper = 45
)
