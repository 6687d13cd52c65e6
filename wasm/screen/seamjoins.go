package screen

// This file holds how seams are closed: for the whole part at the head of the column, and for the opened seam.

import (
	"fmt"
	"strings"

	"dryfold/fold"
	"dryfold/wasm/node"
	"dryfold/wasm/session"
)

// joinsBox is how the seams of the whole part are closed.
func (c *Screen) joinsBox() *node.Node {
	s := c.S
	u := s.Units()
	all, _ := s.Join("")
	words := "How are they closed? Not said"
	if all.Way != "" {
		words = "Closed by " + session.JoinWords(all.Way, all.Process)
		if all.Way == "open" {
			words = "Left open"
		}
	}
	if widest := s.WidestField(all); widest == "0" {
		words += ", edges must touch"
	} else if widest != "" {
		words += ", up to " + widest + " " + u.String()
	}
	if weld := s.Report().Weld; weld > 0 {
		words += fmt.Sprintf("; %s %s of weld in all", session.Size(weld, u), u)
	}
	n := more("joins", words)
	put(n, c.joinFields("", all, session.JoinWays(), all.Way)...)
	put(n, node.E("p.src", "A seam that is opened below can have its own."))
	return node.E("section.pad.joins", node.Key("joins"), n)
}

// weldCaution is what to mind at the arc, once, where a seam is to be welded; with what is to be minded of the part's metal.
func (c *Screen) weldCaution() *node.Node {
	s := c.S
	welded := false
	for i := range s.Report().Seams {
		welded = welded || s.Report().Seams[i].Way == "weld" || s.Report().Seams[i].Way == "spot"
	}
	if !welded {
		return nil
	}
	words := "Welding: eyes and skin against the rays, air for the fumes, nothing near that burns. "
	if m, ok := s.TheMetal(); ok {
		for _, k := range m.Cautions {
			if strings.Contains(strings.ToLower(k), "fume") {
				words += k + " "
			}
		}
	}
	return node.E("p.src.pad.caution", node.Key("caution"), words+"Follow the machine’s manual and local codes, and ask a qualified person where one is required.")
}

// joinOf is how the opened seam is closed.
func (c *Screen) joinOf(x *fold.SeamReport) *node.Node {
	s := c.S
	j, own := s.Join(x.Name)
	follow := "As the others"
	if words := session.JoinWords(x.Way, x.Process); !own && words != "" {
		follow += ": " + words
	}
	ways := append([][2]string{{"follow", follow}}, session.JoinWays()...)
	now := "follow"
	if own {
		now = j.Way
	}
	box := node.E("div.joinof")
	put(box, c.joinFields(x.Name, j, ways, now)...)
	return box
}

// joinFields are the fields of a JoinSpec; now is the way that is chosen of ways.
func (c *Screen) joinFields(seam string, j fold.JoinSpec, ways [][2]string, now string) (out []*node.Node) {
	s := c.S
	tell := func(err error) {
		if err != nil {
			c.say(err)
		}
	}
	if seam == "" || now == "" {
		ways = append([][2]string{{"", "Not said"}}, ways...)
	}
	way := session.JoinField(seam, "way")
	out = append(out, pick("f-"+way, "Closed by", ways, now, func(v string) {
		if v == "follow" {
			tell(s.FollowJoin(seam))
			return
		}
		tell(s.SetJoinWay(seam, v))
	}), c.fault(way))
	if now == "weld" {
		out = append(out, pick("f-"+session.JoinField(seam, "process"), "Welded with", append([][2]string{{"", "Not said"}}, session.WeldProcesses()...), j.Process, func(v string) { tell(s.SetProcess(seam, v)) }))
	}
	if now != "open" {
		label := "Widest gap I close"
		if seam != "" {
			label += " here"
		}
		out = append(out, c.field(session.JoinField(seam, "widest"), label, s.WidestField(j), s.Units().String(),
			func(t string) error { return s.SetWidest(seam, t) }, node.A("placeholder", "–")))
	}
	return out
}
