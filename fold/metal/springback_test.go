package metal

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSpringbackExamples(t *testing.T) {
	for _, row := range readPublished(t, "springback") {
		ri, rf, thickness := row.num(t, "Ri"), row.num(t, "Rf"), row.num(t, "T")
		yield, modulus, angle := row.num(t, "Y"), row.num(t, "E"), row.num(t, "final_angle_deg")
		got, ok := setRadius(rf, thickness, yield, modulus)
		require.True(t, ok)
		require.InDelta(t, ri, got, 1e-5, "%v", row)
		require.InDelta(t, row.num(t, "Ri_over_Rf"), got/rf, 1e-4, "%v", row)
		require.InDelta(t, row.num(t, "x=RiY/ET"), got*yield/(modulus*thickness), 1e-5, "%v", row)
		ks, ok := Springback(rf, thickness, yield, modulus)
		require.True(t, ok)
		require.InDelta(t, row.num(t, "Ks"), ks, 1e-5, "%v", row)
		require.InDelta(t, row.num(t, "required_bend_angle_deg"), angle/ks, 1e-3, "%v", row)
	}
}

// Solved for the finished radius, then put back into the formula as it is printed.
func TestSpringbackRoundTrip(t *testing.T) {
	r := newRand(t)
	for range 2000 {
		thickness, yield, modulus := .3+4*r.Float64(), 30+900*r.Float64(), 60e3+150e3*r.Float64()
		rf := 200 * thickness * r.Float64() * r.Float64()
		ri, ok := setRadius(rf, thickness, yield, modulus)
		require.True(t, ok)
		x := ri * yield / (modulus * thickness)
		require.InDelta(t, ri, rf*(4*x*x*x-3*x+1), 1e-9*(1+rf), "R %g T %g Y %g E %g", rf, thickness, yield, modulus)
		require.Less(t, ri, GreatestRadius(thickness, yield, modulus))
		ks, _ := Springback(rf, thickness, yield, modulus)
		require.LessOrEqual(t, ks, 1.0)
		harder, _ := Springback(rf, thickness, yield*1.1, modulus)
		require.Less(t, harder, ks)
	}
}

func TestLeastSet(t *testing.T) {
	steel := metalNamed(t, "mild steel")
	lo, hi, src, ok := LeastSet(steel, 90, 2, 1)
	require.True(t, ok)
	require.True(t, src.Memory)
	require.Greater(t, lo, 90.0)
	require.Greater(t, hi, lo)
	low, _ := Springback(2, 1, 20*ksi, 29e3*ksi)
	require.InDelta(t, 90/low, lo, 1e-9)
	sharp, top, _, ok := LeastSet(steel, 90, 0, 1)
	require.True(t, ok)
	require.Equal(t, []float64{90, 90}, []float64{sharp, top})
	_, _, _, ok = LeastSet(metalNamed(t, "aluminium"), 90, 2, 1)
	require.False(t, ok, "the alloy isn't said, and with it no yield")
	for _, bad := range [][4]float64{{-1, 1, 200, 2e5}, {1, 0, 200, 2e5}, {1, 1, 0, 2e5}, {1, 1, 200, 0}, {math.NaN(), 1, 200, 2e5}, {1, math.NaN(), 200, 2e5}, {math.Inf(1), 1, 200, 2e5}} {
		_, ok := Springback(bad[0], bad[1], bad[2], bad[3])
		require.False(t, ok, "%v", bad)
	}
}
