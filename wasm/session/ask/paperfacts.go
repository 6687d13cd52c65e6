package ask

import (
	"dryfold/fold"
	"dryfold/fold/geom"
)

// PaperFacts is what the third program tells of a sheet beside its pages, for the column. Words have lengths in mm
// (fold.InUnits).
type PaperFacts struct {
	Watch []string // what to mind before printing
	Check *CutCheck
	Plan  *CutPlan
}

// CutCheck is what to measure on the cut blank, and what the measured values mean.
type CutCheck struct {
	Sizes    []CheckSize
	Notes    []string
	Word     string // what to do: one of ascut's words
	Say      []string
	Seams    []CheckSeam
	Finished [2][3]float64 // finished size as drawn, and as it will come out; zero where nothing is known
}

// CheckSize is one size to measure, mm, and what its measured value means.
type CheckSize struct {
	No          int
	From, To    geom.Vec2
	What        string
	Want        float64
	Low, High   float64
	As          [3]string // low, wanted and high as the printed sheet has them
	Calliper    bool
	Catches     []string
	Limits      string // where they come from
	Short, Long string // what a mm too little and too much does
	State       string // "ok", "large", "small", "bad", "" where nothing was measured
	Say         string
}

// CheckSeam is a seam whose gap changes, least and largest, mm.
type CheckSeam struct {
	Name          string
	Before, After [2]float64
	Gone, Worse   bool
}

// CutPlan is how the blank is cut.
type CutPlan struct {
	Steps    []CutStep
	Drills   []CutDrill
	Problems []fold.Trouble
}

// CutStep is one numbered step.
type CutStep struct {
	Number               int
	Kind                 string
	Do, Why, Waste, Hold string
	Sizes                string // of drills, as they are stamped
	Where                string // which tool from corner to corner, by the sheet's numbers, or which drilled places
}

// CutDrill is a place to drill, as the sheet prints it.
type CutDrill struct {
	No                     string
	A, B                   string // from the edges A and B
	Where, Size, When, Why string
	First                  string // the smaller drill that goes before, "" for none
}

// ReadFacts reads what PaperFacts were written to; none where the text is none.
func ReadFacts(text string) (f PaperFacts) {
	if Read(text, &f) != nil {
		return PaperFacts{}
	}
	return f
}
