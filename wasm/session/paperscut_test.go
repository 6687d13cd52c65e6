package session

// This file tests what is typed under Marking out of the cut blank, of lines scribed by mistake and of a card model.

import (
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/ascut"
	"dryfold/fold/geom"
	"dryfold/wasm/session/ask"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// toMeasure are the sizes to measure on the open part's blank, as the third program tells them.
func toMeasure(t *testing.T, s *Session) []ask.CheckSize {
	t.Helper()
	var out []ask.CheckSize
	r := s.Part().Quick()
	for _, x := range ascut.Sizes(s.Part(), &r) {
		out = append(out, ask.CheckSize{No: x.No, From: x.From, To: x.To, What: x.What, Want: x.Want})
	}
	require.NotEmpty(t, out)
	return out
}

// What is measured goes to the two points of its size, in the file's units whatever is shown, each an undo of its own.
func TestSetCut(t *testing.T) {
	for _, file := range []string{"uncapping-tray.dryfold", "stand-bracket.dryfold"} { // in mm, in inches
		s := New(demo(t, file))
		k := s.Spec().Units.Scale()
		list := toMeasure(t, s)
		for i := range list {
			x := &list[i]
			assert.Empty(t, s.CutIs(x))
			require.NoError(t, s.SetCut(x, FieldLength(x.Want+1, fold.MM)+"mm"))
			require.Len(t, s.Spec().AsCut, i+1)
			m := s.Spec().AsCut[i]
			assert.InDelta(t, 0, m.From.Mul(k).Sub(x.From).Len(), 1e-4)
			assert.InDelta(t, 0, m.To.Mul(k).Sub(x.To).Len(), 1e-4)
			assert.InDelta(t, x.Want+1, m.Is*k, 1e-3)
			for _, u := range []fold.Units{fold.MM, fold.Inch} {
				s.SetUnits(u)
				back, err := ReadLength(s.CutIs(x), u)
				require.NoError(t, err)
				assert.InDelta(t, x.Want+1, back, 1e-3)
			}
		}
		// It outlives being kept, and each is found again.
		r := New(tray(t))
		_, err := r.Restore(s.Keep(""))
		require.NoError(t, err)
		for i := range list {
			assert.Equal(t, s.CutIs(&list[i]), r.CutIs(&list[i]), "%s %d", file, i+1)
		}
		// The verdict sees what was typed.
		q := s.Part().Quick()
		v := ascut.Judge(s.Part(), &q, ascut.Sizes(s.Part(), &q))
		assert.Empty(t, v.Stale)
		for _, l := range v.Lines {
			assert.InDelta(t, 1, l.Off, 2e-3, "%s %d", file, l.No)
		}

		x := &list[0]
		require.NoError(t, s.SetCut(x, FieldLength(x.Want, fold.MM)+" mm"))
		assert.Len(t, s.Spec().AsCut, len(list), "in the place of the value before")
		require.NoError(t, s.SetCut(x, " "))
		assert.Len(t, s.Spec().AsCut, len(list)-1)
		assert.Empty(t, s.CutIs(x))
		require.NoError(t, s.SetCut(x, ""), "nothing again")
		assert.Len(t, s.Spec().AsCut, len(list)-1)
		require.NoError(t, s.ForgetCut())
		assert.Empty(t, s.Spec().AsCut)
		s.Undo()
		assert.Len(t, s.Spec().AsCut, len(list)-1)
		s.Undo()
		s.Undo()
		assert.Len(t, s.Spec().AsCut, len(list))
		assert.InDelta(t, x.Want+1, s.Spec().AsCut[0].Is*k, 1e-3)
		for range list {
			s.Undo()
		}
		assert.Empty(t, s.Spec().AsCut)
		assert.False(t, s.CanUndo())
	}
}

func TestSetCutRefuses(t *testing.T) {
	s := New(tray(t))
	x := &toMeasure(t, s)[0]
	before := file(s)
	for _, u := range []fold.Units{fold.MM, fold.Inch} {
		s.SetUnits(u)
		for _, bad := range []string{"long", "0", "-3", "1", "90000000", "1/0", "16 ga"} {
			if bad == "1" && u == fold.Inch {
				bad = "0.01"
			}
			require.Error(t, s.SetCut(x, bad), bad)
			e, ok := s.Error(CutField(x.No))
			require.True(t, ok)
			assert.Equal(t, bad, e.Typed)
			if u == fold.Inch {
				assert.NotContains(t, strings.NewReplacer("60mm", "", "1.5mm", "").Replace(e.Message), "mm")
			}
			assert.Equal(t, before, file(s))
		}
	}
	assert.False(t, s.CanUndo())
	s.SetUnits(fold.MM)
	require.NoError(t, s.SetCut(x, FieldLength(x.Want, fold.MM)))
	_, ok := s.Error(CutField(x.No))
	assert.False(t, ok)
}

// A line scribed by mistake lies across the whole blank, at its distance from a datum edge.
func TestStrike(t *testing.T) {
	for _, file := range []string{"uncapping-tray.dryfold", "stand-bracket.dryfold"} {
		s := New(demo(t, file))
		s.SetUnits(fold.MM)
		box, k := s.Part().Blank.Box, s.Spec().Units.Scale()
		require.NoError(t, s.Strike("A", "12.5"))
		require.NoError(t, s.Strike("B", "10"))
		require.NoError(t, s.Strike("A", "0"))
		require.Len(t, s.Spec().Struck, 3)
		for i, want := range [][2]geom.Vec2{{{box.Min[0] + 12.5, box.Min[1]}, {box.Min[0] + 12.5, box.Max[1]}}, {{box.Min[0], box.Min[1] + 10}, {box.Max[0], box.Min[1] + 10}}} {
			for e := range want {
				assert.InDelta(t, 0, s.Spec().Struck[i].Line[e].Mul(k).Sub(want[e]).Len(), 1e-3, "%s %d", file, i)
			}
		}
		assert.Equal(t, []string{"12.5 mm from A", "10 mm from B", "0 mm from A"}, s.Struck())
		s.SetUnits(fold.Inch)
		for _, w := range s.Struck() {
			assert.NotContains(t, w, "mm")
		}
		assert.Equal(t, "0.492 in from A", s.Struck()[0])
		s.SetUnits(fold.MM)
		size := box.Size()
		for _, bad := range [][2]string{{"A", "-1"}, {"A", trimmed(size[0]+0.1, 3)}, {"B", trimmed(size[1]+0.1, 3)}, {"A", "there"}, {"B", ""}} {
			require.Error(t, s.Strike(bad[0], bad[1]), bad)
			_, ok := s.Error("strike")
			assert.True(t, ok)
		}
		assert.Len(t, s.Spec().Struck, 3)
		require.NoError(t, s.Unstrike(1))
		assert.Equal(t, []string{"12.5 mm from A", "0 mm from A"}, s.Struck())
		assert.Error(t, s.Unstrike(-1))
		assert.Error(t, s.Unstrike(2))
		s.Undo()
		assert.Len(t, s.Struck(), 3)
		s.Undo()
		s.Undo()
		s.Undo()
		assert.Empty(t, s.Struck())
		assert.False(t, s.CanUndo())
	}
	s := New(tray(t))
	next := s.Spec()
	next.Struck = []fold.StruckLine{{Line: [2]geom.Vec2{{0, 0}, {30, 40}}}}
	s.OpenSpec(next)
	assert.Contains(t, s.Struck()[0], "from ", "a slanting one of a file has its ends told")
}

// What a card model measures goes into the sizes of the part that it was made of.
func TestCardSizes(t *testing.T) {
	for _, u := range []fold.Units{fold.MM, fold.Inch} {
		s := starter(t, "tray", u)
		list := s.CardSizes()
		require.NotEmpty(t, list)
		set := 0
		for i, c := range list {
			require.NotEmpty(t, c.Path)
			was := s.Spec()
			if c.Formula != "" {
				require.Error(t, s.SetCardSize(i, "50mm"))
				e, _ := s.Error(CardField(i))
				assert.Contains(t, e.Message, c.Formula)
				continue
			}
			f, ok := s.SizeField(c.Path)
			require.True(t, ok)
			assert.InDelta(t, c.Is, f.Value, 1e-9, c.Label)
			typed, want := c.Is+2, c.Is+2
			if c.Changed {
				typed = 2
			}
			require.NoError(t, s.SetCardSize(i, trimmed(typed, 6)+"mm"), c.Label)
			f, _ = s.SizeField(c.Path)
			assert.InDelta(t, want, f.Value, 1e-3, c.Label)
			assert.InDelta(t, want, s.CardSizes()[i].Is, 1e-3)
			assert.NotEqual(t, was.Outline, s.Spec().Outline, "%s: the blank follows", c.Label)
			assert.Contains(t, s.Told(CardField(i))+s.Told(c.Path), " ", c.Label)
			for _, bad := range []string{"long", "1/0"} {
				require.Error(t, s.SetCardSize(i, bad))
				e, ok := s.Error(CardField(i))
				require.True(t, ok)
				assert.Equal(t, bad, e.Typed)
				assert.False(t, s.ErrorUnder("sizes."), "at the card's field alone")
			}
			if !c.Changed {
				require.Error(t, s.SetCardSize(i, "-40"), c.Label)
				_, ok := s.Error(CardField(i))
				assert.True(t, ok)
				_, ok = s.Error(c.Path)
				assert.False(t, ok, "nor at the size's own")
			}
			require.NoError(t, s.SetCardSize(i, ""), "nothing is no change")
			_, ok = s.Error(CardField(i))
			assert.False(t, ok)
			s.Undo()
			assert.Equal(t, was.Outline, s.Spec().Outline)
			set++
		}
		assert.GreaterOrEqual(t, set, 3)
		assert.NoError(t, s.SetCardSize(-1, "5"))
		assert.NoError(t, s.SetCardSize(len(list), "5"))

		require.NoError(t, s.Freeze())
		require.NotEmpty(t, s.CardSizes())
		require.Error(t, s.SetCardSize(0, "50mm"))
		e, _ := s.Error(CardField(0))
		assert.Contains(t, e.Message, "by its blank")
	}
}

// A size by a formula is changed through what it is worked out by.
func TestCardFormula(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	i := 0
	for k, c := range s.CardSizes() {
		if strings.HasPrefix(c.Path, "sizes.named") {
			i = k
		}
	}
	c := s.CardSizes()[i]
	require.NoError(t, s.SetField(c.Path, "20 + 30"))
	require.Equal(t, "20 + 30", s.CardSizes()[i].Formula)
	before := file(s)
	require.ErrorContains(t, s.SetCardSize(i, "55"), "20 + 30")
	assert.Equal(t, before, file(s))
}

// The model is made anew for another part, thickness or way to fold, and only then.
func TestCardIsMadeOnce(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	first := s.cardOf().spec.Outline
	require.NotNil(t, first)
	assert.Same(t, &first[0], &s.cardOf().spec.Outline[0])
	require.NoError(t, s.SetPaperLength("cardthick", "3"))
	thick := s.cardOf().spec.Outline
	assert.NotEqual(t, first, thick)
	p := s.Papers()
	p.Crease = "creased"
	s.SetPapers(p)
	assert.NotEqual(t, thick, s.cardOf().spec.Outline)
	require.NoError(t, s.SetPaperLength("cardthick", ""))
	p.Crease, p.CardThick = "scored", 1.5
	s.SetPapers(p)
	assert.Equal(t, first, s.cardOf().spec.Outline)
	assert.Nil(t, s.cardOf().spec.Sizes)
}
