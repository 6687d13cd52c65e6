package session

// This file holds how the fields of the sizes form are called.

import (
	"fmt"
	"strconv"
	"strings"

	"dryfold/fold/sizes"
)

// whatWords are how the fields of flanges, corners, holes and the form are called.
var whatWords = map[string]string{
	"radius": "Inside radius", "gap": "Wanted gap", "relief.size": "Size of the relief", "relief": "Relief",
	"wide": "Wide", "wide_back": "Wide at the back", "long": "Long", "points": "Corners", "name": "Name", "sides": "Names of the sides",
	"from": "In from the start", "to": "In from the end", "height": "Height", "height_end": "Height at the end",
	"angle": "Bend angle", "edge": "Free edge", "lean_start": "Lean of the start", "lean_end": "Lean of the end",
	"hem": "Hem", "hem.clear": "Clear gap of the hem", "joggle": "Joggle", "joggle.at": "Height of the joggle", "joggle.depth": "Depth of the joggle", "joggle.angle": "Angle of the joggle",
	"past": "Past the corner", "close": "How it closes", "over": "Which runs over", "x": "Along", "y": "Up", "turn": "Turn",
	"step": "Step along", "row_step": "Step across", "on": "What it stands on", "side": "The side", "count": "Number", "rows": "Rows", "at": "At",
	"measured.sides": "Side", "measured.diagonals": "Diagonal", "measured.angles": "Angle", "measured.stations": "Station", "shape": "Shape",
}

// labelOf calls a field by what it measures and on what, "Height of front"; "" for a path that it does not know.
func labelOf(form *sizes.Form, path string) string {
	switch {
	case path == "sheet.thickness":
		return "The sheet’s thickness"
	case form == nil || !strings.HasPrefix(path, "sizes"):
		return ""
	}
	list, i, what := pathParts(path)
	of := ""
	switch {
	case list == "named" && i >= 0 && i < len(form.Named):
		n := form.Named[i]
		if n.Label != "" {
			return n.Label
		}
		return "The size " + n.Name
	case list == "flanges" && i >= 0 && i < len(form.Flanges):
		of = form.Flanges[i].Name
	case list == "corners" && i >= 0 && i < len(form.Corners):
		of = "the corner of " + form.Corners[i].A + " and " + form.Corners[i].B
	case list == "holes" && i >= 0 && i < len(form.Holes):
		of = holeCalled(form, i)
	case list == "base":
		of = baseName(form)
	case list == "radius", list == "gap", list == "relief":
		what = strings.TrimSuffix(list+"."+what, ".")
	default:
		return ""
	}
	name := itemWords(form, list, what)
	switch {
	case name == "":
		return Title(of)
	case of == "":
		return name
	}
	return name + " of " + of
}

// itemWords call a field without what it is of; entries of lists are counted from 1.
func itemWords(form *sizes.Form, list, what string) string {
	if list == "holes" {
		switch what {
		case "wide":
			return "Width"
		case "long":
			return "Length"
		}
	}
	base, rest, indexed := strings.Cut(what, "[")
	words := whatWords[base]
	if !indexed {
		return words
	}
	num, tail, _ := strings.Cut(rest, "]")
	n, _ := strconv.Atoi(num)
	switch base {
	case "points", "edge":
		words = "Corner " + strconv.Itoa(n+1)
		switch {
		case strings.HasSuffix(tail, "[0]"):
			words += ", along"
		case strings.HasSuffix(tail, "[1]"):
			words += ", up"
			if list == "base" {
				words = strings.TrimSuffix(words, "up") + "back"
			}
		}
		if strings.HasPrefix(tail, ".through") {
			words = strings.Replace(words, "Corner", "Arc to corner", 1)
		}
	case "measured.sides":
		words = Title(sideName(&form.Base, baseSides(&form.Base), n))
	case "measured.diagonals":
		words = diagonalName(form, n)
	case "measured.angles":
		words = "Angle at corner " + strconv.Itoa(n+1)
	case "measured.stations":
		words = fmt.Sprintf("Station %d, %s", n+1, map[string]string{".at": "from the front", ".left": "left", ".right": "right", ".wide": "wide"}[tail])
	}
	return words
}

func diagonalName(form *sizes.Form, n int) string {
	if m := form.Base.Measured; m != nil && len(m.Sides) == 4 && n < 2 {
		return [2]string{"Diagonal, front left to back right", "Diagonal, front right to back left"}[n]
	}
	return fmt.Sprintf("Diagonal, corner 1 to %d", n+3)
}
