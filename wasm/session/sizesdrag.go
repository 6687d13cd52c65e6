package session

// This file drags a height or an angle of a part by sizes on the bench: the part
// follows the hand, and the whole drag is one step of undo.

import (
	"errors"
	"fmt"
	"math"
	"strings"

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

// BeginDrag takes a size in hand by its path, "sizes.flanges[2].height": it must be a number, or the name of a named size, which
// then changes. A size that a formula reckons is refused.
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
	label, asked := labelOf(f, path), path
	for range len(f.Named) + 1 {
		at, _ := fieldAt(f, path)
		if at == nil {
			return errors.New("there is no such size any more")
		}
		if !at.Given || at.Formula == "" {
			s.drag = &drag{asked: asked, path: path, begun: s.spec, serial: s.serial}
			return nil
		}
		next := ""
		for i, n := range f.Named {
			if n.Name == strings.TrimSpace(at.Formula) {
				next = NamedField(i, "is")
			}
		}
		if next == "" {
			return fmt.Errorf("%s is reckoned, %s: change what it is reckoned from", label, at.Formula)
		}
		path = next
	}
	return fmt.Errorf("%s can’t be dragged", label)
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
	if at == nil {
		return value
	}
	k := 1.0
	switch {
	case angle:
		value = math.Round(value*2) / 2
	case s.spec.Units == fold.Inch:
		k = s.spec.Units.Scale()
		value = tidy(math.Round(value/k*32) / 32)
	default:
		value = math.Round(value*2) / 2
	}
	was, now := *at, sizes.Is(value)
	if was != now {
		*at = now
		next := s.spec
		next.Sizes = form
		err := s.swap(next)
		d.stopped = ""
		if err != nil {
			d.stopped = err.Error() + "."
		}
	} else {
		d.stopped = ""
	}
	at, _ = fieldAt(s.spec.Sizes, d.path)
	if x, ok := s.num(*at); ok {
		value = x
	}
	return value * k
}

// swap makes next the open part without a step of undo.
func (s *Session) swap(next fold.Spec) error {
	undo, redo, d := s.undo, s.redo, s.drag
	defer func() { s.undo, s.redo, s.drag = undo, redo, d }()
	s.undo, s.drag = nil, nil
	return s.change(next)
}

// DragHeight drags the height of a flange to a value, mm; DragAngle its bend angle, degrees. The first call takes it in hand.
func (s *Session) DragHeight(flange int, mm float64) (float64, error) {
	return s.dragFlange(flange, "height", mm)
}

// DragAngle is DragHeight for the bend angle, degrees.
func (s *Session) DragAngle(flange int, deg float64) (float64, error) {
	return s.dragFlange(flange, "angle", deg)
}

func (s *Session) dragFlange(flange int, what string, value float64) (float64, error) {
	path := FlangeField(flange, what)
	if s.drag == nil || s.drag.asked != path {
		if err := s.BeginDrag(path); err != nil {
			return value, err
		}
	}
	return s.Drag(value), nil
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

// DropDrag lets go and puts back what was before.
func (s *Session) DropDrag() {
	d := s.drag
	if d == nil {
		return
	}
	s.drag = nil
	if s.serial != d.serial {
		s.set(build(d.begun))
	}
}
