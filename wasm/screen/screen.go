// Package screen says what stands on the page: it makes the elements for a
// session, in words and numbers, and ties what is touched to what is done. It is
// plain Go, tested natively; the page's glue puts it in the browser. This file
// holds Screen and the frame; the column's words have a file each: sizes.go,
// metal.go, seams.go, bends.go (with arc.go), marking.go; shared.go is the page
// that a link opens.
package screen

import (
	"fmt"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/render/scene"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
	"dryfold/wasm/session/ask"
)

// Deeds are what only the browser can do. All must be set.
type Deeds struct {
	PickFile   func()
	SaveFile   func()
	Share      func()
	Print      func()
	Export     func(q ask.PaperQuestion, file string) // has the third program make a file, and saves it
	StopMaking func()                                 // ends that
	DrawAgain  func()                                 // has the sheet that could not be drawn asked for again
	RunThrough func(on bool)
	View       func(word string) // turns the bench to a view
	Lock       func(on bool)     // keeps the view
	Demo       func(name string)
	SaveBench  func()                       // the maker's own test bends and metals as a file
	Slowly     func(work func(rest func())) // does long work; at each rest the page answers
	Guide      func()                       // draws, shows and prints the guide to a test bend
}

// Sheet is one printed page: the address of its picture, and its size in mm.
type Sheet struct {
	Src  string
	W, H float64
}

// Demo is a ready part on offer.
type Demo struct {
	Name, Title, Note string
	Spoilt            bool // spoilt on purpose
}

// Screen is the page: a session and what is folded open around it.
type Screen struct {
	S     *session.Session
	Do    Deeds
	Demos []Demo

	Saved            string // when the work was last kept, "" if not yet
	Notice           string // one line over the bench: what was just done, or could not be
	Bad              bool   // the notice is of something that could not be done
	failedAt         int    // the part's serial number then
	Brief            bool   // the notice may go by itself after a while
	Focus            string // the id of what should have the focus next, "" to leave it
	Narrow           bool   // the column is a sheet from below
	Running          bool   // the run-through plays
	Checking         bool   // the second program is at work
	Locked           bool
	Drawing          bool    // that sheet is being drawn
	Marks            []Sheet // the sheet that stands open under Marking out, page by page; none while there is none
	NoSheet          string  // why it can’t be drawn
	Unfetched        bool    // because what draws it was not there
	Making           string  // the file that is being made, "" for none
	MadeDone, MadeOf int     // how much of it is done, where that is told
	noFile           string  // why the last file could not be made
	noFileOf         choice  // with which choices
	large            bool    // the sheet over the bench is shown as large as it is printed
	strikeFrom       string  // the datum edge that a struck line is measured from
	Guide            []Sheet // the guide to a test bend, while it is shown

	BenchLost bool // the browser can't keep the maker's bench
	Tests     stripsView

	menu      bool // on a phone: the words are folded open
	tall      bool // the sheet from below is pulled up
	advice    bool // all advice is shown, not only the worst
	allCards  bool
	cuts      map[int]*node.Node // the done cards' sections, of cutsOf
	cutsOf    *fold.Part
	dragFrom  int // card being dragged, -1 none
	dragTo    int
	rename    bool
	swung     bool // a panel or the leaf was swung by hand on this page
	view      string
	typing    typing
	Phone     bool   // a narrow screen: the shelf stands in the column
	Reveal    string // the id of what should be brought into sight next and have the focus, "" to leave it
	item      item   // what stands open of the sizes form
	at        string // the field of sizes that has the focus
	ask       string // what is asked about before it is deleted
	named     newSize
	grip      grip
	marked    []marked // of marksOf
	marksOf   marksOf
	allCuts   bool     // all places that can't be cut are told
	mended    []string // what was changed so that the part can be cut, of the part mendedOf
	mendedOf  int
	mending   bool // it is being looked for; so many parts were made on trial
	mendTried int
	start     string // the starter that the part was begun from, of startOf
	startOf   int
	touched   scene.Select // what was last touched on the bench, and where on the blank
	touchedAt geom.Vec2
	bendOpen  int // under Metal: the bend whose numbers stand open, from 1; 0 none
}

// Views are the words that turn the bench, with what stands on their buttons.
var Views = [][2]string{{"home", "Corner"}, {"front", "Front"}, {"end", "End"}, {"above", "Above"}, {"at the brake", "At the brake"}}

// New makes the screen of a session.
func New(s *session.Session, do Deeds, demos []Demo) *Screen {
	return &Screen{S: s, Do: do, Demos: demos, dragFrom: -1, view: "home"}
}

// Swung tells the screen that a panel was swung on the bench.
func (c *Screen) Swung() { c.swung = true }

// Turned tells the screen that the bench was turned by hand.
func (c *Screen) Turned() { c.view = "" }

// Page is everything on the page but the canvas and its labels.
func (c *Screen) Page() []*node.Node {
	if c.Bad && c.failedAt < 0 {
		c.failedAt = c.S.Serial() // as it is first seen: what could not be opened may have been followed by a part that could
	}
	if c.Bad && c.S.Serial() != c.failedAt { // something was changed since: it is over
		c.Notice, c.Bad = "", false
	}
	if c.S.ViewOnly() {
		return c.shared()
	}
	return []*node.Node{
		c.top(),
		c.words(),
		c.shelf(),
		c.views(),
		c.paper(),
		c.band(),
		c.column(),
		c.live(),
		c.noPrint(),
	}
}

// noPrint is what the browser prints where no sheet stands.
func (c *Screen) noPrint() *node.Node {
	if sheets, _ := c.sheets(); len(sheets) > 0 {
		return nil
	}
	return node.E("p.noprint", node.Key("noprint"), "There is no sheet here to print. Under Marking out choose a step that has one.")
}

// Mode holds the attributes of the whole page that its style follows.
func (c *Screen) Mode() map[string]string {
	m := map[string]string{"word": strings.ToLower(strings.Fields(c.S.Word().String())[0]), "mode": "work", "sheet": "low", "menu": "shut", "swing": "none", "shelf": "none"}
	if c.S.ViewOnly() {
		m["mode"] = "shared"
	}
	if c.tall {
		m["sheet"] = "tall"
	}
	if c.menu {
		m["menu"] = "open"
	}
	if c.shelved() {
		m["shelf"] = "shown"
	}
	if c.swinging() {
		m["swing"] = "shown"
	}
	return m
}

func (c *Screen) top() *node.Node {
	s := c.S
	name := node.E("h1", node.E("button.name", node.A("title", "Change the part’s name"), s.Name(),
		node.Click(func() { c.rename = true })))
	if c.rename {
		done := func(e node.Event) {
			if s.SetName(e.Value) == nil {
				c.rename = false
			}
		}
		name = node.E("h1", node.E("input.name", node.A("aria-label", "The part’s name"), node.A("value", s.Spec().Name),
			node.A("maxlength", fmt.Sprint(fold.MaxName)), node.A("data-focus", "1"), node.On("change", done),
			node.On("blur", func(node.Event) { c.rename = false }),
			node.On("keydown", func(e node.Event) {
				switch e.Key {
				case "Enter":
					done(e)
				case "Escape":
					c.rename = false
				}
			})))
	}
	saved := ""
	if c.Saved != "" {
		saved = "Saved here " + c.Saved
	}
	return node.E("header.top", node.Key("top"),
		name, node.E("span.saved", saved),
		node.E("div.history",
			button("b.undo", node.If("disabled", !s.CanUndo()), node.A("aria-label", "Undo"), icon("undo"), node.E("span", "Undo"), node.Click(s.Undo)),
			button("b.redo", node.If("disabled", !s.CanRedo()), node.A("aria-label", "Redo"), icon("redo"), node.E("span", "Redo"), node.Click(s.Redo))),
		node.E("i.sp"),
		button("b.line.wordmenu", node.A("aria-expanded", fmt.Sprint(c.menu)), s.Word().String(), icon("open"), node.Click(func() { c.menu = !c.menu })),
		node.E("div.tools",
			c.units(),
			button("b", "Open", node.Click(func() { c.menu = false; c.Do.PickFile() })),
			button("b", "Save", node.Click(func() { c.menu = false; c.Do.SaveFile() })),
			button("b.line", "Share", node.A("title", "Copy a link that holds the whole part"), node.Click(func() { c.menu = false; c.Do.Share() }))))
}

func (c *Screen) units() *node.Node {
	return seg("Units", [][2]string{{"mm", "mm"}, {"in", "inch"}}, c.S.Units().String(), func(v string) {
		u := fold.MM
		if v == "in" {
			u = fold.Inch
		}
		c.S.SetUnits(u)
	})
}

func (c *Screen) words() *node.Node {
	n := node.E("nav.words", node.Key("words"), node.A("aria-label", "The job"))
	for w := session.Sizes; w <= session.Marking; w++ {
		cls := "button"
		on := c.S.Word() == w
		if on {
			cls = "button.on"
		}
		b := node.E(cls, node.Key(w.String()), node.A("type", "button"), w.String(), node.Click(func() {
			c.S.SetWord(w)
			c.menu, c.large = false, false
		}))
		if on {
			b.Attrs = append(b.Attrs, node.Attr{Name: "aria-current", Value: "page"})
		}
		put(n, b)
	}
	return n
}

func (c *Screen) views() *node.Node {
	if sheets, _ := c.sheets(); len(sheets) > 0 {
		return nil
	}
	n := node.E("div.views", node.Key("views"), node.A("role", "group"), node.A("aria-label", "View"))
	for _, v := range Views {
		cls := "button"
		if v[0] == "at the brake" {
			if len(c.S.Part().Swings) == 0 {
				continue
			}
			cls = "button.far"
		}
		if c.view == v[0] {
			cls += ".on"
		}
		put(n, node.E(cls, node.A("type", "button"), v[1], node.A("aria-pressed", fmt.Sprint(c.view == v[0])), node.Click(func() {
			c.turn(v[0])
		})))
	}
	lock := "button.far"
	if c.Locked {
		lock = "button.far.on"
	}
	put(n, node.E(lock, node.A("type", "button"), node.A("aria-pressed", fmt.Sprint(c.Locked)), node.A("title", "Keep this view: a finger then only swings panels"), icon("lock"), "Lock", node.Click(func() {
		c.Locked = !c.Locked
		c.Do.Lock(c.Locked)
	})))
	key := (*node.Node)(nil)
	if r := c.S.Report(); c.S.Word() == session.Seams && len(r.Seams) > 0 {
		key = node.E("p.key", node.E("i"), tickWords(c.S.TickScales()))
	}
	return node.E("div.over", node.Key("over"), n, key, c.swing(), c.notice())
}

// tickWords say how long the feeler ticks are drawn.
func tickWords(enlarged, plain int) string {
	words := fmt.Sprintf("Gaps drawn %d times as long", scene.DefaultTickScale)
	switch {
	case enlarged == 0:
		return "Gaps drawn as long as they are"
	case plain > 0:
		return words + ", wide ones as they are"
	}
	return words
}

// swinging reports whether the bench says which swing it shows: under the words
// whose column doesn't.
func (c *Screen) swinging() bool {
	s := c.S
	return !s.ViewOnly() && !s.AsFinished() && s.Part().Foldable && len(s.Part().Swings) > 0 && (s.Word() == session.Sizes || s.Word() == session.Metal)
}

// swing says which swing the bench shows, and plays them all.
func (c *Screen) swing() *node.Node {
	if !c.swinging() {
		return nil
	}
	open, frac := c.S.OpenCard()
	k := c.S.Cards()[open]
	name, at := fmt.Sprintf("%d %s", k.Number, k.Name), fmt.Sprintf(" %s of %s°", whole(k.At), session.Degrees(k.To))
	if k.Set > k.To {
		at = fmt.Sprintf(" %s of %s°", whole(k.At), k.StopAt())
		if k.At > k.To {
			at = fmt.Sprintf(" %s, springs back to %s°", leafAngle(k), session.Degrees(k.To))
		}
	}
	switch {
	case c.S.Fold() == 0:
		name, at = "Flat", ""
	case c.S.Fold() == 1:
		name, at = "Finished", ""
	}
	run, ic := "Run through", "play"
	if c.Running {
		run, ic = "Stop", "stop"
	}
	hint := "Drag a panel to swing it"
	if frac > 0 && frac < 1 {
		hint = "Drag the blue panel to swing it"
		if len(k.Bends) > 1 {
			hint = "Drag a blue panel to swing it"
		}
	}
	words := node.E("span", node.E("b", name), node.E("span.at", at))
	if !c.swung && !c.Running {
		put(words, node.E("small", hint))
	}
	return node.E("div.swing", node.Key("swing"), node.A("role", "group"), node.A("aria-label", "Swing on the bench"),
		button("b.main.play", icon(ic), node.E("span", run), node.A("aria-label", run), node.Click(func() { c.Do.RunThrough(!c.Running) })),
		button("b.card-of", node.A("title", "Open this swing’s card"), words, node.Click(func() { c.S.SetWord(session.Bends) })))
}

func (c *Screen) notice() *node.Node {
	if c.Notice == "" {
		return nil
	}
	cls := "p.notice"
	switch {
	case c.Bad:
		cls = "p.notice.bad"
	case c.Brief: // over the words of the views for its while: there no figure stands
		cls = "p.notice.brief"
	}
	return node.E(cls, node.Key("notice"), node.A("role", "status"), node.E("span", c.Notice),
		button("b", node.A("aria-label", "Close this message"), icon("close"), node.Click(func() { c.Notice = "" })))
}

// band is the line on the bench: metal, thickness, finished size, outside sizes, good face, units.
func (c *Screen) band() *node.Node {
	s := c.S
	p := s.Part()
	metal := p.Spec.Sheet.Metal
	if metal == "" {
		metal = "Metal not said"
	}
	long, wide, high := s.FinishedSize()
	size := strings.Join([]string{session.Size(long, s.Units()), session.Size(wide, s.Units()), session.Size(high, s.Units())}, " × ")
	face := map[string]string{"up": "good face up on the blank", "down": "good face down on the blank"}[p.Spec.Sheet.Good]
	if face == "" {
		face = "good face not said"
	}
	unit := s.Units().String()
	thick := node.E("span", node.E("b", session.Thickness(p.Thickness, s.Units())), " "+unit)
	if g := s.BandGauge(); g != "" {
		put(thick, node.E("span.ga", ", "+g))
	}
	n := node.E("footer.band", node.Key("band"), node.E("span", node.E("b", metal)), thick)
	if p.Foldable {
		put(n, node.E("span.fin", "finished ", node.E("b", size), " "+unit+", outside"))
	} else {
		put(n, node.E("span.fin", "does not fold yet"))
	}
	put(n, node.E("span.face", node.E("i"), face))
	return n
}

// column is the column on the right; on portrait and phone a sheet from below.
func (c *Screen) column() *node.Node {
	n := node.E("aside.col", node.Key("col"), node.A("aria-label", c.S.Word().String()),
		button("hand", node.A("aria-label", handWords(c.tall)), node.A("aria-expanded", fmt.Sprint(c.tall)), node.E("i"), node.Click(func() { c.tall = !c.tall })))
	body := node.E("div.scroll", node.Key("scroll-"+c.S.Word().String()))
	if c.S.Word() == session.Marking {
		put(body, c.steps())
	}
	put(body, c.troubles())
	switch c.S.Word() {
	case session.Sizes:
		put(body, c.sizes()...)
	case session.Metal:
		put(body, c.metal()...)
	case session.Seams:
		put(body, c.seams()...)
	case session.Bends:
		put(body, c.bends()...)
	case session.Marking:
		put(body, c.marking()...)
	}
	kids := body.Kids[:0]
	for _, k := range body.Kids {
		if k != nil {
			kids = append(kids, k)
		}
	}
	body.Kids = kids
	put(n, body)
	return n
}

func handWords(tall bool) string {
	if tall {
		return "Show more of the bench"
	}
	return "Show more of this sheet"
}

// live says the number of troubles to screen readers whenever it changes.
func (c *Screen) live() *node.Node {
	words := "Checking the part."
	if c.S.SpreadKnown() {
		words = count(len(c.S.Report().Troubles), "trouble") + "."
	}
	return node.E("p.quiet", node.Key("live"), node.A("aria-live", "polite"), words)
}

// troubles is the advice at the head of the column: the worst in full, the rest counted.
func (c *Screen) troubles() *node.Node {
	list := c.S.Advice()
	box := node.E("section.tros", node.Key("troubles"), node.A("aria-label", "Troubles"))
	wait := (*node.Node)(nil)
	switch {
	case !c.S.Checked():
		wait = node.E("p.tro.checking", node.E("i.spin"), "Looking for fouls…")
	case !c.S.SpreadKnown():
		wait = node.E("p.tro.checking", node.E("i.spin"), "Trying what hand and machine may be out by…")
	}
	if len(list) == 0 {
		if wait != nil {
			put(box, wait)
			return box
		}
		put(box, node.E("p.tro.fine", state("ok"), "Nothing found that would spoil the part"))
		put(box, c.spoilt())
		return box
	}
	for i, a := range list {
		if i > 0 && !c.advice {
			break
		}
		acts := node.E("div.acts")
		if r := a.Repair; r != nil {
			put(acts, button("b.main", r.Words, node.Click(func() {
				if err := c.S.Mend(*r); err != nil {
					c.say(err)
				}
			})))
		}
		show := func() {
			if v := c.S.GoTo(a); v != "" {
				c.turn(v)
			}
		}
		put(acts, button("b.line.show", "Show", node.Click(show)))
		if i == 0 && len(list) > 1 {
			words := fmt.Sprintf("%d more", len(list)-1)
			if c.advice {
				words = "Only the first"
			}
			put(acts, button("b.line", words, node.A("aria-expanded", fmt.Sprint(c.advice)), node.Click(func() { c.advice = !c.advice })))
		}
		put(box, node.E("div.tro."+a.Severity, node.Key(fmt.Sprint("tro", i)), node.E("p", node.Click(show), glyph(a.Severity), node.E("span", node.E("span.quiet", a.Severity+": "), a.Message)), moreOf(a.More), cutBack(a.Cuts), acts))
	}
	put(box, wait)
	if wait == nil && list[0].Severity != "stop" {
		put(box, c.spoilt())
	}
	return box
}

// moreOf is what else a trouble says, folded; nil for nothing.
func moreOf(words string) *node.Node {
	if words == "" {
		return nil
	}
	return more("more", "More", node.E("p", words))
}

// cutBack says by how much which panel would be cut back to free a clash; nil where that is not known.
func cutBack(cuts []string) *node.Node {
	if len(cuts) == 0 {
		return nil
	}
	n := node.E("ul.cutback", node.A("aria-label", "Cut back to be free"))
	for _, words := range cuts {
		put(n, node.E("li", words))
	}
	return n
}

// spoilt offers a part with troubles to who has only seen the first, sound one.
func (c *Screen) spoilt() *node.Node {
	if len(c.Demos) == 0 || c.S.CanUndo() || c.S.Word() != session.Sizes || c.S.Name() != c.Demos[0].Title {
		return nil
	}
	for _, d := range c.Demos {
		if d.Spoilt {
			return node.E("p.see", node.Key("see"), button("b.line.wide.spoilt", glyph("stop"), "See one that is spoilt", node.Click(func() { c.Do.Demo(d.Name) })))
		}
	}
	return nil
}

// turn turns the bench to a view.
func (c *Screen) turn(view string) {
	c.view = view
	c.Do.View(view)
}

func (c *Screen) say(err error) { c.Fail(session.Title(err.Error())) }

// Tell puts one line over the bench that goes again by itself.
func (c *Screen) Tell(words string) { c.Notice, c.Bad, c.Brief = words, false, true }

// Give puts one line over the bench that stays until it is closed.
func (c *Screen) Give(words string) { c.Notice, c.Bad, c.Brief = words, false, false }

// Fail puts one line over the bench that says what could not be done; the next change that is made takes it away.
func (c *Screen) Fail(words string) {
	c.Notice, c.Bad, c.Brief, c.failedAt = words, true, false, -1
}
