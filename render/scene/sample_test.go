package scene

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
)

func at(x, y float64) fold.Vertex { return fold.Vertex{At: geom.Vec2{x, y}} }

func bend(name string, x0, y0, x1, y1, angle float64, up bool) fold.BendSpec {
	return fold.BendSpec{Name: name, Line: [2]geom.Vec2{{x0, y0}, {x1, y1}}, Angle: angle, Radius: 1.5, Up: up}
}

// tray is a test part: a floor with four walls (side degrees), open corners, a hook
// wider than the back wall that goes out and then down (hook degrees each), and a
// round hole in the floor. T 1, R 1.5, K 0.44, mm.
func tray(side, hook float64) fold.Spec {
	k := .44
	return fold.Spec{
		Name:  "tray",
		Sheet: fold.Sheet{Thickness: 1, K: &k},
		Outline: fold.Contour{
			at(3, -50), at(197, -50), at(197, 3), at(250, 3), at(250, 147), at(197, 147), at(197, 200), at(220, 200), at(220, 245),
			at(-20, 245), at(-20, 200), at(3, 200), at(3, 147), at(-50, 147), at(-50, 3), at(3, 3),
		},
		Holes: []fold.Hole{{At: geom.Vec2{100, 70}, Diameter: 24}},
		Bends: []fold.BendSpec{
			bend("right", 200, 3, 200, 147, side, true),
			bend("left", 0, 3, 0, 147, side, true),
			bend("front", 3, 0, 197, 0, side, true),
			bend("back", 3, 150, 197, 150, side, true),
			bend("hook out", -20, 205, 220, 205, hook, false),
			bend("hook down", -20, 230, 220, 230, hook, false),
		},
		Panels: []fold.PanelName{{Name: "floor", At: geom.Vec2{50, 30}}, {Name: "right", At: geom.Vec2{230, 70}},
			{Name: "left", At: geom.Vec2{-30, 70}}, {Name: "front", At: geom.Vec2{100, -30}}, {Name: "back", At: geom.Vec2{100, 180}}},
	}
}

func build(t testing.TB, s fold.Spec) *fold.Part {
	t.Helper()
	p := fold.Build(s)
	require.True(t, p.Foldable, "%v", p.Troubles)
	return p
}
