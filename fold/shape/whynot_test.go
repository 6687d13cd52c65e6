package shape

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// A hole that cuts a bend off is named, not the bend: the form's other holes and the walls are well.
func TestHoleAcrossBend(t *testing.T) {
	s, _ := StarterByID("hopper")
	spec := s.Make(fold.MM)
	spec.Sizes.Holes = append([]sizes.Hole{{Name: "pilot", On: "floor", X: sizes.Is(10), Y: sizes.Is(10), Wide: sizes.Is(3)}}, spec.Sizes.Holes...)
	spec, bad := SetSizes(spec, map[string]string{"outlet": "140"})
	require.Empty(t, bad)
	_, bad = Make(spec)
	require.Len(t, bad, 1)
	require.Equal(t, "sizes.holes[1].wide", bad[0].Path)
	require.Equal(t, "140 mm", bad[0].Found)
	require.Contains(t, bad[0].Need, "cuts the bend")
	spec, _ = SetSizes(spec, map[string]string{"outlet": "100"})
	_, bad = Make(spec)
	require.Empty(t, bad)
}
