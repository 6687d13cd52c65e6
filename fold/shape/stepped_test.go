package shape_test

import (
	"testing"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/require"
)

// steppedHooked is the stepped, tapered tray with leaning walls, and a lip with a hook all round.
func steppedHooked(inPlane bool) fold.Spec {
	var s fold.Spec
	for _, st := range shape.Starters {
		if st.ID == "stepped-tray" {
			s = st.Make(fold.MM)
		}
	}
	f := s.Sizes
	for i := range f.Named {
		if f.Named[i].Name == "lean" {
			f.Named[i].Is = sizes.Is(8)
		}
	}
	for _, w := range f.Flanges {
		if w.Name == "floor 2" {
			continue
		}
		f.Flanges = append(f.Flanges,
			sizes.Flange{Name: w.Name + " lip", On: w.Name, Height: sizes.Is(14), Along: true, Down: true, Angle: sizes.Is(82)},
			sizes.Flange{Name: w.Name + " hook", On: w.Name + " lip", Height: sizes.Is(9), Along: true, Down: true})
	}
	if inPlane {
		f.Corners = append(f.Corners, sizes.Corner{A: "right", B: "right 2", InPlane: true}, sizes.Corner{A: "left 2", B: "left", InPlane: true})
	}
	s.Order = nil // rims first
	return s
}

// The flagship: every seam of 20 panels closes to the wanted gap, and the whole folds without a clash.
func TestSteppedHookedTray(t *testing.T) {
	for _, inPlane := range []bool{false, true} {
		s := steppedHooked(inPlane)
		made, problems := shape.Make(s)
		require.Empty(t, problems)
		require.Len(t, made.Corners, 18)
		for _, c := range made.Corners {
			require.True(t, c.Measured, c.Name)
			require.InDelta(t, c.Gap, c.Least, 1e-6, c.Name)
			require.Less(t, c.Most, c.Gap+0.05, c.Name)
			if inPlane && (c.Name == "right to right 2" || c.Name == "left 2 to left") {
				require.Less(t, c.Step, 1e-6, c.Name)
				require.InDelta(t, c.Least, c.Most, 1e-6, c.Name)
			}
		}
		for _, x := range made.Part.Check().Troubles {
			require.Equal(t, fold.Note, x.Severity, x.Message)
		}
	}
}
