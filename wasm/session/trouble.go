package session

// This file holds the troubles as advice, worst first, and takes the session to
// the place and moment of one.

import (
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/render/scene"
	"dryfold/wasm/session/ask"
)

// Advice is one trouble as the head of the column tells it.
type Advice struct {
	Severity string // stop, watch, note
	Message  string
	Repair   *ask.Repair // nil where none was found
	More     string      // what else is said, for a second look; "" for nothing
	Cuts     []string    // of a clash: what cut back by how much frees it, the least first
	Field    string      // path of the size that is to be put right, "" for none
	index    int
}

// Advice lists the troubles of the part shown: stops, then watches, then notes,
// each in the report's order.
func (s *Session) Advice() []Advice {
	var out []Advice
	for _, sev := range []string{"stop", "watch", "note"} {
		for i, t := range s.Report().Troubles {
			if t.Severity != sev {
				continue
			}
			a := Advice{Severity: sev, Message: fold.InUnits(t.Message, s.units), index: i}
			if k := slices.IndexFunc(s.report.Seams, func(x fold.SeamReport) bool { return x.Name == t.Where.Seam }); k >= 0 {
				a.Message = seamWords(&t, &s.report.Seams[k], s.units)
			}
			if t.Rule == "seam-spread" { // what it says of the worst seam stands in that seam's row too
				if head, rest, ok := strings.Cut(a.Message, ". "); ok {
					a.Message, a.More = head+".", rest
				}
			}
			if i < len(s.problems) {
				a.Field = s.problems[i].Path
			}
			if c := s.clashOf(i); c != nil {
				swing := c.Swing - 1
				a.Cuts = s.CutWords(c)
				for k, r := range s.repairs {
					if r.Swing == swing {
						a.Repair = &s.repairs[k]
					}
				}
			}
			out = append(out, a)
		}
	}
	return out
}

// clashOf is the clash that the report's trouble at an index speaks of, nil where it speaks of none.
func (s *Session) clashOf(i int) *fold.ClashReport {
	if r := s.Report(); r.Troubles[i].Rule == "clash" {
		return r.ClashOf(i)
	}
	return nil
}

// GoTo takes word, card and selection to a piece of advice and says which view
// shows it best, "" for the one there is.
func (s *Session) GoTo(a Advice) (view string) {
	r := s.Report()
	if a.index < 0 || a.index >= len(r.Troubles) {
		return ""
	}
	t := r.Troubles[a.index]
	p := s.Part()
	w := t.Where
	if c := s.clashOf(a.index); c != nil {
		s.SetWord(Bends)
		s.SetCard(c.Swing-1, c.Clash.Fraction)
		return "home"
	}
	switch {
	case w.Seam != "":
		s.SetWord(Seams)
		i := slices.IndexFunc(r.Seams, func(x fold.SeamReport) bool { return x.Name == w.Seam })
		s.Select(scene.Select{Kind: scene.Seam, Index: i})
		return "home"
	case w.Bend != "":
		i := slices.IndexFunc(p.Bends, func(x fold.Bend) bool { return x.Name == w.Bend })
		s.SetWord(Bends)
		for k, sw := range p.Swings {
			if slices.Contains(sw.Bends, i) {
				s.SetCard(k, 0)
				if t.Rule == "close-pass" && k < len(r.Swings) && r.Swings[k].Room != nil { // where they are nearest
					s.SetCard(k, sw.Fraction(0, geom.Degrees(r.Swings[k].Room.Angle)))
				}
			}
		}
		s.Select(scene.Select{Kind: scene.Bend, Index: i})
	case w.Panel != "":
		i := slices.IndexFunc(p.Panels, func(x fold.Panel) bool { return x.Name == w.Panel })
		s.SetWord(Sizes)
		if t.Rule == "panels-overlap" {
			s.SetFold(1)
		}
		s.Select(scene.Select{Kind: scene.Panel, Index: i})
	case w.Hole != "":
		s.SetWord(Sizes)
		s.Select(s.holeNamed(w.Hole))
		return "above"
	default:
		s.SetWord(Sizes)
		return "above"
	}
	return "home"
}

// holeNamed finds a hole or cutout by the name that troubles give it.
func (s *Session) holeNamed(name string) scene.Select {
	p := s.Part()
	for i := range p.Spec.Holes {
		if name == HoleName(i) {
			return scene.Select{Kind: scene.Hole, Index: i}
		}
	}
	for i := range p.Spec.Cutouts {
		if name == CutoutName(i) {
			return scene.Select{Kind: scene.Cutout, Index: i}
		}
	}
	return scene.Select{}
}
