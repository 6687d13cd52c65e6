package ascut

// This file holds the blank's mirror images: how one may be laid down to look like the drawing, and what would then be measured.

import (
	"math"

	"dryfold/fold/geom"
)

// image is the mirror image of a blank, laid down in the blank's own box one way.
type image struct {
	to      func(geom.Vec2) geom.Vec2
	corners []geom.Vec2 // those that a rule can be held to
	outline geom.Loop
	holes   []geom.Vec2
	lines   [][2]geom.Vec2
}

// images lists the ways in which the mirror image can be laid down: turned over about either side, and, where the blank is
// about square, about its diagonals.
func (m *movable) images() []image {
	lo, hi := m.box.Min, m.box.Max
	ways := []func(geom.Vec2) geom.Vec2{
		func(p geom.Vec2) geom.Vec2 { return geom.Vec2{lo[0] + hi[0] - p[0], p[1]} },
		func(p geom.Vec2) geom.Vec2 { return geom.Vec2{p[0], lo[1] + hi[1] - p[1]} },
	}
	if s := m.box.Size(); math.Abs(s[0]-s[1]) <= aboutSquare*max(s[0], s[1]) {
		ways = append(ways,
			func(p geom.Vec2) geom.Vec2 { return geom.Vec2{lo[0] + p[1] - lo[1], lo[1] + p[0] - lo[0]} },
			func(p geom.Vec2) geom.Vec2 { return geom.Vec2{hi[0] - p[1] + lo[1], hi[1] - p[0] + lo[0]} })
	}
	var out []image
	for _, to := range ways {
		g := image{to: to}
		for k, p := range m.at {
			if m.sharpAt(k) {
				g.corners = append(g.corners, to(p))
			}
		}
		for _, p := range m.part.Outline {
			g.outline = append(g.outline, to(p))
		}
		for _, h := range m.part.Spec.Holes {
			g.holes = append(g.holes, to(h.At.Mul(m.k)))
		}
		for i := range m.part.Bends {
			l := m.part.Bends[i].Line
			g.lines = append(g.lines, [2]geom.Vec2{to(l[0]), to(l[1])})
		}
		out = append(out, g)
	}
	return out
}

// own reports whether the image is the blank itself: outline, cutouts, holes and bend lines.
func (m *movable) own(g *image) bool {
	near := func(p geom.Vec2, in geom.Loop) bool {
		for i := range in {
			if d, _ := geom.SegmentDistance(p, in[i], in[(i+1)%len(in)]); d <= mirrorSame {
				return true
			}
		}
		return false
	}
	spec := &m.part.Spec
	if len(m.at)*len(m.part.Outline) > maxOwn {
		return false
	}
	// Every corner of the image lies on the blank, also midway along arcs: being as large, they are then the same.
	for k, v := range spec.Outline {
		if !near(g.to(m.at[k]), m.part.Outline) || v.Through != nil && !near(g.to(v.Through.Mul(m.k)), m.part.Outline) {
			return false
		}
	}
	for i, c := range spec.Cutouts {
		found := false
		for j := 0; j < len(spec.Cutouts) && j < len(m.part.Voids) && !found; j++ {
			found = true
			for _, v := range c {
				found = found && near(g.to(v.At.Mul(m.k)), m.part.Voids[j]) && (v.Through == nil || near(g.to(v.Through.Mul(m.k)), m.part.Voids[j]))
			}
		}
		if !found || len(spec.Cutouts)*len(spec.Cutouts[i]) > maxOwn {
			return false
		}
	}
	if len(spec.Holes)*len(spec.Holes) > maxOwn {
		return false
	}
	for i, h := range spec.Holes {
		found := false
		for _, o := range spec.Holes {
			found = found || g.holes[i].Sub(o.At.Mul(m.k)).Len() <= mirrorSame && math.Abs(o.Diameter-h.Diameter)*m.k <= mirrorSame
		}
		if !found {
			return false
		}
	}
	for i := range m.part.Bends {
		a, b := g.lines[i][0], g.lines[i][1]
		found := false
		for j := range m.part.Bends {
			l := m.part.Bends[j].Line
			found = found || max(a.Sub(l[0]).Len(), b.Sub(l[1]).Len()) <= mirrorSame || max(a.Sub(l[1]).Len(), b.Sub(l[0]).Len()) <= mirrorSame
		}
		if !found {
			return false
		}
	}
	return true
}

// nearest is the point of a list nearest to p.
func nearest(p geom.Vec2, list []geom.Vec2) (geom.Vec2, bool) {
	best, ok := geom.Vec2{}, false
	for _, q := range list {
		if !ok || q.Sub(p).Len() < best.Sub(p).Len() {
			best, ok = q, true
		}
	}
	return best, ok
}

// measured is what would be measured on the image for a size: from what lies nearest to where the drawing shows it. ok is false where
// there is nothing of the kind.
func (g *image) measured(x, y spot) (mm float64, ok bool) {
	if x.kind == atEdge && y.kind == atEdge {
		var hits []geom.Vec2
		d := y.at.Sub(x.at)
		n := geom.Perp(d).Normalize()
		for i, p := range g.outline {
			q := g.outline[(i+1)%len(g.outline)]
			a, b := p.Sub(x.at).Dot(n), q.Sub(x.at).Dot(n)
			if (a < 0) == (b < 0) {
				continue
			}
			hits = append(hits, p.Add(q.Sub(p).Mul(a/(a-b))))
		}
		p, _ := nearest(x.at, hits)
		q, ok := nearest(y.at, hits)
		return q.Sub(p).Len(), ok
	}
	find := func(s spot) (geom.Vec2, bool) {
		switch s.kind {
		case atEdge, atVoid: // told by other sizes
			return geom.Vec2{}, false
		case atHole:
			return nearest(s.at, g.holes)
		case atBend:
			var ends []geom.Vec2
			for _, l := range g.lines {
				ends = append(ends, l[0], l[1])
			}
			return nearest(s.at, ends)
		}
		return nearest(s.at, g.corners)
	}
	p, ok := find(x)
	q, too := find(y)
	return q.Sub(p).Len(), ok && too
}

// told reports whether a size tells the image from the blank.
func (g *image) told(c *candidate) bool {
	v, ok := g.measured(c.x, c.y)
	return ok && math.Abs(v-c.want) > MirrorTold
}

// mirror takes what tells the blank from its mirror images, where the list does not yet. own is true where the blank is its own mirror image; all is
// false where an image can't be told by any distance.
func (h *chooser) mirror() (own, all bool) {
	images := h.images()
	var hidden []image
	for i := range images {
		if h.own(&images[i]) {
			return true, true
		}
		shown := false
		for k := range h.out {
			shown = shown || images[i].told(&h.out[k])
		}
		if !shown {
			hidden = append(hidden, images[i])
		}
	}
	for len(hidden) > 0 {
		best, found := h.telling(hidden)
		if !found {
			return false, false
		}
		if len(h.out) >= h.room() { // it stands in the place of the last that a seam wants
			h.out = h.out[:h.room()-1]
		}
		h.add(best)
		var left []image
		for i := range hidden {
			if !hidden[i].told(&best) {
				left = append(left, hidden[i])
			}
		}
		if len(left) == len(hidden) {
			return false, false
		}
		hidden = left
	}
	return false, true
}

// telling finds the distance that tells most of the images, and those by as much as can be.
func (h *chooser) telling(hidden []image) (best candidate, ok bool) {
	var from []spot
	most := max(4, min(maxMirror, mirrorWork/(1+len(hidden[0].corners)*len(hidden))))
	for _, k := range h.outer(0) {
		if len(from) < most {
			from = append(from, h.cornerSpot(k, -1))
		}
	}
	to := from
	for i, x := range h.part.Spec.Holes {
		if len(to) < 2*most {
			to = append(to, spot{atHole, i, -1, 0, x.At.Mul(h.k)})
		}
	}
	for i := range h.part.Bends {
		if len(to) < 3*most {
			to = append(to, spot{atBend, i, -1, 0, h.part.Bends[i].Line[0]}, spot{atBend, i, -1, 1, h.part.Bends[i].Line[1]})
		}
	}
	score := 0.0
	for i, x := range from {
		for j, y := range to {
			if j <= i || y.at.Sub(x.at).Len() <= leastEdge {
				continue
			}
			s, want := 0.0, y.at.Sub(x.at).Len()
			for k := range hidden {
				v, there := hidden[k].measured(x, y)
				if !there {
					continue
				}
				if d := math.Abs(v - want); d > MirrorTold {
					s += 1000 + min(d, 50) // corners are easier found than marks
					if y.kind == atHole {
						s -= 10
					} else if y.kind == atBend {
						s -= 20
					}
				}
			}
			if s > score+onLine {
				c := h.candidate(x, y, forMirror)
				if h.same(c) {
					continue
				}
				best, score, ok = c, s, true
			}
		}
	}
	return best, ok
}

// tellsMirror reports whether a size tells the image that fewest sizes tell.
func (h *chooser) tellsMirror(c *candidate) bool {
	if h.hidden == nil {
		few := 0
		for _, g := range h.images() {
			n := 0
			for i := range h.out {
				if g.told(&h.out[i]) {
					n++
				}
			}
			if h.hidden == nil || n < few {
				h.hidden, few = &g, n
			}
		}
	}
	return h.hidden.told(c)
}
