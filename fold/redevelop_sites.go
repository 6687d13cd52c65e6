package fold

// This file finds on which panel or zone of a blank its points lie, before it is laid out anew.

import (
	"math"

	"dryfold/fold/geom"
)

// sites remembers where on the blank points lie, for a part that is laid out anew several times.
type sites struct {
	at      map[geom.Vec2]site
	reliefs [][]reliefEdge // by panel
}

// site is the panel, or the zone with panel -1, in which a point of the blank lies, or which is nearest; lines are
// the bends whose tangent lines it goes with, as reliefEdge has them.
type site struct {
	panel, zone int
	lines       [2]int
	slide       geom.Vec2
}

func (p *Part) newSites() *sites {
	s := &sites{map[geom.Vec2]site{}, make([][]reliefEdge, len(p.Panels))}
	for k := range p.Panels {
		s.reliefs[k] = p.reliefEdges(k)
	}
	return s
}

// site finds where a point lies. One that is nearest to a zone but outside it belongs to the zone's held panel, one on a tangent line to
// the panel there.
func (p *Part) site(v geom.Vec2) site {
	best, at := math.Inf(1), site{}
	for k := range p.Panels {
		if d := regionDistance(p.Panels[k].Region, v, best); d < best {
			best, at = d, site{panel: k, zone: -1}
		}
	}
	for i := range p.Bends {
		for _, z := range p.Bends[i].Zone {
			if d := regionDistance(z, v, best); d < best {
				best, at = d, site{panel: -1, zone: i}
			}
		}
	}
	if at.zone >= 0 {
		b := &p.Bends[at.zone]
		_, s := b.Coord(v)
		switch {
		case best > 0 || s <= lineSlack && s < b.Allowance/2:
			at.panel = b.A
		case s >= b.Allowance-lineSlack:
			at.panel = b.B
		}
	}
	return at
}

// regionDistance is how far a point lies from a region, 0 within Weld; some figure of limit or more where
// it is that far at least.
func regionDistance(r geom.Region, v geom.Vec2, limit float64) float64 {
	box := geom.EmptyBox2()
	for _, a := range r.Outer {
		box.Add(a)
	}
	if d := max(box.Min[0]-v[0], v[0]-box.Max[0], box.Min[1]-v[1], v[1]-box.Max[1]); d >= limit {
		return d
	}
	if r.Contains(v) {
		return 0
	}
	best := math.Inf(1)
	for _, l := range r.Loops() {
		for i, a := range l {
			d, _ := geom.SegmentDistance(v, a, l[(i+1)%len(l)])
			best = min(best, d)
		}
	}
	if best <= Weld {
		return 0
	}
	return best
}
