package spread

// This file holds pairs of holes on different panels: how far apart their centres are, and by how much the axes of
// holes that face each other miss.

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// holePair is two holes made ready.
type holePair struct {
	a, b   int // panels
	pa, pb vec2
	ha, hb int // into Spec.Holes
	facing bool
	near   float64 // distance without errors
	turned bool    // B's axis runs against A's
}

// panelHole is a hole that lies in a panel.
type panelHole struct {
	hole, panel int
	at          vec2
	diameter    float64
	centre      vec
}

// newHolePairs lists pairs of holes of one diameter on different panels: those that face each other, nearest first, then the nearest few of
// holes that face none; x must be posed without errors.
func newHolePairs(x *poser) []holePair {
	p := x.part
	k := p.Spec.Units.Scale()
	first := 1 + len(p.Spec.Cutouts) // the contour of hole 0
	owner := map[int]int{}
	for i := range p.Panels {
		for n := range p.Panels[i].Region.Holes {
			es := p.Panels[i].Edges[1+n]
			if len(es) == 0 {
				continue
			}
			whole := true
			for _, e := range es {
				whole = whole && e.Free() && e.Contour == es[0].Contour
			}
			if whole && es[0].Contour >= first {
				owner[es[0].Contour-first] = i
			}
		}
	}
	var all []panelHole
	for i, h := range p.Spec.Holes {
		panel, ok := owner[i]
		if !ok || len(all) >= maxHoles {
			continue
		}
		w := panelHole{hole: i, panel: panel, at: from2(h.At.Mul(k)), diameter: h.Diameter * k}
		w.centre = x.panels[panel].point(vec{w.at.x, w.at.y, x.t / 2})
		all = append(all, w)
	}
	var facing, out []holePair
	faces := map[int]bool{} // holes that face another
	for i, a := range all {
		for _, b := range all[i+1:] {
			if a.panel == b.panel || math.Abs(a.diameter-b.diameter) > sameDiameter {
				continue
			}
			w := holePair{a: a.panel, b: b.panel, pa: a.at, pb: b.at, ha: a.hole, hb: b.hole}
			w.near = a.centre.sub(b.centre).len()
			za, zb := x.panels[a.panel].z, x.panels[b.panel].z
			w.turned = za.dot(zb) < 0
			_, off := w.measure(x)
			w.facing = za.cross(zb).len() < facingTurn && off < facingOff*a.diameter
			if w.facing {
				facing = append(facing, w)
				faces[w.ha], faces[w.hb] = true, true
				continue
			}
			out = append(out, w)
		}
	}
	out = slices.DeleteFunc(out, func(w holePair) bool { return faces[w.ha] || faces[w.hb] })
	nearest := func(v, w holePair) int { return cmp.Compare(v.near, w.near) }
	geom.SortStable(facing, nearest)
	geom.SortStable(out, nearest)
	facing = facing[:min(len(facing), maxHolePairs)]
	return append(facing, out[:min(len(out), maxOtherPairs)]...)
}

// measure is the distance of the centres, at the middle of the sheet, and how far the axes, of their mean direction, miss.
func (w *holePair) measure(x *poser) (distance, offset float64) {
	d, miss := w.way(x)
	return d.len(), miss.len()
}

// way is the way between the centres, and the part of it across the axes, in space.
func (w *holePair) way(x *poser) (d, miss vec) {
	fa, fb := &x.panels[w.a], &x.panels[w.b]
	d = fa.point(vec{w.pa.x, w.pa.y, x.t / 2}).sub(fb.point(vec{w.pb.x, w.pb.y, x.t / 2}))
	axis := fa.z.add(fb.z)
	if w.turned {
		axis = fa.z.sub(fb.z)
	}
	if l := axis.len(); l > 0 {
		n := axis.mul(1 / l)
		miss = d.plus(n, -d.dot(n))
	}
	return d, miss
}

// holeName is "hole 3 on left".
func holeName(p *fold.Part, hole, panel int) string {
	return fmt.Sprintf("hole %d on %s", hole+1, p.Panels[panel].Name)
}
