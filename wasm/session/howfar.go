package session

// This file says how far a size may go whose change was refused because of something else: by
// trying sizes between the one that holds and the one that was typed.

import (
	"errors"
	"math"
	"strings"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// mostTries bounds the parts that are made to find how far a size may go: with it the answer is within a thousandth
// of the way, and a part of 40 panels takes about a second in the page.
const mostTries = 12

// howFar is why a field's typed size was refused, told of that field: what it may be, and what else it would spoil. It is err
// itself where err speaks of the field already and says a size that would do, and where nothing can be found out.
func (s *Session) howFar(path string, next fold.Spec, err error) error {
	var e *noPart
	if !errors.As(err, &e) || len(s.problems) > 0 {
		return err
	}
	var own, other *shape.Problem
	for _, p := range e.problems {
		switch {
		case p.Path == path:
			own = p
		case other == nil:
			other = p
		}
	}
	if own != nil && !anyLength(own.Need) { // it says what would do
		return err
	}
	at, angle := fieldAt(next.Sizes, path)
	if at == nil {
		return err
	}
	v, _ := next.Sizes.Values(next.Units.Scale())
	bad, verr := v.Num(*at)
	good, ok := s.heldNow(path)
	if verr != nil || !ok || bad == good {
		return err
	}
	makes := func(x float64) bool {
		try := next
		try.Sizes = next.Sizes.Clone()
		f, _ := fieldAt(try.Sizes, path)
		*f = sizes.Is(x)
		if partfile.Check(try) != nil {
			return false
		}
		_, problems := shape.Make(try)
		return len(problems) == 0
	}
	tries := mostTries
	if f, _ := fieldAt(s.spec.Sizes, path); !f.Given { // what holds instead need not do as a number
		tries--
		if !makes(good) {
			return err
		}
	}
	from := good
	for ; tries > 0; tries-- {
		x, ok := between(good, bad)
		if !ok {
			break
		}
		if makes(x) {
			good = x
		} else {
			bad = x
		}
	}
	say := func(x float64) string {
		if angle {
			return Degrees(x) + "°"
		}
		return trimmed(x*next.Units.Scale(), 4) + " mm"
	}
	typed, _ := v.Num(*at)
	words := labelOf(e.form, path) + ": " + say(typed) + " is too much"
	if typed < from {
		words = labelOf(e.form, path) + ": " + say(typed) + " is too little"
	}
	if other != nil && own == nil {
		words += forOther(e.form, other.Path)
	}
	switch {
	case good == from:
		words += "; it can stay at " + say(good)
	case typed < from:
		words += "; down to about " + say(good) + " does"
	default:
		words += "; up to about " + say(good) + " does"
	}
	return errors.New(words)
}

// forOther says what else a size is too much for: " for the height of front". Of the base's own sizes nothing is said: what is
// asked for them speaks of them already.
func forOther(f *sizes.Form, path string) string {
	list, i, what := pathParts(path)
	name := labelOf(f, path)
	switch {
	case name == "" || list == "base" && !strings.HasPrefix(what, "measured"):
		return ""
	case list == "flanges" && what == "" && i >= 0:
		return " for the panel " + f.Flanges[i].Name
	}
	return " for the " + lower(name)
}

// heldNow is what a field of the open part comes to, in the part's units or degrees; of one that is not given what holds
// instead, and 0 where nothing does.
func (s *Session) heldNow(path string) (float64, bool) {
	f, _ := fieldAt(s.spec.Sizes, path)
	if f == nil {
		return 0, false
	}
	if x := usual(s.spec.Sizes, path); !f.Given {
		if !x.Given {
			return 0, true
		}
		return s.num(x)
	}
	return s.num(*f)
}

// between is a round number between two, near their middle: by size where they are far apart. ok is false where they are too near
// to each other to matter.
func between(a, b float64) (float64, bool) {
	d := math.Abs(b - a)
	if d < 1e-3 || d < 4e-3*math.Max(math.Abs(a), math.Abs(b)) {
		return 0, false
	}
	mid := (a + b) / 2
	if lo, hi := math.Abs(a), math.Abs(b); a*b >= 0 && math.Max(lo, hi) > 20*(1+math.Min(lo, hi)) {
		mid = math.Copysign(math.Sqrt((1+lo)*(1+hi))-1, a+b)
		d = math.Min(math.Abs(mid-a), math.Abs(b-mid))
	}
	for _, step := range [...]float64{1e4, 1e3, 100, 50, 10, 5, 1, .5, .1, .05, .01, .005, .001} {
		if step > d/3 {
			continue
		}
		return tidy(math.Round(mid/step) * step), true
	}
	return tidy(mid), true
}

// anyLength reports whether a need is the range of all lengths or angles there are, which helps nobody.
func anyLength(need string) bool {
	return strings.Contains(need, "1000000") || strings.Contains(need, "39370")
}
