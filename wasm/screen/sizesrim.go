package screen

// This file holds the rim of all walls under Sizes.

import (
	"fmt"

	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// rimWords are the rims in the order of session.RimKind.
var rimWords = [...]string{"none", "lip outwards", "out, then down", "lip inwards", "folded flat"}

// rimBox gives all walls with a free top the same rim, changes it, and takes it off; nil where there is no such wall.
func (c *Screen) rimBox() *node.Node {
	s := c.S
	kind, walls := s.Rim()
	if walls == 0 && kind == session.NoRim {
		return nil
	}
	var kinds [][2]string
	for k, w := range rimWords {
		if k == 0 && kind != session.NoRim {
			w = "none: take it off"
		}
		kinds = append(kinds, [2]string{itoa(k), w})
	}
	label := "Rim on all walls"
	if walls == 1 {
		label = "Rim on the wall"
	}
	n := node.E("div.rim", node.Key("rim"), c.choose("rim", label, kinds, itoa(int(kind)), func(v string) error {
		err := s.SetRim(session.RimKind(v[0] - '0'))
		if err != nil {
			c.say(err)
		}
		return err
	}))
	if kind == session.NoRim {
		return n
	}
	free := s.RimFree()
	walls -= free
	words := fmt.Sprintf("On %s. Its width is asked at the head of this column, once for all.", count(walls, "wall"))
	if kind == session.RimHook {
		words = fmt.Sprintf("On %s. Its two widths are asked at the head of this column, once for all.", count(walls, "wall"))
	}
	acts := node.E("div.acts")
	if free > 0 {
		put(acts, button("b.line", "Put it on "+count(free, "more wall"), node.Click(func() {
			if err := s.SetRim(kind); err != nil {
				c.say(err)
			}
		})))
	}
	put(acts, button("b.line", "Take the rim off", node.Click(func() {
		if err := s.SetRim(session.NoRim); err != nil {
			c.say(err)
			return
		}
		c.item = item{}
	})))
	put(n, node.E("p.src", words), acts)
	return n
}
