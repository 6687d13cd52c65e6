package session

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/metal"
)

func calc(t testing.TB) *Session {
	t.Helper()
	s := New(tray(t))
	s.OpenCalc(true)
	return s
}

func TestCalcStartsFromThePart(t *testing.T) {
	s := calc(t)
	a, err := s.Reckoned()
	require.NoError(t, err)
	b := s.Part().Bends[s.Part().Swings[s.open].Bends[0]]
	assert.InDelta(t, b.Allowance, a.Allowance, 1e-6, "as the part has it")
	assert.Equal(t, "Stainless 304", a.Metal.Name)
}

// The bend of FAA-H-8083-31 ch. 4 (read): T 0.040, R 0.16 in, 90 degrees; by its formula the
// allowance is (0.01743*0.16 + 0.0078*0.04)*90 = 0.2791 in.
func TestCalcInInches(t *testing.T) {
	s := calc(t)
	s.SetUnits(fold.Inch)
	for f, text := range map[string]string{"thickness": ".040", "radius": "0.16", "angle": "90", "legs": "1 + 2 + 1"} {
		s.TypeCalc(f, text)
	}
	s.SetCalcBy("faa")
	a, err := s.Reckoned()
	require.NoError(t, err)
	assert.InDelta(t, 0.279072, a.Allowance/25.4, 1e-6)
	assert.InDelta(t, 0.2, a.Setback/25.4, 1e-9)
	assert.InDelta(t, 4-2*(2*0.2-0.279072), a.Developed/25.4, 1e-6)
	was := a.Developed
	s.SetUnits(fold.MM)
	assert.Equal(t, []string{"1.016", "4.064", "90"}, s.Calc().Texts[:3], "what stands there is shown in the other unit")
	assert.Equal(t, "25.4 + 50.8 + 25.4", s.Calc().Texts[4])
	b, err := s.Reckoned()
	require.NoError(t, err)
	assert.InDelta(t, was, b.Developed, 1e-6)
}

func TestCalcBothConventions(t *testing.T) {
	s := calc(t)
	require.NoError(t, s.SetCalc("angle", "120"))
	a, err := s.Reckoned()
	require.NoError(t, err)
	was := a.Allowance
	s.SetCalcBetween(true)
	assert.Equal(t, "60", s.Calc().Texts[2])
	b, err := s.Reckoned()
	require.NoError(t, err)
	assert.Equal(t, was, b.Allowance)
	require.Error(t, s.SetCalc("angle", "180"), "flat is no bend")
	require.NoError(t, s.SetCalc("angle", "0"), "folded back")
	s.SetCalcBetween(false)
	assert.Equal(t, "180", s.Calc().Texts[2])
	require.NoError(t, s.SetCalc("angle", "240"), "a teardrop hem")
}

func TestCalcGauges(t *testing.T) {
	s := calc(t)
	require.Error(t, s.SetCalc("thickness", "16 ga"))
	list := s.CalcGauges()
	require.Greater(t, len(list), 3)
	for _, g := range list {
		require.NoError(t, s.SetCalc("thickness", g.Number+" ga "+TableName(g.Table)))
		a, err := s.Reckoned()
		require.NoError(t, err)
		assert.Equal(t, g.Thickness, a.Thickness)
		assert.Empty(t, s.CalcGauges())
		got, ok := s.CalcGauge()
		require.True(t, ok)
		assert.Equal(t, g.Table, got.Table)
	}
	require.Error(t, s.SetCalc("thickness", "99 swg"))
}

func TestCalcRefusals(t *testing.T) {
	for _, x := range []struct{ field, text, says string }{
		{"thickness", "", "a length is wanted"}, {"thickness", "0", "more than nothing"}, {"radius", "-1", "0 mm"}, {"angle", "250", "240"}, {"angle", "0", "over 0"},
		{"legs", "40", "two or more. Write them in a row, as 50, 20, 50"}, {"legs", "40 + x", "“x” is no leg. Write the legs in a row, as 50, 20, 50"}, {"legs", "1 + 40", "at least"}, {"legs", "-3 + 40", "over 0"},
	} {
		s := calc(t)
		require.Error(t, s.SetCalc(x.field, x.text), "%s %q", x.field, x.text)
		e, ok := s.Error(CalcField(x.field))
		require.True(t, ok, x.field)
		assert.Contains(t, e.Message, x.says)
		assert.Equal(t, x.text, e.Typed)
	}
	s := calc(t)
	s.SetCalcBy(CalcGiven)
	require.Error(t, s.SetCalc("k", "0.7"))
	e, _ := s.Error(CalcField("k"))
	assert.Contains(t, e.Message, "0.6")
	s.SetCalcBy("machinery")
	s.SetCalcMetal("")
	_, err := s.Reckoned()
	require.Error(t, err)
	e, ok := s.Error(CalcField("metal"))
	require.True(t, ok)
	assert.Contains(t, e.Message, "another rule")
	assert.Error(t, s.SetCalc("colour", "red"))
}

// The calculator goes by the maker's strips unless a rule is chosen, and stays over a reload.
func TestCalcByTestsAndKept(t *testing.T) {
	s := New(tray(t))
	three(t, s, 0.46)
	require.NoError(t, s.UseTests())
	s.OpenCalc(true)
	a, err := s.Reckoned()
	require.NoError(t, err)
	assert.Equal(t, metal.Measured, a.KSource.Kind)
	assert.InDelta(t, 0.46, a.K, 0.05)
	place := s.Place()
	require.NoError(t, s.SetCalc("legs", "40+60+40"))
	s.SetCalcInside(true)
	assert.NotEqual(t, place, s.Place())
	again := New(tray(t))
	_, err = again.Restore(s.Keep(""))
	require.NoError(t, err)
	b, err := again.Reckoned()
	require.NoError(t, err)
	c, err := s.Reckoned()
	require.NoError(t, err)
	assert.Equal(t, c.Developed, b.Developed)
	assert.Greater(t, b.Developed, 130.0)
	s.OpenCalc(false)
	assert.False(t, s.Calc().Open)
	s.OpenCalc(true)
	assert.Equal(t, "40+60+40", s.Calc().Texts[4], "shut and opened, it is as it was")
	s.CalcFromPart()
	assert.Empty(t, s.Calc().Texts[4])
}

// A unit behind the last leg is that of all that have none, and the calculator says so; 25.4 mm to the inch by definition.
func TestCalcLegsUnit(t *testing.T) {
	s := calc(t)
	for text, c := range map[string]struct {
		legs []float64
		says string
	}{
		"50, 20, 50":         {[]float64{50, 20, 50}, ""},
		"50,20,50":           {[]float64{50, 20, 50}, ""},
		"50,5; 20,5":         {[]float64{50.5, 20.5}, ""},
		"1, 2, 1 in":         {[]float64{25.4, 50.8, 25.4}, "Numbers without a unit are read as inches, like the last."},
		`1 1/2 + 2 + 1"`:     {[]float64{38.1, 50.8, 25.4}, "Numbers without a unit are read as inches, like the last."},
		"5; 2 ; 5cm":         {[]float64{50, 20, 50}, "Numbers without a unit are read as cm, like the last."},
		"2in + 30mm":         {[]float64{50.8, 30}, ""},
		"2in, 30, 30 mm":     {[]float64{50.8, 30, 30}, "Numbers without a unit are read as mm, like the last."},
		"1 in, 30, 30":       {[]float64{25.4, 30, 30}, ""},
		"1 in + 2 in + 1 in": {[]float64{25.4, 50.8, 25.4}, ""},
	} {
		require.NoError(t, s.SetCalc("legs", text), text)
		a, err := s.Reckoned()
		require.NoError(t, err, text)
		require.Len(t, a.Outside, len(c.legs), text)
		for i, l := range c.legs {
			assert.InDelta(t, l, a.Outside[i], 1e-6, text)
		}
		assert.Equal(t, c.says, s.CalcLegsRead(), text)
	}
	require.NoError(t, s.SetCalc("legs", "1, 2, 1 in"))
	s.SetUnits(fold.Inch)
	assert.Equal(t, "1 + 2 + 1", s.Calc().Texts[4])
	s.SetUnits(fold.MM)
	assert.Equal(t, "25.4 + 50.8 + 25.4", s.Calc().Texts[4])
	for text, says := range map[string]string{"50 20 50": "Write the legs in a row, as 50, 20, 50", "50": "one leg", "50, x": "“x” is no leg", "50, -": "is no leg", "a in": "is no leg"} {
		require.ErrorContains(t, s.SetCalc("legs", text), says, text)
	}
	s.SetUnits(fold.Inch)
	require.ErrorContains(t, s.SetCalc("legs", "50"), "as 2, 1 1/2, 2")
}
