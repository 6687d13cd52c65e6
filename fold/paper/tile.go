package paper

// This file draws one page of a template.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// footLine is one line of what stands below a tile.
type footLine struct{ class, words string }

// high is how high a line of the foot is.
func (l footLine) high() float64 {
	if l.class == "small" {
		return 3.15
	}
	return 3.9
}

// use is how a template is used; single where it is one page.
func (t *template) use(single bool) []string {
	_, name := t.opt.square()
	out := []string{"Print at 100 %, actual size. Measure the check square both ways first: where it isn't " + name + ", enter what it measures and print again. Paper swells with damp (common practice): use it on the day."}
	if w := scaledWords(t.scale); w != "" {
		out = append(out, w)
	}
	if !single {
		out = append(out, "Join: cut the paper on the toothed line, lay it over its neighbours, diamond on diamond, and tape it.")
	}
	return append(out, t.work)
}

// footText is what stands at the foot of every page, broken to a width; joins is the line for this page alone.
func (t *template) footText(width float64, joins string, single bool) []footLine {
	name := t.part.Spec.Name
	loud := t.loud
	if t.opt.Other {
		name, loud = fold.OtherHand(name), fold.OtherHand(loud)
	}
	out := []footLine{{"bold", draft.Clip(name+": "+t.kind, textSize*1.05, width)}}
	if loud != "" {
		out = append(out, footLine{"bold", draft.Clip(loud, textSize*1.05, width)})
	}
	spare := 0 // lines that other pages' joins need
	if !single {
		l := draft.Wrap(joins, textSize*1.05, width)
		n := joinLines(width)
		for _, w := range l[:min(len(l), n)] {
			out = append(out, footLine{"bold", w})
		}
		spare = max(0, n-len(l))
	}
	face := "THIS FACE UP"
	if t.under != "" {
		face += ", " + t.under
	}
	if h := t.hand(); h != "" {
		face += ", " + h
	}
	facts := slices.Clone(t.facts)
	facts[0] += " " + face + "."
	for _, w := range append(facts, t.use(single)...) {
		for _, l := range draft.Wrap(w, smallSize, width) {
			out = append(out, footLine{"small", l})
		}
	}
	for range spare {
		out = append(out, footLine{"bold", ""})
	}
	return out
}

// joinLines is how many lines a page's own word on its joins may take at a width.
func joinLines(width float64) int { return int(math.Ceil(240 / width)) }

// footWide is the width of a foot's text on a page whose printed width is given.
func (t *template) footWide(width float64, single bool) float64 {
	w := width - nameWide - mapWide - 3
	if !single {
		w -= t.over/2 + 1.5
	}
	return w
}

// footHeight is how high the foot of a page is, the same on all.
func (t *template) footHeight(width float64, joined bool) float64 {
	h := 2.5
	for _, l := range t.footText(t.footWide(width, !joined), "", !joined) {
		h += l.high()
	}
	return max(mapHigh+2, h)
}

// tilePages draws all pages.
func (t *template) tilePages(g *tiling) []draft.Page {
	joins := t.joins(g)
	outline := t.thumb(g)
	var out []draft.Page
	for r := range g.rows {
		for c := range g.cols {
			if g.has(r, c) {
				out = append(out, t.tilePage(g, joins, outline, r, c, len(out)+1))
			}
		}
	}
	return out
}

func (t *template) tilePage(g *tiling, joins []join, outline draft.Path, r, c, no int) draft.Page {
	s := &draft.Page{W: g.page[0], H: g.page[1], Title: fmt.Sprintf("%s, %s, page %d of %d", t.part.Spec.Name, t.kind, no, g.count)}
	s.Box("paper", 0, 0, s.W, s.H)
	win := g.window(r, c)
	move := geom.Vec2{g.margin, g.margin}.Sub(win.Min)
	on := func(v geom.Vec2) geom.Vec2 { return v.Add(move) }
	box := geom.Box2{Min: on(win.Min), Max: on(win.Max)}
	core := g.core(r, c)
	core = geom.Box2{Min: on(core.Min), Max: on(core.Max)}

	s.Window("tile", box)
	t.inked(s, win, move)
	lines := near(t.lines, win)
	for i := range lines {
		lines[i].a, lines[i].b = on(lines[i].a), on(lines[i].b)
	}
	pl := &placer{limit: geom.Box2{Min: core.Min.Add(geom.Vec2{0.6, 0.6}), Max: core.Max.Sub(geom.Vec2{0.6, 0.6})}, lines: lines}
	for _, j := range joins {
		t.drawJoin(s, g, &j, r, c, on, pl)
	}
	onMetal := t.onMetal(win)
	sq := t.placeSquare(pl.limit, pl.lines, func(v geom.Vec2) bool { return onMetal(v.Sub(move)) })
	t.drawSquare(s, sq, pl)
	t.tileStamp(s, core, pl, func(v geom.Vec2) bool { return onMetal(v.Sub(move)) })
	t.tileDatums(s, core, on, pl)
	for i := range t.part.Bends {
		t.tileBend(s, i, core, on, pl)
	}
	t.tileHoles(s, core, on, pl)
	s.End()
	t.footer(s, g, joins, outline, r, c, no)
	return *s
}

// inked draws what of the blank comes into a window.
func (t *template) inked(s *draft.Page, win geom.Box2, move geom.Vec2) {
	const pen = 1.0 // half of the widest line, and some
	group, last := "", -2
	var path draft.Path
	var class string
	flush := func() {
		if path != nil {
			s.Path(class, path)
		}
		path = nil
	}
	for i := range t.ink {
		p := &t.ink[i]
		if p.box.Max[0] < win.Min[0]-pen || p.box.Min[0] > win.Max[0]+pen || p.box.Max[1] < win.Min[1]-pen || p.box.Min[1] > win.Max[1]+pen {
			continue
		}
		if p.group != group {
			flush()
			if group != "" {
				s.End()
			}
			group, last = p.group, -2
			s.Group(group)
		}
		if p.step.Op == 'O' {
			flush()
			s.Circle(p.class, p.step.To.Add(move), p.step.R)
			continue
		}
		if last != i-1 || class != p.class || t.ink[i-1].step.To != p.from {
			flush()
			path, class = draft.Path{}.M(p.from.Add(move)), p.class
		}
		st := p.step
		st.To = st.To.Add(move)
		path, last = append(path, st), i
	}
	flush()
	if group != "" {
		s.End()
	}
}

// onMetal tells, of points in a window, whether they lie on the metal.
func (t *template) onMetal(win geom.Box2) func(geom.Vec2) bool {
	var rows []ink
	for _, l := range t.lines[:t.rim] {
		if max(l.a[1], l.b[1]) >= win.Min[1] && min(l.a[1], l.b[1]) <= win.Max[1] {
			rows = append(rows, l)
		}
	}
	return func(v geom.Vec2) bool {
		in := false
		for _, l := range rows {
			if (l.a[1] > v[1]) != (l.b[1] > v[1]) && l.a[0]+(l.b[0]-l.a[0])*(v[1]-l.a[1])/(l.b[1]-l.a[1]) > v[0] {
				in = !in
			}
		}
		return in
	}
}

// drawJoin draws the line along which a tile is cut or covered, and its diamonds.
func (t *template) drawJoin(s *draft.Page, g *tiling, j *join, r, c int, on func(geom.Vec2) geom.Vec2, pl *placer) {
	over := j.r2 == r && j.c2 == c
	if !over && (j.r != r || j.c != c) {
		return
	}
	a, b := on(j.a), on(j.b)
	h := t.over / 2
	u, n := geom.Vec2{1, 0}, geom.Vec2{0, 1} // along the line; towards the tile that lies over
	if j.upright() {
		u, n = geom.Vec2{0, 1}, geom.Vec2{1, 0}
	}
	s.Group("join")
	pl.lines = append(pl.lines, ink{a, b, -1})
	words := "lay " + g.pageName(j.r2, j.c2) + " over this, to the line"
	if over {
		s.Line("papercut", a, b)
		for x, l := paperTooth, b.Sub(a).Len(); x < l; x += paperTooth { // teeth on what goes off, so that no line of the metal is like it
			at := a.Add(u.Mul(x))
			s.Line("papercut", at, at.Sub(n.Mul(paperToothHigh)).Sub(u.Mul(paperToothHigh)))
		}
		words = "cut the paper here; join to " + g.pageName(j.r, j.c)
	} else {
		s.Line("hair", a, b)
	}
	w := min(h-0.7, 4)
	for i, d := range j.marks {
		at := on(d.at)
		side := n // the side that is seen of this tile
		if !over {
			side = n.Mul(-1)
		}
		tip := u.Mul(w)
		wing := n.Mul(w)
		s.Path("tick", draft.Polygon(at.Sub(tip), at.Add(wing), at.Add(tip), at.Sub(wing)))
		s.Line("tick", at.Sub(tip), at.Add(tip))
		s.Line("tick", at.Sub(wing), at.Add(wing))
		for k, v := range []geom.Vec2{tip, wing, tip.Mul(-1), wing.Mul(-1)} {
			pl.lines = append(pl.lines, ink{at.Add(v), at.Add([]geom.Vec2{wing, tip.Mul(-1), wing.Mul(-1), tip}[k]), -1})
		}
		no := fmt.Sprint(d.no)
		lab := at.Add(side.Mul(w + 0.8 + draft.Width(no, 2.9)/2))
		if !j.upright() {
			lab = at.Add(side.Mul(w + 2.4))
		}
		s.Text("dimb", draft.Middle, lab.Add(geom.Vec2{0, 1}), no)
		pl.boxes = append(pl.boxes, around(lab, draft.Width(no, 2.9)/2+0.3, 1.5), around(at, w, w))
		// What is to be done stands on the strip that is cut off or covered, past every diamond.
		if i%2 == 1 && len(j.marks) > 2 && i < len(j.marks)-1 {
			continue
		}
		off := n.Mul(-h / 2)
		if !over {
			off = n.Mul(h / 2)
		}
		long := w + 3 + draft.Width(words, smallSize)/2
		if at.Add(u.Mul(long+draft.Width(words, smallSize)/2)).Sub(b).Dot(u) > 0 { // it would run off the page
			long = -long
		}
		x := at.Add(u.Mul(long)).Add(off)
		if j.upright() {
			s.Turned("small", 90, draft.Middle, x.Add(geom.Vec2{0.85, 0}), words)
		} else {
			s.Text("small", draft.Middle, x.Add(geom.Vec2{0, 0.85}), words)
		}
	}
	s.End()
}

// tileStamp stamps a tile's metal, small, where nothing else is.
func (t *template) tileStamp(s *draft.Page, core geom.Box2, pl *placer, onMetal func(geom.Vec2) bool) {
	var words []string
	for _, w := range []string{t.stamp, t.hand(), t.under} {
		if w != "" {
			words = append(words, w)
		}
	}
	under := strings.Join(words, "; ")
	for _, big := range []float64{0.75, 0.6, leastStamp} {
		w, h := 46*big, 9*big
		if under != "" {
			w, h = max(w, draft.Width(under, 3*big)+3), 13*big
		}
		best, at := math.Inf(1), geom.Vec2{}
		mid := core.Min.Add(core.Max).Mul(0.5)
		const n = 17
		for i := range n * n {
			v := geom.Vec2{core.Min[0] + (core.Max[0]-core.Min[0])*(float64(i%n)+0.5)/n, core.Min[1] + (core.Max[1]-core.Min[1])*(float64(i/n)+0.5)/n}
			if d := v.Sub(mid).Len(); d < best && pl.free(around(v, w/2+0.6, h/2+0.6)) && onMetal(v) {
				best, at = d, v
			}
		}
		if math.IsInf(best, 1) {
			continue
		}
		s.Group("stamp")
		s.Box("box", at[0]-w/2, at[1]-h/2, w, h)
		y := 1.8 * big
		if under != "" {
			y = -0.3 * big
			s.Sized("under", 3*big, draft.Middle, at.Add(geom.Vec2{0, 4.2 * big}), under)
		}
		s.Sized("stamp", 5*big, draft.Middle, at.Add(geom.Vec2{0, y}), "THIS FACE UP")
		s.End()
		pl.boxes = append(pl.boxes, around(at, w/2, h/2))
		return
	}
}

// within is the stretch of a line that lies in a box, as shares of its way; false where none does.
func within(a, b geom.Vec2, box geom.Box2) (t0, t1 float64, ok bool) {
	t1 = 1
	for k := range a {
		d := b[k] - a[k]
		if d == 0 {
			if a[k] < box.Min[k] || a[k] > box.Max[k] {
				return 0, 0, false
			}
			continue
		}
		u, v := (box.Min[k]-a[k])/d, (box.Max[k]-a[k])/d
		t0, t1 = max(t0, min(u, v)), min(t1, max(u, v))
	}
	return t0, t1, t0 < t1
}

// tileBend puts a bend's number and way on its line on a tile, if it has room there.
func (t *template) tileBend(s *draft.Page, i int, core geom.Box2, on func(geom.Vec2) geom.Vec2, pl *placer) {
	b := &t.part.Bends[i]
	p, q := on(t.at(b.Line[0])), on(t.at(b.Line[1]))
	t0, t1, ok := within(p, q, core)
	if !ok || (t1-t0)*q.Sub(p).Len() < leastStretch && (t0 > 0 || t1 < 1) {
		return
	}
	no, word := t.names[i], t.word(b)
	r := max(2.3, draft.Width(no, 2.9)/2+0.9)
	w := 4.6 + draft.Width(word, 2.9)
	dir := q.Sub(p).Mul(1 / max(1e-9, q.Sub(p).Len()))
	flat := math.Abs(dir[0]) > 0.8
	off := 2.9
	if !t.bare {
		off = max(off, b.Allowance*max(t.scale[0], t.scale[1])/2+2.3)
	}
	// Near the middle of what is seen of it, and clear of its slots.
	for _, f := range []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9} {
		x := t0 + (t1-t0)*f
		mid := p.Add(q.Sub(p).Mul(x))
		if !onMetal(b, b.Line[0].Add(b.Line[1].Sub(b.Line[0]).Mul(x))) && len(b.Zone) > 0 && b.Allowance > fold.MinZone {
			continue
		}
		for _, side := range []float64{1, -1} {
			at := geom.Vec2{mid[0] + side*(max(r, off-2)+0.8+w/2), mid[1]}
			if flat {
				at = geom.Vec2{mid[0] + r + 0.8 + w/2, mid[1] - side*off}
			}
			if pl.freeFor(around(mid, r, r), i) && pl.freeFor(around(at, w/2, 1.7), i) {
				t.bendMark(s, pl, mid, around(at, w/2, 1.7), r, no, word, b.Up)
				return
			}
		}
	}
	mid := p.Add(q.Sub(p).Mul((t0 + t1) / 2))
	if sp, ok := pl.near(mid, 2*r+0.8+w, 2*r); ok { // no room on the line: beside it, with a leader
		s.Line("leader", mid, sp.from)
		c := geom.Vec2{sp.box.Min[0] + r, sp.centre()[1]}
		t.bendMark(s, pl, c, geom.Box2{Min: geom.Vec2{c[0] + r + 0.8, c[1] - 1.7}, Max: geom.Vec2{sp.box.Max[0], c[1] + 1.7}}, r, no, word, b.Up)
	}
}

// tileDatums letters the datum edges where a tile shows them.
func (t *template) tileDatums(s *draft.Page, core geom.Box2, on func(geom.Vec2) geom.Vec2, pl *placer) {
	if t.bare {
		return
	}
	for k, e := range t.datums() {
		a, b := on(e[0]), on(e[1])
		t0, t1, ok := within(a, b, core)
		if !ok {
			continue
		}
		const words = "datum edge "
		w, u, n := draft.Width(words, smallSize)+draft.Width("A", 4.2)+1, geom.Vec2{1, 0}, geom.Vec2{0, 1}
		if k == 0 {
			u, n = geom.Vec2{0, 1}, geom.Vec2{-1, 0}
		}
		half := u.Mul(w / 2).Add(geom.Vec2{math.Abs(n[0]), math.Abs(n[1])}.Mul(1.7))
		// Outside the blank where there is paper, else on its metal.
		for _, f := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9} {
			for _, side := range []float64{1, -1} {
				at := a.Add(b.Sub(a).Mul(t0 + (t1-t0)*f)).Add(n.Mul(side * 2.4))
				if !pl.free(around(at, half[0], half[1])) {
					continue
				}
				pl.boxes = append(pl.boxes, around(at, half[0], half[1]))
				letter := string(rune('A' + k))
				s.Group("datums")
				if k == 0 {
					s.Turned("small", 90, draft.Start, at.Add(geom.Vec2{0.85, w / 2}), words)
					s.Turned("fact", 90, draft.End, at.Add(geom.Vec2{1.4, -w / 2}), letter)
				} else {
					s.Text("small", draft.Start, at.Add(geom.Vec2{-w / 2, 0.85}), words)
					s.Text("fact", draft.End, at.Add(geom.Vec2{w / 2, 1.4}), letter)
				}
				s.End()
				ok = false
				break
			}
			if !ok {
				break
			}
		}
	}
}

func (t *template) bendMark(s *draft.Page, pl *placer, c geom.Vec2, label geom.Box2, r float64, no, word string, up bool) {
	pl.boxes = append(pl.boxes, around(c, r, r), label)
	s.Circle("box", c, r)
	s.Text("ball", draft.Middle, c.Add(geom.Vec2{0, 1.05}), no)
	y := (label.Min[1] + label.Max[1]) / 2
	s.Arrow(geom.Vec2{label.Min[0] + 1.3, y}, up)
	s.Text("way", draft.Start, geom.Vec2{label.Min[0] + 3.4, y + 1}, word)
}

// tileHoles writes each hole's number and diameter beside it, as the marking-out sheet has them.
func (t *template) tileHoles(s *draft.Page, core geom.Box2, on func(geom.Vec2) geom.Vec2, pl *placer) {
	k := t.part.Spec.Units.Scale()
	m := marks{units: t.opt.Units}
	named := 0
	for i, h := range t.part.Spec.Holes {
		c := on(t.at(h.At.Mul(k)))
		if named >= maxNamed || c[0] < core.Min[0] || c[0] >= core.Max[0] || c[1] < core.Min[1] || c[1] >= core.Max[1] {
			continue
		}
		named++
		r := h.Diameter * k / 2
		text := fmt.Sprintf("H%d Ø%s", i+1, m.fine(h.Diameter*k))
		at := c.Add(geom.Vec2{r*0.7 + 0.3, -r*0.7 - 0.3})
		sp, ok := pl.near(at, draft.Width(text, smallSize)+0.3, smallSize*0.95)
		if !ok {
			continue
		}
		if sp.leader && sp.from.Sub(at).Len() > 3.5 {
			s.Line("leader", at, sp.from)
		}
		s.Text("small", draft.Middle, geom.Vec2{sp.centre()[0], sp.box.Max[1] - 0.35}, text)
	}
}

// joinWords say to what a tile is joined.
func (t *template) joinWords(g *tiling, joins []join, r, c int) string {
	var over, under []string
	what := " at diamonds " // said once
	marks := func(j *join) string {
		w := what + j.numbers()
		what = " at "
		return w
	}
	for i := range joins {
		j := &joins[i]
		switch {
		case j.r2 == r && j.c2 == c:
			edge := "top"
			if j.upright() {
				edge = "left"
			}
			over = append(over, fmt.Sprintf("its %s over %s%s", edge, g.pageName(j.r, j.c), marks(j)))
		case j.r == r && j.c == c:
			under = append(under, g.pageName(j.r2, j.c2)+marks(j))
		}
	}
	words := ""
	if len(over) > 0 {
		words = "Join " + g.pageName(r, c) + ": " + strings.Join(over, ", ") + "."
	}
	if len(under) > 0 {
		words = strings.TrimSpace(words + " Over it comes " + strings.Join(under, ", ") + ".")
	}
	if words == "" {
		return "This page touches no other."
	}
	return words
}

// thumb is the blank's outline for the page map, in the plane; far from all its corners where it has many.
func (t *template) thumb(g *tiling) draft.Path {
	size := t.part.Blank.Box.Size()
	fine := max(size[0], size[1]) / 150
	var d draft.Path
	for _, loop := range append([]geom.Loop{t.part.Outline}, t.part.Voids...) {
		var was geom.Vec2
		begun := false
		for _, v := range loop {
			at := t.at(v)
			if begun && at.Sub(was).Len() < fine {
				continue
			}
			if begun {
				d = d.L(at)
			} else {
				d = d.M(at)
			}
			begun, was = true, at
		}
		d = d.Z()
	}
	return d
}

// footer writes a page's foot: its name, what it is, and the map.
func (t *template) footer(s *draft.Page, g *tiling, joins []join, outline draft.Path, r, c, no int) {
	single := g.count == 1
	x, y := g.margin, s.H-g.margin-g.foot
	if !single {
		x += t.over/2 + 1.5
	}
	wide := s.W - 2*g.margin
	s.Group("foot")
	s.Line("rule", geom.Vec2{g.margin, y + 1}, geom.Vec2{s.W - g.margin, y + 1})
	s.Sized("stamp", 7, draft.Start, geom.Vec2{x, y + 9}, fmt.Sprint(no))
	s.Text("small", draft.Start, geom.Vec2{x, y + 13}, fmt.Sprintf("page %d of %d", no, g.count))
	at := y + 1.2
	for _, l := range t.footText(t.footWide(wide, single), t.joinWords(g, joins, r, c), single) {
		if at += l.high(); l.words == "" {
			continue
		}
		s.Text(l.class, draft.Start, geom.Vec2{x + nameWide, at - 0.3}, l.words)
	}
	t.pageMap(s, g, outline, r, c, geom.Box2{Min: geom.Vec2{s.W - g.margin - mapWide, y + 2}, Max: geom.Vec2{s.W - g.margin - 0.3, y + 2 + mapHigh}})
	s.End()
}

// pageMap shows which page is where: this one dark, those left out crossed.
func (t *template) pageMap(s *draft.Page, g *tiling, outline draft.Path, r, c int, in geom.Box2) {
	all := geom.Box2{Min: g.window(0, 0).Min, Max: g.window(g.rows-1, g.cols-1).Max}
	size, room := all.Size(), in.Size()
	k := min(room[0]/size[0], room[1]/size[1])
	lo := geom.Vec2{in.Max[0] - size[0]*k, in.Min[1]}
	to := func(v geom.Vec2) geom.Vec2 { return lo.Add(v.Sub(all.Min).Mul(k)) }
	s.Group("map")
	for _, here := range []bool{false, true} {
		for row := range g.rows {
			for col := range g.cols {
				if (row == r && col == c) != here {
					continue
				}
				b := g.core(row, col)
				a, z := to(b.Min), to(b.Max)
				switch {
				case here:
					s.Box("here", a[0], a[1], z[0]-a[0], z[1]-a[1])
				case g.has(row, col):
					s.Box("extension", a[0], a[1], z[0]-a[0], z[1]-a[1])
				default:
					s.Line("extension", a, z)
					s.Line("extension", geom.Vec2{a[0], z[1]}, geom.Vec2{z[0], a[1]})
				}
			}
		}
	}
	d := slices.Clone(outline)
	for i := range d {
		d[i].To = to(d[i].To)
	}
	s.Path("bendline", d)
	for row := range g.rows {
		for col := range g.cols {
			b, no := g.core(row, col), fmt.Sprint(g.number(row, col))
			if size := b.Size().Mul(k); g.has(row, col) && g.count > 1 && size[0] > draft.Width(no, smallSize) && size[1] > smallSize {
				s.Text("small", draft.Middle, to(b.Min.Add(b.Max).Mul(0.5)).Add(geom.Vec2{0, 0.85}), no)
			}
		}
	}
	s.End()
}
