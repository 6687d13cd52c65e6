package fold

// This file holds a swing while it is made: where every solid is at a moment of it, and how
// it moves.

import (
	"math"
	"slices"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// course is one swing of a part, or its stand still.
type course struct {
	*shapes
	from, to []geom.Angle // States, by place in the swing's bends
	back     bool         // the leaf goes back and the bends spring back
	bends    []int
	place    []int   // of a bend in bends; -1
	routes   [][]int // the turning bends between each panel and the base, outermost first
	start    Pose
	rest     []geom.Frame // each panel as the panel has it that its route's last bend swings
	end      *view        // kept, for every pair is looked at there
	after    *view        // when all has sprung back
	over     float64      // the fraction from which on all turning bends are past their own angle; over 1 where none goes past
	limit    int          // of work
}

// still is a course in which nothing moves.
func (s *shapes) still(ps Pose) *course {
	c := &course{shapes: s, start: ps, place: make([]int, len(s.part.Bends)), routes: make([][]int, len(s.part.Panels))}
	for i := range c.place {
		c.place[i] = -1
	}
	return c
}

// course makes a swing ready, as far as the leaf goes; back makes it ready from there on, until the
// bends have sprung back.
func (s *shapes) course(swing int, back bool) *course {
	p := s.part
	sw := &p.Swings[swing]
	state := p.StateAt(swing, 0)
	if back {
		for k, b := range sw.Bends {
			state[b] = sw.Set[k]
		}
	}
	c := s.still(p.Pose(state))
	c.back = back
	for k, b := range sw.Bends {
		from, to := sw.From[k], sw.Set[k]
		if back {
			from, to = sw.Set[k], 2*sw.Set[k]-sw.To[k]
		}
		if from != to {
			c.place[b] = len(c.bends)
			c.bends, c.from, c.to = append(c.bends, b), append(c.from, from), append(c.to, to)
		}
	}
	c.rest = make([]geom.Frame, len(p.Panels))
	for _, k := range p.order {
		b := p.Panels[k].Parent
		if b < 0 {
			continue
		}
		c.routes[k] = c.routes[p.Bends[b].A]
		if c.place[b] >= 0 {
			c.routes[k] = append(slices.Clip(c.routes[k]), b)
		}
		if n := len(c.routes[k]); n > 0 {
			c.rest[k] = solid.InFrame(c.start.Panels[p.Bends[c.routes[k][n-1]].B], c.start.Panels[k])
		}
	}
	c.over = sw.over(back)
	c.end = c.at(1)
	c.after = c.end
	if sw.Out < 1 && !back {
		c.after = s.still(p.Pose(p.StateAt(swing+1, 0))).at(1)
	}
	return c
}

// spent reports that the work allowed for the course is done.
func (c *course) spent() bool { return c.work >= c.limit }

// view is a course at one moment.
type view struct {
	*course
	f      float64
	swung  []geom.Frame // by place, of the panel that a turning bend swings; no X where it was not asked for
	placed map[Body][]group
}

// at is the course at the fraction f of its way.
func (c *course) at(f float64) *view {
	c.work += viewWork
	return &view{course: c, f: f, swung: make([]geom.Frame, len(c.bends))}
}

// angle is a bend's.
func (v *view) angle(bend int) geom.Angle {
	k := v.place[bend]
	if k < 0 {
		return v.start.State[bend]
	}
	if v.f == 1 {
		return v.to[k]
	}
	return v.part.Bends[bend].rolling(v.from[k] + geom.Angle(v.f)*(v.to[k]-v.from[k]))
}

// frame is a panel's.
func (v *view) frame(panel int) geom.Frame {
	r := v.routes[panel]
	if len(r) == 0 {
		return v.start.Panels[panel]
	}
	b := r[len(r)-1]
	g := &v.swung[v.place[b]]
	if g.X == (geom.Vec3{}) {
		bend := &v.part.Bends[b]
		*g = v.frame(bend.A).Compose(bend.Hinge(v.angle(b), v.part.Thickness))
	}
	if v.part.Bends[b].B == panel {
		return *g
	}
	return g.Compose(v.rest[panel])
}

// turn is how a turning bend's B side moves seen from its A side.
func (v *view) turn(bend int) solid.Turn {
	b := &v.part.Bends[bend]
	k := v.place[bend]
	state := v.angle(bend)
	rho, phi := b.Curl(state)
	held := v.frame(b.A)
	n := geom.Vec3{b.N[0], b.N[1], 0}
	at := b.Roll(b.Q.Add(b.N.Mul(rho*float64(phi))), b.neutralHeight(v.part.Thickness), state, v.part.Thickness)
	t := solid.Turn{
		At:    held.Point(at),
		Axis:  held.Vector(n.Cross(geom.Vec3{0, 0, b.Sigma()})), // turns n towards the bend's side
		Rate:  float64(v.to[k] - v.from[k]),
		Creep: rho,
	}
	if v.back { // about the zone's end, which itself moves: see motion
		t.Rate, t.Creep = -t.Rate, b.Allowance/2
	}
	return t
}

// groups places one of a pair's solids; whole panels and zones once for all pairs.
func (v *view) groups(body Body, stand *solid.Body) []group {
	if !body.Zone && stand != v.panels[body.Index] {
		g := stand.Place(v.frame(body.Index))
		g.Work = &v.work
		return []group{{g, body.Index, -1}}
	}
	g, ok := v.placed[body]
	if !ok {
		g = v.shapes.groups(body, v.frame, v.angle)
		for i := range g {
			g[i].Work = &v.work
			if v.back && v.turning(body) { // also where it still lies on the nose: it is about to spring back
				g[i].zone = body.Index
			}
		}
		if v.placed == nil {
			v.placed = map[Body][]group{}
		}
		v.placed[body] = g
	}
	return g
}

// apart is the signed distance of a pair if it is under limit.
func (v *view) apart(q pair, limit float64) (c solid.Contact, ok bool) {
	for _, a := range v.groups(q.a, q.pa) {
		for _, b := range v.groups(q.b, q.pb) {
			if d, _, _, near := solid.Between(a.Placed, b.Placed, limit); near {
				c, limit, ok = d, d.D, true
			}
		}
	}
	return c, ok
}

// sd is the signed distance of a pair; +Inf for an exempt pair.
func (v *view) sd(q pair) float64 {
	c, ok := v.apart(q, math.Inf(1))
	if !ok {
		return math.Inf(1)
	}
	return c.D
}

// deep and meets report whether a pair overlaps by more than ClashDepth, and at all; far sooner than sd would tell.
func (v *view) deep(q pair) bool { _, ok := v.apart(q, -ClashDepth); return ok }

func (v *view) meets(q pair) bool { _, ok := v.apart(q, 0); return ok }

// motion is how group a moves seen from group b.
func (v *view) motion(a, b group) solid.Motion {
	ra, rb := v.routes[a.panel], v.routes[b.panel]
	k := 0
	for k < len(ra) && k < len(rb) && ra[k] == rb[k] {
		k++
	}
	ra, rb = ra[k:], rb[k:]
	v.work += len(ra) + len(rb)
	m := solid.Motion{Turns: make([]solid.Turn, 0, len(ra)+len(rb))}
	// Seen from b: first out of b's own turns, then into a's.
	for i := len(rb) - 1; i >= 0; i-- {
		t := v.turn(rb[i])
		t.Rate = -t.Rate
		m.Turns = append(m.Turns, t)
	}
	for _, x := range ra {
		m.Turns = append(m.Turns, v.turn(x))
	}
	if v.back {
		// A zone that springs back is curled evenly: its end moves by half its length for a radian at most, and
		// its material by that and its distance from the neutral line.
		for _, x := range slices.Concat(ra, rb) {
			m.Loose += v.rate(x) * v.part.Bends[x].Allowance / 2
		}
		for _, g := range []group{a, b} {
			if g.zone >= 0 && v.place[g.zone] >= 0 {
				bend := &v.part.Bends[g.zone]
				m.Loose += v.rate(g.zone) * (bend.Allowance/2 + max(bend.K, 1-bend.K)*v.part.Thickness)
			}
		}
		return m
	}
	// Material of a zone that is still flat will be rolled on to the nose: it then stays
	// with the held side. Its speed against the swinging side is at most its distance to the contact line.
	for _, g := range []group{a, b} {
		if g.zone < 0 || v.place[g.zone] < 0 {
			continue
		}
		if on := slices.Contains(ra, g.zone) || slices.Contains(rb, g.zone); !on || len(m.Turns) > 1 {
			bend, t := &v.part.Bends[g.zone], v.part.Thickness
			m.Loose += v.rate(g.zone) * math.Hypot(bend.Allowance, max(bend.K, 1-bend.K)*t)
		}
	}
	return m
}

// rate is how fast a turning bend turns, in radians for the whole course.
func (c *course) rate(bend int) float64 {
	k := c.place[bend]
	return math.Abs(float64(c.to[k] - c.from[k]))
}
