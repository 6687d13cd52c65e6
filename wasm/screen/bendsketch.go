package screen

// This file draws a bent strip in section: which lengths and which angle are measured of
// a test bend.

import (
	"fmt"
	"math"

	"dryfold/wasm/node"
)

// bendSketch is a section with one bend: leg b lies level from the bend to the right,
// leg a turns up at the left. px, y downwards.
type bendSketch struct {
	angle     float64 // radians from flat
	r, t      float64 // inside radius, thickness
	a, b      float64 // straight lengths of the legs
	x, y      float64 // where leg b's outside begins
	box       *node.Node
	dir, away [2]float64 // along leg a, and square to it away from its outside
}

func sketch(w, h int, label string, angle, r, t, a, b, x, y float64) *bendSketch {
	k := &bendSketch{angle: angle, r: r, t: t, a: a, b: b, x: x, y: y}
	k.box = node.E("svg.sketch", node.Key("sketch"), node.A("viewBox", fmt.Sprintf("0 0 %d %d", w, h)), node.A("role", "img"), node.A("aria-label", label))
	sin, cos := math.Sin(angle), math.Cos(angle)
	k.dir, k.away = [2]float64{-cos, -sin}, [2]float64{-sin, cos}
	return k
}

// leg is a point of leg a: along it from its tangent line, off its outside face.
func (k *bendSketch) leg(along, off float64) [2]float64 {
	d := k.r + k.t + off
	return [2]float64{k.x + k.away[0]*d + k.dir[0]*along, k.y - k.r - k.t + k.away[1]*d + k.dir[1]*along}
}

// sharp is where the outside faces meet, drawn on, or the inside ones.
func (k *bendSketch) sharp(inside bool) [2]float64 {
	if inside {
		return [2]float64{k.x - k.r*math.Tan(k.angle/2), k.y - k.t}
	}
	return [2]float64{k.x - (k.r+k.t)*math.Tan(k.angle/2), k.y}
}

func (k *bendSketch) path(cls, d string) {
	put(k.box, node.E("path."+cls, node.A("d", d)))
}

func at(p [2]float64) string { return fmt.Sprintf("%.1f %.1f", p[0], p[1]) }

func (k *bendSketch) line(cls string, p, q [2]float64) { k.path(cls, "M"+at(p)+"L"+at(q)) }

// strip draws the metal.
func (k *bendSketch) strip() {
	arc := func(r float64, sweep int, to [2]float64) string {
		return fmt.Sprintf("A%.1f %.1f 0 0 %d %s", r, r, sweep, at(to))
	}
	end := func(dy float64) [2]float64 { return [2]float64{k.x + k.b, k.y - dy} }
	k.path("m", "M"+at(end(0))+"L"+at([2]float64{k.x, k.y})+arc(k.r+k.t, 1, k.leg(0, 0))+"L"+at(k.leg(k.a, 0))+"L"+at(k.leg(k.a, -k.t))+
		"L"+at(k.leg(0, -k.t))+arc(k.r, 0, [2]float64{k.x, k.y - k.t})+"L"+at(end(k.t))+"Z")
}

// words writes over a patch of the ground.
func (k *bendSketch) words(p [2]float64, anchor, text string) {
	put(k.box, node.E("text", node.A("x", fmt.Sprintf("%.1f", p[0])), node.A("y", fmt.Sprintf("%.1f", p[1]+5)), node.A("text-anchor", anchor), text))
}

// arrow draws an arrowhead at p, pointing along d.
func (k *bendSketch) arrow(p, d [2]float64) {
	l := math.Hypot(d[0], d[1])
	u := [2]float64{d[0] / l, d[1] / l}
	side := func(s float64) [2]float64 { return [2]float64{p[0] - 8*u[0] - s*u[1], p[1] - 8*u[1] + s*u[0]} }
	k.path("h", "M"+at(p)+"L"+at(side(2.6))+"L"+at(side(-2.6))+"Z")
}

// measure is a dimension from p to q with its name in the middle.
func (k *bendSketch) measure(p, q [2]float64, text string) {
	k.line("d", p, q)
	d := [2]float64{q[0] - p[0], q[1] - p[1]}
	k.arrow(q, d)
	k.arrow(p, [2]float64{-d[0], -d[1]})
	k.words([2]float64{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}, "middle", text)
}

// turn is an arc about the sharp from one angle to another (radians counted from the
// right, upwards), with an arrowhead at its end.
func (k *bendSketch) turn(cls string, c [2]float64, r, from, to float64) {
	on := func(a float64) [2]float64 { return [2]float64{c[0] + r*math.Cos(a), c[1] - r*math.Sin(a)} }
	sweep, way := 0, 1.0
	if to < from {
		sweep, way = 1, -1
	}
	k.path(cls, fmt.Sprintf("M%sA%.1f %.1f 0 0 %d %s", at(on(from)), r, r, sweep, at(on(to))))
	a := to - way*4/r
	k.arrow(on(to), [2]float64{-way * math.Sin(a), -way * math.Cos(a)})
}

// legSketch shows which lengths and which angle of a test bend are meant.
func legSketch(inside bool) *node.Node {
	label := "The legs are measured outside: from the end of each to where the outside faces would meet. The bend angle is how far leg a has turned from flat."
	if inside {
		label = "The legs are measured inside: from the end of each to where the inside faces meet. The bend angle is how far leg a has turned from flat."
	}
	k := sketch(320, 136, label, 76*math.Pi/180, 11, 9, 66, 150, 132, 104)
	c := k.sharp(false)
	k.line("f", [2]float64{c[0] - 74, c[1]}, c)
	k.strip()
	k.turn("d", c, 62, math.Pi, math.Pi-k.angle+0.05)
	k.words([2]float64{c[0] - 56, c[1] - 44}, "end", "angle")
	k.words([2]float64{c[0] - 66, c[1] + 12}, "middle", "flat")
	s := k.sharp(inside)
	face, off := 0.0, 16.0
	if inside {
		face, off = -k.t, -16
	}
	end := k.leg(k.a, face)
	k.line("f", s, end)
	k.line("f", s, [2]float64{k.x + k.b, s[1]})
	shift := func(p, d [2]float64, by float64) [2]float64 { return [2]float64{p[0] + d[0]*by, p[1] + d[1]*by} }
	down := [2]float64{0, 1}
	put(k.box, node.E("circle.p", node.A("cx", fmt.Sprintf("%.1f", s[0])), node.A("cy", fmt.Sprintf("%.1f", s[1])), node.A("r", "3.2")))
	b := [2]float64{k.x + k.b, s[1]}
	for _, p := range [][2]float64{s, b} {
		k.line("e", shift(p, down, off/4), shift(p, down, off*1.3))
	}
	k.measure(shift(s, down, off), shift(b, down, off), "b")
	// Leg a is measured on the inner side of the drawing in both cases: the angle has the other.
	aOff := -30.0
	if !inside {
		aOff = -26
	}
	for _, p := range [][2]float64{s, end} {
		k.line("e", shift(p, k.away, aOff/6-6), shift(p, k.away, aOff-4))
	}
	k.measure(shift(s, k.away, aOff), shift(end, k.away, aOff), "a")
	return k.box
}
