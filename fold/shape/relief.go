package shape

// This file cuts reliefs: where the bends of two flanges meet at a corner, where two walls meet over a bend of
// the panel between them, and where a bend ends beside a free edge.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
	"dryfold/fold/sizes"
)

// notch is a relief as drawn: the outline from one bend zone's end to the next one's.
type notch struct {
	a, b float64 // how far from their corners the two zones end
	path []fold.Vertex
}

// reliefSize reads a relief's size, mm; 0 where it is not given.
func (b *builder) reliefSize(path string, r sizes.Relief) float64 {
	x := b.length(path+".size", r.Size, 0)
	b.atLeast(path+".size", x, 0, false)
	return x
}

// drilled is the diameter of a relief's hole: as given, but no less than is needed; where nothing is given, the least that lists ask for.
func (b *builder) drilled(need, given, radius float64) float64 {
	if given == 0 {
		given, _ = metal.ReliefHoleRange(radius, b.t, b.aluminium)
	}
	return max(need, given)
}

// past is the least that a relief reaches past the tangent lines.
func (b *builder) past() float64 { return reliefPast * b.t }

// atCorner is the relief at a panel's corner v, where an edge of direction d comes in and one of direction e goes
// out, flanges standing on both. round is the larger outside radius of their bends; atA, atB the least that the
// zones end from the corner.
func (b *builder) atCorner(v, d, e geom.Vec2, gap, round float64, rel sizes.Relief, path string, atA, atB float64) (n notch, need, size float64) {
	psi := math.Pi - math.Atan2(geom.Cross2(d, e), d.Dot(e)) // inside the panel
	least := gap / 2 / math.Sin(psi/2)
	given := b.reliefSize(path, rel)
	in := e.Sub(d) // the bisector, inwards
	convex := psi < math.Pi-straightCorner
	if !convex {
		least += round * math.Tan((psi-math.Pi)/2)
	} else if l := in.Len(); l > 0 {
		in = in.Mul(1 / l)
	}
	reach := max(least, b.past())
	depth := 1.0
	if convex {
		depth = min(1, math.Tan(psi/2))
	}
	kind := rel.Kind
	if !convex {
		kind = sizes.Bare
	}
	switch kind {
	case sizes.Drilled:
		need = 2 * reach / depth
		size = b.drilled(need, given, round-b.t)
		r := size / 2
		n.a, n.b = max(r, atA), max(r, atB)
		n.from(v, d, n.a, r, b.behind())
		n.arc(v.Add(in.Mul(r)))
		n.to(v, e, n.b, r, b.behind())
	case sizes.Bare:
		need, size = least, least
		n.a, n.b = max(least, atA), max(least, atB)
		n.add(v.Sub(d.Mul(n.a)), v, v.Add(e.Mul(n.b)))
	default:
		need = reach
		size = max(reach, given)
		x := size / depth
		n.a, n.b = max(x, atA), max(x, atB)
		p, q := v.Sub(d.Mul(n.a)), v.Add(e.Mul(n.b))
		n.add(p)
		if kind == sizes.Sawn {
			c, ok := cross(p, geom.Perp(d), q, geom.Perp(e))
			if !ok || c.Sub(p).Dot(geom.Perp(d)) < b.past() || c.Sub(q).Dot(geom.Perp(e)) < b.past() {
				// Unequal ends: square to the corner's own relief, and along behind the tangent line.
				h := b.behind()
				p0, q0 := v.Sub(d.Mul(x)), v.Add(e.Mul(x))
				c, _ = cross(p0, geom.Perp(d), q0, geom.Perp(e))
				n.add(p.Add(geom.Perp(d).Mul(h)), p0.Add(geom.Perp(d).Mul(h)), c, q0.Add(geom.Perp(e).Mul(h)), q.Add(geom.Perp(e).Mul(h)))
			} else {
				n.add(c)
			}
		} else if n.a > x+sameLength || n.b > x+sameLength {
			h := b.behind()
			n.add(p.Add(geom.Perp(d).Mul(h)), v.Sub(d.Mul(x)).Add(geom.Perp(d).Mul(h)), v.Add(e.Mul(x)).Add(geom.Perp(e).Mul(h)), q.Add(geom.Perp(e).Mul(h)))
		}
		n.add(q)
	}
	return n, need, size
}

// overBend is the relief between two walls over the bend of the panel they stand on: v and d the corner and direction of the
// first wall's side, w and e of the second's, in the way along the bend into the part. needA and needB are what the walls' own
// bend zones want. mid is the middle of what is cut out, where the bend between the two ends.
func (b *builder) overBend(v, d, w, e, in geom.Vec2, radius float64, rel sizes.Relief, path string, needA, needB, atA, atB float64) (n notch, need, size float64, mid geom.Vec2) {
	given, deep := b.reliefSize(path, rel), 0.0
	m := v.Add(w).Mul(0.5)
	half := w.Sub(v).Len() / 2
	least := max(needA, needB)
	reach := max(least, b.past())
	kind := rel.Kind
	if kind == sizes.Drilled && half+reach > widestDrill {
		kind = sizes.Sawn
	}
	switch kind {
	case sizes.Drilled:
		need = 2 * (half + reach)
		size = b.drilled(need, given, radius)
		r := size / 2
		ra, rb := onCircle(v, d.Mul(-1), m, r), onCircle(w, e, m, r)
		n.a, n.b = max(ra, atA), max(rb, atB)
		n.from(v, d, n.a, ra, b.behind())
		n.arc(m.Add(in.Mul(r)))
		n.to(w, e, n.b, rb, b.behind())
		deep = r
	case sizes.Bare:
		need, size = least, least
		n.a, n.b = max(least, atA), max(least, atB)
		n.add(v.Sub(d.Mul(n.a)), v, w, w.Add(e.Mul(n.b)))
	default:
		need = reach
		size = max(reach, given)
		n.a, n.b = max(reach, atA), max(reach, atB)
		p, q := v.Sub(d.Mul(n.a)), w.Add(e.Mul(n.b))
		deep = size
		if kind == sizes.Sawn {
			n.add(p, p.Add(in.Mul(size/max(in.Dot(geom.Perp(d)), leastAcross))), q.Add(in.Mul(size/max(in.Dot(geom.Perp(e)), leastAcross))), q)
		} else {
			h := b.behind()
			n.add(p, p.Add(geom.Perp(d).Mul(h)), m.Add(in.Mul(size+h)), q.Add(geom.Perp(e).Mul(h)), q)
		}
	}
	return n, need, size, m.Add(in.Mul(deep / 2))
}

// onCircle is how far from p along d a circle about m lies.
func onCircle(p, d, m geom.Vec2, r float64) float64 {
	o := p.Sub(m)
	h := o.Dot(d)
	return -h + math.Sqrt(max(0, h*h-o.Dot(o)+r*r))
}

// behind is by how much an edge that would run along a tangent line is cut behind it: a zone ends in a square cut, not in a
// cut along its own edge.
func (b *builder) behind() float64 { return cutBehind * b.t }

func (n *notch) add(pts ...geom.Vec2) {
	for _, p := range pts {
		n.path = append(n.path, fold.Vertex{At: p})
	}
}

// arc says that the next point ends an arc through t.
func (n *notch) arc(t geom.Vec2) { n.path = append(n.path, fold.Vertex{At: t, Through: &t}) }

// from goes from a zone's end, a before the corner v along d, to where a drilled hole begins, r before it.
func (n *notch) from(v, d geom.Vec2, a, r, h float64) {
	n.add(v.Sub(d.Mul(a)))
	if a > r+sameLength {
		in := geom.Perp(d).Mul(h)
		n.add(v.Sub(d.Mul(a)).Add(in), v.Sub(d.Mul(math.Sqrt(max(0, r*r-h*h)))).Add(in))
	}
}

// to is the way back, after arc.
func (n *notch) to(v, e geom.Vec2, a, r, h float64) {
	at := n.path[len(n.path)-1].At
	n.path = n.path[:len(n.path)-1]
	in := geom.Perp(e).Mul(h)
	end := v.Add(e.Mul(r))
	if a > r+sameLength {
		end = v.Add(e.Mul(math.Sqrt(max(0, r*r-h*h)))).Add(in)
	}
	n.path = append(n.path, fold.Vertex{At: end, Through: &at})
	if a > r+sameLength {
		n.add(v.Add(e.Mul(a)).Add(in), v.Add(e.Mul(a)))
	}
}

// zoneNeeds is how far from its corner a wall's bend zone must end to keep off a mitre's plane by o.
func (c *corner) zoneNeeds(n *panel, end geom.Vec2, o float64) float64 {
	if !c.plane {
		return o
	}
	way := 1.0
	if n == c.a {
		way = -1
	}
	dir := c.p.Dot(n.parent.frame.Vector(vec3(n.bend.U))) * way
	if n == c.a {
		dir = -dir
	}
	// Moving the zone's end along U by x, away from the corner, moves it off the plane by x dir.
	worst := math.Inf(-1)
	bend := n.bend
	u0, _ := bend.Coord(end)
	for i := range zoneLooks + 1 {
		s := bend.Allowance * float64(i) / zoneLooks
		for _, z := range []float64{0, n.t} {
			p := bend.Q.Add(bend.U.Mul(u0)).Add(bend.N.Mul(s))
			at := n.parent.frame.Point(bend.Roll(p, z, bend.Angle, n.t))
			worst = max(worst, o-way*(c.p.Dot(at)-c.d))
		}
	}
	return worst / max(dir, leastOff)
}

// atEnd is the relief where a bend ends beside a free edge: from the edge to the zone's end, in the flange's own u and s. way is -1
// at the flange's start, 1 at its end.
func (b *builder) atEnd(n *panel, u, way, room float64) []fold.Vertex {
	rel := b.form.Relief
	given := b.reliefSize("sizes.relief", rel)
	at := func(x, s float64) geom.Vec2 {
		return n.bend.Q.Add(n.bend.U.Mul(u + way*x)).Add(n.bend.N.Mul(s))
	}
	past := b.past()
	wide := b.endWide()
	end := (int(way) + 1) / 2
	path, have := n.path+[2]string{".from", ".to"}[end], [2]float64{n.from, n.to}[end]
	fits := func(w, deep float64) {
		room := min(room, n.roomAt(end, deep)) // an end that leans inwards is nearer further in
		if w > room+sameLength {
			b.problem(path, b.say(have), "0, or at least "+b.sayUp(have+w-room)+" so that the relief beside the bend fits")
		}
	}
	var out notch
	switch rel.Kind {
	case sizes.Drilled:
		r := max(past, given/2)
		fits(wide, r)
		out.add(at(2*r, n.inset), at(2*r, 0))
		t := at(r, -r)
		out.path = append(out.path, fold.Vertex{At: at(0, 0), Through: &t})
	case sizes.Snipped:
		fits(wide, 0)
		out.add(at(wide, n.inset), at(wide, 0), at(0, -max(past, given)), at(0, 0))
	case sizes.Bare:
		fits(wide, b.behind())
		out.add(at(wide, n.inset), at(wide, -b.behind()), at(0, -b.behind()), at(0, 0))
	default:
		deep := max(past, given)
		fits(wide, deep)
		out.add(at(wide, n.inset), at(wide, -deep), at(0, -deep), at(0, 0))
	}
	return out.path
}

// endWide is how wide the relief is where a bend ends beside a free edge.
func (b *builder) endWide() float64 {
	given := b.reliefSize("sizes.relief", b.form.Relief)
	switch b.form.Relief.Kind {
	case sizes.Drilled:
		return 2 * max(b.past(), given/2)
	case sizes.Bare:
		return max(leastSlit, b.gap)
	}
	return max(b.t, given)
}

// roomAt is how far a flange's zone, at its start (0) or end (1), ends from the edge of the panel that it stands on, deep
// behind its tangent line; infinite where there is none.
func (n *panel) roomAt(end int, deep float64) float64 {
	room, way := math.Inf(1), [2]float64{-1, 1}[end]
	for i, e := range n.parent.loop {
		u0, s0 := n.bend.Coord(e.a)
		u1, s1 := n.bend.Coord(n.parent.loop[(i+1)%len(n.parent.loop)].a)
		if (s0 < -deep) == (s1 < -deep) {
			continue
		}
		u := u0 + (u1-u0)*(-deep-s0)/(s1-s0)
		if r := way * (u - (n.zone[0]+n.zone[1])/2); r > 0 {
			room = min(room, way*(u-n.zone[end]))
		}
	}
	return room
}

// reversed is a path the other way round.
func reversed(path []fold.Vertex) []fold.Vertex {
	out := make([]fold.Vertex, len(path))
	for i := range path {
		out[i].At = path[len(path)-1-i].At
		if i > 0 {
			out[i].Through = path[len(path)-i].Through
		}
	}
	return out
}
