package session

import (
	"testing"

	"dryfold/assets"
	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The second program gets the part to the last bit, and what is no question is an error.
func TestQuestion(t *testing.T) {
	ask := func(spec fold.Spec) {
		t.Helper()
		s := New(spec)
		got, err := ReadQuestion(s.Question())
		require.NoError(t, err)
		assert.Equal(t, s.Frozen(), got)
	}
	for _, d := range assets.Demos() {
		spec, err := partfile.Read(d.Data)
		require.NoError(t, err)
		ask(spec)
	}
	for _, x := range shape.Starters {
		ask(x.Make(fold.Inch))
	}
	for _, text := range []string{"", "{", "[]", `{"Sizes":{}}`, `{"Outline":3}`, `{"Units":1.5}`} {
		_, err := ReadQuestion(text)
		assert.Error(t, err, text)
	}
}

// FuzzQuestion: no text makes the reader fall over.
func FuzzQuestion(f *testing.F) {
	f.Add(WriteQuestion(tray(f)))
	f.Add(`{"Outline":[{"At":[1,2],"Through":null}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		if spec, err := ReadQuestion(text); err == nil {
			WriteQuestion(spec)
		}
	})
}
