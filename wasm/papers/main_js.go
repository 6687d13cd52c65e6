// The page's third program: it makes what leaves the page on paper or as a file, so that the page never waits. It is
// fetched when it is first needed. Told {id, ask} (see ask.PaperQuestion) it answers {id, pages}, each page an SVG file
// with form feeds between them, {id, file} with the bytes of one, or {id, error}.
package main

import (
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
		answer := map[string]any{"id": data.Get("id")}
		q, err := ask.ReadPaper(data.Get("ask").String())
		if err == nil {
			var made press.Made
			if made, err = press.Make(q); err == nil {
				if made.File != nil {
					bytes := js.Global().Get("Uint8Array").New(len(made.File))
					js.CopyBytesToJS(bytes, made.File)
					answer["file"] = bytes
				} else {
					answer["pages"] = strings.Join(made.Pages, "\f")
				}
			}
		}
		if err != nil {
			answer["error"] = err.Error()
		}
		self.Call("postMessage", answer)
		return nil
	}))
	self.Call("postMessage", map[string]any{"ready": true})
	select {}
}
