package ascut

// This file takes the overall sizes, and where holes and cutouts lie.

import (
	"fmt"
	"math"

	"dryfold/fold/geom"
)

// room is how many sizes there may be before those of holes and cutouts.
func (h *chooser) room() int {
	return MaxSizes - min(voidSizes, len(h.part.Spec.Holes)+len(h.part.Spec.Cutouts))
}

// overall takes the blank's whole extent along an axis, between straight edges that lie on its box; it is measured square from the first, where they don't face each
// other against a straight edge laid along the second.
func (h *chooser) overall(axis int) {
	var dir geom.Vec2
	dir[axis] = 1
	on := func(way float64, at float64) (best int) {
		best = -1
		for c := range h.cuts {
			k := &h.cuts[c]
			if h.held(c) && k.Out.Dot(dir)*way > 1-parallel && math.Abs(k.Ends[0][axis]-at) <= farFrom && (best < 0 || k.length() > h.cuts[best].length()+onLine) {
				best = c
			}
		}
		return best
	}
	c, d := on(-1, h.box.Min[axis]), on(1, h.box.Max[axis])
	if c < 0 || d < 0 {
		h.overallCorners(axis)
		return
	}
	if z, ok := h.between(c, d, forWidth); ok && z.x.kind == atEdge {
		h.add(z)
		return
	}
	from := h.cuts[c].Ends[0].Add(h.cuts[c].Ends[1]).Mul(0.5)
	to := from
	to[axis] = h.cuts[d].Ends[0][axis]
	h.add(h.candidate(spot{atEdge, c, c, 0, from}, spot{atEdge, d, d, 0, to}, forWidth))
}

// overallCorners takes the extent between two corners that lie on the blank's box, level with each other.
func (h *chooser) overallCorners(axis int) {
	corners := h.outer(axis)
	for _, i := range corners {
		for _, j := range corners {
			d := h.at[j].Sub(h.at[i])
			if h.at[i][axis]-h.box.Min[axis] > farFrom || h.box.Max[axis]-h.at[j][axis] > farFrom || math.Abs(d[1-axis]) > farFrom {
				continue
			}
			if z := h.candidate(h.cornerSpot(i, -1), h.cornerSpot(j, -1), forWidth); h.add(z) {
				return
			}
		}
	}
}

// voids takes distances from straight edges to holes and cutouts, along x and y by turns, of another one each time where there are several.
func (h *chooser) voids() {
	spec := &h.part.Spec
	var list []spot
	for i, v := range spec.Holes {
		list = append(list, spot{atHole, i, -1, 0, v.At.Mul(h.k)})
	}
	for i := range spec.Cutouts {
		list = append(list, spot{kind: atVoid, index: i, cut: -1})
	}
	if len(list) == 0 {
		return
	}
	list = list[:min(len(list), maxMirror)]
	taken := 0
	for n := 0; n < 2*len(list) && taken < 2*voidSizes && (taken < voidSizes || len(h.out) < MaxSizes-2*voidSizes+1); n++ {
		axis := n % 2
		// The last ones first: a list is begun at the datum, and what lies far from it is the likelier to be wrong.
		v := list[len(list)-1-n%len(list)]
		if len(list) == 1 {
			v = list[0]
		} else if n >= len(list) && len(list)%2 == 0 {
			axis = 1 - axis
		}
		if z, ok := h.toVoid(v, axis); ok && h.add(z) {
			taken++
		}
	}
}

// toVoid is the distance along an axis from the nearest straight edge that lies square to it, level with a hole's centre or a cutout's middle.
func (h *chooser) toVoid(v spot, axis int) (best candidate, ok bool) {
	sides := [2]geom.Vec2{v.at, v.at}
	if v.kind == atVoid {
		if v.index >= len(h.part.Voids) {
			return best, false
		}
		box := geom.EmptyBox2()
		for _, p := range h.part.Voids[v.index] {
			box.Add(p)
		}
		mid := box.Min.Add(box.Max).Mul(0.5)
		sides = [2]geom.Vec2{mid, mid}
		sides[0][axis], sides[1][axis] = box.Min[axis], box.Max[axis]
	}
	var dir geom.Vec2
	dir[axis] = 1
	for c := range h.cuts {
		k := &h.cuts[c]
		if !h.held(c) || math.Abs(k.Out.Dot(dir)) < 1-parallel {
			continue
		}
		at := sides[0]
		if k.Out[axis] > 0 {
			at = sides[1]
		}
		lo, hi := min(k.Ends[0][1-axis], k.Ends[1][1-axis]), max(k.Ends[0][1-axis], k.Ends[1][1-axis])
		if at[1-axis] < lo || at[1-axis] > hi || k.beyond(at) > -leastEdge {
			continue
		}
		if ok && -k.beyond(at) >= best.want {
			continue
		}
		w := v
		w.at = at
		from := at
		from[axis] = k.Ends[0][axis]
		best = candidate{x: spot{atEdge, c, c, 0, from}, y: w, use: forVoid, seam: -1, want: at.Sub(from).Len()}
		ok = true
	}
	return best, ok
}

// voidName names a hole or cutout as the marking-out sheet does.
func (m *movable) voidName(s spot) string {
	if s.kind == atHole {
		return fmt.Sprintf("hole H%d", s.index+1)
	}
	if len(m.part.Spec.Cutouts) == 1 {
		return "the cutout"
	}
	return fmt.Sprintf("cutout %d", s.index+1)
}

// misplaced tells of holes and cutouts that lie elsewhere, edges that are out taken into account: their numbers of sizes.
func (j *judge) misplaced() (n int) {
	for i := range j.Lines {
		l, s := &j.Lines[i], &j.sizes[i]
		if !l.void || l.State != "large" && l.State != "small" {
			continue
		}
		// Where the edge that it is measured from is out, the rest is the hole's.
		off := j.off(i)
		if off >= s.Low-s.Want-readNoise && off <= s.High-s.Want+readNoise {
			l.Say = fmt.Sprintf("%s too %s, because of the edge that it is measured from.", j.length(math.Abs(l.Off)), longShort(l.Off))
			continue
		}
		n++
		where := "far from"
		if off < 0 {
			where = "near to"
		}
		l.Say = fmt.Sprintf("%s too %s.", j.length(math.Abs(l.Off)), longShort(l.Off))
		j.Say = append(j.Say, fmt.Sprintf("Size %d: %s lies %s too %s the %s. It can't be moved: accept it if that will do, or cut again.",
			s.No, s.Void, j.length(math.Abs(off)), where, j.cuts[s.cand.x.index].Name))
	}
	return n
}

// voidSpot is the words for where a hole or cutout is measured.
func (m *movable) voidSpot(s spot) string {
	if s.kind == atHole {
		return fmt.Sprintf("centre of hole H%d", s.index+1)
	}
	return "near side of " + m.voidName(s)
}
