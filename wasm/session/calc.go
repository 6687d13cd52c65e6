package session

// This file holds the bend calculator's sheet: what stands in its fields, and the answer.
// It starts from the part's sheet and bends and then works without any part.

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
)

// CalcFields are the fields of the calculator that are typed, in order.
var CalcFields = [...]string{"thickness", "radius", "angle", "k", "legs"}

// places of the fields in CalcFields.
const (
	calcThickness = iota
	calcRadius
	calcAngle
	calcK
	calcLegs
)

// CalcGiven is what By says where K is a figure; else By is a rule's ID, or "" for the maker's
// own test bends and, without those, the usual rule.
const CalcGiven = "given"

// Calc is the bend calculator as it stands.
type Calc struct {
	Open    bool
	Texts   []string
	Between bool // the angle is the included one, between the legs
	Inside  bool // the legs are inside sizes
	By      string
	Metal   string
	Inch    bool // the unit of what was typed without one
}

// CalcField is the key of a field of the calculator for errors and focus.
func CalcField(name string) string { return "calc-" + name }

// Calc is the calculator; nil where it was never opened.
func (s *Session) Calc() *Calc {
	f := s.calc
	if f != nil && f.Inch != (s.units == fold.Inch) {
		from := fold.MM
		if f.Inch {
			from = fold.Inch
		}
		other := func(text string) string {
			if v, err := ReadLength(text, from); err == nil {
				return FieldLength(v, s.units)
			}
			return text
		}
		f.Texts[calcThickness], f.Texts[calcRadius] = other(f.Texts[calcThickness]), other(f.Texts[calcRadius])
		if legs, _ := splitLegs(f.Texts[calcLegs]); len(legs) > 0 {
			for i := range legs {
				legs[i] = other(legs[i])
			}
			f.Texts[calcLegs] = strings.Join(legs, " + ")
		}
		f.Inch = !f.Inch
	}
	return f
}

// OpenCalc folds the calculator open, or shut. The first time it has the figures of the part.
func (s *Session) OpenCalc(open bool) {
	if s.calc == nil {
		s.CalcFromPart()
	}
	s.calc.Open = open
}

// CalcFromPart gives the calculator the part's metal, thickness, K and the figures of the open
// card's first bend.
func (s *Session) CalcFromPart() {
	f := &Calc{Open: true, Texts: make([]string, len(CalcFields)), Inch: s.units == fold.Inch, Metal: s.spec.Sheet.Metal, By: s.spec.Sheet.Rule}
	p := s.part
	radius, angle := p.Thickness, 90.0
	if b, ok := s.calcBend(); ok {
		radius, angle = p.Bends[b].Radius, p.Bends[b].Angle.Degrees()
	}
	f.Texts[calcThickness], f.Texts[calcRadius] = FieldLength(p.Thickness, s.units), FieldLength(radius, s.units)
	f.Texts[calcAngle] = FieldDegrees(angle)
	if k := s.spec.Sheet.K; k != nil {
		f.By, f.Texts[calcK] = CalcGiven, trimmed(*k, 4)
	}
	s.calc = f
	s.clearCalcErrors()
}

// calcBend is the bend that the calculator starts from.
func (s *Session) calcBend() (bend int, ok bool) {
	if s.open < len(s.part.Swings) && len(s.part.Swings[s.open].Bends) > 0 {
		return s.part.Swings[s.open].Bends[0], true
	}
	return 0, len(s.part.Bends) > 0
}

func (s *Session) clearCalcErrors() {
	for _, name := range CalcFields {
		delete(s.errors, CalcField(name))
	}
	delete(s.errors, CalcField("metal"))
}

// TypeCalc takes the text of a field while it is being typed.
func (s *Session) TypeCalc(name, text string) {
	if i := slices.Index(CalcFields[:], name); s.Calc() != nil && i >= 0 {
		s.calc.Texts[i] = text
	}
}

// SetCalc takes the text of a field; the error is what is wrong with it, or with the whole.
func (s *Session) SetCalc(name, text string) error {
	if s.Calc() == nil || !slices.Contains(CalcFields[:], name) {
		return errors.New("there is no such field")
	}
	s.TypeCalc(name, text)
	_, err := s.Reckoned()
	return err
}

// SetCalcMetal chooses the metal; "" leaves it unsaid.
func (s *Session) SetCalcMetal(name string) {
	if s.Calc() != nil {
		s.calc.Metal = name
	}
}

// SetCalcBy chooses where K comes from; a figure starts from the K that stands there.
func (s *Session) SetCalcBy(by string) {
	if s.Calc() == nil {
		return
	}
	if by == CalcGiven && strings.TrimSpace(s.calc.Texts[calcK]) == "" {
		if a, err := s.Reckoned(); err == nil {
			s.calc.Texts[calcK] = fixed(a.K, 3)
		}
	}
	s.calc.By = by
}

// SetCalcBetween counts the angle between the legs, or from flat; the bend stays the same.
func (s *Session) SetCalcBetween(between bool) {
	f := s.Calc()
	if f == nil || f.Between == between {
		return
	}
	f.Between = between
	if v, err := ReadAngle(f.Texts[calcAngle]); err == nil {
		f.Texts[calcAngle] = FieldDegrees(180 - v)
	}
}

// SetCalcInside says whether the legs are inside sizes.
func (s *Session) SetCalcInside(inside bool) {
	if f := s.Calc(); f != nil {
		f.Inside = inside
	}
}

// CalcGauges are the thicknesses that the typed gauge number may mean; none where it
// names its table, or is no gauge.
func (s *Session) CalcGauges() []metal.Gauge {
	if s.Calc() == nil {
		return nil
	}
	if number, table, is := metal.ReadGauge(s.calc.Texts[calcThickness]); is && table == "" {
		return metal.Candidates(number)
	}
	return nil
}

// CalcGauge is the gauge that the thickness was given by, with its table; ok is false where it wasn't.
func (s *Session) CalcGauge() (g metal.Gauge, ok bool) {
	if s.Calc() == nil {
		return g, false
	}
	number, table, is := metal.ReadGauge(s.calc.Texts[calcThickness])
	if !is || table == "" {
		return g, false
	}
	g, err := metal.LookUp(number, table)
	return g, err == nil
}

// Reckoned is the calculator's answer. It holds until the next is
// asked for. What is wrong stands beside its field.
func (s *Session) Reckoned() (*metal.Answer, error) {
	f := s.Calc()
	if f == nil {
		return nil, errors.New("the calculator is shut")
	}
	key := fmt.Sprint(s.serial, s.benchSerial, s.units, f.Between, f.Inside, "\n", f.By, "\n", f.Metal, "\n", strings.Join(f.Texts, "\n"))
	if key == s.reckonedOf && s.reckonedErr == nil {
		return &s.reckoned, nil
	}
	s.clearCalcErrors()
	q, field, err := s.ask(f)
	if err == nil {
		s.reckoned, err = metal.Reckon(q)
		var ae *metal.AskError
		if errors.As(err, &ae) {
			field, err = calcFieldOf(ae.Field), fmt.Errorf("%s can’t be: %s", ae.Found, ae.Need)
			if field == "metal" {
				err = errors.New(ae.Need)
			}
		}
	}
	s.reckonedOf, s.reckonedErr = key, err
	if err != nil {
		typed := f.Metal
		if i := slices.Index(CalcFields[:], field); i >= 0 {
			typed = f.Texts[i]
		}
		return nil, s.refuse(CalcField(field), typed, err)
	}
	return &s.reckoned, nil
}

// calcFieldOf is the calculator's field that an AskError is about.
func calcFieldOf(name string) string {
	switch {
	case strings.HasPrefix(name, "legs"):
		return "legs"
	case slices.Contains(CalcFields[:], name):
		return name
	}
	return "metal"
}

// ask reads the fields; field is the one that err is about.
func (s *Session) ask(f *Calc) (q metal.Ask, field string, err error) {
	q = metal.Ask{Metal: f.Metal, Own: s.OwnMetals(), Inside: f.Inside}
	all := inMM(s.spec)
	q.Tests = append(all, strips(s.bench.Tests).without(all)...)
	if q.Thickness, err = readThickness(f.Texts[calcThickness], s.units); err != nil {
		return q, "thickness", err
	}
	if q.Radius, err = ReadLength(f.Texts[calcRadius], s.units); err != nil {
		return q, "radius", err
	}
	if q.Angle, err = ReadAngle(f.Texts[calcAngle]); err != nil {
		return q, "angle", err
	}
	if f.Between {
		if !(q.Angle >= 0 && q.Angle < 180) {
			return q, "angle", fmt.Errorf("%s is no angle between legs. 0 (folded back) up to under 180 (flat) would do", quoted(f.Texts[calcAngle]))
		}
		q.Angle = 180 - q.Angle
	}
	switch f.By {
	case CalcGiven:
		k, err := ReadPlain(f.Texts[calcK])
		if err != nil {
			return q, "k", err
		}
		q.K = &k
	default:
		q.Rule = f.By
	}
	legs, _ := splitLegs(f.Texts[calcLegs])
	for _, text := range legs {
		leg, err := ReadLength(text, s.units)
		if err != nil {
			return q, "legs", fmt.Errorf("%s is no leg. Write the legs in a row, as %s", quoted(text), legsExample(s.units))
		}
		q.Legs = append(q.Legs, leg)
	}
	if len(legs) == 1 {
		return q, "legs", fmt.Errorf("%s is one leg; a bent strip has two or more. Write them in a row, as %s", quoted(f.Texts[calcLegs]), legsExample(s.units))
	}
	return q, "", nil
}

// legsExample is how a list of legs is written.
func legsExample(shown fold.Units) string {
	if shown == fold.Inch {
		return "2, 1 1/2, 2"
	}
	return "50, 20, 50"
}

// CalcLegsRead says as what numbers of the legs without a unit are read, where others have one; else "".
func (s *Session) CalcLegsRead() string {
	f := s.Calc()
	if f == nil {
		return ""
	}
	_, taken := splitLegs(f.Texts[calcLegs])
	if taken == "" {
		return ""
	}
	return "Numbers without a unit are read as " + map[string]string{"in": "inches", "mm": "mm", "cm": "cm"}[taken] + ", like the last."
}

// splitLegs takes legs in a row apart: "40 + 60 + 40", "40; 60", "40, 60", "40,60,40". A unit behind the last is that
// of all that have none: taken names it, "" where there is nothing to take it.
func splitLegs(text string) (legs []string, taken string) {
	text = strings.NewReplacer(";", "+", ", ", "+", "×", "+").Replace(text)
	if !strings.Contains(text, "+") && strings.Count(text, ",") > 1 { // one alone is a decimal comma
		text = strings.ReplaceAll(text, ",", "+")
	}
	for _, t := range strings.Split(text, "+") {
		if t = strings.TrimSpace(t); t != "" {
			legs = append(legs, t)
		}
	}
	if len(legs) == 0 {
		return nil, ""
	}
	_, mm, own := ownUnit(legs[len(legs)-1])
	if !own {
		return legs, ""
	}
	for i, t := range legs {
		if _, _, has := ownUnit(t); !has {
			taken = map[float64]string{1: "mm", 10: "cm", inch: "in"}[mm]
			legs[i] += " " + taken
		}
	}
	return legs, taken
}

// readThickness reads a length, or a gauge with its table, in mm.
func readThickness(text string, shown fold.Units) (float64, error) {
	number, table, is := metal.ReadGauge(text)
	switch {
	case is && table == "":
		if len(metal.Candidates(number)) == 0 {
			return 0, fmt.Errorf("no table has a gauge %s", number)
		}
		return 0, fmt.Errorf("%s gauge is not the same thickness in every table. Choose the table it is of", number)
	case is:
		g, err := metal.LookUp(number, table)
		return g.Thickness, err
	}
	t, err := ReadLength(text, shown)
	if err == nil && t < fold.MinSize {
		err = fmt.Errorf("%s is no thickness. It wants more than nothing, as 1.5mm, 0.06 in or 16 ga Manufacturers' Standard", quoted(text))
	}
	return t, err
}
