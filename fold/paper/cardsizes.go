package paper

// This file says which sizes of a part can be taken back from its card model.

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// CardSize is a size that a card model is measured for.
type CardSize struct {
	Path    string  // the field of the part's form, as "sizes.flanges[2].height"; "" where there is none to change
	Label   string  // what it measures: "Height of front"
	Is      float64 // now, mm
	Formula string  // it is worked out by this and changes with the sizes it names; "" else
	// Changed: what is measured on the card is a change, which goes on to Is. Else it stands in Is's place.
	Changed bool
}

// Back is the size, mm, after what was written beside it (mm).
func (c *CardSize) Back(written float64) float64 {
	if c.Changed {
		return c.Is + written
	}
	return written
}

// CardSizes are the lengths that may change when a card model of a part is trimmed in its place: of a part by sizes its named sizes and
// the form's own fields for the base's and the flanges' sizes and places; of a part by its blank what it measures over all.
// Changed is for card that was not made of the form: sizes to inside faces are then other ones on card of another thickness.
func CardSizes(p *fold.Part) []CardSize {
	f := p.Spec.Sizes
	if f == nil {
		z := p.Pose(p.Finished()).Box().Size()
		slices.Sort(z[:])
		return []CardSize{{Label: "Over all, longest", Is: z[2]}, {Label: "Over all, middle", Is: z[1]}, {Label: "Over all, shortest", Is: z[0]}}
	}
	unit := p.Spec.Units.Scale()
	values, _ := f.Values(unit)
	var out []CardSize
	f.Fields(func(path string, field *sizes.Field, angle bool) {
		if angle || !field.Given || len(out) >= maxCardSizes {
			return
		}
		label, faces := cardLabel(f, path)
		if label == "" {
			return
		}
		first, n := utf8.DecodeRuneInString(label)
		label = string(unicode.ToUpper(first)) + label[n:]
		x, err := values.At(path, *field)
		if err != nil {
			return
		}
		out = append(out, CardSize{Path: path, Label: label, Is: x * unit, Formula: field.Formula, Changed: faces != sizes.Outside})
	})
	return out
}

// cardLabel is what a field measures, "" for one that no card is measured for, and to which faces.
func cardLabel(f *sizes.Form, path string) (string, sizes.Faces) {
	var i, n int
	rest := func(format string) (string, bool) {
		k, _ := fmt.Sscanf(path, format, &i)
		_, tail, ok := strings.Cut(path, "].")
		return tail, k == 1 && ok
	}
	base := f.Base.Name
	if base == "" {
		base = "floor"
	}
	if tail, ok := rest("sizes.named[%d]"); ok && tail == "is" && !f.Named[i].Angle {
		if f.Named[i].Label != "" {
			return f.Named[i].Label, sizes.Outside
		}
		return "The size " + f.Named[i].Name, sizes.Outside
	}
	switch path {
	case "sizes.base.wide":
		return "Wide, " + base, f.Faces
	case "sizes.base.wide_back":
		return "Wide at the back, " + base, f.Faces
	case "sizes.base.long":
		return "Long, " + base, f.Faces
	}
	side := func(k int) string {
		if k < len(f.Base.Sides) && f.Base.Sides[k] != "" {
			return f.Base.Sides[k]
		}
		if four := []string{"front", "right", "back", "left"}; k < 4 && (f.Base.Measured == nil || len(f.Base.Measured.Sides) == 4) {
			return four[k]
		}
		return fmt.Sprintf("side %d", k+1)
	}
	if k, _ := fmt.Sscanf(path, "sizes.base.measured.sides[%d]", &n); k == 1 {
		return base + ": side " + side(n), f.Faces
	}
	if k, _ := fmt.Sscanf(path, "sizes.base.measured.diagonals[%d]", &n); k == 1 {
		return fmt.Sprintf("%s: diagonal %d", base, n+1), f.Faces
	}
	if k, _ := fmt.Sscanf(path, "sizes.base.points[%d]", &i); k == 1 && !strings.Contains(path, "through") {
		if strings.HasSuffix(path, "[0]") {
			return fmt.Sprintf("%s: corner %d, along", base, i+1), f.Faces
		}
		return fmt.Sprintf("%s: corner %d, back", base, i+1), f.Faces
	}
	tail, ok := rest("sizes.flanges[%d]")
	if !ok || i < 0 || i >= len(f.Flanges) {
		return "", 0
	}
	l := &f.Flanges[i]
	faces := f.Faces
	if l.Faces != nil {
		faces = *l.Faces
	}
	way := ", square to " + l.On
	if l.Along {
		way = ", along it"
	}
	if k, _ := fmt.Sscanf(tail, "edge[%d]", &n); k == 1 && !strings.Contains(tail, "through") { // "edge[2][0]", of an arc's end "edge[2].to[0]"
		if strings.HasSuffix(tail, "[0]") {
			if n == 0 { // it begins where the side does
				return "", 0
			}
			return fmt.Sprintf("Free edge of %s: corner %d, along", l.Name, n+1), faces
		}
		return fmt.Sprintf("Free edge of %s: corner %d, up%s", l.Name, n+1, way), faces
	}
	if len(l.Edge) > 0 && tail != "from" { // its edge says how high and how long it is
		return "", 0
	}
	switch tail {
	case "height":
		return "Height of " + l.Name + way, faces
	case "height_end":
		return "Height of " + l.Name + " at its end" + way, faces
	case "from":
		return l.Name + ", in from its start", faces
	case "to":
		return l.Name + ", in from its end", faces
	}
	return "", 0
}
