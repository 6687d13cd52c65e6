package sizes

// This file holds what goes through a form: all its fields with their paths, and a copy of it.

import "strconv"

// Fields shows every Field of the form, given or not, in the form's own order. path is
// the field as in a part file ("sizes.flanges[2].height_end"); angle says that it is in
// degrees and not a length. visit may change the field that it is shown.
//
// A point is shown as its x and y ("sizes.base.points[3][0]", "[1]") and, where an arc ends
// there, as "...[3].through[0]" and "...[3].to[0]" and so on.
func (f *Form) Fields(visit func(path string, field *Field, angle bool)) {
	w := walker{visit}
	for i := range f.Named {
		w.visit(at("sizes.named", i)+".is", &f.Named[i].Is, f.Named[i].Angle)
	}
	w.length("sizes.radius", &f.Radius)
	w.length("sizes.gap", &f.Gap)
	w.length("sizes.relief.size", &f.Relief.Size)
	w.base(&f.Base)
	for i := range f.Flanges {
		w.flange(at("sizes.flanges", i), &f.Flanges[i])
	}
	for i := range f.Corners {
		c, p := &f.Corners[i], at("sizes.corners", i)
		w.length(p+".past", &c.Past)
		w.length(p+".gap", &c.Gap)
		if c.Relief != nil {
			w.length(p+".relief.size", &c.Relief.Size)
		}
	}
	for i := range f.Holes {
		h, p := &f.Holes[i], at("sizes.holes", i)
		w.length(p+".x", &h.X)
		w.length(p+".y", &h.Y)
		w.length(p+".wide", &h.Wide)
		w.length(p+".long", &h.Long)
		w.angle(p+".turn", &h.Turn)
		w.points(p+".points", h.Points)
		w.length(p+".step", &h.Step)
		w.length(p+".row_step", &h.RowStep)
	}
}

// walker shows fields.
type walker struct {
	visit func(path string, field *Field, angle bool)
}

func (w walker) length(path string, f *Field) { w.visit(path, f, false) }
func (w walker) angle(path string, f *Field)  { w.visit(path, f, true) }

func (w walker) list(path string, list []Field, angle bool) {
	for i := range list {
		w.visit(at(path, i), &list[i], angle)
	}
}

func (w walker) points(path string, list []Point) {
	for i := range list {
		q, p := &list[i], at(path, i)
		if q.Through {
			w.length(p+".through[0]", &q.ThX)
			w.length(p+".through[1]", &q.ThY)
			p += ".to"
		}
		w.length(p+"[0]", &q.X)
		w.length(p+"[1]", &q.Y)
	}
}

func (w walker) base(b *Base) {
	w.length("sizes.base.wide", &b.Wide)
	w.length("sizes.base.wide_back", &b.WideBack)
	w.length("sizes.base.long", &b.Long)
	w.points("sizes.base.points", b.Points)
	m := b.Measured
	if m == nil {
		return
	}
	const p = "sizes.base.measured"
	w.list(p+".sides", m.Sides, false)
	w.list(p+".diagonals", m.Diagonals, false)
	w.list(p+".angles", m.Angles, true)
	for i := range m.Stations {
		s, p := &m.Stations[i], at(p+".stations", i)
		w.length(p+".at", &s.At)
		w.length(p+".left", &s.Left)
		w.length(p+".right", &s.Right)
		w.length(p+".wide", &s.Wide)
	}
}

func (w walker) flange(p string, l *Flange) {
	w.length(p+".from", &l.From)
	w.length(p+".to", &l.To)
	w.length(p+".height", &l.Height)
	w.length(p+".height_end", &l.HeightEnd)
	w.angle(p+".angle", &l.Angle)
	w.length(p+".radius", &l.Radius)
	w.points(p+".edge", l.Edge)
	w.angle(p+".lean_start", &l.LeanStart)
	w.angle(p+".lean_end", &l.LeanEnd)
	if l.Hem != nil {
		w.length(p+".hem.clear", &l.Hem.Clear)
	}
	if l.Joggle != nil {
		w.length(p+".joggle.at", &l.Joggle.At)
		w.length(p+".joggle.depth", &l.Joggle.Depth)
		w.angle(p+".joggle.angle", &l.Joggle.Angle)
	}
}

// at is the path of a list's entry.
func at(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

// Clone is a copy that shares nothing with the form: a change to one leaves the other
// as it was. Clone of nil is nil.
func (f *Form) Clone() *Form {
	if f == nil {
		return nil
	}
	c := *f
	c.Named = copied(f.Named)
	c.Base.Sides = copied(f.Base.Sides)
	c.Base.Points = copied(f.Base.Points)
	if m := f.Base.Measured; m != nil {
		c.Base.Measured = &Measured{Way: m.Way, Sides: copied(m.Sides), Diagonals: copied(m.Diagonals),
			Angles: copied(m.Angles), Stations: copied(m.Stations)}
	}
	c.Flanges = copied(f.Flanges)
	for i := range c.Flanges {
		l := &c.Flanges[i]
		l.Faces, l.Hem, l.Joggle = copyOf(l.Faces), copyOf(l.Hem), copyOf(l.Joggle)
		l.Edge = copied(l.Edge)
	}
	c.Corners = copied(f.Corners)
	for i := range c.Corners {
		c.Corners[i].Relief = copyOf(c.Corners[i].Relief)
	}
	c.Holes = copied(f.Holes)
	for i := range c.Holes {
		c.Holes[i].Points = copied(c.Holes[i].Points)
	}
	return &c
}

// copied is a list of its own; of an empty one nil.
func copied[T any](list []T) []T { return append([]T(nil), list...) }

func copyOf[T any](p *T) *T {
	if p == nil {
		return nil
	}
	c := *p
	return &c
}
