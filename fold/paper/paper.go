// Package paper makes what is printed: the blank as a drawing to scale, and the
// marking-out sheet, from which the blank can be laid out by hand with a rule
// and a scriber. Everything is drawn as pages in mm (see draft), so that it prints at
// the size it states.
//
// marks.go holds the numbers that are printed, sheet.go lays them out on paper,
// draw.go and place.go make the drawing, tables.go the tables.
package paper

import "dryfold/fold"

// Options say how a sheet is printed.
type Options struct {
	Units     fold.Units // of every number on the sheet
	TrueScale bool       // draw at 1:1, on as large a sheet as that takes
}
