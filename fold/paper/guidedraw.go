package paper

// This file has the drawings of the guide to a test bend. Each is drawn to a scale
// of its own, from a strip bent by the kernel's own rule, its outside corner lower left.

import (
	"math"

	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// bentStrip is the section of a strip with one bend: leg b lies level from the bend
// to the right, leg a turns up at the left. y counts upwards from leg b's outside.
type bentStrip struct {
	angle      float64 // radians, up to 90 degrees
	radius, t  float64 // mm on paper
	legA, legB float64 // straight parts
	at         geom.Vec2
	mirror     bool // leg b to the left
}

// to carries a point of the section to the paper.
func (b *bentStrip) to(x, y float64) geom.Vec2 {
	if b.mirror {
		x = -x
	}
	return geom.Vec2{b.at[0] + x, b.at[1] - y}
}

// up is the way that leg a points.
func (b *bentStrip) up() geom.Vec2 { return geom.Vec2{-math.Cos(b.angle), math.Sin(b.angle)} }

// out is square to leg a, away from its outside face.
func (b *bentStrip) out() geom.Vec2 { return geom.Vec2{-math.Sin(b.angle), -math.Cos(b.angle)} }

// legPoint is the point of leg a the distance along from the tangent line, and off
// its outside face outwards.
func (b *bentStrip) legPoint(along, off float64) (x, y float64) {
	r := b.radius + b.t
	o, u := b.out(), b.up()
	return o[0]*(r+off) + u[0]*along, r + o[1]*(r+off) + u[1]*along
}

// sharp is the corner where the faces meet if they are drawn on: the outside ones, or the inside ones.
func (b *bentStrip) sharp(inside bool) (x, y float64) {
	if inside {
		return -b.radius * math.Tan(b.angle/2), b.t
	}
	return -(b.radius + b.t) * math.Tan(b.angle/2), 0
}

// outline is the section as a path.
func (b *bentStrip) outline() draft.Path {
	leg := func(along, off float64) geom.Vec2 { return b.to(b.legPoint(along, off)) }
	in := !b.mirror
	return draft.Path{}.M(b.to(b.legB, 0)).L(b.to(0, 0)).A(b.radius+b.t, false, in, leg(0, 0)).L(leg(b.legA, 0), leg(b.legA, -b.t), leg(0, -b.t)).
		A(b.radius, false, !in, b.to(0, b.t)).L(b.to(b.legB, b.t)).Z()
}

func (b *bentStrip) draw(s *draft.Page) {
	s.Path("strip", b.outline())
}

// between draws a dimension from p to q with arrowheads, and words at its middle.
func between(s *draft.Page, p, q geom.Vec2, words string) {
	d := q.Sub(p)
	u := d.Mul(1 / d.Len())
	n := geom.Vec2{-u[1], u[0]}
	s.Line("dimline", p, q)
	for _, e := range []struct{ tip, way geom.Vec2 }{{p, u}, {q, u.Mul(-1)}} {
		a, b := e.tip.Add(e.way.Mul(2)).Add(n.Mul(0.55)), e.tip.Add(e.way.Mul(2)).Sub(n.Mul(0.55))
		s.Path("dot", draft.Polygon(e.tip, a, b))
	}
	onPaper(s, p.Add(q).Mul(0.5), words)
}

// onPaper writes words over a line, on a patch of white.
func onPaper(s *draft.Page, at geom.Vec2, words string) {
	if words == "" {
		return
	}
	w := draft.Width(words, 2.9)
	s.Box("paper", at[0]-w/2, at[1]-1.8, w, 3.6)
	s.Text("dim", draft.Middle, geom.Vec2{at[0], at[1] + 1}, words)
}

// drawStrip draws the flat strip with its mark, its ends and its grain.
func (o GuideOptions) drawStrip(s *draft.Page, at geom.Vec2, long, wide string) {
	const w, h = 62.0, 16.0
	x, y := at[0]+1, at[1]+1
	s.Box("sheet", x, y, w, h)
	s.Line("bendline", geom.Vec2{x + w/2, y}, geom.Vec2{x + w/2, y + h})
	s.Text("dim", draft.Middle, geom.Vec2{x + w/2 + 6.5, y + 4.5}, "mark")
	s.Text("fact", draft.Middle, geom.Vec2{x + 5, y + h/2 + 1.5}, "a")
	s.Text("fact", draft.Middle, geom.Vec2{x + w - 5, y + h/2 + 1.5}, "b")
	for _, e := range []float64{0, w} {
		s.Line("extension", geom.Vec2{x + e, y + h + 1}, geom.Vec2{x + e, y + h + 7})
	}
	between(s, geom.Vec2{x, y + h + 5.5}, geom.Vec2{x + w, y + h + 5.5}, "length, about "+long)
	for _, e := range []float64{0, h} {
		s.Line("extension", geom.Vec2{x + w + 1, y + e}, geom.Vec2{x + w + 8, y + e})
	}
	between(s, geom.Vec2{x + w + 6.5, y}, geom.Vec2{x + w + 6.5, y + h}, wide)
	s.Text("small", draft.Start, geom.Vec2{x, y + h + 10.8}, "thickness measured near both ends, clear of burrs")
}

// drawBrake draws the strip in the brake: bed, clamp bar with its nose, leaf.
func drawBrake(s *draft.Page, at geom.Vec2) {
	b := bentStrip{angle: 62 * math.Pi / 180, radius: 2.6, t: 1.8, legA: 15, legB: 27, at: geom.Vec2{at[0] + 36, at[1] + 22}, mirror: true}
	bed := b.to(0, 0)
	s.Box("tool", bed[0]-34, bed[1], 34, 9)
	s.Text("small", draft.Middle, b.to(20, -5.6), "bed")
	c := b.to(0, b.t+b.radius)
	tip := geom.Vec2{c[0] + b.radius*math.Cos(math.Pi/6), c[1] + b.radius*math.Sin(math.Pi/6)}
	top := tip.Sub(geom.Vec2{5.5, 9.5})
	s.Path("tool", draft.Path{}.M(b.to(34, b.t)).L(b.to(0, b.t)).A(b.radius, false, false, tip).L(top, top.Sub(geom.Vec2{23, 0})).Z())
	s.Text("small", draft.Middle, b.to(19, 7.2), "clamp bar")
	x0, y0 := b.legPoint(1, 0)
	x1, y1 := b.legPoint(19, 0)
	x2, y2 := b.legPoint(19, 4)
	x3, y3 := b.legPoint(1, 4)
	s.Path("tool", draft.Polygon(b.to(x0, y0), b.to(x1, y1), b.to(x2, y2), b.to(x3, y3)))
	s.Text("small", draft.Start, b.to(x3, y3).Add(geom.Vec2{1.4, 0.6}), "leaf")
	b.draw(s)
	s.Text("small", draft.End, b.to(3, 17.2), "nose")
	s.Line("leader", b.to(2.6, 16.6), b.to(0, b.t+b.radius))
	// The leaf's travel, from level.
	const r = 23.0
	end := geom.Vec2{c[0] + r*math.Cos(b.angle), c[1] + 4.4 - r*math.Sin(b.angle)}
	s.Line("dimline", geom.Vec2{c[0] + 8, c[1] + 4.4}, geom.Vec2{c[0] + r + 4, c[1] + 4.4})
	turn(s, geom.Vec2{c[0], c[1] + 4.4}, r, 0, b.angle-0.02)
	onPaper(s, geom.Vec2{end[0] + 15, end[1] + 8.5}, "stopped at")
}

// turn draws an arc about c from one angle to another (radians, counted from the
// right, upwards), with an arrowhead where it ends.
func turn(s *draft.Page, c geom.Vec2, r, from, to float64) {
	on := func(a, r float64) geom.Vec2 { return geom.Vec2{c[0] + r*math.Cos(a), c[1] - r*math.Sin(a)} }
	right, back := false, -2/r
	if to < from {
		right, back = true, 2/r
	}
	s.Path("dimline", draft.Path{}.M(on(from, r)).A(r, false, right, on(to, r)))
	s.Path("dot", draft.Polygon(on(to, r), on(to+back, r+0.55), on(to+back, r-0.55)))
}

// drawLegs draws what is measured outside, and inside.
func drawLegs(s *draft.Page, at geom.Vec2) {
	for i, inside := range []bool{false, true} {
		b := bentStrip{angle: math.Pi / 2, radius: 3, t: 2, legA: 16.5, legB: 18, at: geom.Vec2{at[0] + 13 + 41*float64(i), at[1] + 26}}
		b.draw(s)
		sx, sy := b.sharp(inside)
		endX, endY := b.legPoint(b.legA, 0)
		if inside {
			endX, endY = b.legPoint(b.legA, -b.t)
		}
		off := -5.0
		if inside {
			off = 4.5
		}
		// The faces drawn on to where they meet.
		s.Line("tangent", b.to(sx, sy), b.to(b.legB, sy))
		s.Line("tangent", b.to(sx, sy), b.to(endX, endY))
		if inside {
			between(s, b.to(sx, sy+off+2), b.to(b.legB, sy+off+2), "leg b")
			s.Line("extension", b.to(b.legB, sy), b.to(b.legB, sy+off+3.5))
			between(s, b.to(sx+off, sy), b.to(sx+off, endY), "")
			onPaper(s, b.to(sx+off+2.5, (sy+endY)/2+3), "leg a")
			s.Line("extension", b.to(sx, endY), b.to(sx+off+1.5, endY))
			s.Circle("dot", b.to(sx, sy), 0.55)
		} else {
			between(s, b.to(sx, sy+off), b.to(b.legB, sy+off), "leg b")
			for _, x := range []float64{sx, b.legB} {
				s.Line("extension", b.to(x, sy-0.8), b.to(x, sy+off-1.5))
			}
			between(s, b.to(sx+off, sy), b.to(sx+off, endY), "leg a")
			for _, y := range []float64{sy, endY} {
				s.Line("extension", b.to(sx-0.8, y), b.to(sx+off-1.5, y))
			}
			s.Circle("dot", b.to(sx, sy), 0.55)
		}
		words := "outside"
		if inside {
			words = "inside"
		}
		s.Text("dimb", draft.Middle, geom.Vec2{b.at[0] + 8, at[1] + 2}, words)
	}
}

// drawAngle draws how the angle is counted, and a drill shank in the corner.
func drawAngle(s *draft.Page, at geom.Vec2) {
	b := bentStrip{angle: 70 * math.Pi / 180, radius: 2.4, t: 1.6, legA: 15.5, legB: 18, at: geom.Vec2{at[0] + 22, at[1] + 24}}
	sx, sy := b.sharp(false)
	s.Line("tangent", b.to(sx-20, sy), b.to(sx, sy))
	b.draw(s)
	c := b.to(sx, sy)
	turn(s, c, 14, math.Pi, math.Pi-b.angle+0.02)
	onPaper(s, geom.Vec2{c[0] - 12.5, c[1] - 6.7}, "bend angle")
	turn(s, c, 12, 0.14, math.Pi-b.angle-0.14)
	s.Text("small", draft.Start, geom.Vec2{c[0] + 12, c[1] - 8}, "between")
	s.Text("small", draft.Start, geom.Vec2{c[0] + 12, c[1] - 5.2}, "the legs")
	s.Text("small", draft.Middle, geom.Vec2{c[0] - 12, c[1] + 3.4}, "flat")
	s.Text("dimb", draft.Middle, geom.Vec2{at[0] + 22, at[1] + 2}, "angle")

	k := bentStrip{angle: math.Pi / 2, radius: 6, t: 3.4, legA: 9, legB: 9, at: geom.Vec2{at[0] + 61, at[1] + 25}}
	k.draw(s)
	pin := k.to(0, k.t+k.radius)
	s.Circle("box", pin, k.radius-0.15)
	s.Line("centre", pin.Add(geom.Vec2{-8, 0}), pin.Add(geom.Vec2{8, 0}))
	s.Line("centre", pin.Add(geom.Vec2{0, -8}), pin.Add(geom.Vec2{0, 8}))
	s.Text("small", draft.Start, geom.Vec2{pin[0] + 2.5, pin[1] - 9}, "drill shank")
	s.Text("dimb", draft.Middle, geom.Vec2{at[0] + 61, at[1] + 2}, "radius")
}
