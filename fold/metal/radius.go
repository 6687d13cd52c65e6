package metal

import (
	"math"
	"slices"
	"strings"
	"sync"
)

// This file holds the lists of least inside radii by metal, thickness and direction of the grain.

// Least is a least inside radius by one list.
type Least struct {
	Radius    float64 // mm
	High      float64 // mm: the list's upper figure where it gives a range, else Radius
	Direction string  // of the bend line to the grain, "across", "along" or "across or along"; "" where the list does not tell
	Advice    bool    // the list recommends a radius that forms easily, rather than the least
	Source    Source

	list string // which list it is of, whatever the class and the direction
}

// Under reports whether an inside radius (mm) is less than the figure by more than lists are rounded by.
func (l Least) Under(radius float64) bool { return radius < l.Radius-leastSlack }

// leastList is one list as it is printed. Each row is names apart by |, a colon, then one figure a
// thickness: a radius over thickness, or a radius where unit is set. "1-2" is a range, "x" is not recommended, and "*"
// marks a figure read in a stored text where the rest of the list was recalled.
type leastList struct {
	source Source
	dir    string
	advice bool
	unit   float64 // mm in one unit of the radii, 0 for radius over thickness
	at     string  // thicknesses covered, up to each in turn, in mm or inches as perAt says; "" for any
	perAt  float64 // mm in one unit of at
	only   bool    // speaks of its thicknesses alone, not of thinner sheet
	reach  float64 // of the thickness: how much over a row's the sheet may be
	rows   []string
}

const (
	adm     = `Aluminum Association, Aluminum Design Manual Part VII p.VII-78 (Jan 2005) Table 3-1 "Recommended minimum bend radii for 90 deg cold bends"`
	credit  = "design table crediting Aluminum Association and AISI"
	brass26 = "C26000 data sheet, 90 degree bends, under 0.016 in"
	eighths = ".015625 .03125 .0625 .125 .1875 .25 .375 .5"
	dinMM   = "1 1.5 2.5 3 4 5 6 7 8 10 12 14 16 18 20"
	din     = "DIN 6935 Table 1, bends up to 120 degrees (the next higher radius above)"
)

// trade is the list that gives a floor as well: half the thickness, and 0.8 mm at least.
const (
	trade      = "trade list: half the thickness, 0.8 mm at least"
	tradeFloor = 0.8 // mm
)

var leastLists = []leastList{
	{source: Source{Kind: Published, Title: adm}, at: eighths, perAt: mmPerInch, reach: rowReach, rows: []string{
		"1100-O:0 0 0 0 .5 1 1 1.5", "1100-H12:0 0 0 .5 1 1 1.5 2", "1100-H14:0 0 0 1 1 1.5 2 2.5",
		"1100-H16:0 .5 1 1.5 1.5 2.5 3 4", "1100-H18:1 1 1.5 2.5 3 3.5 4 4.5",
		"2024-O:0 0 0 .5 1 1 2.5 4", "2024-T3:2.5 3 4 5 5 6 7 7.5",
		"3003-O:0 0 0 0 .5 1 1 1.5", "3003-H12:0 0 0 .5 1 1 1.5 2", "3003-H14:0 0 0 1 1 1.5 2 2.5",
		"3003-H16:.5 1 1 1.5 2.5 3 3.5 4", "3003-H18:1 1.5 2 2.5 3.5 4.5 5.5 6.5",
		"5052-O:0 0 0 .5 1 1 1.5 1.5", "5052-H32:0 0 1 1.5 1.5 1.5 1.5 2", "5052-H34:0 1 1.5 2 2 2.5 2.5 3",
		"5052-H36:1 1 1.5 2.5 3 3.5 4 4.5", "5052-H38:1 1.5 2.5 3 4 5 5.5 6.5",
	}},
	{source: Source{Kind: Published, Title: credit}, at: eighths, perAt: mmPerInch, reach: rowReach, rows: []string{
		"6061-O:0 0 0 1 1 1 1.5 2", "6061-T4:0 0 1 1.5 2.5 3 3.5 4", "6061-T6:1 1 1.5 2.5 3 3.5 4.5 5",
	}},
	{source: Source{Kind: Published, Title: credit + ", preferred radii"}, advice: true, unit: mmPerInch, perAt: mmPerInch, reach: rowReach,
		at: ".02 .025 .028 .032 .04 .05 .063 .074 .08 .09 .1 .125 .14 .188", rows: []string{
			"6061-T6:.063 .094 .094 .094 .125 .156 .188 .25 .281 .312 .375 .5 .562 .625",
			"5052-H32:.063 .063 .063 .063 .063 .094 .094 .125 .125 .156 .156 .188 .25 .312",
			"5052-H34|6061-T4|2024-O:.063 .063 .063 .063 .094 .094 .125 .156 .156 .188 .188 .25 .281 .375",
			"3003-O|1100-O|6061-O|5052-O:.063 .031 .031 .031 .063 .063 .063 .094 .094 .094 .125 .125 .156 .188",
			"2024-T3:.063 .094 .094 .125 .188 .188 .25 .281 .344 .375 .438 .562 .625 .875",
			"1020|1025|4130 annealed steel:.063 .063 .063 .063 .094 .094 .094 .125 .125 .125 .156 .188 .188 .375",
			"4130 normalized steel:.063 .063 .063 .094 .125 .156 .188 .25 .25 .281 .312 .375 .438 .5",
			"18-8 type 304 stainless:.063 .063 .063 .063 .094 .094 .125 .156 .156 .188 .25 x x x",
			"18-8 type 302 stainless:.063 .063 .094 .094 .125 .125 .188 .25 .25 .25 .281 x x x",
		}},
	{source: Source{Kind: Published, Memory: true, Title: `FAA AC 43.13-1B Table 4-6 "Recommended radii for 90-degree bends in aluminum alloys"`},
		at: ".016 .032 .064 .128 .182 .258", perAt: mmPerInch, reach: rowReach, rows: []string{
			"2024-O:0 0-1 0-1 0-1 0-1 0-1", "2024-T3:1.5-3 2-4 *3-5 4-6 4-6 5-7", "5052-O:0 0 0-1 0-1 0-1 0-1",
			"5052-H32:0 0 .5-1 .5-1.5 .5-1.5 .5-1.5", "6061-O:0 0-1 0-1 0-1 0-1 0-1",
			"6061-T4:0-1 0-1 .5-1.5 1-2 1.5-3 2.5-4", "6061-T6:0-1 .5-1.5 1-2 1.5-3 2-4 3-4",
		}},
	{source: Source{Kind: Published, Memory: true, Title: `Kalpakjian & Schmid Table "Minimum bend radius for various metals at room temperature"`}, rows: []string{
		"aluminium alloys soft:0", "aluminium alloys hard:6", "aluminium alloys:0-6",
		"brass, low-leaded soft:0", "brass, low-leaded hard:2", "brass, low-leaded:0-2",
		"austenitic stainless soft:.5", "austenitic stainless hard:6",
		"low-carbon / low-alloy / HSLA steel soft:.5", "low-carbon / low-alloy / HSLA steel hard:4", "low-carbon / low-alloy / HSLA steel:.5-4",
		"titanium soft:.7", "titanium hard:3",
	}},
	{source: Source{Kind: Published, Title: brass26}, dir: "across", at: ".016", perAt: mmPerInch, rows: []string{
		"C26000 half hard:.5", "C26000 3/4 hard:1", "C26000 hard:1.3", "C26000 extra hard:1.8", "C26000 spring:3"}},
	{source: Source{Kind: Published, Title: brass26}, dir: "along", at: ".016", perAt: mmPerInch, rows: []string{
		"C26000 half hard:.5", "C26000 3/4 hard:1.3", "C26000 hard:1.8", "C26000 extra hard:3", "C26000 spring:5"}},
	{source: Source{Kind: Published, Title: `FAA-H-8083-31 (2012) Vol.1 ch.4 "Layout and Forming", chart of least radii`},
		unit: mmPerInch, at: ".04", perAt: mmPerInch, only: true, reach: rowReach, rows: []string{"2024-T3:.16"}},
	{source: Source{Kind: Published, Title: "FAA-H-8083-31 ch.4 text: annealed sheet, about the thickness"}, rows: []string{"annealed sheet:1"}},
	{source: Source{Kind: Practice, Title: "aircraft table"}, unit: mmPerInch, at: ".016 .02 .025 .032", perAt: mmPerInch, reach: rowReach, rows: []string{
		"5052-O|6061-O:.03 .03 .03 .03", "6061-T6|2024-T3:.06 .06 .09 .12"}},
	{source: Source{Kind: Practice, Title: trade}, rows: []string{"low-carbon steel:.5"}},
	{source: Source{Kind: Published, Memory: true, Title: din}, dir: "across", unit: 1, at: dinMM, perAt: 1, rows: []string{
		"steel up to 390 N/mm2:1 1.6 2.5 3 5 6 8 10 12 16 20 25 28 36 40",
		"steel up to 490 N/mm2:1.2 2 3 4 5 8 *10 12 16 20 25 28 32 40 45",
		"steel up to 640 N/mm2:1.6 2.5 4 5 6 8 10 12 16 20 25 32 36 45 50"}},
	{source: Source{Kind: Published, Memory: true, Title: din}, dir: "along", unit: 1, at: dinMM, perAt: 1, rows: []string{
		"steel up to 390 N/mm2:1 1.6 2.5 3 6 8 10 12 16 20 25 28 32 40 45",
		"steel up to 490 N/mm2:1.2 2 3 4 6 10 12 16 20 25 32 36 40 45 50",
		"steel up to 640 N/mm2:1.6 2.5 4 5 8 10 12 16 20 25 32 36 40 50 63"}},
}

// leastRow is one row of a list, taken apart.
type leastRow struct {
	list   *leastList
	names  []string // keys
	class  string   // as the list prints it
	values []string
}

var leastRows = sync.OnceValue(func() []leastRow {
	var all []leastRow
	for i := range leastLists {
		for _, r := range leastLists[i].rows {
			class, figures, _ := strings.Cut(r, ":")
			row := leastRow{list: &leastLists[i], class: class, values: strings.Fields(figures)}
			for _, n := range strings.Split(class, "|") {
				row.names = append(row.names, key(n))
			}
			all = append(all, row)
		}
	}
	return all
})

// LeastRadius is the least inside radius for sheet of the metal and thickness in mm, by each list that
// speaks of them, the maker's own figure first. Direction is that of the bend line to the grain: "across", "along", or ""
// where it is not known or slanting, which brings both figures of a list that tells them apart, and one for "across or along"
// where they are the same.
// Nothing is interpolated: the row that covers the thickness counts, else the next thicker one. Where a
// steel's strength may lie in two classes of DIN 6935, both are given. The lists speak of bends of 90 degrees,
// DIN 6935 of up to 120; beyond, more radius is wanted.
func LeastRadius(m Metal, thickness float64, direction string) []Least {
	if !(thickness > 0) || math.IsInf(thickness, 1) {
		return nil
	}
	var out []Least
	if m.LeastRT != nil {
		r := *m.LeastRT * thickness
		src := FromWords("")
		if m.Own {
			src = FromWords(m.Note)
		}
		out = append(out, Least{Radius: r, High: r, Source: src, list: "own"})
	}
	names := m.listed()
	for _, row := range leastRows() {
		if direction != "" && row.list.dir != "" && direction != row.list.dir {
			continue
		}
		if !shared(names, row.names) {
			continue
		}
		if l, ok := row.at(thickness); ok {
			out = append(out, l)
		}
	}
	return bothWays(out)
}

// bothWays makes one of two figures that are the same across and along the grain.
func bothWays(all []Least) []Least {
	var out []Least
	for _, l := range all {
		twin := l
		twin.Direction = "across"
		if i := slices.Index(out, twin); i >= 0 && l.Direction == "along" {
			out[i].Direction = "across or along"
			continue
		}
		out = append(out, l)
	}
	return out
}

// listed are the keys by which the lists know the metal: its own name where they speak of that, else
// the names of its row; and the class of its strength, if it is a steel.
func (m Metal) listed() []string {
	var names []string
	if own := []string{key(m.Name)}; m.Own && listKnows(own) {
		names = own
	} else {
		for _, n := range m.rows {
			names = append(names, key(n))
		}
	}
	if m.Family == "steel" && m.Tensile.Known() {
		under := 0.0
		for _, c := range []struct {
			upTo float64
			name string
		}{{390, "steel up to 390 N/mm2"}, {490, "steel up to 490 N/mm2"}, {640, "steel up to 640 N/mm2"}} {
			if m.Tensile.Hi > under && m.Tensile.Lo <= c.upTo {
				names = append(names, key(c.name))
			}
			under = c.upTo
		}
	}
	return names
}

// listKnows reports whether any list has a row of one of the names.
func listKnows(names []string) bool {
	for _, row := range leastRows() {
		if shared(names, row.names) {
			return true
		}
	}
	return false
}

func shared(a, b []string) bool {
	for _, x := range a {
		for _, y := range b {
			if x == y {
				return true
			}
		}
	}
	return false
}

// at is the row's figure for a thickness in mm; ok is false where the row does not speak of it.
func (r leastRow) at(thickness float64) (Least, bool) {
	l := r.list
	v := r.values[0]
	if l.at != "" {
		i, found := 0, false
		for j, w := range strings.Fields(l.at) {
			t := number(w) * l.perAt
			if thickness <= t*(1+l.reach) && (!l.only || thickness >= t*(1-l.reach)) {
				i, found = j, true
				break
			}
		}
		if !found {
			return Least{}, false
		}
		v = r.values[i]
	}
	if v == "x" {
		return Least{}, false
	}
	src := l.source
	if strings.HasPrefix(v, "*") {
		v, src.Memory = v[1:], false
	}
	if l.dir != "" {
		src.Title += ", " + r.class
	}
	lo, hi, ranged := strings.Cut(v, "-")
	if !ranged {
		hi = lo
	}
	unit := l.unit
	if unit == 0 {
		unit = thickness
	}
	out := Least{Radius: number(lo) * unit, High: number(hi) * unit, Direction: l.dir, Advice: l.advice, Source: src, list: l.source.Title}
	if l.source.Title == trade {
		out.Radius, out.High = max(out.Radius, tradeFloor), max(out.High, tradeFloor)
	}
	return out, true
}
