package scene

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// grained is the sample tray with its grain at so many degrees from x.
func grained(t *testing.T, degrees float64) *fold.Part {
	spec := tray(84, 60)
	spec.Sheet.Grain = &degrees
	return build(t, spec)
}

// Whatever way the grain runs, the mark stands clear of every edge and hole of its panel and off the place of its name,
// with arrows along the grain, and reads from the left in the first view.
func TestGrainMark(t *testing.T) {
	for deg := 0.0; deg < 360; deg += 15 {
		p := grained(t, deg)
		g := findGrain(p)
		require.GreaterOrEqual(t, g.panel, 0, "%g degrees", deg)
		pn := &p.Panels[g.panel]
		box := geom.EmptyBox2()
		along := geom.Vec2{math.Cos(deg * math.Pi / 180), math.Sin(deg * math.Pi / 180)}
		longest, way := 0.0, geom.Vec2{}
		for _, l := range g.strokes {
			for _, q := range l {
				assert.True(t, pn.Region.Contains(q), "%g degrees: off the panel at %v", deg, q)
				box.Add(q)
			}
			for _, loop := range pn.Region.Loops() {
				for i, v := range loop {
					assert.False(t, crosses(l[0], l[1], v, loop[(i+1)%len(loop)]), "%g degrees: a stroke runs over an edge", deg)
				}
			}
			if d := l[1].Sub(l[0]); d.Len() > longest {
				longest, way = d.Len(), d.Normalize()
			}
		}
		assert.InDelta(t, 1, math.Abs(way.Dot(along)), 1e-9, "%g degrees: the arrows", deg)
		n := len(g.strokes)
		read := g.strokes[n-1][0].Sub(g.strokes[0][0]) // from the first letter to the last arrow
		c := Camera{Yaw: (&Scene{Picture: Picture{Part: p}}).homeYaw(), Pitch: homePitch}
		right, _, _ := c.Axes()
		toTheRight := along.Dot(geom.Vec2{right[0], right[1]})
		assert.GreaterOrEqual(t, read.Dot(along)*toTheRight, -1e-9, "%g degrees: reads from the right", deg)
	}
}

// crosses reports whether two lines cut each other.
func crosses(a, b, c, d geom.Vec2) bool {
	s := func(a, b, c geom.Vec2) float64 { return geom.Cross2(b.Sub(a), c.Sub(a)) }
	return s(a, b, c)*s(a, b, d) < 0 && s(c, d, a)*s(c, d, b) < 0
}

// The mark is drawn where the grain is said, rides on its panel, and is left out of the picture without a blank.
func TestGrainDrawn(t *testing.T) {
	lines := func(pic Picture) int { return len(Make(pic).Lines) }
	with, without := grained(t, 90), build(t, tray(84, 60))
	require.Nil(t, without.Spec.Sheet.Grain)
	assert.Equal(t, len(findGrain(with).strokes), lines(Picture{Part: with})-lines(Picture{Part: without}))
	assert.Equal(t, lines(Picture{Part: without, NoBlank: true}), lines(Picture{Part: with, NoBlank: true}))
	s := Make(Picture{Part: with, State: with.Finished()})
	g := &s.Mesher.grain
	first := s.Pose.PanelPoint(g.panel, g.strokes[0][0], with.Thickness)
	assert.True(t, slices.ContainsFunc(s.Lines, func(l Line) bool { return l.A == first && !l.Over }))
	assert.Equal(t, -1, findGrain(without).panel)
}
