package scene

import (
	"math"
	"unicode/utf8"

	"dryfold/fold/geom"
)

// This file places what is written: labels, dimension lines, a clash's leader.

// dimOff: how far dimension lines stand off the part, in shares of its size.
const dimOff = .06

// flat adds a line in the plane of the screen, over everything.
func (o *Screen) flat(x0, y0, x1, y1 float64, w float32, c Colour) {
	o.Lines = append(o.Lines, ScreenLine{X0: float32(x0), Y0: float32(y0), D0: 1, X1: float32(x1), Y1: float32(y1), D1: 1, Width: w, C: c, Over: true})
}

// ring adds a circle in the plane of the screen.
func (o *Screen) ring(x, y, r float64, w float32, c Colour) {
	const n = 40
	for i := range n {
		s0, c0 := math.Sincos(2 * math.Pi * float64(i) / n)
		s1, c1 := math.Sincos(2 * math.Pi * float64(i+1) / n)
		o.flat(x+r*c0, y+r*s0, x+r*c1, y+r*s1, w, c)
	}
}

// labels places the scene's labels; those that stand off their place go 17 px along.
// Gap figures that would lie on others are moved aside, or left out where the same
// figure stands there already or no room is left; the chosen seam's go first, then those to watch.
func (o *Screen) labels(p *projection, s *Scene, c *Camera) {
	for pass := range 3 {
		for i := range s.Labels {
			l := &s.Labels[i]
			at := 1
			switch {
			case l.First:
				at = 0
			case l.Style == StyleGap:
				at = 2
			}
			if at != pass {
				continue
			}
			x, y, d := p.project(l.At)
			if d < p.near {
				continue
			}
			dx, dy := 0.0, 0.0
			if l.Away != (geom.Vec3{}) {
				x2, y2, d2 := p.project(l.At.Add(l.Away.Mul(s.Size() * .02)))
				if n := math.Hypot(x2-x, y2-y); d2 > p.near && n > 1e-6 {
					dx, dy = (x2-x)/n, (y2-y)/n
				}
			}
			if l.Figure {
				var ok bool
				if x, y, ok = o.beside(x, y, dx, dy, l.Text); !ok && !l.First {
					continue
				}
			} else {
				x, y = x+17*dx, y+17*dy
			}
			if l.Style == StyleDatum && o.covers(x, y) { // it lies on the bench, behind the part
				continue
			}
			o.put(c, x, y, l.Text, l.Style, 0)
		}
	}
}

// asides are the turns (degrees) from its way off by which a figure stands aside, nearest first.
var asides = [...]float64{0, 50, -50, 100, -100}

// beside is where a figure stands off its place x, y along dx, dy or aside of that, clear of the labels placed so far. It is false,
// with the first place, where there is no room, or the same figure stands there already.
func (o *Screen) beside(x, y, dx, dy float64, text string) (float64, float64, bool) {
	if dx == 0 && dy == 0 {
		dy = -1
	}
	wide := 4.5 * float64(utf8.RuneCountInString(text)-3) // beyond a short figure's
	off := func(step, turn float64) (float64, float64) {
		sin, cos := math.Sincos(turn * math.Pi / 180)
		ux, uy := dx*cos-dy*sin, dx*sin+dy*cos
		return x + ux*(step+max(0, wide)), y + uy*step
	}
	for _, step := range [...]float64{17, 34} {
		for _, turn := range asides {
			px, py := off(step, turn)
			clear, same := o.room(px, py, text)
			switch {
			case clear:
				return px, py, true
			case same && step == 17 && turn == 0:
				return px, py, false
			}
		}
	}
	px, py := off(17, 0)
	return px, py, false
}

// room reports whether a centred label lies clear of those placed so far, and
// whether the one in its way says the same.
func (o *Screen) room(x, y float64, text string) (clear, same bool) {
	w := float64(utf8.RuneCountInString(text))
	for i := range o.Labels {
		l := &o.Labels[i]
		if abs(l.X-x) < 4.5*(w+float64(utf8.RuneCountInString(l.Text))) && abs(l.Y-y) < 17 {
			return false, l.Text == text
		}
	}
	return true, false
}

// put keeps a label, moved into the free area if it is only a little out of it.
func (o *Screen) put(c *Camera, x, y float64, text string, style Style, align int) {
	cx, cy, fw, fh := c.free()
	const slack = 60 // px
	if x < cx-fw/2-slack || x > cx+fw/2+slack || y < cy-fh/2-slack || y > cy+fh/2+slack {
		return
	}
	if style != StyleDatum {
		x, y = inSight(c, x, y, text, align)
	}
	o.Labels = append(o.Labels, ScreenLabel{X: x, Y: y, Text: text, Style: style, Align: align})
}

// inSight is where a text stands that is moved wholly into what is seen of the bench.
func inSight(c *Camera, x, y float64, text string, align int) (float64, float64) {
	w := 8.5 * float64(utf8.RuneCountInString(text))
	cx, cy, fw, fh := c.free()
	left := x - w*(1+float64(align))/2
	moved := max(cx-fw/2+4, min(cx+fw/2-4-w, left))
	return x + moved - left, max(cy-fh/2+12, min(cy+fh/2-12, y))
}

// dims draws the overall sizes on the sides of the box that face the camera:
// length and width on the bench, height at the corner beside the front.
func (o *Screen) dims(p *projection, s *Scene, c *Camera) {
	b := s.Dims.Box
	off := b.Size().Len() * dimOff
	mid := b.Min.Add(b.Max).Mul(.5)
	near := func(k int) float64 { // the side towards the eye
		if p.back[k] < 0 || p.back[k] == 0 && p.eye[k] < mid[k] {
			return b.Min[k]
		}
		return b.Max[k]
	}
	sign := func(k int) float64 {
		if near(k) == b.Min[k] {
			return -1
		}
		return 1
	}
	z := b.Min[2]
	y, x := near(1), near(0)
	o.dim(p, s, c, geom.Vec3{b.Min[0], y, z}, geom.Vec3{b.Max[0], y, z}, geom.Vec3{0, sign(1) * off, 0}, s.Dims.Text[0])
	o.dim(p, s, c, geom.Vec3{x, b.Min[1], z}, geom.Vec3{x, b.Max[1], z}, geom.Vec3{sign(0) * off, 0, 0}, s.Dims.Text[1])
	// the height at the upright edge that stands farthest to the right
	var at geom.Vec3
	most := math.Inf(-1)
	for _, q := range [4]geom.Vec3{{b.Min[0], b.Min[1], z}, {b.Max[0], b.Min[1], z}, {b.Min[0], b.Max[1], z}, {b.Max[0], b.Max[1], z}} {
		if sx, _, d := p.project(q); d >= p.near && sx > most {
			most, at = sx, q
		}
	}
	if !math.IsInf(most, 0) {
		top := at
		top[2] = b.Max[2]
		o.dim(p, s, c, at, top, p.right.Mul(off), s.Dims.Text[2])
	}
}

// dim draws one dimension line from a to q, standing off by off, its figure in the middle.
func (o *Screen) dim(p *projection, s *Scene, c *Camera, a, q, off geom.Vec3, text string) {
	col := s.Picture.Colours().Mark
	x0, y0, d0 := p.project(a.Add(off))
	x1, y1, d1 := p.project(q.Add(off))
	ax, ay, da := p.project(a.Add(off.Mul(.15)))
	qx, qy, dq := p.project(q.Add(off.Mul(.15)))
	l := math.Hypot(x1-x0, y1-y0)
	full := q.Sub(a).Len() * p.f / max(d0, 1e-9)
	if min(d0, d1, da, dq) < p.near || l < 14 || l < .3*full { // end on: it would say nothing
		return
	}
	ux, uy := (x1-x0)/l, (y1-y0)/l
	for _, e := range [][4]float64{{ax, ay, x0, y0}, {qx, qy, x1, y1}} { // extension lines, 6 px past
		if n := math.Hypot(e[2]-e[0], e[3]-e[1]); n > 1 {
			o.flat(e[0], e[1], e[2]+(e[2]-e[0])*6/n, e[3]+(e[3]-e[1])*6/n, .9, col)
		}
	}
	gap := 5 + 4.5*float64(utf8.RuneCountInString(text))*abs(ux) + 10*abs(uy) // the figure breaks the line
	if 2*gap < l-16 {
		mx, my := (x0+x1)/2, (y0+y1)/2
		o.flat(x0, y0, mx-ux*gap, my-uy*gap, .9, col)
		o.flat(mx+ux*gap, my+uy*gap, x1, y1, .9, col)
		o.put(c, mx, my, text, StyleDim, 0)
	} else {
		o.flat(x0, y0, x1, y1, .9, col)
		ox, oy, _ := p.project(a.Add(q).Mul(.5).Add(off.Mul(1.5)))
		mx, my := (x0+x1)/2, (y0+y1)/2
		if n := math.Hypot(ox-mx, oy-my); n > 1e-6 {
			k := 12 + 4.5*float64(utf8.RuneCountInString(text))*abs(ox-mx)/n
			mx, my = mx+(ox-mx)/n*k, my+(oy-my)/n*k
		}
		o.put(c, mx, my, text, StyleDim, 0)
	}
	for _, e := range [][3]float64{{x0, y0, 1}, {x1, y1, -1}} {
		for _, sd := range []float64{-1, 1} {
			o.flat(e[0], e[1], e[0]+e[2]*ux*9-sd*uy*3, e[1]+e[2]*uy*9+sd*ux*3, .9, col)
		}
	}
}

// mark rings a clash and leads to its words, in the direction that lies most in the
// open: within the free area, off the part, away from its middle.
func (o *Screen) mark(p *projection, s *Scene, c *Camera) {
	pal := s.Picture.Colours()
	x, y, d := p.project(s.Mark.At)
	if d < p.near {
		return
	}
	mx, my, _ := p.project(s.Box.Min.Add(s.Box.Max).Mul(.5))
	cx, cy, fw, fh := c.free()
	w := float64(utf8.RuneCountInString(s.Mark.Text)) * 8.5
	bestCost := math.Inf(1)
	var ex, ey, tx float64
	var align int
	for i := range 24 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i%12) / 12)
		reach := leaderPx * (1 + .7*float64(i/12))
		px, py := x+cos*reach, y+sin*reach
		al, left := 0, px-w/2
		switch {
		case cos > .4:
			al, left = -1, px+6
		case cos < -.4:
			al, left = 1, px-6-w
		}
		cost := .02*float64(i/12) - .1*((px-mx)*cos+(py-my)*sin)/max(fw, fh)
		for _, q := range [3]float64{left, left + w/2, left + w} {
			if q < cx-fw/2+4 || q > cx+fw/2-4 || py < cy-fh/2+14 || py > cy+fh/2-14 {
				cost += 4
			}
			if o.covers(q, py) {
				cost++
			}
		}
		if cost < bestCost {
			bestCost, ex, ey, align = cost, px, py, al
			tx = px - 6*float64(al)
			if al == 0 { // the words stand beyond the leader's end
				ey = py - math.Copysign(10, sin)
			}
		}
	}
	n := math.Hypot(ex-x, ey-y)
	ink, style := pal.Stop, StyleStop
	if s.Mark.Watch {
		ink, style = pal.Watch, StyleWatch
	}
	o.ring(x, y, ringPx, 5, pal.Halo.Alpha(.9))
	o.ring(x, y, ringPx, 2.4, ink)
	if n > ringPx {
		o.flat(x+(ex-x)*ringPx/n, y+(ey-y)*ringPx/n, ex, ey, 1.6, ink)
	}
	ty := ey
	if align == 0 {
		ty += math.Copysign(10, ey-y)
	}
	o.put(c, tx, ty, s.Mark.Text, style, align)
}

// covers reports whether the part is seen at x, y (px).
func (o *Screen) covers(x, y float64) bool {
	fx, fy := float32(x), float32(y)
	side := func(a, b *ScreenVertex) bool { return (b.X-a.X)*(fy-a.Y)-(b.Y-a.Y)*(fx-a.X) >= 0 }
	for i := 0; i+2 < len(o.Tris); i += 3 {
		a, b, c := &o.Tris[i], &o.Tris[i+1], &o.Tris[i+2]
		if s := side(a, b); s == side(b, c) && s == side(c, a) {
			return true
		}
	}
	return false
}
