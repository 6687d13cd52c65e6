package screen

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// words is all that the column says.
func words(c *Screen) string { return c.column().Words() }

// key presses a key in the field with this id.
func key(t testing.TB, c *Screen, id, name, value string) {
	t.Helper()
	f := body(c).Find(func(n *node.Node) bool { return n.Get("id") == id })
	require.NotNil(t, f, "no field "+id)
	f.On["keydown"](node.Event{Key: name, Value: value, Stop: func() {}})
}

// A new user's way: one button, three strips, K.
func TestThreeStripsOnThePage(t *testing.T) {
	c, b := open(t, "uncapping-tray.dryfold")
	c.S.SetWord(session.Metal)
	press(t, c, "Add a test bend")
	assert.Equal(t, "f-strip-length", c.Focus)
	soundPage(t, body(c), "the form")
	for i, legs := range [][2]string{{"51.4", "50.6"}, {"51.5", "50.6"}, {"51.3", "50.7"}} {
		if i == 0 {
			fill(t, c, "f-strip-length", "100")
			fill(t, c, "f-strip-set", "93")
		}
		fill(t, c, "f-strip-leg-a", legs[0])
		fill(t, c, "f-strip-leg-b", legs[1])
		fill(t, c, "f-strip-radius", "1.5")
		if i == 0 { // the others have what the one before came out with
			assert.NotContains(t, words(c), "This strip alone")
			fill(t, c, "f-strip-angle", "90")
		}
		assert.Equal(t, "90", c.S.StripText("angle"))
		assert.Contains(t, words(c), "This strip alone: K 0.")
		soundPage(t, body(c), "a strip typed")
		press(t, c, "Add this strip")
		assert.Equal(t, "f-strip-leg-a", c.Focus, "ready for the next")
		assert.Len(t, c.S.Spec().Tests, i+1)
	}
	press(t, c, "Done")
	said := words(c)
	assert.Contains(t, said, "the part’s K is a given figure, 0.42")
	assert.Regexp(t, `Your K 0\.[34]\d ± 0\.\d\d`, said)
	assert.Contains(t, said, "Springback, by strips of R 1.5 mm: for 90° stop the leaf at about 93°")
	press(t, c, "Use my test bends")
	assert.Contains(t, words(c), "The blank uses it now.")
	assert.Contains(t, words(c), "The finished part is as large as before.")
	soundPage(t, body(c), "in use")
	press(t, c, "Give the bends R 1.5 mm, measured on the strips")
	assert.Equal(t, "strip", c.S.Spec().Bends[0].RadiusFrom)
	assert.NotContains(t, words(c), "measured on the strips")
	press(t, c, "Print the guide")
	press(t, c, "Save as a file")
	assert.Equal(t, []string{"guide", "bench"}, b.asked)

	// A row opens on what can be done with it.
	press(t, c, "2 , more")
	soundPage(t, body(c), "a row open")
	press(t, c, "Edit")
	assert.Equal(t, "51.5", c.S.StripText("leg-a"))
	fill(t, c, "f-strip-leg-a", "51.4")
	press(t, c, "Keep the change")
	assert.Equal(t, 51.4, c.S.Spec().Tests[1].Legs[0])
	press(t, c, "2 , more")
	press(t, c, "Leave out")
	assert.Len(t, c.S.Spec().Tests, 2)
	press(t, c, "1 test bend left out of this part")
	soundPage(t, body(c), "left out")
	press(t, c, "Use")
	assert.Len(t, c.S.Spec().Tests, 3)
	press(t, c, "1 , more")
	press(t, c, "Delete")
	assert.Len(t, c.S.Spec().Tests, 2)
	assert.Len(t, c.S.Bench().Tests, 2)
}

func TestStripsByKeyboard(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	c.S.SetWord(session.Metal)
	press(t, c, "Add a test bend")
	at := "f-strip-length"
	for _, text := range []string{"100", "51.4", "50.6", "90", "", "1.5", "", ""} {
		require.Equal(t, at, c.Focus)
		key(t, c, at, "Enter", text)
		at = c.Focus
	}
	assert.Len(t, c.S.Spec().Tests, 1)
	assert.Equal(t, "f-strip-leg-a", at)
	key(t, c, at, "Enter", "wide")
	assert.Equal(t, "f-strip-leg-a", c.Focus, "what is wrong keeps the focus")
	assert.Contains(t, words(c), "not a length")
	key(t, c, at, "a", "wide")
	press(t, c, "Add this strip")
	assert.Equal(t, "f-strip-leg-a", c.Focus)
	assert.Len(t, c.S.Spec().Tests, 1)
}

// A strip that doesn't fit the others says so, in the table and under it.
func TestOutlierIsNamed(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	c.S.SetWord(session.Metal)
	for i, leg := range []string{"51.0", "51.1", "51.0", "51.1", "54.0"} {
		if i == 0 {
			press(t, c, "Add a test bend")
			fill(t, c, "f-strip-length", "100")
		}
		fill(t, c, "f-strip-leg-a", leg)
		fill(t, c, "f-strip-leg-b", "51.0")
		fill(t, c, "f-strip-angle", "90")
		fill(t, c, "f-strip-nose", "1.5")
		press(t, c, "Add this strip")
	}
	press(t, c, "Done")
	assert.Contains(t, words(c), "doesn’t fit the others")
	assert.Contains(t, words(c), "Strip 5")
	soundPage(t, body(c), "an outlier")
	c.S.SetUnits(fold.Inch)
	soundPage(t, body(c), "in inches")
	assert.NotContains(t, c.stripsBox().Words(), " mm")
}

// The maker's bench is offered to a part of the same sheet, and what can't be kept is said.
func TestBenchIsOffered(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	c.S.SetWord(session.Metal)
	strip := metal.Strip{Metal: "stainless", Thickness: 1, Length: 100, Legs: [2]float64{51, 51}, Angle: 90, Nose: 1.5}
	other := strip
	other.Metal, other.Thickness, other.Legs = "Copper", 2, [2]float64{52, 52}
	require.NoError(t, c.S.UseStrips([]metal.Strip{strip, strip, other}))
	text := c.S.KeepBench()
	assert.Contains(t, words(c), "The part also keeps 1 test bend of another metal or thickness: Copper 2.0 mm.")
	fresh, _ := open(t, "uncapping-tray.dryfold")
	require.NoError(t, fresh.S.TakeBench(text))
	fresh.S.SetWord(session.Metal)
	assert.Contains(t, words(fresh), "You have 2 test bends of this metal and thickness.")
	soundPage(t, body(fresh), "an offer")
	press(t, fresh, "Use them")
	assert.Len(t, fresh.S.Spec().Tests, 2)
	fresh.BenchLost = true
	assert.Contains(t, words(fresh), "can’t keep your test bends")
}

// Strips of another radius than the part's bends offer theirs.
func TestStripsRadiusIsOffered(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	c.S.SetWord(session.Metal)
	r := 2.4
	strip := metal.Strip{Metal: "Stainless 304", Thickness: 1, Length: 100, Legs: [2]float64{51.3, 51.3}, Angle: 90, Radius: &r}
	require.NoError(t, c.S.UseStrips([]metal.Strip{strip, strip, strip}))
	require.NoError(t, c.S.UseTests())
	assert.Contains(t, words(c), "The blank doesn’t use it.")
	press(t, c, "Give the bends R 2.4 mm, as on 3 strips")
	assert.Contains(t, words(c), "The blank uses it now.")
	assert.Equal(t, 2.4, c.S.Part().Bends[0].Radius)
}

// Parts without a metal or without bends have the boxes too.
func TestBoxesOfEveryPart(t *testing.T) {
	for _, d := range assets.Demos() {
		c, _ := open(t, d.File)
		c.S.SetWord(session.Metal)
		require.NoError(t, c.S.SetMetal(""))
		press(t, c, "Add a test bend")
		press(t, c, "Bend calculator")
		soundPage(t, body(c), d.File)
	}
	plate := fold.Spec{Name: "Plate", Sheet: fold.Sheet{Thickness: 1}, Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{90, 0}}, {At: geom.Vec2{90, 60}}, {At: geom.Vec2{0, 60}}}}
	c := New(session.New(plate), (&bench{}).deeds(), nil)
	c.S.SetWord(session.Metal)
	press(t, c, "Add a test bend")
	for f, text := range map[string]string{"length": "100", "leg-a": "51", "leg-b": "51", "angle": "90", "radius": "1.5"} {
		fill(t, c, "f-strip-"+f, text)
	}
	press(t, c, "Add this strip")
	press(t, c, "Bend calculator")
	soundPage(t, body(c), "a plate")
	assert.Regexp(t, `Your K, R 1.5 0\.\d\d`, words(c))
}

func TestCalculatorOnThePage(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	c.S.SetWord(session.Metal)
	press(t, c, "Bend calculator")
	soundPage(t, body(c), "the calculator")
	fill(t, c, "f-calc-thickness", "16 ga")
	soundPage(t, body(c), "which gauge")
	b := body(c).Find(func(n *node.Node) bool {
		return n.Tag == "button" && strings.HasPrefix(n.Words(), "Manufacturers' Standard, 1.519")
	})
	require.NotNil(t, b)
	b.On["click"](node.Event{Stop: func() {}})
	assert.Contains(t, words(c), "16 gauge Manufacturers' Standard is 1.519 mm")
	fill(t, c, "f-calc-angle", "120")
	assert.Contains(t, words(c), "To the outside sharp")
	fill(t, c, "f-calc-legs", "40 + 60 + 40")
	for _, want := range []string{"Strip’s length, flat", "Allowance", "Deduction", "Setback", "DIN 6935", "Machinery's Handbook", "Bend a strip first", "Lower limit", "Least inside radius"} {
		assert.Contains(t, words(c), want)
	}
	soundPage(t, body(c), "an answer")
	for _, by := range []string{session.CalcGiven, "din", "table", "machinery", ""} {
		f := body(c).Find(func(n *node.Node) bool { return n.Get("id") == "f-calc-by" })
		f.On["change"](node.Event{Value: by})
		soundPage(t, body(c), fmt.Sprint("by ", by))
	}
	press(t, c, "between legs")
	assert.Equal(t, "60", c.S.Calc().Texts[2])
	press(t, c, "Take the part’s figures again")
	assert.Equal(t, "1", c.S.Calc().Texts[0])
}
