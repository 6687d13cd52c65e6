package cutfile

// This file holds where lines and arcs cross, and a grid that finds what is near.

import (
	"math"

	"dryfold/fold/geom"
)

// crossing is where two pieces meet, and the fractions of their lengths there.
type crossing struct {
	at   geom.Vec2
	f, g float64
}

// crossings are the places where two pieces meet, at most two; ends count to within join. Pieces that run along each
// other meet nowhere.
func crossings(p, q geom.Piece) (out []crossing) {
	add := func(v geom.Vec2) {
		// Sharpened where it was found from centres that lie far off.
		for range 3 {
			a, f := p.Right(v)
			b, g := q.Right(v)
			n, m := right(p, f), right(q, g)
			det := geom.Cross2(n, m)
			if math.Abs(det) < 1e-12 {
				break
			}
			v = v.Sub(geom.Vec2{(a*m[1] - b*n[1]) / det, (n[0]*b - m[0]*a) / det})
		}
		a, f := p.Right(v)
		b, g := q.Right(v)
		if math.Abs(a) > join || math.Abs(b) > join {
			return
		}
		for _, c := range out {
			if c.at.Sub(v).Len() < join {
				return
			}
		}
		if s := join / p.Len(); f < -s || f > 1+s {
			return
		}
		if s := join / q.Len(); g < -s || g > 1+s {
			return
		}
		out = append(out, crossing{v, min(max(f, 0), 1), min(max(g, 0), 1)})
	}
	if p.Turn == 0 && q.Turn == 0 {
		d, e := p.B.Sub(p.A), q.B.Sub(q.A)
		den := geom.Cross2(d, e)
		if math.Abs(den) <= 1e-12*d.Len()*e.Len() {
			return nil
		}
		add(p.A.Add(d.Mul(geom.Cross2(q.A.Sub(p.A), e) / den)))
		return out
	}
	if p.Turn == 0 {
		for _, c := range crossings(q, p) {
			out = append(out, crossing{c.at, c.g, c.f})
		}
		return out
	}
	c, r, _ := p.Circle()
	if q.Turn == 0 {
		u := q.Start()
		foot := q.A.Add(u.Mul(c.Sub(q.A).Dot(u)))
		h := foot.Sub(c).Len()
		s := math.Sqrt(max(0, (r-h)*(r+h)))
		add(foot.Add(u.Mul(s)))
		add(foot.Sub(u.Mul(s)))
		return out
	}
	o, s, _ := q.Circle()
	d := o.Sub(c)
	l := d.Len()
	if l < join {
		return nil
	}
	x := (l + (r-s)*(r+s)/l) / 2
	y := math.Sqrt(max(0, (r-x)*(r+x)))
	u := d.Mul(1 / l)
	mid := c.Add(u.Mul(x))
	add(mid.Add(geom.Perp(u).Mul(y)))
	add(mid.Sub(geom.Perp(u).Mul(y)))
	return out
}

// right is the direction to the right of a piece at a fraction of its length.
func right(p geom.Piece, f float64) geom.Vec2 {
	s, c := math.Sincos(p.Turn * f)
	u := p.Start()
	return geom.Vec2{c*u[1] + s*u[0], -(c*u[0] - s*u[1])}
}

// grid finds pieces near a place: cells of a square net, each with the pieces whose boxes reach into it.
type grid struct {
	origin geom.Vec2
	cell   float64
	w, h   int
	in     [][]int32
	boxes  []geom.Box2
}

// newGrid is of boxes, each made larger all round by more.
func newGrid(ps []geom.Piece, more float64) *grid {
	g := &grid{}
	all := geom.EmptyBox2()
	for _, p := range ps {
		b := p.Box()
		b.Min, b.Max = b.Min.Sub(geom.Vec2{more, more}), b.Max.Add(geom.Vec2{more, more})
		all.Add(b.Min)
		all.Add(b.Max)
		g.boxes = append(g.boxes, b)
	}
	if len(ps) == 0 {
		return g
	}
	size := all.Size()
	n := min(256, 1+int(2*math.Sqrt(float64(len(ps)))))
	g.origin = all.Min
	g.cell = max(size[0], size[1]) / float64(n)
	g.w, g.h = 1+int(size[0]/g.cell), 1+int(size[1]/g.cell)
	g.in = make([][]int32, g.w*g.h)
	for i, b := range g.boxes {
		g.cells(b, func(c int) { g.in[c] = append(g.in[c], int32(i)) })
	}
	return g
}

func (g *grid) cells(b geom.Box2, visit func(c int)) {
	at := func(v geom.Vec2) (int, int) {
		return min(max(int((v[0]-g.origin[0])/g.cell), 0), g.w-1), min(max(int((v[1]-g.origin[1])/g.cell), 0), g.h-1)
	}
	x0, y0 := at(b.Min)
	x1, y1 := at(b.Max)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			visit(y*g.w + x)
		}
	}
}

// at gives the pieces whose enlarged boxes may hold v.
func (g *grid) at(v geom.Vec2) []int32 {
	x, y := int((v[0]-g.origin[0])/g.cell), int((v[1]-g.origin[1])/g.cell)
	if len(g.in) == 0 || v[0] < g.origin[0] || v[1] < g.origin[1] || x >= g.w || y >= g.h {
		return nil
	}
	return g.in[y*g.w+x]
}

// pairs visits each pair of pieces whose boxes overlap, once, until the work is used up.
func (g *grid) pairs(work *int, visit func(i, j int)) {
	last := make([]int, len(g.boxes)) // which i the piece was last seen with, plus 1
	for i, b := range g.boxes {
		g.cells(b, func(c int) {
			if *work -= 1 + len(g.in[c])/16; *work < 0 {
				return
			}
			for _, k := range g.in[c] {
				j := int(k)
				if j <= i || last[j] == i+1 {
					continue
				}
				last[j] = i + 1
				o := g.boxes[j]
				if o.Min[0] <= b.Max[0] && b.Min[0] <= o.Max[0] && o.Min[1] <= b.Max[1] && b.Min[1] <= o.Max[1] {
					*work--
					visit(i, j)
				}
			}
		})
	}
}
