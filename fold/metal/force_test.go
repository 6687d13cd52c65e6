package metal

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestForceMoment(t *testing.T) {
	for _, row := range readPublished(t, "force_moment") {
		switch row["case_id"] {
		case "MOM-Al":
			require.Equal(t, "sigma=600 MPa; b=0.5 m; t=2 mm", row["inputs"])
			require.InDelta(t, row.num(t, "recomputed"), PlasticMoment(600, 500, 2)/1000, 1e-9, "%v", row)
		case "MH-Rmin": // the formula alone is known: half the area drawn in bears any radius
			require.Contains(t, row["formula"], "Rmin=T(50/r-1)")
			require.InDelta(t, 4, ReductionRadius(1, 10), 1e-12, "%v", row)
			require.Zero(t, ReductionRadius(2, 50), "%v", row)
			require.Zero(t, ReductionRadius(2, 80), "%v", row)
		case "MH-F": // of the two formulas, the greatest radius; the force is a press tool's
			require.True(t, strings.HasSuffix(row["formula"], "Rmax=T*E/(2*YS)"), "%v", row)
			require.Equal(t, 1*200e3/(2*250.), GreatestRadius(1, 250, 200e3), "%v", row)
		case "BRK-20ga":
			got := .036 * AluminiumOver
			require.InDelta(t, row.num(t, "recomputed"), got, 1e-12, "%v", row)
			allowed, err := LookUp("16", "awg")
			require.NoError(t, err)
			over, err := LookUp("15", "awg")
			require.NoError(t, err)
			require.Less(t, allowed.Inch, got, "%v", row)
			require.Greater(t, over.Inch, got, "%v", row)
		case "BRK-short":
			bears := SameLoad(6, .036, 2)
			require.LessOrEqual(t, .060, bears, "%v", row)
			require.InDelta(t, row.num(t, "recomputed"), math.Pow(.060/bears, 2), 1e-4, "%v", row)
		default:
			t.Fatalf("%v: not known", row)
		}
	}
}
