// Package paper makes what is printed: the blank as a drawing to scale, and the
// marking-out sheet, from which the blank can be laid out by hand with a rule
// and a scriber. Everything is drawn as pages in mm (see draft), so that it prints at
// the size it states.
//
// rule.go has the rule that is marked out with, marks.go the numbers that are printed, worth.go what their rounding does.
// sheet.go lays the marking-out sheet out on paper, head.go and side.go write what stands round the drawing,
// draw.go and place.go make it, dims.go its running dimensions, tables.go and bendtable.go the tables. template.go prints the
// blank at full size, to be stuck to the metal, card.go the part in cardboard, to be tried in its place.
package paper

import "dryfold/fold"

// Options say how a sheet is printed. The zero value is a sheet in mm on A4, to the
// half millimetre, with no word of which hand the part is.
type Options struct {
	Units     fold.Units // of every number on the sheet
	TrueScale bool       // draw at 1:1, on as large a sheet as that takes
	// Rule is the finest division that the maker's rule shows, in the sheet's units: every
	// running dimension is rounded to it. 0 takes 0.5 mm or 1/64 in. In inches a power of
	// two down to 1/64 prints fractions, any other decimals (a calliper: 0.001).
	Rule  float64
	Paper string // one of Papers, "" for A4; larger where the drawing needs it
	Hand  string // "left" or "right", stamped large; "" where it isn't said
	Other bool   // the mirror image, for the other hand: stamped so, and Hand is that of the part itself
}

// Papers are the papers that a sheet can be printed on, by name.
var Papers = []string{"A4", "A3", "Letter", "Tabloid"}
