package fold

// This file finds seams: named ones, notch pairs and reach pairs. gap.go measures them.

import (
	"cmp"
	"fmt"
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// freeEdge is a straight cut edge of a panel, as long as it stays straight.
type freeEdge struct {
	panel   int
	contour int
	a, b    geom.Vec2 // along the panel's boundary, material on the left
	used    [][2]float64
}

func (e *freeEdge) length() float64 { return e.b.Sub(e.a).Len() }

// freeEdges lists the straight cut edges of every panel, panel by panel.
func (p *Part) freeEdges() []freeEdge {
	var out []freeEdge
	for k := range p.Panels {
		for li, l := range p.Panels[k].Region.Loops() {
			es := p.Panels[k].Edges[li]
			n := len(l)
			straightFree := func(i int) bool { return es[i].Free() && es[i].Contour >= 0 && !es[i].Arc }
			first := len(out)
			for i := range l {
				if !straightFree(i) {
					continue
				}
				a, b := l[i], l[(i+1)%n]
				// Corners that a file repeats on a straight edge don't end it.
				if j := len(out) - 1; j >= first && i > 0 && straightFree(i-1) && out[j].contour == es[i].Contour &&
					straight(out[j].a, a, b, Weld) {
					out[j].b = b
					continue
				}
				out = append(out, freeEdge{panel: k, contour: es[i].Contour, a: a, b: b})
			}
			if j := len(out) - 1; j > first && straightFree(n-1) && straightFree(0) && out[first].a == l[0] &&
				out[j].contour == out[first].contour && straight(out[j].a, l[0], out[first].b, Weld) {
				out[first].a = out[j].a
				out = out[:j]
			}
		}
	}
	return out
}

// FindSeams gives the part's seams: named ones first, then notch pairs round
// each contour, then reach pairs, nearest first. Named seams that can't be found
// are named in the troubles. The part must be Foldable.
func (p *Part) FindSeams() ([]Seam, []Trouble) {
	edges := p.freeEdges()
	ps := p.Pose(p.Finished())
	f := &seamFinder{part: p, pose: ps, edges: edges}
	for i, s := range p.Spec.Seams {
		f.named(i, s)
	}
	f.notches()
	f.reaches()
	taken := map[string]bool{}
	for _, s := range f.seams {
		taken[s.Name] = true
	}
	for i := range f.seams {
		if f.seams[i].Name != "" {
			continue
		}
		base := p.Panels[f.seams[i].A].Name + " to " + p.Panels[f.seams[i].B].Name
		name := base
		for n := 2; taken[name]; n++ {
			name = fmt.Sprintf("%s %d", base, n)
		}
		taken[name] = true
		f.seams[i].Name = name
	}
	return f.seams, f.troubles
}

type seamFinder struct {
	part     *Part
	pose     Pose
	edges    []freeEdge
	seams    []Seam
	troubles []Trouble
}

// named takes seam s of the file: its points lie within SeamReach of one free edge each.
func (f *seamFinder) named(i int, s SeamSpec) {
	k := f.part.Spec.Units.Scale()
	name := s.Name
	if name == "" {
		name = fmt.Sprintf("seam %d", i+1)
	}
	var found [2]int
	for side, at := range []geom.Vec2{s.A.Mul(k), s.B.Mul(k)} {
		var near []int
		for j := range f.edges {
			if d, _ := geom.SegmentDistance(at, f.edges[j].a, f.edges[j].b); d <= SeamReach {
				near = append(near, j)
			}
		}
		if len(near) != 1 {
			what := "no free straight edge of a panel"
			if len(near) > 1 {
				what = fmt.Sprintf("%d free edges", len(near))
			}
			f.troubles = append(f.troubles, Trouble{Stop, "seam-name", "seam", name, at, number(float64(len(near))), number(1), sentence(
				"Point %s %s of seam %s lies within %g mm of %s; give a point on the middle of one.",
				[]string{"a", "b"}[side], f.part.spot(at), name, SeamReach, what)})
			return
		}
		found[side] = near[0]
	}
	if found[0] == found[1] || f.edges[found[0]].panel == f.edges[found[1]].panel {
		f.troubles = append(f.troubles, Trouble{Stop, "seam-name", "seam", name, s.A.Mul(k), nil, nil, fmt.Sprintf(
			"Both points of seam %s lie on %s; a seam joins two panels.", name, f.part.Panels[f.edges[found[0]].panel].Name)})
		return
	}
	seam := Seam{Name: name, Named: true, Open: s.Open, Join: s.Join}
	if s.Gap != nil {
		seam.Wanted = number(*s.Gap * k)
	}
	if !f.add(found[0], found[1], seam, 0) {
		f.troubles = append(f.troubles, Trouble{Stop, "seam-name", "seam", name, s.A.Mul(k), nil, nil, fmt.Sprintf(
			"The edges of seam %s do not lie side by side in the finished part.", name)})
	}
}

// line is a free edge's mid-thickness line in space.
func (f *seamFinder) line(j int) (a, b geom.Vec3) {
	e := &f.edges[j]
	t := f.part.Thickness / 2
	return f.pose.PanelPoint(e.panel, e.a, t), f.pose.PanelPoint(e.panel, e.b, t)
}

// shared gives the direction that two edges share, the stretch that both cover
// along it, and the sine-free measure of how far they turn from each other.
func (f *seamFinder) shared(i, j int) (e geom.Vec3, lo, hi float64, turn float64) {
	a0, a1 := f.line(i)
	b0, b1 := f.line(j)
	da, db := a1.Sub(a0).Normalize(), b1.Sub(b0).Normalize()
	if da.Dot(db) < 0 {
		db = db.Mul(-1)
	}
	turn = math.Atan2(da.Cross(db).Len(), da.Dot(db))
	e = da.Add(db).Normalize()
	al, ah := a0.Dot(e), a1.Dot(e)
	bl, bh := min(b0.Dot(e), b1.Dot(e)), max(b0.Dot(e), b1.Dot(e))
	return e, max(al, bl), min(ah, bh), turn
}

// stretch gives the part of edge j between lo and hi along e, as parameters 0..1.
func (f *seamFinder) stretch(j int, e geom.Vec3, lo, hi float64) [2]float64 {
	a, b := f.line(j)
	x, y := a.Dot(e), b.Dot(e)
	t0, t1 := (lo-x)/(y-x), (hi-x)/(y-x)
	return [2]float64{max(0, min(t0, t1)), min(1, max(t0, t1))}
}

// add makes the seam of edges i and j if they share a stretch longer than least
// that no other seam has used, and marks it used.
func (f *seamFinder) add(i, j int, s Seam, least float64) bool {
	e, lo, hi, _ := f.shared(i, j)
	if hi-lo <= max(least, Weld) {
		return false
	}
	// Take away what is used, keep the longest piece left.
	free := [][2]float64{{lo, hi}}
	for _, x := range []int{i, j} {
		a, b := f.line(x)
		for _, u := range f.edges[x].used {
			p := a.Add(b.Sub(a).Mul(u[0])).Dot(e)
			q := a.Add(b.Sub(a).Mul(u[1])).Dot(e)
			p, q = min(p, q), max(p, q)
			var next [][2]float64
			for _, r := range free {
				if l := [2]float64{r[0], min(r[1], p)}; l[1]-l[0] > Weld {
					next = append(next, l)
				}
				if h := [2]float64{max(r[0], q), r[1]}; h[1]-h[0] > Weld {
					next = append(next, h)
				}
			}
			free = next
		}
	}
	best := [2]float64{0, -1}
	for _, r := range free {
		if r[1]-r[0] > best[1]-best[0]+Weld {
			best = r
		}
	}
	if best[1]-best[0] <= max(least, Weld) {
		return false
	}
	cut := func(x int) [2]geom.Vec2 {
		t := f.stretch(x, e, best[0], best[1])
		f.edges[x].used = append(f.edges[x].used, t)
		d := f.edges[x].b.Sub(f.edges[x].a)
		return [2]geom.Vec2{f.edges[x].a.Add(d.Mul(t[0])), f.edges[x].a.Add(d.Mul(t[1]))}
	}
	s.A, s.B = f.edges[i].panel, f.edges[j].panel
	s.EdgeA, s.EdgeB = cut(i), cut(j)
	f.seams = append(f.seams, s)
	return true
}

// joined reports whether a bend joins the two panels.
func (p *Part) joined(a, b int) bool {
	for i := range p.Bends {
		if x := &p.Bends[i]; x.A == a && x.B == b || x.A == b && x.B == a {
			return true
		}
	}
	return false
}

// step is one edge met on the way round a contour of the blank.
type step struct {
	edge  int  // index into edges of a long panel edge; -1 for anything else
	bend  int  // the zone whose edge it is; -1
	round bool // part of a long arc of a panel
}

// notches pairs edges outwards from each notch of each contour: the edges next to
// every notch first, then those next to them, so that no pair is made while a
// nearer notch wants one of its edges; of the same depth the nearest first.
func (f *seamFinder) notches() {
	type pair struct {
		i, j int
		half float64 // of the shared stretch
		gap  float64
	}
	p := f.part
	for _, walk := range f.walks() {
		n := len(walk)
		long := []int{} // places in walk of long panel edges
		for i, s := range walk {
			if s.edge >= 0 {
				long = append(long, i)
			}
		}
		m := len(long)
		if m < 2 {
			continue
		}
		var open []int // notches that may have pairs further out
		for c := range long {
			if f.onlyNotch(walk, long[c], long[(c+1)%m], n) {
				open = append(open, c)
			}
		}
		for depth := 0; depth < m/2 && len(open) > 0; depth++ {
			var pairs []pair
			var next []int
			for _, c := range open {
				at := func(k int) int { return long[((c+k)%m+m)%m] }
				li, ri := at(-depth), at(1+depth)
				i, j := walk[li].edge, walk[ri].edge
				if i == j || f.edges[i].panel == f.edges[j].panel || p.joined(f.edges[i].panel, f.edges[j].panel) {
					continue
				}
				if depth > 0 && (roundBetween(walk, li, at(1-depth)) || roundBetween(walk, at(depth), ri)) {
					continue
				}
				e, lo, hi, turn := f.shared(i, j)
				if turn > NotchTurn || hi-lo < 0.5*min(f.edges[i].length(), f.edges[j].length()) {
					continue
				}
				pairs = append(pairs, pair{i, j, 0.5 * (hi - lo), f.edgeGap(i, j, e, lo, hi)})
				next = append(next, c)
			}
			geom.SortStable(pairs, func(x, y pair) int {
				if d := x.gap - y.gap; math.Abs(d) > Weld {
					return int(math.Copysign(1, d))
				}
				return 0
			})
			for _, q := range pairs {
				f.add(q.i, q.j, Seam{}, q.half)
			}
			open = next
		}
	}
}

// roundBetween reports whether a long arc lies between two places of a walk.
func roundBetween(walk []step, from, to int) bool {
	for i := (from + 1) % len(walk); i != to; i = (i + 1) % len(walk) {
		if walk[i].round {
			return true
		}
	}
	return false
}

// onlyNotch reports whether something lies between two long edges (a zone's edge at least).
func (f *seamFinder) onlyNotch(walk []step, l, r, n int) bool {
	for i := (l + 1) % n; i != r; i = (i + 1) % n {
		if walk[i].bend >= 0 {
			return true
		}
	}
	return false
}

// walks gives, for each contour of the blank, the edges met round it in order.
func (f *seamFinder) walks() [][]step {
	p := f.part
	type item struct {
		contour int
		a, b    geom.Vec2
		step    step
	}
	var items []item
	reach := make([]float64, len(p.Panels)) // panel edges shorter than this belong to a notch
	for i := range p.Bends {
		b := &p.Bends[i]
		for _, k := range []int{b.A, b.B} {
			reach[k] = max(reach[k], 2*b.Allowance, 2*(b.Radius+p.Thickness))
		}
	}
	for j := range f.edges {
		if e := &f.edges[j]; e.length() >= reach[e.panel] {
			items = append(items, item{e.contour, e.a, e.b, step{edge: j, bend: -1}})
		}
	}
	for k := range p.Panels {
		for li, l := range p.Panels[k].Region.Loops() {
			es := p.Panels[k].Edges[li]
			arcs := map[[2]int]float64{} // length of each arc of a contour
			for i, e := range es {
				if e.Free() && e.Contour >= 0 && e.Arc {
					arcs[[2]int{e.Contour, e.Index}] += l[(i+1)%len(l)].Sub(l[i]).Len()
				}
			}
			for i, e := range es {
				key := [2]int{e.Contour, e.Index}
				if e.Free() && e.Contour >= 0 && e.Arc && arcs[key] >= reach[k] {
					arcs[key] = -1 // one step is enough
					items = append(items, item{e.Contour, l[i], l[(i+1)%len(l)], step{edge: -1, bend: -1, round: true}})
				}
			}
		}
	}
	for bi := range p.Bends {
		for zi, r := range p.Bends[bi].Zone {
			for li, l := range r.Loops() {
				for i, e := range p.Bends[bi].ZoneEdges[zi][li] {
					if e.Free() && e.Contour >= 0 {
						items = append(items, item{e.Contour, l[i], l[(i+1)%len(l)], step{edge: -1, bend: bi}})
					}
				}
			}
		}
	}
	// Place each by how far round its contour its middle lies. Short edges of panels
	// belong to the notch and are passed over.
	contours := append([]geom.Loop{p.Outline}, p.Voids...)
	rounds := make([]*round, len(contours))
	type placed struct {
		at float64
		it item
	}
	byContour := make([][]placed, len(contours))
	for _, it := range items {
		if it.contour < len(contours) {
			if rounds[it.contour] == nil {
				rounds[it.contour] = newRound(contours[it.contour])
			}
			byContour[it.contour] = append(byContour[it.contour], placed{rounds[it.contour].middle(it.a, it.b), it})
		}
	}
	var out [][]step
	for _, ps := range byContour {
		geom.SortStable(ps, func(x, y placed) int {
			return cmp.Compare(x.at, y.at)
		})
		var w []step
		for _, q := range ps {
			w = append(w, q.it.step)
		}
		if len(w) > 0 {
			out = append(out, w)
		}
	}
	return out
}

// round tells how far round a loop, from its first corner, an edge of it lies.
type round struct {
	loop geom.Loop
	from []float64 // of each corner
	at   map[geom.Vec2]int
}

func newRound(l geom.Loop) *round {
	r := &round{l, make([]float64, len(l)+1), make(map[geom.Vec2]int, len(l))}
	for i, a := range l {
		r.at[a] = i
		r.from[i+1] = r.from[i] + l[(i+1)%len(l)].Sub(a).Len()
	}
	return r
}

// middle is how far round the middle of the straight stretch a-b of the loop lies.
// Where neither end is a corner, as where bends cross one long edge, it is looked for.
func (r *round) middle(a, b geom.Vec2) float64 {
	half := b.Sub(a).Len() / 2
	if i, ok := r.at[a]; ok {
		return r.from[i] + half
	}
	if i, ok := r.at[b]; ok {
		if i == 0 {
			i = len(r.loop)
		}
		return r.from[i] - half
	}
	p := a.Add(b).Mul(0.5)
	best, at := math.Inf(1), 0.0
	for i, c := range r.loop {
		if d, t := geom.SegmentDistance(p, c, r.loop[(i+1)%len(r.loop)]); d < best-Weld {
			best, at = d, r.from[i]+t*(r.from[i+1]-r.from[i])
		}
	}
	return at
}

// reaches pairs other edges that come near each other in the finished part.
func (f *seamFinder) reaches() {
	p := f.part
	reach := max(5, 4*p.Thickness)
	least := max(10, 8*p.Thickness)
	type pair struct {
		i, j int
		gap  float64
	}
	type box struct{ b geom.Box3 }
	boxes := make([]box, len(f.edges))
	var byX []int // long enough edges, by where they begin along x
	for j := range f.edges {
		e := &f.edges[j]
		if e.length() >= least {
			byX = append(byX, j)
		}
		bx := geom.EmptyBox3()
		for _, q := range []geom.Vec2{e.a, e.b} {
			bx.Add(f.pose.PanelPoint(e.panel, q, 0))
			bx.Add(f.pose.PanelPoint(e.panel, q, p.Thickness))
		}
		boxes[j] = box{bx}
	}
	geom.SortStable(byX, func(x, y int) int { return cmp.Compare(boxes[x].b.Min[0], boxes[y].b.Min[0]) })
	far := func(a, b geom.Box3) bool {
		for k := 1; k < 3; k++ {
			if a.Min[k] > b.Max[k]+reach || b.Min[k] > a.Max[k]+reach {
				return true
			}
		}
		return false
	}
	var pairs []pair
	for n, x := range byX {
		for _, y := range byX[n+1:] {
			i, j := min(x, y), max(x, y)
			if boxes[y].b.Min[0] > boxes[x].b.Max[0]+reach {
				break
			}
			pi, pj := f.edges[i].panel, f.edges[j].panel
			if pi == pj || far(boxes[i].b, boxes[j].b) || p.joined(pi, pj) {
				continue
			}
			e, lo, hi, turn := f.shared(i, j)
			if turn > ReachTurn || hi-lo < least {
				continue
			}
			if d := f.edgeGap(i, j, e, lo, hi); d <= reach {
				pairs = append(pairs, pair{i, j, d})
			}
		}
	}
	geom.SortStable(pairs, func(x, y pair) int {
		if d := x.gap - y.gap; math.Abs(d) > Weld {
			return int(math.Copysign(1, d))
		}
		if x.i != y.i {
			return x.i - y.i
		}
		return x.j - y.j
	})
	for _, q := range pairs {
		f.add(q.i, q.j, Seam{}, least-Weld)
	}
}

// edgeGap is the least distance of two thick edges, each the rectangle of an edge
// and the sheet's thickness, within lo..hi along e.
func (f *seamFinder) edgeGap(i, j int, e geom.Vec3, lo, hi float64) float64 {
	quad := func(x int) [4]geom.Vec3 {
		t := f.stretch(x, e, lo, hi)
		ed := &f.edges[x]
		d := ed.b.Sub(ed.a)
		a, b := ed.a.Add(d.Mul(t[0])), ed.a.Add(d.Mul(t[1]))
		return [4]geom.Vec3{
			f.pose.PanelPoint(ed.panel, a, 0), f.pose.PanelPoint(ed.panel, b, 0),
			f.pose.PanelPoint(ed.panel, b, f.part.Thickness), f.pose.PanelPoint(ed.panel, a, f.part.Thickness),
		}
	}
	// Sheets stand edge on: the nearest points of two such rectangles lie on their sides.
	p, q := quad(i), quad(j)
	best := math.Inf(1)
	for k := range 4 {
		for m := range 4 {
			x, y := solid.Segments(p[k], p[(k+1)%4], q[m], q[(m+1)%4])
			best = min(best, x.Sub(y).Len())
		}
	}
	return best
}
