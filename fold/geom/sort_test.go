package geom

import (
	"cmp"
	"flag"
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

var sortSeed = flag.Int64("sortseed", 1, "seed of the lists to sort")

// The order of a stable sort is one alone: the standard library's is the judge.
func TestSortStable(t *testing.T) {
	rnd := rand.New(rand.NewSource(*sortSeed))
	t.Logf("-sortseed %d", *sortSeed)
	for n := range 130 {
		x := make([][2]int, n)
		for i := range x {
			x[i] = [2]int{rnd.Intn(1 + n/3), i}
		}
		by := func(a, b [2]int) int { return cmp.Compare(a[0], b[0]) }
		want := slices.Clone(x)
		slices.SortStableFunc(want, by)
		SortStable(x, by)
		require.Equal(t, want, x)
	}
}
