package session

// This file tells floors, walls and rims of a part by sizes apart, and puts a rim on all its walls at once.

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// place is what a panel is of a tray.
type place int

const (
	floorPlace place = iota // the base, and what goes on from it, rising little
	wallPlace               // stands on a floor
	rimPlace                // on a wall: a lip or tab, and what stands on that
)

// mostRise is how far a floor may be turned against the one before it, degrees: what is turned more is a wall. No
// source; the starters' floors rise by 14 degrees, and their walls stand at 60 and more.
const mostRise = 45

// places tells what the panels of a form are.
type places struct {
	f *sizes.Form
	v *sizes.Values
}

func (s *Session) places(f *sizes.Form) places {
	v, _ := f.Values(s.spec.Units.Scale())
	return places{f, v}
}

// of is what the panel of a name is.
func (p places) of(name string) place {
	chain := chainTo(p.f, name)
	at := floorPlace
	for k := len(chain) - 1; k >= 0; k-- { // from the base up
		if at == floorPlace && p.rises(&p.f.Flanges[chain[k]]) {
			continue
		}
		at = min(at+1, rimPlace)
	}
	return at
}

// chainTo are the flanges from the one of a name down to the one that stands on the base. A ring of flanges ends where it began.
func chainTo(f *sizes.Form, name string) (chain []int) {
	for at := flangeNamed(f, name); at >= 0 && !slices.Contains(chain, at); at = flangeNamed(f, name) {
		chain = append(chain, at)
		name = f.Flanges[at].On
	}
	return chain
}

// rises reports whether a flange is a floor that goes on, where it stands on one.
func (p places) rises(l *sizes.Flange) bool {
	if l.Hem != nil || !l.Angle.Given {
		return false
	}
	a, err := p.v.Num(l.Angle)
	return err == nil && a < mostRise
}

// RimKind is how the walls' top edges are turned.
type RimKind int

// Rims.
const (
	NoRim   RimKind = iota
	RimOut          // a lip outwards, level
	RimHook         // out, then down
	RimIn           // a lip inwards, level
	RimHem          // folded back on the outside
)

// The widths of a new rim: a lip that fingers can hold, and a hook that holds over a rail (mm, or in for parts in
// inches). Common practice, no source.
const (
	newHook, newHookInch = 8, 0.3125
)

// The named sizes of a rim.
const rimName, hookName = "rim", "hook"

// rimWalls are the walls whose top can carry a rim: straight or sloped, and free but for the flanges of gone.
func (s *Session) rimWalls(f *sizes.Form, gone []string) (walls []int) {
	p := s.places(f)
	for i := range f.Flanges {
		l := &f.Flanges[i]
		if l.Hem != nil || len(l.Edge) > 0 || p.of(l.Name) != wallPlace {
			continue
		}
		free := !slices.ContainsFunc(f.Flanges, func(o sizes.Flange) bool {
			return o.On == l.Name && strings.HasPrefix(sideOf(f, &o), "top") && !slices.Contains(gone, o.Name)
		})
		if free {
			walls = append(walls, i)
		}
	}
	return walls
}

// rimFlanges are the flanges of the rim of all walls, and what kind it is: they are known by their width, which is the named
// size alone.
func (s *Session) rimFlanges(f *sizes.Form) (names []string, kind RimKind) {
	p := s.places(f)
	for i := range f.Flanges {
		l := &f.Flanges[i]
		if l.Height.Formula != rimName || sideOf(f, l) != "top" || p.of(l.On) != wallPlace {
			continue
		}
		names = append(names, l.Name)
		wall := &f.Flanges[flangeNamed(f, l.On)]
		switch {
		case l.Hem != nil:
			kind = RimHem
		case l.Down == wall.Down:
			kind = RimIn
		default:
			kind = max(kind, RimOut)
		}
		for k := range f.Flanges {
			if h := &f.Flanges[k]; h.On == l.Name && h.Height.Formula == hookName {
				names = append(names, h.Name)
				kind = RimHook
			}
		}
	}
	return names, kind
}

// Rim is the rim that all walls were given together, and how many walls there are that could have one.
func (s *Session) Rim() (kind RimKind, walls int) {
	f := s.spec.Sizes
	if f == nil {
		return NoRim, 0
	}
	names, kind := s.rimFlanges(f)
	return kind, len(s.rimWalls(f, names))
}

// RimFree is how many walls have a free top; with a rim on the others, those that were raised since.
func (s *Session) RimFree() int {
	if s.spec.Sizes == nil {
		return 0
	}
	return len(s.rimWalls(s.spec.Sizes, nil))
}

// SetRim gives every wall with a free top the same rim, in place of the rim that they have; NoRim takes that off. The same rim again goes on
// walls that have none yet. It is one step of
// undo. The widths are two named sizes, so that one field changes all. The rim is bent before the walls.
func (s *Session) SetRim(kind RimKind) error {
	f := s.spec.Sizes
	if f == nil {
		return errNoSizes
	}
	old, was := s.rimFlanges(f)
	if kind == was {
		if s.RimFree() == 0 {
			return nil
		}
		old = nil // it stays, and the other walls get it too
	}
	form := f.Clone()
	next := s.spec
	next.Sizes = form
	next.Order = slices.Clone(next.Order)
	s.dropRim(&next, old)
	if kind == NoRim {
		dropRimSizes(f, form)
		return s.change(next)
	}
	if len(next.Order) == 0 { // bent one by one as they stand
		for i := range form.Flanges {
			next.Order = append(next.Order, fold.Step{Bends: []string{form.Flanges[i].Name}})
		}
	}
	walls := s.rimWalls(form, nil)
	if len(walls) == 0 {
		return errors.New("no wall has a free top: raise walls first")
	}
	taken := func(n string) bool { return panelNamed(form, n) }
	rim, hook := float64(newLip), float64(newHook)
	if s.spec.Units == fold.Inch {
		rim, hook = newLipInch, newHookInch
	}
	if err := nameSize(form, rimName, map[bool]string{false: "Rim, wide", true: "Hem, wide"}[kind == RimHem], rim); err != nil {
		return err
	}
	if kind == RimHook {
		if err := nameSize(form, hookName, "Hook, deep", hook); err != nil {
			return err
		}
	}
	first := map[string]string{} // lips and hems by the wall's name
	then := map[string]string{}  // hooks
	for _, at := range walls {
		wall := form.Flanges[at]
		l := sizes.Flange{Name: freeName(wall.Name+" lip", taken), On: wall.Name, Side: "top", Height: sizes.Of(rimName), Along: true, Down: !wall.Down, Angle: wall.Angle}
		switch kind {
		case RimIn:
			l.Down = wall.Down
			if wall.Angle.Given {
				l.Angle = plus(sizes.Is(180), wall.Angle, -1)
			}
		case RimHem:
			l.Name = freeName(wall.Name+" hem", taken)
			l.Along, l.Angle = false, sizes.Field{}
			l.Hem = &sizes.Hem{Clear: sizes.Is(s.spec.Sheet.Thickness)}
		}
		first[wall.Name] = l.Name
		form.Flanges = append(form.Flanges, l)
		if kind == RimHook {
			h := sizes.Flange{Name: freeName(wall.Name+" hook", taken), On: l.Name, Side: "top", Height: sizes.Of(hookName), Along: true, Down: l.Down}
			then[wall.Name] = h.Name
			form.Flanges = append(form.Flanges, h)
		}
	}
	dropRimSizes(f, form)
	next.Order = append(append(alike(next.Order, then), alike(next.Order, first)...), next.Order...)
	return s.change(next)
}

// alike are steps that bend what stands on the walls, together where the walls are bent together, in the same order.
func alike(order []fold.Step, on map[string]string) (out []fold.Step) {
	done := map[string]bool{}
	for _, st := range order {
		var bends []string
		for _, b := range st.Bends {
			if n, ok := on[b]; ok && !done[b] {
				done[b] = true
				bends = append(bends, n)
			}
		}
		if len(bends) > 0 {
			out = append(out, fold.Step{Bends: bends})
		}
	}
	return out
}

// dropRim takes the flanges of a rim off, with what hangs on them.
func (s *Session) dropRim(next *fold.Spec, names []string) {
	f := next.Sizes
	gone := map[string]bool{}
	for _, n := range names {
		for _, i := range standing(f, n) {
			gone[f.Flanges[i].Name] = true
		}
	}
	if len(gone) == 0 {
		return
	}
	takeOff(f, gone)
	for i := range s.spec.Bends {
		if at := s.BendFlange(i); at >= 0 && gone[s.spec.Sizes.Flanges[at].Name] {
			next.Order = orderRenamed(next.Order, s.part.Bends[i].Name, "")
		}
	}
}

// dropRimSizes takes the named sizes of a rim out that were used and are no more.
func dropRimSizes(was, f *sizes.Form) {
	for _, name := range []string{rimName, hookName} {
		if len(was.Uses(name)) > 0 && len(f.Uses(name)) == 0 {
			f.Named = orNil(slices.DeleteFunc(f.Named, func(n sizes.Named) bool { return n.Name == name }))
		}
	}
}

// nameSize adds a named length, or takes the one that there is.
func nameSize(f *sizes.Form, name, label string, is float64) error {
	for i := range f.Named {
		n := &f.Named[i]
		switch {
		case n.Name != name:
		case n.Angle:
			return fmt.Errorf("the named size %s is an angle: give that another name first", name)
		default:
			return nil
		}
	}
	f.Named = append(f.Named, sizes.Named{Name: name, Is: sizes.Is(is), Label: label})
	return nil
}
