package session

// This file holds the changes a user makes to the part: each is one step of undo.
// A change that would make a part that can't be read or folded is refused with
// the reason, and the part stays as it was.

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// change makes next the open part, after the checks every change must pass.
func (s *Session) change(next fold.Spec) error { return s.changeWith(next, s.benchChange(next, false)) }

// changeWith is change, with what it does to the maker's bench.
func (s *Session) changeWith(next fold.Spec, did benchStep) error {
	if s.viewOnly {
		return errViewOnly
	}
	s.EndDrag()
	next.Order = orderOf(next)
	if bytes.Equal(partfile.Write(next), partfile.Write(s.spec)) {
		return nil
	}
	if err := partfile.Check(next); err != nil {
		return fileError(err, next.Sizes)
	}
	b := build(next)
	if s.unmeasure(&next, b.part) {
		b = build(next)
	}
	if s.renameJoins(&next, b.part) {
		b = build(next)
	}
	if len(b.problems) > 0 && len(s.problems) == 0 {
		return &noPart{next.Sizes, b.problems}
	}
	if s.part.Foldable && !b.part.Foldable && len(b.problems) == 0 {
		return whyNot(b.part)
	}
	b.seams = s.seamsAtOnce(next)
	s.remember()
	s.undo[len(s.undo)-1].did = did
	s.applyBench(did)
	s.set(b)
	return nil
}

// remember puts the open part on the undo list.
func (s *Session) remember() {
	s.undo = append(s.undo, past{spec: s.spec})
	if len(s.undo) > maxUndo {
		s.undo = slices.Delete(s.undo, 0, 1)
	}
	s.redo = nil
}

// rememberPart is remember where another part is opened.
func (s *Session) rememberPart() {
	s.remember()
	last := &s.undo[len(s.undo)-1]
	last.other, last.hand = true, s.papers.Hand
}

// whyNot is the first reason for which a part can't be folded.
func whyNot(p *fold.Part) error {
	for _, t := range p.Troubles {
		if t.Severity == fold.Stop {
			return errors.New(strings.TrimSuffix(t.Message, "."))
		}
	}
	return errors.New("The part would not fold")
}

// fileError says in the page's words why a part file can't be taken.
func fileError(err error, form *sizes.Form) error {
	var pe *partfile.Error
	if errors.As(err, &pe) {
		if form != nil && strings.HasPrefix(pe.Path, "sizes") {
			return &noPart{form, []*shape.Problem{{Path: pe.Path, Found: pe.Found, Need: pe.Need}}}
		}
		return fmt.Errorf("%s; %s", pe.Found, pe.Need)
	}
	return err
}

// CanUndo and CanRedo say whether there is a step to take.
func (s *Session) CanUndo() bool { return len(s.undo) > 0 && !s.viewOnly }

// CanRedo reports whether an undone change can be made again.
func (s *Session) CanRedo() bool { return len(s.redo) > 0 && !s.viewOnly }

// Undo takes the last change back.
func (s *Session) Undo() {
	s.EndDrag()
	if s.CanUndo() {
		s.applyBench(s.undo[len(s.undo)-1].did.back())
		s.step(&s.undo, &s.redo)
	}
}

// Redo makes the last undone change again.
func (s *Session) Redo() {
	s.EndDrag()
	if s.CanRedo() {
		s.applyBench(s.redo[len(s.redo)-1].did)
		s.step(&s.redo, &s.undo)
	}
}

func (s *Session) step(from, to *[]past) {
	last := len(*from) - 1
	next := (*from)[last]
	*from = (*from)[:last]
	*to = append(*to, past{s.spec, next.did, next.other, s.papers.Hand})
	if next.other {
		s.newPart()
		s.papers.Hand = next.hand
	}
	if s.strip != nil && s.strip.At >= 0 {
		s.strip = nil // the strip being edited may stand in another place now
	}
	if s.sameButMarks(next.spec) {
		s.setMarks(next.spec)
		return
	}
	b := build(next.spec)
	b.seams = s.seamsAtOnce(next.spec)
	s.set(b)
}

// takeMarks is take for a change of nothing but what was measured on the cut blank or struck out on it: the part stays as it is.
func (s *Session) takeMarks(field, typed string, next fold.Spec) error {
	delete(s.errors, field)
	err := error(nil)
	switch {
	case s.viewOnly:
		err = errViewOnly
	default:
		err = partfile.Check(next)
	}
	if err != nil {
		return s.refuse(field, typed, fileError(err, next.Sizes))
	}
	if reflect.DeepEqual(next, s.spec) {
		return nil
	}
	s.EndDrag()
	s.remember()
	s.setMarks(next)
	return nil
}

// sameButMarks reports whether a part is the open one but for what setMarks sets.
func (s *Session) sameButMarks(next fold.Spec) bool {
	next.AsCut, next.Struck = s.spec.AsCut, s.spec.Struck
	return reflect.DeepEqual(next, s.spec)
}

// setMarks puts what was measured on the cut blank, and lines struck out, on the open part.
func (s *Session) setMarks(next fold.Spec) {
	p := *s.part
	p.Spec.AsCut, p.Spec.Struck = next.AsCut, next.Struck
	s.part, s.spec = &p, next
	s.serial++
}

// seamsAtOnce reports whether a change is one of how seams are closed or of what hand and machine may be out by: the
// seams are as they were, and are shown again at once unless there are many.
func (s *Session) seamsAtOnce(next fold.Spec) bool {
	return s.Measured() && len(s.report.Seams) <= fewSeams &&
		!(reflect.DeepEqual(next.Joins, s.spec.Joins) && reflect.DeepEqual(next.Errors, s.spec.Errors))
}

// fewSeams: so many are measured in about the time of a frame.
const fewSeams = 40

// own gives a length in mm in the part's own units.
func (s *Session) own(mm float64) float64 {
	return math.Round(mm/s.spec.Units.Scale()*1e9) / 1e9
}

// takeBend is take for a change of one bend; of a part by sizes its flange is changed.
func (s *Session) takeBend(field, typed string, bend int, f func(*fold.BendSpec)) error {
	next := s.spec
	if err := s.editBend(&next, bend, f); err != nil {
		return s.refuse(field, typed, err)
	}
	delete(s.errors, field)
	err := s.change(next)
	if err == nil {
		return nil
	}
	s.tellOthers(field, typed, err)
	if at := s.BendFlange(bend); next.Sizes != nil && at >= 0 {
		path := FlangeField(at, "angle")
		if l := &next.Sizes.Flanges[at]; l.Joggle != nil && s.part.Bends[bend].Name != l.Name {
			path = FlangeField(at, "joggle.angle")
		}
		err = s.howFar(path, next, err)
	}
	return s.refuse(field, typed, err)
}

// BendField names a field of a bend: its key for errors and for focus.
func BendField(bend int, what string) string { return fmt.Sprintf("bend-%d-%s", bend, what) }

// take makes a change that was typed in a field, keeping the text if it is refused.
func (s *Session) take(field, typed string, next fold.Spec) error {
	delete(s.errors, field)
	err := s.change(next)
	s.tellOthers(field, typed, err)
	if err != nil {
		return s.refuse(field, typed, err)
	}
	return nil
}

// SetAngle sets a bend's angle from typed degrees.
func (s *Session) SetAngle(bend int, text string) error {
	field := BendField(bend, "angle")
	a, err := ReadAngle(text)
	if err == nil && !(a > 0 && a <= 240) {
		err = fmt.Errorf("%s is no bend angle. From flat, over 0 up to 180, or 240 for a teardrop hem", quoted(text))
	}
	if err == nil {
		for _, step := range s.spec.Order {
			if step.To != nil && slices.Contains(step.Bends, s.part.Bends[bend].Name) && *step.To > a {
				err = fmt.Errorf("the order bends it to %s° on the way; %s° or more would do", Degrees(*step.To), Degrees(*step.To))
			}
		}
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	return s.takeBend(field, text, bend, func(b *fold.BendSpec) { b.Angle = a })
}

// SetRadius sets a bend's inside radius from a typed length.
func (s *Session) SetRadius(bend int, text string) error {
	field := BendField(bend, "radius")
	r, err := ReadLength(text, s.units)
	if err == nil && r < 0 {
		err = fmt.Errorf("%s is no inside radius. 0 or more would do", quoted(text))
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	measured := s.measuredHere()
	return s.reckon(field, text, func(next *fold.Spec) string { return assumedNow(s.giveRadius(next, bend, r, measured)) })
}

// SetWay turns a bend up or down.
func (s *Session) SetWay(bend int, up bool) error {
	return s.takeBend(BendField(bend, "way"), "", bend, func(b *fold.BendSpec) { b.Up = up })
}

// readName checks a name against what part files hold.
func readName(text string) (string, error) {
	name := strings.TrimSpace(text)
	if n := utf8.RuneCountInString(name); n > fold.MaxName {
		return "", fmt.Errorf("that name has %d characters. At most %d would do", n, fold.MaxName)
	}
	return name, nil
}

// SetBendName renames a bend, also in the order.
func (s *Session) SetBendName(bend int, text string) error {
	field := BendField(bend, "name")
	if s.BySizes() {
		return s.renameBend(field, bend, text)
	}
	name, err := readName(text)
	old := s.part.Bends[bend].Name
	for i, b := range s.part.Bends {
		if err == nil && i != bend && b.Name == name {
			err = fmt.Errorf("bend %d is called %s already. Another name would do", i+1, quoted(name))
		}
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	next := s.spec
	next.Bends = slices.Clone(next.Bends)
	next.Bends[bend].Name = name
	if name == "" {
		name = fmt.Sprintf("bend %d", bend+1)
	}
	next.Order = slices.Clone(next.Order)
	for i, step := range next.Order {
		next.Order[i].Bends = slices.Clone(step.Bends)
		for k, b := range step.Bends {
			if b == old {
				next.Order[i].Bends[k] = name
			}
		}
	}
	return s.take(field, text, next)
}

// SetPanelName renames a panel, also where it is the base.
func (s *Session) SetPanelName(panel int, text string) error {
	field := fmt.Sprintf("panel-%d-name", panel)
	if s.BySizes() {
		return s.renamePanel(field, panel, text)
	}
	name, err := readName(text)
	if err == nil && name == "" {
		err = errors.New("a panel wants a name, as left or floor")
	}
	p := s.part.Panels[panel]
	for i, other := range s.part.Panels {
		if err == nil && i != panel && other.Name == name {
			err = fmt.Errorf("another panel is called %s already. Another name would do", quoted(name))
		}
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	next := s.spec
	next.Panels = slices.Clone(next.Panels)
	scale, found := next.Units.Scale(), false
	for i, pn := range next.Panels {
		if !found && p.Region.Contains(pn.At.Mul(scale)) {
			next.Panels[i].Name, found = name, true
		}
	}
	if !found {
		at := p.Label.Mul(1 / scale)
		for k := range at {
			at[k] = math.Round(at[k]*1e6) / 1e6
		}
		next.Panels = append(next.Panels, fold.PanelName{Name: name, At: at})
	}
	if next.Base != "" && next.Base == p.Name {
		next.Base = name
	}
	return s.take(field, text, next)
}

// SetName renames the part.
func (s *Session) SetName(text string) error {
	name, err := readName(text)
	if err != nil {
		return s.refuse("name", text, err)
	}
	next := s.spec
	next.Name = name
	return s.take("name", text, next)
}
