package fold

// This file follows one pair of solids through a swing.

import (
	"math"
	"slices"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// view is the part at one moment of a swing.
type view struct {
	*shapes
	swing  int
	f      float64
	pose   Pose
	turns  []solid.Turn // by place in the swing's Bends: B's side seen from A's
	routes [][]int      // turning bends between each panel and the base
	placed map[Body][]group
}

func (s *shapes) view(swing int, f float64) *view {
	v := &view{shapes: s, swing: swing, f: f, placed: map[Body][]group{}}
	if swing < 0 {
		return v
	}
	p := s.part
	v.pose = p.Pose(p.StateAt(swing, f))
	sw := &p.Swings[swing]
	for k, i := range sw.Bends {
		b := &p.Bends[i]
		phi := v.pose.State[i]
		held := v.pose.Panels[b.A]
		zn := b.neutralHeight(p.Thickness)
		n := geom.Vec3{b.N[0], b.N[1], 0}
		v.turns = append(v.turns, solid.Turn{
			At:    held.Point(b.Roll(b.Q.Add(b.N.Mul(b.Rho*float64(phi))), zn, phi, p.Thickness)),
			Axis:  held.Vector(n.Cross(geom.Vec3{0, 0, b.Sigma()})), // turns n towards the bend's side
			Rate:  float64(sw.To[k] - sw.From[k]),
			Creep: b.Rho,
		})
	}
	return v
}

// at is the same swing at another moment.
func (v *view) at(f float64) *view {
	w := v.shapes.view(v.swing, f)
	w.routes = v.routes
	return w
}

// groups places one of a pair's solids; whole panels and zones once for all pairs.
func (v *view) groups(body Body, stand *solid.Body) []group {
	if !body.Zone && stand != v.panels[body.Index] {
		return []group{{stand.Place(v.pose.Panels[body.Index]), body.Index, -1}}
	}
	g, ok := v.placed[body]
	if !ok {
		g = v.shapes.groups(v.pose, body)
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

// sd is the signed distance of a pair at another moment; +Inf for an exempt pair.
func (v *view) sd(q pair, f float64) float64 {
	c, ok := v.at(f).apart(q, math.Inf(1))
	if !ok {
		return math.Inf(1)
	}
	return c.D
}

// motion is how group a moves seen from group b.
func (v *view) motion(a, b group) solid.Motion {
	ra, rb := v.routes[a.panel], v.routes[b.panel]
	k := 0
	for k < len(ra) && k < len(rb) && ra[k] == rb[k] {
		k++
	}
	var m solid.Motion
	sw := &v.part.Swings[v.swing]
	turn := func(bend int, sign float64) {
		for i, x := range sw.Bends {
			if x == bend {
				t := v.turns[i]
				t.Rate *= sign
				m.Turns = append(m.Turns, t)
			}
		}
	}
	// Seen from b: first out of b's own turns, then into a's.
	for i := len(rb) - 1; i >= k; i-- {
		turn(rb[i], -1)
	}
	for _, x := range ra[k:] {
		turn(x, 1)
	}
	// Material of a zone that is still flat will be rolled on to the nose: it then stays
	// with the held side. Its speed against the swinging side is at most its distance to the contact line.
	for _, g := range []group{a, b} {
		if g.zone < 0 {
			continue
		}
		for i, x := range sw.Bends {
			if x != g.zone {
				continue
			}
			on := false
			for _, y := range append(ra[k:len(ra):len(ra)], rb[k:]...) {
				on = on || y == x
			}
			if !on || len(m.Turns) > 1 {
				bd := &v.part.Bends[x]
				t := v.part.Thickness
				m.Loose += math.Abs(v.turns[i].Rate) * math.Hypot(bd.Allowance, max(bd.K, 1-bd.K)*t)
			}
		}
	}
	return m
}

// advance is the longest step proved free for a pair, or the contact of an overlap.
func (v *view) advance(q pair, dirs *[]geom.Vec3) solid.Step {
	best := solid.Step{Length: 1 - v.f}
	for _, a := range v.groups(q.a, q.pa) {
		for _, b := range v.groups(q.b, q.pb) {
			m := v.motion(a, b)
			s := solid.Advance(a.Placed, b.Placed, &m, ClashDepth, ClashDepth+clashSlack, best.Length, dirs)
			if s.Hit || s.Length < best.Length {
				best = s
			}
			if s.Hit {
				return best
			}
		}
	}
	return best
}

// follow takes a pair through the swing from its start.
func (v *view) follow(q pair) (Clash, bool) {
	var dirs []geom.Vec3
	here := v
	steps := 0
	// Solids that overlap at the start belong to an earlier swing until they part.
	if s := here.advance(q, &dirs); s.Hit {
		f, ok := v.parting(q)
		if !ok {
			return Clash{}, false
		}
		here = v.at(f)
	}
	start, safe := here.f, here.f
	for {
		s := here.advance(q, &dirs)
		if s.Hit {
			return v.clash(q, start, safe, here.f), true
		}
		safe = here.f
		f := here.f + s.Length
		if !(f < 1) {
			break
		}
		if steps++; steps > maxSteps || f == here.f {
			c := v.clash(q, here.f, here.f, here.f)
			c.Undecided = true
			return c, true
		}
		here = v.at(f)
	}
	// The end itself, to which the last step was proved only within the slack.
	if safe < 1 && safe > start {
		if d := v.sd(q, 1); d < -ClashDepth {
			return v.clash(q, start, safe, 1), true
		}
	}
	return Clash{}, false
}

// parting is the first sampled moment at which a pair that starts in overlap no longer clashes.
func (v *view) parting(q pair) (float64, bool) {
	const n = 64
	for k := 1; k < n; k++ {
		if f := float64(k) / n; v.sd(q, f) >= -ClashDepth {
			return f, true
		}
	}
	return 0, false
}

// clash describes a clash: free of it from start to safe, overlapping by more than
// ClashDepth at hit.
func (v *view) clash(q pair, start, safe, hit float64) Clash {
	sw := &v.part.Swings[v.swing]
	rate := 0.0
	for k := range sw.Bends {
		rate = max(rate, math.Abs(float64(sw.To[k]-sw.From[k])))
	}
	fine := float64(ClashAngle) / rate / 2
	// Where the overlap passes ClashDepth.
	for hit-safe > fine {
		if m := (safe + hit) / 2; v.sd(q, m) < -ClashDepth {
			hit = m
		} else {
			safe = m
		}
	}
	// Back from there to the last moment without overlap: first in growing steps, then halving.
	under, over := hit, start
	for back := fine; ; back *= 1.3 {
		f := under - back
		if f <= start {
			break
		}
		if v.sd(q, f) >= 0 {
			over = f
			break
		}
		under = f
	}
	if over == start && v.sd(q, start) < 0 {
		under = start // in contact from the start on
	}
	for under-over > fine {
		m := (under + over) / 2
		if v.sd(q, m) >= 0 {
			over = m
		} else {
			under = m
		}
	}
	c := Clash{A: q.a, B: q.b, Fraction: over}
	c.Angle = sw.From[0] + geom.Angle(over)*(sw.To[0]-sw.From[0])
	if touch, ok := v.at(under).apart(q, math.Inf(1)); ok {
		c.Point = touch.A.Add(touch.B).Mul(0.5)
		c.Normal = touch.N
	}
	c.Depth, c.DepthAt = v.deepest(q, hit)
	c.AtEnd = v.sd(q, 1) < -ClashDepth
	return c
}

// deepest is the largest overlap from the hit to the end of the swing, and where it is. The
// course is sampled, and then looked at where it might be deeper, going by twice the steepest slope
// seen so far, until nowhere may it be deeper by depthNear. The overlap's course has
// sharp peaks: a wall that passes through another's edge gives two.
func (v *view) deepest(q pair, hit float64) (depth, at float64) {
	depth = math.Inf(-1)
	type sample struct{ f, d float64 }
	look := func(f float64) sample {
		d := -v.sd(q, f)
		if d > depth {
			depth, at = d, f
		}
		return sample{f, d}
	}
	var line []sample
	for k := range depthSamples + 1 {
		line = append(line, look(hit+(1-hit)*float64(k)/depthSamples))
	}
	for range depthLooks {
		slope := 0.0
		for k := 1; k < len(line); k++ {
			if w := line[k].f - line[k-1].f; w > 0 {
				slope = max(slope, 2*math.Abs(line[k].d-line[k-1].d)/w)
			}
		}
		best, where := depth+depthNear, -1
		for k := 1; k < len(line); k++ {
			x, y := line[k-1], line[k]
			if top := (x.d + y.d + slope*(y.f-x.f)) / 2; top > best {
				best, where = top, k
			}
		}
		if where < 0 {
			break
		}
		line = slices.Insert(line, where, look((line[where-1].f+line[where].f)/2))
	}
	return depth, at
}
