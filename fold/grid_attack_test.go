package fold_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// gridStrip is a strip whose faces come to lie exactly on each other, side by side or flush: whole lengths, square bends and hems, the same
// radius everywhere, widths that step by whole lengths. T and the inside radius are 1 or 0, so that outside sizes stay whole.
func gridStrip(r *rand.Rand) fold.Spec {
	k := 0.5
	radius := float64(r.IntN(2))
	s := fold.Spec{Name: "grid", Sheet: fold.Sheet{Thickness: 1, K: &k}}
	var low, high []geom.Vec2
	x, n := 0.0, 3+r.IntN(4)
	prev := [2]float64{}
	for i := range n {
		y := [2]float64{float64(r.IntN(3)) * 5, 20 + float64(r.IntN(3))*5}
		if i > 0 {
			angle := []float64{90, 90, 90, 180, 45}[r.IntN(5)]
			ba := angle * math.Pi / 180 * (radius + k)
			y0, y1 := max(prev[0], y[0]), min(prev[1], y[1])
			low = append(low, geom.Vec2{x, y0}, geom.Vec2{x + ba, y0})
			high = append(high, geom.Vec2{x, y1}, geom.Vec2{x + ba, y1})
			s.Bends = append(s.Bends, fold.BendSpec{Name: fmt.Sprintf("b%d", i-1), Line: [2]geom.Vec2{{x + ba/2, y0 - 1}, {x + ba/2, y1 + 1}}, Angle: angle, Radius: radius, Up: r.IntN(4) > 0})
			x += ba
		}
		l := float64(4 + r.IntN(4)*3 + r.IntN(2))
		low = append(low, geom.Vec2{x, y[0]}, geom.Vec2{x + l, y[0]})
		high = append(high, geom.Vec2{x, y[1]}, geom.Vec2{x + l, y[1]})
		if l > 10 && r.IntN(2) == 0 { // a slot that another wall may just pass
			a, b := 5*math.Ceil(y[0]/5)+2.5, 5*math.Floor(y[1]/5)-2.5
			s.Cutouts = append(s.Cutouts, foldtest.Points(x+3, a, x+l-3, a, x+l-3, b, x+3, b))
		}
		x += l
		prev = y
	}
	var l []geom.Vec2
	for i := len(high) - 1; i >= 0; i-- {
		low = append(low, high[i])
	}
	for _, p := range low {
		if k := len(l); k == 0 || l[k-1] != p {
			l = append(l, p)
		}
	}
	for _, p := range l {
		s.Outline = append(s.Outline, fold.Vertex{At: p})
	}
	names := r.Perm(len(s.Bends))
	for len(names) > 0 {
		m := 1 + r.IntN(5)/4
		var st fold.Step
		for _, i := range names[:min(m, len(names))] {
			st.Bends = append(st.Bends, s.Bends[i].Name)
		}
		names = names[len(st.Bends):]
		s.Order = append(s.Order, st)
	}
	return s
}

// Faces that come to lie exactly on each other, flush or side by side.
func TestSampledFlushParts(t *testing.T) {
	seed := *sampleSeed
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Logf("again with -sample.seed %d -sample.parts %d", seed, *sampleParts)
	pairs, hits := 0, 0
	for n := range 2 * *sampleParts {
		at := seed + uint64(n)*1_000_003
		p := fold.Build(gridStrip(foldtest.Rand(at)))
		if p.Foldable {
			samplePart(t, p, *sampleLook, fmt.Sprintf("seed %d", at), &pairs, &hits)
		}
	}
	t.Logf("%d pairs of solids, %d clashes", pairs, hits)
	require.Positive(t, hits)
}
