package fold

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// returnsTray is a tray 400 x 200 x 60 of 1.5 mm whose walls each have a row of n returns turned in at the top, those at the
// ends cut back: 5 + 4n panels, returns first. With n = 2 it is the 13 panels of testdata/oracle/tray13_boxes.csv, with bends.
// Walls are as long as their returns need to be 14 mm wide and more.
func returnsTray(n int) Spec {
	const (
		t, r, high, lip, gap = 1.5, 1.5, 60.0, 15.0, 1.0
		k, angle             = 0.42, 89.9
	)
	ba := angle * math.Pi / 180 * (r + k*t)
	long, wide := max(400, 15*float64(n)), max(200, 15*float64(n))
	kk := k
	s := Spec{Name: "tray with returns", Sheet: Sheet{Thickness: t, K: &kk}, Base: "floor"}
	s.Panels = []PanelName{{"floor", geom.Vec2{}}}
	var returns, walls []BendSpec
	side := func(o, u, v geom.Vec2, half float64, name string) { // o: middle of the floor's edge, u along it, v out
		at := func(x, y float64) geom.Vec2 { return o.Add(u.Mul(x)).Add(v.Mul(y)) }
		put := func(x, y float64) { s.Outline = append(s.Outline, Vertex{At: at(x, y)}) }
		z, w := half-2, half+r-gap // the bend ends short of the floor's corner, the wall a gap before the next wall's face
		put(-half, 0)
		put(-z, 0)
		put(-z, ba)
		top := 2*ba + high
		put(-w, ba)
		put(-w, ba+high-1)
		each := 2 * (w - lip) / float64(n)
		for i := range n {
			x0, x1 := -w+lip+each*float64(i)+gap/2, -w+lip+each*float64(i+1)-gap/2
			put(x0, ba+high-1)
			put(x0, top+lip)
			put(x1, top+lip)
			put(x1, ba+high-1)
			returns = append(returns, BendSpec{Name: fmt.Sprintf("%s return %d", name, i+1), Angle: angle, Radius: r, Up: true,
				Line: [2]geom.Vec2{at(x0-0.4, ba*1.5+high), at(x1+0.4, ba*1.5+high)}})
		}
		put(w, ba+high-1)
		put(w, ba)
		put(z, ba)
		put(z, 0)
		walls = append(walls, BendSpec{Name: name, Angle: angle, Radius: r, Up: true, Line: [2]geom.Vec2{at(-z-0.5, ba/2), at(z+0.5, ba/2)}})
	}
	side(geom.Vec2{0, -wide / 2}, geom.Vec2{1, 0}, geom.Vec2{0, -1}, long/2, "front")
	side(geom.Vec2{long / 2, 0}, geom.Vec2{0, 1}, geom.Vec2{1, 0}, wide/2, "right")
	side(geom.Vec2{0, wide / 2}, geom.Vec2{-1, 0}, geom.Vec2{0, 1}, long/2, "back")
	side(geom.Vec2{-long / 2, 0}, geom.Vec2{0, -1}, geom.Vec2{-1, 0}, wide/2, "left")
	s.Bends = append(returns, walls...)
	return s
}

func TestReturnsTrayClears(t *testing.T) {
	p := Build(returnsTray(2))
	require.True(t, p.Foldable, "%v", p.Troubles)
	require.Len(t, p.Panels, 13)
	require.Empty(t, p.Clashes(), "%s", show(p, p.Clashes()))
}

// One swing of the 13-panel tray against everything, by the mean of its twelve and by the last wall's, with everything in its way;
// then the last wall's with 101 and 1,001 panels.
func BenchmarkSwing(b *testing.B) {
	for _, n := range []int{2, 24, 249} {
		p := Build(returnsTray(n))
		if !p.Foldable {
			b.Fatal(p.Troubles)
		}
		s := newShapes(p)
		if n == 2 {
			b.Run("13 panels, mean", func(b *testing.B) {
				for i := 0; b.Loop(); i++ {
					s.work = 0
					s.swingClashes(i%len(p.Swings), checkWork, maxClashes)
				}
			})
		}
		b.Run(fmt.Sprintf("%d panels, last wall", len(p.Panels)), func(b *testing.B) {
			for b.Loop() {
				s.work = 0
				if c := s.swingClashes(len(p.Swings)-1, checkWork, maxClashes); len(c) > 0 {
					b.Fatal(show(p, c))
				}
			}
		})
	}
}
