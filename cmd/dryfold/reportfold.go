package main

// What check's report says of the folding: swings with their closest passes, and seams.

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"dryfold/fold"
)

// writeSwings prints the swings in order, and the closest pass of each that has one.
func writeSwings(w io.Writer, swings []fold.SwingReport, u units) {
	if len(swings) == 0 {
		return
	}
	passes := slices.ContainsFunc(swings, func(s fold.SwingReport) bool { return s.Room != nil })
	heads := []string{"", "bends", "to", ""}
	if passes {
		heads = append(heads, "closest pass", "at", "room, "+fold.Units(u).String(), "errors may take")
	}
	t := newTable(w, "\nSwings in order", heads...)
	for _, s := range swings {
		cells := []string{fmt.Sprint(s.Number), strings.Join(s.Bends, ", "), angle(s.To) + " deg", s.State}
		if k := s.Room; k != nil {
			cells = append(cells, k.A+", "+k.B, angle(k.Angle)+" deg", u.length(k.Room), u.length(k.Errors))
		}
		t.row(cells...)
	}
	t.Flush()
	if passes {
		hanging(w, "  ", fmt.Sprintf("Closest pass: the two that come nearest to each other in that swing without touching, where that is under %s %s, and how much of the room errors of hand and machine may take.",
			trimZeros(u.length(fold.RoomLook)), fold.Units(u)))
	}
}

// writeSeams prints the seams as finished.
func writeSeams(w io.Writer, seams []fold.SeamReport, u units) {
	if len(seams) == 0 {
		return
	}
	t := newTable(w, "\nSeams, as finished, "+fold.Units(u).String(), "", "between", "length", "least gap", "mean", "largest", "95 of 100 under", "step", "")
	for _, s := range seams {
		state := s.State
		if s.Open {
			state = "left open"
		}
		t.row(s.Name, s.A+", "+s.B, u.length(s.Length), u.fine(s.GapMin), u.fine(s.GapMean), u.fine(s.GapMax), widest95(s, u), u.fine(s.Step), state)
	}
	t.Flush()
}

// widest95 is the gap that the widest place of 95 of 100 parts stays under, by errors of hand and machine.
func widest95(s fold.SeamReport, u units) string {
	if s.Spread == nil {
		return ""
	}
	return u.fine(s.Spread.Widest.High)
}
