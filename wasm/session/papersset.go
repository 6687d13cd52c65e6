package session

// This file takes what is typed and chosen under Marking out, and what the third program tells of the open sheet.

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/paper"
	"dryfold/fold/shape"
	"dryfold/wasm/session/ask"
)

// paperField is one length typed under Marking out: where it stands and which values can be (mm).
type paperField struct {
	of          func(p *Papers) *float64
	least, most float64
	none        bool // 0 stands for none, and is shown as nothing
	what        string
}

// paperFields are the lengths by key. The bounds are those of the rooms that use them.
var paperFields = map[string]paperField{
	"roll":      {func(p *Papers) *float64 { return &p.Roll }, 60, 3000, false, "a roll's width"},
	"margin":    {func(p *Papers) *float64 { return &p.Margin }, 0, 40, false, "a margin"},
	"overlap":   {func(p *Papers) *float64 { return &p.Overlap }, 8, 40, false, "an overlap"},
	"across":    {func(p *Papers) *float64 { return &p.Printed[0] }, 0, 1e6, true, "what the square measured"},
	"down":      {func(p *Papers) *float64 { return &p.Printed[1] }, 0, 1e6, true, "what the square measured"},
	"cardthick": {func(p *Papers) *float64 { return &p.CardThick }, 0.2, 10, false, "a thickness of card"},
	"kerf":      {func(p *Papers) *float64 { return &p.Kerf }, 0, 20, true, "a width of cut"},
	"gapwide":   {func(p *Papers) *float64 { return &p.GapWide }, 0.05, 20, false, "a gap"},
	"notch":     {func(p *Papers) *float64 { return &p.Notch }, 0.2, 20, false, "a notch"},
}

// PaperField names a field under Marking out.
func PaperField(key string) string { return "paper-" + key }

// PaperLength is a length under Marking out as its field shows it.
func (s *Session) PaperLength(key string) string {
	f := paperFields[key]
	v := *f.of(&s.papers)
	if f.none && v == 0 {
		return ""
	}
	return FieldLength(v, s.units)
}

// SetPaperLength takes a typed length. Nothing goes back to what is usual.
func (s *Session) SetPaperLength(key, text string) error {
	f, field := paperFields[key], PaperField(key)
	square := key == "across" || key == "down" // of which the template itself says what can be
	next := s.papers
	usual := usualPapers()
	v := *f.of(&usual)
	if !blank(text) {
		var err error
		v, err = ReadLength(text, s.units)
		if err == nil && !(v >= f.least && v <= f.most) && !square {
			err = fmt.Errorf("%s won’t do for %s. It takes %s mm to %s mm", quoted(text), f.what, trimmed(f.least, 2), trimmed(f.most, 0))
		}
		if err != nil {
			return s.refuse(field, text, err)
		}
	}
	*f.of(&next) = v
	if square {
		o := s.templateOptions(next)
		if _, err := o.Correction(); err != nil {
			return s.refuse(field, text, errors.New(plainField(err)))
		}
	}
	delete(s.errors, field)
	s.SetPapers(next)
	return nil
}

// plainField is an option's error without the option's own name, which stands beside it.
func plainField(err error) string {
	var e *paper.FieldError
	if errors.As(err, &e) {
		return e.Found + " won’t do. It takes " + e.Need
	}
	return err.Error()
}

// SetPaperCount takes a typed whole number: "gaps" from 0 to 20, a picture's sides ("picw", "pich", "gifw", "gifh") in pixels.
func (s *Session) SetPaperCount(key, text string) error {
	at, least, most := paperCount(&s.papers, key)
	v, err := ReadPlain(text)
	if blank(text) {
		u := usualPapers()
		usual, _, _ := paperCount(&u, key)
		v, err = float64(*usual), nil
	}
	if err == nil && (v != math.Trunc(v) || v < float64(least) || v > float64(most)) {
		err = fmt.Errorf("%s won’t do. Type a whole number from %d to %d", quoted(text), least, most)
	}
	if err != nil {
		return s.refuse(PaperField(key), text, err)
	}
	delete(s.errors, PaperField(key))
	*at = int(v)
	s.allowPapers()
	return nil
}

// PaperCount is one of SetPaperCount's numbers as its field shows it.
func (s *Session) PaperCount(key string) string {
	at, _, _ := paperCount(&s.papers, key)
	return fmt.Sprint(*at)
}

func paperCount(p *Papers, key string) (at *int, least, most int) {
	switch key {
	case "gaps":
		return &p.Gaps, 0, 20
	case "picw":
		return &p.PicW, 100, 4000
	case "pich":
		return &p.PicH, 100, 4000
	case "gifw":
		return &p.GIFW, 120, 1000
	}
	return &p.GIFH, 120, 1000
}

// Scaled is by how much a template printed now is scaled, across and down, to correct the printer.
func (s *Session) Scaled() [2]float64 {
	o := s.templateOptions(s.papers)
	c, err := o.Correction()
	if err != nil {
		return [2]float64{1, 1}
	}
	return [2]float64{c[0], c[1]}
}

// TemplatePrinted notes that a template was printed: what its check square measures is then by the scale that it was printed with.
func (s *Session) TemplatePrinted() {
	s.papers.Scale, s.papers.Printed = s.Scaled(), [2]float64{}
}

// Unscaled begins anew without a correction.
func (s *Session) Unscaled() {
	s.papers.Scale, s.papers.Printed = [2]float64{1, 1}, [2]float64{}
	delete(s.errors, PaperField("across"))
	delete(s.errors, PaperField("down"))
}

// templateOptions are the choices for a template.
func (s *Session) templateOptions(p Papers) paper.TemplateOptions {
	o := paper.TemplateOptions{Units: s.units, Paper: s.OnPaper(p.OnPaper), Roll: p.Roll, Margin: &p.Margin, Overlap: &p.Overlap, Before: p.Scale, Hand: p.Hand, Other: p.Other}
	for k, v := range p.Printed {
		o.Printed[k] = v / s.units.Scale()
	}
	return o
}

// SheetFacts are what is told of the sheet that stands open: of the part before its last change until its own come.
func (s *Session) SheetFacts() *ask.PaperFacts { return &s.sheetFacts }

// SetSheetFacts takes what the third program told of the sheet that stands open; "" where it could not be drawn.
func (s *Session) SetSheetFacts(text string) { s.sheetFacts = ask.ReadFacts(text) }

// newPart forgets what holds of the part before alone: which hand it was, and what was told of its sheet.
func (s *Session) newPart() {
	s.papers.Hand, s.papers.Other = "", false
	s.sheetFacts = ask.PaperFacts{}
}

// CutField names the field of a size measured on the cut blank.
func CutField(no int) string { return fmt.Sprintf("cut-%d", no) }

// CutIs is what was measured of a size on the cut blank, as its field shows it; "" where nothing was.
func (s *Session) CutIs(c *ask.CheckSize) string {
	if i := s.cutAt(c); i >= 0 {
		return FieldLength(s.spec.AsCut[i].Is*s.spec.Units.Scale(), s.units)
	}
	return ""
}

// sameCut is how near the points of a measured value lie to those of its size (mm): they were written from them.
const sameCut = 0.01

func (s *Session) cutAt(c *ask.CheckSize) int {
	k := s.spec.Units.Scale()
	near := func(own, at geom.Vec2) bool { return own.Mul(k).Sub(at).Len() < sameCut }
	return slices.IndexFunc(s.spec.AsCut, func(m fold.CutSize) bool { return near(m.From, c.From) && near(m.To, c.To) })
}

// SetCut takes what was measured of a size on the cut blank; nothing takes it back.
func (s *Session) SetCut(c *ask.CheckSize, text string) error {
	field := CutField(c.No)
	next := s.spec
	next.AsCut = slices.Clone(next.AsCut)
	i := s.cutAt(c)
	if blank(text) {
		if i >= 0 {
			next.AsCut = slices.Delete(next.AsCut, i, i+1)
		}
		return s.takeMarks(field, text, next)
	}
	v, err := ReadLength(text, s.units)
	if err == nil && !(v > 0) {
		err = fmt.Errorf("%s is no length that can be measured. It should be about %s mm", quoted(text), trimmed(c.Want, 1))
	}
	if err == nil && (v > 30*c.Want || v < c.Want/30) {
		err = fmt.Errorf("%s can’t be: it should be about %s mm. Is it the right line, and the right unit", quoted(text), trimmed(c.Want, 1))
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	k := 1 / s.spec.Units.Scale()
	m := fold.CutSize{From: c.From.Mul(k), To: c.To.Mul(k), Is: s.own(v)}
	if i >= 0 {
		next.AsCut[i] = m
	} else {
		next.AsCut = append(next.AsCut, m)
	}
	return s.takeMarks(field, text, next)
}

// ForgetCut drops all that was measured on the cut blank.
func (s *Session) ForgetCut() error {
	next := s.spec
	next.AsCut = nil
	return s.takeMarks(CutField(1), "", next)
}

// Strike strikes out a line that was scribed by mistake, right across the blank's box at a distance from datum edge A or B, typed.
func (s *Session) Strike(from, text string) error {
	field := "strike"
	v, err := ReadLength(text, s.units)
	box := s.part.Blank.Box
	size := box.Size()
	axis := 0
	if from == "B" {
		axis = 1
	}
	if err == nil && !(v >= 0 && v <= size[axis]) {
		err = fmt.Errorf("%s lies off the blank, which reaches from 0 to %s mm there", quoted(text), trimmed(size[axis], 1))
	}
	if err != nil {
		return s.refuse(field, text, err)
	}
	a, b := box.Min, box.Max
	a[axis], b[axis] = box.Min[axis]+v, box.Min[axis]+v
	k := 1 / s.spec.Units.Scale()
	next := s.spec
	next.Struck = append(slices.Clone(next.Struck), fold.StruckLine{Line: [2]geom.Vec2{a.Mul(k), b.Mul(k)}})
	return s.takeMarks(field, "", next)
}

// Struck names the lines that are struck out: "120.5 mm from A".
func (s *Session) Struck() []string {
	var out []string
	k, box := s.spec.Units.Scale(), s.part.Blank.Box
	for _, l := range s.spec.Struck {
		a, b := l.Line[0].Mul(k).Sub(box.Min), l.Line[1].Mul(k).Sub(box.Min)
		size := func(mm float64) string { return Size(mm, s.units) + " " + s.units.String() }
		switch {
		case math.Abs(a[0]-b[0]) < sameCut:
			out = append(out, size(a[0])+" from A")
		case math.Abs(a[1]-b[1]) < sameCut:
			out = append(out, size(a[1])+" from B")
		default:
			out = append(out, fmt.Sprintf("from %s, %s to %s, %s", size(a[0]), size(a[1]), size(b[0]), size(b[1])))
		}
	}
	return out
}

// Unstrike takes back the i-th struck line.
func (s *Session) Unstrike(i int) error {
	if i < 0 || i >= len(s.spec.Struck) {
		return errors.New("there is no such line")
	}
	next := s.spec
	next.Struck = slices.Delete(slices.Clone(next.Struck), i, i+1)
	return s.takeMarks("strike", "", next)
}

// cardModel is the open part in card.
type cardModel struct {
	of     *fold.Part
	thick  float64
	crease string
	spec   fold.Spec // by its blank; no outline where the form can't be made in card
	sizes  []paper.CardSize
}

// CardSizes are the sizes that may change when a card model is trimmed in its place.
func (s *Session) CardSizes() []paper.CardSize { return s.cardOf().sizes }

func (s *Session) cardOf() *cardModel {
	m, p := &s.card, s.papers
	if m.of != s.part || m.thick != p.CardThick || m.crease != p.Crease {
		*m = cardModel{of: s.part, thick: p.CardThick, crease: p.Crease}
		whole := *s.part
		whole.Spec = s.spec // with its form, which tells the sizes
		m.sizes = paper.CardSizes(&whole)
		if s.BySizes() {
			if made, problems := shape.Make(paper.CardSpec(s.spec, p.CardThick, p.Crease)); len(problems) == 0 {
				m.spec = made.Part.Spec
				m.spec.Sizes = nil
			}
		}
		for i := range m.sizes {
			m.sizes[i].Changed = m.sizes[i].Changed && m.spec.Outline == nil
		}
	}
	return m
}

// CardField names the field of a size of the card model.
func CardField(i int) string { return fmt.Sprintf("card-%d", i) }

// SetCardSize takes what a size of the card model is as it was trimmed, or by how much it was changed, and puts it in the
// part's own sizes.
func (s *Session) SetCardSize(i int, text string) error {
	field := CardField(i)
	list := s.CardSizes()
	if i < 0 || i >= len(list) || blank(text) {
		delete(s.errors, field)
		return nil
	}
	c := list[i]
	switch {
	case c.Path == "":
		return s.refuse(field, text, errors.New("this part is given by its blank: change it there by hand"))
	case c.Formula != "":
		return s.refuse(field, text, fmt.Errorf("this size is worked out by %s and changes with that", c.Formula))
	}
	v, err := ReadLength(text, s.units)
	if err != nil {
		return s.refuse(field, text, err)
	}
	name := c.Label
	if to := c.Back(v); to > 2*c.Is || to < c.Is/2 {
		return s.refuse(field, text, fmt.Errorf("%s mm is far from %s mm, and a card is trimmed by little. To make it so all the same, change the size itself under Sizes", trimmed(to, 1), trimmed(c.Is, 1)))
	}
	if err := s.SetField(c.Path, FieldLength(c.Back(v), s.units)); err != nil {
		delete(s.errors, c.Path)
		return s.refuse(field, text, err)
	}
	delete(s.errors, field)
	if w := s.Told(c.Path); w == "" {
		s.tell(field, fmt.Sprintf("%s is now %s in the part’s sizes.", name, Size(c.Back(v), s.units)+" "+s.units.String()))
	}
	return nil
}

// HasPaperField reports whether a field under Marking out has this name.
func (s *Session) HasPaperField(field string) bool {
	_, ok := paperFields[field]
	return ok || field == "gaps"
}

// RefusePaper puts what the third program refused of a choice at its field.
func (s *Session) RefusePaper(field, words string) {
	typed := ""
	if _, ok := paperFields[field]; ok {
		typed = s.PaperLength(field)
	} else {
		typed = s.PaperCount(field)
	}
	s.errors[PaperField(field)] = FieldError{typed, fold.InUnits(strings.TrimSuffix(words, "."), s.units) + "."}
	s.paperRefused = append(s.paperRefused, PaperField(field))
}

// allowPapers takes back what the third program refused: with another choice it may take it.
func (s *Session) allowPapers() {
	for _, field := range s.paperRefused {
		delete(s.errors, field)
	}
	s.paperRefused = nil
}
