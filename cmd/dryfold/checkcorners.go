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
	heads := []string{"", "close", "gap wanted", "least", "largest", "relief", "at least", "as cut"}
	light := false
	for _, c := range all {
		light = light || c.Light != nil
	}
	if light {
		heads = append(heads, "light hole")
	}
	t := newTable(w, "\nCorners, as made", heads...)
	for _, c := range all {
		row := []string{c.A + ", " + c.B, closeWords[c.Close], u.fine(c.GapWanted), "", "", c.Relief, "", ""}
		if c.GapMin != nil && c.GapMax != nil { // else the two have no seam
			row[3], row[4] = u.fine(*c.GapMin), u.fine(*c.GapMax)
		}
		if c.Relief != "none" {
			row[6], row[7] = u.fine(c.ReliefNeed), u.fine(c.ReliefSize)
		}
		if c.Light != nil {
			row = append(row, u.fine(*c.Light))
		}
		t.row(row...)
	}
	t.Flush()
}
