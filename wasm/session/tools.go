package session

// This file holds the maker's tools for cutting, which are the bench's, and whether the open
// part's blank can be cut with them.

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// cutting is what was found of a part's blank with the tools of the bench.
type cutting struct {
	of    *fold.Part
	bench int // of benchSerial
	cuts  []shape.Cut
}

// Tools are the maker's own, lengths in mm; what was not said is 0.
func (s *Session) Tools() sizes.Tools { return s.bench.Tools }

// Cuts are the places of the open part's blank that are to be cut, and what cuts each.
func (s *Session) Cuts() []shape.Cut {
	if c := &s.cutting; c.of != s.part || c.bench != s.benchSerial {
		*c = cutting{s.part, s.benchSerial, shape.CheckCut(s.part, s.bench.Tools)}
	}
	return s.cutting.cuts
}

// Uncuttable are the places that the tools can't cut or that want attention, as advice in the units shown.
func (s *Session) Uncuttable() []Advice {
	var out []Advice
	for _, t := range shape.CutTroubles(s.Cuts()) {
		out = append(out, Advice{Severity: t.Severity.String(), Message: fold.InUnits(t.Message, s.units), index: -1})
	}
	return out
}

// MakeCuttable changes the reliefs and drilled holes of a part by sizes to what the tools make: one step of undo. It
// says what was changed, with the gaps before and after.
func (s *Session) MakeCuttable() (said []string, err error) {
	return s.MakeCuttableInSteps(func() bool { return true })
}

// MakeCuttableInSteps is MakeCuttable where the page is to be of use meanwhile: going is asked between the parts that are tried; no
// ends it, and so does another change of the part.
func (s *Session) MakeCuttableInSteps(going func() bool) (said []string, err error) {
	if !s.BySizes() {
		return nil, errNoSizes
	}
	serial, stopped := s.serial, false
	next, changes := shape.PracticalInSteps(s.spec, s.bench.Tools, func() bool {
		stopped = !going() || s.serial != serial
		return !stopped
	})
	if stopped {
		return nil, errors.New("the search was stopped; the part is as it was")
	}
	if len(changes) == 0 {
		return nil, errors.New("there is nothing that a change of a relief or of a drilled hole would mend")
	}
	if err := s.change(next); err != nil {
		return nil, err
	}
	for _, c := range changes {
		said = append(said, fold.InUnits(c.Words, s.units))
	}
	return said, nil
}

// ToolField is the key of a tool's field for Error and focus: of a figure by sizes.ToolLine's Key, or "drills".
func ToolField(key string) string { return "tool-" + key }

// ToolText is what the maker said of a tool, in the units shown; "" where nothing was said.
func (s *Session) ToolText(key string) string {
	t := s.bench.Tools
	if key == "drills" {
		var words []string
		for _, d := range t.Drills {
			words = append(words, FieldLength(d, s.units))
		}
		return strings.Join(words, ", ")
	}
	for _, l := range t.Lines() {
		switch {
		case l.Key != key || !l.Said:
		case l.Angle:
			return FieldDegrees(l.Value)
		default:
			return FieldLength(l.Value, s.units)
		}
	}
	return ""
}

// SetTool takes what was typed of a tool; nothing takes back what was said. "drills" are diameters with commas
// between them, each in the units shown or with its own.
func (s *Session) SetTool(key, text string) error {
	field := ToolField(key)
	next := s.bench.Tools
	var err error
	if key == "drills" {
		next.Drills, err = s.readDrills(text)
	} else {
		v, ok := 0.0, false
		switch {
		case blank(text):
		case key == "least_notch":
			v, err = ReadAngle(text)
		default:
			v, err = ReadLength(text, s.units)
		}
		if err == nil && v == 0 && !blank(text) {
			err = fmt.Errorf("%s is no tool. Leave the field empty where you have none", quoted(text))
		}
		if next, ok = next.Set(key, v); !ok && err == nil {
			err = errors.New("there is no such tool")
		}
	}
	if err == nil {
		if e := next.Check(); e != nil {
			err = fmt.Errorf("found %s; it needs %s", e.Found, e.Need)
		}
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	s.setTools(field, next)
	return nil
}

// readDrills reads diameters with commas, semicolons or new lines between them.
func (s *Session) readDrills(text string) ([]float64, error) {
	var out []float64
	for _, t := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == ',' || r == '\n' }) {
		if blank(t) {
			continue
		}
		d, err := ReadLength(t, s.units)
		if err == nil && !(d > 0) {
			err = fmt.Errorf("%s is no drill. Write diameters with commas between them, as 2, 2.5, 3", quoted(t))
		}
		if err != nil {
			return nil, err
		}
		out = append(out, d)
	}
	slices.Sort(out)
	return slices.Compact(out), nil
}

// SetSaw says whether there is a saw on the bench; SetSnips the same for snips.
func (s *Session) SetSaw(on bool) {
	t := s.bench.Tools
	t.NoSaw = !on
	s.setTools(ToolField("no_saw"), t)
}

// SetSnips says whether there are snips on the bench.
func (s *Session) SetSnips(on bool) {
	t := s.bench.Tools
	t.NoSnips = !on
	s.setTools(ToolField("no_snips"), t)
}

func (s *Session) setTools(field string, t sizes.Tools) {
	delete(s.errors, field)
	s.bench.Tools = t
	s.benchSerial++
}
