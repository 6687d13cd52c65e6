// The page's third program: it draws the marking-out sheets and the blank, so that the page never waits. It is fetched
// when it is first needed. Told {id, part, draw} it answers {id, sheets}, the pages with form feeds between them, or
// {id, blank}.
package main

import (
	"runtime/debug"
	"strings"
	"syscall/js"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/paper"
	"dryfold/wasm/session/ask"
)

func main() {
	debug.SetMemoryLimit(ask.Memory)
	self := js.Global()
	self.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		data := args[0].Get("data")
		what := data.Get("draw").String()
		text, err := drawn(what, data.Get("part").String(), data)
		if err != nil {
			what, text = "error", err.Error()
		}
		self.Call("postMessage", map[string]any{"id": data.Get("id"), what: text})
		return nil
	}))
	self.Call("postMessage", map[string]any{"ready": true})
	select {}
}

// drawn draws the sheets or the blank of a question's part.
func drawn(what, part string, data js.Value) (string, error) {
	spec, err := ask.ReadQuestion(part)
	if err != nil {
		return "", err
	}
	p := fold.Build(spec)
	if what == "blank" {
		return string(draft.SVG(paper.Blank(p))), nil
	}
	r := p.Sizes()
	if text := data.Get("report").String(); text != "" {
		if r, err = ask.ReadAnswer(text); err != nil {
			return "", err
		}
	}
	u := fold.MM
	if data.Get("units").String() == fold.Inch.String() {
		u = fold.Inch
	}
	pages, err := paper.MarkingOut(p, &r, paper.Options{Units: u})
	if err != nil {
		return "", err
	}
	texts := make([]string, len(pages))
	for i, g := range pages {
		texts[i] = string(draft.SVG(g))
	}
	return strings.Join(texts, "\f"), nil
}
