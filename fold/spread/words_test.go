package spread

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
)

func TestWords(t *testing.T) {
	require.Equal(t, "bend left", bendWords([]string{"left"}))
	require.Equal(t, "bend 3", bendWords([]string{"bend 3"}))
	require.Equal(t, "bends left and right", bendWords([]string{"left", "right"}))
	require.Equal(t, "bend 3, bend 4 and bend left", bendWords([]string{"bend 3", "bend 4", "left"}))
	for part, word := range map[float64]string{1: "nearly all", 0.66: "two thirds", 0.5: "half", 0.33: "a third", 0.25: "a quarter", 0.2: "a fifth", 0.1: "a tenth"} {
		require.Equal(t, word, fraction(part))
	}
}

// TestWatch: two walls alike are both named, one that is worse is named alone, and what it does is what its plus does.
func TestWatch(t *testing.T) {
	p := fold.Build(only(corner(60, 1), 1))
	r := p.Quick()
	require.True(t, Add(p, &r, Options{Samples: 5000, Seed: 1}))
	require.Regexp(t, `^Watch bends (right and back|back and right): their angles make (nearly all|three quarters) of it; 1 degree too little on one of them opens the top by 0\.[678] mm\.$`, r.Seams[0].Spread.Watch)
	require.Regexp(t, `^Watch bend (right|back): its angle makes (half|a third) of what varies; the seam hangs on it\.$`, r.Spread.Watch)
	// Nothing varies: nothing to say.
	p = fold.Build(only(corner(60, 1), 0))
	r = p.Quick()
	require.True(t, Add(p, &r, Options{Samples: 500}))
	require.Empty(t, r.Seams[0].Spread.Watch)
	require.Empty(t, r.Spread.Watch)
	// Edges alone.
	zero, cut := 0.0, 0.4
	s := corner(60, 1)
	s.Errors = fold.ErrorSpec{Angle: &zero, Line: &zero, Thickness: &zero, K: &zero, Cut: &cut}
	p = fold.Build(s)
	r = p.Quick()
	require.True(t, Add(p, &r, Options{Samples: 500}))
	require.Equal(t, "No bend to watch: marking and cutting the edges makes nearly all of it.", r.Seams[0].Spread.Watch)
}
