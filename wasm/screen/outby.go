package screen

// This file holds what hand and machine may be out by, under Seams: the five errors, and what comes of them in sizes and holes.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

func (c *Screen) outBy() *node.Node {
	s := c.S
	n := node.E("section.pad.outby", node.Key("outby"), node.E("h2", "What hand and machine may be out by"))
	switch r := s.Report().Spread; {
	case r != nil:
		put(n, node.E("p.src", fmt.Sprintf("%s parts tried with errors drawn at random: 90 of 100 parts lie in the band. Each figure below counts plus and minus, and holds for 95 of 100 bends.", thousands(r.Samples))))
	case !s.SpreadKnown():
		put(n, working("Trying parts with errors drawn at random…"))
	}
	if r := s.Report().Spread; r != nil && r.Watch != "" {
		put(n, node.E("p.said", glyph("note"), node.E("span", fold.InUnits(r.Watch, s.Units()))))
	}
	for _, o := range s.OutBys() {
		put(n, c.outByRow(o))
	}
	if list, rest := s.Spreads(); len(list) > 0 {
		table := func(list [][4]string) *node.Node {
			rows := [][]string{session.SpreadHead}
			for _, r := range list {
				rows = append(rows, r[:])
			}
			return gapTable(rows)
		}
		put(n, node.E("h3", "What comes of it, "+s.Units().String()), table(list))
		if len(rest) > 0 {
			put(n, more("pairs", fmt.Sprintf("%d more pairs of holes", len(rest)), table(rest)))
		}
	}
	return n
}

func (c *Screen) outByRow(o session.OutBy) *node.Node {
	s := c.S
	tell := func(err error) {
		if err != nil {
			c.say(err)
		}
	}
	n := node.E("div.err1", node.Key(o.Key), node.E("p", node.E("b", o.Label), node.E("span.figure", o.Figure)))
	if o.Source != "" {
		put(n, node.E("p.src", upper(o.Source), node.E("span.kind", o.Kind)))
	}
	if o.ByLength != "" {
		put(n, node.E("p.src", o.ByLength))
	}
	if o.Classes {
		ways := [][2]string{{"", o.Default}}
		for _, k := range session.ErrorClasses {
			ways = append(ways, [2]string{k[0], "Class " + k[0] + ", " + k[1]})
		}
		if o.Own != "" {
			ways = append([][2]string{{"own", "Own figure"}}, ways...)
			o.Class = "own"
		}
		put(n, pick("f-"+session.OutByField(o.Key)+"-class", "ISO 2768-1", ways, o.Class, func(v string) {
			switch v {
			case "own":
			case "":
				tell(s.SetOutBy(o.Key, ""))
			default:
				tell(s.SetOutByClass(o.Key, v))
			}
		}))
	}
	put(n, c.field(session.OutByField(o.Key), "My own ±", o.Own, o.Unit, func(t string) error { return s.SetOutBy(o.Key, t) }, node.A("placeholder", "–")))
	if o.Given {
		put(n, button("b.line", "Back to the default", node.Click(func() { tell(s.SetOutBy(o.Key, "")) })))
	}
	return n
}

// thousands writes a count with its thousands apart.
func thousands(n int) string {
	if n < 1000 {
		return fmt.Sprint(n)
	}
	return fmt.Sprintf("%d,%03d", n/1000, n%1000)
}
