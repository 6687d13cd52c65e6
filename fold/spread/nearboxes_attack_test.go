package spread

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// TestNearBoxes: the pairs within reach are those that one by one are, and never more than maxLaps; those that are kept then are all
// within the reach told.
func TestNearBoxes(t *testing.T) {
	r := newRand(t)
	for range 40 {
		var boxes [2][]geom.Box3
		flat := r.IntN(2) // a part of them all at one place along
		for k := range boxes {
			for range 1 + r.IntN(400) {
				var b geom.Box3
				for c := range 3 {
					x := foldtest.Uniform(r, 0, []float64{1000, 20, 3}[c])
					if c == 0 && flat == 1 {
						x = 7
					}
					b.Min[c], b.Max[c] = x, x+foldtest.LogUniform(r, 1e-3, 30)
				}
				boxes[k] = append(boxes[k], b)
			}
		}
		reach := foldtest.LogUniform(r, 1e-3, 100)
		got, at := nearBoxes(boxes, reach)
		require.LessOrEqual(t, len(got), maxLaps)
		require.LessOrEqual(t, at, reach)
		var want [][2]int32
		for i := range boxes[0] {
			for j := range boxes[1] {
				far := math.Inf(-1)
				for c := range 3 {
					far = max(far, boxes[0][i].Min[c]-boxes[1][j].Max[c], boxes[1][j].Min[c]-boxes[0][i].Max[c])
				}
				if far <= at {
					want = append(want, [2]int32{int32(i), int32(j)})
				}
			}
		}
		if len(want) <= maxLaps {
			require.Equal(t, want, got)
		} else {
			require.Len(t, got, maxLaps)
		}
	}
}

// TestHolesAlongBothEdges: a tube whose meeting edges have some hundreds of holes each is made ready soon and in little memory, and its
// spread still says that the edges may come to lie in each other.
func TestHolesAlongBothEdges(t *testing.T) {
	c := foldtest.Chain{Thickness: 1, K: 0.4, Width: 1000, Flats: []float64{20, 30, 45, 30, 24.4}}
	for range 4 {
		c.Bends = append(c.Bends, foldtest.ChainBend{Angle: 90, Radius: 1, Up: true})
	}
	var told [2]fold.Spread
	for k, holes := range []int{0, 250} {
		s := c.Spec()
		for i := range holes {
			y := (float64(i) + 0.5) * c.Width / float64(holes)
			s.Holes = append(s.Holes, fold.Hole{At: geom.Vec2{1.2, y}, Diameter: 1.5}, fold.Hole{At: geom.Vec2{c.Length() - 1.2, y}, Diameter: 1.5})
		}
		p := fold.Build(s)
		require.True(t, p.Foldable)
		r := p.Quick()
		require.Len(t, r.Seams, 1)
		begun := time.Now()
		w := newWork(p, []fold.Seam{r.Seams[0].Seam}, Options{})
		require.LessOrEqual(t, len(w.seams[0].laps), maxLaps)
		require.NotEmpty(t, w.seams[0].laps)
		require.Less(t, time.Since(begun), 30*time.Second) // seconds even in wasm; it took minutes
		_, each := Of(p, []fold.Seam{r.Seams[0].Seam}, Options{Samples: 300})
		told[k] = each[0].Least
	}
	require.Less(t, told[0].Low, -0.02)
	require.InDelta(t, told[0].Low, told[1].Low, 0.05)
	require.InDelta(t, told[0].High, told[1].High, 0.05)
}
