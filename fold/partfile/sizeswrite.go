// The sizes of a part by sizes, in a part file: their normal form, and written.

package partfile

import (
	"strings"

	"dryfold/fold/sizes"
)

// normalForm is the form as Read gives it, sharing nothing with f: empty lists nil, outlines without a last point
// that repeats the first, no minus zero, of a formula and a size that is not given no number.
func normalForm(f *sizes.Form) *sizes.Form {
	f = f.Clone()
	f.Fields(func(_ string, v *sizes.Field, _ bool) {
		switch {
		case !v.Given:
			*v = sizes.Field{}
		case v.Formula != "":
			v.Number = 0
		case v.Number == 0:
			v.Number = 0 // no minus zero
		}
	})
	f.Base.Points = normalPoints(f.Base.Points)
	for i := range f.Flanges {
		f.Flanges[i].Edge = withoutThrough(f.Flanges[i].Edge)
	}
	for i := range f.Holes {
		f.Holes[i].Points = normalPoints(f.Holes[i].Points)
	}
	return f
}

// normalPoints is a closed outline whose last point does not repeat the first.
func normalPoints(all []sizes.Point) []sizes.Point {
	for n := len(all); n > 1 && !all[0].Through && all[n-1].X == all[0].X && all[n-1].Y == all[0].Y; n-- {
		all[0] = all[n-1]
		all = all[:n-1]
	}
	return withoutThrough(all)
}

// withoutThrough clears what is said of no arc.
func withoutThrough(all []sizes.Point) []sizes.Point {
	for i := range all {
		if v := &all[i]; !v.Through {
			v.ThX, v.ThY = sizes.Field{}, sizes.Field{}
		}
	}
	return all
}

// form writes the sizes: a flange, corner or hole a line.
func (w *writer) form(f *sizes.Form) {
	w.open("sizes")
	list(w, "named", f.Named, func(n sizes.Named) string {
		return object("name", text(n.Name), "is", sizeText(n.Is), "label", maybe(n.Label), "angle", truth(n.Angle))
	})
	w.maybe("faces", unlessFirst(int(f.Faces), sizes.FacesWords))
	w.maybe("radius", sizeText(f.Radius))
	w.maybe("gap", sizeText(f.Gap))
	if f.Relief != (sizes.Relief{}) {
		w.field("relief", reliefText(&f.Relief))
	}
	w.maybe("mirror", truth(f.Mirror))
	w.sizedBase(f.Base)
	list(w, "flanges", f.Flanges, flangeText)
	list(w, "corners", f.Corners, func(c sizes.Corner) string {
		return object("a", text(c.A), "b", text(c.B), "close", unlessFirst(int(c.Close), sizes.CloseWords), "over", maybe(c.Over),
			"past", sizeText(c.Past), "gap", sizeText(c.Gap), "relief", reliefText(c.Relief), "in_plane", truth(c.InPlane))
	})
	list(w, "holes", f.Holes, sizedHoleText)
	w.close("}")
}

// maybe writes a field, unless its value is "".
func (w *writer) maybe(key, value string) {
	if value != "" {
		w.field(key, value)
	}
}

// sizedBase writes the base: in one line, or what is long of it in lines of its own.
func (w *writer) sizedBase(b sizes.Base) {
	var sides string
	if len(b.Sides) > 0 {
		sides = texts(b.Sides)
	}
	short := []string{"name", maybe(b.Name), "sides", sides, "at_top", truth(b.AtTop),
		"wide", sizeText(b.Wide), "wide_back", sizeText(b.WideBack), "long", sizeText(b.Long)}
	if b.Points == nil && b.Measured == nil {
		w.field("base", object(short...))
		return
	}
	w.open("base")
	for i := 0; i < len(short); i += 2 {
		w.maybe(short[i], short[i+1])
	}
	if b.Points != nil {
		w.open("points")
		w.row(pointTexts(b.Points, true))
		w.close("]")
	}
	if m := b.Measured; m != nil {
		w.open("measured")
		w.field("way", text(sizes.WayWords[m.Way]))
		w.maybe("sides", sizeTexts(m.Sides))
		w.maybe("diagonals", sizeTexts(m.Diagonals))
		w.maybe("angles", sizeTexts(m.Angles))
		list(w, "stations", m.Stations, func(s sizes.Station) string {
			return object("at", sizeText(s.At), "left", sizeText(s.Left), "right", sizeText(s.Right), "wide", sizeText(s.Wide))
		})
		w.close("}")
	}
	w.close("}")
}

func flangeText(l sizes.Flange) string {
	faces, hem, joggle := "", "", ""
	if l.Faces != nil {
		faces = text(sizes.FacesWords[*l.Faces])
	}
	if h := l.Hem; h != nil {
		hem = object("clear", sizeText(h.Clear), "teardrop", truth(h.Teardrop))
	}
	if j := l.Joggle; j != nil {
		joggle = object("at", sizeText(j.At), "depth", sizeText(j.Depth), "angle", sizeText(j.Angle), "out", truth(j.Out))
	}
	return object("name", text(l.Name), "on", text(l.On), "side", maybe(l.Side), "from", sizeText(l.From), "to", sizeText(l.To),
		"height", sizeText(l.Height), "along", truth(l.Along), "faces", faces, "angle", sizeText(l.Angle), "down", truth(l.Down),
		"radius", sizeText(l.Radius), "radius_from", maybe(l.RadiusFrom), "height_end", sizeText(l.HeightEnd),
		"edge", pointsText(l.Edge, false), "lean_start", sizeText(l.LeanStart), "lean_end", sizeText(l.LeanEnd), "hem", hem, "joggle", joggle)
}

func sizedHoleText(h sizes.Hole) string {
	return object("name", maybe(h.Name), "on", text(h.On), "side", maybe(h.Side), "from_end", truth(h.FromEnd),
		"x", sizeText(h.X), "y", sizeText(h.Y), "shape", unlessFirst(int(h.Shape), sizes.ShapeWords), "wide", sizeText(h.Wide), "long", sizeText(h.Long),
		"turn", sizeText(h.Turn), "points", pointsText(h.Points, true), "drilled", truth(h.Drilled), "count", figure(float64(h.Count)), "rows", figure(float64(h.Rows)),
		"step", sizeText(h.Step), "row_step", sizeText(h.RowStep), "mirrored", truth(h.Mirrored))
}

func reliefText(r *sizes.Relief) string {
	if r == nil {
		return ""
	}
	return object("kind", text(sizes.ReliefWords[r.Kind]), "size", sizeText(r.Size))
}

// sizeText is a number or a formula, "" for one that is not given.
func sizeText(f sizes.Field) string {
	switch {
	case !f.Given:
		return ""
	case f.Formula != "":
		return text(f.Formula)
	}
	return number(f.Number)
}

// sizeTexts is a list of sizes, "" for an empty one.
func sizeTexts(all []sizes.Field) string {
	if len(all) == 0 {
		return ""
	}
	out := make([]string, len(all))
	for i, f := range all {
		if out[i] = sizeText(f); out[i] == "" {
			out[i] = text(unread)
		}
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// pointTexts writes points one by one; in a closed outline the arc that ends at the first stands last.
func pointTexts(all []sizes.Point, closed bool) (out []string) {
	at := func(x, y sizes.Field) string { return "[" + sizeText(x) + ", " + sizeText(y) + "]" }
	arc := func(v sizes.Point) string { return object("through", at(v.ThX, v.ThY), "to", at(v.X, v.Y)) }
	for i, v := range all {
		if v.Through && i > 0 {
			out = append(out, arc(v))
		} else {
			out = append(out, at(v.X, v.Y))
		}
	}
	if closed && len(all) > 0 && all[0].Through {
		out = append(out, arc(all[0]))
	}
	return out
}

func pointsText(all []sizes.Point, closed bool) string {
	if all == nil {
		return ""
	}
	return "[" + strings.Join(pointTexts(all, closed), ", ") + "]"
}

func texts(all []string) string {
	out := make([]string, len(all))
	for i, s := range all {
		out[i] = text(s)
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// truth is "" for false, which is left out.
func truth(v bool) string {
	if v {
		return "true"
	}
	return ""
}

// unlessFirst is the word of a value, "" for the first, which is left out.
func unlessFirst(v int, words []string) string {
	if v == 0 {
		return ""
	}
	return text(words[v])
}
