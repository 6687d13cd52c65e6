package ask

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
			next, err := Moved(p, swing, to)
			if err != nil {
				continue
			}
			if q := fold.Build(next); q.Foldable && len(q.Clashes()) < before {
				side, other := "before", to
				if to > swing {
					side = "after"
				}
				return Repair{swing, swing, to, fmt.Sprintf("%s %s %s", p.SwingName(swing), side, Lower(p.SwingName(other)))}, true
			}
		}
	}
	return Repair{}, false
}

// WriteRepairs writes repairs for ReadRepairs.
func WriteRepairs(found []Repair) string { return Write(found) }

// ReadRepairs reads what WriteRepairs gave.
func ReadRepairs(text string) (found []Repair, err error) {
	err = Read(text, &found)
	return found, err
}
