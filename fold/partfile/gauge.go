// A thickness, and what to say where a gauge stands in place of it.

package partfile

import (
	"strings"
)

// thickness takes a thickness; a gauge given instead is refused with what it may stand for.
func (d *decoder) thickness(p *path) float64 {
	b := thicknessBound(d.units)
	if d.err == nil && d.kind() == '"' {
		if save := d.cursor; isGauge(save.rawText()) {
			d.fail(p, d.found(), b.need()+", as a number: a gauge is a thickness only by its table, so look it up there")
		}
	}
	return d.number(p, b.need)
}

// isGauge holds for text that speaks of a gauge.
func isGauge(s string) bool {
	s = strings.ToLower(s)
	for _, w := range []string{"ga", "wg", "#"} {
		if strings.Contains(s, w) {
			return strings.ContainsAny(s, "0123456789")
		}
	}
	return false
}
