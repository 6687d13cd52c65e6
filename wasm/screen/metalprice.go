package screen

// This file holds weight and price.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// priceBox is what the blank weighs, and the price as the maker reckons it.
func (c *Screen) priceBox() *node.Node {
	s := c.S
	r := s.Report()
	u := s.Units()
	n := node.E("section.pad", node.Key("price"), node.E("h2", "Weight and price"))
	if r.Blank.Mass == nil {
		put(n, node.E("p", node.Key("mass"), "The weight is not known: nothing gives this metal’s density."))
	} else {
		m, unit := session.Mass(*r.Blank.Mass)
		list := [][2]string{{"Blank, so also the part", m + " " + unit}}
		if r.Blank.Rectangle != nil {
			m, unit = session.Mass(*r.Blank.Rectangle)
			list = append(list, [2]string{"Rectangle it is cut from", m + " " + unit})
		}
		put(n, rows(list), node.E("p.src", node.Key("mass"), "By its density. "+upper(r.Blank.MassSource)+"."))
	}
	if p := r.Price; p != nil {
		money := func(v float64) string {
			t := fmt.Sprintf("%.2f", v)
			if p.Currency != "" {
				t += " " + p.Currency
			}
			return t
		}
		if p.Known {
			var list [][2]string
			for _, x := range []struct {
				what string
				sum  float64
			}{{"Metal", p.Metal}, {"Work", p.Work}} {
				if x.sum != 0 { // what was not given is not shown as nothing
					list = append(list, [2]string{x.what, money(x.sum)})
				}
			}
			put(n, node.E("div", node.Key("total"), rows(append(list, [2]string{"Price", money(p.Total)}))))
		}
		put(n, node.E("p.src", node.Key("how"), upper(fold.InUnits(p.How, u))+"."))
	}
	f := func(what, label, unit string, extra ...any) *node.Node {
		return c.field(session.PriceField(what), label, s.PriceText(what), unit, func(t string) error { return s.SetPrice(what, t) }, append(extra, node.A("placeholder", "–"))...)
	}
	put(n, more("charge", "What you charge",
		f("per-kg", "Per kg of the rectangle", ""), f("per-sheet", "Or per whole sheet", ""),
		f("sheet", "The whole sheet", u.String(), node.A("class", "size")),
		f("per-hour", "Per hour", ""), f("hours", "Hours of work", "h"), f("currency", "Currency", "", node.A("class", "text short"))))
	return n
}
