package screen

// This file holds the opened seam: the drawing of its gap, the verdict, what makes its spread, and the figures.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// openSeam is what stands under an opened seam's row.
func (c *Screen) openSeam(i int, x *fold.SeamReport) *node.Node {
	g := c.S.GapSheet(i)
	box := node.E("div.seam", c.gapPlot(x, g), c.seamSays(g), gapTable(g.Table), c.joinOf(x))
	if a, b, ok := c.S.SeamCorner(i); ok {
		put(box, node.E("div.acts", button("b.line", "Change how it closes", node.Click(func() {
			c.S.SetWord(session.Sizes)
			c.openItem(cornerItem(a, b))
			c.Reveal = cornerItem(a, b).id()
		}))))
	}
	return box
}

// gapPlot is the drawing of the gap along the seam, with its key.
func (c *Screen) gapPlot(x *fold.SeamReport, g *session.GapSheet) *node.Node {
	if g.Tall == 0 {
		return nil
	}
	label := fmt.Sprintf("The gap along the seam %s. Its figures stand in the table below.", x.Name)
	n := node.E("svg.plot", node.A("viewBox", fmt.Sprintf("0 0 %d %.0f", session.PlotWide, g.Tall)), node.A("role", "img"), node.A("aria-label", label))
	for _, m := range g.Marks {
		if m.Path != "" {
			put(n, node.E("path", node.A("class", m.Class), node.A("d", m.Path)))
		} else {
			put(n, node.E("text", node.A("class", m.Class), node.A("x", fmt.Sprintf("%.1f", m.X)), node.A("y", fmt.Sprintf("%.1f", m.Y)), m.Text))
		}
	}
	key := node.E("ul.plotkey", keyOf("exact", "if all is exact"))
	if g.Spread {
		put(key, keyOf("spread", "90 of 100 parts"), keyOf("mid", "half are wider"))
	}
	if g.Limit {
		put(key, keyOf("zone", "can be closed"))
	}
	box := node.E("div.gap", n, key)
	if g.Scale != "" {
		put(box, node.E("p.src", g.Scale))
	}
	if !g.Spread && !c.S.SpreadKnown() {
		put(box, working("Working out what hand and machine make of it…"))
	}
	return box
}

// keyOf shows what a stroke of the drawing means.
func keyOf(class, words string) *node.Node {
	d := "M0 7H26"
	switch class {
	case "spread":
		d = "M0 2H26V12H0Z"
	case "zone":
		d = "M0 2H26M0 7H26M0 12H26"
	}
	return node.E("li", node.E("svg.plot", node.A("viewBox", "0 0 26 14"), node.A("aria-hidden", "true"), node.E("path."+class, node.A("d", d))), words)
}

// seamSays is the verdict with its reasons and figures.
func (c *Screen) seamSays(g *session.GapSheet) *node.Node {
	n := node.E("div.says")
	for _, v := range g.Verdict {
		mark := node.E("i.spin")
		if v[0] != "" {
			mark = glyph(v[0])
		}
		put(n, node.E("p.said", mark, node.E("span", node.E("span.quiet", v[0]+" "), v[1])))
	}
	put(n, rows(g.Facts))
	if g.Source != "" {
		put(n, node.E("p.src", g.Source))
	}
	if len(g.Shares) > 0 {
		list := node.E("ul.shares", node.A("aria-label", "What makes the widest gap uncertain"))
		for _, h := range g.Shares {
			put(list, node.E("li", node.E("span", h.Cause), node.E("b", h.Figure), node.E("i", node.E("i", node.A("style", fmt.Sprintf("width:%.0f%%", 100*h.Part))))))
		}
		put(n, node.E("h3", "What makes it uncertain"), list)
	}
	return n
}

// gapTable is the drawing's figures as a table.
func gapTable(list [][]string) *node.Node {
	head, body := node.E("tr"), node.E("tbody")
	for i, row := range list {
		line := head
		if i > 0 {
			line = node.E("tr")
			put(body, line)
		}
		for k, words := range row {
			tag, scope := "th", "col"
			switch {
			case i > 0 && k > 0:
				tag = "td.ra"
			case i > 0:
				scope = "row"
			case k > 0:
				tag = "th.ra"
			}
			cell := node.E(tag, words)
			if tag != "td.ra" {
				cell.Attrs = append(cell.Attrs, node.Attr{Name: "scope", Value: scope})
			}
			put(line, cell)
		}
	}
	return node.E("div.gaps", node.E("table", node.E("thead", head), body))
}
