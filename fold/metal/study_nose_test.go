package metal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Where the inside radius was measured, it doesn't matter which nose was noted, nor whether any was.
func TestNoseDoesNotMatter(t *testing.T) {
	rnd := newRand(t)
	for range 200 {
		thick := 0.8 + 2*rnd.Float64()
		radius := thick * (0.5 + 2*rnd.Float64())
		var plain []Strip
		for range 2 + rnd.IntN(5) {
			s := misread(rnd, bent(radius, 0.4, thick, 120, 90, rnd.IntN(2) == 0), 0.5)
			s.Radius, s.Set = ptr(radius+0.2*rnd.Float64()), ptr(92+rnd.Float64())
			plain = append(plain, s)
		}
		k, spread, src, ok, _ := Examine(plain).K(radius, thick)
		require.True(t, ok)
		require.True(t, strings.HasPrefix(src.Title, strips(len(plain))), src.Title)
		set, doubt, _, _ := Examine(plain).Set(80, radius, thick)
		noses := append([]Strip(nil), plain...)
		for i := range noses {
			noses[i].Nose = []float64{0, 0.5, 1, radius}[rnd.IntN(4)]
		}
		got := Examine(noses)
		require.Len(t, got.Groups, 1)
		k2, spread2, src2, ok, _ := got.K(radius, thick)
		require.True(t, ok)
		require.Equal(t, []any{k, spread, src}, []any{k2, spread2, src2})
		set2, doubt2, _, _ := got.Set(80, radius, thick)
		require.Equal(t, []float64{set, doubt}, []float64{set2, doubt2})
	}
}

// Strips whose inside radius was not measured, beside some whose was: the words say which count.
func TestUnknownBesideKnown(t *testing.T) {
	all := withK(0.42, 0.43, 0.44, 0.30)
	all[3].Radius = nil
	s := Examine(all)
	require.Len(t, s.Words, 2)
	require.Contains(t, s.Words[0], "Strip 4, bent to about 90 degrees: it fixes the deduction")
	require.Equal(t, "Strip 4: no inside radius is known of it, so K for R 1 mm is by Strips 1, 2 and 3 alone. Measure the inside radius, and they count together.", s.Words[1])
	k, _, _, _, _ := s.K(1, 2.5)
	require.InDelta(t, 0.43, k, 1e-9)

	all[3].Nose = 1 // nobody else's
	s = Examine(all)
	require.Contains(t, strings.Join(s.Words, "\n"), "Strip 4: only the nose of 1 mm is known, not the inside radius, so K for R 1 mm is by Strips 1, 2 and 3 alone.")
	k, _, _, _, _ = s.K(1, 2.5)
	require.InDelta(t, 0.43, k, 1e-9)

	all[1].Nose = 1.02 // the nose that came out with R 1
	s = Examine(all)
	require.Equal(t, []string{"Strip 4: the inside radius was not measured; it is taken as 1 mm, that of the other strips on the nose, and used with them."}, s.Words[:1])
	require.Len(t, s.Groups, 1)
	r, _, src, ok, _ := s.Radius(1)
	require.True(t, ok)
	require.Equal(t, 1.0, r)
	require.Equal(t, "measured by you: 1 strip, R 1 mm", src.String())

	// One nose, two radii: which of them the unmeasured strip has nobody knows.
	all[0].Nose, all[0].Radius = 1, ptr(2)
	s = Examine(all)
	require.Contains(t, strings.Join(s.Words, "\n"), "On the nose of 1 mm the inside radii measured on Strips 1 and 2 differ by more than a gauge is out by: 1 mm to 2 mm.")
	require.Contains(t, strings.Join(s.Words, "\n"), "Strip 4: only the nose of 1 mm is known")
}

// A bend of a few degrees tells nothing of the inside radius, and no range of radii is made of it.
func TestSmallAngles(t *testing.T) {
	for _, angle := range []float64{3, 10, 30} {
		s := bent(1, 0.4, 1.5, 100, angle, false)
		s.Legs[0] -= 0.5
		s.Radius = ptr(1)
		words := strings.Join(Examine([]Strip{s}).Words, "\n")
		require.Contains(t, words, "too little to tell K or the inside radius", "%v", angle)
		require.NotContains(t, words, "inside radius is 0 mm")
		s.Legs[0] += 1
		words = strings.Join(Examine([]Strip{s}).Words, "\n")
		require.NotContains(t, words, "inside radius is 0 mm to 0 mm", "%v", angle)
	}
}
