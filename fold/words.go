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
		start := len(before)
		for start > 0 && (before[start-1] >= '0' && before[start-1] <= '9' || before[start-1] == '.') {
			start--
		}
		v, err := strconv.ParseFloat(before[start:], 64)
		if err != nil || after != "" && (after[0] >= 'a' && after[0] <= 'z') {
			out.WriteString(before + unit)
		} else {
			out.WriteString(before[:start] + strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.3f", v/Inch.Scale()), "0"), ".") + " in")
		}
		message = after
	}
}
