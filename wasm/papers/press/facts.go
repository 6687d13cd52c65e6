package press

import (
	"dryfold/fold"
	"dryfold/fold/ascut"
	"dryfold/fold/cutting"
	"dryfold/fold/paper"
	"dryfold/wasm/session/ask"
)

// cutPlan is how the blank is cut, in words; those of places are the sheet's.
func cutPlan(plan *cutting.Plan, sheet *paper.CutWords) *ask.CutPlan {
	out := &ask.CutPlan{Problems: plan.Problems}
	for i, s := range plan.Steps {
		out.Steps = append(out.Steps, ask.CutStep{Number: s.Number, Kind: s.Kind.String(), Do: s.Do, Why: s.Why, Waste: s.Waste, Hold: s.Hold, Sizes: s.Sizes, Where: sheet.Where[i]})
	}
	for i := range plan.Drills {
		d := &plan.Drills[i]
		w := &sheet.Drills[i]
		out.Drills = append(out.Drills, ask.CutDrill{No: w.No, A: w.A, B: w.B, Where: w.For, Size: w.Drill, First: w.First, When: d.When.String(), Why: d.Why})
	}
	return out
}

// cutCheck is what to measure on the cut blank, and what the part's measured values mean.
func cutCheck(q *ask.PaperQuestion, p *fold.Part, r *fold.Report, list *ascut.List) *ask.CutCheck {
	v := ascut.Judge(p, r, list.Sizes)
	out := &ask.CutCheck{Notes: list.Notes, Word: v.Word, Say: v.Say, Finished: v.Finished}
	for i := range list.Sizes {
		s := list.Sizes[i]
		x := ask.CheckSize{No: s.No, From: s.From, To: s.To, What: s.What, Want: s.Want, Low: s.Low, High: s.High, Calliper: s.Calliper, Catches: s.Catches,
			As:     [3]string{ascut.Length(s.Low, q.Options.Units, s.Step), ascut.Length(s.Want, q.Options.Units, s.Step), ascut.Length(s.High, q.Options.Units, s.Step)},
			Limits: "The limits: " + paper.LimitWords(&s), Short: "Too small: " + paper.DoesWords(s.Short, q.Options.Units), Long: "Too large: " + paper.DoesWords(s.Long, q.Options.Units)}
		for _, l := range v.Lines {
			if l.No == s.No {
				x.State, x.Say = l.State, l.Say
			}
		}
		out.Sizes = append(out.Sizes, x)
	}
	for _, m := range v.Seams {
		out.Seams = append(out.Seams, ask.CheckSeam{Name: m.Name, Before: m.Before, After: m.After, Gone: m.Gone, Worse: m.Worse})
	}
	return out
}
