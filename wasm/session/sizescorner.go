package session

// This file sets how the walls of a part by sizes meet.

import (
	"errors"
	"fmt"
	"slices"

	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// CornerRow is a corner of the open part.
type CornerRow struct {
	A, B   string            // flanges' names
	Corner sizes.Corner      // as the form has it; the usual way where it has none
	At     int               // index in Form.Corners, -1 where it is the usual way
	Made   *shape.MadeCorner // nil where they do not meet
	Seam   int               // of the report, -1 where it isn't known
}

// Corners are the corners of the open part: those that were made, then those that the form names besides.
func (s *Session) Corners() []CornerRow {
	f := s.spec.Sizes
	if f == nil {
		return nil
	}
	var out []CornerRow
	seen := map[int]bool{}
	if s.made != nil {
		for i := range s.made.Corners {
			m := &s.made.Corners[i]
			row := CornerRow{A: m.A, B: m.B, At: cornerOf(f, m.A, m.B), Made: m, Seam: -1}
			for k, r := range s.report.Seams {
				if r.Name == m.Name && m.Name != "" {
					row.Seam = k
				}
			}
			out = append(out, row)
		}
	}
	for i := range out {
		if at := out[i].At; at >= 0 {
			out[i].Corner, seen[at] = f.Corners[at], true
		} else {
			out[i].Corner = sizes.Corner{A: out[i].A, B: out[i].B}
		}
	}
	for i, c := range f.Corners {
		if !seen[i] {
			out = append(out, CornerRow{A: c.A, B: c.B, Corner: c, At: i, Seam: -1})
		}
	}
	return out
}

// cornerOf is the index of the corner of two flanges in a form, either way round; -1 for none.
func cornerOf(f *sizes.Form, a, b string) int {
	return slices.IndexFunc(f.Corners, func(c sizes.Corner) bool { return c.A == a && c.B == b || c.A == b && c.B == a })
}

// CornerField is the key of a corner's field for Error and focus: "close", "over", "past", "gap", "relief" or
// "relief.size". It is the same whether the form has the corner yet or not.
func CornerField(a, b, what string) string {
	if a > b {
		a, b = b, a
	}
	return "corner " + a + "/" + b + " " + what
}

// CornerText is what stands in a corner's field "past", "gap" or "relief.size".
func (s *Session) CornerText(a, b, what string) string {
	f := s.spec.Sizes
	if f == nil {
		return ""
	}
	if i := cornerOf(f, a, b); i >= 0 {
		if at := cornerSize(&f.Corners[i], what); at != nil {
			return s.fieldText(*at, false)
		}
	}
	return ""
}

// cornerSize is a corner's field; nil where there is none, also where a relief of its own is wanted first.
func cornerSize(c *sizes.Corner, what string) *sizes.Field {
	switch {
	case what == "past":
		return &c.Past
	case what == "gap":
		return &c.Gap
	case what == "relief.size" && c.Relief != nil:
		return &c.Relief.Size
	}
	return nil
}

// EditCorner changes how two flanges meet by f, which is given their entry in a copy of the form: a new one where
// there was none. An entry that says nothing any more is taken out.
func (s *Session) EditCorner(a, b, what, typed string, f func(*sizes.Form, *sizes.Corner) error) error {
	if !s.BySizes() {
		return errNoSizes
	}
	field := CornerField(a, b, what)
	delete(s.errors, field)
	form := s.spec.Sizes.Clone()
	at := cornerOf(form, a, b)
	if at < 0 {
		at = len(form.Corners)
		form.Corners = append(form.Corners, sizes.Corner{A: a, B: b})
	}
	if flangeNamed(form, a) < 0 || flangeNamed(form, b) < 0 {
		return s.refuse(field, typed, fmt.Errorf("there is no corner of %s and %s any more", a, b))
	}
	err := f(form, &form.Corners[at])
	if err != nil {
		return s.refuse(field, typed, err)
	}
	c := form.Corners[at]
	if c.Close == sizes.Usual && c.Over == "" && !c.Past.Given && !c.Gap.Given && c.Relief == nil && !c.InPlane {
		form.Corners = orNil(slices.Delete(form.Corners, at, at+1))
	}
	next := s.spec
	next.Sizes = form
	if err := s.change(next); err != nil {
		return s.refuse(field, typed, err)
	}
	return nil
}

// SetClosing sets how two flanges meet. A lap begins with the first of them running over the other.
func (s *Session) SetClosing(a, b string, how sizes.Closing) error {
	return s.EditCorner(a, b, "close", "", func(_ *sizes.Form, c *sizes.Corner) error {
		c.Close = how
		if how != sizes.Lap {
			c.Over, c.Past = "", sizes.Field{}
		} else if c.Over == "" {
			c.Over = a
		}
		c.InPlane = c.InPlane && how == sizes.Mitre
		return nil
	})
}

// SetOver sets which of two flanges runs over the other in a lap.
func (s *Session) SetOver(a, b, over string) error {
	return s.EditCorner(a, b, "over", "", func(_ *sizes.Form, c *sizes.Corner) error {
		if over != a && over != b {
			return errors.New("one of the two flanges runs over the other")
		}
		c.Close, c.Over = sizes.Lap, over
		return nil
	})
}

// SetCornerField takes a typed size of a corner: "past", "gap" or "relief.size"; nothing leaves it as usual.
func (s *Session) SetCornerField(a, b, what, text string) error {
	if !s.BySizes() {
		return errNoSizes
	}
	f, err := s.readSize(text, false)
	if err != nil {
		return s.refuse(CornerField(a, b, what), text, err)
	}
	return s.EditCorner(a, b, what, text, func(form *sizes.Form, c *sizes.Corner) error {
		if what == "relief.size" && c.Relief == nil {
			if !f.Given {
				return nil
			}
			own := form.Relief
			c.Relief = &own
		}
		at := cornerSize(c, what)
		if at == nil {
			return errors.New("a corner has no such size")
		}
		*at = f
		return nil
	})
}

// SetCornerRelief sets how the relief of a corner is made; nil makes it the part's usual one.
func (s *Session) SetCornerRelief(a, b string, kind *sizes.ReliefKind) error {
	return s.EditCorner(a, b, "relief", "", func(form *sizes.Form, c *sizes.Corner) error {
		switch {
		case kind == nil:
			c.Relief = nil
		case c.Relief == nil:
			c.Relief = &sizes.Relief{Kind: *kind}
		default:
			c.Relief.Kind = *kind
		}
		return nil
	})
}

// SetInPlane says whether a mitre over a bend turns the second wall so that both lie in one plane.
func (s *Session) SetInPlane(a, b string, on bool) error {
	return s.EditCorner(a, b, "close", "", func(_ *sizes.Form, c *sizes.Corner) error {
		c.InPlane = on
		if on {
			c.Close = sizes.Mitre
		}
		return nil
	})
}

// SeamCorner is the two flanges of the corner whose seam the open part's seam is; ok is false for other seams.
func (s *Session) SeamCorner(seam int) (a, b string, ok bool) {
	if s.made == nil || seam < 0 || seam >= len(s.report.Seams) {
		return "", "", false
	}
	for _, m := range s.made.Corners {
		if m.Name == s.report.Seams[seam].Name {
			return m.A, m.B, true
		}
	}
	return "", "", false
}
