package screen

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/wasm/node"
)

// numbersIn are the coordinates of a path.
func numbersIn(t *testing.T, d string) (xs, ys []float64) {
	for i, w := range regexp.MustCompile(`-?[0-9.]+|NaN|Inf`).FindAllString(d, -1) {
		x, err := strconv.ParseFloat(w, 64)
		require.NoError(t, err)
		require.False(t, x != x || x > 1e6 || x < -1e6, d)
		if i%2 == 0 {
			xs = append(xs, x)
		} else {
			ys = append(ys, x)
		}
	}
	require.Equal(t, len(xs), len(ys), d)
	return xs, ys
}

// Each starter has a picture that fits its place on the shelf, and nothing else has one.
func TestStarterSketches(t *testing.T) {
	require.Len(t, starterDrawings, len(shape.Starters))
	for _, s := range shape.Starters {
		n := starterSketch(s.ID)
		require.NotNil(t, n, s.ID)
		tones := map[string]bool{}
		for _, k := range n.Kids {
			xs, ys := numbersIn(t, k.Get("d"))
			for i := range xs {
				require.True(t, xs[i] >= 1.9 && xs[i] <= 76.1 && ys[i] >= 0.9 && ys[i] <= 43.1, "%s: %g %g", s.ID, xs[i], ys[i])
			}
			tones[k.Get("class")] = true
		}
		require.True(t, tones["a"] && (tones["b"] || tones["c"]), s.ID)
	}
	require.Nil(t, starterSketch("teapot"))
	require.Nil(t, starterFigure("teapot"))
}

// A figure shows every size that its starter asks, once, under words that stand in the
// size's label, and within the figure.
func TestStarterFigures(t *testing.T) {
	for _, s := range shape.Starters {
		n := starterFigure(s.ID)
		require.NotNil(t, n, s.ID)
		label := map[string]string{}
		for _, z := range s.Make(fold.MM).Sizes.Named {
			label[z.Name] = strings.ToLower(z.Label)
		}
		words := map[string]bool{}
		n.Walk(func(k *node.Node) bool {
			if k.Tag == "path" {
				numbersIn(t, k.Get("d"))
			}
			if k.Tag == "text" {
				x, err := strconv.ParseFloat(k.Get("x"), 64)
				require.NoError(t, err)
				y, err := strconv.ParseFloat(k.Get("y"), 64)
				require.NoError(t, err)
				wide := letterWide * float64(len(k.Words()))
				left := map[string]float64{"start": x, "middle": x - wide/2, "end": x - wide}[k.Get("text-anchor")]
				require.True(t, left > -4 && left+wide < figureWide+4, "%s: %s from %.0f to %.0f", s.ID, k.Words(), left, left+wide)
				require.True(t, y > 10 && y < 190, "%s: %s at %g", s.ID, k.Words(), y)
			}
			name := k.Get("data-size")
			if name == "" {
				return true
			}
			require.Contains(t, label, name, "%s shows a size that it has not, or shows it twice", s.ID)
			for _, w := range strings.Fields(strings.ToLower(strings.ReplaceAll(k.Words(), ",", ""))) {
				require.Contains(t, label[name], w, "%s: %s", s.ID, name)
			}
			require.False(t, words[k.Words()], "%s: two sizes are %s", s.ID, k.Words())
			words[k.Words()] = true
			delete(label, name)
			return true
		})
		require.Empty(t, label, s.ID)
	}
}
