package ascut

import (
	"fmt"
	"math"
	"testing"
	"time"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"

	"github.com/stretchr/testify/require"
)

// TestLarge: parts of many corners, edges, bends and seams get their list in bounded time.
func TestLarge(t *testing.T) {
	// A plate with a saw's edge.
	saw := fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{3000, 0}}}
	for i := range 3000 {
		saw = append(saw, fold.Vertex{At: geom.Vec2{3000 - float64(i), 500 + 5*float64(i%2)}})
	}
	saw = append(saw, fold.Vertex{At: geom.Vec2{0, 500}})
	// A floor of many sides, each with a wall.
	tray := foldtest.Tray{Thickness: 1, K: 0.4}
	const n = 40
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		tray.Floor = append(tray.Floor, geom.Vec2{800 * c, 800 * s})
		tray.Walls = append(tray.Walls, foldtest.Wall{Height: 60, Angle: 90, Radius: 1, Up: true, Inset: 1, InsetEnd: 1})
	}
	for _, s := range []fold.Spec{{Sheet: fold.Sheet{Thickness: 1}, Outline: saw}, tray.Spec()} {
		begin := time.Now()
		p := fold.Build(s)
		r := p.Quick()
		built := time.Since(begin)
		begin = time.Now()
		l := Look(p, &r)
		took := time.Since(begin)
		require.NotEmpty(t, l.Sizes)
		x := &looked{p, r, l}
		is := x.wants()
		require.Equal(t, Bend, x.typed(is...).Word)
		is[0] += 3
		require.NotEqual(t, Bend, x.typed(is...).Word)
		t.Log(fmt.Sprintf("%d edges, %d seams: built in %v, looked at in %v", len(l.work.cuts), len(r.Seams), built, took))
		require.Less(t, took, 15*time.Second)
	}
}
