package partfile

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

const (
	partsDir = "../../testdata/parts" // given by their blank
	sizesDir = "../../testdata/sizes" // by sizes
)

// Every test part reads, writes and packs, and comes back the same.
func TestPartsComeBack(t *testing.T) {
	files, err := filepath.Glob(partsDir + "/*.dryfold")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 10)
	bySizes, err := filepath.Glob(sizesDir + "/*.dryfold")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(bySizes), 3)
	for _, name := range append(files, bySizes...) {
		t.Run(filepath.Base(name), func(t *testing.T) {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			spec, err := Read(data)
			require.NoError(t, err)

			out := Write(spec)
			again, err := Read(out)
			require.NoError(t, err, "%s", out)
			require.Equal(t, spec, again)
			require.Equal(t, string(out), string(Write(again)))

			f, err := Pack(spec)
			require.NoError(t, err)
			again, err = Unpack(f)
			require.NoError(t, err)
			require.Equal(t, spec, again)
			t.Logf("%d characters", len(f))
		})
	}
}
