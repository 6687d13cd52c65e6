package main

import (
	"flag"
	"fmt"
	"io"
	"strings"

	"dryfold/fold"
	"dryfold/fold/ascut"
)

type measureFlags struct{ json bool }

func measureVerb() *verb {
	return &verb{
		name: "measure", args: "FILE... [-json]",
		what: "says what to measure on the cut blank, and what it means",
		more: `The short list of sizes to measure on the cut blank before the first bend, with how far each may be
out before a seam touches or opens past its limit. Where the part file says what was measured ("as_cut"),
the verdict follows: bend; trim, with which edge and by how much; accept or cut again, with what the part
comes out as; or measure, where not all is measured yet.

Without -json it prints in the file's units. With -json it prints one object a line, a line for each
file: lengths in mm, places on the blank in its own axes.

Exit status: 0 nothing measured is out, or all is to be bent; 1 a part that can't be folded, or any other verdict
than bend where anything was measured; 2 a file that can't be read, or wrong usage.`,
		shows: "dryfold measure tray.dryfold",
		flags: func(f *flag.FlagSet) any {
			o := &measureFlags{}
			f.BoolVar(&o.json, "json", false, "print JSON")
			return o
		},
		run: measures,
	}
}

// measureJSON is what -json prints. Its keys are a promise.
type measureJSON struct {
	Part    string             `json:"part"`
	Sizes   []measureSize      `json:"sizes"`
	Notes   []string           `json:"notes"`
	Own     bool               `json:"own_mirror_image"`
	Verdict *measureVerdict    `json:"verdict"` // null where nothing was measured
	Stale   []measureStaleJSON `json:"stale"`
}

type measureSize struct {
	No         int        `json:"number"`
	What       string     `json:"what"`
	From       [2]float64 `json:"from_mm"`
	To         [2]float64 `json:"to_mm"`
	Want       float64    `json:"want_mm"`
	Low        float64    `json:"low_mm"`
	High       float64    `json:"high_mm"`
	Step       float64    `json:"step_mm"`
	Calliper   bool       `json:"calliper"`
	Catches    []string   `json:"catches"`
	LowSource  string     `json:"low_source"`
	HighSource string     `json:"high_source"`
	Is         *float64   `json:"is_mm"` // null where it was not measured
	State      string     `json:"state"` // ok, large, small, bad, "" not measured
	Say        string     `json:"message"`
}

type measureVerdict struct {
	Word    string        `json:"word"`
	Pattern string        `json:"pattern"`
	Say     []string      `json:"messages"`
	Trims   []measureTrim `json:"trims"`
	Seams   []measureSeam `json:"seams"`
	Before  [3]float64    `json:"finished_mm"`
	After   [3]float64    `json:"finished_as_cut_mm"`
}

type measureTrim struct {
	Size int           `json:"size"`
	Edge string        `json:"edge"`
	By   float64       `json:"by_mm"`
	Line [2][2]float64 `json:"line_mm"`
}

type measureSeam struct {
	Name   string      `json:"name"`
	Before [2]float64  `json:"gap_mm"`
	After  *[2]float64 `json:"gap_as_cut_mm"` // null where the edges no longer meet
	Past   bool        `json:"past_limit"`
}

type measureStaleJSON struct {
	From [2]float64 `json:"from_mm"`
	To   [2]float64 `json:"to_mm"`
	Is   float64    `json:"is_mm"`
}

func measures(c *call) int {
	o := c.opt.(*measureFlags)
	if len(c.args) == 0 {
		return c.usage("no file")
	}
	status := statusOK
	for i, file := range c.args {
		g, wrong := readPart(file)
		if wrong != nil {
			c.fail(*wrong)
			status = statusInput
			continue
		}
		p := fold.Build(g.spec)
		r := g.check(p)
		l := ascut.Look(p, &r)
		v := ascut.Judge(p, &r, l.Sizes)
		if !p.Foldable || len(p.Spec.AsCut) > 0 && v.Word != ascut.Bend {
			status = max(status, statusStop)
		}
		if o.json {
			writeJSON(c.out, measureAsJSON(p, &r, l, v))
			continue
		}
		if i > 0 {
			fmt.Fprintln(c.out)
		}
		writeMeasure(c.out, p, &r, l, v)
	}
	return status
}

func measureAsJSON(p *fold.Part, r *fold.Report, l *ascut.List, v *ascut.Verdict) measureJSON {
	out := measureJSON{Part: r.Part, Sizes: []measureSize{}, Notes: l.Notes, Own: l.Own, Stale: []measureStaleJSON{}}
	for i := range l.Sizes {
		s := &l.Sizes[i]
		m := measureSize{No: s.No, What: s.What, From: s.From, To: s.To, Want: s.Want, Low: s.Low, High: s.High, Step: s.Step, Calliper: s.Calliper,
			Catches: s.Catches, LowSource: withSource(s.LowFrom, s.LowSource), HighSource: withSource(s.HighFrom, s.HighSource)}
		if x := v.Lines[i]; x.State != "" {
			m.State, m.Say = x.State, x.Say
			if x.Is > 0 {
				m.Is = &x.Is
			}
		}
		out.Sizes = append(out.Sizes, m)
	}
	k := p.Spec.Units.Scale()
	for _, s := range v.Stale {
		out.Stale = append(out.Stale, measureStaleJSON{s.From.Mul(k), s.To.Mul(k), s.Is * k})
	}
	if len(p.Spec.AsCut) == 0 {
		return out
	}
	w := &measureVerdict{Word: v.Word, Pattern: v.Pattern, Say: v.Say, Before: v.Finished[0], After: v.Finished[1]}
	if w.Before == [3]float64{} { // nothing is out
		w.Before = r.Finished.Box()
		w.After = w.Before
	}
	for _, t := range v.Trims {
		w.Trims = append(w.Trims, measureTrim{t.Size, t.Edge, t.By, [2][2]float64{t.Ends[0], t.Ends[1]}})
	}
	for _, s := range v.Seams {
		m := measureSeam{Name: s.Name, Before: s.Before, Past: s.Worse}
		if !s.Gone {
			m.After = &s.After
		}
		w.Seams = append(w.Seams, m)
	}
	out.Verdict = w
	return out
}

// writeMeasure prints the list, and the verdict where anything was measured.
func writeMeasure(w io.Writer, p *fold.Part, r *fold.Report, l *ascut.List, v *ascut.Verdict) {
	u := p.Spec.Units
	fmt.Fprintln(w, r.Part)
	if !p.Foldable {
		fmt.Fprintln(w, "It can't be folded, so nothing is to be measured on its blank.")
		writeTroubles(w, r.Troubles, units(u))
		return
	}
	if len(l.Sizes) > 0 {
		t := newTable(w, "\nMeasure on the cut blank, before the first bend, "+u.String(), "", "what", "least", "wanted", "largest", "by", "is", "")
		for i := range l.Sizes {
			s := &l.Sizes[i]
			is, by := "", "rule"
			if s.Calliper {
				by = "calliper"
			}
			x := v.Lines[i]
			if x.Is > 0 {
				is = ascut.Length(x.Is, u, 0)
			}
			t.row(fmt.Sprint(s.No), s.What, ascut.Length(s.Low, u, s.Step), ascut.Length(s.Want, u, 0), ascut.Length(s.High, u, s.Step), by, is, x.State)
		}
		t.Flush()
		fmt.Fprintln(w)
		for i := range l.Sizes {
			s := &l.Sizes[i]
			head := fmt.Sprintf("  %2d  ", s.No)
			text := ""
			if len(s.Catches) > 0 {
				text = "Tells " + strings.Join(s.Catches, ", ") + ". "
			}
			low, high := withSource(s.LowFrom, s.LowSource), withSource(s.HighFrom, s.HighSource)
			if low == high {
				text += "Limits: " + low + "."
			} else {
				text += "Least: " + low + ". Largest: " + high + "."
			}
			hanging(w, head, fold.InUnits(text, u))
		}
	}
	for _, n := range l.Notes {
		fmt.Fprintln(w)
		hanging(w, "", n)
	}
	if len(p.Spec.AsCut) == 0 {
		return
	}
	fmt.Fprintf(w, "\nVerdict: %s\n", v.Word)
	for _, s := range v.Say {
		hanging(w, "  ", fold.InUnits(s, u))
	}
	for _, x := range v.Lines {
		if x.Say != "" && x.State != "ok" {
			hanging(w, fmt.Sprintf("  %2d  ", x.No), x.Say)
		}
	}
}

// withSource puts the source of a limit's figure behind it.
func withSource(from, source string) string {
	if source == "" {
		return from
	}
	return from + ": " + source
}
