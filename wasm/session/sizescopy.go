package session

// This file copies a flange of a part by sizes to the opposite side.

import (
	"errors"
	"fmt"
	"slices"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// opposite is the place across from a side of a panel: the panel and its side, "" where there is none. Across from a
// wall's end lies its other end, from its top the top of the wall that stands opposite. sides are the base's.
func (s *Session) opposite(f *sizes.Form, sides []string, on, side string) (string, string) {
	switch side {
	case "start":
		return on, "end"
	case "end":
		return on, "start"
	}
	if on == baseName(f) {
		if n := len(sides); n%2 == 0 {
			if i := slices.Index(sides, side); i >= 0 {
				return on, sides[(i+n/2)%n]
			}
		}
		return "", ""
	}
	chain, p := chainTo(f, on), s.places(f)
	if p.of(on) == floorPlace || len(chain) == 0 || f.Flanges[chain[len(chain)-1]].On != baseName(f) { // a ring of flanges has no end
		return "", ""
	}
	l := &f.Flanges[chain[0]]
	on2, side2 := s.opposite(f, sides, l.On, sideOf(f, l))
	for i := range f.Flanges {
		if o := &f.Flanges[i]; o.Name != on && o.On == on2 && sideOf(f, o) == side2 && o.Hem == nil && p.of(o.Name) == p.of(on) {
			return o.Name, side
		}
	}
	return "", ""
}

// CanCopyOpposite reports whether there is a free side across from a flange.
func (s *Session) CanCopyOpposite(name string) bool {
	f := s.spec.Sizes
	if f == nil {
		return false
	}
	at := flangeNamed(f, name)
	if at < 0 {
		return false
	}
	on, side := s.opposite(f, s.baseSideNames(), f.Flanges[at].On, sideOf(f, &f.Flanges[at]))
	return side != "" && !slices.ContainsFunc(f.Flanges, func(o sizes.Flange) bool { return o.On == on && sideOf(f, &o) == side })
}

// mirrored is a flange as in a mirror that stands square to its bend.
func mirrored(l sizes.Flange) sizes.Flange {
	l.From, l.To = l.To, l.From
	l.LeanStart, l.LeanEnd = l.LeanEnd, l.LeanStart
	if l.HeightEnd.Given {
		l.Height, l.HeightEnd = l.HeightEnd, l.Height
	}
	if n := len(l.Edge); n > 0 {
		// Its points run from start to end: what lies so far from one lies so far from the other.
		first, last := l.Edge[0].X, l.Edge[n-1].X
		l.Edge = turnedBack(l.Edge, func(x sizes.Field) sizes.Field { return plus(plus(first, last, 1), x, -1) })
	}
	if to, ok := map[string]string{"start": "end", "end": "start"}[l.Side]; ok {
		l.Side = to
	}
	return l
}

// turnedBack is a run of points the other way round, with other distances along.
func turnedBack(run []sizes.Point, turn func(sizes.Field) sizes.Field) []sizes.Point {
	n := len(run)
	back := make([]sizes.Point, n)
	for i, q := range run {
		p := sizes.Point{X: turn(q.X), Y: q.Y}
		if next := run[(i+1)%n]; next.Through { // the arc that left this point now ends at it
			p.Through, p.ThX, p.ThY = true, turn(next.ThX), next.ThY
		}
		back[n-1-i] = p
	}
	return back
}

// plus is a + sign*b.
func plus(a, b sizes.Field, sign float64) sizes.Field {
	if a.Formula == "" && b.Formula == "" {
		return sizes.Is(tidy(a.Number + sign*b.Number))
	}
	words := func(f sizes.Field) string {
		if f.Formula != "" {
			return "(" + f.Formula + ")"
		}
		return trimmed(f.Number, 6)
	}
	if sign < 0 {
		return sizes.Of(words(a) + " - " + words(b))
	}
	return sizes.Of(words(a) + " + " + words(b))
}

// mirroredHole is a hole as in a mirror that stands square to the side it is measured from.
func mirroredHole(h sizes.Hole) sizes.Hole {
	h.FromEnd = !h.FromEnd
	minus := func(x sizes.Field) sizes.Field { return plus(sizes.Is(0), x, -1) }
	if h.Turn.Given {
		h.Turn = minus(h.Turn)
	}
	if len(h.Points) > 0 {
		h.Points = turnedBack(h.Points, minus)
	}
	h.Name = ""
	return h
}

// CopyFlangeOpposite copies a flange, with the flanges and holes on it, to the opposite side of what it stands on, as in a
// mirror between them. It gives the copy's index.
func (s *Session) CopyFlangeOpposite(name string) (int, error) {
	f := s.spec.Sizes
	if f == nil {
		return -1, errNoSizes
	}
	at := flangeNamed(f, name)
	if at < 0 {
		return -1, noFlange(f, name)
	}
	top := &f.Flanges[at]
	on, side := s.opposite(f, s.baseSideNames(), top.On, sideOf(f, top))
	if side == "" {
		return -1, fmt.Errorf("there is no side opposite to that of %s", name)
	}
	for i := range f.Flanges {
		if o := &f.Flanges[i]; o.On == on && sideOf(f, o) == side {
			return -1, fmt.Errorf("%s stands on the opposite side already: delete it first", Title(o.Name))
		}
	}
	form := f.Clone()
	taken := func(n string) bool { return panelNamed(form, n) }
	named := map[string]string{}
	from, to := sideOf(f, top), side
	if on != top.On {
		from, to = top.On, on
	}
	var order []string // the copies' bends, by the names that their patterns have
	for k, i := range standing(f, name) {
		l := mirrored(f.Clone().Flanges[i])
		old := l.Name
		if k == 0 {
			l.On, l.Side = on, side
			l.Name = freeName(copyName(l.Name, from, to, top.On), taken)
		} else {
			l.On = named[l.On]
			if rest, ok := cutWord(l.Name, from); ok && on != top.On {
				l.Name = freeName(to+rest, taken)
			} else {
				l.Name = freeName(copyName(l.Name, name, named[name], top.On), taken)
			}
		}
		named[old] = l.Name
		order = append(order, old)
		form.Flanges = append(form.Flanges, l)
	}
	for _, h := range f.Holes {
		if to, ok := named[h.On]; ok {
			h = mirroredHole(h)
			h.On = to
			form.Holes = append(form.Holes, h)
		}
	}
	for _, c := range f.Corners {
		a, okA := named[c.A]
		b, okB := named[c.B]
		if okA && okB {
			c.A, c.B = b, a
			if c.Over != "" {
				c.Over = named[c.Over]
			}
			form.Corners = append(form.Corners, c)
		}
	}
	next := s.spec
	next.Sizes = form
	next.Order = orderCopied(next.Order, named, order)
	if err := s.change(next); err != nil {
		return -1, err
	}
	return len(f.Flanges), nil
}

// copyName is the name with the side's name in it changed to the opposite one's, else with the side after it.
func copyName(name, side, to, on string) string {
	if name == side {
		return to
	}
	if rest, ok := cutWord(name, side); ok {
		return to + rest
	}
	if to == "start" || to == "end" {
		return name
	}
	return name + " " + to
}

func cutWord(name, word string) (rest string, ok bool) {
	if word != "" && len(name) > len(word) && name[:len(word)] == word && name[len(word)] == ' ' {
		return name[len(word):], true
	}
	return "", false
}

// orderCopied puts the copies' bends right after those they were copied from.
func orderCopied(order []fold.Step, named map[string]string, olds []string) []fold.Step {
	var out []fold.Step
	for _, st := range order {
		out = append(out, st)
		for _, old := range olds {
			if st.To == nil && slices.Contains(st.Bends, old) {
				out = append(out, fold.Step{Bends: []string{named[old]}})
			}
		}
	}
	return out
}

// errNoPart is what is said where something is to be measured on a part that is not there.
var errNoPart = errors.New("these sizes make no part yet: put them right first")
