package session

// This file renames flanges of a part by sizes and takes them away, with what hangs on them.

import (
	"errors"
	"fmt"
	"slices"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// RenameFlange gives a flange another name; all that names it follows, the order too. -1 is the base.
func (s *Session) RenameFlange(flange int, text string) error {
	return s.renameFlange(FlangeField(flange, "name"), flange, text)
}

func (s *Session) renameFlange(field string, flange int, text string) error {
	f := s.spec.Sizes
	if f == nil || flange >= len(f.Flanges) {
		return errNoSizes
	}
	name, err := readName(text)
	if err == nil && name == "" {
		err = errors.New("a panel wants a name, as left or floor")
	}
	old := baseName(f)
	if flange >= 0 {
		old = f.Flanges[flange].Name
	}
	if err == nil && name != old && panelNamed(f, name) {
		err = fmt.Errorf("another panel is called %s already. Another name would do", quoted(name))
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	next := s.spec
	next.Sizes = f.Clone()
	renameIn(next.Sizes, old, name)
	next.Order = s.orderAs(next)
	return s.take(field, text, next)
}

// orderAs is the open part's order for a form with the same bends, by the names that they have there.
func (s *Session) orderAs(next fold.Spec) []fold.Step {
	order := s.spec.Order
	if s.made == nil || len(order) == 0 {
		return order
	}
	made, problems := shape.Make(next)
	if len(problems) > 0 || len(made.Spec.Bends) != len(s.spec.Bends) {
		return order
	}
	var out []fold.Step
	names := map[string]string{}
	for i, b := range s.part.Bends {
		names[b.Name] = made.Spec.Bends[i].Name
	}
	for _, st := range order {
		st.Bends = slices.Clone(st.Bends)
		for k, b := range st.Bends {
			if n, ok := names[b]; ok {
				st.Bends[k] = n
			}
		}
		out = append(out, st)
	}
	return out
}

// Depends says what goes with a flange when it is deleted: "front lip", "its corner with left", "hole 3"; nil for none.
func (s *Session) Depends(name string) []string {
	f := s.spec.Sizes
	if f == nil {
		return nil
	}
	gone := map[string]bool{}
	var out []string
	for k, i := range standing(f, name) {
		gone[f.Flanges[i].Name] = true
		if k > 0 {
			out = append(out, f.Flanges[i].Name)
		}
	}
	for _, c := range f.Corners {
		switch {
		case gone[c.A] && gone[c.B]:
			out = append(out, "the corner of "+c.A+" and "+c.B)
		case c.A == name:
			out = append(out, "its corner with "+c.B)
		case c.B == name:
			out = append(out, "its corner with "+c.A)
		case gone[c.A] || gone[c.B]:
			out = append(out, "the corner of "+c.A+" and "+c.B)
		}
	}
	for i, h := range f.Holes {
		if gone[h.On] {
			out = append(out, holeCalled(f, i))
		}
	}
	return out
}

// DeleteFlange takes a flange away with all that Depends names.
func (s *Session) DeleteFlange(name string) error {
	f := s.spec.Sizes
	if f == nil {
		return errNoSizes
	}
	if flangeNamed(f, name) < 0 {
		return noFlange(f, name)
	}
	gone := map[string]bool{}
	for _, i := range standing(f, name) {
		gone[f.Flanges[i].Name] = true
	}
	next := s.spec
	form := f.Clone()
	takeOff(form, gone)
	next.Sizes = form
	for i := range s.spec.Bends {
		if at := s.BendFlange(i); at >= 0 && gone[f.Flanges[at].Name] {
			next.Order = orderRenamed(next.Order, s.part.Bends[i].Name, "")
		}
	}
	return s.change(next)
}

// takeOff takes flanges off a form, with their corners and holes.
func takeOff(form *sizes.Form, gone map[string]bool) {
	form.Flanges = orNil(slices.DeleteFunc(form.Flanges, func(l sizes.Flange) bool { return gone[l.Name] }))
	form.Corners = orNil(slices.DeleteFunc(form.Corners, func(c sizes.Corner) bool { return gone[c.A] || gone[c.B] }))
	form.Holes = orNil(slices.DeleteFunc(form.Holes, func(h sizes.Hole) bool { return gone[h.On] }))
}

// orNil is nil for an empty list, as files that are read give it.
func orNil[T any](list []T) []T {
	if len(list) == 0 {
		return nil
	}
	return list
}

// noFlange says that a name is no flange's.
func noFlange(f *sizes.Form, name string) error {
	if name == baseName(f) {
		return fmt.Errorf("%s is what all else stands on", Title(name))
	}
	return fmt.Errorf("there is no flange %s any more", quoted(name))
}
