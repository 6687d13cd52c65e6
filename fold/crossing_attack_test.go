package fold

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// Two walls that cross like an X, their ends flush: the edges of each run along the other's end faces, which rounding puts on either
// side. The panels lie in each other all along the seam, whatever the angles.
func TestCrossingWalls(t *testing.T) {
	seen := 0
	for _, turn := range []float64{120, 120.5, 121, 122.3, 125, 130} {
		for _, lean := range []float64{0, 0.37, 1} { // where the part lies on the sheet
			k := 0.4
			s := Spec{Name: "crossing", Sheet: Sheet{Thickness: 1, K: &k}}
			dir := func(p geom.Vec2) geom.Vec2 {
				sin, cos := math.Sincos(lean)
				return geom.Vec2{cos*p[0] - sin*p[1] + 3, sin*p[0] + cos*p[1] - 7}
			}
			ba := func(a float64) float64 { return a * math.Pi / 180 * 1.4 }
			x1, x2 := 45.0+ba(120)/2, 45+ba(120)+40+ba(turn)/2
			end := 45 + ba(120) + 40 + ba(turn) + 45
			for _, p := range []geom.Vec2{{0, 0}, {end, 0}, {end, 60}, {0, 60}} {
				s.Outline = append(s.Outline, Vertex{At: dir(p)})
			}
			s.Bends = []BendSpec{
				{Name: "left", Line: [2]geom.Vec2{dir(geom.Vec2{x1, 0}), dir(geom.Vec2{x1, 60})}, Angle: 120, Radius: 1, Up: true},
				{Name: "right", Line: [2]geom.Vec2{dir(geom.Vec2{x2, 0}), dir(geom.Vec2{x2, 60})}, Angle: turn, Radius: 1, Up: true}}
			s.Panels = []PanelName{{"floor", dir(geom.Vec2{45 + ba(120) + 20, 30})}, {"left", dir(geom.Vec2{20, 30})}, {"right", dir(geom.Vec2{end - 20, 30})}}
			s.Base = "floor"
			p := Build(s)
			require.True(t, p.Foldable, "%v", p.Troubles)
			ps := p.Pose(p.Finished())
			l, r := 0, 0
			for i := range p.Panels {
				switch p.Panels[i].Name {
				case "left":
					l = i
				case "right":
					r = i
				}
			}
			a, b := ps.Solid(Body{false, l}), ps.Solid(Body{false, r})
			d := solid.Distance(&a[0], &b[0])
			if d.D >= -Weld {
				continue
			}
			seen++
			g, ok := ps.MeasureSeam(Seam{A: l, B: r, EdgeA: [2]geom.Vec2{dir(geom.Vec2{0, 60}), dir(geom.Vec2{0, 0})}, EdgeB: [2]geom.Vec2{dir(geom.Vec2{end, 0}), dir(geom.Vec2{end, 60})}})
			require.True(t, ok)
			for _, x := range []float64{g.Min, g.Max, g.Mean, g.AtStart, g.AtEnd} {
				require.InDelta(t, d.D, x, 1e-6, "turned %v, lying at %v: %+v", turn, lean, g)
			}
		}
	}
	require.Positive(t, seen)
}
