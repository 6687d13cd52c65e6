package main

// This file has the marking-out sheet and the blank at true scale drawn: by the
// third program in a worker of its own, so that the page goes on meanwhile. The
// guide to a test bend is drawn here.

import (
	"strings"
	"syscall/js"

	"dryfold/fold/draft"
	"dryfold/fold/paper"
	"dryfold/wasm/screen"
)

// drafter is the page's hold on the worker that draws. Its program is fetched when it is first needed.
type drafter struct {
	asked  bool // it is being fetched, or there
	worker js.Value
	ready  bool
	wait   []map[string]any // questions for when it is ready
	hear   func(id int, kind, text string)
}

// ask puts a question: {id, draw: "sheets" or "blank", part, and for sheets units
// and report, the answer that the checker gave}.
func (d *drafter) ask(q map[string]any) {
	d.wait = append(d.wait, q)
	d.send()
}

// send puts the questions that wait, and has the program fetched for the first of them.
func (d *drafter) send() {
	if !d.asked && len(d.wait) > 0 {
		d.asked = true
		then := js.FuncOf(func(_ js.Value, args []js.Value) any { d.start(args[0]); return nil })
		fail := js.FuncOf(func(js.Value, []js.Value) any {
			d.asked = false // it may be asked for again
			for _, q := range d.wait {
				d.hear(q["id"].(int), "error", "")
			}
			d.wait = nil
			return nil
		})
		js.Global().Call("dryfoldModule", "papers.wasm").Call("then", then, fail)
	}
	if !d.ready {
		return
	}
	for _, q := range d.wait {
		d.worker.Call("postMessage", q)
	}
	d.wait = nil
}

// start starts the program.
func (d *drafter) start(module js.Value) {
	d.worker = js.Global().Get("Worker").New("worker.js")
	d.worker.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		data := args[0].Get("data")
		if data.Get("ready").Truthy() {
			d.ready = true
			d.send()
			return nil
		}
		for _, kind := range []string{"sheets", "blank", "error"} {
			if t := data.Get(kind); t.Type() == js.TypeString {
				d.hear(data.Get("id").Int(), kind, t.String())
			}
		}
		return nil
	}))
	d.worker.Call("postMessage", module)
}

// drawn takes what the drafter has drawn.
func (p *page) drawn(id int, kind, text string) {
	switch kind {
	case "blank":
		name, _ := p.s.Save()
		p.download(strings.TrimSuffix(name, ".dryfold")+"-blank.svg", "image/svg+xml", []byte(text))
		return
	case "error":
		text = ""
	}
	if id == p.marks {
		p.setMarks(strings.Split(text, "\f"))
		p.changed()
	}
}

// makeMarks has the marking-out sheet of the part on the bench drawn, once for
// every part and unit, when its word is chosen and the part has been checked.
func (p *page) makeMarks() {
	want := -1
	if p.s.Word().String() == "Marking out" && !p.s.ViewOnly() {
		want = p.s.Serial()*2 + int(p.s.Units())
	}
	p.c.Drawing = want >= 0 && (want != p.marks || p.c.Drawing)
	if want == p.marks || want >= 0 && !p.s.Checked() {
		return
	}
	p.marks = want
	if want < 0 {
		p.setMarks(nil)
		return
	}
	p.draw.ask(map[string]any{"id": want, "draw": "sheets", "part": p.s.Question(),
		"units": p.s.Units().String(), "report": p.answer})
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

// setMarks shows sheets, each an SVG drawing; none shows that none can be drawn.
func (p *page) setMarks(sheets []string) {
	p.c.Drawing = false
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
