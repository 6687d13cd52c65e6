package fold

// This file finds which corners of a blank belong to the reliefs at its bends' ends: they go with the
// tangent lines when the blank is laid out anew.

import (
	"math"

	"dryfold/fold/geom"
)

// reliefEdge is an edge of a panel's outline that goes with the held tangent lines of up to two bends, -1 for none.
type reliefEdge struct {
	a, b  geom.Vec2
	lines [2]int
	slide geom.Vec2 // the way of the panel's own edge, along which a bend's end goes with the line; zero for square to the line
}

// reliefEdges finds the edges of a panel's outline that belong to reliefs, each as the lines that its points go with.
// On the outline between a bend's end and the next bend these are
//
//   - what lies on the tangent line itself, from the bend's end on;
//   - a notch behind it: all before the outline comes back to the tangent line, if that is within reliefReach
//     of the bend's end. From there on the edge is the panel's own, and stays;
//   - the whole of it, where the next bend is held by the same panel at an angle to it and all lies within reach of both ends: a
//     relief that two bends share. It goes with both lines.
//
// A free side of the panel, however near, is none: the outline does not come back.
func (p *Part) reliefEdges(panel int) []reliefEdge {
	var out []reliefEdge
	x := &p.Panels[panel]
	for k, loop := range x.Region.Loops() {
		edges := x.Edges[k]
		n := len(loop)
		for i := range n {
			if edges[i].Free() || !edges[(i+1)%n].Free() {
				continue
			}
			// A chain of free edges from here to the next bend: points at first..first+m.
			m := 1
			for edges[(i+1+m)%n].Free() {
				m++
			}
			chain := make([]geom.Vec2, m+1)
			for j := range chain {
				chain[j] = loop[(i+1+j)%n]
			}
			out = append(out, p.reliefChain(panel, chain, edges[i].Bend, edges[(i+1+m)%n].Bend)...)
		}
	}
	return out
}

// reliefChain finds the reliefs in a chain of free edges between two bends.
func (p *Part) reliefChain(panel int, chain []geom.Vec2, from, to int) []reliefEdge {
	last := len(chain) - 1
	lines := make([][2]int, len(chain)) // of each point
	for i := range lines {
		lines[i] = [2]int{-1, -1}
	}
	held := [2]bool{p.Bends[from].A == panel, p.Bends[to].A == panel}
	if held[0] && held[1] && apart(p.Bends[from].N, p.Bends[to].N) && p.allReach(from, chain[0], chain) && p.allReach(to, chain[last], chain) {
		for i := range lines {
			lines[i] = [2]int{from, to}
		}
	} else {
		back := make([]geom.Vec2, len(chain))
		for i, v := range chain {
			back[last-i] = v
		}
		if held[0] {
			for i := range p.notch(from, chain, from == to) {
				lines[i][0] = from
			}
		}
		if held[1] {
			for i := range p.notch(to, back, from == to) {
				lines[last-i][1] = to
			}
		}
	}
	var out []reliefEdge
	// A wall's side, from the bend at its top to that at its foot, stays straight: the bend's end slides along it.
	slide := func(end, step int) {
		next := end + step
		for next > 0 && next < last && chain[next].Sub(chain[end]).Len() <= lineSlack { // the file's rounding
			next += step
		}
		if lines[end] != lines[next] {
			out = append(out, reliefEdge{chain[end], chain[next-step], lines[end], chain[next].Sub(chain[end])})
		}
	}
	switch {
	case held[0] && !held[1]:
		slide(0, 1)
	case held[1] && !held[0]:
		slide(last, -1)
	}
	for i := range last {
		if l := lines[i]; l == lines[i+1] && l != [2]int{-1, -1} {
			out = append(out, reliefEdge{chain[i], chain[i+1], l, geom.Vec2{}})
			continue
		}
		for _, j := range [2]int{i, i + 1} {
			if lines[j] != [2]int{-1, -1} {
				out = append(out, reliefEdge{chain[j], chain[j], lines[j], geom.Vec2{}})
			}
		}
	}
	return out
}

// apart reports that two lines, by the ways square to them, cross at an angle that tells where (12 degrees and over).
func apart(n, m geom.Vec2) bool { return math.Abs(geom.Cross2(n, m)) > 0.2 }

// reaches reports that a point lies behind a bend's tangent line, or on it, within reach of the bend's end.
func (p *Part) reaches(b *Bend, end, v geom.Vec2) bool {
	reach := reliefReach * (b.Radius + 2*p.Thickness)
	u0, _ := b.Coord(end)
	u, s := b.Coord(v)
	return s <= lineSlack && s >= -reach && math.Abs(u-u0) <= reach
}

// allReach reports that all points of a chain lie within reach of the bend's end.
func (p *Part) allReach(bend int, end geom.Vec2, chain []geom.Vec2) bool {
	for _, v := range chain {
		if !p.reaches(&p.Bends[bend], end, v) {
			return false
		}
	}
	return true
}

// notch is how many points of a chain from a bend's end go with its tangent line. round: the chain ends at the same bend, having
// gone round the panel or a slot, so that its last point is no coming back.
func (p *Part) notch(bend int, chain []geom.Vec2, round bool) int {
	b := &p.Bends[bend]
	n := 0
	for n < len(chain) {
		if _, s := b.Coord(chain[n]); math.Abs(s) > lineSlack {
			break
		}
		n++
	}
	for i := n; i < len(chain) && !(round && i == len(chain)-1); i++ {
		if _, s := b.Coord(chain[i]); s >= -lineSlack { // it has come back: the rest is the panel's own edge
			return i
		}
		if !p.reaches(b, chain[0], chain[i]) {
			break
		}
	}
	return n
}

// linesAt are the bends whose tangent lines a point of a relief goes with, and the way it slides; a point within
// lineSlack is taken for it, so that one on an arc is that lies off its chords.
func linesAt(reliefs []reliefEdge, v geom.Vec2) (lines [2]int, slide geom.Vec2) {
	for _, slack := range []float64{Weld, lineSlack} {
		for i := range reliefs {
			r := &reliefs[i]
			if math.Abs(v[0]-(r.a[0]+r.b[0])/2) > math.Abs(r.a[0]-r.b[0])/2+slack || math.Abs(v[1]-(r.a[1]+r.b[1])/2) > math.Abs(r.a[1]-r.b[1])/2+slack {
				continue
			}
			if d, _ := geom.SegmentDistance(v, r.a, r.b); d <= slack {
				return r.lines, r.slide
			}
		}
	}
	return [2]int{-1, -1}, geom.Vec2{}
}

// goes is how a point goes with the held tangent lines of bends, so that it stays as far behind them; along slide, where that is said and
// does not run along the line.
func (r *redeveloper) goes(lines [2]int, slide geom.Vec2) geom.Vec2 {
	var n [2]geom.Vec2
	var back [2]float64
	found := 0
	for _, i := range lines {
		if i >= 0 {
			n[found], back[found] = r.part.Bends[i].N, -r.bends[i].back
			found++
		}
	}
	switch cross := geom.Cross2(n[0], n[1]); {
	case found == 0:
		return geom.Vec2{}
	case found == 2 && apart(n[0], n[1]):
		// the step d with n0.d = back0 and n1.d = back1
		return geom.Vec2{(back[0]*n[1][1] - back[1]*n[0][1]) / cross, (back[1]*n[0][0] - back[0]*n[1][0]) / cross}
	}
	if way := slide.Dot(n[0]); found == 1 && math.Abs(way) > 0.2*slide.Len() {
		return slide.Mul(back[0] / way)
	}
	return n[0].Mul(back[0])
}
