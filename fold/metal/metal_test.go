package metal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNames(t *testing.T) {
	seen := map[string]string{}
	for _, m := range Metals {
		for _, n := range append([]string{m.Name}, m.Aliases...) {
			for _, spelled := range []string{n, " " + strings.ToUpper(n) + " ", strings.ReplaceAll(n, "-", " "), strings.ReplaceAll(n, "luminium", "luminum")} {
				got, ok := ByName(spelled)
				require.True(t, ok, spelled)
				require.Equal(t, m.Name, got.Name, spelled)
			}
			if k := key(n); seen[k] != m.Name {
				require.Empty(t, seen[k], "%s stands for two metals", n)
				seen[k] = m.Name
			}
		}
	}
	for _, n := range []string{"", "unobtainium", " - "} {
		_, ok := ByName(n)
		require.False(t, ok, n)
	}
}

// Every row of the list is whole: a density, a class for each rule, and a source beside every figure.
func TestMetalsAreWhole(t *testing.T) {
	for _, m := range Metals {
		require.True(t, m.Density.Known(), m.Name)
		require.True(t, m.Modulus.Known(), m.Name)
		require.Contains(t, []string{"steel", "stainless", "aluminium", "copper"}, m.Family)
		require.Contains(t, []float64{.55, .64, .71}, m.Constant, m.Name)
		require.NotEqual(t, NoTemper, m.Temper, m.Name)
		require.NotEmpty(t, m.GrainNote, m.Name)
		require.NotEmpty(t, m.Weld, m.Name)
		require.False(t, m.Own, m.Name)
		for _, f := range []Fact{m.Density, m.Modulus, m.Yield, m.Tensile} {
			require.LessOrEqual(t, f.Lo, f.Hi, m.Name)
			require.Equal(t, f.Known(), f.Source.Kind == Published && f.Source.Title != "", "%s: %v", m.Name, f)
		}
		if m.Yield.Known() && m.Tensile.Known() {
			require.Less(t, m.Yield.Lo, m.Tensile.Hi, m.Name)
		}
		for _, rule := range Rules {
			k, _, err := ByRule(rule.ID, m, true, 1, 1)
			require.NoError(t, err)
			require.True(t, k >= 0 && k <= .6, "%s by %s: %g", m.Name, rule.ID, k)
		}
	}
	require.Contains(t, strings.Join(metalNamed(t, "galvanized").Cautions, " "), "metal fume fever")
	require.Contains(t, strings.Join(metalNamed(t, "stainless").Cautions, " "), "hexavalent chromium")
}

// The constants of Machinery's Handbook (from memory): 0.55 soft copper and brass, 0.64 half-hard copper and brass, soft
// steel and aluminium, 0.71 cold-rolled steel.
func TestConstants(t *testing.T) {
	for name, want := range map[string]float64{"soft steel": .64, "cold-rolled steel": .71, "soft copper": .55, "soft brass": .55,
		"half-hard copper": .64, "half-hard brass": .64, "aluminum": .64, "6061-T6": .64, "galvanized": .71} {
		require.Equal(t, want, metalNamed(t, name).Constant, name)
	}
}

// Every figure of materials.csv stands at an end of the range of the metal it is of, with its mark.
func TestMaterials(t *testing.T) {
	names := map[string][]string{
		"carbon steel AISI 1025 sheet": {"Soft steel"}, "A36 steel": {"Mild steel", "Galvanized steel", "Soft steel"},
		"low-carbon CR commercial steel (ASTM A1008 CS)": {"Mild steel"}, "galvanized commercial steel (ASTM A653 CS-B)": {"Galvanized steel"},
		"304 annealed": {"Stainless 304"}, "5052-H32": {"Aluminium 5052-H32"}, "6061-T6": {"Aluminium 6061-T6"}, "3003-H14": {"Aluminium 3003-H14"},
		"C26000 cartridge brass": {"Brass", "Brass, half-hard"}, "C26000 annealed": {"Brass"}, "C26000 half hard": {"Brass, half-hard"},
		"C11000 copper": {"Copper", "Copper, half-hard"}, "C11000 copper soft": {"Copper"}, "C11000 copper half hard H02": {"Copper, half-hard"},
	}
	unused := map[string]bool{
		"C26000 hard yield nominal":      true, // not a metal of the list
		"galvanized G90 zinc both sides": true, // a note of galvanized steel, checked below
		"sheet steel weight basis":       true, // of a gauge table, checked with it
	}
	unit := map[string]float64{"ksi": ksi, "1e6 psi": 1000 * ksi, "lb/in3": lbPerIn3, "MPa": 1}
	for _, row := range readPublished(t, "materials") {
		property := row["property"]
		if unused[row["material"]+" "+property] {
			continue
		}
		require.Contains(t, names, row["material"], "%v", row)
		for _, n := range names[row["material"]] {
			m := metalNamed(t, n)
			f := m.Yield
			switch {
			case property == "density":
				f = m.Density
			case property == "E":
				f = m.Modulus
			case property == "Ftu" || strings.HasPrefix(property, "UTS"):
				f = m.Tensile
			default:
				require.True(t, property == "Fty" || strings.HasPrefix(property, "yield"), "%v", row)
			}
			for _, w := range strings.Split(row["value"], "-") {
				v := number(w) * unit[row["unit"]]
				require.NotZero(t, v, "%v", row)
				off := min(abs(v-f.Lo), abs(v-f.Hi))
				tol := 1e-6 * v
				if property == "density" && strings.HasPrefix(f.Source.Title, a36) {
					require.Contains(t, row["source"], "(7850 kg/m3)", "the row prints both, and the pounds are the rounded ones")
					require.Equal(t, 7850.0, f.Lo)
					tol = .0005 * lbPerIn3
				}
				require.LessOrEqual(t, off, tol, "%s has %v: %v", n, f, row)
			}
			require.Equal(t, row.memory(), f.Source.Memory, "%s: %v", n, row)
		}
	}
	require.Contains(t, metalNamed(t, "galvanized").Coating, "G90 is 0.9 oz/ft2, both sides together (ASTM A653, from memory)")
}

func abs(x float64) float64 { return max(x, -x) }

// Densities in g/cm3 as the tables print them beside lb/in3: 304 8.0 (AISI 304 data sheet,
// read), 5052 2.68 and 6061 2.70 (Aluminum Association, read), 2024 2.78 (Aluminum Association, from memory), steel 7.85
// (textbook table, read), cartridge brass 8.53 (C26000 alloy data, read), copper 8.94 (CDA/ASM, from memory).
func TestDensities(t *testing.T) {
	for name, want := range map[string]float64{
		"Stainless 304": 8.0, "Mild steel": 7.85, "Galvanized steel": 7.85, "Aluminium 5052-H32": 2.68,
		"Aluminium 6061-T6": 2.70, "Aluminium 2024-T3": 2.78, "Brass": 8.53, "Copper": 8.94,
	} {
		require.InDelta(t, want, metalNamed(t, name).Density.Mid()/1000, 0.03, name)
	}
}

func TestResolve(t *testing.T) {
	k, rt := .41, 1.5
	own := []Own{
		{Name: "My 304", Like: "stainless", Density: 7900, Modulus: 195, Yield: [2]float64{250, 320}, LeastRT: &rt, K: &k, Note: "mill certificate"},
		{Name: "Felt", Density: 300},
		{Name: "brass", Yield: [2]float64{0, 180}},
	}
	m, ok := Resolve("MY 304", own)
	require.True(t, ok)
	list := metalNamed(t, "304")
	require.True(t, m.Own)
	require.Equal(t, "My 304", m.Name)
	require.Equal(t, list.Tensile, m.Tensile)
	require.Equal(t, list.Constant, m.Constant)
	require.Equal(t, Range{7900, 7900}, m.Density.Range)
	require.Equal(t, Range{195e3, 195e3}, m.Modulus.Range)
	require.Equal(t, Range{250, 320}, m.Yield.Range)
	require.Equal(t, "given by you: mill certificate", m.Yield.Source.String())
	require.Equal(t, Given, m.Yield.Source.Kind)
	require.Equal(t, &k, m.K)
	require.Equal(t, 3.0, LeastRadius(m, 2, "")[0].Radius)
	require.Len(t, LeastRadius(m, 2, ""), 1+len(LeastRadius(list, 2, "")))

	m, ok = Resolve("felt", own)
	require.True(t, ok)
	require.False(t, m.Yield.Known())
	require.Equal(t, "assumed: given by you, without a source", m.Density.Source.String())
	require.Empty(t, LeastRadius(m, 1, ""))

	m, ok = Resolve("Brass", own) // one of the list, known better
	require.True(t, ok)
	require.Equal(t, Range{180, 180}, m.Yield.Range)
	require.Equal(t, .55, m.Constant)

	m, ok = Resolve("cartridge brass", own)
	require.True(t, ok)
	require.Equal(t, "brass", m.Name, "under its other names too")

	zinc, ok := Resolve("roof sheet", []Own{{Name: "roof sheet", Like: "galvanised"}})
	require.True(t, ok)
	require.Equal(t, "galvanized", DefaultTable(zinc))

	m, ok = Resolve("copper", own)
	require.True(t, ok)
	require.False(t, m.Own)
	_, ok = Resolve("", []Own{{}})
	require.False(t, ok)
	require.Nil(t, list.K, "the list itself is not changed")
}
