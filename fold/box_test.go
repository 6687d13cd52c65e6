package fold

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// With no inside radius and K 0 the outer face still goes round: T beyond the line.
func TestBoxOfCreases(t *testing.T) {
	k := 0.0
	for _, up := range []bool{true, false} {
		s := Spec{Name: "creases", Sheet: Sheet{Thickness: 1, K: &k}, Outline: pts(0, 0, 60, 0, 60, 100, 0, 100), Base: "m",
			Bends:  []BendSpec{bendAt("a", 20, 0, 20, 100, 90, 0), bendAt("b", 40, 0, 40, 100, 135, 0)},
			Panels: []PanelName{{"m", [2]float64{30, 50}}},
		}
		s.Bends[1].Up = up
		p := Build(s)
		require.True(t, p.Foldable)
		size := p.Pose(p.Finished()).Box().Size()
		require.InDelta(t, 22, size[0], 1e-9) // the foot's 20 and T at either end
		require.InDelta(t, 100, size[1], 1e-9)
		high := 21.0
		if !up { // the far end of b hangs below, its outer edge T on
			high += 21 * math.Sin(math.Pi/4)
		}
		require.InDelta(t, high, size[2], 1e-9)
	}
}
