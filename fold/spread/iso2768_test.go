package spread

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestISO2768 holds both tables against the published list, which marks what was read and what recalled.
func TestISO2768(t *testing.T) {
	f, err := os.Open("../../testdata/published/iso2768.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"source", "read", "kind", "nominal_range_mm", "class", "plus_minus"}, rows[0])
	seen := map[string]int{}
	for _, r := range rows[1:] {
		table := map[string][]tolerance{"linear_mm": linear, "angle_deg": angular}[r[2]]
		if table == nil {
			continue
		}
		require.Equal(t, map[string]string{"linear_mm": "read", "angle_deg": "from memory"}[r[2]], r[1])
		seen[r[2]]++
		from, to := 0.0, 1e6
		switch {
		case strings.HasPrefix(r[3], "<="):
			to = num(t, r[3][2:])
		case strings.HasPrefix(r[3], ">"):
			from = num(t, r[3][1:])
		default:
			a, b, _ := strings.Cut(r[3], "-")
			from, to = num(t, a), num(t, b)
		}
		for _, length := range []float64{from + 1e-6, (from + min(to, 5000)) / 2, to} {
			if r[5] == "" { // no figure: the nearest row's
				require.Positive(t, look(table, length, r[4]), "%v", r)
				continue
			}
			require.InDelta(t, num(t, r[5]), look(table, length, r[4]), 5e-5, "%v at %v", r, length)
		}
	}
	require.Equal(t, map[string]int{"linear_mm": 32, "angle_deg": 20}, seen)
	require.Zero(t, look(linear, 10, "x"))
	require.Equal(t, 0.5, look(linear, 1, "v"), "none under 3 mm: the next row's")
	require.Equal(t, 8.0, look(linear, 1e5, "v"))
}

func num(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}
