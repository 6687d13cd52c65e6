// Package press makes what the page's third program answers: sheets as SVG to show and print, or as a PDF file, and the
// files that leave the page. It is plain Go, tested natively.
package press

import (
	"fmt"
	"time"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/draft/pdf"
	"dryfold/fold/paper"
	"dryfold/wasm/session/ask"
)

// Made is an answer: pages, each an SVG file, or the bytes of one file.
type Made struct {
	Pages []string
	File  []byte
}

// Make answers a question. A mistake of our own is an error too: the page says it, and goes on.
func Make(q ask.PaperQuestion) (out Made, err error) {
	defer func() {
		if r := recover(); r != nil {
			out, err = Made{}, fmt.Errorf("this could not be made, by a mistake in Dryfold: %v", r)
		}
	}()
	spec, err := ask.ReadQuestion(q.Part)
	if err != nil {
		return Made{}, err
	}
	p := fold.Build(spec)
	if q.Want == "blank" {
		return Made{File: draft.SVG(paper.Blank(p))}, nil
	}
	r := p.Sizes()
	if q.Report != "" {
		if r, err = ask.ReadAnswer(q.Report); err != nil {
			return Made{}, err
		}
	}
	pages, err := paper.Sheets(q.Want, p, &r, q.Job)
	if err != nil {
		return Made{}, err
	}
	if q.PDF {
		file, err := pdf.Write(spec.Name, pages, time.Now())
		return Made{File: file}, err
	}
	for _, g := range pages {
		out.Pages = append(out.Pages, string(draft.SVG(g)))
	}
	return out, nil
}
