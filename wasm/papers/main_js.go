// The page's third program: it makes what leaves the page on paper or as a file, so that the page never waits. It is
// fetched when it is first needed. Told {id, ask} (see ask.PaperQuestion) it answers {id, pages, facts}, each page an SVG file
// with form feeds between them, {id, file} with the bytes of one, or {id, error, field}; and {id, done, all} meanwhile, where
// it takes long.
package main

import (
	"errors"
	"runtime/debug"
	"strings"
	"syscall/js"

	"dryfold/wasm/papers/press"
	"dryfold/wasm/session/ask"
)

func main() {
	debug.SetMemoryLimit(ask.Memory)
	self := js.Global()
	self.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		data := args[0].Get("data")
		self.Call("postMessage", answer(data.Get("id"), data.Get("ask").String()))
		return nil
	}))
	self.Call("postMessage", map[string]any{"ready": true})
	select {}
}

// answer is what is told of a question.
func answer(id js.Value, question string) map[string]any {
	q, err := ask.ReadPaper(question)
	if err != nil {
		return map[string]any{"id": id, "error": err.Error()}
	}
	made, err := press.Make(q, func(done, all int) {
		js.Global().Call("postMessage", map[string]any{"id": id, "done": done, "all": all})
	})
	var wrong *press.Wrong
	switch {
	case errors.As(err, &wrong):
		return map[string]any{"id": id, "error": wrong.Words, "field": wrong.Field}
	case made.File != nil:
		bytes := js.Global().Get("Uint8Array").New(len(made.File))
		js.CopyBytesToJS(bytes, made.File)
		return map[string]any{"id": id, "file": bytes}
	}
	return map[string]any{"id": id, "pages": strings.Join(made.Pages, "\f"), "facts": made.Facts}
}
