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
	return v.step(q, dirs, ClashDepth, ClashDepth+clashSlack)
}

// step is the longest step proved free of overlaps by floor for a pair, or the contact of an overlap by more than depth; both may be
// under nothing, for distances.
func (v *view) step(q pair, dirs *[]geom.Vec3, depth, floor float64) solid.Step {
	best := solid.Step{Length: 1 - v.f}
	for _, a := range v.groups(q.a, q.pa) {
		for _, b := range v.groups(q.b, q.pb) {
			m := v.motion(a, b)
			s := solid.Advance(a.Placed, b.Placed, &m, depth, floor, best.Length, dirs)
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
	switch m := v.seek(q, from); m.end {
	case meets:
		return v.clash(q, m), true
	case undecided:
		return v.undecided(q, m.at), true
	}
	return Clash{}, false
}

// ending is what became of a pair in a swing.
type ending int

const (
	clears    ending = iota // proved: no overlap of more than ClashDepth
	meets                   // an overlap of more
	undecided               // the work allowed did not do
)

// meeting is how far a pair was followed: free of a clash from start to safe; at is where it clashes, or where the search was given up.
type meeting struct {
	end             ending
	start, safe, at float64
}

// seek follows a pair to its first clash. A pair that overlaps at the start is let be until it has parted.
func (v *view) seek(q pair, from float64) meeting {
	var dirs []geom.Vec3
	here, start := v, 0.0
	if from > 0 {
		here = v.at(from)
	} else if s := here.advance(q, &dirs); s.Hit {
		f, ok := v.parting(q)
		switch {
		case !ok && v.spent():
			return meeting{end: undecided}
		case !ok:
			return meeting{end: clears}
		}
		here, start = v.at(f), f
	}
	safe := here.f
	for steps := 0; ; steps++ {
		s := here.advance(q, &dirs)
		if s.Hit {
			return meeting{meets, start, safe, here.f}
		}
		safe = here.f
		f := here.f + s.Length
		if !(f < 1) {
			break
		}
		if steps == maxSteps || f == here.f || v.spent() {
			return meeting{undecided, start, safe, here.f}
		}
		here = v.at(f)
	}
	// The end itself, to which the last step was proved only within the slack.
	if safe < 1 && safe > start && v.end.deep(q) {
		return meeting{meets, start, safe, 1}
	}
	return meeting{end: clears}
}

// parting is the first moment found at which a pair that starts in overlap no longer clashes: it is looked for in steps through which
// the pair is known to lie in itself, and where that is not known for long, partingSteps in all. False, too, where the work is spent.
func (v *view) parting(q pair) (float64, bool) {
	var in piecePair
	for f := 0.0; f < 1 && !v.spent(); {
		here := v.at(f)
		if f > 0 && !here.deep(q) {
			return f, true
		}
		f += max(here.overlapping(q, &in), 1.0/partingSteps)
	}
	return 0, false
}

// undecided is the place where the search of a pair was given up.
func (v *view) undecided(q pair, f float64) Clash {
	c := Clash{A: q.a, B: q.b, Fraction: f, DepthAt: f, Undecided: true}
	c.touch(v.at(f), q)
	return c
}

// touch sets where and across which direction the pair is nearest.
func (c *Clash) touch(v *view, q pair) {
	if t, ok := v.apart(q, math.Inf(1)); ok {
		c.Point, c.Normal = t.A.Add(t.B).Mul(0.5), t.N
	}
}

// bracket is the first contact of a pair that meets: over the last moment without an overlap, under the next after it that overlaps, and
// hit, where the overlap passes ClashDepth.
func (v *view) bracket(q pair, m meeting) (under, over, hit float64) {
	rate := 0.0
	for k := range v.bends {
		rate = max(rate, math.Abs(float64(v.to[k]-v.from[k])))
	}
	fine := float64(ClashAngle) / rate / 2
	safe, hit := m.safe, m.at
	for hit-safe > fine {
		if k := (safe + hit) / 2; v.at(k).deep(q) {
			hit = k
		} else {
			safe = k
		}
	}
	under, over = v.touching(q, m.start, hit, fine)
	return under, over, hit
}

// clash describes what became of a pair that meets.
func (v *view) clash(q pair, m meeting) Clash {
	under, over, hit := v.bracket(q, m)
	c := Clash{A: q.a, B: q.b, Fraction: over, AtEnd: v.after.deep(q)}
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
	var in piecePair
	back := v.at(hit).overlapping(q, &in)
	for k := 0; ; k++ {
		f := under - max(fine, back)
		if f <= start {
			break
		}
		t := v.at(f).overlapping(q, &in)
		if t == 0 {
			over = f
			break
		}
		under = f
		if k < touchSteps && !v.spent() {
			back = t
		} else {
			back *= 1.3
		}
	}
	if over == start && v.at(start).meets(q) {
		return start, start
	}
	for under-over > fine/touchFine {
		m := (under + over) / 2
		if !v.at(m).meets(q) {
			over = m
		} else {
			under = m
		}
	}
	return under, over
}

// piecePair is two pieces of a pair of solids that overlapped when last looked at, by their places: they most likely do so
// a little earlier too, and are looked at first.
type piecePair struct{ ga, gb, ia, ib int }

// overlapping is how long, at least, a pair that overlaps has done so; 0 where it does not. The two pieces of in are
// looked at first; in becomes the two that were found.
func (v *view) overlapping(q pair, in *piecePair) float64 {
	as, bs := v.groups(q.a, q.pa), v.groups(q.b, q.pb)
	stays := func(c solid.Contact) float64 {
		a, b := as[in.ga], bs[in.gb]
		m := v.motion(a, b)
		return m.Stays(a.Piece(in.ia), b.Piece(in.ib), c)
	}
	if in.ga < len(as) && in.gb < len(bs) && as[in.ga].Holds(in.ia) && bs[in.gb].Holds(in.ib) {
		v.work++
		if c, ok := solid.Nearer(as[in.ga].Piece(in.ia), bs[in.gb].Piece(in.ib), 0); ok {
			if t := stays(c); t > 0 {
				return t
			}
		}
	}
	for i, a := range as {
		for j, b := range bs {
			if c, ia, ib, ok := solid.Between(a.Placed, b.Placed, 0); ok {
				*in = piecePair{i, j, ia, ib}
				return stays(c)
			}
		}
	}
	return 0
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
	for n := v.work; v.work-n < depthWork && len(line) < depthSamples+depthLooks && !v.spent(); {
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
