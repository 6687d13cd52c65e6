package session

// This file opens parts and writes them: files, links, and what the browser keeps
// between visits.

import (
	"fmt"
	"strings"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/render/scene"
	"dryfold/wasm/session/ask"
)

// Open puts a part on the bench, half way through its order. The part before is
// one undo away. Nothing changes if the bytes are no part file.
func (s *Session) Open(data []byte) error {
	spec, err := partfile.Read(data)
	if err != nil {
		return err
	}
	s.OpenSpec(spec)
	return nil
}

// OpenSpec is Open for a part at hand.
func (s *Session) OpenSpec(spec fold.Spec) {
	s.EndDrag()
	if !s.viewOnly {
		s.rememberPart()
	}
	s.strip, s.viewOnly, s.metal = nil, false, metalState{}
	s.newPart()
	s.set(build(spec))
	s.SetUnits(spec.Units)
	s.halfway()
}

// OpenLink shows a shared part, finished and view only. The part before stays
// where it was: TakeCopy puts it one undo away.
func (s *Session) OpenLink(fragment string) error {
	spec, err := partfile.Unpack(strings.TrimPrefix(fragment, "#"))
	if err != nil {
		return err
	}
	s.EndDrag()
	if !s.viewOnly {
		s.rememberPart()
	}
	s.strip, s.viewOnly = nil, true
	s.newPart()
	s.set(build(spec))
	s.SetUnits(spec.Units)
	s.sel = scene.Select{}
	s.SetFold(1)
	return nil
}

// TakeCopy turns a shared part into one's own, to be changed. The part that was
// open before is one undo away.
func (s *Session) TakeCopy() {
	s.viewOnly = false
	s.word = Sizes
}

// Link is the part for the part of an address behind #, without the #.
func (s *Session) Link() (string, error) { return partfile.Pack(s.spec) }

// Save gives the part file and a name for it.
func (s *Session) Save() (name string, data []byte) {
	return FileName(s.spec.Name), partfile.Write(s.spec)
}

// FileName is a part's name as a file's: letters, digits and hyphens.
func FileName(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 60 {
			break
		}
	}
	if base := strings.Trim(b.String(), "-"); base != "" {
		return base + ".dryfold"
	}
	return "part.dryfold"
}

// kept is what the browser keeps between visits.
type kept struct {
	Part  string  `json:"part"` // the part file's text
	Word  Word    `json:"word"`
	Card  int     `json:"card"`
	Frac  float64 `json:"frac"`
	Inch  bool    `json:"inch"`
	Undo  string  `json:"undo,omitempty"` // the part one undo away
	Stamp string  `json:"stamp,omitempty"`

	Blank bool       `json:"blank,omitempty"` // a changed number keeps the blank
	Strip *StripForm `json:"strip,omitempty"` // a test bend being typed
	Calc  *Calc      `json:"calc,omitempty"`

	Papers *Papers `json:"papers,omitempty"`
}

// Keep gives the text that Restore opens again: the part, the place, the units
// and the last undo. Stamp is shown again by Restore, as the time of saving.
func (s *Session) Keep(stamp string) string {
	k := kept{Part: string(partfile.Write(s.spec)), Word: s.word, Card: s.open, Frac: s.frac, Inch: s.units == fold.Inch, Stamp: stamp}
	k.Blank = s.metal.keepBlank
	if n := len(s.undo); n > 0 {
		k.Undo = string(partfile.Write(s.undo[n-1].spec))
	}
	k.Strip, k.Calc, k.Papers = s.Strip(), s.Calc(), &s.papers
	return ask.Write(k)
}

// Place tells apart what Keep would give: two equal places keep the same.
type Place struct {
	serial, card int
	word         Word
	frac         float64
	units        fold.Units
	keepBlank    bool
	strip, calc  string
	papers       Papers
}

// Place is where the session stands now.
func (s *Session) Place() Place {
	p := Place{serial: s.serial, card: s.open, word: s.word, frac: s.frac, units: s.units, keepBlank: s.metal.keepBlank, papers: s.papers}
	if f := s.strip; f != nil {
		p.strip = fmt.Sprint(f.At, f.Inside, f.Calliper, strings.Join(f.Texts, "\n"))
	}
	if f := s.calc; f != nil {
		p.calc = fmt.Sprint(f.Open, f.Between, f.Inside, f.By, "\n", f.Metal, "\n", strings.Join(f.Texts, "\n"))
	}
	return p
}

// Restore opens what Keep gave, also what earlier versions did: what they kept besides is passed over. Nothing
// changes where it can't be read.
func (s *Session) Restore(text string) (stamp string, err error) {
	var k kept
	if err := ask.Read(text, &k); err != nil {
		return "", err
	}
	spec, err := partfile.Read([]byte(k.Part))
	if err != nil {
		return "", err
	}
	s.undo, s.redo = nil, nil
	if before, err := partfile.Read([]byte(k.Undo)); err == nil && k.Undo != "" {
		s.undo = append(s.undo, past{spec: before, other: before.Name != spec.Name})
	}
	s.strip, s.viewOnly = nil, false
	s.newPart()
	s.set(build(spec))
	s.units = fold.MM
	if k.Inch {
		s.units = fold.Inch
	}
	s.sel = scene.Select{}
	s.SetWord(k.Word)
	s.SetCard(k.Card, k.Frac)
	s.metal.keepBlank = k.Blank
	if f := k.Strip; f != nil && len(f.Texts) == len(StripFields) && f.At < len(spec.Tests) {
		s.strip = f
	}
	if f := k.Calc; f != nil && len(f.Texts) == len(CalcFields) {
		s.calc = f
	}
	if k.Papers != nil {
		s.papers = k.Papers.sound()
		o := s.templateOptions(s.papers)
		if _, err := o.Correction(); err != nil {
			s.Unscaled()
		}
	}
	return k.Stamp, nil
}
