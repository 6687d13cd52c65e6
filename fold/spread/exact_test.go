package spread

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
)

// TestExact: with no errors every quantity is the report's own.
func TestExact(t *testing.T) {
	r := newRand(t)
	var parts []*fold.Part
	for _, f := range partFiles(t) {
		parts = append(parts, filePart(t, f))
	}
	for range 150 {
		parts = append(parts, fold.Build(foldtest.Random(r)))
	}
	seams := 0
	for _, p := range parts {
		if !p.Foldable {
			continue
		}
		rep := p.Quick()
		w := newWork(p, seamsOf(&rep), Options{})
		w.x.set(nil)
		box := w.box.measure(w.x)
		size := rep.Finished.Box()
		for k := range box {
			require.InDelta(t, size[k], box[k], 1e-9, "%s: size %d", p.Spec.Name, k)
		}
		for i := range rep.Seams {
			s, m := &rep.Seams[i], w.seams[i]
			require.NotNil(t, m, "%s: %s", p.Spec.Name, s.Name)
			m.tol = solvedExact
			g := m.measure(w.x)
			seams++
			for _, c := range []struct {
				what      string
				got, want float64
			}{{"start", g.at[0], s.GapStart}, {"end", g.at[len(stations)-1], s.GapEnd}, {"least", g.least, s.GapMin}, {"widest", g.widest, s.GapMax}, {"length", m.hi - m.lo, s.Length}} {
				if !(math.Abs(c.got-c.want) <= 1e-9) {
					t.Errorf("%s, seam %s, %s: %.12g, the report says %.12g (%d, %d lines)", p.Spec.Name, s.Name, c.what, c.got, c.want, len(m.lines), len(m.laps))
				}
			}
		}
	}
	if seams < 100 {
		t.Errorf("only %d seams", seams)
	}
	t.Log(seams, "seams")
}

func seamsOf(r *fold.Report) []fold.Seam {
	var out []fold.Seam
	for i := range r.Seams {
		out = append(out, r.Seams[i].Seam)
	}
	return out
}
