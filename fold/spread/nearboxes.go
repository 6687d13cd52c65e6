package spread

// This file finds which pieces of two panels lie near each other, when there may be thousands of both.

import (
	"dryfold/fold/geom"
)

// nearBoxes lists the pairs of boxes, one of each list, that lie within reach of each other along all axes, in order. Where they are more
// than maxLaps the reach is lowered until they are no more: it gives the reach that it ended with. Where all lie equally near the first
// maxLaps are taken.
func nearBoxes(boxes [2][]geom.Box3, reach float64) ([][2]int32, float64) {
	out, all := boxesWithin(boxes, reach)
	if all {
		return out, reach
	}
	var within [][2]int32
	some, lo, hi := out, 0.0, reach
	for range lapHalvings {
		m := (lo + hi) / 2
		if out, all = boxesWithin(boxes, m); all {
			within, lo = out, m
		} else {
			some, hi = out, m
		}
	}
	if len(within) > 0 {
		return within, lo
	}
	return some, hi
}

// boxesWithin lists the pairs within reach; all is false where they are more than maxLaps, or too many to look at, and were left off
// there.
func boxesWithin(boxes [2][]geom.Box3, reach float64) (out [][2]int32, all bool) {
	a, b := boxes[0], boxes[1]
	whole := geom.EmptyBox3()
	for i := range b {
		whole.Add(b[i].Min)
		whole.Add(b[i].Max)
	}
	// Those of b in rows along the first axis, so that each of a is held against those alone whose rows it goes through.
	n := len(b)/4 + 1
	width := whole.Max[0] - whole.Min[0]
	row := func(x float64) int {
		if !(width > 0) {
			return 0
		}
		return int(max(0, min(float64(n-1), (x-whole.Min[0])/width*float64(n))))
	}
	rows := make([][]int32, n)
	looks := 0
	for j := range b {
		for k := row(b[j].Min[0]); k <= row(b[j].Max[0]); k++ {
			if looks++; looks > maxLapLooks {
				return out, false
			}
			rows[k] = append(rows[k], int32(j))
		}
	}
	seen := make([]int, len(b))
	for i := range a {
		x, first := &a[i], len(out)
		for k := row(x.Min[0] - reach); k <= row(x.Max[0]+reach); k++ {
			for _, j := range rows[k] {
				if looks++; looks > maxLapLooks {
					return out, false
				}
				if seen[j] > i {
					continue
				}
				seen[j] = i + 1
				y, far := &b[j], 0.0
				for c := range 3 {
					far = max(far, x.Min[c]-y.Max[c], y.Min[c]-x.Max[c])
				}
				if far > reach {
					continue
				}
				if len(out) == maxLaps {
					return out, false
				}
				out = append(out, [2]int32{int32(i), j})
			}
		}
		geom.SortStable(out[first:], func(p, q [2]int32) int { return int(p[1] - q[1]) })
	}
	return out, true
}
