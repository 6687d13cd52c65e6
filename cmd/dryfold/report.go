package main

// The report that check prints for people, in the file's own units: troubles first, then sizes, the swings in order, clashes, seams and
// bends; last what doubt is worth and the lists' least radii.

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"dryfold/fold"
)

// units writes lengths the way a part file's owner reads them.
type units fold.Units

func (u units) length(mm float64) string {
	if fold.Units(u) == fold.Inch {
		return noMinus(fmt.Sprintf("%.3f", mm/25.4))
	}
	return noMinus(fmt.Sprintf("%.1f", mm))
}

// fine is for gaps and radii.
func (u units) fine(mm float64) string {
	if fold.Units(u) == fold.Inch {
		return noMinus(fmt.Sprintf("%.4f", mm/25.4))
	}
	return noMinus(fmt.Sprintf("%.2f", mm))
}

// noMinus takes the sign off a number that rounded to nothing.
func noMinus(s string) string {
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

func angle(deg float64) string { return noMinus(fmt.Sprintf("%.1f", deg)) }

func writeReport(w io.Writer, p *fold.Part, r fold.Report) {
	u := units(p.Spec.Units)
	name := p.Spec.Units.String()
	metal := p.Metal
	if metal == "" {
		metal = "metal not said"
	}
	fmt.Fprintf(w, "%s\n%s, %s %s thick\n\n", r.Part, metal, trimZeros(u.fine(r.Thickness)), name)
	writeTroubles(w, r.Troubles, u)

	mass := ", weight not known"
	if r.Blank.Mass != nil {
		mass = ""
	}
	area := fmt.Sprintf("%.0f mm2", r.Blank.Area)
	if p.Spec.Units == fold.Inch {
		area = fmt.Sprintf("%.2f sq in", r.Blank.Area/(25.4*25.4))
	}
	fmt.Fprintf(w, "\nBlank     %s x %s %s, %s%s\n", u.length(r.Blank.Width), u.length(r.Blank.Height), name, area, mass)
	if p.Foldable {
		s := r.Finished.Box()
		fmt.Fprintf(w, "Finished  %s x %s x %s %s overall\n", u.length(s[0]), u.length(s[1]), u.length(s[2]), name)
	}
	writeWeights(w, r)

	writeSwings(w, r.Swings, u)
	if len(r.Clashes) > 0 {
		t := newTable(w, "\nClashes", "swing", "what", "meets", "at", "deep", "")
		for _, c := range r.Clashes {
			end := "clear again at the end"
			if c.AtEnd {
				end = "still at the end"
			}
			deep := u.fine(c.Depth)
			if c.Undecided {
				deep, end = "", "not decided"
			}
			t.row(fmt.Sprint(c.Swing), c.A, c.B, angle(c.Angle)+" deg", deep, end)
		}
		t.Flush()
	}
	writeSeams(w, r.Seams, u)
	if len(r.Bends) > 0 {
		t := newTable(w, "\nBends", "", "way", "from flat", "inside radius", "K", "length", "allowance", "deduction")
		for _, b := range r.Bends {
			t.row(b.Name, b.Way, angle(b.Angle)+" deg", u.fine(b.Radius), trimZeros(fmt.Sprintf("%.3f", b.K)), u.length(b.Length), u.fine(b.Allowance), u.fine(b.Deduction))
		}
		t.Flush()
		writeSources(w, "K", r.Bends, func(b fold.BendReport) string { return kFrom(b, u) })
	}
	writeSets(w, r.Bends, u)
	writeWorth(w, r.Worth, u)
	writeLeast(w, r.Bends, u)
}

// kFrom says where a bend's K comes from, its kind first, and its spread.
func kFrom(b fold.BendReport, u units) string {
	s := fold.InUnits(b.KSource, fold.Units(u))
	if b.KKind != "" && !strings.HasPrefix(s, b.KKind) {
		s = strings.TrimSuffix(b.KKind+": "+s, ": ")
	}
	if b.KSpread > 0 {
		s = fmt.Sprintf("give or take %.3f; %s", b.KSpread, s)
	}
	return s
}

// writeTroubles lists them, those that stop the part first, wrapped to a line's width.
func writeTroubles(w io.Writer, all []fold.TroubleReport, u units) {
	if len(all) == 0 {
		fmt.Fprintln(w, "No troubles found.")
		return
	}
	for _, sev := range []fold.Severity{fold.Stop, fold.Watch, fold.Note} {
		for _, t := range all {
			if t.Severity != sev.String() {
				continue
			}
			head := fmt.Sprintf("%-6s", strings.ToUpper(t.Severity))
			for i, line := range wrap(fold.InUnits(t.Message, fold.Units(u))+" ["+t.Rule+"]", 90) {
				if i > 0 {
					head = "      "
				}
				fmt.Fprintln(w, head+line)
			}
		}
	}
}

func wrap(text string, width int) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len(line)+1+len(word) > width && !strings.HasPrefix(word, "%") { // which stays with its number
			out, line = append(out, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(out, line)
}

func trimZeros(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// tableWriter prints rows under heads.
type tableWriter struct{ *tabwriter.Writer }

func newTable(w io.Writer, title string, heads ...string) tableWriter {
	fmt.Fprintln(w, title)
	t := tableWriter{tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)}
	t.row(heads...)
	return t
}

func (t tableWriter) row(cells ...string) {
	for i, c := range cells { // a name may hold anything but must not break the table
		cells[i] = strings.NewReplacer("\t", " ", "\n", " ", "\v", " ", "\f", " ").Replace(c)
	}
	fmt.Fprintln(t, "  "+strings.TrimRight(strings.Join(cells, "\t"), "\t "))
}
