package paper

// This file draws the blank with the sizes to be checked, as numbered lines with arrows.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/ascut"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// drawing draws the blank in a box, as large as fits.
func (sh *checkSheet) drawing(g *draft.Page, in geom.Box2) {
	p := sh.part
	box := p.Blank.Box
	size := box.Size()
	room := in.Size().Sub(geom.Vec2{64, 13}) // numbers stand round it, and what face it is at the left
	scale := min(room[0]/size[0], room[1]/size[1])
	for i := range scales {
		if 1/scales[i] <= scale {
			scale = 1 / scales[i]
			break
		}
	}
	at := func(v geom.Vec2) geom.Vec2 {
		d := v.Sub(box.Min.Add(size.Mul(0.5))).Mul(scale)
		c := in.Min.Add(in.Max).Mul(0.5)
		return geom.Vec2{c[0] + d[0], c[1] - d[1]}
	}
	k := p.Spec.Units.Scale()
	file := func(v geom.Vec2) geom.Vec2 { return at(v.Mul(k)) }
	pl := &placer{limit: in}
	var outline draft.Path
	for _, c := range append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		outline = append(outline, contourPath(tidy(c), file, k*scale)...)
	}
	// Edges A and B.
	lo, hi := at(box.Min), at(box.Max)
	g.Line("sheetedge", lo, geom.Vec2{lo[0], hi[1]})
	g.Line("sheetedge", lo, geom.Vec2{hi[0], lo[1]})
	g.Path("metal", outline)
	for i := range p.Bends {
		l := p.Bends[i].Line
		g.Line("tangent", at(l[0]), at(l[1]))
	}
	g.Group("outline")
	g.Path("outline", outline)
	for i, h := range p.Spec.Holes {
		if i >= maxNumbered {
			break
		}
		g.Circle("outline", file(h.At), h.Diameter*k/2*scale)
	}
	g.End()
	for _, f := range []struct {
		at   geom.Vec2
		name string
	}{{geom.Vec2{lo[0] - 3.6, hi[1] + 2.6}, "A"}, {geom.Vec2{hi[0] - 2.6, lo[1] + 3.6}, "B"}} {
		g.Box("box", f.at[0]-2.2, f.at[1]-2.2, 4.4, 4.4)
		g.Sized("fact", 3.4, draft.Middle, f.at.Add(geom.Vec2{0, 1.2}), f.name)
		pl.boxes = append(pl.boxes, around(f.at, 2.4, 2.4))
	}
	name := "1 : " + trim(1/scale, 2)
	if scale > 1 {
		name = trim(scale, 2) + " : 1"
	}
	g.Text("note", draft.Start, geom.Vec2{in.Min[0], in.Max[1] - 1}, "Drawn "+name)
	y := in.Min[1] + 5
	g.Text("loud", draft.Start, geom.Vec2{in.Min[0], y}, "THIS FACE UP")
	for _, t := range draft.Wrap(map[string]string{"up": "It is the good face.", "down": "The good face is underneath."}[p.Spec.Sheet.Good], 2.8, 28) {
		y += 3.8
		g.Text("note", draft.Start, geom.Vec2{in.Min[0], y}, t)
	}
	if sh.hand != "" {
		for _, t := range draft.Wrap(sh.hand, 3.4, 30) {
			y += 5
			g.Sized("fact", 3.4, draft.Start, geom.Vec2{in.Min[0], y + 2}, t)
		}
	}
	for i, v := range p.Outline {
		if i > 20*maxNumbered {
			break
		}
		pl.lines = append(pl.lines, ink{at(v), at(p.Outline[(i+1)%len(p.Outline)]), -1})
	}
	for i := range sh.sizes {
		s := &sh.sizes[i]
		a, b := at(s.From), at(s.To)
		if w, ok := sh.along(s); ok {
			w[1] = -w[1]
			a, b = a.Add(w.Mul(beside)), b.Add(w.Mul(beside))
		}
		pl.lines = append(pl.lines, ink{a, b, -2 - i})
	}
	for i := range sh.sizes {
		sh.size(g, pl, &sh.sizes[i], i, at)
	}
	sh.cornerMarks(g, pl, at)
	panelNames(g, p, at, pl)
	sh.details(g, in, scale)
}

// cornerMarks writes the numbers of the corners that sizes are measured at.
func (sh *checkSheet) cornerMarks(g *draft.Page, pl *placer, at func(geom.Vec2) geom.Vec2) {
	g.Group("numbers")
	defer g.End()
	done := map[int]bool{}
	for i := range sh.sizes {
		for _, e := range sh.sizes[i].Ends {
			for _, v := range e {
				n := sh.cornerOf(v)
				if n == 0 || done[n] {
					continue
				}
				done[n] = true
				text := fmt.Sprint(n)
				if sp, ok := pl.near(at(v), draft.Width(text, smallSize)+0.3, smallSize*0.95); ok {
					if sp.leader {
						g.Line("leader", at(v), sp.from)
					}
					g.Text("small", draft.Middle, geom.Vec2{sp.centre()[0], sp.box.Max[1] - 0.35}, text)
				}
			}
		}
	}
}

// Enlarged details of short sizes: at most maxDetails, detailBox wide and high, the size itself detailSize long (mm on paper); sizes of less than detailFrom have one.
const (
	maxDetails = 4
	detailBox  = 25.0
	detailSize = 9.0
	detailFrom = 6.0
)

// details draws short sizes enlarged, one below the other at the right.
func (sh *checkSheet) details(g *draft.Page, in geom.Box2, scale float64) {
	y := in.Min[1] + 1
	n := 0
	for i := range sh.sizes {
		s := &sh.sizes[i]
		d := s.To.Sub(s.From)
		long := d.Len()
		if !(long > 0) || long*scale >= detailFrom || n >= maxDetails || y+detailBox+4 > in.Max[1] {
			continue
		}
		n++
		k := detailSize / long
		box := geom.Box2{Min: geom.Vec2{in.Max[0] - detailBox, y + 4}, Max: geom.Vec2{in.Max[0], y + 4 + detailBox}}
		middle, mid := box.Min.Add(box.Max).Mul(0.5), s.From.Add(s.To).Mul(0.5)
		at := func(v geom.Vec2) geom.Vec2 {
			w := v.Sub(mid).Mul(k)
			return geom.Vec2{middle[0] + w[0], middle[1] - w[1]}
		}
		f := sh.part.Spec.Units.Scale()
		var path draft.Path
		for _, c := range append([]fold.Contour{sh.part.Spec.Outline}, sh.part.Spec.Cutouts...) {
			path = append(path, contourPath(tidy(c), func(v geom.Vec2) geom.Vec2 { return at(v.Mul(f)) }, f*k)...)
		}
		g.Text("note", draft.Start, geom.Vec2{box.Min[0], y + 3}, fmt.Sprintf("Size %d enlarged", s.No))
		g.Box("box", box.Min[0], box.Min[1], detailBox, detailBox)
		g.Window("detail", box)
		g.Path("metal", path)
		g.Path("outline", path)
		a, b := at(s.From), at(s.To)
		u := b.Sub(a).Mul(1 / b.Sub(a).Len())
		across := geom.Vec2{-u[1], u[0]}
		g.Line("rule", a, b)
		for _, t := range []struct{ p, way geom.Vec2 }{{a, u.Mul(-1)}, {b, u}} {
			q := t.p.Sub(t.way.Mul(2.2))
			g.Path("arrow", draft.Path{}.M(q.Add(across.Mul(0.75))).L(t.p, q.Sub(across.Mul(0.75))))
		}
		for _, e := range s.Ends {
			for _, v := range e {
				if c := sh.cornerOf(v); c > 0 {
					p := at(v)
					if w := p.Sub(middle); max(w[0], -w[0], w[1], -w[1]) > detailBox/2-4 {
						continue
					}
					out := p.Sub(middle)
					if l := out.Len(); l > 0 {
						out = out.Mul(2.6 / l)
					}
					g.Text("small", draft.Middle, p.Add(out).Add(geom.Vec2{0, 0.8}), fmt.Sprint(c))
				}
			}
		}
		g.End()
		y = box.Max[1] + 2
	}
}

// size draws one numbered line.
func (sh *checkSheet) size(g *draft.Page, pl *placer, s *ascut.Size, i int, at func(geom.Vec2) geom.Vec2) {
	const r, head = 2.7, 2.2
	a, b := at(s.From), at(s.To)
	if w, ok := sh.along(s); ok { // it runs along an edge: drawn beside it
		w[1] = -w[1]
		for _, p := range []*geom.Vec2{&a, &b} {
			g.Line("dimline", p.Add(w.Mul(0.8)), p.Add(w.Mul(beside+1)))
			*p = p.Add(w.Mul(beside))
		}
	}
	d := b.Sub(a)
	long := d.Len()
	if long < 1e-6 {
		return
	}
	u := d.Mul(1 / long)
	n := geom.Vec2{-u[1], u[0]}
	tip := func(p, way geom.Vec2) {
		q := p.Sub(way.Mul(head))
		g.Path("arrow", draft.Path{}.M(q.Add(n.Mul(0.75))).L(p, q.Sub(n.Mul(0.75))))
	}
	g.Group("check")
	defer g.End()
	if long < 3*head { // arrows from outside
		g.Line("rule", a.Sub(u.Mul(4.5)), a)
		g.Line("rule", b, b.Add(u.Mul(4.5)))
		tip(a, u)
		tip(b, u.Mul(-1))
	} else {
		g.Line("rule", a, b)
		tip(a, u.Mul(-1))
		tip(b, u)
	}
	// Its number stands on it, clear of all others, or beside it with a leader.
	put := func(c geom.Vec2) {
		pl.boxes = append(pl.boxes, around(c, r, r))
		g.Circle("box", c, r)
		g.Text("ball", draft.Middle, c.Add(geom.Vec2{0, 1.05}), fmt.Sprint(s.No))
	}
	if long >= 3*head {
		for pass := range 2 {
			for _, t := range []float64{0.5, 0.4, 0.6, 0.32, 0.68, 0.25, 0.75, 0.2, 0.8, 0.15, 0.85} {
				c := a.Add(d.Mul(t))
				if t*long < r+head || (1-t)*long < r+head {
					continue
				}
				if pass == 0 && pl.freeFor(around(c, r, r), -2-i) || pass == 1 && pl.clear(around(c, r+0.3, r+0.3)) && !sh.crossed(pl, c, r, i) {
					put(c)
					return
				}
			}
		}
	}
	from := a.Add(d.Mul(0.5))
	if sp, ok := pl.near(from, 2*r, 2*r); ok {
		if sp.leader {
			g.Line("leader", from, sp.from)
		}
		g.Circle("box", sp.centre(), r)
		g.Text("ball", draft.Middle, sp.centre().Add(geom.Vec2{0, 1.05}), fmt.Sprint(s.No))
		return
	}
	put(from)
}

// beside is how far off an edge a size along it is drawn, mm on paper.
const beside = 5.0

// along gives the way off the metal of an edge of the outline that a size runs along.
func (sh *checkSheet) along(s *ascut.Size) (geom.Vec2, bool) {
	d := s.To.Sub(s.From)
	n := geom.Perp(d).Mul(-1 / d.Len())
	l := sh.part.Outline
	for _, t := range []float64{0.2, 0.5, 0.8} {
		p := s.From.Add(d.Mul(t))
		on := false
		for i, a := range l {
			if far, _ := geom.SegmentDistance(p, a, l[(i+1)%len(l)]); far < 1e-6*d.Len()+1e-4 {
				on = true
				break
			}
		}
		if !on {
			return n, false
		}
	}
	if l.Contains(s.From.Add(d.Mul(0.5)).Add(n.Mul(d.Len() * 1e-3))) {
		n = n.Mul(-1)
	}
	return n, true
}

// crossed reports whether another size's line runs through a place.
func (sh *checkSheet) crossed(pl *placer, c geom.Vec2, r float64, i int) bool {
	for _, l := range pl.lines {
		if l.bend <= -2 && l.bend != -2-i && crossesBox(l.a, l.b, around(c, r, r), 0.2) {
			return true
		}
	}
	return false
}
