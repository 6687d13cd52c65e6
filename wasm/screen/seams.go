package screen

// This file holds the column under Seams: the gaps of the finished part.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/render/scene"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// places writes small lengths with one place more than sizes: gaps and allowances.
func places(mm float64, u fold.Units) string {
	if u == fold.Inch {
		return fmt.Sprintf("%.3f", mm/25.4+0)
	}
	return fmt.Sprintf("%.2f", mm+0)
}

func (c *Screen) seams() []*node.Node {
	s := c.S
	u := s.Units()
	r := s.Report()
	if !s.Part().Foldable {
		return []*node.Node{node.E("section.pad", node.E("p", "Seams can be measured once the part folds."))}
	}
	if !s.Measured() {
		return []*node.Node{node.E("section.pad", node.Key("wait"), node.E("p.tro.checking", node.E("i.spin"), "Measuring the seams…"))}
	}
	if len(r.Seams) == 0 {
		return []*node.Node{node.E("section.pad", node.Key("none"), node.E("h2", "No seams"), node.E("p.src", "No two edges of this part meet once it is folded."))}
	}
	watch := 0
	body := node.E("tbody")
	sel := s.Selected()
	for i, x := range r.Seams {
		cls := "tr"
		on := sel.Kind == scene.Seam && sel.Index == i
		if on {
			cls = "tr.sel"
		}
		if x.State != "ok" {
			watch++
		}
		wide := "td.ra"
		if x.State != "ok" {
			wide = "td.ra." + x.State
		}
		small := fmt.Sprintf("%s to %s, %s long", x.A, x.B, session.Size(x.Length, u))
		if x.Join != "" {
			small = x.Join + ", " + small
		}
		if x.Open {
			small += ", left open"
		}
		pick := func() {
			if on {
				s.Select(scene.Select{})
				return
			}
			s.Select(scene.Select{Kind: scene.Seam, Index: i})
		}
		put(body, node.E(cls, node.Key(fmt.Sprint(i)), node.Click(pick),
			node.E("th", node.A("scope", "row"), node.E("div.rowhead", button("rowname", session.Title(x.Name), node.A("aria-pressed", fmt.Sprint(on))), state(x.State)), node.E("small", small)),
			node.E("td.ra", places(x.GapMin, u)), node.E("td.ra", places(x.GapMean, u)), node.E(wide, places(x.GapMax, u))))
		if on {
			list := [][2]string{
				{"Gap at its ends", places(x.GapStart, u) + " and " + places(x.GapEnd, u)},
				{"Least, widest at", session.Length(x.MinAt, u) + " and " + session.Length(x.MaxAt, u) + " along it"},
				{"Step of the faces", places(x.Step, u)},
			}
			if x.Wanted != nil {
				list = append(list, [2]string{"Wanted gap", places(*x.Wanted, u)})
			}
			cell := node.E("td", node.A("colspan", "4"), rows(list))
			if a, b, ok := s.SeamCorner(i); ok {
				put(cell, button("b.line", "Change how it closes", node.Click(func() {
					s.SetWord(session.Sizes)
					c.openItem(cornerItem(a, b))
					c.Reveal = cornerItem(a, b).id()
				})))
			}
			put(body, node.E("tr.more", node.Key(fmt.Sprint("more", i)), cell))
		}
	}
	head := node.E("header.run", node.E("h2", upper(count(len(r.Seams), "seam"))+", as finished"))
	if watch > 0 {
		put(head, node.E("span.st.watch", glyph("watch"), fmt.Sprintf("%d to watch", watch)))
	}
	return []*node.Node{node.E("section", node.Key("seams"), head,
		node.E("table.seams", node.E("thead", node.E("tr", node.E("th", node.A("scope", "col"), "Seam"), node.E("th.ra", node.A("scope", "col"), "Least"), node.E("th.ra", node.A("scope", "col"), "Mean"), node.E("th.ra", node.A("scope", "col"), "Widest"))), body),
		node.E("p.src.pad", "Gaps in "+u.String()+": the clear distance between the edges where they come nearest across the thickness. Less than nothing: the panels lie in each other."))}
}
