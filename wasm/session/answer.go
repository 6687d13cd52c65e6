package session

// This file is what the page and its worker say to each other: a question holds
// the part by its blank, the answer the report with the places that the drawing
// needs, then the repairs that were found. Both are the page's own: what is read from
// files is read with more care, in partfile, which the worker is spared.

import (
	"errors"

	"dryfold/fold"
	"dryfold/fold/spread"
)

// Question is the open part as text for the second program: by its blank alone.
func (s *Session) Question() string { return WriteQuestion(s.Frozen()) }

// WriteQuestion writes a part given by its blank for ReadQuestion.
func WriteQuestion(spec fold.Spec) string {
	spec.Sizes = nil
	return writeJSON(spec)
}

// ReadQuestion reads what Question gave.
func ReadQuestion(text string) (fold.Spec, error) {
	var spec fold.Spec
	if err := readJSON(text, &spec); err != nil {
		return fold.Spec{}, err
	}
	if spec.Sizes != nil {
		return fold.Spec{}, errors.New("a part by its blank is wanted")
	}
	return spec, nil
}

// Check answers a question: tell is given, as text for Answer, the report with the seams ("gaps") as soon as it can be, then
// the whole report ("report"), and last the same with what errors of hand and machine make of the part ("spread").
func Check(question string, tell func(kind, text string)) error {
	spec, err := ReadQuestion(question)
	if err != nil {
		return err
	}
	p := fold.Build(spec)
	r := p.Quick()
	tell("gaps", writeJSON(r))
	r = p.Check()
	tell("report", writeJSON(r))
	spread.Add(p, &r, spread.Options{})
	tell("spread", writeJSON(r))
	return nil
}

// ReadAnswer reads what Check gave.
func ReadAnswer(text string) (fold.Report, error) {
	var r fold.Report
	err := readJSON(text, &r)
	return r, err
}
