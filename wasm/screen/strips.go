package screen

// This file holds My test bends in the column under Metal. stripform.go has the form for
// a strip, stripsays.go what the strips in use say, bendsketch.go the drawing of what is measured.

import (
	"fmt"

	"dryfold/fold/metal"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// stripsView is how My test bends stands folded open.
type stripsView struct {
	picked int  // the strip in use whose row is open, counted from 1; 0 none
	off    bool // the strips on the bench that the part leaves out are shown
}

// stripsBox is My test bends, a section of the column under Metal.
func (c *Screen) stripsBox() *node.Node {
	s := c.S
	t := s.Tests()
	box := node.E("section.pad.tests", node.Key("tests"), node.E("h2", "My test bends"))
	add := func(parts ...*node.Node) { put(box, parts...) }
	form := s.Strip()
	if len(t.Used) == 0 && form == nil {
		add(node.E("p", "Bend a few strips of this sheet and measure them: the blank is then made by your own metal and brake, not by a rule."))
	}
	if n := len(t.Off); n > 0 && len(t.Used) == 0 && form == nil {
		add(node.E("p.offer", node.Key("offer"), node.E("span", fmt.Sprintf("You have %s of this metal and thickness.", count(n, "test bend"))),
			button("b.main", useWords(n), node.Click(func() { c.did(s.UseStrips(t.Off)) }))))
	}
	if form != nil {
		add(c.stripForm(form, len(t.Used)))
	} else {
		words := "Add a test bend"
		if len(t.Used) > 0 {
			words = "Add another test bend"
		}
		add(button("b.main.wide.addstrip", node.Key("add"), words, node.Click(func() {
			c.Tests.picked = 0
			s.OpenStrip(-1)
			c.Focus = "f-" + session.StripField("length")
			if s.StripText("length") != "" {
				c.Focus = "f-" + session.StripField("leg-a")
			}
		})))
	}
	if len(t.Used) > 0 {
		add(c.verdict(t), c.stripTable(t), c.studyWords(t))
	}
	add(c.stripsOff(t)...)
	if n := len(t.Other); n > 0 {
		add(node.E("p.src", node.Key("other"), fmt.Sprintf("The part also keeps %s of another metal or thickness: %s. They say nothing of this sheet.", count(n, "test bend"), s.OtherSheets())))
	}
	add(c.stripTools())
	return box
}

func useWords(n int) string {
	if n == 1 {
		return "Use it"
	}
	return "Use them"
}

// did shows what could not be done.
func (c *Screen) did(err error) {
	if err != nil {
		c.say(err)
	}
}

// stripsOff lists the strips of this metal and thickness that are on the bench but not in the part.
func (c *Screen) stripsOff(t *session.Tests) (out []*node.Node) {
	if len(t.Off) == 0 || len(t.Used) == 0 && !c.Tests.off && c.S.Strip() != nil {
		return nil
	}
	s := c.S
	u := s.Units()
	words := count(len(t.Off), "test bend") + " left out of this part"
	if len(t.Used) == 0 {
		words = "See them one by one"
	}
	out = append(out, button("b.line.wide.off", node.Key("off"), node.A("aria-expanded", fmt.Sprint(c.Tests.off)), words, icon("open"), node.Click(func() { c.Tests.off = !c.Tests.off })))
	if !c.Tests.off {
		return out
	}
	list := node.E("ul.offs", node.Key("offs"))
	for i := range t.Off {
		strip := &t.Off[i]
		what := fmt.Sprintf("%s° only", session.Degrees(strip.Angle))
		if strip.Length > 0 {
			what = fmt.Sprintf("%s + %s of %s, %s°", session.Length(strip.Legs[0], u), session.Length(strip.Legs[1], u), session.Length(strip.Length, u), session.Degrees(strip.Angle))
		}
		if strip.Brake != "" {
			what += ", " + strip.Brake
		}
		put(list, node.E("li", node.Key(fmt.Sprint(i)), node.E("span", what), node.E("div.acts",
			button("b.line", "Use", node.A("aria-label", "Use the strip "+what), node.Click(func() { c.did(s.UseStrips([]metal.Strip{*strip})) })),
			button("b.line", "Delete", node.A("aria-label", "Delete the strip "+what), node.Click(func() { s.ForgetStrip(*strip) })))))
	}
	return append(out, list)
}

// stripTools are the guide to print, and the bench as a file.
func (c *Screen) stripTools() *node.Node {
	n := node.E("div.acts.tools2", node.Key("tools"))
	if len(c.Guide) == 0 {
		put(n, button("b.line.guide", "Print the guide", node.Click(c.Do.Guide)))
	} else {
		put(n, button("b.line.guide", "Print it again", node.Click(c.Do.Guide)), button("b.line.away", "Put the guide away", node.Click(func() { c.Guide = nil })))
	}
	if b := c.S.Bench(); len(b.Tests)+len(b.Metals) > 0 {
		put(n, button("b.line", "Save as a file", node.Click(c.Do.SaveBench)))
	}
	put(n, button("b.line", "Open a file", node.Click(c.Do.PickFile)))
	words := "Your test bends stay in this browser for other parts, and in the part."
	if c.BenchLost {
		return node.E("div.kept", node.Key("kept"), n, node.E("p.err", node.A("role", "alert"), "This browser can’t keep your test bends for other parts: its store is full or switched off. They stay in the part; save them as a file too."))
	}
	return node.E("div.kept", node.Key("kept"), n, node.E("p.src", words))
}
