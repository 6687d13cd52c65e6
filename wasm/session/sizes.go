package session

// This file holds the part by finished sizes: what is made of its sizes form, what
// is wrong with it, and the one way in which every change of the form goes.
// sizesfield.go holds its fields, sizesflange.go its flanges, sizescorner.go its corners,
// sizeshole.go its holes, sizesbase.go its base, namedsizes.go its named sizes, sizesbend.go what
// other columns change of it, sizesrim.go the rim of all walls, howfar.go how far a refused size may go, sizesdrag.go the dragging.

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// bySizes is what the session knows of an open part by sizes beside its Spec.
type bySizes struct {
	made     *shape.Made      // nil where there is none
	problems []*shape.Problem // why the form makes no part
	drag     *drag
	facts    formFacts
	others   []string // fields at which a refused change of another field is told
}

// BySizes reports whether the open part is given by its finished sizes.
func (s *Session) BySizes() bool { return s.spec.Sizes != nil }

// Form is the open part's sizes form, nil for a part given by its blank. It is not to be changed.
func (s *Session) Form() *sizes.Form { return s.spec.Sizes }

// Made is what the sizes form makes; nil for a part given by its blank, and where the form makes no part.
func (s *Session) Made() *shape.Made { return s.made }

// Problems are what is wrong with a form that makes no part, nil where it makes one. Only a
// file or link that is opened comes to this: a change of a good part is refused instead. Each
// stands as an Error at its path too.
func (s *Session) Problems() []*shape.Problem { return s.problems }

// Frozen is the open part by its blank alone, as the second program and the printed sheets take it.
func (s *Session) Frozen() fold.Spec {
	spec := s.spec
	spec.Sizes = nil
	return spec
}

// Freeze makes the open part one that is given by its blank. Its sizes are one undo away.
func (s *Session) Freeze() error {
	if !s.BySizes() {
		return errors.New("This part is given by its blank already")
	}
	if s.made == nil {
		return errors.New("These sizes make no part yet: put them right first")
	}
	if err := s.change(s.Frozen()); err != nil {
		return err
	}
	s.SetFold(1) // as it stood
	return nil
}

// built is a Spec with what is made of it.
type built struct {
	spec     fold.Spec
	part     *fold.Part
	made     *shape.Made
	problems []*shape.Problem
	seams    bool // they are to be measured at once
}

// build makes the blank of a Spec by sizes, and the part. Where the sizes make none, the part is one
// without a blank.
func build(spec fold.Spec) built {
	if spec.Sizes == nil {
		return built{spec: spec, part: fold.Build(spec)}
	}
	made, problems := shape.Make(spec)
	if len(problems) > 0 {
		spec.Outline, spec.Cutouts, spec.Holes, spec.Bends = nil, nil, nil, nil
		spec.Panels, spec.Base, spec.Seams = nil, "", nil
		return built{spec: spec, part: fold.Build(spec), problems: problems}
	}
	return built{spec: made.Spec, part: made.Part, made: &made}
}

// laidOut is next with the finished sizes of the open part: made by its sizes, or laid out anew.
func (s *Session) laidOut(next fold.Spec) (fold.Spec, error) {
	if next.Sizes != nil {
		return next, nil
	}
	return s.part.Redevelop(next)
}

// noPart is why a form makes no part.
type noPart struct {
	form     *sizes.Form
	problems []*shape.Problem
}

// Error is the first problem, with the name of the field; lengths in mm.
func (e *noPart) Error() string { return problemWords(e.form, e.problems[0], "") }

// problemWords say a problem in a sentence without its full stop; the field is named unless it is at.
func problemWords(f *sizes.Form, p *shape.Problem, at string) string {
	words := mmWords(bothUnits("found " + p.Found + "; it needs " + p.Need))
	if p.Path == at {
		return words
	}
	label := labelOf(f, p.Path)
	if label == "" {
		label = "The sizes"
	}
	return label + ": " + words
}

// mmWords turns the inches of a problem's message into mm, as all messages are kept: see fold.InUnits.
func mmWords(text string) string {
	const unit = " in"
	var out strings.Builder
	for {
		before, after, found := strings.Cut(text, unit)
		if !found {
			out.WriteString(text)
			return out.String()
		}
		start := len(before)
		for start > 0 && (before[start-1] >= '0' && before[start-1] <= '9' || before[start-1] == '.') {
			start--
		}
		v, err := strconv.ParseFloat(before[start:], 64)
		if err != nil || !endsLength(after) {
			out.WriteString(before + unit)
		} else {
			out.WriteString(before[:start] + trimmed(v*inch, 4) + " mm")
		}
		text = after
	}
}

// bothUnits gives both ends of a range their unit: "from 1 to 5 mm" becomes "from 1 mm to 5 mm".
func bothUnits(text string) string {
	var out strings.Builder
	for {
		before, after, found := strings.Cut(text, "from ")
		out.WriteString(before)
		if !found {
			return out.String()
		}
		out.WriteString("from ")
		text = after
		a, rest, ok := strings.Cut(after, " to ")
		words := strings.SplitN(rest, " ", 3)
		if _, err := strconv.ParseFloat(a, 64); !ok || err != nil || len(words) < 2 {
			continue
		}
		unit := strings.TrimRight(words[1], ",.;:")
		if _, err := strconv.ParseFloat(words[0], 64); err == nil && (unit == "mm" || unit == "in") {
			out.WriteString(a + " " + unit)
			text = after[len(a):]
		}
	}
}

// endsLength reports whether the unit before this text was one: " in the corner" tells where.
func endsLength(after string) bool {
	if after == "" || strings.IndexByte(",;.:)", after[0]) >= 0 {
		return true
	}
	for _, word := range []string{" or", " of", " and", " to", " would", " over", " under", " more", " less", " at"} {
		if strings.HasPrefix(after, word) {
			return true
		}
	}
	return false
}

// asFieldTells is an error as it stands beside a field: a problem of that very field without its name.
func asFieldTells(err error, field string) error {
	var e *noPart
	if !errors.As(err, &e) {
		return err
	}
	for _, p := range e.problems {
		if p.Path == field {
			return errors.New(problemWords(e.form, p, field))
		}
	}
	return err
}

// tellOthers stands a refused change's problems at the other fields that have them, in place of those of the one before.
func (s *Session) tellOthers(field, typed string, err error) {
	for _, k := range s.others {
		delete(s.errors, k)
	}
	s.others = nil
	var e *noPart
	if !errors.As(err, &e) || s.spec.Sizes == nil {
		return
	}
	cause := labelOf(e.form, field)
	if cause == "" || blank(typed) {
		return
	}
	for _, p := range e.problems {
		if _, there := s.errors[p.Path]; there {
			continue
		}
		if f, ok := s.SizeField(p.Path); ok && p.Path != field {
			s.others = append(s.others, p.Path)
			s.errors[p.Path] = FieldError{f.Text, fold.InUnits(fmt.Sprintf("with %s %s: %s", lower(cause), strings.TrimSpace(typed), problemWords(e.form, p, p.Path)), s.units) + "."}
		}
	}
}

// noteSizes adds to the report what is told of the sizes: why they make no part, or what they do to it; of a part by its
// blank what is wrong with that.
func (s *Session) noteSizes() {
	r := &s.report
	if len(s.problems) > 0 {
		r.Troubles = nil
		for _, p := range s.problems {
			r.AddTrouble(fold.Trouble{Severity: fold.Stop, Rule: "sizes", Message: problemWords(s.spec.Sizes, p, "") + "."})
			if f, ok := s.SizeField(p.Path); ok {
				s.errors[p.Path] = FieldError{f.Text, fold.InUnits(problemWords(s.spec.Sizes, p, p.Path), s.units) + "."}
			}
		}
	}
	switch {
	case s.made != nil:
		s.made.Tell(r)
	case len(s.problems) == 0:
		for _, t := range shape.BlankTroubles(shape.Made{}, s.part) {
			r.AddTrouble(t)
		}
	}
}

// EditForm changes the sizes form by f, which is given a copy of it: one step of undo. What is wrong stands
// as an Error under field, "" for none; the form stays then as it was.
func (s *Session) EditForm(field string, f func(*sizes.Form) error) error {
	if !s.BySizes() {
		return errNoSizes
	}
	form := s.spec.Sizes.Clone()
	next := s.spec
	next.Sizes = form
	delete(s.errors, field)
	err := f(form)
	if err == nil {
		err = s.change(next)
	}
	if err != nil && field != "" {
		return s.refuse(field, "", err)
	}
	return err
}

var errNoSizes = errors.New("This part is given by its blank, not by its sizes")
