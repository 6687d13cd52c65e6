package session

import (
	"testing"

	"dryfold/fold"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Tools are typed in the units shown, kept on the bench, and refused where they can be none.
func TestTools(t *testing.T) {
	s := starter(t, "hopper", fold.MM)
	serial := s.BenchSerial()
	require.NoError(t, s.SetTool("drills", "3, 2.5, 3, 1/8 in"))
	assert.Equal(t, []float64{2.5, 3, 3.175}, s.Tools().Drills)
	assert.Equal(t, "2.5, 3, 3.175", s.ToolText("drills"))
	require.NoError(t, s.SetTool("kerf", "1.2"))
	require.NoError(t, s.SetTool("least_notch", "25"))
	assert.Equal(t, "25", s.ToolText("least_notch"))
	s.SetUnits(fold.Inch)
	assert.Equal(t, "0.04724", s.ToolText("kerf"))
	s.SetUnits(fold.MM)
	assert.NotEqual(t, serial, s.BenchSerial())
	for _, c := range [][2]string{{"kerf", "0"}, {"kerf", "-1"}, {"kerf", "x"}, {"drills", "3, x"}, {"drills", "0"}, {"drills", "900"}, {"least_notch", "400"}, {"lathe", "3"}} {
		was := s.KeepBench()
		require.Error(t, s.SetTool(c[0], c[1]), "%v", c)
		e, ok := s.Error(ToolField(c[0]))
		require.True(t, ok)
		assert.Equal(t, c[1], e.Typed)
		assert.Equal(t, was, s.KeepBench())
	}
	require.NoError(t, s.SetTool("kerf", ""))
	assert.Equal(t, "", s.ToolText("kerf"))
	s.SetSaw(false)
	assert.True(t, s.Tools().NoSaw)
	again := New(tray(t))
	require.NoError(t, again.TakeBench(s.KeepBench()))
	assert.Equal(t, s.Tools(), again.Tools())
}

// What the tools can't cut is told, changed on request to what they can, and given back by undo.
func TestMakeCuttable(t *testing.T) {
	s := starter(t, "tray", fold.MM)
	require.NoError(t, s.SetRelief(sizes.Drilled))
	require.NoError(t, s.SetTool("drills", "5, 8"))
	require.NoError(t, s.SetField("sizes.relief.size", "6.37"))
	i, err := s.addHole("left", 60, 25)
	require.NoError(t, err)
	require.NoError(t, s.SetField(HoleField(i, "wide"), "2.37"))
	require.NoError(t, s.EditHole(i, "drilled", func(h *sizes.Hole) error { h.Drilled = true; return nil }))
	bad := len(s.Uncuttable())
	require.Positive(t, bad, "no drill of 2.37 mm is owned")
	before := file(s)
	// A search that is stopped, at once or later, or that another change overtakes, changes nothing.
	for _, after := range []int{0, 1, 2} {
		tried := 0
		_, err = s.MakeCuttableInSteps(func() bool { tried++; return tried <= after })
		assert.ErrorContains(t, err, "stopped")
		assert.Equal(t, after+1, tried)
		assert.Equal(t, before, file(s))
	}
	_, err = s.MakeCuttableInSteps(func() bool { require.NoError(t, s.SetField("sizes.gap", "0.6")); return true })
	assert.ErrorContains(t, err, "stopped")
	s.Undo()
	assert.Equal(t, before, file(s), "the other change alone was made")

	said, err := s.MakeCuttable()
	require.NoError(t, err)
	assert.Len(t, said, 5, "four corners and a hole")
	assert.Less(t, len(s.Uncuttable()), bad)
	assert.Equal(t, 5.0, s.Part().Spec.Holes[0].Diameter)
	for _, c := range s.Made().Corners {
		assert.Contains(t, []float64{5, 8}, c.Size, c.Name)
		assert.GreaterOrEqual(t, c.Size, c.Need)
	}
	_, err = s.MakeCuttable()
	assert.Error(t, err, "nothing is left to mend")
	s.Undo()
	assert.Equal(t, before, file(s))
	_, err = New(tray(t)).MakeCuttable()
	assert.Error(t, err)
}
