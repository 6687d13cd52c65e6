package spread

// This file holds what errors may take of the room between two solids in a swing.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// Room is how much of the distance between two solids of the part, at a state, errors of hand and machine may take (mm), so that 95 of
// 100 parts keep the rest: each cause's plus by itself, along the line between the nearest points, and the root of their squares.
// First order only. A bend counts with its angle once it is finished; one that is on its way passes through all angles anyhow, and
// counts with its line. A zone is taken to go with its swinging panel. Cut edges count where a nearest point lies on one. 0 where the
// solids overlap or the part can't be folded.
func Room(p *fold.Part, a, b fold.Body, at fold.State) (mm float64) {
	if !p.Foldable || len(at) != len(p.Bends) || !valid(p, a) || !valid(p, b) {
		return 0
	}
	return NewRooms(p).Take(a, b, at)
}

// Rooms answers Room for many pairs of one part.
type Rooms struct {
	part *fold.Part
	c    *causes
}

// NewRooms makes a part ready; it must be Foldable.
func NewRooms(p *fold.Part) *Rooms { return &Rooms{p, newCauses(p)} }

func valid(p *fold.Part, b fold.Body) bool {
	if b.Zone {
		return b.Index >= 0 && b.Index < len(p.Bends)
	}
	return b.Index >= 0 && b.Index < len(p.Panels)
}

// Take is what errors may take of the distance of a and b at a state; see Room.
func (r *Rooms) Take(a, b fold.Body, at fold.State) float64 {
	ps := r.part.Pose(at)
	c, _, _, ok := solid.Between(solid.NewBody(ps.Solid(a)).Place(geom.Identity()), solid.NewBody(ps.Solid(b)).Place(geom.Identity()), math.Inf(1))
	if !ok || !(c.D > 0) {
		return 0
	}
	return r.TakeAt(a, b, at, c.A, c.B)
}

// TakeAt is Take where the nearest points, in space, are known: of a, and of b.
func (r *Rooms) TakeAt(a, b fold.Body, at fold.State, pa, pb geom.Vec3) float64 {
	n := pa.Sub(pb)
	if !(n.Len() > 0) || len(at) != len(r.part.Bends) || !valid(r.part, a) || !valid(r.part, b) {
		return 0
	}
	n = n.Normalize()
	p, c := r.part, r.c
	panel := func(x fold.Body) int {
		if x.Zone {
			return p.Bends[x.Index].B
		}
		return x.Index
	}
	ka, kb := panel(a), panel(b)
	x := newPoser(p, c, at)
	x.set(nil)
	qa, qb := x.panels[ka].localPoint(from3(pa)), x.panels[kb].localPoint(from3(pb))
	finished := p.Finished()
	along := from3(n)
	apart := func() float64 {
		return x.panels[ka].point(qa).sub(x.panels[kb].point(qb)).dot(along)
	}
	exact := apart()
	// A bend is out by its angle once it stands at the angle it is to have.
	counts := func(k int) bool {
		if c.all[k].kind != byAngle {
			return true
		}
		for _, b := range c.all[k].bends {
			if at[b] != finished[b] {
				return false
			}
		}
		return true
	}
	z := make([]float64, len(c.all))
	sum := 0.0
	done := map[int]bool{-1: true}
	take := func(k int) {
		if done[k] || !counts(k) {
			return
		}
		done[k] = true
		z[k] = 2 // its plus
		x.set(z)
		d := apart() - exact
		sum += d * d
		z[k] = 0
	}
	for _, i := range between(p, ka, kb) {
		take(c.angle[i])
		take(c.line[i])
	}
	take(c.thick)
	take(c.k)
	for _, e := range []struct {
		body  fold.Body
		panel int
		q     vec
	}{{a, ka, qa}, {b, kb, qb}} {
		if !e.body.Zone {
			d := r.cut(e.panel, vec2{e.q.x, e.q.y}, x.panels[e.panel].localVector(along))
			sum += d * d
		}
	}
	return math.Sqrt(sum)
}

// cut is what the cut edge on which a point of a panel lies may take, n being the way to the other solid in the panel's
// coordinates; 0 where it lies on none.
func (r *Rooms) cut(panel int, at vec2, n vec) (most float64) {
	p := &r.part.Panels[panel]
	m := geom.Vec2{at.x, at.y}
	for k, l := range p.Region.Loops() {
		for i, q := range l {
			if !p.Edges[k][i].Free() {
				continue
			}
			q2 := l[(i+1)%len(l)]
			if d, _ := geom.SegmentDistance(m, q, q2); d > onEdge {
				continue
			}
			d := from2(q2).sub(from2(q)).unit()
			out := vec2{d.y, -d.x}
			most = max(most, r.c.cutPlus(panel, from2(q), out)*math.Abs(out.x*n.x+out.y*n.y))
		}
	}
	return most
}
