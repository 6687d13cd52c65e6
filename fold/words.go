package fold

// This file holds the few words and figures that troubles' messages, page and paper share.

import (
	"fmt"
	"math"
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
	return "the bends " + List(names)
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

// Tidy takes the noise of a unit's conversion off (1e-9 of a mm or degree).
func Tidy(v float64) float64 { return math.Round(v*1e9) / 1e9 }

// ShownDegrees writes an angle (degrees) as page and paper show it, to 0.1 where it isn't whole.
func ShownDegrees(d float64) string { return Trimmed(d, 1) }

// Fixed writes a number with so many places.
func Fixed(v float64, places int) string {
	t := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Trim(t, "-0.") == "" {
		t = strings.TrimPrefix(t, "-") // no minus zero
	}
	return t
}

// Trimmed is Fixed without zeros at its end.
func Trimmed(v float64, most int) string {
	t := Fixed(v, most)
	if strings.Contains(t, ".") {
		t = strings.TrimRight(strings.TrimRight(t, "0"), ".")
	}
	return t
}

// SwingName names a swing by its bends: "Left rear", "Left and right".
func (p *Part) SwingName(i int) string {
	sw := p.Swings[i]
	names := make([]string, 0, 3)
	for _, b := range sw.Bends {
		names = append(names, p.Bends[b].Name)
	}
	names = shared(names)
	if len(names) > 3 {
		names = append(names[:2], fmt.Sprintf("%d more", len(names)-2))
	}
	name := Title(List(names))
	if len(sw.Bends) == 1 && sw.To[0] < p.Bends[sw.Bends[0]].Angle {
		name += " to " + ShownDegrees(sw.To[0].Degrees()) + "°"
	}
	return name
}

// shared leaves a first word that all names have in common to the first of them:
// "left rear", "left front" are "left rear" and "front". What a number begins says nothing without it: "left 2 lip".
func shared(names []string) []string {
	first, _, ok := strings.Cut(names[0], " ")
	if !ok || len(names) < 2 {
		return names
	}
	out := names[:1:1]
	for _, n := range names[1:] {
		rest, ok := strings.CutPrefix(n, first+" ")
		if !ok || rest == "" || rest[0] >= '0' && rest[0] <= '9' {
			return names
		}
		out = append(out, rest)
	}
	return out
}

// Title gives a name a capital letter, to stand alone.
func Title(name string) string {
	r := []rune(name)
	if len(r) > 0 {
		r[0] = []rune(strings.ToUpper(string(r[0])))[0]
	}
	return string(r)
}
