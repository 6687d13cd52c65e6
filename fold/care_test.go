package fold

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// angleStrip is a strip 100 x 40 with one bend of 90 degrees across it at x = 60, so that the free side is 40 less half the
// allowance.
func angleStrip(metalName string, t, r float64) Spec {
	return Spec{Name: "angle", Sheet: Sheet{Thickness: t, Metal: metalName}, Bends: []BendSpec{bendAt("wall", 60, 0, 60, 40, 90, r)},
		Outline: pts(0, 0, 100, 0, 100, 40, 0, 40)}
}

func rules(p *Part) (out []string) {
	for _, t := range p.Troubles {
		out = append(out, t.Rule)
	}
	return out
}

func troubleOf(t *testing.T, p *Part, rule string) Trouble {
	t.Helper()
	i := slices.Index(rules(p), rule)
	require.GreaterOrEqual(t, i, 0, "%s in %v", rule, p.Troubles)
	return p.Troubles[i]
}

// strips3 are test bends of which the fold has K 0.33 at R 1.5: each leg 50 outside, so that the length is
// 100 less the deduction 2 (R+T) - pi/2 (R + K T).
func strips3(name string, t, r, k float64) (out []metal.Strip) {
	for range 3 {
		rr := r
		out = append(out, metal.Strip{Metal: name, Thickness: t, Legs: [2]float64{50, 50}, Angle: 90, Radius: &rr,
			Length: 100 - metal.Deduction(90, r, t, k)})
	}
	return out
}

// K comes from the part; else from a rule it names; else from test bends that fit; else from the maker's own metal; else
// from the default rule. A rule without an answer lets the next speak.
func TestWhereKComesFrom(t *testing.T) {
	own, given := 0.39, 0.41
	s := angleStrip("Tin", 1.5, 1.5)
	s.Metals = []metal.Own{{Name: "Tin", K: &own}}
	s.Tests = strips3("tin", 1.5, 1.5, 0.33)
	check := func(change func(*Spec), k float64, by string) *Part {
		t.Helper()
		q := s
		change(&q)
		p := Build(q)
		require.True(t, p.Foldable)
		require.InDelta(t, k, p.Bends[0].K, 1e-9)
		require.Equal(t, by, p.Bends[0].KBy)
		return p
	}
	p := check(func(q *Spec) { q.Sheet.K = &given }, 0.41, "part")
	require.Equal(t, metal.Assumed, p.Bends[0].KKind)
	require.InDelta(t, 0.33, *troubleOf(t, p, "tests-unused").Need, 1e-9)
	p = check(func(q *Spec) { q.Sheet.K, q.Sheet.KFrom = &given, "measured on offcuts" }, 0.41, "part")
	require.Equal(t, metal.Measured, p.Bends[0].KKind)
	din := 0.65 / 2 // DIN 6935 at R = T
	p = check(func(q *Spec) { q.Sheet.Rule = "din" }, din, "rule")
	troubleOf(t, p, "tests-unused")
	p = check(func(q *Spec) { q.Sheet.Rule = "machinery" }, 0.33, "tests") // it has no constant for tin
	require.Contains(t, p.Bends[0].KSource, "Machinery's Handbook has")
	p = check(func(q *Spec) {}, 0.33, "tests")
	require.Equal(t, metal.Measured, p.Bends[0].KKind)
	require.NotContains(t, rules(p), "tests-unused")
	check(func(q *Spec) { q.Tests = nil }, 0.39, "metal")
	p = check(func(q *Spec) { q.Tests = strips3("tin", 1.5, 3, 0.4) }, 0.39, "metal") // strips of another radius
	require.Contains(t, p.Bends[0].KSource, "R 1.5 mm needs strips of its own")
	faa, _, err := metal.ByRule("faa", metal.Metal{}, false, 1.5, 1.5)
	require.NoError(t, err)
	check(func(q *Spec) { q.Tests, q.Metals = nil, nil }, faa, "rule")
	check(func(q *Spec) { q.Tests, q.Metals[0].K = strips3("tin", 2, 1.5, 0.4), nil }, faa, "rule") // of another thickness
}

// Aluminum Association, Aluminum Design Manual 2005 Table 3-1 (read): 6061-T6 1/16 in 1.5 T; 5052-H32 1 T. The least of the
// lists decides between watch and note.
func TestRadiusTight(t *testing.T) {
	p := Build(angleStrip("6061-T6", 1.5, 0.5))
	tr := troubleOf(t, p, "radius-tight")
	require.Equal(t, 0.5, *tr.Have)
	require.InDelta(t, 9, *tr.Need, 1e-9) // 6 T for hard aluminium, Kalpakjian & Schmid (from memory)
	require.NotContains(t, rules(Build(angleStrip("6061-T6", 1.5, 9))), "radius-tight")
	twice := 2.0
	s := angleStrip("mine", 1.5, 2)
	s.Metals = []metal.Own{{Name: "mine", Like: "6061-T6", LeastRT: &twice, Note: "bent a dozen"}}
	tr = troubleOf(t, Build(s), "radius-tight")
	require.Equal(t, Watch, tr.Severity)
	require.InDelta(t, 3, *tr.Need, 1e-12, "the maker's own figure goes before the lists")
	s.Bends[0].Radius = 3
	require.NotContains(t, rules(Build(s)), "radius-tight")
	// DIN 6935 Table 1 (from memory), steel up to 390 N/mm2, 3 to 4 mm: 5 across the grain, 6 along it.
	for grain, need := range map[float64]float64{0: 5, 90: 6} {
		s := angleStrip("Soft steel", 3.5, 5)
		s.Sheet.Grain = &grain
		p := Build(s)
		found := 0.0
		for _, l := range p.Check().Bends[0].LeastRadius {
			if l.Direction != "" {
				found = max(found, l.Radius)
			}
		}
		require.GreaterOrEqual(t, found, need)
		require.Equal(t, map[float64]string{0: "across", 90: "along"}[grain], p.Check().Bends[0].Grain)
	}
}

// The distance is from the hole's edge to the tangent line: 60 - allowance/2 - (x + radius).
func TestHoleNearBend(t *testing.T) {
	s := angleStrip("", 1.5, 1.5)
	k := 0.4
	s.Sheet.K = &k
	ba := metal.Allowance(90, 1.5, 1.5, k)
	at := func(off float64) *Part {
		q := s
		q.Holes = []Hole{{At: geom.Vec2{60 - ba/2 - off - 2, 20}, Diameter: 4}}
		return Build(q)
	}
	// Lists ask for 2 T from the tangent line (3) up to 3 T + R (6): design rules of the trade, which disagree.
	tr := troubleOf(t, at(1), "hole-near-bend")
	require.Equal(t, Watch, tr.Severity)
	require.InDelta(t, 1, *tr.Have, 0.006) // the hole's chords
	tr = troubleOf(t, at(4), "hole-near-bend")
	require.Equal(t, Note, tr.Severity)
	require.NotContains(t, rules(at(6.01)), "hole-near-bend")
	// Off the end of a bend there is nothing to draw it out.
	q := s
	q.Outline = pts(0, 0, 61, 0, 61, -40, 120, -40, 120, 0, 100, 0, 100, 40, 0, 40)
	require.NotContains(t, rules(Build(q)), "hole-near-bend")
}

func TestLipShort(t *testing.T) {
	s := angleStrip("", 1, 1)
	k, lip := 0.4, 45.0
	s.Sheet.K, s.Sheet.Lip = &k, &lip
	p := Build(s)
	tr := troubleOf(t, p, "lip-short")
	// 40 from the bend line to the edge: less half the allowance, and the setback R + T on it.
	require.InDelta(t, 40-metal.Allowance(90, 1, 1, k)/2+2, *tr.Have, 1e-9)
	*s.Sheet.Lip = 41
	require.NotContains(t, rules(Build(s)), "lip-short")
}

// A list that gives a range for the least radius has its upper figure told: mild steel 0.5 to 4 T (Kalpakjian & Schmid, from memory).
func TestWholeRangeOfLists(t *testing.T) {
	require.Contains(t, troubleOf(t, Build(angleStrip("Mild steel", 1.5, 1)), "radius-tight").Message, "by one up to 6 mm")
}

func TestTestBendsAreHeard(t *testing.T) {
	s := angleStrip("Mild steel", 1.5, 1.5)
	s.Tests = append(strips3("mild steel", 1.5, 1.5, 0.4), strips3("mild steel", 1.5, 1.5, 0.4)...)
	require.NotContains(t, rules(Build(s)), "test-bend")
	s.Tests[1].Legs[0] += 2 // 2 mm off: no steel rule is out by that
	p := Build(s)
	require.Contains(t, troubleOf(t, p, "test-bend").Message, "Strip 2")
	require.Equal(t, Note, troubleOf(t, p, "test-bend").Severity, "what was left out spoils nothing")
	require.InDelta(t, 0.4, p.Bends[0].K, 1e-9, "it was left out")
	require.Equal(t, "metal-unknown", troubleOf(t, Build(angleStrip("unobtainium", 1, 1)), "metal-unknown").Rule)
}

// With K T as large as the neutral radius there is nothing to turn further; what the strips say is told all the same.
func TestSetAngleIsToldWhole(t *testing.T) {
	s := springy(angleStrip("", 1.5, 0), 5)
	k := 0.44
	s.Sheet.K = &k
	p := Build(s)
	require.Equal(t, p.Bends[0].Angle, p.Bends[0].Set)
	r := p.Check()
	require.InDelta(t, 95, r.Bends[0].SetAngle, 1e-9)
	require.Contains(t, r.Bends[0].SetSource, "one of the two is not right")
}

func TestPrice(t *testing.T) {
	s := angleStrip("6061-T6", 2, 2) // 100 x 40 x 2 mm of 2.7 g/cm3 (Aluminum Association, read): 21.7 g
	price := func(c Price) *PriceReport {
		q := s
		q.Price = c
		return Build(q).Check().Price
	}
	require.Nil(t, price(Price{}))
	p := price(Price{PerKg: 10, PerHour: 40, Hours: 0.5, Currency: "EUR"})
	require.InDelta(t, 0.217, p.Metal, 0.001)
	require.InDelta(t, p.Metal+20, p.Total, 1e-12)
	require.True(t, p.Known)
	p = price(Price{PerSheet: 100, Sheet: [2]float64{2000, 1000}})
	require.InDelta(t, 100*100*40/2e6, p.Total, 1e-12)
	require.Contains(t, price(Price{PerSheet: 100, Sheet: [2]float64{90, 90}}).How, "does not fit")
	require.InDelta(t, 0.217, price(Price{PerKg: 10, PerSheet: 100}).Total, 0.001, "metal is charged once")
	require.Contains(t, price(Price{Hours: 2}).How, "work wants both")
	s.Sheet.Metal = "unobtainium"
	require.False(t, price(Price{PerKg: 10}).Known)
}

// Two strips that can't both be right are a watch; what else there is to say of strips is none.
func TestContradictingStrips(t *testing.T) {
	s := angleStrip("Mild steel", 1.5, 1.5)
	s.Tests = append(strips3("mild steel", 1.5, 1.5, 0.2)[:1], strips3("mild steel", 1.5, 1.5, 0.55)[:1]...)
	tr := troubleOf(t, Build(s), "test-bend")
	require.Equal(t, Watch, tr.Severity)
	require.Contains(t, tr.Message, "contradict")
	s.Tests = append(strips3("mild steel", 1.5, 1, 0.3), strips3("mild steel", 1.5, 3, 0.4)...) // a line over R/T: no trouble
	require.NotContains(t, rules(Build(s)), "test-bend")
}
