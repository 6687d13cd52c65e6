package shape

// This file holds what is made of a sizes form. make.go makes it.

import (
	"dryfold/fold"
	"dryfold/fold/sizes"
)

// Made is a part made by sizes.
type Made struct {
	Spec    fold.Spec
	Part    *fold.Part // built of Spec
	Flanges []string   // by Spec.Bends: the flange that the bend makes, "" for a joggle's second
	By      []int      // by Spec.Bends: index in Form.Flanges
	Sides   []string   // the base's sides by name, in the form's order
	Corners []MadeCorner
	Holes   []int // by Spec.Holes, then Spec.Cutouts: index in Form.Holes
	Marks   []Mark
	Notes   []fold.Trouble // what is no error: a step no cut can close, a misfit of what was measured
}

// MadeCorner is a corner as it was made. Lengths in mm.
type MadeCorner struct {
	Name     string // of its seam
	A, B     string // flanges
	Close    sizes.Closing
	At       int     // index in Form.Corners, -1 where it is the usual way
	Gap      float64 // wanted
	Measured bool    // Least, Most and Step are known
	Least    float64 // of the seam as folded
	Most     float64
	Step     float64 // between the faces
	Relief   sizes.ReliefKind
	Need     float64 // the least size of the relief that does
	Size     float64 // that was cut
	Light    float64 // diameter of the largest ball that passes the corner once all is closed; 0 until LightAt has measured it
}

// Mark is where a size runs on the finished part, for drawing it.
type Mark struct {
	Path  string // the field
	Text  string // what it measures, as "Wide"
	A, B  Spot
	Arc   bool // an angle: between A and B about Pivot
	Pivot Spot
	// Value is how long it is on the part that is made, mm; of an angle degrees. Of a base that was measured more often
	// than is needed it is the fitted size, which need not be the reading.
	Value float64
}

// Spot is a point of a panel: a blank point (mm) and a height in the sheet (0 to Thickness).
type Spot struct {
	Panel string
	X, Y  float64
	Z     float64
}
