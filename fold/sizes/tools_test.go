package sizes

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The zero value is "nothing said": common practice, marked so, and no machine is assumed.
func TestToolsUsual(t *testing.T) {
	require.True(t, Tools{}.IsZero())
	full := Tools{}.Filled(false)
	require.Nil(t, full.Check())
	require.Len(t, full.Drills, 25)
	require.Equal(t, 1.0, full.Drills[0])
	require.Equal(t, 13.0, full.Drills[24])
	require.Equal(t, full.Kerf, full.Slot)
	require.Zero(t, full.Nibbler)
	require.Zero(t, full.ShearsLength)
	require.Equal(t, full, full.Filled(true), "filled twice")
	inch := Tools{}.Filled(true)
	require.InDelta(t, 25.4/16, inch.Drills[0], 1e-12)
	require.InDelta(t, 12.7, inch.Drills[28], 1e-12)
	for _, l := range (Tools{}).Lines() {
		require.False(t, l.Said, l.Key)
		if l.Value != 0 {
			require.Contains(t, l.From, "common practice, no source", l.Key)
		} else {
			require.Equal(t, "none said", l.From, l.Key)
		}
	}
	require.Contains(t, Tools{}.DrillsFrom(false), "no source")
	require.Equal(t, "your own", Tools{Drills: []float64{3}}.DrillsFrom(true))
}

// What the maker says goes before what is usual, and is taken back by 0.
func TestToolsSaid(t *testing.T) {
	own := Tools{Drills: []float64{5, 2.5, 5, 3.2}, NoSaw: true, Nibbler: 4}
	full := own.Filled(false)
	require.Equal(t, []float64{2.5, 3.2, 5}, full.Drills)
	require.Equal(t, []float64{5, 2.5, 5, 3.2}, own.Drills, "the maker's own list stays as it was")
	require.Equal(t, 4.0, full.Slot, "without a saw the nibbler's cut is the narrowest slot")
	for _, l := range (Tools{}).Lines() {
		set, ok := Tools{}.Set(l.Key, 7)
		require.True(t, ok, l.Key)
		require.False(t, set.IsZero(), l.Key)
		x, ok := set.Get(l.Key)
		require.True(t, ok)
		require.Equal(t, 7.0, x, l.Key)
		said := 0
		for _, m := range set.Lines() {
			if m.Said {
				said++
				require.Equal(t, l.Key, m.Key)
				require.Equal(t, 7.0, m.Value)
				require.Equal(t, "your own", m.From)
			}
		}
		require.Equal(t, 1, said)
		set, _ = set.Set(l.Key, 0)
		require.True(t, set.IsZero(), l.Key)
		want := 7 * 25.4
		if l.Angle {
			want = 7
		}
		set, _ = Tools{}.Set(l.Key, 7)
		x, _ = set.Scaled(25.4).Get(l.Key)
		require.InDelta(t, want, x, 1e-12, l.Key)
	}
	_, ok := Tools{}.Set("blowpipe", 1)
	require.False(t, ok)
	_, ok = Tools{}.Get("")
	require.False(t, ok)
}

func TestToolsCheck(t *testing.T) {
	nan := math.NaN()
	require.Nil(t, Tools{}.Check())
	require.Nil(t, Tools{}.Filled(false).Check())
	require.Nil(t, Tools{}.Filled(true).Check())
	for _, c := range []struct {
		tools Tools
		path  string
	}{
		{Tools{Drills: []float64{3, 0}}, "tools.drills[1]"},
		{Tools{Drills: []float64{nan}}, "tools.drills[0]"},
		{Tools{Drills: []float64{-2}}, "tools.drills[0]"},
		{Tools{Drills: make([]float64, MaxDrills+1)}, "tools.drills"},
		{Tools{Kerf: -1}, "tools.kerf"},
		{Tools{Kerf: nan}, "tools.kerf"},
		{Tools{LeastNotch: 175}, "tools.least_notch"},
		{Tools{ShearsLength: math.Inf(1)}, "tools.shears"},
		{Tools{Slot: 1e9}, "tools.narrowest_slot"},
	} {
		e := c.tools.Check()
		require.NotNil(t, e, "%+v", c)
		require.Equal(t, c.path, e.Path)
		require.NotEmpty(t, e.Found)
		require.NotEmpty(t, e.Need)
		require.Contains(t, e.Error(), c.path)
	}
}
