package paper

import (
	"testing"

	"dryfold/fold"
)

// The sheets of every demo part, in mm and in fractions of an inch.
func BenchmarkSheets(b *testing.B) {
	specs := testParts(b)
	for _, name := range keys(specs) {
		if name[:7] != "assets/" {
			continue
		}
		p := fold.Build(specs[name])
		r := p.Quick()
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			b.Run(name[7:len(name)-len(".dryfold")]+"/"+u.String(), func(b *testing.B) {
				for range b.N {
					if _, err := MarkingOut(p, &r, Options{Units: u}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
