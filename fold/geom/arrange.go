package geom

// This file builds planar arrangements: many segments that may cross, touch or
// overlap become points, edges and faces. The blank is cut into panels with it.

import (
	"cmp"
	"math"
	"slices"
)

// Segment is an input line of an arrangement. Tag is the caller's own number.
type Segment struct {
	A, B Vec2
	Tag  int
}

// Meeting is a point at which two input segments meet other than end to end at
// an end that both share.
type Meeting struct {
	I, J int // indices of the segments, I < J
	At   Vec2
}

// Arrangement is a subdivision of the plane. Half-edge 2e runs along edge e, 2e+1
// against it; a half-edge's face lies on its left.
type Arrangement struct {
	Points []Vec2
	From   []int   // half-edge -> its first point
	Next   []int   // half-edge -> next along its face's boundary
	Face   []int   // half-edge -> face
	Tags   [][]Tag // edge -> the input segments that run along it

	Faces    []Face // face 0 is the unbounded one
	Meetings []Meeting
}

// Tag is an input segment along an edge: which one, and whether it runs with half-edge 2e.
type Tag struct {
	Segment int
	Along   bool
}

// Face lists one half-edge of each loop of its boundary, the outer loop first
// (face 0 has none).
type Face struct {
	Loops []int
}

// Twin is the half-edge the other way.
func Twin(h int) int { return h ^ 1 }

// To is the point where half-edge h ends.
func (a *Arrangement) To(h int) int { return a.From[h^1] }

// Arrange makes the arrangement of the segments. Points nearer than weld are one
// point; segments that pass a point within weld go through it. Segments shorter
// than weld vanish. With every coordinate finite it ends for any input. Where more
// than most pairs of segments come near each other it stops there, and gives a place
// where two of them meet and no Arrangement.
func Arrange(segs []Segment, weld float64, most int) (*Arrangement, Vec2) {
	a := &Arrangement{}
	pts := newPointSet(weld, len(segs))
	cuts := make([][]Vec2, len(segs)) // where each segment is to be split
	g := newSegmentGrid(segs, weld)
	ended := g.pairs(func(i, j int) bool {
		if most--; most < 0 {
			return false
		}
		meet(segs[i], segs[j], weld, func(onI, onJ bool, p Vec2) {
			if onI {
				cuts[i] = append(cuts[i], p)
			}
			if onJ {
				cuts[j] = append(cuts[j], p)
			}
			if onI || onJ {
				a.Meetings = append(a.Meetings, Meeting{i, j, p})
			}
		})
		return true
	})
	if !ended {
		if len(a.Meetings) > 0 {
			return nil, a.Meetings[0].At
		}
		return nil, segs[0].A
	}
	SortStable(a.Meetings, func(x, y Meeting) int {
		if x.I != y.I {
			return x.I - y.I
		}
		return x.J - y.J
	})
	// Ends first, so that split points snap to the ends that the caller gave.
	for _, s := range segs {
		pts.add(s.A)
		pts.add(s.B)
	}
	edges := make(map[[2]int]int, len(segs))
	for i, s := range segs {
		d := s.B.Sub(s.A)
		c := cuts[i]
		SortStable(c, func(p, q Vec2) int {
			return cmp.Compare(p.Sub(s.A).Dot(d), q.Sub(s.A).Dot(d))
		})
		prev := pts.add(s.A)
		for k := 0; k <= len(c); k++ {
			end := s.B
			if k < len(c) {
				end = c[k]
			}
			p := pts.add(end)
			if p == prev {
				continue
			}
			key := [2]int{min(prev, p), max(prev, p)}
			e, ok := edges[key]
			if !ok {
				e = len(a.Tags)
				edges[key] = e
				a.Tags = append(a.Tags, nil)
				a.From = append(a.From, prev, p)
			}
			a.Tags[e] = append(a.Tags[e], Tag{i, a.From[2*e] == prev})
			prev = p
		}
	}
	a.Points = pts.points
	a.link()
	a.trace()
	return a, Vec2{}
}

// meet finds where two segments touch and tells for each such point which of
// the two it is inside of (not at an end of).
func meet(s, t Segment, weld float64, found func(onS, onT bool, p Vec2)) {
	touched := false
	end := func(p Vec2, on Segment, onFirst bool) {
		near := p.Sub(on.A).Len() <= weld || p.Sub(on.B).Len() <= weld
		if near {
			touched = true
			return
		}
		if d, _ := SegmentDistance(p, on.A, on.B); d <= weld {
			touched = true
			found(onFirst, !onFirst, p)
		}
	}
	end(t.A, s, true)
	end(t.B, s, true)
	end(s.A, t, false)
	end(s.B, t, false)
	if touched {
		return
	}
	ds, dt := s.B.Sub(s.A), t.B.Sub(t.A)
	den := Cross2(ds, dt)
	if den == 0 {
		return
	}
	w := t.A.Sub(s.A)
	u, v := Cross2(w, dt)/den, Cross2(w, ds)/den
	if u > 0 && u < 1 && v > 0 && v < 1 {
		found(true, true, s.A.Add(ds.Mul(u)))
	}
}

// link sets Next by sorting the half-edges around each point.
func (a *Arrangement) link() {
	n := len(a.From)
	a.Next = make([]int, n)
	first := make([]int, len(a.Points)+1) // of each point's half-edges in around
	for _, p := range a.From {
		first[p+1]++
	}
	for p := range a.Points {
		first[p+1] += first[p]
	}
	around := make([]int, n)
	put := slices.Clone(first)
	for h, p := range a.From {
		around[put[p]] = h
		put[p]++
	}
	dir := func(h int) Vec2 { return a.Points[a.To(h)].Sub(a.Points[a.From[h]]) }
	for p := range a.Points {
		hs := around[first[p]:first[p+1]]
		if len(hs) > 2 { // two lie the same way round whatever their order
			SortStable(hs, func(x, y int) int {
				dx, dy := dir(x), dir(y)
				return cmp.Compare(math.Atan2(dx[1], dx[0]), math.Atan2(dy[1], dy[0]))
			})
		}
		for i, h := range hs {
			// Coming in along twin(h), go on along the next half-edge clockwise from h.
			a.Next[Twin(h)] = hs[(i+len(hs)-1)%len(hs)]
		}
	}
}

// trace finds the loops and gathers them into faces.
func (a *Arrangement) trace() {
	n := len(a.From)
	loop := make([]int, n)
	for i := range loop {
		loop[i] = -1
	}
	var starts []int
	for h := range n {
		if loop[h] >= 0 {
			continue
		}
		id, k := len(starts), h
		for loop[k] < 0 {
			loop[k] = id
			k = a.Next[k]
		}
		starts = append(starts, h)
	}
	areas := a.loopAreas(loop, len(starts))
	a.Faces = []Face{{}}
	faceOf := make([]int, len(starts))
	for i := range starts {
		faceOf[i] = -1
		if areas[i] > 0 {
			faceOf[i] = len(a.Faces)
			a.Faces = append(a.Faces, Face{Loops: []int{starts[i]}})
		}
	}
	// A loop of no positive area bounds a component from outside: the face to the
	// left of its leftmost point is the one it lies in. Loops are settled from left to
	// right, so the loop found there is settled already.
	type outer struct {
		id, point int
	}
	var outs []outer
	for i, h := range starts {
		if areas[i] > 0 {
			continue
		}
		best := a.From[h]
		for k := a.Next[h]; k != h; k = a.Next[k] {
			if p, q := a.Points[a.From[k]], a.Points[best]; p[0] < q[0] || p[0] == q[0] && p[1] < q[1] {
				best = a.From[k]
			}
		}
		outs = append(outs, outer{i, best})
	}
	SortStable(outs, func(x, y outer) int {
		p, q := a.Points[x.point], a.Points[y.point]
		if p[0] != q[0] {
			return cmp.Compare(p[0], q[0])
		}
		return cmp.Compare(p[1], q[1])
	})
	stripes := a.newStripes()
	for _, o := range outs {
		f := 0
		if h := stripes.leftOf(a.Points[o.point]); h >= 0 {
			f = faceOf[loop[h]]
			if f < 0 {
				f = 0 // can't happen for exact arithmetic; the outside is the safe answer
			}
		}
		faceOf[o.id] = f
		a.Faces[f].Loops = append(a.Faces[f].Loops, starts[o.id])
	}
	a.Face = make([]int, n)
	for h := range n {
		a.Face[h] = faceOf[loop[h]]
	}
}

// loopAreas is the signed area of each of n loops. Edges that a loop runs along both
// ways enclose nothing and are left out, so that a bare branch's area is 0, not rounding.
func (a *Arrangement) loopAreas(loop []int, n int) []float64 {
	areas := make([]float64, n)
	from := make([]int, n) // about the first point met, as in Loop.Area
	for i := range from {
		from[i] = -1
	}
	for h, id := range loop {
		if loop[Twin(h)] == id {
			continue
		}
		if from[id] < 0 {
			from[id] = a.From[h]
		}
		o := a.Points[from[id]]
		areas[id] += Cross2(a.Points[a.From[h]].Sub(o), a.Points[a.To(h)].Sub(o)) / 2
	}
	return areas
}

// LoopPoints gives the points along the boundary loop that holds half-edge h.
func (a *Arrangement) LoopPoints(h int) Loop {
	l := Loop{a.Points[a.From[h]]}
	for k := a.Next[h]; k != h; k = a.Next[k] {
		l = append(l, a.Points[a.From[k]])
	}
	return l
}

// Inside gives a point of face f as far from its boundary as a few level lines
// find, and half the width there. f must be bounded.
func (a *Arrangement) Inside(f int) (Vec2, float64) {
	var edges [][2]Vec2
	var ys []float64
	for _, h := range a.Faces[f].Loops {
		l := a.LoopPoints(h)
		for i, p := range l {
			edges = append(edges, [2]Vec2{p, l[(i+1)%len(l)]})
			ys = append(ys, p[1])
		}
	}
	return insideOf(edges, ys)
}

// InsidePoint gives a point well inside the region and half the width there.
func (r Region) InsidePoint() (Vec2, float64) {
	var edges [][2]Vec2
	var ys []float64
	for _, l := range r.Loops() {
		for i, p := range l {
			edges = append(edges, [2]Vec2{p, l[(i+1)%len(l)]})
			ys = append(ys, p[1])
		}
	}
	return insideOf(edges, ys)
}

func insideOf(edges [][2]Vec2, ys []float64) (Vec2, float64) {
	slices.Sort(ys)
	lo, hi := ys[0], ys[len(ys)-1]
	// Levels: the middle of the widest gaps between the points' heights, and the middle of all.
	type gap struct{ w, y float64 }
	gaps := []gap{{hi - lo, (lo + hi) / 2}}
	for i := 1; i < len(ys); i++ {
		if w := ys[i] - ys[i-1]; w > 0 {
			gaps = append(gaps, gap{w, (ys[i] + ys[i-1]) / 2})
		}
	}
	SortStable(gaps, func(p, q gap) int { return cmp.Compare(q.w, p.w) })
	best, room := Vec2{}, -1.0
	for k := 0; k < len(gaps) && k < 8; k++ {
		y := gaps[k].y
		var xs []float64
		for _, e := range edges {
			if (e[0][1] > y) != (e[1][1] > y) {
				t := (y - e[0][1]) / (e[1][1] - e[0][1])
				xs = append(xs, e[0][0]+t*(e[1][0]-e[0][0]))
			}
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			if w := min(xs[i+1]-xs[i], gaps[k].w) / 2; w > room {
				best, room = Vec2{(xs[i] + xs[i+1]) / 2, y}, w
			}
		}
	}
	return best, room
}

// pointSet welds points that lie within a tolerance of one already there.
type pointSet struct {
	weld   float64
	points []Vec2
	cells  map[[2]int64]int32 // the last point in a cell, from 1
	before []int32            // the point before it in the same cell, from 1; 0 for the first
}

func newPointSet(weld float64, points int) *pointSet {
	return &pointSet{weld, make([]Vec2, 0, points), make(map[[2]int64]int32, points), make([]int32, 0, points)}
}

// add gives p's place in points: that of the first that lies within weld, else a new one.
func (s *pointSet) add(p Vec2) int {
	cell := 64 * s.weld // so that a point's surroundings hardly ever reach into a second one
	at := func(x float64) int64 { return int64(math.Floor(x / cell)) }
	found := int32(math.MaxInt32)
	for cx := at(p[0] - s.weld); cx <= at(p[0]+s.weld); cx++ {
		for cy := at(p[1] - s.weld); cy <= at(p[1]+s.weld); cy++ {
			for i := s.cells[[2]int64{cx, cy}]; i > 0; i = s.before[i-1] {
				if i-1 < found && s.points[i-1].Sub(p).Len() <= s.weld {
					found = i - 1
				}
			}
		}
	}
	if found < math.MaxInt32 {
		return int(found)
	}
	c := [2]int64{at(p[0]), at(p[1])}
	s.points = append(s.points, p)
	s.before = append(s.before, s.cells[c])
	s.cells[c] = int32(len(s.points))
	return len(s.points) - 1
}

// segmentGrid finds pairs of segments whose boxes come near each other.
type segmentGrid struct {
	segs  []Segment
	weld  float64
	first []int32 // of each cell's segments in all
	all   []int32
	many  []bool // the segment lies in more than one cell
}

func newSegmentGrid(segs []Segment, weld float64) *segmentGrid {
	g := &segmentGrid{segs: segs, weld: weld}
	if len(segs) == 0 {
		return g
	}
	box := EmptyBox2()
	total := 0.0
	for _, s := range segs {
		box.Add(s.A)
		box.Add(s.B)
		total += math.Abs(s.B[0]-s.A[0]) + math.Abs(s.B[1]-s.A[1])
	}
	size := box.Size()
	// Cells of about the mean length, but no more of them along a side than the
	// square root of the segments times 2: cells stay in line with the segments.
	side := max(size[0], size[1], weld)
	cell := max(total/float64(len(segs)), side/(2*math.Sqrt(float64(len(segs)))+4), 4*weld)
	o := box.Min.Sub(Vec2{2 * weld, 2 * weld})
	nx, ny := int32((size[0]+4*weld)/cell)+1, int32((size[1]+4*weld)/cell)+1
	at := func(c [2]int32) int32 { // rounding may lead a hair outside
		return max(0, min(nx-1, c[0]))*ny + max(0, min(ny-1, c[1]))
	}
	g.many = make([]bool, len(segs))
	g.first = make([]int32, nx*ny+1)
	for i, s := range segs {
		n := 0
		g.walk(s, o, cell, weld, func(c [2]int32) {
			g.first[at(c)+1]++
			n++
		})
		g.many[i] = n > 1
	}
	for c := range nx * ny {
		g.first[c+1] += g.first[c]
	}
	g.all = make([]int32, g.first[nx*ny])
	put := slices.Clone(g.first)
	for i, s := range segs {
		g.walk(s, o, cell, weld, func(c [2]int32) {
			g.all[put[at(c)]] = int32(i)
			put[at(c)]++
		})
	}
	return g
}

// walk visits the cells that the segment's thickened line passes.
func (g *segmentGrid) walk(s Segment, o Vec2, cell, weld float64, visit func([2]int32)) {
	x0, x1 := min(s.A[0], s.B[0])-weld, max(s.A[0], s.B[0])+weld
	for cx := int32(math.Floor((x0 - o[0]) / cell)); cx <= int32(math.Floor((x1-o[0])/cell)); cx++ {
		// The part of the segment in this column of cells, widened by weld.
		lo, hi := min(s.A[1], s.B[1]), max(s.A[1], s.B[1])
		if d := s.B[0] - s.A[0]; d != 0 {
			ya := s.A[1] + (o[0]+float64(cx)*cell-weld-s.A[0])/d*(s.B[1]-s.A[1])
			yb := s.A[1] + (o[0]+float64(cx+1)*cell+weld-s.A[0])/d*(s.B[1]-s.A[1])
			lo, hi = max(lo, min(ya, yb)), min(hi, max(ya, yb))
		}
		for cy := int32(math.Floor((lo - weld - o[1]) / cell)); cy <= int32(math.Floor((hi+weld-o[1])/cell)); cy++ {
			visit([2]int32{cx, cy})
		}
	}
}

// pairs calls f once for each pair of segments that share a cell and whose boxes
// touch, until f says false; it reports whether f never did.
func (g *segmentGrid) pairs(f func(i, j int) bool) bool {
	seen := map[[2]int32]bool{}
	low := func(i int32, k int) float64 { return min(g.segs[i].A[k], g.segs[i].B[k]) - g.weld }
	high := func(i int32, k int) float64 { return max(g.segs[i].A[k], g.segs[i].B[k]) }
	for c := range max(1, len(g.first)) - 1 {
		in := g.all[g.first[c]:g.first[c+1]]
		if len(in) < 2 {
			continue
		}
		// Sweep along the axis on which the segments are the shorter.
		var long [2]float64
		for _, i := range in {
			for k := range long {
				long[k] += high(i, k) - low(i, k)
			}
		}
		k := 0
		if long[1] < long[0] {
			k = 1
		}
		SortStable(in, func(i, j int32) int { return cmp.Compare(low(i, k), low(j, k)) })
		for x := range in {
			end := high(in[x], k)
			for y := x + 1; y < len(in) && low(in[y], k) <= end; y++ {
				if low(in[y], 1-k) > high(in[x], 1-k) || low(in[x], 1-k) > high(in[y], 1-k) {
					continue
				}
				p := [2]int32{min(in[x], in[y]), max(in[x], in[y])}
				if p[0] == p[1] {
					continue
				}
				if g.many[p[0]] && g.many[p[1]] { // else they share one cell at most
					if seen[p] {
						continue
					}
					seen[p] = true
				}
				if !f(int(p[0]), int(p[1])) {
					return false
				}
			}
		}
	}
	return true
}

// stripes answers which edge lies next to the left of a point.
type stripes struct {
	a    *Arrangement
	y0   float64
	step float64
	rows [][]int // edges by row
}

func (a *Arrangement) newStripes() *stripes {
	box := EmptyBox2()
	for _, p := range a.Points {
		box.Add(p)
	}
	n := max(1, min(len(a.Tags)/4, 20000))
	s := &stripes{a: a, y0: box.Min[1], step: max((box.Max[1]-box.Min[1])/float64(n), 1e-300), rows: make([][]int, n+1)}
	for e := range a.Tags {
		p, q := a.Points[a.From[2*e]], a.Points[a.From[2*e+1]]
		for r := s.row(min(p[1], q[1])); r <= s.row(max(p[1], q[1])); r++ {
			s.rows[r] = append(s.rows[r], e)
		}
	}
	return s
}

func (s *stripes) row(y float64) int {
	return max(0, min(len(s.rows)-1, int((y-s.y0)/s.step)))
}

// leftOf gives the half-edge, its face towards p, that lies next to the left of
// p; -1 if there is none. Edges that hold p itself don't count.
func (s *stripes) leftOf(p Vec2) int {
	best, at := -1, math.Inf(-1)
	for _, e := range s.rows[s.row(p[1])] {
		a, b := s.a.Points[s.a.From[2*e]], s.a.Points[s.a.From[2*e+1]]
		if (a[1] > p[1]) == (b[1] > p[1]) {
			continue
		}
		x := a[0] + (p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0])
		if x < p[0] && x > at && a != p && b != p {
			at, best = x, 2*e
			if b[1] > a[1] { // going up, its left is away from p
				best++
			}
		}
	}
	return best
}
