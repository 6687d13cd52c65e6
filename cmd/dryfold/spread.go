package main

import (
	"flag"
	"fmt"
	"io"
	"math"
	"strings"

	"dryfold/fold"
	"dryfold/fold/spread"
)

type spreadFlags struct {
	json    bool
	samples int
	seed    int64
}

func spreadVerb() *verb {
	return &verb{
		name: "spread", args: "FILE... [-json] [-samples N] [-seed N]",
		what: "says what errors of hand and machine make of a part",
		more: fmt.Sprintf(`Each bend's angle and place, the sheet's thickness, K and each cut edge are drawn at random within
what they may be out by; the part is folded with them and measured, thousands of times. The
errors are the part's own where its file says them, else usual ones; each is told with its source.

Under 5 %%, 50 %% and 95 %% stand the figures that so many of 100 parts stay under. The same seed gives
the same figures on every machine. With %d samples those of 5 and 95 %% are sure to about a hundredth of
the width between them.

Without -json it prints tables in the file's units. With -json it prints one object a line, a line for
each file: lengths in mm, angles in degrees.

Exit status: 0 done, 1 a part that can't be folded, 2 a file that can't be read, or wrong usage.`, spread.CommandSamples),
		shows: "dryfold spread tray.dryfold",
		flags: func(f *flag.FlagSet) any {
			o := &spreadFlags{}
			f.BoolVar(&o.json, "json", false, "print JSON")
			f.IntVar(&o.samples, "samples", spread.CommandSamples, fmt.Sprintf("the `number` of parts to fold, up to %d; fewer are taken of very large ones", spread.MaxSamples))
			f.Int64Var(&o.seed, "seed", 0, "the `number` that the draws start from")
			return o
		},
		run: spreads,
	}
}

// spreadJSON is what -json prints. Its keys are a promise.
type spreadJSON struct {
	Part   string             `json:"part"`
	Spread *fold.SpreadReport `json:"spread"` // null where the part can't be folded
	Seams  []fold.SeamReport  `json:"seams"`
}

func spreads(c *call) int {
	o := c.opt.(*spreadFlags)
	if len(c.args) == 0 {
		return c.usage("no file")
	}
	if o.samples < 1 || o.samples > spread.MaxSamples {
		return c.refuse(flagProblem("samples", fmt.Sprint(o.samples), fmt.Sprintf("a number from 1 to %d", spread.MaxSamples)))
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
		r := p.Quick()
		if !spread.Add(p, &r, spread.Options{Samples: o.samples, Seed: o.seed}) {
			status = max(status, statusStop)
		}
		if o.json {
			writeJSON(c.out, spreadJSON{r.Part, r.Spread, r.Seams})
			continue
		}
		if i > 0 {
			fmt.Fprintln(c.out)
		}
		writeSpread(c.out, p, r)
	}
	return status
}

// writeSpread prints a part's spread to read.
func writeSpread(w io.Writer, p *fold.Part, r fold.Report) {
	u := units(p.Spec.Units)
	s := r.Spread
	fmt.Fprintln(w, r.Part)
	if s == nil {
		fmt.Fprintln(w, "It can't be folded, so nothing can be said of its spread.")
		writeTroubles(w, r.Troubles, u)
		return
	}
	fmt.Fprintf(w, "%d parts folded by chance, seed %d\n", s.Samples, s.Seed)
	t := newTable(w, "\nErrors of hand and machine: 95 of 100 stay within", "", "plus and minus", "from")
	for _, e := range s.Errors {
		t.row(e.Name, errorRange(e, u), errorFrom(e))
	}
	t.Flush()

	const places = 4
	if len(r.Seams) > 0 {
		t := newTable(w, "\nGaps of the seams, "+p.Spec.Units.String(), "", "", "as drawn", "5 %", "50 %", "95 %", "made by")
		for i := range r.Seams {
			x := &r.Seams[i]
			if x.Spread == nil {
				continue
			}
			ends := p.Ends(x)
			name := x.Name
			row := func(where string, v fold.Spread) {
				t.row(name, where, u.fine(v.Exact), u.fine(v.Low), u.fine(v.Mid), u.fine(v.High), shares(v.Shares, places))
				name = ""
			}
			row(ends[0], x.Spread.Along[0].Spread)
			row(ends[1], x.Spread.Along[len(x.Spread.Along)-1].Spread)
			row("least", x.Spread.Least)
			row("widest", x.Spread.Widest)
		}
		t.Flush()
		for i := range r.Seams {
			if x := r.Seams[i].Spread; x != nil && x.Watch != "" {
				hanging(w, "  "+r.Seams[i].Name+": ", fold.InUnits(x.Watch, fold.Units(u)))
			}
		}
	}
	if len(s.Holes) > 0 {
		t := newTable(w, "\nHoles on different panels, "+p.Spec.Units.String(), "", "", "as drawn", "5 %", "50 %", "95 %", "made by")
		for _, h := range s.Holes {
			name := h.A + ", " + h.B
			row := func(what string, v fold.Spread) {
				t.row(name, what, u.fine(v.Exact), u.fine(v.Low), u.fine(v.Mid), u.fine(v.High), shares(v.Shares, places))
				name = ""
			}
			if h.Offset != nil {
				row("out of line by", *h.Offset)
			}
			row("centres apart", h.Distance)
		}
		t.Flush()
	}
	t = newTable(w, "\nFinished sizes, "+p.Spec.Units.String(), "", "as drawn", "5 %", "50 %", "95 %", "made by")
	for k, v := range s.Sizes {
		t.row(sizeNames[k], u.fine(v.Exact), u.fine(v.Low), u.fine(v.Mid), u.fine(v.High), shares(v.Shares, places))
	}
	t.Flush()
	if why := larger(s); why != "" {
		hanging(w, "  ", why)
	}
	if s.Watch != "" {
		fmt.Fprintln(w)
		hanging(w, "", fold.InUnits(s.Watch, fold.Units(u)))
	}
	fmt.Fprintln(w)
	hanging(w, "", "Made by: how much of what a figure varies by each error makes. Together: what no error makes by itself, such as the widest of two ends, where now the one and now the other counts.")
}

var sizeNames = [3]string{"along x", "along y", "high"}

// larger says why sizes come out larger than drawn; "" where none does by more than a rule shows and chance in the samples makes: a median is
// sure to 0.38 of the width from 5 to 95 % through the root of the samples, and four times that is asked for.
func larger(s *fold.SpreadReport) string {
	const rule = 0.05 // mm
	var names []string
	for k, v := range s.Sizes {
		if d := v.Mid - v.Exact; d > rule && d > 4*0.38*(v.High-v.Low)/math.Sqrt(float64(s.Samples)) {
			names = append(names, sizeNames[k])
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("Larger than drawn at 50 %% (%s): an edge out of square makes the overall size larger, and so does the one of several that comes out farthest.", strings.Join(names, ", "))
}

// errorRange is an error's plus and minus, "0.25 to 1 deg".
func errorRange(e fold.ErrorReport, u units) string {
	write := func(v float64) string {
		switch e.Unit {
		case "mm":
			return trimZeros(u.fine(v))
		case "deg":
			return trimZeros(fmt.Sprintf("%.2f", v))
		}
		return trimZeros(fmt.Sprintf("%.3f", v))
	}
	if e.High == 0 && !e.Given {
		return "not known"
	}
	unit := e.Unit
	if unit == "mm" {
		unit = fold.Units(u).String()
	}
	s := write(e.High)
	if low := write(e.Low); low != s {
		s = low + " to " + s
	}
	return strings.TrimSpace(s + " " + unit)
}

// errorFrom is an error's source, its kind with it where the source does not say it.
func errorFrom(e fold.ErrorReport) string {
	if e.Kind == "yours" || strings.Contains(e.Source, e.Kind) {
		return e.Source
	}
	return e.Source + " (" + e.Kind + ")"
}

// shares lists the first few causes, largest first: "angle of bend back 31 %, cut edges 22 %".
func shares(all []fold.Share, most int) string {
	var out []string
	for _, s := range all {
		if len(out) == most {
			break
		}
		out = append(out, fmt.Sprintf("%s %.0f %%", plainName(s.Cause), 100*s.Part))
	}
	return strings.Join(out, ", ")
}
