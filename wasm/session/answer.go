package session

// This file is what the page and its worker say to each other: a question holds
// the part file's text, the answer the report with the places that the drawing
// needs, then the repairs that were found.

import (
	"dryfold/fold"
	"dryfold/fold/partfile"
)

// Check answers a question about a part file's text: tell is given the report with
// the seams as soon as it can be, and then whole, as text for ReadAnswer.
func Check(partText string, tell func(report string, whole bool)) error {
	spec, err := partfile.Read([]byte(partText))
	if err != nil {
		return err
	}
	p := fold.Build(spec)
	tell(writeJSON(p.Quick()), false)
	tell(writeJSON(p.Check()), true)
	return nil
}

// ReadAnswer reads what Check gave.
func ReadAnswer(text string) (fold.Report, error) {
	var r fold.Report
	err := readJSON(text, &r)
	return r, err
}
