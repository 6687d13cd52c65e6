package session

// This file tests the edits of a part by sizes one by one.

import (
	"slices"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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

	_, err = s.addHole("left", 40, 20)
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

// A joggle that is asked for finds sizes at which it can be made; so does a hem, and each goes again.
func TestJoggleAndHem(t *testing.T) {
	for _, u := range []fold.Units{fold.MM, fold.Inch} {
		s := starter(t, "channel", u)
		before := file(s)
		require.NoError(t, s.SetFlangeJoggle(0, JoggleOut))
		l := &s.Form().Flanges[0]
		assert.Equal(t, JoggleOut, JoggleOf(l))
		panels := len(s.Part().Panels)
		require.NoError(t, s.MoveSwing(0, 1))
		require.NoError(t, s.SetFlangeJoggle(0, JoggleIn))
		require.NoError(t, s.SetAngle(slices.IndexFunc(s.Part().Bends, func(b fold.Bend) bool { return strings.HasSuffix(b.Name, "joggle 1") }), "25"))
		assert.Equal(t, sizes.Is(25), s.Form().Flanges[0].Joggle.Angle)
		require.NoError(t, s.SetFlangeJoggle(0, NoJoggle))
		assert.Equal(t, panels-2, len(s.Part().Panels))
		for _, st := range s.Spec().Order {
			for _, b := range st.Bends {
				assert.NotContains(t, b, "joggle", "the order names no bend that is gone")
			}
		}
		i, err := s.AddFlange(s.Form().Flanges[0].Name, "top")
		require.NoError(t, err)
		require.NoError(t, s.SetFlangeHem(i, FlatHem))
		b := s.FlangeBend(i)
		assert.InDelta(t, 180, s.Part().Bends[b].Angle.Degrees(), 1e-9)
		require.Error(t, s.SetAngle(b, "90"))
		require.NoError(t, s.SetRadius(b, "1 mm"))
		f, _ := s.SizeField(FlangeField(i, "hem.clear"))
		assert.InDelta(t, 2, f.Value, 1e-6, "a hem’s clear gap is twice its radius")
		_, ok := s.SizeField(FlangeField(i, "angle"))
		assert.False(t, ok, "a hem has no angle to give")
		require.NoError(t, s.SetFlangeHem(i, TeardropHem))
		require.NoError(t, s.SetFlangeHem(i, NoHem))
		for s.CanUndo() {
			s.Undo()
		}
		assert.Equal(t, before, file(s))
	}
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
	h, err := s.addHole("left", 60, 15)
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

// dragTo drags a size to a value, mm or degrees; the first call takes it in hand.
func dragTo(s *Session, path string, value float64) (float64, error) {
	if held, _ := s.Dragging(); held != path {
		if err := s.BeginDrag(path); err != nil {
			return value, err
		}
	}
	return s.Drag(value), nil
}

// A drag is one step, follows the hand, stops at the last good value, and may be dropped.
func TestDrag(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	first := file(s)
	at := flangeNamed(s.Form(), "left")
	for _, mm := range []float64{51, 53.26, 60, 72.4} {
		v, err := dragTo(s, FlangeField(at, "height"), mm)
		require.NoError(t, err)
		assert.InDelta(t, mm, v, 0.25)
		_, stopped := s.Dragging()
		assert.Empty(t, stopped)
	}
	_, _, high := s.FinishedSize()
	assert.InDelta(t, 72.5, high, 1e-6, "all walls are one named size")
	v, err := dragTo(s, FlangeField(at, "height"), -40)
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

	v, err = dragTo(s, FlangeField(at, "angle"), 83.2) // 90 - lean
	require.NoError(t, err)
	assert.InDelta(t, 83, v, 1e-9)
	f, _ := s.SizeField("sizes.named[3].is")
	assert.Equal(t, "7", f.Text)
	s.EndDrag()
	s.Undo()
	assert.Equal(t, first, file(s))
	require.NoError(t, s.BeginDrag(FlangeField(at, "height")))
	s.EndDrag()
	assert.False(t, s.CanUndo(), "a drag that moves nothing is no step")
	require.NoError(t, s.SetField(FlangeField(at, "height"), "high + lean"))
	assert.ErrorContains(t, s.BeginDrag(FlangeField(at, "height")), "reckoned")
}

// A hole that is said to be drilled goes to the nearest drill of the bench; a window is never drilled.
func TestHoleDrilled(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	i, err := s.AddHoleAt(0, s.Part().Panels[0].Label)
	require.NoError(t, err)
	require.NoError(t, s.SetField(HoleField(i, "wide"), "3.3"))
	require.NoError(t, s.SetTool("drills", "2, 3, 5"))
	require.NoError(t, s.SetHoleDrilled(i, true))
	said, err := s.MakeCuttable()
	require.NoError(t, err)
	require.Contains(t, strings.Join(said, " "), "drilled 3.3 mm before, now 3 mm")
	require.Equal(t, sizes.Is(3), s.Form().Holes[i].Wide)
	require.NoError(t, s.SetHoleShape(i, sizes.Window))
	require.False(t, s.Form().Holes[i].Drilled)
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
