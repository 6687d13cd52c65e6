package shape_test

import (
	"testing"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/require"
)

// tray is a plain tray by sizes, and the same as a pan.
func tray(lean, front, back float64) (fold.Spec, foldtest.PanSizes) {
	f := &sizes.Form{Radius: sizes.Is(1.5), Gap: sizes.Is(0.5), Relief: sizes.Relief{Kind: sizes.Sawn},
		Base: sizes.Base{Wide: sizes.Is(front), WideBack: sizes.Is(back), Long: sizes.Is(200)}}
	for _, side := range []string{"front", "right", "back", "left"} {
		f.Flanges = append(f.Flanges, sizes.Flange{Name: side, On: "floor", Side: side, Height: sizes.Is(40), Angle: sizes.Is(90 - lean)})
	}
	s := fold.Spec{Name: "Tray", Sheet: fold.Sheet{Thickness: 1.2, Good: "up"}, Sizes: f}
	return s, foldtest.PanSizes{Length: 200, WidthFront: front, WidthBack: back, Depth: 40, Outside: true, Level: foldtest.AtFloor, Lean: lean, Thickness: 1.2, Radius: 1.5, Gap: 0.5}
}

// A plain, leaning, tapered tray by sizes is the same as one worked out wall by wall.
func TestMakeTray(t *testing.T) {
	for _, c := range [][3]float64{{0, 120, 120}, {10, 120, 120}, {0, 120, 90}, {12, 120, 90}} {
		s, pan := tray(c[0], c[1], c[2])
		made, problems := shape.Make(s)
		require.Empty(t, problems)
		part := fold.Build(made.Spec)
		require.Empty(t, part.Troubles)
		spec, err := foldtest.Pan(pan)
		require.NoError(t, err)
		twin := fold.Build(spec)
		a, b := part.Check(), twin.Check()
		require.InDelta(t, b.Blank.Area, a.Blank.Area, 1e-6)
		require.InDelta(t, b.Blank.Width, a.Blank.Width, 1e-9)
		require.InDelta(t, b.Blank.Height, a.Blank.Height, 1e-9)
		require.Empty(t, a.Troubles)
		for _, m := range made.Corners {
			require.InDelta(t, 0.5, m.Least, 1e-9)
			require.InDelta(t, 0.5, m.Most, 1e-9)
		}
		for i := range 3 {
			require.InDelta(t, b.Finished.Box()[i], a.Finished.Box()[i], 1e-9)
		}
	}
}
