package shape

// This file holds the section of a wall and what stands on it, square to its bend, for sizes that are
// taken at the top.

import (
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// section is a place in a section: y outwards from the first bend's tangent line, z over the base's
// lower face for up flanges. O is on the sheet's lower face, D along the sheet, M through it.
type section struct{ o, d, m geom.Vec2 }

// after is the section beyond a bend.
func (s section) after(n *panel) section {
	sin, cos := math.Sincos(n.angle)
	sg := n.bend.Sigma()
	c := s.centre(n)
	// The lower face lies r from the bend's centre.
	r := n.bend.Radius
	if n.bend.Up {
		r += n.t
	}
	return section{
		o: c.Add(s.d.Mul(r * sin)).Sub(s.m.Mul(sg * r * cos)),
		d: s.d.Mul(cos).Add(s.m.Mul(sg * sin)),
		m: s.m.Mul(cos).Sub(s.d.Mul(sg * sin)),
	}
}

// centre is a bend's axis.
func (s section) centre(n *panel) geom.Vec2 {
	if n.bend.Up {
		return s.o.Add(s.m.Mul(n.t + n.bend.Radius))
	}
	return s.o.Sub(s.m.Mul(n.bend.Radius))
}

// farthest is how far out the wall reaches, bend, flange and what stands on its free edge.
func (s section) farthest(b *builder, n *panel, out geom.Vec2) float64 {
	far := math.Inf(-1)
	add := func(p geom.Vec2) { far = max(far, p.Dot(out)) }
	c, sg := s.centre(n), n.bend.Sigma()
	// Outer cylinder: from -sg*m, turning towards d.
	r := n.bend.Radius + n.t
	turn := min(max(math.Atan2(s.d.Dot(out), -sg*s.m.Dot(out)), 0), n.angle)
	for _, a := range []float64{0, turn, n.angle} {
		sin, cos := math.Sincos(a)
		add(c.Add(s.d.Mul(r * sin)).Sub(s.m.Mul(sg * r * cos)))
	}
	next := s.after(n)
	v := b.flatHeight(n)
	for _, z := range []float64{0, n.t} {
		add(next.o.Add(next.m.Mul(z)))
	}
	next.o = next.o.Add(next.d.Mul(v))
	var kid *panel
	for _, k := range n.kids {
		if k.side >= top && k.side < endSide {
			kid = k
			break
		}
	}
	if kid == nil {
		for _, z := range []float64{0, n.t} {
			add(next.o.Add(next.m.Mul(z)))
		}
		return far
	}
	return max(far, next.farthest(b, kid, out))
}

// flatHeight is a flange's greatest flat height to its cut edge or the tangent line of what stands there.
func (b *builder) flatHeight(n *panel) float64 {
	l := n.flange
	v := n.given
	switch {
	case n.step == 1:
		return v
	case n.step == 2 || l.Joggle != nil:
		// The whole height, in the plane of the flange below the joggle: exact enough for nothing but a refusal.
		v = n.flatOf(b.length(n.path+".height", l.Height, 0))
	case l.Edge != nil:
		v = math.Inf(-1)
		for i, p := range l.Edge {
			_, h := b.point(n.path+".edge["+fig(float64(i))+"]", p)
			v = max(v, n.flatOf(h))
		}
	default:
		h := b.length(n.path+".height", l.Height, 0)
		v = n.flatOf(max(h, b.length(n.path+".height_end", l.HeightEnd, h)))
	}
	for _, k := range n.kids {
		if k.side >= top && k.side < endSide {
			return v - k.inset
		}
	}
	return v
}

// insetAtTop is the inset of a side whose size is taken at the top of the wall that stands on it.
func (b *builder) insetAtTop(n *panel) float64 {
	if n.flange.Joggle != nil {
		b.problem("sizes.base.at_top", "sizes at the top of a joggled flange", "sizes at the base")
		return 0
	}
	if n.angle < steepest && (n.hasKid(start) || n.hasKid(endSide)) {
		b.problem("sizes.base.at_top", "sizes at the top, where "+n.name+" goes on as a floor with walls of its own", "sizes at the base")
		return 0
	}
	flat := section{d: geom.Vec2{1, 0}, m: geom.Vec2{0, 1}}
	if n.faces == sizes.Outside {
		return flat.farthest(b, n, geom.Vec2{1, 0})
	}
	if math.Sin(n.angle) < leastRise {
		b.problem("sizes.base.at_top", "a wall turned by "+fig(n.bend.Angle.Degrees())+" degrees", "sizes at the base")
		return 0
	}
	// The inner face, where the highest line of the wall is.
	high := geom.Vec2{0, n.bend.Sigma()}
	z := flat.farthest(b, n, high)
	sin, cos := math.Sincos(n.angle)
	over := z - n.t // over the base's inside face
	if !n.bend.Up {
		over = z
	}
	v := (over - n.bend.Radius*(1-cos)) / sin
	return n.bend.Radius*sin + v*cos
}
