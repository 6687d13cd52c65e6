package session

// This file holds the fields of the sizes form: what stands in them, and how typed
// text goes into them. sizeslabel.go calls them.

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// SizeField is one field of the sizes form as the page shows it.
type SizeField struct {
	Path    string // as in a part file, "sizes.flanges[2].height"; its key for SetField, Error, Told and focus
	Label   string // "Height of front"
	Text    string // in the units shown, or the formula as typed; "" where nothing is given
	Angle   bool   // degrees; else a length
	Given   bool
	Formula bool
	Value   float64 // what it comes to, mm or degrees; of one that is not given what holds instead
	Known   bool    // Value can be said
}

// SizeField is the field of a path; ok is false where the form has none.
func (s *Session) SizeField(path string) (out SizeField, ok bool) {
	form := s.spec.Sizes
	if form == nil {
		return out, false
	}
	f, angle := s.openField(path)
	if f == nil {
		return out, false
	}
	out = SizeField{Path: path, Label: labelOf(form, path), Text: s.fieldText(*f, angle), Angle: angle, Given: f.Given, Formula: f.Given && f.Formula != ""}
	held := *f
	if !held.Given {
		held = usual(form, path)
	}
	if held.Given {
		if x, err := s.values().Num(held); err == nil {
			out.Value, out.Known = x, true
			if !angle {
				out.Value *= s.spec.Units.Scale()
			}
		}
	}
	return out, true
}

// formFacts is what the page asks of a form again and again, found once. A form that is open is never changed in place.
type formFacts struct {
	of     *sizes.Form
	unit   float64
	values *sizes.Values
	fields map[string]formField
}

type formField struct {
	at    *sizes.Field
	angle bool
}

func (s *Session) formFacts() *formFacts {
	f, unit := &s.facts, s.spec.Units.Scale()
	if f.of != s.spec.Sizes || f.unit != unit {
		*f = formFacts{of: s.spec.Sizes, unit: unit, fields: map[string]formField{}}
		f.values, _ = f.of.Values(unit)
		f.of.Fields(func(path string, at *sizes.Field, angle bool) { f.fields[path] = formField{at, angle} })
	}
	return f
}

// values are those of the open form's named sizes.
func (s *Session) values() *sizes.Values { return s.formFacts().values }

// openField is fieldAt of the open form.
func (s *Session) openField(path string) (at *sizes.Field, angle bool) {
	if !asked(s.spec.Sizes, path) {
		return nil, false
	}
	f := s.formFacts().fields[path]
	return f.at, f.angle
}

// SizeFields are the fields whose path begins so, in the form's order; all of them for "".
func (s *Session) SizeFields(prefix string) []SizeField {
	if s.spec.Sizes == nil {
		return nil
	}
	var paths []string
	s.spec.Sizes.Fields(func(path string, _ *sizes.Field, _ bool) {
		if strings.HasPrefix(path, prefix) && asked(s.spec.Sizes, path) {
			paths = append(paths, path)
		}
	})
	out := make([]SizeField, 0, len(paths))
	for _, p := range paths {
		f, _ := s.SizeField(p)
		out = append(out, f)
	}
	return out
}

func (s *Session) fieldText(f sizes.Field, angle bool) string {
	switch {
	case !f.Given:
		return ""
	case f.Formula != "":
		return f.Formula
	case angle:
		return FieldDegrees(f.Number)
	}
	return FieldLength(f.Number*s.spec.Units.Scale(), s.units)
}

// fieldAt finds a field by its path; nil where there is none, or where another choice leaves no room for it. Angle says that it is
// in degrees.
func fieldAt(form *sizes.Form, path string) (at *sizes.Field, angle bool) {
	if !asked(form, path) {
		return nil, false
	}
	form.Fields(func(p string, f *sizes.Field, a bool) {
		if p == path {
			at, angle = f, a
		}
	})
	return at, angle
}

// asked reports whether the form's choices ask for a field: a base is given in one way, a hem has no angle or radius, and only slots
// and windows are long.
func asked(form *sizes.Form, path string) bool {
	list, i, what := pathParts(path)
	switch {
	case list == "base":
		shape := BaseOf(form)
		switch what {
		case "wide", "long", "wide_back":
			return shape == Rectangle || shape == Trapezoid
		}
	case list == "flanges" && i >= 0 && i < len(form.Flanges):
		l := &form.Flanges[i]
		switch what {
		case "angle", "radius":
			return l.Hem == nil
		case "height_end":
			return len(l.Edge) == 0
		}
	case list == "holes" && i >= 0 && i < len(form.Holes):
		h := &form.Holes[i]
		switch what {
		case "wide":
			return h.Shape != sizes.Cutout
		case "long":
			return h.Shape == sizes.Slot || h.Shape == sizes.Window
		}
	}
	return true
}

// usual is what holds where a field is not given, as the sizes form says.
func usual(form *sizes.Form, path string) sizes.Field {
	list, i, what := pathParts(path)
	switch {
	case what == "angle" && list == "flanges" && form.Flanges[i].Hem == nil:
		return sizes.Is(90)
	case what == "radius" && list == "flanges" && form.Flanges[i].Hem == nil:
		return form.Radius
	case what == "height_end" && list == "flanges":
		return form.Flanges[i].Height
	case what == "joggle.angle":
		return sizes.Is(45)
	case what == "gap" && list == "corners":
		return form.Gap
	}
	return sizes.Field{}
}

// pathParts takes "sizes.flanges[2].hem.clear" apart: flanges, 2, hem.clear. Without an index i is -1.
func pathParts(path string) (list string, i int, what string) {
	rest := strings.TrimPrefix(path, "sizes.")
	list, rest, ok := strings.Cut(rest, "[")
	if !ok || strings.Contains(list, ".") {
		list, what, _ = strings.Cut(strings.TrimPrefix(path, "sizes."), ".")
		return list, -1, what
	}
	num, rest, _ := strings.Cut(rest, "]")
	i, err := strconv.Atoi(num)
	if err != nil {
		i = -1
	}
	return list, i, strings.TrimPrefix(rest, ".")
}

// readSize reads what was typed for a size, a length or an angle: nothing, a number with
// or without its unit, or a formula.
func (s *Session) readSize(text string, angle bool) (sizes.Field, error) {
	if blank(text) {
		return sizes.Field{}, nil
	}
	if angle {
		a, err := ReadAngle(text)
		if err == nil {
			return sizes.Is(a), nil
		}
	} else {
		v, err := ReadLength(text, s.units)
		if err == nil {
			return sizes.Is(s.own(v)), nil
		}
		if isGauge(strings.ToLower(strings.TrimSpace(text))) {
			return sizes.Field{}, err
		}
	}
	f := sizes.Of(strings.TrimSpace(text))
	if _, err := s.values().Num(f); err != nil {
		var e *sizes.Error
		if errors.As(err, &e) {
			return f, fmt.Errorf("found %s; it needs %s", e.Found, e.Need)
		}
		return f, err
	}
	return f, nil
}

// SetField takes a typed size into the field of a path: a number in the units shown or with its own unit, a formula
// over named sizes as "rail - 12", or nothing to leave it ungiven. Texts that stand refused in other fields
// are tried together with it: sizes may be good only together.
func (s *Session) SetField(path, text string) error {
	if !s.BySizes() {
		return errNoSizes
	}
	form := s.spec.Sizes.Clone()
	at, angle := fieldAt(form, path)
	if at == nil {
		return errors.New("there is no such size any more")
	}
	f, err := s.readSize(text, angle)
	if err != nil {
		return s.refuse(path, text, err)
	}
	*at = f
	if both := s.withWaiting(form, path); both != nil {
		next := s.spec
		next.Sizes = both
		if s.change(next) == nil {
			return nil
		}
	}
	next := s.spec
	next.Sizes = form
	serial := s.serial
	delete(s.errors, path)
	if err = s.change(next); err != nil {
		s.tellOthers(path, text, err)
		err = s.refuse(path, text, s.howFar(path, next, err))
	}
	if err == nil && serial != s.serial && f.Formula != "" && s.units != s.spec.Units && !angle {
		s.tell(path, fmt.Sprintf("The formula reckons in %s, the part’s own units: write %s after a number that is in %s.", s.spec.Units, s.units, unitName(s.units)))
	}
	return err
}

func unitName(u fold.Units) string {
	if u == fold.Inch {
		return "inches"
	}
	return "mm"
}

// withWaiting is the form with the texts that stand refused in its other fields too; nil where there are none.
func (s *Session) withWaiting(form *sizes.Form, but string) *sizes.Form {
	var keys []string
	for key := range s.errors {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	var both *sizes.Form
	for _, key := range keys {
		e := s.errors[key]
		at, angle := fieldAt(form, key)
		if key == but || at == nil || e.Typed == s.fieldText(*at, angle) {
			continue
		}
		f, err := s.readSize(e.Typed, angle)
		if err != nil {
			continue
		}
		if both == nil {
			both = form.Clone()
		}
		at, _ = fieldAt(both, key)
		*at = f
	}
	return both
}
