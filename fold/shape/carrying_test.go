package shape

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// An ear on the end of a lip that would have closed a corner: the corner stands apart, and the part can be bent.
func TestEarAtRimCorner(t *testing.T) {
	s, _ := StarterByID("hopper")
	for _, inset := range []float64{0, 5} {
		spec := s.Make(fold.MM)
		spec.Sizes.Flanges = append(spec.Sizes.Flanges, sizes.Flange{Name: "ear", On: "left lip", Side: "start", Height: sizes.Is(12), From: sizes.Is(inset), To: sizes.Is(inset)})
		spec.Order = append([]fold.Step{{Bends: []string{"ear"}}}, spec.Order...)
		made, bad := Make(spec)
		require.Empty(t, bad)
		p := fold.Build(made.Spec)
		require.True(t, p.Foldable)
		r := p.Check()
		require.Empty(t, r.Clashes)
		for _, x := range r.Troubles {
			require.NotEqual(t, "stop", x.Severity, x.Message)
		}
		for _, c := range made.Corners {
			if c.A == "back lip" && c.B == "left lip" {
				require.Equal(t, sizes.Apart, c.Close)
			} else {
				require.NotEqual(t, sizes.Apart, c.Close, c.Name)
			}
		}
		spec.Sizes.Corners = []sizes.Corner{{A: "left lip", B: "back lip", Close: sizes.Mitre}}
		_, bad = Make(spec)
		require.Len(t, bad, 1)
		require.Equal(t, "sizes.corners[0]", bad[0].Path)
	}
}

// A tab folded in behind the next wall, to rivet through: the wall that carries it ends short by an inset.
func TestTabBehindWall(t *testing.T) {
	s, _ := StarterByID("tray")
	spec := s.Make(fold.MM)
	spec.Sizes.Flanges[3].From = sizes.Is(3.5)
	spec.Sizes.Flanges = append(spec.Sizes.Flanges, sizes.Flange{Name: "tab", On: "left", Side: "start", Height: sizes.Is(20), From: sizes.Is(6), To: sizes.Is(2)})
	spec.Order = append([]fold.Step{{Bends: []string{"tab"}}}, spec.Order...)
	made, bad := Make(spec)
	require.Empty(t, bad)
	f := foldUp(t, made.Spec)
	r := f.part.Check()
	require.Empty(t, r.Clashes)
	// The tab's outer face stands the inset behind the back's outer face, which leaves 3.5 less a thickness between them.
	back, tab := f.outer("back"), f.outer("tab")
	require.InDelta(t, 3.5, apartOf(back, tab), 1e-9)

	spec.Sizes.Flanges[3].From = sizes.Field{} // and without it the tab lies the wanted gap behind by itself
	made, bad = Make(spec)
	require.Empty(t, bad)
	f = foldUp(t, made.Spec)
	require.Empty(t, f.part.Check().Clashes)
	require.InDelta(t, f.part.Thickness+0.5, apartOf(f.outer("back"), f.outer("tab")), 1e-9)
}

// A tab that reaches down to its wall's own bend and can't be closed with its neighbour there is told to take an inset,
// which does.
func TestTabAtBend(t *testing.T) {
	s, _ := StarterByID("tray")
	spec := s.Make(fold.MM)
	spec, _ = SetSizes(spec, map[string]string{"lean": "10"})
	tab := sizes.Flange{Name: "tab", On: "back", Side: "end", Height: sizes.Is(36), Angle: sizes.Is(28)}
	spec.Sizes.Flanges = append(spec.Sizes.Flanges, tab)
	_, bad := Make(spec)
	require.Len(t, bad, 1)
	require.Equal(t, "sizes.flanges[4].to", bad[0].Path)
	require.Contains(t, bad[0].Need, "an inset")
	spec.Sizes.Flanges[4].To = sizes.Is(16)
	_, bad = Make(spec)
	require.Empty(t, bad)
}

func apartOf(a, b facePlane) float64 {
	d := facesApart(a, b)
	if d < 0 {
		return -d
	}
	return d
}
