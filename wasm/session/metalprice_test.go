package session

import (
	"testing"

	"dryfold/fold"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By the kilogram of the rectangle, the share of a sheet, and the hour.
func TestPrice(t *testing.T) {
	s := New(angle("Mild steel"))
	for what, text := range map[string]string{"per-kg": "4.20", "per-sheet": "60", "sheet": "1000 x 2000", "per-hour": "45", "hours": "90 min", "currency": "EUR"} {
		require.NoError(t, s.SetPrice(what, text), what)
	}
	assert.Equal(t, fold.Price{PerKg: 4.2, PerSheet: 60, Sheet: [2]float64{1000, 2000}, PerHour: 45, Hours: 1.5, Currency: "EUR"}, s.Spec().Price)
	p, b := s.Report().Price, s.Report().Blank
	require.NotNil(t, p)
	assert.InDelta(t, *b.Rectangle*4.2, p.Metal, 1e-9, "the metal is charged once")
	assert.InDelta(t, 45*1.5, p.Work, 1e-9)
	assert.Equal(t, "1000 × 2000", s.PriceText("sheet"))
	assert.Equal(t, "1.5", s.PriceText("hours"))
	require.NoError(t, s.SetPrice("sheet", s.PriceText("sheet")), "what is shown reads back")
	s.SetUnits(fold.Inch)
	require.NoError(t, s.SetPrice("sheet", `48" by 96 in`))
	assert.InDelta(t, 48*25.4, s.Spec().Price.Sheet[0], 1e-9)
	for what, text := range map[string]string{"per-kg": "cheap", "per-hour": "-1", "hours": "soon", "sheet": "1000", "currency": "a very long name of a currency"} {
		require.Error(t, s.SetPrice(what, text), what)
		_, bad := s.Error(PriceField(what))
		assert.True(t, bad, what)
	}
	for _, what := range PriceFields {
		require.NoError(t, s.SetPrice(what, ""), what)
	}
	assert.Nil(t, s.Report().Price)
}
