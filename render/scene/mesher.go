package scene

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// Mesher holds what is the same at every pose of a part: each panel and zone cut
// into triangles on the blank. It is made once a part and then only read.
type Mesher struct {
	part   *fold.Part
	panels []plate
	zones  []plate // all regions of a bend in one
	box    geom.Box2
	blank  blankLines
	grain  grainMark
}

// plate is a flat area of the blank cut into triangles; its sheet's two faces and
// cut faces are made from it by placing each point at z = 0 and z = T.
type plate struct {
	pts   []geom.Vec2
	tris  [][3]int32
	walls []wall // boundary edges in loop order, outer counter-clockwise
	seams []rung // zones: lines along the bend between facets
	grid  []float64
}

// wall is a boundary edge from point a to b; the next one starts at b unless last.
type wall struct {
	a, b int32
	edge fold.Edge
	next int32 // the wall that starts at b
	fine bool  // continues the same straight cut from the wall before: no edge between
}

// rung is a line across a zone at one of its grid lines.
type rung struct {
	a, b int32
	k    int // the grid line: 0 the held tangent line, len(grid)-1 the swinging one
}

// NewMesher cuts a part's panels and zones. A part that is not Foldable gives a
// Mesher of the blank's outline alone.
func NewMesher(p *fold.Part) *Mesher {
	m := &Mesher{part: p, box: geom.EmptyBox2(), grain: grainMark{panel: -1}}
	if p == nil {
		return m
	}
	for _, v := range p.Outline {
		m.box.Add(v)
	}
	m.blank = scribe(p)
	if !p.Foldable {
		return m
	}
	m.grain = findGrain(p)
	m.panels = make([]plate, len(p.Panels))
	for i := range p.Panels {
		m.panels[i].add(p.Panels[i].Region, p.Panels[i].Edges, nil, nil)
	}
	m.zones = make([]plate, len(p.Bends))
	for i := range p.Bends {
		b := &p.Bends[i]
		pl := &m.zones[i]
		pl.grid = strips(b, p.Thickness)
		for k, r := range b.Zone {
			var e [][]fold.Edge
			if k < len(b.ZoneEdges) {
				e = b.ZoneEdges[k]
			}
			pl.add(r, e, b, pl.grid)
		}
	}
	return m
}

// strips are the lines across the zone, from 0 to the allowance, at which it is
// cut so that no facet leaves the true cylinder by more than fold.DrawChord at
// the bend's full angle. Where the bend is still part flat the facets are only
// better: the chord of an arc that runs into its tangent lies nearer than that of the whole arc.
func strips(b *fold.Bend, t float64) []float64 {
	r := b.Radius + t
	// the greatest facet angle whose sagitta r(1-cos(a/2)) is DrawChord
	most := 2 * math.Acos(max(0, 1-fold.DrawChord/r))
	n := int(math.Ceil(1.1 * float64(max(b.Angle, b.Set)) / most)) // a tenth over, for the sharper curl on the nose
	n = max(2, min(n, MaxStrips))
	g := make([]float64, n+1)
	for i := range g {
		g[i] = b.Allowance * float64(i) / float64(n)
	}
	return g
}

// add cuts a region into the plate; with a bend, along its grid lines too.
func (pl *plate) add(r geom.Region, edges [][]fold.Edge, b *fold.Bend, grid []float64) {
	var flat []geom.Vec2
	for _, l := range r.Loops() {
		flat = append(flat, l...)
	}
	tris := solid.Triangulate(r)
	c := cutter{pl: pl, bend: b, grid: grid, index: map[geom.Vec2]int32{}}
	for _, t := range tris {
		c.triangle(flat[t[0]], flat[t[1]], flat[t[2]])
	}
	for k, l := range r.Loops() {
		first := int32(len(pl.walls))
		for i, p := range l {
			e := fold.Edge{Bend: -1, Contour: -1}
			if k < len(edges) && i < len(edges[k]) {
				e = edges[k][i]
			}
			c.wall(p, l[(i+1)%len(l)], e)
		}
		n := int32(len(pl.walls))
		for i := first; i < n; i++ {
			pl.walls[i].next = i + 1
		}
		if n > first {
			pl.walls[n-1].next = first
		}
	}
}

// cutter cuts triangles and edges along a zone's grid lines. Points are found
// again by their exact coordinates: an edge is always cut from its lesser end, so
// that both triangles beside it get the same points.
type cutter struct {
	pl    *plate
	bend  *fold.Bend
	grid  []float64
	index map[geom.Vec2]int32
}

func (c *cutter) point(p geom.Vec2) int32 {
	if i, ok := c.index[p]; ok {
		return i
	}
	i := int32(len(c.pl.pts))
	c.pl.pts = append(c.pl.pts, p)
	c.index[p] = i
	return i
}

// onGrid: a point nearer than this to a grid line lies on it, in shares of the
// strip. Float noise of the blank's cutting is a millionth of that.
const onGrid = 1e-7

// side tells where s lies of grid line k: -1 before, 0 on it, 1 beyond.
func (c *cutter) side(p geom.Vec2, k int) int {
	_, s := c.bend.Coord(p)
	d := s - c.grid[k]
	if tol := onGrid * (c.grid[1] - c.grid[0]); d < -tol {
		return -1
	} else if d > tol {
		return 1
	}
	return 0
}

// cut is the point of p-q on grid line k.
func (c *cutter) cut(p, q geom.Vec2, k int) geom.Vec2 {
	if q[0] < p[0] || q[0] == p[0] && q[1] < p[1] {
		p, q = q, p
	}
	_, s := c.bend.Coord(p)
	_, t := c.bend.Coord(q)
	return p.Add(q.Sub(p).Mul((c.grid[k] - s) / (t - s)))
}

func (c *cutter) triangle(p, q, r geom.Vec2) {
	if c.bend == nil || c.bend.Allowance < fold.MinZone {
		c.fan([]geom.Vec2{p, q, r})
		return
	}
	rest := []geom.Vec2{p, q, r}
	for k := 0; k < len(c.grid) && len(rest) >= 3; k++ {
		before, beyond := c.split(rest, k)
		if k == 0 { // nothing lies before the zone but noise
			if len(before) >= 3 {
				c.fan(before)
			}
			c.rungs(beyond, k)
		} else {
			c.fan(before)
			if k < len(c.grid)-1 {
				c.rungs(beyond, k)
			} else {
				c.rungs(before, k)
			}
		}
		rest = beyond
	}
	if len(rest) >= 3 {
		c.fan(rest)
	}
}

// split cuts a convex polygon at grid line k.
func (c *cutter) split(poly []geom.Vec2, k int) (before, beyond []geom.Vec2) {
	if len(poly) < 3 {
		return nil, nil
	}
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		a, b := c.side(p, k), c.side(q, k)
		if a <= 0 {
			before = append(before, p)
		}
		if a >= 0 {
			beyond = append(beyond, p)
		}
		if a*b < 0 {
			x := c.cut(p, q, k)
			before = append(before, x)
			beyond = append(beyond, x)
		}
	}
	if len(before) < 3 {
		before = nil
	}
	if len(beyond) < 3 {
		beyond = nil
	}
	return before, beyond
}

// rungs keeps the sides of a polygon that lie along grid line k.
func (c *cutter) rungs(poly []geom.Vec2, k int) {
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		if c.side(p, k) == 0 && c.side(q, k) == 0 {
			c.pl.seams = append(c.pl.seams, rung{c.point(p), c.point(q), k})
		}
	}
}

func (c *cutter) fan(poly []geom.Vec2) {
	for i := 1; i+1 < len(poly); i++ {
		c.pl.tris = append(c.pl.tris, [3]int32{c.point(poly[0]), c.point(poly[i]), c.point(poly[i+1])})
	}
}

// wall keeps a boundary edge, cut where it crosses grid lines.
func (c *cutter) wall(p, q geom.Vec2, e fold.Edge) {
	put := func(a, b geom.Vec2, fine bool) {
		if a != b {
			c.pl.walls = append(c.pl.walls, wall{a: c.point(a), b: c.point(b), edge: e, fine: fine})
		}
	}
	at, fine := p, false
	if c.bend != nil && c.bend.Allowance >= fold.MinZone {
		_, s := c.bend.Coord(p)
		_, t := c.bend.Coord(q)
		for i := range c.grid {
			k := i
			if t < s {
				k = len(c.grid) - 1 - i
			}
			if c.side(p, k)*c.side(q, k) < 0 {
				x := c.cut(p, q, k)
				put(at, x, fine)
				at, fine = x, true
			}
		}
	}
	put(at, q, fine)
}
