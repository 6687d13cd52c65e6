package ask

// This file holds the few words and figures that the page and the other programs both say.

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryfold/fold"
)

// SwingName names a swing by its bends: "Left rear", "Left and right".
func SwingName(p *fold.Part, i int) string {
	sw := p.Swings[i]
	names := make([]string, 0, 3)
	for _, b := range sw.Bends {
		names = append(names, p.Bends[b].Name)
	}
	names = Shared(names)
	if len(names) > 3 {
		names = append(names[:2], fmt.Sprintf("%d more", len(names)-2))
	}
	name := Title(List(names))
	if len(sw.Bends) == 1 && sw.To[0] < p.Bends[sw.Bends[0]].Angle {
		name += " to " + Degrees(sw.To[0].Degrees()) + "°"
	}
	return name
}

// Shared leaves a first word that all names have in common to the first of them:
// "left rear", "left front" are "left rear" and "front". What a number begins says nothing without it: "left 2 lip".
func Shared(names []string) []string {
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

// List joins names as a sentence does: "a", "a and b", "a, b and c".
func List(names []string) string {
	switch n := len(names); n {
	case 0:
		return ""
	case 1:
		return names[0]
	default:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
}

// Title gives a name a capital letter, to stand alone.
func Title(name string) string {
	r := []rune(name)
	if len(r) > 0 {
		r[0] = []rune(strings.ToUpper(string(r[0])))[0]
	}
	return string(r)
}

// Lower takes the capital of Title off again, within a sentence.
func Lower(name string) string {
	r := []rune(name)
	if len(r) > 1 && strings.ToUpper(string(r[1])) != string(r[1]) {
		r[0] = []rune(strings.ToLower(string(r[0])))[0]
	}
	return string(r)
}

// Tidy takes the noise of a unit's conversion off (1e-9 of a mm or degree).
func Tidy(v float64) float64 { return math.Round(v*1e9) / 1e9 }

// Degrees writes an angle as the page shows it, to 0.1 where it isn't whole.
func Degrees(d float64) string { return Trimmed(d, 1) }

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
