package screen

// This file says which sizes are drawn on the part on the bench, and ties their handles
// to the fields.

import (
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
	"dryfold/render/scene"
	"dryfold/wasm/session"
)

// tie is how a size of the form hangs on a named one: value = from + by * named, by 1 or -1.
type tie struct {
	named int
	from  float64
	by    float64
}

// tied tells on which named size a field hangs, where it is that size itself or what is left of another to it ("90 - lean").
func (c *Screen) tied(path string) (t tie, ok bool) {
	f := c.S.Form()
	x, known := c.S.SizeField(path)
	if !known || !x.Formula {
		return t, false
	}
	found := -1
	for i, n := range f.Named {
		if n.Is.Given && n.Is.Formula == "" && strings.Contains(x.Text, n.Name) && uses(f, n.Name, path) {
			if found >= 0 {
				return t, false
			}
			found = i
		}
	}
	if found < 0 {
		return t, false
	}
	// A line is known by three of its points.
	var at [3]float64
	now := f.Named[found].Is.Number
	for k := range at {
		g := *f
		g.Named = slices.Clone(f.Named)
		g.Named[found].Is = sizes.Is(now + float64(k))
		v, _ := g.Values(c.S.Spec().Units.Scale())
		y, err := v.Num(sizes.Of(x.Text))
		if err != nil {
			return t, false
		}
		at[k] = y
	}
	t = tie{named: found, by: at[1] - at[0], from: at[0] - (at[1]-at[0])*now}
	return t, math.Abs(math.Abs(t.by)-1) < sameSize && math.Abs(at[2]-at[1]-t.by) < sameSize
}

func uses(f *sizes.Form, name, path string) bool {
	for _, u := range f.Uses(name) {
		if u == path {
			return true
		}
	}
	return false
}

// marked is one size to be drawn: its mark, and the field it belongs to.
type marked struct {
	mark  scene.SizeMark
	field string
}

// SizeMarks are the sizes to be drawn on the part on the bench: those that the column asks first, and those of what
// stands open; the field with the focus is lit.
func (c *Screen) SizeMarks() []scene.SizeMark {
	list := c.marks()
	out := make([]scene.SizeMark, len(list))
	for i := range list {
		out[i] = list[i].mark
	}
	return out
}

// marks are the sizes to be drawn. Where a size runs in several places, as the height of four walls alike, all of them are
// given as one group: the bench draws the one that is seen best.
func (c *Screen) marks() []marked {
	of := marksOf{c.S.Serial(), c.S.Units(), c.S.Word(), c.at, c.item, c.Phone, c.S.ViewOnly(), c.grip.path}
	if c.marksOf != of {
		c.marksOf, c.marked = of, c.findMarks()
	}
	return c.marked
}

// marksOf is what the sizes to be drawn hang on.
type marksOf struct {
	serial  int
	units   fold.Units
	word    session.Word
	at      string
	item    item
	phone   bool
	viewing bool
	held    string
}

func (c *Screen) findMarks() []marked {
	s := c.S
	made := s.Made()
	if made == nil || s.Word() != session.Sizes || s.ViewOnly() {
		return nil
	}
	f := s.Form()
	all := append(made.Marks[:len(made.Marks):len(made.Marks)], c.angleMarks(made)...)
	var out []marked
	groups := map[string]int{}
	add := func(m *shape.Mark, field, label string, from float64) {
		g := groups[field]
		if g == 0 {
			if len(groups) >= mostMarks {
				return
			}
			g = len(groups) + 1
			groups[field] = g
		}
		if c.Phone && field != c.at {
			label = ""
		} else if short, _, ok := strings.Cut(label, ","); ok && len(label) > longLabel {
			label = short
		}
		mark := scene.SizeMark{Mark: *m, Label: strings.TrimSpace(label + " " + c.markFigure(m, field)), From: from, Lit: field == c.at, Held: m.Path == c.grip.path, Grip: c.gripped(m, field), Group: g}
		if mark.Grip && !m.Arc {
			mark.Hold = c.topEdge(m.Path)
		}
		out = append(out, marked{mark, field})
	}
	open := c.openPrefix()
	for i := range all {
		m := &all[i]
		t, tied := c.tied(m.Path)
		field, label, from := m.Path, m.Text, 0.0
		switch {
		case m.Path == c.at:
		case strings.HasPrefix(m.Path, "sizes.base.measured.") && !strings.HasPrefix(m.Path, "sizes.base.measured.sides"):
			continue // a diagonal or an angle of the floor is drawn while it is asked: all at once hide the part
		case tied && m.Arc && c.standsAlike(m.Path, t.named):
			continue
		case tied && m.Arc == f.Named[t.named].Angle && (m.Arc || t.by > 0 && math.Abs(t.from) < sameSize):
			field, label = session.NamedField(t.named, "is"), f.Named[t.named].Label
			if label == "" {
				label = f.Named[t.named].Name
			}
			if m.Arc {
				from = t.from * math.Pi / 180
			}
		case open != "" && strings.HasPrefix(m.Path, open), strings.HasPrefix(m.Path, "sizes.base.measured.sides"),
			m.Path == "sizes.base.wide", m.Path == "sizes.base.long": // also as a lid’s, reckoned from its box and the play
		case len(f.Named) == 0 && (strings.HasPrefix(m.Path, "sizes.base") || strings.HasSuffix(m.Path, ".height") && len(f.Flanges) <= mostMarks/2):
		default:
			continue
		}
		add(m, field, label, from)
	}
	return out
}

// markFigure is the figure at a size on the part: what its field comes to; of a measured base what is cut, as the readings need not fit
// each other.
func (c *Screen) markFigure(m *shape.Mark, field string) string {
	switch {
	case field != m.Path || !strings.HasPrefix(field, "sizes.base.measured"):
		return c.figure(field)
	case m.Arc:
		return session.Degrees(m.Value) + "°"
	}
	return session.Size(m.Value, c.S.Units())
}

// standsAlike reports whether the flange of a path stands on one whose angle hangs on the same named size: a lip that is level
// on a leaning wall does not show the lean.
func (c *Screen) standsAlike(path string, named int) bool {
	f := c.S.Form()
	for i := range f.Flanges {
		if path != session.FlangeField(i, "angle") {
			continue
		}
		for k := range f.Flanges {
			if f.Flanges[k].Name == f.Flanges[i].On {
				t, ok := c.tied(session.FlangeField(k, "angle"))
				return ok && t.named == named
			}
		}
	}
	return false
}

// angleMarks are where the flanges' bend angles can be shown: at both ends of each bend, between what the flange stands on, gone
// on straight, and the flange.
func (c *Screen) angleMarks(made *shape.Made) []shape.Mark {
	p := c.S.Part()
	if !p.Foldable {
		return nil
	}
	var out []shape.Mark
	seen := map[int]bool{}
	for i := range p.Bends {
		at := c.S.BendFlange(i)
		b := &p.Bends[i]
		if at < 0 || seen[at] || b.Angle > arcMost {
			continue
		}
		seen[at] = true
		path := session.FlangeField(at, "angle")
		if _, ok := c.S.SizeField(path); !ok || c.S.Form().Flanges[at].Hem != nil {
			continue
		}
		// The sharp of the outer faces lies so far from the tangent lines.
		back, z := 0.0, 0.0
		back = (b.Radius + p.Thickness) * math.Tan(float64(b.Angle)/2)
		if !b.Up {
			z = p.Thickness
		}
		far := 0.0
		for _, v := range p.Panels[b.B].Region.Outer {
			_, s := b.Coord(v)
			far = max(far, s-b.Allowance)
		}
		for _, end := range b.Line {
			u, _ := b.Coord(end)
			spot := func(panel int, s float64) shape.Spot {
				q := b.Q.Add(b.U.Mul(u)).Add(b.N.Mul(s))
				return shape.Spot{Panel: p.Panels[panel].Name, X: q[0], Y: q[1], Z: z}
			}
			out = append(out, shape.Mark{Path: path, Text: "Angle", Arc: true, Pivot: spot(b.A, back), A: spot(b.A, back+far), B: spot(b.B, b.Allowance+far)})
		}
	}
	return out
}

// topEdge is the middle of a flange's free edge, where its height is dragged; nil where it has none.
func (c *Screen) topEdge(path string) *shape.Spot {
	for i := range c.S.Form().Flanges {
		if !strings.HasPrefix(path, session.FlangeField(i, "")) {
			continue
		}
		k := c.S.FlangePanel(i)
		if k < 0 {
			return nil
		}
		p := c.S.Part()
		pn := &p.Panels[k]
		out := pn.Region.Outer
		best, long := -1, 0.0
		for j, e := range pn.Edges[0] {
			if d := out[(j+1)%len(out)].Sub(out[j]).Len(); (e.Free() || e.Bend != pn.Parent) && d > long && c.flangeSide(pn, j) == "top" {
				best, long = j, d
			}
		}
		if best < 0 {
			return nil
		}
		q := out[best].Add(out[(best+1)%len(out)]).Mul(.5)
		return &shape.Spot{Panel: pn.Name, X: q[0], Y: q[1], Z: p.Thickness / 2}
	}
	return nil
}

// openPrefix is how the paths of what stands open begin, "" where nothing does.
func (c *Screen) openPrefix() string {
	switch c.item.kind {
	case "base":
		return "sizes.base"
	case "flange":
		return session.FlangeField(c.item.i, "")
	case "hole":
		return session.HoleField(c.item.i, "")
	}
	return ""
}

// gripped reports whether a size has a handle: heights and angles that are plain numbers, or hang on one.
func (c *Screen) gripped(m *shape.Mark, field string) bool {
	if !strings.HasSuffix(m.Path, ".height") && !strings.HasSuffix(m.Path, ".angle") {
		return false
	}
	if c.Phone && field != c.at && !strings.HasSuffix(m.Path, ".height") { // a small part has no room for all
		return false
	}
	x, ok := c.S.SizeField(field)
	return ok && x.Known && !x.Formula
}

// grip is a size in hand on the bench.
type grip struct {
	path  string // of the mark
	field string // that changes
	was   float64
	by    float64 // how much the field changes for 1 of the size
}

// DragSize follows a handle that is dragged: by is the change of the mark's size since the drag began, mm or radians.
func (c *Screen) DragSize(path string, by float64, done bool) {
	s := c.S
	if c.grip.path != path {
		c.grip = grip{path: path, field: path, by: 1}
		if t, ok := c.tied(path); ok {
			c.grip.field, c.grip.by = session.NamedField(t.named, "is"), t.by
		}
		x, ok := s.SizeField(c.grip.field)
		if !ok || !x.Known {
			c.grip = grip{}
			return
		}
		if x.Angle {
			c.grip.by *= 180 / math.Pi
		}
		c.grip.was = x.Value
		if err := s.BeginDrag(c.grip.field); err != nil {
			c.grip = grip{}
			c.say(err)
			return
		}
		c.at = c.grip.field
	}
	s.Drag(c.grip.was + by*c.grip.by)
	if !done {
		return
	}
	_, stopped := s.Dragging()
	s.EndDrag()
	c.grip, c.at = grip{}, ""
	if stopped != "" {
		c.Fail(session.Title(stopped))
	}
}

// TouchSize has the field of a size whose handle was tapped take the focus.
func (c *Screen) TouchSize(i int) {
	if list := c.marks(); i >= 0 && i < len(list) {
		c.Focus = "f-" + list[i].field
	}
}
