package session

import (
	"fmt"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/fold/shape"
)

// strip90 is a strip bent square on the sheet of angle("Mild steel"), of the K and inside radius, both measured.
func strip90(r, k float64) metal.Strip {
	leg := legOf(100, 90, r, 1, k)
	return metal.Strip{Metal: "Mild steel", Thickness: 1, Length: 100, Legs: [2]float64{leg, leg}, Angle: 90, Radius: &r}
}

// A typed radius is not the one that was measured: it is assumed, unless the strips have it too.
func TestTypedRadiusIsAssumed(t *testing.T) {
	for _, set := range []struct {
		name string
		f    func(s *Session, text string) error
	}{
		{"the row", func(s *Session, text string) error { return s.SetRadii([]int{0}, text) }},
		{"the card", func(s *Session, text string) error { return s.SetRadius(0, text) }},
	} {
		from := func(s *Session) string { return s.Spec().Bends[0].RadiusFrom }
		field := map[string]string{"the row": "radius-0", "the card": BendField(0, "radius")}[set.name]
		for _, was := range []string{"strip", "nose", "bar-back"} {
			s := New(angle("Mild steel"))
			require.NoError(t, s.SetRadiusFrom([]int{0}, was))
			require.NoError(t, set.f(s, "2.0"))
			assert.Equal(t, was, from(s), "%s: the same radius typed again", set.name)
			require.NoError(t, set.f(s, "1"))
			assert.Equal(t, "", from(s), "%s: %s", set.name, was)
			assert.Contains(t, s.Told(field), knownWords[was])
			whole(t, s)
			found := false
			for _, w := range s.Report().Worth {
				found = found || w.About == "radius"
			}
			assert.True(t, found, "its doubt is told again")
			s.Undo()
			assert.Equal(t, was, from(s))
		}
		s := New(angle("Mild steel"))
		require.NoError(t, s.UseStrips([]metal.Strip{strip90(2, 0.4), strip90(2, 0.41), strip90(1, 0.4)}))
		require.NoError(t, s.SetRadiusFrom([]int{0}, "strip"))
		require.NoError(t, set.f(s, "2.2"))
		assert.Equal(t, "strip", from(s), "a radius gauge calls it 2")
		require.NoError(t, set.f(s, "1"))
		assert.Equal(t, "strip", from(s), "a strip has that too")
		require.NoError(t, set.f(s, "3"))
		assert.Equal(t, "", from(s))
		require.NoError(t, set.f(s, "2"))
		assert.Equal(t, "", from(s), "it is offered, not taken")
		require.NotNil(t, s.Reaches()[0].Measured)
	}
}

// A radius given anew among the sizes of a part by sizes is assumed too.
func TestSizedRadiusIsAssumed(t *testing.T) {
	x, ok := shape.StarterByID("tray")
	require.True(t, ok)
	s := New(x.Make(fold.MM))
	all := s.Radii()[0].Bends
	r := s.Part().Bends[all[0]].Radius
	require.NoError(t, s.SetRadiusFrom(all, "strip"))
	at := s.BendFlange(all[0])
	require.NoError(t, s.SetField(FlangeField(at, "radius"), fmt.Sprint(r+1)))
	assert.Equal(t, "", s.Spec().Bends[all[0]].RadiusFrom)
	assert.Equal(t, "strip", s.Spec().Bends[all[1]].RadiusFrom, "the others have theirs")
	require.NoError(t, s.SetField("sizes.radius", fmt.Sprint(r+2)))
	for _, b := range s.Spec().Bends {
		assert.Equal(t, "", b.RadiusFrom)
	}
	s.Undo()
	assert.Equal(t, "strip", s.Spec().Bends[all[1]].RadiusFrom)
	require.NoError(t, s.SetRadii(all[1:], fmt.Sprint(r+3)))
	assert.Equal(t, "", s.Spec().Bends[all[1]].RadiusFrom)
}

// "Measured on a strip" is refused where the strips have another radius, and is the maker's word where there are none.
func TestMeasuredIsNoLie(t *testing.T) {
	s := New(angle("Mild steel"))
	row := func() RadiusRow { return s.Radii()[0] }
	words, _ := s.StripWords(row())
	assert.Empty(t, words)
	require.NoError(t, s.SetRadiusFrom([]int{0}, "strip"))
	words, bad := s.StripWords(row())
	assert.Contains(t, words, "On your word")
	assert.False(t, bad)
	require.NoError(t, s.UseStrips([]metal.Strip{strip90(1.2, 0.4), strip90(1.2, 0.41)}))
	words, bad = s.StripWords(row())
	assert.Contains(t, words, "R 1.2 mm")
	assert.True(t, bad)
	require.NoError(t, s.SetRadiusFrom([]int{0}, "assumed"))
	require.Error(t, s.SetRadiusFrom([]int{0}, "strip"))
	e, _ := s.Error("radius-0-from")
	assert.Contains(t, e.Message, "they came out with R 1.2 mm")
	assert.Equal(t, "", s.Spec().Bends[0].RadiusFrom)
	require.NoError(t, s.SetRadii([]int{0}, "1.2"))
	require.NoError(t, s.SetRadiusFrom([]int{0}, "strip"))
	words, _ = s.StripWords(row())
	assert.Empty(t, words)

	// Strips say nothing of another sheet.
	require.NoError(t, s.SetMetal("Copper"))
	assert.Equal(t, "", s.Spec().Bends[0].RadiusFrom)
	assert.Contains(t, s.Told("metal"), "strips of the other sheet")
	s.Undo()
	assert.Equal(t, "strip", s.Spec().Bends[0].RadiusFrom)
	require.NoError(t, s.SetThickness("1.5"))
	assert.Equal(t, "", s.Spec().Bends[0].RadiusFrom)
	s.Undo()
	s.OpenMetal("Mild steel")
	typeMetal(t, s, map[string]string{"density": "7860"})
	require.NoError(t, s.SaveMetal())
	assert.Equal(t, "strip", s.Spec().Bends[0].RadiusFrom, "it is the same metal, its figures put right")
}

// What a change did to the blank stands at its field. The FAA's allowance of 90 degrees is (0.01743 R + 0.0078 T) 90, so R 1
// instead of 2 mm takes 1.7293 mm off both legs instead of 2.1606: the blank gets 0.43 mm longer.
func TestToldInMM(t *testing.T) {
	s := New(angle("Mild steel"))
	require.NoError(t, s.SetRadii([]int{0}, "1"))
	assert.Equal(t, "The blank is now 0.4 mm longer; the finished outside sizes stay.", s.Told("radius-0"))
	assert.Empty(t, s.Told("k"))
	s.SetUnits(fold.Inch)
	assert.Contains(t, s.Told("radius-0"), "0.016 in longer")
	s.SetUnits(fold.MM)
	require.NoError(t, s.SetName("Other"))
	assert.Empty(t, s.Told("radius-0"), "something else was changed since")
	s.KeepSizes(false)
	require.NoError(t, s.SetRadii([]int{0}, "2"))
	assert.Regexp(t, `^The blank stays; the finished part comes out 0\.[0-9] mm`, s.Told("radius-0"))
	require.NoError(t, s.SetRadii([]int{0}, "2"))
	assert.Regexp(t, `^The blank stays`, s.Told("radius-0"), "nothing was changed")
}

// Of a part that can't be folded nothing is told in mm: there is no finished one.
func TestUnfoldableTellsNoSizes(t *testing.T) {
	spec := angle("Mild steel")
	spec.Bends = append(spec.Bends, spec.Bends[0])
	spec.Bends[1].Name = "twice"
	s := New(spec)
	require.False(t, s.Part().Foldable)
	require.NoError(t, s.SetThickness("1.5"))
	assert.Equal(t, 1.5, s.Part().Thickness)
	assert.Empty(t, s.Told("thickness"))
}

// A cleared K says what it is by then.
func TestClearedKSaysWhatItIsBy(t *testing.T) {
	s := New(angle("Mild steel"))
	require.NoError(t, s.SetK("0.5"))
	require.NoError(t, s.SetK(""))
	assert.Regexp(t, `^No figure is given: K is now by a rule, .*, 0\.[0-9]+\.`, s.Told("k"))
	assert.Contains(t, s.Told("k"), s.RuleUsed().Name)
	assert.Contains(t, s.Told("k"), fixed(s.Part().Bends[0].K, 3))
	require.NoError(t, s.UseStrips([]metal.Strip{strip90(2, 0.4), strip90(2, 0.41), strip90(2, 0.4)}))
	require.NoError(t, s.SetK("0.5"))
	require.NoError(t, s.SetK(""))
	assert.Contains(t, s.Told("k"), "now by your test bends")
}

// A thickness that this blank can't have is refused with one that it can, which is tried here.
func TestTooThickSaysWhatWouldDo(t *testing.T) {
	refused := 0
	for _, file := range assets.Demos() {
		s := New(demo(t, file.File))
		s.SetUnits(fold.MM)
		was := s.Part().Thickness
		err := s.SetThickness("99")
		if err == nil {
			continue
		}
		refused++
		e, _ := s.Error("thickness")
		assert.Equal(t, "99", e.Typed)
		assert.NotContains(t, e.Message, "panel")
		m := regexp.MustCompile(`Up to about ([0-9.]+) mm would do`).FindStringSubmatch(e.Message)
		require.NotNil(t, m, e.Message)
		assert.Equal(t, was, s.Part().Thickness, "the part stays")
		require.NoError(t, s.SetThickness(m[1]), file.File)
		assert.Greater(t, s.Part().Thickness, was)
		assert.True(t, s.Part().Foldable)
	}
	assert.Positive(t, refused)
}

// Another thickness keeps the finished sizes and lays the blank out anew, or the other way round, and says what moved. By the FAA's
// allowance a square bend of R 2 takes 2 (2 + T) - (0.03486 + 0.0078 T) 90 off the blank: 2.1606 mm with T 1, 2.8096 with 1.5.
func TestThicknessIsToldInMM(t *testing.T) {
	s := New(angle("Mild steel"))
	was := s.Part().Sizes().Finished.Box()
	blank := s.Part().Blank.Box.Size()
	require.NoError(t, s.SetThickness("1.5"))
	for i, v := range s.Part().Sizes().Finished.Box() {
		assert.InDelta(t, was[i], v, 1e-6)
	}
	assert.InDelta(t, -0.649, s.Part().Blank.Box.Size()[0]-blank[0], 1e-3)
	assert.Equal(t, "The blank is now 0.6 mm shorter; the finished outside sizes stay.", s.Told("thickness"))
	s.Undo()
	s.KeepSizes(false)
	require.NoError(t, s.SetThickness("1.5"))
	assert.Equal(t, blank, s.Part().Blank.Box.Size())
	assert.Equal(t, "The blank stays; the finished part comes out 0.3 mm longer and 0.3 mm higher.", s.Told("thickness"))
}

// Where a blank can't be laid out anew for a thickness, it stays, and the field says by how much the part moves.
func TestThicknessThatCantKeepSizes(t *testing.T) {
	s := New(springTube(0, 20)) // walls of 40 mm: in thick sheet their bends would take more than that
	blank := s.Part().Blank.Box.Size()
	for _, thick := range []string{"8", "12", "16", "20"} {
		if s.SetThickness(thick) != nil {
			continue
		}
		if s.Part().Blank.Box.Size() != blank {
			s.Undo()
			continue
		}
		assert.Contains(t, s.Told("thickness"), "The blank can’t be laid out anew for it: ")
		assert.Regexp(t, `the finished part comes out [0-9.]+ mm`, s.Told("thickness"))
		return
	}
	t.Fatal("no thickness that only the blank as it is can have")
}

// The radius that most strips came out with is offered first, whatever lies nearest.
func TestBestSupportedRadiusFirst(t *testing.T) {
	s := New(angle("Mild steel"))
	none := strip90(0, 0.3)
	require.NoError(t, s.UseStrips([]metal.Strip{none, strip90(4, 0.42), strip90(4, 0.42), strip90(4, 0.43)}))
	s.KeepSizes(true)
	require.NoError(t, s.SetRadii([]int{0}, "0.5"))
	r := s.Reaches()[0]
	require.False(t, r.OK)
	require.NotEmpty(t, r.Instead)
	assert.Equal(t, Offer{4, "strip", 3}, r.Instead[0])
	for i := 1; i < len(r.Instead); i++ {
		assert.LessOrEqual(t, r.Instead[i].Strips, r.Instead[i-1].Strips)
	}
}

// Radius 0 on a strip is asked about, and taken all the same.
func TestSharpStripIsAsked(t *testing.T) {
	s := New(angle("Mild steel"))
	s.OpenStrip(-1)
	require.NoError(t, s.SetStrip("radius", "0"))
	assert.Contains(t, s.StripDoubt("radius"), "sharp crease")
	for _, text := range []string{"", "1", "wide"} {
		_ = s.SetStrip("radius", text)
		assert.Empty(t, s.StripDoubt("radius"), text)
	}
	require.NoError(t, s.SetStrip("radius", ""))
	leg := fmt.Sprintf("%.1f", legOf(100, 90, 0, 1, 0.3))
	typed(t, s, "length", "100", "leg-a", leg, "leg-b", leg, "angle", "90", "radius", "0", "set", "92")
	assert.Len(t, s.Tests().Used, 1)
	assert.Equal(t, []string{"0", "90", "92", ""}, []string{s.StripText("radius"), s.StripText("angle"), s.StripText("set"), s.StripText("leg-a")},
		"what stays from strip to strip stands in the next form")
}

// A card says why the strips that there are tell no set angle for it.
func TestWhyNoSetAngle(t *testing.T) {
	spec := springTube(4, 20)
	for i := range spec.Tests {
		r := 2.0
		spec.Tests[i].Radius = &r
	}
	s := New(spec)
	k := s.Cards()[0]
	assert.False(t, k.Spring.Measured)
	assert.Equal(t, "Your strips are of R 2 mm, this bend is of R 1 mm.", k.Spring.Why)
	s.SetUnits(fold.Inch)
	assert.NotContains(t, s.Cards()[0].Spring.Why, "mm")
	spec.Tests = []metal.Strip{strip90(1, 0.4)}
	assert.Equal(t, "Your strips don’t say where the leaf was stopped.", New(spec).Cards()[0].Spring.Why)
	spec.Tests = nil
	assert.Empty(t, New(spec).Cards()[0].Spring.Why)
	assert.Empty(t, New(springTube(4, 20)).Cards()[0].Spring.Why)
}

// What came in says which sheets it is of.
func TestMergeNamesSheets(t *testing.T) {
	s := New(angle("Mild steel"))
	other := strip90(1, 0.4)
	other.Metal, other.Thickness, other.Legs = "Copper", 2, [2]float64{51.5, 51.5}
	require.NoError(t, s.UseStrips([]metal.Strip{strip90(1, 0.4), other}))
	assert.Equal(t, "Copper 2.0 mm", s.OtherSheets())
	_, file := s.SaveBench()
	said, err := New(angle("Brass")).MergeBench(file)
	require.NoError(t, err)
	assert.Equal(t, "2 test bends came in, of Mild steel 1.0 mm and Copper 2.0 mm. None is for this part’s sheet, Brass 1.0 mm", said)
	said, err = s.MergeBench(file)
	require.NoError(t, err)
	assert.Contains(t, said, "no test bends came in; 2, of Mild steel 1.0 mm and Copper 2.0 mm, were there already. Those for this part’s sheet, Mild steel 1.0 mm, are in use")
}

// The ± of K by test bends has its worth in mm once the part was looked through.
func TestSpreadWorth(t *testing.T) {
	s := New(angle("Mild steel"))
	require.NoError(t, s.UseStrips([]metal.Strip{strip90(2, 0.4), strip90(2, 0.42), strip90(2, 0.38)}))
	assert.Empty(t, s.SpreadWorth())
	whole(t, s)
	u := s.KsUsed()[0]
	require.Positive(t, u.Spread)
	// One square bend: the blank moves by pi/2 T times what K moves.
	for _, w := range s.Report().Worth {
		if w.About == "spread" {
			assert.InDelta(t, 1.5708*u.Spread, w.Most, 0.02)
			assert.Equal(t, Fine(w.Most, fold.MM)+" mm", s.SpreadWorth())
		}
	}
	assert.NotEmpty(t, s.SpreadWorth())
}
