package fold

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// A leaning wall's tip goes by a standing wall's top edge and away again: grazing, the double root. By kernel.md's position
// the tip's corners lie at (r sin a + t cos a, r' - r cos a + t sin a); the standing wall's inner upper corner is at -(floor + R) across and
// its height h. The standing wall is made so high that the path of the tip comes within a given depth of its corner.
func TestGraze(t *testing.T) {
	const T, R, floor, length, angle = 1.0, 1.0, 30.0, 45.0, 150.0
	rho := R + 0.4*T
	ba := angle * math.Pi / 180 * rho
	// in is how far the standing wall's corner, h high, lies within the leaning one at the angle a: its least distance
	// to the faces it has passed.
	in := func(h, a float64) float64 {
		run := length + ba - rho*a
		corner := geom.Vec2{-(floor + R), h}
		tip := func(r float64) geom.Vec2 { // the tip's edge on the face of radius r
			return geom.Vec2{r*math.Sin(a) + run*math.Cos(a), T + R - r*math.Cos(a) + run*math.Sin(a)}
		}
		inner, outer := tip(R), tip(R+T)
		across := outer.Sub(inner).Normalize()
		along := geom.Vec2{-across[1], across[0]}
		if along.Dot(inner.Sub(geom.Vec2{0, T + R})) < 0 {
			along = along.Mul(-1) // from the bend towards the tip
		}
		return min(across.Dot(corner.Sub(inner)), across.Dot(outer.Sub(corner)), along.Dot(inner.Sub(corner)))
	}
	const samples = 5000
	angleAt := func(k int) float64 { return angle * math.Pi / 180 * float64(k) / samples }
	depth := func(h float64) float64 {
		worst := math.Inf(-1)
		for k := range samples + 1 {
			worst = max(worst, in(h, angleAt(k)))
		}
		return worst
	}
	at := func(want float64) float64 { // the height at which it is so deep
		lo, hi := 5.0, 60.0
		for range 60 {
			if m := (lo + hi) / 2; depth(m) < want {
				lo = m
			} else {
				hi = m
			}
		}
		return lo
	}
	build := func(h float64) *Part {
		s := strip(T, []section{plain(h - T - R), plain(floor), plain(length)}, []fold1{{90, R, true}, {angle, R, true}})
		return buildBase(t, order(s, 0, 1), geom.Vec2{h + 2 + floor/2, 10})
	}
	for _, d := range []float64{-0.02, 0, 0.008} {
		require.Empty(t, build(at(d)).Clashes(), "%v deep at most", d)
	}
	c := onePair(t, build(at(0.0125)))
	require.InDelta(t, 0.0125, c.Depth, 0.002)
	// Its first contact is where the corner first lies in the wall, before the deepest place.
	h := at(0.0125)
	k := 0
	for in(h, angleAt(k)) <= 0 {
		k++
	}
	first := bisect(angleAt(k-1), angleAt(k), func(a float64) float64 { return in(h, a) }) * 180 / math.Pi
	require.InDelta(t, first, c.Angle.Degrees(), 0.005)
}

// At the hinge solids are in contact from the start: a sharp bend's panels, a bend's zone against its panels, and the next bend's zone that
// begins where the first panel ends. None of that is a clash, at any angle to 180, up or down, at once or one after the other.
func TestContactAtTheHinge(t *testing.T) {
	for _, r := range []float64{0, 0.2, 1} {
		for _, angle := range []float64{30, 90, 135} {
			for _, up := range []bool{true, false} {
				s := strip(1, []section{plain(40), plain(6), plain(30)}, []fold1{{angle, r, up}, {angle, r, !up}})
				require.Empty(t, buildBase(t, s, geom.Vec2{20, 10}).Clashes(), "radius %v, %v degrees", r, angle)
				require.Empty(t, buildBase(t, atOnce(s), geom.Vec2{20, 10}).Clashes(), "radius %v, %v degrees at once", r, angle)
			}
		}
	}
}

// First contact is bracketed: no overlap at its start, one a millionth of a degree later, on strips that hit themselves.
func TestBracket(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	brackets := 0
	for range 40 {
		p := Build(randomStrip(r))
		s := newShapes(p)
		for i := range p.Swings {
			c := s.course(i, false)
			c.limit = 1 << 60
			start := c.at(0)
			pairs, _ := start.candidates(-ClashDepth)
			for _, k := range pairs {
				q := s.pair(k.a, k.b)
				m := start.seek(q, k.from)
				if m.end != meets {
					continue
				}
				under, over, hit := start.bracket(q, m)
				if over == 0 {
					continue // in contact from the start on
				}
				brackets++
				way := 0.0
				for j := range c.bends {
					way = max(way, math.Abs(float64(c.to[j]-c.from[j])))
				}
				require.Less(t, (under-over)*way*180/math.Pi, 1e-6)
				require.GreaterOrEqual(t, plainSD(p, s, q, i, p.Swings[i].part(over, false)), -1e-12)
				require.Less(t, plainSD(p, s, q, i, p.Swings[i].part(under, false)), 0.0)
				require.Less(t, plainSD(p, s, q, i, p.Swings[i].part(hit, false)), -ClashDepth)
				for j := range 50 { // and all the way to the clash
					f := under + (hit-under)*float64(j)/49
					require.Less(t, plainSD(p, s, q, i, p.Swings[i].part(f, false)), 0.0)
				}
			}
		}
	}
	require.Greater(t, brackets, 20)
}
