package screen

// This file holds the shelf of starters: along the bench's upper edge, on a phone in the column.

import (
	"fmt"
	"slices"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// shelved reports whether the shelf lies along the bench's upper edge.
func (c *Screen) shelved() bool {
	return c.S.Word() == session.Sizes && !c.S.ViewOnly() && !c.Phone
}

// shelf is the starters side by side, the one that the part was begun from marked; nil where it is not
// wanted over the bench.
func (c *Screen) shelf() *node.Node {
	if !c.shelved() {
		return nil
	}
	return c.starters()
}

func (c *Screen) starters() *node.Node {
	n := node.E("nav.shelf", node.Key("shelf"), node.A("aria-label", "Start from a shape"))
	now := c.starter()
	for _, s := range shape.Starters {
		cls := "starter"
		if s.ID == now {
			cls = "starter.on"
		}
		put(n, button(cls, node.Key(s.ID), node.A("title", s.Note), node.A("aria-pressed", fmt.Sprint(s.ID == now)), starterSketch(s.ID), node.E("span", s.Title), node.Click(func() { c.begin(s) })))
	}
	return n
}

// begin puts a starter's part on the bench. The part before is one undo away.
func (c *Screen) begin(s shape.Starter) {
	before := c.S.OwnName()
	if err := c.S.StartWith(s.ID); err != nil {
		c.say(err)
		return
	}
	c.item, c.at, c.startOf = item{}, "", 0
	c.turn("home")
	c.Tell(s.Title + " on the bench. Undo brings " + before + " back.")
}

// starter is the starter that the open part was begun from: of those that ask for the same sizes the
// one with the part's name, else the first; "" for none.
func (c *Screen) starter() string {
	if c.startOf == c.S.Serial() && c.startOf > 0 {
		return c.start
	}
	c.start, c.startOf = "", c.S.Serial()
	f := c.S.Form()
	if f == nil {
		return ""
	}
	has := func(n sizes.Named) bool {
		return slices.ContainsFunc(f.Named, func(m sizes.Named) bool { return m.Name == n.Name && m.Label == n.Label })
	}
	for _, s := range shape.Starters {
		g := s.Make(fold.MM).Sizes
		if g == nil || len(g.Named) == 0 || len(g.Named) > len(f.Named) {
			continue
		}
		all := true
		for _, n := range g.Named {
			all = all && has(n)
		}
		if all && (c.start == "" || s.Title == c.S.Spec().Name) {
			c.start = s.ID
		}
	}
	return c.start
}
