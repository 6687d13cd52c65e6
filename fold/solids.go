package fold

// This file makes the solids of a part: panels as prisms over their convex pieces,
// bend zones as facets of their bent piece and prisms of what is still flat.

import (
	"cmp"
	"math"
	"slices"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// shapes holds what doesn't change from pose to pose: the bodies of a part in the
// blank's axes.
type shapes struct {
	part   *Part
	panels []*solid.Body
	zones  []zoneShape
	work   int // done with them so far, counted as checkWork is
}

// zoneShape is a bend zone cut up for bending. Cells are convex pieces of the developed
// zone, each bent to one facet, sorted by the end of its facet; bent is the body of all of
// them as finished, work as rolled on to the nose, in the held panel's blank axes.
type zoneShape struct {
	cells  []zoneCell
	bent   *solid.Body
	work   *solid.Body // bent itself where nothing springs back
	flat   *solid.Body // nothing bent yet, in the swinging panel's blank axes
	pieces []geom.Loop // the developed zone, uncut
}

// zoneCell is a convex piece of a developed zone and the facet s0..s1 (across) it lies in.
type zoneCell struct {
	loop   geom.Loop
	s0, s1 float64
}

func newShapes(p *Part) *shapes {
	s := &shapes{part: p, panels: make([]*solid.Body, len(p.Panels)), zones: make([]zoneShape, len(p.Bends))}
	for i := range p.Panels {
		s.panels[i] = solid.Prisms(p.Panels[i].Pieces, p.Thickness)
	}
	for i := range p.Bends {
		s.zones[i] = newZoneShape(&p.Bends[i], p.Thickness)
	}
	return s
}

func newZoneShape(b *Bend, t float64) zoneShape {
	var z zoneShape
	if b.Rho <= 0 || b.Allowance <= 0 {
		return z
	}
	// Facets with corners half the error outside and middles half inside the cylinder of
	// radius r: half angle h with r h^2/4 = error.
	half := 2 * math.Sqrt(ZoneFacet/(b.Radius+t))
	n := int(max(1, min(maxFacets, math.Ceil(float64(b.Set)/(2*half)))))
	for _, r := range b.Zone {
		for _, l := range solid.Decompose(r) {
			z.pieces = append(z.pieces, l)
			for _, part := range b.squareOff(l) {
				for i := range n {
					s0, s1 := b.Allowance*float64(i)/float64(n), b.Allowance*float64(i+1)/float64(n)
					if i == 0 {
						s0 -= Weld // corners that rounding put a hair outside
					}
					if i == n-1 {
						s1 += Weld
					}
					z.cells = b.addCells(z.cells, part, s0, s1, t, 6)
				}
			}
		}
	}
	geom.SortStable(z.cells, func(x, y zoneCell) int { return cmp.Compare(x.s1, y.s1) })
	z.bent = b.curled(z.cells, b.Rho, t)
	z.flat = solid.Prisms(b.beyond(z.pieces, 0), t)
	z.work = z.bent
	if b.Work != b.Rho {
		z.work = b.curled(z.cells, b.Work, t)
	}
	return z
}

// beyond is what is left of pieces of the zone across from at on.
func (b *Bend) beyond(pieces []geom.Loop, at float64) (out []geom.Loop) {
	for _, l := range pieces {
		if l = b.across(l, at, b.Allowance+Weld); l != nil {
			out = append(out, l)
		}
	}
	return out
}

// curled is the body of cells bent at a neutral radius.
func (b *Bend) curled(cells []zoneCell, rho, t float64) *solid.Body {
	pieces := make([]solid.Convex, len(cells))
	for i, c := range cells {
		pieces[i] = b.facet(c, rho, t)
	}
	return solid.NewBody(pieces)
}

// squareOff parts a convex piece of the zone into the rectangle that reaches all across it
// and what is left at its ends.
func (b *Bend) squareOff(l geom.Loop) []geom.Loop {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range l {
		_, s := b.Coord(p)
		lo, hi = min(lo, s), max(hi, s)
	}
	// Ends of the lowest and of the highest side.
	from, to := math.Inf(-1), math.Inf(1)
	for _, at := range []float64{lo, hi} {
		left, right := math.Inf(1), math.Inf(-1)
		for _, p := range l {
			if u, s := b.Coord(p); math.Abs(s-at) <= Weld {
				left, right = min(left, u), max(right, u)
			}
		}
		from, to = max(from, left), min(to, right)
	}
	if to-from <= Weld {
		return []geom.Loop{l}
	}
	var out []geom.Loop
	q := b.U.Dot(b.Q)
	rest := l
	if c := solid.Clip(l, b.U.Mul(-1), -q-from); c != nil && c.Area() > Weld {
		out = append(out, c)
		rest = solid.Clip(rest, b.U, q+from)
	}
	if c := solid.Clip(l, b.U, q+to); c != nil && c.Area() > Weld {
		out = append(out, c)
		rest = solid.Clip(rest, b.U.Mul(-1), -q-to)
	}
	return append(out, rest)
}

// across clips a loop to from <= s <= to.
func (b *Bend) across(l geom.Loop, from, to float64) geom.Loop {
	q := b.N.Dot(b.Q)
	if l = solid.Clip(l, b.N, q+from); l == nil {
		return nil
	}
	return solid.Clip(l, b.N.Mul(-1), -q-to)
}

// addCells clips a piece to a facet, and halves the facet until its slanting sides are
// true to zoneSide.
func (b *Bend) addCells(cells []zoneCell, l geom.Loop, s0, s1, t float64, depth int) []zoneCell {
	l = b.across(l, s0, s1)
	if l == nil {
		return cells
	}
	if depth > 0 && b.sideError(l, t) > zoneSide {
		m := (s0 + s1) / 2
		cells = b.addCells(cells, l, s0, m, t, depth-1)
		return b.addCells(cells, l, m, s1, t, depth-1)
	}
	return append(cells, zoneCell{l, s0, s1})
}

// sideError is how far the flat sides over a cell's edges stand from the true ones: a
// slanting edge is shorter at the inner face than at the outer by w along the facet, so
// that the true side is wound; a flat one misses it by w/4 across.
func (b *Bend) sideError(l geom.Loop, t float64) float64 {
	worst := 0.0
	for i, p := range l {
		d := l[(i+1)%len(l)].Sub(p)
		du, ds := math.Abs(d.Dot(b.U)), math.Abs(d.Dot(b.N))
		if length := math.Hypot(du, ds); length > 0 && ds > Weld {
			worst = max(worst, ds*t/b.Work/4*du/length)
		}
	}
	return worst
}

// facet bends a cell: one flat facet outside, one inside, corners at the cylinders'
// radii times 2/(1+cos h), so that it stays as far outside as inside them. In the held
// panel's blank axes.
func (b *Bend) facet(c zoneCell, rho, t float64) solid.Convex {
	mid, h := (c.s0+c.s1)/2/rho, (c.s1-c.s0)/2/rho
	inner := b.inner(rho)
	sin, cos := math.Sincos(mid)
	sg := b.Sigma()
	u := geom.Vec3{b.U[0], b.U[1], 0}
	n := geom.Vec3{b.N[0], b.N[1], 0}
	f := geom.Frame{
		Y: n.Mul(cos).Add(geom.Vec3{0, 0, sg * sin}),
		Z: n.Mul(sin).Add(geom.Vec3{0, 0, -sg * cos}), // away from the axis
		O: geom.Vec3{b.Q[0], b.Q[1], b.neutralHeight(t) + sg*rho},
	}
	f.X = f.Y.Cross(f.Z)
	side := 1.0
	if f.X.Dot(u) < 0 {
		side = -1
	}
	sinH, cosH := math.Sincos(h)
	grow := 2 / (1 + cosH)
	low, high := make([]geom.Vec2, len(c.loop)), make([]geom.Vec2, len(c.loop))
	for i, p := range c.loop {
		along, s := b.Coord(p)
		k := ((s-c.s0)/(c.s1-c.s0)*2 - 1) * grow * sinH
		low[i] = geom.Vec2{side * along, k * inner}
		high[i] = geom.Vec2{side * along, k * (inner + t)}
	}
	return solid.Frustum(low, high, inner*grow*cosH, (inner+t)*grow*cosH, f)
}

// group is a part of a solid that is carried by one panel.
type group struct {
	*solid.Placed
	panel int
	zone  int // for what moves against its panel, the flat part of a turning zone or one that springs back: its bend, else -1
}

// groups places a solid where panels have these frames and bends these angles.
func (s *shapes) groups(body Body, frame func(panel int) geom.Frame, angle func(bend int) geom.Angle) []group {
	if !body.Zone {
		return []group{{s.panels[body.Index].Place(frame(body.Index)), body.Index, -1}}
	}
	p := s.part
	z, b := &s.zones[body.Index], &p.Bends[body.Index]
	if z.bent == nil {
		return nil
	}
	state := angle(body.Index)
	rho, phi := b.Curl(state)
	at := rho * float64(phi) // bent up to here
	held := frame(b.A)
	if b.moved != (geom.Vec2{}) {
		held.O = held.Point(geom.Vec3{b.moved[0], b.moved[1], 0})
	}
	var out []group
	bent := z.work
	switch {
	case b.returning(state):
		return []group{{b.curled(z.cells, rho, p.Thickness).Place(held), b.A, body.Index}}
	case state == b.Angle:
		bent = z.bent
	case at == 0:
		return []group{{z.flat.Place(frame(b.B)), b.B, body.Index}}
	}
	done, _ := slices.BinarySearchFunc(z.cells, at, func(c zoneCell, at float64) int {
		if c.s1 <= at+2*Weld {
			return -1
		}
		return 1
	})
	if done > 0 {
		out = append(out, group{bent.PlaceFirst(held, done), b.A, -1})
	}
	if done == len(z.cells) {
		return out
	}
	var begun []solid.Convex
	for _, c := range z.cells[done:] {
		if c.s0 < at-Weld {
			if l := b.across(c.loop, c.s0, at); l != nil {
				begun = append(begun, b.facet(zoneCell{l, c.s0, at}, rho, p.Thickness))
			}
		}
	}
	if len(begun) > 0 {
		out = append(out, group{solid.NewBody(begun).Place(held), b.A, -1})
	}
	if flat := b.beyond(z.pieces, at); len(flat) > 0 {
		out = append(out, group{solid.Prisms(flat, p.Thickness).Place(frame(b.B)), b.B, body.Index})
	}
	return out
}

// Solid is a panel or bend zone of the pose in space, as convex pieces (they may
// overlap). Facets of a zone lie within ZoneFacet of its cylinders.
func (ps Pose) Solid(body Body) []solid.Convex {
	s := shapes{part: ps.Part}
	if body.Zone {
		s.zones = make([]zoneShape, len(ps.Part.Bends))
		s.zones[body.Index] = newZoneShape(&ps.Part.Bends[body.Index], ps.Part.Thickness)
	} else {
		s.panels = make([]*solid.Body, len(ps.Part.Panels))
		s.panels[body.Index] = solid.Prisms(ps.Part.Panels[body.Index].Pieces, ps.Part.Thickness)
	}
	var out []solid.Convex
	for _, g := range s.groups(body, ps.frame, ps.angle) {
		out = append(out, g.Pieces()...)
	}
	return out
}

func (ps Pose) frame(panel int) geom.Frame { return ps.Panels[panel] }
func (ps Pose) angle(bend int) geom.Angle  { return ps.State[bend] }
