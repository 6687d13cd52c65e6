package fold

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// On square walls whose ends stand e past the other wall's tangent plane (negative:
// short of it), the inner edges stand sqrt(2)(R+e) apart. Closed form: inner corner of
// each wall end is (R+e, 0) and (0, R+e) from the line where the inner faces meet less R.
func TestTrayGapClosedForm(t *testing.T) {
	for _, n := range []float64{31.7, 32, 33, 36} {
		p := Build(trayWithNotch(n))
		require.True(t, p.Foldable)
		r := p.Quick()
		require.Len(t, r.Seams, 4, "notch %v", n)
		ba := p.Bends[0].Allowance
		e := n - (30 + ba/2) // wall ends short of the floor's tangent line by e
		for _, s := range r.Seams {
			require.InDelta(t, math.Sqrt2*(1.5+e), s.GapMin, 1e-9, "notch %v", n)
			require.InDelta(t, s.GapMin, s.GapMax, 1e-9)
			require.InDelta(t, s.GapMin, s.GapMean, 1e-9)
			require.InDelta(t, 30-ba/2, s.Length, 1e-9)
		}
	}
}

// Two legs that meet in a sharp corner of 30 degrees are no two halves of one plane: no step.
// The same edges butted in one plane, one sheet 0.6 out of line, are.
func TestStepOnlyAcrossASeam(t *testing.T) {
	s := strip(1, []section{plain(60), plain(28), plain(60)}, []fold1{{105, 1, true}, {105, 1, true}})
	r := Build(s).Quick()
	require.Len(t, r.Seams, 1)
	require.Zero(t, r.Seams[0].Step)
	// A tube: the last wall stands down from the first by what its side is too short.
	ring := func(short float64) Report {
		s := strip(1, []section{plain(20), plain(30), plain(40), plain(30 - short), plain(16)},
			[]fold1{{90, 1, true}, {90, 1, true}, {90, 1, true}, {90, 1, true}})
		return Build(s).Quick()
	}
	for _, short := range []float64{0, 0.6} {
		r = ring(short)
		require.Len(t, r.Seams, 1, short)
		require.InDelta(t, short, r.Seams[0].Step, 1e-9)
	}
}
