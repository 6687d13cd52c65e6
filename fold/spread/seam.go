package spread

// This file holds one seam, made ready to be measured at many poses: kernel.md's gap at its start, its end and between,
// its least and its widest. least.go holds the searches, near.go what may matter of the panels, lap.go what is done where they lie in
// each other.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// stations are the places of a seam, as parts of its length, at which the spread of its gap is told.
var stations = [...]float64{0, 0.25, 0.5, 0.75, 1}

// gaps is what is measured of a seam at one pose.
type gaps struct {
	at            [len(stations)]float64
	least, widest float64
}

// seam is a seam made ready.
type seam struct {
	side      [2]side
	back      bool // B's edge runs against A's
	slides    [2]map[vec2]vec2
	turn      bool    // the seam runs against A's edge
	tol, near float64 // see limits.go, solved and drawn
	lines     []line  // one for each piece that an edge may be nearest to, nearest first
	laps      []lap   // pairs of pieces that may come to lie in each other, nearest first
	hulls     [2]piece
	parts     [3]vec // directions, in A's coordinates, that parted the hulls last
	runs      []run  // of the search for the widest gap
	moves     []move

	// Of the pose last measured:
	moved float64 // by how much distances can be other than without errors
	on    []int   // laps that cheap directions do not part
	looks [lapLooks + 1]bool
	reach [5][2][]float64 // across both cut edges and along the seam both ways, by side and piece: how far it reaches towards the other panel
	rel   [2]frame        // rel[0]: B's panel in A's coordinates; rel[1] the other way
	t     float64
	e     vec // along the seam, in A's coordinates
	lo    float64
	hi    float64
	from  [2][2]vec // by side: its edge at the seam's start, lower and upper face, in the other's coordinates
	step  [2]vec    // by side: from there to the seam's end
	ways  [2]vec    // by side: unit, along the seam, in the side's own coordinates
}

// move bounds what one cause does to the distance between the seam's edges and the other's panel: mm for a standard deviation.
type move struct {
	cause int
	by    float64
}

// side is one edge and the panel behind it.
type side struct {
	panel  int
	p, q   vec2 // the edge's ends without errors
	cut    int  // index into causes.cuts
	out    vec2
	pieces []piece
	off    float64 // how far the cut lies out, as last set
}

// piece is a convex piece of a panel.
type piece struct {
	loop  []vec2 // without errors
	now   []vec2
	moves []slide
	box   [2]vec2
}

// slide moves a corner that lies on the cut edge: to what place for each mm that the cut lies out. Where the panel has a corner,
// it goes along the panel's other edge there; elsewhere along the cut's normal.
type slide struct {
	corner int
	by     vec2
}

// line is the distance of one side's edge to one piece of the other, along the seam: a convex function.
type line struct {
	side, piece int // the edge's side; the piece's place in the other side
	apart       float64
	f           [2]float64 // at start and end, as far as they are known
	slope       [2]float64
	known       [2]bool
}

// newSeam makes a seam ready; x must be posed without errors. ok is false where the edges share no stretch.
func newSeam(x *poser, s fold.Seam) (*seam, bool) {
	p, c := x.part, x.c
	m := &seam{tol: solved, near: drawn}
	for k, panel := range [2]int{s.A, s.B} {
		edge := s.EdgeA
		if k == 1 {
			edge = s.EdgeB
		}
		e := &m.side[k]
		e.panel, e.p, e.q = panel, from2(edge[0]), from2(edge[1])
		e.cut = c.edge(panel, edge[0], edge[1])
		cut := &c.cuts[e.cut]
		e.out = cut.out
		m.slides[k] = slides(p.Panels[panel].Region.Outer, cut)
		for _, l := range p.Panels[panel].Pieces {
			e.pieces = append(e.pieces, newPiece(l, cut, m.slides[k]))
		}
	}
	// Which way it runs, once for all poses: from the foot up; level seams along x, then y.
	fa, fb := &x.panels[s.A], &x.panels[s.B]
	way := func(f *frame, d *side) vec { v := d.q.sub(d.p).unit(); return f.vector(vec{v.x, v.y, 0}) }
	da, db := way(fa, &m.side[0]), way(fb, &m.side[1])
	if da.dot(db) < 0 {
		m.back = true
		db = db.mul(-1)
	}
	e := da.add(db)
	for _, k := range []int{2, 0, 1} {
		if math.Abs(e.at(k)) > 1e-6*e.len() {
			m.turn = e.at(k) < 0
			break
		}
	}
	m.place(x)
	if !(m.hi-m.lo > fold.Weld) {
		return nil, false
	}
	m.bound(x)
	reach := 0.0
	for _, k := range m.moves {
		reach += k.by * k.by
	}
	reach = farMoves * math.Sqrt(reach)
	m.keepNear(reach)
	m.keepLaps(reach)
	return m, true
}

// newPiece is a convex piece whose corners on a cut edge's line go with it.
func newPiece(l geom.Loop, cut *cutEdge, corners map[vec2]vec2) piece {
	w := piece{now: make([]vec2, len(l))}
	box := geom.EmptyBox2()
	for i, q := range l {
		v := from2(q)
		box.Add(q)
		w.loop = append(w.loop, v)
		if math.Abs(v.sub(cut.p).dot(cut.out)) <= onLine {
			by, ok := corners[v]
			if !ok {
				by = cut.out
			}
			w.moves = append(w.moves, slide{i, by})
		}
	}
	copy(w.now, w.loop)
	w.box = [2]vec2{from2(box.Min), from2(box.Max)}
	return w
}

// slides are how the corners of a panel on a cut edge's line go with it.
func slides(l geom.Loop, cut *cutEdge) map[vec2]vec2 {
	out := map[vec2]vec2{}
	on := func(v vec2) bool { return math.Abs(v.sub(cut.p).dot(cut.out)) <= onLine }
	n := len(l)
	far := func(i, step int) vec2 { // the next corner that is not the same but for rounding
		v := from2(l[i])
		for range n {
			i = (i + step) % n
			if q := from2(l[i]); q.sub(v).dot(q.sub(v)) > sameCorner*sameCorner {
				return q
			}
		}
		return v
	}
	for i := range l {
		before, v, after := far(i, n-1), from2(l[i]), far(i, 1)
		if !on(v) || on(before) == on(after) {
			continue
		}
		d := before.sub(v)
		if on(before) {
			d = after.sub(v)
		}
		d = d.unit()
		if k := d.dot(cut.out); math.Abs(k) > leastSlide {
			out[v] = vec2{d.x / k, d.y / k}
		}
	}
	return out
}

// place takes the seam to a pose.
func (m *seam) place(x *poser) {
	a, b := &m.side[0], &m.side[1]
	fa, fb := &x.panels[a.panel], &x.panels[b.panel]
	m.rel[0] = fa.in(fb)
	m.rel[1] = m.rel[0].back()
	m.t = x.t
	m.moved = 0
	if x.z != nil {
		for _, k := range m.moves {
			m.moved += k.by * math.Abs(x.z[k.cause])
		}
	}
	for k := range m.side {
		d := &m.side[k]
		off := x.cut[d.cut]
		if off == d.off {
			continue
		}
		d.off = off
		for i := range d.pieces {
			d.pieces[i].shift(off)
		}
		m.hulls[k].shift(off)
	}
	pa, qa := a.p.plus(a.out, a.off), a.q.plus(a.out, a.off)
	pb, qb := b.p.plus(b.out, b.off), b.q.plus(b.out, b.off)
	da, db := qa.sub(pa).unit(), qb.sub(pb).unit()
	eb := m.rel[0].vector(vec{db.x, db.y, 0})
	if m.back {
		eb = eb.mul(-1)
	}
	m.e = vec{da.x, da.y, 0}.add(eb).unit()
	if m.turn {
		m.e = m.e.mul(-1)
	}
	m.ways[0], m.ways[1] = m.e, m.rel[0].localVector(m.e)
	// Where the edges' ends, at half the thickness, lie along e.
	h := m.t / 2
	ap, aq := vec{pa.x, pa.y, h}.dot(m.e), vec{qa.x, qa.y, h}.dot(m.e)
	bp, bq := m.rel[0].point(vec{pb.x, pb.y, h}).dot(m.e), m.rel[0].point(vec{qb.x, qb.y, h}).dot(m.e)
	m.lo = max(min(ap, aq), min(bp, bq))
	m.hi = min(max(ap, aq), max(bp, bq))
	if m.hi < m.lo { // apart by an error: the nearest ends stand for it
		m.hi = m.lo
	}
	m.run(0, pa, qa, ap, aq, &m.rel[1])
	m.run(1, pb, qb, bp, bq, &m.rel[0])
}

// shift moves what lies on the cut edge.
func (w *piece) shift(off float64) {
	for _, j := range w.moves {
		w.now[j.corner] = w.loop[j.corner].plus(j.by, off)
	}
}

// run sets from and step of a side whose edge p-q lies at sp..sq along e; f is the side's frame in the other's coordinates.
func (m *seam) run(k int, p, q vec2, sp, sq float64, f *frame) {
	part := func(s float64) vec2 {
		if sq == sp {
			return p
		}
		return p.plus(q.sub(p), max(0, min(1, (s-sp)/(sq-sp))))
	}
	lo, hi := part(m.lo), part(m.hi)
	m.from[k][0] = f.point(vec{lo.x, lo.y, 0})
	m.from[k][1] = m.from[k][0].plus(f.z, m.t)
	d := hi.sub(lo)
	m.step[k] = f.x.mul(d.x).plus(f.y, d.y)
}

// value is the distance of line j at the part s of the seam, and its slope: the edge's segment moves
// evenly, by step for the whole seam, so that the distance grows by the part of it along the shortest way.
func (m *seam) value(j *line, s float64) (d, slope float64) {
	w := &m.side[1-j.side].pieces[j.piece]
	v := m.step[j.side]
	d2, way := segmentPrism(m.from[j.side][0].plus(v, s), m.from[j.side][1].plus(v, s), w.now, m.t)
	if d2 == 0 {
		return 0, 0
	}
	d = math.Sqrt(d2)
	return d, way.dot(v) / d
}

// measure is the seam at the poser's pose.
func (m *seam) measure(x *poser) (g gaps) {
	m.place(x)
	m.findLaps()
	last := len(stations) - 1
	g.at[0], g.at[last] = m.gap(0), m.gap(1) // first: what is known at the ends spares looks between
	for i, s := range stations[1:last] {
		g.at[1+i] = m.gap(s)
	}
	g.least = m.least()
	g.widest = m.widest(g.at[0], g.at[last])
	return g
}
