package session

import (
	"testing"

	"dryfold/fold"
	"dryfold/fold/metal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Test bends come first unasked, then the maker's metal, then the default rule; a named rule and a
// figure come before all.
func TestWaysToK(t *testing.T) {
	k := 0.37
	spec := angle("Tough")
	spec.Metals = []metal.Own{{Name: "Tough", Like: "Mild steel", K: &k}}
	s := New(spec)
	assert.Equal(t, KByMetal, s.KBy())
	assert.Equal(t, []string{KByMetal, KByRule, KByFigure}, s.KWays())
	assert.InDelta(t, k, s.KsUsed()[0].K, 1e-9)
	require.NoError(t, s.SetKBy(KByRule))
	assert.Equal(t, KByRule, s.KBy())
	assert.Equal(t, metal.DefaultRule, s.Spec().Sheet.Rule)
	require.NoError(t, s.SetRule("din"))
	assert.Equal(t, "DIN 6935", s.RuleUsed().Name)
	din := s.Report().Bends[0].K
	require.NoError(t, s.SetKBy(KByFigure))
	assert.InDelta(t, din, *s.Spec().Sheet.K, 5e-4, "a figure begins where the rule was")
	assert.Empty(t, s.Spec().Sheet.Rule)
	assert.Equal(t, "assumed", s.KsUsed()[0].Kind, "a K with no source is assumed")
	require.NoError(t, s.SetKFrom("six strips, May"))
	assert.NotEqual(t, "assumed", s.KsUsed()[0].Kind)
	assert.Contains(t, s.KsUsed()[0].Source, "six strips, May")
	require.Error(t, s.SetK("0.7"))
	e, _ := s.Error("k")
	assert.Contains(t, e.Message, "0.6")
	require.NoError(t, s.SetKBy(KByMetal))
	assert.Nil(t, s.Spec().Sheet.K)
	assert.Empty(t, s.Spec().Sheet.KFrom)
	assert.Equal(t, KByMetal, s.KBy())

	spec = angle("Mild steel")
	for _, legs := range [][2]float64{{25.9, 25.8}, {25.8, 25.9}, {25.85, 25.85}} { // about K 0.4
		spec.Tests = append(spec.Tests, metal.Strip{Metal: "Mild steel", Thickness: 1, Length: 50, Legs: legs, Angle: 90})
	}
	s = New(spec)
	assert.Equal(t, 3, s.FittingTests())
	assert.Equal(t, KByTests, s.KBy())
	require.NoError(t, s.SetKBy(KByRule))
	assert.Equal(t, KByRule, s.KBy())
	require.NoError(t, s.SetKBy(KByTests))
	assert.Equal(t, KByTests, s.KBy())
	require.NoError(t, s.SetMetal("Copper"))
	assert.Equal(t, 0, s.FittingTests())
	assert.Equal(t, KByRule, s.KBy())
}

func TestRadiusRows(t *testing.T) {
	s := New(demo(t, "uncapping-tray.dryfold"))
	rows := s.Radii()
	require.NotEmpty(t, rows)
	n := 0
	for i, r := range rows {
		n += len(r.Bends)
		assert.Equal(t, len(r.Bends), len(r.Names))
		assert.Equal(t, "assumed", r.From)
		if i > 0 {
			assert.Greater(t, r.Radius, rows[i-1].Radius)
		}
		for _, b := range r.Bends {
			assert.InDelta(t, r.Radius, s.Part().Bends[b].Radius, 1e-9)
		}
		for k := 1; k < len(r.Least); k++ {
			a, b := r.Least[k-1], r.Least[k]
			assert.True(t, !a.Advice && b.Advice || a.Advice == b.Advice && a.Radius >= b.Radius)
		}
	}
	assert.Equal(t, len(s.Part().Bends), n, "every bend stands in one row")
	bends := rows[0].Bends
	require.NoError(t, s.SetRadiusFrom(bends, "nose"))
	assert.Equal(t, "nose", s.Radii()[0].From)
	require.NoError(t, s.SetRadiusFrom(bends[:1], "strip"))
	assert.Equal(t, "", s.Radii()[0].From, "they don't agree")
	require.NoError(t, s.SetRadiusFrom(bends, "assumed"))
	assert.Empty(t, s.Spec().Bends[bends[0]].RadiusFrom)
	require.Error(t, s.SetRadii(bends, "-1"))
	require.NoError(t, s.SetRadii(bends, "2"))
	for _, b := range bends {
		assert.Equal(t, 2.0, s.Spec().Bends[b].Radius)
	}
}

// Verdicts of the lists on a radius: under all of them watch, under some a note.
func TestRadiusState(t *testing.T) {
	row := func(radius float64, least ...float64) string {
		b := fold.BendReport{Angle: 90, Radius: radius}
		for _, l := range least {
			b.LeastRadius = append(b.LeastRadius, fold.LeastRadius{Radius: l})
		}
		r := RadiusRow{}
		r.lists(b)
		return r.State
	}
	assert.Equal(t, "", row(1))
	assert.Equal(t, "ok", row(1, 1, 0.5))
	assert.Equal(t, "note", row(1, 2, 0.5))
	assert.Equal(t, "watch", row(1, 2, 1.5))
	b := fold.BendReport{Angle: 90, Radius: 1, LeastRadius: []fold.LeastRadius{{Radius: 3, Advice: true}, {Radius: 1.04}, {Radius: 0.5}}}
	r := RadiusRow{}
	r.lists(b)
	assert.Equal(t, "ok", r.State, "advice is no least, and lists in inches differ a little from sheets in mm")
	lo, hi, ok := r.Range()
	assert.Equal(t, []any{0.5, 1.04, true}, []any{lo, hi, ok})
	assert.True(t, r.Least[2].Advice)
	r = RadiusRow{}
	r.lists(fold.BendReport{Angle: 90, Radius: 1, LeastRadius: []fold.LeastRadius{{Radius: 0.75, High: 6}, {Radius: 2}}})
	lo, hi, ok = r.Range()
	assert.Equal(t, []any{0.75, 6.0, true}, []any{lo, hi, ok}, "a list's own upper figure counts")
	r = RadiusRow{}
	r.lists(fold.BendReport{Angle: 90, Radius: 1, LeastRadius: []fold.LeastRadius{{Radius: 0.75, High: 6}}})
	assert.Equal(t, "note", r.State, "the list itself leaves it open")
	r = RadiusRow{}
	r.lists(fold.BendReport{Angle: 180, Radius: 0, LeastRadius: []fold.LeastRadius{{Radius: 1}}})
	assert.Equal(t, "", r.State, "a hem is flattened")
}
