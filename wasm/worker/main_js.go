// The page's second program: it checks parts for fouls and looks for repairs, so
// that the page never waits. It is told {id, part} and answers {id, gaps}, then
// {id, report} and {id, repairs}; a new part while it works means that the page ends it and starts
// another, so nothing here needs to look up from its work.
package main

import (
	"encoding/json"
	"syscall/js"

	"dryfold/wasm/session"
)

func main() {
	self := js.Global()
	answer := func(id js.Value, key, text string) {
		self.Call("postMessage", map[string]any{"id": id, key: text})
	}
	self.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		data := args[0].Get("data")
		id, part := data.Get("id"), data.Get("part").String()
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
		text, err := json.Marshal(session.FindRepairs(part, func() bool { return false }))
		if err != nil {
			answer(id, "error", err.Error())
			return nil
		}
		answer(id, "repairs", string(text))
		return nil
	}))
	self.Call("postMessage", map[string]any{"ready": true})
	select {}
}
