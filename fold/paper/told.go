package paper

// This file says what every sheet says alike: that the part is not ready, and how large its blank is.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// notReady is the line for the head of every sheet of a part that can't be made as it is: how much there is to put right, and
// the first of it. "" where nothing stops.
func notReady(rep *fold.Report, u fold.Units) string {
	if rep == nil {
		return ""
	}
	n, first := 0, ""
	for _, t := range rep.Troubles {
		if t.Severity == fold.Stop.String() {
			if n++; n == 1 {
				first = fold.InUnits(t.Message, u)
			}
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("NOT READY TO CUT: %d to put right. %s", n, first)
}

// stopLine writes what notReady says across a page, in one line; nothing where that is nothing.
func stopLine(s *draft.Page, words string, y float64) {
	if words != "" {
		s.Text("loud", draft.Start, geom.Vec2{margin, y}, draft.Clip(words, wideSize("loud"), s.W-2*margin))
	}
}

// blankWords are the blank's two sizes, to 0.1 mm or 0.001 in: the same on every sheet, whatever the rule that is marked out with.
func blankWords(p *fold.Part, u fold.Units) string {
	size, c := p.Blank.Box.Size(), calliper(u, 0)
	return c.say(size[0]/u.Scale()) + " × " + c.say(size[1]/u.Scale())
}
