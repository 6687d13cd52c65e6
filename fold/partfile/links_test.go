package partfile

import (
	"bufio"
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const (
	linksFile = "../../testdata/links.txt" // lines: name fragment
	linksDir  = "../../testdata/links"     // name.dryfold: the part that each holds
)

// Every link that was ever frozen opens, as the part it was made from. With
// -update, test parts that have no link yet are appended; lines and parts that
// are there are never rewritten.
func TestFrozenLinks(t *testing.T) {
	if *update {
		freezeNew(t)
	}
	links := frozen(t)
	require.GreaterOrEqual(t, len(links), 12)
	for _, l := range links {
		t.Run(l[0], func(t *testing.T) {
			data, err := os.ReadFile(filepath.Join(linksDir, l[0]+".dryfold"))
			require.NoError(t, err)
			want, err := Read(data)
			require.NoError(t, err)
			got, err := Unpack(l[1])
			require.NoError(t, err)
			require.Equal(t, want, got)
			require.Equal(t, string(data), string(Write(got)), "the same bytes as when it was frozen")
		})
	}
}

func frozen(t *testing.T) (links [][2]string) {
	data, err := os.ReadFile(linksFile)
	if os.IsNotExist(err) && *update {
		return nil
	}
	require.NoError(t, err)
	seen := map[string]bool{}
	for sc := bufio.NewScanner(bytes.NewReader(data)); sc.Scan(); {
		name, fragment, ok := strings.Cut(sc.Text(), " ")
		require.True(t, ok, "a line is: name fragment")
		require.False(t, seen[name], "%s stands twice", name)
		seen[name] = true
		links = append(links, [2]string{name, fragment})
	}
	return links
}

func freezeNew(t *testing.T) {
	have := map[string]bool{}
	for _, l := range frozen(t) {
		have[l[0]] = true
	}
	files, err := filepath.Glob(partsDir + "/*.dryfold")
	require.NoError(t, err)
	bySizes, err := filepath.Glob(sizesDir + "/*.dryfold")
	require.NoError(t, err)
	files = append(files, bySizes...)
	require.NoError(t, os.MkdirAll(linksDir, 0o755))
	out, err := os.OpenFile(linksFile, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	require.NoError(t, err)
	defer out.Close()
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".dryfold")
		if have[name] {
			continue
		}
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		spec, err := Read(data)
		require.NoError(t, err, file)
		fragment, err := Pack(spec)
		require.NoError(t, err)
		beside := filepath.Join(linksDir, name+".dryfold")
		_, err = os.Stat(beside)
		require.True(t, os.IsNotExist(err), "%s is there without its link", beside)
		require.NoError(t, os.WriteFile(beside, Write(spec), 0o644))
		_, err = out.WriteString(name + " " + fragment + "\n")
		require.NoError(t, err)
	}
}
