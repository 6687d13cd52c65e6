package paper

// This file draws the cutting sheet's blank.

import (
	"math"
	"strconv"

	"dryfold/fold"
	"dryfold/fold/cutting"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// Sizes in the cutting sheet's drawing, mm on paper.
const (
	hatchLong  = 1.7 // of the short lines on the waste's side
	hatchPitch = 1.5 // from one to the next
	hatchFrom  = 2.5 // the shortest edge that gets them
	letterFrom = 6.0 // the shortest edge that has its own letter beside it
	arrowFrom  = 9.0 // the shortest edge that has an arrow along it
	crossArm   = 1.3 // of a drilled place's cross
	maxHatches = 12000
)

// cutView is the blank, or an enlarged place of it, as it is drawn.
type cutView struct {
	c      *cutSheet
	s      *draft.Page
	scale  float64
	origin geom.Vec2 // where on the paper the blank’s box has its lower left corner
	pl     *placer
	place  int         // -1 the whole blank, else of places
	of     map[int]int // edges that are drawn in a place enlarged
	window geom.Box2   // what is seen, on paper
}

// blank carries a point of the blank to the paper.
func (v *cutView) blank(p geom.Vec2) geom.Vec2 {
	p = p.Sub(v.c.part.Blank.Box.Min)
	return geom.Vec2{v.origin[0] + p[0]*v.scale, v.origin[1] - p[1]*v.scale}
}

// mine reports that an edge is labelled in this view.
func (v *cutView) mine(i int) bool {
	k, enlarged := v.of[i]
	return enlarged && k == v.place || !enlarged && v.place < 0
}

// mineAt does the same for the corner at an edge’s A.
func (v *cutView) mineAt(i int) bool {
	k, enlarged := v.of[i]
	if !enlarged {
		k, enlarged = v.of[v.c.plan.Edges[i].Prev]
	}
	return enlarged && k == v.place || !enlarged && v.place < 0
}

// seen reports that something about a point may be seen.
func (v *cutView) seen(p geom.Vec2) bool {
	const more = 5
	return p[0] > v.window.Min[0]-more && p[0] < v.window.Max[0]+more && p[1] > v.window.Min[1]-more && p[1] < v.window.Max[1]+more
}

// drawing draws the blank with its edges’ tools, waste, drilled places and struck lines.
func (c *cutSheet) drawing(s *draft.Page, f cutFrame) {
	size := c.part.Blank.Box.Size()
	o, top, right := f.at(geom.Vec2{}), f.at(geom.Vec2{0, size[1]}), f.at(geom.Vec2{size[0], 0})
	window := geom.Box2{
		Min: geom.Vec2{margin, margin + c.headHigh() - 1},
		Max: geom.Vec2{f.w - margin - cutSide + 4, o[1] + cutRing},
	}
	places := c.placesAt(f.scale)
	v := &cutView{c: c, s: s, scale: f.scale, origin: f.origin, place: -1, of: enlarged(places), pl: &placer{limit: window}, window: window}
	// The edges that all is measured from.
	for _, l := range []struct {
		from, to geom.Vec2
		name     string
	}{{o, top, "A"}, {o, right, "B"}} {
		way := l.to.Sub(l.from).Normalize()
		s.Line("extension", l.from, l.to.Add(way.Mul(3.5)))
		at := l.to.Add(way.Mul(6.2))
		s.Text("fact", draft.Middle, at.Add(geom.Vec2{0, 1.5}), l.name)
		v.pl.boxes = append(v.pl.boxes, around(at, 2.2, 2))
	}
	v.body()
	for i, p := range places {
		lo, hi := v.blank(p.box.Min), v.blank(p.box.Max)
		at, r := lo.Add(hi).Mul(0.5), hi.Sub(lo).Len()/2+1.2
		s.Circle("tick", at, r)
		v.pl.boxes = append(v.pl.boxes, around(at, r*0.8, r*0.8))
		edge := at.Add(geom.Vec2{r, -r}.Mul(math.Sqrt2 / 2))
		if sp, ok := v.pl.near(edge, draft.Width(placeName(i), 4.2)+0.6, 3.6); ok {
			s.Text("fact", draft.Middle, geom.Vec2{sp.centre()[0], sp.box.Max[1] - 0.3}, placeName(i))
		}
	}
	v.labels()
}

// body draws what is cut: metal, waste, edges, drilled places and struck lines.
func (v *cutView) body() {
	c, s, p := v.c, v.s, v.c.part
	k := p.Spec.Units.Scale()
	file := func(q geom.Vec2) geom.Vec2 { return v.blank(q.Mul(k)) }
	var outline draft.Path
	for _, x := range append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		outline = append(outline, contourPath(tidy(x), file, k*v.scale)...)
	}
	s.Path("metal", outline)
	v.hatches()
	s.Group("outline")
	s.Path("outline", outline)
	for _, h := range p.Spec.Holes {
		if at := file(h.At); v.place < 0 || v.seen(at) {
			s.Circle("outline", at, h.Diameter*k/2*v.scale)
		}
	}
	s.End()
	for _, loop := range append([]geom.Loop{p.Outline}, p.Voids...) {
		if len(v.pl.lines) > 20*maxNumbered {
			break
		}
		for i, q := range loop {
			a, b := v.blank(q), v.blank(loop[(i+1)%len(loop)])
			if v.place < 0 || crossesBox(a, b, v.window, 1) {
				v.pl.lines = append(v.pl.lines, ink{a, b, -1})
			}
		}
	}
	v.struck()
	v.crosses(c.plan.Drills)
}

// labels write what belongs to what is drawn.
func (v *cutView) labels() {
	v.letters()
	v.bores()
	v.cornerMarks()
}

// hatches draw short lines on the waste’s side of each edge.
func (v *cutView) hatches() {
	v.s.Group("waste")
	var path draft.Path
	drawn := 0
	for i := range v.c.plan.Edges {
		e := &v.c.plan.Edges[i]
		long := e.Length * v.scale
		if long < hatchFrom || drawn > maxHatches || len(e.Tools) > 0 && e.Tools[0] == cutting.Drill {
			continue
		}
		n := max(1, int(long/hatchPitch))
		if n > maxHatches {
			continue
		}
		for j := range n {
			at, way := along(e, (float64(j)+0.5)/float64(n))
			a := v.blank(at)
			if !v.seen(a) {
				continue
			}
			out := geom.Perp(way).Mul(-1)
			slant := out.Sub(way.Mul(0.6)).Normalize()
			reach := hatchLong
			if e.Hollow() {
				reach = min(reach, e.Radius*v.scale*0.5)
			}
			path = path.M(a).L(a.Add(geom.Vec2{slant[0], -slant[1]}.Mul(reach)))
			drawn++
		}
	}
	if len(path) > 0 {
		v.s.Path("hair", path)
	}
	v.s.End()
}

// along is the point of an edge at a part of its length from A, and the way in which it runs there.
func along(e *cutting.Edge, t float64) (at, way geom.Vec2) {
	if e.Arc {
		sin, cos := math.Sincos(e.From + e.Sweep*t)
		at = e.Centre.Add(geom.Vec2{cos, sin}.Mul(e.Radius))
	} else {
		at = e.A.Add(e.B.Sub(e.A).Mul(t))
	}
	return at, e.Way(at)
}

// letters write each edge’s step and tool beside it, on the metal; cuts by hand of snips have an arrow in the waste. Short
// edges that follow each other have one label with a leader.
func (v *cutView) letters() {
	c, s, pl := v.c, v.s, v.pl
	s.Group("tools")
	back := make([]bool, len(c.plan.Edges))
	tool := make([]cutting.Tool, len(c.plan.Edges))
	for i := range c.plan.Steps {
		for _, x := range c.plan.Steps[i].Cuts {
			back[x.Edge], tool[x.Edge] = x.Back, x.Tool
		}
	}
	long := func(i int) float64 { return c.plan.Edges[i].Length * v.scale }
	for i := range c.plan.Edges {
		if v.mine(i) && long(i) >= arrowFrom && (tool[i] == cutting.LeftSnips || tool[i] == cutting.RightSnips) {
			v.arrow(&c.plan.Edges[i], back[i])
		}
	}
	done := make([]bool, len(c.plan.Edges))
	labelled := 0
	for i := range c.plan.Edges {
		e := &c.plan.Edges[i]
		if done[i] || !v.mine(i) || labelled > maxNumbered || tool[i] == cutting.Drill {
			continue // its cross says so
		}
		labelled++
		if long(i) >= letterFrom {
			done[i] = true
			if v.beside(e, strconv.Itoa(e.Step)+" "+tool[i].Letter()) {
				continue
			}
		}
		// All of a run of short edges, from its first on.
		first := i
		for p := c.plan.Edges[first].Prev; !done[i] && p != i && long(p) < letterFrom && !done[p] && v.mine(p); p = c.plan.Edges[first].Prev {
			first = p
		}
		var run []int
		for k := first; ; k = c.plan.Edges[k].Next {
			if len(run) > 0 && (k == first || long(k) >= letterFrom || done[k] || !v.mine(k)) {
				break
			}
			run = append(run, k)
			if done[i] { // a long one without room
				break
			}
		}
		text, step := "", 0
		for _, k := range run {
			done[k] = true
		}
		for st := 1; st <= len(c.plan.Steps); st++ {
			for t := range cutting.File + 1 {
				for _, k := range run {
					if c.plan.Edges[k].Step != st || tool[k] != t || t == cutting.Drill {
						continue
					}
					if st != step {
						if text != "" {
							text += ", "
						}
						text += strconv.Itoa(st)
						step = st
					}
					text += " " + t.Letter()
					break
				}
			}
		}
		if text == "" {
			continue
		}
		at := v.blank(c.plan.Edges[run[len(run)/2]].Mid)
		if sp, ok := pl.near(at, draft.Width(text, 2.9)+0.4, 2.9*0.95); ok {
			s.Line("leader", at, sp.from)
			s.Text("ball", draft.Middle, geom.Vec2{sp.centre()[0], sp.box.Max[1] - 0.4}, text)
		}
	}
	s.End()
}

// beside writes a label beside an edge: on the metal, else in the waste. It reports whether there was room.
func (v *cutView) beside(e *cutting.Edge, text string) bool {
	w, h := draft.Width(text, 2.9)+0.4, 2.9*0.95
	for _, side := range []float64{1, -1} {
		for _, t := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
			at, way := along(e, t)
			in := geom.Perp(way)
			in = geom.Vec2{in[0], -in[1]}.Mul(side)
			off := 0.9 + math.Abs(in[0])*w/2 + math.Abs(in[1])*h/2
			if side < 0 {
				off += hatchLong
			}
			b := around(v.blank(at).Add(in.Mul(off)), w/2, h/2)
			if v.pl.free(b) {
				v.pl.boxes = append(v.pl.boxes, b)
				v.s.Text("ball", draft.Middle, geom.Vec2{(b.Min[0] + b.Max[0]) / 2, b.Max[1] - 0.4}, text)
				return true
			}
		}
	}
	return false
}

// arrow shows which way an edge is cut, in the waste beside it, where there is room.
func (v *cutView) arrow(e *cutting.Edge, back bool) {
	s, pl := v.s, v.pl
	half := 2.6 / (e.Length * v.scale)
	if back {
		half = -half
	}
	for _, mid := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
		off := func(t float64) geom.Vec2 {
			at, way := along(e, t)
			return v.blank(at).Add(geom.Vec2{way[1], way[0]}.Mul(hatchLong + 0.9)) // right of the way, y downwards
		}
		tail, tip := off(mid-half), off(mid+half)
		box := geom.EmptyBox2()
		box.Add(tail)
		box.Add(tip)
		box = geom.Box2{Min: box.Min.Sub(geom.Vec2{0.5, 0.5}), Max: box.Max.Add(geom.Vec2{0.5, 0.5})}
		crossed := !pl.clear(box)
		for _, l := range pl.lines {
			crossed = crossed || cross(tail, tip, l.a, l.b)
		}
		if crossed {
			continue
		}
		d := tip.Sub(tail).Normalize()
		n := geom.Perp(d)
		s.Path("arrow", draft.Path{}.M(tail).L(tip).M(tip.Sub(d.Mul(1.3)).Add(n.Mul(0.8))).L(tip, tip.Sub(d.Mul(1.3)).Sub(n.Mul(0.8))))
		pl.boxes = append(pl.boxes, box)
		return
	}
}

// crosses draw one at each drilled place.
func (v *cutView) crosses(drills []cutting.Bore) {
	v.s.Group("bores")
	for i := range drills {
		b := &drills[i]
		at := v.blank(b.At)
		if i >= maxNumbered || !v.seen(at) {
			continue
		}
		r := b.Diameter / 2 * v.scale
		arm := max(crossArm, r+0.8)
		v.s.Line("tick", at.Sub(geom.Vec2{arm, 0}), at.Add(geom.Vec2{arm, 0}))
		v.s.Line("tick", at.Sub(geom.Vec2{0, arm}), at.Add(geom.Vec2{0, arm}))
		if b.For != cutting.Hole && b.For != cutting.Corner {
			v.s.Circle("tick", at, r)
		}
		v.pl.boxes = append(v.pl.boxes, around(at, arm*0.8, arm*0.8))
	}
	v.s.End()
}

// mark writes a small text beside a point, with a leader where it is farther off.
func (v *cutView) mark(at geom.Vec2, text string) {
	sp, ok := v.pl.near(at, draft.Width(text, smallSize)+0.3, smallSize*0.95)
	if !ok {
		return
	}
	if sp.leader {
		v.s.Line("leader", at, sp.from)
	}
	v.s.Text("small", draft.Middle, geom.Vec2{sp.centre()[0], sp.box.Max[1] - 0.35}, text)
}

// bores write each drilled place’s number in the drill list, and its drill.
func (v *cutView) bores() {
	v.s.Group("bores")
	for i := range v.c.plan.Drills {
		b := &v.c.plan.Drills[i]
		if i >= maxNumbered || b.Edge >= 0 && !v.mineAt(b.Edge) || b.Edge < 0 && v.place >= 0 {
			continue
		}
		at := v.blank(b.At)
		text := "D" + strconv.Itoa(i+1) + " Ø" + b.Size
		if b.When == cutting.After {
			text += " after"
		}
		reach := max(crossArm, b.Diameter/2*v.scale+0.8) * 0.8
		v.mark(at.Add(geom.Vec2{reach, -reach}), text)
	}
	v.s.End()
}

// cornerMarks number the corners as the marking-out sheet does.
func (v *cutView) cornerMarks() {
	v.s.Group("numbers")
	n := 0
	for i := range v.c.plan.Edges {
		if v.c.plan.Edges[i].Corners[0] >= 0 {
			n++
		}
	}
	step := n/maxNumbered + 1
	for i := range v.c.plan.Edges {
		e := &v.c.plan.Edges[i]
		if no := v.c.number(e.Contour, e.Corners[0]); !e.Whole && no > 0 && no%step == 0 && v.mineAt(i) {
			v.mark(v.blank(e.A), strconv.Itoa(no))
		}
	}
	v.s.End()
}

// struck draws the lines that nobody is to cut, crossed out.
func (v *cutView) struck() {
	c, s, pl := v.c, v.s, v.pl
	if len(c.plan.Struck) == 0 {
		return
	}
	s.Group("struck")
	for _, l := range c.plan.Struck {
		if l.Edge >= 0 {
			continue // it has to be cut: that is told at the head
		}
		a, b := v.blank(l.Line[0]), v.blank(l.Line[1])
		s.Line("tangent", a, b)
		d := b.Sub(a)
		n := max(1, min(60, int(d.Len()/7)))
		for i := range n {
			at := a.Add(d.Mul((float64(i) + 0.5) / float64(n)))
			s.Path("tick", cross2(at))
			pl.boxes = append(pl.boxes, around(at, 1, 1))
		}
		pl.lines = append(pl.lines, ink{a, b, -1})
		if v.place >= 0 {
			continue
		}
		const text = "DON’T CUT"
		if sp, ok := pl.near(a.Add(b).Mul(0.5), draft.Width(text, 3.3)+0.4, 3.2); ok {
			s.Line("leader", a.Add(b).Mul(0.5), sp.from)
			s.Text("loud", draft.Middle, geom.Vec2{sp.centre()[0], sp.box.Max[1] - 0.4}, text)
		}
	}
	s.End()
}

// cross2 is a small cross of two slanting strokes.
func cross2(at geom.Vec2) draft.Path {
	return draft.Path{}.M(at.Sub(geom.Vec2{1, 1})).L(at.Add(geom.Vec2{1, 1})).M(at.Sub(geom.Vec2{1, -1})).L(at.Add(geom.Vec2{1, -1}))
}

// legend says what letters and marks mean, in the column beside the drawing.
func (c *cutSheet) legend(s *draft.Page, x, y float64) float64 {
	const wide = cutSide - 6
	s.Group("legend")
	s.Text("head", draft.Start, geom.Vec2{x, y}, "Cut with")
	y += 4.6
	for _, t := range c.plan.Tools {
		s.Text("ball", draft.Start, geom.Vec2{x, y}, t.Letter())
		s.Text("dimb", draft.Start, geom.Vec2{x + 5, y}, t.String())
		y += 3.6
		for _, l := range draft.Wrap(t.Words(), smallSize*1.06, wide-5) {
			s.Text("small", draft.Start, geom.Vec2{x + 5, y}, l)
			y += 3
		}
		y += 1
	}
	y += 2
	s.Text("head", draft.Start, geom.Vec2{x, y}, "Marks")
	y += 4.8
	mark := func(draw func(at geom.Vec2), words string) {
		draw(geom.Vec2{x, y - 1})
		for _, l := range draft.Wrap(words, smallSize*1.06, wide-9) {
			s.Text("small", draft.Start, geom.Vec2{x + 9, y}, l)
			y += 3
		}
		y += 1.2
	}
	mark(func(at geom.Vec2) {
		s.Line("outline", at, at.Add(geom.Vec2{7, 0}))
		for i := range 4 {
			a := at.Add(geom.Vec2{1 + 1.5*float64(i), 0})
			s.Line("hair", a, a.Add(geom.Vec2{-0.9, 1.4}))
		}
	}, "short lines: the waste lies on this side")
	mark(func(at geom.Vec2) { s.Text("ball", draft.Start, at.Add(geom.Vec2{0, 1}), "5 R") }, "step 5, with tool R")
	if len(c.plan.Drills) > 0 {
		mark(func(at geom.Vec2) {
			m := at.Add(geom.Vec2{2.5, 0})
			s.Line("tick", m.Sub(geom.Vec2{crossArm, 0}), m.Add(geom.Vec2{crossArm, 0}))
			s.Line("tick", m.Sub(geom.Vec2{0, crossArm}), m.Add(geom.Vec2{0, crossArm}))
		}, "centre-punch and drill: D and its number in the drill list")
	}
	for _, t := range c.plan.Tools {
		if t == cutting.LeftSnips || t == cutting.RightSnips {
			mark(func(at geom.Vec2) {
				b := at.Add(geom.Vec2{6, 0})
				s.Path("arrow", draft.Path{}.M(at).L(b).M(b.Add(geom.Vec2{-1.3, -0.8})).L(b, b.Add(geom.Vec2{-1.3, 0.8})))
			}, "the way to cut")
			break
		}
	}
	mark(func(at geom.Vec2) { s.Text("small", draft.Start, at.Add(geom.Vec2{0, 1}), "12") }, "corner 12 of the marking-out sheet")
	if len(c.plan.Struck) > 0 {
		mark(func(at geom.Vec2) {
			s.Line("tangent", at, at.Add(geom.Vec2{7, 0}))
			s.Path("tick", cross2(at.Add(geom.Vec2{3.5, 0})))
		}, "scribed by mistake: nothing is cut here")
	}
	for _, l := range draft.Wrap("Bend lines are left out: nothing is cut along them.", smallSize*1.06, wide) {
		s.Text("small", draft.Start, geom.Vec2{x, y}, l)
		y += 3
	}
	s.End()
	return y
}
