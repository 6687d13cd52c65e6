package session

// This file drags a height or an angle of a part by sizes on the bench: the part
// follows the hand, and the whole drag is one step of undo.

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// drag is a size in hand.
type drag struct {
	asked   string // the size that was taken in hand
	path    string // the one that changes: asked, or the named size that it is
	stopped string // why the hand is further than the part follows; "" where it follows
	begun   fold.Spec
	serial  int
}

// BeginDrag takes a size in hand by its path, "sizes.flanges[2].height": a number, or a formula that only one named number
// changes, as "high" or "90 - lean"; then it is that number that is dragged, and all that uses it follows. Other
// formulas are refused.
func (s *Session) BeginDrag(path string) error {
	if s.viewOnly {
		return errViewOnly
	}
	f := s.spec.Sizes
	if f == nil {
		return errNoSizes
	}
	s.EndDrag()
	if s.made == nil {
		return errNoPart
	}
	at, _ := fieldAt(f, path)
	if at == nil {
		return errors.New("there is no such size any more")
	}
	d := &drag{asked: path, path: path, begun: s.spec, serial: s.serial}
	if at.Given && at.Formula != "" {
		moves := s.movers(path)
		if len(moves) != 1 {
			var words []string
			for _, i := range moves {
				words = append(words, lower(labelOf(f, NamedField(i, "is"))))
			}
			from := "change its formula"
			if len(words) > 0 {
				from = "change " + List(words)
			}
			return fmt.Errorf("%s is reckoned, %s: %s", labelOf(f, path), at.Formula, from)
		}
		d.path = NamedField(moves[0], "is")
	}
	s.drag = d
	return nil
}

// movers are the named numbers that change what a field comes to.
func (s *Session) movers(path string) (out []int) {
	f := s.spec.Sizes
	now, ok := s.valueWith(f, path, -1, 0)
	if !ok {
		return nil
	}
	for i, n := range f.Named {
		if n.Is.Formula != "" {
			continue
		}
		for _, by := range []float64{0.5, -0.5} { // one of them may make no sense of a root
			if v, ok := s.valueWith(f, path, i, n.Is.Number+by); ok && v != now {
				out = append(out, i)
				break
			}
		}
	}
	return out
}

// valueWith is what a field would come to with a named size at another number; named -1 changes none.
func (s *Session) valueWith(f *sizes.Form, path string, named int, number float64) (float64, bool) {
	at, _ := fieldAt(f, path)
	g := *f
	if named >= 0 {
		g.Named = slices.Clone(f.Named)
		g.Named[named].Is = sizes.Is(number)
		if path == NamedField(named, "is") {
			return number, true
		}
	}
	v, _ := g.Values(s.spec.Units.Scale())
	x, err := v.Num(*at)
	return x, err == nil
}

// mover is the named number that gives the dragged size a value, by secants: it is exact for sums and products.
func (s *Session) mover(d *drag, value float64) (float64, bool) {
	f := s.spec.Sizes
	_, i, _ := pathParts(d.path)
	x0 := f.Named[i].Is.Number
	y0, ok0 := s.valueWith(f, d.asked, i, x0)
	x1 := x0 + 0.5
	y1, ok1 := s.valueWith(f, d.asked, i, x1)
	for range 20 {
		if !ok0 || !ok1 || y1 == y0 {
			return x1, false
		}
		x := x1 + (value-y1)*(x1-x0)/(y1-y0)
		x0, y0 = x1, y1
		x1 = x
		if y1, ok1 = s.valueWith(f, d.asked, i, x1); ok1 && math.Abs(y1-value) < 1e-6 {
			return x1, true
		}
	}
	return x1, false
}

// Dragging is the path of the size in hand, "" for none; stopped says why the part follows no further, "" where it does.
func (s *Session) Dragging() (path, stopped string) {
	if s.drag == nil {
		return "", ""
	}
	return s.drag.asked, fold.InUnits(s.drag.stopped, s.units)
}

// Drag gives the size in hand a value, mm or degrees, rounded to half a mm or 1/32 in, or half a degree. Where it makes no part the last
// good value stays, and Dragging says why. It gives the value that holds.
func (s *Session) Drag(value float64) float64 {
	d := s.drag
	if d == nil || math.IsNaN(value) || math.IsInf(value, 0) {
		return value
	}
	form := s.spec.Sizes.Clone()
	at, angle := fieldAt(form, d.path)
	if _, deg := fieldAt(form, d.asked); !deg {
		value = value / s.spec.Units.Scale()
	}
	if d.path != d.asked {
		x, ok := s.mover(d, value)
		if !ok {
			d.stopped = "It can’t come to that."
			return s.dragged()
		}
		value = x
	}
	step := 0.5
	if !angle && s.spec.Units == fold.Inch {
		step = 1.0 / 32
	}
	now := sizes.Is(tidy(math.Round(value/step) * step))
	d.stopped = ""
	if *at != now {
		*at = now
		next := s.spec
		next.Sizes = form
		if err := s.swap(next); err != nil {
			d.stopped = err.Error() + "."
		}
	}
	return s.dragged()
}

// dragged is what the size in hand comes to, mm or degrees.
func (s *Session) dragged() float64 {
	f, _ := s.SizeField(s.drag.asked)
	return f.Value
}

// swap makes next the open part without a step of undo.
func (s *Session) swap(next fold.Spec) error {
	undo, redo, d := s.undo, s.redo, s.drag
	defer func() { s.undo, s.redo, s.drag = undo, redo, d }()
	s.undo, s.drag = nil, nil
	return s.change(next)
}

// EndDrag lets go: what the drag did is one step of undo.
func (s *Session) EndDrag() {
	d := s.drag
	if d == nil {
		return
	}
	s.drag = nil
	if s.serial == d.serial {
		return
	}
	is := s.spec
	s.spec = d.begun
	s.remember()
	s.spec = is
}
