package metal

// This file tests test bends whose lengths were read with a calliper.

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Strips of a known R and K, misread by what a calliper and a protractor are out by: K lies within its spread in at least
// nine of ten cases, and the spread is less than a rule's.
func TestCalliper(t *testing.T) {
	rnd := newRand(t)
	const cases = 400
	within := 0
	for range cases {
		thick := 0.5 + 3*rnd.Float64()
		radius, k := 0.5*thick+2*thick*rnd.Float64(), 0.25+0.25*rnd.Float64()
		var rule, calliper []Strip
		for range 3 {
			s := bent(radius, k, thick, 100, 90, rnd.IntN(2) == 0)
			s.Nose = radius
			out := func(by float64) float64 { return by * (2*rnd.Float64() - 1) }
			s.Length += out(CalliperError)
			s.Legs[0] += out(CalliperError)
			s.Legs[1] += out(CalliperError)
			s.Angle += out(AngleError)
			rule = append(rule, s)
			s.Calliper = true
			calliper = append(calliper, s)
		}
		a, spread, _, ok, why := Examine(calliper).K(radius, thick)
		require.True(t, ok, why)
		_, wide, _, ok, _ := Examine(rule).K(radius, thick)
		require.True(t, ok)
		require.Less(t, spread, wide)
		if math.Abs(a-k) <= spread {
			within++
		}
	}
	require.GreaterOrEqual(t, within, cases*9/10)
}

// One strip of 2 mm, R 2 mm at 90 degrees: y is out by 1.15 times the root of three lengths' squares and of the angle's share, half a
// degree times 2 (R+T) - R - 0.3 T; K by that over pi/2 T.
func TestCalliperSpread(t *testing.T) {
	s := bent(2, 0.4, 2, 100, 90, false)
	s.Nose = 2
	turn := (8 - 2 - 0.6) * 0.5 * math.Pi / 180
	for _, calliper := range []bool{false, true} {
		s.Calliper = calliper
		length := map[bool]float64{false: 0.2, true: 0.05}[calliper]
		_, spread, _, ok, _ := Examine([]Strip{s}).K(2, 2)
		require.True(t, ok)
		require.InDelta(t, 1.15*math.Sqrt(3*length*length+turn*turn)/math.Pi, spread, 1e-9)
	}
	// Legs that a rule may have been out by, a calliper may not.
	radius := 2.0
	s.Radius = &radius
	lo, hi := s.reach()
	s.Legs[0], s.Legs[1] = 50, math.Max(lo, hi)+0.4-50
	s.Calliper = false
	require.NoError(t, s.Check())
	s.Calliper = true
	require.ErrorContains(t, s.Check(), "together they must measure")
	// What they contradict each other by is said of what they were read with.
	b := bent(2, 0.1, 2, 100, 90, false)
	b.Nose, b.Calliper = 2, true
	c := bent(2, 0.5, 2, 100, 90, false)
	c.Nose, c.Calliper = 2, true
	require.Contains(t, Examine([]Strip{b, c}).Faults[0], "more than a calliper and a protractor are out by")
	c.Calliper = false
	require.Contains(t, Examine([]Strip{b, c}).Faults[0], "more than a rule, a calliper and a protractor are out by")
}
