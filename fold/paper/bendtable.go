package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/draft"
)

// This file writes the bend table, and under it what its numbers rest on: where to stop the leaf,
// K, the inside radius, and what doubt about them is worth.

// bendTable has a row for each bend, in the order of its first swing.
func (sh *sheet) bendTable() table {
	t := table{class: "bends", title: "Bends, in order. Angles from flat; the mark goes under the nose", cols: []column{
		{"No.", 8, false, true}, {"Bend", 30, false, false}, {"Way", 13.5, false, false}, {"Mark, sight line", 43, false, true},
		{"Stop the leaf at", 27, true, true}, {"After", 13, true, false}, {"Held", 20, false, false}, {"Tangent lines", 33.5, false, false}}}
	for _, i := range sh.byCard() {
		b := &sh.part.Bends[i]
		t.rows = append(t.rows, []string{sh.cards[i], b.Name, way(b.Up), sh.markWords(i), sh.stopAt(i), degrees(b.Angle) + "°",
			sh.part.Panels[b.A].Name, sh.tangentWords(i)})
	}
	return t
}

// edgeNames are the datum edges by axis.
var edgeNames = [2]string{"A", "B"}

// markWords say where a bend's mark lies: "16.5 from B", or of a leaning line "55.5 to 66 from A".
func (sh *sheet) markWords(i int) string {
	l := &sh.m.bends[i].lines[sightLine]
	if l.along >= 0 {
		return roomy(sh.m.say(l.ends[0][l.along])+" from "+edgeNames[l.along], 42)
	}
	axis := 0
	if d := l.exact[1].Sub(l.exact[0]); math.Abs(d[0]) > math.Abs(d[1]) {
		axis = 1
	}
	return roomy(fmt.Sprintf("%s to %s from %s", sh.m.say(l.ends[0][axis]), sh.m.say(l.ends[1][axis]), edgeNames[axis]), 42)
}

// runTogether reports whether the rule shows two lines of a bend, its mark aside, as one: they are then given as a calliper reads.
func (m *marks) runTogether(i int) bool {
	l := &m.bends[i].lines
	same := func(a, b int) bool { return l[a].ends == l[b].ends }
	return m.rule.coarse() && (same(heldLine, bendLine) || same(bendLine, farLine) || same(heldLine, farLine))
}

// roomy is a text that fits a width, or the table in which it stands too: a figure is never cut short.
func roomy(t string, width float64) string {
	if draft.Width(t, textSize) > width {
		return seeLines
	}
	return t
}

const seeLines = "see lines"

// tangentWords say where a bend's tangent lines lie, held side first, from the edge that its mark is measured from.
func (sh *sheet) tangentWords(i int) string {
	held, far := &sh.m.bends[i].lines[heldLine], &sh.m.bends[i].lines[farLine]
	if a := sh.m.bends[i].lines[sightLine].along; a >= 0 && held.along == a && far.along == a {
		if sh.m.runTogether(i) {
			c := calliper(sh.m.units, 0)
			return roomy(c.say(held.exact[0][a])+", "+c.say(far.exact[0][a]), 32.5)
		}
		return roomy(sh.m.say(held.ends[0][a])+", "+sh.m.say(far.ends[0][a]), 32.5)
	}
	return seeLines
}

// lineTable has every line of every bend by its ends.
func (sh *sheet) lineTable() table {
	t := table{class: "lines", title: "Lines of the bends, by the distances of their ends", brief: "Lines of the bends", cols: append(append([]column{
		{"No.", 8, false, true}, {"Line", 19.5, false, false}}, sh.lengthCols("1st: A", "B")...), sh.lengthCols("2nd: A", "B")...)}
	for _, i := range sh.byCard() {
		for k, l := range sh.m.bends[i].lines {
			row := []string{sh.cards[i], lineNames[k]}
			for e := range l.ends {
				cells := sh.lengthCells(l.ends[e], l.exact[e])
				if k != sightLine && sh.m.runTogether(i) {
					cells = sh.exactCells(l.exact[e])
				}
				row = append(row, cells...)
			}
			t.rows = append(t.rows, row)
		}
	}
	return t
}

// basisTable says what the bends' numbers rest on.
func (sh *sheet) basisTable() table {
	t := table{class: "basis", title: "What the bends rest on", brief: "Rests on", cols: []column{
		{"No.", 7.5, false, true}, {"radius", 12, true, false}, {"it is", 16, false, false}, {"K", 12.5, true, false}, {"it is", 16, false, false}, {"takes", 11, true, false}}}
	for _, i := range sh.byCard() {
		b := &sh.part.Bends[i]
		t.rows = append(t.rows, []string{sh.cards[i], sh.fine(b.Radius), radiusKind(sh.bendReport(i).RadiusFrom), trim(b.K, 4), sh.kKind(i), sh.say2(b.Allowance)})
	}
	return t
}

// radiusKind is in a word or two how a bend's radius is known.
func radiusKind(from string) string {
	switch from {
	case "nose":
		return "the nose's"
	case "strip":
		return "measured"
	}
	return "assumed"
}

// byCard lists the bends in the order of their first swing.
func (sh *sheet) byCard() []int {
	var out []int
	done := make([]bool, len(sh.part.Bends))
	add := func(i int) {
		if !done[i] {
			done[i] = true
			out = append(out, i)
		}
	}
	for _, s := range sh.part.Swings {
		for _, b := range s.Bends {
			add(b)
		}
	}
	for i := range done {
		add(i)
	}
	return out
}

func way(up bool) string {
	if up {
		return "↑ up"
	}
	return "↓ down"
}

// bendReport is what the report says of a bend; of one that it leaves out nothing.
func (sh *sheet) bendReport(i int) fold.BendReport {
	if i < len(sh.rep.Bends) {
		return sh.rep.Bends[i]
	}
	return fold.BendReport{}
}

// stopAt says where to stop the leaf: what test bends measured, never what a formula gives.
func (sh *sheet) stopAt(i int) string {
	switch r := sh.bendReport(i); {
	case r.SetMeasured:
		return fmt.Sprintf("%s ± %s°", trim(r.SetAngle, 1), trim(max(r.SetDoubt, fold.LeastDoubt), 1))
	case sh.hem(i):
		return "flatten"
	}
	return "bend a strip first*"
}

// hem reports a bend that is flattened, of which nothing springs back that a leaf could take up.
func (sh *sheet) hem(i int) bool { return sh.part.Bends[i].Angle >= math.Pi-1e-9 }

// kKind is in a word what a bend's K rests on.
func (sh *sheet) kKind(i int) string {
	switch kind := sh.bendReport(i).KKind; kind {
	case "measured by you":
		return "measured"
	case "given by you":
		return "given"
	case "common practice":
		return "practice"
	case "published":
		return kind
	}
	return "assumed"
}

// bendNotes are the lines under the table: a paragraph each.
func (sh *sheet) bendNotes() []string {
	if len(sh.part.Bends) == 0 {
		return nil
	}
	var out []string
	all := sh.byCard()
	var unmeasured, measured []int
	for _, i := range all {
		switch {
		case sh.bendReport(i).SetMeasured:
			measured = append(measured, i)
		case !sh.hem(i):
			unmeasured = append(unmeasured, i)
		}
	}
	if len(unmeasured) > 0 {
		t := "* Not measured: the leaf goes further than the finished angle, so bend a strip of this sheet first."
		formula := sh.grouped(unmeasured, func(i int) string {
			if l := sh.bendReport(i).SetLeast; l != nil {
				return trim(l[0], 1) + "°"
			}
			return ""
		})
		if formula != "" {
			t += " By formula at least " + formula + ", a lower limit: hand brakes take several degrees more (common practice, no source)."
		}
		out = append(out, t)
	}
	if len(measured) > 0 {
		out = append(out, "Stop the leaf at: "+sh.grouped(measured, func(i int) string { return fold.InUnits(sh.bendReport(i).SetSource, sh.m.units) })+".")
	}
	k := sh.grouped(all, func(i int) string {
		r := sh.bendReport(i)
		t := strings.TrimPrefix(fold.InUnits(r.KSource, sh.m.units), "assumed: ")
		if t != "" && r.KSpread > 0 {
			t = fmt.Sprintf("%.3f ± %.3f, %s", r.K, r.KSpread, t)
		}
		return t
	})
	radius := sh.grouped(all, func(i int) string {
		switch sh.bendReport(i).RadiusFrom {
		case "nose":
			return "the nose's"
		case "strip":
			return "measured on a strip"
		}
		return "assumed"
	})
	if sh.unknownNose() {
		out = append(out, "The mark lies one inside radius from the held tangent line, towards what swings (FAA-H-8083-31): in the bend, or past it where the bend is shallow. So it is where the nose has the bend's inside radius. With another nose set it off by that nose's radius.")
	}
	if k != "" {
		out = append(out, "K: "+k+". Inside radius: "+radius+".")
	}
	if w := sh.doubt(); w != "" {
		out = append(out, w)
	}
	return out
}

// unknownNose reports whether some bend's radius is not known to be its nose's.
func (sh *sheet) unknownNose() bool {
	for i := range sh.part.Bends {
		if sh.bendReport(i).RadiusFrom != "nose" {
			return true
		}
	}
	return false
}

// Names and groups that a note lists before it says how many more there are.
const (
	maxNoted  = 14
	maxGroups = 5
)

// grouped says something of each of some bends, once for all of which it is the same, with their numbers where there
// is more than one thing to say. Bends of which nothing is said are left out.
func (sh *sheet) grouped(bends []int, say func(int) string) string {
	var said []string
	of := map[string][]string{}
	for _, i := range bends {
		t := say(i)
		if t == "" {
			continue
		}
		if of[t] == nil {
			said = append(said, t)
		}
		if !slices.Contains(of[t], sh.cards[i]) {
			of[t] = append(of[t], sh.cards[i])
		}
	}
	if len(said) == 1 {
		return said[0]
	}
	var out []string
	for n, t := range said {
		if n == maxGroups {
			out = append(out, fmt.Sprintf("and %d others", len(said)-n))
			break
		}
		names := of[t]
		if len(names) > maxNoted {
			names = append(slices.Clone(names[:maxNoted]), fmt.Sprintf("%d more", len(names)-maxNoted))
		}
		out = append(out, t+" ("+strings.Join(names, ", ")+")")
	}
	return strings.Join(out, "; ")
}

// doubt says what the two numbers in most doubt are worth on this part: the first of the report's
// and the first that is about something else.
func (sh *sheet) doubt() string {
	var few []fold.Worth
	for _, w := range sh.rep.Worth {
		if w.Known && (len(few) == 0 || len(few) == 1 && w.About != few[0].About) {
			few = append(few, w)
		}
	}
	if len(few) == 0 {
		return ""
	}
	signed := func(v float64) string {
		t := sh.say2(v)
		switch {
		case strings.Trim(t, "-0.") == "":
			return "0"
		case v > 0:
			return "+" + t
		}
		return "−" + t[1:]
	}
	var out []string
	for _, w := range few {
		f, blank := sh.longFirst(*w.Finished), "not worked out"
		if w.BlankKnown {
			blank = fmt.Sprintf("%s × %s", signed(w.Blank[0]), signed(w.Blank[1]))
		}
		out = append(out, fmt.Sprintf("%s, finished %s × %s × %s, or blank %s", fold.InUnits(w.If, sh.m.units),
			signed(f[0]), signed(f[1]), signed(f[2]), blank))
	}
	return "What doubt is worth, on this blank or for the same sizes: " + strings.Join(out, "; ") + " " + unitName(sh.m.units) + "."
}
