package session

// This file tests a part by sizes as a whole: opened, refused, undone, kept, frozen.

import (
	"slices"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
	"dryfold/wasm/session/ask"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func file(s *Session) string { return string(partfile.Write(s.Spec())) }

// starter opens a ready part by sizes.
func starter(t testing.TB, id string, u fold.Units) *Session {
	t.Helper()
	x, ok := shape.StarterByID(id)
	require.True(t, ok, id)
	s := New(x.Make(u))
	require.Empty(t, s.Problems(), id)
	require.NotNil(t, s.Made(), id)
	require.True(t, s.Part().Foldable, id)
	return s
}

// unmade is a part by sizes whose sizes make none: a flange stands on a side that is not there.
func unmade() fold.Spec {
	return fold.Spec{Name: "Odd one", Sheet: fold.Sheet{Thickness: 1}, Sizes: &sizes.Form{
		Radius:  sizes.Is(1),
		Base:    sizes.Base{Wide: sizes.Is(200), Long: sizes.Is(100)},
		Flanges: []sizes.Flange{{Name: "lip", On: "floor", Side: "port", Height: sizes.Is(20)}},
	}}
}

// A form that makes no part is opened all the same: what is wrong is told, nothing of it is lost, and it
// is put right in place.
func TestOpenWhatMakesNoPart(t *testing.T) {
	s := New(tray(t))
	text := string(partfile.Write(unmade()))
	require.NoError(t, s.Open([]byte(text)))
	assert.Equal(t, text, file(s))
	require.NotEmpty(t, s.Problems())
	assert.Nil(t, s.Made())
	assert.False(t, s.Part().Foldable)
	require.NotEmpty(t, s.Advice())
	for _, a := range s.Advice() {
		assert.Equal(t, "stop", a.Severity)
		assert.NotContains(t, a.Message, "outline", "what is told is of the sizes, not of the blank that isn’t there")
	}
	assert.Error(t, s.Freeze())
	assert.Error(t, s.BeginDrag("sizes.flanges[0].height"))
	_, err := s.AddHoleAt(0, [2]float64{10, 10})
	assert.Error(t, err)
	s.Picture()
	s.Cards()
	s.Facts()
	// What is typed into it is kept, made or not.
	require.NoError(t, s.SetField("sizes.flanges[0].height", "25"))
	assert.Contains(t, file(s), `"height": 25`)
	link, err := s.Link()
	require.NoError(t, err)
	r := New(tray(t))
	require.NoError(t, r.OpenLink(link))
	assert.NotEmpty(t, r.Problems())
	again := New(tray(t))
	_, err = again.Restore(s.Keep("1:00"))
	require.NoError(t, err)
	assert.Equal(t, file(s), file(again))
	require.NoError(t, s.EditFlange(0, "side", func(l *sizes.Flange) error { l.Side = "back"; return nil }))
	assert.Empty(t, s.Problems())
	assert.True(t, s.Part().Foldable)
	s.Undo()
	s.Undo()
	assert.Equal(t, text, file(s))
	s.Undo()
	assert.False(t, s.BySizes())
}

// A size that can't be is refused at its field and the part stays as it is.
func TestSizesRefused(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	before, serial := file(s), s.Serial()
	i := flangeNamed(s.Form(), "left")
	wall := FlangeField(i, "height")
	for _, c := range []struct{ path, text, says string }{
		{wall, "0", ""},
		{wall, "-5", ""},
		{wall, "hight - 12", "hight"},
		{wall, "high / 0", "divides by 0"},
		{wall, "high +", "too soon"},
		{wall, "12 zz", ""},
		{wall, "16 ga", "gauge"},
		{wall, strings.Repeat("9", 400), ""},
		{FlangeField(i, "angle"), "0", ""},
		{FlangeField(i, "angle"), "241", ""},
		{FlangeField(i, "radius"), "-1", ""},
		{FlangeField(i, "radius"), "9000", ""},
		{"sizes.base.wide", "1", ""},
		{"sizes.base.wide", "", ""},
		{"sizes.named[0].is", "long", ""},
		{"sizes.named[0].is", "wide", ""},
	} {
		err := s.SetField(c.path, c.text)
		if c.path == "sizes.named[0].is" && c.text == "long" { // a formula that is good
			require.NoError(t, err)
			s.Undo()
			serial = s.Serial()
			continue
		}
		require.Error(t, err, "%s %q", c.path, c.text)
		e, ok := s.Error(c.path)
		require.True(t, ok, "%s %q", c.path, c.text)
		assert.Equal(t, c.text, e.Typed)
		assert.Contains(t, e.Message, c.says)
		assert.Equal(t, before, file(s))
		assert.Equal(t, serial, s.Serial())
		delete(s.errors, c.path)
	}
	assert.Error(t, s.SetField("sizes.flanges[99].height", "3"))
	assert.Error(t, s.SetField("sizes.colour", "3"))
	assert.Equal(t, before, file(s))
}

// Sizes that are good only together are taken together: what was refused waits in its field for the other.
func TestSizesGoodTogether(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	before := file(s)
	path := FlangeField(flangeNamed(s.Form(), "left"), "radius")
	require.Error(t, s.SetField(path, "60"), "a wall 50 high has no room for it")
	require.Equal(t, before, file(s))
	require.NoError(t, setNamed(s, "high", "120"))
	f, ok := s.SizeField(path)
	require.True(t, ok)
	assert.Equal(t, "60", f.Text)
	_, bad := s.Error(path)
	assert.False(t, bad)
	s.Undo()
	assert.Equal(t, before, file(s), "both are one step")

	require.Error(t, s.SetField(path, "600"))
	require.NoError(t, setNamed(s, "high", "120"), "what can’t be even so does not hold the other up")
	f, _ = s.SizeField(path)
	assert.Equal(t, "", f.Text)
}

// What a size spoils is told at the other fields too, and goes when it is put right.
func TestRefusalStandsAtTheOtherField(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	require.Error(t, setNamed(s, "high", "1"))
	at := NamedField(2, "is")
	e, ok := s.Error(at)
	require.True(t, ok)
	assert.Equal(t, "1", e.Typed)
	assert.Contains(t, e.Message, "for the height of ", "the field that can’t be is named")
	other, ok := s.Error(FlangeField(0, "height"))
	require.True(t, ok)
	assert.Contains(t, other.Message, "high 1", "and says there what made it so")
	assert.Equal(t, "high", other.Typed)
	require.NoError(t, setNamed(s, "high", "45"))
	_, ok = s.Error(FlangeField(0, "height"))
	assert.False(t, ok)
}

// Every step of undo gives the file back as it was, byte for byte.
func TestSizesUndo(t *testing.T) {
	for _, x := range shape.Starters {
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			s := starter(t, x.ID, u)
			first := file(s)
			require.NoError(t, s.SetFaces(1-s.Form().Faces))
			second := file(s)
			assert.NotEqual(t, first, second)
			require.NoError(t, s.SetMirror(true))
			s.Undo()
			assert.Equal(t, second, file(s))
			s.Undo()
			assert.Equal(t, first, file(s))
			s.Redo()
			assert.Equal(t, second, file(s))
		}
	}
}

// What a file holds of a part by sizes is its form; read again it makes the same part.
func TestSizesKeepAndLink(t *testing.T) {
	for _, x := range shape.Starters {
		s := starter(t, x.ID, fold.MM)
		assert.NotContains(t, file(s), "outline", "the blank is made, not written")
		r := New(tray(t))
		_, err := r.Restore(s.Keep("2:00"))
		require.NoError(t, err, x.ID)
		assert.Equal(t, file(s), file(r))
		assert.Equal(t, s.Part().Outline, r.Part().Outline)
		link, err := s.Link()
		require.NoError(t, err)
		require.NoError(t, r.OpenLink(link))
		assert.Equal(t, s.Part().Outline, r.Part().Outline)
		r.TakeCopy()
		require.NoError(t, r.SetName("mine"))
		assert.True(t, r.BySizes())
	}
}

// The second program gets the blank alone, and its answer is the part's.
func TestFrozen(t *testing.T) {
	s := starter(t, "hopper", fold.MM)
	assert.True(t, s.Measured(), "seams are there at once")
	assert.Equal(t, len(s.Made().Corners), len(s.Report().Corners))
	seams := len(s.Report().Seams)
	assert.Positive(t, seams)
	text := s.Question()
	require.NoError(t, ask.Check(text, func(kind, text string) {
		assert.True(t, s.Answer(s.Serial(), kind, text) || kind == "gaps")
	}))
	assert.True(t, s.Checked())
	assert.Len(t, s.Report().Seams, seams)
	assert.Len(t, s.Report().Corners, len(s.Made().Corners))
	before := file(s)
	outline := s.Part().Outline
	require.NoError(t, s.Freeze())
	assert.False(t, s.BySizes())
	assert.Nil(t, s.Form())
	assert.Equal(t, outline, s.Part().Outline)
	assert.Error(t, s.Freeze())
	assert.Error(t, s.SetField("sizes.base.wide", "3"))
	s.Undo()
	assert.Equal(t, before, file(s))
	assert.True(t, s.BySizes())
}

// setNamed types a number or formula for a named size.
func setNamed(s *Session, name, text string) error {
	i := slices.IndexFunc(s.Form().Named, func(n sizes.Named) bool { return n.Name == name })
	return s.SetField(NamedField(i, "is"), text)
}
