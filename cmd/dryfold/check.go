package main

import (
	"flag"
	"fmt"
	"strings"

	"dryfold/fold"
	"dryfold/fold/partfile"
	"dryfold/fold/shape"
	"dryfold/fold/spread"
)

type checkFlags struct {
	json  bool
	tools string
}

func checkVerb() *verb {
	var rules strings.Builder
	rules.WriteString(`Without -json it prints a report to read, troubles first, in the file's units.
With -json it prints one object a line, a line for each file: lengths in mm,
angles in degrees, whatever the file's units.

With -tools it says too what of the blank can't be cut with your own drills, snips and
saw, which stand in a bench file (what it doesn't say is taken as is usual).

Exit status: 0 nothing of severity stop, 1 something of severity stop,
2 a file that can't be read, or wrong usage.

Rules that a trouble can name:
`)
	for _, r := range fold.Rules {
		fmt.Fprintf(&rules, "  %-15s %s\n", r.Name, r.What)
	}
	return &verb{
		name: "check", args: "FILE... [-json] [-tools BENCH]",
		what:  "says what is wrong with a part",
		more:  rules.String(),
		shows: "dryfold check -json tray.dryfold",
		flags: func(f *flag.FlagSet) any {
			o := &checkFlags{}
			f.BoolVar(&o.json, "json", false, "print JSON")
			f.StringVar(&o.tools, "tools", "", "the bench `file` that holds your tools, as own.drybends")
			return o
		},
		run: check,
	}
}

func check(c *call) int {
	o := c.opt.(*checkFlags)
	if len(c.args) == 0 {
		return c.usage("no file")
	}
	var bench partfile.Bench
	if o.tools != "" {
		var wrong *problem
		if bench, wrong = readBench(o.tools); wrong != nil {
			return c.refuse(wrong)
		}
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
		spread.Add(p, &r, spread.Options{}) // limits hold for what 95 of 100 parts come to
		if o.tools != "" {
			for _, t := range shape.CutTroubles(shape.CheckCut(p, bench.Tools)) {
				r.AddTrouble(t)
			}
		}
		if o.json {
			writeJSON(c.out, r)
		} else {
			if i > 0 {
				fmt.Fprintln(c.out)
			}
			writeReport(c.out, p, r)
			writeCorners(c.out, r.Corners, units(p.Spec.Units))
		}
		for _, t := range r.Troubles {
			if t.Severity == fold.Stop.String() {
				status = max(status, statusStop)
			}
		}
	}
	return status
}
