package shape

// This file turns heights as they are measured on the finished part into flat ones,
// and finds how far tangent lines lie from the lines that were measured.

import (
	"fmt"
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// heights works out every flange's flat heights and every inset.
func (b *builder) heights() {
	for _, n := range b.panels {
		if n.parent == nil || n.step > 0 {
			continue
		}
		b.scaleOf(n)
	}
	if b.failed() {
		return
	}
	for _, n := range b.panels {
		if n.parent != nil && n.parent.at >= 0 {
			n.inset = b.insetOnFlange(n)
		}
	}
	for _, n := range b.base.kids { // those last: they ask for the heights of what stands on them
		n.inset = setback(n.angle, n.bend.Radius, b.t, n.faces)
		if b.form.Base.AtTop {
			n.inset = b.insetAtTop(n)
		}
	}
}

// topKid is the flange on a panel's free edge, nil where there is none. Of a joggled flange it is the one on what goes on beyond.
func (n *panel) topKid() *panel {
	for _, k := range n.kids {
		if k.side >= top && k.side < endSide {
			if k.step > 0 {
				return k.topKid()
			}
			return k
		}
	}
	return nil
}

// along reports whether a flange's heights run along itself.
func (n *panel) along() bool {
	return n.flange.Along || n.flange.Hem != nil || n.faces == sizes.Card
}

// scaleOf finds how a flange's height goes over into flat height from its tangent line: (height - zero) * scale.
func (b *builder) scaleOf(n *panel) {
	if n.along() {
		faces := n.faces
		if n.flange.Hem != nil {
			faces = sizes.Outside
		}
		n.scale, n.zero = 1, setback(n.angle, n.bend.Radius, b.t, faces)
		return
	}
	sin, cos := math.Sincos(n.angle)
	if sin < leastRise {
		b.problem(n.path+".angle", fig(n.bend.Angle.Degrees())+" degrees", fmt.Sprintf("%s to %s for a height square to %s; or the height along the flange",
			fig(math.Asin(leastRise)*180/math.Pi), fig(180-math.Asin(leastRise)*180/math.Pi), n.parent.name))
		return
	}
	r := n.bend.Radius
	inner, outer := r*(1-cos), r-(r+b.t)*cos // heights of the two faces at the tangent line, over the parent's inside face
	k := n.topKid()
	face := max(inner, outer)
	if k != nil {
		onInner := k.bend.Up != n.bend.Up || n.faces != sizes.Outside
		face = outer
		if onInner {
			face = inner
		}
		if k.angle > math.Pi/2 && !n.flange.HeightEnd.Given && n.flange.Edge == nil {
			// To the highest line of the fold's outer cylinder.
			up := -cos // the face's normal, upwards
			if onInner {
				up = cos
			}
			round := k.bend.Radius + b.t
			turn := min(max(math.Atan2(sin, up), 0), k.angle)
			face += round * (up*math.Cos(turn) + sin*math.Sin(turn) - up - sin)
		}
	}
	n.scale, n.zero = 1/sin, face
	if n.faces == sizes.Outside {
		n.zero += b.t
	}
}

// flatOf is the flat height of a measured one.
func (n *panel) flatOf(h float64) float64 { return (h - n.zero) * n.scale }

// insetOnFlange is how far a flange's tangent line lies inside the measured line of the flange it stands on.
func (b *builder) insetOnFlange(n *panel) float64 {
	switch {
	case n.step > 0:
		return 0 // a joggle begins at its tangent line
	case n.side < top || n.side >= endSide:
		return setback(n.angle, n.bend.Radius, b.t, n.faces)
	case n.bend.Up != n.parent.bend.Up:
		return setback(n.angle, n.bend.Radius, b.t, sizes.Outside)
	}
	return setback(n.angle, n.bend.Radius, b.t, n.parent.faces)
}

// freeEdge lays out a flange's measured free edge on the blank.
func (b *builder) freeEdge(n *panel) {
	l := n.flange
	vb := n.sharp()
	ends := func(v float64) (u0, u1 float64) {
		a, z := n.ends()
		return a + (v-vb)*n.lean[0], z - (v-vb)*n.lean[1]
	}
	straight := func(v0, v1 float64) {
		// The line through (from, v0) and (long-to, v1), as far as the ends.
		slope := (v1 - v0) / (n.long - n.from - n.to)
		var p [2]geom.Vec2
		for k := range p {
			// u = a + (v-vb) lean and v = v0 + slope (u-from) at the start, likewise at the end.
			var u, v float64
			if k == 0 {
				v = (v0 + slope*(n.shift[0]-vb*n.lean[0])) / (1 - slope*n.lean[0])
				u, _ = ends(v)
			} else {
				v = (v1 + slope*(n.shift[1]+vb*n.lean[1])) / (1 + slope*n.lean[1])
				_, u = ends(v)
			}
			p[k] = n.point(u, v)
		}
		n.flat = []sideLine{{a: p[0], b: p[1]}}
	}
	switch {
	case n.step > 0:
		straight(n.given, n.given)
		return
	case l.Joggle != nil:
		b.joggleHeights(n)
		return
	case l.Edge != nil:
		b.drawnEdge(n)
		return
	}
	if !l.Height.Given {
		b.problem(n.path+".height", "nothing", "the flange's height")
		return
	}
	h := b.length(n.path+".height", l.Height, 0)
	h1 := b.length(n.path+".height_end", l.HeightEnd, h)
	b.tall(n, n.path+".height", h)
	if l.HeightEnd.Given {
		b.tall(n, n.path+".height_end", h1)
	}
	if !b.failed() {
		straight(n.flatOf(h), n.flatOf(h1))
	}
}

// leastFlat is the least flat height that a flange may keep beside its bends, mm.
func (b *builder) leastFlat() float64 { return max(leastFlat*b.t, leastLine) }

// tall refuses a height that leaves no flat flange beyond its bend and what stands on it.
func (b *builder) tall(n *panel, path string, h float64) {
	need := b.leastFlat()
	for _, k := range n.kids {
		if k.side >= top && k.side < endSide && k.step == 0 {
			need = max(need, k.inset+b.leastFlat())
		}
	}
	if v := n.flatOf(h); !(v >= need-sameLength) {
		b.problem(path, b.say(h), "at least "+b.sayUp(n.zero+need/n.scale)+" with this radius and thickness")
	}
}

// joggleHeights shares a joggled flange's height among its three panels.
func (b *builder) joggleHeights(n *panel) {
	l := n.flange
	if !l.Height.Given {
		b.problem(n.path+".height", "nothing", "the flange's height")
		return
	}
	web := n.kids[len(n.kids)-1]
	for _, k := range n.kids {
		if k.step == 1 {
			web = k
		}
	}
	a, r := web.angle, web.bend.Radius
	run := (2*r+b.t)*math.Sin(a) + web.given*math.Cos(a)
	depth := (2*r+b.t)*(1-math.Cos(a)) + web.given*math.Sin(a)
	h := b.length(n.path+".height", l.Height, 0)
	at := b.length(n.path+".joggle.at", l.Joggle.At, 0)
	v0, v1 := n.flatOf(at), n.flatOf(h)
	if !n.along() {
		out := -depth
		if l.Joggle.Out {
			out = depth
		}
		v1 += out * math.Cos(n.angle) * n.scale
	}
	rest := v1 - v0 - run
	least := b.leastFlat()
	if k := n.topKid(); k != nil {
		least += k.inset
	}
	if !(v0 >= b.leastFlat()-sameLength) {
		b.problem(n.path+".joggle.at", b.say(at), "at least "+b.sayUp(n.zero+b.leastFlat()/n.scale))
		return
	}
	if !(rest >= least-sameLength) {
		b.problem(n.path+".height", b.say(h), "at least "+b.sayUp(h+(least-rest)/n.scale)+" with the joggle")
		return
	}
	for _, k := range b.panels {
		if k.at == n.at && k.step == 2 {
			k.given = rest
		}
	}
	vb := n.sharp()
	u0, u1 := n.ends()
	n.flat = []sideLine{{a: n.point(u0+(v0-vb)*n.lean[0], v0), b: n.point(u1-(v0-vb)*n.lean[1], v0)}}
}

// drawnEdge lays out a free edge that is given by points.
func (b *builder) drawnEdge(n *panel) {
	pts := n.flange.Edge
	if len(pts) < 2 {
		b.problem(n.path+".edge", fmt.Sprintf("%d points", len(pts)), "at least 2, from the side's start to its end")
		return
	}
	var last geom.Vec2
	for i, p := range pts {
		path := fmt.Sprintf("%s.edge[%d]", n.path, i)
		x, h := b.point(path, p)
		b.tall(n, path, h)
		q := n.point(x, n.flatOf(h))
		if i > 0 {
			line := sideLine{a: last, b: q}
			if p.Through {
				tx, th := b.through(path, p)
				t := n.point(tx, n.flatOf(th))
				line.through = &t
			}
			if q.Sub(last).Len() < leastLine {
				b.problem(path, "the point before again", "a point further on")
			}
			n.flat = append(n.flat, line)
		}
		last = q
	}
}

// point is a point's two lengths.
func (b *builder) point(path string, p sizes.Point) (x, y float64) {
	if p.Through {
		path += ".to"
	}
	return b.length(path+"[0]", p.X, 0), b.length(path+"[1]", p.Y, 0)
}

func (b *builder) through(path string, p sizes.Point) (x, y float64) {
	return b.length(path+".through[0]", p.ThX, 0), b.length(path+".through[1]", p.ThY, 0)
}
