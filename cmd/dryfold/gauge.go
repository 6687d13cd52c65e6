package main

import (
	"flag"
	"fmt"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
)

type gaugeFlags struct {
	table string
	json  bool
}

func gaugeVerb() *verb {
	var tables strings.Builder
	for _, t := range metal.Tables {
		fmt.Fprintf(&tables, "  %-11s %s: %s\n", t.ID, t.Name, t.For)
	}
	return &verb{
		name: "gauge", args: "[NUMBER|LENGTH] [-table NAME] [-json]",
		what: "says how thick a gauge is, or which gauge a thickness is",
		more: `NUMBER is a gauge, as 16, "16 ga", "#16" or 2/0. How thick it is depends on the
table; without -table it says how thick it is in each, and asks for one.
LENGTH, as 1.5mm or 0.060in, gives the nearest gauge of every table, or of the one
that -table names, and how far off it is. -table alone prints the table.

Exit status: 0 found, 2 no such gauge, no table named, or wrong usage.

Tables:
` + tables.String(),
		shows: "dryfold gauge 16 -table galvanized",
		flags: func(f *flag.FlagSet) any {
			o := &gaugeFlags{}
			f.StringVar(&o.table, "table", "", "the `name` of a gauge table")
			f.BoolVar(&o.json, "json", false, "print JSON")
			return o
		},
		run: gauge,
	}
}

// gaugeJSON is a gauge as -json prints it. Its keys are a promise.
type gaugeJSON struct {
	Table     string  `json:"table"`
	TableName string  `json:"table_name"`
	Number    string  `json:"gauge"`
	Thickness float64 `json:"thickness_mm" places:"9"`
	Inch      float64 `json:"thickness_in" places:"9"`
	Source    string  `json:"source"`
	// For a thickness that was asked about: the gauge's thickness less the one asked.
	Off        *float64 `json:"off_mm,omitempty" places:"9"`
	OffInch    *float64 `json:"off_in,omitempty" places:"9"`
	OffPercent *float64 `json:"off_percent,omitempty"`
}

// gaugeAnswer is what -json prints. Its keys are a promise.
type gaugeAnswer struct {
	Asked  string      `json:"asked"`
	Gauges []gaugeJSON `json:"gauges"`
}

func gauge(c *call) int {
	o := c.opt.(*gaugeFlags)
	asked := strings.TrimSpace(strings.Join(c.args, " "))
	table := ""
	if o.table != "" {
		t, ok := metal.TableByName(o.table)
		if !ok {
			return c.refuse(unknownTable("table", o.table))
		}
		table = t.ID
	}
	if asked == "" {
		if table == "" {
			return c.usage("neither a gauge, a thickness nor a -table")
		}
		return c.printTable(table)
	}
	if l, ok := readLength(asked); ok && (l.unit != "" || l.fraction) {
		return c.nearest(l, table)
	}
	number, named, ok := readGauge(asked)
	if !ok {
		return c.refuse(notGauge(asked))
	}
	if named != "" {
		t, ok := metal.TableByName(named)
		switch {
		case !ok:
			return c.refuse(unknownTable("table", named))
		case table != "" && table != t.ID:
			return c.refuse(flagProblem("table", fmt.Sprintf("%q and -table %s", asked, o.table), "one table"))
		}
		table = t.ID
	}
	if table == "" {
		return c.askTable(number)
	}
	g, err := metal.LookUp(number, table)
	if err != nil {
		t, _ := metal.TableByName(table)
		return c.refuse(flagProblem("gauge", fmt.Sprintf("%s gauge, which is not in that table", number), "a gauge of "+reach(t)))
	}
	if o.json {
		writeJSON(c.out, gaugeAnswer{asked, []gaugeJSON{gaugeOf(g)}})
		return statusOK
	}
	fmt.Fprintf(c.out, "%s: %s\n", g, gaugeThickness(g))
	hanging(c.out, "  ", g.Source.String())
	return statusOK
}

// readGauge reads a gauge, "16 ga us" or "2/0 awg", and a bare number as one. The
// table is "" where none is named; it may be a name that no table has.
func readGauge(text string) (number, table string, ok bool) {
	if number, table, ok := metal.ReadGauge(text); ok {
		return number, table, true
	}
	number, rest, _ := strings.Cut(text, " ")
	if _, _, ok := metal.ReadGauge("#" + number); !ok || strings.Trim(number, "0123456789/") != "" {
		return "", "", false
	}
	return number, strings.TrimSpace(rest), true
}

// notGauge is what is wrong with a text that is neither gauge nor thickness.
func notGauge(asked string) *problem {
	if partGauge(asked) {
		return flagProblem("gauge", quoted(asked)+", which is no gauge", wholeGauge)
	}
	if v, ok := readNumber(asked); ok && v > 0 {
		return flagProblem("gauge", asked+", which is no gauge", fmt.Sprintf("%smm or %sin if it is a thickness; a gauge is a whole number, or as 2/0", asked, asked))
	}
	return flagProblem("gauge", quoted(asked), "a gauge, as 16 or 2/0, or a thickness, as 1.5mm or 0.060in")
}

const wholeGauge = "a whole number, or as 2/0: gauges have no parts"

// partGauge reports whether a text would be a gauge if its number were whole.
func partGauge(text string) bool {
	i := strings.IndexAny(text, ".,")
	if i < 1 || text[i-1] < '0' || text[i-1] > '9' {
		return false
	}
	rest := strings.TrimLeft(text[i+1:], "0123456789")
	if len(rest) == len(text)-i-1 {
		return false
	}
	_, _, ok := metal.ReadGauge(text[:i] + rest)
	return ok
}

// nearest prints the nearest gauge of one table, or of each.
func (c *call) nearest(l length, table string) int {
	read, wrong := settle([]*length{&l}, "")
	if wrong != nil {
		return c.refuse(wrong)
	}
	written := strings.TrimSpace(l.text)
	if !(l.mm > 0) {
		return c.refuse(flagProblem("gauge", quoted(written), "a thickness over 0"))
	}
	var found []gaugeJSON
	var out []string
	for _, t := range metal.Tables {
		if table != "" && t.ID != table {
			continue
		}
		g, _, ok := metal.Nearest(l.mm, t.ID)
		if !ok {
			out = append(out, ends(t))
			continue
		}
		j := gaugeOf(g)
		mm, in, percent := g.Thickness-l.mm, (g.Thickness-l.mm)/mmPerInch, (g.Thickness-l.mm)/l.mm*100
		j.Off, j.OffInch, j.OffPercent = &mm, &in, &percent
		found = append(found, j)
	}
	if len(found) == 0 {
		p := flagProblem("gauge", quoted(written)+", beyond the ends of the tables", "a thickness of "+strings.Join(out, "; "))
		if c.json || len(out) == 1 {
			return c.refuse(p)
		}
		p.Need = "a thickness that one of them has:"
		c.fail(*p)
		for _, s := range out {
			fmt.Fprintln(c.err, "  "+s)
		}
		return statusInput
	}
	if c.json {
		writeJSON(c.out, gaugeAnswer{written, found})
		return statusOK
	}
	u := fold.MM
	if l.unit == "in" {
		u = fold.Inch
	}
	w := newTable(c.out, "The gauge nearest to "+both(l.mm, u), "", "gauge", "mm", "in", "off by, mm", "in", "percent")
	for _, j := range found {
		w.row(j.TableName, j.Number, fmt.Sprintf("%.4f", j.Thickness), inches(j.Inch),
			signed(*j.Off, 4), signed(*j.OffInch, 5), signed(*j.OffPercent, 1))
	}
	w.Flush()
	fmt.Fprintln(c.out, "Off by: the gauge's thickness less the one asked about.")
	if len(out) > 0 {
		fmt.Fprintln(c.out, "Beyond the ends of:")
		for _, s := range out {
			fmt.Fprintln(c.out, "  "+s)
		}
	}
	if read != "" {
		fmt.Fprintln(c.out, "A fraction without a unit is read as inches.")
	}
	return statusOK
}

// signed writes a difference with its sign, none for nothing.
func signed(v float64, places int) string {
	s := noMinus(fmt.Sprintf("%+.*f", places, v))
	if strings.Trim(s, "+0.") == "" {
		return strings.TrimPrefix(s, "+")
	}
	return s
}

// askTable says how thick a gauge is in each table that has it, and asks for one.
func (c *call) askTable(number string) int {
	all := metal.Candidates(number)
	if len(all) == 0 {
		return c.refuse(flagProblem("gauge", number+" gauge, which no table has", "a gauge of "+reachAll()))
	}
	p := noTable("table", number, all)
	if c.json {
		p.Need = "-table NAME, one of those that have it: " + p.Need
		return c.refuse(p)
	}
	p.Need = "-table NAME, one of those that have it:"
	c.fail(*p)
	t := newTable(c.err, "", "", "in", "mm", "")
	for _, g := range all {
		of, _ := metal.TableByName(g.Table)
		t.row(g.Table, inches(g.Inch), fmt.Sprintf("%.4f", g.Thickness), of.Name+": "+of.For)
	}
	t.Flush()
	return statusInput
}

// noTable is what is wrong with a gauge whose table was not named. Its Need is the list
// of those that have it, to be headed with how to name one.
func noTable(field, number string, all []metal.Gauge) *problem {
	var in []string
	for _, g := range all {
		t, _ := metal.TableByName(g.Table)
		in = append(in, fmt.Sprintf("%s (%s: %s)", g.Table, t.Name, gaugeThickness(g)))
	}
	return flagProblem(field, fmt.Sprintf("%s gauge without its table, and how thick it is depends on that", number),
		strings.Join(in, ", "))
}

func (c *call) printTable(id string) int {
	t, _ := metal.TableByName(id)
	var all []gaugeJSON
	for _, g := range t.Gauges() {
		all = append(all, gaugeOf(g))
	}
	if c.json {
		writeJSON(c.out, gaugeAnswer{"", all})
		return statusOK
	}
	w := newTable(c.out, t.Name+" gauge: "+t.For, "gauge", "in", "mm")
	for _, j := range all {
		w.row(j.Number, inches(j.Inch), fmt.Sprintf("%.4f", j.Thickness))
	}
	w.Flush()
	for _, s := range sources(all) {
		hanging(c.out, "", s)
	}
	return statusOK
}

// sources are those of the rows, with the first and last row of each where there are several.
func sources(rows []gaugeJSON) []string {
	var out []string
	for i := 0; i < len(rows); {
		j := i
		for j+1 < len(rows) && rows[j+1].Source == rows[i].Source {
			j++
		}
		of := ""
		if i > 0 || j+1 < len(rows) {
			of = rows[i].Number + " to " + rows[j].Number + ": "
		}
		out = append(out, of+rows[i].Source)
		i = j + 1
	}
	return out
}

// inches writes a gauge's thickness with the places its table prints, up to the 9 of
// the law's fractions of an inch.
func inches(v float64) string { return trimTo(v, 4, 9) }

func gaugeOf(g metal.Gauge) gaugeJSON {
	return gaugeJSON{Table: g.Table, TableName: tableName(g.Table), Number: g.Number, Thickness: g.Thickness, Inch: g.Inch, Source: g.Source.String()}
}

func gaugeThickness(g metal.Gauge) string {
	return fmt.Sprintf("%s in, %.4f mm", inches(g.Inch), g.Thickness)
}

func tableName(id string) string {
	t, _ := metal.TableByName(id)
	return t.Name
}

func unknownTable(field, name string) *problem {
	var all []string
	for _, t := range metal.Tables {
		all = append(all, t.ID+" ("+t.Name+")")
	}
	return flagProblem(field, quoted(name)+", which is no gauge table", "one of "+strings.Join(all, ", "))
}

// reach says from where to where a table goes.
func reach(t metal.Table) string {
	all := t.Gauges()
	first, last := all[0], all[len(all)-1]
	return fmt.Sprintf("%s, which goes from %s (%s) to %s (%s)", t.Name, first.Number, gaugeThickness(first), last.Number, gaugeThickness(last))
}

// ends is reach in a short line.
func ends(t metal.Table) string {
	all := t.Gauges()
	first, last := all[0], all[len(all)-1]
	return fmt.Sprintf("%s: %s to %s, %.2f to %.2f mm (%s to %s in)", t.Name, first.Number, last.Number, first.Thickness, last.Thickness, inches(first.Inch), inches(last.Inch))
}

func reachAll() string {
	var all []string
	for _, t := range metal.Tables {
		all = append(all, reach(t))
	}
	return strings.Join(all, "; ")
}
