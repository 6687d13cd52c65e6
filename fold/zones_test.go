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

// A tab snipped no further than its bend line leaves half the zone hanging on the floor's edge.
func TestReliefShortOfTangentLine(t *testing.T) {
	k := 0.42
	tab := func(snip float64) Spec { // cuts 1 mm wide beside the tab, snip past its line
		return Spec{Name: "tab", Sheet: Sheet{Thickness: 1.5, K: &k}, Bends: []BendSpec{bendAt("tab", 40, 0, 60, 0, 90, 1.5)},
			Outline: pts(0, 0, 39, 0, 39, snip, 40, snip, 40, -25, 60, -25, 60, snip, 61, snip, 61, 0, 100, 0, 100, 50, 0, 50)}
	}
	p := Build(tab(1))
	require.Len(t, p.Troubles, 2)
	require.Equal(t, "relief-narrow", p.Troubles[1].Rule) // 1 mm in sheet of 1.5
	tr := p.Troubles[0]
	require.Equal(t, "relief-short", tr.Rule)
	require.Equal(t, Watch, tr.Severity)
	require.Equal(t, "tab", tr.Name)
	require.InDelta(t, 80, *tr.Have, 1e-9)
	require.Contains(t, tr.Message, "for 80.0 mm past the ends of its line")
	require.True(t, p.Foldable)
	require.Len(t, Build(tab(1.7)).Troubles, 1) // still narrow
}
