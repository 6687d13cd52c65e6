package foldtest

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
)

func TestRound(t *testing.T) {
	s := fold.Spec{
		Outline: fold.Contour{{At: geom.Vec2{1.00004, -0.00001}}, {At: geom.Vec2{2, 3}, Through: &geom.Vec2{1.23456, 2}}},
		Bends:   []fold.BendSpec{{Line: [2]geom.Vec2{{0.12345, 1}, {2, 2}}, Radius: 1.23456}},
	}
	r := Round(s, 1e-3)
	require.Equal(t, geom.Vec2{1, 0}, r.Outline[0].At)
	require.False(t, math.Signbit(r.Outline[0].At[1]))
	require.Equal(t, geom.Vec2{1.235, 2}, *r.Outline[1].Through)
	require.Equal(t, 0.123, r.Bends[0].Line[0][0])
	require.Equal(t, 1.23456, r.Bends[0].Radius)
	require.Equal(t, 1.00004, s.Outline[0].At[0]) // the given part stays
	require.Equal(t, 1.23456, s.Outline[1].Through[0])
}
