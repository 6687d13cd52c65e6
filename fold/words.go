package fold

// This file holds the few words that troubles' messages share.

import (
	"fmt"
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
