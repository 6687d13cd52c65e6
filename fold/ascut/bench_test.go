package ascut

import (
	"testing"

	"dryfold/assets"
)

// BenchmarkLookAndJudge: the list of each demo part, and the verdict with one size 2 mm out.
func BenchmarkLookAndJudge(b *testing.B) {
	all := demos(b)
	for _, d := range assets.Demos() {
		x := look(all[d.File])
		b.Run(d.File, func(b *testing.B) {
			for range b.N {
				l := Look(x.p, &x.r)
				is := x.wants()
				is[len(is)-1] += 2
				x.l = l
				x.typed(is...)
			}
		})
	}
}
