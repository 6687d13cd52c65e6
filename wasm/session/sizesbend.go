package session

// This file holds what other columns change of a part: a bend's angle, radius, way
// and name are the flange's of a part by sizes.

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// editBend changes one bend of next, which began as the open part's Spec: f is given the bend. On a part by sizes the
// flange that makes the bend is changed by what f changed, the name apart.
func (s *Session) editBend(next *fold.Spec, bend int, f func(*fold.BendSpec)) error {
	if next.Sizes == nil {
		next.Bends = slices.Clone(next.Bends)
		f(&next.Bends[bend])
		return nil
	}
	at := s.BendFlange(bend)
	if at < 0 || at >= len(next.Sizes.Flanges) {
		return errNoPart
	}
	was := s.spec.Bends[bend]
	if l := next.Sizes.Flanges[at]; l.RadiusFrom != was.RadiusFrom {
		was.RadiusFrom = l.RadiusFrom // a joggle's other bend was changed just now
	}
	is := was
	f(&is)
	next.Sizes = next.Sizes.Clone()
	l := &next.Sizes.Flanges[at]
	joggle := l.Joggle != nil && was.Name != l.Name
	if is.Angle != was.Angle {
		switch {
		case l.Hem != nil:
			return fmt.Errorf("%s is a hem: how far it is turned follows from its clear gap", l.Name)
		case joggle:
			l.Joggle.Angle = sizes.Is(is.Angle)
		default:
			l.Angle = sizes.Is(is.Angle)
		}
	}
	if is.Radius != was.Radius {
		if l.Hem != nil {
			l.Hem.Clear = sizes.Is(tidy(2 * is.Radius))
		} else {
			l.Radius = sizes.Is(is.Radius)
		}
	}
	if is.RadiusFrom != was.RadiusFrom {
		l.RadiusFrom = is.RadiusFrom
	}
	if is.Up != was.Up {
		if joggle {
			l.Joggle.Out = !l.Joggle.Out
		} else {
			l.Down = !l.Down
		}
	}
	return nil
}

// commonRadius writes the radius once where all flanges that took the part's now have one of their own: as
// many bends given another radius at once have.
func commonRadius(was, next *sizes.Form) {
	if was == nil || next == nil || len(was.Flanges) != len(next.Flanges) || !was.Radius.Given {
		return
	}
	first := -1
	for i := range next.Flanges {
		l := &next.Flanges[i]
		if l.Hem != nil || was.Flanges[i].Radius.Given {
			continue
		}
		if !l.Radius.Given || l.Radius.Formula != "" || first >= 0 && l.Radius != next.Flanges[first].Radius {
			return
		}
		if first < 0 {
			first = i
		}
	}
	if first < 0 {
		return
	}
	next.Radius = next.Flanges[first].Radius
	for i := range next.Flanges {
		if l := &next.Flanges[i]; !was.Flanges[i].Radius.Given && l.Hem == nil {
			l.Radius = sizes.Field{}
		}
	}
}

// renameBend renames the flange of a bend.
func (s *Session) renameBend(field string, bend int, text string) error {
	if blank(text) {
		return s.refuse(field, text, errors.New("a flange wants a name, as left or front lip"))
	}
	at := s.BendFlange(bend)
	if at < 0 {
		return s.refuse(field, text, errNoPart)
	}
	l := &s.spec.Sizes.Flanges[at]
	old := s.part.Bends[bend].Name
	name := strings.TrimSpace(text)
	if old != l.Name { // a joggle's, whose name follows the flange's
		if rest, ok := cutWord(old, l.Name); ok && strings.HasSuffix(name, rest) {
			name = strings.TrimSuffix(name, rest)
		} else {
			return s.refuse(field, text, fmt.Errorf("this bend is of the joggle of %s, and is called by it", l.Name))
		}
	}
	if name == l.Name {
		delete(s.errors, field)
		return nil
	}
	return s.renameFlange(field, at, name)
}

// renamePanel renames the base, or the flange of a panel.
func (s *Session) renamePanel(field string, panel int, text string) error {
	if s.made == nil {
		return s.refuse(field, text, errNoPart)
	}
	at := s.PanelFlange(panel)
	if at >= 0 {
		if name := s.spec.Sizes.Flanges[at].Name; s.part.Panels[panel].Name != name {
			return s.refuse(field, text, fmt.Errorf("this panel is of the joggle of %s, and is called by it", name))
		}
	}
	return s.renameFlange(field, at, text)
}

// orderOf is the order of next without bends that it has no more, as a joggle's that was taken away.
func orderOf(next fold.Spec) []fold.Step {
	f := next.Sizes
	if f == nil || len(next.Order) == 0 {
		return next.Order
	}
	order := next.Order
	for _, st := range next.Order {
		for _, name := range st.Bends {
			if flangeNamed(f, name) < 0 && !joggleBend(f, name) {
				order = orderRenamed(order, name, "")
			}
		}
	}
	return order
}

// joggleBend reports whether a bend's name is of one of a flange's joggle.
func joggleBend(f *sizes.Form, name string) bool {
	return slices.ContainsFunc(f.Flanges, func(l sizes.Flange) bool {
		rest, ok := cutWord(name, l.Name)
		return ok && l.Joggle != nil && (rest == " joggle 1" || rest == " joggle 2")
	})
}
