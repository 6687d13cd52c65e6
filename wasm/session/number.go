package session

// This file reads the numbers that people type, in whatever unit they write them,
// and writes numbers the way the page shows them.

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/wasm/session/ask"
)

const inch = 25.4 // mm

// ReadLength reads a length and gives it in mm: 12, 12.5, 1/2, 2 3/8", 2-3/8 in,
// 60mm, 4.5 cm. Without a unit it is in the unit shown. It may be negative or
// zero; what is allowed is for the caller to say.
func ReadLength(text string, shown fold.Units) (float64, error) {
	t, scale, own := ownUnit(text)
	if !own {
		scale = shown.Scale()
	}
	v, ok := readNumber(t)
	if t == "" {
		return 0, errors.New("a length is wanted here. Write 12, 12.5, 1/2, 2 3/8\" or 60mm")
	}
	if isGauge(t) {
		return 0, fmt.Errorf("%s is a gauge number: how thick that is depends on its table and the metal. Write the thickness itself, as 1.5mm or 0.06 in", quoted(text))
	}
	if !ok {
		return 0, fmt.Errorf("%s is not a length. Write 12, 12.5, 1/2, 2 3/8\" or 60mm", quoted(text))
	}
	return tidy(v * scale), nil
}

// ownUnit cuts the unit off a typed length, and says how many mm it has; own is false where none is typed.
func ownUnit(text string) (rest string, mm float64, own bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	for _, mark := range []string{"”", "“", "″", "''"} {
		t = strings.ReplaceAll(t, mark, `"`)
	}
	for _, u := range lengthUnits {
		if rest, ok := strings.CutSuffix(t, u.suffix); ok {
			return strings.TrimSpace(rest), u.by, true
		}
	}
	return t, 0, false
}

var lengthUnits = []scaled{{"mm", 1}, {"cm", 10}, {"inches", inch}, {"inch", inch}, {"in", inch}, {`"`, inch}}

// UnitBeside is what stands beside a field in which a text is typed, unit being the field's own: nothing where
// the text says its own unit or is a gauge, and what it comes to where that is another unit, "= 50.8 mm".
func UnitBeside(text, unit string, shown fold.Units) string {
	if unit != shown.String() { // no length
		if unit != "" && strings.HasSuffix(strings.TrimSpace(text), unit) {
			return ""
		}
		return unit
	}
	t, mm, own := ownUnit(text)
	if !own {
		if isGauge(t) || strings.ContainsAny(t, "m\"") || strings.Contains(t, "in") || strings.Contains(t, "ga") || strings.Contains(t, "ft") { // of several lengths, of a gauge and its table, or in feet
			return ""
		}
		return unit
	}
	if _, ok := readNumber(t); ok && mm != shown.Scale() {
		v, _ := ReadLength(text, shown)
		if t := Fine(v, shown); shown == fold.Inch || math.Abs(v) < 10 {
			return "= " + t + " " + unit
		}
		return "= " + Size(v, shown) + " " + unit
	}
	return ""
}

// isGauge reports whether a text in lower case is a number of gauge: "16 ga".
func isGauge(t string) bool {
	for _, suffix := range []string{"ga", "ga.", "gauge", "swg", "awg", "bwg"} {
		if rest, ok := strings.CutSuffix(t, suffix); ok {
			_, number := readNumber(strings.TrimSpace(rest))
			return number
		}
	}
	return false
}

// ReadAngle reads an angle in degrees: 90, 82.5, 45°, 30 deg.
func ReadAngle(text string) (float64, error) {
	t := strings.ToLower(strings.TrimSpace(text))
	for _, suffix := range []string{"°", "degrees", "deg"} {
		if rest, ok := strings.CutSuffix(t, suffix); ok {
			t = strings.TrimSpace(rest)
			break
		}
	}
	v, ok := readNumber(t)
	if t == "" {
		return 0, errors.New("an angle is wanted here. Write degrees, as 90 or 82.5")
	}
	if !ok {
		return 0, fmt.Errorf("%s is not an angle. Write degrees, as 90 or 82.5", quoted(text))
	}
	return tidy(v), nil
}

// ReadPlain reads a number without a unit.
func ReadPlain(text string) (float64, error) {
	if blank(text) {
		return 0, errors.New("a number is wanted here. Write it as 0.42")
	}
	v, ok := readNumber(strings.TrimSpace(text))
	if !ok {
		return 0, fmt.Errorf("%s is not a number. Write it as 0.42", quoted(text))
	}
	return tidy(v), nil
}

// readNumber reads 12, -3.5, 1/2, 2 3/8 and 2-3/8. A comma is taken for the
// decimal point where it can't be meant for thousands.
func readNumber(t string) (float64, bool) {
	sign := 1.0
	if rest, ok := strings.CutPrefix(t, "-"); ok {
		sign, t = -1, strings.TrimSpace(rest)
	}
	whole, fraction := "", t
	if i := strings.IndexAny(t, " -"); i > 0 && strings.Contains(t, "/") {
		whole, fraction = t[:i], strings.TrimSpace(t[i+1:])
	}
	sum := 0.0
	if whole != "" {
		n, err := strconv.ParseUint(whole, 10, 32)
		if err != nil {
			return 0, false
		}
		sum = float64(n)
	}
	if a, b, ok := strings.Cut(fraction, "/"); ok {
		n, err1 := strconv.ParseUint(strings.TrimSpace(a), 10, 32)
		d, err2 := strconv.ParseUint(strings.TrimSpace(b), 10, 32)
		if err1 != nil || err2 != nil || d == 0 {
			return 0, false
		}
		return sign * (sum + float64(n)/float64(d)), true
	}
	if a, b, ok := strings.Cut(fraction, ","); ok {
		if len(b) == 3 || strings.ContainsAny(b, ",.") || strings.Contains(a, ".") {
			return 0, false
		}
		fraction = a + "." + b
	}
	for _, c := range fraction {
		if c != '.' && (c < '0' || c > '9') {
			return 0, false
		}
	}
	v, err := strconv.ParseFloat(fraction, 64)
	if err != nil || v > fold.MaxSize*100 {
		return 0, false
	}
	return sign * v, true
}

// quoted is the typed text in quotation marks, cut to what fits in a line.
func quoted(text string) string {
	r := []rune(strings.TrimSpace(text))
	switch {
	case len(r) == 0:
		return "Nothing"
	case len(r) > 24:
		r = append(r[:24], '…')
	}
	return "“" + string(r) + "”"
}

// Length writes a length in mm as the page shows it, without its unit: mm to
// 0.1, inches to 0.001.
func Length(mm float64, shown fold.Units) string {
	if shown == fold.Inch {
		return fixed(mm/inch, 3)
	}
	return fixed(mm, 1)
}

// Size writes a size in mm for a place where it need not line up with others:
// as Length, but with whole mm left whole.
func Size(mm float64, shown fold.Units) string {
	if shown == fold.Inch {
		return fixed(mm/inch, 3)
	}
	return strings.TrimSuffix(fixed(mm, 1), ".0")
}

// FieldLength writes a length for a field: as many places as it takes to read it
// back as it was, at most 4 in mm and 5 in inches.
func FieldLength(mm float64, shown fold.Units) string {
	if shown == fold.Inch {
		return trimmed(mm/inch, 5)
	}
	return trimmed(mm, 4)
}

// Thickness writes a thickness: at least 0.1 mm or 0.001 in, with more places where it has them.
func Thickness(mm float64, shown fold.Units) string {
	least, most, v := 1, 3, mm
	if shown == fold.Inch {
		least, most, v = 3, 4, mm/inch
	}
	t := fixed(v, most)
	for strings.HasSuffix(t, "0") && len(t)-strings.IndexByte(t, '.')-1 > least {
		t = t[:len(t)-1]
	}
	return t
}

// Fine writes a small difference in mm: mm to 0.01, inches to 0.001, without zeros at its end.
func Fine(mm float64, shown fold.Units) string {
	if shown == fold.Inch {
		return trimmed(mm/inch, 3)
	}
	return trimmed(mm, 2)
}

// FieldDegrees writes an angle for a field, up to 4 places.
func FieldDegrees(d float64) string { return trimmed(d, 4) }

// Mass writes kilograms: grams under 1 kg.
func Mass(kg float64) (number, unit string) {
	switch {
	case kg < 0.01:
		return fixed(kg*1000, 1), "g"
	case kg < 1:
		return fixed(kg*1000, 0), "g"
	case kg < 10:
		return fixed(kg, 2), "kg"
	}
	return fixed(kg, 1), "kg"
}

// What paper and page both say is fold's.

func swingName(p *fold.Part, i int) string { return p.SwingName(i) }

// List joins names as a sentence does: "a", "a and b", "a, b and c".
func List(names []string) string { return fold.List(names) }

// Title gives a name a capital letter, to stand alone.
func Title(name string) string { return fold.Title(name) }

func lower(name string) string { return ask.Lower(name) }

func tidy(v float64) float64 { return fold.Tidy(v) }

// Degrees writes an angle as the page shows it, to 0.1 where it isn't whole.
func Degrees(d float64) string { return fold.ShownDegrees(d) }

func fixed(v float64, places int) string { return fold.Fixed(v, places) }

func trimmed(v float64, most int) string { return fold.Trimmed(v, most) }
