package metal

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The rows of design_rules.csv that become a figure, with R 2 and T 1.5 mm, each with its mark there.
func TestDesignRules(t *testing.T) {
	const r, th = 2.0, 1.5
	hole, relief := HoleToBend(r, th), ReliefHole(r, th)
	has := func(ds []Distance, mm float64, kind Kind, row published) {
		t.Helper()
		for _, d := range ds {
			if d.Mm-mm < 1e-9 && mm-d.Mm < 1e-9 && d.Source.Kind == kind && !d.Source.Memory {
				require.NotEmpty(t, d.Note)
				require.False(t, row.memory(), "%v", row)
				return
			}
		}
		t.Fatalf("%g mm is not in %+v: %v", mm, ds, row)
	}
	seen := 0
	for _, row := range readPublished(t, "design_rules") {
		seen++
		switch row["rule"] {
		case "hole edge to bend":
			require.Equal(t, ">= 2T + R", row["value"])
			has(hole, 5, Practice, row)
		case "hole edge to bend (looser trade value)":
			require.Equal(t, ">= 2T measured from start of bend radius; other lists 2.5T+R and 3T+R", row["value"])
			has(hole, 3, Practice, row)
			has(hole, 5.75, Practice, row)
			has(hole, 6.5, Practice, row)
		case "relief hole diameter":
			require.Equal(t, "about 2 x bend radius; common practice = bend radius but not under 1/8 in", row["value"])
			has(relief, 4, Published, row)
			has(relief, 3.175, Published, row)
			has(ReliefHole(5, th), 5, Published, row)
		case "relief hole minimum, aluminium T<=0.064 in":
			has(ReliefHole(3, 1.6), 3.175, Published, row)
		case "relief hole minimum, T 0.072-0.128 in":
			has(ReliefHole(3, 2), 4.7625, Published, row)
			require.Len(t, ReliefHole(3, 4), 2, "%v", row)
		case "relief notch set back":
			has(ReliefNotch(r, th), 3.5, Published, row)
		case "bend relief size":
			require.Contains(t, row["value"], "width >= T")
			has(ReliefWidth(th), 1.5, Practice, row)
		default:
			seen--
		}
	}
	require.Equal(t, 7, seen)
	for i := 1; i < len(hole); i++ {
		require.LessOrEqual(t, hole[i-1].Mm, hole[i].Mm)
	}
}
