package fold

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A snip beside a slanting end comes out of the zone: the corner that it leaves in the zone
// lies beyond the line's end and both tangent lines' ends, and still turns with the bend.
func TestZoneHoldsCornerBesideSnip(t *testing.T) {
	k := 0.4
	s := Spec{Name: "snip", Sheet: Sheet{Thickness: 3, K: &k},
		Outline: pts(0, 0, 100, 0, 100, 37.4, 48.435, 40.05, 46.15, 31.7, 42.44, 40.25, 0, 42.4),
		Bends:   []BendSpec{bendAt("b", 50, -1, 50, 60, 47, 3.5)},
	}
	p := Build(s)
	require.Empty(t, p.Troubles)
	require.True(t, p.Foldable)
	require.Len(t, p.Panels, 2)
	sum := p.Panels[0].Area + p.Panels[1].Area
	for _, z := range p.Bends[0].Zone {
		sum += z.Area()
	}
	require.InDelta(t, p.Blank.Area, sum, 1e-6)
}
