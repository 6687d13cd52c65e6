package fold

// This file finds each bend's run of material along its line and how far its
// zone's strip reaches.

import (
	"cmp"
	"math"
	"slices"

	"dryfold/fold/geom"
)

// zone is a bend's strip while the blank is being cut: along s = (p-o).u and
// across (p-o).n, with o the middle of the given line.
type zone struct {
	o, u, n geom.Vec2
	half    float64      // half the strip's width; 0 for a plain crease
	runs    [][2]float64 // stretches of material along the centre line
	from    float64      // how far along the strip's pieces can reach
	to      float64
}

func (z *zone) at(along, across float64) geom.Vec2 {
	return z.o.Add(z.u.Mul(along)).Add(z.n.Mul(across))
}

func (z *zone) coord(p geom.Vec2) (along, across float64) {
	d := p.Sub(z.o)
	return d.Dot(z.u), d.Dot(z.n)
}

// inRun reports whether along lies between the ends of one of the runs.
func (z *zone) inRun(along float64) bool {
	for _, r := range z.runs {
		if along > r[0] && along < r[1] {
			return true
		}
	}
	return false
}

// bends reads the bends' sizes and finds their runs.
func (b *cutter) bends() {
	p, s := b.part, &b.part.Spec
	stripes := newLineHits(b.chords)
	for i, bs := range s.Bends {
		bend := s.bend(i, b.lore)
		l0, l1 := bs.Line[0].Mul(b.k), bs.Line[1].Mul(b.k)
		bend.Line = [2]geom.Vec2{l0, l1}
		z := zone{o: l0.Add(l1).Mul(0.5), u: l1.Sub(l0).Normalize(), half: bend.Allowance / 2}
		z.n = geom.Perp(z.u)
		b.findRuns(&z, bend.Name, l1.Sub(l0).Len()/2, stripes)
		p.Bends = append(p.Bends, bend)
		b.zones = append(b.zones, z)
	}
}

// findRuns fills z's runs: the stretches of material along the centre line that
// lie within the given ends, -half..half along. A stretch that reaches further is
// taken whole, and named.
func (b *cutter) findRuns(z *zone, name string, half float64, hits *lineHits) {
	p := b.part
	for _, r := range hits.runs(z.o, z.u) {
		lo, hi := max(r[0], -half), min(r[1], half)
		if hi-lo <= EdgeReach {
			continue
		}
		for side, d := range []float64{-half - r[0], r[1] - half} {
			if d > EdgeReach {
				end := z.at([]float64{-half, half}[side], 0)
				p.trouble(Stop, "bend-short", "bend", name, end, number(d), number(0), sentence(
					"The line of %s stops %.2f mm inside the material; take it on to the free edge, or cut a relief to its end.", theBend(name), d))
			}
		}
		z.runs = append(z.runs, r)
	}
	if len(z.runs) == 0 {
		p.trouble(Stop, "bend-misses", "bend", name, z.o, nil, nil,
			sentence("The line of %s does not cross the material from one free edge to another; move it on to the sheet.", theBend(name)))
		b.fatal = true
		return
	}
	z.from, z.to = z.runs[0][0], z.runs[len(z.runs)-1][1]
	if z.half == 0 {
		return
	}
	// The strip reaches as far along as material goes on unbroken on a tangent line.
	lo, hi := z.from, z.to
	for _, side := range []float64{-1, 1} {
		for _, r := range hits.runs(z.at(0, side*z.half), z.u) {
			if r[1] > z.from && r[0] < z.to {
				lo, hi = min(lo, r[0]), max(hi, r[1])
			}
		}
	}
	// Between the tangent lines a slanting edge may lead it on a little further.
	z.from, z.to = hits.reach(z, lo, hi)
}

// lineHits answers where a straight line runs through the material.
type lineHits struct {
	chords []chord
}

func newLineHits(cs []chord) *lineHits { return &lineHits{cs} }

// reach gives lo..hi, a stretch along z's line, taken on by the edges in z's strip
// that hang on to it.
func (l *lineHits) reach(z *zone, lo, hi float64) (float64, float64) {
	var within [][2]float64 // what of each edge lies in the strip
	for i := range l.chords {
		sa, ta := z.coord(l.chords[i].a)
		sb, tb := z.coord(l.chords[i].b)
		if min(ta, tb) >= z.half || max(ta, tb) <= -z.half {
			continue
		}
		at := func(t, s float64) float64 {
			if c := min(max(t, -z.half), z.half); c != t {
				return sa + (c-ta)/(tb-ta)*(sb-sa)
			}
			return s
		}
		x, y := at(ta, sa), at(tb, sb)
		within = append(within, [2]float64{min(x, y), max(x, y)})
	}
	geom.SortStable(within, func(v, w [2]float64) int { return cmp.Compare(v[0], w[0]) })
	for _, w := range within {
		if w[0] <= hi {
			hi = max(hi, w[1])
		}
	}
	geom.SortStable(within, func(v, w [2]float64) int { return cmp.Compare(w[1], v[1]) })
	for _, w := range within {
		if w[1] >= lo {
			lo = min(lo, w[0])
		}
	}
	return lo, hi
}

// runs gives the stretches of the line o + t*u (u unit) that have material on
// both sides, sorted, as intervals of t.
func (l *lineHits) runs(o, u geom.Vec2) [][2]float64 {
	n := geom.Perp(u)
	const side = 50 * Weld // how far beside the line material is looked for
	var ts []float64
	var left, right []float64 // crossings of the two lines beside it
	for i := range l.chords {
		c := &l.chords[i]
		a, b := c.a.Sub(o), c.b.Sub(o)
		ya, yb := a.Dot(n), b.Dot(n)
		if min(ya, yb) > side || max(ya, yb) < -side {
			continue
		}
		xa, xb := a.Dot(u), b.Dot(u)
		cross := func(y float64) (float64, bool) {
			if (ya > y) == (yb > y) {
				return 0, false
			}
			return xa + (y-ya)/(yb-ya)*(xb-xa), true
		}
		if x, ok := cross(0); ok {
			ts = append(ts, x)
		}
		if math.Abs(ya) <= side {
			ts = append(ts, xa)
		}
		if math.Abs(yb) <= side {
			ts = append(ts, xb)
		}
		if x, ok := cross(side); ok {
			left = append(left, x)
		}
		if x, ok := cross(-side); ok {
			right = append(right, x)
		}
	}
	slices.Sort(ts)
	slices.Sort(left)
	slices.Sort(right)
	odd := func(xs []float64, t float64) bool {
		i, _ := slices.BinarySearch(xs, t)
		return i%2 == 1
	}
	var out [][2]float64
	for i := 0; i+1 < len(ts); i++ {
		a, b := ts[i], ts[i+1]
		if b-a <= Weld {
			continue
		}
		if m := (a + b) / 2; odd(left, m) && odd(right, m) {
			if k := len(out); k > 0 && a-out[k-1][1] <= 2*side {
				out[k-1][1] = b
			} else {
				out = append(out, [2]float64{a, b})
			}
		}
	}
	return out
}
