package screen

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/render/scene"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
	"dryfold/wasm/session/ask"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// opened is a checked demo part with a seam opened under Seams.
func opened(t *testing.T, file string, seam int) *Screen {
	t.Helper()
	c, _ := open(t, file)
	check(t, c)
	c.S.SetWord(session.Seams)
	c.S.Select(scene.Select{Kind: scene.Seam, Index: seam})
	return c
}

func withClass(n *node.Node, class string) *node.Node {
	return n.Find(func(n *node.Node) bool { return n.Get("class") == class })
}

func plot(t *testing.T, c *Screen) *node.Node {
	t.Helper()
	n := body(c).Find(func(n *node.Node) bool { return n.Get("class") == "plot" && n.Get("role") == "img" })
	require.NotNil(t, n, "no drawing of the gap")
	return n
}

// corners are the points of a path of M and L.
func corners(t *testing.T, n *node.Node) (out [][2]float64) {
	t.Helper()
	require.NotNil(t, n)
	d := strings.TrimSuffix(n.Get("d"), "Z")
	for _, p := range strings.FieldsFunc(d, func(r rune) bool { return r == 'M' || r == 'L' }) {
		x, y, ok := strings.Cut(p, " ")
		require.True(t, ok, d)
		a, err1 := strconv.ParseFloat(x, 64)
		b, err2 := strconv.ParseFloat(y, 64)
		require.NoError(t, err1)
		require.NoError(t, err2)
		out = append(out, [2]float64{a, b})
	}
	return out
}

// madeUp gives the first seam of a part a gap, a spread and a limit of which everything is known.
func madeUp(c *Screen) *fold.SeamReport {
	x := &c.S.Report().Seams[0]
	limit := 1.0
	x.Length, x.Open, x.Way, x.State = 40, false, "weld", "watch"
	x.Limit, x.LimitFrom, x.LimitKind = &limit, "a list", "published"
	x.Profile = []fold.GapPoint{{At: 0, Gap: 0.4}, {At: 10, Gap: 0.2}, {At: 30, Gap: 1.4}, {At: 40, Gap: 0.8}}
	x.GapStart, x.GapMin, x.MinAt, x.GapMax, x.MaxAt, x.GapEnd = 0.4, 0.2, 10, 1.4, 30, 0.8
	s := func(low, mid, high float64) fold.Spread { return fold.Spread{Low: low, Mid: mid, High: high} }
	x.Spread = &fold.SeamSpread{
		Along: []fold.SpreadPoint{{At: 0, Spread: s(0.1, 0.4, 0.7)}, {At: 20, Spread: s(0.4, 0.8, 1.2)}, {At: 40, Spread: s(0.3, 0.8, 2)}},
		Least: s(-0.1, 0.2, 0.3), Widest: fold.Spread{Low: 1, Mid: 1.5, High: 2.1, Shares: []fold.Share{{Cause: "angle of bend left", Bend: "left", Part: 0.6, Worth: -0.31}, {Cause: "cut edges", Part: 0.3, Worth: 0.2}}},
		Watch: "Watch bend left."}
	return x
}

// The line reaches the profile's ends and its corners, the band's outline is the spread's, and all figures stand in words.
func TestGapPlot(t *testing.T) {
	c := opened(t, "uncapping-tray.dryfold", 0)
	x := madeUp(c)
	n := plot(t, c)
	band := corners(t, withClass(n, "spread"))
	along := x.Spread.Along
	require.Len(t, band, 2*len(along))
	// The two axes, from two points of the band.
	px := func(at float64) float64 { return band[0][0] + (band[2][0]-band[0][0])*at/40 }
	py := func(gap float64) float64 { return band[0][1] + (band[2][1]-band[0][1])*(gap-0.7)/(2-0.7) }
	const half = 0.06 // px: places are written to a tenth
	for i, q := range along {
		assert.InDelta(t, px(q.At), band[i][0], half)
		assert.InDelta(t, py(q.High), band[i][1], half)
		back := band[len(band)-1-i]
		assert.InDelta(t, px(q.At), back[0], half)
		assert.InDelta(t, py(q.Low), back[1], half)
	}
	for i, p := range corners(t, withClass(n, "mid")) {
		assert.InDelta(t, py(along[i].Mid), p[1], half)
	}
	in, out := corners(t, withClass(n, "exact")), corners(t, withClass(n, "exact over"))
	assert.InDelta(t, px(0), in[0][0], half)
	assert.InDelta(t, py(0.4), in[0][1], half)
	last := in[len(in)-1]
	assert.InDelta(t, px(40), last[0], half)
	assert.InDelta(t, py(0.8), last[1], half)
	// 0.2 to 1.4 passes the limit at 10 + 20*0.8/1.2, 1.4 to 0.8 at 30 + 10*0.4/0.6.
	require.Len(t, out, 3)
	assert.InDelta(t, px(10+20*0.8/1.2), out[0][0], half)
	assert.InDelta(t, py(1), out[0][1], half)
	assert.InDelta(t, py(1.4), out[1][1], half)
	assert.InDelta(t, px(30+10*0.4/0.6), out[2][0], half)
	limit := withClass(n, "limit").Get("d")
	assert.True(t, strings.HasPrefix(limit, "M"+fmt.Sprintf("%.0f ", px(0))), limit)
	require.NotNil(t, withClass(n, "zone"))

	words := n.Words()
	for _, want := range []string{"least 0.20", "widest 1.40", "5 in 100 over 2.10", "limit 1.00", "Foot", "Top", "mm"} {
		assert.Contains(t, words, want)
	}
	assert.NotContains(t, words, "in each other")
	all := body(c).Words()
	for _, want := range []string{"Angle of bend left 60 %, ±0.31 mm", "Cut edges 30 %", "The limit: a list.", "1.00 mm, published", "0.40 mm wider at its top",
		"Foot 0.40 0.10 0.40 0.70", "Middle 0.80 0.40 0.80 1.20", "Top 0.80 0.30 0.80 2.00", "Least 0.20 -0.10 0.20 0.30", "Widest 1.40 1.00 1.50 2.10"} {
		if want == "0.40 mm wider at its top" {
			x.Taper = 0.4
			all = body(c).Words()
		}
		assert.Contains(t, all, want)
	}

	x.Profile[1].Gap, x.GapMin = -0.9, -0.9 // in each other
	assert.Contains(t, plot(t, c).Words(), "in each other")
	assert.Contains(t, plot(t, c).Words(), "least -0.90")
	x.Limit, x.LimitFrom, x.LimitKind = nil, "no figure", "none"
	n = plot(t, c)
	assert.Nil(t, withClass(n, "zone"))
	assert.Contains(t, body(c).Words(), "nobody says")
	x.Open = true
	assert.Contains(t, body(c).Words(), "Left open: its gap is no trouble.")
	c.S.SetUnits(fold.Inch)
	assert.Contains(t, plot(t, c).Words(), "widest 0.055")
}

// On every seam of every demo part, in mm and inches, before the spread is there and after: no word of the drawing lies on
// another or outside of it, and what the drawing shows stands in the table.
func TestGapPlotsOfDemos(t *testing.T) {
	for _, d := range assets.Demos() {
		c, _ := open(t, d.File)
		check(t, c)
		c.S.SetWord(session.Seams)
		for i := range c.S.Report().Seams {
			x := &c.S.Report().Seams[i]
			require.NotNil(t, x.Spread, "%s, %s", d.File, x.Name)
			for pass := range 4 {
				c.S.SetUnits([]fold.Units{fold.MM, fold.Inch}[pass%2])
				if pass == 2 {
					x.Spread = nil
				}
				c.S.Select(scene.Select{Kind: scene.Seam, Index: i})
				name := fmt.Sprintf("%s, %s, %d", d.File, x.Name, pass)
				soundPage(t, body(c), name)
				var boxes [][4]float64
				plot(t, c).Walk(func(n *node.Node) bool {
					if n.Tag != "text" {
						return true
					}
					px, _ := strconv.ParseFloat(n.Get("x"), 64)
					py, _ := strconv.ParseFloat(n.Get("y"), 64)
					w := 7.4 * float64(len([]rune(n.Words())))
					switch n.Get("class")[0] {
					case 'e':
						px -= w
					case 'm':
						px -= w / 2
					}
					b := [4]float64{px, py - 11, px + w, py + 3}
					assert.True(t, b[0] >= 0 && b[2] <= session.PlotWide+3 && b[1] >= 0, "%s: %q reaches out", name, n.Words())
					for _, o := range boxes {
						assert.True(t, b[2] <= o[0] || o[2] <= b[0] || b[3] <= o[1] || o[3] <= b[1], "%s: %q lies on another word", name, n.Words())
					}
					boxes = append(boxes, b)
					return true
				})
				words := body(c).Words()
				assert.Contains(t, words, "Least "+session.Gap(x.GapMin, c.S.Units()), name)
				assert.Contains(t, words, "Widest "+session.Gap(x.GapMax, c.S.Units()), name)
			}
		}
	}
}

// How seams are closed is chosen at the column's head and at the opened seam, and goes back with Undo.
func TestSeamFields(t *testing.T) {
	c := opened(t, "uncapping-tray.dryfold", 2)
	name := c.S.Report().Seams[2].Name
	choose := func(id, value string) {
		t.Helper()
		f := body(c).Find(func(n *node.Node) bool { return n.Get("id") == id })
		require.NotNil(t, f, "no list "+id)
		f.On["change"](node.Event{Value: value, Stop: func() {}})
	}
	choose("f-"+session.JoinField("", "way"), "weld")
	choose("f-"+session.JoinField("", "process"), "tig")
	fill(t, c, "f-"+session.JoinField("", "widest"), "1.5")
	words := body(c).Words()
	assert.Contains(t, words, "Closed by TIG weld, up to 1.5 mm; ")
	assert.Contains(t, words, "mm of weld in all")
	assert.Contains(t, words, "As the others: TIG weld")
	choose("f-"+session.JoinField(name, "way"), "open")
	assert.Contains(t, body(c).Words(), "Left open: its gap is no trouble.")
	assert.Nil(t, body(c).Find(func(n *node.Node) bool { return n.Get("id") == "f-"+session.JoinField(name, "widest") }))
	choose("f-"+session.JoinField(name, "way"), "follow")
	fill(t, c, "f-"+session.JoinField(name, "widest"), "broad")
	assert.Contains(t, body(c).Words(), "“broad” is not a length")
	fill(t, c, "f-"+session.OutByField("angle"), "-3")
	assert.Contains(t, body(c).Words(), "“-3” won’t do: no bend comes out true.")
	fill(t, c, "f-"+session.OutByField("angle"), "0.5")
	press(t, c, "Back to the default")
	assert.Nil(t, c.S.Spec().Errors.Angle)
	choose("f-"+session.OutByField("cut")+"-class", "f")
	assert.Equal(t, "f", c.S.Spec().Errors.CutClass)
	for c.S.CanUndo() {
		press(t, c, "Undo")
	}
	assert.Empty(t, c.S.Spec().Joins)
	assert.Contains(t, body(c).Words(), "How are they closed? Not said")
}

// What to mind at the arc stands once, and only where something is to be welded; zinc's where there is zinc.
func TestWeldCaution(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	check(t, c)
	c.S.SetWord(session.Seams)
	const words = "Welding: eyes and skin"
	assert.NotContains(t, body(c).Words(), words)
	require.NoError(t, c.S.SetJoinWay("", "rivet"))
	check(t, c)
	assert.NotContains(t, body(c).Words(), words)
	require.NoError(t, c.S.SetJoinWay("", "weld"))
	check(t, c)
	assert.Equal(t, 1, strings.Count(body(c).Words(), words))
	assert.NotContains(t, body(c).Words(), "Zinc")
	require.NoError(t, c.S.SetMetal("galvanized steel"))
	check(t, c)
	assert.Contains(t, body(c).Words(), "Zinc burns off when welded")
	assert.Contains(t, body(c).Words(), "local codes")
}

// A widest gap of nothing is said in words.
func TestEdgesMustTouch(t *testing.T) {
	c := opened(t, "uncapping-tray.dryfold", 2)
	require.NoError(t, c.S.SetWidest("", "0"))
	check(t, c)
	words := body(c).Words()
	assert.Contains(t, words, "edges must touch Closed by")
	assert.Contains(t, words, "Limit edges must touch, yours")
	assert.NotContains(t, words, "0.0 mm is the limit")
	assert.NotContains(t, words, "0.00 mm is the limit")
}

// While the spread is worked out the column says so.
func TestSpreadIsAwaited(t *testing.T) {
	c, _ := open(t, "uncapping-tray.dryfold")
	c.S.SetWord(session.Seams)
	require.NoError(t, ask.Check(c.S.Question(), func(kind, text string) {
		if kind == "spread" {
			return
		}
		require.True(t, c.S.Answer(c.S.Serial(), kind, text), kind)
		assert.Contains(t, body(c).Words(), "being worked out")
		ticks := 0
		section(t, c, "seams").Walk(func(n *node.Node) bool {
			if n.Get("class") == "st ok" {
				ticks++
			}
			return true
		})
		assert.Zero(t, ticks, "%s: a seam is in order before that is known", kind)
		assert.Contains(t, section(t, c, "seams").Words(), "as drawn checking")
		assert.Contains(t, body(c).Words(), "Trying parts with errors drawn at random")
		assert.NotContains(t, body(c).Words(), "Nothing found", "that is not known yet")
	}))
	for _, k := range c.S.Cards() {
		assert.NotEqual(t, "ok", k.State, "a close pass may yet be one to watch")
	}
	check(t, c)
	assert.NotContains(t, body(c).Words(), "as drawn checking")
	assert.Contains(t, body(c).Words(), "ok Butt; 31.9 long")
	assert.Equal(t, 1, strings.Count(body(c).Words(), "90 of 100 parts lie in the band"))
	assert.NotContains(t, body(c).Words(), "being worked out")
	assert.Contains(t, body(c).Words(), thousands(c.S.Report().Spread.Samples)+" parts tried with errors drawn at random: 90 of 100 parts lie in the band")
	assert.Equal(t, "999 1,000 12,345", thousands(999)+" "+thousands(1000)+" "+thousands(12345))
}
