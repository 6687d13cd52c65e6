package screen

// This file holds the column under Seams: the gaps of the finished part. seamopen.go holds the opened seam with
// the drawing of its gap, seamjoins.go how seams are closed, outby.go what hand and machine may be out by.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/render/scene"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// places writes small lengths with one place more than sizes: gaps and allowances.
func places(mm float64, u fold.Units) string { return session.Gap(mm, u) }

func (c *Screen) seams() []*node.Node {
	s := c.S
	u := s.Units()
	r := s.Report()
	if !s.Part().Foldable {
		return []*node.Node{node.E("section.pad", node.E("p", "Seams can be measured once the part folds."))}
	}
	if !s.Measured() {
		return []*node.Node{node.E("section.pad", node.Key("wait"), working("Measuring the seams…"))}
	}
	if len(r.Seams) == 0 {
		return []*node.Node{node.E("section.pad", node.Key("none"), node.E("h2", "No seams"), node.E("p.src", "No two edges of this part meet once it is folded.")), c.outBy()}
	}
	watch := 0
	body := node.E("tbody")
	sel := s.Selected()
	for i := range r.Seams {
		x := &r.Seams[i]
		cls := "tr"
		on := sel.Kind == scene.Seam && sel.Index == i
		if on {
			cls = "tr.sel"
		}
		if x.State != "ok" {
			watch++
		}
		small := session.Size(x.Length, u) + " long"
		if way := session.JoinWords(x.Way, x.Process); way != "" {
			small = way + ", " + small
		} else if x.Join != "" {
			small = x.Join + ", " + small
		}
		if x.Joint != "" {
			small = upper(session.JointWords(x.Joint)) + "; " + small
		}
		if name := x.A + " to " + x.B; x.Name != name {
			small += ", " + name
		}
		pick := func() {
			if on {
				s.Select(scene.Select{})
				return
			}
			s.Select(scene.Select{Kind: scene.Seam, Index: i})
		}
		put(body, node.E(cls, node.Key(fmt.Sprint(i)), node.Click(pick),
			node.E("th", node.A("scope", "row"), node.E("div.rowhead", button("rowname", session.Title(x.Name), node.A("aria-pressed", fmt.Sprint(on))), c.seamState(x)), node.E("small", small)),
			c.gapCell(x, x.GapMin), c.gapCell(x, x.GapMax), c.worstCell(x)))
		if on {
			put(body, node.E("tr.more", node.Key(fmt.Sprint("more", i)), node.E("td", node.A("colspan", "4"), c.openSeam(i, x))))
		}
	}
	head := node.E("header.run", node.E("h2", upper(count(len(r.Seams), "seam"))+", as finished"))
	if watch > 0 {
		put(head, node.E("span.st.watch", glyph("watch"), fmt.Sprintf("%d to watch", watch)))
	}
	col := func(words string) *node.Node { return node.E("th.ra", node.A("scope", "col"), words) }
	return []*node.Node{c.joinsBox(), node.E("section", node.Key("seams"), head,
		node.E("table.seams", node.E("thead", node.E("tr", node.E("th", node.A("scope", "col"), "Seam"), col("Least"), col("Widest"), col("May open to"))), body),
		node.E("p.src.pad", "Gaps in "+map[fold.Units]string{fold.MM: "mm", fold.Inch: "inches"}[u]+": the clear distance between the edges where they come nearest across the thickness. Less than nothing: the panels lie in each other. May open to: 5 in 100 parts come out wider than that."), c.weldCaution()), c.outBy()}
}

// working says that something is being worked out.
func working(words string) *node.Node {
	return node.E("p.tro.checking.working", node.E("i.spin"), words)
}

// seamState is a seam's state. Before the errors of hand and machine are reckoned with nobody knows that it is in order.
func (c *Screen) seamState(x *fold.SeamReport) *node.Node {
	if x.State == "ok" && !x.Open && !c.S.SpreadKnown() {
		return node.E("span.st.checking", node.E("i.spin"), "as drawn", node.E("small", "checking"))
	}
	return state(x.State)
}

// gapCell is a gap in the table, in its state where it is no gap for the joint.
func (c *Screen) gapCell(x *fold.SeamReport, gap float64) *node.Node {
	cls := "td.ra"
	if x.State != "ok" && !x.Open && (gap < -fold.ClashDepth || x.Limit == nil && gap == x.GapMax || x.Limit != nil && gap > *x.Limit) {
		cls += "." + x.State
	}
	return node.E(cls, places(gap, c.S.Units()))
}

// worstCell is what 95 of 100 parts open to at most.
func (c *Screen) worstCell(x *fold.SeamReport) *node.Node {
	switch {
	case x.Spread != nil:
		return c.gapCell(x, x.Spread.Widest.High)
	case c.S.SpreadKnown():
		return node.E("td.ra", "–")
	}
	return node.E("td.ra", node.E("i.spin"), node.E("span.quiet", "being worked out"))
}
