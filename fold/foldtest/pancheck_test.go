package foldtest

// This file tests which sizes a pan takes; fold/shape measures the pans themselves.

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/partfile"
)

func TestPanRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	bad := 0.7
	for _, c := range []struct {
		change func(*PanSizes)
		path   string
	}{
		{func(s *PanSizes) { s.Length = nan }, "length"},
		{func(s *PanSizes) { s.Length = 0 }, "length"},
		{func(s *PanSizes) { s.WidthFront = -3 }, "width_front"},
		{func(s *PanSizes) { s.WidthBack = inf }, "width_back"},
		{func(s *PanSizes) { s.Depth = 1e9 }, "depth"},
		{func(s *PanSizes) { s.Thickness = 0 }, "thickness"},
		{func(s *PanSizes) { s.Radius = -1 }, "radius"},
		{func(s *PanSizes) { s.Gap = -0.1 }, "gap"},
		{func(s *PanSizes) { s.Gap = nan }, "gap"},
		{func(s *PanSizes) { s.Lean = 85 }, "lean"},
		{func(s *PanSizes) { s.Lean = nan }, "lean"},
		{func(s *PanSizes) { s.K = &bad }, "k"},
		{func(s *PanSizes) { s.Rim = LipRim }, "rim_width"},
		{func(s *PanSizes) { s.Rim, s.RimWidth, s.RimRadius = HemRim, 10, nan }, "rim_radius"},
		{func(s *PanSizes) { s.Depth = 3 }, "depth"},
		{func(s *PanSizes) { s.Lean, s.Depth = 60, 60 }, "width_front"},
		{func(s *PanSizes) { s.Lean, s.Depth, s.Length = 30, 100, 110 }, "length"},
		{func(s *PanSizes) { s.Rim, s.RimWidth = LipRim, 3 }, "rim_width"},
		{func(s *PanSizes) { s.Rim, s.RimWidth = HemRim, 60 }, "rim_width"},
		{func(s *PanSizes) { s.Length = 1e6 }, "length"},
		{func(s *PanSizes) { s.WidthBack, s.WidthFront = 1e6, 1e6 }, "length"},
		{func(s *PanSizes) { s.WidthBack = 1500 }, "width_back"},
		{func(s *PanSizes) { s.Gap = 120 }, "width_front"},
		{func(s *PanSizes) { s.Rim = 9 }, "rim"},
		{func(s *PanSizes) { s.Level = -1 }, "level"},
		{func(s *PanSizes) { s.Units = fold.Units(5) }, "units"},
	} {
		s := plainPan()
		c.change(&s)
		_, err := Pan(s)
		require.ErrorContains(t, err, c.path+" ", "%+v", s)
	}
}

// Whatever the sizes, the answer is a part of finite numbers or an error that names a field.
func TestPanExtremes(t *testing.T) {
	seed := int64(11)
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewSource(seed))
	built := 0
	any := func() float64 {
		switch r.Intn(12) {
		case 0:
			return 0
		case 1:
			return -1
		}
		return math.Pow(10, -3+9*r.Float64())
	}
	for range 50000 {
		k := 0.42
		s := PanSizes{
			Length: any(), WidthFront: any(), WidthBack: any(), Depth: any(), Outside: r.Intn(2) == 0, Level: Level(r.Intn(2)),
			Lean: 90 * r.Float64(), Rim: Rim(r.Intn(3)), RimWidth: any(), RimRadius: any(), RimClear: r.Intn(2) == 0,
			Thickness: any(), Radius: any(), K: &k, Gap: any(), Units: fold.Units(r.Intn(2)),
		}
		spec, err := Pan(s)
		if err != nil {
			continue
		}
		require.NoError(t, partfile.Check(spec), "%+v", s)
		p := fold.Build(spec)
		require.True(t, p.Foldable, "%+v %v", s, p.Troubles)
		for _, tr := range p.Troubles {
			require.Equal(t, "sharp-bend", tr.Rule, "%+v %v", s, tr)
		}
		built++
	}
	require.Greater(t, built, 20)
}

// The zero value of the choices is a plain pan measured inside at the top, its K by the kernel's own rule.
func TestPanZeroChoices(t *testing.T) {
	require.Equal(t, PlainRim, PanSizes{}.Rim)
	require.Equal(t, AtTop, PanSizes{}.Level)
	require.False(t, PanSizes{}.Outside)
	s := plainPan()
	s.K = nil
	spec, err := Pan(s)
	require.NoError(t, err)
	require.Nil(t, spec.Sheet.K)
	require.Equal(t, "Pan", spec.Name)
	for _, seam := range fold.Build(spec).Quick().Seams {
		require.InDelta(t, s.Gap, seam.GapMin, 1e-6, seam.Name)
		require.InDelta(t, s.Gap, seam.GapMax, 1e-6, seam.Name)
	}
}

func plainPan() PanSizes {
	k := 0.42
	return PanSizes{Length: 300, WidthFront: 200, WidthBack: 200, Depth: 50, Thickness: 1.5, Radius: 1.5, K: &k, Gap: 0.8}
}
