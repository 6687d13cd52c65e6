// Package shape makes parts from finished sizes: what a tape reads on the piece,
// turned into a blank with bend lines, reliefs and closed corners.
//
// This file holds how problems are told. make.go makes a part and says which file does
// which step; made.go holds what is made, starter.go the parts to begin from, measured.go
// bases by measurements, cut.go whether a blank can be cut with the maker's own tools.
package shape

import (
	"math"
	"strconv"
)

// Problem says which size can't be or what it does to the part, what it is, and what would do.
type Problem struct {
	Path  string // the field, as in a part file: "sizes.flanges[2].height"
	Found string
	Need  string
}

// Error is one line: the field, what was found and what would do.
func (e *Problem) Error() string { return e.Path + ": found " + e.Found + "; need " + e.Need }

// fig writes a length or angle for a message: no more decimals than a maker reads.
func fig(x float64) string {
	return strconv.FormatFloat(math.Round(x*1000)/1000, 'f', -1, 64)
}
