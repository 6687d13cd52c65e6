package main

import (
	"errors"
	"flag"
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/fold/partfile"
)

type bendFlags struct {
	thickness, radius, angle, k, metal, rule, legs, tests, units string
	inside, included, json                                       bool
}

func bendVerb() *verb {
	var rules strings.Builder
	for _, r := range metal.Rules {
		fmt.Fprintf(&rules, "  %-11s %s: %s\n", r.ID, r.Name, r.Formula)
	}
	var names []string
	for _, m := range metal.Metals {
		names = append(names, m.Name)
	}
	return &verb{
		name: "bend", args: "-thickness T -radius R -angle A [-k K | -rule NAME] [-metal NAME] [-legs A,B,...] [-tests FILE] [-json]",
		what: "reckons one bend: allowance, setback, deduction, blank",
		more: `Lengths carry their unit: 1.5mm, 0.040in, "1/16 in", or as thickness a gauge with its
table, "16 ga us". A number without a unit is in what -units says, else in the unit that
the others have, else in mm; a fraction without one is in inches. The answer says so.
The angle is how far the sheet is turned from flat, 0 to 240; with -included it is the
angle between the faces, 180 less that.

K is what -k gives; else by the rule that -rule names; else by the test bends in -tests
that fit; else as the file's own metals have it; else by the FAA's rule. What every other
rule and your test bends give stands beside it. -rule machinery takes as -metal also the
Handbook's bronze, hard copper and spring steel.

-legs are the outside sizes of a strip in order, with an equal bend between each two
(-inside: sizes along the inside faces); the strip's developed length and its marks are
then given too.

Exit status: 0 reckoned, 2 a number that is impossible, or wrong usage.

Rules (N degrees from flat, R inside radius, T thickness):
` + rules.String() + `
Metals:
` + indent(strings.Join(names, "; "), "  "),
		shows: "dryfold bend -thickness 0.040in -radius 0.16in -angle 90 -legs 1,2,1",
		flags: func(f *flag.FlagSet) any {
			o := &bendFlags{}
			f.StringVar(&o.thickness, "thickness", "", "of the sheet: a `length`, or a gauge with its table")
			f.StringVar(&o.radius, "radius", "", "inside radius, a `length`; 0 for a sharp bend")
			f.StringVar(&o.angle, "angle", "", "bend angle in `degrees` from flat")
			f.StringVar(&o.k, "k", "", "where the neutral line lies, a `number`: 0 inside face, 0.5 middle")
			f.StringVar(&o.metal, "metal", "", "the `name` of a metal, for its constants, least radius and springback")
			f.StringVar(&o.rule, "rule", "", "the allowance rule's `name` (default faa)")
			f.StringVar(&o.legs, "legs", "", "outside sizes of a strip, as a `list`: 1,2,1in")
			f.StringVar(&o.tests, "tests", "", "a `file` of metals and test bends, as NAME.drybends")
			f.StringVar(&o.units, "units", "", "mm or in, of numbers without a `unit` and first in the answer")
			f.BoolVar(&o.inside, "inside", false, "-legs are measured along the inside faces")
			f.BoolVar(&o.included, "included", false, "-angle is the included angle")
			f.BoolVar(&o.json, "json", false, "print JSON: mm and degrees")
			return o
		},
		run: bend,
	}
}

func indent(text, by string) string {
	return by + strings.Join(wrap(text, 80-len(by)), "\n"+by) + "\n"
}

// question is what was asked: what the kernel reckons with, and how it was said.
type question struct {
	ask      metal.Ask
	units    fold.Units   // that come first in the answer
	gauge    *metal.Gauge // the thickness as a gauge, nil if it was none
	notes    []string     // what was read in a way worth saying
	included bool
}

func bend(c *call) int {
	o := c.opt.(*bendFlags)
	if len(c.args) > 0 {
		return c.usage("%q, where a flag is needed (quote what has spaces in it)", strings.Join(c.args, " "))
	}
	if o.thickness == "" && o.radius == "" && o.angle == "" {
		return c.usage("no thickness, radius and angle")
	}
	q, wrong := o.read()
	if wrong != nil {
		return c.refuse(wrong)
	}
	a, err := metal.Reckon(q.ask)
	if err != nil {
		return c.refuse(o.askProblem(q, err))
	}
	if o.tests != "" && a.Study == nil {
		q.notes = append(q.notes, fold.InUnits(o.noneFit(q), q.units))
	}
	if o.json {
		writeJSON(c.out, bendJSONOf(q, a))
	} else {
		writeBend(c.out, q, a)
	}
	return statusOK
}

// read makes the question of the flags.
func (o *bendFlags) read() (q question, wrong *problem) {
	if o.units != "" && o.units != "mm" && o.units != "in" {
		return q, flagProblem("units", o.units, "mm or in")
	}
	if o.k != "" && o.rule != "" {
		return q, flagProblem("rule", "both -k and -rule", "one of them: a rule is a way to come to a K")
	}
	thickness, wrong := readThickness(o.thickness, o.metal)
	if wrong != nil {
		return q, wrong
	}
	radius, wrong := o.length("radius", o.radius, "an inside radius with its unit, as 1.5mm or 0.06in, or 0 for a sharp bend")
	if wrong != nil {
		return q, wrong
	}
	lengths := []*length{&thickness, &radius}
	var legs []*length
	if strings.TrimSpace(o.legs) != "" {
		for i, text := range splitList(o.legs) {
			l, wrong := o.length(fmt.Sprintf("legs[%d]", i), text, "a leg's length, and commas between legs: -legs 50,20,50mm")
			if wrong != nil {
				return q, wrong
			}
			legs = append(legs, &l)
		}
	}
	if of := lastUnit(legs); of != "" {
		q.notes = append(q.notes, "Legs without a unit are read as "+map[string]string{"mm": "mm", "in": "inches"}[of]+", like the last.")
	}
	read, wrong := settle(append(lengths, legs...), o.units)
	if wrong != nil {
		return q, wrong
	}
	if read != "" {
		q.notes = append(q.notes, read)
	}
	q.ask = metal.Ask{Thickness: thickness.mm, Radius: radius.mm, Inside: o.inside}
	for _, l := range legs {
		q.ask.Legs = append(q.ask.Legs, l.mm)
	}
	if thickness.unit == "gauge" {
		q.gauge = &thickness.gauge
	}
	q.units = o.shown(append(lengths, legs...))
	if wrong := o.readAngle(&q); wrong != nil {
		return q, wrong
	}
	if o.k != "" {
		k, ok := readNumber(strings.TrimSpace(o.k))
		if !ok {
			return q, flagProblem("k", quoted(o.k), "a number, as 0.44")
		}
		q.ask.K = &k
	}
	if o.rule != "" {
		r, ok := metal.RuleByName(o.rule)
		if !ok {
			return q, flagProblem("rule", quoted(o.rule), "one of "+ruleNames())
		}
		q.ask.Rule = r.ID
	}
	return q, o.readMetal(&q)
}

// readMetal reads the metal and the file of test bends.
func (o *bendFlags) readMetal(q *question) *problem {
	q.ask.Metal = strings.TrimSpace(o.metal)
	if o.tests != "" {
		bench, wrong := readBench(o.tests)
		if wrong != nil {
			return wrong
		}
		q.ask.Own, q.ask.Tests = bench.Metals, bench.Tests
	}
	of := testMetals(q.ask.Tests)
	if q.ask.Metal == "" {
		switch len(of) {
		case 0:
		case 1:
			q.ask.Metal = of[0]
			q.notes = append(q.notes, fmt.Sprintf("No metal was named: it is taken as %s, that of every test bend in %s.", of[0], o.tests))
		default:
			return flagProblem("metal", "none, and test bends of several metals", "one of "+strings.Join(of, ", "))
		}
		return nil
	}
	if _, ok := metal.HandbookMetal(q.ask.Metal); ok && q.ask.Rule == "machinery" {
		return nil // the rule's constant is all that is known of it, and the answer says so
	}
	if _, ok := metal.Resolve(q.ask.Metal, q.ask.Own); !ok && !slices.ContainsFunc(of, func(s string) bool { return strings.EqualFold(s, q.ask.Metal) }) {
		need := "one of " + metalNames(q.ask.Own)
		if _, ok := metal.HandbookMetal(q.ask.Metal); ok {
			need += "; that one is known for -rule machinery alone"
		}
		return flagProblem("metal", quoted(o.metal), need)
	}
	return nil
}

// noneFit says that no test bend is of the metal and thickness, and of which they are.
func (o *bendFlags) noneFit(q question) string {
	const most = 6
	var of []string
	for _, t := range q.ask.Tests {
		s := fmt.Sprintf("%s %s mm", plainName(t.Metal), trimZeros(fmt.Sprintf("%.3f", t.Thickness)))
		if !slices.Contains(of, s) {
			of = append(of, s)
		}
	}
	if len(of) == 0 {
		return o.tests + " holds no test bends: K is not by them."
	}
	if len(of) > most {
		of = append(of[:most], "others")
	}
	return fmt.Sprintf("No test bend in %s is of %s %s mm thick: K is not by them. They are of %s.",
		o.tests, q.ask.Metal, trimZeros(fmt.Sprintf("%.3f", q.ask.Thickness)), strings.Join(of, ", "))
}

// testMetals are the metals that the test bends name, each once.
func testMetals(tests []metal.Strip) []string {
	var of []string
	for _, t := range tests {
		n := plainName(t.Metal)
		if !slices.ContainsFunc(of, func(s string) bool { return strings.EqualFold(s, n) }) {
			of = append(of, n)
		}
	}
	return of
}

// length reads a flag's length.
func (o *bendFlags) length(flag, text, need string) (length, *problem) {
	if strings.TrimSpace(text) == "" {
		return length{}, flagProblem(flag, "nothing", need)
	}
	l, ok := readLength(text)
	if !ok {
		return length{}, flagProblem(flag, quoted(text), need)
	}
	l.flag = flag
	return l, nil
}

// readThickness reads a thickness: a length, or a gauge with its table.
func readThickness(text, of string) (length, *problem) {
	const field = "thickness"
	need := lengthNeed + `, or a gauge with its table, as "16 ga us"`
	if strings.TrimSpace(text) == "" {
		return length{}, flagProblem(field, "nothing", need)
	}
	if l, ok := readLength(text); ok {
		l.flag = field
		return l, nil
	}
	number, table, ok := metal.ReadGauge(text)
	if !ok {
		if partGauge(text) {
			return length{}, flagProblem(field, quoted(text)+", which is no gauge", wholeGauge)
		}
		return length{}, flagProblem(field, quoted(text), need)
	}
	all := metal.Candidates(number)
	if t, known := metal.TableByName(table); len(all) == 0 && known {
		return length{}, flagProblem(field, quoted(text)+", which is not in that table", "a gauge of "+reach(t))
	}
	if len(all) == 0 {
		return length{}, flagProblem(field, quoted(text)+", which no gauge table has", "a gauge of "+reachAll())
	}
	if table == "" {
		p := noTable(field, number, all)
		p.Need = fmt.Sprintf("one of the tables that have it, as %q: %s", number+" ga "+all[0].Table, p.Need)
		if m, known := metal.ByName(of); known {
			if d := metal.DefaultTable(m); d != "" {
				p.Need += fmt.Sprintf("; sheet of %s is commonly sold by %s", m.Name, d)
			}
		}
		return length{}, p
	}
	t, ok := metal.TableByName(table)
	if !ok {
		return length{}, unknownTable(field, table)
	}
	g, err := metal.LookUp(number, t.ID)
	if err != nil {
		return length{}, flagProblem(field, quoted(text)+", which is not in that table", "a gauge of "+reach(t))
	}
	return length{flag: field, text: text, unit: "gauge", gauge: g}, nil
}

// shown is the unit that comes first: -units, else the thickness's, else the first
// that another length has; inches for a gauge alone.
func (o *bendFlags) shown(all []*length) fold.Units {
	unit := o.units
	for _, l := range all {
		if unit == "" && l.unit != "gauge" {
			unit = l.unit
		}
	}
	if unit == "in" || unit == "" && all[0].unit == "gauge" {
		return fold.Inch
	}
	return fold.MM
}

func (o *bendFlags) readAngle(q *question) *problem {
	need := "a bend angle in degrees from flat, as 90"
	if o.included {
		need = "an included angle in degrees, as 90"
	}
	if strings.TrimSpace(o.angle) == "" {
		return flagProblem("angle", "nothing", need)
	}
	a, ok := readAngle(o.angle)
	if !ok {
		return flagProblem("angle", quoted(o.angle), need)
	}
	q.ask.Angle, q.included = a, o.included
	if o.included {
		q.ask.Angle = 180 - a
	}
	return nil
}

// askProblem says which flag holds what can't be, its lengths in the unit shown.
func (o *bendFlags) askProblem(q question, err error) *problem {
	var e *metal.AskError
	if !errors.As(err, &e) {
		return &problem{Found: err.Error()}
	}
	p := flagProblem(e.Field, fold.InUnits(e.Found, q.units), fold.InUnits(e.Need, q.units))
	p.whole = true
	if e.Field == "angle" && o.included {
		p.Found = fmt.Sprintf("an included angle of %s", degrees(180-q.ask.Angle))
		p.Need = fmt.Sprintf("that is %s from flat; it must be under 180, with 0 for a hem and down to -60 for a teardrop hem", degrees(q.ask.Angle))
	}
	return p
}

// readBench reads a file of metals and test bends.
func readBench(file string) (partfile.Bench, *problem) {
	data, err := readBounded(file, partfile.MaxFile)
	if err != nil {
		return partfile.Bench{}, &problem{File: &file, Found: plain(err), Need: "a file of test bends, as NAME.drybends"}
	}
	b, err := partfile.ReadBench(data)
	if err != nil {
		return partfile.Bench{}, partProblem(&file, err)
	}
	return b, nil
}

func ruleNames() string {
	var n []string
	for _, r := range metal.Rules {
		n = append(n, r.ID+" ("+r.Name+")")
	}
	return strings.Join(n, ", ")
}

func metalNames(own []metal.Own) string {
	var n []string
	for _, o := range own {
		n = append(n, plainName(o.Name))
	}
	for _, m := range metal.Metals {
		n = append(n, m.Name)
	}
	return strings.Join(n, "; ")
}
