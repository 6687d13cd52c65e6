package scene

import (
	"math"
	"unicode/utf8"

	"dryfold/fold/geom"
)

// This file draws the sizes of a part made by sizes: each on the side where it stands most
// in the open, its figure clear of the others.

// cover is where the part is seen, on a grid of coverPx cells: each holds the depth of what is nearest at its middle,
// 0 where nothing is.
type cover struct {
	w, h int
	on   []float32
}

// fill marks the cells that the part covers, by its triangles on the screen.
func (k *cover) fill(o *Screen) {
	k.w, k.h = int(o.W/coverPx)+1, int(o.H/coverPx)+1
	if n := k.w * k.h; cap(k.on) >= n {
		k.on = k.on[:n]
		clear(k.on)
	} else {
		k.on = make([]float32, n)
	}
	for i := 0; i+2 < len(o.Tris); i += 3 {
		a, b, c := &o.Tris[i], &o.Tris[i+1], &o.Tris[i+2]
		y0, y1 := max(0, int(min(a.Y, b.Y, c.Y)/coverPx)), min(k.h-1, int(max(a.Y, b.Y, c.Y)/coverPx))
		for y := y0; y <= y1; y++ {
			at := (float32(y) + .5) * coverPx
			lo, hi := float32(math.Inf(1)), float32(math.Inf(-1))
			dlo, dhi := float32(0), float32(0)
			for _, e := range [3][2]*ScreenVertex{{a, b}, {b, c}, {c, a}} {
				p, q := e[0], e[1]
				if (p.Y < at) != (q.Y < at) {
					t := (at - p.Y) / (q.Y - p.Y)
					x, d := p.X+(q.X-p.X)*t, p.D+(q.D-p.D)*t
					if x < lo {
						lo, dlo = x, d
					}
					if x > hi {
						hi, dhi = x, d
					}
				}
			}
			slope := float32(0)
			if hi > lo {
				slope = (dhi - dlo) / (hi - lo)
			}
			for x := max(0, int(lo/coverPx+.5)); x < k.w && (float32(x)+.5)*coverPx <= hi; x++ {
				k.on[y*k.w+x] = max(k.on[y*k.w+x], dlo+((float32(x)+.5)*coverPx-lo)*slope, 1e-6)
			}
		}
	}
}

func (k *cover) at(x, y float64) bool {
	i, j := int(x/coverPx), int(y/coverPx)
	return x >= 0 && y >= 0 && i < k.w && j < k.h && k.on[j*k.w+i] > 0
}

// ScreenGrip is a handle where it falls on the screen: the index of its mark, px.
type ScreenGrip struct {
	Mark int
	X, Y float64
}

// GripAt is the handle under a finger at x, y (px): its mark, -1 for none.
func (o *Screen) GripAt(x, y float64) int {
	best, mark := float64(gripReach), -1
	for _, g := range o.Grips {
		if r := math.Hypot(g.X-x, g.Y-y); r < best {
			best, mark = r, g.Mark
		}
	}
	return mark
}

// sizes draws the scene's sizes, the lit ones first so that they have the best places, then those whose
// place is hardest to find: the longest on the screen. Of a group the one that is seen best is drawn.
func (o *Screen) sizes(p *projection, s *Scene, c *Camera) {
	if len(s.sizeLines) == 0 {
		return
	}
	o.cover.fill(o)
	o.first = len(o.Lines)
	o.drawn = append(o.drawn[:0], make([]bool, len(s.sizeLines))...)
	for {
		next, long := -1, -1.0
		for i := range s.sizeLines {
			if o.drawn[i] {
				continue
			}
			l := &s.sizeLines[i]
			x0, y0, _ := p.project(l.a)
			x1, y1, _ := p.project(l.b)
			d := math.Hypot(x1-x0, y1-y0)
			if l.arc { // they are small, and stand where they must
				d += 1e4
			}
			if s.Picture.Sizes[l.mark].Lit {
				d += 1e6
			}
			if d > long {
				next, long = i, d
			}
		}
		if next < 0 {
			break
		}
		group := s.Picture.Sizes[s.sizeLines[next].mark].Group
		var best sizePlace
		best.cost = math.Inf(1)
		for i := range s.sizeLines {
			if l := &s.sizeLines[i]; i == next || group > 0 && s.Picture.Sizes[l.mark].Group == group {
				o.drawn[i] = true
				q := o.place(p, s, c, l)
				if group > 0 {
					q.cost += o.hidden(p, s, l)
					if x, y, _ := p.project(l.hold); o.onGrip(x, y) {
						q.cost += gripTaken
					}
					if s.Picture.Sizes[l.mark].Held {
						q.cost -= heldFirst
					}
				}
				if q.cost < best.cost {
					best = q
				}
			}
		}
		if math.IsInf(best.cost, 1) { // end on from here: it would say nothing
			continue
		}
		if m := &s.Picture.Sizes[best.l.mark]; !m.Lit && !m.Held && o.over(c, &best, m.Label) {
			if !best.l.arc { // its handle stands where there is room
				o.grip(p, s, best.l)
			}
			continue
		}
		if best.l.arc {
			o.drawArc(p, s, c, &best)
		} else {
			o.drawLine(s, c, &best)
		}
		o.grip(p, s, best.l)
	}
	pal := s.Picture.Colours()
	for _, g := range o.Grips {
		o.ring(g.X, g.Y, (gripPx+2)/2., gripPx+2, pal.Halo)
		o.ring(g.X, g.Y, gripPx/2., gripPx, pal.Accent)
		for _, k := range [3]float64{-3, 0, 3} {
			o.flat(g.X-3.5, g.Y+k, g.X+3.5, g.Y+k, 1.2, pal.Halo)
		}
	}
}

// over reports whether the figure of a size would lie over one that is drawn already, once it is moved into sight: on a
// small bench there is not room for all, and the one that comes first is read.
func (o *Screen) over(c *Camera, at *sizePlace, label string) bool {
	x, y := at.x, at.y
	if !at.l.arc {
		x, y = at.line.tx, at.line.ty
	}
	x, y = inSight(c, x, y, label, 0)
	for i := range o.Labels {
		l := &o.Labels[i]
		if l.Style != StyleDatum && abs(l.X-x) < labelHalf*float64(utf8.RuneCountInString(label)+utf8.RuneCountInString(l.Text)) && abs(l.Y-y) < labelHigh {
			return true
		}
	}
	return false
}

// hidden is what speaks against a size because the part hides its ends. It is told by the coarse grid: what lies
// a little behind what is seen still counts as seen.
func (o *Screen) hidden(p *projection, s *Scene, l *sizeLine) float64 {
	cost := 0.0
	for _, q := range [2]geom.Vec3{l.b, l.hold} {
		x, y, z := p.project(q)
		if z < p.near {
			return cost
		}
		i, j := int(x/coverPx), int(y/coverPx)
		if x >= 0 && y >= 0 && i < o.cover.w && j < o.cover.h {
			if d := o.cover.on[j*o.cover.w+i]; d > 0 && p.distance(d) < z-coverHides*s.partSize() {
				cost += .8
			}
		}
	}
	return cost
}

// distance is the distance in front of the eye at a depth: the other way round than depth.
func (p *projection) distance(d float32) float64 { return 1 / (p.inv0 + float64(d)/p.invK) }

// sizePlace is where a size could be drawn, with what speaks against it.
type sizePlace struct {
	l    *sizeLine
	line linePlace
	x, y float64 // of an arc's figure
	r    float64 // and its radius, mm
	cost float64
}

// place finds the best place for a size from this camera.
func (o *Screen) place(p *projection, s *Scene, c *Camera, l *sizeLine) sizePlace {
	if l.arc {
		return o.placeArc(p, s, c, l)
	}
	return o.placeLine(p, s, c, l)
}

// linePlace is a dimension line on the screen: its two ends, where the extension lines begin, and the
// place of the figure.
type linePlace struct {
	x0, y0, x1, y1, ax, ay, bx, by float64
	tx, ty                         float64
	cost                           float64
}

// placeLine is the place of a straight size: of the six directions square to it and four distances the one
// where it stands clearest.
func (o *Screen) placeLine(p *projection, s *Scene, c *Camera, l *sizeLine) sizePlace {
	m := &s.Picture.Sizes[l.mark]
	d := l.b.Sub(l.a)
	n := d.Len()
	best := linePlace{cost: math.Inf(1)}
	if n < leastArm {
		return sizePlace{l: l, cost: best.cost}
	}
	u := d.Mul(1 / n)
	size := s.partSize()
	mid := s.Box.Min.Add(s.Box.Max).Mul(.5)
	wide := 4.6 * float64(utf8.RuneCountInString(m.Label))
	for k := range 3 {
		for _, sign := range [2]float64{-1, 1} {
			var e geom.Vec3
			e[k] = sign
			e = e.Sub(u.Mul(u.Dot(e)))
			if e.Len() < .4 {
				continue
			}
			e = e.Normalize()
			out := 0.0
			if e.Dot(l.a.Add(l.b).Mul(.5).Sub(mid)) < 0 {
				out = .25 // across the part
			}
			if k == 2 && sign < 0 {
				out += 2 // into the bench
			}
			for level := range 4 {
				off := e.Mul(size * (sizeOff + sizeStep*float64(level)))
				q := o.tryLine(p, s, c, l, off, wide)
				q.cost += out + .22*float64(level)
				if q.cost < best.cost {
					best = q
				}
			}
		}
	}
	return sizePlace{l: l, line: best, cost: best.cost}
}

// ink is the colour, width and style in which a size is drawn.
func (m *SizeMark) ink(pal *Palette) (Colour, float32, Style) {
	if m.Lit {
		return pal.Accent, 1.9, StyleName
	}
	return pal.Mark, .9, StyleDim
}

// drawLine draws a straight size in its place.
func (o *Screen) drawLine(s *Scene, c *Camera, at *sizePlace) {
	m, q := &s.Picture.Sizes[at.l.mark], &at.line
	col, w, style := m.ink(s.Picture.Colours())
	wide := 4.6 * float64(utf8.RuneCountInString(m.Label))
	for _, e := range [2][4]float64{{q.ax, q.ay, q.x0, q.y0}, {q.bx, q.by, q.x1, q.y1}} {
		if n := math.Hypot(e[2]-e[0], e[3]-e[1]); n > 4 { // extension lines: from 3 px off to 6 px past
			ex, ey := (e[2]-e[0])/n, (e[3]-e[1])/n
			o.flat(e[0]+3*ex, e[1]+3*ey, e[2]+6*ex, e[3]+6*ey, w, col)
		}
	}
	long := math.Hypot(q.x1-q.x0, q.y1-q.y0)
	ux, uy := (q.x1-q.x0)/long, (q.y1-q.y0)/long
	if gap := wide*abs(ux) + 11*abs(uy) + 3; q.tx == (q.x0+q.x1)/2 && q.ty == (q.y0+q.y1)/2 { // the figure breaks the line
		o.flat(q.x0, q.y0, q.tx-ux*gap, q.ty-uy*gap, w, col)
		o.flat(q.tx+ux*gap, q.ty+uy*gap, q.x1, q.y1, w, col)
	} else {
		o.flat(q.x0, q.y0, q.x1, q.y1, w, col)
	}
	for _, e := range [2][3]float64{{q.x0, q.y0, 1}, {q.x1, q.y1, -1}} {
		for _, sd := range [2]float64{-1, 1} {
			o.flat(e[0], e[1], e[0]+e[2]*ux*9-sd*uy*3, e[1]+e[2]*uy*9+sd*ux*3, w, col)
		}
	}
	o.put(c, q.tx, q.ty, m.Label, style, 0)
}

// tryLine is a size's line moved off by off, with what speaks against it there. wide is half its
// label's width, px.
func (o *Screen) tryLine(p *projection, s *Scene, c *Camera, l *sizeLine, off geom.Vec3, wide float64) linePlace {
	var q linePlace
	var d [4]float64
	q.ax, q.ay, d[0] = p.project(l.a)
	q.bx, q.by, d[1] = p.project(l.b)
	q.x0, q.y0, d[2] = p.project(l.a.Add(off))
	q.x1, q.y1, d[3] = p.project(l.b.Add(off))
	q.cost = math.Inf(1)
	long, away := math.Hypot(q.x1-q.x0, q.y1-q.y0), math.Hypot(q.x0-q.ax, q.y0-q.ay)
	if min(d[0], d[1], d[2], d[3]) < p.near || long < 12 || long < .12*l.b.Sub(l.a).Len()*p.f/d[2] {
		return q
	}
	q.cost = 0
	if away < 18 { // seen along the extension lines
		q.cost += .2 * (18 - away)
	}
	ux, uy := (q.x1-q.x0)/long, (q.y1-q.y0)/long
	q.tx, q.ty = (q.x0+q.x1)/2, (q.y0+q.y1)/2
	if 2*(wide*abs(ux)+11*abs(uy)+3) > long-18 { // too short for its figure: that stands beyond the line
		ox, oy := q.x0-q.ax, q.y0-q.ay
		if n := math.Hypot(ox, oy); n > 1e-6 {
			k := 13 + wide*abs(ox)/n
			q.tx, q.ty = q.tx+ox/n*k, q.ty+oy/n*k
		}
	}
	cx, cy, fw, fh := c.free()
	for _, e := range [3]float64{-wide, 0, wide} {
		x, y := q.tx+e, q.ty
		if x < cx-fw/2 || x > cx+fw/2 || y < cy-fh/2+10 || y > cy+fh/2-10 {
			q.cost += 3
		}
		if o.cover.at(x, y) {
			q.cost += .8
		}
	}
	if !o.clearOf(q.tx, q.ty, wide) {
		q.cost += 4
	}
	q.cost += o.onGrips(p, s, l, q.tx, q.ty, wide)
	for i := range 7 {
		t := (float64(i) + .5) / 7
		if o.cover.at(q.x0+t*(q.x1-q.x0), q.y0+t*(q.y1-q.y0)) {
			q.cost += .3
		}
	}
	for i := o.first; i < len(o.Lines); i++ { // sizes drawn so far
		if e := &o.Lines[i]; cutsLine(&q, e) {
			q.cost += .35
		}
	}
	return q
}

// cutsLine reports whether a line on the screen cuts a dimension line or its extension lines.
func cutsLine(q *linePlace, e *ScreenLine) bool {
	x, y, z, w := float64(e.X0), float64(e.Y0), float64(e.X1), float64(e.Y1)
	cut := func(ax, ay, bx, by float64) bool {
		s0 := (bx-ax)*(y-ay) - (by-ay)*(x-ax)
		s1 := (bx-ax)*(w-ay) - (by-ay)*(z-ax)
		t0 := (z-x)*(ay-y) - (w-y)*(ax-x)
		t1 := (z-x)*(by-y) - (w-y)*(bx-x)
		return s0*s1 < 0 && t0*t1 < 0
	}
	return cut(q.x0, q.y0, q.x1, q.y1) || cut(q.ax, q.ay, q.x0, q.y0) || cut(q.bx, q.by, q.x1, q.y1)
}

// onGrips is what speaks against a label half as wide as wide because it lies on a handle: the size's own, one drawn so far, or, for
// less, one that may yet be drawn.
func (o *Screen) onGrips(p *projection, s *Scene, l *sizeLine, x, y, wide float64) float64 {
	over := func(gx, gy float64) bool { return abs(gx-x) < wide+gripPx+4 && abs(gy-y) < gripPx+12 }
	for _, g := range o.Grips {
		if over(g.X, g.Y) {
			return 2
		}
	}
	cost := 0.0
	for i := range s.sizeLines {
		q := &s.sizeLines[i]
		if !s.Picture.Sizes[q.mark].Grip || o.drawn[i] && q != l {
			continue
		}
		if gx, gy, d := p.project(q.hold); d >= p.near && over(gx, gy) {
			if q == l {
				return 2
			}
			cost = .4
		}
	}
	return cost
}

// clearOf reports whether a label half as wide as wide lies clear of those placed so far.
func (o *Screen) clearOf(x, y, wide float64) bool {
	for i := range o.Labels {
		l := &o.Labels[i]
		if abs(l.X-x) < wide+4.6*float64(utf8.RuneCountInString(l.Text))+4 && abs(l.Y-y) < 19 {
			return false
		}
	}
	return true
}

// placeArc is the place of an angle's figure, beside its arc.
func (o *Screen) placeArc(p *projection, s *Scene, c *Camera, l *sizeLine) sizePlace {
	m := &s.Picture.Sizes[l.mark]
	u, v, ra, rb, ok := l.arms()
	best := sizePlace{l: l, cost: math.Inf(1)}
	if !ok {
		return best
	}
	r := min(min(ra, rb), s.partSize()*.16)
	n := u.Cross(v)
	slant := 1.0
	if n.Len() > leastArm {
		slant = 1 - abs(n.Normalize().Dot(p.eye.Sub(l.pivot).Normalize())) // 1 where it is seen on its edge
	}
	best.r = r
	wide := 4.6 * float64(utf8.RuneCountInString(m.Label))
	cx, cy, fw, fh := c.free()
	px, py, d := p.project(l.pivot)
	if d < p.near {
		return best
	}
	small := max(0, 1-r*p.f/d/40) // too small to be read
	drawn := l.size() - m.From
	for _, at := range [5]float64{.5, .3, .7, .1, .9} {
		x, y, d := p.project(l.pivot.Add(turn(u, v, m.From+drawn*at).Mul(r)))
		if d < p.near {
			continue
		}
		dx, dy := x-px, y-py
		if n := math.Hypot(dx, dy); n > 1 {
			dx, dy = dx/n, dy/n
		}
		for k := range 3 {
			off := min(wide/max(abs(dx), 1e-3), 11/max(abs(dy), 1e-3)) + 6 + 16*float64(k) // clear of the arc
			tx, ty := x+dx*off, y+dy*off
			cost := abs(at-.5) + .2*float64(k) + slant + small
			if tx-wide < cx-fw/2 || tx+wide > cx+fw/2 || ty < cy-fh/2+10 || ty > cy+fh/2-10 {
				cost += 5
			}
			if o.cover.at(tx, ty) {
				cost += .3
			}
			if !o.clearOf(tx, ty, wide) {
				cost += 4
			}
			cost += o.onGrips(p, s, l, tx, ty, wide)
			for i := o.first; i < len(o.Lines); i++ {
				if e := &o.Lines[i]; nearLabel(e, tx, ty, wide) {
					cost += .4
				}
			}
			if cost < best.cost {
				best.cost, best.x, best.y = cost, tx, ty
			}
		}
	}
	return best
}

// nearLabel reports whether a line runs through a label half as wide as wide.
func nearLabel(e *ScreenLine, x, y, wide float64) bool {
	d, _ := geom.SegmentDistance(geom.Vec2{x, y}, geom.Vec2{float64(e.X0), float64(e.Y0)}, geom.Vec2{float64(e.X1), float64(e.Y1)})
	if d < 9 {
		return true
	}
	for _, k := range [2]float64{-.6, .6} {
		if d, _ := geom.SegmentDistance(geom.Vec2{x + k*wide, y}, geom.Vec2{float64(e.X0), float64(e.Y0)}, geom.Vec2{float64(e.X1), float64(e.Y1)}); d < 9 {
			return true
		}
	}
	return false
}

// drawArc draws an angle in its place: an arm dashed, the arc, the figure.
func (o *Screen) drawArc(p *projection, s *Scene, c *Camera, at *sizePlace) {
	l, r := at.l, at.r
	m := &s.Picture.Sizes[l.mark]
	u, v, ra, rb, _ := l.arms()
	col, w, style := m.ink(s.Picture.Colours())
	line := func(a, b geom.Vec3, dash float32) {
		o.line(p, &Line{A: a, B: b, Width: w, C: col, Over: true, Dash: dash}, nil)
	}
	whole := l.size()
	line(l.pivot, l.pivot.Add(turn(u, v, m.From).Mul(min(ra, r*1.15))), 5)
	if m.Lit {
		line(l.pivot, l.pivot.Add(v.Mul(min(rb, r*1.15))), 5)
	}
	drawn := whole - m.From
	n := max(2, int(abs(drawn)/(6*math.Pi/180)))
	last := l.pivot.Add(turn(u, v, m.From).Mul(r))
	for i := 1; i <= n; i++ {
		q := l.pivot.Add(turn(u, v, m.From+drawn*float64(i)/float64(n)).Mul(r))
		line(last, q, 0)
		last = q
	}
	o.put(c, at.x, at.y, m.Label, style, 0)
}

// grip keeps the handle of a size that can be dragged; where another stands already neither could be told apart by a
// finger, and the first one, of the longer size, is kept.
func (o *Screen) grip(p *projection, s *Scene, l *sizeLine) {
	m := &s.Picture.Sizes[l.mark]
	if !m.Grip {
		return
	}
	x, y, d := p.project(l.hold)
	if d < p.near || !m.Held && !m.Lit && o.onGrip(x, y) {
		return
	}
	o.Grips = append(o.Grips, ScreenGrip{l.mark, x, y})
}

// onGrip reports whether a handle at x, y would lie on one that stands.
func (o *Screen) onGrip(x, y float64) bool {
	for _, g := range o.Grips {
		if math.Hypot(g.X-x, g.Y-y) < gripReach {
			return true
		}
	}
	return false
}
