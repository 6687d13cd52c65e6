package main

// Sheets to print: .pdf, and .svg without -machine.

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/draft/pdf"
	"dryfold/fold/paper"
	"dryfold/fold/shape"
	"dryfold/fold/spread"
)

type sheetFlags struct {
	sheet, paper, hand, rule, own string
	fit                           bool

	roll, margin, overlap, printed, before string
	card, crease                           string
}

func (o *sheetFlags) define(f *flag.FlagSet) {
	f.StringVar(&o.sheet, "sheet", "", "svg, pdf: "+strings.Join(paper.Kinds, ", ")+" (default marking)")
	f.StringVar(&o.paper, "paper", paper.Papers[0], "svg, pdf: "+strings.Join(paper.Papers, ", ")+", and for template and card "+paper.Roll)
	f.StringVar(&o.rule, "rule", "", "svg, pdf: what your rule shows, as 0.5 or 1/64 (default 0.5 mm, 1/64 in)")
	f.StringVar(&o.hand, "hand", "", "svg, pdf: left or right, which the part is")
	f.StringVar(&o.own, "tools", "", "cutting, all: the bench `file` that holds your tools, as own.drybends")
	f.BoolVar(&o.fit, "fit", false, "svg of marking: to scale on the paper rather than at true scale")
	f.StringVar(&o.roll, "roll", "", "template, card: `width` of a roll, as 610mm, with -paper "+paper.Roll)
	f.StringVar(&o.margin, "margin", "8mm", "template, card: what the printer leaves white round a page")
	f.StringVar(&o.overlap, "overlap", "10mm", "template, card: by how much pages overlap")
	f.StringVar(&o.printed, "printed", "", "template, card: what the last print's check square measured, `ACROSSxDOWN`, as 99.6x100.2 (mm) or 3.98x4.01 (in)")
	f.StringVar(&o.before, "before", "", "template, card: the scale that that print states of itself, in per cent, `ACROSSxDOWN`")
	f.StringVar(&o.card, "card", "1.5mm", "card: `thickness` of the card")
	f.StringVar(&o.crease, "crease", paper.Scored, "card: "+paper.Scored+" or "+paper.Creased)
}

// sheetHelp is what draw's help says of them.
const sheetHelp = `An .svg or a .pdf holds sheets to print, in an .svg below one another:

    marking   every corner, hole and bend line from two edges, in a drawing and in tables
    cutting   which tool cuts which edge, in what order, and what is drilled
    check     what to measure on the cut blank before the first bend
    cards     a job card for each swing
    template  the blank at full size, in pages to be joined
    card      the same part in cardboard, to be tried in its place
    all       marking, cutting, check and cards

As: dryfold draw tray.dryfold -sheet cards -paper Letter -o cards.pdf
In an .svg the marking-out sheet is drawn at true scale; -fit draws it to a stated scale on
the paper, as a .pdf always has it.
`

// job is what the flags ask for.
func (o *sheetFlags) job(c *call, g given, u fold.Units, other bool) (paper.Job, *problem) {
	var wrong *problem
	refuse := func(name, found, need string) {
		if wrong == nil {
			wrong = flagProblem("-"+name, found, need)
		}
	}
	oneOf := func(name, text string, of []string) {
		if !slices.Contains(of, text) {
			refuse(name, text, "one of "+strings.Join(of, ", "))
		}
	}
	size := func(name, text string) float64 {
		l, ok := readLength(text)
		if !ok {
			refuse(name, quoted(text), lengthNeed)
		}
		if l.unit == "in" || l.unit == "" && u == fold.Inch {
			return l.number * mmPerInch
		}
		return l.number
	}
	two := func(name, text string) (v [2]float64) {
		if text == "" {
			return v
		}
		parts := strings.Split(text, "x")
		for i := range v {
			var err error
			if len(parts) != 2 {
				err = errors.New("not two")
			} else {
				v[i], err = strconv.ParseFloat(strings.TrimSuffix(parts[i], "%"), 64)
			}
			if err != nil {
				refuse(name, quoted(text), "two numbers, as 99.6x100.2")
			}
		}
		return v
	}
	if o.sheet == "" {
		o.sheet = "marking"
	}
	oneOf("sheet", o.sheet, paper.Kinds)
	papers := paper.Papers
	if o.sheet == "template" || o.sheet == "card" {
		papers = append(slices.Clone(papers), paper.Roll)
	}
	oneOf("paper", o.paper, papers)
	if o.hand != "" {
		oneOf("hand", o.hand, []string{"left", "right"})
	}
	job := paper.Job{Options: paper.Options{Units: u, Paper: o.paper, Hand: o.hand, Other: other}}
	if o.rule != "" {
		v, ok := readRule(o.rule)
		if !ok {
			refuse("rule", quoted(o.rule), "the finest division of a rule, as 0.5 or 1/64")
		}
		job.Rule = v
	}
	if o.own != "" {
		bench, bad := readBench(o.own)
		if bad != nil {
			return job, bad
		}
		job.Tools = bench.Tools
	}
	t := &job.Template
	*t = paper.TemplateOptions{Units: u, Paper: o.paper, Hand: o.hand, Other: other, Printed: two("printed", o.printed), Before: two("before", o.before)}
	for i := range t.Before {
		t.Before[i] /= 100
	}
	margin, overlap := size("margin", o.margin), size("overlap", o.overlap)
	t.Margin, t.Overlap = &margin, &overlap
	if o.roll != "" {
		t.Roll = size("roll", o.roll)
	}
	job.Card = paper.CardOptions{TemplateOptions: *t, Thickness: size("card", o.card), Crease: o.crease}
	if g.made != nil {
		job.Card.Make = func(s fold.Spec) (fold.Spec, error) {
			made, problems := shape.Make(s)
			if len(problems) > 0 {
				return fold.Spec{}, problems[0]
			}
			return made.Spec, nil
		}
	}
	return job, wrong
}

// drawSheets writes sheets.
func (c *call) drawSheets(g given, p *fold.Part, o *drawFlags, u fold.Units, ending string) int {
	job, wrong := o.sheetFlags.job(c, g, u, o.other)
	if wrong != nil {
		return c.refuse(wrong)
	}
	job.TrueScale = !o.fit && ending == ".svg" && o.sheet == "marking"
	r := g.check(p)
	if p.Foldable {
		spread.Add(p, &r, spread.Options{})
	}
	pages, err := paper.Sheets(o.sheet, p, &r, job)
	var option *paper.FieldError
	switch {
	case errors.As(err, &option):
		name := map[string]string{"printed[0]": "printed", "printed[1]": "printed", "before[0]": "before", "before[1]": "before", "thickness": "card"}[option.Field]
		if name == "" {
			name = option.Field
		}
		return c.refuse(flagProblem("-"+name, fold.InUnits(option.Found, u), fold.InUnits(option.Need, u)))
	case err != nil && p.Foldable:
		c.fail(problem{File: &c.args[0], Found: fold.InUnits(err.Error(), u)})
		return statusStop
	case err != nil:
		c.fail(problem{File: &c.args[0], Found: err.Error(), Need: "a part that can be folded; dryfold check says what to mend"})
		return statusStop
	}
	if ending == ".svg" {
		return c.writeFile(o.out, draft.Joined(p.Spec.Name, pages))
	}
	data, err := pdf.Write(p.Spec.Name, pages, made())
	if err != nil {
		panic(fmt.Sprint("writing a PDF file: ", err))
	}
	if lost := pdf.Missing(draft.Words(pages)); lost != "" {
		fmt.Fprintf(c.err, "No font of a PDF file has these letters, which are printed as boxes: %s. In an .svg they stand.\n", plainName(lost))
	}
	return c.writeFile(o.out, data)
}

// made is the date that a PDF file bears: now, or the one that SOURCE_DATE_EPOCH gives, for files that are to come out the same.
func made() time.Time {
	if s, err := strconv.ParseInt(os.Getenv("SOURCE_DATE_EPOCH"), 10, 64); err == nil {
		return time.Unix(s, 0).UTC()
	}
	return time.Now()
}

// readRule reads a rule's division: a number, or a fraction as 1/64.
func readRule(t string) (float64, bool) {
	above, below, fraction := strings.Cut(t, "/")
	v, err := strconv.ParseFloat(above, 64)
	if fraction {
		d, e := strconv.ParseFloat(below, 64)
		if e != nil || d == 0 {
			return 0, false
		}
		v /= d
	}
	return v, err == nil && v > 0 && v <= 10
}
