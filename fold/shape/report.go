package shape

// This file holds what a report says of a part by sizes beside what it says of any part.

import (
	"slices"

	"dryfold/fold"
)

// Tell adds to a report of the part what is known from its sizes: the corners as they were made, and the notes. A note of
// a corner's step says why it is there and what would do; the plain trouble of the same step is left out.
func (m *Made) Tell(r *fold.Report) {
	for _, c := range m.Corners {
		k := fold.CornerReport{Name: c.Name, A: c.A, B: c.B, Close: c.Close.String(), GapWanted: c.Gap,
			Relief: c.Relief.String(), ReliefNeed: c.Need, ReliefSize: c.Size}
		if c.Measured {
			k.GapMin, k.GapMax, k.Step = &c.Least, &c.Most, &c.Step
		}
		if c.Light > 0 {
			k.Light = &c.Light
		}
		r.Corners = append(r.Corners, k)
	}
	for _, t := range m.Notes {
		if t.Rule == "corner-step" {
			r.Troubles = slices.DeleteFunc(r.Troubles, func(x fold.TroubleReport) bool {
				return x.Rule == "seam-step" && x.Where.Seam == t.Name
			})
		}
		r.AddTrouble(t)
	}
}
