package screen

// This file draws the starters: a small picture of each for the shelf, and a figure that
// shows which size is which. startersketchdata.go holds what they are drawn from.

import (
	"math"
	"sort"
	"strconv"
	"strings"

	"dryfold/wasm/node"
)

// spot3 is a point of a drawing: x to the right, y away from the viewer, z up.
type spot3 [3]float64

func (p spot3) plus(q spot3, by float64) spot3 {
	return spot3{p[0] + q[0]*by, p[1] + q[1]*by, p[2] + q[2]*by}
}

func (p spot3) minus(q spot3) spot3 { return p.plus(q, -1) }

func (p spot3) dot(q spot3) float64 { return p[0]*q[0] + p[1]*q[1] + p[2]*q[2] }

// onPaper is where a point lies on paper, y downwards, and how far away it is: seen from the
// right, the front and above, at 30 and 32 degrees.
func onPaper(p spot3) (at [2]float64, far float64) {
	const sa, ca, se, ce = 0.5, 0.8660254, 0.5299192, 0.8480481
	back := p[1]*ca - p[0]*sa
	return [2]float64{p[0]*ca + p[1]*sa, -p[2]*ce - back*se}, back*ce - p[2]*se
}

// starterSize is a size as a figure shows it: between a and b, drawn off by off; or an angle
// at off from a to b.
type starterSize struct {
	name, text string
	angle      bool
	a, b, off  spot3
}

// starterDrawing reads a starter's drawing. Each line is a letter and whole numbers:
//
//	f X Y Z X Y Z ...      a face
//	p H X Z X Z ...        a section in x and z, drawn out from y = -H to H
//	q H Y Z Y Z ...        a section in y and z, drawn out from x = -H to H
//	t W L H O P            four walls on a floor of 2W by 2L, H high, leaning out by O and P
//	o AXIS X Y Z R         a hole with its middle and radius, square to an axis
//	d NAME TEXT A B OFF    a size between two points, its line moved off; _ in TEXT is a space
//	a NAME TEXT P A B      an angle at P
func starterDrawing(id string) (faces [][]spot3, list []starterSize) {
	for _, line := range strings.Split(starterDrawings[id], "\n") {
		w := strings.Fields(line)
		if len(w) == 0 {
			continue
		}
		s := starterSize{}
		if w[0] == "d" || w[0] == "a" {
			s.name, s.text, s.angle = w[1], strings.ReplaceAll(w[2], "_", " "), w[0] == "a"
			w = append(w[:1], w[3:]...)
		}
		var n []float64
		for _, t := range w[1:] {
			x, _ := strconv.Atoi(t)
			n = append(n, float64(x))
		}
		at := func(i int) spot3 { return spot3{n[i], n[i+1], n[i+2]} }
		switch w[0] {
		case "f":
			var f []spot3
			for i := 0; i < len(n); i += 3 {
				f = append(f, at(i))
			}
			faces = append(faces, f)
		case "p", "q":
			on := func(i int, h float64) spot3 {
				if w[0] == "q" {
					return spot3{h, n[i], n[i+1]}
				}
				return spot3{n[i], h, n[i+1]}
			}
			for i := 1; i+3 < len(n); i += 2 {
				faces = append(faces, []spot3{on(i, -n[0]), on(i+2, -n[0]), on(i+2, n[0]), on(i, n[0])})
			}
		case "t":
			x, y, h, ox, oy := n[0], n[1], n[2], n[0]+n[3], n[1]+n[4]
			foot := []spot3{{-x, -y}, {x, -y}, {x, y}, {-x, y}}
			top := []spot3{{-ox, -oy, h}, {ox, -oy, h}, {ox, oy, h}, {-ox, oy, h}}
			faces = append(faces, foot)
			for i := range 4 {
				j := (i + 1) % 4
				faces = append(faces, []spot3{foot[i], foot[j], top[j], top[i]})
			}
		case "o":
			axis := int(n[0])
			var f []spot3
			for i := range 12 {
				p := at(1)
				sin, cos := math.Sincos(float64(i) * math.Pi / 6)
				p[(axis+1)%3] += n[4] * cos
				p[(axis+2)%3] += n[4] * sin
				f = append(f, p)
			}
			faces = append(faces, f)
		case "d":
			s.a, s.b, s.off = at(0), at(3), at(6)
			list = append(list, s)
		case "a":
			s.off, s.a, s.b = at(0), at(3), at(6)
			list = append(list, s)
		}
	}
	return faces, list
}

const (
	figureWide = 300 // px of a figure's own
	letterWide = 8.6 // of a letter in it, on the whole: 16 px and bold
)

// starterPicture is a drawing fitted into a box on paper.
type starterPicture struct {
	bendSketch // its box, and how it draws lines, arrows and words
	scale      float64
	over       [2]float64 // how far words reach past the left and the right edge of a figure
	moved      [2]float64
}

// fit sets the scale so that all points lie within a box w by h, with room to the left,
// above, to the right and below.
func (k *starterPicture) fit(points []spot3, w, h float64, room [4]float64) {
	lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, p := range points {
		q, _ := onPaper(p)
		for i := range q {
			lo[i], hi[i] = min(lo[i], q[i]), max(hi[i], q[i])
		}
	}
	w, h = w-room[0]-room[2], h-room[1]-room[3]
	k.scale = min(w/(hi[0]-lo[0]), h/(hi[1]-lo[1]))
	k.moved = [2]float64{room[0] + w/2 - k.scale*(lo[0]+hi[0])/2, room[1] + h/2 - k.scale*(lo[1]+hi[1])/2}
}

func (k *starterPicture) on(p spot3) [2]float64 {
	q, _ := onPaper(p)
	return [2]float64{q[0]*k.scale + k.moved[0], q[1]*k.scale + k.moved[1]}
}

// faces draws from the furthest to the nearest, level faces lightest.
func (k *starterPicture) faces(list [][]spot3) {
	far := func(f []spot3) float64 {
		sum := 0.0
		for _, p := range f {
			_, d := onPaper(p)
			sum += d
		}
		return sum / float64(len(f))
	}
	sort.SliceStable(list, func(i, j int) bool { return far(list[i]) > far(list[j]) })
	for _, f := range list {
		u, v := f[1].minus(f[0]), f[2].minus(f[0])
		nx, ny, nz := math.Abs(u[1]*v[2]-u[2]*v[1]), math.Abs(u[2]*v[0]-u[0]*v[2]), math.Abs(u[0]*v[1]-u[1]*v[0])
		tone := "c"
		if len(f) == 12 { // a hole
			tone = "o"
		} else if nz*nz > 0.56*(nx*nx+ny*ny+nz*nz) {
			tone = "a"
		} else if nx > ny {
			tone = "b"
		}
		d := "M"
		for i, p := range f {
			if i > 0 {
				d += "L"
			}
			d += at(k.on(p))
		}
		k.path(tone, d+"Z")
	}
}

// starterSketch is the small picture of a starter; nil for an unknown one.
func starterSketch(id string) *node.Node {
	faces, _ := starterDrawing(id)
	if faces == nil {
		return nil
	}
	k := starterPicture{bendSketch: bendSketch{box: node.E("svg.sd", node.A("viewBox", "0 0 78 44"), node.A("aria-hidden", "true"))}}
	var all []spot3
	for _, f := range faces {
		all = append(all, f...)
	}
	k.fit(all, 78, 44, [4]float64{2, 1, 2, 1})
	k.faces(faces)
	return k.box
}

// starterFigure is the large picture, with the sizes that the starter is asked by; nil for
// an unknown one. Each size is a group with its name as data-size.
func starterFigure(id string) *node.Node {
	faces, list := starterDrawing(id)
	if faces == nil {
		return nil
	}
	var all []spot3
	var told []string
	for _, f := range faces {
		all = append(all, f...)
	}
	for _, s := range list {
		if !s.angle {
			all = append(all, s.a.plus(s.off, 1), s.b.plus(s.off, 1))
		}
		told = append(told, s.text)
	}
	words := "Where the sizes run: " + strings.Join(told, ", ")
	room := [4]float64{46, 20, 46, 20}
	var k starterPicture
	for range 3 { // again with more room, where words would stand out
		k = starterPicture{}
		k.box = node.E("svg.sketch.fig", node.A("viewBox", "0 0 300 190"), node.A("role", "img"), node.A("aria-label", words))
		k.fit(all, figureWide, 190, room)
		k.faces(faces)
		whole := k.box
		for _, s := range list {
			k.box = node.E("g", node.A("data-size", s.name))
			if s.angle {
				k.angleSize(s)
			} else {
				k.lengthSize(s)
			}
			put(whole, k.box)
		}
		k.box = whole
		room[0] += k.over[0]
		room[2] += k.over[1]
	}
	return k.box
}

// lengthSize draws a size's line with its words beyond it.
func (k *starterPicture) lengthSize(s starterSize) {
	a, b := k.on(s.a.plus(s.off, 1)), k.on(s.b.plus(s.off, 1))
	if s.off != (spot3{}) {
		k.line("e", k.on(s.a), k.on(s.a.plus(s.off, 1.1)))
		k.line("e", k.on(s.b), k.on(s.b.plus(s.off, 1.1)))
	}
	d := [2]float64{b[0] - a[0], b[1] - a[1]}
	l := math.Hypot(d[0], d[1])
	back := [2]float64{-d[0], -d[1]}
	if l >= 22 {
		k.line("d", a, b)
		k.arrow(b, d)
		k.arrow(a, back)
	} else { // no room between: the arrows come from without
		for _, e := range []struct{ p, d [2]float64 }{{a, d}, {b, back}} {
			k.line("d", [2]float64{e.p[0] - 14/l*e.d[0], e.p[1] - 14/l*e.d[1]}, e.p)
			k.arrow(e.p, e.d)
		}
	}
	m := [2]float64{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
	to, from := k.on(s.off), k.on(spot3{})
	out := [2]float64{to[0] - from[0], to[1] - from[1]}
	// Square to the line, to the side on which it was moved off.
	n := [2]float64{-d[1] / l, d[0] / l}
	if n[0]*out[0]+n[1]*out[1] < 0 {
		n = [2]float64{-n[0], -n[1]}
	}
	k.beside(m, n, s.text)
}

// beside writes next to a point, in the direction n of length 1.
func (k *starterPicture) beside(p, n [2]float64, text string) {
	anchor, wide := "middle", letterWide*float64(len(text))
	x := p[0] + 5*n[0]
	left := x - wide/2
	if n[0] > 0.4 {
		anchor, left = "start", x
	} else if n[0] < -0.4 {
		anchor, left = "end", x-wide
	}
	k.over[0] = max(k.over[0], -left)
	k.over[1] = max(k.over[1], left+wide-figureWide)
	k.words([2]float64{x, p[1] + 14*n[1]}, anchor, text)
}

// angleSize draws an arc about s.off, with the leg that it is counted from.
func (k *starterPicture) angleSize(s starterSize) {
	u, v := s.a.minus(s.off), s.b.minus(s.off)
	lu := math.Sqrt(u.dot(u))
	u = spot3{}.plus(u, 1/lu)
	v = spot3{}.plus(v, 1/math.Sqrt(v.dot(v)))
	turn := math.Acos(u.dot(v))
	w := v.plus(u, -u.dot(v))
	w = spot3{}.plus(w, 1/math.Sqrt(w.dot(w)))
	on := func(a float64) spot3 { return s.off.plus(u, lu*math.Cos(a)).plus(w, lu*math.Sin(a)) }
	k.line("f", k.on(s.off), k.on(s.off.plus(u, lu*1.1)))
	d := "M" + at(k.on(s.a))
	const steps = 8
	for i := 1; i <= steps; i++ {
		d += "L" + at(k.on(on(turn*float64(i)/steps)))
	}
	k.path("d", d)
	p, q := k.on(on(turn*0.9)), k.on(on(turn))
	k.arrow(q, [2]float64{q[0] - p[0], q[1] - p[1]})
	c, m := k.on(s.off), k.on(on(turn/2))
	l := math.Hypot(m[0]-c[0], m[1]-c[1])
	k.beside(m, [2]float64{(m[0] - c[0]) / l, (m[1] - c[1]) / l}, s.text)
}
