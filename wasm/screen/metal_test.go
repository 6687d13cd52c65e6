package screen

import (
	"regexp"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/wasm/node"
	"dryfold/wasm/session"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// section is the section of the column with this key.
func section(t testing.TB, c *Screen, key string) *node.Node {
	t.Helper()
	n := body(c).Find(func(n *node.Node) bool { return n.Tag == "section" && n.Key == key })
	require.NotNil(t, n, "no section "+key)
	return n
}

func openMetal(t testing.TB) *Screen {
	t.Helper()
	c, _ := open(t, "uncapping-tray.dryfold")
	c.S.SetWord(session.Metal)
	return c
}

// What stands under Metal stands in the order in which one asks for it.
func TestMetalOrder(t *testing.T) {
	c := openMetal(t)
	check(t, c)
	at := -1
	words := body(c).Words()
	for _, head := range []string{"Sheet", "When a number changes, keep", "K factor", "My test bends", "Inside radii", "What doubt is worth here", "What the bends take", "Weight and price", "Bend calculator"} {
		i := strings.Index(words[at+1:], head)
		require.GreaterOrEqual(t, i, 0, head)
		at += 1 + i
	}
}

func TestGaugeIsAskedFor(t *testing.T) {
	c := openMetal(t)
	fill(t, c, "f-thickness", "16 ga")
	box := section(t, c, "sheet")
	tables := 0
	box.Walk(func(n *node.Node) bool {
		if n.Tag == "button" && strings.HasPrefix(n.Get("class"), "gauge") {
			tables++
			assert.Contains(t, n.Words(), "mm", "a gauge is never shown without its thickness")
		}
		return true
	})
	assert.Equal(t, 6, tables)
	assert.Contains(t, box.Words(), "usual for Stainless 304")
	assert.Equal(t, "16 ga", body(c).Find(func(n *node.Node) bool { return n.Get("id") == "f-thickness" }).Get("value"), "what was typed stays until it is answered")
	soundPage(t, body(c), "gauges")
	press(t, c, "16 ga US Standard usual for Stainless 304 1.59 mm")
	assert.InDelta(t, 1.5875, c.S.Part().Thickness, 1e-9)
	band := body(c).Find(func(n *node.Node) bool { return n.Key == "band" })
	assert.Contains(t, band.Words(), "16 ga US Standard")
	assert.NotContains(t, section(t, c, "sheet").Words(), "Which one?")
}

// Every figure of a metal says where it comes from.
func TestMetalFactsHaveSources(t *testing.T) {
	c := openMetal(t)
	for _, m := range metal.Metals {
		require.NoError(t, c.S.SetMetal(m.Name))
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			c.S.SetUnits(u)
			facts := section(t, c, "sheet").Find(func(n *node.Node) bool { return n.Get("class") == "sourced" })
			require.NotNil(t, facts, m.Name)
			for _, d := range facts.Kids {
				if strings.Contains(d.Get("class"), "note") {
					continue
				}
				words := strings.ToLower(d.Words())
				assert.True(t, strings.Contains(words, "published") || strings.Contains(words, "common practice") || strings.Contains(words, "not known"), "%s: %s", m.Name, words)
			}
			soundPage(t, body(c), m.Name)
		}
		for _, w := range m.Cautions {
			assert.Contains(t, section(t, c, "sheet").Words(), w)
		}
	}
}

func TestMetalOfOnesOwn(t *testing.T) {
	c := openMetal(t)
	press(t, c, "Add a metal")
	soundPage(t, body(c), "form")
	assert.Equal(t, "f-"+session.MetalField("name"), c.Focus)
	fill(t, c, "f-metal-name", "Tough")
	fill(t, c, "f-metal-density", "7.9")
	assert.Contains(t, section(t, c, "sheet").Words(), "100 to 30000")
	press(t, c, "Keep this metal")
	assert.NotNil(t, c.S.MetalForm(), "a wrong figure keeps the form open")
	fill(t, c, "f-metal-density", "7900")
	fill(t, c, "f-metal-note", "mill sheet")
	press(t, c, "Keep this metal")
	assert.Nil(t, c.S.MetalForm())
	box := section(t, c, "sheet")
	assert.Contains(t, box.Words(), "7900 kg/m³")
	assert.Contains(t, box.Words(), "mill sheet")
	assert.Contains(t, section(t, c, "price").Words(), "mill sheet", "the weight says where its density is from")
	soundPage(t, body(c), "own")
	press(t, c, "Edit Tough")
	press(t, c, "Take it out")
	assert.Empty(t, c.S.Spec().Metals)
}

// The K in use, its source and kind stand in sight however it is come by.
func TestKInSight(t *testing.T) {
	c := openMetal(t)
	press(t, c, "a rule")
	for _, r := range metal.Rules {
		pickFrom(t, c, "f-rule", r.ID)
		words := section(t, c, "k").Words()
		assert.Contains(t, words, r.Formula)
		for _, u := range c.S.KsUsed() {
			assert.Contains(t, words, u.Kind)
			assert.Contains(t, words, upper(u.Source))
		}
	}
	press(t, c, "a figure")
	fill(t, c, "f-k", "0.44")
	assert.Contains(t, section(t, c, "k").Words(), "0.440")
	assert.Contains(t, section(t, c, "k").Words(), "assumed")
	fill(t, c, "f-k-from", "my notes")
	assert.Contains(t, section(t, c, "k").Words(), "my notes")
	fill(t, c, "f-k", "2")
	assert.Contains(t, section(t, c, "k").Words(), "0 to 0.6")
}

// pickFrom chooses from the list with this id.
func pickFrom(t testing.TB, c *Screen, id, value string) {
	t.Helper()
	l := body(c).Find(func(n *node.Node) bool { return n.Get("id") == id })
	require.NotNil(t, l, "no list "+id)
	require.NotNil(t, l.Find(func(n *node.Node) bool { return n.Tag == "option" && n.Get("value") == value }), "no choice "+value)
	l.On["change"](node.Event{Value: value, Stop: func() {}})
}

func TestRadiiAtOnce(t *testing.T) {
	c := openMetal(t)
	rows := c.S.Radii()
	id := session.RadiusField(rows[0].Bends)
	pickFrom(t, c, "f-"+id+"-from", "nose")
	for _, b := range rows[0].Bends {
		assert.Equal(t, "nose", c.S.Spec().Bends[b].RadiusFrom)
	}
	fill(t, c, "f-"+id, "2")
	for _, b := range rows[0].Bends {
		assert.Equal(t, 2.0, c.S.Spec().Bends[b].Radius)
	}
	assert.Contains(t, section(t, c, "radii").Words(), "least")
}

// What is kept is chosen, and the column says what that means.
func TestKeepIsChosen(t *testing.T) {
	c := openMetal(t)
	blank := c.S.Report().Blank.Width
	press(t, c, "the blank")
	assert.Contains(t, section(t, c, "keep").Words(), "finished sizes move")
	press(t, c, "a rule")
	assert.Equal(t, blank, c.S.Report().Blank.Width)
	c.S.Undo()
	press(t, c, "the finished sizes")
	was := c.S.Report().Finished.Box()
	press(t, c, "a rule")
	for i, v := range c.S.Report().Finished.Box() {
		assert.InDelta(t, was[i], v, 1e-6)
	}
}

func TestWorthComesWithTheAnswer(t *testing.T) {
	c := openMetal(t)
	assert.Contains(t, section(t, c, "worth").Words(), "Being worked out")
	check(t, c)
	words := section(t, c, "worth").Words()
	assert.NotContains(t, words, "Being worked out")
	for _, l := range c.S.Worth() {
		assert.Contains(t, words, l.If)
		assert.Contains(t, words, l.Most)
	}
	c.S.SetUnits(fold.Inch)
	assert.NotContains(t, section(t, c, "worth").Words(), " mm")
}

// Both conventions of angle, and a set angle that was not measured, are called what they are.
func TestBendTable(t *testing.T) {
	c := openMetal(t)
	check(t, c)
	box := section(t, c, "bendtable")
	assert.Contains(t, box.Words(), "included angle")
	var first *node.Node
	n := 0
	box.Walk(func(k *node.Node) bool {
		if k.Get("class") == "rowname" {
			if n++; n == 1 {
				first = k
			}
		}
		return true
	})
	require.NotNil(t, first)
	assert.Less(t, n, len(c.S.Part().Bends), "bends that take the same stand in one row")
	first.On["click"](node.Event{Stop: func() {}})
	words := section(t, c, "bendtable").Words()
	assert.Contains(t, words, "° included")
	assert.Contains(t, words, "at least")
	assert.Contains(t, words, "bend a strip first")
	soundPage(t, body(c), "open row")
}

func TestPriceBox(t *testing.T) {
	c := openMetal(t)
	fill(t, c, "f-price-per-kg", "5")
	fill(t, c, "f-price-currency", "EUR")
	words := section(t, c, "price").Words()
	assert.Contains(t, words, "EUR")
	assert.Contains(t, words, "kg, the rectangle")
	fill(t, c, "f-price-sheet", "big")
	assert.Contains(t, section(t, c, "price").Words(), "1250 x 2500")
}

// The unit beside a field follows what is being typed, and the text stays until it is taken.
func TestUnitFollowsTyping(t *testing.T) {
	c := openMetal(t)
	const id = "f-thickness"
	box := func() *node.Node {
		return body(c).Find(func(n *node.Node) bool {
			return n.Get("class") == "fld" && n.Find(func(k *node.Node) bool { return k.Get("id") == id }) != nil
		})
	}
	in := func() *node.Node { return box().Find(func(n *node.Node) bool { return n.Get("id") == id }) }
	require.NotNil(t, box())
	assert.Equal(t, "mm", box().Words())
	in().On["input"](node.Event{Value: "1/16in"})
	assert.Equal(t, "= 1.59 mm", box().Words())
	assert.Equal(t, "1/16in", in().Get("value"), "the typed text stays")
	in().On["input"](node.Event{Value: "16 ga"})
	assert.Equal(t, "", box().Words())
	in().On["blur"](node.Event{})
	assert.Equal(t, "mm", box().Words())
	assert.Equal(t, "1", in().Get("value"), "nothing was taken")
	in().On["input"](node.Event{Value: "x in"})
	fill(t, c, id, "x in")
	assert.Equal(t, "", box().Words(), "a text that was not taken has its unit too")
	fill(t, c, id, "1.5mm")
	assert.Equal(t, "1.5", in().Get("value"))
	assert.Equal(t, "mm", box().Words())
}

// A radius typed over a measured one is shown as assumed, and says so; one that the strips don't have can't be called measured.
func TestRadiusSourceOnThePage(t *testing.T) {
	c := openMetal(t)
	id := session.RadiusField(c.S.Radii()[0].Bends)
	pickFrom(t, c, "f-"+id+"-from", "strip")
	assert.Contains(t, section(t, c, "radii").Words(), "On your word")
	fill(t, c, "f-"+id, "2")
	words := section(t, c, "radii").Words()
	assert.Contains(t, words, "was measured on a strip; this one is assumed")
	assert.Contains(t, words, "the finished outside sizes stay")
	r := 1.2
	strip := metal.Strip{Metal: "Stainless 304", Thickness: 1, Length: 100, Legs: [2]float64{51, 51}, Angle: 90, Radius: &r}
	require.NoError(t, c.S.UseStrips([]metal.Strip{strip}))
	id = session.RadiusField(c.S.Radii()[0].Bends)
	pickFrom(t, c, "f-"+id+"-from", "strip")
	assert.Contains(t, section(t, c, "radii").Words(), "No strip of yours has R 2 mm: they came out with R 1.2 mm")
	soundPage(t, body(c), "a refused source")
}

// The lists' range has their upper figures in it.
func TestLeastRangeIsWhole(t *testing.T) {
	c := openMetal(t)
	for _, m := range metal.Metals {
		require.NoError(t, c.S.SetMetal(m.Name))
		for _, r := range c.S.Radii() {
			_, hi, ok := r.Range()
			for _, l := range r.Least {
				if ok && !l.Advice {
					assert.GreaterOrEqual(t, hi, l.High, m.Name)
				}
			}
			if ok {
				assert.Regexp(t, "(least|least by list) ([0-9.]+ to )?"+regexp.QuoteMeta(session.Fine(hi, fold.MM))+" mm", section(t, c, "radii").Words(), m.Name)
				assert.False(t, r.State == "ok" && hi > r.Radius+0.05, m.Name)
			}
		}
	}
}

// No work is no line of the price.
func TestNoWorkNoLine(t *testing.T) {
	c := openMetal(t)
	fill(t, c, "f-price-per-kg", "5")
	total := func() string {
		return section(t, c, "price").Find(func(n *node.Node) bool { return n.Key == "total" }).Words()
	}
	assert.Contains(t, total(), "Metal")
	assert.NotContains(t, total(), "Work")
	fill(t, c, "f-price-hours", "2")
	fill(t, c, "f-price-per-hour", "40")
	assert.Contains(t, total(), "Work 80.00")
	fill(t, c, "f-price-per-kg", "")
	assert.NotContains(t, total(), "Metal")
}

// A sharp strip is asked about at its field.
func TestSharpStripOnThePage(t *testing.T) {
	c := openMetal(t)
	press(t, c, "Add a test bend")
	fill(t, c, "f-strip-radius", "0")
	assert.Contains(t, section(t, c, "tests").Words(), "a sharp crease?")
	soundPage(t, body(c), "a sharp strip")
	fill(t, c, "f-strip-length", "4in")
	assert.Contains(t, section(t, c, "tests").Words(), "= 101.6 mm")
}
