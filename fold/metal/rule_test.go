package metal

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestRuleByName(t *testing.T) {
	for text, id := range map[string]string{
		"faa": "faa", "FAA": "faa", "FAA-H-8083-31": "faa", "din": "din", "DIN 6935": "din", "din6935": "din",
		"machinery": "machinery", "Machinery's Handbook": "machinery", "table": "table", "K by R/T": "table",
	} {
		r, ok := RuleByName(text)
		require.True(t, ok, text)
		require.Equal(t, id, r.ID, text)
	}
	for _, r := range Rules {
		got, ok := RuleByName(r.Name)
		require.True(t, ok, r.Name)
		require.Equal(t, r, got)
	}
	for _, text := range []string{"", "k", "din't"[:2], "guess", "0.44"} {
		_, ok := RuleByName(text)
		require.False(t, ok, text)
	}
	_, ok := RuleByName(DefaultRule)
	require.True(t, ok)
}

// Each rule's own allowance, by its printed constants, comes out of angle*(R + K*T).
func TestRulesExactly(t *testing.T) {
	r := newRand(t)
	for range 500 {
		thickness := .3 + 5*r.Float64()
		radius := thickness * 12 * r.Float64()
		angle := 240 * r.Float64()
		m := Metals[r.IntN(len(Metals))]
		for rule, want := range map[string]float64{
			"faa":       (0.01743*radius + 0.0078*thickness) * angle,
			"machinery": (m.Constant*thickness + 1.57*radius) * angle / 90,
			"din":       angle * math.Pi / 180 * (radius + thickness/2*dinTwin(radius/thickness)),
		} {
			k, src, err := ByRule(rule, m, true, radius, thickness)
			require.NoError(t, err)
			require.InDelta(t, want, Allowance(angle, radius, thickness, k), 1e-12*(1+want), "%s of %s: R %g T %g", rule, m.Name, radius, thickness)
			require.NotEmpty(t, src.Title)
		}
	}
}

// dinTwin is DIN 6935's k as its text says it (formula from memory).
func dinTwin(rt float64) float64 {
	if rt > 5 {
		return 1
	}
	return math.Min(1, math.Max(0, .65+math.Log10(rt)/2))
}

// DIN 6935: v as the standard has it, -Deduction, at every row of the grid.
func TestDINGrid(t *testing.T) {
	for _, row := range readPublished(t, "din6935_formula_grid") {
		r, s, angle := row.num(t, "r_mm"), row.num(t, "s_mm"), row.num(t, "bend_angle")
		require.Equal(t, 180.0, angle+row.num(t, "opening_angle_beta"), "%v", row)
		k, src, err := ByRule("din", Metal{}, false, r, s)
		require.NoError(t, err)
		require.Equal(t, row.memory(), src.Memory, "%v", row)
		require.InDelta(t, row.num(t, "k"), 2*k, 6e-6, "%v", row)
		require.InDelta(t, row.num(t, "arc_mm"), Allowance(angle, r, s, k), 6e-6, "%v", row)
		require.InDelta(t, row.num(t, "v_mm"), -Deduction(angle, r, s, k), 6e-6, "%v", row)
	}
}

// The standard prints that for thin sheet v changes its sign at an included angle of 65 deg 24' 30" (DIN 6935
// text, read): there the arc is as long as two setbacks.
func TestDINSignChange(t *testing.T) {
	v := func(included float64) float64 {
		const r, s = 10, 1e-6
		k, _, err := ByRule("din", Metal{}, false, r, s)
		require.NoError(t, err)
		return -Deduction(180-included, r, s, k)
	}
	at := 65 + 24.0/60 + 30.0/3600
	const second = 1.0 / 3600
	require.Positive(t, v(at-second))
	require.Negative(t, v(at+second))
}

func TestKFactors(t *testing.T) {
	class := map[string]Temper{"soft/aluminium": Soft, "medium": Medium, "hard/steel": Hard}
	ranges := map[string][]float64{"0 to T": {0, .4, 1}, "T to 3T": {1.01, 2, 3}, ">3T": {3.01, 8, 40}}
	constant := map[string]float64{"soft brass, soft copper": .55, "half-hard copper/brass, soft steel, aluminium": .64, "bronze, hard copper, CR steel, spring steel": .71}
	steel := metalNamed(t, "cold-rolled steel")
	for _, row := range readPublished(t, "k_factor") {
		want, source, of := row.num(t, "K"), row["source"], row["material_class"]
		switch {
		case strings.HasPrefix(source, "Wikipedia"):
			for _, rt := range ranges[row["radius_range"]] {
				k, src, err := ByRule("table", Metal{Temper: class[of]}, true, rt*2, 2)
				require.NoError(t, err, "%v", row)
				require.Equal(t, want, k, "%v at R/T %g", row, rt)
				require.Equal(t, row.memory(), src.Memory, "%v", row)
			}
		case strings.HasPrefix(source, "derived from 0.0078/0.01743"):
			// That quotient takes 0.01743 for a degree, which is 0.017453: 0.0006 between them.
			k, _, err := ByRule("faa", Metal{}, false, 0, 1)
			require.NoError(t, err)
			require.InDelta(t, want*.01743*180/math.Pi, k, 1e-4, "%v", row)
		case strings.HasPrefix(source, "Machinery's Handbook"):
			// The row divides by the rule's 1.57, not by pi/2.
			k, src, err := ByRule("machinery", Metal{Constant: constant[of]}, true, 0, 1)
			require.NoError(t, err)
			require.InDelta(t, want, k*math.Pi/2/1.57, 6e-5, "%v", row)
			require.Equal(t, row.memory(), src.Memory, "%v", row)
		default:
			// Other documents' single figures are none of our rules; each lies between the rules' figures for steel.
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, rule := range Rules {
				for _, m := range []Metal{steel, metalNamed(t, "3003")} {
					for _, rt := range []float64{.5, 1, 2, 5} {
						k, _, err := ByRule(rule.ID, m, true, rt, 1)
						require.NoError(t, err)
						lo, hi = math.Min(lo, k), math.Max(hi, k)
					}
				}
			}
			require.LessOrEqual(t, lo-1e-12, want, "%v", row)
			require.GreaterOrEqual(t, hi+1e-12, want, "%v", row)
		}
	}
}

func TestRuleErrors(t *testing.T) {
	steel := metalNamed(t, "mild steel")
	for _, c := range []struct {
		rule         string
		m            Metal
		known        bool
		radius, t    float64
		wantContains string
	}{
		{"guess", steel, true, 1, 1, `there is no rule "guess"; the rules are faa, din, machinery, table`},
		{"faa", steel, true, 1, 0, "thickness over 0"},
		{"faa", steel, true, -1, 1, "inside radius of 0 or more"},
		{"din", steel, true, math.NaN(), 1, "inside radius of 0 or more"},
		{"machinery", Metal{}, false, 1, 1, "name a metal of the list"},
		{"machinery", Metal{Name: "felt"}, true, 1, 1, "that felt is like"},
		{"table", Metal{Name: "felt"}, true, 1, 1, "that felt is like"},
	} {
		_, _, err := ByRule(c.rule, c.m, c.known, c.radius, c.t)
		require.ErrorContains(t, err, c.wantContains)
	}
	k, _, err := ByRule("din", steel, true, 0, 1)
	require.NoError(t, err)
	require.Zero(t, k)
	for _, rule := range Rules { // a sheet rolled to a very large radius
		k, _, err := ByRule(rule.ID, steel, true, 1e6, .1)
		require.NoError(t, err)
		require.GreaterOrEqual(t, k, 0.0)
		require.LessOrEqual(t, k, .5)
	}
	_, src, err := ByRule("machinery", metalNamed(t, "304"), true, 1, 1)
	require.NoError(t, err)
	require.Equal(t, Assumed, src.Kind)
}

// The allowance grows with radius, thickness and angle. Two rules fall back with the thickness where they print it so, and those
// stretches are left out: DIN 6935 under R/T 0.14, and the steps of the table of K by R/T.
func TestAllowanceGrows(t *testing.T) {
	r := newRand(t)
	for range 3000 {
		m := Metals[r.IntN(len(Metals))]
		rule := Rules[r.IntN(len(Rules))].ID
		thickness, angle := .3+5*r.Float64(), 1+200*r.Float64()
		radius := thickness * (.2 + 9*r.Float64())
		at := func(angle, radius, thickness float64) float64 {
			k, _, err := ByRule(rule, m, true, radius, thickness)
			require.NoError(t, err)
			return Allowance(angle, radius, thickness, k)
		}
		here, more := at(angle, radius, thickness), 1.01+.2*r.Float64()
		require.Greater(t, at(angle*more, radius, thickness), here, "%s in angle at %g R %g T %g times %g", rule, angle, radius, thickness, more)
		require.Greater(t, at(angle, radius*more, thickness), here, "%s in radius at %g R %g T %g times %g", rule, angle, radius, thickness, more)
		if rule == "table" && tableRow(radius/thickness) != tableRow(radius/thickness/more) {
			continue
		}
		if rule == "din" && radius/thickness/more < .14 {
			continue
		}
		require.Greater(t, at(angle, radius, thickness*more), here, "%s in thickness at %g R %g T %g times %g", rule, angle, radius, thickness, more)
	}
}

func TestLog10(t *testing.T) {
	r := newRand(t)
	for range 3000 {
		x := math.Ldexp(.5+r.Float64(), r.IntN(60)-30)
		want := math.Log10(x)
		require.InDelta(t, want, log10(x), 1e-15*(1+math.Abs(want)), "%g", x)
	}
	require.Zero(t, log10(1))
}

// A bound of the table's ranges belongs to the range below it, in whatever unit and however R and T were rounded.
func TestBoundsOfTable(t *testing.T) {
	m := metalNamed(t, "mild steel") // .40, .45, .50
	for _, c := range []struct{ thickness, radius, want float64 }{
		{1.0 / 3, 1.0 / 3, .40}, {1.0 / 3, 1, .45}, {0.7, 2.1, .45}, {0.036 * mmPerInch, 0.108 * mmPerInch, .45},
		{0.1, 0.3, .45}, {0.1 * mmPerInch, 0.3 * mmPerInch, .45}, {0.048 * mmPerInch, 1.2192, .40}, {0.9144, 2.743201, .45},
		{1.1, 1.1 + 1e-7, .40}, {1.1, 1.1 + 1e-4, .45}, {0.7, 2.1 + 1e-4, .50}, {1, 3 - 1e-4, .45}, {1, 1 - 1e-4, .40},
	} {
		k, _, err := ByRule("table", m, true, c.radius, c.thickness)
		require.NoError(t, err)
		require.Equal(t, c.want, k, "R %v, T %v", c.radius, c.thickness)
	}
	for n := 1; n < 400; n++ { // sizes as people write them
		for _, unit := range []float64{1, 0.001 * mmPerInch} {
			thickness := float64(n) / 100 * unit
			for times, want := range map[float64]float64{1: .40, 3: .45} {
				k, _, err := ByRule("table", m, true, float64(n)*times/100*unit, thickness)
				require.NoError(t, err)
				require.Equal(t, want, k, "%d/100 times %v of %v", n, times, unit)
			}
			k, _, err := ByRule("din", m, true, float64(5*n)/100*unit, thickness)
			require.NoError(t, err)
			require.InDelta(t, (.65+.5*math.Log10(5))/2, k, 1e-12, "%d/100 of %v", n, unit)
		}
	}
}

// The Handbook's words for metals that are not in the list, from memory.
func TestHandbookMetal(t *testing.T) {
	for _, name := range []string{"bronze", "Hard copper", "spring steel"} {
		m, ok := HandbookMetal(name)
		require.True(t, ok, name)
		_, listed := ByName(name)
		require.False(t, listed, name)
		k, _, err := ByRule("machinery", m, true, 5, 2)
		require.NoError(t, err)
		require.InDelta(t, (0.71*2+1.57*5)*60/90, Allowance(60, 5, 2, k), 1e-9)
		_, _, err = ByRule("table", m, true, 5, 2)
		require.Error(t, err)
		a, err := Reckon(Ask{Thickness: 2, Radius: 5, Angle: 60, Rule: "machinery", Metal: name})
		require.NoError(t, err)
		require.False(t, a.Known)
		require.InDelta(t, (0.71*2+1.57*5)*60/90, a.Allowance, 1e-9)
		require.Contains(t, strings.Join(a.Notes, "\n"), "is no metal of the list: of it only the constant of Machinery's Handbook is known, 0.71")
	}
	_, ok := HandbookMetal("unobtainium")
	require.False(t, ok)
}
