// Package press makes what the page's third program answers: sheets as SVG, to be shown and printed, and what is told of them.
// It is plain Go, tested natively. facts.go has what is told; the package files what is made to be saved.
package press

import (
	"errors"
	"fmt"

	"dryfold/fold"
	"dryfold/fold/ascut"
	"dryfold/fold/cutting"
	"dryfold/fold/draft"
	"dryfold/fold/paper"
	"dryfold/wasm/session/ask"
)

// Made is an answer: pages, each an SVG file, with what is told of them (ask.PaperFacts as text); or the bytes of one file.
type Made struct {
	Pages []string
	Facts string
	File  []byte
	Note  string // what to know of the file; "" for nothing
}

// Wrong is a question that can't be answered: the option that can't be, "" where it is none, and why.
type Wrong struct{ Field, Words string }

func (w *Wrong) Error() string { return w.Words }

// Catch makes the error that a question ends with a *Wrong; a mistake of our own is one too: the page says it, and goes on. It is
// deferred.
func Catch(out *Made, err *error) {
	if r := recover(); r != nil {
		*out, *err = Made{}, &Wrong{"", fmt.Sprintf("this could not be made, by a mistake in Dryfold: %v", r)}
	} else if *err != nil {
		*err = wrong(*err)
	}
}

// Read is a question's part and its report.
func Read(q *ask.PaperQuestion) (p *fold.Part, r fold.Report, err error) {
	spec, err := ask.ReadQuestion(q.Part)
	if err != nil {
		return nil, r, err
	}
	p = fold.Build(spec)
	if q.Report == "" {
		return p, p.Sizes(), nil
	}
	r, err = ask.ReadAnswer(q.Report)
	return p, r, err
}

// Sheets answers a question for sheets that are shown. An error is a *Wrong.
func Sheets(q ask.PaperQuestion, _ func(done, all int)) (out Made, err error) {
	defer Catch(&out, &err)
	p, r, err := Read(&q)
	if err != nil {
		return Made{}, err
	}
	var pages []draft.Page
	var told ask.PaperFacts
	switch q.Want { // of these the column tells what the sheet is made from
	case "check":
		list := ascut.Look(p, &r)
		cut, of, ruled, err := paper.CheckList(p, &r, list, q.Options)
		if err != nil {
			return Made{}, err
		}
		told.Check = cutCheck(&q, cut, of, ruled)
		if pages, err = paper.Check(p, &r, list, q.Options); err != nil {
			return Made{}, err
		}
	case "cutting":
		plan := cutting.Make(p, q.Tools)
		shown := plan
		if q.Options.Other { // as the sheet has it
			shown = cutting.Make(fold.Build(p.Spec.Mirrored()), q.Tools)
			if len(p.Spec.Struck) > 0 {
				told.Watch = append(told.Watch, "The sheet and this order are for the other hand. Struck lines were scribed on this part’s own blank and are not on it.")
			}
		}
		var words paper.CutWords
		if words, err = paper.CuttingWords(p, &r, plan, q.Options); err != nil {
			return Made{}, err
		}
		told.Plan = cutPlan(&shown, &words)
		pages, err = paper.Cutting(p, &r, plan, q.Options)
	default:
		pages, err = Pages(&q, p, &r)
	}
	if err != nil {
		return Made{}, err
	}
	for _, g := range pages {
		out.Pages = append(out.Pages, string(draft.SVG(g)))
	}
	out.Facts = ask.Write(told)
	return out, nil
}

// Pages are the pages of the sheet that a question is for.
func Pages(q *ask.PaperQuestion, p *fold.Part, r *fold.Report) ([]draft.Page, error) {
	job := paper.Job{Options: q.Options, Tools: q.Tools, Template: q.Template}
	job.Card = paper.CardOptions{TemplateOptions: q.Template, Thickness: q.Card.Thickness, Crease: q.Card.Crease, Sizes: q.Card.Sizes}
	if q.Card.Part != "" {
		job.Card.Make = func(fold.Spec) (fold.Spec, error) { return ask.ReadQuestion(q.Card.Part) }
	}
	return paper.Sheets(q.Want, p, r, job)
}

// wrong tells which option an error is about, by the page's names of them.
func wrong(err error) error {
	var w *Wrong
	var option *paper.FieldError
	switch {
	case errors.As(err, &w):
		return w
	case errors.As(err, &option):
		field := map[string]string{"printed[0]": "across", "printed[1]": "down", "thickness": "cardthick"}[option.Field]
		if field == "" {
			field = option.Field
		}
		return &Wrong{field, option.Found + " won’t do. It takes " + option.Need}
	}
	return &Wrong{"", err.Error()}
}
