package shape

// This file holds Make and what its steps share. base.go lays out the base, tree.go reads the form into panels, place.go
// places them in space, heights.go and profile.go turn measured heights into flat ones, corner.go and cornercut.go find where walls
// end at corners, outline.go cuts panels, relief.go and walk.go draw the blank, openings.go the holes, draw.go and
// seams.go make a Spec of it, marks.go tells where each size runs. measure.go reads the corners off the folded part and
// corrects them, light.go their light holes; whynot.go, overlap.go and blanktroubles.go say what is wrong with the blank.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
	"dryfold/fold/sizes"
)

// Make makes the part of a Spec's Sizes: its outline, cutouts, holes, bends, panels, base
// and seams; the rest of the Spec stays. The blank's box begins at the origin. With
// problems there is no part: each names a field.
func Make(s fold.Spec) (Made, []*Problem) { return makeIn(s, maxRounds) }

// makeIn is Make with so many rounds of correcting the corners; with none they aren't measured either, and the corners
// are left out.
func makeIn(s fold.Spec, rounds int) (Made, []*Problem) {
	if s.Sizes == nil {
		return Made{}, []*Problem{{"sizes", "nothing", "the part's finished sizes"}}
	}
	b := &builder{spec: s, form: s.Sizes, t: s.Sheet.Thickness * s.Units.Scale(), unit: s.Units.Scale(), rounds: rounds}
	if !(b.t >= fold.MinSize && b.t <= fold.MaxSize) {
		return Made{}, []*Problem{{"sheet.thickness", fig(s.Sheet.Thickness), "a thickness over 0"}}
	}
	var errs []*sizes.Error
	b.values, errs = s.Sizes.Values(b.unit)
	for _, e := range errs {
		b.problem(e.Path, e.Found, e.Need)
	}
	if b.failed() {
		return Made{}, b.problems
	}
	b.bending = s.Bending()
	m, _ := metal.Resolve(s.Sheet.Metal, s.Metals)
	b.aluminium = m.Family == "aluminium"
	for _, step := range []func(){b.read, b.heights, b.place, b.findCorners} {
		if step(); b.failed() {
			return Made{}, b.problems
		}
	}
	return b.solve()
}

// builder makes one part. Lengths in mm, blank coordinates with the base as it was measured.
type builder struct {
	spec      fold.Spec
	form      *sizes.Form
	values    *sizes.Values
	bending   func(fold.BendSpec) fold.Bend
	t         float64 // thickness
	unit      float64 // mm in one unit of the form
	base      *panel
	reversed  bool     // the base was given clockwise
	panels    []*panel // base first, each after the one it stands on
	corners   []*corner
	aluminium bool
	gap       float64 // wanted, where a corner says nothing
	rounds    int     // of correcting the corners
	fine      bool    // a first look at the gaps does no more
	problems  []*Problem
	notes     []fold.Trouble
	flip      float64   // how toUnits moved the blank last: -1 where it was mirrored,
	lowLeft   geom.Vec2 // and its box's lower left corner then
}

// onSheet is where a point of the blank as it is drawn lies on the one that was made, mm.
func (b *builder) onSheet(p geom.Vec2) geom.Vec2 {
	return geom.Vec2{b.flip * p[0], p[1]}.Sub(b.lowLeft)
}

func (b *builder) failed() bool { return len(b.problems) > 0 }

func (b *builder) problem(path, found, need string) {
	if len(b.problems) >= maxProblems {
		return
	}
	for _, p := range b.problems {
		if p.Path == path {
			return // one at a field is enough
		}
	}
	b.problems = append(b.problems, &Problem{path, found, need})
}

// num is a field's number as it stands, or another where it is not given.
func (b *builder) num(path string, f sizes.Field, other float64) float64 {
	if !f.Given {
		return other
	}
	x, err := b.values.At(path, f)
	if err != nil {
		b.problem(err.Path, err.Found, err.Need)
		return other
	}
	return x
}

// length is a field's length in mm; other is in mm too.
func (b *builder) length(path string, f sizes.Field, other float64) float64 {
	x := b.num(path, f, other/b.unit) * b.unit
	if !(math.Abs(x) <= fold.MaxSize) {
		b.problem(path, fig(x/b.unit), "a length within "+fig(fold.MaxSize/b.unit)+" "+b.spec.Units.String())
		return other
	}
	return x
}

// atLeast refuses a length (mm) that is under a least one, or not over it.
func (b *builder) atLeast(path string, x, least float64, over bool) {
	switch {
	case over && !(x > least):
		b.problem(path, b.say(x), "more than "+b.say(least))
	case !over && !(x >= least):
		b.problem(path, b.say(x), "at least "+b.sayUp(least))
	}
}

// say is a length in the part's units, in words.
func (b *builder) say(mm float64) string {
	return fig(mm/b.unit) + " " + b.spec.Units.String()
}

// sayUp is say rounded up, so that what is said would do.
func (b *builder) sayUp(mm float64) string {
	return fig(math.Ceil(mm/b.unit*1e3-upNoise)/1e3) + " " + b.spec.Units.String()
}

// solve cuts, draws and folds the part, and corrects its corners until each seam's
// least gap is the wanted one.
func (b *builder) solve() (Made, []*Problem) {
	var last Made
	for round := 0; ; round++ {
		made, ok := b.folded()
		if !ok {
			if round > 0 && b.takeBack(made.Part) { // it was the last correction
				b.problems = nil
				continue
			}
			return Made{}, b.problems
		}
		last = made
		b.fine = b.fine || round >= b.rounds
		if b.rounds == 0 || (b.fine || b.nearly(made.Part)) && b.measure(made.Part, &last) || round >= b.rounds {
			break
		}
	}
	last.Notes = append(b.notes, b.cornerNotes(last.Corners)...)
	last.Notes = append(last.Notes, b.cutOffNotes()...)
	if b.rounds > 0 {
		last.Notes = append(last.Notes, BlankTroubles(last, last.Part)...)
	}
	return last, nil
}

// folded cuts, draws and folds the part as its corners are now.
func (b *builder) folded() (made Made, ok bool) {
	if b.cut(); b.failed() {
		return made, false
	}
	if made = b.draw(); b.failed() {
		return made, false
	}
	if made.Part = fold.Build(made.Spec); !made.Part.Foldable {
		b.problems = append(b.problems, b.whyNot(made, made.Part))
		return made, false
	}
	return made, true
}

// own is a point in mm in the form's units.
func (b *builder) own(p geom.Vec2) geom.Vec2 { return p.Mul(1 / b.unit) }
