package screen

// This file holds the page that a shared link opens: the finished part, view only.

import (
	"fmt"
	"math"
	"strconv"

	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

func (c *Screen) shared() []*node.Node {
	s := c.S
	p := s.Part()
	u := s.Units()
	metal := p.Spec.Sheet.Metal
	if metal == "" {
		metal = "Metal not said"
	}
	sub := fmt.Sprintf("%s, %s %s", metal, session.Thickness(p.Thickness, u), u)
	head := node.E("header.chead", node.Key("chead"), node.E("h1", s.Name()), node.E("p", sub), c.units())
	long, wide, high := s.FinishedSize()
	cell := func(k, v, unit string) *node.Node {
		return node.E("div", node.E("dt", k), node.E("dd", v, " ", node.E("small", unit)))
	}
	cells := node.E("dl.cells")
	if p.Foldable {
		put(cells, cell("Long", session.Size(long, u), u.String()), cell("Wide", session.Size(wide, u), u.String()), cell("High", session.Size(high, u), u.String()))
	}
	if m := s.Report().Blank.Mass; m != nil {
		v, unit := session.Mass(*m)
		put(cells, cell("Weight", v, unit))
	}
	note := "Sizes are outside sizes of the finished part."
	switch p.Spec.Sheet.Good {
	case "up":
		note += " Good face: the one that faces up on the blank."
	case "down":
		note += " Good face: the one that faces down on the blank."
	}
	body := node.E("section.cbody", node.Key("cbody"))
	if p.Foldable && len(p.Swings) > 0 {
		put(body, node.E("label.slide", node.E("span", "Flat"),
			node.E("input", node.A("type", "range"), node.A("min", "0"), node.A("max", "1000"), node.A("value", fmt.Sprint(math.Round(s.Fold()*1000))), node.A("aria-label", "Folded this far"),
				node.On("input", func(e node.Event) {
					if v, err := strconv.ParseFloat(e.Value, 64); err == nil {
						s.SetFold(v / 1000)
					}
				})),
			node.E("span", "Folded")))
	}
	put(body, cells)
	if price := c.sharedPrice(); price != nil {
		put(body, price)
	}
	put(body, node.E("p.note", note))
	if p.Spec.Notes != "" {
		put(body, node.E("p.note.own", p.Spec.Notes))
	}
	put(body, button("b.main.wide.copy", "Take a copy", node.Click(s.TakeCopy)))
	return []*node.Node{head, node.E("div.over", node.Key("over"), c.notice()), node.E("aside.col.cust", node.Key("ccol"), node.A("aria-label", "The part"), body), c.live()}
}

// sharedPrice is the price that the maker's figures make; nil where they give none, or where a charge by the
// kg could not be reckoned, so that it is no whole price.
func (c *Screen) sharedPrice() *node.Node {
	r := c.S.Report()
	if r.Price == nil || r.Price.Total <= 0 || !r.Price.Known {
		return nil
	}
	words := fmt.Sprintf("%.2f", r.Price.Total)
	if r.Price.Currency != "" {
		words += " " + r.Price.Currency
	}
	return node.E("p.asked", node.Key("price"), node.E("span", "Price"), node.E("b", words))
}
