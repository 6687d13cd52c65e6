// Dryfold in the browser: this program draws the bench on a canvas and keeps the
// page's words and numbers beside it. What the page says is made in screen, what
// it knows in session; here they meet the browser. bench_js.go ties the bench,
// files_js.go files, links and what the browser keeps, worker_js.go and
// paper_js.go the second program, patch_js.go the page's elements.
package main

import (
	"runtime/debug"
	"syscall/js"
	"time"

	"dryfold/render"
	"dryfold/render/scene"
	"dryfold/wasm/screen"
	"dryfold/wasm/session"
	"dryfold/wasm/session/ask"
)

// page ties the session to the browser.
type page struct {
	s       *session.Session
	c       *screen.Screen
	patch   *patcher
	view    *render.View
	check   *checker
	labels  *labels
	serial  int           // of the part last asked about
	kept    session.Place // what was last kept
	draw    *drafter      // of sheets
	files   *drafter
	answer  string // the whole report of the part on the bench as the second program gave it, "" before
	leaves  int    // how many rules for printed pages stand at the style's end
	marks   string // which sheet was last asked for, as session.Sheet tells them apart
	dark    bool
	still   bool // the user asked for less motion
	awake   js.Value
	first   bool // the first picture stands
	phone   bool // a narrow screen
	pending bool
	benched int // the serial of the maker's bench that is kept
	running bool
	noticed string // the notice that was last seen
	turnTo  string // the view to turn to once the picture is shown
	shown   place  // what stands in sight
}

func main() {
	debug.SetMemoryLimit(ask.Memory)
	p := &page{}
	p.s = session.New(firstPart())
	p.c = screen.New(p.s, p.deeds(), demoList())
	p.follow("(prefers-color-scheme: dark)", func(on bool) { p.dark = on })
	p.follow("(prefers-reduced-motion: reduce)", func(on bool) { p.still = on })
	p.follow("(max-width: 1000px), (max-aspect-ratio: 1/1)", func(on bool) { p.c.Narrow = on })
	p.follow("(max-width: 700px)", func(on bool) { p.phone, p.c.Phone = on, on })
	p.check = &checker{hear: p.hear, failed: func(why string) {
		p.c.Fail("Fouls can’t be looked for: the second program could not be fetched (" + why + ")")
		p.changed()
	}}
	p.draw, p.files = &drafter{program: "papers.wasm"}, &drafter{program: "files.wasm"}
	p.labels = newLabels()
	p.view = render.New(p.callbacks())
	p.patch = newPatcher(document.Call("getElementById", "app"), p.changed)
	p.expose()
	p.openings()
	p.changed()
	p.shake()
	if err := p.view.Run(); err != nil {
		panic(err)
	}
}

// shelfHigh is the height of the shelf as the page's style has it (--s), px. It lies over the bench: the canvas keeps its
// size from word to word.
const shelfHigh = 102

// insets keeps the part clear of what stands over the bench: the view words along
// its upper edge, the swing along its lower one.
func (p *page) insets() {
	top, right, bottom := 66.0, 0.0, 66.0
	m := p.c.Mode()
	if m["swing"] != "shown" {
		bottom = 12
	}
	if p.phone {
		switch {
		case m["sheet"] == "tall":
			top = 8
		case m["word"] == "seams": // the ticks' scale stands under the view words
			top += 22
		}
		if m["swing"] != "shown" {
			bottom = 0
		}
	}
	if m["shelf"] == "shown" {
		top += shelfHigh
	}
	if m["mode"] == "shared" {
		right, bottom = 34, 0 // room for the height's figure
	}
	p.view.SetInsets(0, top, right, bottom)
}

// follow keeps a setting of the browser up to date.
func (p *page) follow(query string, set func(bool)) {
	q := window.Call("matchMedia", query)
	set(q.Get("matches").Bool())
	q.Call("addEventListener", "change", js.FuncOf(func(_ js.Value, args []js.Value) any {
		set(args[0].Get("matches").Bool())
		p.changed()
		return nil
	}))
}

// changed brings page, bench, worker and keeping into line with the session. It
// is cheap when nothing differs.
func (p *page) changed() {
	p.keepBench()
	p.ask()
	p.makeMarks()
	p.c.Running = p.running
	root := document.Get("documentElement")
	resized := false
	for k, v := range p.c.Mode() {
		if d := root.Get("dataset"); d.Get(k).Type() != js.TypeString || d.Get(k).String() != v {
			d.Set(k, v)
			resized = true
		}
	}
	p.patch.patch(p.c.Page())
	document.Set("title", p.s.Name()+" - Dryfold")
	if resized {
		p.shake()
	}
	p.insets()
	pic := p.s.Picture()
	pic.Dark = p.dark
	pic.Sizes = p.c.SizeMarks()
	p.view.Show(pic)
	if p.turnTo != "" {
		p.view.SetView(p.turnTo)
		p.turnTo = ""
	}
	p.keep()
	p.hush()
	if p.c.Focus != "" {
		if el := document.Call("getElementById", p.c.Focus); el.Truthy() {
			el.Call("focus", map[string]any{"preventScroll": true})
			el.Call("scrollIntoView", map[string]any{"block": "nearest"})
		}
		p.c.Focus = ""
	}
	if id := p.c.Reveal; id != "" {
		if el := document.Call("getElementById", id); el.Truthy() {
			el.Call("focus", map[string]any{"preventScroll": true})
			el.Call("scrollIntoView", map[string]any{"block": "start"})
		}
		p.c.Reveal = ""
		p.shown = p.inSight()
	}
	p.showOpen()
	p.keepAwake(p.s.Word() == session.Bends && !p.s.ViewOnly())
}

// inSight is what the column shows now.
func (p *page) inSight() place {
	card, _ := p.s.OpenCard()
	return place{p.s.Word(), card, p.s.Selected()}
}

// showOpen scrolls into sight the card that has been opened, or what was touched.
func (p *page) showOpen() {
	now := p.inSight()
	if now == p.shown {
		return
	}
	what, block := ".open .lead", "nearest"
	if p.c.Narrow { // the column is a low sheet: the card's head first
		what, block = "li:has(.open)", "start"
	}
	switch {
	case now.sel != p.shown.sel && now.sel.Kind == scene.Seam && now.word == session.Seams:
		what, block = "tr.sel", "start"
	case now.sel != p.shown.sel && now.sel.Kind != scene.None:
		what, block = ".picked", "nearest"
	}
	p.shown = now
	if el := document.Call("querySelector", what); el.Truthy() {
		el.Call("scrollIntoView", map[string]any{"block": block})
	}
}

// noticeMS is how long a brief notice stays.
const noticeMS = 5000

// hush has a brief notice go after a while.
func (p *page) hush() {
	if p.c.Notice == p.noticed {
		return
	}
	p.noticed = p.c.Notice
	if p.c.Notice == "" || !p.c.Brief {
		return
	}
	words := p.c.Notice
	var f js.Func
	f = js.FuncOf(func(js.Value, []js.Value) any {
		f.Release()
		if p.c.Notice == words {
			p.c.Notice, p.noticed = "", "" // the same words may come again
			p.patch.patch(p.c.Page())      // the bench is as it was
		}
		return nil
	})
	window.Call("setTimeout", f, noticeMS)
}

// place is what the column shows: its word, the open card, what is chosen.
type place struct {
	word session.Word
	card int
	sel  scene.Select
}

// shake has the canvas take its new size.
func (p *page) shake() {
	window.Call("dispatchEvent", js.Global().Get("Event").New("resize"))
}

// ask has the part on the bench checked, once for every part.
func (p *page) ask() {
	if !p.first || p.s.PartSerial() == p.serial {
		return
	}
	p.serial = p.s.PartSerial()
	p.answer = ""
	if !p.s.Part().Foldable {
		return
	}
	p.check.ask(p.serial, p.s.Question())
}

// hear takes what the second program found.
func (p *page) hear(serial int, kind, text string) {
	switch kind {
	case "gaps", "report", "spread":
		if !p.s.Answer(serial, kind, text) {
			return
		}
		if kind != "gaps" {
			p.answer = text
		}
	case "repairs":
		if !p.s.SetRepairs(serial, text) {
			return
		}
	default:
		p.c.Fail("Fouls can’t be looked for in this part: " + text)
	}
	p.changed()
}

func (p *page) deeds() screen.Deeds {
	return screen.Deeds{
		PickFile: p.pickFile, SaveFile: p.saveFile, Share: p.share,
		Print:      func() { window.Call("print") },
		Export:     p.export,
		StopMaking: p.stopMaking,
		DrawAgain:  p.drawAgain,
		RunThrough: p.runThrough,
		View:       func(word string) { p.turnTo = word },
		Lock:       func(on bool) { p.view.Lock(on) },
		Demo:       p.openDemo,
		SaveBench:  p.saveBench,
		Guide:      p.guide,
		Slowly:     p.slowly,
	}
}

// slowly does long work beside the page: at each rest the page shows where it stands and answers.
func (p *page) slowly(work func(rest func())) {
	told := time.Time{}
	rest := func() {
		if time.Since(told) > tellTime {
			p.changed()
			told = time.Now()
		}
		time.Sleep(restTime)
	}
	go func() {
		rest()
		work(rest)
		p.changed()
	}()
}

// restTime is how long long work rests, so that a frame and what waits get their turn; tellTime how often it says where it stands.
const (
	restTime = 5 * time.Millisecond
	tellTime = 250 * time.Millisecond
)

// swingSeconds is how long the run-through takes over one swing.
const swingSeconds = 1.2

// runThrough plays the cards, or stops them. Who asked for less motion sees them
// swing by swing.
func (p *page) runThrough(on bool) {
	if p.running == on {
		return
	}
	p.running = on
	if !on {
		return
	}
	if p.s.Fold() >= 1 {
		p.s.SetFold(0)
	}
	last := window.Get("performance").Call("now").Float()
	var frame js.Func
	frame = js.FuncOf(func(js.Value, []js.Value) any {
		if !p.running {
			frame.Release()
			return nil
		}
		now := window.Get("performance").Call("now").Float()
		step := (now - last) / 1000 / swingSeconds
		if p.still && step < 1 { // from card to card
			window.Call("requestAnimationFrame", frame)
			return nil
		}
		last = now
		p.running = p.s.Run(step)
		p.changed()
		window.Call("requestAnimationFrame", frame)
		return nil
	})
	window.Call("requestAnimationFrame", frame)
}

// keepAwake keeps the screen on while the cards are open, where the device can.
func (p *page) keepAwake(on bool) {
	lock := window.Get("navigator").Get("wakeLock")
	if !lock.Truthy() || on == p.awake.Truthy() {
		return
	}
	if !on {
		p.awake.Call("release")
		p.awake = js.Undefined()
		return
	}
	p.awake = js.Global().Get("Object").New() // asked for
	lock.Call("request", "screen").Call("then",
		js.FuncOf(func(_ js.Value, args []js.Value) any { p.awake = args[0]; return nil }),
		js.FuncOf(func(js.Value, []js.Value) any {
			release := js.FuncOf(func(js.Value, []js.Value) any { return nil })
			p.awake.Set("release", release)
			return nil
		}))
}
