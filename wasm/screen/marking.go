package screen

// This file holds the marking-out sheet: shown over the bench, printed as it is.

import (
	"fmt"
	"strconv"
	"strings"

	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// sheets are the printed pages that stand over the bench, with their name: the
// marking-out sheet where it is the word, the guide to a test bend while it is asked for.
func (c *Screen) sheets() ([]Sheet, string) {
	switch c.S.Word() {
	case session.Marking:
		return c.Marks, "Marking-out sheet"
	case session.Metal:
		return c.Guide, "Guide to a test bend"
	}
	return nil, ""
}

// paper is a printed sheet as it stands over the bench.
func (c *Screen) paper() *node.Node {
	sheets, name := c.sheets()
	if len(sheets) == 0 {
		return nil
	}
	n := node.E("section.paper", node.Key("paper"), node.A("aria-label", name), node.A("tabindex", "0"))
	for i, m := range sheets {
		alt := fmt.Sprintf("Marking-out sheet of %s, page %d of %d: every corner, hole and bend line of the blank measured from two datum edges, in a drawing and in tables", c.S.Name(), i+1, len(sheets))
		style := fmt.Sprintf("width:%gmm;aspect-ratio:%g/%g;page:%s", m.W, m.W, m.H, LeafName(i))
		if name != "Marking-out sheet" {
			alt = "Guide to a test bend: how to cut, bend and measure strips, with drawings, and a table to write in"
			style = fmt.Sprintf("width:%gmm;aspect-ratio:%g/%g", m.W, m.W, m.H)
		}
		put(n, node.E("div.leaf", node.Key(fmt.Sprint(name, i)), node.A("style", style), node.E("img", node.A("src", m.Src), node.A("alt", alt))))
	}
	return n
}

// LeafName names the printed page of a sheet in the page's style.
func LeafName(i int) string { return fmt.Sprintf("leaf%d", i) }

// LeafRule is the style's rule that prints a sheet on paper of its own size.
func LeafRule(i int, m Sheet) string {
	return fmt.Sprintf("@page %s { size: %gmm %gmm; margin: 0 }", LeafName(i), m.W, m.H)
}

func (c *Screen) marking() []*node.Node {
	n := node.E("section.pad", node.Key("marking"), node.E("h2", "Marking-out sheet"))
	if len(c.Marks) == 0 && c.Drawing {
		put(n, node.E("p.tro.checking", node.E("i.spin"), "Drawing the sheet…"))
		return []*node.Node{n}
	}
	if len(c.Marks) == 0 {
		put(n, node.E("p.src", "The sheet can be drawn once the blank is one that can be cut."))
		return []*node.Node{n}
	}
	n.Kids = append(n.Kids,
		node.E("p", "Everything to lay the blank out with a rule and a scriber: each corner, hole and bend line measured from the two datum edges A and B."),
		button("b.main.wide", "Print", node.Click(c.Do.Print)),
		button("b.line.wide", "Save the blank at true scale", node.Click(c.Do.SaveBlank)),
		node.E("p.src", "The blank at true scale is an SVG drawing; one unit of it is one mm. Before you cut, check the printed bar against a rule: some printers shrink a page to fit."))
	return []*node.Node{n}
}

// SheetSize reads a page's size in mm from its drawing's head; A4 upright where
// it says none.
func SheetSize(svg []byte) (w, h float64) {
	head := string(svg[:min(len(svg), 600)])
	read := func(name string, or float64) float64 {
		_, rest, ok := strings.Cut(head, " "+name+`="`)
		text, _, closed := strings.Cut(rest, `mm"`)
		v, err := strconv.ParseFloat(text, 64)
		if !ok || !closed || err != nil || v <= 0 {
			return or
		}
		return v
	}
	return read("width", 210), read("height", 297)
}
