package shape

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// An inset that leaves no room for the relief beside its bend is refused with the inset that does: measured, as it was
// given, from the side's end, behind the neighbour's bend.
func TestInsetTooSmall(t *testing.T) {
	tray, _ := StarterByID("tray")
	for _, kind := range []sizes.ReliefKind{sizes.Snipped, sizes.Drilled, sizes.Sawn, sizes.Bare} {
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			spec := tray.Make(u)
			spec.Sizes.Relief.Kind = kind
			left := &spec.Sizes.Flanges[3]
			left.From = sizes.Is(1.2 * spec.Sheet.Thickness)
			_, bad := Make(spec)
			require.Len(t, bad, 1)
			require.Equal(t, "sizes.flanges[3].from", bad[0].Path)
			require.Equal(t, fig(left.From.Number)+" "+u.String(), bad[0].Found)
			var need float64
			_, err := fmt.Sscanf(bad[0].Need, "0, or at least %g ", &need)
			require.NoError(t, err, bad[0].Need)
			left.From = sizes.Is(need)
			_, bad = Make(spec)
			require.Empty(t, bad)
			left.From = sizes.Is(need - 0.05*spec.Sheet.Thickness)
			_, bad = Make(spec)
			require.Len(t, bad, 1)
		}
	}
}
