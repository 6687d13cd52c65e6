package shape_test

import (
	"fmt"
	"math"
	"testing"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// fortyPanels is a base of 13 sides, each with a leaning wall, a lip and a return: 40 panels.
func fortyPanels() fold.Spec {
	f := &sizes.Form{Radius: sizes.Is(1), Gap: sizes.Is(0.5), Relief: sizes.Relief{Kind: sizes.Drilled, Size: sizes.Is(3)}}
	const n = 13
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		f.Base.Points = append(f.Base.Points, sizes.Point{X: sizes.Is(300 * cos), Y: sizes.Is(300 * sin)})
		wall := fmt.Sprintf("wall %d", i+1)
		f.Flanges = append(f.Flanges,
			sizes.Flange{Name: wall, On: "floor", Side: fmt.Sprintf("side %d", i+1), Height: sizes.Is(60), Angle: sizes.Is(80)},
			sizes.Flange{Name: wall + " lip", On: wall, Height: sizes.Is(20), Along: true, Down: true, Angle: sizes.Is(80)},
			sizes.Flange{Name: wall + " return", On: wall + " lip", Height: sizes.Is(10), Along: true, Down: true})
	}
	return fold.Spec{Sheet: fold.Sheet{Thickness: 1}, Sizes: f}
}

// One edit of a part of 40 panels: made anew, folded, its seams measured.
func BenchmarkEdit40(b *testing.B) {
	s := fortyPanels()
	for i := range b.N {
		s.Sizes.Flanges[0].Height = sizes.Is(60 + float64(i%7))
		m, problems := shape.Make(s)
		if len(problems) > 0 {
			b.Fatal(problems[0])
		}
		if r := m.Part.Quick(); len(r.Seams) == 0 {
			b.Fatal("no seams")
		}
	}
}

// The same without what follows.
func BenchmarkMake40(b *testing.B) {
	s := fortyPanels()
	for range b.N {
		if _, problems := shape.Make(s); len(problems) > 0 {
			b.Fatal(problems[0])
		}
	}
}
