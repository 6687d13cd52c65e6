package session

// This file adds, names and takes away the named sizes of a part by sizes; SetField changes them.

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"dryfold/fold/sizes"
)

// NamedField is the path of a named size's field: "is", its number or formula, "name" or "label".
func NamedField(i int, what string) string { return at("sizes.named", i) + "." + what }

// AddNamed adds a named size. What is wrong stands under NamedField of the index that it would have.
func (s *Session) AddNamed(name, text string, angle bool) error {
	f := s.spec.Sizes
	if f == nil {
		return errNoSizes
	}
	i := len(f.Named)
	x, err := s.readSize(text, angle)
	if err == nil && !x.Given {
		err = errors.New("a named size wants a number, or a formula over others")
	}
	if err != nil {
		return s.refuse(NamedField(i, "is"), text, err)
	}
	form := f.Clone()
	form.Named = append(form.Named, sizes.Named{Name: strings.TrimSpace(name), Is: x, Angle: angle})
	next := s.spec
	next.Sizes = form
	return s.take(NamedField(i, "name"), name, next)
}

// RenameNamed gives a named size another name; the formulas that use it follow.
func (s *Session) RenameNamed(i int, text string) error {
	f := s.spec.Sizes
	if f == nil || i < 0 || i >= len(f.Named) {
		return errNoSizes
	}
	form := f.Clone()
	if err := form.Rename(f.Named[i].Name, strings.TrimSpace(text)); err != nil {
		return s.refuse(NamedField(i, "name"), text, fmt.Errorf("found %s; it needs %s", err.Found, err.Need))
	}
	next := s.spec
	next.Sizes = form
	return s.take(NamedField(i, "name"), text, next)
}

// SetNamedLabel says in plain words what a named size measures.
func (s *Session) SetNamedLabel(i int, text string) error {
	label, err := readName(text)
	if err != nil {
		return s.refuse(NamedField(i, "label"), text, err)
	}
	return s.EditForm(NamedField(i, "label"), func(f *sizes.Form) error {
		if i < 0 || i >= len(f.Named) {
			return errors.New("there is no such size any more")
		}
		f.Named[i].Label = label
		return nil
	})
}

// DeleteNamed takes a named size away that no formula uses; those that do are named.
func (s *Session) DeleteNamed(i int) error {
	return s.EditForm("", func(f *sizes.Form) error {
		if i < 0 || i >= len(f.Named) {
			return errors.New("there is no such size any more")
		}
		name := f.Named[i].Name
		uses := f.Uses(name)
		if len(uses) > 0 {
			var words []string
			for _, u := range uses {
				words = append(words, lower(labelOf(f, u)))
			}
			return fmt.Errorf("%s is used by %s: give them numbers first", name, List(words))
		}
		f.Named = orNil(slices.Delete(f.Named, i, i+1))
		return nil
	})
}

// InUse tells of each named size whether a field of the part hangs on it, by itself or through other named sizes. One
// that nothing uses changes nothing.
func (s *Session) InUse() []bool {
	f := s.spec.Sizes
	if f == nil {
		return nil
	}
	used := make([]bool, len(f.Named))
	uses := make([][]string, len(f.Named))
	for i := range f.Named {
		uses[i] = f.Uses(f.Named[i].Name)
	}
	for more := true; more; {
		more = false
		for i := range used {
			if used[i] {
				continue
			}
			for _, path := range uses[i] {
				list, k, _ := pathParts(path)
				if list != "named" || k >= 0 && k < len(used) && used[k] {
					used[i], more = true, true
					break
				}
			}
		}
	}
	return used
}
