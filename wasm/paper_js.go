package main

// This file has sheets and files made: by the third program and the fourth, each in a worker of its own, so that the page goes on
// meanwhile. The guide to a test bend is drawn here.

import (
	"strings"
	"syscall/js"

	"dryfold/fold/draft"
	"dryfold/fold/paper"
	"dryfold/wasm/screen"
	"dryfold/wasm/session/ask"
)

// drafter is the page's hold on the third program, or the fourth, which is fetched when it is first needed.
type drafter struct {
	program string // "papers.wasm"
	asked   bool   // it is being fetched, or there
	module  js.Value
	worker  js.Value
	ready   bool
	last    int                           // the number of the last question
	wait    []map[string]any              // questions for when it is ready
	hear    map[int]func(answer js.Value) // by the question's number; undefined where the program could not be fetched
}

// ask puts a question; hear is told the answer: {pages}, {file} or {error}.
func (d *drafter) ask(q ask.PaperQuestion, hear func(answer js.Value)) {
	d.last++
	if d.hear == nil {
		d.hear = map[int]func(js.Value){}
	}
	d.hear[d.last] = hear
	d.wait = append(d.wait, map[string]any{"id": d.last, "ask": ask.WritePaper(q)})
	d.send()
}

// send puts the questions that wait, and has the program fetched for the first of them.
func (d *drafter) send() {
	if !d.asked && len(d.wait) > 0 {
		d.asked = true
		then := js.FuncOf(func(_ js.Value, args []js.Value) any { d.start(args[0]); return nil })
		fail := js.FuncOf(func(js.Value, []js.Value) any {
			d.asked = false // it may be asked for again
			d.drop()
			return nil
		})
		js.Global().Call("dryfoldModule", d.program).Call("then", then, fail)
	}
	if !d.ready {
		return
	}
	for _, q := range d.wait {
		d.worker.Call("postMessage", q)
	}
	d.wait = nil
}

// drop tells all who wait that nothing comes.
func (d *drafter) drop() {
	waiting := d.hear
	d.hear, d.wait = nil, nil
	for _, hear := range waiting {
		hear(js.Undefined())
	}
}

// start starts the program.
func (d *drafter) start(module js.Value) {
	w := js.Global().Get("Worker").New("worker.js")
	d.module, d.worker, d.ready = module, w, false
	w.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if !w.Equal(d.worker) {
			return nil
		}
		data := args[0].Get("data")
		if data.Get("ready").Truthy() {
			d.ready = true
			d.send()
			return nil
		}
		id := data.Get("id").Int()
		if hear := d.hear[id]; hear != nil {
			if data.Get("all").Type() != js.TypeNumber {
				delete(d.hear, id)
			}
			hear(data)
		}
		return nil
	}))
	w.Set("onerror", js.FuncOf(func(js.Value, []js.Value) any {
		if w.Equal(d.worker) {
			d.stop()
		}
		return nil
	}))
	w.Call("postMessage", module)
}

// stop ends what the program is at, and starts it afresh.
func (d *drafter) stop() {
	if !d.module.Truthy() {
		return
	}
	d.worker.Call("terminate")
	d.drop()
	d.start(d.module)
}

// noProgram is said where the third program can't be fetched.
const noProgram = "The program that makes sheets and files could not be fetched. Are you on line?"

// kinds are the media types of files by their endings.
var kinds = map[string]string{"svg": "image/svg+xml", "pdf": "application/pdf", "dxf": "image/vnd.dxf", "png": "image/png", "gif": "image/gif",
	"stl": "model/stl", "glb": "model/gltf-binary"}

// export has a file made and saves it.
func (p *page) export(q ask.PaperQuestion, file string) {
	q.Report = p.answer
	q.Picture.Yaw, q.Picture.Pitch = p.view.Direction()
	c := p.c
	c.Making, c.MadeDone, c.MadeOf = file, 0, 0
	c.RefuseFile("")
	p.files.ask(q, func(answer js.Value) {
		if answer.Truthy() && answer.Get("all").Type() == js.TypeNumber {
			c.MadeDone, c.MadeOf = answer.Get("done").Int(), answer.Get("all").Int()
			p.changed()
			return
		}
		stopped := c.Making != file
		c.Making = ""
		switch {
		case stopped:
		case !answer.Truthy():
			c.Fail(noProgram + " Try again")
		case answer.Get("error").Type() == js.TypeString:
			words, field := answer.Get("error").String(), answer.Get("field").String()
			if field != "" && p.s.HasPaperField(field) {
				p.s.RefusePaper(field, words)
			} else if q.Want == "machine" {
				c.RefuseFile(words)
			} else {
				c.Fail(screen.Upper(words))
			}
		default:
			from := answer.Get("file")
			data := make([]byte, from.Length())
			js.CopyBytesToGo(data, from)
			p.download(file, kinds[file[strings.LastIndexByte(file, '.')+1:]], data)
			if note := answer.Get("note").String(); note != "" {
				c.Give(file + " is saved. " + note)
			} else {
				c.Tell(file + " is saved")
			}
		}
		p.changed()
	})
	p.changed()
}

// drawAgain has the sheet asked for once more.
func (p *page) drawAgain() {
	p.marks = ""
	p.changed()
}

// stopMaking ends the making of a file.
func (p *page) stopMaking() {
	p.c.Making = ""
	p.files.stop()
	p.changed()
}

// makeMarks has the sheet that stands open under Marking out drawn, once for each part and choice, when the part has been checked.
func (p *page) makeMarks() {
	kind, want := p.s.Sheet()
	p.c.Drawing = want != "" && (want != p.marks || p.c.Drawing)
	known := p.s.Checked()
	if kind == "cards" { // they tell what the finished gaps may come to
		known = p.s.SpreadKnown()
	}
	if want == p.marks {
		return
	}
	if !strings.HasPrefix(p.marks, kind+" ") || kind == "" { // another sheet's pages, and what is told of it, say nothing of this one
		p.setMarks(nil)
		p.s.SetSheetFacts("")
		p.marks, p.c.NoSheet, p.c.Unfetched = "", "", false
	}
	if want != "" && !known {
		return
	}
	p.marks = want
	p.c.NoSheet, p.c.Unfetched = "", false
	if want == "" {
		return
	}
	p.c.Drawing = true
	q := p.s.PaperQuestion(kind, "")
	q.Report = p.answer
	p.draw.ask(q, func(answer js.Value) {
		if p.marks != want {
			return
		}
		p.c.Drawing = false
		switch {
		case !answer.Truthy():
			p.setMarks(nil)
			p.s.SetSheetFacts("")
			p.c.NoSheet, p.c.Unfetched = noProgram, true
		case answer.Get("error").Type() == js.TypeString:
			p.setMarks(nil)
			p.s.SetSheetFacts("")
			p.c.NoSheet = answer.Get("error").String()
			if field := answer.Get("field").String(); field != "" && p.s.HasPaperField(field) {
				p.s.RefusePaper(field, p.c.NoSheet)
			}
		default:
			p.s.SetSheetFacts(answer.Get("facts").String())
			p.setMarks(strings.Split(answer.Get("pages").String(), "\f"))
		}
		p.changed()
	})
}

// guide draws the guide to a test bend for the part's sheet, shows it over the bench, and has
// it printed once its picture stands. It takes no time to speak of.
func (p *page) guide() {
	for _, m := range p.c.Guide {
		window.Get("URL").Call("revokeObjectURL", m.Src)
	}
	svg := draft.SVG(paper.Guide(paper.GuideOptions{Units: p.s.Units(), Metal: p.s.Spec().Sheet.Metal, Thickness: p.s.Part().Thickness}))
	w, h := screen.SheetSize(svg)
	p.c.Guide = []screen.Sheet{{Src: blobURL("image/svg+xml", svg), W: w, H: h}}
	p.changed()
	img := document.Call("querySelector", ".paper img")
	if !img.Truthy() {
		return // another word is chosen
	}
	var print js.Func
	print = js.FuncOf(func(js.Value, []js.Value) any {
		print.Release()
		window.Call("print")
		return nil
	})
	img.Call("decode").Call("then", print, print)
}

// setMarks shows sheets, each an SVG drawing.
func (p *page) setMarks(sheets []string) {
	for _, m := range p.c.Marks {
		window.Get("URL").Call("revokeObjectURL", m.Src)
	}
	p.c.Marks = nil
	style := document.Get("styleSheets").Index(0)
	for ; p.leaves > 0; p.leaves-- {
		style.Call("deleteRule", style.Get("cssRules").Length()-1)
	}
	for i, text := range sheets {
		if text == "" {
			continue
		}
		svg := []byte(text)
		w, h := screen.SheetSize(svg)
		m := screen.Sheet{Src: blobURL("image/svg+xml", svg), W: w, H: h}
		p.c.Marks = append(p.c.Marks, m)
		if try(func() { style.Call("insertRule", screen.LeafRule(i, m), style.Get("cssRules").Length()) }) {
			p.leaves++ // a browser that knows no named pages prints on the paper that is set
		}
	}
}
