package metal

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// simulate is a strip as someone measures it: readings out by up to share times what they may be out by, evenly. Radius
// and angle are drawn where 0.
func simulate(rnd *rand.Rand, radius, angle, share float64) Strip {
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*rnd.Float64() }
	thick := in(0.5, 4)
	if radius == 0 {
		radius = in(0, 3*thick)
	}
	if angle == 0 {
		angle = in(10, 175)
	}
	return misread(rnd, bent(radius, in(0.2, 0.55), thick, in(80, 200), angle, rnd.IntN(2) == 0), share)
}

// misread puts reading errors on a strip.
func misread(rnd *rand.Rand, s Strip, share float64) Strip {
	out := func(by float64) float64 { return share * by * (2*rnd.Float64() - 1) }
	s.Length += out(LengthError)
	s.Legs[0] += out(LengthError)
	s.Legs[1] += out(LengthError)
	s.Angle += out(AngleError)
	if s.Radius != nil {
		s.Radius = ptr(max(0, *s.Radius+out(RadiusError)))
	}
	return s
}

func TestExactStrips(t *testing.T) {
	rnd := newRand(t)
	for range 300 {
		thick := 0.4 + 5*rnd.Float64()
		radius, k := 3*thick*rnd.Float64(), 0.6*rnd.Float64()
		inside := rnd.IntN(2) == 0
		angle := 20 + 160*rnd.Float64()

		// The radius measured: one strip gives K.
		one := bent(radius, k, thick, 150, angle, inside)
		one.Radius = &radius
		got, _, src, ok, why := Examine([]Strip{one}).K(radius, thick)
		require.True(t, ok, why)
		require.InDelta(t, k, got, 1e-9)
		require.Equal(t, Measured, src.Kind)
		// And the nose's.
		one.Radius, one.Nose = nil, radius
		got, _, _, ok, _ = Examine([]Strip{one}).K(radius, thick)
		require.True(t, ok)
		require.InDelta(t, k, got, 1e-9)

		// Neither: strips of two and of three angles give both.
		for _, angles := range [][]float64{{90, 135}, {45, 90}, {60, 90, 150}} {
			var strips []Strip
			for _, a := range angles {
				strips = append(strips, bent(radius, k, thick, 150, a, inside))
			}
			s := Examine(strips)
			require.Len(t, s.Groups, 1)
			g := s.Groups[0]
			require.Equal(t, "fitted", g.RadiusFrom, "%v %v", angles, s.Words)
			require.InDelta(t, radius, g.Radius, 1e-9)
			require.InDelta(t, k, g.K, 1e-9)
			got, _, _, ok, why := s.K(radius, thick)
			require.True(t, ok, why)
			require.InDelta(t, k, got, 1e-9)
		}

		// Neither, one angle: whichever radius is taken, the lengths at that angle come out.
		s := Examine([]Strip{bent(radius, k, thick, 150, 90, false), bent(radius, k, thick, 120, 90, true)})
		require.Empty(t, s.Groups[0].RadiusFrom)
		require.InDelta(t, Deduction(90, radius, thick, k), s.Groups[0].Deduction, 1e-9)
		if got, _, _, ok, why = s.K(radius+0.1, thick); ok {
			require.InDelta(t, Deduction(90, radius, thick, k), Deduction(90, radius+0.1, thick, got), 1e-9)
			require.Contains(t, why, "at 90 degrees")
		}
		require.Contains(t, strings.Join(s.Words, " "), "doesn't matter for those")
	}
}

// R and K lie within the stated spread in at least nine of ten cases, with readings out by no more
// than they may be, evenly or by a normal law cut there.
func TestSpreadHolds(t *testing.T) {
	rnd := newRand(t)
	angles := [][]float64{{90}, {90, 90}, {90, 90, 90}, {90, 135}, {90, 90, 135, 135}, {60, 90, 120, 150}, {45, 90, 90, 135, 135, 170}, {120, 120, 120, 120, 120}}
	for _, known := range []string{"measured", "nose", ""} {
		for _, at := range angles {
			if known == "" && len(at) > 1 && at[0] == at[len(at)-1] || known == "" && len(at) == 1 {
				continue // these fix no R
			}
			const n = 1500
			var inK, inR, inAsked, asked int
			for range n {
				thick := 0.6 + 3*rnd.Float64()
				radius, k := thick*(0.3+2.5*rnd.Float64()), 0.25+0.25*rnd.Float64()
				var strips []Strip
				for _, a := range at {
					s := bent(radius, k, thick, 100+50*rnd.Float64(), a, rnd.IntN(2) == 0)
					switch known {
					case "measured":
						s.Radius = ptr(radius)
					case "nose":
						s.Nose = radius
					}
					strips = append(strips, misread(rnd, s, 1))
				}
				s := Examine(strips)
				require.Len(t, s.Groups, 1)
				g := s.Groups[0]
				if math.Abs(g.K-k) <= g.KSpread {
					inK++
				}
				if math.Abs(g.Radius-radius) <= g.RadiusSpread || g.RadiusFrom == "nose" {
					inR++
				}
				if got, spread, _, ok, _ := s.K(radius, thick); ok {
					asked++
					if math.Abs(got-k) <= spread {
						inAsked++
					}
				}
			}
			t.Logf("%-8s %v: K %.3f, R %.3f, asked %.3f of %.3f", known, at, float64(inK)/n, float64(inR)/n, float64(inAsked)/float64(asked), float64(asked)/n)
			require.Greater(t, float64(inK)/n, 0.9, "K, %s, %v", known, at)
			require.Greater(t, float64(inR)/n, 0.9, "R, %s, %v", known, at)
			require.Greater(t, float64(inAsked)/float64(asked), 0.9, "K asked for, %s, %v", known, at)
			require.Greater(t, asked, n*3/4)
		}
	}
}

// The same for the set angle.
func TestSetSpreadHolds(t *testing.T) {
	rnd := newRand(t)
	for _, n := range []int{1, 2, 3, 6} {
		in, all := 0, 0
		for range 2000 {
			ratio := 0.9 + 0.08*rnd.Float64()
			var strips []Strip
			for range n {
				set := 60 + 60*rnd.Float64()
				s := Strip{Thickness: 1, Nose: 1, Angle: set*ratio + AngleError*(2*rnd.Float64()-1)}
				s.Set = ptr(set + AngleError*(2*rnd.Float64()-1))
				if *s.Set < s.Angle {
					continue
				}
				strips = append(strips, s)
			}
			asked := 40 + 80*rnd.Float64()
			set, doubt, src, ok := Examine(strips).Set(asked, 1, 1)
			if len(strips) < n {
				continue
			}
			require.True(t, ok)
			require.Equal(t, Measured, src.Kind)
			all++
			if math.Abs(set-asked/ratio) <= doubt {
				in++
			}
		}
		t.Logf("%d strips: %.3f", n, float64(in)/float64(all))
		require.Greater(t, float64(in)/float64(all), 0.9)
	}
}

// withK are strips of 2.5 mm sheet bent by 90 degrees with R 1 measured, each with its own K.
func withK(ks ...float64) []Strip {
	var out []Strip
	for _, k := range ks {
		s := bent(1, k, 2.5, 100, 90, false)
		s.Radius = ptr(1)
		out = append(out, s)
	}
	return out
}

func TestOutlier(t *testing.T) {
	s := Examine(withK(0.42, 0.61, 0.44, 0.43))
	require.Equal(t, "left out", s.Strips[1].State)
	require.Equal(t, []string{"Strip 2 gives K 0.61 where the others give 0.42 to 0.44: measure it again or leave it out. It was left out."}, s.Strips[1].Words)
	for _, i := range []int{0, 2, 3} {
		require.Equal(t, "used", s.Strips[i].State)
		require.Len(t, s.Strips[i].Words, 1)
	}
	k, spread, src, ok, _ := s.K(1, 2.5)
	require.True(t, ok)
	require.InDelta(t, 0.43, k, 1e-9)
	require.Greater(t, spread, 0.03) // a rule's error on three strips: sqrt(3)*0.2/(pi/2*2.5)/sqrt(3)
	require.Equal(t, "measured by you: 3 strips, R 1 mm", src.String())

	require.Equal(t, "R 1 mm, measured (give or take 0.06 mm): K 0.43, give or take 0.06; a deduction of 3.74 mm at 90 degrees, give or take 0.23 mm.", s.Groups[0].Says)

	// Fewer than three: no call, but the contradiction is said, and the spread has room for both.
	s = Examine(withK(0.2, 0.5))
	require.Equal(t, "used", s.Strips[0].State)
	require.Equal(t, "used", s.Strips[1].State)
	require.Equal(t, []string{"Strips 1 and 2 contradict each other: K 0.2 to 0.5 with R 1 mm, more than a rule and a protractor are out by. Measure both again, or bend a third."}, s.Words)
	k, spread, _, ok, _ = s.K(1, 2.5)
	require.True(t, ok)
	require.InDelta(t, 0.35, k, 1e-9)
	require.Greater(t, spread, 0.149)

	// Two and two: none is off the others, all contradict.
	s = Examine(withK(0.2, 0.2, 0.55, 0.55))
	for _, v := range s.Strips {
		require.Equal(t, "used", v.State)
	}
	require.Contains(t, s.Words[0], "Strips 1, 2, 3 and 4 contradict each other")

	// What a rule may be out by is no contradiction and no outlier.
	s = Examine(withK(0.40, 0.43, 0.47))
	require.Empty(t, s.Words)
}

// One spoilt strip among good ones is found, and the rest give R and K.
func TestPlantedOutlier(t *testing.T) {
	rnd := newRand(t)
	found, wrong, n := 0, 0, 0
	for range 400 {
		thick := 1 + 2*rnd.Float64()
		radius, k := thick*(0.5+rnd.Float64()), 0.3+0.15*rnd.Float64()
		at := []float64{60, 90, 90, 120, 135, 150, 135}
		known := rnd.IntN(2) == 0
		if known {
			at = []float64{90, 90, 90, 90}
		}
		spoilt := rnd.IntN(len(at))
		var strips []Strip
		for i, a := range at {
			s := bent(radius, k, thick, 150, a, false)
			if known {
				s.Radius = ptr(radius)
			}
			s = misread(rnd, s, 0.3)
			if i == spoilt {
				s.Legs[0] += 3 * (2*float64(rnd.IntN(2)) - 1)
			}
			strips = append(strips, s)
		}
		for i, v := range Examine(strips).Strips {
			n++
			switch {
			case i == spoilt && v.State != "used":
				found++
			case i != spoilt && v.State != "used":
				wrong++
			}
		}
	}
	t.Logf("found %d of 400, wrongly left out %d of %d", found, wrong, n)
	require.Greater(t, found, 380)
	require.Less(t, wrong, n/100)
}

func TestImpossibleAndOther(t *testing.T) {
	strips := withK(0.42, 0.43)
	strips[1].Name = "left"
	strips = append(strips, Strip{Thickness: 2.5, Length: 100, Legs: [2]float64{40, 40}, Angle: 90, Radius: ptr(1), Name: "bad"}, withK(0.4)[0])
	strips[3].Thickness = 1
	s := Examine(strips)
	require.Equal(t, "impossible", s.Strips[2].State)
	require.Equal(t, "Strip 3 (bad) can't be: legs 40 mm + 40 mm on a strip of 100 mm at 90 degrees: together they must measure 103.07 mm to 105.43 mm with an inside radius of 1 mm. It was left out.", s.Strips[2].Words[0])
	require.Equal(t, "impossible", s.Strips[3].State) // lengths of 2.5 mm sheet can't be of 1 mm
	require.Equal(t, "Strip 2 (left)", s.Strips[1].Name)
	require.InDelta(t, 2.5, s.Thickness, 1e-12)

	thin := bent(1, 0.4, 1.5, 100, 90, false)
	s = Examine(append(withK(0.42, 0.43), thin))
	require.Equal(t, "left out", s.Strips[2].State)
	require.Equal(t, "Strip 3 is 1.5 mm thick where the others are 2.5 mm: it belongs to another sheet. It was left out.", s.Strips[2].Words[0])
	_, _, _, ok, why := s.K(1, 1.5)
	require.False(t, ok)
	require.Equal(t, "The strips are 2.5 mm thick, not 1.5 mm.", why)

	_, _, _, ok, why = Examine(nil).K(1, 1)
	require.False(t, ok)
	require.NotEmpty(t, why)
	_, _, _, ok = Examine(nil).Set(90, 1, 1)
	require.False(t, ok)
}

// A nose smaller than the bend's real radius: with one angle K comes out impossible and the range of radii is named; with
// clearly different angles the strips give the radius.
func TestNoseIsNotRadius(t *testing.T) {
	strips := []Strip{bent(4, 0.45, 1, 100, 90, false), bent(4, 0.45, 1, 100, 90, false)}
	for i := range strips {
		strips[i].Nose = 0.5
	}
	s := Examine(strips)
	_, _, _, ok, why := s.K(0.5, 1)
	require.False(t, ok)
	require.Contains(t, why, "lies between 0 and 0.6")
	require.Len(t, s.Words, 1)
	// D = 0.4292*4 + (2 - 0.4500*pi/2) = 3.0099; R = (D - 2 + pi/2*K)/0.4292 for K 0 and 0.6: 2.35, 4.55.
	require.Contains(t, s.Words[0], "With these legs the inside radius is 2.35 mm to 4.55 mm. Measure it.")

	strips[1] = bent(4, 0.45, 1, 100, 135, false)
	strips[1].Nose = 0.5
	s = Examine(strips)
	require.Equal(t, "fitted", s.Groups[0].RadiusFrom)
	r, spread, src, ok, _ := s.Radius(0.5)
	require.True(t, ok)
	require.InDelta(t, 4, r, 1e-9)
	require.Greater(t, spread, 0.2)
	require.Equal(t, Measured, src.Kind)
	_, _, _, ok, why = s.K(0.5, 1)
	require.False(t, ok)
	require.Equal(t, "On the nose of 0.5 mm the strips came out with an inside radius of 4 mm, not 0.5 mm: give the bend that radius.", why)
	_, _, _, ok, _ = s.Radius(2)
	require.False(t, ok)
}

// What else is said of strips that tell R and K together, or of several brakes.
func TestStudyWords(t *testing.T) {
	at := func(angles ...float64) (out []Strip) {
		for _, a := range angles {
			out = append(out, bent(1.5, 0.42, 1.5, 100, a, false))
		}
		return out
	}
	// 60 and 90 degrees tell R from K badly: the doubt of R is the error of y over what 90 degrees add beyond 60.
	s := Examine(at(60, 90))
	require.Equal(t, "fitted", s.Groups[0].RadiusFrom)
	require.Greater(t, s.Groups[0].RadiusSpread, 2.0)
	require.Contains(t, s.Words[0], "From these angles the inside radius is only known as 1.5 mm give or take")
	// 30 and 60 not at all.
	s = Examine(at(30, 60))
	require.Empty(t, s.Groups[0].RadiusFrom)
	require.Equal(t, []string{"Strips 1 and 2: their angles are too alike to tell the inside radius from K. Measure the radius, or bend strips of angles further apart, 90 and 135 degrees say."}, s.Words)
	k, _, _, ok, why := s.K(1.5, 1.5)
	require.True(t, ok)
	require.InDelta(t, 0.42, k, 1e-9)
	require.Contains(t, why, "at 30 to 60 degrees")
	// Three angles of which one is 2 mm off: nobody can say which.
	spoilt := at(90, 120, 150)
	spoilt[1].Legs[0] += 2
	spoilt[1].Brake, spoilt[2].Brake = "bench", "floor"
	s = Examine(spoilt)
	for _, v := range s.Strips {
		require.Equal(t, "used", v.State)
	}
	require.Contains(t, strings.Join(s.Words, "\n"), "contradict each other")
	require.Contains(t, strings.Join(s.Words, "\n"), "Strips of several brakes are taken together: bench, floor.")
	// R and K that no bend has.
	spoilt = at(90, 135)
	spoilt[0].Legs[0], spoilt[1].Legs[0] = spoilt[0].Legs[0]-0.9, spoilt[1].Legs[0]+0.9
	s = Examine(spoilt)
	require.Empty(t, s.Groups[0].RadiusFrom)
	require.Contains(t, s.Words[0], "which no bend has: they contradict each other")
	// Measured radii further apart than a gauge is out by.
	s = Examine([]Strip{{Thickness: 1, Angle: 90, Set: ptr(95), Nose: 1, Radius: ptr(1)}, {Thickness: 1, Angle: 90, Set: ptr(95), Nose: 1, Radius: ptr(1.5)}})
	require.Equal(t, []string{"On the nose of 1 mm the inside radii measured on Strips 1 and 2 differ by more than a gauge is out by: 1 mm to 1.5 mm. Measure them again."}, s.Words)
	r, spread, _, ok, _ := s.Radius(1)
	require.True(t, ok)
	require.InDelta(t, 1.25, r, 1e-12)
	require.Greater(t, spread, 0.24)
}

func TestLine(t *testing.T) {
	var strips []Strip
	for _, r := range []float64{1, 2, 4} {
		s := bent(r, 0.35+0.1*math.Log10(r), 1, 120, 90, false)
		s.Radius = ptr(r)
		s.Brake = "bench"
		strips = append(strips, s)
	}
	s := Examine(strips)
	require.Len(t, s.Groups, 3)
	k, spread, src, ok, _ := s.K(3, 1)
	require.True(t, ok)
	require.InDelta(t, 0.35+0.1*math.Log10(3), k, 1e-9)
	require.Greater(t, spread, 0.05)
	require.Equal(t, "measured by you: 3 strips, R 1 mm to 4 mm, K drawn between by R/T", src.String())
	k, _, src, ok, _ = s.K(2, 1)
	require.True(t, ok)
	require.InDelta(t, 0.35+0.1*math.Log10(2), k, 1e-9)
	require.Equal(t, "measured by you: 1 strip, R 2 mm, brake bench", src.String())
	for _, r := range []float64{0, 0.7, 4.3, 10} {
		_, _, _, ok, why := s.K(r, 1)
		require.False(t, ok, "%g", r)
		require.Contains(t, why, "1 mm, 2 mm, 4 mm")
	}
}

func TestSet(t *testing.T) {
	strip := func(angle, set float64) Strip { return Strip{Thickness: 1, Nose: 1, Angle: angle, Set: &set} }
	s := Examine([]Strip{strip(90, 95), strip(91, 96), strip(89.5, 94.5)})
	require.Equal(t, "used", s.Strips[0].State)
	require.Equal(t, "Strip 1: set to 95 degrees, it came back to 90 degrees.", s.Strips[0].Words[0])
	set, doubt, src, ok := s.Set(90, 1, 1)
	require.True(t, ok)
	require.InDelta(t, 95, set, 0.05)
	require.InDelta(t, AngleError, doubt, 0.1)
	require.Equal(t, "measured by you: 3 strips, nose 1 mm", src.String())
	set, far, src, ok := s.Set(150, 1, 1)
	require.True(t, ok)
	require.InDelta(t, 150*95/90.0, set, 0.1)
	require.Greater(t, far, doubt)
	require.Contains(t, src.Title, "tested only at 89.5 to 91 degrees, far from this angle")
	for _, bad := range [][3]float64{{180, 1, 1}, {178, 1, 1}, {0, 1, 1}, {math.NaN(), 1, 1}, {90, 3, 1}, {90, 1, 2}} {
		_, _, _, ok = s.Set(bad[0], bad[1], bad[2])
		require.False(t, ok, "%v", bad)
	}
	_, _, _, ok, why := s.K(1, 1)
	require.False(t, ok)
	require.Equal(t, "No test bend has a strip's length and both legs that can be used.", why)

	s = Examine([]Strip{strip(90, 95), strip(90, 94.5), strip(90, 95), strip(90, 110)})
	require.Equal(t, "left out", s.Strips[3].State)
	require.Contains(t, s.Strips[3].Words[0], "Strip 4 came back to 81.8 % of its set angle where the others came back to 94.7 to 95.2 %")
	require.Equal(t, 3, s.Groups[0].Sets)
	s = Examine([]Strip{strip(90, 95), strip(90, 110)})
	require.Contains(t, s.Words[0], "Strips 1 and 2 contradict each other")
}

// FuzzExamine: whatever the strips, nothing panics, every strip has its word, and every figure is finite.
func FuzzExamine(f *testing.F) {
	f.Add(1.0, 100.0, 50.0, 52.0, 90.0, 1.0, 94.0, 0.0, uint8(0), 1.0, 1.0)
	f.Add(1e-3, 1e6, 1e6, 1e6, 180.0, 0.0, 180.0, 1e6, uint8(7), 0.0, 1e6)
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, 1e-300, 5e-324, math.NaN(), -0.0, uint8(255), math.Inf(1), math.NaN())
	f.Fuzz(func(t *testing.T, thick, length, a, b, angle, radius, set, nose float64, how uint8, asked, askedThick float64) {
		one := Strip{Thickness: thick, Length: length, Legs: [2]float64{a, b}, Angle: angle, Nose: nose, Inside: how&1 != 0}
		if how&2 != 0 {
			one.Radius = &radius
		}
		if how&4 != 0 {
			one.Set = &set
		}
		two, three, four := one, bent(1, 0.4, 1, 100, 90, false), bent(1, 0.4, 1, 100, 135, false)
		two.Angle, two.Legs[0] = angle*0.7, a*1.01
		three.Thickness, four.Thickness = thick, thick
		five := one
		five.Nose = nose * 2
		for _, strips := range [][]Strip{{one}, {one, two}, {one, one, two, three}, {one, two, three, four, five, two, one}} {
			s := Examine(strips)
			require.Len(t, s.Strips, len(strips))
			for _, v := range s.Strips {
				require.NotEmpty(t, v.Words)
				finite(t, v.K, v.KSpread, v.Deduction, v.Ratio)
			}
			for _, g := range s.Groups {
				finite(t, g.Radius, g.RadiusSpread, g.K, g.KSpread, g.Deduction, g.DeductionSpread, g.Ratio, g.RatioSpread)
			}
			for _, w := range s.Words {
				require.NotContains(t, w, "NaN")
				require.NotContains(t, w, "Inf")
			}
			k, spread, src, ok, why := s.K(asked, askedThick)
			finite(t, k, spread)
			require.True(t, ok || why != "")
			if ok {
				require.True(t, k >= 0 && k <= MaxK)
				require.Equal(t, Measured, src.Kind)
			}
			r, spread, _, _, _ := s.Radius(nose)
			finite(t, r, spread)
			at, doubt, _, ok := s.Set(angle, asked, askedThick)
			finite(t, at, doubt)
			require.True(t, !ok || at >= angle && at < 180 && doubt >= AngleError)
		}
	})
}

func finite(t *testing.T, vs ...float64) {
	t.Helper()
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("not finite: %v", vs)
		}
	}
}
