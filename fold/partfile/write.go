// Writing a part file.

package partfile

import (
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// lineLength is where a list of points goes on in the next line (characters).
const lineLength = 100

// Write is the part file of a spec that has passed Check: one bend, hole, seam or
// swing a line, fields in a fixed order, those that say nothing left out, numbers
// in the shortest form that reads back exactly. The same spec gives the same
// bytes everywhere. Read gives the spec back in normal form: contours without a
// last point that repeats the first, empty lists nil. Of a part by sizes nothing is
// written that is made from them, and Read leaves it empty.
func Write(s fold.Spec) []byte {
	s = normal(s)
	w := &writer{}
	w.open("")
	w.field("dryfold", strconv.Itoa(Version))
	w.field("name", text(s.Name))
	if s.Notes != "" {
		w.field("notes", text(s.Notes))
	}
	w.field("units", text(s.Units.String()))
	w.field("sheet", sheetText(s.Sheet))
	if s.Sizes != nil {
		w.form(s.Sizes)
	} else {
		w.blank(s)
	}
	list(w, "order", s.Order, stepText)
	list(w, "joins", s.Joins, joinText)
	if s.Errors != (fold.ErrorSpec{}) {
		w.field("errors", errorsText(s.Errors))
	}
	list(w, "as_cut", s.AsCut, cutSizeText)
	list(w, "struck", s.Struck, struckText)
	list(w, "metals", s.Metals, metalText)
	list(w, "tests", s.Tests, func(t metal.Strip) string { return stripText(t, number) })
	if s.Price != (fold.Price{}) {
		w.field("price", priceText(s.Price))
	}
	w.close("}")
	w.out = append(w.out, '\n')
	return w.out
}

// blank writes what a part given by its blank says of that, of its base and seams.
func (w *writer) blank(s fold.Spec) {
	w.open("blank")
	w.open("outline")
	w.points(s.Outline)
	w.close("]")
	if len(s.Cutouts) > 0 {
		w.open("cutouts")
		for _, k := range s.Cutouts {
			w.entry("[")
			w.depth++
			w.first = true
			w.points(k)
			w.close("]")
		}
		w.close("]")
	}
	list(w, "holes", s.Holes, func(h fold.Hole) string {
		return object("at", point(h.At), "diameter", number(h.Diameter))
	})
	list(w, "bends", s.Bends, func(b fold.BendSpec) string {
		way := "down"
		if b.Up {
			way = "up"
		}
		return object("name", maybe(b.Name), "line", "["+point(b.Line[0])+", "+point(b.Line[1])+"]",
			"angle", number(b.Angle), "radius", number(b.Radius),
			"radius_from", maybe(b.RadiusFrom), "way", text(way))
	})
	list(w, "panels", s.Panels, func(n fold.PanelName) string {
		return object("name", text(n.Name), "at", point(n.At))
	})
	w.close("}")
	if s.Base != "" {
		w.field("base", text(s.Base))
	}
	list(w, "seams", s.Seams, func(m fold.SeamSpec) string {
		open := ""
		if m.Open {
			open = "true"
		}
		return object("name", maybe(m.Name), "a", point(m.A), "b", point(m.B),
			"gap", optional(m.Gap), "join", maybe(m.Join), "open", open)
	})
}

// writer lays lists and objects out, an entry a line.
type writer struct {
	out   []byte
	depth int
	first bool // nothing stands yet in the list or object at hand
}

// entry begins a new line with s, with a comma after what stands before it.
func (w *writer) entry(s string) {
	if !w.first {
		w.out = append(w.out, ',')
	}
	w.first = false
	w.line(s)
}

func (w *writer) line(s string) {
	if len(w.out) > 0 {
		w.out = append(w.out, '\n')
	}
	for range w.depth {
		w.out = append(w.out, "  "...)
	}
	w.out = append(w.out, s...)
}

func (w *writer) field(key, value string) { w.entry(text(key) + ": " + value) }

// open begins the file's object (key ""), one of those that are laid out in lines, or a list.
func (w *writer) open(key string) {
	switch key {
	case "":
		w.line("{")
	case "blank", "sizes", "base", "measured":
		w.field(key, "{")
	default:
		w.field(key, "[")
	}
	w.depth++
	w.first = true
}

func (w *writer) close(bracket string) {
	w.depth--
	w.first = false
	w.line(bracket)
}

// points writes a contour, as many points to a line as fit. An arc that ends at
// the first point stands last.
func (w *writer) points(k fold.Contour) {
	var all []string
	for i, v := range k {
		if v.Through != nil && i > 0 {
			all = append(all, arc(v))
		} else {
			all = append(all, point(v.At))
		}
	}
	if len(k) > 0 && k[0].Through != nil {
		all = append(all, arc(k[0]))
	}
	w.row(all)
}

// row writes the texts with as many to a line as fit.
func (w *writer) row(all []string) {
	row := ""
	for _, s := range all {
		if row != "" && len(row)+2+len(s) > lineLength {
			w.entry(row)
			row = ""
		}
		if row != "" {
			row += ", "
		}
		row += s
	}
	if row != "" {
		w.entry(row)
	}
}

// list writes a list with an entry a line, nothing for an empty one.
func list[T any](w *writer, key string, items []T, one func(T) string) {
	if len(items) == 0 {
		return
	}
	w.open(key)
	for _, it := range items {
		w.entry(one(it))
	}
	w.close("]")
}

func sheetText(s fold.Sheet) string {
	return object("thickness", number(s.Thickness), "metal", maybe(s.Metal), "k", optional(s.K),
		"k_from", maybe(s.KFrom), "rule", maybe(s.Rule), "grain", optional(s.Grain), "good", maybe(s.Good),
		"shortest_lip", optional(s.Lip))
}

func stepText(s fold.Step) string {
	names := make([]string, len(s.Bends))
	for i, n := range s.Bends {
		names[i] = text(n)
	}
	switch {
	case s.To != nil && len(names) > 0:
		return object("bend", names[0], "to", number(*s.To))
	case len(names) == 1:
		return names[0]
	}
	return "[" + strings.Join(names, ", ") + "]"
}

// object writes keys and values in one line, leaving out those whose value is "".
func object(pairs ...string) string {
	var out []string
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i+1] != "" {
			out = append(out, text(pairs[i])+": "+pairs[i+1])
		}
	}
	return "{" + strings.Join(out, ", ") + "}"
}

func arc(v fold.Vertex) string { return object("through", point(*v.Through), "to", point(v.At)) }

func point(p geom.Vec2) string { return "[" + number(p[0]) + ", " + number(p[1]) + "]" }

func optional(v *float64) string {
	if v == nil {
		return ""
	}
	return number(*v)
}

// figure is "" for 0, which stands for none given.
func figure(v float64) string {
	if v == 0 {
		return ""
	}
	return number(v)
}

// pair is a list of two numbers, "" for two noughts.
func pair(v [2]float64, one func(float64) string) string {
	if v == [2]float64{} {
		return ""
	}
	return "[" + one(v[0]) + ", " + one(v[1]) + "]"
}

func maybe(s string) string {
	if s == "" {
		return ""
	}
	return text(s)
}

// number is the shortest form that reads back exactly; a minus zero is 0. Those of
// more than 21 digits or 6 zeros after the point get an exponent.
func number(v float64) string {
	if v == 0 {
		return "0"
	}
	form := byte('f')
	if a := max(v, -v); a < 1e-6 || a >= 1e21 {
		form = 'e'
	}
	return strconv.FormatFloat(v, form, -1, 64)
}

// text is s as JSON, characters as they are except those that JSON needs escaped.
func text(s string) string {
	const hex = "0123456789abcdef"
	out := []byte{'"'}
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			out = append(out, '\\', byte(r))
		case r == '\n':
			out = append(out, `\n`...)
		case r == '\r':
			out = append(out, `\r`...)
		case r == '\t':
			out = append(out, `\t`...)
		case r < ' ':
			out = append(out, `\u00`...)
			out = append(out, hex[r>>4], hex[r&15])
		default:
			out = append(out, string(r)...)
		}
	}
	return string(append(out, '"'))
}

// compact drops the white space between the tokens of a JSON text.
func compact(data []byte) []byte {
	out := make([]byte, 0, len(data))
	inText := false
	for i := 0; i < len(data); i++ {
		c := data[i]
		switch {
		case inText && c == '\\':
			out = append(out, c)
			i++
			c = data[i]
		case c == '"':
			inText = !inText
		case !inText && (c == ' ' || c == '\n'):
			continue
		}
		out = append(out, c)
	}
	return out
}
