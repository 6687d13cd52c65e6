package solid

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// turned turns a body about a line through at, by angle.
func turned(at, axis geom.Vec3, angle float64) geom.Frame {
	sin, cos := math.Sincos(angle)
	rot := func(v geom.Vec3) geom.Vec3 { // Rodrigues
		return v.Mul(cos).Add(axis.Cross(v).Mul(sin)).Add(axis.Mul(axis.Dot(v) * (1 - cos)))
	}
	f := geom.Frame{X: rot(geom.Vec3{1, 0, 0}), Y: rot(geom.Vec3{0, 1, 0}), Z: rot(geom.Vec3{0, 0, 1})}
	f.O = at.Sub(f.Vector(at))
	return f
}

// sweepTo turns a about a line until it overlaps b by more than depth; the bracket of the
// angle at which it does. Also the steps taken.
func sweepTo(a, b *Body, at, axis geom.Vec3, most, depth float64) (lo, hi float64, steps int, hit bool) {
	var dirs []geom.Vec3
	still := b.Place(geom.Identity())
	step := func(angle, left float64) Step {
		m := Motion{Turns: []Turn{{At: at, Axis: axis, Rate: left}}}
		return Advance(a.Place(turned(at, axis, angle)), still, &m, depth, depth+1e-4, 1, &dirs)
	}
	for angle, before := 0.0, 0.0; ; steps++ {
		s := step(angle, most-angle)
		if s.Hit {
			lo, hi = before, angle
			break
		}
		before = angle
		if angle >= most {
			return most, most, steps, false
		}
		if angle += s.Length * (most - angle); s.Length == 1 {
			angle = most
		}
	}
	for hi-lo > 1e-12 {
		m := (lo + hi) / 2
		if c, _, _, ok := Between(a.Place(turned(at, axis, m)), still, -depth); ok && c.D < -depth {
			hi = m
		} else {
			lo = m
		}
		if m == lo && m == hi {
			break
		}
	}
	return lo, hi, steps, true
}

func one(c Convex) *Body { return NewBody([]Convex{c}) }

// Closed forms of testdata/oracle/first_contact_oracle.csv. Found with an overlap of 1e-7, so
// a hair late.
func TestFirstContactOracle(t *testing.T) {
	want := map[string]string{}
	for _, r := range readCSV(t, "testdata/oracle/first_contact_oracle.csv") {
		want[r[0]] = r[6]
	}
	boxes := tray13(t)
	moving := one(box(202, 262, -100.75, 100.75, -0.75, 0.75))
	r := math.Hypot(62, 0.75)
	at, axis := geom.Vec3{200, 0, 0}, geom.Vec3{0, -1, 0}
	var wall, others []Convex
	for _, name := range []string{"wallE", "retE1", "retE2"} {
		c, ok := boxes[name]
		require.True(t, ok, name)
		wall = append(wall, c.Move(turned(at, axis, -89.9*math.Pi/180)))
		delete(boxes, name)
	}
	for name := range boxes {
		others = append(others, boxes[name])
	}
	cases := map[string][2]*Body{
		"B1":   {moving, one(box(173, 188, -80, 80, 50.25, 51.75))},
		"B2":   {moving, one(box(183, 198, -80, 80, 61, 62.5))},
		"B3":   {moving, one(box(192.5, 207.5, -80, 80, r+0.01, r+1.51))},
		"B4":   {moving, one(box(140, 198, 101.75, 103.25, 2, 62))},
		"tray": {NewBody(wall), NewBody(others)},
	}
	require.Len(t, want, len(cases))
	for name, c := range cases {
		_, hi, steps, hit := sweepTo(c[0], c[1], at, axis, 120*math.Pi/180, 1e-7)
		t.Logf("%s: %d steps", name, steps)
		if strings.HasPrefix(want[name], "none") {
			require.False(t, hit, name)
			continue
		}
		require.True(t, hit, name)
		require.InDelta(t, number(t, want[name]), hi*180/math.Pi, 1e-5, name)
	}
}

// TestAdvanceIsSafe: within the step that Advance proves, no sampled moment overlaps by
// floor, for turning pairs of all kinds, one turn and one in another.
func TestAdvanceIsSafe(t *testing.T) {
	r := newRand(t)
	const depth, floor = 0.01, 0.011
	checked := 0
	for range 1500 {
		spread := logUniform(r, 5, 100)
		body := func() *Body {
			var pieces []Convex
			for range 1 + r.Intn(3) {
				pieces = append(pieces, randomConvex(r, spread))
			}
			return NewBody(pieces)
		}
		a, b := body(), body()
		line := func() (geom.Vec3, geom.Vec3, float64) {
			f := randomFrame(r, spread)
			return f.O, f.X, logUniform(r, 0.01, 3)
		}
		at, axis, rate := line()
		m := Motion{Turns: []Turn{{At: at, Axis: axis, Rate: rate}}}
		move := func(f float64) geom.Frame { return turned(at, axis, rate*f) }
		if r.Intn(2) == 0 { // the line of a second turn, carried by the first
			at2, axis2, rate2 := line()
			m.Turns = append(m.Turns, Turn{At: at2, Axis: axis2, Rate: rate2})
			move = func(f float64) geom.Frame {
				return turned(at, axis, rate*f).Compose(turned(at2, axis2, rate2*f))
			}
		}
		var dirs []geom.Vec3
		s := Advance(a.Place(geom.Identity()), b.Place(geom.Identity()), &m, depth, floor, 1, &dirs)
		if s.Hit {
			require.Less(t, s.D, -depth)
			continue
		}
		checked++
		for k := range 40 {
			f := s.Length * float64(k) / 39
			c, _, _, ok := Between(a.Place(move(f)), b.Place(geom.Identity()), -floor-1e-9)
			require.False(t, ok, "overlap %v at %v of a safe step", c.D, f)
		}
	}
	require.Greater(t, checked, 300)
}
