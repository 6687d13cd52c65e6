package fold

// This file follows one pair of solids through a swing.

import (
	"math"
	"slices"

	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

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

// follow takes a pair through the swing whose start v is; up to from it is known not to clash.
func (v *view) follow(q pair, from float64) (Clash, bool) {
	var dirs []geom.Vec3
	here, start := v, 0.0
	if from > 0 {
		here = v.at(from)
	} else if s := here.advance(q, &dirs); s.Hit {
		// Solids that overlap at the start belong to an earlier swing until they part.
		f, ok := v.parting(q)
		if !ok {
			return Clash{}, false
		}
		here, start = v.at(f), f
	}
	safe := here.f
	for steps := 0; ; steps++ {
		s := here.advance(q, &dirs)
		if s.Hit {
			return v.clash(q, start, safe, here.f), true
		}
		safe = here.f
		f := here.f + s.Length
		if !(f < 1) {
			break
		}
		if steps == maxSteps || f == here.f || v.spent() {
			return here.undecided(q), true
		}
		here = v.at(f)
	}
	// The end itself, to which the last step was proved only within the slack.
	if safe < 1 && safe > start && v.end.sd(q) < -ClashDepth {
		return v.clash(q, start, safe, 1), true
	}
	return Clash{}, false
}

// parting is the first sampled moment at which a pair that starts in overlap no longer clashes.
func (v *view) parting(q pair) (float64, bool) {
	const n = 64
	for k := 1; k < n; k++ {
		if f := float64(k) / n; v.at(f).sd(q) >= -ClashDepth {
			return f, true
		}
	}
	return 0, false
}

// undecided is the place where the search of a pair was given up.
func (v *view) undecided(q pair) Clash {
	c := Clash{A: q.a, B: q.b, Fraction: v.f, DepthAt: v.f, Undecided: true}
	c.touch(v, q)
	return c
}

// touch sets where and across which direction the pair is nearest.
func (c *Clash) touch(v *view, q pair) {
	if t, ok := v.apart(q, math.Inf(1)); ok {
		c.Point, c.Normal = t.A.Add(t.B).Mul(0.5), t.N
	}
}

// clash describes a clash: free of it from start to safe, overlapping by more than
// ClashDepth at hit.
func (v *view) clash(q pair, start, safe, hit float64) Clash {
	rate := 0.0
	for k := range v.bends {
		rate = max(rate, math.Abs(float64(v.to[k]-v.from[k])))
	}
	fine := float64(ClashAngle) / rate / 2
	// Where the overlap passes ClashDepth.
	for hit-safe > fine {
		if m := (safe + hit) / 2; v.at(m).sd(q) < -ClashDepth {
			hit = m
		} else {
			safe = m
		}
	}
	under, over := v.touching(q, start, hit, fine)
	c := Clash{A: q.a, B: q.b, Fraction: over, AtEnd: v.after.sd(q) < -ClashDepth}
	c.Overbend = hit > v.over && !c.AtEnd
	c.touch(v.at(under), q)
	c.Depth, c.DepthAt = v.deepest(q, hit)
	return c
}

// touching goes back from an overlap to the last moment without one: over is it, under the
// nearest moment after it that overlaps, no more than fine later. Both are start where the
// pair is in contact from there on.
func (v *view) touching(q pair, start, hit, fine float64) (under, over float64) {
	under, over = hit, start
	back := fine
	for k := 0; ; k++ {
		here := v.at(under)
		if k < touchSteps && !v.spent() {
			back = max(fine, here.overlapping(q))
		} else {
			back *= 1.3
		}
		f := under - back
		if f <= start {
			break
		}
		if v.at(f).sd(q) >= 0 {
			over = f
			break
		}
		under = f
	}
	if over == start && v.at(start).sd(q) < 0 {
		return start, start
	}
	for under-over > fine/touchFine {
		m := (under + over) / 2
		if v.at(m).sd(q) >= 0 {
			over = m
		} else {
			under = m
		}
	}
	return under, over
}

// overlapping is how long, at least, a pair that overlaps has done so: its depth over the speed at
// which its solids move past each other.
func (v *view) overlapping(q pair) float64 {
	best := 0.0
	for _, a := range v.groups(q.a, q.pa) {
		for _, b := range v.groups(q.b, q.pb) {
			c, _, _, ok := solid.Between(a.Placed, b.Placed, 0)
			if !ok {
				continue
			}
			m := v.motion(a, b)
			if speed, longest := solid.Speed(a.Placed, b.Placed, &m); speed > 0 {
				best = max(best, min(longest, -c.D/speed))
			}
		}
	}
	return best
}

// deepest is the largest overlap from the hit to the end of the swing, and where it is. The
// course is sampled, and then looked at where it might be deeper, going by twice the steepest slope
// seen so far, until nowhere may it be deeper by depthNear. The overlap's course has
// sharp peaks: a wall that passes through another's edge gives two.
func (v *view) deepest(q pair, hit float64) (depth, at float64) {
	depth = math.Inf(-1)
	type sample struct{ f, d float64 }
	look := func(f float64) sample {
		d := -v.at(f).sd(q)
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
		if v.spent() {
			break
		}
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
