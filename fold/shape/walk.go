package shape

// This file draws the blank: one walk round all panels, their bend zones and the reliefs between them.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// walker goes round the part's outline.
type walker struct {
	b       *builder
	out     []fold.Vertex
	notches map[spotKey]notch
	joints  map[jointKey]notch
	short   map[jointKey]bool // bend zones that end short of their panel's edge
}

// spotKey is a corner of a panel: the loop's edge that begins there.
type spotKey struct {
	n *panel
	i int
}

// jointKey is the start (0) or end (1) of a flange's bend.
type jointKey struct {
	n   *panel
	end int
}

// walk sets all bend zones' ends and reliefs, and draws the outline in mm.
func (b *builder) walk() *walker {
	w := &walker{b: b, notches: map[spotKey]notch{}, joints: map[jointKey]notch{}, short: map[jointKey]bool{}}
	for _, n := range b.panels {
		if n.parent != nil {
			n.zone = [2]float64{b.zoneEnd(n, 0), b.zoneEnd(n, 1)}
			for k := range 2 {
				if !n.reaches(k) {
					n.zone[k] = [2]float64{n.from, n.long - n.to}[k]
				}
			}
			if n.step > 0 {
				continue
			}
			for k := range 2 {
				n.squareEnd(b, k)
			}
		}
	}
	for _, n := range b.panels {
		w.corners(n)
	}
	if b.failed() {
		return w
	}
	for _, n := range b.panels {
		w.keepOff(n)
	}
	for _, n := range b.panels {
		if n.parent != nil && n.zone[1]-n.zone[0] < leastLine {
			b.problem(n.path, "a bend of which "+b.say(n.zone[1]-n.zone[0])+" are left between its reliefs", "a longer side, smaller reliefs or smaller gaps")
			return w
		}
	}
	w.round(b.base)
	return w
}

// keepOff ends a rim's bend zone where it keeps off the plane of the mitre that cuts the rim: on walls that lean or taper a zone cut
// square to its bend would reach through it.
func (w *walker) keepOff(n *panel) {
	for end := range 2 {
		c := w.b.cornerAt(n, end)
		if c == nil || !c.plane || !c.rim || c.close != sizes.Mitre {
			continue
		}
		at := n.bend.Q.Add(n.bend.U.Mul(n.zone[end]))
		x := c.zoneNeeds(n, at, (c.gap+c.extra)/2)
		if x < zoneSlack {
			continue
		}
		way := [2]float64{1, -1}[end]
		n.zone[end] += way * x
		// The step beside it has to lie within the wall, whose end may lean inwards there.
		if room := n.roomAt(end, w.b.behind()); room < snapEdge*w.b.t {
			n.zone[end] += way * (snapEdge*w.b.t - room)
		}
		w.short[jointKey{n, end}] = true
	}
}

// squareEnd lets a bend zone end where its flange's edge lies at the relief's height, if that is further in.
func (n *panel) squareEnd(b *builder, end int) {
	s := [2]sideNo{start, endSide}[end]
	if n.hasKid(s) {
		return
	}
	u := b.footAt(n, end)
	if end == 0 && u > n.zone[0]-snapEdge*b.t || end == 1 && u < n.zone[1]+snapEdge*b.t {
		n.zone[end] = u
	}
}

// foot is the flat height at which a flange's start (0) or end (1) edge stands on the relief: past its tangent line, and where
// it meets a wall of a larger radius past the height to which that wall's bend reaches.
func (b *builder) foot(n *panel, end int) float64 {
	foot := b.past()
	c := b.cornerAt(n, end)
	if c == nil || c.rim || c.over != nil || c.close == sizes.Apart {
		return foot
	}
	other := c.a
	if other == n {
		other = c.b
	}
	rise := func(x *panel) float64 { return x.bend.Radius * (1 - math.Cos(x.angle)) }
	if sin := math.Sin(n.angle); sin > leastRise {
		foot += max(0, (rise(other)-rise(n))/sin)
	}
	// A low wall keeps some of its end all the same.
	high := 0.0
	for _, e := range n.loop {
		_, v := n.coord(e.a)
		high = max(high, v)
	}
	return max(b.past(), min(foot, high/2))
}

// footAt is where along U a flange's start (0) or end (1) edge lies at the height of the relief's foot.
func (b *builder) footAt(n *panel, end int) float64 {
	v0 := b.foot(n, end)
	if n.hasKid([2]sideNo{start, endSide}[end]) { // what is left of it below the flange is its measured line
		u0, u1 := n.ends()
		rise := v0 - n.sharp()
		return [2]float64{u0 + rise*n.lean[0], u1 - rise*n.lean[1]}[end]
	}
	best := math.Inf(1)
	if end == 1 {
		best = math.Inf(-1)
	}
	for i, e := range n.loop {
		u0, va := n.coord(e.a)
		u1, vb := n.coord(n.loop[(i+1)%len(n.loop)].a)
		if (va < v0) == (vb < v0) {
			continue
		}
		u := u0 + (u1-u0)*(v0-va)/(vb-va)
		if end == 0 {
			best = min(best, u)
		} else {
			best = max(best, u)
		}
	}
	return best
}

// standing is the flange that reaches the end of loop edge i of a panel (1) or its start (0), and for the panel's own
// bend edge the panel itself.
func (n *panel) standing(i, end int) *panel {
	i = (i + len(n.loop)) % len(n.loop)
	if n.loop[i].side == bottom {
		return n
	}
	return n.kidAt(n.loop[i].side, end)
}

// corners cuts the reliefs at a panel's corners.
func (w *walker) corners(n *panel) {
	b := w.b
	for i, e := range n.loop {
		j := (i + len(n.loop) - 1) % len(n.loop)
		x, y := n.standing(j, 1), n.standing(i, 0)
		if x == nil || y == nil || n.loop[j].side == e.side {
			continue
		}
		d, f := n.alongside(x), n.alongside(y)
		if x == n || y == n {
			if c := w.jointAt(n, x == n); c != nil {
				continue // done with the panel below
			}
		}
		if n.step > 0 || x.step > 0 || y.step > 0 {
			continue
		}
		if n.at < 0 || x != n && y != n {
			// Over the bend of x or y?
			if y != n && x != n {
				if c := w.jointAt(y, true); c != nil {
					w.joint(c, n, i, y, 0)
					continue
				}
				if c := w.jointAt(x, false); c != nil {
					w.joint(c, n, i, x, 1)
					continue
				}
			}
		}
		rel, path, gap := b.form.Relief, "sizes.relief", b.gap
		var c *corner
		if x != n && y != n {
			if c = b.cornerAt(x, 1); c != nil && c.b == y {
				rel, path, gap = c.rel, c.relAt, c.gap
			}
		}
		round := max(x.bend.Radius, y.bend.Radius) + b.t
		atX, atY := 0.0, 0.0
		if x != n {
			u, _ := x.bend.Coord(e.a)
			atX = u - x.zone[1]
		}
		if y != n {
			u, _ := y.bend.Coord(e.a)
			atY = y.zone[0] - u
		}
		cut, need, size := b.atCorner(e.a, d, f, gap, round, rel, path, atX, atY)
		w.notches[spotKey{n, i}] = cut
		w.endZone(x, n, 1, e.a, cut.a)
		w.endZone(y, n, 0, e.a, cut.b)
		if c != nil && c.b == y {
			c.need, c.size = need, size
		}
	}
}

// alongside is the way a panel's edge runs, counter-clockwise, on which x stands; its own bend's edge for itself.
func (n *panel) alongside(x *panel) geom.Vec2 {
	if x == n {
		return n.bend.U.Mul(-1)
	}
	return x.bend.U
}

// endZone ends the zone of the flange x (or of n itself) a from the corner.
func (w *walker) endZone(x, n *panel, end int, corner geom.Vec2, a float64) {
	u, _ := x.bend.Coord(corner)
	switch {
	case x != n && end == 1:
		x.zone[1] = u - a
	case x != n:
		x.zone[0] = u + a
	case end == 1: // n's own bend edge comes in at its start
		n.zone[0] = u + a
	default:
		n.zone[1] = u - a
	}
}

// jointAt is the corner over a flange's bend, at its start or end.
func (w *walker) jointAt(n *panel, atStart bool) *corner {
	for _, c := range w.b.corners {
		if c.over == n && !c.rim && (atStart && c.b.parent == n || !atStart && c.a.parent == n) {
			return c
		}
	}
	return nil
}

// joint cuts the relief between the two walls over a flange's bend. n is the panel below, i its corner.
func (w *walker) joint(c *corner, n *panel, i int, over *panel, end int) {
	b := w.b
	v, q := n.loop[i].a, over.loop[1].a // over's corner between its bend and its start
	if end == 1 {
		v, q = over.loop[0].a, n.loop[i].a
	}
	d, e := c.a.bend.U, c.b.bend.U
	o := (c.gap + c.extra) / 2
	needA, needB := o, o
	if c.close == sizes.Mitre {
		needA, needB = max(0, c.zoneNeeds(c.a, v, o)), max(0, c.zoneNeeds(c.b, q, o))
	}
	// Where the sides are not square to the bend, the walls' zones, cut square to themselves, keep out of its own.
	n0 := over.bend.N.Mul([2]float64{1, -1}[end]) // from a's panel to b's
	needA = max(needA, c.a.bend.Allowance*c.a.bend.N.Dot(n0)/max(d.Dot(n0), leastAcross))
	needB = max(needB, -c.b.bend.Allowance*c.b.bend.N.Dot(n0)/max(e.Dot(n0), leastAcross))
	ua, _ := c.a.bend.Coord(v)
	ub, _ := c.b.bend.Coord(q)
	cut, need, size, mid := b.overBend(v, d, q, e, over.bend.U.Mul([2]float64{1, -1}[end]), max(c.a.bend.Radius, c.b.bend.Radius, over.bend.Radius), c.rel, c.relAt, needA, needB, ua-c.a.zone[1], c.b.zone[0]-ub)
	c.need, c.size = need, size
	c.a.zone[1], c.b.zone[0] = ua-cut.a, ub+cut.b
	w.joints[jointKey{over, end}] = cut
	u, _ := over.bend.Coord(mid)
	over.zone[end] = u
}

// round draws the outline of a panel and all that stands on it. Of a flange it begins beyond its own bend's start and
// ends before its end; corners below the reliefs' foot are left out where its ends are not cut otherwise.
func (w *walker) round(n *panel) {
	skip := func(i int) bool { return false }
	if n.at >= 0 {
		feet := [2]float64{w.b.foot(n, 0), w.b.foot(n, 1)}
		low := func(i, end int) bool { _, v := n.coord(n.loop[i].a); return v <= feet[end] }
		lo, hi := 1, len(n.loop)-1
		if w.footed(n, 0) {
			for lo <= hi && low(lo, 0) {
				lo++
			}
		}
		if w.footed(n, 1) {
			for hi >= lo && low(hi, 1) {
				hi--
			}
		}
		skip = func(i int) bool { return i == 0 || i < lo || i > hi }
	}
	for i := range n.loop {
		if n.at >= 0 && i == 0 {
			continue // its own bend
		}
		cut, isCut := w.notches[spotKey{n, i}]
		drawn := false // by the relief over a bend that cuts this corner
		if n.at >= 0 && i == 1 {
			drawn = w.joined(n)
		} else {
			drawn = w.jointBetween(n, i)
		}
		switch {
		case isCut:
			w.path(cut.path)
		case !drawn && !skip(i):
			w.to(n.loop[i].a, nil)
		}
		w.side(n, i)
	}
}

// joined reports whether a flange's start is cut by a relief over its bend.
func (w *walker) joined(n *panel) bool {
	_, ok := w.joints[jointKey{n, 0}]
	return ok
}

// footed reports whether a flange's start (0) or end (1) edge stands on the relief's foot: nothing else cuts it there.
func (w *walker) footed(n *panel, end int) bool {
	if _, ok := w.joints[jointKey{n, end}]; ok {
		return false
	}
	_, ok := w.notches[spotKey{n, 1 - end}]
	return !ok
}

// jointBetween reports whether a corner of a panel is cut by a relief over the bend of the flange on either side, which
// that flange draws.
func (w *walker) jointBetween(n *panel, i int) bool {
	x, y := n.standing(i-1, 1), n.standing(i, 0)
	if y != nil && y != n {
		if _, ok := w.joints[jointKey{y, 0}]; ok {
			return true
		}
	}
	if x != nil && x != n {
		if _, ok := w.joints[jointKey{x, 1}]; ok {
			return true
		}
	}
	return false
}

// side draws what stands on an edge, up to its end.
func (w *walker) side(n *panel, i int) {
	e := n.loop[i]
	if e.through != nil { // no flange stands on an arc
		w.to(n.loop[(i+1)%len(n.loop)].a, e.through)
		return
	}
	kids := n.on(e.side)
	prev := math.Inf(-1)
	for k, x := range kids {
		lo, hi := w.b.zoneEnd(x, 0), w.b.zoneEnd(x, 1)
		if !x.reaches(0) {
			w.path(w.b.atEnd(x, x.zone[0], -1, x.zone[0]-max(lo, prev)))
		}
		w.flange(x)
		if !x.reaches(1) {
			room := hi - x.zone[1]
			if k+1 < len(kids) {
				room = (kids[k+1].zone[0] - x.zone[1]) / 2
			}
			w.path(reversed(w.b.atEnd(x, x.zone[1], 1, room)))
			prev = x.zone[1] + room
		}
	}
}

// on is the flanges on a side, along it.
func (n *panel) on(s sideNo) []*panel {
	var out []*panel
	for _, k := range n.kids {
		if k.side == s {
			out = append(out, k)
		}
	}
	return out
}

// flange draws a flange from its zone's start to its zone's end.
func (w *walker) flange(x *panel) {
	at := func(u, s float64) geom.Vec2 {
		return x.bend.Q.Add(x.bend.U.Mul(u)).Add(x.bend.N.Mul(s))
	}
	foot := [2]float64{x.bend.Allowance + w.b.foot(x, 0), x.bend.Allowance + w.b.foot(x, 1)}
	if cut, ok := w.joints[jointKey{x, 0}]; ok {
		w.path(cut.path)
	} else {
		if w.short[jointKey{x, 0}] {
			w.to(at(x.zone[0], -w.b.behind()), nil)
		}
		w.to(at(x.zone[0], 0), nil)
		if w.footed(x, 0) {
			w.to(at(x.zone[0], foot[0]), nil)
			w.to(at(w.b.footAt(x, 0), foot[0]), nil)
		}
	}
	w.round(x)
	if cut, ok := w.joints[jointKey{x, 1}]; ok {
		w.path(cut.path)
		return
	}
	if cut, ok := w.notches[spotKey{x, 0}]; ok {
		w.path(cut.path)
	} else {
		w.to(at(w.b.footAt(x, 1), foot[1]), nil)
		w.to(at(x.zone[1], foot[1]), nil)
	}
	w.to(at(x.zone[1], 0), nil)
	if w.short[jointKey{x, 1}] {
		w.to(at(x.zone[1], -w.b.behind()), nil)
	}
}

// to draws a straight edge, or an arc through a point, to p. Points on the last one are left out.
func (w *walker) to(p geom.Vec2, through *geom.Vec2) {
	if k := len(w.out); k > 0 && w.out[k-1].At.Sub(p).Len() < samePoint {
		return
	}
	w.out = append(w.out, fold.Vertex{At: p, Through: through})
}

func (w *walker) path(list []fold.Vertex) {
	for _, v := range list {
		w.to(v.At, v.Through)
	}
}
