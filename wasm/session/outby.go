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
	ByLength   string // of an angle by class: which length of leg gets which figure
	Kind       string // "yours", "published", "from memory", "common practice", "assumed"
}

// ErrorClasses are the classes of ISO 2768-1, with their names.
var ErrorClasses = [][2]string{{"f", "fine"}, {"m", "medium"}, {"c", "coarse"}, {"v", "very coarse"}}

// outBys are the errors in the order shown: key, label, name in the report.
var outBys = [...][3]string{
	{"angle", "Bend angle", "bend angle"}, {"line", "Bend line under the nose", "bend line"}, {"cut", "Cut edge", "cut edge"},
	{"thickness", "Sheet thickness", "thickness"}, {"k", "K factor", "K"},
}

// angleByLeg says which shorter leg gets which angle error, by class: ISO 2768-1, table 3, from memory, as fold/spread reckons with it.
var angleByLeg = map[string]string{"f": legsFine, "m": legsFine,
	"c": "By the shorter leg: ± 1.5° up to 10 mm, 1° up to 50 mm, 0.5° up to 120 mm, 0.25° up to 400 mm, 0.17° beyond.",
	"v": "By the shorter leg: ± 3° up to 10 mm, 2° up to 50 mm, 1° up to 120 mm, 0.5° up to 400 mm, 0.33° beyond."}

const legsFine = "By the shorter leg: ± 1° up to 10 mm, 0.5° up to 50 mm, 0.33° up to 120 mm, 0.17° up to 400 mm, 0.08° beyond."

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
				if o.Key == "angle" {
					o.ByLength = fold.InUnits(angleByLeg[e.Class], s.units)
				}
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
		if err == nil {
			err = s.outByFits(key, v, text)
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

// outByMost is the most that a part file takes for each error: degrees, mm, or of K.
var outByMost = map[string]float64{"angle": 10, "line": 20, "cut": 20, "thickness": 20, "k": 0.3}

// outByFits says what would do where a figure, in degrees, mm or of K, is none that an error can have; it counts plus and minus.
func (s *Session) outByFits(key string, v float64, text string) error {
	most := outByMost[key]
	switch {
	case key == "angle" && !(v > 0 && v <= most):
		return fmt.Errorf("%s won’t do: no bend comes out true. Type plus and minus how many degrees, more than 0 and up to %s", quoted(text), trimmed(most, 1))
	case key == "k" && !(v >= 0 && v <= most):
		return fmt.Errorf("%s won’t do. Type by how much K may be out, plus and minus, from 0 to %s", quoted(text), trimmed(most, 1))
	case !(v >= 0 && v <= most):
		return fmt.Errorf("%s won’t do. Type plus and minus how much, from 0 to %s mm", quoted(text), trimmed(most, 1))
	}
	return nil
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
var SpreadHead = []string{"", "Exact", "5 in 100 under", "5 in 100 over"}

// mostHoles: pairs of holes that don't face each other are many; so many are shown at once.
const mostHoles = 8

// Spreads are what the errors make of the finished size and of pairs of holes, as rows of a table: name, exact, the figure that 5 in
// 100 parts are under, the one that 5 in 100 are over. rest are the pairs of holes that are looked up rather than read.
func (s *Session) Spreads() (rows, rest [][4]string) {
	r := s.report.Spread
	if r == nil {
		return nil, nil
	}
	line := func(name string, x *fold.Spread) [4]string {
		return [4]string{name, Gap(x.Exact, s.units), Gap(x.Low, s.units), Gap(x.High, s.units)}
	}
	add := func(name string, x *fold.Spread) { rows = append(rows, line(name, x)) }
	long, wide := &r.Sizes[0], &r.Sizes[1]
	if wide.Exact > long.Exact {
		long, wide = wide, long
	}
	add("Long", long)
	add("Wide", wide)
	add("High", &r.Sizes[2])
	name := func(h *fold.HoleSpread) string { return Title(h.A) + " to " + h.B }
	for i := range r.Holes { // those that a bolt goes through
		if h := &r.Holes[i]; h.Offset != nil {
			add(name(h)+", out of line", h.Offset)
			add(name(h), &h.Distance)
		}
	}
	others := 0
	for i := range r.Holes {
		switch h := &r.Holes[i]; {
		case h.Offset != nil:
		case others < mostHoles:
			others++
			add(name(h), &h.Distance)
		default:
			rest = append(rest, line(name(h), &h.Distance))
		}
	}
	return rows, rest
}

// Gap writes a small length with one place more than sizes: gaps and allowances.
func Gap(mm float64, u fold.Units) string {
	if u == fold.Inch {
		return fixed(mm/inch, 3)
	}
	return fixed(mm, 2)
}

// RoomWords say how close solids pass in a swing, "" where nothing is known, or errors of hand and machine leave the more of it.
func (s *Session) RoomWords(swing int) (words string, tight bool) {
	if !s.Checked() {
		return "", false
	}
	return s.part.RoomWords(&s.report, swing, s.units)
}

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
