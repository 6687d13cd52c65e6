package main

// This file starts and ends the second program. One part is asked about at a
// time; a newer part ends the worker and starts a fresh one.

import "syscall/js"

// checker is the page's hold on the second program.
type checker struct {
	module js.Value // compiled; undefined until it has been fetched
	worker js.Value
	busy   bool
	ready  bool
	asked  int    // serial of the part being checked
	part   string // waiting to be asked when the worker is ready
	hear   func(serial int, kind, text string)
	failed func(why string)
	on     bool
	timer  js.Value // asks when the hand has rested
	rested js.Func
}

// restMS is how long a part must stay as it is before it is checked.
const restMS = 200

// start fetches the program; it is called once the first picture stands.
func (c *checker) start() {
	if c.on {
		return
	}
	c.on = true
	c.rested = js.FuncOf(func(js.Value, []js.Value) any { c.begin(); return nil })
	then := js.FuncOf(func(_ js.Value, args []js.Value) any {
		c.module = args[0]
		c.spawn()
		return nil
	})
	fail := js.FuncOf(func(_ js.Value, args []js.Value) any {
		c.on = false
		c.failed(args[0].Get("message").String())
		return nil
	})
	js.Global().Call("dryfoldModule", "worker.wasm").Call("then", then, fail)
}

func (c *checker) spawn() {
	c.ready, c.busy = false, false
	w := js.Global().Get("Worker").New("worker.js")
	c.worker = w
	w.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if !w.Equal(c.worker) {
			return nil
		}
		data := args[0].Get("data")
		if data.Get("ready").Truthy() {
			c.ready = true
			c.send()
			return nil
		}
		serial := data.Get("id").Int()
		for _, kind := range []string{"gaps", "report", "spread", "repairs", "error"} {
			if t := data.Get(kind); t.Type() == js.TypeString {
				c.busy = kind != "repairs" && kind != "error" // else it goes on to the next
				c.hear(serial, kind, t.String())
			}
		}
		return nil
	}))
	w.Set("onerror", js.FuncOf(func(_ js.Value, args []js.Value) any {
		c.failed(args[0].Get("message").String())
		return nil
	}))
	w.Call("postMessage", c.module)
}

// ask has a part checked, in place of whatever is being checked.
func (c *checker) ask(serial int, part string) {
	c.asked, c.part = serial, part
	if c.timer.Truthy() {
		window.Call("clearTimeout", c.timer)
	}
	c.timer = window.Call("setTimeout", c.rested, restMS)
}

// begin sends the part that waits, ending the work on the one before.
func (c *checker) begin() {
	if c.module.IsUndefined() || c.part == "" {
		return
	}
	if c.busy {
		c.worker.Call("terminate")
		c.spawn()
		return
	}
	c.send()
}

func (c *checker) send() {
	if !c.ready || c.part == "" {
		return
	}
	c.busy = true
	c.worker.Call("postMessage", map[string]any{"id": c.asked, "part": c.part})
	c.part = ""
}
