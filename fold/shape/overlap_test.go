package shape

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// Shared areas against closed forms, and against counted points on random triangles.
func TestSharedArea(t *testing.T) {
	square := func(x, y, a float64) geom.Loop { return geom.Loop{{x, y}, {x + a, y}, {x + a, y + a}, {x, y + a}} }
	require.InDelta(t, 6, sharedArea(square(0, 0, 4), square(1, 2, 4).Reversed()), 1e-12) // 3 by 2
	require.Zero(t, sharedArea(square(0, 0, 4), square(4, 0, 4)))                         // side by side
	require.InDelta(t, 4, sharedArea(square(0, 0, 4), square(1, 1, 2)), 1e-12)            // one in the other
	require.InDelta(t, 16, sharedArea(square(0, 0, 4), square(0, 0, 4)), 1e-12)
	// A U and a bar across its legs.
	u := geom.Loop{{0, 0}, {6, 0}, {6, 5}, {5, 5}, {5, 1}, {1, 1}, {1, 5}, {0, 5}}
	require.InDelta(t, 2, sharedArea(u, geom.Loop{{-1, 3}, {7, 3}, {7, 4}, {-1, 4}}), 1e-12)

	r := foldtest.Rand(20261127)
	for range 20 {
		var p, q geom.Loop
		for range 3 {
			p = append(p, geom.Vec2{r.Float64(), r.Float64()})
			q = append(q, geom.Vec2{r.Float64(), r.Float64()})
		}
		const n = 400
		count := 0
		for i := range n {
			for j := range n {
				if at := (geom.Vec2{(float64(i) + 0.5) / n, (float64(j) + 0.5) / n}); p.Contains(at) && q.Contains(at) {
					count++
				}
			}
		}
		require.InDelta(t, float64(count)/n/n, sharedArea(p, q), 6.0/n) // the outlines are at most 6 long
	}
}

// Two wings at a corner of a tray that cross on the blank: the message names one and a height that would do, and does.
func TestFlangesOverEachOther(t *testing.T) {
	for _, u := range []fold.Units{fold.MM, fold.Inch} {
		tray, _ := StarterByID("tray")
		spec := tray.Make(u)
		k := spec.Sheet.Thickness
		wing := func(name, on, side string, high, from, to float64) sizes.Flange {
			return sizes.Flange{Name: name, On: on, Side: side, Height: sizes.Is(high * k), From: sizes.Is(from * k), To: sizes.Is(to * k), Along: true, Down: true}
		}
		spec.Sizes.Flanges = append(spec.Sizes.Flanges, wing("wing", "back", "end", 40, 0, 25), wing("other wing", "left", "start", 45, 25, 0))
		_, bad := Make(spec)
		require.Len(t, bad, 1)
		t.Log(bad[0])
		require.Equal(t, "sizes.flanges[4].height", bad[0].Path)
		var most float64
		_, err := fmt.Sscanf(bad[0].Need, "at most about %g ", &most)
		require.NoError(t, err)
		spec.Sizes.Flanges[4].Height = sizes.Is(most)
		_, bad = Make(spec)
		require.Empty(t, bad)
		spec.Sizes.Flanges[4].Height = sizes.Is(most + 4*k) // and not much less than could be
		_, bad = Make(spec)
		require.NotEmpty(t, bad)

		// One that begins over its neighbour can't be mended by its height.
		spec.Sizes.Flanges = append(spec.Sizes.Flanges[:4:4], wing("wing", "back", "end", 40, 10, 0))
		_, bad = Make(spec)
		require.Len(t, bad, 1)
		require.Contains(t, bad[0].Need, "an inset")
	}
}
