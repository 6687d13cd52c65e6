package session

// This file puts the open part to the second program; what the two say to each other is in ask.

import "dryfold/wasm/session/ask"

// Question is the open part as text for the second program: by its blank alone.
func (s *Session) Question() string { return ask.WriteQuestion(s.Frozen()) }
