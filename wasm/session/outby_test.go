package session

import (
	"fmt"
	"testing"

	"dryfold/fold"
	"dryfold/fold/partfile"
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

// What each error may be is said in a whole sentence at its field, and is what the part file takes.
func TestOutByMost(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	for _, o := range s.OutBys() {
		most := outByMost[o.Key]
		for _, ok := range []float64{most, most / 2} {
			require.NoError(t, s.SetOutBy(o.Key, trimmed(ok, 3)), o.Key)
		}
		spec := s.Spec()
		_, own := outByPlace(&spec.Errors, o.Key)
		over := most * 1.001
		*own = &over
		assert.Error(t, partfile.Check(spec), "%s: the file takes more than the page", o.Key)
		require.Error(t, s.SetOutBy(o.Key, trimmed(over, 4)), o.Key)
		e, _ := s.Error(OutByField(o.Key))
		assert.Contains(t, e.Message, "Type ", o.Key)
		assert.Contains(t, e.Message, " "+trimmed(most, 1), o.Key)
		zero := s.SetOutBy(o.Key, "0")
		assert.Equal(t, o.Key == "angle", zero != nil, o.Key)
	}
	require.Error(t, s.SetOutBy("angle", "0"))
	e, _ := s.Error(OutByField("angle"))
	assert.Equal(t, "“0” won’t do: no bend comes out true. Type plus and minus how many degrees, more than 0 and up to 10.", e.Message)
}

// Which leg gets which angle error, as told, is what is reckoned with.
func TestAngleByLeg(t *testing.T) {
	for _, file := range []string{"uncapping-tray.dryfold"} {
		s := checked(t, file)
		s.SetUnits(fold.MM)
		for _, k := range ErrorClasses {
			require.NoError(t, s.SetOutByClass("angle", k[0]))
			whole(t, s)
			o := outBy(t, s, "angle")
			for _, e := range s.report.Spread.Errors {
				if e.Name == "bend angle" {
					for _, v := range []float64{e.Low, e.High} {
						assert.Contains(t, o.ByLength, " "+trimmed(v, 2)+"° ", "%s, class %s", file, k[0])
					}
				}
			}
		}
		require.NoError(t, s.SetOutBy("angle", "0.7"))
		whole(t, s)
		assert.Empty(t, outBy(t, s, "angle").ByLength)
	}
}

// Of pairs of holes those that face each other come first, and so many others; no pair is lost.
func TestSpreadsOfHoles(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	r := s.report.Spread
	r.Holes = nil
	for i := range 14 {
		h := fold.HoleSpread{A: fmt.Sprintf("hole %d on left", i), B: "hole 99 on right", Distance: fold.Spread{Exact: float64(100 + i)}}
		if i%5 == 4 {
			h.Offset = &fold.Spread{Exact: float64(i)}
		}
		r.Holes = append(r.Holes, h)
	}
	rows, rest := s.Spreads()
	var names []string
	for _, x := range rows[3:] {
		names = append(names, x[0])
	}
	name := func(i int) string { return fmt.Sprintf("Hole %d on left to hole 99 on right", i) }
	assert.Equal(t, []string{name(4) + ", out of line", name(4), name(9) + ", out of line", name(9), name(0), name(1), name(2), name(3), name(5), name(6), name(7), name(8)}, names)
	require.Len(t, rest, 4)
	assert.Equal(t, name(13), rest[3][0])
}

// Another error makes another band: what is worked out is the part's own errors, and less error makes less spread.
func TestOutByCounts(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	wide := s.Report().Seams[0].Spread.Widest
	require.NoError(t, s.SetOutBy("cut", "0.05"))
	whole(t, s)
	small := s.Report().Seams[0].Spread.Widest
	assert.Less(t, small.High-small.Low, 0.5*(wide.High-wide.Low))
	rows, _ := s.Spreads()
	require.GreaterOrEqual(t, len(rows), 3)
	assert.Equal(t, "Long", rows[0][0])
	s.SetUnits(fold.Inch)
	rows, _ = s.Spreads()
	assert.Less(t, len(rows[0][1]), 7)
}

// A close pass in a swing is told with what errors may take of it, and what would free a clash.
func TestRoomAndCutWords(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	s.report.Swings[1].Room = &fold.RoomReport{A: "panel left", B: "bend hook", Room: 0.4, Angle: 61.6, Errors: 0.8}
	words, tight := s.RoomWords(1)
	assert.Equal(t, "Left passes bend hook with 0.40 mm room at about 62°; errors may take 0.80 mm.", words)
	assert.True(t, tight)
	s.report.Swings[1].Room.Errors = 0.3
	words, tight = s.RoomWords(1)
	assert.NotEmpty(t, words)
	assert.False(t, tight)
	for _, far := range []float64{0, 0.1, 0.2} { // the more of the room is left: that is no news
		s.report.Swings[1].Room.Errors = far
		words, tight = s.RoomWords(1)
		assert.Empty(t, words)
		assert.False(t, tight)
	}
	s.report.Swings[1].Room.Errors, s.report.Swings[1].Room.Angle = 0.3, s.part.Swings[1].To[0].Degrees()
	words, _ = s.RoomWords(1)
	assert.Equal(t, "At the end of its swing left comes to rest 0.40 mm from bend hook; errors may take 0.30 mm.", words)
	s.report.Swings[1].Room.Angle = 0
	words, _ = s.RoomWords(1)
	assert.Equal(t, "As its swing begins left stands 0.40 mm from bend hook; errors may take 0.30 mm.", words)
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
