package partfile

import (
	"encoding/json"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
)

// seedFiles adds the texts of good and bad files of either kind.
func seedFiles(f *testing.F, add func(data []byte)) {
	for seed := range uint64(8) {
		add(Write(randomSized(rand.New(rand.NewPCG(seed, 5)))))
	}
	for _, dir := range []string{partsDir, sizesDir, badDir} {
		files, err := filepath.Glob(dir + "/*.dry*")
		require.NoError(f, err)
		for _, name := range files {
			data, err := os.ReadFile(name)
			require.NoError(f, err)
			add(data)
		}
	}
}

// Any bytes are read or refused with our own error; what is read comes back from
// what is written, and is JSON of valid UTF-8 for others too.
func FuzzRead(f *testing.F) {
	seedFiles(f, func(data []byte) { f.Add(data) })
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := Read(data)
		if err != nil {
			var e *Error
			require.True(t, errors.As(err, &e))
			require.True(t, (e.Path == "") != (e.Line == 0), "%+v", e)
			require.True(t, utf8.ValidString(err.Error()))
			if e.Path != "" {
				require.True(t, json.Valid(data), "a path for what is not JSON: %v", err)
			}
			return
		}
		require.True(t, json.Valid(data) && utf8.Valid(data))
		comesBack(t, s)
	})
}

// comesBack: decode, encode, decode gives the same spec, the same bytes, through a
// file and, where it fits, through a link.
func comesBack(t *testing.T, s fold.Spec) {
	require.NoError(t, Check(s))
	out := Write(s)
	again, err := Read(out)
	require.NoError(t, err, "%s", out)
	require.Equal(t, s, again)
	require.Equal(t, string(out), string(Write(again)))
	frag, err := Pack(s)
	if err != nil {
		require.ErrorContains(t, err, "send it as a file")
		return
	}
	again, err = Unpack(frag)
	require.NoError(t, err)
	require.Equal(t, s, again)
}

// Any text as a fragment, and any bytes as the text inside one.
func FuzzUnpack(f *testing.F) {
	seedFiles(f, func(data []byte) { f.Add(packText(data), data) })
	f.Fuzz(func(t *testing.T, fragment string, inside []byte) {
		for _, frag := range []string{fragment, packText(inside)} {
			s, err := Unpack(frag)
			if err != nil {
				require.IsType(t, &Error{}, err)
				require.True(t, utf8.ValidString(err.Error()))
				continue
			}
			comesBack(t, s)
		}
	})
}
