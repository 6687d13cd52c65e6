package shape

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// A flange whose ends lean in so far that they meet: that is told, with the height that is left, as measured on the folded part.
func TestFlangeCutOff(t *testing.T) {
	for _, mirror := range []bool{false, true} {
		s, _ := StarterByID("angle")
		spec := s.Make(fold.MM)
		spec.Sizes.Mirror = mirror
		spec.Sizes.Flanges = append(spec.Sizes.Flanges,
			sizes.Flange{Name: "flap", On: "leg", Side: "front", Height: sizes.Is(40), Angle: sizes.Is(70), LeanStart: sizes.Is(40), LeanEnd: sizes.Is(35), From: sizes.Is(6)})
		made, bad := Make(spec)
		require.Empty(t, bad)
		var note *fold.Trouble
		for i := range made.Notes {
			if made.Notes[i].Rule == "flange-cut-off" {
				require.Nil(t, note)
				note = &made.Notes[i]
			}
		}
		if note == nil {
			t.Fatal(made.Notes)
		}
		require.Equal(t, "flap", note.Name)
		f := foldUp(t, made.Spec)
		require.InDelta(t, f.extreme("flap", zAxis), *note.Have, 1e-9)
		require.InDelta(t, 40, *note.Need, 1e-12)
		// The place is a corner of the flap on the blank.
		best := 1e9
		for _, q := range f.part.Panels[f.panel("flap")].Region.Outer {
			best = min(best, q.Sub(note.At).Len())
		}
		require.Less(t, best, 1e-6)
	}
}

// The place of a corner's note lies at that corner on the blank that was made, in either hand.
func TestCornerNotePlace(t *testing.T) {
	for _, mirror := range []bool{false, true} {
		s, _ := StarterByID("stepped-tray")
		spec, _ := SetSizes(s.Make(fold.MM), map[string]string{"wide_back": "300"})
		spec.Sizes.Mirror = mirror
		made, bad := Make(spec)
		require.Empty(t, bad)
		require.NotEmpty(t, made.Notes)
		for _, n := range made.Notes {
			best := 1e9
			for _, x := range made.Spec.Seams {
				if x.Name == n.Name {
					for _, q := range []geom.Vec2{x.A, x.B} {
						best = min(best, q.Sub(n.At).Len())
					}
				}
			}
			require.Less(t, best, 60.0, n.Name) // the wall is 50 high
		}
	}
}
