package session

import (
	"math"
	"testing"

	"dryfold/fold"
	"dryfold/wasm/session/ask"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// told has the part checked as the worker would.
func told(t *testing.T, s *Session) {
	t.Helper()
	require.NoError(t, ask.Check(s.Question(), func(kind, text string) { s.Answer(s.Serial(), kind, text) }))
}

// What doubt is worth is what setting the number really does to the part on the bench, and
// for one square bend what the allowance's formula says: pi/2 * T * 0.05 less of each flange, halved.
func TestWorthIsTheRealChange(t *testing.T) {
	k := 0.4
	spec := angle("Mild steel")
	spec.Sheet.K = &k
	s := New(spec)
	assert.False(t, s.WorthKnown())
	assert.Empty(t, s.Worth())
	told(t, s)
	require.True(t, s.WorthKnown())
	lines, found := s.Worth(), false
	require.NotEmpty(t, lines)
	for i, w := range s.Report().Worth {
		if i > 0 {
			assert.LessOrEqual(t, w.Most, s.Report().Worth[i-1].Most, "the greatest first")
		}
		if w.About != "k" {
			continue
		}
		found = true
		assert.InDelta(t, -math.Pi/2*0.05/2, w.Finished[0], 1e-6)
		was := s.Report().Finished.Box()
		s.KeepSizes(false)
		require.NoError(t, s.SetK("0.45"))
		for j, v := range s.Report().Finished.Box() {
			assert.InDelta(t, w.Finished[j], v-was[j], 1e-6)
		}
		s.Undo()
		blank := s.Report().Blank.Width
		s.KeepSizes(true)
		require.NoError(t, s.SetK("0.45"))
		assert.InDelta(t, w.Blank[0], s.Report().Blank.Width-blank, 1e-6)
		s.Undo()
		told(t, s)
	}
	assert.True(t, found)
}

func TestWorthInWords(t *testing.T) {
	s := New(angle("Mild steel"))
	s.report.Worth = []fold.Worth{
		{About: "radius", If: "R 1 mm instead of 2 mm", Known: true, Most: 1.1, Blank: &[2]float64{-1.1}, BlankKnown: true, Finished: &[3]float64{1, 0, 0.04}},
		{About: "rule", If: "DIN 6935 instead of FAA-H-8083-31", Known: true, Most: 0.3, Blank: &[2]float64{0.3}, BlankKnown: true, Finished: &[3]float64{-0.15, 0, -0.15}},
		{About: "k", If: "K 0.45 instead of 0.4"},
	}
	lines := s.Worth()
	require.Len(t, lines, 3)
	assert.Equal(t, WorthLine{If: "R 1 mm instead of 2 mm", Blank: "1.1 mm shorter", Made: "1.0 mm longer", Most: "1.1 mm"}, lines[0])
	assert.Equal(t, "0.3 mm longer", lines[1].Blank)
	assert.Equal(t, "0.1 mm shorter and 0.1 mm lower", lines[1].Made)
	assert.Empty(t, lines[2].Most)
	assert.Contains(t, lines[2].Made, "not fold")
	s.SetUnits(fold.Inch)
	assert.Equal(t, "R 0.039 in instead of 0.079 in", s.Worth()[0].If)
	assert.Equal(t, "0.043 in shorter", s.Worth()[0].Blank)
	s.report.Worth[1].BlankKnown = false
	assert.Empty(t, s.Worth()[1].Blank)
	// A blank that is higher than wide says its height's change as its length's.
	s.SetUnits(fold.MM)
	s.report.Blank.Width, s.report.Blank.Height = 30, 100
	assert.Equal(t, "1.1 mm narrower", s.Worth()[0].Blank)
}
