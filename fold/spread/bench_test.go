package spread

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// fortyPanels is a base of 13 sides, each with a leaning wall, a lip and a return: 40 panels, 39 seams.
func fortyPanels(t testing.TB) *fold.Part {
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
	m, wrong := shape.Make(fold.Spec{Sheet: fold.Sheet{Thickness: 1}, Sizes: f})
	require.Empty(t, wrong)
	return m.Part
}

// BenchmarkForty is what a spread adds to the check of a part of 40 panels.
func BenchmarkForty(b *testing.B) {
	p := fortyPanels(b)
	r := p.Quick()
	b.ReportMetric(float64(len(r.Seams)), "seams")
	for b.Loop() {
		x := r
		x.Seams = append([]fold.SeamReport(nil), r.Seams...)
		if !Add(p, &x, Options{}) {
			b.Fatal("no spread")
		}
	}
}

// BenchmarkForty0 is the check without it.
func BenchmarkForty0(b *testing.B) {
	p := fortyPanels(b)
	for b.Loop() {
		p.Check()
	}
}

// BenchmarkSpread10000 simulates the uncapping tray with 10,000 samples, on one core: making ready, drawing, measuring, sorting.
func BenchmarkSpread10000(b *testing.B) {
	p := filePart(b, "../../assets/uncapping-tray.dryfold")
	r := p.Quick()
	seams := seamsOf(&r)
	for b.Loop() {
		if s, _ := Of(p, seams, Options{Samples: CommandSamples}); s == nil {
			b.Fatal("no spread")
		}
	}
}

// BenchmarkDemos simulates each demo with as many samples as a check draws.
func BenchmarkDemos(b *testing.B) {
	for _, f := range partFiles(b) {
		p := filePart(b, f)
		if !p.Foldable {
			continue
		}
		r := p.Quick()
		seams := seamsOf(&r)
		b.Run(fmt.Sprintf("%s/%d-panels-%d-seams", baseName(f), len(p.Panels), len(seams)), func(b *testing.B) {
			for b.Loop() {
				Of(p, seams, Options{Samples: PageSamples})
			}
		})
	}
}

// BenchmarkSample is one sample of the uncapping tray's seams and box.
func BenchmarkSample(b *testing.B) {
	p := filePart(b, "../../assets/uncapping-tray.dryfold")
	r := p.Quick()
	w := newWork(p, seamsOf(&r), Options{})
	d := newDraws(1)
	for _, m := range w.seams {
		b.Logf("%d lines, %d laps", len(m.lines), len(m.laps))
	}
	b.Run("draw", func(b *testing.B) {
		for b.Loop() {
			d.fill(w.z)
		}
	})
	b.Run("pose", func(b *testing.B) {
		for b.Loop() {
			w.x.set(w.z)
		}
	})
	b.Run("box", func(b *testing.B) {
		for b.Loop() {
			w.box.measure(w.x)
		}
	})
	b.Run("seams", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			d.fill(w.z)
			w.x.set(w.z)
			for _, m := range w.seams {
				m.measure(w.x)
			}
		}
	})
}
