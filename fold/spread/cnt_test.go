package spread

import "testing"

func TestCnt(t *testing.T) {
	for _, f := range partFiles(t) {
		p := filePart(t, f)
		if !p.Foldable {
			continue
		}
		r := p.Quick()
		w := newWork(p, seamsOf(&r), Options{})
		for _, m := range w.seams {
			t.Log(baseName(f), len(m.lines), len(m.laps), len(m.side[0].pieces), len(m.side[1].pieces))
		}
	}
}
