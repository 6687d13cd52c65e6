package fold

// This file names a seam's ends by what is there.

import (
	"math"
	"strings"

	"dryfold/fold/geom"
)

const (
	// steepSeam is how much of a seam's length its ends differ in height for it to have a foot and a top.
	steepSeam = 0.5
	// endReach is how far beyond a bend's zone a seam's end may lie and still be named by what the bend joins (mm): as wide as a
	// drilled relief.
	endReach = 6.0
)

// SeamEnds name a seam's two ends by what is there: "foot" and "top", or where it lies level the panels that it ends at, "at back",
// and "free end"; "one end" and "other end" where nothing tells them apart. start and end are its places in the finished part, base
// lying still.
func (p *Part) SeamEnds(s Seam, start, end geom.Vec3) [2]string {
	if d := end.Sub(start); math.Abs(d[2]) >= steepSeam*d.Len() {
		if d[2] < 0 {
			return [2]string{"top", "foot"}
		}
		return [2]string{"foot", "top"}
	}
	pose := p.Pose(p.Finished())
	edge := s.EdgeA
	from, to := pose.PanelPoint(s.A, edge[0], 0), pose.PanelPoint(s.A, edge[1], 0)
	if from.Sub(start).Len()+to.Sub(end).Len() > from.Sub(end).Len()+to.Sub(start).Len() {
		edge[0], edge[1] = edge[1], edge[0]
	}
	ends := [2]string{}
	for i, q := range edge {
		best := endReach
		for k := range p.Bends {
			e := &p.Bends[k]
			other := e.A
			switch s.A {
			case e.A:
				other = e.B
			case e.B:
			default:
				continue
			}
			if d, _ := geom.SegmentDistance(q, e.Line[0], e.Line[1]); d-e.Allowance/2 < best {
				best, ends[i] = d-e.Allowance/2, "at "+p.Panels[other].Name
			}
		}
	}
	switch {
	case ends[0] == ends[1]:
		return [2]string{"one end", "other end"}
	case ends[0] == "":
		ends[0] = "free end"
	case ends[1] == "":
		ends[1] = "free end"
	}
	return ends
}

// Ends are the names of a measured seam's ends; see SeamEnds.
func (p *Part) Ends(s *SeamReport) [2]string {
	n := len(s.Ticks)
	if n < 2 || !p.Foldable {
		return [2]string{"one end", "other end"}
	}
	a, b := s.Ticks[0], s.Ticks[n-1]
	return p.SeamEnds(s.Seam, a.A.Add(a.B).Mul(0.5), b.A.Add(b.B).Mul(0.5))
}

// AtEnd puts an end's name behind what happens there: "at its foot", "at its end at back", "at one end".
func AtEnd(end string) string {
	switch {
	case end == "one end":
		return "at one end"
	case strings.HasPrefix(end, "at "):
		return "at its end " + end
	}
	return "at its " + end
}
