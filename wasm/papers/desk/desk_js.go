// Package desk is where the page's programs for sheets and for files take questions and give answers.
package desk

import (
	"errors"
	"runtime/debug"
	"strings"
	"syscall/js"

	"dryfold/wasm/papers/press"
	"dryfold/wasm/session/ask"
)

// Serve answers until the page ends the program. Told {id, ask} (see ask.PaperQuestion) it answers {id, pages, facts}, each page
// an SVG file with form feeds between them, {id, file} with the bytes of one, or {id, error, field}; and {id, done, all}
// meanwhile, where it takes long.
func Serve(maker func(q ask.PaperQuestion, progress func(done, all int)) (press.Made, error)) {
	debug.SetMemoryLimit(ask.Memory)
	self := js.Global()
	self.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		data := args[0].Get("data")
		self.Call("postMessage", answer(maker, data.Get("id"), data.Get("ask").String()))
		return nil
	}))
	self.Call("postMessage", map[string]any{"ready": true})
	select {}
}

// answer is what is told of a question.
func answer(maker func(ask.PaperQuestion, func(done, all int)) (press.Made, error), id js.Value, question string) map[string]any {
	q, err := ask.ReadPaper(question)
	if err != nil {
		return map[string]any{"id": id, "error": err.Error()}
	}
	made, err := maker(q, func(done, all int) {
		js.Global().Call("postMessage", map[string]any{"id": id, "done": done, "all": all})
	})
	var wrong *press.Wrong
	switch {
	case errors.As(err, &wrong):
		return map[string]any{"id": id, "error": wrong.Words, "field": wrong.Field}
	case err != nil:
		return map[string]any{"id": id, "error": err.Error()}
	case made.File != nil:
		bytes := js.Global().Get("Uint8Array").New(len(made.File))
		js.CopyBytesToJS(bytes, made.File)
		return map[string]any{"id": id, "file": bytes, "note": made.Note}
	}
	return map[string]any{"id": id, "pages": strings.Join(made.Pages, "\f"), "facts": made.Facts}
}
