package screen

// This file holds what lists advise about bends: how far holes stay away, how large reliefs are.

import (
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
	body := node.E("div.least")
	for _, r := range radii {
		for _, row := range []struct {
			what string
			all  []metal.Distance
		}{
			{"Edge of a hole or slot to the tangent line", metal.HoleToBend(r, t)},
			{"Relief hole, across", metal.ReliefHole(r, t)},
			{"Relief notch, past the outside sharp", metal.ReliefNotch(r, t)},
			{"Relief, wide", metal.ReliefWidth(t)},
		} {
			lo, hi := row.all[0].Mm, row.all[0].Mm
			from := node.E("ul")
			for _, d := range row.all {
				lo, hi = min(lo, d.Mm), max(hi, d.Mm)
				put(from, node.E("li", node.E("b", places(d.Mm, u)+" "+u.String()), " "+upper(d.Note)+"; "+d.Source.String()+"."))
			}
			span := places(lo, u)
			if hi > lo {
				span += " to " + places(hi, u)
			}
			head := row.what
			if len(radii) > 1 {
				head += ", R " + session.FieldLength(r, u)
			}
			put(body, node.E("p.pair", node.E("span", head), node.E("b", span+" "+u.String())), from)
		}
	}
	return node.E("section.pad", node.Key("advice"), more("advice", "How far from a bend, how large a relief", body,
		node.E("p.src", "Advice of the trade, with its range where lists disagree; no limit of a brake. What the folded corner itself needs is reckoned with the part.")))
}
