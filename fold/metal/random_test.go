package metal

import (
	"flag"
	"math/rand/v2"
	"testing"
	"time"
)

var seedFlag = flag.Int64("seed", 1, "seed of the random tests; 0 takes a new one")

// newRand is a random source whose seed is printed when the test fails.
func newRand(t *testing.T) *rand.Rand {
	t.Helper()
	seed := *seedFlag
	if seed == 0 {
		seed = time.Now().UnixNano()
	}
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("again with: go test -run '^%s$' -seed %d", t.Name(), seed)
		}
	})
	return rand.New(rand.NewPCG(uint64(seed), 0))
}
