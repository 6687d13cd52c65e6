// Package files makes what the page's fourth program answers: the files that leave the page. It is plain Go, tested natively.
package files

import (
	"errors"
	"slices"
	"time"

	"dryfold/fold"
	"dryfold/fold/cutfile"
	"dryfold/fold/draft"
	"dryfold/fold/draft/pdf"
	"dryfold/fold/model"
	"dryfold/fold/paper"
	"dryfold/render/scene"
	"dryfold/render/scene/raster"
	"dryfold/wasm/papers/press"
	"dryfold/wasm/session/ask"
)

// Make answers a question for a file; an error is a *press.Wrong. Progress, which may be nil, is told how much of long work is done.
func Make(q ask.PaperQuestion, progress func(done, all int)) (out press.Made, err error) {
	defer press.Catch(&out, &err)
	p, r, err := press.Read(&q)
	if err != nil {
		return press.Made{}, err
	}
	if q.Options.Other && !slices.Contains(paper.Kinds, q.Want) { // the sheets see to it themselves
		spec := p.Spec.Mirrored()
		if spec.Name == p.Spec.Name {
			spec.Name += ", other hand"
		}
		p = fold.Build(spec)
		r = p.Quick()
	}
	switch q.Want {
	case "blank":
		out.File = draft.SVG(paper.Blank(p))
	case "machine":
		out.File, err = machine(&q, p)
	case "picture", "run", "solid":
		out.File, err = picture(&q, p, &r, progress)
	default:
		pages, err := press.Pages(&q, p, &r)
		if err != nil {
			return press.Made{}, err
		}
		if lost := pdf.Missing(draft.Words(pages)); lost != "" {
			out.Note = "The letters " + lost + " are boxes in it: no font of a PDF file has them. The page’s own Print has"
		}
		out.File, err = pdf.Write(p.Spec.Name, pages, time.Now())
		return out, err
	}
	return out, err
}

// machine makes the blank for cutting by machine.
func machine(q *ask.PaperQuestion, p *fold.Part) ([]byte, error) {
	f, err := cutfile.Make(p, q.Machine)
	var e *cutfile.Error
	if errors.As(err, &e) {
		field := e.Field
		if field == "gap width" {
			field = "gapwide"
		}
		return nil, &press.Wrong{Field: field, Words: e.Words}
	}
	if err != nil {
		return nil, err
	}
	if q.Ending == "svg" {
		return f.SVG(), nil
	}
	return f.DXF(), nil
}

// picture makes what shows the part: a picture, its run-through, or the part in space.
func picture(q *ask.PaperQuestion, p *fold.Part, r *fold.Report, progress func(done, all int)) ([]byte, error) {
	o := q.Picture
	switch q.Want {
	case "run":
		run := raster.RunThrough{W: o.W, H: o.H, View: o.View, Dark: o.Dark}
		if progress != nil {
			run.Progress = func(done, all int) bool { progress(done, all); return true }
		}
		return raster.GIF(p, r, run)
	case "solid":
		m, err := model.Make(p, scene.StateAt(p, o.Done), 0)
		if err != nil {
			return nil, err
		}
		if q.Ending == "stl" {
			return model.STL(m, p.Spec.Name), nil
		}
		return model.GLB(m, model.Options{Name: p.Spec.Name, Tint: true}), nil
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
		return raster.PNG(pic, o.View, o.W, o.H)
	}
	s, c := scene.Make(pic), scene.NewCamera(float64(o.W), float64(o.H))
	c.Yaw, c.Pitch = o.Yaw, o.Pitch
	s.Frame(&c)
	return raster.PNGSeen(s, c, 1)
}
