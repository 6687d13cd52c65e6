package model

// This file cuts the blank into triangles that meet edge to edge: panels as they are, zones of bends into
// strips, one for each facet.

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// sheet is the blank in triangles.
type sheet struct {
	part  *fold.Part
	state fold.State
	chord float64

	pts   []geom.Vec2
	index map[geom.Vec2]int32 // by exact coordinates: regions that meet have the same corners
	cells []cell
	mate  []int32              // of side 3*cell+k: the side it hangs together with, -1 for none
	bent  map[int32]geom.Angle // of a point round the line of a crease: its angle
}

// cell is a triangle of the blank, counter-clockwise, and what it belongs to: a panel, or len(Panels) and on a bend's zone.
type cell struct {
	v    [3]int32
	body int32
}

func (sh *sheet) point(p geom.Vec2) int32 {
	i, ok := sh.index[p]
	if !ok {
		i = int32(len(sh.pts))
		sh.pts = append(sh.pts, p)
		sh.index[p] = i
	}
	return i
}

// fresh is a point that is no other's, though it may lie on one.
func (sh *sheet) fresh(at int32) int32 {
	sh.pts = append(sh.pts, sh.pts[at])
	return int32(len(sh.pts) - 1)
}

func (sh *sheet) zoneBody(bend int) int32 { return int32(len(sh.part.Panels) + bend) }

// body names a body as the part does.
func (sh *sheet) body(i int32) fold.Body {
	if n := int32(len(sh.part.Panels)); i >= n {
		return fold.Body{Zone: true, Index: int(i - n)}
	}
	return fold.Body{Index: int(i)}
}

// cut makes the triangles of panels and zones.
func (sh *sheet) cut() error {
	p := sh.part
	panels := make([]geom.Region, len(p.Panels))
	for k := range p.Panels {
		panels[k] = p.Panels[k].Region
	}
	zones := make([][]geom.Region, len(p.Bends))
	for i := range p.Bends {
		zones[i] = p.Bends[i].Zone
	}
	sh.level(panels, zones)
	for k, r := range panels {
		if err := sh.add(int32(k), r, r.Area()); err != nil {
			return err
		}
	}
	for i := range p.Bends {
		lines := sh.lines(i)
		for _, r := range zones[i] {
			if err := sh.strips(i, r, lines); err != nil {
				return err
			}
		}
	}
	return nil
}

// level puts every corner that a panel or a zone has on the tangent line between them into the other's edge too.
func (sh *sheet) level(panels []geom.Region, zones [][]geom.Region) {
	p := sh.part
	for i := range p.Bends {
		b := &p.Bends[i]
		on := func(side int, q geom.Vec2) bool {
			_, s := b.Coord(q)
			return math.Abs(s-float64(side)*b.Allowance) <= onLine
		}
		for side := range 2 {
			if side == 1 && b.Allowance == 0 {
				break // a crease has one line
			}
			own := []int{b.A, b.B}
			if b.Allowance > 0 {
				own = own[side : side+1]
			}
			var marks []geom.Vec2 // corners on the line
			take := func(r geom.Region, edge func(loop, k int) bool) {
				for n, l := range r.Loops() {
					for k, q := range l {
						if w := l[(k+1)%len(l)]; on(side, q) && on(side, w) && edge(n, k) {
							marks = append(marks, q, w)
						}
					}
				}
			}
			any := func(_, _ int) bool { return true }
			for _, r := range zones[i] {
				take(r, any)
			}
			for _, k := range own {
				take(panels[k], any)
			}
			geom.SortStable(marks, func(x, y geom.Vec2) int {
				ux, _ := b.Coord(x)
				uy, _ := b.Coord(y)
				return cmp.Compare(ux, uy)
			})
			marks = slices.Compact(marks)
			put := func(r *geom.Region) { *r = insert(*r, b, marks, func(q geom.Vec2) bool { return on(side, q) }) }
			for n := range zones[i] {
				if n == 0 && side == 0 {
					zones[i] = slices.Clone(zones[i])
				}
				put(&zones[i][n])
			}
			for _, k := range own {
				put(&panels[k])
			}
		}
	}
}

// insert gives the region with the marks, sorted along the bend, that lie within its edges on the line.
func insert(r geom.Region, b *fold.Bend, marks []geom.Vec2, on func(geom.Vec2) bool) geom.Region {
	var out geom.Region
	for n, l := range r.Loops() {
		var to geom.Loop
		for k, q := range l {
			to = append(to, q)
			w := l[(k+1)%len(l)]
			if !on(q) || !on(w) {
				continue
			}
			uq, _ := b.Coord(q)
			uw, _ := b.Coord(w)
			lo, _ := slices.BinarySearchFunc(marks, min(uq, uw), func(m geom.Vec2, u float64) int {
				v, _ := b.Coord(m)
				return cmp.Compare(v, u)
			})
			var within []geom.Vec2
			for ; lo < len(marks); lo++ {
				if v, _ := b.Coord(marks[lo]); v >= max(uq, uw) {
					break
				} else if v > min(uq, uw) && marks[lo] != q && marks[lo] != w {
					within = append(within, marks[lo])
				}
			}
			if uq > uw {
				slices.Reverse(within)
			}
			to = append(to, within...)
		}
		if n == 0 {
			out.Outer = to
		} else {
			out.Holes = append(out.Holes, to)
		}
	}
	return out
}

// add cuts a region into triangles. area is what they must cover.
func (sh *sheet) add(body int32, r geom.Region, area float64) error {
	var flat []geom.Vec2
	for _, l := range r.Loops() {
		flat = append(flat, l...)
	}
	got := 0.0
	for _, t := range solid.Triangulate(r) {
		c := cell{body: body}
		for k := range 3 {
			c.v[k] = sh.point(flat[t[k]])
		}
		got += geom.Cross2(flat[t[1]].Sub(flat[t[0]]), flat[t[2]].Sub(flat[t[0]])) / 2
		sh.cells = append(sh.cells, c)
	}
	if 4*len(sh.cells) > maxTris {
		return fmt.Errorf("the model would have more than %d triangles; ask for a coarser chord", maxTris)
	}
	if math.Abs(got-area) > areaSlack*area+onLine*onLine {
		return fmt.Errorf("the blank can't be cut into triangles near %.1f, %.1f: its edges lie in each other there", flat[0][0], flat[0][1])
	}
	return nil
}

// facets is how many facets a bend is bent to over an angle, with the outer face at radius r.
func (sh *sheet) facets(angle geom.Angle, r float64) int {
	if angle <= 0 {
		return 0
	}
	step := float64(mostTurn)
	if sh.chord < r { // the sagitta r(1-cos(step/2)) is 2r sin^2(step/4)
		step = min(step, 4*math.Asin(math.Sqrt(sh.chord/(2*r))))
	}
	return int(min(maxFacets, math.Ceil(float64(angle)*(1+2*snapLine)/step)))
}

// inside is a bend's inside radius when its neutral line lies at radius rho.
func inside(b *fold.Bend, rho, t float64) float64 { return max(0, rho-b.K*t) }

// lines are how far across the zone its facets meet, and where what is bent ends.
func (sh *sheet) lines(bend int) []float64 {
	b := &sh.part.Bends[bend]
	rho, phi := b.Curl(sh.state[bend])
	at := min(rho*float64(phi), b.Allowance)
	n := sh.facets(phi, inside(b, rho, sh.part.Thickness)+sh.part.Thickness)
	var out []float64
	for k := 1; k <= n; k++ {
		if s := at * float64(k) / float64(n); s > onLine && s < b.Allowance-onLine {
			out = append(out, s)
		}
	}
	return out
}

// strips cuts a piece of a bend's zone along the lines, and what lies between them into triangles.
func (sh *sheet) strips(bend int, r geom.Region, lines []float64) error {
	b, body := &sh.part.Bends[bend], sh.zoneBody(bend)
	if len(lines) == 0 {
		return sh.add(body, r, r.Area())
	}
	var segs []geom.Segment
	lo, hi := math.Inf(1), math.Inf(-1)
	var across []float64
	for _, l := range r.Loops() {
		for k, q := range l {
			u, s := b.Coord(q)
			lo, hi = min(lo, u), max(hi, u)
			across = append(across, s)
			segs = append(segs, geom.Segment{A: q, B: l[(k+1)%len(l)], Tag: 1})
		}
	}
	slices.Sort(across)
	for k, s := range lines {
		width := s
		if k > 0 {
			width = s - lines[k-1]
		}
		if rho, phi := b.Curl(sh.state[bend]); math.Abs(s-rho*float64(phi)) > onLine { // the end of what is bent stays
			s = nearest(across, s, snapLine*width)
		}
		at := b.Q.Add(b.N.Mul(s))
		segs = append(segs, geom.Segment{A: at.Add(b.U.Mul(lo - 1)), B: at.Add(b.U.Mul(hi + 1))})
	}
	arr, spot := geom.Arrange(segs, stripWeld, 100*len(segs)+maxTris)
	if arr == nil {
		return fmt.Errorf("the zone of bend %s can't be cut into strips near %.1f, %.1f: its edges lie in each other there", b.Name, spot[0], spot[1])
	}
	in := make([]bool, len(arr.Faces))
	for h, f := range arr.Face { // every strip of metal ends at an edge of the piece, and lies on its left
		for _, t := range arr.Tags[h/2] {
			if segs[t.Segment].Tag == 1 && t.Along == (h%2 == 0) {
				in[f] = true
			}
		}
	}
	for f, ok := range in {
		if !ok || f == 0 {
			continue
		}
		var face geom.Region
		for k, h := range arr.Faces[f].Loops {
			if l := arr.LoopPoints(h); k == 0 {
				face.Outer = l
			} else {
				face.Holes = append(face.Holes, l)
			}
		}
		if err := sh.add(body, face, face.Area()); err != nil {
			return err
		}
	}
	return nil
}

// nearest is the value of a sorted list nearest to x, x itself where none lies within reach.
func nearest(list []float64, x, reach float64) float64 {
	k, _ := slices.BinarySearch(list, x)
	best := x
	for _, i := range [2]int{k - 1, k} {
		if i >= 0 && i < len(list) && math.Abs(list[i]-x) <= reach {
			reach = math.Abs(list[i] - x)
			best = list[i]
		}
	}
	return best
}
