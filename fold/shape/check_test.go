package shape

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
		need   string // some of the words
	}{
		{func(s *PanSizes) { s.Length = nan }, "length", "over 0"},
		{func(s *PanSizes) { s.Length = 0 }, "length", "over 0"},
		{func(s *PanSizes) { s.WidthFront = -3 }, "width_front", "over 0"},
		{func(s *PanSizes) { s.WidthBack = inf }, "width_back", "1e+06 mm"},
		{func(s *PanSizes) { s.Depth = 1e9 }, "depth", "1e+06 mm"},
		{func(s *PanSizes) { s.Thickness = 0 }, "thickness", "over 0"},
		{func(s *PanSizes) { s.Radius = -1 }, "radius", "0 to"},
		{func(s *PanSizes) { s.Gap = -0.1 }, "gap", "0 to"},
		{func(s *PanSizes) { s.Gap = nan }, "gap", "0 to"},
		{func(s *PanSizes) { s.Lean = 85 }, "lean", "0 to 80 degrees"},
		{func(s *PanSizes) { s.Lean = nan }, "lean", "0 to 80 degrees"},
		{func(s *PanSizes) { s.K = &bad }, "k", "0 to 0.6"},
		{func(s *PanSizes) { s.Rim = LipRim }, "rim_width", "over 0"},
		{func(s *PanSizes) { s.Rim, s.RimWidth, s.RimRadius = HemRim, 10, nan }, "rim_radius", "0 to"},
		{func(s *PanSizes) { s.Depth = 3 }, "depth", "at least 3.8 mm"},
		{func(s *PanSizes) { s.Lean, s.Depth = 60, 60 }, "width_front", "less lean"},
		{func(s *PanSizes) { s.Lean, s.Depth, s.Length = 30, 100, 110 }, "length", "floor of 0 mm"},
		{func(s *PanSizes) { s.Rim, s.RimWidth = LipRim, 3 }, "rim_width", "its bend takes the rest"},
		{func(s *PanSizes) { s.Rim, s.RimWidth = HemRim, 60 }, "rim_width", "at most"},
		{func(s *PanSizes) { s.Length = 1e6 }, "length", "blank"},
		{func(s *PanSizes) { s.WidthBack, s.WidthFront = 1e6, 1e6 }, "width_back", "blank"},
		{func(s *PanSizes) { s.WidthBack = 1500 }, "width_back", "at most 800 mm"},
		{func(s *PanSizes) { s.Gap = 120 }, "width_front", "a smaller gap"},
		{func(s *PanSizes) { s.Rim = 9 }, "rim", "plain, lip or hem"},
		{func(s *PanSizes) { s.Level = -1 }, "level", "top or floor"},
		{func(s *PanSizes) { s.Units = fold.Units(5) }, "units", "mm or in"},
	} {
		s := plainPan()
		c.change(&s)
		_, err := Pan(s)
		var e *Error
		require.ErrorAs(t, err, &e, "%s %+v", c.path, s)
		require.Equal(t, c.path, e.Path, err.Error())
		require.Contains(t, e.Need, c.need)
		require.NotEmpty(t, e.Found)
	}
}

// What a message says would do does.
func TestPanNeedsWouldDo(t *testing.T) {
	s := plainPan()
	s.Depth = 3.8
	_, err := Pan(s)
	require.NoError(t, err)

	s = plainPan()
	s.Lean, s.Depth, s.Length = 30, 100, 110
	_, err = Pan(s)
	require.ErrorContains(t, err, "at least 121.9 mm")
	s.Length = 121.9
	_, err = Pan(s)
	require.NoError(t, err)
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
			require.IsType(t, &Error{}, err)
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

// The zero value of the choices is a plain pan measured inside at the top.
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
	checkSeams(t, fold.Build(spec), s.Gap, true) // by the kernel's own rule for K
}
