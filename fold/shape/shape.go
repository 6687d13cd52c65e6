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

// Error says which size can't be, what it is, and what would do.
type Error struct {
	Path  string // the field, as in a part file: "sizes.flanges[2].height"
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

// fig writes a length or angle for a message: no more decimals than a maker reads.
func fig(x float64) string {
	return strconv.FormatFloat(math.Round(x*1000)/1000, 'f', -1, 64)
}
