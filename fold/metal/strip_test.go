package metal

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func ptr(v float64) *float64 { return &v }

// bent is a strip as it measures with no reading error: an own reckoning from the round of the neutral line, flats and
// outside faces, apart from the equations of fit.go.
func bent(radius, k, thickness, length, angle float64, inside bool) Strip {
	a := angle * math.Pi / 180
	flats := length - a*(radius+k*thickness)
	// The outside face is an arc of R+T about the bend's centre, the inside face one of R.
	face := radius + thickness
	if inside {
		face = radius
	}
	reach := face // from a tangent line to where the leg is measured to
	if angle <= 90 {
		reach = face * math.Sin(a/2) / math.Cos(a/2)
	}
	return Strip{Thickness: thickness, Length: length, Inside: inside, Angle: angle,
		Legs: [2]float64{0.4*flats + reach, 0.6*flats + reach}}
}

// What a leg reaches past its tangent line, by walking the outside face: the point of the leg's outer line
// where the other's crosses it, or the furthest point of the round along the leg.
func TestBentReach(t *testing.T) {
	for _, angle := range []float64{20, 60, 90, 91, 120, 150, 180} {
		s := bent(2, 0.4, 1, 100, angle, false)
		a := angle * math.Pi / 180
		reach := s.Legs[0] - 0.4*(100-a*2.4)
		if angle <= 90 {
			// Outer lines: along x at height 0 about a centre at height 3, and turned by a about the centre.
			x := reach
			d := math.Hypot(x-0, 0-3) // the corner is equally far from both tangent points
			y := math.Hypot(3*math.Sin(a)-x, 3-3*math.Cos(a))
			require.InDelta(t, x, y, 1e-12)
			require.Greater(t, d, 3.0)
			continue
		}
		most := 0.0
		for i := range 100001 {
			most = math.Max(most, 3*math.Sin(a*float64(i)/100000))
		}
		require.InDelta(t, most, reach, 1e-8, "%g", angle)
	}
}

func TestCheck(t *testing.T) {
	good := bent(1, 0.42, 1, 100, 90, false)
	change := func(f func(*Strip)) Strip { s := good; f(&s); return s }
	require.NoError(t, good.Check())
	require.NoError(t, Strip{Thickness: 1, Angle: 90, Set: ptr(94)}.Check())
	require.NoError(t, Strip{Thickness: 1, Angle: 90, Set: ptr(90)}.Check())
	for _, c := range []struct {
		strip       Strip
		field, want string
	}{
		{Strip{}, "thickness", "thickness 0 mm: it must be 0.001 mm to 1000000 mm"},
		{change(func(s *Strip) { s.Thickness = math.NaN() }), "thickness", ""},
		{change(func(s *Strip) { s.Angle = 0 }), "angle", "angle 0 degrees: the bend angle is counted from flat: over 0 to 180 degrees"},
		{change(func(s *Strip) { s.Angle = 181 }), "angle", ""},
		{change(func(s *Strip) { s.Radius = ptr(-1) }), "radius", "radius -1 mm: it must be 0 mm to 1000000 mm"},
		{change(func(s *Strip) { s.Nose = math.Inf(1) }), "nose", ""},
		{change(func(s *Strip) { s.Length = -100 }), "length", "length -100 mm: it must be over 0 mm and at most 1000000 mm, or 0 mm where only the angle was of interest"},
		{change(func(s *Strip) { s.Length = 0 }), "length", ""},
		{change(func(s *Strip) { s.Length, s.Legs = 0, [2]float64{} }), "length", ""},
		{change(func(s *Strip) { s.Legs[1] = -40 }), "legs[1]", "legs[1] -40 mm: it must be over 0 mm and at most 1000000 mm"},
		{change(func(s *Strip) { s.Set = ptr(89.5) }), "set",
			"set 89.5 degrees: metal springs back, never forward: a bend that came out at 90 degrees was set to that or more, up to 180 degrees"},
		// 2*(1+1.5) - pi/2*(1 + K*1.5): K 0.6 adds 2.02, K 0 adds 3.43.
		{Strip{Thickness: 1.5, Length: 100, Legs: [2]float64{40, 40}, Angle: 90, Radius: ptr(1)}, "legs",
			"legs 40 mm + 40 mm on a strip of 100 mm at 90 degrees: together they must measure 102.02 mm to 103.43 mm with an inside radius of 1 mm"},
		// Radius not known: from R 0 and K 0.6, 3 - 0.9*pi/2, to where the bend takes the strip, R 100/(pi/2).
		{Strip{Thickness: 1.5, Length: 100, Legs: [2]float64{40, 40}, Angle: 90}, "legs",
			"legs 40 mm + 40 mm on a strip of 100 mm at 90 degrees: together they must measure 101.59 mm to 130.32 mm"},
		{Strip{Thickness: 1.5, Length: 100, Legs: [2]float64{90, 90}, Angle: 90, Radius: ptr(1)}, "legs", ""},
	} {
		err := c.strip.Check()
		var e *StripError
		require.True(t, errors.As(err, &e), "%+v", c.strip)
		require.Equal(t, c.field, e.Field)
		if c.want != "" {
			require.Equal(t, c.want, err.Error())
		}
	}
}

// What Check lets pass covers every strip that can be, whatever its radius, K, thickness and angle, with
// readings out by what they may be.
func TestCheckPassesRealStrips(t *testing.T) {
	rnd := newRand(t)
	for range 5000 {
		s := simulate(rnd, 0, 0, 1)
		require.NoError(t, s.Check(), "%+v", s)
	}
}

func TestMatching(t *testing.T) {
	strips := []Strip{
		{Metal: "304", Thickness: 1}, {Metal: "Stainless 304", Thickness: 1.04}, {Metal: "mild steel", Thickness: 1},
		{Metal: "304", Thickness: 1.2}, {Metal: " roof  Zinc ", Thickness: 1}, {Metal: "", Thickness: 1}, {Metal: "Kitchen top", Thickness: 1},
	}
	require.Equal(t, []int{0, 1}, Matching(strips, "stainless steel", nil, 1.0))
	require.Equal(t, []int{2}, Matching(strips, "Mild steel", nil, 1.0))
	require.Equal(t, []int{3}, Matching(strips, "304", nil, 1.2))
	require.Equal(t, []int{4}, Matching(strips, "roof zinc", nil, 1))
	require.Equal(t, []int{5}, Matching(strips, "", nil, 1))
	require.Equal(t, []int{6}, Matching(strips, "kitchen-top", []Own{{Name: "kitchen top", Like: "304"}}, 1))
	require.Empty(t, Matching(strips, "copper", nil, 1))
}
