package cutfile

// This file cuts the bends' lines to the material.

import (
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// line is a stretch of a bend's line, or of one of its tangent lines.
type line struct {
	ends    [2]geom.Vec2
	bend    int
	up      bool
	tangent bool
}

// lines are those that the options ask for, by bends.
func (b *blank) lines(p *fold.Part, o Options) (out []line) {
	for i := range p.Bends {
		bd := &p.Bends[i]
		if o.Bends != NoBends {
			for _, e := range b.within(bd.Line) {
				out = append(out, line{ends: e, bend: i, up: bd.Up})
			}
		}
		if !o.Tangents || bd.Allowance < fold.MinZone {
			continue
		}
		for r, reg := range bd.Zone {
			for l, loop := range reg.Loops() {
				for k, v := range loop {
					if !bd.ZoneEdges[r][l][k].Free() {
						out = append(out, line{ends: [2]geom.Vec2{v, loop[(k+1)%len(loop)]}, bend: i, tangent: true})
					}
				}
			}
		}
	}
	return out
}

// within are the stretches of a line that lie in the material. Its ends move on to the true edge where they
// lie near one: they were found on chords.
func (b *blank) within(l [2]geom.Vec2) (out [][2]geom.Vec2) {
	d := l[1].Sub(l[0])
	long := d.Len()
	if long < join {
		return nil
	}
	u := d.Mul(1 / long)
	reach := geom.Piece{A: l[0].Sub(u.Mul(endReach)), B: l[1].Add(u.Mul(endReach))}
	cuts := []float64{0, long}
	meet := func(q geom.Piece) {
		for _, c := range crossings(reach, q) {
			cuts = append(cuts, c.at.Sub(l[0]).Dot(u))
		}
	}
	for _, c := range b.contours {
		for _, q := range c.ps {
			meet(q)
		}
	}
	for _, h := range b.holes {
		left, right := h.At.Sub(geom.Vec2{h.Radius, 0}), h.At.Add(geom.Vec2{h.Radius, 0})
		for _, q := range geom.Through(left, h.At.Add(geom.Vec2{0, h.Radius}), right) {
			meet(q)
			meet(geom.Piece{A: q.B, B: q.A, Turn: q.Turn})
		}
	}
	slices.Sort(cuts)
	for i := 0; i+1 < len(cuts); i++ {
		s, t := cuts[i], cuts[i+1]
		if t-s < join || !b.inside(l[0].Add(u.Mul((s+t)/2))) {
			continue
		}
		// What joins on to the stretch before belongs to it; what is left of an end that was cut anew goes.
		if k := len(out); k > 0 && out[k-1][1].Sub(l[0]).Dot(u) > s-join {
			out[k-1][1] = l[0].Add(u.Mul(t))
			continue
		}
		out = append(out, [2]geom.Vec2{l[0].Add(u.Mul(s)), l[0].Add(u.Mul(t))})
	}
	keep := out[:0]
	for _, e := range out {
		if e[1].Sub(e[0]).Len() > fold.EdgeReach {
			keep = append(keep, e)
		}
	}
	return keep
}
