package ask

// This file moves swings in the order. Bends that turn together stay together.

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
)

// Steps is the part's whole order, one Step for every swing, also for the bends
// that the file leaves to follow by themselves.
func Steps(p *fold.Part) []fold.Step {
	out := make([]fold.Step, len(p.Swings))
	for i, sw := range p.Swings {
		for k, b := range sw.Bends {
			out[i].Bends = append(out[i].Bends, p.Bends[b].Name)
			if len(sw.Bends) == 1 && sw.To[k] != p.Bends[b].Angle {
				to := fold.Tidy(sw.To[k].Degrees())
				out[i].To = &to
			}
		}
	}
	return out
}

// Moved is the part's Spec with one swing moved.
func Moved(p *fold.Part, from, to int) (fold.Spec, error) {
	n := len(p.Swings)
	if from < 0 || from >= n || to < 0 || to >= n {
		return fold.Spec{}, errors.New("there is no such place in the order")
	}
	order := Steps(p)
	step := order[from]
	order = slices.Insert(slices.Delete(order, from, from+1), to, step)
	last := map[string]float64{}
	for _, st := range order {
		for _, b := range st.Bends {
			at := 1e9
			if st.To != nil {
				at = *st.To
			}
			if before, ok := last[b]; ok && before >= at {
				return fold.Spec{}, fmt.Errorf("%s is bent part of the way first; its last swing must come after that", strings.ToUpper(b[:1])+b[1:])
			}
			last[b] = at
		}
	}
	next := p.Spec
	next.Order = order
	return next, nil
}
