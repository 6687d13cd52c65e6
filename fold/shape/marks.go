package shape

// This file tells where sizes run on the finished part.

import (
	"fmt"
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// marks adds where the base's sizes and the flanges' heights run.
func (b *builder) marks(made *Made) {
	spot := func(n *panel, p geom.Vec2, z float64) Spot { return Spot{Panel: n.name, X: p[0], Y: p[1], Z: z} }
	face := func(n *panel, faces sizes.Faces, up bool) float64 { // the height in the sheet of the faces measured
		if (faces == sizes.Outside) == up {
			return 0
		}
		return n.t
	}
	base, f := b.base, &b.form.Base
	z := b.t
	if b.form.Faces == sizes.Outside {
		z = 0
	}
	if f.AtTop {
		for _, k := range base.kids {
			v := b.flatHeight(k)
			z = max(z, k.frame.Point(vec3(k.point(0, v)))[2])
		}
	}
	line := func(path, text string, p, q geom.Vec2) {
		made.Marks = append(made.Marks, Mark{Path: path, Text: text, A: spot(base, p, z), B: spot(base, q, z)})
	}
	if f.Measured == nil && len(f.Points) == 0 {
		c := base.flat
		line("sizes.base.wide", "Wide", c[0].a, c[0].b)
		line("sizes.base.long", "Long", c[0].b, geom.Vec2{c[0].b[0], c[2].a[1]})
		if f.WideBack.Given {
			line("sizes.base.wide_back", "Wide at the back", c[2].b, c[2].a)
		}
	} else if f.Measured != nil {
		for i, l := range base.flat {
			line(fmt.Sprintf("sizes.base.measured.sides[%d]", i), b.sideNames()[i], l.a, l.b)
		}
		b.readingMarks(line, func(m Mark) { made.Marks = append(made.Marks, m) }, func(p geom.Vec2) Spot { return spot(base, p, z) })
	}
	for _, n := range b.panels {
		if n.at < 0 || n.step > 0 || !n.flange.Height.Given {
			continue
		}
		h := b.length(n.path+".height", n.flange.Height, 0)
		m := Mark{Path: n.path + ".height", Text: n.name}
		if n.along() {
			zf := n.innerZ()
			if n.faces == sizes.Outside {
				zf = n.t - zf
			}
			m.A, m.B = spot(n, n.point(n.from, n.sharp()), zf), spot(n, n.point(n.from, n.sharp()+h), zf)
		} else {
			p := n.bend.Q.Add(n.bend.U.Mul(n.from)).Add(n.bend.N.Mul(n.inset))
			z0, way := face(n, n.faces, n.bend.Up), n.bend.Sigma()
			m.A, m.B = spot(n.parent, p, z0), spot(n.parent, p, z0+way*h)
		}
		made.Marks = append(made.Marks, m)
	}
	for i := range made.Marks {
		made.Marks[i].measure()
	}
}

// readingMarks are where a measured base's diagonals and angles run.
func (b *builder) readingMarks(line func(path, text string, p, q geom.Vec2), add func(Mark), spot func(geom.Vec2) Spot) {
	m, c := b.form.Base.Measured, b.base.flat
	n := len(c)
	if m.Way == sizes.ByStations || n != len(m.Sides) {
		return
	}
	for i := range m.Diagonals {
		from, to := 0, i+2
		if i == 1 && n == 4 {
			from, to = 1, 3
		}
		if to < n {
			line(fmt.Sprintf("sizes.base.measured.diagonals[%d]", i), "Diagonal", c[from].a, c[to].a)
		}
	}
	for i := range m.Angles {
		if i < n {
			add(Mark{Path: fmt.Sprintf("sizes.base.measured.angles[%d]", i), Text: "Angle", Arc: true, Pivot: spot(c[i].a), A: spot(c[i].b), B: spot(c[(i+n-1)%n].a)})
		}
	}
}

// measure gives a mark its value, from its spots.
func (m *Mark) measure() {
	at := func(s Spot) geom.Vec3 { return geom.Vec3{s.X, s.Y, s.Z} }
	if !m.Arc {
		m.Value = at(m.B).Sub(at(m.A)).Len()
		return
	}
	u, v := at(m.A).Sub(at(m.Pivot)), at(m.B).Sub(at(m.Pivot))
	a := math.Atan2(u[0]*v[1]-u[1]*v[0], u[0]*v[0]+u[1]*v[1]) * 180 / math.Pi
	if a < 0 {
		a += 360
	}
	m.Value = a
}
