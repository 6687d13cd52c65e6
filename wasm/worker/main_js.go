// The page's second program: it checks parts for fouls and looks for repairs, so
// that the page never waits. It is told {id, part} and answers {id, report}, then
// {id, repairs}; a new part while it works means that the page ends it and starts
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
		report, err := session.Check(part)
		if err != nil {
			answer(id, "error", err.Error())
			return nil
		}
		answer(id, "report", report)
		if found := session.FindRepairs(part, func() bool { return false }); len(found) > 0 {
			text, err := json.Marshal(found)
			if err == nil {
				answer(id, "repairs", string(text))
			}
		}
		return nil
	}))
	self.Call("postMessage", map[string]any{"ready": true})
	select {}
}
