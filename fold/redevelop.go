package fold

// This file lays a blank out anew for another thickness, other radii or another K, so that the
// finished part keeps its outside sizes.

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"dryfold/fold/geom"
)

// Redevelop gives the blank that folds to the same outside sizes when the numbers its bends
// depend on are changed: next is the part's own Spec with another thickness, other radii, K, rule, metal or test
// bends, everything else the same. Every panel keeps its outside sharps (beyond 90 degrees its outermost tangent
// planes, as Setback has them): the panels move on the blank by the change of the bends'
// deductions, the bend lines with them, and what lies in a zone is drawn out or
// pushed together evenly across it. Reliefs at the ends of a bend go with its held tangent line; with another thickness the ends of walls
// that meet at a corner go with the inner faces there. Where an edge runs
// aslant through a zone a corner is put in at each tangent line, so that the panels' own edges keep their
// directions.
//
// The error says why it can't be done: the part is not foldable, is too large (maxRedevelop), or a
// bend would take more than there is. The result is to be built and looked at.
func (p *Part) Redevelop(next Spec) (Spec, error) {
	return p.redevelop(next, next.lore(), nil)
}

func (p *Part) redevelop(next Spec, m *lore, known *sites) (Spec, error) {
	if !p.Foldable {
		return Spec{}, errors.New("the part can't be folded, so its finished sizes are not known")
	}
	if len(next.Bends) != len(p.Bends) || next.Units != p.Spec.Units {
		return Spec{}, errors.New("only thickness, radii and what K comes from may differ")
	}
	thick := next.Sheet.Thickness * next.Units.Scale()
	if !(thick >= MinSize && thick <= MaxSize) {
		return Spec{}, fmt.Errorf("a thickness from %g to %.0f mm is needed", MinSize, MaxSize)
	}
	if p.corners()*(len(p.Panels)+len(p.Bends)) > maxRedevelop {
		return Spec{}, fmt.Errorf("a part of %d corners and %d bends is too large for it", p.corners(), len(p.Bends))
	}
	if known == nil {
		known = p.newSites()
	}
	r := redeveloper{part: p, sites: known, k: next.Units.Scale(), shift: make([]geom.Vec2, len(p.Panels)), bends: make([]stretch, len(p.Bends))}
	for i := range p.Bends {
		old := &p.Bends[i]
		if next.Bends[i].Angle != p.Spec.Bends[i].Angle {
			return Spec{}, errors.New("only thickness, radii and what K comes from may differ, no angles")
		}
		now := next.bend(i, m)
		was, _ := old.Setback(p.Thickness)
		is, _ := now.Setback(thick)
		s := stretch{back: is - was, was: old.Allowance, is: now.Allowance}
		if s.was > 0 && s.between() <= 0 {
			return Spec{}, fmt.Errorf("%s would take up more of the blank than it has now, and what lies beside it with it", theBend(old.Name))
		}
		r.bends[i] = s
	}
	for _, k := range p.order {
		if b := p.Panels[k].Parent; b >= 0 {
			bend := &p.Bends[b]
			r.shift[k] = r.shift[bend.A].Add(bend.N.Mul(r.bends[b].between() - r.bends[b].was))
		}
	}
	if thick != p.Thickness {
		r.ends, r.pose = p.wallEnds(thick-p.Thickness), p.Pose(p.Finished())
	}
	return r.spec(next), nil
}

// corners counts the blank's corners and holes.
func (p *Part) corners() int {
	n := len(p.Spec.Outline) + len(p.Spec.Holes)
	for _, c := range p.Spec.Cutouts {
		n += len(c)
	}
	return n
}

// stretch is how one bend's zone changes: by back more setback on either side, from the
// allowance was to is.
type stretch struct{ back, was, is float64 }

// between is how far apart the two old tangent lines come to lie.
func (s stretch) between() float64 { return s.is - 2*s.back }

// across is where a place s across the zone, from the held tangent line, comes to lie.
func (s stretch) across(at float64) float64 {
	switch {
	case at <= 0 || s.was == 0:
		return at
	case at >= s.was:
		return at + s.between() - s.was
	}
	return at * s.between() / s.was
}

type redeveloper struct {
	part  *Part
	sites *sites
	k     float64
	shift []geom.Vec2 // of each panel on the blank
	bends []stretch
	ends  [][]wallEnd // by panel; nil where the thickness stays
	pose  Pose        // finished, where there are ends
}

func (r *redeveloper) spec(s Spec) Spec {
	s.Outline = r.contour(s.Outline, r.edge)
	cutouts := s.Cutouts
	s.Cutouts = nil
	for _, c := range cutouts {
		s.Cutouts = append(s.Cutouts, r.contour(c, r.point))
	}
	holes := s.Holes
	s.Holes = nil
	for _, h := range holes {
		h.At = r.point(h.At)
		s.Holes = append(s.Holes, h)
	}
	names := s.Panels
	s.Panels = nil
	for _, n := range names {
		n.At = r.point(n.At)
		s.Panels = append(s.Panels, n)
	}
	seams := s.Seams
	s.Seams = nil
	for _, m := range seams {
		m.A, m.B = r.edge(m.A), r.edge(m.B)
		s.Seams = append(s.Seams, m)
	}
	bends := s.Bends
	s.Bends = nil
	for i, b := range bends {
		old, c := &r.part.Bends[i], r.bends[i]
		move := r.shift[old.A].Add(old.N.Mul(c.is/2 - c.back - c.was/2)).Mul(1 / r.k)
		// Where the free edges run aslant, the line's run grows: its ends go on a little.
		d := b.Line[1].Sub(b.Line[0])
		over := d.Mul((2*move.Len() + r.longest(old)/r.k) / d.Len())
		if c.is == c.was && c.back == 0 {
			over = geom.Vec2{}
		}
		b.Line = [2]geom.Vec2{tidy(b.Line[0].Add(move).Sub(over)), tidy(b.Line[1].Add(move).Add(over))}
		s.Bends = append(s.Bends, b)
	}
	return s
}

// tidy takes the noise of the reckoning off a point in the file's units.
func tidy(v geom.Vec2) geom.Vec2 {
	const grid = 1e10
	return geom.Vec2{math.Round(v[0]*grid) / grid, math.Round(v[1]*grid) / grid}
}

// point is where a point of the blank, in the file's units, comes to lie.
func (r *redeveloper) point(v geom.Vec2) geom.Vec2 { return tidy(r.moved(v.Mul(r.k)).Mul(1 / r.k)) }

// edge is point for what lies on the outline.
func (r *redeveloper) edge(v geom.Vec2) geom.Vec2 {
	at := v.Mul(r.k)
	to := r.moved(at)
	return tidy(to.Add(r.end(r.sites.at[at].panel, at)).Mul(1 / r.k))
}

func (r *redeveloper) contour(c Contour, point func(geom.Vec2) geom.Vec2) Contour {
	var out Contour
	for i, v := range c {
		if v.Through == nil {
			for _, x := range r.crossings(c[(i+len(c)-1)%len(c)].At.Mul(r.k), v.At.Mul(r.k)) {
				out = append(out, Vertex{At: tidy(x.Mul(1 / r.k))})
			}
		}
		n := Vertex{At: point(v.At)}
		if v.Through != nil {
			t := point(*v.Through)
			n.Through = &t
		}
		out = append(out, n)
	}
	return out
}

// crossings are the places, already moved, where a straight edge that runs aslant through a zone
// crosses its tangent lines, in order.
func (r *redeveloper) crossings(a, b geom.Vec2) []geom.Vec2 {
	type hit struct {
		t float64
		p geom.Vec2
	}
	var hits []hit
	d := b.Sub(a)
	for i := range r.part.Bends {
		bend := &r.part.Bends[i]
		if c := r.bends[i]; c.between() == c.was {
			continue
		}
		ds := d.Dot(bend.N)
		if du := d.Dot(bend.U); math.Abs(du) <= Weld || math.Abs(ds) <= Weld {
			continue
		}
		from, to := bend.run()
		for _, s := range []float64{0, bend.Allowance} {
			_, sa := bend.Coord(a)
			t := (s - sa) / ds
			p := a.Add(d.Mul(t))
			if u, _ := bend.Coord(p); t*d.Len() <= lineSlack || (1-t)*d.Len() <= lineSlack || u < from-Weld || u > to+Weld {
				continue
			}
			panel := bend.A
			if s > 0 {
				panel = bend.B
			}
			hits = append(hits, hit{t, p.Add(r.shift[panel])})
		}
	}
	geom.SortStable(hits, func(x, y hit) int { return cmp.Compare(x.t, y.t) })
	out := make([]geom.Vec2, len(hits))
	for i, h := range hits {
		out[i] = h.p
	}
	return out
}

// moved is where a point of the blank (mm) comes to lie: with its panel, or drawn out with its
// zone; a point off both goes with the nearest.
func (r *redeveloper) moved(v geom.Vec2) geom.Vec2 {
	at, ok := r.sites.at[v]
	if !ok {
		at = r.part.site(v)
		at.lines = [2]int{-1, -1}
		if at.panel >= 0 {
			at.lines, at.slide = linesAt(r.sites.reliefs[at.panel], v)
		}
		r.sites.at[v] = at
	}
	if at.panel < 0 {
		b := &r.part.Bends[at.zone]
		_, s := b.Coord(v)
		return v.Add(r.shift[b.A]).Add(b.N.Mul(r.bends[at.zone].across(s) - s))
	}
	return v.Add(r.shift[at.panel]).Add(r.goes(at.lines, at.slide))
}
