package shape

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

func TestReadSize(t *testing.T) {
	for text, want := range map[string]sizes.Field{
		"12": sizes.Is(12), " -3.5 ": sizes.Is(-3.5), "0": sizes.Is(0),
		"2 3/8": sizes.Of("2 3/8"), "2-3/8": sizes.Of("2 3/8"), `2-3/8"`: sizes.Of(`2 3/8"`), "2-3/8 in": sizes.Of("2 3/8 in"),
		"long - 12": sizes.Of("long - 12"), "60 mm": sizes.Of("60 mm"), "20-3/8*2": sizes.Of("20-3/8*2"), "": {}, " ": {}, "1e3": sizes.Of("1e3"), "-": sizes.Of("-"),
	} {
		require.Equal(t, want, ReadSize(text), "%q", text)
	}
}

func TestSetSizes(t *testing.T) {
	s, _ := StarterByID("tray")
	was := s.Make(fold.Inch)
	got, bad := SetSizes(was, map[string]string{"wide": "7-1/2", "long": "2 * wide", "high": "60mm"})
	require.Empty(t, bad)
	v, errs := got.Sizes.Values(25.4)
	require.Empty(t, errs)
	for i, want := range []float64{7.5, 15, 60 / 25.4, 0} {
		x, err := v.Num(got.Sizes.Named[i].Is)
		require.NoError(t, err)
		require.InDelta(t, want, x, 1e-12)
	}
	require.Equal(t, s.Make(fold.Inch), was, "what was given is left alone")

	// All that is wrong is told, in the order of the names; nothing is changed.
	got, bad = SetSizes(was, map[string]string{"wide": "long", "long": "wide", "high": "rail - 12", "depth": "3", "lean": ""})
	require.Equal(t, was, got)
	var paths []string
	for _, p := range bad {
		paths = append(paths, p.Path)
		require.NotEmpty(t, p.Need)
	}
	require.Equal(t, []string{"depth", "high", "lean", "long", "wide"}, paths)
	require.Equal(t, "one of wide, long, high, lean", bad[0].Need)

	_, bad = SetSizes(fold.Spec{}, map[string]string{"wide": "3"})
	require.Len(t, bad, 1)
	_, bad = SetSizes(fold.Spec{}, nil)
	require.Empty(t, bad)
}

// Every starter's named sizes are whole numbers with labels of their own, and every field
// of its form comes to a number.
func TestStarterForms(t *testing.T) {
	ids := map[string]bool{}
	for _, s := range Starters {
		require.False(t, ids[s.ID] || s.ID == "" || s.Title == "" || s.Note == "", s.ID)
		ids[s.ID] = true
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			p := s.Make(u)
			require.Equal(t, u, p.Units)
			require.Equal(t, s.Title, p.Name)
			v, errs := p.Sizes.Values(u.Scale())
			require.Empty(t, errs, s.ID)
			labels := map[string]bool{}
			for _, n := range p.Sizes.Named {
				require.True(t, n.Is.Given && n.Is.Formula == "" && n.Label != "" && !labels[n.Label], "%s: %s", s.ID, n.Name)
				labels[n.Label] = true
				require.NotEmpty(t, p.Sizes.Uses(n.Name), "%s: nothing uses %s", s.ID, n.Name)
			}
			p.Sizes.Fields(func(path string, f *sizes.Field, _ bool) {
				if f.Given {
					_, e := v.At(path, *f)
					require.Nil(t, e, s.ID)
				}
			})
		}
	}
}
