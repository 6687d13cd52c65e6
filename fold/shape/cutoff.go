package shape

// This file finds flanges that end lower than was asked, because their ends meet before.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// cutOffNotes tells of each flange with a straight free edge of which nothing is left where it was measured to.
func (b *builder) cutOffNotes() (out []fold.Trouble) {
	for _, n := range b.panels {
		if n.at < 0 || n.step > 0 || len(n.flat) != 1 || !n.flange.Height.Given {
			continue
		}
		left := false
		var high float64
		var at geom.Vec2
		for _, e := range n.loop {
			left = left || e.side >= top && e.side < endSide
			if _, v := n.coord(e.a); v > high {
				high, at = v, e.a
			}
		}
		if left {
			continue
		}
		have, need := high/n.scale+n.zero, b.length("", n.flange.Height, 0)
		out = append(out, fold.Trouble{Severity: fold.Watch, Rule: "flange-cut-off", Kind: "panel", Name: n.name, At: b.onSheet(at), Have: &have, Need: &need,
			Message: fmt.Sprintf("The flange %s runs out in a point %.1f mm high; %.1f mm was asked: its two ends meet there. Let them lean in less; where a corner is closed, let it stand apart or set another angle.", n.name, have, need)})
	}
	return out
}
