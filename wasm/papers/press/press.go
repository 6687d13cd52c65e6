// Package press makes what the page's third program answers: sheets as SVG to show and print, or as a PDF file, and the
// files that leave the page. It is plain Go, tested natively. facts.go has what is told beside the sheets.
package press

import (
	"errors"
	"fmt"
	"time"

	"dryfold/fold"
	"dryfold/fold/ascut"
	"dryfold/fold/cutfile"
	"dryfold/fold/cutting"
	"dryfold/fold/draft"
	"dryfold/fold/draft/pdf"
	"dryfold/fold/model"
	"dryfold/fold/paper"
	"dryfold/render/scene"
	"dryfold/render/scene/raster"
	"dryfold/wasm/session/ask"
)

// Made is an answer: pages, each an SVG file, with what is told of them (ask.PaperFacts as text); or the bytes of one file.
type Made struct {
	Pages []string
	Facts string
	File  []byte
}

// Wrong is a question that can't be answered: the option that can't be, "" where it is none, and why.
type Wrong struct{ Field, Words string }

func (w *Wrong) Error() string { return w.Words }

// Make answers a question; an error is a *Wrong. A mistake of our own is one too: the page says it, and goes on. Progress, which
// may be nil, is told how much of long work is done.
func Make(q ask.PaperQuestion, progress func(done, all int)) (out Made, err error) {
	defer func() {
		if r := recover(); r != nil {
			out, err = Made{}, &Wrong{"", fmt.Sprintf("this could not be made, by a mistake in Dryfold: %v", r)}
		} else if err != nil {
			err = wrong(err)
		}
	}()
	spec, err := ask.ReadQuestion(q.Part)
	if err != nil {
		return Made{}, err
	}
	p := fold.Build(spec)
	r := p.Sizes()
	if q.Report != "" {
		if r, err = ask.ReadAnswer(q.Report); err != nil {
			return Made{}, err
		}
	}
	switch q.Want {
	case "blank":
		return Made{File: draft.SVG(paper.Blank(p))}, nil
	case "machine":
		f, err := cutfile.Make(p, q.Machine)
		if err != nil {
			return Made{}, err
		}
		if q.Ending == "svg" {
			return Made{File: f.SVG()}, nil
		}
		return Made{File: f.DXF()}, nil
	case "picture", "run", "solid":
		return picture(q, p, &r, progress)
	}
	job := paper.Job{Options: q.Options, Tools: q.Tools, Template: q.Template}
	job.Card = paper.CardOptions{TemplateOptions: q.Template, Thickness: q.Card.Thickness, Crease: q.Card.Crease, Sizes: q.Card.Sizes}
	if q.Card.Part != "" {
		job.Card.Make = func(fold.Spec) (fold.Spec, error) { return ask.ReadQuestion(q.Card.Part) }
	}
	var pages []draft.Page
	var told ask.PaperFacts
	switch q.Want { // of these the column tells what the sheet is made from
	case "check":
		list := ascut.Look(p, &r)
		told.Check = cutCheck(&q, p, &r, list)
		pages, err = paper.Check(p, &r, list, q.Options)
	case "cutting":
		plan := cutting.Make(p, q.Tools)
		told.Plan = cutPlan(&plan)
		pages, err = paper.Cutting(p, &r, plan, q.Options)
	default:
		pages, err = paper.Sheets(q.Want, p, &r, job)
	}
	if err != nil {
		return Made{}, err
	}
	if q.Ending == "pdf" {
		out.File, err = pdf.Write(spec.Name, pages, time.Now())
		return out, err
	}
	for _, g := range pages {
		out.Pages = append(out.Pages, string(draft.SVG(g)))
	}
	out.Facts = ask.Write(told)
	return out, nil
}

// wrong tells which option an error is about, by the page's names of them.
func wrong(err error) error {
	var w *Wrong
	var option *paper.FieldError
	var cut *cutfile.Error
	switch {
	case errors.As(err, &w):
		return w
	case errors.As(err, &option):
		field := map[string]string{"printed[0]": "across", "printed[1]": "down", "thickness": "cardthick"}[option.Field]
		if field == "" {
			field = option.Field
		}
		return &Wrong{field, option.Found + " won’t do. It takes " + option.Need}
	case errors.As(err, &cut):
		field := cut.Field
		if field == "gap width" {
			field = "gapwide"
		}
		return &Wrong{field, cut.Words}
	}
	return &Wrong{"", err.Error()}
}

// picture makes what shows the part: a picture, its run-through, or the part in space.
func picture(q ask.PaperQuestion, p *fold.Part, r *fold.Report, progress func(done, all int)) (out Made, err error) {
	o := q.Picture
	switch q.Want {
	case "run":
		run := raster.RunThrough{W: o.W, H: o.H, View: o.View, Dark: o.Dark}
		if progress != nil {
			run.Progress = func(done, all int) bool { progress(done, all); return true }
		}
		out.File, err = raster.GIF(p, r, run)
		return out, err
	case "solid":
		m, err := model.Make(p, scene.StateAt(p, o.Done), 0)
		if err != nil {
			return Made{}, err
		}
		if q.Ending == "stl" {
			return Made{File: model.STL(m, p.Spec.Name)}, nil
		}
		return Made{File: model.GLB(m, model.Options{Name: p.Spec.Name, Tint: true})}, nil
	}
	pic := scene.PictureAt(p, r, o.Done)
	pic.Dark = o.Dark
	if o.Plain {
		pic.Ticks, pic.Dims = false, false
	}
	pic.Format = func(mm float64) string {
		if q.Options.Units == fold.Inch {
			return fold.Fixed(mm/fold.Inch.Scale(), 3)
		}
		return fold.Fixed(mm, 1)
	}
	if o.View != "" {
		out.File, err = raster.PNG(pic, o.View, o.W, o.H)
		return out, err
	}
	s, c := scene.Make(pic), scene.NewCamera(float64(o.W), float64(o.H))
	c.Yaw, c.Pitch = o.Yaw, o.Pitch
	s.Frame(&c)
	out.File, err = raster.PNGSeen(s, c, 1)
	return out, err
}
