package shape

// This file holds what a report says of a part by sizes beside what it says of any part.

import "dryfold/fold"

// Tell adds to a report of the part what is known from its sizes: the corners as they were made, and the notes.
func (m *Made) Tell(r *fold.Report) {
	for _, c := range m.Corners {
		k := fold.CornerReport{Name: c.Name, A: c.A, B: c.B, Close: c.Close.String(), GapWanted: c.Gap,
			Relief: c.Relief.String(), ReliefNeed: c.Need, ReliefSize: c.Size, Light: c.Light}
		if c.Measured {
			k.GapMin, k.GapMax, k.Step = &c.Least, &c.Most, &c.Step
		}
		r.Corners = append(r.Corners, k)
	}
	for _, t := range m.Notes {
		r.AddTrouble(t)
	}
}
