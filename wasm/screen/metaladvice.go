package screen

// This file holds what lists advise about bends: how far holes stay away, how large reliefs are.

import (
	"fmt"

	"dryfold/fold/metal"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// adviceBox tells the distances that lists of the trade advise for the part's radii and thickness, with their
// range where they disagree. None of them is a limit of a brake.
func (c *Screen) adviceBox() *node.Node {
	p, u := c.S.Part(), c.S.Units()
	var radii []float64
	for i := range p.Bends {
		known := false
		for _, r := range radii {
			known = known || r == p.Bends[i].Radius
		}
		if !known {
			radii = append(radii, p.Bends[i].Radius)
		}
	}
	if len(radii) == 0 {
		return nil
	}
	t := p.Thickness
	body := node.E("tbody")
	for _, r := range radii {
		for _, row := range []struct {
			what string
			all  []metal.Distance
		}{
			{"Hole or slot edge to the tangent line", metal.HoleToBend(r, t)},
			{"Relief hole, diameter", metal.ReliefHole(r, t)},
			{"Relief notch, deep past the outside sharp", metal.ReliefNotch(r, t)},
			{"Relief, wide", metal.ReliefWidth(t)},
		} {
			lo, hi := row.all[0].Mm, row.all[0].Mm
			from := node.E("ul.plain")
			for _, d := range row.all {
				lo, hi = min(lo, d.Mm), max(hi, d.Mm)
				put(from, node.E("li", fmt.Sprintf("%s: %s; %s", places(d.Mm, u), d.Note, d.Source)))
			}
			span := places(lo, u)
			if hi > lo {
				span += " to " + places(hi, u)
			}
			head := row.what
			if len(radii) > 1 {
				head += ", R " + session.FieldLength(r, u)
			}
			put(body, node.E("tr", node.E("th", node.A("scope", "row"), head, from), node.E("td.ra", span)))
		}
	}
	return node.E("section.pad", node.Key("advice"), more("advice", "How far from a bend, how large a relief",
		node.E("table.advice", node.E("thead", node.E("tr", node.E("th", node.A("scope", "col"), "What lists advise"), node.E("th.ra", node.A("scope", "col"), u.String()))), body),
		node.E("p.src", "Advice, with its range where lists disagree; no limit of a brake. What the folded corner itself needs is reckoned with the part.")))
}
