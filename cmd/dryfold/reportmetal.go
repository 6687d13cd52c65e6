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
			rectangle = "; its rectangle of sheet " + weight(*b.Rectangle)
		}
		source := ""
		if b.MassSource != "" {
			source = "; density " + b.MassSource
		}
		hanging(w, "Weight    ", weight(*b.Mass)+rectangle+source)
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
		if !p.Known {
			total = "not known"
		}
		if p.How != "" {
			total += ": " + p.How
		}
		hanging(w, "Price     ", total)
	}
}

// weight writes kg, in grams under 1 kg, to where a digit more says nothing of a sheet.
func weight(kg float64) string {
	switch {
	case kg < 0.001:
		return trimZeros(fmt.Sprintf("%.3f", kg*1000)) + " g"
	case kg < 0.1:
		return trimZeros(fmt.Sprintf("%.1f", kg*1000)) + " g"
	case kg < 0.9995:
		return fmt.Sprintf("%.0f g", kg*1000)
	}
	return fmt.Sprintf("%.3f kg", kg)
}

// writeSets says for each bend where the leaf is stopped, and under the table what that rests on.
func writeSets(w io.Writer, bends []fold.BendReport, u units) {
	row := func(b fold.BendReport) []string {
		stop, least := "not known; bend a strip first", ""
		switch {
		case b.SetMeasured && b.SetDoubt > 0:
			stop = fmt.Sprintf("%s deg, give or take %s", angle(b.SetAngle), angle(math.Max(b.SetDoubt, leastDoubt)))
		case b.SetMeasured || b.Angle >= 180: // a hem gives nothing back
			stop = angle(b.SetAngle) + " deg"
		}
		if l := b.SetLeast; l != nil {
			least = span(l[0], l[1]) + " deg"
		}
		return []string{angle(b.Angle) + " deg", stop, least}
	}
	groups := grouped(bends, func(b fold.BendReport) []string {
		if b.SetSource == "" && b.SetLeast == nil {
			return nil
		}
		return row(b)
	})
	if len(groups) == 0 {
		return
	}
	t := newTable(w, "\nSet angle: where the leaf is stopped", "", "from flat", "stop at", "at least, by formula")
	for _, g := range groups {
		t.row(append([]string{g.names()}, g.said...)...)
	}
	t.Flush()
	writeSources(w, "Stop at", bends, func(b fold.BendReport) string { return fold.InUnits(b.SetSource, fold.Units(u)) })
	writeSources(w, "At least", bends, func(b fold.BendReport) string {
		if b.SetLeast == nil {
			return ""
		}
		return b.SetLeastSource
	})
}

// leastDoubt is the least that a doubt of an angle is printed as, degrees: what angles are printed to.
const leastDoubt = 0.1

// writeSources writes what is said of the bends once each, with the bends' names where it is not the same of all.
func writeSources(w io.Writer, what string, bends []fold.BendReport, of func(fold.BendReport) string) {
	all := grouped(bends, func(b fold.BendReport) []string {
		if s := of(b); s != "" {
			return []string{s}
		}
		return nil
	})
	for _, g := range all {
		head := what
		if len(all) > 1 {
			head += " (" + g.names() + ")"
		}
		hanging(w, "  ", head+": "+g.said[0])
	}
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
	groups := grouped(bends, func(b fold.BendReport) []string {
		if len(b.LeastRadius) == 0 {
			return nil
		}
		says := []string{fmt.Sprintf("inside radius %s %s%s%s", u.fine(b.Radius), fold.Units(u), radiusFrom(b.RadiusFrom), toGrain(b.Grain))}
		for _, l := range b.LeastRadius {
			says = append(says, leastLine(l, u.fine, fold.Units(u)))
		}
		return says
	})
	if len(groups) == 0 {
		return
	}
	fmt.Fprintf(w, "\nLeast inside radius, by the lists\n")
	for _, g := range groups {
		hanging(w, "  ", g.names())
		for _, line := range g.said {
			hanging(w, "    ", line)
		}
	}
}

// leastLine is one list's figure: "0.80 to 1.60 mm across the grain, recommended, not least; published: ...".
func leastLine(l fold.LeastRadius, write func(mm float64) string, u fold.Units) string {
	r := write(l.Radius)
	if l.High > l.Radius {
		r += " to " + write(l.High)
	}
	r += " " + u.String()
	if l.Direction != "" {
		r += " " + l.Direction + " the grain"
	}
	if l.Advice {
		r += ", recommended, not least"
	}
	return r + "; " + l.Source
}

// radiusFrom says how a bend's radius is known.
func radiusFrom(from string) string {
	switch from {
	case "":
		return ""
	case "strip":
		return ", measured on a bent strip"
	case "nose":
		return ", by the nose"
	case "bar-back":
		return ", by how far the bar is set back"
	}
	return ", " + from
}

// toGrain says how a bend's line lies to the grain.
func toGrain(grain string) string {
	switch grain {
	case "":
		return ""
	case "slanting":
		return "; bend line slanting to the grain"
	}
	return "; bend line " + grain + " the grain"
}

// group is bends of which the same is said.
type group struct{ bends, said []string }

func (g group) names() string { return strings.Join(g.bends, ", ") }

// grouped gathers the bends of which the same is said, in the order of the first of each;
// those of which nothing is said are left out.
func grouped(bends []fold.BendReport, of func(fold.BendReport) []string) []group {
	var all []group
	for _, b := range bends {
		s := of(b)
		if len(s) == 0 {
			continue
		}
		i := slices.IndexFunc(all, func(g group) bool { return slices.Equal(g.said, s) })
		if i < 0 {
			i = len(all)
			all = append(all, group{said: s})
		}
		all[i].bends = append(all[i].bends, plainName(b.Name))
	}
	return all
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
		blank := "not worked out"
		if x.BlankKnown {
			blank = changes(u, x.Blank[:])
		}
		t.row(is, blank, changes(u, x.Finished[:]))
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
