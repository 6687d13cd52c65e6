// Package ask is what the page and its other programs say to each other: a question holds the part by its blank, the
// answer the report with the places that the drawing needs, then the repairs that were found. All are the page's own:
// what is read from files is read with more care, in partfile, which the other programs are spared, as they are all of
// session. words.go holds the few words that both sides need.
package ask

import (
	"errors"

	"dryfold/fold"
	"dryfold/fold/spread"
)

// Memory is from where on the page's programs collect garbage with all their might (bytes): a phone
// closes a page that holds much more, and in a browser the collector falls behind if it may.
const Memory = 200 << 20

// WriteQuestion writes a part given by its blank for ReadQuestion.
func WriteQuestion(spec fold.Spec) string {
	spec.Sizes = nil
	return Write(spec)
}

// ReadQuestion reads what WriteQuestion gave.
func ReadQuestion(text string) (fold.Spec, error) {
	var spec fold.Spec
	if err := Read(text, &spec); err != nil {
		return fold.Spec{}, err
	}
	if spec.Sizes != nil {
		return fold.Spec{}, errors.New("a part by its blank is wanted")
	}
	return spec, nil
}

// Check answers a question: tell is given, as text for ReadAnswer, the report with the seams ("gaps") as soon as it can be, then
// the whole report ("report"), and last the same with what errors of hand and machine make of the part ("spread").
func Check(question string, tell func(kind, text string)) error {
	spec, err := ReadQuestion(question)
	if err != nil {
		return err
	}
	p := fold.Build(spec)
	r := p.Quick()
	tell("gaps", Write(r))
	r = p.Check()
	tell("report", Write(r))
	spread.Add(p, &r, spread.Options{})
	tell("spread", Write(r))
	return nil
}

// ReadAnswer reads what Check gave.
func ReadAnswer(text string) (fold.Report, error) {
	var r fold.Report
	err := Read(text, &r)
	return r, err
}
