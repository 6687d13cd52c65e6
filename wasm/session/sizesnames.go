package session

// This file holds what the sizes form calls things: the base, its sides, flanges
// and their sides, holes; and what names a flange.

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// baseName is the base panel's name.
func baseName(f *sizes.Form) string {
	if f.Base.Name != "" {
		return f.Base.Name
	}
	return "floor"
}

// baseSides is how many sides a base has.
func baseSides(b *sizes.Base) int {
	switch {
	case len(b.Points) > 0:
		return len(b.Points)
	case b.Measured != nil && b.Measured.Way == sizes.ByStations:
		return max(4, 2*len(b.Measured.Stations))
	case b.Measured != nil:
		return len(b.Measured.Sides)
	}
	return 4
}

// sideName is the name of the side of a base with n sides, counted from 0.
func sideName(b *sizes.Base, n, i int) string {
	if i < len(b.Sides) && b.Sides[i] != "" {
		return b.Sides[i]
	}
	if n == 4 && i < 4 {
		return [4]string{"front", "right", "back", "left"}[i]
	}
	return "side " + strconv.Itoa(i+1)
}

// baseSideNames are the sides of the open part's base, as they are made: stations may make any number of sides.
func (s *Session) baseSideNames() []string {
	if s.made != nil {
		return s.made.Sides
	}
	b := &s.spec.Sizes.Base
	var out []string
	n := baseSides(b)
	for i := range n {
		out = append(out, sideName(b, n, i))
	}
	return out
}

// flangeNamed is the index of the flange of a name, -1 for none.
func flangeNamed(f *sizes.Form, name string) int {
	return slices.IndexFunc(f.Flanges, func(l sizes.Flange) bool { return l.Name == name })
}

// panelNamed reports whether the base or a flange has the name.
func panelNamed(f *sizes.Form, name string) bool {
	return baseName(f) == name || flangeNamed(f, name) >= 0
}

// sideOf is a flange's side as the form means it: "" is "top".
func sideOf(f *sizes.Form, l *sizes.Flange) string {
	if l.Side == "" && l.On != baseName(f) {
		return "top"
	}
	return l.Side
}

// freeName is the name, or the name with the first number that makes it free.
func freeName(name string, taken func(string) bool) string {
	name = strings.TrimSpace(name)
	if !taken(name) {
		return name
	}
	for i := 2; ; i++ {
		if n := fmt.Sprintf("%s %d", name, i); !taken(n) {
			return n
		}
	}
}

// holeCalled is a hole's name, or what it is and its number.
func holeCalled(f *sizes.Form, i int) string {
	h := f.Holes[i]
	if h.Name != "" {
		return h.Name
	}
	return [...]string{"hole", "slot", "window", "cutout"}[min(max(int(h.Shape), 0), 3)] + " " + strconv.Itoa(i+1)
}

// renameIn gives a base or flange another name in a form, and everything that names it.
func renameIn(f *sizes.Form, old, name string) {
	to := func(s *string) {
		if *s == old {
			*s = name
		}
	}
	if baseName(f) == old {
		f.Base.Name = name
	}
	for i := range f.Flanges {
		to(&f.Flanges[i].Name)
		to(&f.Flanges[i].On)
	}
	for i := range f.Corners {
		c := &f.Corners[i]
		to(&c.A)
		to(&c.B)
		to(&c.Over)
	}
	for i := range f.Holes {
		to(&f.Holes[i].On)
	}
}

// orderRenamed is an order in which a bend has another name; with "" it is taken out.
func orderRenamed(order []fold.Step, old, name string) []fold.Step {
	var out []fold.Step
	for _, st := range order {
		st.Bends = slices.Clone(st.Bends)
		for k := len(st.Bends) - 1; k >= 0; k-- {
			switch {
			case st.Bends[k] != old:
			case name == "":
				st.Bends = slices.Delete(st.Bends, k, k+1)
			default:
				st.Bends[k] = name
			}
		}
		if len(st.Bends) > 0 {
			out = append(out, st)
		}
	}
	return out
}

// standing are the flanges that stand on one, directly or on each other, itself first: their
// indices in the form's order of finding. A circle of flanges ends where it began.
func standing(f *sizes.Form, name string) []int {
	at := flangeNamed(f, name)
	if at < 0 {
		return nil
	}
	out := []int{at}
	for k := 0; k < len(out); k++ {
		on := f.Flanges[out[k]].Name
		for i, l := range f.Flanges {
			if l.On == on && !slices.Contains(out, i) {
				out = append(out, i)
			}
		}
	}
	return out
}
