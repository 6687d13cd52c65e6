package session

// This file is what the page and its worker say to each other: a question holds
// the part file's text, the answer the report with the places that the drawing
// needs, then the repairs that were found.

import (
	"encoding/json"

	"dryfold/fold"
	"dryfold/fold/partfile"
)

// answer is the report with what its own JSON leaves out.
type answer struct {
	Report  fold.Report
	Seams   []seamPlaces
	Clashes []fold.Clash
}

type seamPlaces struct {
	Ticks []fold.Tick
	Seam  fold.Seam
}

// Check answers a question about a part file's text: tell is given the report with
// the seams as soon as it can be, and then whole, as JSON for ReadAnswer.
func Check(partText string, tell func(report string, whole bool)) error {
	spec, err := partfile.Read([]byte(partText))
	if err != nil {
		return err
	}
	p := fold.Build(spec)
	for _, whole := range []bool{false, true} {
		r := fold.Report{}
		if whole {
			r = p.Check()
		} else {
			r = p.Quick()
		}
		text, err := writeAnswer(r)
		if err != nil {
			return err
		}
		tell(text, whole)
	}
	return nil
}

func writeAnswer(r fold.Report) (string, error) {
	a := answer{Report: r}
	for _, s := range r.Seams {
		a.Seams = append(a.Seams, seamPlaces{s.Ticks, s.Seam})
	}
	for _, c := range r.Clashes {
		a.Clashes = append(a.Clashes, c.Clash)
	}
	text, err := json.Marshal(a)
	return string(text), err
}

// ReadAnswer reads what Check gave.
func ReadAnswer(text string) (fold.Report, error) {
	var a answer
	if err := json.Unmarshal([]byte(text), &a); err != nil {
		return fold.Report{}, err
	}
	for i := range a.Report.Seams {
		if i < len(a.Seams) {
			a.Report.Seams[i].Ticks, a.Report.Seams[i].Seam = a.Seams[i].Ticks, a.Seams[i].Seam
		}
	}
	for i := range a.Report.Clashes {
		if i < len(a.Clashes) {
			a.Report.Clashes[i].Clash = a.Clashes[i]
		}
	}
	return a.Report, nil
}
