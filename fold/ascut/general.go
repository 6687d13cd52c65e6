package ascut

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/spread"
)

// generalPlus is how far a length of the part may be out where no seam limits it, plus and minus (mm), and where that comes from.
func generalPlus(s *fold.Spec, length float64) (plus float64, kind, from string) {
	plus, class := spread.CutPlus(s, length)
	if class == "" {
		return plus, "yours", "your own figure for cut edges"
	}
	return plus, "published", fmt.Sprintf("ISO 2768-1, table 1, class %s", class)
}
