package ask

import (
	"encoding/json"
	"flag"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type jsonSample struct {
	Text  string `json:"text"`
	Plain int
	Kept  float64   `json:"-"`
	List  []float64 `json:"list,omitempty"`
	Pair  [2]bool
	To    *float64
	Deep  []struct{ Name string }
}

var seedFlag = flag.Uint64("seed", 1, "seed of the random test; 0 takes a new one")

// What is written is JSON that the standard library reads to the same, and what
// the standard library writes is read to the same.
func TestJSONAgainstTheStandardLibrary(t *testing.T) {
	seed := *seedFlag
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Log("seed", seed)
	rnd := rand.New(rand.NewPCG(seed, 1))
	letters := []rune("ab\"\\/\n\t\x01é☃😀 <>&{}[]:,\u2028")
	for range 500 {
		var s jsonSample
		for range rnd.IntN(12) {
			s.Text += string(letters[rnd.IntN(len(letters))])
		}
		s.Plain = int(rnd.Int32()) - 1<<30
		for range rnd.IntN(4) {
			s.List = append(s.List, (rnd.Float64()-.5)*math.Ldexp(1, rnd.IntN(80)-40))
		}
		s.Pair = [2]bool{rnd.IntN(2) == 0, rnd.IntN(2) == 0}
		if rnd.IntN(2) == 0 {
			v := rnd.Float64()
			s.To = &v
		}
		for range rnd.IntN(3) {
			s.Deep = append(s.Deep, struct{ Name string }{s.Text})
		}
		text := Write(s)
		var std, own jsonSample
		require.NoError(t, json.Unmarshal([]byte(text), &std), text)
		require.Equal(t, s, std)
		lib, err := json.Marshal(s)
		require.NoError(t, err)
		require.NoError(t, Read(string(lib), &own), string(lib))
		require.Equal(t, s, own)
		own = jsonSample{}
		s.Kept = rnd.Float64() // this package's own reader gives it back, tag or no
		require.NoError(t, Read(Write(s), &own))
		require.Equal(t, s, own)
	}
}

func TestJSONRefuses(t *testing.T) {
	for _, bad := range []string{"", "{", "[1]", `{"text":1}`, `{"text":"a}`, `{"text":"\x"}`, `{"text":"\u12"}`, `{"text" "a"}`, `{"Plain":1.5}`,
		`{"Plain":1e99}`, `{"Pair":[true,true,true]}`, `{"list":[1 2]}`, `{} x`, `{"list":{}}`, `{"Plain":tru}`, `{"other":` + strings.Repeat("[", 1000) + `}`, `nul`} {
		var s jsonSample
		assert.Error(t, Read(bad, &s), bad)
	}
	s := jsonSample{Text: "was"}
	require.NoError(t, Read(` { "other" : [ {"x": null}, "y", false ], "Plain" : 7 } `, &s))
	assert.Equal(t, jsonSample{Text: "was", Plain: 7}, s, "names besides are passed over")
}

func FuzzJSON(f *testing.F) {
	f.Add(`{"text":"a\u00e9","list":[1,2.5e3],"Pair":[true,false],"To":1,"Deep":[{"Name":"x"}]}`)
	f.Add(`[[[`)
	f.Fuzz(func(t *testing.T, text string) {
		var s, again jsonSample
		if Read(text, &s) == nil {
			require.NoError(t, Read(Write(s), &again))
			require.Equal(t, Write(s), Write(again))
		}
	})
}
