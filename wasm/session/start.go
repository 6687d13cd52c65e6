package session

// This file makes a part of one's own: a tray by tape sizes, shown on the bench
// while its sizes are typed.

import (
	"errors"
	"fmt"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/fold/shape"
)

// Draft is a tray being made up. Part and Report are those of the last sizes that
// made a tray; Bad is the field whose size does not, "" when all is well.
type Draft struct {
	Sizes  shape.PanSizes
	Part   *fold.Part
	Report fold.Report
	Bad    string
	spec   fold.Spec
}

// Draft is the tray being made up, nil if none is.
func (s *Session) Draft() *Draft { return s.draft }

// StartOwn begins a tray of one's own, from sizes that make one, in the units
// shown and of the metal on the bench.
func (s *Session) StartOwn() {
	if s.viewOnly {
		return
	}
	z := shape.PanSizes{
		Name: "My tray", Units: s.units,
		Length: 300, WidthFront: 200, WidthBack: 200, Depth: 50, Outside: true,
		Thickness: 1, Radius: 1, Gap: 0.5, RimWidth: 15, RimRadius: 0.5,
		Metal: metal.Metals[0].Name,
	}
	if s.units == fold.Inch {
		z.Length, z.WidthFront, z.WidthBack, z.Depth = 12, 8, 8, 2
		z.Thickness, z.Radius, z.Gap, z.RimWidth, z.RimRadius = 0.04, 0.04, 0.02, 0.6, 0.02
	}
	s.draft = &Draft{Sizes: z}
	s.word = Sizes
	s.draftTry()
}

// DropOwn gives the draft up.
func (s *Session) DropOwn() {
	s.draft = nil
	s.serial++
}

// TakeOwn makes the draft the open part, half folded; the part before is one undo away.
func (s *Session) TakeOwn() error {
	if s.draft == nil || s.draft.Bad != "" {
		return errors.New("one of the sizes does not make a tray yet")
	}
	s.OpenSpec(s.draft.spec)
	s.word = Bends
	s.SetCard(0, 0.5)
	return nil
}

// draftTry makes the tray of the draft's sizes; where they make none, the last
// good one stays and the field is named.
func (s *Session) draftTry() error {
	d := s.draft
	s.clearDraftErrors()
	spec, err := shape.Pan(d.Sizes)
	if err == nil {
		p := fold.Build(spec)
		if p.Foldable {
			d.spec, d.Part, d.Report, d.Bad = spec, p, p.Sizes(), ""
			s.serial++
			return nil
		}
		err = whyNot(p)
	}
	d.Bad = "depth"
	var se *shape.Error
	if errors.As(err, &se) {
		d.Bad = se.Path
		err = fmt.Errorf("%s can’t be; it wants %s", se.Found, se.Need)
	}
	return s.refuse(DraftField(d.Bad), s.draftText(d.Bad), err)
}

func (s *Session) clearDraftErrors() {
	for k := range s.errors {
		if strings.HasPrefix(k, "own-") {
			delete(s.errors, k)
		}
	}
}

// DraftField is a draft field's key for errors and focus.
func DraftField(path string) string { return "own-" + path }

// draftLength gives the place of a length of the draft, nil for an unknown name.
func (d *Draft) length(path string) *float64 {
	z := &d.Sizes
	switch path {
	case "length":
		return &z.Length
	case "width_front":
		return &z.WidthFront
	case "width_back":
		return &z.WidthBack
	case "depth":
		return &z.Depth
	case "rim_width":
		return &z.RimWidth
	case "rim_radius":
		return &z.RimRadius
	case "thickness":
		return &z.Thickness
	case "radius":
		return &z.Radius
	case "gap":
		return &z.Gap
	}
	return nil
}

func (s *Session) draftText(path string) string {
	switch p := s.draft.length(path); {
	case p != nil:
		return FieldLength(*p*s.draft.Sizes.Units.Scale(), s.units)
	case path == "lean":
		return FieldDegrees(s.draft.Sizes.Lean)
	}
	return ""
}

// DraftText is a draft's field as it is shown.
func (s *Session) DraftText(path string) string { return s.draftText(path) }

// SetDraft reads a typed size of the draft: a length, or "lean" in degrees.
func (s *Session) SetDraft(path, text string) error {
	d := s.draft
	if d == nil {
		return errors.New("no tray is being made up")
	}
	if path == "lean" {
		a, err := ReadAngle(text)
		if err != nil {
			d.Bad = path
			return s.refuse(DraftField(path), text, err)
		}
		d.Sizes.Lean = a
		return s.draftTry()
	}
	at := d.length(path)
	if at == nil {
		return fmt.Errorf("a tray has no size called %s", path)
	}
	v, err := ReadLength(text, s.units)
	if err != nil {
		d.Bad = path
		return s.refuse(DraftField(path), text, err)
	}
	was := *at
	*at = tidy(v / d.Sizes.Units.Scale())
	if path == "width_front" && d.Sizes.WidthBack == was { // one width until told otherwise
		d.Sizes.WidthBack = *at
	}
	return s.draftTry()
}

// ChangeDraft makes a choice of the draft: how it is measured, its rim, its metal.
func (s *Session) ChangeDraft(f func(*shape.PanSizes)) error {
	if s.draft == nil {
		return errors.New("no tray is being made up")
	}
	f(&s.draft.Sizes)
	return s.draftTry()
}

// StartWith puts a ready part by sizes on the bench, by its ID in shape.Starters: in the units shown, finished, to be changed
// at once. The part before is one undo away.
func (s *Session) StartWith(id string) error {
	st, ok := shape.StarterByID(id)
	if !ok {
		return fmt.Errorf("there is no shape %s to begin from", quoted(id))
	}
	s.OpenSpec(st.Make(s.units))
	s.word = Sizes
	s.SetFold(1)
	return nil
}

// CanAddFloor reports whether the open part is a stepped tray whose floor can be bent once more; AddFloor does it.
func (s *Session) CanAddFloor() bool {
	_, ok := shape.AnotherFloor(s.spec)
	return ok
}

// AddFloor bends a stepped tray's floor once more: one step of undo.
func (s *Session) AddFloor() error {
	next, ok := shape.AnotherFloor(s.spec)
	if !ok {
		return errors.New("only a stepped tray’s floor is bent once more so")
	}
	return s.change(next)
}
