package session

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/assets"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
	"dryfold/wasm/session/ask"
)

// What is measured on the blank, and lines struck out, leave the part and all that is known of it as they are; they are
// undone, and another change has the part checked anew.
func TestMarksKeepTheReport(t *testing.T) {
	spec, err := partfile.Read(assets.Demos()[0].Data)
	require.NoError(t, err)
	s := New(spec)
	answer := func() {
		require.NoError(t, ask.Check(s.Question(), func(kind, text string) { s.Answer(s.PartSerial(), kind, text) }))
		require.True(t, s.SpreadKnown())
	}
	answer()
	part, serial := s.PartSerial(), s.Serial()
	size := ask.CheckSize{No: 1, From: geom.Vec2{10, 20}, To: geom.Vec2{110, 20}, Want: 100}
	require.NoError(t, s.SetCut(&size, "102"))
	require.NoError(t, s.Strike("B", "50"))
	assert.True(t, s.SpreadKnown())
	assert.Equal(t, part, s.PartSerial())
	assert.Greater(t, s.Serial(), serial, "sheets are drawn again")
	assert.Equal(t, "102", s.CutIs(&size))
	assert.Len(t, s.Struck(), 1)
	assert.Len(t, s.Part().Spec.AsCut, 1)
	q, err := ask.ReadQuestion(s.Question())
	require.NoError(t, err)
	assert.Equal(t, s.Spec().AsCut, q.AsCut)
	s.Undo()
	s.Undo()
	assert.Empty(t, s.Spec().AsCut)
	assert.True(t, s.SpreadKnown())
	s.Redo()
	assert.Len(t, s.Part().Spec.AsCut, 1)
	require.NoError(t, s.SetAngle(0, "79"))
	assert.False(t, s.SpreadKnown())
	assert.NotEqual(t, part, s.PartSerial())
	assert.Len(t, s.Spec().AsCut, 1, "nothing is lost: whether it still fits is told")
	assert.Error(t, s.SetCut(&size, "0"))
	assert.Error(t, s.SetCut(&size, "NaN"))
	assert.Error(t, s.SetCut(&size, "3"))
	assert.Error(t, s.Strike("A", "-1"))
}
