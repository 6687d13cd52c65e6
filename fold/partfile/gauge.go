// A thickness, and what to say where a gauge stands in place of it.

package partfile

import (
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/metal"
)

// thickness takes a thickness. A gauge in its place is refused with the number to write, or
// where it names no table with what it is by each.
func (d *decoder) thickness(p *path) float64 {
	b := thicknessBound(d.units)
	if d.err == nil && d.kind() == '"' {
		save := d.cursor
		if need := gaugeNeed(save.rawText(), d.units); need != "" {
			d.fail(p, d.found(), need)
		}
	}
	return d.number(p, b.need)
}

// gaugeNeed is what a file has to hold instead of the gauge that text speaks of, "" if it speaks of none.
func gaugeNeed(text string, u fold.Units) string {
	n, table, ok := metal.ReadGauge(text)
	if !ok {
		return ""
	}
	size := func(g metal.Gauge) string {
		if u == fold.Inch {
			return number(g.Inch) + " in"
		}
		return strings.TrimRight(strconv.FormatFloat(g.Thickness, 'f', 4, 64), "0") + " mm"
	}
	g, err := metal.LookUp(n, table)
	if err == nil {
		return "the number: " + g.String() + " is " + size(g)
	}
	all := metal.Candidates(n)
	if table != "" || len(all) == 0 {
		return thicknessBound(u).need() + " as a number; " + fold.InUnits(err.Error(), u)
	}
	by := make([]string, len(all))
	for i, g := range all {
		t, _ := metal.TableByName(g.Table)
		by[i] = size(g) + " by " + t.Name
	}
	return "the number, since a gauge is a thickness only by its table: " + n + " gauge is " + strings.Join(by, ", ")
}
