package spread

import (
	"fmt"
	"testing"

	"dryfold/fold"
)

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

var _ fold.Seam
