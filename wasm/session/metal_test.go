package session

import (
	"testing"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// angle is a strip of a metal with one square bend across it, R 2, T 1.
func angle(name string) fold.Spec {
	return fold.Spec{Name: "Angle", Sheet: fold.Sheet{Thickness: 1, Metal: name},
		Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{100, 0}}, {At: geom.Vec2{100, 30}}, {At: geom.Vec2{0, 30}}},
		Bends:   []fold.BendSpec{{Name: "b", Line: [2]geom.Vec2{{50, 0}, {50, 30}}, Angle: 90, Radius: 2, Up: true}}}
}

// A gauge without its table asks which; with it, it is taken. 16 ga is 0.0598 in by the
// Manufacturers' Standard (two gauge charts, read), 1/16 in by the US Standard (15 U.S.C. 206, read).
func TestGaugeAsksForItsTable(t *testing.T) {
	s := New(angle("Mild steel"))
	require.NoError(t, s.SetThickness("16 ga"))
	assert.Equal(t, 1.0, s.Spec().Sheet.Thickness, "nothing is taken unasked")
	q, ok := s.GaugeQuestion()
	require.True(t, ok)
	require.Len(t, q.Choices, 6, "every table has a gauge 16")
	assert.True(t, q.Choices[0].Usual)
	assert.Equal(t, "msg", q.Choices[0].Table, "the metal's usual table stands first")
	seen := map[string]bool{}
	for i, g := range q.Choices {
		assert.Equal(t, i == 0, g.Usual)
		assert.False(t, seen[g.Table])
		seen[g.Table] = true
	}
	require.NoError(t, s.TakeGauge(q.Choices[0].Gauge))
	assert.InDelta(t, 0.0598*25.4, s.Spec().Sheet.Thickness, 1e-9)
	_, ok = s.GaugeQuestion()
	assert.False(t, ok)
	assert.Equal(t, "16 ga Manufacturers' Standard", s.BandGauge())
	s.Undo()
	assert.Equal(t, 1.0, s.Spec().Sheet.Thickness, "one step of undo")

	require.NoError(t, s.SetThickness("16 ga US Standard"))
	assert.InDelta(t, 1.5875, s.Spec().Sheet.Thickness, 1e-9)
	assert.Error(t, s.SetThickness("99 ga"))
	e, bad := s.Error("thickness")
	require.True(t, bad)
	assert.Contains(t, e.Message, "99")
	require.Error(t, s.SetThickness("2 msg"))
	assert.InDelta(t, 1.5875, s.Spec().Sheet.Thickness, 1e-9)

	require.NoError(t, s.SetThickness("18 ga"))
	require.NoError(t, s.SetThickness("1.25"))
	_, ok = s.GaugeQuestion()
	assert.False(t, ok, "another thickness answers the question")

	s = New(angle("Corten"))
	require.NoError(t, s.SetThickness("16 ga"))
	q, _ = s.GaugeQuestion()
	for _, g := range q.Choices {
		assert.False(t, g.Usual, "no table is usual for a metal that is not known")
	}
	assert.Empty(t, s.NearestGauge())
}

// 20 ga US Standard is 0.0375 in, 0.9525 mm (15 U.S.C. 206, read).
func TestNearestGauge(t *testing.T) {
	s := New(angle("Stainless 304"))
	assert.Equal(t, "Nearest: 20 ga US Standard 0.95 mm, 0.05 less.", s.NearestGauge())
	assert.Empty(t, s.BandGauge(), "1 mm is no gauge")
	s.SetUnits(fold.Inch)
	assert.Equal(t, "Nearest: 20 ga US Standard 0.0375 in, 0.0019 less.", s.NearestGauge())
	require.NoError(t, s.SetThickness("20 us"))
	assert.Equal(t, "It is 20 ga US Standard.", s.NearestGauge())
	assert.Equal(t, "20 ga US Standard", s.BandGauge())
}

func TestGrain(t *testing.T) {
	for _, turned := range []bool{false, true} {
		spec := angle("Mild steel")
		if turned {
			for i, v := range spec.Outline {
				spec.Outline[i].At = geom.Vec2{30 - v.At[1], v.At[0]}
			}
			spec.Bends[0].Line = [2]geom.Vec2{{0, 50}, {30, 50}}
		}
		s := New(spec)
		assert.Equal(t, GrainUnsaid, s.GrainWay())
		require.NoError(t, s.SetGrainWay(GrainLong))
		want := 0.0
		if turned {
			want = 90
		}
		assert.Equal(t, want, *s.Spec().Sheet.Grain, "along the longer side")
		assert.Equal(t, "across", s.Report().Bends[0].Grain, "the bend lies across it")
		require.NoError(t, s.SetGrainWay(GrainCross))
		assert.Equal(t, 90-want, *s.Spec().Sheet.Grain)
		assert.Equal(t, GrainCross, s.GrainWay())
		require.NoError(t, s.SetGrainWay(GrainSlant))
		require.NoError(t, s.SetGrain("30°"))
		assert.Equal(t, GrainSlant, s.GrainWay())
		assert.Equal(t, 30.0, *s.Spec().Sheet.Grain)
		require.Error(t, s.SetGrain("400"))
		require.NoError(t, s.SetGrainWay(GrainUnsaid))
		assert.Nil(t, s.Spec().Sheet.Grain)
	}
}

func TestLip(t *testing.T) {
	s := New(angle("Mild steel"))
	require.NoError(t, s.SetLip(`1/2"`))
	assert.InDelta(t, 12.7, *s.Spec().Sheet.Lip, 1e-9)
	require.Error(t, s.SetLip("-3"))
	require.Error(t, s.SetLip("0"))
	require.NoError(t, s.SetLip(" "))
	assert.Nil(t, s.Spec().Sheet.Lip)
}

// Kept finished sizes stay to 1e-9 mm when K or a radius changes; a kept blank stays as it was.
func TestWhatIsKept(t *testing.T) {
	for _, change := range []func(*Session) error{
		func(s *Session) error { return s.SetK("0.3") },
		func(s *Session) error { return s.SetRadii([]int{0}, "3.5") },
		func(s *Session) error { return s.SetRule("din") },
	} {
		s := New(angle("Mild steel"))
		require.True(t, s.CanRedevelop())
		assert.True(t, s.KeepsSizes(), "what most want unasked")
		was, blank := s.Report().Finished.Box(), s.Report().Blank
		require.NoError(t, change(s))
		for i, v := range s.Report().Finished.Box() {
			assert.InDelta(t, was[i], v, 1e-9)
		}
		assert.Greater(t, abs(s.Report().Blank.Width-blank.Width), 0.01)
		s.Undo()
		s.KeepSizes(false)
		require.NoError(t, change(s))
		assert.Equal(t, blank.Width, s.Report().Blank.Width)
		assert.Greater(t, abs(s.Report().Finished.Box()[0]-was[0]), 0.01)
		s.Undo()
		assert.Equal(t, was, s.Report().Finished.Box(), "one step of undo")
	}
}

func abs(x float64) float64 { return max(x, -x) }

func TestMetalChoice(t *testing.T) {
	s := New(angle("304"))
	m, ok := s.TheMetal()
	require.True(t, ok)
	assert.Equal(t, "Stainless 304", m.Name)
	require.NoError(t, s.SetMetal("Copper"))
	assert.Equal(t, "Copper", s.Spec().Sheet.Metal)
	assert.Equal(t, "awg", metal.DefaultTable(metal.Metal{Family: "copper"}))
	require.NoError(t, s.SetMetal(""))
	_, ok = s.TheMetal()
	assert.False(t, ok)
}

// What is kept outlasts a reload; another part begins with what most want.
func TestKeepingIsKept(t *testing.T) {
	s := New(angle("Mild steel"))
	was := s.Place()
	s.KeepSizes(false)
	assert.NotEqual(t, was, s.Place(), "it is something to be kept")
	text := s.Keep("")
	s = New(angle("Copper"))
	_, err := s.Restore(text)
	require.NoError(t, err)
	assert.False(t, s.KeepsSizes())
	s.OpenMetal("")
	s.OpenSpec(angle("Copper"))
	assert.True(t, s.KeepsSizes())
	assert.Nil(t, s.MetalForm(), "a form goes with its part")
}

// The nearest gauge's difference is never nothing: 0.09 in is 0.0003 in over 13 ga of the Manufacturers' Standard, 0.0897 in.
func TestNearestGaugeIsPrecise(t *testing.T) {
	s := New(angle("Mild steel"))
	s.SetUnits(fold.Inch)
	require.NoError(t, s.SetThickness("0.09"))
	assert.Equal(t, "Nearest: 13 ga Manufacturers' Standard 0.0897 in, 0.0003 less.", s.NearestGauge())
	s.SetUnits(fold.MM)
	assert.Contains(t, s.NearestGauge(), "0.01 less")
	require.NoError(t, s.SetThickness("2.279"))
	assert.Equal(t, "Within its rounding it is 13 ga Manufacturers' Standard.", s.NearestGauge())
}
