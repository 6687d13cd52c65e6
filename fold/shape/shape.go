// Package shape makes parts from finished sizes: what a tape reads on the piece,
// turned into a blank with bend lines, reliefs and closed corners.
//
// This file holds the error; formulas.go the formulas of bends and corners,
// pan.go a four-walled pan by sizes, check.go what sizes it takes, blank.go its
// outline, round.go the rounding of a part's coordinates.
package shape

// Error says which size can't be, what it is, and what would do.
type Error struct {
	// Path names the field: length, width_front, width_back, depth, lean, level, rim,
	// rim_width, rim_radius, thickness, radius, k, gap, metal, name or units.
	Path  string
	Found string
	Need  string
}

// Error is one line: the field, what was found and what would do.
func (e *Error) Error() string { return e.Path + ": found " + e.Found + "; need " + e.Need }

// quote puts a text in quotation marks, shortened.
func quote(text string) string {
	r := []rune(text)
	if len(r) > 60 {
		r = append(r[:59], '…')
	}
	return `"` + string(r) + `"`
}
