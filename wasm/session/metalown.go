package session

// This file holds the metals that the maker describes: a form whose figures are read
// and checked when it is saved, and what the part then keeps of them.

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
)

// MetalForm is a metal being described, as typed. Fields that stay empty are taken from
// the metal it is like.
type MetalForm struct {
	Was     string // the name of the metal being changed, "" for a new one
	Own     bool   // Was is one of the maker's own
	Name    string
	Like    string // a metal of the list, "" for none
	Density string // kg/m3
	YieldLo string // MPa
	YieldHi string
	Modulus string // GPa
	LeastRT string // least inside radius over thickness
	K       string
	Note    string // where the figures come from
}

// MetalForm is the form that is open, nil where none is.
func (s *Session) MetalForm() *MetalForm { return s.metal.form }

// OpenMetal opens the form for a metal of that name, the maker's or the list's; "" for a new one.
func (s *Session) OpenMetal(name string) {
	if s.viewOnly {
		return
	}
	s.dropMetalErrors()
	f := &MetalForm{}
	if m, ok := metal.ByName(name); ok {
		f.Was, f.Name, f.Like = m.Name, m.Name, m.Name
	} else if name != "" {
		f.Name = name
	} else if m, ok := s.TheMetal(); ok && !m.Own {
		f.Like = m.Name
	}
	if i := s.ownMetal(name); i >= 0 {
		o := s.spec.Metals[i]
		*f = MetalForm{Was: o.Name, Own: true, Name: o.Name, Like: o.Like, Density: figure(o.Density), YieldLo: figure(o.Yield[0]), YieldHi: figure(o.Yield[1]),
			Modulus: figure(o.Modulus), Note: o.Note}
		if o.LeastRT != nil {
			f.LeastRT = trimmed(*o.LeastRT, 4)
		}
		if o.K != nil {
			f.K = trimmed(*o.K, 4)
		}
	}
	s.metal.form = f
}

// figure writes a figure for a field, nothing for one that is not given.
func figure(v float64) string {
	if v == 0 {
		return ""
	}
	return trimmed(v, 3)
}

// ownMetal is the index of the part's own metal of a name, -1 where there is none.
func (s *Session) ownMetal(name string) int { return ownNamed(s.spec.Metals, name) }

// IsOwnMetal reports whether a name is that of one of the part's own metals.
func (s *Session) IsOwnMetal(name string) bool { return s.ownMetal(name) >= 0 }

// DropMetal closes the form.
func (s *Session) DropMetal() {
	s.metal.form = nil
	s.dropMetalErrors()
}

func (s *Session) dropMetalErrors() {
	for k := range s.errors {
		if strings.HasPrefix(k, "metal-") {
			delete(s.errors, k)
		}
	}
}

// MetalField is the key of one of the form's fields, for errors and focus.
func MetalField(what string) string { return "metal-" + what }

// SetMetalForm takes what was typed in a field of the form, and says at once what is wrong with it.
func (s *Session) SetMetalForm(what, text string) error {
	f := s.metal.form
	if f == nil {
		return nil
	}
	at := f.at(what)
	if at == nil {
		return fmt.Errorf("a metal has no figure called %s", what)
	}
	*at = strings.TrimSpace(text)
	s.dropMetalErrors()
	_, bad := f.read()
	if e, is := bad[what]; is {
		return s.refuse(MetalField(what), text, e)
	}
	return nil
}

func (f *MetalForm) at(what string) *string {
	switch what {
	case "name":
		return &f.Name
	case "like":
		return &f.Like
	case "density":
		return &f.Density
	case "yield-lo":
		return &f.YieldLo
	case "yield-hi":
		return &f.YieldHi
	case "modulus":
		return &f.Modulus
	case "least-rt":
		return &f.LeastRT
	case "k":
		return &f.K
	case "note":
		return &f.Note
	}
	return nil
}

// What a metal's figures may be, as in part files: beyond these a figure was typed in another unit.
const (
	leastDensity, mostDensity = 100, 30_000 // kg/m3
	leastModulus, mostModulus = 1, 1000     // GPa
	leastYield, mostYield     = 1, 5000     // MPa
	mostLeastRT               = 50
)

// scaled is a unit's suffix, in lower case, with what a figure in it is multiplied by.
type scaled struct {
	suffix string
	by     float64
}

// What figures of metals may be written in besides kg/m3, MPa and GPa.
var (
	densityUnits = []scaled{{"kg/m³", 1}, {"kg/m3", 1}, {"g/cm³", 1000}, {"g/cm3", 1000}, {"lb/in³", 27679.904710}, {"lb/in3", 27679.904710}}
	stressUnits  = []scaled{{"mpa", 1}, {"n/mm²", 1}, {"n/mm2", 1}, {"ksi", 6.894757}, {"psi", 0.006894757}}
	modulusUnits = []scaled{{"gpa", 1}, {"mpa", 0.001}, {"msi", 6.894757}, {"ksi", 0.006894757}}
)

// readFigure reads a figure that may be left out (0) and must lie in lo..hi otherwise.
func readFigure(text, what string, units []scaled, lo, hi float64, unit string) (float64, error) {
	if blank(text) {
		return 0, nil
	}
	t, by := strings.ToLower(strings.TrimSpace(text)), 1.0
	for _, u := range units {
		if rest, ok := strings.CutSuffix(t, u.suffix); ok {
			t, by = strings.TrimSpace(rest), u.by
			break
		}
	}
	v, ok := readNumber(t)
	if v *= by; !ok || !(v >= lo && v <= hi) {
		return 0, fmt.Errorf("%s is no %s. %g to %g%s would do, or nothing", quoted(text), what, lo, hi, unit)
	}
	return tidy(v), nil
}

// read makes the metal of what was typed, with what is wrong by field.
func (f *MetalForm) read() (metal.Own, map[string]error) {
	bad := map[string]error{}
	note := func(what string, err error) {
		if err != nil {
			bad[what] = err
		}
	}
	var o metal.Own
	var err error
	o.Name, err = readName(f.Name)
	if err == nil && o.Name == "" {
		err = errors.New("a metal wants a name, as Corten or the alloy’s number")
	}
	note("name", err)
	if f.Like != "" {
		m, ok := metal.ByName(f.Like)
		if !ok {
			note("like", fmt.Errorf("%s is not in the list. One of the list would do, or none", quoted(f.Like)))
		}
		o.Like = m.Name
	}
	o.Density, err = readFigure(f.Density, "density of a metal", densityUnits, leastDensity, mostDensity, " kg/m³")
	note("density", err)
	o.Modulus, err = readFigure(f.Modulus, "modulus", modulusUnits, leastModulus, mostModulus, " GPa")
	note("modulus", err)
	for i, t := range []string{f.YieldLo, f.YieldHi} {
		o.Yield[i], err = readFigure(t, "yield strength", stressUnits, leastYield, mostYield, " MPa")
		note([]string{"yield-lo", "yield-hi"}[i], err)
	}
	switch lo, hi := o.Yield[0], o.Yield[1]; {
	case lo == 0:
		o.Yield[0] = hi
	case hi == 0:
		o.Yield[1] = lo
	case lo > hi && bad["yield-lo"] == nil && bad["yield-hi"] == nil:
		note("yield-hi", fmt.Errorf("the yield strength goes from %g down to %g. The least first", lo, hi))
	}
	if !blank(f.LeastRT) {
		v, err := readFigure(f.LeastRT, "radius over thickness", nil, 0, mostLeastRT, "")
		note("least-rt", err)
		o.LeastRT = &v
	}
	if !blank(f.K) {
		v, err := readFigure(f.K, "K factor", nil, 0, fold.MaxK, "")
		note("k", err)
		o.K = &v
	}
	o.Note, err = readName(f.Note)
	note("note", err)
	return o, bad
}

// SaveMetal puts the form's metal into the part and makes the part of it, as one step
// of undo. Where a field is wrong nothing changes and the field says what would do.
func (s *Session) SaveMetal() error {
	f := s.metal.form
	if f == nil {
		return nil
	}
	if s.viewOnly {
		return errViewOnly
	}
	s.dropMetalErrors()
	o, bad := f.read()
	was := -1
	if f.Own {
		was = s.ownMetal(f.Was)
	}
	if i := s.ownMetal(o.Name); bad["name"] == nil && i >= 0 && i != was {
		bad["name"] = fmt.Errorf("another of your metals is called %s already. Another name would do", quoted(o.Name))
	}
	var first error
	for _, what := range []string{"name", "like", "density", "yield-lo", "yield-hi", "modulus", "least-rt", "k", "note"} {
		if e := bad[what]; e != nil {
			s.refuse(MetalField(what), *f.at(what), e)
			if first == nil {
				first = e
			}
		}
	}
	if first != nil {
		return first
	}
	err := s.reckon(MetalField("name"), f.Name, func(next *fold.Spec) string {
		if was < 0 {
			next.Metals = append(next.Metals, o)
		} else {
			next.Metals[was] = o
			for i, t := range next.Tests { // its test bends go with it
				if strings.EqualFold(strings.TrimSpace(t.Metal), strings.TrimSpace(f.Was)) {
					next.Tests[i].Metal = o.Name
				}
			}
		}
		next.Sheet.Metal = o.Name
		if f.Own && strings.EqualFold(f.Was, s.spec.Sheet.Metal) { // by another name
			return ""
		}
		return s.otherSheet(next)
	})
	if err == nil {
		s.metal.form = nil
		s.told.field = "metal" // the form's fields are gone
	}
	return err
}

// RemoveMetal takes one of the maker's own metals out of the part; the sheet becomes
// what the metal was like.
func (s *Session) RemoveMetal(name string) error {
	i := s.ownMetal(name)
	if i < 0 {
		return nil
	}
	like := s.spec.Metals[i].Like
	err := s.reckon("metal", name, func(next *fold.Spec) string {
		next.Metals = slices.Delete(next.Metals, i, i+1)
		if strings.EqualFold(strings.TrimSpace(next.Sheet.Metal), strings.TrimSpace(name)) {
			next.Sheet.Metal = like
		}
		return s.otherSheet(next)
	})
	if err == nil {
		s.metal.form = nil
	}
	return err
}
