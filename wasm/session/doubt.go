package session

// This file says in words what a number that nobody measured is worth on the part:
// the report's own reckoning, in the units shown.

import (
	"math"

	"dryfold/fold"
)

// WorthLine is one line of what doubt is worth.
type WorthLine struct {
	If    string // "R 1 mm instead of 2 mm"
	Blank string // what the blank does, the finished sizes kept; "" where it can't be laid out anew
	Made  string // what the part does, the blank cut as it is
	Most  string // the most that anything moves, with its unit; "" where the part would not fold
}

// WorthKnown reports whether what doubt is worth has been worked out for the part shown.
func (s *Session) WorthKnown() bool { return s.Checked() || !s.Part().Foldable }

// Worth tells what the numbers that nobody measured are worth on the part shown, the
// greatest first.
func (s *Session) Worth() []WorthLine {
	r := s.Report()
	z := r.Finished.Box()
	var out []WorthLine
	for _, w := range r.Worth {
		l := WorthLine{If: fold.InUnits(w.If, s.units)}
		if !w.Known {
			l.Made = "the part would not fold"
			out = append(out, l)
			continue
		}
		var blank [3]float64
		if w.BlankKnown {
			blank = [3]float64{w.Blank[0], w.Blank[1]}
		}
		if r.Blank.Height > r.Blank.Width {
			blank[0], blank[1] = blank[1], blank[0]
		}
		made := *w.Finished
		if z[1] > z[0] {
			made[0], made[1] = made[1], made[0]
		}
		l.Most = Fine(w.Most, s.units) + " " + s.units.String()
		l.Blank, l.Made = grown(blank, s.units), grown(made, s.units)
		if l.Blank == "" {
			l.Blank = "the same size"
		}
		if !w.BlankKnown {
			l.Blank = ""
		}
		if l.Made == "" {
			l.Made = "the same size"
		}
		out = append(out, l)
	}
	return out
}

// SpreadWorth is the most that the spread of the K of test bends moves blank or finished part, with its unit, "0.3 mm"; ""
// where that is not known.
func (s *Session) SpreadWorth() string {
	for _, w := range s.Report().Worth {
		if w.About == "spread" && w.Known {
			return Fine(w.Most, s.units) + " " + s.units.String()
		}
	}
	return ""
}

// grown tells by how much a size grew: "1.1 mm shorter and 0.4 mm wider"; "" where
// nothing shows.
func grown(by [3]float64, u fold.Units) string {
	least := 0.05 // mm: less does not show
	if u == fold.Inch {
		least = 0.0005 * inch
	}
	words := [3][2]string{{"longer", "shorter"}, {"wider", "narrower"}, {"higher", "lower"}}
	var said []string
	for i, v := range by {
		word := words[i][0]
		if v < 0 {
			word = words[i][1]
		}
		if math.Abs(v) >= least {
			said = append(said, Length(math.Abs(v), u)+" "+u.String()+" "+word)
		}
	}
	return List(said)
}
