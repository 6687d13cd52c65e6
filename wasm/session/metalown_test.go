package session

import (
	"testing"

	"dryfold/fold"
	"dryfold/fold/metal"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func typeMetal(t *testing.T, s *Session, fields map[string]string) {
	t.Helper()
	for _, what := range []string{"name", "like", "density", "yield-lo", "yield-hi", "modulus", "least-rt", "k", "note"} {
		if v, ok := fields[what]; ok {
			require.NoError(t, s.SetMetalForm(what, v), what)
		}
	}
}

func TestOwnMetal(t *testing.T) {
	s := New(angle("Mild steel"))
	s.OpenMetal("")
	assert.Equal(t, "Mild steel", s.MetalForm().Like, "like what lies on the bench")
	require.Error(t, s.SaveMetal(), "it wants a name")
	_, bad := s.Error(MetalField("name"))
	assert.True(t, bad)
	typeMetal(t, s, map[string]string{"name": "Weathering steel", "density": "7.9 g/cm3", "yield-lo": "50 ksi", "yield-hi": "400", "modulus": "205", "least-rt": "1.5", "k": "0.41", "note": "mill sheet"})
	require.NoError(t, s.SaveMetal())
	assert.Nil(t, s.MetalForm())
	require.Len(t, s.Spec().Metals, 1)
	o := s.Spec().Metals[0]
	assert.Equal(t, "Weathering steel", s.Spec().Sheet.Metal)
	assert.InDelta(t, 7900, o.Density, 1e-6)
	assert.InDelta(t, 50*6.894757, o.Yield[0], 1e-3) // 1 ksi = 6.894757 MPa, by definition of pound and inch
	assert.Equal(t, 400.0, o.Yield[1])
	assert.Equal(t, 1.5, *o.LeastRT)
	m, _ := s.TheMetal()
	assert.True(t, m.Own)
	assert.InDelta(t, 205_000, m.Modulus.Mid(), 1e-6)
	assert.Contains(t, m.Density.Source.String(), "mill sheet")
	s.Undo()
	assert.Empty(t, s.Spec().Metals, "one step of undo")
	s.Redo()

	require.NoError(t, s.reckon("", "", func(next *fold.Spec) string {
		next.Tests = append(next.Tests, metal.Strip{Metal: "weathering steel", Thickness: 1, Length: 50, Legs: [2]float64{26, 26}, Angle: 90})
		return ""
	}))
	s.OpenMetal("Weathering steel")
	assert.Equal(t, "0.41", s.MetalForm().K)
	typeMetal(t, s, map[string]string{"name": "Corten", "k": ""})
	require.NoError(t, s.SaveMetal())
	require.Len(t, s.Spec().Metals, 1)
	assert.Nil(t, s.Spec().Metals[0].K)
	assert.Equal(t, "Corten", s.Spec().Tests[0].Metal, "its test bends go with it")
	require.NoError(t, s.RemoveMetal("Corten"))
	assert.Equal(t, "Mild steel", s.Spec().Sheet.Metal)
	assert.Empty(t, s.Spec().Metals)
}

// What is wrong stands beside its field and says what would do; the part stays.
func TestOwnMetalRefuses(t *testing.T) {
	s := New(angle("Mild steel"))
	s.OpenMetal("")
	for what, text := range map[string]string{"density": "7.9", "yield-lo": "9999", "modulus": "200000", "least-rt": "-1", "k": "0.9"} {
		require.Error(t, s.SetMetalForm(what, text), what)
		e, bad := s.Error(MetalField(what))
		require.True(t, bad, what)
		assert.Equal(t, text, e.Typed)
		assert.Contains(t, e.Message, " to ", "says what would do")
		_ = s.SetMetalForm(what, "")
	}
	require.NoError(t, s.SetMetalForm("yield-lo", "300"))
	require.Error(t, s.SetMetalForm("yield-hi", "200"))
	require.NoError(t, s.SetMetalForm("yield-hi", "300"))
	require.NoError(t, s.SetMetalForm("name", "A"))
	require.NoError(t, s.SaveMetal())
	s.OpenMetal("")
	require.NoError(t, s.SetMetalForm("name", " a"))
	require.Error(t, s.SaveMetal(), "a name stands for one metal")
	assert.Len(t, s.Spec().Metals, 1)
	s.DropMetal()
	_, bad := s.Error(MetalField("name"))
	assert.False(t, bad)
}

// A listed metal that is corrected keeps its name and what was not touched.
func TestCorrectListedMetal(t *testing.T) {
	s := New(angle("304"))
	s.OpenMetal("Stainless 304")
	typeMetal(t, s, map[string]string{"yield-lo": "230"})
	require.NoError(t, s.SaveMetal())
	m, _ := s.TheMetal()
	assert.Equal(t, 230.0, m.Yield.Lo)
	assert.Equal(t, 230.0, m.Yield.Hi)
	listed, _ := metal.ByName("304")
	assert.Equal(t, listed.Density, m.Density)
}
