package screen

// This file asks the named sizes of a part by sizes in plain words, says to which faces
// they run, and tells what comes of it: blank, bends, weight.

import (
	"fmt"
	"strings"

	"dryfold/fold/shape"
	"dryfold/fold/sizes"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// faceIDs name the faces that sizes run to, in the order of sizes.Faces.
var faceIDs = [...]string{"outside", "inside", "card"}

var faceWords = [...]string{"outside", "inside", "card pattern"}

// asked is what a maker is asked first: the named sizes, or the base's where there are none.
func (c *Screen) asked() *node.Node {
	s, f := c.S, c.S.Form()
	n := node.E("section.pad.asked", node.Key("asked"), node.E("h2.title", s.Name()))
	if id := c.starter(); id != "" {
		if st, ok := shape.StarterByID(id); ok {
			put(n, node.E("p.src", st.Note))
		}
		fig := starterFigure(id)
		lit := ""
		used := map[string]bool{}
		for i, on := range s.InUse() {
			used[f.Named[i].Name] = on
		}
		for i, m := range f.Named {
			if c.at == session.NamedField(i, "is") {
				lit = m.Name
			}
		}
		fig.Walk(func(g *node.Node) bool {
			if name := g.Get("data-size"); name != "" && !used[name] {
				g.Attrs = append(g.Attrs, node.Attr{Name: "class", Value: "idle"})
			}
			if lit != "" && g.Get("data-size") == lit {
				g.Attrs = append(g.Attrs, node.Attr{Name: "class", Value: "on"})
			}
			return true
		})
		fig.Key = "figure"
		if f.Mirror {
			fig.Attrs = append(fig.Attrs, node.Attr{Name: "data-hand", Value: "other"})
		}
		put(n, fig)
	}
	inUse := s.InUse()
	var idle []string
	for i, m := range f.Named {
		label := m.Label
		if label == "" {
			label = m.Name
		}
		if !inUse[i] {
			idle = append(idle, label)
			continue
		}
		put(n, c.size(session.NamedField(i, "is"), label))
	}
	if len(idle) > 0 {
		words := "Not used any more, and not asked: " + session.List(idle) + "."
		if shape := session.BaseOf(f); shape > session.Trapezoid {
			words += " The " + c.baseName() + " is given by its " + map[bool]string{false: baseShapes[shape], true: "corners"}[shape == session.Outline] + ", under Base."
		}
		put(n, node.E("p.src", node.Key("idle"), words))
	}
	if len(f.Named) == len(idle) && c.item.kind != "base" { // they stand there then
		put(n, c.fieldsOf("sizes.base.", "wide", "Wide", "wide_back", "Wide at the back", "long", "Long")...)
	}
	if s.CanAddFloor() {
		put(n, button("b.line", node.Key("floor+"), "Bend the floor once more", node.Click(func() {
			if err := s.AddFloor(); err != nil {
				c.say(err)
			}
		})))
	}
	put(n, c.facesBox(), c.fault("sizes.faces"),
		c.either("sizes.mirror", "Hand", [][2]string{{"", "as drawn"}, {"other", "the other"}}, map[bool]string{true: "other"}[f.Mirror], func(v string) error { return s.SetMirror(v != "") }),
		c.handWords(),
		c.result())
	return n
}

// handWords say what the other hand does to names; nil where nothing is called left or right.
func (c *Screen) handWords() *node.Node {
	f := c.S.Form()
	if !f.Mirror {
		return nil
	}
	var said []string
	for i := range f.Flanges {
		if l := &f.Flanges[i]; l.On == c.baseName() && (l.Name == "left" || l.Name == "right") {
			said = append(said, l.Name+" stands on the "+otherHand(l.Name))
		}
	}
	words := "Left and right change places in the other hand; names stay."
	if len(said) > 0 {
		words = "Left and right change places in the other hand; names stay: " + session.List(said) + "."
	}
	return node.E("p.src", node.Key("hand"), words)
}

// otherHand is right for left, left for right, and else the side itself.
func otherHand(side string) string {
	switch side {
	case "left":
		return "right"
	case "right":
		return "left"
	}
	return side
}

// facesBox says which faces the sizes run to, each with a drawing of what is meant.
func (c *Screen) facesBox() *node.Node {
	n := node.E("div.faces", node.Key("faces"), node.A("role", "group"), node.A("aria-label", "Sizes run to"), node.E("span", "Sizes run to"))
	for k, w := range faceWords {
		on := c.S.Form().Faces == sizes.Faces(k)
		cls := "button"
		if on {
			cls = "button.on"
		}
		put(n, node.E(cls, node.A("type", "button"), node.A("aria-pressed", onOff(on)), faceSketch(sizes.Faces(k)), node.E("span", w), node.Click(func() { _ = c.S.SetFaces(sizes.Faces(k)) })))
	}
	return n
}

// result is what comes of the sizes, in one line.
func (c *Screen) result() *node.Node {
	s, u := c.S, c.S.Units()
	if len(s.Problems()) > 0 {
		return node.E("p.res.bad", node.Key("res"), glyph("stop"), node.E("span", "These sizes make no part yet."))
	}
	b := s.Report().Blank
	n := node.E("p.res", node.Key("res"), node.A("aria-live", "polite"), node.E("span", "Blank "), node.E("b", session.Size(b.Width, u)+" × "+session.Size(b.Height, u)), node.E("span", " "+u.String()+" · "),
		node.E("b", fmt.Sprint(len(s.Part().Bends))), node.E("span", strings.TrimPrefix(count(len(s.Part().Bends), "bend"), fmt.Sprint(len(s.Part().Bends)))))
	if b.Mass != nil {
		m, mu := session.Mass(*b.Mass)
		put(n, node.E("span", " · "), node.E("b", m), node.E("span", " "+mu))
	}
	return n
}

// allBends are the radius, the gap and the relief of all bends and corners that have none of their own.
func (c *Screen) allBends() *node.Node {
	s, f := c.S, c.S.Form()
	var kinds [][2]string
	for _, w := range reliefs {
		kinds = append(kinds, [2]string{w, w})
	}
	return node.E("section.pad.parts", node.Key("all"), node.E("h2", "All bends and corners"),
		c.size("sizes.radius", "Inside radius of bends"),
		c.size("sizes.gap", "Wanted gap at corners"),
		c.choose("sizes.relief", "Reliefs", kinds, reliefs[f.Relief.Kind], func(v string) error { return s.SetRelief(*reliefNamed(v)) }),
		c.size("sizes.relief.size", "Their size"),
		node.E("p.src", "Left empty, a relief is as large as it needs to be."))
}
