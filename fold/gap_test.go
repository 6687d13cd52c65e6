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
