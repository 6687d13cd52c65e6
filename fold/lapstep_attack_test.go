package fold

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// A tube closed by a lap: the last wall lies on the first, by design a thickness and the gap out of line. That is no fault.
func TestLapIsNoStep(t *testing.T) {
	for _, low := range []float64{-1.2, 1.2} {
		s := strip(1, []section{plain(20), plain(30), plain(40), plain(30 - low), plain(32)},
			[]fold1{{90, 1, true}, {90, 1, true}, {90, 1, true}, {90, 1, true}})
		length := 0.0
		for _, v := range s.Outline {
			length = max(length, v.At[0])
		}
		s.Seams = []SeamSpec{{Name: "joint", A: geom.Vec2{0, 10}, B: geom.Vec2{length, 10}}}
		for _, way := range JoinWays {
			s.Joins = []JoinSpec{{Way: way}}
			p := Build(s)
			require.True(t, p.Foldable)
			r := p.Quick()
			require.NotEmpty(t, r.Seams)
			x := r.Seams[0]
			require.Equal(t, "joint", x.Name)
			require.Equal(t, jointLap, x.Joint)
			require.InDelta(t, 1.2, x.Step, 1e-9)
			require.Equal(t, "ok", x.State)
			require.NotContains(t, rulesOf(&r), "seam-step")
		}
	}
}
