package main

// What bend prints for people, in the unit asked in and the other beside it.

import (
	"fmt"
	"io"
	"math"

	"dryfold/fold"
	"dryfold/fold/metal"
)

func writeBend(w io.Writer, q question, a metal.Answer) {
	u := q.units
	given := "from flat, as you gave it"
	if q.included {
		given = fmt.Sprintf("from flat (you gave the included angle, %s)", degrees(a.Included))
	}
	fmt.Fprintf(w, "Bend of %s degrees %s\nThickness      %s\nInside radius  %s\n", degrees(a.Angle), given, both(a.Thickness, u), both(a.Radius, u))
	if q.gauge != nil {
		hanging(w, "Gauge          ", fmt.Sprintf("%s; %s", *q.gauge, q.gauge.Source))
	}
	if name := metalName(q, a); name != "" {
		if a.Known && a.Metal.Note != "" {
			name += ": " + a.Metal.Note
		}
		hanging(w, "Metal          ", name)
	}
	k := fmt.Sprintf("%.4f", a.K)
	if a.KSpread > 0 {
		k += fmt.Sprintf(", give or take %.3f", a.KSpread)
	}
	hanging(w, "K              ", k+"; "+fold.InUnits(a.KSource.String(), u))
	fmt.Fprintln(w)
	drawAngles(w, a.Angle)

	two := func(mm float64) []string { return []string{number(mm, u), number(mm, other(u))} }
	t := newTable(w, "", append([]string{""}, u.String(), other(u).String(), "")...)
	t.row(append(append([]string{"Bend allowance"}, two(a.Allowance)...), "width of the bend on the blank: angle times (R + K T)")...)
	t.row("  for one degree", perDegree(a.Allowance/a.Angle, u), perDegree(a.Allowance/a.Angle, other(u)), "as charts print it")
	how := "(R + T) tan(angle/2), from tangent line to outside sharp"
	if a.Angle > 90 {
		how = "R + T past 90 degrees, to the outermost tangent plane"
	}
	t.row(append(append([]string{"Setback"}, two(a.Setback)...), how)...)
	sharp := a.Angle > 90 && !math.IsInf(a.Mold, 0)
	if sharp {
		t.row(append(append([]string{"  to the sharp"}, two(a.Mold)...), "(R + T) tan(angle/2), as handbooks that go on to the sharp")...)
	}
	t.row(append(append([]string{"Bend deduction"}, two(a.Deduction)...), "2 setbacks less the allowance: off the sum of the outside sizes")...)
	if sharp {
		t.row(append(append([]string{"  to the sharps"}, two(moldDeduction(a))...), "off the sum of sizes to the outside sharps")...)
	}
	if a.Flats != nil {
		t.row(append(append([]string{"Developed length"}, two(a.Developed)...), fmt.Sprintf("of a strip of %d legs with %s", len(a.Flats), count(a.Bends, "bend")))...)
	}
	t.Flush()
	writeStrip(w, a, u)
	writeOthers(w, a, u)
	writeNexts(w, a, u)
	writeBendLimits(w, a, u)
	for i, n := range append(q.notes, a.Notes...) {
		if i == 0 {
			fmt.Fprintln(w)
		}
		hanging(w, "- ", fold.InUnits(n, u))
	}
}

// moldDeduction is the deduction where sizes are measured to the outside sharps past 90 degrees too.
func moldDeduction(a metal.Answer) float64 { return 2*a.Mold - a.Allowance }

// perDegree writes an allowance for one degree, which handbook charts print to a millionth of an inch.
func perDegree(mm float64, u fold.Units) string {
	if u == fold.Inch {
		return fmt.Sprintf("%.6f", mm/mmPerInch)
	}
	return fmt.Sprintf("%.5f", mm)
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d equal %ss", n, what)
}

// writeStrip lists the strip's legs and where its bends lie when it is flat.
func writeStrip(w io.Writer, a metal.Answer, u fold.Units) {
	if a.Flats == nil {
		return
	}
	o := other(u)
	t := newTable(w, "\nLegs", "", "outside, "+u.String(), o.String(), "inside, "+u.String(), o.String(), "flat between tangent lines, "+u.String(), o.String())
	for i, f := range a.Flats {
		t.row(fmt.Sprint(i+1), number(a.Outside[i], u), number(a.Outside[i], o), number(a.Inside[i], u), number(a.Inside[i], o), number(f, u), number(f, o))
	}
	t.Flush()
	t = newTable(w, "\nMarks on the flat strip, from leg 1's end", "bend", "tangent line, "+u.String(), o.String(), "bend line, "+u.String(), o.String(), "tangent line, "+u.String(), o.String())
	for i, m := range marksOf(a) {
		t.row(fmt.Sprint(i+1), number(m.from, u), number(m.from, o), number(m.line, u), number(m.line, o), number(m.to, u), number(m.to, o))
	}
	t.Flush()
}

// blankOf is what changes, + longer, - shorter: the strip where there is one.
func blankOf(a metal.Answer) string {
	if a.Flats != nil {
		return "strip changes by, mm"
	}
	return "blank changes by, mm"
}

// writeOthers sets every other rule's answer beside the one above.
func writeOthers(w io.Writer, a metal.Answer, u fold.Units) {
	t := newTable(w, "\nBy the other rules, biggest difference first", "", "K", "allowance, "+u.String(), "deduction, "+u.String(), blankOf(a))
	for _, o := range a.Others {
		if o.Why == "" {
			t.row(o.Name, fmt.Sprintf("%.3f", o.K), number(o.Allowance, u), number(o.Deduction, u), signed(o.Differs, 2))
		}
	}
	t.Flush()
	for _, o := range a.Others {
		if o.Why != "" {
			hanging(w, "  ", o.Name+": no answer; "+o.Why)
		} else {
			hanging(w, "  ", o.Name+": "+o.Source.String())
		}
	}
}

// writeNexts says what another radius or K would be worth.
func writeNexts(w io.Writer, a metal.Answer, u fold.Units) {
	if len(a.Nexts) == 0 {
		return
	}
	t := newTable(w, "\nWhat doubt is worth here, biggest first", "if", "allowance, "+u.String(), "deduction, "+u.String(), blankOf(a))
	for _, n := range a.Nexts {
		is := fmt.Sprintf("K %.3f instead of %.3f", n.K, a.K)
		switch n.About {
		case "radius":
			is = fmt.Sprintf("R %s instead of %s %s", trimZeros(number(n.Radius, u)), trimZeros(number(a.Radius, u)), u)
		case "spread":
			is += ", the end of its spread"
		}
		t.row(is, number(n.Allowance, u), number(n.Deduction, u), signed(n.Differs, 2))
	}
	t.Flush()
}

// writeBendLimits says what is known of the least radius and of the angle to stop at.
func writeBendLimits(w io.Writer, a metal.Answer, u fold.Units) {
	if len(a.Least) > 0 {
		fmt.Fprintf(w, "\nLeast inside radius, by the lists\n")
		for _, l := range fold.LeastRadii(a.Least) {
			hanging(w, "  ", leastLine(l, func(mm float64) string { return number(mm, u) }, u))
		}
	}
	if a.Set == 0 && a.SetLeast.Hi == 0 {
		return
	}
	fmt.Fprintf(w, "\nSet angle: where the leaf is stopped\n")
	if a.Set > 0 {
		hanging(w, "  ", fmt.Sprintf("%s deg, give or take %s; %s", angle(a.Set), angle(math.Max(a.SetDoubt, leastDoubt)), fold.InUnits(a.SetSource.String(), u)))
	}
	if a.SetLeast.Hi > 0 {
		hanging(w, "  ", fmt.Sprintf("at least %s deg by the springback formula, a lower limit: bend a strip first; %s", span(a.SetLeast.Lo, a.SetLeast.Hi), a.SetLeastSource))
	}
}
