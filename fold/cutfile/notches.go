package cutfile

// This file cuts small V notches into the outline where bend lines end.

import (
	"cmp"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// vee is a notch: where on which piece of the outline, and its point.
type vee struct {
	piece int
	along float64
	point geom.Vec2
}

// notch cuts the notches, as deep as wide. Where the edge at a line's end is too short, an arc, or no edge
// of the outline, there is none, which is noted.
func (b *blank) notch(p *fold.Part, lines []line, deep float64) {
	var all []vee
	var why []string                    // there is none somewhere, in the order found
	missing := map[string][]geom.Vec2{} // where, by why
	miss := func(at geom.Vec2, reason string) {
		if missing[reason] == nil {
			why = append(why, reason)
		}
		missing[reason] = append(missing[reason], at)
	}
	out := &b.contours[0]
	for i := range p.Bends {
		// The outermost ends of the bend's stretches.
		var ends []geom.Vec2
		for _, l := range lines {
			if l.bend == i && !l.tangent {
				ends = append(ends, l.ends[0], l.ends[1])
			}
		}
		if len(ends) == 0 {
			continue
		}
		u := ends[len(ends)-1].Sub(ends[0]).Normalize()
		for side, at := range []geom.Vec2{ends[0], ends[len(ends)-1]} {
			in := u
			if side == 1 {
				in = u.Mul(-1)
			}
			if v, reason := b.room(at, in, deep); reason != "" {
				miss(at, reason)
			} else {
				all = append(all, v)
			}
		}
	}
	geom.SortStable(all, func(x, y vee) int { return cmp.Or(cmp.Compare(x.piece, y.piece), cmp.Compare(x.along, y.along)) })
	var ps []geom.Piece
	k := 0
	for i, q := range out.ps {
		at, u := q.A, q.Start()
		last := 0.0
		for ; k < len(all) && all[k].piece == i; k++ {
			v := all[k]
			if v.along-deep/2 < last+deep*notchRoom {
				miss(q.A.Add(u.Mul(v.along)), "it would run into the one beside it")
				continue
			}
			from, to := q.A.Add(u.Mul(v.along-deep/2)), q.A.Add(u.Mul(v.along+deep/2))
			ps = append(ps, geom.Piece{A: at, B: from}, geom.Piece{A: from, B: v.point}, geom.Piece{A: v.point, B: to})
			b.vees = append(b.vees, v.point)
			at, last = to, v.along+deep/2
		}
		ps = append(ps, geom.Piece{A: at, B: q.B, Turn: q.Turn})
	}
	out.ps = ps
	for _, r := range why {
		at := missing[r]
		if len(at) == 1 {
			b.note("No notch where a bend line ends at %s: %s.", b.spot(at[0]), r)
		} else {
			b.note("No notch at %d ends of bend lines, the first at %s: %s.", len(at), b.spot(at[0]), r)
		}
	}
}

// room finds the edge for a notch at a line's end, whose way into the material is in; why there is none.
func (b *blank) room(at, in geom.Vec2, deep float64) (v vee, why string) {
	best := 2 * endReach
	v.piece = -1
	for i, q := range b.contours[0].ps {
		if d := q.Distance(at); d < best {
			best, v.piece = d, i
		}
	}
	if v.piece < 0 {
		return v, "it is at a hole or cutout"
	}
	q := b.contours[0].ps[v.piece]
	if q.Turn != 0 {
		return v, "the edge is an arc"
	}
	u := q.Start()
	if math.Abs(geom.Cross2(u, in)) < math.Sin(notchSlant) {
		return v, "the edge runs nearly along the line"
	}
	v.along = at.Sub(q.A).Dot(u)
	if room := deep * (0.5 + notchRoom); v.along < room || v.along > q.Chord()-room {
		return v, "the straight edge is too short for it"
	}
	// As deep as asked, square to the edge.
	v.point = q.A.Add(u.Mul(v.along)).Add(in.Mul(deep / math.Abs(geom.Cross2(u, in))))
	for _, s := range []geom.Piece{{A: q.A.Add(u.Mul(v.along - deep/2)), B: v.point}, {A: q.A.Add(u.Mul(v.along + deep/2)), B: v.point}} {
		for c, k := range b.contours {
			for i, e := range k.ps {
				if (c > 0 || i != v.piece) && (len(crossings(s, e)) > 0 || e.Distance(v.point) < deep*notchRoom) {
					return v, "another edge is too near"
				}
			}
		}
		for _, h := range b.holes {
			if s.Distance(h.At) < h.Radius+deep*notchRoom {
				return v, "a hole is too near"
			}
		}
	}
	return v, ""
}
