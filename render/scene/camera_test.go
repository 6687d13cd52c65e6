package scene

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

func randomCamera(r *rand.Rand) Camera {
	c := NewCamera(200+1200*r.Float64(), 200+900*r.Float64())
	c.Yaw, c.Pitch = (r.Float64()*2-1)*math.Pi, minPitch+(maxPitch-minPitch)*r.Float64()
	c.Dist = math.Exp2(4 + 8*r.Float64())
	c.Target = geom.Vec3{r.NormFloat64() * 50, r.NormFloat64() * 50, r.NormFloat64() * 50}
	for i := range c.Inset {
		c.Inset[i] = 60 * r.Float64()
	}
	return c
}

// The ray through a point's place on the screen goes through the point.
func TestRay(t *testing.T) {
	const seed = 3
	r := rand.New(rand.NewSource(seed))
	for range 1000 {
		c := randomCamera(r)
		p := geom.Vec3{r.NormFloat64() * 100, r.NormFloat64() * 100, r.NormFloat64() * 100}
		x, y, d := c.Project(p)
		if d <= 1 {
			continue
		}
		eye, dir := c.Ray(x, y)
		off := p.Sub(eye)
		require.InDelta(t, 0, off.Sub(dir.Mul(off.Dot(dir))).Len(), 1e-7*off.Len(), "seed %d", seed)
	}
	right, up, back := (&Camera{Yaw: .4, Pitch: .3}).Axes()
	require.InDelta(t, 0, right.Cross(up).Sub(back).Len(), 1e-12)
}

// A framed box lies within the free area and nearly fills it one way.
func TestFrame(t *testing.T) {
	const seed = 5
	r := rand.New(rand.NewSource(seed))
	for range 300 {
		c := randomCamera(r)
		b := geom.EmptyBox3()
		size := math.Exp2(12*r.Float64() - 1)
		for range 3 {
			b.Add(geom.Vec3{r.NormFloat64() * size, r.NormFloat64() * size, r.NormFloat64() * size})
		}
		c.Frame(b)
		cx, cy, w, h := c.free()
		most := 0.0
		for i := range 8 {
			p := b.Min
			for k := range 3 {
				if i>>k&1 == 1 {
					p[k] = b.Max[k]
				}
			}
			x, y, d := c.Project(p)
			require.Positive(t, d)
			fx, fy := abs(x-cx)/(w/2), abs(y-cy)/(h/2)
			require.Less(t, max(fx, fy), 1.0, "seed %d", seed)
			most = max(most, fx, fy)
		}
		require.InDelta(t, frameFill, most, .03, "seed %d", seed)
	}
}

// Zooming keeps what is under the finger, at the target's depth, in its place.
func TestZoom(t *testing.T) {
	const seed = 9
	r := rand.New(rand.NewSource(seed))
	for range 200 {
		c := randomCamera(r)
		c.Dist = 300
		x, y := c.W*r.Float64(), c.H*r.Float64()
		eye, dir := c.Ray(x, y)
		_, _, back := c.Axes()
		p := eye.Add(dir.Mul(c.Dist / -dir.Dot(back)))
		c.Zoom(math.Exp2(r.NormFloat64()), x, y, 200)
		gx, gy, _ := c.Project(p)
		require.InDelta(t, x, gx, 1e-6)
		require.InDelta(t, y, gy, 1e-6)
	}
}

// Of the named views "front" has x to the right, "end" y to the right, "above" looks
// down, and "at the brake" shows the bend's line as a point and the held side left.
func TestViews(t *testing.T) {
	p := build(t, tray(90, 90))
	s := Make(Picture{Part: p, State: p.StateAt(1, .5), Turning: []int{p.Swings[1].Bends[0]}})
	c := NewCamera(800, 600)
	right := func(word string) geom.Vec3 {
		require.True(t, s.SetView(&c, word))
		r, _, _ := c.Axes()
		return r
	}
	require.InDelta(t, 1, right("front")[0], 1e-12)
	require.InDelta(t, 1, right("end")[1], 1e-12)
	right("above")
	_, _, back := c.Axes()
	require.Greater(t, back[2], .999)
	b := &p.Bends[p.Swings[1].Bends[0]]
	r := right("at the brake")
	require.InDelta(t, 1, r.Dot(geom.Vec3{b.N[0], b.N[1], 0}), 1e-9)
	_, _, back = c.Axes()
	require.Greater(t, abs(back.Dot(geom.Vec3{b.U[0], b.U[1], 0})), .98)
	for _, w := range Views {
		require.True(t, s.SetView(&c, w), w)
	}
}
