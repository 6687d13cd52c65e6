package fold

// This file finds the ends of walls that meet at a corner: when a blank is laid out anew for another thickness they go
// with the inner faces, so that the gap of the corner's seam stays.

import (
	"math"

	"dryfold/fold/geom"
)

// wallEnd is the end of a wall at a corner where it meets another wall of the same panel, both bent the same way about an
// outward corner.
type wallEnd struct {
	at    geom.Vec3 // on the line where both outer faces meet, the part finished
	q     geom.Vec3 // unit, square to the plane through that line that halves the corner
	reach float64   // how far from that plane the wall's end lies at most
	move  geom.Vec2 // on the blank
}

// wallEnds finds the ends of each panel's walls, for a sheet that gets thicker by grow: the panel that meets the corner
// and those that hang on it but for hems. The outer faces stay where they are. In a wall's own plane the line where the
// inner faces meet lies T tan(a/2) from that of the outer faces, a being the angle between the faces' normals: along the
// bend line that is T sin(a/2) over the cosine between it and q. An end within the inner faces goes all of the way with
// them, one that is flush with the outer face or laps over it stays, one between goes in proportion. What hangs on the wall
// moves in with the wall's inner face, and its mitre along the same plane by as much.
func (p *Part) wallEnds(grow float64) [][]wallEnd {
	out := make([][]wallEnd, len(p.Panels))
	ps := p.Pose(p.Finished())
	outer := func(panel int, up bool) (n geom.Vec3, z float64) {
		if up {
			return ps.Panels[panel].Vector(geom.Vec3{0, 0, -1}), 0
		}
		return ps.Panels[panel].Vector(geom.Vec3{0, 0, 1}), p.Thickness
	}
	for _, c := range p.bendCorners() {
		for _, pair := range [2][2]int{{0, 1}, {1, 0}} {
			b, d := &p.Bends[c.bends[pair[0]]], &p.Bends[c.bends[pair[1]]]
			if b.Up != d.Up || b.B < 0 || d.B < 0 || b.Allowance == 0 || d.Allowance == 0 {
				continue
			}
			n, z := outer(b.B, b.Up)
			m, _ := outer(d.B, d.Up)
			way := b.towards(c.at)
			along := ps.Panels[b.B].Vector(geom.Vec3{way[0], way[1], 0})
			cos := n.Dot(m)
			q := n.Sub(m)
			if along.Dot(m) <= leastCorner || cos < -0.9 { // no outward corner, or hardly one
				break
			}
			other := d.towards(c.at)
			if ps.Panels[d.B].Vector(geom.Vec3{other[0], other[1], 0}).Dot(n) <= leastCorner {
				break
			}
			q = q.Mul(1 / q.Len())
			half := math.Sqrt((1 - cos) / 2) // sin(a/2)
			h := n.Dot(ps.PanelPoint(b.B, b.Q, z))
			g := m.Dot(ps.PanelPoint(d.B, d.Q, z))
			at := n.Mul((h - cos*g) / (1 - cos*cos)).Add(m.Mul((g - cos*h) / (1 - cos*cos)))
			e := wallEnd{at: at, q: q, reach: p.Thickness*half + reliefReach*(max(b.Radius, d.Radius)+2*p.Thickness)}
			// How far within the inner faces the wall's end lies.
			share, found := 1.0, false
			for _, v := range p.Panels[b.B].Region.Outer {
				if x := math.Abs(q.Dot(ps.PanelPoint(b.B, v, z).Sub(at))); x <= e.reach {
					found = true
					share = min(share, x/(p.Thickness*half))
					if n.Sub(q.Mul(2*n.Dot(q))).Dot(ps.PanelPoint(b.B, v, z).Sub(at)) > Weld { // past the other's outer face
						share = 0
					}
				}
			}
			if !found || share <= 0 {
				continue
			}
			e.move = way.Mul(-share * grow * half / math.Abs(along.Dot(q)))
			p.hang(b.B, b, e, out)
		}
	}
	return out
}

// towards is the way along a bend on the blank towards a point off one of its ends.
func (b *Bend) towards(at geom.Vec2) geom.Vec2 {
	u, _ := b.Coord(at)
	if from, to := b.run(); u < (from+to)/2 {
		return b.U.Mul(-1)
	}
	return b.U
}

// hang gives an end to a panel and those that hang on it along lines that run as its own.
func (p *Part) hang(panel int, b *Bend, e wallEnd, out [][]wallEnd) {
	out[panel] = append(out[panel], e)
	for i := range p.Bends {
		if c := &p.Bends[i]; c.A == panel && c.B >= 0 && p.Spec.Bends[i].Angle < hemAngle && math.Abs(geom.Cross2(c.U, b.U)) < 1e-6 {
			p.hang(c.B, b, e, out)
		}
	}
}

// longest is the most that the ends of the panels of a bend move.
func (r *redeveloper) longest(b *Bend) (mm float64) {
	if r.ends == nil {
		return 0
	}
	for _, k := range [2]int{b.A, b.B} {
		for i := range r.ends[k] {
			mm = max(mm, r.ends[k][i].move.Len())
		}
	}
	return mm
}

// end is how a corner of the outline in a panel goes with the ends of walls.
func (r *redeveloper) end(panel int, v geom.Vec2) (move geom.Vec2) {
	if r.ends == nil || panel < 0 {
		return move
	}
	for i := range r.ends[panel] {
		e := &r.ends[panel][i]
		if math.Abs(e.q.Dot(r.pose.PanelPoint(panel, v, 0).Sub(e.at))) <= e.reach {
			move = move.Add(e.move)
		}
	}
	return move
}
