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
// or a line; and so is each bad file of metals and test bends.
func TestBadParts(t *testing.T) {
	refused(t, ".dryfold", 120, func(data []byte) error { _, err := Read(data); return err })
	refused(t, ".drybends", 20, func(data []byte) error { _, err := ReadBench(data); return err })
}

func refused(t *testing.T, ending string, least int, read func(data []byte) error) {
	files, err := filepath.Glob(badDir + "/*" + ending)
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), least)
	for _, name := range files {
		t.Run(strings.TrimSuffix(filepath.Base(name), ending), func(t *testing.T) {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			err = read(data)
			var e *Error
			require.True(t, errors.As(err, &e), "read without an error of ours: %v", err)
			require.True(t, (e.Path == "") != (e.Line == 0), "path and line: %+v", e)
			require.NotEmpty(t, e.Found)
			require.NotEmpty(t, e.Need)
			require.NotContains(t, err.Error(), "\n")

			want := strings.TrimSuffix(name, ending) + ".want"
			if *update {
				require.NoError(t, os.WriteFile(want, []byte(err.Error()+"\n"), 0o644))
			}
			text, readErr := os.ReadFile(want)
			require.NoError(t, readErr)
			require.Equal(t, string(text), err.Error()+"\n")
		})
	}
}
