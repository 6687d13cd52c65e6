package screen

// This file holds the column Marking out, from the screen to the metal step by step, and the sheet of the step that stands
// open: shown over the bench, printed as it is.

import (
	"fmt"
	"strconv"
	"strings"

	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// paperStep is what the column says of a step.
type paperStep struct {
	title string // of its sheet
	alt   string // what the sheet's picture shows
}

var paperSteps = map[string]paperStep{
	"cutting":  {"Cutting sheet", "the blank with the tool for each edge, the order of cuts, which side is waste, and what is drilled"},
	"check":    {"Check before bending", "the blank with the sizes to measure on it, and a table to write them in"},
	"cards":    {"Job cards", "a card for each swing, with its mark, its set angle and the section before and after"},
	"template": {"Template", "the blank at full size, with marks to join the pages by and a square to check the printer"},
	"card":     {"Card model", "the blank in card at full size, with marks to join the pages by and a square to check the printer"},
	"marking":  {"Marking-out sheet", "every corner, hole and bend line of the blank measured from two datum edges, in a drawing and in tables"},
}

// sheets are the printed pages that stand over the bench, with their name: that of the step under Marking out, the guide
// to a test bend while it is asked for.
func (c *Screen) sheets() ([]Sheet, string) {
	switch c.S.Word() {
	case session.Marking:
		return c.Marks, paperSteps[c.kind()].title
	case session.Metal:
		return c.Guide, "Guide to a test bend"
	}
	return nil, ""
}

// paper is a printed sheet as it stands over the bench.
func (c *Screen) paper() *node.Node {
	sheets, name := c.sheets()
	if len(sheets) == 0 {
		return nil
	}
	cls, words := "section.paper", "Enlarge"
	if c.large {
		cls, words = "section.paper.large", "Back"
	}
	n := node.E(cls, node.Key("paper"), node.A("aria-label", name), node.A("tabindex", "0"),
		button("b.line.enlarge", node.Key("enlarge"), node.A("aria-pressed", fmt.Sprint(c.large)), words, node.Click(func() { c.large = !c.large })))
	for i, m := range sheets {
		alt := fmt.Sprintf("%s of %s, page %d of %d: %s", name, c.S.Name(), i+1, len(sheets), paperSteps[c.kind()].alt)
		style := fmt.Sprintf("width:%gmm;aspect-ratio:%g/%g;page:%s", m.W, m.W, m.H, LeafName(i))
		if c.S.Word() == session.Metal {
			alt = "Guide to a test bend: how to cut, bend and measure strips, with drawings, and a table to write in"
			style = fmt.Sprintf("width:%gmm;aspect-ratio:%g/%g", m.W, m.W, m.H)
		}
		put(n, node.E("div.leaf", node.Key(fmt.Sprint(name, i)), node.A("style", style), node.E("img", node.A("src", m.Src), node.A("alt", alt))))
	}
	return n
}

// LeafName names the printed page of a sheet in the page's style.
func LeafName(i int) string { return fmt.Sprintf("leaf%d", i) }

// LeafRule is the style's rule that prints a sheet on paper of its own size.
func LeafRule(i int, m Sheet) string {
	return fmt.Sprintf("@page %s { size: %gmm %gmm; margin: 0 }", LeafName(i), m.W, m.H)
}

// marking is the column: the steps, and what the open one asks and does.
func (c *Screen) marking() []*node.Node {
	s := c.S
	if !s.Part().Foldable {
		return []*node.Node{node.E("section.pad", node.Key("marking"), node.E("h2", "Marking out"), node.E("p.src", "Sheets can be drawn once the blank is one that can be cut and folded."))}
	}
	step := s.Papers().Step
	var out []*node.Node
	switch step {
	case "marking":
		out = append(out, c.markStep()...)
	case "cutting":
		out = append(out, c.cutStep()...)
	case "check":
		out = append(out, c.checkStep()...)
	case "cards":
		out = append(out, c.cardsStep()...)
	case "template":
		out = append(out, c.templateStep()...)
	case "files":
		out = append(out, c.filesStep()...)
	}
	return out
}

// steps are the buttons of the steps, at the head of the column.
func (c *Screen) steps() *node.Node {
	if !c.S.Part().Foldable {
		return nil
	}
	step := c.S.Papers().Step
	nav := node.E("nav.steps", node.Key("steps"), node.A("aria-label", "Steps"))
	for _, x := range session.PaperSteps {
		cls := "button"
		if x.Key == step {
			cls = "button.on"
		}
		b := node.E(cls, node.Key(x.Key), node.A("type", "button"), x.Name, node.Click(func() { c.papers(func(p *session.Papers) { p.Step = x.Key }) }))
		if x.Key == step {
			b.Attrs = append(b.Attrs, node.Attr{Name: "aria-current", Value: "step"})
		}
		put(nav, b)
	}
	return nav
}

// kind is the kind of sheet that stands open, "" for none.
func (c *Screen) kind() string {
	kind, _ := c.S.Sheet()
	return kind
}

// papers changes the choices of what is printed.
func (c *Screen) papers(f func(p *session.Papers)) {
	p := c.S.Papers()
	f(&p)
	c.S.SetPapers(p)
}

// printed is the head of a step whose sheet is printed: its title, what it is for, and the buttons that print it and save it
// as PDF; before the sheet stands, that it is being drawn, or why it can't be.
func (c *Screen) printed(words string) *node.Node {
	kind := c.kind()
	title := paperSteps[kind].title
	n := node.E("section.pad", node.Key("sheet-"+kind), node.E("h2", title), node.E("p", words))
	switch {
	case len(c.Marks) > 0:
		print := button("b.main.wide", node.If("disabled", c.Drawing || c.unsure(kind)), "Print", node.Click(func() {
			c.Do.Print()
			if kind == "template" || kind == "card" {
				c.S.TemplatePrinted()
			}
		}))
		put(n, print, c.saver("Save as PDF", kind, kind, "pdf"))
		if pages := len(c.Marks); pages > 1 {
			put(n, node.E("p.src", node.Key("pages"), count(pages, "page")+"."))
		}
	case c.NoSheet != "":
		put(n, node.E("p.said.stop", node.Key("no"), node.A("role", "alert"), glyph("stop"), node.E("span", sentence(c.inUnits(c.NoSheet)))))
		if c.Unfetched {
			put(n, button("b.line.wide", node.Key("again"), "Try again", node.Click(c.Do.DrawAgain)))
		}
	}
	if c.NoSheet == "" && (len(c.Marks) == 0 || c.Drawing) {
		put(n, node.E("p.tro.checking", node.Key("wait"), node.E("i.spin"), "Drawing the sheet…"))
	}
	put(n, c.otherHand())
	for i, w := range c.S.SheetFacts().Watch {
		put(n, node.E("p.said.watch", node.Key("watch"+itoa(i)), glyph("watch"), node.E("span", node.E("span.quiet", "watch: "), c.inUnits(w))))
	}
	return n
}

// otherHand says that what is printed and saved is the mirror image; nil where it is not.
func (c *Screen) otherHand() *node.Node {
	if !c.S.Papers().Other {
		return nil
	}
	return node.E("div.said.watch", node.Key("other"), glyph("watch"), node.E("span", "For the other hand: all of this is the mirror image of the part on the bench. ",
		button("b.line", "As on the bench", node.Click(func() { c.papers(func(p *session.Papers) { p.Other = false }) }))))
}

// asked are the fields that a file or sheet is made by.
var asked = map[string][]string{
	"machine": {"kerf", "gaps", "gapwide", "notch"}, "picture": {"picw", "pich"}, "run": {"gifw", "gifh"},
	"template": {"roll", "margin", "overlap", "across", "down"}, "card": {"roll", "margin", "overlap", "across", "down", "cardthick"},
}

// unsure reports whether a field that it is made by holds something that was refused.
func (c *Screen) unsure(want string) bool {
	for _, key := range asked[want] {
		if _, bad := c.S.Error(session.PaperField(key)); bad {
			return true
		}
	}
	return false
}

// saver is a button that saves a file of the part.
func (c *Screen) saver(words, want, what, ending string) *node.Node {
	file := c.S.FileFor(what, ending)
	if c.Making == file {
		said := "Making it… tap to stop"
		if c.MadeOf > 0 {
			said = fmt.Sprintf("Making it, %d of %d… tap to stop", c.MadeDone, c.MadeOf)
		}
		return button("b.line.wide", node.Key("save-"+file), node.E("i.spin"), said, node.Click(c.Do.StopMaking))
	}
	stale := ending == "pdf" && c.Drawing // the part has not been checked yet, or the sheet shown is another one
	if c.unsure(want) {
		stale, words = true, words+": first put right what is refused"
	}
	return button("b.line.wide", node.Key("save-"+file), node.If("disabled", c.Making != "" || stale), words, node.Click(func() {
		c.Do.Export(c.S.PaperQuestion(want, ending), file)
		if want == "template" || want == "card" {
			c.S.TemplatePrinted()
		}
	}))
}

// markStep is the step Mark out.
func (c *Screen) markStep() []*node.Node {
	s := c.S
	p := s.Papers()
	n := c.printed("Everything to lay the blank out with a rule and a scriber: each corner, hole and bend line measured from the two datum edges A and B.")
	rules, rule := s.PaperRules()
	unit := s.Units().String()
	how := node.E("section.pad", node.Key("how"), node.E("h2", "How it is printed"),
		c.either("paper-rule", "My rule shows, "+unit, rules, rule, func(v string) error { s.SetPaperRule(v); return nil }),
		c.paperChoice(),
		c.either("paper-hand", "This part is", [][2]string{{"", "not said"}, {"left", "left hand"}, {"right", "right hand"}}, p.Hand, func(v string) error {
			c.papers(func(p *session.Papers) { p.Hand = v })
			return nil
		}),
		c.either("paper-other", "Print", [][2]string{{"", "as it is"}, {"other", "for the other hand"}}, map[bool]string{true: "other"}[p.Other], func(v string) error {
			c.papers(func(p *session.Papers) { p.Other = v != "" })
			return nil
		}),
		c.saver("Save the blank at true scale", "blank", "blank", "svg"),
		node.E("p.src", "The blank at true scale is an SVG drawing; one unit of it is one mm. Print at 100 %, and hold a rule to the printed bar before you cut: some printers shrink a page to fit."))
	return []*node.Node{n, how}
}

// paperChoice is the choice of the paper that sheets are printed on.
func (c *Screen) paperChoice() *node.Node {
	return c.either("paper-size", "Paper", [][2]string{{"A4", "A4"}, {"A3", "A3"}, {"Letter", "Letter"}, {"Tabloid", "Tabloid"}}, c.S.OnPaper(c.S.Papers().Paper), func(v string) error {
		c.papers(func(p *session.Papers) { p.Paper = v })
		return nil
	})
}

// SheetSize reads a page's size in mm from its drawing's head; A4 upright where
// it says none.
func SheetSize(svg []byte) (w, h float64) {
	head := string(svg[:min(len(svg), 600)])
	read := func(name string, or float64) float64 {
		_, rest, ok := strings.Cut(head, " "+name+`="`)
		text, _, closed := strings.Cut(rest, `mm"`)
		v, err := strconv.ParseFloat(text, 64)
		if !ok || !closed || err != nil || !(v > 0 && v < 1e6) {
			return or
		}
		return v
	}
	return read("width", 210), read("height", 297)
}
