package spread

import "dryfold/fold"

// CutPlus is what a cut length of the part may be out by, plus and minus (mm): the maker's own figure for cut edges, where there is one (class is then
// ""), else ISO 2768-1's by the maker's class, m where none is said.
func CutPlus(s *fold.Spec, length float64) (plus float64, cl string) {
	if own, ok := given(s.Errors.Cut, s.Units.Scale(), 1000); ok && own > 0 {
		return own, ""
	}
	cl, _ = class(s.Errors.CutClass, cutClass)
	return look(linear, length, cl), cl
}
