package screen

// This file holds the steps Job cards, Template and Files under Marking out.

import (
	"strings"

	"dryfold/fold"
	"dryfold/fold/paper"
	"dryfold/render/scene"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// cardsStep is the step Job cards.
func (c *Screen) cardsStep() []*node.Node {
	return []*node.Node{
		c.printed("One card for each swing, to cut apart and lay by the brake: mark and sight line, way, set angle, section before and after."),
		node.E("section.pad", node.Key("how"), node.E("h2", "How it is printed"), c.paperChoice(), c.saver("Save all sheets as one PDF", "all", "sheets", "pdf"),
			node.E("p.src", "All sheets: marking out, cutting, the check before bending, and these cards.")),
	}
}

// length is a field of a length under Marking out.
func (c *Screen) length(key, label string) *node.Node {
	return c.field(session.PaperField(key), label, c.S.PaperLength(key), c.S.Units().String(), func(v string) error { return c.S.SetPaperLength(key, v) }, number...)
}

// whole is a field of a whole number under Marking out.
func (c *Screen) whole(key, label, unit string) *node.Node {
	return c.fieldBeside(session.PaperField(key), label, c.S.PaperCount(key), func(string) string { return unit }, func(v string) error { return c.S.SetPaperCount(key, v) }, node.A("inputmode", "numeric"))
}

// yes is a choice of yes and no.
func (c *Screen) yes(key, label string, now bool, set func(p *session.Papers, on bool)) *node.Node {
	return c.either(key, label, [][2]string{{"no", "no"}, {"yes", "yes"}}, map[bool]string{false: "no", true: "yes"}[now], func(v string) error {
		c.papers(func(p *session.Papers) { set(p, v == "yes") })
		return nil
	})
}

// templateStep is the step Template.
func (c *Screen) templateStep() []*node.Node {
	s := c.S
	p := s.Papers()
	words := "The blank at full size, on as many pages as it takes, with marks to join them by and a square to check the printer with."
	if p.Card {
		words = "The same part in card: cut it, fold it, try it in its place."
		if s.BySizes() {
			words += " What you trim there goes back into the sizes below."
		}
	}
	head := c.printed(words)
	of := map[bool]string{false: "blank", true: "card"}[p.Card]
	head.Kids = append(head.Kids[:1:1], append([]*node.Node{c.either("template-of", "Of", [][2]string{{"blank", "the blank"}, {"card", "a card model"}}, of, func(v string) error {
		c.papers(func(p *session.Papers) { p.Card = v == "card" })
		return nil
	})}, head.Kids[1:]...)...)
	out := []*node.Node{head}
	if p.Card {
		out = append(out, node.E("section.pad", node.Key("card"), node.E("h2", "Card"),
			c.length("cardthick", "Thickness of the card"),
			c.either("crease", "Folds are", [][2]string{{paper.Scored, "scored"}, {paper.Creased, "creased"}}, p.Crease, func(v string) error {
				c.papers(func(p *session.Papers) { p.Crease = v })
				return nil
			}),
			node.E("p.src", "Scored: cut half through on the outside of the fold. Creased: pressed in with a blunt edge. How much card a fold takes is assumed from that.")))
	}
	papers := [][2]string{{"A4", "A4"}, {"A3", "A3"}, {"Letter", "Letter"}, {"Tabloid", "Tabloid"}, {paper.Roll, "Roll"}}
	on := node.E("section.pad", node.Key("on"), node.E("h2", "Paper and printer"), pick("f-onpaper", "Paper", papers, s.OnPaper(p.OnPaper), func(v string) {
		c.papers(func(p *session.Papers) { p.OnPaper = v })
	}))
	if p.OnPaper == paper.Roll {
		put(on, c.length("roll", "Width of the roll"))
	}
	put(on, c.length("margin", "The printer leaves white"), c.length("overlap", "Pages overlap by"))
	square := "100 mm"
	if s.Units().String() == "in" {
		square = "4 in"
	}
	put(on, node.E("h3", node.Key("sq"), "Is it true?"),
		node.E("p.src", "Print at 100 %, “actual size”. Measure the check square of "+square+" on the print; if it isn’t true, type what it measures and print again."),
		c.length("across", "Square, across"), c.length("down", "Square, down"))
	if k := s.Scaled(); k != [2]float64{1, 1} {
		put(on, node.E("p.said.note", node.Key("scaled"), glyph("note"), node.E("span", "The next print is scaled "+percent(k[0])+" across and "+percent(k[1])+" down.")),
			button("b.line", node.Key("unscale"), "Without a correction", node.Click(s.Unscaled)))
	}
	out = append(out, on)
	if p.Card {
		out = append(out, c.cardSizes())
	}
	return out
}

func percent(x float64) string { return fold.Trimmed(100*x, 2) + " %" }

// cardSizes takes what was changed on the card model back into the sizes.
func (c *Screen) cardSizes() *node.Node {
	s := c.S
	n := node.E("section.pad", node.Key("cardsizes"), node.E("h2", "As trimmed on the card"))
	list := s.CardSizes()
	if len(list) == 0 || list[0].Path == "" {
		return put1(n, node.E("p.src", "This part is given by its blank, not by its sizes: what you trim has to be changed there by hand."))
	}
	put(n, node.E("p.src", "Type what a size measures on the card now; it goes into the part’s sizes, and everything follows."))
	for i, x := range list {
		label := x.Label + ", now " + session.Size(x.Is, s.Units())
		if x.Changed {
			label = x.Label + ", longer (or −shorter) by"
		}
		if x.Formula != "" {
			continue
		}
		put(n, c.field(session.CardField(i), label, "", s.Units().String(), func(v string) error { return s.SetCardSize(i, v) }, number...))
	}
	return n
}

func put1(n, kid *node.Node) *node.Node {
	put(n, kid)
	return n
}

// filesStep is the step Files.
func (c *Screen) filesStep() []*node.Node {
	s := c.S
	p := s.Papers()
	option := func(key, label string, choices []string, now int, set func(p *session.Papers, v int)) *node.Node {
		list := make([][2]string, len(choices))
		for i, w := range choices {
			list[i] = [2]string{itoa(i), w}
		}
		return pick("f-"+key, label, list, itoa(now), func(v string) {
			for i := range choices {
				if itoa(i) == v {
					c.papers(func(p *session.Papers) { set(p, i) })
				}
			}
		})
	}
	machine := node.E("section.pad", node.Key("machine"), node.E("h2", "To be cut by machine"),
		node.E("p", "Outline, cutouts and holes as true lines and arcs, each kind of line on a layer of its own."),
		c.otherHand(),
		c.length("kerf", "Width of the cut"),
		option("bends", "Bend lines", []string{"left out", "as lines, not cut", "as small notches"}, p.Bends, func(p *session.Papers, v int) { p.Bends = v }))
	if p.Bends == 2 {
		put(machine, c.length("notch", "Depth of the notches"))
	}
	put(machine, option("holes", "Holes", []string{"cut", "their middles marked", "left out"}, p.Holes, func(p *session.Papers, v int) { p.Holes = v }),
		c.whole("gaps", "Gaps that hold it in the sheet", "each"))
	if p.Gaps > 0 {
		put(machine, c.length("gapwide", "Width of a gap"))
	}
	put(machine, c.yes("tangents", "Edges of bends", p.Tangents, func(p *session.Papers, on bool) { p.Tangents = on }),
		c.yes("words", "Name and sheet as text", p.Words, func(p *session.Papers, on bool) { p.Words = on }),
		c.either("mirror", "Cut with", [][2]string{{"", "this face up"}, {"under", "the other"}}, map[bool]string{true: "under"}[p.Mirror], func(v string) error {
			c.papers(func(p *session.Papers) { p.Mirror = v != "" })
			return nil
		}),
		c.refused(),
		c.saver("Save as DXF", "machine", "", "dxf"), c.saver("Save as SVG", "machine", "cut", "svg"),
		node.E("p.src", "DXF is written as release 12, which every reader takes. With a width of cut the lines lie half of it outside, so that the part comes out to size: then the machine must not allow for it again."))
	views := [][2]string{{"", "as on the bench"}}
	for _, v := range scene.Views {
		views = append(views, [2]string{v, v})
	}
	pictures := node.E("section.pad", node.Key("pictures"), node.E("h2", "Pictures"),
		pick("f-picview", "Seen", views, p.PicView, func(v string) { c.papers(func(p *session.Papers) { p.PicView = v }) }),
		c.whole("picw", "Wide", "pixels"), c.whole("pich", "High", "pixels"),
		c.yes("picdark", "Dark ground", p.PicDark, func(p *session.Papers, on bool) { p.PicDark = on }),
		c.yes("picplain", "Without sizes and gaps", p.PicPlain, func(p *session.Papers, on bool) { p.PicPlain = on }),
		c.saver("Save the picture, as it stands now", "picture", "", "png"),
		node.E("h3", node.Key("gif"), "The run-through, moving"),
		c.whole("gifw", "Wide", "pixels"), c.whole("gifh", "High", "pixels"),
		c.saver("Save the run-through as GIF", "run", "run-through", "gif"))
	solid := node.E("section.pad", node.Key("solid"), node.E("h2", "In three dimensions"),
		c.either("asnow", "Bent", [][2]string{{"", "finished"}, {"now", "as it stands now"}}, map[bool]string{true: "now"}[p.AsNow], func(v string) error {
			c.papers(func(p *session.Papers) { p.AsNow = v != "" })
			return nil
		}),
		c.saver("Save as STL", "solid", "", "stl"), c.saver("Save as glTF", "solid", "", "glb"),
		node.E("p.src", "Thickness and bends are true. STL is in mm and bare of colour; glTF 2.0 (.glb) is in metres and shows on phones."))
	return []*node.Node{machine, pictures, solid}
}

// refused is what the last file was refused for where no field has it.
func (c *Screen) refused() *node.Node {
	if c.noFile == "" || c.noFileOf != (choice{c.S.Serial(), c.S.Papers()}) {
		return nil
	}
	return node.E("p.said.stop", node.Key("nofile"), node.A("role", "alert"), glyph("stop"), node.E("span", sentence(c.inUnits(c.noFile))))
}

// choice is a part with what is chosen for its files.
type choice struct {
	serial int
	papers session.Papers
}

// RefuseFile notes why a file could not be made; "" for nothing. It is said until the part or a choice changes.
func (c *Screen) RefuseFile(words string) {
	c.noFile, c.noFileOf = words, choice{c.S.Serial(), c.S.Papers()}
}

// sentence is a text as a whole sentence.
func sentence(words string) string {
	words = upper(strings.TrimSuffix(strings.TrimSpace(words), "."))
	if strings.HasSuffix(words, "?") {
		return words
	}
	return words + "."
}
