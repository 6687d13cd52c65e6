package fold

// This file finds reliefs that are smaller than lists ask for: notches beside a bend, holes where two bends meet.

import (
	"cmp"
	"math"
	"slices"

	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// checkReliefs finds reliefs beside a bend's end that are narrower than lists ask for: where the bend's centre line,
// beyond its run, enters material again after less than that.
func (p *Part) checkReliefs() {
	for i := range p.Bends {
		b := &p.Bends[i]
		mid := b.Line[0].Add(b.Line[1]).Mul(0.5)
		half := b.Line[1].Sub(b.Line[0]).Len() / 2
		crossed := p.crossings(mid, b.U)
		worst, at := math.Inf(1), geom.Vec2{}
		for k := 1; k+1 < len(crossed); k += 2 { // from the end of one run of material to the next
			lo, hi := crossed[k], crossed[k+1]
			if hi-lo <= Weld || hi-lo >= worst {
				continue
			}
			if math.Abs(lo-half) <= EdgeReach || math.Abs(hi+half) <= EdgeReach {
				worst, at = hi-lo, mid.Add(b.U.Mul((lo+hi)/2))
			}
		}
		lists := metal.ReliefWidth(p.Thickness)
		if need := narrowest(lists); worst < need-radiusSlack {
			p.trouble(Note, "relief-narrow", "bend", b.Name, at, number(worst), number(need), sentence(
				"The relief beside %s is %s wide. Lists ask for %s or more (%s); a narrower one tears or bulges.",
				theBend(b.Name), figure(worst), figure(need), lists[0].Source))
		}
	}
}

// crossings are the places along a line, by distance from o, at which it crosses the blank's edges, in order.
func (p *Part) crossings(o, u geom.Vec2) []float64 {
	var out []float64
	n := geom.Perp(u)
	for _, l := range append([]geom.Loop{p.Outline}, p.Voids...) {
		for i, a := range l {
			c := l[(i+1)%len(l)]
			sa, sc := a.Sub(o).Dot(n), c.Sub(o).Dot(n)
			if (sa < 0) != (sc < 0) {
				out = append(out, a.Sub(o).Dot(u)+sa/(sa-sc)*c.Sub(a).Dot(u))
			}
		}
	}
	slices.Sort(out)
	return out
}

// corner is where the held tangent lines of two bends of a panel cross, near an end of each.
type corner struct {
	at          geom.Vec2
	bends       [2]int
	least, most float64 // diameters that lists ask for
}

// bendCorners are the places where two bends of a panel meet, by x.
func (p *Part) bendCorners() []corner {
	held := make([][]int, len(p.Panels))
	for i := range p.Bends {
		if a := p.Bends[i].A; a >= 0 {
			held[a] = append(held[a], i)
		}
	}
	m, _ := p.MetalFacts()
	ends := func(b *Bend, at geom.Vec2) bool { // an end of the bend's run lies near
		u, _ := b.Coord(at)
		from, to := b.run()
		return min(math.Abs(u-from), math.Abs(u-to)) <= reliefReach*(b.Radius+2*p.Thickness)
	}
	var out []corner
	for _, bends := range held {
		for k, i := range bends {
			b := &p.Bends[i]
			for _, j := range bends[k+1:] {
				c := &p.Bends[j]
				if !apart(b.N, c.N) {
					continue
				}
				_, s := c.Coord(b.Q)
				at := b.Q.Add(b.U.Mul(-s / b.U.Dot(c.N)))
				if !ends(b, at) || !ends(c, at) {
					continue
				}
				lo, hi := metal.ReliefHoleRange(max(b.Radius, c.Radius), p.Thickness, m.Family == "aluminium")
				out = append(out, corner{at, [2]int{i, j}, lo, hi})
			}
		}
	}
	geom.SortStable(out, func(a, b corner) int { return cmp.Compare(a.at[0], b.at[0]) })
	return out
}

// checkReliefHoles finds round reliefs where two bends meet, holes or arcs of an outline, that are smaller than
// lists ask for. A round relief is one that reaches over the place where the held tangent lines cross.
func (p *Part) checkReliefHoles() {
	corners := p.bendCorners()
	if len(corners) == 0 {
		return
	}
	k := p.Spec.Units.Scale()
	blank := geom.Region{Outer: p.Outline, Holes: p.Voids}
	look := func(o geom.Vec2, r float64, arc bool) {
		from, _ := slices.BinarySearchFunc(corners, o[0]-r, func(c corner, x float64) int { return cmp.Compare(c.at[0], x) })
		for _, c := range corners[from:] {
			if c.at[0] > o[0]+r {
				return
			}
			if c.at.Sub(o).Len() > r+Weld || 2*r >= c.least-radiusSlack || arc && blank.Contains(o) { // a rounded corner is none
				continue
			}
			b := &p.Bends[c.bends[0]]
			p.trouble(Note, "relief-narrow", "bend", b.Name, o, number(2*r), number(c.least), sentence(
				"The relief hole where %s meet is %s across. Lists ask for %s to %s (%s); a smaller one tears or bulges.",
				p.these(c.bends[:]), figure(2*r), figure(c.least), figure(c.most), metal.ReliefHole(b.Radius, p.Thickness)[0].Source))
		}
	}
	for _, h := range p.Spec.Holes {
		look(h.At.Mul(k), h.Diameter*k/2, false)
	}
	for _, c := range append([]Contour{p.Spec.Outline}, p.Spec.Cutouts...) {
		for i, v := range c {
			if v.Through == nil {
				continue
			}
			if o, r, ok := geom.Circle(c[(i+len(c)-1)%len(c)].At.Mul(k), v.Through.Mul(k), v.At.Mul(k)); ok {
				look(o, r, true)
			}
		}
	}
}
