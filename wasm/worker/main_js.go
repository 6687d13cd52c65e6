// The page's second program: it checks parts for fouls, tries what errors of hand and machine make of them and looks for
// repairs, so that the page never waits. It is told {id, part} and answers {id, gaps}, {id, report}, {id, spread} and
// {id, repairs}; a new part while it works means that the page ends it and starts another, so nothing here needs to
// look up from its work.
package main

import (
	"runtime/debug"
	"syscall/js"

	"dryfold/wasm/session/ask"
)

func main() {
	debug.SetMemoryLimit(ask.Memory)
	self := js.Global()
	answer := func(id js.Value, key, text string) {
		self.Call("postMessage", map[string]any{"id": id, key: text})
	}
	self.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		data := args[0].Get("data")
		id, part := data.Get("id"), data.Get("part").String()
		err := ask.Check(part, func(kind, text string) { answer(id, kind, text) })
		if err != nil {
			answer(id, "error", err.Error())
			return nil
		}
		answer(id, "repairs", ask.WriteRepairs(ask.FindRepairs(part, func() bool { return false })))
		return nil
	}))
	self.Call("postMessage", map[string]any{"ready": true})
	select {}
}
