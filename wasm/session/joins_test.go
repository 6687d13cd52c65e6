package session

import (
	"testing"

	"dryfold/fold"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// How seams are closed is said for all and for one, shown at once, undone, redone and saved like any change.
func TestJoins(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	before := file(s)
	seam := s.Report().Seams[0].Name
	require.NoError(t, s.SetJoinWay("", "weld"))
	require.NoError(t, s.SetProcess("", "tig"))
	require.NoError(t, s.SetWidest("", "1"))
	assert.True(t, s.Measured(), "the seams are as they were")
	assert.False(t, s.Checked())
	long := 0.0
	for _, x := range s.Report().Seams {
		assert.Equal(t, "weld", x.Way)
		assert.Equal(t, "TIG weld", JoinWords(x.Way, x.Process))
		require.NotNil(t, x.Limit)
		assert.Equal(t, 1.0, *x.Limit)
		assert.Equal(t, "yours", x.LimitKind)
		long += x.Length
	}
	assert.InDelta(t, long, s.Report().Weld, 1e-9)

	j, own := s.Join(seam)
	assert.False(t, own)
	assert.Equal(t, "1", s.WidestField(j))
	require.NoError(t, s.SetJoinWay(seam, "open"))
	j, own = s.Join(seam)
	assert.True(t, own)
	assert.Equal(t, "", j.Process, "what is left open is welded with nothing")
	assert.True(t, s.Report().Seams[0].Open)
	assert.Equal(t, "ok", s.Report().Seams[0].State)
	assert.Less(t, s.Report().Weld, long)
	after := file(s)
	r := New(fold.Spec{})
	_, err := r.Restore(s.Keep("12:00"))
	require.NoError(t, err)
	assert.Equal(t, s.Spec().Joins, r.Spec().Joins, "it is kept")

	require.NoError(t, s.FollowJoin(seam))
	_, own = s.Join(seam)
	assert.False(t, own)
	require.NoError(t, s.SetWidest(seam, "2"))
	require.NoError(t, s.SetWidest(seam, "1"))
	_, own = s.Join(seam)
	assert.False(t, own, "its own word that says no more than that for all is dropped")
	for s.CanUndo() {
		s.Undo()
		assert.True(t, s.Measured())
	}
	assert.Equal(t, before, file(s))
	for range 4 {
		s.Redo()
	}
	assert.Equal(t, after, file(s))
}

// What is no gap stands beside its field with what would do, and the part stays.
func TestJoinsRefused(t *testing.T) {
	s := checked(t, "uncapping-tray.dryfold")
	before := file(s)
	seam := s.Report().Seams[1].Name
	for _, text := range []string{"-1", "wide", "1e9", "16 ga", "99999999"} {
		for _, name := range []string{"", seam} {
			assert.Error(t, s.SetWidest(name, text), text)
			e, bad := s.Error(JoinField(name, "widest"))
			require.True(t, bad, text)
			assert.Equal(t, text, e.Typed)
			assert.NotEmpty(t, e.Message)
		}
	}
	assert.Error(t, s.SetJoinWay("", "glue"))
	assert.Error(t, s.SetProcess("", "laser"))
	assert.Equal(t, before, file(s))
	assert.False(t, s.CanUndo())
	require.NoError(t, s.SetWidest("", "3/64 in"))
	j, _ := s.Join("")
	assert.InDelta(t, 3.0/64*25.4, *j.Widest, 1e-9)
}

// The chosen seam stays chosen through a change of how it is closed.
func TestJoinKeepsTheSeam(t *testing.T) {
	s := checked(t, "wax-pan.dryfold")
	s.SetWord(Seams)
	for i := range s.Report().Seams {
		s.SetWord(Seams)
		s.Select(seamSelect(i))
		require.NoError(t, s.SetJoinWay(s.Report().Seams[i].Name, "rivet"))
		assert.Equal(t, seamSelect(i), s.Selected())
	}
}

// What is said of a seam alone follows it when a panel gets another name, of a part by sizes and of one by its blank, in one step of undo.
func TestJoinsFollowNames(t *testing.T) {
	renamed := 0
	for _, frozen := range []bool{false, true} {
		s := starter(t, "stepped-tray", fold.MM)
		if frozen {
			require.NoError(t, s.Freeze())
			told(t, s)
		}
		i := 0
		for k, x := range s.Report().Seams {
			if x.Name == x.A+" to "+x.B || !frozen {
				i = k
			}
		}
		x := s.Report().Seams[i]
		require.NoError(t, s.SetJoinWay(x.Name, "sealant"))
		if frozen {
			told(t, s)
		}
		panel := -1
		for k, p := range s.Part().Panels {
			if p.Name == x.B {
				panel = k
			}
		}
		require.GreaterOrEqual(t, panel, 0)
		before := file(s)
		require.NoError(t, s.SetPanelName(panel, "harbour"))
		if frozen {
			told(t, s)
		}
		now := s.Report().Seams[i]
		assert.Equal(t, "sealant", now.Way, "%s is %s now, %v", x.Name, now.Name, s.Spec().Joins)
		if now.Name != x.Name {
			renamed++
		}
		for _, tr := range s.Report().Troubles {
			assert.NotEqual(t, "seam-join", tr.Rule)
		}
		s.Undo()
		assert.Equal(t, before, file(s))
	}
	assert.Positive(t, renamed, "no seam changed its name with its panel's")
}
