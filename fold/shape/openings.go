package shape

// This file places holes, slots and cutouts, as measured on the finished part.

import (
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// ruler is where a hole is measured from: a line's start, along it and square to it into the panel.
type ruler struct {
	o, along, in geom.Vec2
	long         float64
	height       *panel // Y is a height of this flange; nil: a plain length
}

// openings adds the form's holes, in mm.
func (b *builder) openings(made *Made) {
	var cutouts []int
	total := 0
	for i := range b.form.Holes {
		h, path := &b.form.Holes[i], fmt.Sprintf("sizes.holes[%d]", i)
		r, ok := b.rulerOf(h, path)
		if !ok {
			continue
		}
		for _, at := range b.pattern(h, path, r) {
			if total++; total > fold.MaxHoles {
				b.problem(path+".count", fmt.Sprintf("over %d holes in all", fold.MaxHoles), "fewer")
				return
			}
			n := len(made.Spec.Cutouts)
			b.opening(&made.Spec, h, path, at)
			if len(made.Spec.Cutouts) > n {
				cutouts = append(cutouts, i)
			} else {
				made.Holes = append(made.Holes, i)
			}
			if b.failed() {
				return
			}
		}
	}
	made.Holes = append(made.Holes, cutouts...)
}

// rulerOf finds the line that a hole is measured from.
func (b *builder) rulerOf(h *sizes.Hole, path string) (r ruler, ok bool) {
	var n *panel
	for _, p := range b.panels {
		if p.name == h.On {
			n = p
		}
	}
	if n == nil {
		b.problem(path+".on", sizes.Quote(h.On), "one of the panels: "+b.panelNames())
		return r, false
	}
	var l sideLine
	switch {
	case n.at < 0:
		k := 0
		if h.Side != "" {
			if k = slices.Index(b.sideNames(), h.Side); k < 0 {
				b.problem(path+".side", sizes.Quote(h.Side), "one of the sides of "+n.name)
				return r, false
			}
		}
		l = n.flat[k]
	case h.Side == "":
		l = sideLine{a: n.point(0, 0), b: n.point(n.long, 0)}
		r.height = n
	case h.Side == "top":
		l = sideLine{a: n.flat[len(n.flat)-1].b, b: n.flat[0].a}
		if len(n.flat) == 1 {
			l = sideLine{a: n.flat[0].a, b: n.flat[0].b}
		}
	default:
		b.problem(path+".side", sizes.Quote(h.Side), `"top", or nothing for its own bend`)
		return r, false
	}
	r.o, r.along, r.long = l.a, l.dir(), l.b.Sub(l.a).Len()
	r.in = geom.Perp(r.along)
	switch {
	case r.height != nil:
		r.in = n.bend.N
	case n.at >= 0: // a flange's top runs with U: its inside lies on the right
		r.in = r.in.Mul(-1)
		if r.in.Dot(n.bend.N) > 0 {
			r.in = r.in.Mul(-1)
		}
	}
	return r, true
}

// placed is where an opening lies: its centre and the direction along its ruler.
type placed struct{ at, along geom.Vec2 }

// pattern gives the places of a hole and its repetitions.
func (b *builder) pattern(h *sizes.Hole, path string, r ruler) (out []placed) {
	x, y := b.length(path+".x", h.X, 0), b.length(path+".y", h.Y, 0)
	count, rows := max(1, h.Count), max(1, h.Rows)
	step, rowStep := b.length(path+".step", h.Step, 0), b.length(path+".row_step", h.RowStep, 0)
	if count > 1 && step == 0 {
		b.problem(path+".step", "nothing", "how far the holes lie apart")
	}
	if rows > 1 && rowStep == 0 {
		b.problem(path+".row_step", "nothing", "how far the rows lie apart")
	}
	if b.failed() {
		return nil
	}
	if count > fold.MaxHoles || rows > fold.MaxHoles || count*rows > fold.MaxHoles {
		b.problem(path+".count", fmt.Sprintf("%d by %d holes", count, rows), fmt.Sprintf("at most %d", fold.MaxHoles))
		return nil
	}
	ends := []bool{h.FromEnd}
	if h.Mirrored {
		ends = append(ends, !h.FromEnd)
	}
	for _, end := range ends {
		for j := range rows {
			for i := range count {
				u, v := x+float64(i)*step, y+float64(j)*rowStep
				if end {
					u = r.long - u
				}
				if r.height != nil {
					v = r.height.flatHole(v)
				}
				out = append(out, placed{r.o.Add(r.along.Mul(u)).Add(r.in.Mul(v)), r.along})
			}
		}
	}
	return out
}

// flatHole is the flat height of a hole's centre at a height on the finished part, on the face that heights are measured to.
func (n *panel) flatHole(h float64) float64 {
	if n.along() || n.step > 0 {
		return n.flatOf(h)
	}
	sin, cos := math.Sincos(n.angle)
	r := n.bend.Radius
	if n.faces == sizes.Outside {
		return (h - n.t - (r - (r+n.t)*cos)) / sin
	}
	return (h - r*(1-cos)) / sin
}

// opening adds one hole or cutout.
func (b *builder) opening(s *fold.Spec, h *sizes.Hole, path string, p placed) {
	wide := b.length(path+".wide", h.Wide, 0)
	long := b.length(path+".long", h.Long, wide)
	turn := b.num(path+".turn", h.Turn, 0) * math.Pi / 180
	if h.Shape != sizes.Cutout {
		b.atLeast(path+".wide", wide, fold.MinSize, false)
	}
	sin, cos := math.Sincos(turn)
	x := geom.Vec2{p.along[0]*cos - p.along[1]*sin, p.along[1]*cos + p.along[0]*sin}
	y := geom.Perp(x)
	at := func(u, v float64) geom.Vec2 { return p.at.Add(x.Mul(u)).Add(y.Mul(v)) }
	corner := func(u, v float64) fold.Vertex { return fold.Vertex{At: at(u, v)} }
	switch h.Shape {
	case sizes.Round:
		s.Holes = append(s.Holes, fold.Hole{At: p.at, Diameter: wide})
	case sizes.Slot:
		if !(long >= wide) {
			b.problem(path+".long", b.say(long), "at least its width of "+b.say(wide))
			return
		}
		if long-wide < sameLength {
			s.Holes = append(s.Holes, fold.Hole{At: p.at, Diameter: wide})
			return
		}
		a, r := (long-wide)/2, wide/2
		t0, t1 := at(a+r, 0), at(-a-r, 0)
		s.Cutouts = append(s.Cutouts, fold.Contour{corner(-a, -r), corner(a, -r), {At: at(a, r), Through: &t0}, corner(-a, r), {At: at(-a, -r), Through: &t1}})
	case sizes.Window:
		b.atLeast(path+".long", long, fold.MinSize, false)
		s.Cutouts = append(s.Cutouts, fold.Contour{corner(-long/2, -wide/2), corner(long/2, -wide/2), corner(long/2, wide/2), corner(-long/2, wide/2)})
	case sizes.Cutout:
		if len(h.Points) < 3 {
			b.problem(path+".points", fmt.Sprintf("%d corners", len(h.Points)), "at least 3")
			return
		}
		var c fold.Contour
		for i, q := range h.Points {
			pp := fmt.Sprintf("%s.points[%d]", path, i)
			u, v := b.point(pp, q)
			vertex := corner(u, v)
			if q.Through {
				tu, tv := b.through(pp, q)
				t := at(tu, tv)
				vertex.Through = &t
			}
			c = append(c, vertex)
		}
		s.Cutouts = append(s.Cutouts, c)
	}
}
