package screen

// This file tests what is asked of a part by sizes: the rim, a measured base, the other hand, formulas' units.

import (
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/wasm/node"
	"dryfold/wasm/session"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The rim of all walls is chosen in one place and taken off again; its widths are asked with the other sizes. What nothing
// uses is not asked.
func TestRimOnThePage(t *testing.T) {
	c := startFrom(t, "Stepped tray")
	pick := body(c).Find(func(n *node.Node) bool { return n.Get("id") == "f-rim" })
	require.NotNil(t, pick)
	require.NoError(t, c.S.SetRim(session.RimHook))
	asked := c.asked().Words()
	assert.Contains(t, asked, "Rim, wide")
	assert.Contains(t, asked, "Hook, deep")
	assert.Contains(t, body(c).Words(), "On 6 walls.")
	press(t, c, "Take the rim off")
	assert.NotContains(t, c.asked().Words(), "Rim, wide")

	require.NoError(t, c.S.SetBase(session.BySides))
	idle := 0
	c.asked().Walk(func(n *node.Node) bool {
		if n.Get("class") == "idle" {
			idle++
		}
		return true
	})
	assert.Equal(t, 3, idle, "nor shown in the figure")
	asked = c.asked().Words()
	assert.Contains(t, asked, "Not used any more, and not asked: Wide at the front, Wide at the back and Long, front floor. The floor is given by its sides and diagonals")
	assert.Nil(t, c.asked().Find(func(n *node.Node) bool { return n.Get("id") == "f-"+session.NamedField(0, "is") }))
	assert.NotNil(t, c.asked().Find(func(n *node.Node) bool { return n.Get("id") == "f-"+session.NamedField(3, "is") }))
}

// On a base whose readings don't fit each other the picture shows what is cut, and the floor's card lists it beside each reading.
func TestFittedSizes(t *testing.T) {
	c := startFrom(t, "Tray")
	require.NoError(t, c.S.SetBase(session.BySides))
	c.item = item{kind: "base"}
	assert.NotContains(t, body(c).Words(), "As read → as it will be cut", "they fit")
	require.NoError(t, c.S.SetField("sizes.base.measured.sides[0]", "206"))
	words := body(c).Words()
	assert.Contains(t, words, "As read → as it will be cut")
	assert.Contains(t, words, "206 → ")
	assert.Contains(t, words, "measure the diagonals again first, then the others")

	// The figures in the picture are the lengths of their lines, and close to a quadrangle; the readings don't.
	value := map[string]float64{}
	for _, m := range c.S.Made().Marks {
		value[m.Path] = m.Value
	}
	const p = "sizes.base.measured."
	front := value[p+"sides[0]"]
	assert.Greater(t, 206-front, 0.4)
	for _, m := range c.marks() {
		if strings.HasPrefix(m.field, p+"sides[0]") {
			assert.Contains(t, m.mark.Label, session.Size(front, fold.MM))
			assert.NotContains(t, m.mark.Label, "206")
		}
	}
	// Sides and diagonals of any plane quadrangle: by the six distances between four points (Cayley and Menger), their volume is 0.
	d := [4][4]float64{}
	set := func(i, j int, x float64) { d[i][j], d[j][i] = x*x, x*x }
	set(0, 1, front)
	set(1, 2, value[p+"sides[1]"])
	set(2, 3, value[p+"sides[2]"])
	set(3, 0, value[p+"sides[3]"])
	set(0, 2, value[p+"diagonals[0]"])
	set(1, 3, value[p+"diagonals[1]"])
	g := [3][3]float64{}
	for i := range 3 {
		for j := range 3 {
			g[i][j] = (d[0][i+1] + d[0][j+1] - d[i+1][j+1]) / 2
		}
	}
	det := g[0][0]*(g[1][1]*g[2][2]-g[1][2]*g[2][1]) - g[0][1]*(g[1][0]*g[2][2]-g[1][2]*g[2][0]) + g[0][2]*(g[1][0]*g[2][1]-g[1][1]*g[2][0])
	assert.InDelta(t, 0, det/(d[0][1]*d[1][2]*d[0][2]), 1e-9)

	// Angles too, in both hands.
	require.NoError(t, c.S.SetBase(session.ByAngles))
	for range 2 {
		for _, m := range c.S.Made().Marks {
			if x, ok := c.S.SizeField(m.Path); ok && strings.HasPrefix(m.Path, p) {
				assert.InDelta(t, x.Value, m.Value, 1e-3, m.Path)
			}
		}
		require.NoError(t, c.S.SetMirror(true))
	}
}

// A message of what could not be done goes with the next change that is made, not before.
func TestFailureGoes(t *testing.T) {
	c := startFrom(t, "Tray")
	c.Fail("That could not be done")
	assert.Contains(t, body(c).Words(), "That could not be done")
	require.Error(t, c.S.SetField(session.NamedField(0, "is"), "0"))
	assert.Contains(t, body(c).Words(), "That could not be done")
	require.NoError(t, c.S.SetField(session.NamedField(0, "is"), "210"))
	assert.NotContains(t, body(c).Words(), "That could not be done")
	c.Tell("Done so")
	require.NoError(t, c.S.SetField(session.NamedField(0, "is"), "220"))
	assert.Contains(t, body(c).Words(), "Done so", "other messages go as they did")
}

// In the other hand the figure is turned about, and what is called left is said to stand on the right.
func TestOtherHand(t *testing.T) {
	c := startFrom(t, "Tray")
	figure := func() string {
		return body(c).Find(func(n *node.Node) bool { return n.Tag == "svg" && n.Get("data-hand") != "" || n.Key == "figure" }).Get("data-hand")
	}
	assert.Equal(t, "", figure())
	assert.NotContains(t, body(c).Words(), "change places")
	require.NoError(t, c.S.SetMirror(true))
	assert.Equal(t, "other", figure())
	words := body(c).Words()
	assert.Contains(t, words, "right stands on the left and left stands on the right")
	assert.Contains(t, words, "on floor, now right")
}

// A formula's figures are in the part's own units, which is said where others are shown.
func TestFormulaUnits(t *testing.T) {
	c := startFrom(t, "Lid")
	beside := func() string {
		c.item = item{kind: "base"}
		n := body(c).Find(func(n *node.Node) bool { return n.Get("for") == "f-sizes.base.wide" })
		require.NotNil(t, n)
		return n.Words()
	}
	assert.NotContains(t, beside(), "in mm")
	c.S.SetUnits(fold.Inch)
	assert.Contains(t, beside(), "in mm: = 6.339 in") // box_wide + 2 * play = 161 mm
	assert.False(t, bareFigure("wide_2 - long3"))
	assert.True(t, bareFigure("wide/2"))
}
