package session

// This file begins a part of one's own from a ready one by sizes.

import (
	"errors"
	"fmt"

	"dryfold/fold/shape"
)

// StartWith puts a ready part by sizes on the bench, by its ID in shape.Starters: in the units shown, finished, to be changed
// at once. The part before is one undo away.
func (s *Session) StartWith(id string) error {
	st, ok := shape.StarterByID(id)
	if !ok {
		return fmt.Errorf("there is no shape %s to begin from", quoted(id))
	}
	s.OpenSpec(st.Make(s.units))
	s.word = Sizes
	s.SetFold(1)
	return nil
}

// CanAddFloor reports whether the open part is a stepped tray whose floor can be bent once more; AddFloor does it.
func (s *Session) CanAddFloor() bool {
	_, ok := shape.AnotherFloor(s.spec)
	return ok
}

// AddFloor bends a stepped tray's floor once more: one step of undo.
func (s *Session) AddFloor() error {
	next, ok := shape.AnotherFloor(s.spec)
	if !ok {
		return errors.New("only a stepped tray’s floor is bent once more so")
	}
	return s.change(next)
}
