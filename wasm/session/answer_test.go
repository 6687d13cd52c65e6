package session

import (
	"os"
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/wasm/session/ask"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The second program gets the part to the last bit, and what is no question is an error.
func TestQuestion(t *testing.T) {
	put := func(spec fold.Spec) {
		t.Helper()
		s := New(spec)
		got, err := ask.ReadQuestion(s.Question())
		require.NoError(t, err)
		assert.Equal(t, s.Frozen(), got)
	}
	for _, d := range assets.Demos() {
		spec, err := partfile.Read(d.Data)
		require.NoError(t, err)
		put(spec)
	}
	for _, x := range shape.Starters {
		put(x.Make(fold.Inch))
	}
	// With how its seams are closed, and what hand and machine may be out by.
	data, err := os.ReadFile("../../testdata/parts/joined.dryfold")
	require.NoError(t, err)
	spec, err := partfile.Read(data)
	require.NoError(t, err)
	require.NotEmpty(t, spec.Joins)
	require.NotZero(t, spec.Errors)
	put(spec)
	for _, text := range []string{"", "{", "[]", `{"Sizes":{}}`, `{"Outline":3}`, `{"Units":1.5}`} {
		_, err := ask.ReadQuestion(text)
		assert.Error(t, err, text)
	}
}

// FuzzQuestion: no text makes the reader fall over.
func FuzzQuestion(f *testing.F) {
	f.Add(ask.WriteQuestion(tray(f)))
	f.Add(`{"Outline":[{"At":[1,2],"Through":null}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		if spec, err := ask.ReadQuestion(text); err == nil {
			ask.WriteQuestion(spec)
		}
	})
}
