package paper

// This file makes the last job card: what to measure of the finished part.

import (
	"fmt"
	"slices"
	"strings"

	"dryfold/fold"
)

// checkRow is a line of the last card: what, wanted, the most that is allowed, to be expected; with nothing wanted a heading.
type checkRow struct{ name, want, most, expect string }

// checkRows is how many a card takes.
const checkRows = 15

// checks are the cards to check the finished part by: its overall sizes and the gap of every seam.
func (d *deck) checks() []jobCard {
	rep := d.rep
	var rows []checkRow
	from := "Expected: as drawn, cut and bent exactly; what errors of hand and machine do was not worked out."
	var low, mid, high [3]float64
	fin := d.longFirst(rep.Finished.Box())
	if sp := rep.Spread; sp != nil {
		from = "Expected: of 100 parts 5 come out under it and 5 over, by errors of hand and machine."
		for k, x := range sp.Sizes {
			low[k], mid[k], high[k] = x.Low, x.Mid, x.High
		}
		low, high = d.longFirst(low), d.longFirst(high)
	}
	rows = append(rows, checkRow{name: "Overall, outside"})
	for k, name := range []string{"Long", "Wide", "High"} {
		r := checkRow{name: name, want: d.sharp(fin[k]), most: "–", expect: "not worked out"}
		if rep.Spread != nil {
			r.expect = d.sharp(low[k]) + " to " + d.sharp(high[k])
		}
		rows = append(rows, r)
	}
	if len(rep.Seams) > 0 {
		rows = append(rows, checkRow{name: "Gaps of the seams"})
	}
	var kinds []string
	for i := range rep.Seams {
		x := &rep.Seams[i]
		r := checkRow{name: x.Name, want: "–", most: "–", expect: d.say2(x.GapMin) + " to " + d.say2(x.GapMax)}
		if x.Wanted != nil {
			r.want = d.say2(*x.Wanted)
		}
		if x.Limit != nil {
			r.most = d.say2(*x.Limit)
			if !slices.Contains(kinds, x.LimitKind) {
				kinds = append(kinds, x.LimitKind)
			}
		}
		if x.Spread != nil {
			r.expect = d.say2(x.Spread.Least.Low) + " to " + d.say2(x.Spread.Widest.High)
		}
		rows = append(rows, r)
	}
	if len(kinds) > 0 {
		from = "At most: the widest gap that is no trouble (" + strings.Join(kinds, ", ") + "). " + from
	}
	var out []jobCard
	for len(rows) > 0 {
		n := min(len(rows), checkRows)
		k := jobCard{name: "Check the finished part", rows: rows[:n], foot: from}
		if len(out) > 0 {
			k.small = fmt.Sprintf("card %d", len(out)+1)
		}
		out = append(out, k)
		rows = rows[n:]
	}
	return out
}

// sharp writes a size as a tape or calliper reads it, finer than the rule that the blank is marked by.
func (d *deck) sharp(mm float64) string {
	if d.m.units == fold.Inch {
		return fold.Fixed(mm/fold.Inch.Scale(), 3)
	}
	return fold.Fixed(mm, 1)
}
