package main

// What check's report says of the metal: where the leaf is stopped, how tight a
// bend may be, what doubt is worth on this part, weight and price. What the
// report does not hold is left out.

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
)

// textWidth is how far lines of prose run, in characters.
const textWidth = 96

// writeWeights says what blank and sheet weigh, and the price.
func writeWeights(w io.Writer, r fold.Report) {
	b := r.Blank
	if b.Mass != nil {
		rectangle := ""
		if b.Rectangle != nil {
			rectangle = fmt.Sprintf("; its rectangle of sheet %.3f kg", *b.Rectangle)
		}
		source := ""
		if b.MassSource != "" {
			source = "; density " + b.MassSource
		}
		hanging(w, "Weight    ", fmt.Sprintf("%.3f kg%s%s", *b.Mass, rectangle, source))
	}
	if p := r.Price; p != nil {
		var sums []string
		for _, s := range []struct {
			what string
			sum  float64
		}{{"metal", p.Metal}, {"work", p.Work}} {
			if s.sum != 0 {
				sums = append(sums, fmt.Sprintf("%s %.2f", s.what, s.sum))
			}
		}
		total := strings.TrimSpace(fmt.Sprintf("%.2f %s", p.Total, p.Currency))
		if len(sums) > 1 {
			total = strings.Join(sums, ", ") + ", together " + total
		}
		if p.How != "" {
			total += ": " + p.How
		}
		hanging(w, "Price     ", total)
	}
}

// writeSets says for each bend where the leaf is stopped, and what that rests on.
func writeSets(w io.Writer, bends []fold.BendReport) {
	writeGrouped(w, "Set angle: where the leaf is stopped", bends, func(b fold.BendReport) []string {
		var says []string
		switch {
		case b.SetMeasured && b.SetDoubt > 0:
			says = append(says, fmt.Sprintf("%s deg, give or take %s; %s", angle(b.SetAngle), angle(math.Max(b.SetDoubt, 0.1)), b.SetSource))
		case b.SetMeasured:
			says = append(says, fmt.Sprintf("%s deg; %s", angle(b.SetAngle), b.SetSource))
		case b.SetSource != "":
			says = append(says, "not known: "+b.SetSource)
		}
		if l := b.SetLeast; l != nil && !b.SetMeasured {
			says = append(says, fmt.Sprintf("at least %s deg, a lower limit: %s; bend a strip first", span(l[0], l[1]), b.SetLeastSource))
		}
		return says
	})
}

// span is "91.2" or "91.2 to 92.8", of angles.
func span(lo, hi float64) string {
	if angle(lo) == angle(hi) {
		return angle(lo)
	}
	return angle(lo) + " to " + angle(hi)
}

// writeLeast says for each bend what the lists give as its least inside radius.
func writeLeast(w io.Writer, bends []fold.BendReport, u units) {
	writeGrouped(w, "Least inside radius, by the lists", bends, func(b fold.BendReport) []string {
		var says []string
		for _, l := range b.LeastRadius {
			way := ""
			if l.Direction != "" {
				way = " " + l.Direction + " the grain"
			}
			says = append(says, fmt.Sprintf("%s %s%s; %s", u.fine(l.Radius), fold.Units(u), way, l.Source))
		}
		if len(says) > 0 {
			is := fmt.Sprintf("inside radius %s %s", u.fine(b.Radius), fold.Units(u))
			if b.RadiusFrom != "" {
				is += ", " + radiusFrom(b.RadiusFrom)
			}
			if b.Grain != "" {
				is += "; bend line " + b.Grain + " the grain"
				if b.Grain == "slanting" {
					is = strings.TrimSuffix(is, " the grain") + " to the grain"
				}
			}
			says = append([]string{is}, says...)
		}
		return says
	})
}

// radiusFrom says how a bend's radius is known.
func radiusFrom(from string) string {
	switch from {
	case "strip":
		return "measured on a bent strip"
	case "nose":
		return "by the nose"
	case "bar-back":
		return "by how far the bar is set back"
	}
	return from
}

// writeGrouped writes what is said of each bend, bends of which the same is said together.
func writeGrouped(w io.Writer, title string, bends []fold.BendReport, of func(fold.BendReport) []string) {
	var names [][]string
	var said [][]string
	for _, b := range bends {
		s := of(b)
		if len(s) == 0 {
			continue
		}
		i := slices.IndexFunc(said, func(o []string) bool { return slices.Equal(o, s) })
		if i < 0 {
			i = len(said)
			said, names = append(said, s), append(names, nil)
		}
		names[i] = append(names[i], plainName(b.Name))
	}
	if len(said) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", title)
	for i, s := range said {
		hanging(w, "  ", strings.Join(names[i], ", "))
		for _, line := range s {
			hanging(w, "    ", line)
		}
	}
}

// writeWorth says what would change were a number that nobody measured another.
func writeWorth(w io.Writer, worth []fold.Worth, u units) {
	if len(worth) == 0 {
		return
	}
	name := fold.Units(u).String()
	t := newTable(w, "\nWhat doubt is worth here, biggest first", "if", "blank, for the same sizes, "+name, "finished, from the same blank, "+name)
	for _, x := range worth {
		is := fold.InUnits(x.If, fold.Units(u))
		if !x.Known {
			t.row(is, "it would not fold then", "")
			continue
		}
		t.row(is, changes(u, x.Blank[:]), changes(u, x.Finished[:]))
	}
	t.Flush()
}

// changes writes differences of sizes: "+1.10 x -0.40".
func changes(u units, d []float64) string {
	var out []string
	for _, v := range d {
		s := u.fine(v)
		if strings.Trim(s, "0.") != "" && v > 0 {
			s = "+" + s
		}
		out = append(out, s)
	}
	return strings.Join(out, " x ")
}

// hanging writes a text behind a head, its further lines set in as far.
func hanging(w io.Writer, head, text string) {
	for _, line := range wrap(text, textWidth-len(head)) {
		fmt.Fprintln(w, head+line)
		head = strings.Repeat(" ", len(head))
	}
}

// plainName is a name without what would break a line.
func plainName(s string) string { return strings.Join(strings.Fields(s), " ") }
