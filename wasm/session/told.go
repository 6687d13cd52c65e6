package session

// This file says beside a field what the change that was typed there did: to the blank and the
// finished part in figures, and to what else went with it.

import (
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
)

// telling is what the last change did, for the field that made it.
type telling struct {
	field, words string
	serial       int // of the part that the change made
}

// Told is what the last change did, "" where it was made in another field, or something was changed since.
func (s *Session) Told(field string) string {
	if s.told.field != field || s.told.serial != s.serial {
		return ""
	}
	return fold.InUnits(s.told.words, s.units)
}

// tell keeps what a change did, in whole sentences, lengths in mm.
func (s *Session) tell(field string, sentences ...string) {
	var said []string
	for _, t := range sentences {
		if t != "" {
			said = append(said, t)
		}
	}
	s.told = telling{field, strings.Join(said, " "), s.serial}
}

// extents are what a change may move: the blank's box and the finished part's, mm.
type extents struct {
	blank [2]float64
	made  [3]float64
	known bool // the part folds, so there is a finished one
}

func (s *Session) sizesNow() extents {
	return extents{s.part.Blank.Box.Size(), s.report.Finished.Box(), s.part.Foldable}
}

// moved says by how much blank and finished part differ from what they were, in mm; "" where nothing shows.
func (s *Session) moved(was extents) string {
	now := s.sizesNow()
	if !was.known || !now.known {
		return ""
	}
	var blank, made [3]float64
	for i := range was.blank {
		blank[i] = now.blank[i] - was.blank[i]
	}
	for i := range was.made {
		made[i] = now.made[i] - was.made[i]
	}
	if now.blank[1] > now.blank[0] {
		blank[0], blank[1] = blank[1], blank[0]
	}
	if now.made[1] > now.made[0] {
		made[0], made[1] = made[1], made[0]
	}
	switch b, m := grown(blank, fold.MM), grown(made, fold.MM); {
	case b == "" && m == "":
		return ""
	case m == "":
		return "The blank is now " + b + "; the finished outside sizes stay."
	case b == "":
		return "The blank stays; the finished part comes out " + m + "."
	default:
		return "The blank is now " + b + "; the finished part comes out " + m + "."
	}
}

// measuredRadii are the inside radii (mm) that test bends which fit a part's sheet came out with, as
// measured on them or as strips of several angles fix them.
func (s *Session) measuredRadii(spec fold.Spec) []float64 {
	all := inMM(spec)
	var fit []metal.Strip
	for _, i := range metal.Matching(all, spec.Sheet.Metal, s.ownMetals(spec), spec.Sheet.Thickness*spec.Units.Scale()) {
		fit = append(fit, all[i])
	}
	study := metal.Examine(fit)
	return studyRadii(&study)
}

// measuredHere is measuredRadii of the open part.
func (s *Session) measuredHere() []float64 { return studyRadii(&s.Tests().Study) }

func studyRadii(study *metal.Study) (out []float64) {
	for i := range study.Groups {
		if g := &study.Groups[i]; g.RadiusFrom == "measured" || g.RadiusFrom == "fitted" {
			out = append(out, g.Radius)
		}
	}
	return out
}

// oneOf reports whether a radius is one of a list, to what a radius gauge tells apart.
func oneOf(radius float64, list []float64) bool {
	for _, r := range list {
		if -metal.RadiusSame <= r-radius && r-radius <= metal.RadiusSame {
			return true
		}
	}
	return false
}

// giveRadius gives a bend of next another inside radius (mm). How the old one was known says nothing of the new:
// it is assumed, unless strips measured the new one too. was is how it was known, "" where that stays.
func (s *Session) giveRadius(next *fold.Spec, bend int, r float64, measured []float64) (was string) {
	before := s.part.Bends[bend].Radius
	_ = s.editBend(next, bend, func(b *fold.BendSpec) { // a radius alone is never refused
		b.Radius = s.own(r)
		if d := r - before; -sameFigure <= d && d <= sameFigure || b.RadiusFrom == "" || b.RadiusFrom == "assumed" || b.RadiusFrom == "strip" && oneOf(r, measured) {
			return
		}
		was, b.RadiusFrom = b.RadiusFrom, ""
	})
	return was
}

// unmeasure marks the bends of next, a part by sizes that makes part, as of assumed radius where its sizes give them another than
// the one that was measured on a strip; it reports whether there were any.
func (s *Session) unmeasure(next *fold.Spec, part *fold.Part) bool {
	if next.Sizes == nil || len(part.Bends) != len(s.part.Bends) {
		return false
	}
	var measured []float64
	found := false
	for i := range part.Bends {
		is, was := &part.Bends[i], &s.part.Bends[i]
		d := is.Radius - was.Radius
		if is.Name != was.Name || -sameFigure <= d && d <= sameFigure || part.Spec.Bends[i].RadiusFrom != "strip" || s.part.Spec.Bends[i].RadiusFrom != "strip" {
			continue
		}
		if measured == nil {
			measured = s.measuredRadii(*next)
		}
		if !oneOf(is.Radius, measured) {
			_ = s.editBend(next, i, func(b *fold.BendSpec) { b.RadiusFrom = "" })
			found = true
		}
	}
	return found
}

// otherSheet marks the radii of next that were measured on strips of another sheet as assumed, and says so; "" where
// there are none.
func (s *Session) otherSheet(next *fold.Spec) string {
	if now, was := &next.Sheet, &s.spec.Sheet; strings.EqualFold(now.Metal, was.Metal) && now.Thickness == was.Thickness {
		return ""
	}
	measured := s.measuredRadii(*next)
	n := 0
	for i := range next.Bends {
		if b := &next.Bends[i]; b.RadiusFrom == "strip" && !oneOf(b.Radius*next.Units.Scale(), measured) {
			_ = s.editBend(next, i, func(b *fold.BendSpec) { b.RadiusFrom = "" })
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return "The inside radii that were measured on strips of the other sheet are assumed now."
}

// knownWords are the ways in which a radius is known, within a sentence.
var knownWords = map[string]string{"strip": "measured on a strip", "nose": "known by the nose", "bar-back": "known by the bar-back"}

func assumedNow(was string) string {
	if was == "" {
		return ""
	}
	return "The radius before was " + knownWords[was] + "; this one is assumed until you say how you know it."
}
