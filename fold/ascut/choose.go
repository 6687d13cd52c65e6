package ascut

// This file chooses what is measured.

import (
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// candidate is a distance that could be measured.
type candidate struct {
	x, y    spot
	want    float64
	by      map[int]float64 // what a mm of a cut does to it
	lean    float64
	opening bool // there is no metal between the two: it gets larger where metal is missing
	use     int
	seam    int // of a mouth; -1
}

// What a size is for.
const (
	forWidth = iota
	forDiagonal
	forSeam
	forMirror
	forVoid // a hole or cutout: where it lies
)

// chooser chooses the sizes of a part.
type chooser struct {
	*movable
	plays  map[int]play
	out    []candidate
	long   []int  // the longest cuts, at most maxCuts, in their order round the blank
	hidden *image // the mirror image that fewest of them tell
}

func (h *chooser) candidate(x, y spot, use int) candidate {
	if x.at[0]+x.at[1] > y.at[0]+y.at[1]+onLine || math.Abs(x.at[0]+x.at[1]-y.at[0]-y.at[1]) <= onLine && x.at[0] > y.at[0] {
		x, y = y, x
	}
	c := candidate{x: x, y: y, use: use, seam: -1}
	c.want = y.at.Sub(x.at).Len()
	c.by, c.lean = h.slopes(x, y)
	return c
}

// covers reports whether a candidate tells where a cut lies.
func (c *candidate) covers(cut int) bool { return math.Abs(c.by[cut]) >= tells }

// oneWay reports whether metal at any of the edges that a candidate tells of makes it larger, or at any smaller: only then does a size alone say whether metal is missing.
func (c *candidate) oneWay() bool {
	more, less := false, false
	for _, by := range c.by {
		more, less = more || by >= tells, less || by <= -tells
	}
	return !(more && less)
}

// same reports whether a size is on the list already.
func (h *chooser) same(c candidate) bool {
	for i := range h.out {
		if h.out[i].x.at.Sub(c.x.at).Len() <= 2*MatchReach && h.out[i].y.at.Sub(c.y.at).Len() <= 2*MatchReach {
			return true
		}
	}
	return false
}

func (h *chooser) add(c candidate) bool {
	if len(h.out) >= MaxSizes || h.same(c) || !(c.want > leastEdge) {
		return false
	}
	h.out = append(h.out, c)
	return true
}

// between is the distance between two cuts that look away from each other (or, for an opening, at each other): square across where they lie square to each other,
// else between corners.
func (h *chooser) between(c, d, use int) (best candidate, ok bool) {
	x, y := &h.cuts[c], &h.cuts[d]
	if math.Abs(geom.Cross2(x.Out, y.Out)) < parallel {
		u := geom.Perp(x.Out)
		lo := max(min(x.Ends[0].Dot(u), x.Ends[1].Dot(u)), min(y.Ends[0].Dot(u), y.Ends[1].Dot(u)))
		hi := min(max(x.Ends[0].Dot(u), x.Ends[1].Dot(u)), max(y.Ends[0].Dot(u), y.Ends[1].Dot(u)))
		if hi-lo >= leastEdge/2 {
			mid := u.Mul((lo + hi) / 2)
			on := func(z *Cut) geom.Vec2 { return mid.Add(x.Out.Mul(x.Out.Dot(z.Ends[0]))) }
			return h.candidate(spot{atEdge, c, c, 0, on(x)}, spot{atEdge, d, d, 0, on(y)}, use), true
		}
	}
	for _, i := range h.cornersOf(c) {
		for _, j := range h.cornersOf(d) {
			if i == j || !h.sharpAt(i) || !h.sharpAt(j) {
				continue
			}
			z := h.candidate(h.cornerSpot(i, c), h.cornerSpot(j, d), use)
			if !z.covers(c) || !z.covers(d) || !z.oneWay() {
				continue
			}
			if !ok || h.squarer(&z, &best, c, d) {
				best, ok = z, true
			}
		}
	}
	return best, ok
}

// squarer reports whether z lies squarer across both cuts than y, or as square and longer.
func (h *chooser) squarer(z, y *candidate, c, d int) bool {
	of := func(v *candidate) float64 { return min(math.Abs(v.by[c]), math.Abs(v.by[d])) }
	if a, b := of(z), of(y); math.Abs(a-b) > 0.1 {
		return a > b
	}
	return z.want > y.want+onLine
}

// deducted is what a distance across the bends would be too long by, had their deductions been left out (mm).
func (h *chooser) deducted(c *candidate) (sum float64) {
	h.crossed(c, func(b *fold.Bend, cos float64) {
		setback, _ := b.Setback(h.part.Thickness)
		sum += (2*setback - b.Allowance) * cos
	})
	return sum
}

// crossed calls f with every bend that a distance runs across, and the cosine between the two.
func (h *movable) crossed(c *candidate, f func(b *fold.Bend, cos float64)) {
	d := c.y.at.Sub(c.x.at).Normalize()
	for i := range h.part.Bends {
		b := &h.part.Bends[i]
		cos := math.Abs(d.Dot(b.N))
		if cos < leastSlide {
			continue
		}
		_, s := b.Coord(c.x.at)
		_, e := b.Coord(c.y.at)
		mid := b.Allowance / 2
		if (s-mid)*(e-mid) >= 0 {
			continue
		}
		at := c.x.at.Add(c.y.at.Sub(c.x.at).Mul((mid - s) / (e - s)))
		u, _ := b.Coord(at)
		v, _ := b.Coord(b.Line[0])
		w, _ := b.Coord(b.Line[1])
		if u < min(v, w) || u > max(v, w) {
			continue
		}
		f(b, cos)
	}
}

// width takes the largest distance along x or y, above all across bends.
func (h *chooser) width(axis int) {
	var dir geom.Vec2
	dir[axis] = 1
	var best candidate
	score, found := 0.0, false
	take := func(c candidate) {
		if h.same(c) || !c.oneWay() {
			return
		}
		s := c.want + acrossBends*max(0, h.deducted(&c))
		if c.x.kind == atEdge { // easier to measure than between corners
			s += c.want / 10
		}
		if !found || s > score+onLine {
			best, score, found = c, s, true
		}
	}
	for _, c := range h.long {
		if h.cuts[c].Out.Dot(dir) < 1-parallel || !h.held(c) {
			continue
		}
		for _, d := range h.long {
			if h.cuts[d].Out.Dot(dir) > -1+parallel || !h.held(d) || h.cuts[c].Ends[0].Sub(h.cuts[d].Ends[0]).Dot(dir) <= 0 {
				continue
			}
			if z, ok := h.between(c, d, forWidth); ok && z.x.kind == atEdge {
				take(z)
			}
		}
	}
	// Corners level with each other, at the outside of the blank.
	corners := h.outer(axis)
	for _, i := range corners {
		for _, j := range corners {
			d := h.at[j].Sub(h.at[i])
			if d[axis] <= 0 || math.Abs(d[1-axis]) > level*d[axis] {
				continue
			}
			take(h.candidate(h.cornerSpot(i, -1), h.cornerSpot(j, -1), forWidth))
		}
	}
	for i := range h.out { // the overall size may tell as much
		o := &h.out[i]
		if d := o.y.at.Sub(o.x.at); math.Abs(d[axis]) > math.Abs(d[1-axis]) && o.want >= best.want-onLine && h.deducted(o) >= h.deducted(&best)-onLine {
			return
		}
	}
	if found {
		h.add(best)
	}
}

// outer lists sharp corners, the outermost along an axis, at most maxMirror.
func (h *chooser) outer(axis int) []int {
	var out []int
	mid := (h.box.Min[axis] + h.box.Max[axis]) / 2
	for k := range h.at {
		if h.sharpAt(k) {
			out = append(out, k)
		}
	}
	geom.SortStable(out, func(a, b int) int {
		d := math.Abs(h.at[b][axis]-mid) - math.Abs(h.at[a][axis]-mid)
		switch {
		case d > onLine:
			return 1
		case d < -onLine:
			return -1
		}
		return 0
	})
	return out[:min(len(out), maxMirror)]
}

// diagonals takes two distances that cross, as long as they are: together they prove the blank square.
func (h *chooser) diagonals() {
	size := h.box.Size()
	var pair []candidate
	for _, dir := range []geom.Vec2{{size[1], size[0]}, {size[1], -size[0]}} {
		lo, hi := -1, -1
		for k := range h.at {
			if !h.sharpAt(k) {
				continue
			}
			v := h.at[k].Dot(dir)
			if lo < 0 || v < h.at[lo].Dot(dir)-onLine {
				lo = k
			}
			if hi < 0 || v > h.at[hi].Dot(dir)+onLine {
				hi = k
			}
		}
		if lo >= 0 && lo != hi {
			pair = append(pair, h.candidate(h.cornerSpot(lo, -1), h.cornerSpot(hi, -1), forDiagonal))
		}
	}
	if len(pair) == 2 && pair[0].lean*pair[1].lean < 0 && !h.same(pair[0]) && !h.same(pair[1]) {
		h.add(pair[0])
		h.add(pair[1])
	}
}

// seamCuts takes, for the edges that make the tightest seams, what tells best where they lie.
func (h *chooser) seamCuts() {
	var list []int
	seen := map[int]bool{}
	for i := range h.seams {
		for _, c := range h.seams[i].cuts {
			if c >= 0 && !seen[c] && len(list) < maxSeamCuts {
				seen[c] = true
				list = append(list, c)
			}
		}
	}
	room := func(c int) float64 {
		p := h.playOf(c)
		r := seamLook
		if p.out.set {
			r = min(r, p.out.mm)
		}
		if p.in.set {
			r = min(r, p.in.mm)
		}
		return r
	}
	geom.SortStable(list, func(a, b int) int {
		x, y := room(a), room(b)
		switch {
		case x < y-solved*10:
			return -1
		case x > y+solved*10:
			return 1
		}
		return 0
	})
	uncovered := func(c int) bool {
		for i := range h.out {
			if h.out[i].use != forDiagonal && h.out[i].covers(c) {
				return false
			}
		}
		return seen[c]
	}
	for _, c := range list {
		if len(h.out) >= h.room() {
			return
		}
		if !uncovered(c) || len(h.playOf(c).does) == 0 {
			continue
		}
		var best candidate
		score, found := 0.0, false
		take := func(z candidate, plus float64) {
			if h.same(z) || !(z.want > leastEdge) {
				return
			}
			s := plus
			for d := range z.by {
				if z.covers(d) && uncovered(d) {
					s += 2
				}
			}
			s += math.Abs(z.by[c])
			if !found || s > score+1e-6 || s > score-1e-6 && z.want < best.want-onLine {
				best, score, found = z, s, true
			}
		}
		for _, d := range h.long {
			if d == c || !h.held(d) || h.cuts[c].Out.Dot(h.cuts[d].Out) > opposite {
				continue
			}
			mid := func(c int) geom.Vec2 { return h.cuts[c].Ends[0].Add(h.cuts[c].Ends[1]).Mul(0.5) }
			apart := mid(c).Sub(mid(d))
			if apart.Dot(h.cuts[c].Out) <= 0 || apart.Dot(h.cuts[d].Out) >= 0 {
				continue
			}
			if z, ok := h.between(c, d, forSeam); ok && min(z.by[c], z.by[d]) >= across {
				plus := 0.0
				if z.x.kind == atEdge {
					plus = 0.3
				}
				take(z, plus)
			}
		}
		for i := range h.seams {
			x := &h.seams[i]
			if x.cuts[0] != c && x.cuts[1] != c || x.cuts[0] < 0 || x.cuts[1] < 0 || x.cuts[0] == x.cuts[1] {
				continue
			}
			if z, ok := h.between(x.cuts[0], x.cuts[1], forSeam); ok {
				if z.by[x.cuts[0]] < 0 && z.by[x.cuts[1]] < 0 {
					z.opening, z.seam = true, i
					take(z, 0)
				}
			}
		}
		if found {
			h.add(best)
		}
	}
}

func (h *chooser) playOf(c int) play {
	p, ok := h.plays[c]
	if !ok {
		p = h.play(c)
		h.plays[c] = p
	}
	return p
}

// longest fills in long: the cuts that widths are sought between.
func (h *chooser) longest() {
	for c := range h.cuts {
		h.long = append(h.long, c)
	}
	if len(h.long) <= maxCuts {
		return
	}
	geom.SortStable(h.long, func(a, b int) int {
		switch d := h.cuts[a].length() - h.cuts[b].length(); {
		case d > onLine:
			return -1
		case d < -onLine:
			return 1
		}
		return a - b
	})
	h.long = h.long[:maxCuts]
	slices.Sort(h.long)
}
