package shape_test

import (
	"fmt"
	"testing"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/require"
)

// A tab on a wall's end lies flat on the next wall's face, the gap apart, behind it or, if it is to run over, outside.
func TestTabs(t *testing.T) {
	for _, lean := range []float64{0, 8, -5} {
		for _, kind := range []sizes.ReliefKind{sizes.Snipped, sizes.Drilled, sizes.Sawn, sizes.Bare} {
			for _, outer := range []bool{false, true} {
				s, _ := tray(lean, 120, 100)
				s.Sizes.Relief.Kind = kind
				s.Sizes.Flanges = append(s.Sizes.Flanges,
					sizes.Flange{Name: "tab", On: "front", Side: "end", Height: sizes.Is(12), Along: true},
					sizes.Flange{Name: "other tab", On: "front", Side: "start", Height: sizes.Is(12), Along: true})
				if outer {
					s.Sizes.Corners = []sizes.Corner{{A: "tab", B: "right", Close: sizes.Lap, Over: "tab"}, {A: "left", B: "other tab", Close: sizes.Lap, Over: "other tab"}}
				}
				made, problems := shape.Make(s)
				what := fmt.Sprint("lean ", lean, " ", kind, " outer ", outer)
				require.Empty(t, problems, what)
				for _, c := range made.Part.Clashes() {
					// Outside, the walls go up before the one with the tabs.
					require.True(t, outer, "%s: %s meets %s", what, made.Part.BodyName(c.A), made.Part.BodyName(c.B))
				}
				p := made.Part
				pose := p.Pose(p.Finished())
				frame := map[string]geom.Frame{}
				mid := map[string]geom.Vec2{}
				for i, n := range p.Panels {
					frame[n.Name], mid[n.Name] = pose.Panels[i], n.Label
				}
				for tab, wall := range map[string]string{"tab": "right", "other tab": "left"} {
					a, b := frame[tab], frame[wall]
					require.InDelta(t, 1, a.Z.Dot(b.Z), 1e-12, what)
					at := a.Point(geom.Vec3{mid[tab][0], mid[tab][1], 0})
					off := b.LocalPoint(at)[2] // of the tab's outside face over the wall's
					want := p.Thickness + 0.5
					if outer {
						want = -want
					}
					require.InDelta(t, want, off, 1e-9, what)
				}
			}
		}
	}
}

// On walls that lean out a tab's foot keeps off the next wall on the blank, and its top does not stand over theirs; which wall
// runs over the other says where the tab lies.
func TestTabsOnLeaningWalls(t *testing.T) {
	st, _ := shape.StarterByID("tray")
	for _, over := range []string{"", "right", "front"} {
		s, _ := shape.SetSizes(st.Make(fold.MM), map[string]string{"lean": "8"})
		s.Sizes.Flanges = append(s.Sizes.Flanges, sizes.Flange{Name: "tab", On: "front", Side: "end", Height: sizes.Is(12), Along: true})
		if over != "" {
			s.Sizes.Corners = []sizes.Corner{{A: "front", B: "right", Close: sizes.Lap, Over: over}}
		}
		made, problems := shape.Make(s)
		require.Empty(t, problems, over)
		r := made.Part.Check()
		require.InDelta(t, 50, r.Finished.Box()[2], 0.1, over)
		wide := 200.0
		if over == "front" {
			wide += 1 + 0.5 // the tab, and the gap behind it
		}
		require.InDelta(t, wide, r.Finished.Box()[0], 0.1, over)
		for _, x := range r.Seams {
			require.InDelta(t, 0.5, x.GapMax, 1e-6, x.Name)
		}
	}
	// Sizes at the top mean nothing where a floor goes on.
	s := steppedHooked(false)
	s.Sizes.Base.AtTop = true
	_, problems := shape.Make(s)
	require.Len(t, problems, 1)
	require.Equal(t, "sizes.base.at_top", problems[0].Path)
}

// A floor that goes on beyond a bend runs straight on between its walls where nothing else is said: their bend lines lie in one
// line on the blank.
func TestStraightOn(t *testing.T) {
	for _, st := range shape.Starters {
		if st.ID != "stepped-tray" {
			continue
		}
		s := st.Make(fold.MM)
		for i := range s.Sizes.Flanges {
			s.Sizes.Flanges[i].LeanStart, s.Sizes.Flanges[i].LeanEnd = sizes.Field{}, sizes.Field{}
		}
		made, problems := shape.Make(s)
		require.Empty(t, problems)
		line := map[string][2]geom.Vec2{}
		for _, b := range made.Spec.Bends {
			line[b.Name] = b.Line
		}
		for _, side := range []string{"left", "right"} {
			a, b := line[side], line[side+" 2"]
			d := a[1].Sub(a[0]).Normalize()
			for _, p := range b {
				require.InDelta(t, 0, geom.Cross2(d, p.Sub(a[0])), 1e-9)
			}
		}
		for _, c := range made.Corners {
			require.InDelta(t, c.Gap, c.Least, 1e-6)
		}
	}
}
