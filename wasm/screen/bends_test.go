package screen

import (
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/fold/partfile"
	"dryfold/wasm/node"
	"dryfold/wasm/session"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// springy is the uncapping tray with three strips of its sheet that sprang back by 4 degrees at 90.
func springy(t testing.TB, change func(*fold.Spec)) *Screen {
	t.Helper()
	var spec fold.Spec
	for _, d := range assets.Demos() {
		if d.File == "uncapping-tray.dryfold" {
			var err error
			spec, err = partfile.Read(d.Data)
			require.NoError(t, err)
		}
	}
	set := 94.0
	for range 3 {
		spec.Tests = append(spec.Tests, metal.Strip{Metal: spec.Sheet.Metal, Thickness: spec.Sheet.Thickness, Angle: 90, Set: &set})
	}
	if change != nil {
		change(&spec)
	}
	c := New(session.New(spec), (&bench{}).deeds(), nil)
	c.S.SetWord(session.Bends)
	return c
}

func with(c *Screen, class string) *node.Node {
	return body(c).Find(func(n *node.Node) bool { return n.Get("class") == class })
}

// The open card's number is where to stop the leaf where that was measured; else the finished angle, which
// nothing on the card calls a set angle, with the formula's figure as a lower limit.
func TestSetAngleOnTheCard(t *testing.T) {
	c := springy(t, nil)
	c.S.SetCard(0, 0.5) // hook down, 80 degrees
	set := with(c, "set").Words()
	assert.Contains(t, set, "Stop the leaf at 83.6 °")
	assert.Contains(t, set, "80° after spring, give or take 0.")
	assert.Contains(t, set, "measured by you: 3 strips")

	c = springy(t, func(s *fold.Spec) { s.Tests = nil })
	c.S.SetCard(0, 0.5)
	set = with(c, "set").Words()
	assert.Contains(t, set, "Finished angle 80 °")
	assert.Contains(t, set, "The leaf goes further: bend a strip first")
	card := with(c, "open").Words()
	assert.NotContains(t, card, "Set angle")
	assert.NotContains(t, card, "Stop the leaf")
	more := body(c).Find(func(n *node.Node) bool { return n.Key == "spring" })
	require.NotNil(t, more)
	assert.Regexp(t, `By formula at least 80\.\d°, a lower limit`, more.Words())
	assert.Contains(t, more.Words(), "common practice, no source")

	c = springy(t, func(s *fold.Spec) { s.Bends[0].Angle = 180 })
	c.S.SetCard(0, 0.5)
	assert.Contains(t, with(c, "set").Words(), "flattened")
}

// By keyboard the leaf goes to the set angle; a further step lets it go. A finger that lets go of it there does the same.
func TestArcToTheSetAngle(t *testing.T) {
	c := springy(t, nil)
	c.S.SetCard(0, 0)
	grab := func() *node.Node { return with(c, "grab") }
	key := func(k string) { grab().On["keydown"](node.Event{Key: k, Stop: func() {}}) }
	frac := func() float64 { _, f := c.S.OpenCard(); return f }
	assert.Equal(t, "83.6", grab().Get("aria-valuemax"))
	for range 8 {
		key("PageUp")
	}
	assert.Equal(t, "80", grab().Get("aria-valuenow"))
	assert.Less(t, frac(), 1.0, "at 80 on the leaf the bend is not finished")
	for range 4 {
		key("ArrowUp")
	}
	assert.Equal(t, "83.6", grab().Get("aria-valuenow"))
	assert.Contains(t, grab().Get("aria-valuetext"), "springs back to 80")
	assert.Contains(t, with(c, "leafnow").Words(), "on the leaf, springs back to 80°")
	assert.Less(t, frac(), 1.0)
	key("ArrowUp")
	assert.Equal(t, 1.0, frac())
	assert.Equal(t, "80", grab().Get("aria-valuenow"))
	key("ArrowUp")
	assert.Equal(t, 1.0, frac(), "done is done")
	key("ArrowDown")
	assert.Equal(t, "79", grab().Get("aria-valuenow"))
	key("End")
	assert.Equal(t, 1.0, frac())
	key("Home")
	assert.Equal(t, 0.0, frac())

	c.S.Turn(9)
	assert.Less(t, frac(), 1.0)
	grab().On["pointerup"](node.Event{Stop: func() {}})
	assert.Equal(t, 1.0, frac())
}

// Every page of a part with measured springback is sound at every place of the leaf.
func TestSpringyPages(t *testing.T) {
	c := springy(t, func(s *fold.Spec) { s.Bends[0].Angle = 95 })
	for card := range c.S.Part().Swings {
		for _, f := range []float64{0, 0.5, 0.95, 0.98, 1} {
			c.S.SetCard(card, f)
			soundPage(t, body(c), "springy")
		}
	}
}
