package fold

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

var courseSeed = flag.Uint64("course", 3, "seed of the random pieces of TestLapStretches")

// sectionsOverlap is the slow way to a lap's stretch: whether the sections of its two pieces, square to e at s, overlap.
func sectionsOverlap(l *seamLine, o lap, s float64) bool {
	x := l.e.Cross(geom.Vec3{0, 0, 1})
	if x.Len() < 0.1 {
		x = l.e.Cross(geom.Vec3{1, 0, 0})
	}
	x = x.Normalize()
	y := l.e.Cross(x)
	sec := func(f geom.Frame, piece geom.Loop) []geom.Vec2 {
		var out []geom.Vec2
		edge := func(p, q geom.Vec3) {
			p, q = f.Point(p), f.Point(q)
			dp, dq := p.Dot(l.e)-s, q.Dot(l.e)-s
			if (dp > 0) != (dq > 0) {
				m := p.Add(q.Sub(p).Mul(dp / (dp - dq)))
				out = append(out, geom.Vec2{m.Dot(x), m.Dot(y)})
			}
		}
		for i, a := range piece {
			b := piece[(i+1)%len(piece)]
			edge(geom.Vec3{a[0], a[1], 0}, geom.Vec3{b[0], b[1], 0})
			edge(geom.Vec3{a[0], a[1], l.t}, geom.Vec3{b[0], b[1], l.t})
			edge(geom.Vec3{a[0], a[1], 0}, geom.Vec3{a[0], a[1], l.t})
		}
		return out
	}
	a, b := sec(l.a.frame, o.a), sec(l.b.frame, o.b)
	if len(a) == 0 || len(b) == 0 {
		return false
	}
	for _, set := range [][]geom.Vec2{a, b} { // no direction square to a pair of points parts them
		for i := range set {
			for j := i + 1; j < len(set); j++ {
				d := set[j].Sub(set[i])
				if d.Len() <= 1e-9 {
					continue
				}
				n := geom.Perp(d).Normalize()
				a0, a1 := spanAlong(a, n)
				b0, b1 := spanAlong(b, n)
				if a1 <= b0 || b1 <= a0 {
					return false
				}
			}
		}
	}
	return true
}

// The stretch on which two convex pieces lie in each other is where their sections overlap.
func TestLapStretches(t *testing.T) {
	seed := *courseSeed
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("again with: go test ./fold -run '^TestLapStretches$' -course %d", seed)
		}
	})
	r := rand.New(rand.NewPCG(seed, 1))
	u := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	quad := func() geom.Loop {
		w, h := u(0.1, 20), u(0.1, 20)
		return geom.Loop{{0, 0}, {w, u(-0.4, 0.1) * h / 2}, {w * u(0.8, 1.2), h}, {u(-0.1, 0.3) * w, h}}
	}
	frame := func() geom.Frame {
		x := geom.Vec3{u(-1, 1), u(-1, 1), u(-1, 1)}.Normalize()
		y := x.Cross(geom.Vec3{u(-1, 1), u(-1, 1), u(-1, 1)}).Normalize()
		return geom.Frame{O: geom.Vec3{u(-6, 6), u(-6, 6), u(-6, 6)}, X: x, Y: y, Z: x.Cross(y)}
	}
	meet, apart := 0, 0
	for range 600 {
		l := &seamLine{t: u(0.5, 5), e: geom.Vec3{u(-1, 1), u(-1, 1), u(-1, 1)}.Normalize()}
		l.a.frame, l.b.frame = frame(), frame()
		o := lap{quad(), quad(), math.Inf(1), math.Inf(-1), 1}
		l.shared(&o, l.a.frame, o.a, l.b.frame, o.b)
		l.shared(&o, l.b.frame, o.b, l.a.frame, o.a)
		for k := range 200 {
			s := -40 + 80*float64(k)/199
			if k%4 == 0 && o.lo < o.hi { // most of them near its ends
				s = []float64{o.lo, o.hi}[k/4%2] + u(-1e-3, 1e-3)
			}
			if min(math.Abs(s-o.lo), math.Abs(s-o.hi)) < 1e-6 {
				continue
			}
			in := s > o.lo && s < o.hi
			require.Equal(t, sectionsOverlap(l, o, s), in, "at %v of %v to %v", s, o.lo, o.hi)
			if in {
				meet++
			} else {
				apart++
			}
		}
	}
	require.Greater(t, meet, 2_000)
	require.Greater(t, apart, 20_000)
}

// A gap of the root of a square, which rises and falls, with a dip of one in 10,000 of the length: least, largest and integral by calculation.
func TestFollowBrackets(t *testing.T) {
	// A section over three pieces of a panel: two plates with a rod between, low and thin.
	const far, dip = 2.0, 0.3
	rod := 0.02
	plates := []geom.Loop{
		{{0, far}, {60, far}, {60, far + 5}, {0, far + 5}},
		{{60, far}, {200, far}, {200, far + 5}, {60, far + 5}},
		{{77.3, dip}, {77.3 + rod, dip}, {77.3 + rod, far + 1}, {77.3, far + 1}},
	}
	side := seamSide{frame: geom.Identity(), u: geom.Vec3{0, 0, 0}, v: geom.Vec3{0, 0, 1}, w: geom.Vec3{1, 0, 0}}
	l := &seamLine{t: 1, lo: 0, hi: 200}
	for _, p := range plates {
		q := seamPiece{loop: p}
		for k, s := range []float64{0, 200} {
			q.ends[k] = gapSlope(side.w, side.u.Add(side.w.Mul(s)), side.v.Add(side.w.Mul(s)), p, 1)
		}
		side.pieces = append(side.pieces, q)
	}
	l.b = side
	var g SeamGap
	l.figures(&g)
	require.InDelta(t, dip, g.Min, 1e-12)
	require.InDelta(t, far, g.Max, 1e-12)
	wing := math.Sqrt(far*far - dip*dip)
	r := math.Hypot(dip, wing)
	area := far*(200-rod-2*wing) + dip*rod + wing*r + dip*dip*math.Log((wing+r)/dip)
	require.InDelta(t, 1, g.Mean/(area/200), 1e-6)
	c, whole := newCourse(l)
	had := c.left
	require.InDelta(t, dip, c.least([]span{whole}), 1e-12)
	require.Less(t, had-c.left, 200, "distances taken for the least gap alone")
	require.Less(t, len(g.Profile), 40)
}
