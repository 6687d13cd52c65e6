package session

// This file makes the repairs that the second program found.

import "dryfold/wasm/session/ask"

// SetRepairs takes the repairs found for the part of a serial number; false where that changes nothing.
func (s *Session) SetRepairs(serial int, text string) bool {
	found, err := ask.ReadRepairs(text)
	if serial != s.partSerial || err != nil || len(found)+len(s.repairs) == 0 {
		return false
	}
	s.repairs = found
	return true
}

// Mend makes a repair and opens the mended card.
func (s *Session) Mend(r ask.Repair) error {
	if err := s.MoveSwing(r.From, r.To); err != nil {
		return err
	}
	s.word = Bends
	s.SetCard(r.To, 0)
	return nil
}
