package session

// This file holds the sheet: its metal, its thickness by measure or by gauge, the
// grain, and the numbers that are chosen for it. metalown.go holds the metals that
// the maker describes, metalbend.go radii and K of the bends, metalprice.go the price.

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/metal"
)

// metalState is what stands open under Metal. The zero value is a column freshly opened.
type metalState struct {
	keepBlank bool       // what stays as it is when a number changes
	can       bool       // of canOf: its blank can be laid out anew
	canOf     *fold.Part // the part that can was found for
	gauge     GaugeQuestion
	gaugeOf   *fold.Part // the part that gauge was asked of
	form      *MetalForm
}

// KeepsSizes reports whether a changed number keeps the finished sizes and lays the
// blank out anew, rather than keeping the blank and letting the finished sizes move.
// A part by sizes always keeps them.
func (s *Session) KeepsSizes() bool { return s.BySizes() || !s.metal.keepBlank && s.CanRedevelop() }

// KeepSizes chooses between the two.
func (s *Session) KeepSizes(on bool) { s.metal.keepBlank = !on }

// CanRedevelop reports whether the open part's blank can be laid out anew from its finished sizes.
func (s *Session) CanRedevelop() bool {
	if s.metal.canOf != s.part {
		s.metal.can = false
		if s.part.Foldable && len(s.part.Bends) > 0 {
			_, err := s.part.Redevelop(s.spec)
			s.metal.can = err == nil
		}
		s.metal.canOf = s.part
	}
	return s.metal.can
}

// reckon makes a change of a number that the bends are reckoned with, keeping what
// KeepsSizes says; Told has then what it did. f may change what
// Bends, Metals and Tests hold: they are copies. It gives a sentence that is told too, or "".
func (s *Session) reckon(field, typed string, f func(*fold.Spec) string) error {
	delete(s.errors, field)
	was, serial := s.sizesNow(), s.serial
	next := s.spec
	next.Bends = slices.Clone(next.Bends)
	next.Metals = slices.Clone(next.Metals)
	next.Tests = slices.Clone(next.Tests)
	said := f(&next)
	commonRadius(s.spec.Sizes, next.Sizes)
	if s.KeepsSizes() {
		laid, err := s.laidOut(next)
		if err != nil {
			return s.refuse(field, typed, fmt.Errorf("the blank can’t be laid out anew: %w. Keeping the blank would do", err))
		}
		next = laid
	}
	if err := s.take(field, typed, next); err != nil {
		return err
	}
	if s.serial != serial {
		s.tell(field, said, s.moved(was))
	}
	return nil
}

// TheMetal is what is known of the shown part's metal; ok is false where its name says nothing.
func (s *Session) TheMetal() (m metal.Metal, ok bool) {
	spec := s.Part().Spec
	return metal.Resolve(spec.Sheet.Metal, spec.Metals)
}

// SetMetal names the metal; "" leaves it unsaid. One of the maker's own that only the bench knows
// comes into the part with it.
func (s *Session) SetMetal(text string) error {
	name, err := readName(text)
	if err != nil {
		return s.refuse("metal", text, err)
	}
	return s.reckon("metal", text, func(next *fold.Spec) string {
		next.Sheet.Metal = name
		if i := ownNamed(s.bench.Metals, name); i >= 0 && ownNamed(next.Metals, name) < 0 {
			next.Metals = append(next.Metals, s.bench.Metals[i])
		}
		return s.otherSheet(next)
	})
}

// GaugeChoice is one thickness that a gauge number may stand for.
type GaugeChoice struct {
	metal.Gauge
	Usual bool // by the table that is usual for the part's metal
}

// GaugeQuestion asks which table a typed gauge number belongs to.
type GaugeQuestion struct {
	Typed   string
	Choices []GaugeChoice // the usual table's first
}

// GaugeQuestion is the question that waits for an answer under the thickness; ok is false where none does.
func (s *Session) GaugeQuestion() (q GaugeQuestion, ok bool) {
	if s.metal.gaugeOf != s.part || len(s.metal.gauge.Choices) == 0 {
		return GaugeQuestion{}, false
	}
	return s.metal.gauge, true
}

// usualTable is the gauge table that is usual for the shown part's metal, "" for none.
func (s *Session) usualTable() string {
	if m, ok := s.TheMetal(); ok {
		return metal.DefaultTable(m)
	}
	return ""
}

// SetThickness sets the sheet's thickness from a typed length or gauge. A gauge number
// without its table changes nothing but asks, see GaugeQuestion.
func (s *Session) SetThickness(text string) error {
	s.metal.gaugeOf = nil
	if number, table, is := metal.ReadGauge(text); is {
		delete(s.errors, "thickness")
		if table != "" {
			g, err := metal.LookUp(number, table)
			if err != nil {
				return s.refuse("thickness", text, err)
			}
			return s.TakeGauge(g)
		}
		return s.askGauge(text, number)
	}
	t, err := ReadLength(text, s.units)
	if err == nil && t < fold.MinSize {
		err = fmt.Errorf("%s is no thickness. It wants more than nothing, as 1.5mm, 0.06 in or 16 ga", quoted(text))
	}
	if err != nil {
		return s.refuse("thickness", text, err)
	}
	return s.thicken(text, t)
}

func (s *Session) askGauge(text, number string) error {
	usual := s.usualTable()
	q := GaugeQuestion{Typed: text}
	for _, g := range metal.Candidates(number) {
		if usual != "" && g.Table == usual {
			q.Choices = append([]GaugeChoice{{g, true}}, q.Choices...)
		} else {
			q.Choices = append(q.Choices, GaugeChoice{g, false})
		}
	}
	if len(q.Choices) == 0 {
		_, err := metal.LookUp(number, "")
		return s.refuse("thickness", text, err)
	}
	s.metal.gauge, s.metal.gaugeOf = q, s.part
	return nil
}

// TakeGauge sets the thickness to a gauge's.
func (s *Session) TakeGauge(g metal.Gauge) error {
	s.metal.gaugeOf = nil
	return s.thicken(g.Number, g.Thickness)
}

// thicken gives the sheet another thickness (mm), keeping what KeepsSizes says. Where the finished sizes can't be
// kept the blank stays, and Told says by how much they move.
func (s *Session) thicken(text string, mm float64) error {
	const field = "thickness"
	delete(s.errors, field)
	was, serial := s.sizesNow(), s.serial
	next := s.spec
	next.Bends = slices.Clone(next.Bends)
	next.Sheet.Thickness = s.own(mm)
	said := []string{s.otherSheet(&next)}
	if s.KeepsSizes() {
		laid, why := s.laidOut(next)
		if why == nil {
			why = s.change(laid)
		}
		if why == nil {
			if s.serial != serial {
				s.tell(field, append(said, s.moved(was))...)
			}
			return nil
		}
		said = append(said, fmt.Sprintf("The blank can’t be laid out anew for it: %s.", why))
	}
	if err := s.change(next); err != nil {
		if s.viewOnly {
			return s.refuse(field, text, err)
		}
		return s.refuse(field, text, s.tooThick(next, text, err))
	}
	if s.serial != serial {
		s.tell(field, append(said, s.moved(was))...)
	}
	return nil
}

// thickSteps bounds the thicknesses that are tried for one that would do: each is a part built.
const thickSteps = 7

// tooThick says which thickness would do where that of next doesn't fold: one that was tried, the greatest of them.
// Where the sheet is not thicker than now, or nothing is found, it gives why.
func (s *Session) tooThick(next fold.Spec, text string, why error) error {
	k := next.Units.Scale()
	good, bad := s.part.Thickness, next.Sheet.Thickness*k
	if !s.part.Foldable || bad <= good || len(s.part.Bends) > maxThickTried {
		return why
	}
	nice := func(mm float64) float64 { return math.Floor(mm*10) / 10 }
	best := 0.0
	for range thickSteps {
		mid := math.Sqrt(good * bad)
		next.Sheet.Thickness = mid / k
		if build(next).part.Foldable {
			good, best = mid, mid
		} else {
			bad = mid
		}
	}
	if t := nice(best); t > s.part.Thickness {
		next.Sheet.Thickness = t / k
		if build(next).part.Foldable {
			best = t
		}
	}
	what := "this blank: its bends would take more than there is between them"
	if s.BySizes() {
		what = "these sizes. " + why.Error()
	}
	if best == 0 {
		return fmt.Errorf("%s is too thick for %s. Little more than the %s mm it has would do", quoted(text), what, Fine(s.part.Thickness, fold.MM))
	}
	return fmt.Errorf("%s is too thick for %s. Up to about %s mm would do", quoted(text), what, Fine(best, fold.MM))
}

// maxThickTried is the most bends of a part for which a thickness that would do is looked for: it must take no longer
// than the page may stand still.
const maxThickTried = 30

// TableName is a gauge table's name, its ID where there is no such table.
func TableName(id string) string {
	if t, ok := metal.TableByName(id); ok {
		return t.Name
	}
	return id
}

// sameGauge is how far a thickness may be from a gauge's and still be called by it (mm):
// less than a sheet's rolling tolerance, more than the rounding of a printed table.
const sameGauge = 0.01

// GaugeThickness writes a gauge's thickness: to 0.01 mm, or to the four places that tables in inches have.
func GaugeThickness(mm float64, shown fold.Units) string {
	if shown == fold.Inch {
		return fixed(mm/inch, 4)
	}
	return fixed(mm, 2)
}

// NearestGauge tells of the gauge nearest to the shown part's thickness in the table
// usual for its metal: "Nearest: 20 ga US Standard 0.95 mm, 0.05 less."; "" where no table is usual.
func (s *Session) NearestGauge() string {
	t := s.Part().Thickness
	g, ok := s.nearest()
	if !ok {
		return ""
	}
	name := g.Number + " ga " + TableName(g.Table)
	d := g.Thickness - t
	if math.Abs(d) < 5e-5 {
		return "It is " + name + "."
	}
	side, by := "more", Fine(math.Abs(d), s.units)
	if d < 0 {
		side = "less"
	}
	if s.units == fold.Inch {
		by = trimmed(math.Abs(d)/inch, 4)
	}
	if by == "0" {
		return "Within its rounding it is " + name + "."
	}
	return fmt.Sprintf("Nearest: %s %s %s, %s %s.", name, GaugeThickness(g.Thickness, s.units), s.units, by, side)
}

func (s *Session) nearest() (metal.Gauge, bool) {
	table := s.usualTable()
	if table == "" {
		return metal.Gauge{}, false
	}
	g, _, ok := metal.Nearest(s.Part().Thickness, table)
	return g, ok
}

// BandGauge is the gauge that the thickness is, with its table, for the line on the
// bench: "20 ga US Standard"; "" where the thickness is none of the usual table.
func (s *Session) BandGauge() string {
	g, ok := s.nearest()
	if !ok || math.Abs(g.Thickness-s.Part().Thickness) > sameGauge {
		return ""
	}
	return g.Number + " ga " + TableName(g.Table)
}

// LongSideIsX reports whether the longer side of the shown blank lies along x.
func (s *Session) LongSideIsX() bool {
	z := s.Part().Blank.Box.Size()
	return z[0] >= z[1]
}

// Ways that the grain may run.
const (
	GrainUnsaid = ""
	GrainLong   = "long"
	GrainCross  = "cross"
	GrainSlant  = "slant"
)

// GrainWay says how the grain runs on the shown blank: along its longer side, across it, at another
// angle, or that it is not said.
func (s *Session) GrainWay() string {
	g := s.Part().Spec.Sheet.Grain
	if g == nil {
		return GrainUnsaid
	}
	turn := math.Mod(math.Mod(*g, 180)+180, 180)
	switch {
	case turn != 0 && turn != 90:
		return GrainSlant
	case (turn == 0) == s.LongSideIsX():
		return GrainLong
	}
	return GrainCross
}

// SetGrainWay says how the grain runs; GrainSlant begins at 45 degrees.
func (s *Session) SetGrainWay(way string) error {
	if way == s.GrainWay() {
		return nil
	}
	next := s.spec
	along, across := 0.0, 90.0
	if !s.LongSideIsX() {
		along, across = across, along
	}
	slant := 45.0
	next.Sheet.Grain = map[string]*float64{GrainLong: &along, GrainCross: &across, GrainSlant: &slant}[way]
	return s.take("grain", "", next)
}

// SetGrain sets the grain's angle from typed degrees, from the blank's lower edge, counter-clockwise.
func (s *Session) SetGrain(text string) error {
	a, err := ReadAngle(text)
	if err == nil && !(a > -180 && a <= 180) {
		err = fmt.Errorf("%s is no direction of the grain. From the lower edge, 0 to 180 would do", quoted(text))
	}
	if err != nil {
		return s.refuse("grain", text, err)
	}
	next := s.spec
	next.Sheet.Grain = &a
	return s.take("grain", text, next)
}

// SetLip sets the shortest lip that the maker's brake has turned, outside, on the part and on the
// bench; "" leaves it unsaid on the part.
func (s *Session) SetLip(text string) error {
	next := s.spec
	if blank(text) {
		next.Sheet.Lip = nil
		return s.take("lip", text, next)
	}
	v, err := ReadLength(text, s.units)
	if err == nil && v < fold.MinSize {
		err = fmt.Errorf("%s is no lip. It wants more than nothing, as 12 or 1/2\"", quoted(text))
	}
	if err != nil {
		return s.refuse("lip", text, err)
	}
	mm := v
	v = s.own(v)
	next.Sheet.Lip = &v
	err = s.take("lip", text, next)
	if err == nil && s.bench.Lip != mm { // it is the brake's, whatever the part
		s.bench.Lip = mm
		s.benchSerial++
	}
	return err
}

// SetGood says which face will be seen: "up", "down" or "" for neither.
func (s *Session) SetGood(face string) error {
	next := s.spec
	next.Sheet.Good = face
	return s.take("good", "", next)
}

var errViewOnly = errors.New("This is a shared part, view only. Take a copy to change it")
