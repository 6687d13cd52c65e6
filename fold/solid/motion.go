package solid

import (
	"math"

	"dryfold/fold/geom"
)

// This file answers how far a motion can go on before two bodies meet: one step
// of conservative advancement, with a direction for every pair of pieces as its proof.

// Turn is one of the turnings that carry a's side against b's: at this moment a
// rotation about a line, which itself creeps as a sheet rolls on to a nose.
type Turn struct {
	At, Axis geom.Vec3 // the line; Axis unit
	Rate     float64   // radians per unit of time about Axis, of a seen from b
	Creep    float64   // how fast the line moves through the bodies, length per radian
}

// Motion is how a moves seen from b over the rest of a unit of time: Turns one inside
// the other, at constant rates. Loose is a speed that some points may have besides, in
// any direction, or may lose from that of the Turns.
type Motion struct {
	Turns []Turn
	Loose float64
}

// Still reports that nothing moves.
func (m *Motion) Still() bool { return len(m.Turns) == 0 && m.Loose == 0 }

// field is a Motion made ready: velocities are omega x p + v.
type field struct {
	*Motion
	omega, v geom.Vec3
	rates    float64 // sum of |Rate|
}

func (m *Motion) field() field {
	f := field{Motion: m}
	for i := range m.Turns {
		t := &m.Turns[i]
		w := t.Axis.Mul(t.Rate)
		f.omega = f.omega.Add(w)
		f.v = f.v.Sub(w.Cross(t.At))
		f.rates += math.Abs(t.Rate)
	}
	return f
}

// longest is the longest step for which arms and pull are bounds.
func (f *field) longest() float64 {
	if len(f.Turns) > 1 {
		return 0.5 / f.rates
	}
	return 1
}

// arms is the sum over turns of |Rate| times a bound of the distance to the turn's
// line, now and later in a step. One turn: the line creeps Creep*Rate at most. Several: the
// inner ones move a point against the outer lines too; with D the sum wanted, E the sum now
// with creep, D <= E + step*rates*D, so D <= 2E for steps up to longest.
func (f *field) arms(p geom.Vec3, radius float64) float64 {
	sum := 0.0
	for i := range f.Turns {
		t := &f.Turns[i]
		r := math.Abs(t.Rate)
		sum += r * (fromLine(&p, t) + radius + t.Creep*r)
	}
	if len(f.Turns) > 1 {
		sum = 2 * (sum + f.Loose)
	}
	return sum
}

func fromLine(p *geom.Vec3, t *Turn) float64 {
	x, y, z := p[0]-t.At[0], p[1]-t.At[1], p[2]-t.At[2]
	k := x*t.Axis[0] + y*t.Axis[1] + z*t.Axis[2]
	return math.Sqrt(max(0, x*x+y*y+z*z-k*k))
}

// flat is the length of n's part square to a single turn's axis, along which nothing moves.
func (f *field) flat(n geom.Vec3) float64 {
	if len(f.Turns) != 1 {
		return 1
	}
	return n.Sub(f.Turns[0].Axis.Mul(n.Dot(f.Turns[0].Axis))).Len()
}

// pull bounds the acceleration of points of a ball along any direction with this flat:
// Rate^2 (distance + Creep) of each turn, and 2*Rate*speed where one turn carries another.
func (f *field) pull(p *geom.Vec3, radius, flat float64) float64 {
	if len(f.Turns) == 1 {
		t := &f.Turns[0]
		r := math.Abs(t.Rate)
		return r*r*(fromLine(p, t)+radius+t.Creep*(1+r))*flat + 2*r*f.Loose
	}
	creep := 0.0
	for i := range f.Turns {
		t := &f.Turns[i]
		creep += math.Abs(t.Rate) * t.Creep
	}
	return 2 * f.rates * (f.arms(*p, radius) + creep + f.Loose)
}

// ballStep is how long balls of bodies that are gap apart stay so.
func (f *field) ballStep(gap float64, p, q *geom.Vec3, rp, rq float64) float64 {
	if gap <= 0 {
		return 0
	}
	v := min(f.arms(*p, rp), f.arms(*q, rq)) + f.Loose
	if v*f.longest() <= gap {
		return f.longest()
	}
	return gap / v
}

// slabStep is how long the slab between a and b across n, seen from the one or from
// the other body, surely stays wider than -floor: each point has its own gap g, speed v and
// acceleration at most A, and is let go on until g + v t - A t^2/2 = 0.
//
// Steps of enough or more are told as enough, steps of no use - not over least - as least.
func (f *field) slabStep(a, b []geom.Vec3, n geom.Vec3, floor, least, enough float64) float64 {
	alo, bhi := math.Inf(1), math.Inf(-1)
	for i := range a {
		alo = min(alo, a[i][0]*n[0]+a[i][1]*n[1]+a[i][2]*n[2])
	}
	for i := range b {
		bhi = max(bhi, b[i][0]*n[0]+b[i][1]*n[1]+b[i][2]*n[2])
	}
	if alo-bhi+floor <= 0 {
		return least
	}
	across := n.Cross(f.omega) // n.(omega x p) = p.(n x omega)
	along := n.Dot(f.v) - f.Loose
	flat := f.flat(n)
	enough = min(enough, f.longest())
	side := func(pts []geom.Vec3, at, sign float64) float64 {
		best := enough
		for i := range pts {
			p := &pts[i]
			g := sign*(p[0]*n[0]+p[1]*n[1]+p[2]*n[2]-at) + floor
			v := p[0]*across[0] + p[1]*across[1] + p[2]*across[2] + along // b's points move the other way, seen from a
			if g+best*v < 0 || g+best*(v-best*f.pull(p, 0, flat)/2) < 0 {
				if best = root(g, v, f.pull(p, 0, flat)); best <= least {
					return least
				}
			}
		}
		return best
	}
	s := side(a, bhi, 1)
	if s >= enough {
		return s
	}
	least = max(least, s)
	return side(b, alo, -1)
}

// root is the first t > 0 with g + v t - a t^2/2 = 0, for g > 0 and a >= 0 or v < 0.
func root(g, v, a float64) float64 {
	d := math.Sqrt(v*v + 2*a*g)
	if v > 0 {
		return (v + d) / a
	}
	return 2 * g / (d - v)
}

// Step is a safe step of a motion.
type Step struct {
	Length float64 // units of time during which no pair of pieces comes to overlap by floor
	Hit    bool    // a pair overlaps by more than depth already; Contact is that pair's
	Contact
}

// Advance finds how long two bodies may go on, up to most. A pair of pieces that
// overlaps by more than depth is a hit and ends the search; else Length is such that no
// pair overlaps by more than floor before, floor > depth. dirs remembers directions that
// proved useful and may be kept from one call to the next.
func Advance(a, b *Placed, m *Motion, depth, floor, most float64, dirs *[]geom.Vec3) Step {
	f := m.field()
	s := advance{a: a, b: b, f: &f, depth: depth, floor: floor, dirs: dirs}
	s.best.Length = min(most, f.longest())
	if a.Empty() || b.Empty() || m.Still() {
		return s.best
	}
	s.useful = make([]dir, len(*dirs), keptDirs)
	for i, n := range *dirs {
		s.useful[i] = s.ready(n)
	}
	if s.bound(0, 0) < s.best.Length {
		// The boxes of the whole bodies give a first direction.
		p, q := a.Body.balls[0], b.Body.balls[0]
		x, y := boxed(p, a.Frame), boxed(q, b.Frame)
		if c, ok := iterate(&x, &y, math.Inf(1)); ok {
			s.learn(c.N)
		}
		if s.whole() {
			return s.best
		}
	}
	descend(&s, a.Body, b.Body)
	return s.best
}

// whole tries the bodies' hulls: where they are apart, and stay so for long enough, the pieces need no look.
func (s *advance) whole() bool {
	x, y := s.a.hull(), s.b.hull()
	if x == nil || y == nil {
		return false
	}
	s.a.worked((len(x.Points) + len(y.Points)) / 16)
	step := 0.0
	for _, n := range *s.dirs {
		step = s.f.slabStep(x.Points, y.Points, n, s.floor, step, s.best.Length)
	}
	if step < s.best.Length {
		c, ok := iterate(x, y, math.Inf(1))
		if !ok {
			return false
		}
		s.learn(c.N)
		step = s.f.slabStep(x.Points, y.Points, c.N, s.floor, step, s.best.Length)
	}
	if step < hullStep*s.best.Length {
		return false
	}
	s.best.Length = min(step, s.best.Length)
	return true
}

type advance struct {
	a, b         *Placed
	f            *field
	depth, floor float64
	dirs         *[]geom.Vec3
	useful       []dir // dirs made ready
	best         Step
}

// bound is a lower bound of the step that two balls' pieces allow.
func (s *advance) bound(i, j int) float64 {
	p, q := &s.a.Body.balls[i], &s.b.Body.balls[j]
	if p.first >= s.a.upTo || q.first >= s.b.upTo {
		return math.Inf(1)
	}
	cp, cq := s.a.Frame.Point(p.centre), s.b.Frame.Point(q.centre)
	best := s.f.ballStep(cp.Sub(cq).Len()-p.radius-q.radius+s.floor, &cp, &cq, p.radius, q.radius)
	if best >= s.best.Length {
		return best
	}
	// Boxes, by the directions that were of use before.
	for i := range s.useful {
		if best = s.boxStep(&s.useful[i], p, q, &cp, &cq, best); best >= s.best.Length {
			return best
		}
	}
	return best
}

// dir is a direction as both bodies have it.
type dir struct {
	n, na, nb geom.Vec3 // in space, in a's axes, in b's
	v, va, vb geom.Vec3 // what the velocity along n is linear in: n.(omega x p) = p.v
	along     float64   // its constant part
	flat      float64   // as pull takes it
}

// learn puts a direction that was of use at the front.
func (s *advance) learn(n geom.Vec3) {
	*s.dirs = keep(*s.dirs, n)
	if len(s.useful) < keptDirs {
		s.useful = append(s.useful, dir{})
	}
	copy(s.useful[1:], s.useful)
	s.useful[0] = s.ready(n)
}

func (s *advance) ready(n geom.Vec3) dir {
	v := n.Cross(s.f.omega)
	return dir{
		n: n, na: s.a.Frame.LocalVector(n), nb: s.b.Frame.LocalVector(n),
		v: v, va: s.a.Frame.LocalVector(v), vb: s.b.Frame.LocalVector(v),
		along: n.Dot(s.f.v) - s.f.Loose, flat: s.f.flat(n),
	}
}

// boxStep is slabStep for the corners of two balls' boxes.
func (s *advance) boxStep(d *dir, p, q *ball, cp, cq *geom.Vec3, least float64) float64 {
	gap := d.n.Dot(*cp) - reachOf(p, d.na) - d.n.Dot(*cq) - reachOf(q, d.nb) + s.floor
	if gap <= 0 {
		return least
	}
	enough := min(s.best.Length, s.f.longest())
	// The corners' gaps and speeds are sums of their parts along the box's axes.
	side := func(pl *Placed, b *ball, c, n, v *geom.Vec3, sign float64) float64 {
		var g, w geom.Vec3
		for k := range 3 {
			g[k], w[k] = sign*n[k]*b.half[k], v[k]*b.half[k]
		}
		mid, speed := gap+reachOf(b, *n), d.v.Dot(*c)+d.along
		pull := s.f.pull(c, b.radius, d.flat)
		best := enough
		for k := range 8 {
			x, y := mid, speed
			for i := range 3 {
				if k>>i&1 == 0 {
					x, y = x-g[i], y-w[i]
				} else {
					x, y = x+g[i], y+w[i]
				}
			}
			if x+best*(y-best*pull/2) >= 0 {
				continue
			}
			a := pull
			if len(s.f.Turns) == 1 {
				p := corner(k, c, b, &pl.Frame)
				a = s.f.pull(&p, 0, d.flat)
			}
			if x+best*(y-best*a/2) < 0 {
				if best = root(max(0, x), y, a); best <= least {
					return least
				}
			}
		}
		return best
	}
	if least = max(least, side(s.a, p, cp, &d.na, &d.va, 1)); least >= enough {
		return least
	}
	return side(s.b, q, cq, &d.nb, &d.vb, -1)
}

// boxed is a node's box as far as iterate needs it.
func boxed(b ball, f geom.Frame) Convex {
	var pts [8]geom.Vec3
	c := f.Point(b.centre)
	for k := range pts {
		pts[k] = corner(k, &c, &b, &f)
	}
	return Convex{Points: pts[:], Centre: c, Radius: b.half.Len()}
}

// open counts the work, too.
func (s *advance) open(bound float64) bool {
	if bound >= s.best.Length || s.best.Hit {
		return false
	}
	s.a.worked(max(1, len(s.f.Turns)))
	return true
}

func (s *advance) leaf(i, j int) {
	s.step(s.a.Piece(i), s.b.Piece(j))
}

// keep puts a direction at the front and drops the oldest.
func keep(dirs []geom.Vec3, n geom.Vec3) []geom.Vec3 {
	if len(dirs) < keptDirs {
		dirs = append(dirs, n)
	}
	copy(dirs[1:], dirs)
	dirs[0] = n
	return dirs
}

// step takes the step that two pieces allow, or their contact.
func (s *advance) step(a, b *Convex) {
	step := 0.0
	for _, n := range *s.dirs {
		if step = s.f.slabStep(a.Points, b.Points, n, s.floor, step, s.best.Length); step >= s.best.Length {
			return
		}
	}
	s.a.worked((len(a.Points) + len(b.Points)) / 8)
	c := Distance(a, b)
	if c.D < -s.depth {
		s.best = Step{Hit: true, Contact: c}
		return
	}
	own := s.f.slabStep(a.Points, b.Points, c.N, s.floor, 0, s.best.Length)
	if own < crawl && own < s.best.Length {
		s.a.worked((len(a.Dirs) + 1) * (len(b.Dirs) + 1) * (len(a.Points) + len(b.Points)) / 64)
		// In contact: of all slabs between them the widest need not be the one they slide along.
		slabs(a, b, func() float64 { return -s.floor }, func(_ float64, n geom.Vec3) bool {
			if t := s.f.slabStep(a.Points, b.Points, n, s.floor, own, s.best.Length); t > own {
				own, c.N = t, n
			}
			return own < s.best.Length
		})
	}
	s.learn(c.N)
	if step = max(step, own); step < s.best.Length {
		s.best = Step{Length: step, Contact: c}
	}
}
