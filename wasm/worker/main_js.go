// The page's second program: it checks parts for fouls, looks for repairs and
// draws the marking-out sheets, so that the page never waits. It is told {id, part}
// and answers {id, gaps}, then {id, report} and {id, repairs}; a new part while it
// works means that the page ends it and starts another, so nothing here needs to
// look up from its work. Told {id, part, draw} it answers {id, sheets}, the pages
// with form feeds between them, or {id, blank}; the page has a worker apart for that.
package main

import (
	"runtime/debug"
	"strings"
	"syscall/js"

	"dryfold/fold"
	"dryfold/fold/paper"
	"dryfold/wasm/session"
)

func main() {
	debug.SetMemoryLimit(session.Memory)
	self := js.Global()
	answer := func(id js.Value, key, text string) {
		self.Call("postMessage", map[string]any{"id": id, key: text})
	}
	self.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		data := args[0].Get("data")
		id, part := data.Get("id"), data.Get("part").String()
		if what := data.Get("draw"); what.Truthy() {
			text, err := drawn(what.String(), part, data)
			if err != nil {
				answer(id, "error", err.Error())
				return nil
			}
			answer(id, what.String(), text)
			return nil
		}
		err := session.Check(part, func(report string, whole bool) {
			if whole {
				answer(id, "report", report)
			} else {
				answer(id, "gaps", report)
			}
		})
		if err != nil {
			answer(id, "error", err.Error())
			return nil
		}
		answer(id, "repairs", session.WriteRepairs(session.FindRepairs(part, func() bool { return false })))
		return nil
	}))
	self.Call("postMessage", map[string]any{"ready": true})
	select {}
}

// drawn draws the sheets or the blank of a question's part.
func drawn(what, part string, data js.Value) (string, error) {
	spec, err := session.ReadQuestion(part)
	if err != nil {
		return "", err
	}
	p := fold.Build(spec)
	if what == "blank" {
		return string(paper.Blank(p)), nil
	}
	r := p.Sizes()
	if text := data.Get("report").String(); text != "" {
		if r, err = session.ReadAnswer(text); err != nil {
			return "", err
		}
	}
	u := fold.MM
	if data.Get("units").String() == fold.Inch.String() {
		u = fold.Inch
	}
	pages, err := paper.Sheets(p, &r, paper.Options{Units: u})
	if err != nil {
		return "", err
	}
	texts := make([]string, len(pages))
	for i, svg := range pages {
		texts[i] = string(svg)
	}
	return strings.Join(texts, "\f"), nil
}
