package press

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/ascut"
	"dryfold/fold/cutting"
	"dryfold/wasm/session/ask"
)

// facts are what the column says of a sheet.
func facts(q *ask.PaperQuestion, p *fold.Part, r *fold.Report) (f ask.PaperFacts) {
	switch q.Want {
	case "cutting":
		f.Plan = cutPlan(p, q)
	case "check":
		f.Check = cutCheck(q, p, r)
	}
	return f
}

// cutPlan is how the blank is cut, in words.
func cutPlan(p *fold.Part, q *ask.PaperQuestion) *ask.CutPlan {
	plan := cutting.Make(p, q.Tools)
	out := &ask.CutPlan{Problems: plan.Problems}
	for _, s := range plan.Steps {
		step := ask.CutStep{Number: s.Number, Kind: s.Kind.String(), Do: s.Do, Why: s.Why, Waste: s.Waste, Hold: s.Hold}
		for _, t := range s.Tools {
			step.Tools = append(step.Tools, t.String())
		}
		out.Steps = append(out.Steps, step)
	}
	for i := range plan.Drills {
		d := &plan.Drills[i]
		where := d.Hole
		if where == "" {
			where = fmt.Sprintf("inside corner %d", i+1)
		}
		out.Drills = append(out.Drills, ask.CutDrill{Where: where, Size: d.Size, When: d.When.String(), Why: d.Why})
	}
	return out
}

// cutCheck is what to measure on the cut blank, and what the part's measured values mean.
func cutCheck(q *ask.PaperQuestion, p *fold.Part, r *fold.Report) *ask.CutCheck {
	list := ascut.Look(p, r)
	v := ascut.Judge(p, r, list.Sizes)
	out := &ask.CutCheck{Notes: list.Notes, Word: v.Word, Say: v.Say, Stale: len(v.Stale), Pattern: v.Pattern, Finished: v.Finished}
	for i := range list.Sizes {
		s := list.Sizes[i].In(q.Options.Units)
		x := ask.CheckSize{No: s.No, From: s.From, To: s.To, What: s.What, Want: s.Want, Low: s.Low, High: s.High, Calliper: s.Calliper, Catches: s.Catches,
			Limits: "Low: " + s.LowKind + ", " + s.LowFrom + ". High: " + s.HighKind + ", " + s.HighFrom, Short: does("Each mm short", s.Short), Long: does("Each mm long", s.Long)}
		for _, l := range v.Lines {
			if l.No == s.No {
				x.State, x.Say = l.State, l.Say
			}
		}
		out.Sizes = append(out.Sizes, x)
	}
	for _, t := range v.Trims {
		out.Trims = append(out.Trims, ask.CheckTrim{Edge: t.Edge, Corners: t.Corners, Or: t.Or, By: t.By})
	}
	for _, m := range v.Seams {
		out.Seams = append(out.Seams, ask.CheckSeam{Name: m.Name, Before: m.Before, After: m.After, Gone: m.Gone, Worse: m.Worse})
	}
	return out
}

// does says what becomes of seams for a mm that a size is out; "" for nothing.
func does(begin string, list []ascut.Does) string {
	for i, d := range list {
		way := "closes"
		if d.Opens {
			way = "opens"
		}
		begin += fmt.Sprintf("%s %s %s by %s mm", map[bool]string{true: "", false: ","}[i == 0], d.Seam, way, fold.Trimmed(d.By, 2))
	}
	if len(list) == 0 {
		return ""
	}
	return begin + "."
}
