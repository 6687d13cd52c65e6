package main

// What check says of the corners of a part by sizes.

import (
	"io"

	"dryfold/fold"
)

// closeWords say how two flanges meet.
var closeWords = map[string]string{"": "edge to edge", "edges": "edge to edge", "lap": "lapped", "mitre": "mitred", "apart": "apart"}

func writeCorners(w io.Writer, all []fold.CornerReport, u units) {
	if len(all) == 0 {
		return
	}
	t := newTable(w, "\nCorners, as made", "", "close", "gap wanted", "least", "largest", "relief", "at least", "as cut", "light hole")
	for _, c := range all {
		need, size := u.fine(c.ReliefNeed), u.fine(c.ReliefSize)
		if c.Relief == "none" {
			need, size = "", ""
		}
		least, most := "", "" // the two have no seam
		if c.GapMin != nil && c.GapMax != nil {
			least, most = u.fine(*c.GapMin), u.fine(*c.GapMax)
		}
		t.row(c.A+", "+c.B, closeWords[c.Close], u.fine(c.GapWanted), least, most, c.Relief, need, size, u.fine(c.Light))
	}
	t.Flush()
}
