package session

// This file tests what is changed of a part by sizes as a whole: named sizes, base, starters.

import (
	"slices"
	"testing"

	"dryfold/fold"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Named sizes: a new name goes through all formulas, one in use is not taken away.
func TestNamedSizes(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	require.Error(t, s.DeleteNamed(0))
	require.NoError(t, s.RenameNamed(0, "broad"))
	assert.Equal(t, "broad", s.Form().Base.Wide.Formula)
	require.Error(t, s.RenameNamed(0, "long"))
	require.Error(t, s.RenameNamed(0, "2nd"))
	require.NoError(t, s.AddNamed("play", "1/2 in", false))
	n := len(s.Form().Named) - 1
	assert.Equal(t, sizes.Is(12.7), s.Form().Named[n].Is)
	require.Error(t, s.AddNamed("play", "3", false))
	require.NoError(t, s.SetField("sizes.base.wide", "broad + play"))
	f, _ := s.SizeField("sizes.base.wide")
	assert.InDelta(t, 212.7, f.Value, 1e-9)
	assert.True(t, f.Formula)
	require.Error(t, setNamed(s, "play", "play + 1"), "a circle")
	require.NoError(t, s.SetField("sizes.base.wide", "broad"))
	require.NoError(t, s.DeleteNamed(n))
	require.NoError(t, s.SetNamedLabel(0, "How broad it is"))
	f, _ = s.SizeField(NamedField(0, "is"))
	assert.Equal(t, "How broad it is", f.Label)
}

// A side of the base gets another name, and what stands on it follows; stations that lie on one line make one side.
func TestSideNames(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	require.NoError(t, s.SetSideName(3, "port"))
	assert.Equal(t, "port", s.Form().Flanges[flangeNamed(s.Form(), "left")].Side)
	assert.Equal(t, "port", s.Sides("floor")[3].Side)
	require.Error(t, s.SetSideName(2, "port"))
	require.Error(t, s.SetSideName(9, "x"))
	require.NoError(t, s.SetSideName(3, ""))
	assert.Nil(t, s.Form().Base.Sides)
	assert.Equal(t, "left", s.Form().Flanges[flangeNamed(s.Form(), "left")].Side)

	for _, l := range []string{"left", "right", "front", "back"} {
		require.NoError(t, s.DeleteFlange(l))
	}
	require.NoError(t, s.SetBase(ByStations))
	add := func(at, wide float64) error {
		return s.EditForm("sizes.base", func(f *sizes.Form) error {
			m := f.Base.Measured
			m.Stations = slices.Insert(m.Stations, 1, sizes.Station{At: sizes.Is(at), Wide: sizes.Is(wide)})
			return nil
		})
	}
	require.NoError(t, add(100, 200), "on the line from front to back")
	assert.Len(t, s.Sides("floor"), 4)
	s.Undo()
	require.NoError(t, add(100, 260), "wider in the middle")
	assert.Len(t, s.Sides("floor"), 6)
	i, err := s.AddFlange("floor", s.Sides("floor")[1].Side)
	require.NoError(t, err)
	_, err = s.CopyFlangeOpposite(s.Form().Flanges[i].Name)
	require.NoError(t, err)
}

// A stepped tray's floor is bent once more, and once less by undo.
func TestAddFloor(t *testing.T) {
	s := starter(t, "stepped-tray", fold.MM)
	require.True(t, s.CanAddFloor())
	before, n := file(s), len(s.Part().Panels)
	require.NoError(t, s.AddFloor())
	assert.Greater(t, len(s.Part().Panels), n)
	s.Undo()
	assert.Equal(t, before, file(s))
	assert.False(t, starter(t, "tray", fold.MM).CanAddFloor())
	assert.Error(t, starter(t, "tray", fold.MM).AddFloor())
}

// A part begun from a starter is the open part at once; the one before is one undo away.
func TestStartWith(t *testing.T) {
	s := New(tray(t))
	before := file(s)
	s.SetUnits(fold.Inch)
	require.NoError(t, s.StartWith("channel"))
	assert.True(t, s.BySizes())
	assert.Equal(t, fold.Inch, s.Spec().Units)
	assert.Equal(t, Sizes, s.Word())
	assert.Equal(t, 1.0, s.Fold())
	s.SetWord(Seams)
	s.SetWord(Sizes)
	assert.Equal(t, "Channel", s.Name(), "another word of the job loses nothing")
	assert.Error(t, s.StartWith("dirigible"))
	s.Undo()
	assert.Equal(t, before, file(s))
}

// A base given in another way is the same base.
func TestBaseAnotherWay(t *testing.T) {
	for _, id := range []string{"tray", "tapered-tray"} {
		for _, way := range []BaseShape{Trapezoid, Outline, BySides, ByAngles, ByStations} {
			s := starter(t, id, fold.MM)
			if BaseOf(s.Form()) == way {
				continue
			}
			was := s.Part().Blank.Box.Size()
			require.NoError(t, s.SetBase(way), "%s %d", id, way)
			assert.Equal(t, way, BaseOf(s.Form()))
			is := s.Part().Blank.Box.Size()
			assert.InDelta(t, was[0], is[0], 1e-3, "%s %d", id, way)
			assert.InDelta(t, was[1], is[1], 1e-3, "%s %d", id, way)
			require.NoError(t, s.SetBase(Trapezoid))
			is = s.Part().Blank.Box.Size()
			assert.InDelta(t, was[0], is[0], 1e-3, "%s %d and back", id, way)
			assert.InDelta(t, was[1], is[1], 1e-3)
		}
	}
}

// Once the base is measured by tape, named sizes that only it used are asked no more, and the floor bent on it lets go of
// the lean that was reckoned from them; undo brings all of it back.
func TestMeasuredBaseLetsNamesGo(t *testing.T) {
	s := starter(t, "stepped-tray", fold.MM)
	before := file(s)
	assert.NotContains(t, s.InUse(), false)
	require.NoError(t, s.SetBase(BySides))
	f := s.Form()
	var idle []string
	for i, used := range s.InUse() {
		if !used {
			idle = append(idle, f.Named[i].Name)
		}
	}
	assert.Equal(t, []string{"wide", "wide_back", "long"}, idle)
	at := flangeNamed(f, "floor 2")
	assert.Equal(t, [2]sizes.Field{}, [2]sizes.Field{f.Flanges[at].LeanStart, f.Flanges[at].LeanEnd})
	require.NotNil(t, s.Made())
	s.Undo()
	assert.Equal(t, before, file(s))

	// A hopper's leans hang on angles, and stay; its outlet uses the floor's names still.
	s = starter(t, "hopper", fold.MM)
	require.NoError(t, s.SetBase(BySides))
	assert.NotContains(t, s.InUse(), false)

	// A name that only an unused name uses is not used either.
	s = starter(t, "tray", fold.MM)
	require.NoError(t, s.AddNamed("one", "5", false))
	require.NoError(t, s.AddNamed("two", "one * 2", false))
	assert.Equal(t, []bool{false, false}, s.InUse()[4:])
	require.NoError(t, s.SetField("sizes.gap", "two / 10"))
	assert.Equal(t, []bool{true, true}, s.InUse()[4:])
}
