package solid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// Within the time that Stays proves, forth and back, sampled moments overlap: random pairs that overlap by little or
// much, turned about one line or about one in another.
func TestStaysOverlapping(t *testing.T) {
	r := newRand(t)
	checked, held := 0, 0
	for range 4000 {
		spread := logUniform(r, 0.5, 60)
		a, b := randomConvex(r, spread), randomConvex(r, spread)
		line := func() (geom.Vec3, geom.Vec3, float64) {
			f := randomFrame(r, spread)
			return f.O, f.X, logUniform(r, 0.01, 3)
		}
		at, axis, rate := line()
		if r.Intn(2) == 0 { // along an edge of one of them: the daily case
			axis = a.Dirs[r.Intn(len(a.Dirs))]
		}
		if c := Distance(&a, &b); r.Intn(2) == 0 { // brought to a thin overlap
			a = a.Move(geom.Frame{X: geom.Vec3{1, 0, 0}, Y: geom.Vec3{0, 1, 0}, Z: geom.Vec3{0, 0, 1}, O: c.N.Mul(-c.D - logUniform(r, 1e-6, 0.1))})
		}
		m := Motion{Turns: []Turn{{At: at, Axis: axis, Rate: rate}}}
		move := func(f float64) geom.Frame { return turned(at, axis, rate*f) }
		if r.Intn(3) == 0 {
			at2, axis2, rate2 := line()
			m.Turns = append(m.Turns, Turn{At: at2, Axis: axis2, Rate: rate2})
			move = func(f float64) geom.Frame {
				return turned(at, axis, rate*f).Compose(turned(at2, axis2, rate2*f))
			}
		}
		c := Distance(&a, &b)
		time := m.Stays(&a, &b, c)
		if c.D >= 0 {
			require.Zero(t, time)
			continue
		}
		require.Positive(t, time)
		require.LessOrEqual(t, time, 1.0)
		checked++
		if f := m.field(); len(m.Turns) == 1 && f.held(&a, &b) > time/2 {
			held++
		}
		for k := range 41 {
			f := time * (float64(k) - 20) / 20
			moved := a.Move(move(f))
			d := Distance(&moved, &b).D
			require.Less(t, d, 1e-9*(1+spread), "at %v of %v, %v deep at first", f, time, -c.D)
		}
	}
	require.Greater(t, checked, 1000)
	require.Greater(t, held, 5)
}

// Two walls that overlap by a hair along the line about which one turns, and by much across it, stay so for long: the depth over the
// speed would give a thousandth of it.
func TestStaysAlongTheLine(t *testing.T) {
	a, b := box(0, 10, -1, 0.001, 0, 30), box(0, 10, 0, 5, 0, 30)
	c := Distance(&a, &b)
	require.InDelta(t, -0.001, c.D, 1e-12)
	m := Motion{Turns: []Turn{{At: geom.Vec3{5, 0, 15}, Axis: geom.Vec3{0, 1, 0}, Rate: 1}}}
	require.Greater(t, m.Stays(&a, &b, c), 0.5)
	require.Less(t, 0.001/math.Hypot(5, 15), 1e-4)
}
