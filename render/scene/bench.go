package scene

import (
	"dryfold/fold"
	"dryfold/fold/geom"
)

// This file draws what lies on the bench: the scribed blank and the shadow.

// blankLines is the blank as scribed, cut once a part.
type blankLines struct {
	outline []scribed
	bends   [][2]geom.Vec2
	holes   []fold.Hole // mm
	in      []fold.Body // the solid each hole is in; Index -1 where it is in none or in two
}

// scribed is one line of the outline or a void with the edge of the file it comes from.
type scribed struct {
	a, b           geom.Vec2
	contour, index int // -1 where it is not known
}

// scribe collects the blank's lines. Where panels are known their free edges say
// which edge of the file each line is; else the plain outline is taken.
func scribe(p *fold.Part) blankLines {
	var bl blankLines
	k := p.Spec.Units.Scale()
	for _, h := range p.Spec.Holes {
		bl.holes = append(bl.holes, fold.Hole{At: h.At.Mul(k), Diameter: h.Diameter * k})
	}
	for i := range p.Bends {
		bl.bends = append(bl.bends, p.Bends[i].Line)
	}
	if !p.Foldable {
		for _, l := range append([]geom.Loop{p.Outline}, p.Voids...) {
			for i, a := range l {
				bl.outline = append(bl.outline, scribed{a, l[(i+1)%len(l)], -1, -1})
			}
		}
		for _, b := range p.Spec.Bends {
			if len(p.Bends) == 0 {
				bl.bends = append(bl.bends, [2]geom.Vec2{b.Line[0].Mul(k), b.Line[1].Mul(k)})
			}
		}
		return bl
	}
	bl.in = make([]fold.Body, len(bl.holes))
	for i := range bl.in {
		bl.in[i].Index = -1
	}
	first := 1 + len(p.Spec.Cutouts)
	take := func(body fold.Body, r geom.Region, edges [][]fold.Edge) {
		for n, l := range r.Loops() {
			for i, a := range l {
				if n < len(edges) && i < len(edges[n]) && edges[n][i].Free() && edges[n][i].Contour >= 0 {
					bl.outline = append(bl.outline, scribed{a, l[(i+1)%len(l)], edges[n][i].Contour, edges[n][i].Index})
					if h := edges[n][i].Contour - first; h >= 0 && h < len(bl.in) && n > 0 {
						bl.in[h] = body
					}
				}
			}
		}
	}
	for i := range p.Panels {
		take(fold.Body{Index: i}, p.Panels[i].Region, p.Panels[i].Edges)
	}
	for i := range p.Bends {
		for n, r := range p.Bends[i].Zone {
			if n < len(p.Bends[i].ZoneEdges) {
				take(fold.Body{Zone: true, Index: i}, r, p.Bends[i].ZoneEdges[n])
			}
		}
	}
	for _, r := range p.Overlaps { // what is left out of the solids is still on the sheet
		for _, l := range r.Loops() {
			for i, a := range l {
				bl.outline = append(bl.outline, scribed{a, l[(i+1)%len(l)], -1, -1})
			}
		}
	}
	return bl
}

func onBench(p geom.Vec2) geom.Vec3 { return geom.Vec3{p[0], p[1], 0} }

// scribeBlank draws the blank on the bench, with what is selected lit.
func (s *Scene) scribeBlank() {
	p, pal, bl := s.Picture.Part, s.Picture.Colours(), &s.Mesher.blank
	sel, cutouts := s.Picture.Select, len(p.Spec.Cutouts)
	line := func(a, b geom.Vec2, w float32, c Colour) {
		s.Lines = append(s.Lines, Line{A: onBench(a), B: onBench(b), Width: w, C: c})
	}
	for i := range bl.outline {
		o := &bl.outline[i]
		w, c := float32(scribeWide), pal.Scribe
		if sel.Kind == Edge && o.contour == sel.Contour && o.index == sel.Index ||
			sel.Kind == Cutout && o.contour == 1+sel.Index && sel.Index < cutouts ||
			sel.Kind == Hole && o.contour == 1+cutouts+sel.Index {
			w, c = inkLit, pal.Accent
		}
		line(o.a, o.b, w, c)
	}
	for i, b := range bl.bends {
		if sel.Kind == Bend && sel.Index == i {
			line(b[0], b[1], inkLit, pal.Accent)
		} else {
			line(b[0], b[1], scribeThin, pal.Scribe.Alpha(.8))
		}
	}
	for i, h := range bl.holes { // a centre-punch cross, a third over the hole's edge
		c := pal.Scribe
		if sel.Kind == Hole && sel.Index == i {
			c = pal.Accent
		}
		r := h.Diameter * .7
		line(h.At.Add(geom.Vec2{-r, 0}), h.At.Add(geom.Vec2{r, 0}), scribeThin, c)
		line(h.At.Add(geom.Vec2{0, -r}), h.At.Add(geom.Vec2{0, r}), scribeThin, c)
	}
	s.litFills()
	if b := s.Mesher.box; len(p.Outline) > 2 && !s.Picture.Dims { // the sizes take their place
		off, mid := b.Size().Len()*.035, b.Min.Add(b.Max).Mul(.5)
		s.Labels = append(s.Labels,
			Label{At: geom.Vec3{b.Min[0] - off, mid[1], 0}, Text: "A", Style: StyleDatum},
			Label{At: geom.Vec3{mid[0], b.Min[1] - off, 0}, Text: "B", Style: StyleDatum})
	}
}

// litFills tints the selected panel or zone on the bench.
func (s *Scene) litFills() {
	sel := s.Picture.Select
	var pl *plate
	switch {
	case sel.Index < 0:
	case sel.Kind == Panel && sel.Index < len(s.Mesher.panels):
		pl = &s.Mesher.panels[sel.Index]
	case sel.Kind == Bend && sel.Index < len(s.Mesher.zones):
		pl = &s.Mesher.zones[sel.Index]
	}
	if pl == nil {
		return
	}
	c := s.Picture.Colours().Accent.Alpha(.22)
	for _, t := range pl.tris {
		s.Fills = append(s.Fills, Fill{[3]geom.Vec3{onBench(pl.pts[t[0]]), onBench(pl.pts[t[1]]), onBench(pl.pts[t[2]])}, c})
	}
	for _, w := range pl.walls {
		s.Lines = append(s.Lines, Line{A: onBench(pl.pts[w.a]), B: onBench(pl.pts[w.b]), Width: scribeWide * 1.4, C: s.Picture.Colours().Accent})
	}
}

// Shadow is the soft contact shadow on the bench: a grid of alphas (0..255) over
// Box, N cells a side, row by row from Box.Min. N is 0 for none.
type Shadow struct {
	Box   geom.Box2
	N     int
	Alpha []uint8
	work  []float32
}

// castShadow lets every upper face fall on the bench along the lamp's light, darker
// the nearer it is, and blurs it.
func (s *Scene) castShadow() {
	if len(s.Tris) == 0 {
		return
	}
	const n = shadowCells
	sh := &s.Shadow
	sh.Box = geom.EmptyBox2()
	fall := func(p geom.Vec3) geom.Vec2 { // a lamp nearly overhead: long shadows would only clutter
		return geom.Vec2{p[0] - .45*p[2]*sun[0]/sun[2], p[1] - .45*p[2]*sun[1]/sun[2]}
	}
	sh.Box.Add(geom.Vec2{s.Box.Min[0], s.Box.Min[1]})
	sh.Box.Add(geom.Vec2{s.Box.Max[0], s.Box.Max[1]})
	sh.Box.Add(fall(geom.Vec3{s.Box.Min[0], s.Box.Min[1], s.Box.Max[2]}))
	sh.Box.Add(fall(s.Box.Max))
	pad := sh.Box.Size().Len() * .09
	sh.Box.Min, sh.Box.Max = sh.Box.Min.Sub(geom.Vec2{pad, pad}), sh.Box.Max.Add(geom.Vec2{pad, pad})
	size := sh.Box.Size()
	sh.N = n
	if len(sh.work) != 2*n*n {
		sh.work, sh.Alpha = make([]float32, 2*n*n), make([]uint8, n*n)
	}
	clear(sh.work)
	g, tmp := sh.work[:n*n], sh.work[n*n:]
	reach := s.partSize() * .5
	bends, cell := s.Picture.Part.Bends, min(size[0], size[1])/n
	for _, t := range s.Tris {
		if t.Face != Upper || t.Body.Zone && bends[t.Body.Index].Allowance < cell {
			continue // a bend narrower than a cell has no shadow beside its panels'
		}
		var q [3]geom.Vec2
		z := 0.0
		for k, v := range t.V {
			p := s.Verts[v].P
			f := fall(p).Sub(sh.Box.Min)
			q[k] = geom.Vec2{f[0] / size[0] * n, f[1] / size[1] * n}
			z += p[2] / 3
		}
		stamp(g, n, q, float32(1/(1+3*z/reach)))
	}
	r := max(1, n/30)
	for range 2 {
		blur(tmp, g, n, r)
		blur(g, tmp, n, r)
	}
	deepest := s.Picture.Colours().shadow * 255
	for i, v := range g {
		sh.Alpha[i] = uint8(min(1, v) * deepest)
	}
}

// partSize is the diagonal of the standing part's box, mm.
func (s *Scene) partSize() float64 { return max(1e-6, s.Box.Size().Len()) }

// stamp raises the cells that a triangle touches to v at least: thin walls cast too.
func stamp(g []float32, n int, q [3]geom.Vec2, v float32) {
	if geom.Cross2(q[1].Sub(q[0]), q[2].Sub(q[0])) < 0 {
		q[1], q[2] = q[2], q[1]
	}
	x0, x1 := min(q[0][0], q[1][0], q[2][0]), max(q[0][0], q[1][0], q[2][0])
	y0, y1 := min(q[0][1], q[1][1], q[2][1]), max(q[0][1], q[1][1], q[2][1])
	// A side with the triangle on its left is passed by centres within half a cell of
	// it: dx*(y-qy) - dy*(x-qx) + slack >= 0, which bounds x on one side in each row.
	var at, slope [3]float64 // x = at + slope*y on the bound
	var side [3]int8
	for k := range q {
		a, b := q[k], q[(k+1)%3]
		dx, dy := b[0]-a[0], b[1]-a[1]
		if dy == 0 {
			continue // y0 and y1 bound it already
		}
		slope[k] = dx / dy
		at[k] = a[0] - slope[k]*a[1] + .5*(abs(dx)+abs(dy))/dy
		side[k] = 1
		if dy < 0 {
			side[k] = -1
		}
	}
	for y, last := max(0, int(y0)), min(n-1, int(y1)); y <= last; y++ {
		lo, hi := max(0, x0-.5), min(float64(n)-.5, x1+.5)
		cy := float64(y) + .5
		for k := range side {
			if x := at[k] + slope[k]*cy; side[k] > 0 {
				hi = min(hi, x)
			} else if side[k] < 0 {
				lo = max(lo, x)
			}
		}
		row := g[y*n : y*n+n]
		for x, end := int(lo+.5), min(n-1, int(hi+.5)-1); x <= end; x++ {
			if row[x] < v {
				row[x] = v
			}
		}
	}
}

func abs(x float64) float64 { return max(x, -x) }

// blur is a box blur of radius r along rows, written turned a quarter, so that two
// calls blur both ways.
func blur(dst, src []float32, n, r int) {
	w := 1 / float32(2*r+1)
	for y := range n {
		row := src[y*n : y*n+n]
		sum := float32(0)
		for x := range r {
			sum += row[x]
		}
		for x := range n {
			if x+r < n {
				sum += row[x+r]
			}
			if x-r-1 >= 0 {
				sum -= row[x-r-1]
			}
			dst[x*n+y] = sum * w
		}
	}
}

// At is the shadow's alpha (0..1) at u, v (0..1 across the grid), between cells.
func (sh *Shadow) At(u, v float32) float32 {
	n := sh.N
	x, y := max(0, min(float32(n-1), u*float32(n)-.5)), max(0, min(float32(n-1), v*float32(n)-.5))
	i, j := min(int(x), n-2), min(int(y), n-2)
	fx, fy := x-float32(i), y-float32(j)
	at := func(i, j int) float32 { return float32(sh.Alpha[j*n+i]) / 255 }
	return (at(i, j)*(1-fx)+at(i+1, j)*fx)*(1-fy) + (at(i, j+1)*(1-fx)+at(i+1, j+1)*fx)*fy
}
