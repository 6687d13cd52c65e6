package fold

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Two lengths that are compared never look the same where they differ by more than is passed over.
func TestComparedLengthsDiffer(t *testing.T) {
	s := closedRing(1, 0.3, 0.3507)
	s.Joins = []JoinSpec{{Way: "weld"}}
	_, r, seam := theSeam(t, s)
	require.Equal(t, "watch", seam.State)
	said := ""
	for _, x := range r.Troubles {
		if x.Rule == "seam-step" {
			said = x.Message
		}
	}
	require.Contains(t, said, "are 0.351 mm out of line, more than the 0.350 mm of ISO 5817")
	require.True(t, strings.HasSuffix(said, ": clamp the faces in line before tacking."), said)
	for _, c := range []struct{ a, b float64 }{{0.35002, 0.35}, {1.04, 1.0}, {0.3, 0.8}, {12.3456, 12.3457}} {
		x, y := told(c.a, c.b)
		require.NotEqual(t, x, y)
		require.False(t, strings.HasSuffix(x, "00"), x)
	}
}

// What touches is told as 0.0 mm, never as less, and what comes a little too near not as 0.0 mm.
func TestTouchingToldPlainly(t *testing.T) {
	for _, short := range []float64{0, -0.004, 0.02} {
		for _, low := range []float64{-0.011, -0.03, -0.5} {
			s := closedRing(1, short, 0)
			s.Joins = []JoinSpec{{Way: "weld"}}
			p, r, seam := theSeam(t, s)
			seam.Spread = &SeamSpread{Widest: Spread{Low: short, Mid: 0.1, High: 0.2}, Least: Spread{Low: low, Mid: short, High: 0.1}}
			p.JudgeSeams(&r)
			said := ""
			for _, x := range r.Troubles {
				said += x.Message
			}
			require.Contains(t, said, "in 5 of 100 its panels meet", "%v %v", short, low)
			require.NotContains(t, said, "-0.0")
			require.NotContains(t, said, "meet 0.00 mm")
		}
	}
}
