package session

import (
	"testing"

	"dryfold/fold"
	"dryfold/render/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func seamSelect(i int) scene.Select { return scene.Select{Kind: scene.Seam, Index: i} }

func outBy(t *testing.T, s *Session, key string) OutBy {
	t.Helper()
	for _, o := range s.OutBys() {
		if o.Key == key {
			return o
		}
	}
	t.Fatal("no error " + key)
	return OutBy{}
}

// Every error is told with where its figure is from, takes one's own, and goes back to the default.
func TestOutBys(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	require.True(t, s.SpreadKnown())
	require.NotNil(t, s.Report().Spread)
	before := file(s)
	typed := map[string][2]string{"angle": {"± 0.5", "0.5"}, "line": {"0.3 mm", "0.3"}, "cut": {"1/4", "0.25"}, "thickness": {"0.05", "0.05"}, "k": {"0.04", "0.04"}}
	for _, o := range s.OutBys() {
		assert.NotEmpty(t, o.Figure, o.Key)
		assert.NotEmpty(t, o.Source, o.Key)
		assert.NotEmpty(t, o.Kind, o.Key)
		assert.False(t, o.Given, o.Key)
		require.NoError(t, s.SetOutBy(o.Key, typed[o.Key][0]), o.Key)
		now := outBy(t, s, o.Key)
		assert.True(t, now.Given, o.Key)
		assert.Equal(t, typed[o.Key][1], now.Own, o.Key)
		require.NoError(t, s.SetOutBy(o.Key, ""))
		assert.Equal(t, before, file(s), o.Key)
	}
	require.NoError(t, s.SetOutByClass("angle", "f"))
	require.NoError(t, s.SetOutBy("cut", "0.1"))
	require.NoError(t, s.SetOutByClass("cut", "v"))
	whole(t, s)
	assert.Equal(t, "f", outBy(t, s, "angle").Class)
	assert.Equal(t, "", outBy(t, s, "cut").Own, "a class takes the figure's place")
	for _, e := range s.Report().Spread.Errors {
		assert.Equal(t, e.Name == "bend angle" || e.Name == "cut edge", e.Given, e.Name)
	}
	kept := New(fold.Spec{})
	_, err := kept.Restore(s.Keep(""))
	require.NoError(t, err)
	assert.Equal(t, s.Spec().Errors, kept.Spec().Errors)
	for s.CanUndo() {
		s.Undo()
	}
	assert.Equal(t, before, file(s))
}

// What is no range stands beside its field, and the part stays.
func TestOutByRefused(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	before := file(s)
	for _, o := range s.OutBys() {
		for _, text := range []string{"-1", "much", "1e9", "99999"} {
			assert.Error(t, s.SetOutBy(o.Key, text), "%s %s", o.Key, text)
			e, bad := s.Error(OutByField(o.Key))
			require.True(t, bad)
			assert.Equal(t, text, e.Typed)
		}
	}
	assert.Error(t, s.SetOutByClass("line", "m"))
	assert.Error(t, s.SetOutByClass("angle", "x"))
	assert.Equal(t, before, file(s))
}

// Another error makes another band: what is worked out is the part's own errors, and less error makes less spread.
func TestOutByCounts(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	wide := s.Report().Seams[0].Spread.Widest
	require.NoError(t, s.SetOutBy("cut", "0.05"))
	whole(t, s)
	small := s.Report().Seams[0].Spread.Widest
	assert.Less(t, small.High-small.Low, 0.5*(wide.High-wide.Low))
	rows := s.Spreads()
	require.GreaterOrEqual(t, len(rows), 3)
	assert.Equal(t, "Long", rows[0][0])
	s.SetUnits(fold.Inch)
	assert.Less(t, len(s.Spreads()[0][1]), 7)
}

// A close pass in a swing is told with what errors may take of it, and what would free a clash.
func TestRoomAndCutWords(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	s.report.Swings[1].Room = &fold.RoomReport{A: "panel left", B: "bend hook", Room: 0.4, Angle: 61.6, Errors: 0.8}
	words, tight := s.RoomWords(1)
	assert.Equal(t, "Left passes bend hook with 0.40 mm room at about 62°; errors may take 0.80 mm.", words)
	assert.True(t, tight)
	s.report.Swings[1].Room.Errors = 0.1
	_, tight = s.RoomWords(1)
	assert.False(t, tight)
	s.report.Swings[0].Room = nil
	words, _ = s.RoomWords(0)
	assert.Empty(t, words)

	f := checked(t, "faulty-tray.dryfold")
	require.NotEmpty(t, f.report.Clashes)
	f.report.Clashes[0].Cuts = []fold.CutBack{{Panel: "hook", Edge: "its far edge", By: 1.3}, {Panel: "left", Edge: "its end towards back", By: 4}, {Panel: "back", Edge: "between its bends", By: 5.2}}
	a := f.Advice()[0]
	assert.Equal(t, []string{"Or take 4 mm off left at its end towards back.", "Or make back 5.2 mm shorter between its bends."}, a.Cuts)
	f.SetUnits(fold.Inch)
	assert.Equal(t, "Or take 0.157 in off left at its end towards back.", f.Advice()[0].Cuts[0])
}
