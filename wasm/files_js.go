package main

// This file opens and saves: files by picker and by drop, links, and what the
// browser keeps between visits.

import (
	"strings"
	"syscall/js"

	"dryfold/fold/partfile"
	"dryfold/wasm/session"
)

// What is kept in the browser, by name: the work, and the maker's own test bends and
// metals, which outlast any part.
const (
	keepKey  = "dryfold.work"
	benchKey = "dryfold.bench"
)

// openings opens what is asked for at the start - a link's part, or the work kept
// in this browser - and listens for files dropped and links pasted.
func (p *page) openings() {
	if store := storage(); store.Truthy() {
		if text := store.Call("getItem", keepKey); text.Type() == js.TypeString {
			if stamp, err := p.s.Restore(text.String()); err == nil {
				p.c.Saved = stamp
				p.kept = p.s.Place()
			}
		}
	}
	p.openBench()
	p.openFragment()
	window.Call("addEventListener", "hashchange", js.FuncOf(func(js.Value, []js.Value) any {
		p.openFragment()
		p.changed()
		return nil
	}))
	// Before the canvas hears of it.
	window.Call("addEventListener", "dragover", js.FuncOf(func(_ js.Value, args []js.Value) any {
		args[0].Call("preventDefault")
		return nil
	}), true)
	window.Call("addEventListener", "drop", js.FuncOf(func(_ js.Value, args []js.Value) any {
		args[0].Call("preventDefault")
		args[0].Call("stopPropagation")
		if files := args[0].Get("dataTransfer").Get("files"); files.Truthy() && files.Length() > 0 {
			p.readFile(files.Index(0))
		}
		return nil
	}), true)
	window.Call("addEventListener", "pagehide", js.FuncOf(func(js.Value, []js.Value) any {
		if p.first && !p.s.ViewOnly() {
			p.store()
		}
		return nil
	}))
	document.Call("addEventListener", "visibilitychange", js.FuncOf(func(js.Value, []js.Value) any {
		if document.Get("visibilityState").String() == "visible" {
			p.awake = js.Undefined() // a hidden page loses its hold on the screen
			p.changed()
		}
		return nil
	}))
	window.Call("addEventListener", "keydown", js.FuncOf(func(_ js.Value, args []js.Value) any {
		p.shortcut(args[0])
		return nil
	}))
}

// shortcut takes Ctrl or Cmd with Z, Y and S, where no field has them.
func (p *page) shortcut(e js.Value) {
	if !e.Get("ctrlKey").Bool() && !e.Get("metaKey").Bool() || p.s.ViewOnly() {
		return
	}
	if t := e.Get("target"); t.Get("tagName").String() == "INPUT" && t.Get("type").String() != "range" {
		return
	}
	switch key := e.Get("key").String(); {
	case key == "z" && !e.Get("shiftKey").Bool():
		p.s.Undo()
	case key == "y", key == "Z", key == "z":
		p.s.Redo()
	case key == "s":
		p.saveFile()
	default:
		return
	}
	e.Call("preventDefault")
	p.changed()
}

// openFragment opens the part that the address carries behind #, if it does.
func (p *page) openFragment() {
	hash := window.Get("location").Get("hash").String()
	if len(hash) < 2 {
		return
	}
	if err := p.s.OpenLink(hash); err != nil {
		p.c.Fail("This link can’t be opened: " + plain(err) + ". Here is a ready part instead.")
		p.s.OpenSpec(firstPart())
		p.clearFragment()
	}
}

// clearFragment takes the part out of the address, so that a reload opens the work.
func (p *page) clearFragment() {
	loc := window.Get("location")
	window.Get("history").Call("replaceState", js.Null(), "", loc.Get("pathname").String()+loc.Get("search").String())
}

// keep stores the work in the browser whenever it has changed.
func (p *page) keep() {
	if p.s.ViewOnly() || !p.first {
		return
	}
	now := p.s.Place()
	if now == p.kept {
		return
	}
	p.kept = now
	if p.pending {
		return
	}
	p.pending = true
	// A drag makes many changes: they are stored together, soon after.
	window.Call("setTimeout", js.FuncOf(func(js.Value, []js.Value) any {
		p.pending = false
		p.store()
		return nil
	}), 250)
}

func (p *page) store() {
	if p.s.ViewOnly() {
		return
	}
	was, notice := p.c.Saved, p.c.Notice
	stamp := js.Global().Get("Date").New().Call("toLocaleTimeString", js.Undefined(), map[string]any{"hour": "2-digit", "minute": "2-digit"}).String()
	ok := false
	if store := storage(); store.Truthy() {
		ok = try(func() { store.Call("setItem", keepKey, p.s.Keep(stamp)) })
	}
	if !ok {
		if p.c.Notice == "" {
			p.c.Fail("This browser keeps nothing here: save the part as a file before you leave")
		}
		stamp = ""
	}
	p.c.Saved = stamp
	if window.Get("location").Get("hash").String() != "" {
		p.clearFragment()
	}
	if p.c.Saved != was || p.c.Notice != notice {
		p.patch.patch(p.c.Page())
	}
}

// storage is the browser's store, undefined where it is switched off.
func storage() (v js.Value) {
	try(func() { v = window.Get("localStorage") })
	return v
}

// try runs f and reports whether the browser let it.
func try(f func()) (ok bool) {
	defer func() {
		if r := recover(); r != nil {
			if _, thrown := r.(js.Error); !thrown {
				panic(r)
			}
			ok = false
		}
	}()
	f()
	return true
}

func plain(err error) string {
	if e, ok := err.(*partfile.Error); ok {
		where := e.Path
		if where != "" {
			where += ": "
		}
		return where + "found " + e.Found + "; it needs " + e.Need
	}
	return err.Error()
}

// pickFile lets the user choose a part file.
func (p *page) pickFile() {
	in := document.Call("createElement", "input")
	in.Set("type", "file")
	in.Set("accept", ".dryfold,.drybends,.json,application/json")
	in.Call("addEventListener", "change", js.FuncOf(func(js.Value, []js.Value) any {
		if files := in.Get("files"); files.Length() > 0 {
			p.readFile(files.Index(0))
		}
		return nil
	}))
	in.Call("click")
}

// readFile opens a file that was picked or dropped.
func (p *page) readFile(file js.Value) {
	name := file.Get("name").String()
	if size := file.Get("size").Float(); size > partfile.MaxFile {
		p.c.Fail(name + " is too large for a part file")
		p.changed()
		return
	}
	then := js.FuncOf(func(_ js.Value, args []js.Value) any {
		data := make([]byte, args[0].Get("byteLength").Int())
		js.CopyBytesToGo(data, js.Global().Get("Uint8Array").New(args[0]))
		if strings.HasSuffix(strings.ToLower(name), ".drybends") || partfile.IsBench(data) {
			p.mergeBench(name, data)
		} else if err := p.s.Open(data); err != nil {
			p.c.Fail(name + " can’t be opened: " + err.Error())
		} else {
			p.c.Tell(name + " is on the bench")
			p.turnTo = "home"
			p.clearFragment()
		}
		p.changed()
		return nil
	})
	fail := js.FuncOf(func(_ js.Value, args []js.Value) any {
		p.c.Fail(name + " can’t be read: " + args[0].Get("message").String())
		p.changed()
		return nil
	})
	file.Call("arrayBuffer").Call("then", then, fail)
}

// openBench takes the maker's bench that was kept in this browser, and follows what
// other tabs do to it.
func (p *page) openBench() {
	p.benched = p.s.BenchSerial()
	store := storage()
	if !store.Truthy() {
		return
	}
	take := func(text js.Value) {
		if text.Type() != js.TypeString {
			return
		}
		if err := p.s.TakeBench(text.String()); err != nil {
			p.c.BenchLost = true
			p.c.Fail("The test bends kept in this browser can’t be read (" + plain(err) + "). They are left as they are; new ones stay in the part")
			return
		}
		p.benched = p.s.BenchSerial()
	}
	take(store.Call("getItem", benchKey))
	window.Call("addEventListener", "storage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if key := args[0].Get("key"); key.Type() == js.TypeString && key.String() == benchKey {
			take(args[0].Get("newValue"))
			p.changed()
		}
		return nil
	}))
}

// keepBench stores the maker's bench whenever it has changed. What can't be read is
// never written over.
func (p *page) keepBench() {
	if p.benched == p.s.BenchSerial() {
		return
	}
	p.benched = p.s.BenchSerial()
	was := p.c.BenchLost
	store := storage()
	if was && store.Truthy() && store.Call("getItem", benchKey).Type() == js.TypeString {
		return
	}
	p.c.BenchLost = !store.Truthy() || !try(func() { store.Call("setItem", benchKey, p.s.KeepBench()) })
	if p.c.BenchLost && !was {
		p.c.Fail("This browser can’t keep your test bends: its store is full or switched off. They are in the part; save them as a file too")
	}
}

// mergeBench adds a file of test bends and metals to the bench.
func (p *page) mergeBench(name string, data []byte) {
	said, err := p.s.MergeBench(data)
	if err != nil {
		p.c.Fail(name + " can’t be opened: " + plain(err))
		return
	}
	p.c.Tell(name + ": " + said)
	p.s.SetWord(session.Metal)
}

// saveBench hands the maker's bench to the browser's downloads.
func (p *page) saveBench() {
	name, data := p.s.SaveBench()
	p.download(name, "application/json", data)
	p.c.Tell("Saved as " + name)
}

// saveFile hands the part file to the browser's downloads.
func (p *page) saveFile() {
	name, data := p.s.Save()
	p.download(name, "application/json", data)
	p.c.Tell("Saved as " + name)
}

func (p *page) download(name, kind string, data []byte) {
	url := blobURL(kind, data)
	a := document.Call("createElement", "a")
	a.Set("href", url)
	a.Set("download", name)
	a.Call("click")
	window.Call("setTimeout", js.FuncOf(func(js.Value, []js.Value) any {
		window.Get("URL").Call("revokeObjectURL", url)
		return nil
	}), 10_000)
}

func blobURL(kind string, data []byte) string {
	bytes := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(bytes, data)
	blob := js.Global().Get("Blob").New([]any{bytes}, map[string]any{"type": kind})
	return window.Get("URL").Call("createObjectURL", blob).String()
}

// share copies a link that holds the whole part.
func (p *page) share() {
	fragment, err := p.s.Link()
	if err != nil {
		p.c.Fail("This part is too large for a link: save it as a file and send that")
		return
	}
	loc := window.Get("location")
	link := loc.Get("origin").String() + loc.Get("pathname").String() + "#" + fragment
	clip := window.Get("navigator").Get("clipboard")
	manual := func() {
		p.c.Give("Copy this link: " + link)
		p.changed()
	}
	if !clip.Truthy() {
		manual()
		return
	}
	clip.Call("writeText", link).Call("then",
		js.FuncOf(func(js.Value, []js.Value) any {
			p.c.Tell("Link copied. It holds the whole part; whoever opens it can look and take a copy")
			p.changed()
			return nil
		}),
		js.FuncOf(func(js.Value, []js.Value) any { manual(); return nil }))
}
