package session

// This file holds what is chosen under Marking out: which sheet stands open, how it is printed, and the question that the
// third program is asked for it.

import (
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/paper"
	"dryfold/wasm/session/ask"
)

// PaperStep is one step from the screen to the metal.
type PaperStep struct{ Key, Name string }

// PaperSteps are the steps, in the order in which one does them. A key is the kind of the step's sheet (paper.Kinds).
var PaperSteps = []PaperStep{{"marking", "Mark out"}}

// Papers are the maker's choices of what is printed. They are kept in the browser.
type Papers struct {
	Step   string
	RuleMM float64 // what the maker's rule shows, mm
	RuleIn float64 // and one in inches
	Paper  string
	Hand   string // which hand the open part is: "left", "right", "" where that isn't said
	Other  bool   // its mirror image is printed
}

// ruleSteps are the rules to choose from, as PaperRules shows them.
var (
	rulesMM = []float64{1, 0.5, 0.1}
	rulesIn = []float64{1.0 / 16, 1.0 / 32, 1.0 / 64, 0.001}
)

// usualPapers are the choices of who has made none.
func usualPapers() Papers {
	return Papers{Step: PaperSteps[0].Key, RuleMM: 0.5, RuleIn: 1.0 / 64, Paper: paper.Papers[0]}
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
		p.Paper = u.Paper
	}
	if p.Hand != "left" && p.Hand != "right" {
		p.Hand = ""
	}
	return p
}

// SetPapers takes choices.
func (s *Session) SetPapers(p Papers) { s.papers = p.sound() }

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

// PaperQuestion asks for sheets of the open part: of one of paper.Kinds, or what else ask.PaperQuestion knows. The report is
// the page's to add.
func (s *Session) PaperQuestion(want string) ask.PaperQuestion {
	q := ask.PaperQuestion{Part: s.Question(), Want: want, Job: paper.Job{Tools: s.bench.Tools}}
	q.Job.Options = paper.Options{Units: s.units, Rule: s.papers.RuleMM, Paper: s.papers.Paper, Hand: s.papers.Hand, Other: s.papers.Other}
	if s.units == fold.Inch {
		q.Job.Rule = s.papers.RuleIn
	}
	return q
}

// Sheet is the kind of sheet that stands over the bench now, "" for none; and a text that changes whenever that sheet would
// come out another.
func (s *Session) Sheet() (kind, key string) {
	if s.word != Marking || s.viewOnly {
		return "", ""
	}
	return s.papers.Step, s.papers.Step + " " + fmt.Sprint(s.serial, s.benchSerial, s.units, s.papers)
}

// FileFor is a name for a file of the open part: its own with an ending, and before that what it is of the part.
func (s *Session) FileFor(what, ending string) string {
	name := strings.TrimSuffix(FileName(s.spec.Name), ".dryfold")
	if what != "" {
		name += "-" + what
	}
	return name + "." + ending
}
