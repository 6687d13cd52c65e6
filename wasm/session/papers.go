package session

// This file holds what is chosen under Marking out: which sheet stands open, how it is printed, and the question that the
// third program is asked for it.

import (
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/cutfile"
	"dryfold/fold/paper"
	"dryfold/render/scene"
	"dryfold/wasm/session/ask"
)

// PaperStep is one step from the screen to the metal.
type PaperStep struct{ Key, Name string }

// PaperSteps are the steps, in the order in which one does them. But for the last, a key is the kind of the step's
// sheet (paper.Kinds).
var PaperSteps = slices.DeleteFunc([]PaperStep{{"marking", "Mark out"}, {"cutting", "Cut"}, {"check", "Check blank"}, {"cards", "Job cards"}, {"template", "Template"}, {"files", "Files"}},
	func(x PaperStep) bool { return x.Key != "files" && !slices.Contains(paper.Kinds, x.Key) })

// Papers are the maker's choices of what is printed. They are kept in the browser. Lengths in mm.
type Papers struct {
	Step   string
	RuleMM float64 // what the maker's rule shows, mm
	RuleIn float64 // and one in inches
	Paper  string  // of sheets; "": by the units shown, see OnPaper
	Hand   string  // which hand the open part is: "left", "right", "" where that isn't said
	Other  bool    // its mirror image is printed

	Card      bool   // of the steps, Template shows the card model
	OnPaper   string // of a template, likewise
	Roll      float64
	Margin    float64
	Overlap   float64
	Printed   [2]float64 // what the check square of the last print measured, across and down; 0: not measured
	Scale     [2]float64 // what that print was scaled by
	CardThick float64
	Crease    string

	Kerf, GapWide, Notch    float64
	Gaps, Bends, Holes      int // as cutfile has them
	Tangents, Words, Mirror bool

	PicW, PicH        int    // px
	PicView           string // one of scene.Views, "" as on the bench
	PicDark, PicPlain bool
	GIFW, GIFH        int
	AsNow             bool // 3-D as it stands now, not finished
}

// ruleSteps are the rules to choose from, as PaperRules shows them.
var (
	rulesMM = []float64{1, 0.5, 0.1}
	rulesIn = []float64{1.0 / 16, 1.0 / 32, 1.0 / 64, 0.001}
)

// usualPapers are the choices of who has made none.
func usualPapers() Papers {
	return Papers{Step: PaperSteps[0].Key, RuleMM: 0.5, RuleIn: 1.0 / 64, Roll: 610, Margin: 8, Overlap: 10,
		Scale: [2]float64{1, 1}, CardThick: 1.5, Crease: paper.Scored, GapWide: 0.5, Notch: 1, Bends: 1, Words: true, PicW: 1600, PicH: 1200, GIFW: 480, GIFH: 360}
}

// Papers are the choices as they stand.
func (s *Session) Papers() Papers { return s.papers }

// sound is the choices with what no choice can be, as a kept one of another version, taken as usual.
func (p Papers) sound() Papers {
	u := usualPapers()
	if !slices.ContainsFunc(PaperSteps, func(x PaperStep) bool { return x.Key == p.Step }) {
		p.Step = u.Step
	}
	if !slices.Contains(rulesMM, p.RuleMM) {
		p.RuleMM = u.RuleMM
	}
	if !slices.Contains(rulesIn, p.RuleIn) {
		p.RuleIn = u.RuleIn
	}
	if !slices.Contains(paper.Papers, p.Paper) {
		p.Paper = ""
	}
	if p.Hand != "left" && p.Hand != "right" {
		p.Hand = ""
	}
	if !slices.Contains(paper.Papers, p.OnPaper) && p.OnPaper != paper.Roll {
		p.OnPaper = ""
	}
	for _, f := range paperFields {
		if v := *f.of(&p); !(v >= f.least && v <= f.most) {
			*f.of(&p) = *f.of(&u)
		}
	}
	// A scale that no print can have would refuse every template.
	if _, err := (&paper.TemplateOptions{Before: p.Scale}).Correction(); err != nil || p.Scale[0] == 0 || p.Scale[1] == 0 {
		p.Scale, p.Printed = u.Scale, u.Printed
	}
	if p.Crease != paper.Scored && p.Crease != paper.Creased {
		p.Crease = u.Crease
	}
	among := func(v, least, most, usual int) int {
		if v < least || v > most {
			return usual
		}
		return v
	}
	p.Bends, p.Holes = among(p.Bends, 0, int(cutfile.BendsWrong)-1, u.Bends), among(p.Holes, 0, int(cutfile.HolesWrong)-1, u.Holes)
	for _, key := range []string{"gaps", "picw", "pich", "gifw", "gifh"} {
		at, least, most := paperCount(&p, key)
		usual, _, _ := paperCount(&u, key)
		*at = among(*at, least, most, *usual)
	}
	if !slices.Contains(scene.Views, p.PicView) {
		p.PicView = ""
	}
	return p
}

// SetPapers takes choices.
func (s *Session) SetPapers(p Papers) {
	s.papers = p.sound()
	s.allowPapers()
}

// PaperRules are the rules to choose from in the units shown, and the chosen one.
func (s *Session) PaperRules() (list [][2]string, now string) {
	if s.units == fold.Inch {
		for _, v := range rulesIn {
			name := fmt.Sprintf("1/%.0f", 1/v)
			if v < 1.0/64 {
				name = "0.001"
			}
			list = append(list, [2]string{name, name})
			if v == s.papers.RuleIn {
				now = name
			}
		}
		return list, now
	}
	for _, v := range rulesMM {
		name := trimmed(v, 1)
		list = append(list, [2]string{name, name})
		if v == s.papers.RuleMM {
			now = name
		}
	}
	return list, now
}

// SetPaperRule chooses one of PaperRules.
func (s *Session) SetPaperRule(name string) {
	list, _ := s.PaperRules()
	i := slices.IndexFunc(list, func(x [2]string) bool { return x[0] == name })
	switch {
	case i < 0:
	case s.units == fold.Inch:
		s.papers.RuleIn = rulesIn[i]
	default:
		s.papers.RuleMM = rulesMM[i]
	}
}

// OnPaper is the paper of a choice, "" for none made: then the one that is usual where the units shown are.
func (s *Session) OnPaper(chosen string) string {
	switch {
	case chosen != "":
		return chosen
	case s.units == fold.Inch:
		return "Letter"
	}
	return "A4"
}

// PaperQuestion asks for sheets of the open part, of one of paper.Kinds, or for what else ask.PaperQuestion knows. The report
// is the page's to add, and from where the bench is seen.
func (s *Session) PaperQuestion(want, ending string) ask.PaperQuestion {
	p := s.papers
	q := ask.PaperQuestion{Part: s.Question(), Want: want, Ending: ending, Tools: s.bench.Tools, Template: s.templateOptions(p)}
	q.Options = paper.Options{Units: s.units, Rule: p.RuleMM, Paper: s.OnPaper(p.Paper), Hand: p.Hand, Other: p.Other}
	if s.units == fold.Inch {
		q.Options.Rule = p.RuleIn
	}
	switch want {
	case "card":
		m := s.cardOf()
		q.Card = ask.CardQuestion{Thickness: p.CardThick, Crease: p.Crease, Sizes: m.sizes}
		if m.spec.Outline != nil {
			q.Card.Part = ask.WriteQuestion(m.spec)
		}
	case "machine":
		q.Machine = cutfile.Options{Units: s.units, Kerf: p.Kerf, Gaps: p.Gaps, GapWidth: p.GapWide, Bends: cutfile.Bends(p.Bends), Notch: p.Notch,
			Tangents: p.Tangents, Holes: cutfile.Holes(p.Holes), Text: p.Words, Mirror: p.Mirror}
	case "picture":
		q.Picture = ask.PictureQuestion{W: p.PicW, H: p.PicH, View: p.PicView, Dark: p.PicDark, Plain: p.PicPlain, Done: float64(s.open) + s.frac}
	case "run":
		q.Picture = ask.PictureQuestion{W: p.GIFW, H: p.GIFH, View: p.PicView, Dark: p.PicDark}
	case "solid":
		q.Picture.Done = -1
		if p.AsNow {
			q.Picture.Done = float64(s.open) + s.frac
		}
	}
	return q
}

// Sheet is the kind of sheet that stands over the bench now, "" for none; and a text that changes whenever that sheet would
// come out another.
func (s *Session) Sheet() (kind, key string) {
	if s.word != Marking || s.viewOnly {
		return "", ""
	}
	kind = s.papers.Step
	switch {
	case kind == "files":
		return "", ""
	case kind == "template" && s.papers.Card:
		kind = "card"
	}
	p := s.papers
	of := []any{s.serial, s.units, p.Hand, p.Other}
	switch kind {
	case "template", "card":
		o := s.templateOptions(p)
		scale, err := o.Correction()
		of = append(of, s.OnPaper(p.OnPaper), p.Margin, p.Overlap, scale, err)
		if p.OnPaper == paper.Roll {
			of = append(of, p.Roll)
		}
		if kind == "card" {
			of = append(of, p.CardThick, p.Crease)
		}
	default:
		rule := p.RuleMM
		if s.units == fold.Inch {
			rule = p.RuleIn
		}
		of = append(of, s.OnPaper(p.Paper))
		of = append(of, rule)
		if kind == "cutting" {
			of = append(of, s.benchSerial) // with the maker's tools
		}
	}
	return kind, kind + " " + fmt.Sprint(of...)
}

// FileFor is a name for a file of the open part: its own with an ending, and before that what it is of the part.
func (s *Session) FileFor(what, ending string) string {
	name := strings.TrimSuffix(FileName(s.spec.Name), ".dryfold")
	if what != "" {
		name += "-" + what
	}
	return name + "." + ending
}
