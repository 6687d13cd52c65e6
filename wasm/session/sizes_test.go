package session

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"

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
	require.NoError(t, s.SetNamed("high", "120"))
	f, ok := s.SizeField(path)
	require.True(t, ok)
	assert.Equal(t, "60", f.Text)
	_, bad := s.Error(path)
	assert.False(t, bad)
	s.Undo()
	assert.Equal(t, before, file(s), "both are one step")

	require.Error(t, s.SetField(path, "600"))
	require.NoError(t, s.SetNamed("high", "120"), "what can’t be even so does not hold the other up")
	f, _ = s.SizeField(path)
	assert.Equal(t, "", f.Text)
}

// What a size spoils is told at the other fields too, and goes when it is put right.
func TestRefusalStandsAtTheOtherField(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	require.Error(t, s.SetNamed("high", "1"))
	at := NamedField(2, "is")
	e, ok := s.Error(at)
	require.True(t, ok)
	assert.Equal(t, "1", e.Typed)
	assert.Contains(t, e.Message, "Height of ", "the field that can’t be is named")
	other, ok := s.Error(FlangeField(0, "height"))
	require.True(t, ok)
	assert.Contains(t, other.Message, "high 1", "and says there what made it so")
	assert.Equal(t, "high", other.Typed)
	require.NoError(t, s.SetNamed("high", "45"))
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
	text := string(partfile.Write(s.Frozen()))
	assert.NotContains(t, text, "sizes")
	require.NoError(t, Check(text, func(report string, whole bool) {
		r, err := ReadAnswer(report)
		require.NoError(t, err)
		assert.True(t, s.Answer(s.Serial(), r, whole))
	}))
	assert.True(t, s.Checked())
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

// Flanges are raised, renamed, copied and deleted, and what names them follows.
func TestFlanges(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	first := file(s)
	i, err := s.AddFlange("left", "top")
	require.NoError(t, err)
	assert.Equal(t, "left lip", s.Form().Flanges[i].Name)
	assert.GreaterOrEqual(t, s.FlangePanel(i), 0)
	assert.Equal(t, i, s.PanelFlange(s.FlangePanel(i)))
	_, err = s.AddFlange("left", "top")
	assert.ErrorContains(t, err, "stands on that side already")
	_, err = s.AddFlange("attic", "top")
	assert.Error(t, err)
	_, err = s.AddFlange("left", "keel")
	assert.Error(t, err)
	order := slices.IndexFunc(s.Spec().Order, func(st fold.Step) bool { return slices.Contains(st.Bends, "left lip") })
	require.GreaterOrEqual(t, order, 0)
	assert.Equal(t, []string{"left"}, s.Spec().Order[order+1].Bends, "a lip is bent before its wall")

	_, err = s.AddHole("left", 40, 20)
	require.NoError(t, err)
	require.NoError(t, s.SetClosing("left", "front", sizes.Lap))
	l := flangeNamed(s.Form(), "left")
	require.NoError(t, s.RenameFlange(l, "port side"))
	f := s.Form()
	assert.Equal(t, "port side", f.Flanges[l].Name)
	assert.Equal(t, "port side", f.Flanges[i].On)
	assert.Equal(t, "port side", f.Holes[0].On)
	assert.Equal(t, "port side", f.Corners[0].Over)
	assert.True(t, slices.ContainsFunc(s.Spec().Order, func(st fold.Step) bool { return slices.Contains(st.Bends, "port side") }))
	assert.Error(t, s.RenameFlange(l, "front"), "another has it")
	assert.Error(t, s.RenameFlange(l, " "))
	require.NoError(t, s.RenameFlange(-1, "bottom"))
	assert.Equal(t, "bottom", s.Form().Flanges[l].On)

	assert.Equal(t, []string{"left lip", "its corner with front", "hole 1"}, s.Depends("port side"))
	with := file(s)
	require.NoError(t, s.DeleteFlange("port side"))
	f = s.Form()
	assert.Len(t, f.Flanges, 3)
	assert.Empty(t, f.Holes)
	assert.Empty(t, f.Corners)
	for _, st := range s.Spec().Order {
		assert.NotContains(t, st.Bends, "port side")
		assert.NotContains(t, st.Bends, "left lip")
	}
	s.Undo()
	assert.Equal(t, with, file(s))
	for s.CanUndo() {
		s.Undo()
	}
	assert.Equal(t, first, file(s))
}

// A copy on the opposite side is the mirror image: both finished sizes and blank keep their symmetry.
func TestCopyOpposite(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	require.NoError(t, s.DeleteFlange("right"))
	l := flangeNamed(s.Form(), "left")
	require.NoError(t, s.SetField(FlangeField(l, "from"), "20"))
	require.NoError(t, s.SetField(FlangeField(l, "height_end"), "30"))
	_, err := s.AddFlange("left", "top")
	require.NoError(t, err)
	h, err := s.AddHole("left", 60, 15)
	require.NoError(t, err)
	require.NoError(t, s.SetField(HoleField(h, "wide"), "6"))
	i, err := s.CopyFlangeOpposite("left")
	require.NoError(t, err)
	f := s.Form()
	assert.Equal(t, "right", f.Flanges[i].Name)
	assert.Equal(t, f.Flanges[l].From, f.Flanges[i].To)
	assert.Equal(t, "right lip", f.Flanges[i+1].Name)
	require.Len(t, f.Holes, 2)
	_, err = s.CopyFlangeOpposite("left")
	assert.ErrorContains(t, err, "already")
	// The blank is its own mirror image across its middle line.
	p := s.Part()
	mid := (p.Blank.Box.Min[0] + p.Blank.Box.Max[0]) / 2
	for _, q := range p.Outline {
		found := false
		for _, r := range p.Outline {
			if dist([2]float64{2*mid - q[0], q[1]}, [2]float64(r)) < 1e-4 {
				found = true
			}
		}
		assert.True(t, found, "%v has no mirror image", q)
	}
	a, b := p.Spec.Holes[0].At, p.Spec.Holes[1].At
	assert.InDelta(t, 2*mid, a[0]+b[0], 1e-6)
	assert.InDelta(t, a[1], b[1], 1e-6)
}

// What other columns change of a bend is its flange's.
func TestBendsColumnEditsTheFlange(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	at := flangeNamed(s.Form(), "left")
	b := s.FlangeBend(at)
	require.NoError(t, s.SetAngle(b, "80"))
	assert.Equal(t, sizes.Is(80), s.Form().Flanges[at].Angle)
	assert.InDelta(t, 80, s.Part().Bends[b].Angle.Degrees(), 1e-9)
	require.NoError(t, s.SetWay(b, false))
	assert.True(t, s.Form().Flanges[at].Down)
	require.NoError(t, s.SetWay(b, true))
	require.NoError(t, s.SetRadius(b, "2"))
	assert.Equal(t, sizes.Is(2), s.Form().Flanges[at].Radius)
	require.NoError(t, s.SetBendName(b, "port"))
	assert.Equal(t, "port", s.Form().Flanges[at].Name)
	assert.Equal(t, "port", s.Part().Bends[b].Name)
	require.Error(t, s.SetBendName(b, ""))
	require.NoError(t, s.SetPanelName(s.Part().Base, "bottom"))
	assert.Equal(t, "bottom", s.Form().Base.Name)
	require.NoError(t, s.SetPanelName(s.FlangePanel(at), "left"))
	assert.Equal(t, "left", s.Part().Bends[b].Name)

	var all []int
	for i := range s.Part().Bends {
		all = append(all, i)
	}
	require.NoError(t, s.SetRadii(all, "3"))
	require.NoError(t, s.SetRadiusFrom(all, "nose"))
	for _, l := range s.Form().Flanges {
		assert.Equal(t, "nose", l.RadiusFrom)
	}
	for _, x := range s.Part().Bends {
		assert.InDelta(t, 3, x.Radius, 1e-9)
	}
}

// All bends given one radius have it written once; the finished sizes stay.
func TestOneRadiusForAll(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	long, wide, high := s.FinishedSize()
	var all []int
	for i := range s.Part().Bends {
		all = append(all, i)
	}
	require.NoError(t, s.SetRadii(all, "2.5"))
	assert.Equal(t, sizes.Is(2.5), s.Form().Radius)
	for _, l := range s.Form().Flanges {
		assert.False(t, l.Radius.Given)
	}
	l2, w2, h2 := s.FinishedSize()
	assert.InDelta(t, long, l2, 1e-6)
	assert.InDelta(t, wide, w2, 1e-6)
	assert.InDelta(t, high, h2, 1e-6)
	assert.True(t, s.KeepsSizes())
	require.NoError(t, s.SetThickness("1.5"))
	l2, w2, h2 = s.FinishedSize()
	assert.InDelta(t, long, l2, 1e-6)
	assert.InDelta(t, wide, w2, 1e-6)
	assert.InDelta(t, high, h2, 1e-6)
	require.NoError(t, s.SetK("0.5"))
	l2, _, _ = s.FinishedSize()
	assert.InDelta(t, long, l2, 1e-6)
}

// A drag is one step, follows the hand, stops at the last good value, and may be dropped.
func TestDrag(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	first := file(s)
	at := flangeNamed(s.Form(), "left")
	for _, mm := range []float64{51, 53.26, 60, 72.4} {
		v, err := s.DragHeight(at, mm)
		require.NoError(t, err)
		assert.InDelta(t, mm, v, 0.25)
		_, stopped := s.Dragging()
		assert.Empty(t, stopped)
	}
	_, _, high := s.FinishedSize()
	assert.InDelta(t, 72.5, high, 1e-6, "all walls are one named size")
	v, err := s.DragHeight(at, -40)
	require.NoError(t, err)
	assert.InDelta(t, 72.5, v, 1e-9, "the last good one holds")
	_, stopped := s.Dragging()
	assert.NotEmpty(t, stopped)
	s.EndDrag()
	dragged := file(s)
	s.Undo()
	assert.Equal(t, first, file(s))
	s.Redo()
	assert.Equal(t, dragged, file(s))
	s.Undo()

	v, err = s.DragAngle(at, 83.2) // 90 - lean
	require.NoError(t, err)
	assert.InDelta(t, 83, v, 1e-9)
	f, _ := s.SizeField("sizes.named[3].is")
	assert.Equal(t, "7", f.Text)
	s.DropDrag()
	assert.Equal(t, first, file(s))
	assert.True(t, s.CanRedo(), "a drag that is dropped is none")
	require.NoError(t, s.BeginDrag(FlangeField(at, "height")))
	s.EndDrag()
	assert.False(t, s.CanUndo(), "a drag that moves nothing is no step")
	require.NoError(t, s.SetField(FlangeField(at, "height"), "high + lean"))
	assert.ErrorContains(t, s.BeginDrag(FlangeField(at, "height")), "reckoned")
}

// A touched place becomes a hole there, measured from the panel's side.
func TestHoleWhereTouched(t *testing.T) {
	s := starter(t, "hopper", fold.MM)
	were, made := len(s.Form().Holes), len(s.Part().Spec.Holes)
	for i, p := range s.Part().Panels {
		s := starter(t, "hopper", fold.MM)
		n, err := s.AddHoleAt(i, p.Label)
		require.NoError(t, err, p.Name)
		require.Equal(t, were, n)
		require.Len(t, s.Part().Spec.Holes, made+1)
		assert.LessOrEqual(t, s.Part().Spec.Holes[made].At.Sub(p.Label).Len(), 0.75, "%s: whole mm", p.Name)
	}
}

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
	require.Error(t, s.SetNamed("play", "play + 1"), "a circle")
	require.NoError(t, s.SetField("sizes.base.wide", "broad"))
	require.NoError(t, s.DeleteNamed(n))
	require.NoError(t, s.SetNamedLabel(0, "How broad it is"))
	f, _ = s.SizeField(NamedField(0, "is"))
	assert.Equal(t, "How broad it is", f.Label)
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

// Any run of edits: none panics, one that is refused changes nothing, the part on the bench is always one that
// folds, and undo gives every file back as it was.
func TestRandomEdits(t *testing.T) {
	seed := *seedFlag
	if seed == 0 {
		seed = rand.Uint64()
	}
	t.Log("seed", seed)
	runs := 12
	if testing.Short() {
		runs = 4
	}
	for run := range runs {
		rng := rand.New(rand.NewPCG(seed, uint64(run)))
		x := shape.Starters[rng.IntN(len(shape.Starters))]
		s := starter(t, x.ID, fold.Units(rng.IntN(2)))
		files := []string{file(s)}
		done := 0
		for range 40 {
			before, serial, steps := file(s), s.Serial(), len(s.undo)
			what, err := randomEdit(s, rng)
			after := file(s)
			if err != nil {
				require.Equal(t, before, after, "run %d: %s was refused: %v", run, what, err)
				require.Equal(t, serial, s.Serial(), "run %d: %s", run, what)
				continue
			}
			if after == before {
				require.Equal(t, steps, len(s.undo), "run %d: %s", run, what)
				continue
			}
			done++
			require.Equal(t, steps+1, len(s.undo), "run %d: %s is one step", run, what)
			require.True(t, s.Part().Foldable, "run %d: %s", run, what)
			require.NoError(t, partfile.Check(s.Frozen()), "run %d: %s", run, what)
			files = append(files, after)
		}
		require.Greater(t, done, 3, "run %d: hardly an edit was taken", run)
		for i := len(files) - 2; i >= 0; i-- {
			s.Undo()
			require.Equal(t, files[i], file(s), "run %d", run)
		}
		for i := 1; i < len(files); i++ {
			s.Redo()
			require.Equal(t, files[i], file(s), "run %d", run)
		}
	}
}

// randomEdit makes one edit of any kind, with sizes from far too small to far too large.
func randomEdit(s *Session, rng *rand.Rand) (string, error) {
	f := s.Form()
	size := func() string { // log-uniform, sometimes no size at all
		switch rng.IntN(8) {
		case 0:
			return []string{"", "0", "-3", "x", "wide / 3", "high * 2", "1e400", "1/2", "3 3/8 in"}[rng.IntN(9)]
		}
		v := 1.0
		for range rng.IntN(10) {
			v *= 2.2
		}
		return fmt.Sprintf("%.2f", v*(0.5+rng.Float64()))
	}
	flange := func() int { return rng.IntN(len(f.Flanges) + 1) }
	panel := func() string {
		if len(f.Flanges) == 0 || rng.IntN(3) == 0 {
			return baseName(f)
		}
		return f.Flanges[rng.IntN(len(f.Flanges))].Name
	}
	switch k := rng.IntN(24); k {
	case 0, 1, 2, 3, 4, 5:
		fields := s.SizeFields("")
		x := fields[rng.IntN(len(fields))]
		text := size()
		if x.Angle && rng.IntN(2) == 0 {
			text = fmt.Sprint(1 + rng.IntN(250))
		}
		return "field " + x.Path + " " + text, s.SetField(x.Path, text)
	case 6, 7, 8:
		sides := s.Sides("")
		x := sides[rng.IntN(len(sides))]
		_, err := s.AddFlange(x.On, x.Side)
		return "add " + x.Label, err
	case 9:
		name := panel()
		return "delete " + name, s.DeleteFlange(name)
	case 10:
		name := panel()
		_, err := s.CopyFlangeOpposite(name)
		return "copy " + name, err
	case 11:
		i := rng.IntN(len(f.Flanges)+1) - 1
		return fmt.Sprint("rename ", i), s.RenameFlange(i, []string{"a wall", "left", "rim", "", "x lip"}[rng.IntN(5)])
	case 12:
		return "way", s.SetFlangeWay(flange(), rng.IntN(2) == 0)
	case 13:
		return "hem", s.SetFlangeHem(flange(), HemKind(rng.IntN(3)))
	case 14:
		return "joggle", s.SetFlangeJoggle(flange(), JoggleKind(rng.IntN(3)))
	case 15:
		return "edge", s.SetFlangeEdge(flange(), EdgeKind(rng.IntN(5)))
	case 16:
		on := panel()
		_, err := s.AddHole(on, rng.Float64()*80, rng.Float64()*50)
		return "hole on " + on, err
	case 17:
		return "hole shape", s.SetHoleShape(rng.IntN(len(f.Holes)+1), sizes.HoleShape(rng.IntN(4)))
	case 18:
		return "hole count", s.SetHoleCount(rng.IntN(len(f.Holes)+1), rng.IntN(4), rng.IntN(3))
	case 19, 20:
		rows := s.Corners()
		if len(rows) == 0 {
			return "no corner", nil
		}
		c := rows[rng.IntN(len(rows))]
		switch rng.IntN(3) {
		case 0:
			return "gap", s.SetCornerField(c.A, c.B, []string{"gap", "past", "relief.size"}[rng.IntN(3)], size())
		case 1:
			kind := sizes.ReliefKind(rng.IntN(4))
			return "relief", s.SetCornerRelief(c.A, c.B, &kind)
		}
		return "closing", s.SetClosing(c.A, c.B, sizes.Closing(rng.IntN(5)))
	case 21:
		return "faces", s.SetFaces(sizes.Faces(rng.IntN(3)))
	case 22:
		return "base", s.SetBase(BaseShape(rng.IntN(6)))
	default:
		if len(f.Flanges) == 0 {
			return "no drag", nil
		}
		i := rng.IntN(len(f.Flanges))
		for range 3 {
			if _, err := s.DragHeight(i, rng.Float64()*120-10); err != nil {
				return "drag", err
			}
		}
		s.EndDrag()
		return "drag", nil
	}
}

// BenchmarkEdit40 is one edit of a part of 40 panels by sizes: made, built and measured.
func BenchmarkEdit40(b *testing.B) {
	spec := fold.Spec{Name: "Forty", Sheet: fold.Sheet{Thickness: 1}, Sizes: fortyPanels()}
	s := New(spec)
	require.Empty(b, s.Problems())
	require.Len(b, s.Part().Panels, 40)
	for i := 0; b.Loop(); i++ {
		if err := s.SetNamed("high", fmt.Sprint(40+i%2)); err != nil {
			b.Fatal(err)
		}
	}
}

// fortyPanels is a base of thirteen sides, on each a wall with two returns.
func fortyPanels() *sizes.Form {
	f := &sizes.Form{Radius: sizes.Is(1), Gap: sizes.Is(0.5), Named: []sizes.Named{{Name: "high", Is: sizes.Is(40)}}}
	const sides = 13
	for i := range sides {
		a := 2 * math.Pi * float64(i) / sides
		f.Base.Points = append(f.Base.Points, sizes.Point{X: sizes.Is(round6(400 * math.Cos(a))), Y: sizes.Is(round6(400 * math.Sin(a)))})
	}
	for i := range sides {
		wall := fmt.Sprintf("wall %d", i+1)
		f.Flanges = append(f.Flanges, sizes.Flange{Name: wall, On: "floor", Side: fmt.Sprintf("side %d", i+1), Height: sizes.Of("high")})
		lip := wall + " lip"
		f.Flanges = append(f.Flanges, sizes.Flange{Name: lip, On: wall, Side: "top", Height: sizes.Is(15)})
		f.Flanges = append(f.Flanges, sizes.Flange{Name: wall + " return", On: lip, Side: "top", Height: sizes.Is(8)})
	}
	return f
}
