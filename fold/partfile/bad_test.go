package partfile

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the messages of bad parts anew, and append links that are not frozen yet")

const badDir = "../../testdata/bad"

// Each bad part is refused with the message beside it, which names a field's path
// or a line.
func TestBadParts(t *testing.T) {
	files, err := filepath.Glob(badDir + "/*.dryfold")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 45)
	for _, name := range files {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".dryfold"), func(t *testing.T) {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			_, err = Read(data)
			var e *Error
			require.True(t, errors.As(err, &e), "read without an error of ours: %v", err)
			require.True(t, (e.Path == "") != (e.Line == 0), "path and line: %+v", e)
			require.NotEmpty(t, e.Found)
			require.NotEmpty(t, e.Need)
			require.NotContains(t, err.Error(), "\n")

			want := strings.TrimSuffix(name, ".dryfold") + ".want"
			if *update {
				require.NoError(t, os.WriteFile(want, []byte(err.Error()+"\n"), 0o644))
			}
			text, readErr := os.ReadFile(want)
			require.NoError(t, readErr)
			require.Equal(t, string(text), err.Error()+"\n")
		})
	}
}
