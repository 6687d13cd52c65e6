package fold

// This file cuts the blank: an arrangement of the contours and the bends' tangent
// lines, its faces sorted into panels, zones and overlaps.

import (
	"math"
	"slices"

	"dryfold/fold/geom"
)

// segKind says what an arrangement's input segment is.
type segKind struct {
	chord int // index into cutter.chords, or -1
	bend  int // for tangent lines and plain creases; -1 else
}

// arrange builds the arrangement of every chord, tangent line and zone end. A blank
// whose lines run through each other without end is refused, not worked through.
func (b *cutter) arrange() bool {
	add := func(p, q geom.Vec2, k segKind) {
		b.segs = append(b.segs, geom.Segment{A: p, B: q, Tag: len(b.kinds)})
		b.kinds = append(b.kinds, k)
	}
	for i, c := range b.chords {
		add(c.a, c.b, segKind{i, -1})
	}
	for i := range b.zones {
		z := &b.zones[i]
		if z.half == 0 {
			for _, r := range z.runs {
				add(z.at(r[0], 0), z.at(r[1], 0), segKind{-1, i})
			}
			continue
		}
		if len(z.runs) == 0 {
			continue
		}
		for _, side := range []float64{-z.half, z.half} {
			add(z.at(z.from, side), z.at(z.to, side), segKind{-1, i})
		}
		ends := []float64{z.from, z.to}
		for _, r := range z.runs {
			ends = append(ends, r[0], r[1])
		}
		slices.Sort(ends)
		for _, e := range slices.Compact(ends) {
			add(z.at(e, -z.half), z.at(e, z.half), segKind{-1, -1})
		}
	}
	var at geom.Vec2
	if b.arr, at = geom.Arrange(b.segs, Weld, maxPairs+8*len(b.segs)); b.arr == nil {
		b.part.trouble(Stop, "blank-overlap", "", "", at, nil, nil, sentence(
			"The lines of the blank run through each other in a great many places, near %s among them. Give each edge, hole and bend once, in order.", b.part.spot(at)))
		return false
	}
	return true
}

// maxPairs: a blank with more pairs of lines near each other than this (and eight for
// each line) is tangled. Blanks that can be cut have about three for each line.
const maxPairs = 200_000

// chordAlong gives the chord that runs along edge e, or -1.
func (b *cutter) chordAlong(e int) int {
	for _, t := range b.arr.Tags[e] {
		if c := b.kinds[t.Segment].chord; c >= 0 {
			return c
		}
	}
	return -1
}

// hasTangent reports whether bend i's tangent line (or crease) runs along edge e.
func (b *cutter) hasTangent(e, i int) bool {
	for _, t := range b.arr.Tags[e] {
		if b.kinds[t.Segment].bend == i {
			return true
		}
	}
	return false
}

// crease gives the bend of no width that runs along edge e, or -1.
func (b *cutter) crease(e int) int {
	for _, t := range b.arr.Tags[e] {
		if i := b.kinds[t.Segment].bend; i >= 0 && b.zones[i].half == 0 {
			return i
		}
	}
	return -1
}

// checkContours finds outlines that cross or touch themselves and voids that leave
// the sheet. Every corner of clean contours has just two edges.
func (b *cutter) checkContours() bool {
	p := b.part
	degree := make([]int, len(b.arr.Points))
	seen := make([][]int, len(b.arr.Points)) // contours at a point with more than one
	for e := range b.arr.Tags {
		n := 0
		for _, t := range b.arr.Tags[e] {
			if c := b.kinds[t.Segment].chord; c >= 0 {
				n++
				for _, v := range []int{b.arr.From[2*e], b.arr.From[2*e+1]} {
					degree[v]++
					if !slices.Contains(seen[v], b.chords[c].contour) {
						seen[v] = append(seen[v], b.chords[c].contour)
					}
				}
			}
		}
	}
	ok := true
	told := map[[2]int]bool{}
	for v, d := range degree {
		if d <= 2 {
			continue
		}
		at := b.arr.Points[v]
		slices.Sort(seen[v])
		if len(seen[v]) == 1 {
			c := seen[v][0]
			if told[[2]int{c, c}] {
				continue
			}
			told[[2]int{c, c}] = true
			ok = false
			if c == 0 {
				p.trouble(Stop, "blank-overlap", "", "", at, nil, nil, sentence(
					"The blank's outline crosses or touches itself near %s: two flanges lie in each other there. Shorten one, or move the corner.", p.spot(at)))
			} else {
				p.trouble(Stop, "blank-overlap", "hole", p.voidName(c), at, nil, nil, sentence(
					"The outline of %s crosses or touches itself near %s; give its corners in order round it.", p.voidName(c), p.spot(at)))
			}
			continue
		}
		for _, c := range seen[v][1:] {
			key := [2]int{seen[v][0], c}
			if told[key] {
				continue
			}
			told[key] = true
			b.met = append(b.met, key[0], c)
			if key[0] == 0 {
				p.trouble(Stop, "void-off-sheet", "hole", p.voidName(c), at, nil, nil, sentence(
					"The edge of %s runs out of the sheet near %s. Move it on to the sheet, or draw it as part of the outline.", p.voidName(c), p.spot(at)))
			} else {
				p.trouble(Watch, "voids-meet", "hole", p.voidName(c), at, nil, nil, sentence(
					"%s and %s run into each other near %s; draw them as one cutout.", p.voidName(key[0]), p.voidName(c), p.spot(at)))
			}
		}
	}
	return ok
}

// classify tells for each face whether it is material and which zones hold it.
func (b *cutter) classify() {
	n := len(b.arr.Faces)
	b.inside = make([]bool, n)
	b.owner = make([]int, n)
	b.core = make([]bool, n)
	b.crowd = map[int][]int{}
	out, void := make([]int, n), make([]int, n)
	seen := make([]bool, n)
	seen[0] = true
	queue := []int{0}
	faceEdges := func(f int, visit func(h int)) {
		for _, h := range b.arr.Faces[f].Loops {
			visit(h)
			for k := b.arr.Next[h]; k != h; k = b.arr.Next[k] {
				visit(k)
			}
		}
	}
	for len(queue) > 0 {
		f := queue[0]
		queue = queue[1:]
		b.inside[f] = out[f] > 0 && void[f] == 0
		faceEdges(f, func(h int) {
			g := b.arr.Face[geom.Twin(h)]
			if seen[g] {
				return
			}
			seen[g] = true
			out[g], void[g] = out[f], void[f]
			for _, t := range b.arr.Tags[h/2] {
				c := b.kinds[t.Segment].chord
				if c < 0 {
					continue
				}
				step := 1 // crossing from the chord's right to its left
				if t.Along == (h%2 == 0) {
					step = -1
				}
				if b.chords[c].contour == 0 {
					out[g] += step
				} else {
					void[g] -= step
				}
			}
			queue = append(queue, g)
		})
	}

	b.checkPlaces(out, void)

	const none = -1
	owners := make([][]int, n)
	for i := range b.owner {
		b.owner[i] = none
	}
	coreOf := make([][]int, n)
	cand := make([][]int, n)
	for f := 1; f < n; f++ {
		if !b.inside[f] {
			continue
		}
		q, _ := b.arr.Inside(f)
		for i := range b.zones {
			z := &b.zones[i]
			if z.half == 0 || len(z.runs) == 0 {
				continue
			}
			s, t := z.coord(q)
			if math.Abs(t) >= z.half || s <= z.from || s >= z.to {
				continue
			}
			cand[f] = append(cand[f], i)
			if z.inRun(s) {
				coreOf[f] = append(coreOf[f], i)
			}
		}
	}
	for i := range b.zones { // flood from each core into its ears
		var queue []int
		mine := make(map[int]bool)
		for f := range coreOf {
			if slices.Contains(coreOf[f], i) {
				queue = append(queue, f)
				mine[f] = true
			}
		}
		for len(queue) > 0 {
			f := queue[0]
			queue = queue[1:]
			owners[f] = append(owners[f], i)
			faceEdges(f, func(h int) {
				g := b.arr.Face[geom.Twin(h)]
				if !mine[g] && b.inside[g] && len(coreOf[g]) == 0 && slices.Contains(cand[g], i) && b.chordAlong(h/2) < 0 {
					mine[g] = true
					queue = append(queue, g)
				}
			})
		}
	}
	for f := range owners {
		switch {
		case !b.inside[f]:
			b.owner[f] = faceOutside
		case len(owners[f]) == 0:
			b.owner[f] = facePanel
		case len(owners[f]) > 1:
			b.owner[f] = faceOverlap
			b.crowd[f] = owners[f]
			b.reportOverlap(f, owners[f])
		default:
			b.owner[f] = owners[f][0]
			b.core[f] = slices.Contains(coreOf[f], owners[f][0])
		}
	}
}

// checkPlaces names holes and cutouts that lie off the sheet, or inside another one.
// out and void say how often each face lies inside the outline and inside voids.
func (b *cutter) checkPlaces(out, void []int) {
	p := b.part
	told := make([]bool, 1+len(p.Spec.Cutouts)+len(p.Spec.Holes))
	for _, t := range p.Troubles {
		for c := 1; c < len(told); c++ {
			if t.Kind == "hole" && t.Name == p.voidName(c) {
				told[c] = true
			}
		}
	}
	for _, c := range b.met {
		told[c] = true
	}
	for e := range b.arr.Tags {
		for _, t := range b.arr.Tags[e] {
			i := b.kinds[t.Segment].chord
			if i < 0 || b.chords[i].contour == 0 || told[b.chords[i].contour] {
				continue
			}
			h := 2 * e // the half-edge that runs with the chord, the void on its right
			if !t.Along {
				h++
			}
			c, at := b.chords[i].contour, b.chords[i].a
			if j := c - 1 - len(p.Spec.Cutouts); j >= 0 {
				at = p.Spec.Holes[j].At.Mul(b.k)
			}
			told[c] = true
			switch f := b.arr.Face[h]; {
			case out[f] == 0:
				p.trouble(Stop, "void-off-sheet", "hole", p.voidName(c), at, nil, nil, sentence(
					"%s at %s lies off the sheet; move it on to the blank, or leave it out.", p.voidName(c), p.spot(at)))
			case void[f] > 0:
				p.trouble(Watch, "voids-meet", "hole", p.voidName(c), at, nil, nil, sentence(
					"%s at %s lies inside another hole or cutout; leave one of them out.", p.voidName(c), p.spot(at)))
			}
		}
	}
}

// Codes in cutter.owner; a number from 0 is the bend whose zone holds the face.
const (
	facePanel   = -1
	faceOverlap = -2
	faceOutside = -3
)

// reportOverlap names two zones that overlap, once a pair and place: a line inside
// the other's zone, two bends too near each other side by side, or a corner.
func (b *cutter) reportOverlap(f int, who []int) {
	p := b.part
	at, _ := b.arr.Inside(f)
	i, j := who[0], who[1]
	x, y := &p.Bends[i], &p.Bends[j]
	if b.crowded[[2]int{i, j}] {
		return
	}
	for _, t := range p.Troubles {
		if t.Rule == "zones-overlap" && t.Name == x.Name && t.At.Sub(at).Len() < 4*(x.Allowance+y.Allowance) {
			return
		}
	}
	for _, q := range [][2]int{{i, j}, {j, i}} {
		if d, ok := b.lineInZone(q[0], q[1]); ok {
			b.crowded[[2]int{i, j}] = true
			need := x.Allowance/2 + y.Allowance/2
			p.trouble(Stop, "line-in-zone", "bend", p.Bends[q[0]].Name, b.zones[q[0]].o, number(d), number(need), sentence(
				"The line of %s lies inside the zone of %s, %.1f mm from its line; move it to more than %.1f mm away.",
				theBend(p.Bends[q[0]].Name), theBend(p.Bends[q[1]].Name), d, need))
			return
		}
	}
	// Lines that do not cross near by run side by side.
	cross, ok := lineCrossing(b.zones[i].o, b.zones[i].u, b.zones[j].o, b.zones[j].u)
	if !ok || cross.Sub(at).Len() > 4*(x.Allowance+y.Allowance) {
		b.crowded[[2]int{i, j}] = true
		_, d := b.zones[j].coord(at.Add(b.zones[i].n.Mul(-b.across(i, at))))
		b.sayCrowd(i, []int{j}, math.Abs(d))
		return
	}
	d := b.reliefDiameter(f, cross)
	p.trouble(Watch, "zones-overlap", "bend", x.Name, at, nil, number(d), sentence(
		"%s crowd each other near %s: the metal there can't follow both. Cut a relief at least %.1f mm across about the point where their lines cross; draw it into the outline where it reaches the edge.",
		theBends([]string{x.Name, y.Name}), p.spot(at), d))
}

// reliefDiameter is that of the least round hole about the crossing of two lines that takes
// out overlap face f, with its chords, rounded up to 0.1 mm.
func (b *cutter) reliefDiameter(f int, cross geom.Vec2) float64 {
	r := 0.0
	for _, h := range b.arr.Faces[f].Loops {
		for _, q := range b.arr.LoopPoints(h) {
			r = max(r, q.Sub(cross).Len())
		}
	}
	return math.Ceil((2*(r+ArcChord))*10) / 10
}

// across is how far p lies from bend i's line.
func (b *cutter) across(i int, p geom.Vec2) float64 {
	_, t := b.zones[i].coord(p)
	return t
}

// lineInZone reports whether a run of bend i's line lies wholly in bend j's strip,
// and how far from j's line its middle is.
func (b *cutter) lineInZone(i, j int) (float64, bool) {
	z := &b.zones[j]
	for _, r := range b.zones[i].runs {
		in := true
		for _, t := range []float64{r[0], r[1]} {
			in = in && math.Abs(b.across(j, b.zones[i].at(t, 0))) < z.half
		}
		s, d := z.coord(b.zones[i].at((r[0]+r[1])/2, 0))
		if in && s > z.from && s < z.to {
			return math.Abs(d), true
		}
	}
	return 0, false
}

// sayCrowd names bends with no flat metal left between them; d is how far their lines lie apart.
func (b *cutter) sayCrowd(i int, others []int, d float64) {
	p := b.part
	var names []string
	most := 0.0
	for _, o := range others {
		names = append(names, theBend(p.Bends[o].Name))
		most = max(most, p.Bends[o].Allowance)
	}
	need := (p.Bends[i].Allowance + most) / 2
	p.trouble(Stop, "bends-crowd", "bend", p.Bends[i].Name, p.Bends[i].Line[0], number(d), number(need), sentence(
		"There is no flat metal left between %s and %s: their zones take up %.1f mm, their lines lie %.1f mm apart. Move them further apart.",
		theBend(p.Bends[i].Name), List(names), need, d))
}

// lineCrossing is where two lines, each by a point and a unit direction, cross.
func lineCrossing(p, u, q, v geom.Vec2) (geom.Vec2, bool) {
	den := geom.Cross2(u, v)
	if math.Abs(den) < 1e-9 {
		return geom.Vec2{}, false
	}
	return p.Add(u.Mul(geom.Cross2(q.Sub(p), v) / den)), true
}

// panels gathers the faces into panels, zones and overlaps.
func (b *cutter) panels() {
	p := b.part
	comp := b.components()
	b.group = make([]int, len(comp))
	for f := range b.group {
		b.group[f] = -1
	}
	regions := b.outlines(comp)
	firstFace := map[int]int{}
	var ids []int
	for f, c := range comp {
		if _, ok := firstFace[c]; c >= 0 && !ok {
			firstFace[c] = f
			ids = append(ids, c)
		}
	}
	for _, c := range ids {
		r, ok := regions[c]
		if !ok {
			continue
		}
		switch o := b.owner[firstFace[c]]; {
		case o == facePanel:
			if r.area < minFace { // dust between lines that nearly meet
				continue
			}
			for f := range comp {
				if comp[f] == c {
					b.group[f] = len(p.Panels)
				}
			}
			pt, _ := r.region.InsidePoint()
			p.Panels = append(p.Panels, Panel{Region: r.region, Edges: r.edges, Area: r.area, Parent: -1, Label: pt})
		case o == faceOverlap:
			p.Overlaps = append(p.Overlaps, r.region)
		case o >= 0 && r.area >= minFace:
			p.Bends[o].Zone = append(p.Bends[o].Zone, r.region)
			p.Bends[o].ZoneEdges = append(p.Bends[o].ZoneEdges, r.edges)
		}
	}
	for _, t := range p.Troubles { // voids that overlap or leave the sheet are not simply taken off
		if t.Rule == "voids-meet" || t.Rule == "void-off-sheet" {
			p.Blank.Area = 0
			for _, r := range regions {
				p.Blank.Area += r.area
			}
			return
		}
	}
}

// minFace: a panel or zone piece smaller than this is rounding, not metal (mm2).
const minFace = 1e-6

// components labels faces of one owner that hang together; -1 outside.
func (b *cutter) components() []int {
	comp := make([]int, len(b.arr.Faces))
	for i := range comp {
		comp[i] = -1
	}
	n := 0
	for f0 := range comp {
		if comp[f0] >= 0 || b.owner[f0] == faceOutside {
			continue
		}
		comp[f0] = n
		queue := []int{f0}
		for len(queue) > 0 {
			f := queue[0]
			queue = queue[1:]
			for _, start := range b.arr.Faces[f].Loops {
				for h := start; ; {
					g := b.arr.Face[geom.Twin(h)]
					if comp[g] < 0 && b.owner[g] == b.owner[f] && b.chordAlong(h/2) < 0 && b.crease(h/2) < 0 {
						comp[g] = n
						queue = append(queue, g)
					}
					if h = b.arr.Next[h]; h == start {
						break
					}
				}
			}
		}
		n++
	}
	return comp
}

// piece is a connected region cut out of the blank.
type piece struct {
	region geom.Region
	edges  [][]Edge
	area   float64
}

// outlines traces the boundary of each component.
func (b *cutter) outlines(comp []int) map[int]*piece {
	a := b.arr
	border := func(h int) bool {
		c := comp[a.Face[h]]
		return c >= 0 && (comp[a.Face[geom.Twin(h)]] != c || b.crease(h/2) >= 0 || b.chordAlong(h/2) >= 0)
	}
	out := map[int]*piece{}
	done := make([]bool, len(a.From))
	for h0 := range a.From {
		if done[h0] || !border(h0) {
			continue
		}
		c := comp[a.Face[h0]]
		var loop geom.Loop
		var edges []Edge
		arcs := 0.0
		for h := h0; !done[h]; {
			done[h] = true
			loop = append(loop, a.Points[a.From[h]])
			edges = append(edges, b.edge(h))
			if ci := b.chordAlong(h / 2); ci >= 0 && b.chords[ci].arc != nil {
				arcs += b.chords[ci].arc.segmentArea(a.Points[a.From[h]], a.Points[a.To(h)])
			}
			for h = a.Next[h]; !border(h); {
				h = a.Next[geom.Twin(h)]
			}
		}
		loop, edges = dropStraight(loop, edges)
		if len(loop) < 3 {
			continue
		}
		r := out[c]
		if r == nil {
			r = &piece{}
			out[c] = r
		}
		area := loop.Area()
		r.area += area + arcs
		if area > 0 && r.region.Outer == nil {
			r.region.Outer = loop
			r.edges = append([][]Edge{edges}, r.edges...)
		} else if area <= 0 {
			r.region.Holes = append(r.region.Holes, loop)
			r.edges = append(r.edges, edges)
		}
	}
	for c, r := range out {
		if r.region.Outer == nil {
			delete(out, c)
		}
	}
	return out
}

// edge says what boundary half-edge h is, seen from its own face.
func (b *cutter) edge(h int) Edge {
	if c := b.chordAlong(h / 2); c >= 0 {
		ch := b.chords[c]
		return Edge{Bend: -1, Contour: ch.contour, Index: ch.index, Arc: ch.arc != nil}
	}
	if i := b.crease(h / 2); i >= 0 {
		return Edge{Bend: i, Contour: -1}
	}
	me, other := b.owner[b.arr.Face[h]], b.owner[b.arr.Face[geom.Twin(h)]]
	if me < 0 {
		me, other = other, me
	}
	if me >= 0 && other == facePanel && b.hasTangent(h/2, me) {
		return Edge{Bend: me, Contour: -1}
	}
	return Edge{Bend: -1, Contour: -1}
}

// dropStraight leaves out corners that lie on a straight line between two edges of one kind.
func dropStraight(l geom.Loop, e []Edge) (geom.Loop, []Edge) {
	const flat = 1e-9 // mm a corner may stand off the line between its neighbours
	n := len(l)
	start := -1
	for i := range l {
		prev := (i + n - 1) % n
		if e[prev] != e[i] || !straight(l[prev], l[i], l[(i+1)%n], flat) {
			start = i
			break
		}
	}
	if start < 0 {
		return l, e
	}
	var ol geom.Loop
	var oe []Edge
	for k := range n {
		i := (start + k) % n
		if k > 0 && e[(i+n-1)%n] == e[i] && straight(ol[len(ol)-1], l[i], l[(i+1)%n], flat) {
			continue
		}
		ol = append(ol, l[i])
		oe = append(oe, e[i])
	}
	return ol, oe
}

// straight reports whether q lies within tol of the line p-r and between them.
func straight(p, q, r geom.Vec2, tol float64) bool {
	d := r.Sub(p)
	l := d.Len()
	return l > 0 && math.Abs(geom.Cross2(d, q.Sub(p))) <= tol*l && q.Sub(p).Dot(r.Sub(q)) > 0
}
