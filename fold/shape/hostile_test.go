package shape_test

// This file makes forms of every kind that a form can hold, at random: stepped trays with lips, all ways to close a
// corner, drawn edges, hems, joggles, tabs on tabs, L-shaped and clockwise bases; and forms with senseless numbers.
// hostile_make_test.go makes them and looks at what comes out.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

// dice is what the forms are drawn from: numbers at random, or the bytes of a fuzzer.
type dice interface {
	Float64() float64
	IntN(int) int
}

// bytesDice takes each choice from the bytes in turn; after the last all are 0.
type bytesDice struct{ b []byte }

func (d *bytesDice) next() int {
	if len(d.b) == 0 {
		return 0
	}
	x := d.b[0]
	d.b = d.b[1:]
	return int(x)
}
func (d *bytesDice) Float64() float64 { return float64(d.next()) / 256 }
func (d *bytesDice) IntN(n int) int   { return d.next() % n }

// drawer draws forms.
type drawer struct {
	dice
	t float64
	f *sizes.Form
}

func (d *drawer) log(lo, hi float64) float64      { return lo * math.Pow(hi/lo, d.Float64()) }
func (d *drawer) size(lo, hi float64) sizes.Field { return sizes.Is(d.log(lo, hi)) }
func (d *drawer) one(in int) bool                 { return d.IntN(in) == 0 }
func (d *drawer) within(lo, hi float64) float64   { return lo + (hi-lo)*d.Float64() }

func (d *drawer) add(l sizes.Flange) *sizes.Flange {
	d.f.Flanges = append(d.f.Flanges, l)
	return &d.f.Flanges[len(d.f.Flanges)-1]
}

// hostileSpec is a form of one of the kinds. Sizes are log-uniform.
func hostileSpec(r dice) (fold.Spec, string) {
	d := &drawer{dice: r}
	d.t = d.log(0.3, 6)
	d.f = &sizes.Form{Faces: sizes.Faces(d.IntN(3)), Radius: d.size(0.1*d.t, 4*d.t), Gap: d.size(0.02, 3),
		Relief: sizes.Relief{Kind: sizes.ReliefKind(d.IntN(4))}, Mirror: d.one(4)}
	if d.one(6) {
		d.f.Gap = sizes.Is(0)
	}
	if d.one(3) {
		d.f.Relief.Size = d.size(0.3*d.t, 8*d.t)
	}
	kinds := []struct {
		name string
		draw func()
	}{{"stepped", d.stepped}, {"polygon", d.polygon}, {"reflex", d.reflex}, {"strip", d.strip}, {"box", d.box}}
	k := kinds[d.IntN(len(kinds))]
	k.draw()
	s := fold.Spec{Sheet: fold.Sheet{Thickness: d.t}, Sizes: d.f}
	if d.one(5) { // the same in inches
		s.Units = fold.Inch
		s.Sheet.Thickness /= 25.4
		d.f.Fields(func(_ string, q *sizes.Field, angle bool) {
			if !angle && q.Formula == "" {
				q.Number /= 25.4
			}
		})
	}
	return s, k.name
}

// angle of a wall: mostly usable, sometimes at the edges of what is allowed.
func (d *drawer) angle() sizes.Field {
	switch d.IntN(12) {
	case 0, 1, 2, 3:
		return sizes.Field{} // 90
	case 4:
		return sizes.Is([]float64{0.5, 1, 3, 89, 89.999, 90, 90.001, 91, 135, 179, 180, 181, 239, 240}[d.IntN(14)])
	case 5:
		return sizes.Is(d.within(1, 180))
	}
	return sizes.Is(d.within(60, 115))
}

// walls' ways to meet.
func (d *drawer) corner(a, b string) {
	if d.one(3) {
		return
	}
	c := sizes.Corner{A: a, B: b, Close: sizes.Closing(d.IntN(5))}
	if d.one(2) {
		c.A, c.B = b, a
	}
	if c.Close == sizes.Lap {
		c.Over = []string{"", a, b}[d.IntN(3)]
		c.Past = sizes.Is([]float64{0, -d.log(0.1*d.t, 3*d.t), d.log(0.1*d.t, 20*d.t)}[d.IntN(3)])
	}
	if d.one(3) {
		c.Gap = d.size(0.02, 5)
	}
	if d.one(3) {
		c.Relief = &sizes.Relief{Kind: sizes.ReliefKind(d.IntN(4)), Size: d.size(0.2*d.t, 8*d.t)}
	}
	c.InPlane = d.one(6)
	d.f.Corners = append(d.f.Corners, c)
}

// dress puts a lip, a hook, a hem, a joggle, a drawn edge or tabs on a wall that is long by about so much.
func (d *drawer) dress(l *sizes.Flange, long float64) {
	name, down := l.Name, l.Down
	if d.one(8) {
		l.From = d.size(2*d.t, 12*d.t)
	}
	if d.one(8) {
		l.To = d.size(2*d.t, 12*d.t)
	}
	if d.one(8) {
		l.LeanStart = sizes.Is(d.within(-30, 40))
	}
	if d.one(8) {
		l.LeanEnd = sizes.Is(d.within(-30, 40))
	}
	if d.one(6) {
		l.Radius = d.size(0.1*d.t, 15*d.t)
	}
	if d.one(10) {
		f := sizes.Faces(d.IntN(3))
		l.Faces = &f
	}
	h := l.Height.Number
	switch d.IntN(9) {
	case 0: // lip, perhaps with another on it
		d.add(sizes.Flange{Name: name + " lip", On: name, Side: "top", Height: d.size(5*d.t, 15*d.t), Along: d.one(2), Down: down != d.one(2), Angle: d.angle()})
		if d.one(3) {
			d.add(sizes.Flange{Name: name + " hook", On: name + " lip", Height: d.size(5*d.t, 15*d.t), Along: d.one(2), Down: down != d.one(2), Angle: d.angle()})
		}
	case 1: // hem
		hem := &sizes.Hem{Clear: sizes.Is(0)}
		if d.one(2) {
			hem.Clear, hem.Teardrop = d.size(0.1*d.t, 3*d.t), d.one(2)
		}
		d.add(sizes.Flange{Name: name + " hem", On: name, Height: d.size(5*d.t, 20*d.t), Hem: hem, Down: down != d.one(2)})
	case 2: // joggle, perhaps with a lip beyond
		j := &sizes.Joggle{At: d.size(0.3*h, 0.8*h), Depth: d.size(1.5*d.t, 12*d.t), Out: d.one(2)}
		if d.one(2) {
			j.Angle = sizes.Is(d.within(10, 90))
		}
		if d.one(2) {
			l.Radius = d.size(0.2*d.t, 2*d.t)
		}
		l.Joggle = j
		if d.one(3) {
			d.add(sizes.Flange{Name: name + " beyond lip", On: name, Height: d.size(5*d.t, 15*d.t), Along: true, Down: down != d.one(2)})
		}
	case 3: // a sloped edge
		l.HeightEnd = sizes.Is(h * d.log(0.4, 2.5))
	case 4: // a drawn edge: a step, a slope, an arc
		x := func(k float64) sizes.Field { return sizes.Is(k * long) }
		y := func(k float64) sizes.Field { return sizes.Is(k * h) }
		switch d.IntN(3) {
		case 0:
			l.Edge = []sizes.Point{{X: x(0), Y: y(1)}, {X: x(0.5), Y: y(1)}, {X: x(0.5), Y: y(0.6)}, {X: x(1), Y: y(0.6)}}
		case 1:
			l.Edge = []sizes.Point{{X: x(0), Y: y(0.7)}, {X: x(0.3), Y: y(1)}, {X: x(0.8), Y: y(1)}, {X: x(1), Y: y(0.6)}}
			if d.one(2) {
				d.add(sizes.Flange{Name: name + " lip", On: name, Side: "top 2", Height: d.size(5*d.t, 10*d.t), Along: true, Down: !down})
			}
		default:
			l.Edge = []sizes.Point{{X: x(0.1), Y: y(0.7)}, {X: x(0.9), Y: y(0.7), Through: true, ThX: x(0.5), ThY: y(0.7 + d.within(-0.3, 0.5))}}
		}
		l.Height = sizes.Field{}
	case 5: // tabs on the ends
		for _, side := range []string{"start", "end"} {
			if d.one(3) {
				continue
			}
			tab := sizes.Flange{Name: name + " tab " + side, On: name, Side: side, Height: d.size(5*d.t, 15*d.t), Along: d.one(2), Down: down != d.one(4), Angle: d.angle()}
			if d.one(2) {
				tab.From, tab.To = d.size(2*d.t, 5*d.t), d.size(2*d.t, 5*d.t)
			}
			d.add(tab)
			if d.one(3) {
				d.add(sizes.Flange{Name: name + " tab " + side + " lip", On: tab.Name, Height: d.size(5*d.t, 8*d.t), Along: true, Down: d.one(2)})
			}
		}
	case 6: // two on one edge
		d.add(sizes.Flange{Name: name + " ear 1", On: name, To: sizes.Is(long * 0.6), Height: d.size(5*d.t, 12*d.t), Along: true, Down: !down})
		d.add(sizes.Flange{Name: name + " ear 2", On: name, From: sizes.Is(long * 0.55), Height: d.size(5*d.t, 12*d.t), Along: true, Down: down})
	}
	if d.one(4) {
		d.hole(name, long, h)
	}
}

func (d *drawer) hole(on string, long, high float64) {
	h := sizes.Hole{Name: "hole in " + on, On: on, FromEnd: d.one(3), X: sizes.Is(long * d.within(0.2, 0.8)), Y: sizes.Is(high * d.within(0.3, 0.7)),
		Shape: sizes.HoleShape(d.IntN(4)), Wide: d.size(0.5*d.t, 5*d.t), Turn: sizes.Is(d.within(0, 180))}
	if h.Shape == sizes.Slot || h.Shape == sizes.Window {
		h.Long = sizes.Is(h.Wide.Number * d.within(1, 3))
	}
	if h.Shape == sizes.Cutout {
		o, a := sizes.Is(0), sizes.Is(3*d.t)
		h.Points = []sizes.Point{{X: o, Y: o}, {X: a, Y: o}, {X: a, Y: a, Through: true, ThX: sizes.Is(4 * d.t), ThY: sizes.Is(1.5 * d.t)}, {X: o, Y: a}}
	}
	if d.one(2) {
		h.Count, h.Step = 1+d.IntN(4), d.size(4*d.t, 8*d.t)
		h.Rows, h.RowStep = 1+d.IntN(2), d.size(4*d.t, 8*d.t)
		h.Mirrored = d.one(3)
	}
	d.f.Holes = append(d.f.Holes, h)
}

// stepped is a tray whose floor is bent along its length, with walls on all its pieces, and perhaps lips all round.
func (d *drawer) stepped() {
	wide := d.log(40*d.t, 300*d.t)
	d.f.Base.Wide, d.f.Base.Long = sizes.Is(wide), d.size(40*d.t, 300*d.t)
	taper := 0.0
	if d.one(2) {
		taper = d.within(-0.2, 0.2) // of one side, to the length
		d.f.Base.WideBack = sizes.Is(max(10*d.t, wide+2*taper*d.f.Base.Long.Number))
	}
	d.f.Base.AtTop = d.one(8)
	down := d.one(6)
	lean := d.within(60, 110)
	same := d.one(2)
	angle := func() sizes.Field {
		if same {
			return sizes.Is(lean)
		}
		return sizes.Is(d.within(70, 105))
	}
	high := d.log(10*d.t, 40*d.t)
	height := func() sizes.Field {
		if d.one(3) {
			return sizes.Is(high * d.within(0.7, 1.4))
		}
		return sizes.Is(high)
	}
	lips, lipDown, lip := d.one(2), d.one(2) != down, d.size(6*d.t, 14*d.t)
	wall := func(name, on, side string) {
		d.add(sizes.Flange{Name: name, On: on, Side: side, Height: height(), Angle: angle(), Down: down})
		if lips {
			d.add(sizes.Flange{Name: name + " lip", On: name, Height: lip, Along: true, Down: lipDown, Angle: sizes.Is([]float64{90, lean, 180 - lean}[d.IntN(3)])})
		}
		if d.one(5) {
			d.hole(name, high, high)
		}
	}
	wall("left", "floor", "left")
	wall("right", "floor", "right")
	if !d.one(4) {
		wall("front", "floor", "front")
	}
	on, side := "floor", "back"
	steps := 1 + d.IntN(4)
	for k := range steps {
		name := fmt.Sprintf("floor %d", k+2)
		l := d.add(sizes.Flange{Name: name, On: on, Side: side, Height: d.size(30*d.t, 200*d.t), Along: true, Down: d.one(3), Angle: sizes.Is(d.log(2, 60))})
		l.LeanStart = sizes.Is(math.Atan(-taper) * 180 / math.Pi)
		l.LeanEnd = l.LeanStart
		if d.one(6) {
			l.Radius = d.size(d.t, 40*d.t)
		}
		wall(name+" right", name, "start")
		wall(name+" left", name, "end")
		if d.one(3) {
			before := [2]string{"right", "left"}
			if k > 0 {
				before = [2]string{fmt.Sprintf("floor %d right", k+1), fmt.Sprintf("floor %d left", k+1)}
			}
			in := d.one(2)
			for e, s := range []string{" right", " left"} {
				d.f.Corners = append(d.f.Corners, sizes.Corner{A: before[e], B: name + s, Close: sizes.Mitre, InPlane: in})
			}
		}
		on, side = name, "top"
	}
	if !d.one(3) {
		wall("end wall", on, side)
	}
}

// polygon is a base of 3 to 8 sides, clockwise or not, with walls that are dressed up.
func (d *drawer) polygon() {
	n := 3 + d.IntN(6)
	big := d.log(30*d.t, 400*d.t)
	turn := d.within(0, 2*math.Pi)
	way := []float64{1, -1}[d.IntN(2)]
	squash := d.within(0.4, 1)
	for i := range n {
		a := turn + way*(float64(i)+0.7*(d.Float64()-0.5))*2*math.Pi/float64(n)
		p := sizes.Point{X: sizes.Is(big * math.Cos(a)), Y: sizes.Is(big * math.Sin(a) * squash)}
		if d.one(12) {
			p.Through = true
			m := a - way*math.Pi/float64(n)
			p.ThX, p.ThY = sizes.Is(big*1.1*math.Cos(m)), sizes.Is(big*1.1*math.Sin(m)*squash)
		}
		d.f.Base.Points = append(d.f.Base.Points, p)
	}
	d.around(n, big)
}

// around puts walls on a base's sides.
func (d *drawer) around(n int, big float64) {
	d.f.Base.AtTop = d.one(20)
	down := d.one(4)
	walls := make([]*sizes.Flange, n)
	for i := range n {
		if pts := d.f.Base.Points; d.one(7) || len(pts) > 0 && pts[(i+1)%n].Through {
			continue
		}
		side := fmt.Sprintf("side %d", i+1)
		if n == 4 {
			side = []string{"front", "right", "back", "left"}[i]
		}
		l := sizes.Flange{Name: "wall " + side, On: "floor", Side: side, Height: d.size(5*d.t, 40*d.t), Down: down != d.one(20), Angle: d.angle()}
		if a := l.Angle.Number; d.one(5) || l.Angle.Given && (a < 5 || a > 175) && !d.one(4) {
			l.Along = true
		}
		at := len(d.f.Flanges)
		d.f.Flanges = append(d.f.Flanges, l)
		d.dress(&l, big*0.8)
		d.f.Flanges[at] = l
		walls[i] = &l
	}
	for i, a := range walls {
		if b := walls[(i+1)%n]; a != nil && b != nil && !(a.To.Given || b.From.Given) && (a.Down == b.Down || d.one(10)) {
			d.corner(a.Name, b.Name)
		}
	}
	if d.one(3) {
		d.hole("floor", big, big)
	}
}

// reflex is a base like an L, a U or an arrow.
func (d *drawer) reflex() {
	a, w := d.log(60*d.t, 300*d.t), d.within(0.25, 0.6)
	shapes := [][][2]float64{
		{{0, 0}, {1, 0}, {1, w}, {w, w}, {w, 1}, {0, 1}},
		{{0, 0}, {1, 0}, {1, 1}, {1 - w/2, 1}, {1 - w/2, w}, {w / 2, w}, {w / 2, 1}, {0, 1}},
		{{0, 0}, {1, 0.5}, {0, 1}, {w, 0.5}},
		{{0, 0}, {1, 0}, {1, w}, {0.5, w * 0.7}, {0, w}},
	}
	pts := shapes[d.IntN(len(shapes))]
	way := d.one(2)
	for i := range pts {
		p := pts[i]
		if way {
			p = pts[len(pts)-1-i]
		}
		d.f.Base.Points = append(d.f.Base.Points, sizes.Point{X: sizes.Is(a * p[0]), Y: sizes.Is(a * p[1])})
	}
	d.around(len(pts), a*w)
}

// strip is a narrow base with a chain of returns on one or both of its long sides.
func (d *drawer) strip() {
	long := d.log(60*d.t, 600*d.t)
	d.f.Base.Wide, d.f.Base.Long = sizes.Is(long), d.size(8*d.t, 60*d.t)
	for _, side := range []string{"front", "back"} {
		on, s := "floor", side
		for k := range 1 + d.IntN(4) {
			l := sizes.Flange{Name: fmt.Sprintf("%s %d", side, k+1), On: on, Side: s, Height: d.size(4*d.t, 30*d.t), Along: !d.one(4), Down: d.one(2), Angle: d.angle()}
			at := len(d.f.Flanges)
			d.f.Flanges = append(d.f.Flanges, l)
			if k == 0 && d.one(3) {
				d.dress(&l, long)
				d.f.Flanges[at] = l
				break
			}
			on, s = l.Name, "top"
		}
	}
}

// box is a four-sided base with dressed walls, or a base measured in another way.
func (d *drawer) box() {
	wide, long := d.log(20*d.t, 200*d.t), d.log(20*d.t, 200*d.t)
	if d.one(4) {
		dia := math.Hypot(wide, long)
		d.f.Base.Measured = &sizes.Measured{Sides: []sizes.Field{sizes.Is(wide), sizes.Is(long), sizes.Is(wide), sizes.Is(long)},
			Diagonals: []sizes.Field{sizes.Is(dia * d.within(0.97, 1.03)), sizes.Is(dia)}}
	} else {
		d.f.Base.Wide, d.f.Base.Long = sizes.Is(wide), sizes.Is(long)
		if d.one(3) {
			d.f.Base.WideBack = sizes.Is(wide * d.log(0.4, 2.5))
		}
	}
	d.around(4, min(wide, long))
}

// spoil puts senseless numbers into some of a form's fields.
func spoil(d dice, s *fold.Spec) {
	n := 0
	s.Sizes.Fields(func(string, *sizes.Field, bool) { n++ })
	for range 1 + d.IntN(3) {
		k := d.IntN(n)
		bad := []sizes.Field{sizes.Is(0), sizes.Is(-1), sizes.Is(1e-9), sizes.Is(1e6), sizes.Is(1e300), sizes.Is(math.NaN()), sizes.Is(math.Inf(1)), {},
			sizes.Is(90), sizes.Is(180), sizes.Is(1000), sizes.Is(3), sizes.Of("1/0"), sizes.Of("nothing + 1")}[d.IntN(14)]
		i := 0
		s.Sizes.Fields(func(_ string, q *sizes.Field, _ bool) {
			if i == k {
				if bad.Formula == "" && d.IntN(3) == 0 {
					bad = sizes.Is(q.Number * []float64{-1, 0.1, 0.5, 2, 10, 100}[d.IntN(6)])
				}
				*q = bad
			}
			i++
		})
	}
}

// spoiledStarter is one of the starters with senseless numbers.
func spoiledStarter(d dice) fold.Spec {
	s := shape.Starters[d.IntN(len(shape.Starters))].Make(fold.Units(d.IntN(2)))
	s.Sizes = s.Sizes.Clone()
	spoil(d, &s)
	return s
}
