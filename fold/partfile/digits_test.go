package partfile

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Numbers taken out of a text can be put back: integers, decimals, many digits,
// tiny ones with an exponent, repeated ones near and far, none inside quotes.
func TestNumbersComeBack(t *testing.T) {
	for seed := uint64(0); seed < 200; seed++ {
		r := rand.New(rand.NewPCG(seed, 3))
		var all []string
		for range r.IntN(300) {
			v := math.Exp(r.Float64()*60-40) * float64(1-2*r.IntN(2))
			switch r.IntN(4) {
			case 0:
				v = float64(r.IntN(100))
			case 1:
				v = round(r, r.Float64()*1000)
			}
			all = append(all, number(v))
		}
		text := `{"a 1.5 \"2\\":[` + strings.Join(all, ",") + `],"-3":true}`
		skeleton, classes, packed := takeNumbers([]byte(text))
		require.Equal(t, `{"a 1.5 \"2\\":[`+strings.TrimSuffix(strings.Repeat("0,", len(all)), ",")+`],"-3":true}`, string(skeleton))
		back, ok := putNumbers(skeleton, classes, packed)
		require.True(t, ok, "seed %d", seed)
		require.Equal(t, text, string(back), "seed %d", seed)
	}
}

// What one number takes: a first "12.5" is 7 binary digits, the first of which is
// left out, and one decimal; the same number again is a class alone.
func TestNumberClasses(t *testing.T) {
	skeleton, classes, packed := takeNumbers([]byte(`[12.5,-0.03,0,12.5,1e-07,0]`))
	require.Equal(t, "[0,0,0,0,0,0]", string(skeleton))
	require.Equal(t, []byte{
		classNew + 7, formBase + 1,
		classNew + 2, formBase + formMinus + 2,
		classNew, formBase,
		2, // the third last of 12.5, -0.03, 0
		classFloat,
		2, // of -0.03, 0, 12.5, 1e-07: 0 came before 12.5 and 1e-07
	}, classes)
	require.Len(t, packed, (6+1+0+64+7)/8)
	require.Equal(t, byte(125-64|1<<6), packed[0]&0x7f, "125 without its first digit, then the lower digit of 3")
}

// Pieces that do not fit each other are refused.
func TestNumbersThatDoNotFit(t *testing.T) {
	skeleton, classes, packed := takeNumbers([]byte(`[12.5,-0.03,12.5]`))
	_, ok := putNumbers(skeleton, classes, packed)
	require.True(t, ok)
	for name, f := range map[string]func() (a, b, c []byte){
		"class missing":   func() (a, b, c []byte) { return skeleton, classes[:4], packed },
		"class too many":  func() (a, b, c []byte) { return skeleton, append([]byte{0}, classes...), packed },
		"bits missing":    func() (a, b, c []byte) { return skeleton, classes, nil },
		"bits too many":   func() (a, b, c []byte) { return skeleton, classes, append([]byte{0}, packed...) },
		"unused bits set": func() (a, b, c []byte) { return skeleton, classes, []byte{0xff} },
		"no such class":   func() (a, b, c []byte) { return []byte("0"), []byte{63}, nil },
		"no such form":    func() (a, b, c []byte) { return []byte("0"), []byte{classNew, 5}, nil },
		"no such recent":  func() (a, b, c []byte) { return []byte("0"), []byte{1}, nil },
		"number missing":  func() (a, b, c []byte) { return []byte("[]"), classes, packed },
	} {
		_, ok := putNumbers(f())
		require.False(t, ok, name)
	}
}
