package session

// This file holds what hand and machine may be out by: five errors, each by default, by a class of ISO 2768 or by the
// maker's own figure; and what they make of sizes and holes.

import (
	"fmt"
	"strings"

	"dryfold/fold"
)

// OutBy is one error as the page shows it.
type OutBy struct {
	Key, Label string
	Classes    bool   // it can be given by a class
	Class      string // of the part; "" not said
	Default    string // what stands for none of the classes
	Own        string // the maker's own figure, for its field; "" where there is none
	Given      bool   // by the part, not by default
	Unit       string // of the field
	Figure     string // what is reckoned with: "± 0.5 to 1°"; "" until that is known
	Source     string // where it is from, as a sentence
	Kind       string // "yours", "published", "from memory", "common practice", "assumed"
}

// ErrorClasses are the classes of ISO 2768-1, with their names.
var ErrorClasses = [][2]string{{"f", "fine"}, {"m", "medium"}, {"c", "coarse"}, {"v", "very coarse"}}

// outBys are the errors in the order shown: key, label, name in the report.
var outBys = [...][3]string{
	{"angle", "Bend angle", "bend angle"}, {"line", "Bend line under the nose", "bend line"}, {"cut", "Cut edge", "cut edge"},
	{"thickness", "Sheet thickness", "thickness"}, {"k", "K factor", "K"},
}

// OutByField names an error's field.
func OutByField(key string) string { return "error-" + key }

// place gives where an error's class and own figure stand; class is nil where it has none.
func outByPlace(e *fold.ErrorSpec, key string) (class *string, own **float64) {
	switch key {
	case "angle":
		return &e.AngleClass, &e.Angle
	case "cut":
		return &e.CutClass, &e.Cut
	case "line":
		return nil, &e.Line
	case "thickness":
		return nil, &e.Thickness
	}
	return nil, &e.K
}

// OutBys are the five errors of the open part.
func (s *Session) OutBys() []OutBy {
	var out []OutBy
	var reckoned []fold.ErrorReport
	if r := s.report.Spread; r != nil {
		reckoned = r.Errors
	}
	spec := s.spec.Errors
	for _, w := range outBys {
		o := OutBy{Key: w[0], Label: w[1]}
		class, own := outByPlace(&spec, o.Key)
		if class != nil {
			o.Classes, o.Class, o.Default = true, *class, "Default"
		}
		o.Given = o.Class != "" || *own != nil
		switch {
		case o.Key == "angle":
			o.Unit = "°"
		case o.Key != "k":
			o.Unit, o.Own = s.units.String(), s.figure(*own)
		}
		if *own != nil && o.Own == "" {
			o.Own = FieldDegrees(**own)
		}
		for _, e := range reckoned {
			if e.Name == w[2] {
				if e.Class != "" && !e.Given {
					o.Default += ", class " + e.Class
				}
				o.Figure, o.Kind, o.Source = s.plusMinus(&e), e.Kind, fold.InUnits(e.Source, s.units)
			}
		}
		out = append(out, o)
	}
	return out
}

// plusMinus writes an error as reckoned with: "± 1°", "± 0.1 to 0.3 mm".
func (s *Session) plusMinus(e *fold.ErrorReport) string {
	write, unit := func(v float64) string { return trimmed(v, 3) }, ""
	switch e.Unit {
	case "deg":
		write, unit = func(v float64) string { return trimmed(v, 2) }, "°"
	case "mm":
		write, unit = func(v float64) string { return Fine(v, s.units) }, " "+s.units.String()
	}
	low, high := write(e.Low), write(e.High)
	if low != high {
		high = low + " to " + high
	}
	return "± " + high + unit
}

// SetOutBy sets an error to the maker's own figure from typed text; "" goes back to the default.
func (s *Session) SetOutBy(key, text string) error {
	field := OutByField(key)
	next := s.spec
	class, own := outByPlace(&next.Errors, key)
	*own = nil
	if class != nil {
		*class = ""
	}
	if !blank(text) {
		read := func(t string) (float64, error) { return ReadLength(t, s.units) }
		switch key {
		case "angle":
			read = ReadAngle
		case "k":
			read = ReadPlain
		}
		typed := strings.TrimSpace(text)
		v, err := read(strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(typed, "±"), "+-")))
		if err == nil && v < 0 {
			err = fmt.Errorf("%s is no range: it counts plus and minus, so 0 or more would do", quoted(text))
		}
		if err != nil {
			return s.refuse(field, text, err)
		}
		if key != "angle" && key != "k" {
			v = s.own(v)
		}
		*own = &v
	}
	return s.take(field, text, next)
}

// SetOutByClass sets an error to a class of ISO 2768-1.
func (s *Session) SetOutByClass(key, class string) error {
	next := s.spec
	at, own := outByPlace(&next.Errors, key)
	if at == nil {
		return fmt.Errorf("there are no classes for the %s", key)
	}
	*at, *own = class, nil
	return s.take(OutByField(key), "", next)
}

// SpreadHead is the head of the table that Spreads gives.
var SpreadHead = []string{"", "Exact", "5", "95"}

// Spreads are what the errors make of the finished size and of pairs of holes, as rows of a table: name, exact, 5 of 100
// under, 95 of 100 under.
func (s *Session) Spreads() (rows [][4]string) {
	r := s.report.Spread
	if r == nil {
		return nil
	}
	add := func(name string, x *fold.Spread) {
		rows = append(rows, [4]string{name, Gap(x.Exact, s.units), Gap(x.Low, s.units), Gap(x.High, s.units)})
	}
	long, wide := &r.Sizes[0], &r.Sizes[1]
	if wide.Exact > long.Exact {
		long, wide = wide, long
	}
	add("Long", long)
	add("Wide", wide)
	add("High", &r.Sizes[2])
	for i := range r.Holes {
		h := &r.Holes[i]
		name := Title(h.A) + " to " + h.B
		add(name, &h.Distance)
		if h.Offset != nil {
			add(name+", out of line", h.Offset)
		}
	}
	return rows
}

// Gap writes a small length with one place more than sizes: gaps and allowances.
func Gap(mm float64, u fold.Units) string {
	if u == fold.Inch {
		return fixed(mm/inch, 3)
	}
	return fixed(mm, 2)
}

// RoomWords say how close solids pass in a swing, "" where nothing is known or all stay well apart.
func (s *Session) RoomWords(swing int) (words string, tight bool) {
	if !s.Checked() || swing >= len(s.report.Swings) || s.report.Swings[swing].Room == nil {
		return "", false
	}
	r := s.report.Swings[swing].Room
	words = fmt.Sprintf("%s passes %s with %s %s room at about %.0f°", upperName(r.A), bareName(r.B), Gap(r.Room, s.units), s.units, r.Angle)
	if r.Errors > 0 {
		words += fmt.Sprintf("; errors may take %s %s", Gap(r.Errors, s.units), s.units)
	}
	return words + ".", r.Errors > r.Room
}

// bareName names a solid of the report as the shop does: without "panel".
func bareName(body string) string { return strings.TrimPrefix(body, "panel ") }

func upperName(body string) string { return Title(bareName(body)) }

// CutWords say what else of a clash's panels would be cut back to free it, the least first, as sentences: the first way stands in the
// trouble's own words.
func (s *Session) CutWords(c *fold.ClashReport) (out []string) {
	for i, k := range c.Cuts {
		by := Size(k.By, s.units) + " " + s.units.String()
		switch {
		case i == 0:
		case strings.HasPrefix(k.Edge, "between"):
			out = append(out, fmt.Sprintf("Or make %s %s shorter %s.", k.Panel, by, k.Edge))
		default:
			out = append(out, fmt.Sprintf("Or take %s off %s at %s.", by, k.Panel, k.Edge))
		}
	}
	return out
}
