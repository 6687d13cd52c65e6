package session

// This file moves swings in the order.

import "dryfold/wasm/session/ask"

// MoveSwing puts the swing at index from at index to; the others keep their order.
func (s *Session) MoveSwing(from, to int) error {
	next, err := ask.Moved(s.part, from, to)
	if err != nil {
		return s.refuse("order", "", err)
	}
	wasOpen, frac := s.open, s.frac
	delete(s.errors, "order")
	if err := s.change(next); err != nil {
		return s.refuse("order", "", err)
	}
	switch { // the same card stays open
	case wasOpen == from:
		wasOpen = to
	case from < wasOpen && wasOpen <= to:
		wasOpen--
	case to <= wasOpen && wasOpen < from:
		wasOpen++
	}
	s.SetCard(wasOpen, frac)
	return nil
}
