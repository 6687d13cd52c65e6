package fold

// This file holds the few words that troubles' messages share.

import (
	"fmt"
	"strconv"
	"strings"

	"dryfold/fold/geom"
)

// spot writes a place of the blank in the file's own units, "(12.5, 40.0)".
func (p *Part) spot(at geom.Vec2) string {
	k := p.Spec.Units.Scale()
	if p.Spec.Units == Inch {
		return fmt.Sprintf("(%.2f, %.2f)", at[0]/k, at[1]/k)
	}
	return fmt.Sprintf("(%.1f, %.1f)", at[0]/k, at[1]/k)
}

// theBend names a bend in a sentence: "the bend left", "bend 3".
func theBend(name string) string {
	if strings.HasPrefix(name, "bend ") {
		return name
	}
	return "the bend " + name
}

// thePanel names a panel in a sentence: "the panel left", "panel 3".
func thePanel(name string) string {
	if strings.HasPrefix(name, "panel ") {
		return name
	}
	return "the panel " + name
}

// theBends names several: "the bends left, right and bend 3".
func theBends(names []string) string {
	return "the bends " + joinNames(names)
}

// sentence begins with a capital letter.
func sentence(format string, args ...any) string {
	s := fmt.Sprintf(format, args...)
	return strings.ToUpper(s[:1]) + s[1:]
}

// InUnits turns the lengths in a message, which all stand in mm, into the units to
// be shown: "1.3 mm" into "0.051 in".
func InUnits(message string, shown Units) string {
	if shown != Inch {
		return message
	}
	const unit = " mm"
	var out strings.Builder
	for {
		before, after, found := strings.Cut(message, unit)
		if !found {
			out.WriteString(message)
			return out.String()
		}
		start := numberStart(before)
		v, err := strconv.ParseFloat(before[start:], 64)
		if err != nil || after != "" && (after[0] >= 'a' && after[0] <= 'z') {
			out.WriteString(before + unit)
		} else {
			out.WriteString(before[:start] + inches(v/Inch.Scale()) + " in")
		}
		message = after
	}
}

// numberStart is where the number at the end of a text begins, without its sign: "deep by 1.3", "under 1e-05".
func numberStart(text string) int {
	digits := func(end int) int {
		for end > 0 && (text[end-1] >= '0' && text[end-1] <= '9' || text[end-1] == '.') {
			end--
		}
		return end
	}
	start := digits(len(text))
	if e := start - 1; start < len(text) && e > 0 && (text[e] == '-' || text[e] == '+') && (text[e-1] == 'e' || text[e-1] == 'E') {
		if whole := digits(e - 1); whole < e-1 {
			return whole
		}
	}
	return start
}

// inches writes inches to 0.001, a length that is less than half of that to two digits.
func inches(in float64) string {
	if in != 0 && in < 0.0005 {
		places := 1
		for x := in; x < 1 && places < 12; x *= 10 {
			places++
		}
		if places < 12 {
			return strconv.FormatFloat(in, 'f', places, 64)
		}
		return strconv.FormatFloat(in, 'g', 2, 64)
	}
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(in, 'f', 3, 64), "0"), ".")
}
