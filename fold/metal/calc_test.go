package metal

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestReckonExamples puts every row of testdata/published/bend_allowance.csv to the calculator, by the rule that its
// source uses or by the K that its printed rule comes to. The sources and their marks stand in the table.
func TestReckonExamples(t *testing.T) {
	f, err := os.Open("../../testdata/published/bend_allowance.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	num := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err, s)
		return x
	}
	// chart is K by what the FAA handbook's chart gives for a degree at R 0.156, T 0.040 in, taken at another R.
	chart := func(radius, thick float64) *float64 { return ptr((0.003034/degree - radius) / thick) }
	cases := map[string]func(radius, thick float64) Ask{
		"FAA-U":     func(r, th float64) Ask { return Ask{K: chart(r, th)} },
		"FAA-L60":   func(r, th float64) Ask { return Ask{K: chart(r, th)} },
		"SMW-3bend": func(r, th float64) Ask { return Ask{Rule: "FAA"} },
		// Soft steel, 0.64; of the list's metals aluminium has that constant.
		"MH-diag5": func(r, th float64) Ask { return Ask{Rule: "machinery", Metal: "5052-H32"} },
		// v = 0.5 r + 1.5 t at 90 degrees: 2(r+t) - pi/2 (r + K t) = v.
		"WM-U":  func(r, th float64) Ask { return Ask{K: ptr(((2*(r+th)-0.5*r-1.5*th)/(math.Pi/2) - r) / th)} },
		"TM-U":  func(r, th float64) Ask { return Ask{Rule: "DIN 6935"} },
		"BD-45": func(r, th float64) Ask { return Ask{} },
	}
	seen := map[string]bool{}
	for _, row := range rows[1:] {
		id, read, unit, quantity := row[0], row[2], 1.0, row[10]
		require.Contains(t, []string{"read", "from memory"}, read)
		require.Contains(t, cases, id)
		seen[id] = true
		if row[3] == "in" {
			unit = 25.4
		}
		radii, angles := strings.Split(row[5], "/"), strings.Split(row[6], "+")
		thick := num(row[4])
		var answers []Answer
		for i := range angles {
			radius := num(radii[min(i, len(radii)-1)])
			if strings.HasSuffix(quantity, "_right") { // the row gives that bend alone
				radius = num(radii[0])
			}
			q := cases[id](radius, thick)
			q.Thickness, q.Radius, q.Angle = thick*unit, radius*unit, num(angles[i])
			for _, l := range strings.Split(row[7], ";") {
				if l != "" && !strings.Contains(l, "straight") {
					q.Legs = append(q.Legs, num(l)*unit)
				}
			}
			a, err := Reckon(q)
			require.NoError(t, err, id)
			answers = append(answers, a)
		}
		a := answers[0]
		var got float64
		switch quantity {
		case "setback":
			got = a.Setback
		case "two_setbacks":
			got = 2 * a.Setback
		case "flat1", "flat2", "flat3":
			got = a.Flats[quantity[4]-'1']
		case "bend_allowance", "bend_allowance_left", "bend_allowance_right":
			got = a.Allowance
		case "bend_allowance_per_degree":
			got = a.Allowance / a.Angle
		case "bend_deduction":
			got = a.Deduction
		case "sum_mold_lines":
			for _, l := range a.Outside {
				got += l
			}
		case "developed_length":
			got = a.Developed
			if id == "MH-diag5" { // 3.5 in of straight lengths and two different bends
				got = 3.5*unit + answers[0].Allowance + answers[1].Allowance
			}
		default:
			t.Fatalf("%s: %s is not looked at", id, quantity)
		}
		require.InDelta(t, num(row[11]), got/unit, num(row[13]), "%s %s (%s, %s)", id, quantity, row[1], read)
	}
	require.Len(t, seen, len(cases))
	// FAA-U by the formula, R 0.16 in: 3.758 in, as the table's note says.
	a, err := Reckon(Ask{Thickness: 1.016, Radius: 4.064, Angle: 90, Legs: []float64{25.4, 50.8, 25.4}})
	require.NoError(t, err)
	require.InDelta(t, 3.758, a.Developed/25.4, 0.0005)
}

// Legs develop and fold back: straight lengths and arcs make the strip, straight lengths and setbacks the legs;
// inside legs give what outside legs give.
func TestReckonFoldsBack(t *testing.T) {
	rnd := newRand(t)
	for range 2000 {
		thick := 0.4 + 5*rnd.Float64()
		q := Ask{Thickness: thick, Radius: 4 * thick * rnd.Float64(), Angle: 1 + 239*rnd.Float64(), K: ptr(0.6 * rnd.Float64())}
		s, _ := Setback(q.Angle, q.Radius, q.Thickness)
		var want []float64
		flats := 0.0
		n := 2 + rnd.IntN(5)
		for i := range n {
			f, ends := 100*rnd.Float64(), 2.0
			if i == 0 || i == n-1 {
				ends = 1
			}
			want = append(want, f)
			flats += f
			q.Legs = append(q.Legs, f+ends*s)
		}
		a, err := Reckon(q)
		require.NoError(t, err)
		require.InDeltaSlice(t, want, a.Flats, 1e-9)
		require.InDelta(t, flats+float64(n-1)*q.Angle*degree*(q.Radius+*q.K*thick), a.Developed, 1e-9)
		require.Equal(t, q.Legs, a.Outside)
		if q.Angle <= 90 {
			require.InDelta(t, want[0]+q.Radius*math.Tan(q.Angle*degree/2), a.Inside[0], 1e-9)
		} else {
			require.InDelta(t, want[0]+q.Radius, a.Inside[0], 1e-9)
		}
		in := q
		in.Legs, in.Inside = a.Inside, true
		b, err := Reckon(in)
		require.NoError(t, err)
		require.InDelta(t, a.Developed, b.Developed, 1e-9)
		require.InDeltaSlice(t, a.Outside, b.Outside, 1e-9)

		// A test bend is a strip as the calculator develops it.
		if n == 2 && q.Angle <= 180 {
			tested := Strip{Thickness: thick, Length: a.Developed, Legs: [2]float64(a.Inside), Inside: true, Angle: q.Angle, Radius: &q.Radius}
			k, _, _, ok, why := Examine([]Strip{tested}).K(q.Radius, thick)
			require.True(t, ok, why)
			require.InDelta(t, *q.K, k, 1e-9)
		}
	}
}

// What another rule, radius or K would change is what changes when it is set.
func TestReckonDiffers(t *testing.T) {
	rnd := newRand(t)
	for range 300 {
		thick := 0.5 + 3*rnd.Float64()
		q := Ask{Thickness: thick, Radius: 3 * thick * rnd.Float64(), Angle: 20 + 150*rnd.Float64(), Metal: "304", Legs: []float64{90, 100, 80}}
		if rnd.IntN(2) == 0 {
			q.Legs = nil
		}
		a, err := Reckon(q)
		require.NoError(t, err)
		require.Equal(t, DefaultRule, a.Rule)
		require.Len(t, a.Others, len(Rules)-1)
		last := math.Inf(1)
		for _, o := range a.Others {
			require.Empty(t, o.Why)
			require.LessOrEqual(t, math.Abs(o.Differs), last)
			last = math.Abs(o.Differs)
			other := q
			other.Rule = o.Rule
			b, err := Reckon(other)
			require.NoError(t, err)
			require.Equal(t, b.K, o.K)
			require.Equal(t, b.KSource, o.Source)
			require.InDelta(t, b.Deduction, o.Deduction, 1e-12)
			require.InDelta(t, b.Developed, o.Developed, 1e-9)
			require.InDelta(t, float64(a.Bends)*(b.Allowance-a.Allowance), o.Differs, 1e-9)
		}
		last = math.Inf(1)
		for _, n := range a.Nexts {
			require.LessOrEqual(t, math.Abs(n.Differs), last)
			last = math.Abs(n.Differs)
			other := q
			other.Radius = n.Radius
			if n.About == "k" {
				other.K = &n.K
				require.InDelta(t, nextK, math.Abs(n.K-a.K), 1e-12)
			} else {
				require.True(t, n.Radius == 0 || math.Abs(math.Abs(n.Radius-q.Radius)-thick/2) < 1e-9)
			}
			b, err := Reckon(other)
			require.NoError(t, err)
			require.InDelta(t, b.K, n.K, 1e-12)
			require.InDelta(t, b.Developed, n.Developed, 1e-9)
			require.InDelta(t, float64(a.Bends)*(a.Deduction-b.Deduction), n.Differs, 1e-9)
		}
	}
}

// The order in which K is found: given, test bends, the maker's own metal, rule; and what is said of each.
func TestReckonK(t *testing.T) {
	strips := withK(0.33, 0.34, 0.35)
	for i := range strips {
		strips[i].Metal, strips[i].Set = "shop tin", ptr(94)
	}
	own := []Own{{Name: "Shop tin", Like: "mild steel", K: ptr(0.41), Note: "last year's trays"}}
	q := Ask{Thickness: 2.5, Radius: 1, Angle: 90, Metal: "shop tin", Own: own, Tests: strips, Legs: []float64{40, 60}}
	a, err := Reckon(q)
	require.NoError(t, err)
	require.InDelta(t, 0.34, a.K, 1e-9)
	require.Greater(t, a.KSpread, 0.03)
	require.Equal(t, "measured by you: 3 strips, R 1 mm", a.KSource.String())
	require.Empty(t, a.Rule)
	require.Len(t, a.Others, len(Rules))
	require.InDelta(t, 94, a.Set, 1e-9)
	require.Equal(t, AngleError, a.SetDoubt)
	require.Equal(t, "spread", a.Nexts[len(a.Nexts)-1].About)

	given := q
	given.K = ptr(0.5)
	a, err = Reckon(given)
	require.NoError(t, err)
	require.Equal(t, 0.5, a.K)
	require.Equal(t, Assumed, a.KSource.Kind)
	require.Contains(t, strings.Join(a.Notes, "\n"), "K 0.5 was given; nobody says where it comes from, so it is assumed.")
	require.Len(t, a.Others, len(Rules)+1)
	var tests *Other
	for i := range a.Others {
		if a.Others[i].Rule == "tests" {
			tests = &a.Others[i]
		}
	}
	require.NotNil(t, tests)
	require.InDelta(t, -0.16*2.5*math.Pi/2, tests.Differs, 1e-9)

	q.Radius = 4
	a, err = Reckon(q)
	require.NoError(t, err)
	require.Equal(t, 0.41, a.K)
	require.Contains(t, a.KSource.String(), "last year's trays")
	require.Contains(t, a.Notes[0], "Your test bends of this metal and thickness don't give K here. The strips have an inside radius of 1 mm; R 4 mm needs strips of its own")

	q.Rule = "din"
	a, err = Reckon(q)
	require.NoError(t, err)
	require.Equal(t, "din", a.Rule)
	require.Equal(t, Published, a.KSource.Kind)

	a, err = Reckon(Ask{Thickness: 1, Radius: 0, Angle: 90})
	require.NoError(t, err)
	require.Contains(t, strings.Join(a.Notes, "\n"), "R 0 mm is a sharp bend")
	require.Contains(t, strings.Join(a.Notes, "\n"), "Bend a strip first")
	for _, o := range a.Others { // no metal: two rules have no answer, and stand last
		require.Equal(t, o.Rule == "machinery" || o.Rule == "table", o.Why != "")
	}
	require.NotEmpty(t, a.Others[len(a.Others)-1].Why)

	a, err = Reckon(Ask{Thickness: 1, Radius: 1, Angle: 90, Metal: "2024-T3"})
	require.NoError(t, err)
	notes := strings.Join(a.Notes, "\n")
	require.Contains(t, notes, "R 1 mm is under the least radius")
	require.Contains(t, notes, "Bend a strip first: the springback formula's set angle of")
	require.Contains(t, notes, "Hand benches see several degrees more (common practice, no source)")
	require.Greater(t, a.SetLeast.Lo, 90.0)

	for angle, want := range map[float64]string{120: "outermost tangent plane", 180: "a hem: bend to the leaf's limit", 240: "a teardrop hem: the leg turns back towards the sheet by 60 degrees"} {
		a, err = Reckon(Ask{Thickness: 1, Radius: 1, Angle: angle, Metal: "304"})
		require.NoError(t, err)
		require.Contains(t, strings.Join(a.Notes, "\n"), want)
		require.Equal(t, angle >= 180, math.IsInf(a.Mold, 1))
		require.Equal(t, angle >= 180, a.SetLeast == Range{})
		require.Equal(t, 2.0, a.Setback)
	}
}

func TestAskErrors(t *testing.T) {
	good := Ask{Thickness: 1, Radius: 1, Angle: 90, Legs: []float64{20, 30, 20}}
	_, err := Reckon(good)
	require.NoError(t, err)
	for _, c := range []struct {
		change      func(*Ask)
		field, want string
	}{
		{func(q *Ask) { q.Thickness = 0 }, "thickness", "thickness 0 mm: it must be 0.001 mm to 1000000 mm"},
		{func(q *Ask) { q.Thickness = math.NaN() }, "thickness", ""},
		{func(q *Ask) { q.Radius = -0.5 }, "radius", "radius -0.5 mm: the inside radius is 0 mm (a sharp bend) to 1000000 mm"},
		{func(q *Ask) { q.Radius = math.Inf(1) }, "radius", ""},
		{func(q *Ask) { q.Angle = 250 }, "angle", "angle 250 degrees: the bend angle is counted from flat: over 0 to 180 degrees, a teardrop hem to 240"},
		{func(q *Ask) { q.Angle = 0 }, "angle", ""},
		{func(q *Ask) { q.K = ptr(0.61) }, "k", "k 0.61: K is where the neutral line lies, as a share of the thickness from the inside: 0 to 0.6"},
		{func(q *Ask) { q.K = ptr(-0.1) }, "k", ""},
		{func(q *Ask) { q.Rule = "guess" }, "rule", `rule "guess": one of faa (FAA-H-8083-31), din (DIN 6935), machinery (Machinery's Handbook), table (K by R/T)`},
		{func(q *Ask) { q.Rule = "machinery" }, "metal", ""},
		{func(q *Ask) { q.Legs = []float64{20} }, "legs", "legs 20 mm: a bent strip has two legs or more"},
		{func(q *Ask) { q.Legs[1] = -3 }, "legs[1]", "legs[1] -3 mm: over 0 mm to 1000000 mm"},
		{func(q *Ask) { q.Legs[1] = 3 }, "legs[1]", "legs[1] 3 mm: with R 1 mm and 1 mm of thickness a leg with both ends bent to 90 degrees measures at least 4 mm outside"},
		{func(q *Ask) { q.Legs[0], q.Inside = 0.5, true }, "legs[0]", "legs[0] 0.5 mm: with R 1 mm and 1 mm of thickness a leg with one end bent to 90 degrees measures at least 1 mm inside"},
		{func(q *Ask) { q.Legs = make([]float64, MaxLegs+1) }, "legs", ""},
	} {
		q := good
		q.Legs = append([]float64(nil), good.Legs...)
		c.change(&q)
		_, err := Reckon(q)
		var e *AskError
		require.True(t, errors.As(err, &e), "%+v", q)
		require.Equal(t, c.field, e.Field)
		if c.want != "" {
			require.Equal(t, c.want, err.Error())
		}
	}
}

// FuzzReckon: whatever is asked, an error with words or an answer all of whose figures are finite, but the
// mold setback of a hem.
func FuzzReckon(f *testing.F) {
	f.Add(1.0, 1.0, 90.0, 0.42, 40.0, 60.0, 1.0, 100.0, 52.0, "faa", "304", uint8(0))
	f.Add(1e-3, 1e6, 240.0, 0.0, 1e6, 1e6, 5e-324, 1e6, 1e6, "", "", uint8(255))
	f.Add(math.NaN(), math.Inf(1), -1.0, 1.0, 0.0, -1.0, math.NaN(), 0.0, 0.0, "DIN 6935", "\xff", uint8(3))
	f.Fuzz(func(t *testing.T, thick, radius, angle, k, a, b, yield, length, leg float64, rule, name string, how uint8) {
		q := Ask{Thickness: thick, Radius: radius, Angle: angle, Rule: rule, Metal: name, Inside: how&1 != 0}
		if how&2 != 0 {
			q.K = &k
		}
		if how&4 != 0 {
			q.Legs = []float64{a, b, a}
		}
		if how&8 != 0 {
			q.Own = []Own{{Name: name, Like: "304", Yield: [2]float64{yield, 2 * yield}, Modulus: yield, Density: yield, LeastRT: &yield}}
			if how&16 != 0 {
				q.Own[0].K = &k
			}
		}
		if how&32 != 0 {
			s := Strip{Metal: name, Thickness: thick, Length: length, Legs: [2]float64{leg, leg}, Angle: angle, Set: &yield, Nose: radius}
			q.Tests = []Strip{s, s}
			q.Tests[1].Angle = angle / 2
		}
		got, err := Reckon(q)
		if err != nil {
			var e *AskError
			require.True(t, errors.As(err, &e))
			require.NotEmpty(t, e.Field)
			require.NotEmpty(t, e.Need)
			return
		}
		finite(t, got.K, got.KSpread, got.Allowance, got.Setback, got.Deduction, got.Developed, got.Set, got.SetDoubt, got.SetLeast.Lo, got.SetLeast.Hi)
		require.True(t, got.K >= 0 && got.Allowance > 0)
		if angle < 180 {
			finite(t, got.Mold)
		}
		finite(t, got.Outside...)
		finite(t, got.Inside...)
		for _, v := range got.Flats {
			require.GreaterOrEqual(t, v, 0.0)
		}
		for _, o := range got.Others {
			finite(t, o.K, o.Allowance, o.Deduction, o.Developed, o.Differs)
		}
		for _, n := range got.Nexts {
			finite(t, n.K, n.Radius, n.Allowance, n.Deduction, n.Developed, n.Differs)
			require.True(t, n.K >= 0 && n.Radius >= 0)
		}
		for _, n := range got.Notes {
			require.NotContains(t, n, "NaN")
		}
	})
}

// What test bends give stands beside a K and a rule that go before them, and the notes say which went before.
func TestReckonTestsBeside(t *testing.T) {
	q := Ask{Thickness: 2.5, Radius: 1, Angle: 90, Metal: "304", Tests: withK(0.33, 0.34, 0.35)}
	for i := range q.Tests {
		q.Tests[i].Metal = "304"
	}
	for _, c := range []struct {
		by, note string
		change   func(*Ask)
	}{
		{"tests", "", func(*Ask) {}},
		{"given", "The K given goes before your own test bends; what they give, K 0.34, stands beside it.", func(q *Ask) { q.K = ptr(0.4) }},
		{"rule", "The rule you named goes before your own test bends; what they give, K 0.34, stands beside it.", func(q *Ask) { q.Rule = "din" }},
		{"rule", "The rule you named goes before your own test bends", func(q *Ask) { q.Rule = "machinery" }}, // stainless is assumed there
		{"default", "", func(q *Ask) { q.Tests = nil }},
	} {
		q := q
		c.change(&q)
		a, err := Reckon(q)
		require.NoError(t, err)
		require.Equal(t, c.by, a.KBy)
		beside := 0
		for _, o := range a.Others {
			if o.Rule == "tests" {
				beside++
				require.InDelta(t, 0.34, o.K, 1e-9)
			}
		}
		if c.note == "" {
			require.Zero(t, beside)
			require.NotContains(t, strings.Join(a.Notes, "\n"), "goes before")
			continue
		}
		require.Equal(t, 1, beside, "%+v", a.Others)
		require.Contains(t, strings.Join(a.Notes, "\n"), c.note)
	}
}

// A radius that is a list's least but for rounding is not under it, and lists count once each.
func TestReckonLeast(t *testing.T) {
	note := func(metal string, thickness, radius float64) string {
		a, err := Reckon(Ask{Thickness: thickness, Radius: radius, Angle: 90, Metal: metal})
		require.NoError(t, err)
		for _, n := range a.Notes {
			if strings.Contains(n, "least radius") {
				return n
			}
		}
		return ""
	}
	for _, thickness := range []float64{0.05 * mmPerInch, 0.09 * mmPerInch, 0.125 * mmPerInch, 2.3, 3.1} {
		require.Empty(t, note("5052-H32", thickness, 1.5*thickness), "%v", thickness)
		require.Empty(t, note("5052-H32", thickness, 1.5*thickness-0.9*leastSlack), "%v", thickness)
	}
	require.Contains(t, note("5052-H32", 3, 4.5-1.1*leastSlack), "of 1 of 3 lists, 0 mm to 4.5 mm")
	// Mild steel 1.5 mm: 0.75 and 0.8 by two lists, 1.6 and 2 by the classes of the third, whatever the grain.
	require.Contains(t, note("mild steel", 1.5, 1), "of 1 of 3 lists, 0.75 mm to 2 mm")
	a, err := Reckon(Ask{Thickness: 1, Radius: 500, Angle: 90})
	require.NoError(t, err)
	require.Zero(t, a.K)
	require.Contains(t, strings.Join(a.Notes, "\n"), "At R/T 500 the rule's constants come to no K over 0")
}
