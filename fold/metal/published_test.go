package metal

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// published are the rows of a table of testdata/published, by the name of the column. Each says whether its
// figure was read in a stored text of the source, or recalled.
type published map[string]string

func readPublished(t *testing.T, name string) []published {
	t.Helper()
	f, err := os.Open("../../testdata/published/" + name + ".csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []published
	for _, r := range rows[1:] {
		p := published{}
		for i, n := range rows[0] {
			p[n] = r[i]
		}
		require.Contains(t, []string{"read", "from memory"}, p["read"])
		require.NotEmpty(t, p["source"])
		out = append(out, p)
	}
	require.NotEmpty(t, out)
	return out
}

// num is a column as a number.
func (p published) num(t *testing.T, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(p[column], 64)
	require.NoError(t, err, "%v", p)
	return v
}

// memory tells whether the figure was recalled.
func (p published) memory() bool { return p["read"] == "from memory" }

// String is the row for a failure's message, its source and mark first.
func (p published) String() string {
	return fmt.Sprintf("%s (%s): %v", p["source"], p["read"], map[string]string(p))
}
