package paper

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// drawing draws the blank with its datum edges, running dimensions, bend lines,
// holes, corner numbers and stamp.
func (sh *sheet) drawing(s *draft.Page, f frame) {
	p := sh.part
	box := p.Blank.Box
	size := box.Size()
	k := p.Spec.Units.Scale()
	file := func(v geom.Vec2) geom.Vec2 { return f.at(v.Mul(k).Sub(box.Min)) }
	blank := func(v geom.Vec2) geom.Vec2 { return f.at(v.Sub(box.Min)) }
	pl := &placer{limit: geom.Box2{
		Min: geom.Vec2{f.origin[0], margin + f.head - 1},
		Max: geom.Vec2{f.w - margin - sideWidth - 1, f.origin[1]},
	}}

	if f.split {
		pl.limit.Min[1] = f.at(size)[1] - 3
	}

	// The sheet that the blank is cut from, and the metal.
	lo, hi := f.at(geom.Vec2{}), f.at(size)
	var outline draft.Path
	contours := append([]fold.Contour{p.Spec.Outline}, p.Spec.Cutouts...)
	for _, c := range contours {
		outline = append(outline, contourPath(tidy(c), file, k*f.scale)...)
	}
	s.Path("metal", outline)
	s.Box("sheetedge", lo[0], hi[1], hi[0]-lo[0], lo[1]-hi[1])
	sh.extensions(s, f)

	faint := []ink{{lo, hi, -1}, {geom.Vec2{lo[0], hi[1]}, geom.Vec2{hi[0], lo[1]}, -1}}
	for _, d := range sh.diagonals() {
		faint = append(faint, ink{f.at(sh.m.mm(d.a.exact)), f.at(sh.m.mm(d.b.exact)), -1})
	}
	for _, l := range faint {
		s.Line("diagonal", l.a, l.b)
	}
	s.Group("outline")
	s.Path("outline", outline)
	for _, h := range p.Spec.Holes {
		c, r := file(h.At), h.Diameter*k/2*f.scale
		s.Circle("outline", c, r)
		s.Line("centre", c.Sub(geom.Vec2{r + 1.6, 0}), c.Add(geom.Vec2{r + 1.6, 0}))
		s.Line("centre", c.Sub(geom.Vec2{0, r + 1.6}), c.Add(geom.Vec2{0, r + 1.6}))
		pl.boxes = append(pl.boxes, around(c, r, r))
		pl.lines = append(pl.lines, ink{c.Sub(geom.Vec2{r + 1.6, 0}), c.Add(geom.Vec2{r + 1.6, 0}), -1}, ink{c.Sub(geom.Vec2{0, r + 1.6}), c.Add(geom.Vec2{0, r + 1.6}), -1})
	}
	s.End()
	for _, loop := range append([]geom.Loop{p.Outline}, p.Voids...) {
		if len(pl.lines) > 20*maxNumbered {
			break
		}
		for i, v := range loop {
			pl.lines = append(pl.lines, ink{blank(v), blank(loop[(i+1)%len(loop)]), -1})
		}
	}
	apart := sh.apartAt(f.scale)
	for i := range p.Bends {
		b := &p.Bends[i]
		draw := func(class string, l [2]geom.Vec2) {
			a, b := blank(l[0]), blank(l[1])
			s.Line(class, a, b)
			pl.lines = append(pl.lines, ink{a, b, i})
		}
		draw("sight", b.SightLine())
		if !apart[i] {
			continue
		}
		draw("bendline", b.Line)
		for _, t := range tangents(b) {
			draw("tangent", t)
		}
	}
	sh.datums(s, f, pl)
	sh.numberNote(s, f, pl)
	sh.markCrowds(s, f, pl, sh.crowds(f.scale))
	sh.stamp(s, f, pl)
	for i := range p.Bends {
		sh.bendLabel(s, f, pl, i)
	}
	sh.numbers(s, f, pl)
	sh.grainMark(s, f, pl)
	panelNames(s, p, blank, pl, faint...)
	sh.runningDims(s, f)
}

// datums draws the edges A and B, each past the blank's end with its letter.
func (sh *sheet) datums(s *draft.Page, f frame, pl *placer) {
	size := sh.part.Blank.Box.Size()
	o, top, right := f.at(geom.Vec2{}), f.at(geom.Vec2{0, size[1]}), f.at(geom.Vec2{size[0], 0})
	s.Line("datum", o, top.Sub(geom.Vec2{0, 2}))
	s.Line("datum", o, right.Add(geom.Vec2{2, 0}))
	pl.lines = append(pl.lines, ink{o, top, -1}, ink{o, right, -1})
	flag := func(at geom.Vec2, name string) {
		s.Box("box", at[0]-2.5, at[1]-2.5, 5, 5)
		s.Text("fact", draft.Middle, at.Add(geom.Vec2{0, 1.5}), name)
		pl.boxes = append(pl.boxes, around(at, 2.5, 2.5))
	}
	flag(right.Add(geom.Vec2{4.5, 0}), "B")
	if !f.split {
		flag(top.Sub(geom.Vec2{0, 4.5}), "A")
		return
	}
	// Dimensions stand above: the letter goes to a free place at the edge's ends, or beside it off the metal, or on that.
	dims := placer{lines: sh.dimInk(f), boxes: pl.boxes, limit: geom.Box2{Max: geom.Vec2{f.w, f.h}}}
	for _, at := range []geom.Vec2{top.Add(geom.Vec2{0, -4.5}), top.Add(geom.Vec2{-3.5, -4.5}), o.Add(geom.Vec2{0, 4.5}), o.Add(geom.Vec2{-3.5, 4.5})} {
		if dims.free(around(at, 2.5, 2.5)) {
			flag(at, "A")
			return
		}
	}
	corner := sh.part.Blank.Box.Min
	blank := func(v geom.Vec2) geom.Vec2 { return f.at(v.Sub(corner)) }
	for _, metal := range []bool{false, true} {
		for _, t := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.9, 0.1} {
			at := o.Add(top.Sub(o).Mul(t)).Add(geom.Vec2{3.6, 0})
			if b := around(at, 2.5, 2.5); pl.free(b) && onBlank(sh.part, blank, b) == metal {
				flag(at, "A")
				return
			}
		}
	}
	flag(o.Add(geom.Vec2{-4.5, 4.5}), "A")
}

// around is the box of a half width and height about a point.
func around(c geom.Vec2, w, h float64) geom.Box2 {
	return geom.Box2{Min: c.Sub(geom.Vec2{w, h}), Max: c.Add(geom.Vec2{w, h})}
}

// bendLabel puts a bend's number in a circle on its line, with its way in arrow
// and word beside it.
func (sh *sheet) bendLabel(s *draft.Page, f frame, pl *placer, i int) {
	b := &sh.part.Bends[i]
	o := sh.part.Blank.Box.Min
	p, q := f.at(b.Line[0].Sub(o)), f.at(b.Line[1].Sub(o))
	word := "up"
	if !b.Up {
		word = "down"
	}
	no := sh.cards[i]
	r := max(2.3, draft.Width(no, 2.9)/2+0.9)
	w := 4.6 + draft.Width(word, 2.9)
	dir := q.Sub(p)
	if n := dir.Len(); n > 0 {
		dir = dir.Mul(1 / n)
	}
	flat := math.Abs(dir[0]) > 0.8
	off := 2.9 // of the word from the line, past the bend's edge where that is drawn
	if sh.apartAt(f.scale)[i] {
		off = max(off, max(b.Allowance/2, b.Radius-b.Allowance/2)*f.scale+2.3)
	}
	// Of places along the line, and both sides of it, take the first that is free.
	var ball, label geom.Box2
	var c geom.Vec2
	found := false
	onLine := false
	for pass := 0; pass < 3 && !found; pass++ { // near an edge the circle has to cover it, or the word stands on its own line
		for _, t := range []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9} {
			for _, side := range []float64{1, -1} {
				mid := p.Add(q.Sub(p).Mul(t))
				at := geom.Vec2{mid[0] + side*(max(r, off-2)+0.8+w/2), mid[1]}
				if flat {
					at = geom.Vec2{mid[0] + r + 0.8 + w/2, mid[1] - side*off}
				}
				if pass == 2 {
					at = mid.Add(geom.Vec2{side * (r + 0.8 + w/2), 0})
				}
				bl, lb := around(mid, r, r), around(at, w/2, 1.7)
				if pass == 0 && ball == (geom.Box2{}) { // somewhere to fall back to
					ball, label, c = bl, lb, mid
				}
				if !found && onMetal(b, b.Line[0].Add(b.Line[1].Sub(b.Line[0]).Mul(t))) && pl.freeFor(lb, i) &&
					(pl.freeFor(bl, i) || pass == 1 && pl.clear(bl)) {
					ball, label, c, found, onLine = bl, lb, mid, true, pass == 2
				}
			}
		}
	}
	if !found { // no room on the line: beside it, with a leader
		if sp, ok := pl.near(p.Add(q).Mul(0.5), 2*r+0.8+w, 2*r); ok {
			s.Line("leader", p.Add(q).Mul(0.5), sp.from)
			c = geom.Vec2{sp.box.Min[0] + r, sp.centre()[1]}
			ball = around(c, r, r)
			label = geom.Box2{Min: geom.Vec2{ball.Max[0] + 0.8, c[1] - 1.7}, Max: geom.Vec2{sp.box.Max[0], c[1] + 1.7}}
		} else { // nor there: the number alone, or only in the running dimensions and the table
			if pl.clear(ball) {
				pl.boxes = append(pl.boxes, ball)
				s.Circle("box", c, r)
				s.Text("ball", draft.Middle, c.Add(geom.Vec2{0, 1.05}), no)
			}
			return
		}
	}
	pl.boxes = append(pl.boxes, ball, label)
	if onLine {
		s.Box("metal", label.Min[0], label.Min[1], label.Max[0]-label.Min[0], label.Max[1]-label.Min[1])
	}
	s.Circle("box", c, r)
	s.Text("ball", draft.Middle, c.Add(geom.Vec2{0, 1.05}), no)
	s.Arrow(geom.Vec2{label.Min[0] + 1.3, (label.Min[1] + label.Max[1]) / 2}, b.Up)
	s.Text("way", draft.Start, geom.Vec2{label.Min[0] + 3.4, (label.Min[1]+label.Max[1])/2 + 1.0}, word)
}

// onMetal reports whether a blank point lies in the bend's zone, not in a slot across it.
func onMetal(b *fold.Bend, p geom.Vec2) bool {
	for _, z := range b.Zone {
		if z.Contains(p) {
			return true
		}
	}
	return false
}

// stamp says which face is up, and which hand the part is: in the base panel, or in the largest other one
// with room for it, or, small, wherever the base panel has some.
func (sh *sheet) stamp(s *draft.Page, f frame, pl *placer) {
	p := sh.part
	under := map[string]string{"up": "it is the good face", "down": "the good face is underneath", "": "good face: not said"}[p.Spec.Sheet.Good]
	if h := sh.hand(); h != "" {
		under = h
	}
	order := sh.largest()
	centre, big, found := geom.Vec2{}, 1.0, false
	for _, k := range order[:min(len(order), 8)] {
		// With room beside it for what is written at the bend lines.
		if centre, big, found = sh.stampIn(k, f, pl, 0.6, geom.Vec2{2.8, 4.8}); found {
			break
		}
	}
	if !found {
		if centre, big, found = sh.stampIn(p.Base, f, pl, leastStamp, geom.Vec2{0.6, 0.6}); !found {
			return // the band above says it
		}
	}
	w, h := 46*big, 14*big
	s.Box("box", centre[0]-w/2, centre[1]-h/2, w, h)
	if small := max(3*big, smallSize); big > 0.7 && draft.Width(under, small) < w-1 {
		s.Sized("stamp", 5*big, draft.Middle, geom.Vec2{centre[0], centre[1] - 0.2*big}, "THIS FACE UP")
		s.Sized("under", small, draft.Middle, geom.Vec2{centre[0], centre[1] + 4.4*big}, under)
	} else { // the band above says the rest
		s.Sized("stamp", 5*big, draft.Middle, geom.Vec2{centre[0], centre[1] + 1.8*big}, "THIS FACE UP")
	}
	pl.boxes = append(pl.boxes, around(centre, w/2, h/2))
}

// largest lists the panels: the base, then the others by area.
func (sh *sheet) largest() []int {
	p := sh.part
	order := []int{p.Base}
	for i := range p.Panels {
		if i != p.Base {
			order = append(order, i)
		}
	}
	geom.SortStable(order[1:], func(a, b int) int { return cmp.Compare(p.Panels[b].Area, p.Panels[a].Area) })
	return order
}

// stampIn finds the largest stamp, down to a least size, that a panel has a free
// place for with room round it; where there is none, the panel's middle.
func (sh *sheet) stampIn(k int, f frame, pl *placer, least float64, room geom.Vec2) (centre geom.Vec2, big float64, found bool) {
	middle := f.at(sh.part.Panels[k].Label.Sub(sh.part.Blank.Box.Min))
	for big = 1.0; big > least; big *= 0.85 {
		if centre, found = sh.roomIn(k, f, pl, geom.Vec2{46*big/2 + room[0], 14*big/2 + room[1]}); found {
			return centre, big, true
		}
	}
	return middle, least, false
}

// roomIn finds the free place for a box of half sizes on a panel that is nearest to its middle.
func (sh *sheet) roomIn(k int, f frame, pl *placer, half geom.Vec2) (centre geom.Vec2, found bool) {
	q := &sh.part.Panels[k]
	o := sh.part.Blank.Box.Min
	box := geom.EmptyBox2()
	for _, v := range q.Region.Outer {
		box.Add(v)
	}
	a, b := f.at(box.Min.Sub(o)), f.at(box.Max.Sub(o))
	low, high := geom.Vec2{a[0] + half[0], b[1] + half[1]}, geom.Vec2{b[0] - half[0], a[1] - half[1]} // where its middle may lie
	if low[0] > high[0] || low[1] > high[1] {
		return centre, false
	}
	pl = pl.within(geom.Box2{Min: low.Sub(half), Max: high.Add(half)})
	middle := f.at(q.Label.Sub(o))
	best := math.Inf(1)
	for i := range stampTries * stampTries {
		t := geom.Vec2{float64(i%stampTries) + 0.5, float64(i/stampTries) + 0.5}.Mul(1.0 / stampTries)
		c := geom.Vec2{low[0] + (high[0]-low[0])*t[0], low[1] + (high[1]-low[1])*t[1]}
		v := geom.Vec2{(c[0] - f.origin[0]) / f.scale, (f.origin[1] - c[1]) / f.scale}.Add(o)
		if d := c.Sub(middle).Len(); d < best && pl.free(around(c, half[0], half[1])) && q.Region.Contains(v) {
			best, centre = d, c
		}
	}
	return centre, !math.IsInf(best, 1)
}

// grainMark draws the grain's direction where the sheet's is said: an arrow each way with the word
// between, on the base panel or the largest with room. Where none has, the sheet's head alone says it.
func (sh *sheet) grainMark(s *draft.Page, f frame, pl *placer) {
	p := sh.part
	if p.Spec.Sheet.Grain == nil {
		return
	}
	a := math.Mod(math.Mod(*p.Spec.Sheet.Grain, 180)+180, 180)
	if a > 90+grainSquare { // the word reads from the left, or upwards
		a -= 180
	}
	sin, cos := math.Sincos(a * math.Pi / 180)
	order := sh.largest()
	for _, long := range []float64{grainLong, grainLong * 0.75, grainLong * 0.6} {
		w := (long*math.Abs(cos) + 4*math.Abs(sin)) / 2
		h := (long*math.Abs(sin) + 4*math.Abs(cos)) / 2
		for _, k := range order[:min(len(order), 8)] {
			c, ok := sh.roomIn(k, f, pl, geom.Vec2{w, h})
			if !ok {
				continue
			}
			word := draft.Width("grain", 2.9) / 2
			to := func(along, off float64) geom.Vec2 { return c.Add(geom.Vec2{along*cos + off*sin, off*cos - along*sin}) } // off downwards
			s.Group("grain")
			for _, way := range []float64{-1, 1} {
				end := way * long / 2
				s.Path("arrow", draft.Path{}.M(to(way*(word+0.8), 0)).L(to(end, 0)).M(to(end-way*1.4, -0.8)).L(to(end, 0), to(end-way*1.4, 0.8)))
			}
			s.Turned("way", a, draft.Middle, to(0, 1), "grain")
			s.End()
			return
		}
	}
}

// numbers writes each hole's and corner's number beside it.
func (sh *sheet) numbers(s *draft.Page, f frame, pl *placer) {
	s.Group("numbers")
	mark := func(at geom.Vec2, text string) {
		sp, ok := pl.near(at, draft.Width(text, smallSize)+0.3, smallSize*0.95)
		if !ok {
			return
		}
		if sp.leader {
			s.Line("leader", at, sp.from)
		}
		s.Text("small", draft.Middle, geom.Vec2{sp.centre()[0], sp.box.Max[1] - 0.35}, text)
	}
	for i, h := range sh.m.holes {
		if i >= maxNumbered {
			break
		}
		r := h.diameter / 2 * sh.m.units.Scale() * f.scale
		c := f.at(sh.m.mm(h.exact))
		mark(c.Add(geom.Vec2{r * 0.7, -r * 0.7}), fmt.Sprintf("H%d Ø%s", i+1, sh.fine(h.diameter*sh.m.units.Scale())))
	}
	of, step := enlarged(sh.crowds(f.scale)), sh.numberStep(f)
	for _, c := range sh.m.contours {
		for _, k := range c {
			if _, crowd := of[k.no-1]; k.no%step == 0 && !crowd {
				mark(f.at(sh.m.mm(k.exact)), fmt.Sprint(k.no))
			}
		}
	}
	s.End()
}

// numberStep is which of the corners that are not enlarged the drawing numbers: each, or one in so many.
func (sh *sheet) numberStep(f frame) int {
	n := -len(enlarged(sh.crowds(f.scale)))
	for _, c := range sh.m.contours {
		n += len(c)
	}
	size := sh.part.Blank.Box.Size().Mul(f.scale)
	step, around := n/maxNumbered+1, 2*(size[0]+size[1])
	if n > 20 && float64(n)*numberRoom > around {
		step = max(step, int(math.Ceil(2.5*float64(n)*numberRoom/around)))
	}
	return step
}

// numberNote says, above the drawing, which corners are numbered elsewhere.
func (sh *sheet) numberNote(s *draft.Page, f frame, pl *placer) {
	t := ""
	if len(sh.crowds(f.scale)) > 0 {
		t = "Corners in a ring: enlarged on the next page, by its letter. "
		if f.single {
			t = "Corners in a ring: enlarged below, by its letter. "
		}
	}
	if step := sh.numberStep(f); step > 1 {
		t += fmt.Sprintf("Of the corners one in %d is numbered here; the table has all.", step)
	}
	if t = strings.TrimSpace(t); t == "" {
		return
	}
	dims := placer{lines: sh.dimInk(f), boxes: pl.boxes, limit: geom.Box2{Max: geom.Vec2{f.w - margin - sideWidth, f.h}}}
	box := func(x float64) geom.Box2 {
		at := geom.Vec2{x, margin + f.head + 1.5}
		return geom.Box2{Min: at.Sub(geom.Vec2{0, 2.5}), Max: at.Add(geom.Vec2{draft.Width(t, 2.8), 1})}
	}
	at := margin
	for _, x := range []float64{margin, f.origin[0] + 4} {
		if dims.free(box(x)) {
			at = x
			break
		}
	}
	s.Text("note", draft.Start, geom.Vec2{at, margin + f.head + 1.5}, t)
	pl.boxes = append(pl.boxes, box(at))
}

// extensions are faint lines from each running dimension to the nearest thing it measures.
func (sh *sheet) extensions(s *draft.Page, f frame) {
	for _, d := range sh.row(left, f) {
		s.Line("extension", f.at(geom.Vec2{0, d.at}).Sub(geom.Vec2{1.5, 0}), f.at(geom.Vec2{d.reach, d.at}))
	}
	for _, d := range sh.row(below, f) {
		s.Line("extension", f.at(geom.Vec2{d.at, 0}).Add(geom.Vec2{0, 1.5}), f.at(geom.Vec2{d.at, d.reach}))
	}
	for _, d := range sh.row(above, f) {
		s.Line("extension", f.at(geom.Vec2{d.at, sh.part.Blank.Box.Size()[1]}).Sub(geom.Vec2{0, 1.5}), f.at(geom.Vec2{d.at, d.far}))
	}
}

// runningDims writes the dimensions from B at the left, from A below and above.
func (sh *sheet) runningDims(s *draft.Page, f frame) {
	s.Group("dims")
	style := func(d dim) string {
		if d.strong {
			return "dimb"
		}
		return "dim"
	}
	rows, at := sh.spreadDims(left, f)
	for i, d := range rows {
		y := f.origin[1] - at[i]
		tip := f.at(geom.Vec2{0, d.at}).Sub(geom.Vec2{2, 0})
		turn := geom.Vec2{f.origin[0] - dimLeader + 1.6, y}
		s.Path("dimline", draft.Path{}.M(tip).L(tip.Sub(geom.Vec2{1.5, 0}), turn, turn.Sub(geom.Vec2{0.8, 0})))
		s.Text(style(d), draft.End, geom.Vec2{f.origin[0] - dimLeader + 0.3, y + 1.05}, d.text)
	}
	for _, w := range []side{below, above} {
		edge, out, anchor := f.origin[1], 1.0, draft.End
		if w == above {
			edge, out, anchor = f.at(geom.Vec2{0, sh.part.Blank.Box.Size()[1]})[1], -1, draft.Start
		}
		rows, at := sh.spreadDims(w, f)
		for i, d := range rows {
			x := f.origin[0] + at[i]
			tip, turn := geom.Vec2{f.origin[0] + d.at*f.scale, edge + 2*out}, geom.Vec2{x, edge + (dimLeader-1.6)*out}
			s.Path("dimline", draft.Path{}.M(tip).L(tip.Add(geom.Vec2{0, 1.5 * out}), turn, turn.Add(geom.Vec2{0, 0.8 * out})))
			if f.turned {
				s.Turned(style(d), 90, anchor, geom.Vec2{x + 1.05, edge + dimLeader*out}, d.text)
			} else {
				s.Text(style(d), draft.Middle, geom.Vec2{x, edge + dimLeader + 2.4}, d.text)
			}
		}
	}
	s.End()
}
