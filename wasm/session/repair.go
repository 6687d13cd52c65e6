package session

// This file finds repairs that can be computed: a swing that fouls is tried
// earlier and later in the order until the part folds with fewer fouls.

import (
	"fmt"

	"dryfold/fold"
)

// Repair is a change that frees a swing: put the swing at index From at To.
// Swing is the card it mends; Words say it on a button.
type Repair struct {
	Swing    int
	From, To int
	Words    string
}

// FindRepairs tries, for every swing that fouls, other places in the order, the
// nearest first, and gives the first that leaves fewer clashes than before.
// Stop is asked between tries; a true answer ends the search.
func FindRepairs(question string, stop func() bool) []Repair {
	spec, err := ReadQuestion(question)
	if err != nil {
		return nil
	}
	p := fold.Build(spec)
	clashes := p.Clashes()
	var out []Repair
	for _, c := range clashes {
		if len(out) > 0 && out[len(out)-1].Swing == c.Swing {
			continue
		}
		if r, ok := repair(p, c.Swing, len(clashes), stop); ok {
			out = append(out, r)
		}
	}
	return out
}

func repair(p *fold.Part, swing, before int, stop func() bool) (Repair, bool) {
	for d := 1; d < len(p.Swings); d++ {
		for _, to := range []int{swing - d, swing + d} {
			if stop() {
				return Repair{}, false
			}
			next, err := moved(p, swing, to)
			if err != nil {
				continue
			}
			if q := fold.Build(next); q.Foldable && len(q.Clashes()) < before {
				side, other := "before", to
				if to > swing {
					side = "after"
				}
				return Repair{swing, swing, to, fmt.Sprintf("%s %s %s", swingName(p, swing), side, lower(swingName(p, other)))}, true
			}
		}
	}
	return Repair{}, false
}

// WriteRepairs writes repairs for SetRepairs.
func WriteRepairs(found []Repair) string { return writeJSON(found) }

// SetRepairs takes the repairs found for the part of a serial number; false where that changes nothing.
func (s *Session) SetRepairs(serial int, text string) bool {
	var found []Repair
	if serial != s.serial || readJSON(text, &found) != nil || len(found)+len(s.repairs) == 0 {
		return false
	}
	s.repairs = found
	return true
}

// Mend makes a repair and opens the mended card.
func (s *Session) Mend(r Repair) error {
	if err := s.MoveSwing(r.From, r.To); err != nil {
		return err
	}
	s.word = Bends
	s.SetCard(r.To, 0)
	return nil
}
