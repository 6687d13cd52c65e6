package metal

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNames(t *testing.T) {
	seen := map[string]string{}
	for _, m := range Metals {
		for _, n := range append([]string{m.Name}, m.Aliases...) {
			got, ok := ByName(" " + strings.ToUpper(n) + " ")
			require.True(t, ok, n)
			require.Equal(t, m.Name, got.Name)
			require.Empty(t, seen[strings.ToLower(n)], "%s stands for two metals", n)
			seen[strings.ToLower(n)] = m.Name
		}
		require.NotEmpty(t, m.Density.Source.Title)
	}
	_, ok := ByName("unobtainium")
	require.False(t, ok)
}

// Densities in g/cm3 as the tables print them beside lb/in3: 304 8.0 (AISI 304 data sheet,
// read), 5052 2.68 and 6061 2.70 (Aluminum Association, read), steel 7.85 (textbook table, read),
// cartridge brass 8.53 (C26000 alloy data, read), copper 8.94 (CDA/ASM, from memory).
func TestDensities(t *testing.T) {
	for name, want := range map[string]float64{
		"Stainless 304": 8.0, "Mild steel": 7.85, "Galvanized steel": 7.85, "Aluminium 5052-H32": 2.68,
		"Aluminium 6061-T6": 2.70, "Brass": 8.53, "Copper": 8.94,
	} {
		m, ok := ByName(name)
		require.True(t, ok)
		require.InDelta(t, want, m.Density.Mid()/1000, 0.03, name)
	}
}

// The chart value of FAA-H-8083-31 ch. 4 for one degree at T 0.040, R 0.156 in is 0.003034 (read);
// the rule's K must give it through angle * (R + K*T), but for the formula's rounded 0.01743.
func TestRuleK(t *testing.T) {
	require.InDelta(t, 0.003034, math.Pi/180*(0.156+RuleK*0.040), 6e-6)
}
