package ascut

// This file holds the straight cuts of a blank, and the blank with some of them cut elsewhere.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Cut is a straight edge of the outline, whole: what is cut in one go. Lengths in mm.
type Cut struct {
	Name string       // in words: "right end of front"
	Ends [2]geom.Vec2 // material on the left
	Out  geom.Vec2    // unit, away from the material
}

func (c *Cut) length() float64 { return c.Ends[1].Sub(c.Ends[0]).Len() }

// beyond is how far a point lies outside of the cut's line.
func (c *Cut) beyond(p geom.Vec2) float64 { return p.Sub(c.Ends[0]).Dot(c.Out) }

// blank is the outline of a Spec, ready to be changed. The outline's edge k leads to corner k.
type blank struct {
	spec fold.Spec
	k    float64 // mm in a file unit
	ccw  bool
	at   []geom.Vec2 // corners, mm
	cuts []Cut
	of   []int // by edge: the cut that it belongs to, -1 for an arc
	box  geom.Box2
}

func newBlank(s fold.Spec, box geom.Box2) *blank {
	b := &blank{spec: s, k: s.Units.Scale(), box: box}
	var round geom.Loop
	for _, v := range s.Outline {
		b.at = append(b.at, v.At.Mul(b.k))
		if v.Through != nil {
			round = append(round, v.Through.Mul(b.k))
		}
		round = append(round, v.At.Mul(b.k))
	}
	b.ccw = round.Area() > 0
	n := len(b.at)
	b.of = make([]int, n)
	for k := range b.of {
		b.of[k] = -1
	}
	begin := 0 // an edge that doesn't go straight on from the one before
	for k := range n {
		if !b.goesOn(k) {
			begin = k
			break
		}
	}
	for i := range n {
		k := (begin + i) % n
		if s.Outline[k].Through != nil || b.edge(k).Len() <= fold.Weld {
			continue
		}
		if i > 0 && b.goesOn(k) && b.of[(k+n-1)%n] >= 0 {
			c := b.of[(k+n-1)%n]
			b.of[k] = c
			b.cuts[c].Ends[1] = b.at[k]
			continue
		}
		b.of[k] = len(b.cuts)
		b.cuts = append(b.cuts, Cut{Ends: [2]geom.Vec2{b.at[(k+n-1)%n], b.at[k]}})
	}
	for i := range b.cuts {
		c := &b.cuts[i]
		if !b.ccw {
			c.Ends[0], c.Ends[1] = c.Ends[1], c.Ends[0]
		}
		c.Out = geom.Perp(c.Ends[1].Sub(c.Ends[0]).Normalize()).Mul(-1)
	}
	return b
}

// edge is the way along edge k.
func (b *blank) edge(k int) geom.Vec2 {
	n := len(b.at)
	return b.at[k].Sub(b.at[(k+n-1)%n])
}

// goesOn reports whether edge k goes straight on from the one before it.
func (b *blank) goesOn(k int) bool {
	n := len(b.at)
	j := (k + n - 1) % n
	if b.spec.Outline[k].Through != nil || b.spec.Outline[j].Through != nil {
		return false
	}
	d, e := b.edge(j), b.edge(k)
	return d.Dot(e) > 0 && math.Abs(geom.Cross2(d, e)) <= onLine*max(d.Len(), e.Len())
}

// onCut reports whether a point lies on the cut.
func (b *blank) onCut(c int, p geom.Vec2, reach float64) bool {
	d, _ := geom.SegmentDistance(p, b.cuts[c].Ends[0], b.cuts[c].Ends[1])
	return d <= reach
}

// cutAt is the cut on which the middle of an edge lies, -1 where it is none.
func (b *blank) cutAt(e [2]geom.Vec2) int {
	m := e[0].Add(e[1]).Mul(0.5)
	for c := range b.cuts {
		if b.onCut(c, m, onLine) {
			return c
		}
	}
	return -1
}

// met is the move that brings a point out by x along n and by y along m; ok is false where the two hardly cross.
func met(n geom.Vec2, x float64, m geom.Vec2, y float64) (geom.Vec2, bool) {
	cross := geom.Cross2(n, m)
	if math.Abs(cross) < leastSlide {
		return geom.Vec2{}, false
	}
	return geom.Vec2{(x*m[1] - y*n[1]) / cross, (y*n[0] - x*m[0]) / cross}, true
}

// goes is how the corner between edges k and k+1 moves: one way, or, where a step is cut, one way for either edge.
func (b *blank) goes(k int, out []float64) (w [2]geom.Vec2, step bool) {
	n := len(b.at)
	c, d := b.of[k], b.of[(k+1)%n]
	by := func(c int) (geom.Vec2, float64) {
		if c < 0 {
			return geom.Vec2{}, 0
		}
		return b.cuts[c].Out, out[c]
	}
	cn, cx := by(c)
	dn, dx := by(d)
	switch {
	case c >= 0 && d >= 0:
		if c == d {
			return [2]geom.Vec2{cn.Mul(cx), cn.Mul(cx)}, false
		}
		if cx == 0 && dx == 0 {
			return
		}
		if v, ok := met(cn, cx, dn, dx); ok {
			v = b.eaten(k, v, c, d, out)
			return [2]geom.Vec2{v, v}, false
		}
		return [2]geom.Vec2{cn.Mul(cx), dn.Mul(dx)}, true
	case c >= 0:
		// A rounded corner goes along with both of its edges.
		v := b.arcGoes((k+1)%n, c, b.of[(k+2)%n], out)
		return [2]geom.Vec2{v, v}, false
	case d >= 0:
		v := b.arcGoes(k, d, b.of[(k+n-1)%n], out)
		return [2]geom.Vec2{v, v}, false
	}
	return
}

// eaten keeps the corner between edges k and k+1 from running past the far end of the one that stays, where a short edge is cut away whole: from
// its far end the new edge is then reached square.
func (b *blank) eaten(k int, w geom.Vec2, c, d int, out []float64) geom.Vec2 {
	n := len(b.at)
	for _, x := range [2][3]int{{c, d, (k + 1) % n}, {d, c, (k + n - 1) % n}} {
		if out[x[1]] != 0 || out[x[0]] >= 0 {
			continue
		}
		way := b.at[x[2]].Sub(b.at[k])
		if l := way.Len(); w.Dot(way) > l*l {
			far := b.at[x[2]]
			cut := &b.cuts[x[0]]
			return far.Add(cut.Out.Mul(out[x[0]] - cut.beyond(far))).Sub(b.at[k])
		}
	}
	return w
}

// arcGoes is how the end of arc edge k on cut c moves, when the arc leads on to cut d: a corner that was rounded off goes along whole.
func (b *blank) arcGoes(k, c, d int, out []float64) geom.Vec2 {
	if d >= 0 && (out[c] != 0 || out[d] != 0) && b.rounds(k, c, d) {
		if v, ok := met(b.cuts[c].Out, out[c], b.cuts[d].Out, out[d]); ok {
			return v
		}
	}
	return b.cuts[c].Out.Mul(out[c])
}

// rounds reports whether arc edge k runs smoothly into both cuts.
func (b *blank) rounds(k, c, d int) bool {
	n := len(b.at)
	p, q, t := b.at[(k+n-1)%n], b.at[k], b.spec.Outline[k].Through.Mul(b.k)
	u, v := t.Sub(p), q.Sub(p)
	cross := 2 * geom.Cross2(u, v)
	if cross == 0 {
		return false
	}
	o := p.Add(geom.Vec2{v[1]*u.Dot(u) - u[1]*v.Dot(v), u[0]*v.Dot(v) - v[0]*u.Dot(u)}.Mul(1 / cross))
	for _, x := range []int{c, d} {
		cut := &b.cuts[x]
		near := math.Abs(math.Abs(cut.beyond(o)) - o.Sub(p).Len())
		if near > smooth*o.Sub(p).Len() {
			return false
		}
	}
	return true
}

// corner is where a corner of the outline comes to lie, seen from the cut it is measured at (-1: any).
func (b *blank) corner(k int, cut int, out []float64) geom.Vec2 {
	w, step := b.goes(k, out)
	if step && cut >= 0 && b.of[k] != cut {
		return b.at[k].Add(w[1])
	}
	return b.at[k].Add(w[0])
}

// moved is the Spec with each cut moved outward by so much (mm). Ends of bend lines and points of seams go with their edges.
func (b *blank) moved(out []float64) fold.Spec {
	s := b.spec
	s.Sizes, s.AsCut = nil, nil // the blank is no longer what they make
	s.Outline = nil
	n := len(b.at)
	to := func(p geom.Vec2) geom.Vec2 { return p.Mul(1 / b.k) }
	for k, v := range b.spec.Outline {
		w, step := b.goes(k, out)
		q := fold.Vertex{At: v.At}
		if w[0] != (geom.Vec2{}) {
			q.At = to(b.at[k].Add(w[0]))
		}
		if v.Through != nil {
			from, _ := b.goes((k+n-1)%n, out)
			t := *v.Through
			if m := from[1].Add(w[0]).Mul(0.5); m != (geom.Vec2{}) {
				t = to(v.Through.Mul(b.k).Add(m))
			}
			q.Through = &t
		}
		s.Outline = append(s.Outline, q)
		if step && w[0].Sub(w[1]).Len() > fold.Weld {
			s.Outline = append(s.Outline, fold.Vertex{At: to(b.at[k].Add(w[1]))})
		}
	}
	s.Bends = append([]fold.BendSpec(nil), s.Bends...)
	for i := range s.Bends {
		l := s.Bends[i].Line
		s.Bends[i].Line = [2]geom.Vec2{to(b.lineEnd(l[0].Mul(b.k), l[1].Mul(b.k), out)), to(b.lineEnd(l[1].Mul(b.k), l[0].Mul(b.k), out))}
	}
	s.Seams = append([]fold.SeamSpec(nil), s.Seams...)
	for i := range s.Seams {
		s.Seams[i].A = to(b.seamPoint(s.Seams[i].A.Mul(b.k), out))
		s.Seams[i].B = to(b.seamPoint(s.Seams[i].B.Mul(b.k), out))
	}
	return s
}

// lineEnd is where a bend line's end e comes to lie; the line's other end is f.
func (b *blank) lineEnd(e, f geom.Vec2, out []float64) geom.Vec2 {
	u := e.Sub(f).Normalize()
	best, most := e, 0.0
	for c, x := range out {
		den := b.cuts[c].Out.Dot(u)
		if x == 0 || den < leastSlide {
			continue
		}
		s := -b.cuts[c].beyond(e) / den // to the cut's line
		q := e.Add(u.Mul(s))
		if !b.onCut(c, q, lineEnd) || s > lineEnd || f.Sub(q).Dot(u) > 0 {
			continue
		}
		if s < -lineEnd && x/den <= -s { // it ends off the sheet, and still does
			continue
		}
		if on := s + x/den; math.Abs(on) > most {
			best, most = e.Add(u.Mul(on)), math.Abs(on)
		}
	}
	return best
}

// seamPoint is where a point that names an edge comes to lie.
func (b *blank) seamPoint(p geom.Vec2, out []float64) geom.Vec2 {
	near, at := fold.SeamReach, -1
	for c := range b.cuts {
		if d, _ := geom.SegmentDistance(p, b.cuts[c].Ends[0], b.cuts[c].Ends[1]); d < near {
			near, at = d, c
		}
	}
	if at < 0 {
		return p
	}
	return p.Add(b.cuts[at].Out.Mul(out[at]))
}

// leaning is the Spec as marked from a corner that is not square: edge B stays, and what lies y above it goes to the right by lean times y.
func (b *blank) leaning(lean float64) fold.Spec {
	s := b.spec
	s.Sizes, s.AsCut = nil, nil // the blank is no longer what they make
	return s.Mapped(func(p geom.Vec2) geom.Vec2 { return geom.Vec2{p[0] + lean*(p[1]-b.box.Min[1]/b.k), p[1]} })
}
