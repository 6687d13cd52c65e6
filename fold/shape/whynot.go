package shape

// This file says why a blank that was drawn can't be folded.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/sizes"
)

// whyNot names the hole that cuts a bend off, where leaving one out helps; two flanges that lie over each other on the
// blank; else the field of the panel or bend that is named.
func (b *builder) whyNot(made Made, part *fold.Part) *Problem {
	for _, t := range part.Troubles {
		if t.Severity != fold.Stop {
			continue
		}
		if i := b.spoiler(made); i >= 0 {
			h := &b.form.Holes[i]
			need := "a smaller one, or another place: it reaches across a bend"
			if t.Kind == "bend" {
				need = "a smaller one, or another place: it cuts the bend " + t.Name + " off"
			}
			path := fmt.Sprintf("sizes.holes[%d]", i)
			if h.Wide.Given {
				return &Problem{path + ".wide", b.say(b.length(path+".wide", h.Wide, 0)), need}
			}
			return &Problem{path + ".on", sizes.Quote(h.On), need}
		}
		if t.Rule == "blank-overlap" {
			for _, little := range []float64{b.t * b.t, 0} {
				if p := b.overlap(little); p != nil {
					return p
				}
			}
		}
		for _, c := range b.corners {
			if t.Kind != "bend" || c.over == nil || c.over.line != t.Name || c.rim {
				continue
			}
			k, inset, have := c.a, ".to", c.a.to // on the end of the bent panel, at its foot
			if c.b.parent == c.over {
				k, inset, have = c.b, ".from", c.b.from
			}
			return &Problem{k.path + inset, b.say(have),
				"an inset, so that " + k.name + " keeps clear of the bend " + t.Name + ": there it can’t close with its neighbour"}
		}
		if p := b.overlap(b.t * b.t); p != nil { // what the kernel stumbled over may come of it
			return p
		}
		path := "sizes.base"
		for _, n := range b.panels {
			if n.name == t.Name && n.at >= 0 {
				path = n.path
			}
		}
		return &Problem{path, "a part that can’t be folded", fmt.Sprintf("other sizes: %s", t.Message)}
	}
	return &Problem{"sizes", "a part that can’t be folded", "other sizes"}
}

// spoiler is the index of a hole of the form without which the part folds, -1 if there is none.
func (b *builder) spoiler(made Made) int {
	for i := range min(len(b.form.Holes), maxSpoilers) {
		s := made.Spec
		s.Holes, s.Cutouts = nil, nil
		for k, by := range made.Holes {
			if by == i {
				continue
			}
			if n := len(made.Spec.Holes); k < n {
				s.Holes = append(s.Holes, made.Spec.Holes[k])
			} else {
				s.Cutouts = append(s.Cutouts, made.Spec.Cutouts[k-n])
			}
		}
		if fold.Build(s).Foldable {
			return i
		}
	}
	return -1
}
