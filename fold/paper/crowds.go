package paper

// This file finds the places of a blank where corners crowd on the marking-out sheet, and draws them enlarged with their numbers.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

const (
	// crowdFrom is how near to the next a corner is in a crowd, mm on paper: nearer, its number needs a leader.
	crowdFrom = 4.0
	// crowdLeast is how many corners are one.
	crowdLeast = 3
)

// crowds are the places where corners crowd in a drawing at a scale. The edges of such a place are its corners, by number from 0.
func (sh *sheet) crowds(scale float64) []cutPlace {
	if c, known := sh.crowded[scale]; known {
		return c
	}
	var out []cutPlace
	n := 0
	for _, c := range sh.m.contours {
		n += len(c)
	}
	if n <= mostEnlarged {
		for _, c := range sh.m.contours {
			out = append(out, sh.crowdsOf(c, scale)...)
		}
	}
	kept := out[:0]
	for _, p := range out {
		if p.scale = placeScale(p.box); len(p.edges) >= crowdLeast && p.scale >= placeLarger*scale {
			kept = append(kept, p)
		}
	}
	kept = kept[:min(len(kept), mostPlaces)]
	sh.crowded[scale] = kept
	return kept
}

// crowdsOf are the runs of a contour's corners that lie close together.
func (sh *sheet) crowdsOf(c contour, scale float64) (out []cutPlace) {
	if len(c) < crowdLeast {
		return nil
	}
	at := func(i int) geom.Vec2 { return sh.m.mm(c[i%len(c)].exact) }
	near := func(i int) bool { return at(i).Sub(at(i+1)).Len()*scale < crowdFrom }
	first := -1 // a corner with room before it
	for i := range c {
		if !near(i + len(c) - 1) {
			first = i
			break
		}
	}
	from, to := first, first+len(c)
	if first < 0 {
		from, to = 0, len(c)
	}
	for i := from; i < to; {
		p := cutPlace{box: geom.EmptyBox2()}
		for {
			p.edges = append(p.edges, c[i%len(c)].no-1)
			p.box.Add(at(i))
			i++
			if i >= to || !near(i-1) {
				break
			}
		}
		out = append(out, p)
	}
	return out
}

// drawCrowds draws the places from..to enlarged, from y down.
func (sh *sheet) drawCrowds(s *draft.Page, places []cutPlace, from, to int, y float64) {
	of := enlarged(places)
	placeWindows(s, places, from, to, y, func(i int, window geom.Box2) {
		p := &places[i]
		mid := p.box.Min.Add(p.box.Max).Mul(0.5)
		centre := window.Min.Add(window.Max).Mul(0.5)
		blank := func(v geom.Vec2) geom.Vec2 { // mm from A and B
			d := v.Sub(mid).Mul(p.scale)
			return geom.Vec2{centre[0] + d[0], centre[1] - d[1]}
		}
		o, k := sh.part.Blank.Box.Min, sh.part.Spec.Units.Scale()
		pl := &placer{limit: geom.Box2{Min: window.Min.Add(geom.Vec2{0.5, 0.5}), Max: window.Max.Sub(geom.Vec2{0.5, 0.5})}}
		var outline draft.Path
		for _, c := range append([]fold.Contour{sh.part.Spec.Outline}, sh.part.Spec.Cutouts...) {
			outline = append(outline, contourPath(tidy(c), func(v geom.Vec2) geom.Vec2 { return blank(v.Mul(k).Sub(o)) }, k*p.scale)...)
		}
		s.Path("metal", outline)
		line := func(class string, a, b geom.Vec2) {
			a, b = blank(a.Sub(o)), blank(b.Sub(o))
			if !crossesBox(a, b, window, 1) {
				return
			}
			if class != "" {
				s.Line(class, a, b)
			}
			pl.lines = append(pl.lines, ink{a, b, -1})
		}
		for i := range sh.part.Bends {
			b := &sh.part.Bends[i]
			l := b.SightLine()
			line("sight", l[0], l[1])
			line("bendline", b.Line[0], b.Line[1])
			for _, t := range tangents(b) {
				line("tangent", t[0], t[1])
			}
		}
		s.Path("outline", outline)
		for _, loop := range append([]geom.Loop{sh.part.Outline}, sh.part.Voids...) {
			for i, v := range loop {
				line("", v, loop[(i+1)%len(loop)])
			}
		}
		s.Group("numbers")
		for _, c := range sh.m.contours {
			for _, k := range c {
				at := blank(sh.m.mm(k.exact))
				if in, crowd := of[k.no-1]; !crowd || in != i {
					continue
				}
				t := fmt.Sprint(k.no)
				pl.boxes = append(pl.boxes, around(at, 0.4, 0.4))
				if sp, ok := pl.near(at, draft.Width(t, textSize)+0.3, textSize*0.9); ok {
					if sp.leader {
						s.Line("leader", at, sp.from)
					}
					s.Text("body", draft.Middle, geom.Vec2{sp.centre()[0], sp.box.Max[1] - 0.35}, t)
				}
			}
		}
		s.End()
	})
}

// markCrowds rings the places in the drawing, with their letters.
func (sh *sheet) markCrowds(s *draft.Page, f frame, pl *placer, places []cutPlace) {
	for i, p := range places {
		lo, hi := f.at(p.box.Min), f.at(p.box.Max)
		at, r := lo.Add(hi).Mul(0.5), hi.Sub(lo).Len()/2+1
		s.Circle("tick", at, r)
		pl.boxes = append(pl.boxes, around(at, r*0.8, r*0.8))
		if sp, ok := pl.near(at.Add(geom.Vec2{r, -r}.Mul(0.7)), draft.Width(placeName(i), 4.2)*1.06+0.6, 4.4); ok {
			if sp.leader {
				s.Line("leader", at.Add(geom.Vec2{r, -r}.Mul(0.7)), sp.from)
			}
			s.Text("fact", draft.Middle, geom.Vec2{sp.centre()[0], sp.box.Max[1] - 1}, placeName(i))
		}
	}
}
