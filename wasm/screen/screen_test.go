package screen

import (
	"fmt"
	"strings"
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
	"dryfold/wasm/session/ask"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bench stands in for the browser: it notes what was asked of it.
type bench struct {
	asked    []string
	exported []ask.PaperQuestion
}

func (b *bench) deeds() Deeds {
	note := func(what string) func() { return func() { b.asked = append(b.asked, what) } }
	return Deeds{PickFile: note("pick"), SaveFile: note("save"), Share: note("share"), Print: note("print"), Export: func(q ask.PaperQuestion, file string) {
		b.asked, b.exported = append(b.asked, "export "+file), append(b.exported, q)
	}, StopMaking: note("stop making"), DrawAgain: note("draw again"), SaveBench: note("bench"), Guide: note("guide"), Slowly: func(work func(func())) { work(func() {}) },
		RunThrough: func(on bool) { b.asked = append(b.asked, fmt.Sprint("run ", on)) },
		View:       func(w string) { b.asked = append(b.asked, "view "+w) },
		Lock:       func(on bool) { b.asked = append(b.asked, fmt.Sprint("lock ", on)) },
		Demo:       func(n string) { b.asked = append(b.asked, "demo "+n) }}
}

func open(t testing.TB, file string) (*Screen, *bench) {
	t.Helper()
	for _, d := range assets.Demos() {
		if d.File != file {
			continue
		}
		spec, err := partfile.Read(d.Data)
		require.NoError(t, err)
		b := &bench{}
		c := New(session.New(spec), b.deeds(), []Demo{{Name: d.File, Title: d.Name, Note: d.Line}})
		return c, b
	}
	t.Fatal("no demo part " + file)
	return nil, nil
}

func check(t testing.TB, c *Screen) {
	t.Helper()
	require.NoError(t, ask.Check(c.S.Question(), func(kind, text string) { c.S.Answer(c.S.Serial(), kind, text) }))
}

// body is the page as one element.
func body(c *Screen) *node.Node { return node.E("body", c.Page()) }

// press touches the button with these words, in all.
func press(t testing.TB, c *Screen, words string) {
	t.Helper()
	b := body(c).Find(func(n *node.Node) bool { return n.Tag == "button" && n.Words() == words })
	require.NotNil(t, b, "no button says %q", words)
	require.False(t, b.Has("disabled"), "%q can't be pressed", words)
	b.On["click"](node.Event{Stop: func() {}})
}

// fill types into the field with this id.
func fill(t testing.TB, c *Screen, id, text string) {
	t.Helper()
	f := body(c).Find(func(n *node.Node) bool { return n.Get("id") == id })
	require.NotNil(t, f, "no field "+id)
	f.On["change"](node.Event{Value: text, Stop: func() {}})
}

// Every word of every demo part makes a page whose buttons and fields can be named
// and whose ids stand once only.
func TestEveryPage(t *testing.T) {
	for _, d := range assets.Demos() {
		c, _ := open(t, d.File)
		for pass := range 3 {
			c.Narrow = pass == 2
			for w := session.Sizes; w <= session.Marking; w++ {
				c.S.SetWord(w)
				for card := range c.S.Part().Swings {
					c.S.SetCard(card, 0.5)
					soundPage(t, body(c), fmt.Sprintf("%s, %s, card %d", d.File, w, card))
				}
			}
			if pass == 0 {
				check(t, c)
			}
		}
	}
}

// A part that can't be folded, and one without bends, still make whole pages.
func TestPagesWithoutFolds(t *testing.T) {
	flat := fold.Spec{Name: "Plate", Sheet: fold.Sheet{Thickness: 1}, Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{90, 0}}, {At: geom.Vec2{90, 60}}, {At: geom.Vec2{0, 60}}}}
	torn := flat
	torn.Bends = []fold.BendSpec{{Name: "off", Line: [2]geom.Vec2{{200, 0}, {200, 60}}, Angle: 90, Radius: 1}}
	for _, spec := range []fold.Spec{flat, torn} {
		c := New(session.New(spec), (&bench{}).deeds(), nil)
		assert.Equal(t, len(spec.Bends) == 0, c.S.Part().Foldable)
		for w := session.Sizes; w <= session.Marking; w++ {
			c.S.SetWord(w)
			c.S.Picture()
			soundPage(t, body(c), spec.Name+" "+w.String())
		}
		for _, a := range c.S.Advice() {
			c.S.GoTo(a)
			soundPage(t, body(c), "after its trouble")
		}
		c.S.SetFold(0.5)
		c.S.Swing(0, 1)
		c.S.Turn(1)
		assert.False(t, c.S.Run(1))
		link, err := c.S.Link()
		require.NoError(t, err)
		require.NoError(t, c.S.OpenLink(link))
		soundPage(t, body(c), "shared")
	}
}

func soundPage(t *testing.T, page *node.Node, where string) {
	ids := map[string]bool{}
	page.Walk(func(n *node.Node) bool {
		if id := n.Get("id"); id != "" {
			assert.False(t, ids[id], "%s: id %s stands twice", where, id)
			ids[id] = true
		}
		switch n.Tag {
		case "button":
			assert.True(t, n.Words() != "" || n.Get("aria-label") != "", "%s: a button without words", where)
			assert.True(t, n.Has("disabled") || n.On["click"] != nil || n.Get("class") == "rowname", "%s: the button %q does nothing", where, n.Words())
		case "svg":
			for _, a := range n.Attrs {
				assert.NotContains(t, a.Value, "NaN", where)
			}
		}
		keys := map[string]bool{}
		for _, k := range n.Kids {
			require.NotNil(t, k)
			if k.Key != "" {
				assert.False(t, keys[k.Key], "%s: key %s stands twice", where, k.Key)
				keys[k.Key] = true
			}
		}
		for _, a := range n.Attrs {
			assert.NotContains(t, a.Value, "NaN", "%s: %s", where, a.Name)
			assert.False(t, strings.HasPrefix(a.Name, "on"), "%s: a script in an attribute", where)
		}
		return true
	})
	words := page.Words()
	for _, bad := range []string{"NaN", "Inf", "%!", "<nil>"} {
		assert.NotContains(t, words, bad, where)
	}
}

// Metal, thickness, finished size, outside, units and good face stand on every view.
func TestBandIsOnEveryView(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	for w := session.Sizes; w <= session.Marking; w++ {
		c.S.SetWord(w)
		band := body(c).Find(func(n *node.Node) bool { return n.Key == "band" })
		require.NotNil(t, band)
		for _, word := range []string{"Stainless 304", "1.0", "mm", "finished", "outside", "good face"} {
			assert.Contains(t, band.Words(), word, w.String())
		}
	}
	c.S.SetUnits(fold.Inch)
	band := body(c).Find(func(n *node.Node) bool { return n.Key == "band" })
	assert.Contains(t, band.Words(), "0.039")
	assert.NotContains(t, band.Words(), "mm")
}

func TestTroubleTapAndRepair(t *testing.T) {
	c, b := open(t, "faulty-tray.dryfold")
	assert.Contains(t, body(c).Words(), "Looking for fouls")
	check(t, c)
	press(t, c, "Show")
	assert.Equal(t, session.Bends, c.S.Word())
	assert.Contains(t, b.asked, "view home")
	page := body(c)
	arc := page.Find(func(n *node.Node) bool { return strings.HasPrefix(n.Get("class"), "arc") })
	require.NotNil(t, arc)
	assert.Contains(t, arc.Words(), "fouls 49", "a tick where something fouls")
	text := c.S.Question()
	found := ask.FindRepairs(text, func() bool { return false })
	require.NotEmpty(t, found)
	live := page.Find(func(n *node.Node) bool { return n.Get("aria-live") == "polite" && n.Key == "live" })
	assert.Equal(t, "3 troubles.", live.Words())
	press(t, c, "2 more")
	assert.Contains(t, body(c).Words(), "left notch")
}

func TestFieldNamesWhatWouldDo(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	c.S.SetWord(session.Bends)
	card := c.S.Cards()[2]
	c.S.SetCard(2, 0)
	id := "f-" + session.BendField(card.Bends[0], "angle")
	fill(t, c, id, "squarish")
	page := body(c)
	f := page.Find(func(n *node.Node) bool { return n.Get("id") == id })
	assert.Equal(t, "squarish", f.Get("value"), "what was typed stays to be mended")
	assert.Equal(t, "true", f.Get("aria-invalid"))
	note := page.Find(func(n *node.Node) bool { return n.Get("id") == id+"-e" })
	require.NotNil(t, note)
	assert.Contains(t, note.Words(), "90 or 82.5")
	fill(t, c, id, "33")
	assert.Equal(t, 33.0, c.S.Spec().Bends[card.Bends[0]].Angle)
	assert.Nil(t, body(c).Find(func(n *node.Node) bool { return n.Get("id") == id+"-e" }))
}

func TestArcByFingerAndKeys(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	c.S.SetWord(session.Bends)
	for card := range c.S.Part().Swings {
		c.S.SetCard(card, 0)
		grab := func() *node.Node { return body(c).Find(func(n *node.Node) bool { return n.Key == "grab" }) }
		k := c.S.Cards()[card]
		b := boxFor(k.To)
		x, y := b.at(k.To*0.6, b.r)
		grab().On["pointerdown"](node.Event{X: x, Y: y, W: b.w, H: b.h, Stop: func() {}})
		assert.InDelta(t, k.To*0.6, c.S.Cards()[card].At, 0.01, "the leaf goes where the finger is")
		grab().On["keydown"](node.Event{Key: "Home", Stop: func() {}})
		assert.Equal(t, 0.0, c.S.Cards()[card].At)
		grab().On["keydown"](node.Event{Key: "ArrowUp", Stop: func() {}})
		assert.InDelta(t, 1, c.S.Cards()[card].At, 1e-9)
		grab().On["keydown"](node.Event{Key: "End", Stop: func() {}})
		assert.InDelta(t, k.To, c.S.Cards()[card].At, 1e-9)
		assert.Equal(t, session.Degrees(k.To), grab().Get("aria-valuenow"))
	}
}

// The arc's drawing and its reading of a finger agree at any angle.
func TestArcAngles(t *testing.T) {
	for _, to := range []float64{14, 90, 100, 135, 180, 240} {
		b := boxFor(to)
		for a := 0.0; a <= to; a += 1.5 {
			x, y := b.at(a, b.r)
			assert.InDelta(t, a, b.angleAt(x, y, max(0, a-20)), 1e-9)
			assert.True(t, x > -1 && x < b.w+1 && y > 10 && y < b.h+1, "%g of %g lies in the drawing", a, to)
		}
	}
	assert.Equal(t, geom.Degrees(90), geom.Degrees(45)*2)
}

func TestOrderByKeysAndDrag(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	c.S.SetWord(session.Bends)
	c.S.SetCard(1, 0)
	names := func() (out []string) {
		for _, k := range c.S.Cards() {
			out = append(out, k.Name)
		}
		return out
	}
	was := names()
	press(t, c, "Later")
	assert.Equal(t, []string{was[0], was[2], was[1]}, names()[:3])
	press(t, c, "Earlier")
	assert.Equal(t, was, names())
	handle := func(i int) *node.Node {
		li := body(c).Find(func(n *node.Node) bool { return n.Get("data-at") == fmt.Sprint(i) })
		require.NotNil(t, li)
		return li.Find(func(n *node.Node) bool { return strings.HasPrefix(n.Get("class"), "handle") })
	}
	h := handle(0)
	h.On["pointerdown"](node.Event{Stop: func() {}})
	handle(0).On["pointermove"](node.Event{Over: "2"})
	assert.NotNil(t, body(c).Find(func(n *node.Node) bool { return n.Get("class") == "after" }), "where it would go is shown")
	handle(0).On["pointerup"](node.Event{})
	assert.Equal(t, []string{was[1], was[2], was[0]}, names()[:3])
}

// Names are text, whatever stands in them.
func TestNamesStayText(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	evil := `<img src=x onerror=alert(1)>`
	require.NoError(t, c.S.SetName(evil))
	require.NoError(t, c.S.SetBendName(0, evil))
	require.NoError(t, c.S.SetPanelName(0, evil))
	for w := session.Sizes; w <= session.Marking; w++ {
		c.S.SetWord(w)
		page := body(c)
		assert.Contains(t, page.Words(), evil)
		assert.Nil(t, page.Find(func(n *node.Node) bool { return n.Tag == "img" || n.Tag == "script" }))
	}
}

func TestSharedPage(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	link, err := c.S.Link()
	require.NoError(t, err)
	require.NoError(t, c.S.OpenLink(link))
	page := body(c)
	soundPage(t, page, "shared")
	assert.Equal(t, "shared", c.Mode()["mode"])
	assert.Nil(t, page.Find(func(n *node.Node) bool { return n.Tag == "input" && n.Get("type") != "range" }), "nothing to change")
	slide := page.Find(func(n *node.Node) bool { return n.Get("type") == "range" })
	slide.On["input"](node.Event{Value: "0"})
	assert.Equal(t, c.S.Part().Flat(), c.S.State())
	press(t, c, "Take a copy")
	assert.False(t, c.S.ViewOnly())
}

func TestSheetSize(t *testing.T) {
	w, h := SheetSize([]byte(`<svg xmlns="http://www.w3.org/2000/svg" width="297mm" height="210mm" viewBox="0 0 297 210">`))
	assert.Equal(t, [2]float64{297, 210}, [2]float64{w, h})
	w, h = SheetSize([]byte(`<svg>`))
	assert.Equal(t, [2]float64{210, 297}, [2]float64{w, h})
}

func BenchmarkPage(b *testing.B) {
	c, _ := open(b, "uncapping-tray.dryfold")
	c.S.SetWord(session.Bends)
	for b.Loop() {
		c.Page()
	}
}
