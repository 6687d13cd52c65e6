package session

// This file holds the form that a test bend is typed into: texts as they were typed,
// what is wrong with them beside each, and the strip that they make.

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
)

// StripFields are the fields of the form, in shop order.
var StripFields = [...]string{"length", "leg-a", "leg-b", "angle", "set", "radius", "nose", "brake"}

// places of the fields in StripFields.
const (
	stripLength = iota
	stripLegA
	stripLegB
	stripAngle
	stripSet
	stripRadius
	stripNose
	stripBrake
)

// StripForm is a test bend being typed.
type StripForm struct {
	At     int // place in the part's list, -1 for a new one
	Texts  []string
	Inside bool
	// Calliper: the lengths are read with one, not with a rule.
	Calliper bool
	Inch     bool // the unit in which the texts were typed
	Added    int  // strips added since the form was opened
}

// StripField is the key of a field of the form for errors and focus.
func StripField(name string) string { return "strip-" + name }

// Strip is the open form, nil where none is.
func (s *Session) Strip() *StripForm {
	f := s.strip
	if f != nil && f.Inch != (s.units == fold.Inch) { // what stands there already is shown in the other unit
		from := fold.MM
		if f.Inch {
			from = fold.Inch
		}
		for _, i := range []int{stripLength, stripLegA, stripLegB, stripRadius, stripNose} {
			if v, err := ReadLength(f.Texts[i], from); err == nil {
				f.Texts[i] = FieldLength(v, s.units)
			}
		}
		f.Inch = !f.Inch
	}
	return f
}

// StripText is what stands in a field of the open form.
func (s *Session) StripText(name string) string {
	if f, i := s.Strip(), slices.Index(StripFields[:], name); f != nil && i >= 0 {
		return f.Texts[i]
	}
	return ""
}

// OpenStrip opens the form on a test bend of the part, or for -1 on a new one that takes
// from the one before what stays the same from strip to strip.
func (s *Session) OpenStrip(at int) {
	s.clearStripErrors()
	f := &StripForm{At: at, Texts: make([]string, len(StripFields)), Inch: s.units == fold.Inch}
	s.strip = f
	length := func(mm float64) string {
		if mm == 0 {
			return ""
		}
		return FieldLength(mm, s.units)
	}
	degrees := func(v *float64) string {
		if v == nil {
			return ""
		}
		return FieldDegrees(*v)
	}
	if at >= 0 && at < len(s.spec.Tests) {
		t := s.OtherStrip(at)
		f.Inside, f.Calliper = t.Inside, t.Calliper
		f.Texts = []string{length(t.Length), length(t.Legs[0]), length(t.Legs[1]), degrees(&t.Angle), degrees(t.Set), "", length(t.Nose), t.Brake}
		if t.Radius != nil {
			f.Texts[stripRadius] = FieldLength(*t.Radius, s.units)
		}
		return
	}
	f.At = -1
	var last metal.Strip
	if t := s.Tests(); len(t.Used) > 0 {
		last = t.Used[len(t.Used)-1]
		if f.Texts[stripAngle] = degrees(&last.Angle); last.Radius != nil {
			f.Texts[stripRadius] = FieldLength(*last.Radius, s.units)
		}
	} else if n := len(s.bench.Tests); n > 0 { // of another sheet: the brake stays, what was set may not
		last = s.bench.Tests[n-1]
		last.Set = nil
	}
	f.Inside, f.Calliper = last.Inside, last.Calliper
	f.Texts[stripLength], f.Texts[stripNose], f.Texts[stripBrake] = length(last.Length), length(last.Nose), last.Brake
	f.Texts[stripSet] = degrees(last.Set)
}

// CloseStrip closes the form; what was typed in it is let go.
func (s *Session) CloseStrip() {
	s.strip = nil
	s.clearStripErrors()
}

func (s *Session) clearStripErrors() {
	for _, name := range StripFields {
		delete(s.errors, StripField(name))
	}
}

// TypeStrip takes a text while it is being typed, without a word on it.
func (s *Session) TypeStrip(name, text string) {
	if f, i := s.Strip(), slices.Index(StripFields[:], name); f != nil && i >= 0 {
		f.Texts[i] = text
		delete(s.errors, StripField(name))
	}
}

// SetStrip takes a text that has been typed. What is wrong with it, or with all of
// them together, stands beside the field.
func (s *Session) SetStrip(name, text string) error {
	s.TypeStrip(name, text)
	_, err := s.readStrip(false)
	return err
}

// SetStripInside says whether the legs are measured inside.
func (s *Session) SetStripInside(inside bool) {
	if f := s.Strip(); f != nil {
		f.Inside = inside
		_, _ = s.readStrip(false) // what is wrong stands beside its field
	}
}

// SetStripCalliper says whether the lengths are read with a calliper.
func (s *Session) SetStripCalliper(calliper bool) {
	if f := s.Strip(); f != nil {
		f.Calliper = calliper
		_, _ = s.readStrip(false)
	}
}

// StripDoubt is what is asked of a field's text that is taken all the same; "" where nothing is.
func (s *Session) StripDoubt(name string) string {
	if name != StripFields[stripRadius] || blank(s.StripText(name)) {
		return ""
	}
	if r, err := ReadLength(s.StripText(name), s.units); err != nil || r != 0 {
		return ""
	}
	return "R 0, a sharp crease? How was it measured? A nose is never so sharp: try radius gauges or drill shanks in the bend. Leave it empty if you don’t know it."
}

// StripNow is the strip as the form has it and the K that it alone gives; ok is false while
// something is missing or wrong.
func (s *Session) StripNow() (t metal.Strip, alone Alone, ok bool) {
	if s.Strip() == nil {
		return t, alone, false
	}
	was := s.errors
	s.errors = map[string]FieldError{}
	t, err := s.readStrip(true)
	s.errors = was
	if err != nil {
		return t, alone, false
	}
	alone.K, alone.Spread, alone.OK = s.alone(t)
	return t, alone, true
}

// readStrip reads the form, notes what is wrong beside its fields, and gives the first
// of it. With whole, what is missing is wrong too.
func (s *Session) readStrip(whole bool) (t metal.Strip, first error) {
	f := s.Strip()
	s.clearStripErrors()
	wrong := func(field int, err error) {
		name := StripField(StripFields[field])
		if _, said := s.errors[name]; said {
			return
		}
		err = s.refuse(name, f.Texts[field], err)
		if first == nil {
			first = err
		}
	}
	t = metal.Strip{Metal: s.spec.Sheet.Metal, Thickness: s.part.Thickness, Inside: f.Inside, Calliper: f.Calliper}
	given := func(field int) bool { return strings.TrimSpace(f.Texts[field]) != "" }
	length := func(field int, to *float64, atLeast string, ok func(float64) bool) {
		if !given(field) {
			return
		}
		v, err := ReadLength(f.Texts[field], s.units)
		if err == nil && !ok(v) {
			err = fmt.Errorf("%s can’t be; it wants %s", quoted(f.Texts[field]), atLeast)
		}
		if err != nil {
			wrong(field, err)
			return
		}
		*to = v
	}
	angle := func(field int, to *float64) {
		if !given(field) {
			return
		}
		v, err := ReadAngle(f.Texts[field])
		if err == nil && !(v > 0 && v <= metal.MaxStripTurn) {
			err = fmt.Errorf("%s is no bend angle of a strip. It counts from flat, over 0 to %d°", quoted(f.Texts[field]), metal.MaxStripTurn)
		}
		if err != nil {
			wrong(field, err)
			return
		}
		*to = v
	}
	over := func(v float64) bool { return v > 0 }
	length(stripLength, &t.Length, "more than nothing", over)
	length(stripLegA, &t.Legs[0], "more than nothing", over)
	length(stripLegB, &t.Legs[1], "more than nothing", over)
	length(stripNose, &t.Nose, "0 or more", func(v float64) bool { return v >= 0 })
	angle(stripAngle, &t.Angle)
	if given(stripSet) {
		t.Set = new(float64)
		angle(stripSet, t.Set)
	}
	if given(stripRadius) {
		t.Radius = new(float64)
		length(stripRadius, t.Radius, "0 or more", func(v float64) bool { return v >= 0 })
	}
	var err error
	if t.Brake, err = readName(f.Texts[stripBrake]); err != nil {
		wrong(stripBrake, err)
	}
	lengths := given(stripLength) || given(stripLegA) || given(stripLegB) || !given(stripSet)
	complete := given(stripAngle) && (!lengths || given(stripLength) && given(stripLegA) && given(stripLegB))
	if whole {
		for _, need := range []struct {
			field int
			words string
		}{{stripLength, "how long the strip was before it was bent"}, {stripLegA, "the first leg"}, {stripLegB, "the second leg"}, {stripAngle, "the angle that it came out with"}} {
			if !given(need.field) && (lengths || need.field == stripAngle) {
				wrong(need.field, errors.New("it wants "+need.words))
			}
		}
	}
	if first != nil || !complete {
		return t, first
	}
	var se *metal.StripError
	if err := t.Check(); errors.As(err, &se) {
		field, text := stripFieldOf(se.Field), fmt.Sprintf("%s can’t be: %s", se.Found, se.Need)
		wrong(field, errors.New(text))
	}
	return t, first
}

// stripFieldOf is the form's field that a StripError is about.
func stripFieldOf(name string) int {
	switch name {
	case "length":
		return stripLength
	case "legs[0]":
		return stripLegA
	case "legs", "legs[1]":
		return stripLegB
	case "set":
		return stripSet
	case "radius":
		return stripRadius
	case "nose":
		return stripNose
	}
	return stripAngle
}

// AddStrip takes the form's strip into the part and on to the bench. After a new one
// the form stands ready for the next; after an edit it is closed. The error is what is
// wrong; field is where, "" for the whole.
func (s *Session) AddStrip() (field string, err error) {
	f := s.Strip()
	if f == nil {
		return "", errors.New("no test bend is being typed")
	}
	t, err := s.readStrip(true)
	if err != nil {
		for _, name := range StripFields {
			if _, bad := s.errors[StripField(name)]; bad {
				return name, err
			}
		}
		return "", err
	}
	next := s.spec
	next.Tests = slices.Clone(next.Tests)
	own := scaledStrip(t, 1/next.Units.Scale())
	edit := f.At >= 0 && f.At < len(next.Tests)
	if edit {
		own.Name, own.Metal, own.Thickness = next.Tests[f.At].Name, next.Tests[f.At].Metal, next.Tests[f.At].Thickness
		next.Tests[f.At] = own
	} else {
		next.Tests = append(next.Tests, own)
	}
	if err := s.changeTests(next, s.benchChange(next, edit)); err != nil {
		return "", err
	}
	if edit {
		s.strip = nil
		return "", nil
	}
	n := f.Added + 1
	s.OpenStrip(-1)
	s.strip.Added = n
	return "", nil
}
