package session

import (
	"slices"
	"testing"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every starter with a free top takes a rim of every kind in one step: it folds without a clash, each lip before its wall and each
// hook before its lip, and taken off again the part is as it was, byte for byte.
func TestRims(t *testing.T) {
	var with []string
	for _, u := range []fold.Units{fold.MM, fold.Inch} {
		for _, st := range shape.Starters {
			s := starter(t, st.ID, u)
			before := file(s)
			kind, walls := s.Rim()
			require.Equal(t, NoRim, kind, st.ID)
			if walls == 0 {
				assert.ErrorContains(t, s.SetRim(RimOut), "no wall has a free top", st.ID)
				continue
			}
			with = append(with, st.ID)
			bare := len(s.Form().Flanges)
			for _, kind := range []RimKind{RimOut, RimHook, RimIn, RimHem} {
				require.NoError(t, s.SetRim(kind), "%s %d", st.ID, kind)
				is, still := s.Rim()
				assert.Equal(t, kind, is, st.ID)
				assert.Equal(t, walls, still, st.ID)
				f := s.Form()
				each := 1
				if kind == RimHook {
					each = 2
				}
				require.Len(t, f.Flanges, bare+each*walls)
				require.Empty(t, s.Part().Check().Clashes, "%s %d", st.ID, kind)
				step := func(name string) int {
					return slices.IndexFunc(s.Spec().Order, func(x fold.Step) bool { return slices.Contains(x.Bends, name) })
				}
				for _, l := range f.Flanges[bare:] {
					require.GreaterOrEqual(t, step(l.Name), 0, l.Name)
					require.Less(t, step(l.Name), step(l.On), "%s before %s", l.Name, l.On)
				}
				serial := s.Serial()
				require.NoError(t, s.SetRim(kind))
				assert.Equal(t, serial, s.Serial(), "it is so already")
			}
			require.NoError(t, s.SetRim(NoRim))
			assert.Equal(t, before, file(s), st.ID)
			for range 5 {
				s.Undo()
			}
			assert.Equal(t, before, file(s), "%s: each was one step", st.ID)
		}
	}
	for _, id := range []string{"tray", "tapered-tray", "stepped-tray", "box", "lid", "channel", "bracket"} {
		assert.Contains(t, with, id)
	}
}

// A rim's width is one field for all walls: outside sizes of a box with a rim out follow from the sheet's thickness alone, as a lip
// is measured from the inside face of its wall, which it goes on from.
func TestRimWidth(t *testing.T) {
	s := starter(t, "box", fold.MM)
	was := s.report.Finished.Box()
	thick := s.Part().Thickness
	require.NoError(t, s.SetRim(RimOut))
	wide := func(rim float64) {
		is := s.report.Finished.Box()
		for k := range 2 {
			assert.InDelta(t, was[k]+2*(rim-thick), is[k], 1e-6)
		}
		assert.InDelta(t, was[2], is[2], 1e-6)
	}
	wide(12)
	at := slices.IndexFunc(s.Form().Named, func(n sizes.Named) bool { return n.Name == "rim" })
	require.GreaterOrEqual(t, at, 0)
	require.NoError(t, s.SetField(NamedField(at, "is"), "20"))
	wide(20)
	require.NoError(t, s.SetRim(RimIn))
	assert.Equal(t, "20", s.fieldText(s.Form().Named[at].Is, false), "another rim as wide")
	is := s.report.Finished.Box()
	for k := range 3 {
		assert.InDelta(t, was[k], is[k], 1e-6)
	}

	// A wall that leans: the rim is level, so that the part is no higher than it was.
	s = starter(t, "tapered-tray", fold.MM)
	was = s.report.Finished.Box()
	for _, kind := range []RimKind{RimOut, RimIn} {
		require.NoError(t, s.SetRim(kind))
		assert.InDelta(t, was[2], s.report.Finished.Box()[2], 1e-6)
	}

	s = starter(t, "box", fold.MM)
	require.NoError(t, s.AddNamed("rim", "30", true))
	assert.ErrorContains(t, s.SetRim(RimOut), "is an angle")
}

// Walls that are raised once there is a rim get the same with one step more; the rim that is there stays as it was changed.
func TestRimOnNewWalls(t *testing.T) {
	s := starter(t, "stepped-tray", fold.MM)
	require.NoError(t, s.SetRim(RimHook))
	assert.Zero(t, s.RimFree())
	require.NoError(t, s.SetField(FlangeField(flangeNamed(s.Form(), "front hook"), "angle"), "80"))
	require.NoError(t, s.AddFloor())
	assert.Equal(t, 2, s.RimFree())
	require.NoError(t, s.SetRim(RimHook))
	assert.Zero(t, s.RimFree())
	f := s.Form()
	for _, name := range []string{"left 3 lip", "left 3 hook", "right 3 lip", "right 3 hook"} {
		require.GreaterOrEqual(t, flangeNamed(f, name), 0, name)
	}
	assert.Equal(t, sizes.Is(80), f.Flanges[flangeNamed(f, "front hook")].Angle)
	assert.Empty(t, s.Part().Check().Clashes)
	require.NoError(t, s.SetRim(NoRim))
	assert.Equal(t, 8, s.RimFree())
}

// New flanges begin as what stands in such a place usually is: a lip on a wall, a hook on a lip, a tab on a wall's end,
// a wall on a floor's end.
func TestNewFlanges(t *testing.T) {
	s := starter(t, "stepped-tray", fold.MM)
	add := func(on, side string) *sizes.Flange {
		i, err := s.AddFlange(on, side)
		require.NoError(t, err, "%s %s", on, side)
		return &s.Form().Flanges[i]
	}
	lip := add("front", "top")
	assert.Equal(t, "front lip", lip.Name)
	assert.Equal(t, sizes.Is(12), lip.Height)
	assert.Equal(t, [2]bool{true, true}, [2]bool{lip.Along, lip.Down})
	assert.True(t, s.CanCopyOpposite("front lip") == false, "a floor stands opposite to the front")
	hook := add("front lip", "top")
	assert.Equal(t, "front hook", hook.Name)
	assert.Equal(t, sizes.Is(8), hook.Height)
	assert.Equal(t, [2]bool{true, true}, [2]bool{hook.Along, hook.Down})

	s = starter(t, "tray", fold.MM)
	require.NoError(t, s.DeleteFlange("left"))
	wall := add("floor", "left")
	assert.Equal(t, "left", wall.Name)
	assert.Equal(t, sizes.Of("high"), wall.Height)
	tab := add("left", "start")
	assert.Equal(t, "left tab", tab.Name)
	assert.Equal(t, sizes.Is(12), tab.Height)
	assert.True(t, tab.Along)
}

// A lip is copied to the wall across, with its hook; where there is no place the copy is not offered.
func TestCopyLip(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	_, err := s.AddFlange("front", "top")
	require.NoError(t, err)
	_, err = s.AddFlange("front lip", "top")
	require.NoError(t, err)
	assert.True(t, s.CanCopyOpposite("front lip"))
	assert.False(t, s.CanCopyOpposite("front"), "back stands there")
	assert.False(t, s.CanCopyOpposite("front hook"), "no lip on back yet")
	i, err := s.CopyFlangeOpposite("front lip")
	require.NoError(t, err)
	f := s.Form()
	assert.Equal(t, [2]string{"back lip", "back"}, [2]string{f.Flanges[i].Name, f.Flanges[i].On})
	assert.Equal(t, [2]string{"back hook", "back lip"}, [2]string{f.Flanges[i+1].Name, f.Flanges[i+1].On})
	assert.False(t, s.CanCopyOpposite("front lip"))
	require.NoError(t, s.DeleteFlange("back hook"))
	assert.True(t, s.CanCopyOpposite("front hook"))
	_, err = s.CopyFlangeOpposite("front hook")
	require.NoError(t, err)
	assert.False(t, s.CanCopyOpposite("nobody"))
}
