package session

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// What doubt is worth is what setting the number really does, and for a plain
// angle what the bend allowance's formula says.
func TestDoubts(t *testing.T) {
	s := New(tray(t))
	list := s.Doubts()
	require.Len(t, list, 2)
	assert.GreaterOrEqual(t, list[0].most(), list[1].most())
	for _, d := range list {
		assert.True(t, d.Known)
		assert.NotEmpty(t, d.Words(fold.MM))
	}
	long, wide, high := s.FinishedSize()
	require.NoError(t, s.SetK("0.47"))
	long2, wide2, high2 := s.FinishedSize()
	for _, d := range list {
		if d.If == "If K is 0.47 instead of 0.42" {
			assert.InDelta(t, long2-long, d.Long, 1e-9)
			assert.InDelta(t, wide2-wide, d.Wide, 1e-9)
			assert.InDelta(t, high2-high, d.High, 1e-9)
			return
		}
	}
	t.Fatal("nothing about K")
}

// One square bend in the middle of a strip: the zone takes half of the change of
// the allowance from each flange.
func TestDoubtOfAStrip(t *testing.T) {
	k := 0.4
	s := New(fold.Spec{Name: "Angle", Sheet: fold.Sheet{Thickness: 2, K: &k}, Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{100, 0}}, {At: geom.Vec2{100, 30}}, {At: geom.Vec2{0, 30}}},
		Bends: []fold.BendSpec{{Name: "b", Line: [2]geom.Vec2{{50, 0}, {50, 30}}, Angle: 90, Radius: 3, Up: true}}})
	require.True(t, s.Part().Foldable)
	want, found := -math.Pi/2*kOut*2/2, false
	for _, d := range s.Doubts() {
		if d.If == "If K is 0.45 instead of 0.40" {
			found = true
			assert.InDelta(t, want, d.Long, 1e-6)
			assert.InDelta(t, want, d.High, 1e-6)
		}
	}
	assert.True(t, found)
}
