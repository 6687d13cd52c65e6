package spread

// This file finds parts to test on.

import (
	"flag"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
)

var seedFlag = flag.Uint64("seed", 1, "seed of the random tests; 0 takes a new one")

// newRand is a random source whose seed is printed when the test fails.
func newRand(t testing.TB) *rand.Rand {
	seed := *seedFlag
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("again with: go test -run '^%s$' -seed %d", t.Name(), seed)
		}
	})
	return foldtest.Rand(seed)
}

// filePart reads a part file and makes its part.
func filePart(t testing.TB, file string) *fold.Part {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	spec, err := partfile.Read(data)
	require.NoError(t, err, file)
	if spec.Sizes != nil {
		made, wrong := shape.Make(spec)
		require.Empty(t, wrong, file)
		spec = made.Spec
	}
	return fold.Build(spec)
}

// partFiles lists the part files there are.
func partFiles(t testing.TB) []string {
	t.Helper()
	var out []string
	for _, pattern := range []string{"../../assets/*.dryfold", "../../testdata/parts/*.dryfold", "../../testdata/sizes/*.dryfold"} {
		f, err := filepath.Glob(pattern)
		require.NoError(t, err)
		out = append(out, f...)
	}
	require.Greater(t, len(out), 15)
	return out
}

func baseName(file string) string { return strings.TrimSuffix(filepath.Base(file), ".dryfold") }
