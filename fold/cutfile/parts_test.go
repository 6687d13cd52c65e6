package cutfile

import (
	"os"
	"path/filepath"
	"sync"
	"testing"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
)

// partsRead keeps what partsOf read.
var partsRead struct {
	sync.Mutex
	names []string
	parts []*fold.Part
}

// partsOf are all demo parts and test parts, by file name.
func partsOf(t testing.TB) (names []string, parts []*fold.Part) {
	t.Helper()
	partsRead.Lock()
	defer partsRead.Unlock()
	if partsRead.names != nil {
		return partsRead.names, partsRead.parts
	}
	for _, pattern := range []string{"../../testdata/parts/*.dryfold", "../../testdata/sizes/*.dryfold", "../../assets/*.dryfold"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) < 4 {
			t.Fatalf("%s: %d files, %v", pattern, len(files), err)
		}
		for _, f := range files {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			spec, err := partfile.Read(data)
			if err != nil {
				t.Fatalf("%s: %v", f, err)
			}
			if spec.Sizes != nil {
				made, _ := shape.Make(spec)
				spec = made.Spec
			}
			names, parts = append(names, filepath.Base(f[:len(f)-len(".dryfold")])), append(parts, fold.Build(spec))
		}
	}
	partsRead.names, partsRead.parts = names, parts
	return names, parts
}
