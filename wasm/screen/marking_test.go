package screen

// This file tests the column Marking out: every step in every state, what each button does, and that no figure is in mm where inches
// are shown.

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/paper"
	"dryfold/wasm/node"
	papers "dryfold/wasm/papers/press"
	"dryfold/wasm/session"
	"dryfold/wasm/session/ask"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// openStep opens a demo part under Marking out at a step; "card" is that of a card model.
func openStep(t testing.TB, file, step string) (*Screen, *bench) {
	t.Helper()
	c, b := open(t, file)
	c.S.SetWord(session.Marking)
	toStep(c, step)
	return c, b
}

func toStep(c *Screen, step string) {
	p := c.S.Papers()
	p.Step, p.Card = step, step == "card"
	if step == "card" {
		p.Step = "template"
	}
	c.S.SetPapers(p)
	c.Marks, c.NoSheet, c.Drawing = nil, "", false
}

// drawn has the open step's sheet made, as the page's third program makes it; its pictures are names alone.
func drawn(t testing.TB, c *Screen) {
	t.Helper()
	kind, _ := c.S.Sheet()
	if kind == "" {
		return
	}
	made, err := papers.Sheets(c.S.PaperQuestion(kind, ""), nil)
	require.NoError(t, err, kind)
	c.S.SetSheetFacts(made.Facts)
	c.Marks = nil
	for i, svg := range made.Pages {
		w, h := SheetSize([]byte(svg))
		c.Marks = append(c.Marks, Sheet{Src: fmt.Sprint("page", i), W: w, H: h})
	}
	c.NoSheet, c.Drawing = "", false
}

// steps are all steps, with the card model as one of its own.
func steps() (out []string) {
	for _, x := range session.PaperSteps {
		out = append(out, x.Key)
		if x.Key == "template" {
			out = append(out, "card")
		}
	}
	return out
}

// sound holds the column against what a screen reader needs: each field has its label and what was wrong with it, each group,
// list of steps and picture its name; headings stand in the sections, none empty.
func soundColumn(t *testing.T, c *Screen, where string) {
	page := body(c)
	soundPage(t, page, where)
	ids, labels := map[string]*node.Node{}, map[string]*node.Node{}
	page.Walk(func(n *node.Node) bool {
		if id := n.Get("id"); id != "" {
			ids[id] = n
		}
		if n.Tag == "label" {
			labels[n.Get("for")] = n
		}
		return true
	})
	page.Walk(func(n *node.Node) bool {
		switch n.Tag {
		case "input", "select":
			l := labels[n.Get("id")]
			if assert.NotNil(t, l, "%s: the field %q has no label", where, n.Get("id")) {
				assert.NotEmpty(t, l.Words(), where)
			}
			if n.Get("aria-invalid") == "true" {
				e := ids[n.Get("aria-describedby")]
				if assert.NotNil(t, e, where) {
					assert.Equal(t, "alert", e.Get("role"), where)
				}
			}
		case "img":
			assert.NotEmpty(t, n.Get("alt"), where)
		case "nav":
			assert.NotEmpty(t, n.Get("aria-label"), where)
		case "h2", "h3", "summary", "caption", "th", "li", "td":
			assert.NotEmpty(t, strings.TrimSpace(n.Words()), "%s: an empty %s", where, n.Tag)
		case "p":
			assert.True(t, n.Words() != "" || len(n.Kids) > 0, "%s: an empty paragraph", where)
		}
		if n.Get("role") == "group" {
			assert.NotEmpty(t, n.Get("aria-label"), where)
			on := 0
			for _, k := range n.Kids {
				if k.Get("aria-pressed") == "true" {
					on++
				}
			}
			assert.Equal(t, 1, on, "%s: one of %q is chosen", where, n.Get("aria-label"))
		}
		return true
	})
}

// Every step of every demo part stands whole: before its sheet is drawn, with it, with a size measured and a line struck, while it is
// drawn anew, refused, and while files are made; in both units.
func TestMarkingSteps(t *testing.T) {
	inMM := regexp.MustCompile(`\d ?mm\b`)
	for _, d := range assets.Demos() {
		for _, units := range []fold.Units{fold.MM, fold.Inch} {
			c, _ := openStep(t, d.File, "marking")
			c.S.SetUnits(units)
			where := ""
			look := func(state string) {
				t.Helper()
				soundColumn(t, c, where+state)
				page := body(c)
				col := page.Find(func(n *node.Node) bool { return n.Tag == "nav" && n.Get("aria-label") == "Steps" })
				require.NotNil(t, col, where+state)
				current := 0
				for _, k := range col.Kids {
					if k.Get("aria-current") == "step" {
						current++
					}
				}
				assert.Equal(t, 1, current)
				if units == fold.Inch {
					for _, n := range c.marking() {
						words := n.Words()
						if plan := c.S.SheetFacts().Plan; plan != nil { // drills keep what is stamped on them
							for _, x := range plan.Steps {
								words = strings.ReplaceAll(words, x.Sizes, "")
							}
							for _, x := range plan.Drills {
								words = strings.ReplaceAll(strings.ReplaceAll(words, x.Size, ""), x.First, "")
							}
						}
						assert.NotRegexp(t, inMM, words, where+state)
					}
				}
			}
			for pass := range 2 {
				for _, step := range steps() {
					if pass == 1 && step != "cutting" && step != "check" {
						continue
					}
					toStep(c, step)
					where = fmt.Sprintf("%s, %v, %s, ", d.File, units, step)
					c.S.SetSheetFacts("")
					look("not drawn yet")
					kind, _ := c.S.Sheet()
					words := body(c).Words()
					if kind != "" {
						assert.Contains(t, words, "Drawing the sheet…", where)
						assert.Contains(t, words, paperSteps[kind].title, where)
					}
					drawn(t, c)
					look("drawn")
					assert.NotContains(t, body(c).Words(), "Drawing the sheet…", where)
					c.Drawing = kind != ""
					look("drawn anew")
					c.Drawing = false
					if len(c.Marks) > 0 {
						paper := c.paper()
						require.NotNil(t, paper)
						assert.Len(t, paper.Kids, 1+len(c.Marks)) // the first enlarges
						assert.Contains(t, paper.Kids[1].Kids[0].Get("alt"), paperSteps[kind].alt)
					}
					c.Making = c.S.FileFor(kind, "pdf")
					look("saving")
					c.MadeDone, c.MadeOf = 2, 7
					look("saving")
					c.Making, c.MadeDone, c.MadeOf = "", 0, 0
					c.Marks, c.NoSheet = nil, "nothing narrower than 254 mm holds it"
					c.S.SetSheetFacts("")
					for _, field := range []string{"margin", "roll", "kerf", "gaps", "cardthick"} {
						c.S.RefusePaper(field, "found 25.4 mm, need 50.8 mm")
					}
					c.RefuseFile("the outline is 25.4 mm off")
					look("refused")
					if kind != "" {
						assert.Contains(t, body(c).Words(), map[fold.Units]string{fold.MM: "Nothing narrower than 254 mm holds it.", fold.Inch: "Nothing narrower than 10 in holds it."}[units])
					}
				}
				if pass == 0 { // a size 3 mm out, the others right, and a line struck
					toStep(c, "check")
					drawn(t, c)
					k := c.S.SheetFacts().Check
					require.NotNil(t, k)
					for i := range k.Sizes {
						off := 0.0
						if i == 0 {
							off = 3
						}
						require.NoError(t, c.S.SetCut(&k.Sizes[i], session.FieldLength(k.Sizes[i].Want+off, fold.MM)+"mm"))
					}
					require.NoError(t, c.S.Strike("A", "20mm"))
				}
			}
		}
	}
}

// A part that can't be folded has no steps, and says so.
func TestMarkingNotFoldable(t *testing.T) {
	spec := fold.Spec{Name: "Plate", Sheet: fold.Sheet{Thickness: 1}, Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{90, 0}}, {At: geom.Vec2{90, 60}}, {At: geom.Vec2{0, 60}}},
		Bends: []fold.BendSpec{{Name: "off", Line: [2]geom.Vec2{{200, 0}, {200, 60}}, Angle: 90, Radius: 1}}}
	c := New(session.New(spec), (&bench{}).deeds(), nil)
	c.S.SetWord(session.Marking)
	require.False(t, c.S.Part().Foldable)
	for _, step := range steps() {
		toStep(c, step)
		soundColumn(t, c, step)
		assert.Contains(t, body(c).Words(), "once the blank is one that can be cut and folded")
	}
}

// Before and after any facts, and with ones of no words at all, each step stands.
func TestMarkingBareFacts(t *testing.T) {
	c, _ := openStep(t, "uncapping-tray.dryfold", "check")
	for _, f := range []ask.PaperFacts{{}, {Check: &ask.CutCheck{}}, {Check: &ask.CutCheck{Word: "bend", Sizes: []ask.CheckSize{{No: 1}}, Seams: []ask.CheckSeam{{}}}},
		{Plan: &ask.CutPlan{}}, {Plan: &ask.CutPlan{Steps: []ask.CutStep{{Number: 1}}, Drills: []ask.CutDrill{{}}, Problems: []fold.Trouble{{}}}}} {
		c.S.SetSheetFacts(ask.Write(f))
		for _, step := range steps() {
			toStep(c, step)
			soundPage(t, body(c), step)
		}
	}
}

// Each button asks for what it says, of the kind and under the name that it says.
func TestMarkingButtons(t *testing.T) {
	const name = "uncapping-tray"
	for _, x := range []struct{ step, words, want, ending, file string }{
		{"marking", "Save as PDF", "marking", "pdf", name + "-marking.pdf"},
		{"marking", "Save the blank at true scale", "blank", "svg", name + "-blank.svg"},
		{"cutting", "Save as PDF", "cutting", "pdf", name + "-cutting.pdf"},
		{"check", "Save as PDF", "check", "pdf", name + "-check.pdf"},
		{"cards", "Save as PDF", "cards", "pdf", name + "-cards.pdf"},
		{"cards", "Save all sheets as one PDF", "all", "pdf", name + "-sheets.pdf"},
		{"template", "Save as PDF", "template", "pdf", name + "-template.pdf"},
		{"card", "Save as PDF", "card", "pdf", name + "-card.pdf"},
		{"files", "Save as DXF", "machine", "dxf", name + ".dxf"},
		{"files", "Save as SVG", "machine", "svg", name + "-cut.svg"},
		{"files", "Save the picture, as it stands now", "picture", "png", name + ".png"},
		{"files", "Save the run-through as GIF", "run", "gif", name + "-run-through.gif"},
		{"files", "Save as STL", "solid", "stl", name + ".stl"},
		{"files", "Save as glTF", "solid", "glb", name + ".glb"},
	} {
		c, b := openStep(t, "uncapping-tray.dryfold", x.step)
		drawn(t, c)
		named := func(words string) *node.Node {
			return body(c).Find(func(n *node.Node) bool { return n.Tag == "button" && n.Words() == words })
		}
		if x.ending == "pdf" { // not while the sheet shown is another one
			c.Drawing = true
			assert.True(t, named(x.words).Has("disabled"), x.words)
			assert.True(t, named("Print").Has("disabled"), x.words)
			c.Drawing = false
		}
		press(t, c, x.words)
		assert.Equal(t, []string{"export " + x.file}, b.asked)
		require.Len(t, b.exported, 1)
		assert.Equal(t, []string{x.want, x.ending}, []string{b.exported[0].Want, b.exported[0].Ending}, x.words)
		c.Making = x.file
		body(c).Walk(func(n *node.Node) bool { // one file at a time
			if n.Tag == "button" && strings.HasPrefix(n.Key, "save-") && n.Key != "save-"+x.file {
				assert.True(t, n.Has("disabled"), n.Words())
			}
			return true
		})
		press(t, c, "Making it… tap to stop")
		assert.Equal(t, "stop making", b.asked[len(b.asked)-1])
	}
	c, b := openStep(t, "uncapping-tray.dryfold", "cutting")
	c.NoSheet = "It can’t be drawn"
	assert.NotContains(t, body(c).Words(), "Try again", "it would come to the same")
	c.NoSheet, c.Unfetched = "Not fetched. Are you on line?", true
	assert.NotContains(t, body(c).Words(), "?.")
	press(t, c, "Try again")
	assert.Equal(t, []string{"draw again"}, b.asked)
	for _, step := range []string{"marking", "cutting", "check", "cards", "template", "card"} {
		c, b := openStep(t, "uncapping-tray.dryfold", step)
		require.NoError(t, c.S.SetPaperLength("across", "99"))
		drawn(t, c)
		press(t, c, "Print")
		assert.Equal(t, []string{"print"}, b.asked)
		if step == "template" || step == "card" {
			assert.Empty(t, c.S.PaperLength("across"), "the next measure is of this print")
		} else {
			assert.Equal(t, "99", c.S.PaperLength("across"), step)
		}
		assert.InDelta(t, 100.0/99, c.S.Scaled()[0], 1e-9, step)
	}
}

// Every choice is taken when it is touched and shown as taken; none is lost by another.
func TestMarkingChoices(t *testing.T) {
	for _, step := range steps() {
		c, _ := openStep(t, "uncapping-tray.dryfold", step)
		drawn(t, c)
		column := func() *node.Node { return node.E("div", c.marking()) }
		type choice struct{ group, value string }
		var all []choice
		column().Walk(func(n *node.Node) bool {
			switch {
			case n.Get("role") == "group":
				for _, k := range n.Kids {
					all = append(all, choice{n.Get("aria-label"), k.Words()})
				}
			case n.Tag == "select":
				for _, k := range n.Kids {
					all = append(all, choice{"select " + n.Get("id"), k.Get("value")})
				}
			}
			return true
		})
		require.NotEmpty(t, all, step)
		last := all[len(all)-1]
		for _, x := range append(all, all[0], last) { // the first again, after the last
			toStep(c, step)
			if id, ok := strings.CutPrefix(x.group, "select "); ok {
				list := column().Find(func(n *node.Node) bool { return n.Get("id") == id })
				if list == nil {
					continue // it stands under another choice
				}
				list.On["change"](node.Event{Value: x.value, Stop: func() {}})
				list = column().Find(func(n *node.Node) bool { return n.Get("id") == id })
				require.NotNil(t, list, x)
				assert.Equal(t, x.value, list.Get("value"), x)
				continue
			}
			find := func() *node.Node {
				g := column().Find(func(n *node.Node) bool { return n.Get("role") == "group" && n.Get("aria-label") == x.group })
				if g == nil {
					return nil
				}
				return g.Find(func(n *node.Node) bool { return n.Words() == x.value && n.Tag == "button" })
			}
			b := find()
			if b == nil {
				continue
			}
			b.On["click"](node.Event{Stop: func() {}})
			if x.group == "Of" { // another kind of sheet: the column is that one's
				continue
			}
			b = find()
			require.NotNil(t, b, x)
			assert.Equal(t, "true", b.Get("aria-pressed"), "%s: %v", step, x)
		}
		soundColumn(t, c, step)
	}
	// The steps themselves.
	c, _ := openStep(t, "uncapping-tray.dryfold", "marking")
	for _, x := range session.PaperSteps {
		press(t, c, x.Name)
		assert.Equal(t, x.Key, c.S.Papers().Step)
	}
}

// Fields show what was typed, what was wrong with it, and what it became; those of other choices stand only where they mean something.
func TestMarkingFields(t *testing.T) {
	has := func(c *Screen, key string) bool {
		return body(c).Find(func(n *node.Node) bool { return n.Get("id") == "f-"+session.PaperField(key) }) != nil
	}
	c, _ := openStep(t, "uncapping-tray.dryfold", "files")
	assert.False(t, has(c, "notch"))
	assert.False(t, has(c, "gapwide"))
	pickFrom(t, c, "f-bends", "2")
	fill(t, c, "f-"+session.PaperField("gaps"), "4")
	assert.True(t, has(c, "notch"))
	assert.True(t, has(c, "gapwide"))
	fill(t, c, "f-"+session.PaperField("kerf"), "0.2")
	assert.Equal(t, 0.2, c.S.Papers().Kerf)
	fill(t, c, "f-"+session.PaperField("kerf"), "wide")
	e := body(c).Find(func(n *node.Node) bool { return n.Get("id") == "f-"+session.PaperField("kerf")+"-e" })
	require.NotNil(t, e)
	assert.Contains(t, e.Words(), "is not a length")
	assert.Equal(t, 0.2, c.S.Papers().Kerf)
	c.RefuseFile("the cut closes up a notch 3 mm wide")
	assert.Contains(t, body(c).Words(), "The cut closes up a notch 3 mm wide.")
	fill(t, c, "f-"+session.PaperField("kerf"), "0.1")
	assert.NotContains(t, body(c).Words(), "The cut closes up", "with another choice it may go")

	toStep(c, "template")
	assert.False(t, has(c, "roll"))
	assert.False(t, has(c, "cardthick"))
	pickFrom(t, c, "f-onpaper", paper.Roll)
	assert.True(t, has(c, "roll"))
	fill(t, c, "f-"+session.PaperField("across"), "99")
	assert.Contains(t, body(c).Words(), "scaled 101.01 % across and 100 % down")
	drawn(t, c)
	press(t, c, "Without a correction")
	assert.NotContains(t, body(c).Words(), "scaled 101")
	toStep(c, "card")
	assert.True(t, has(c, "cardthick"))
}

// What is measured on the blank is typed beside its size, the verdict turns, and it can be cleared.
func TestCheckStep(t *testing.T) {
	c, _ := openStep(t, "uncapping-tray.dryfold", "check")
	drawn(t, c)
	verdict := func() string {
		word := body(c).Find(func(n *node.Node) bool { return n.Key == "goword" })
		n := body(c).Find(func(n *node.Node) bool { return n.Key == "verdict" })
		require.NotNil(t, word)
		require.NotNil(t, n)
		assert.Equal(t, "status", word.Get("role"))
		return word.Words() + " " + n.Words()
	}
	assert.Contains(t, verdict(), "Measure before you bend")
	k := c.S.SheetFacts().Check
	for i := range k.Sizes {
		fill(t, c, "f-"+session.CutField(k.Sizes[i].No), session.FieldLength(k.Sizes[i].Want, fold.MM))
		drawn(t, c)
	}
	assert.Contains(t, verdict(), "Bend")
	assert.NotContains(t, verdict(), "Measure")
	field := session.CutField(1)
	fill(t, c, "f-"+field, session.FieldLength(k.Sizes[0].Want+2, fold.MM))
	drawn(t, c)
	assert.NotEqual(t, "ok", c.S.SheetFacts().Check.Sizes[0].State)
	assert.True(t, strings.Contains(verdict(), "Trim first") || strings.Contains(verdict(), "Accept or cut again"), verdict())
	assert.Contains(t, section(t, c, "measured").Words(), "too large")
	fill(t, c, "f-"+field, "x")
	assert.Contains(t, section(t, c, "measured").Words(), "is not a length")
	press(t, c, "Clear what was measured")
	drawn(t, c)
	assert.Contains(t, verdict(), "Measure before you bend")
	assert.Nil(t, body(c).Find(func(n *node.Node) bool { return n.Tag == "button" && n.Words() == "Clear what was measured" }))
	for _, w := range verdictWords {
		assert.NotEmpty(t, w[1])
	}
}

// A line scribed by mistake is struck out, told, and taken back.
func TestStrikeBox(t *testing.T) {
	c, _ := openStep(t, "uncapping-tray.dryfold", "cutting")
	drawn(t, c)
	fill(t, c, "f-strike", "20")
	press(t, c, "B, below")
	fill(t, c, "f-strike", "1 in")
	assert.Equal(t, []string{"20 mm from A", "25.4 mm from B"}, c.S.Struck())
	assert.Contains(t, section(t, c, "strike").Words(), "Struck out: 25.4 mm from B")
	fill(t, c, "f-strike", "90000")
	assert.Contains(t, section(t, c, "strike").Words(), "lies off the blank")
	fill(t, c, "f-strike", "")
	press(t, c, "Take back")
	assert.Equal(t, []string{"25.4 mm from B"}, c.S.Struck())
	drawn(t, c)
	assert.NotContains(t, section(t, c, "plan").Words(), "20 mm from A")
}

// What a card model measures is typed there and goes into the sizes.
func TestCardStep(t *testing.T) {
	c := startFrom(t, "Tray")
	c.S.SetWord(session.Marking)
	toStep(c, "card")
	drawn(t, c)
	list := c.S.CardSizes()
	i := slices.IndexFunc(list, func(x paper.CardSize) bool { return x.Formula == "" && !x.Changed })
	require.GreaterOrEqual(t, i, 0)
	fill(t, c, "f-"+session.CardField(i), session.FieldLength(list[i].Is+5, fold.MM))
	assert.InDelta(t, list[i].Is+5, c.S.CardSizes()[i].Is, 1e-9)
	soundColumn(t, c, "card")
	assert.Contains(t, section(t, c, "cardsizes").Words(), "in the part’s sizes")
	require.NoError(t, c.S.Freeze())
	assert.Contains(t, section(t, c, "cardsizes").Words(), "given by its blank")
}

// The page's size is read from the head of a drawing, whatever stands there.
func TestSheetSizeOfAny(t *testing.T) {
	for text, want := range map[string][2]float64{
		`<svg xmlns="x" width="420mm" height="297mm" viewBox="0 0 1 1">`: {420, 297}, `<svg width="12.5mm" height="7mm">`: {12.5, 7},
		"": {210, 297}, "<svg>": {210, 297}, `<svg width="-3mm" height="0mm">`: {210, 297}, `<svg width="NaNmm" height="xmm`: {210, 297}, `<svg width="`: {210, 297}, `<svg width="Infmm"`: {210, 297},
	} {
		w, h := SheetSize([]byte(text))
		assert.Equal(t, want, [2]float64{w, h}, text)
	}
	assert.Equal(t, "@page leaf2 { size: 420mm 297mm; margin: 0 }", LeafRule(2, Sheet{W: 420, H: 297}))
}
