package fold

// This file says what kind of joint a seam makes and how its maker closes it. fitup.go says how wide it may be.

import (
	"math"
	"slices"

	"dryfold/fold/geom"
)

// Joints are the kinds of joint that a seam can make, by how its two panels lie in the section square to the seam
// at its middle (the words of the trade; where one kind ends and the next begins is our own). The turn between two
// panels is 0 where they lie face to face and 180 degrees where one goes on as the other; T is the sheet's thickness.
//
//   - butt: a turn of 135 degrees and more, each edge facing the other's.
//   - lap: a turn of 30 degrees and less, or 150 and more; one panel's edge, and all that lies within T behind it, lies
//     over the other's face.
//   - edge: a turn of 30 degrees and less, the two edges flush to within T.
//   - fillet: all of one edge stands on or over the other panel's face, more than T from that panel's own edge: a tee.
//   - outside corner, closed: at least half of one edge lies over the other panel's face.
//   - outside corner, open: any other. The inner edges are near each other and the sheet's thickness lies open.
var Joints = []string{jointOpen, jointClosed, jointButt, jointLap, jointFillet, jointEdge}

const (
	jointOpen   = "outside corner, open"
	jointClosed = "outside corner, closed"
	jointButt   = "butt"
	jointLap    = "lap"
	jointFillet = "fillet"
	jointEdge   = "edge"
)

// Where one kind of joint ends, as cosines of the turn between two panels.
var (
	buttTurn = math.Cos(135 * math.Pi / 180)
	edgeTurn = math.Cos(30 * math.Pi / 180)
)

// joint is the kind of joint at the seam's middle.
func (l *seamLine) joint(p *Part, s Seam) string {
	turn := l.a.inward().Dot(l.b.inward())
	a := l.over(&l.a, &l.b, &p.Panels[s.B])
	b := l.over(&l.b, &l.a, &p.Panels[s.A])
	switch {
	case turn >= edgeTurn:
		if math.Abs(a.mid) <= l.t || math.Abs(b.mid) <= l.t {
			return jointEdge
		}
		if a.lies || b.lies {
			return jointLap
		}
	case turn <= -edgeTurn && (a.lies && a.mid > l.t || b.lies && b.mid > l.t):
		return jointLap
	case turn <= buttTurn:
		return jointButt
	}
	switch {
	case a.least > l.t && a.on || b.least > l.t && b.on:
		return jointFillet
	case a.mid > 0 && a.on || b.mid > 0 && b.on:
		return jointClosed
	}
	return jointOpen
}

// edgeOver is how an edge lies over the other panel, seen square to that panel. Depths are inwards from the panel's own edge (mm).
type edgeOver struct {
	least, mid float64 // depth of the edge's section: its least, and at mid thickness
	on         bool    // the section's middle lies over the panel's material
	lies       bool    // and so does what lies one thickness behind the edge
}

// over says how x's edge at the seam's middle lies over the panel of y.
func (l *seamLine) over(x, y *seamSide, panel *Panel) (o edgeOver) {
	s := (l.lo + l.hi) / 2
	u, v := x.at(s, l.t)
	in := geom.Perp(y.q.Sub(y.p)).Normalize()
	flat := func(p geom.Vec3) (geom.Vec2, float64) {
		k := y.frame.LocalPoint(p)
		q := geom.Vec2{k[0], k[1]}
		return q, q.Sub(y.p).Dot(in)
	}
	_, du := flat(u)
	_, dv := flat(v)
	middle := u.Add(v).Mul(0.5)
	q, mid := flat(middle)
	back, _ := flat(middle.Add(x.inward().Mul(l.t)))
	o.least, o.mid = min(du, dv), mid
	o.on = inPieces(panel.Pieces, q)
	o.lies = o.on && inPieces(panel.Pieces, back)
	return o
}

// inPieces reports whether a point lies in one of the convex pieces, edges included.
func inPieces(pieces []geom.Loop, q geom.Vec2) bool {
	return slices.ContainsFunc(pieces, func(l geom.Loop) bool {
		for i, a := range l {
			if geom.Cross2(l[(i+1)%len(l)].Sub(a), q.Sub(a)) < 0 {
				return false
			}
		}
		return true
	})
}

// closing is how a seam is to be closed, by what the part says of it.
type closing struct {
	way     string // one of JoinWays, "" not said
	process string // one of WeldProcesses, "" not said or no weld
	widest  *float64
}

// closing takes the JoinSpec of the seam's name, else the one for all. Where the first says no way, the seam's
// own words say it: left open, or a join that is one of JoinWays. widest is in mm.
func (p *Part) closing(s Seam) (c closing) {
	own, all := -1, -1
	for i, j := range p.Spec.Joins {
		if j.Seam == s.Name {
			own = i
		}
		if j.Seam == "" {
			all = i
		}
	}
	var j JoinSpec
	if own >= 0 {
		j = p.Spec.Joins[own]
	} else if all >= 0 {
		j = p.Spec.Joins[all]
	}
	switch {
	case own >= 0 && j.Way != "":
		c.way = j.Way
	case s.Open:
		c.way = "open"
	case slices.Contains(JoinWays, s.Join):
		c.way = s.Join
	default:
		c.way = j.Way
	}
	if c.way == "" && j.Process != "" {
		c.way = "weld"
	}
	if c.way == "weld" {
		c.process = j.Process
	}
	if j.Widest != nil {
		c.widest = number(*j.Widest * p.Spec.Units.Scale())
	}
	return c
}
