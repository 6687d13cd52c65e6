package solid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

// volume of a body by its faces; also that every point lies within every normal's reach.
func volume(c *Convex) float64 {
	v := 0.0
	for _, t := range c.Tris {
		a, b, d := c.Points[t[0]].Sub(c.Centre), c.Points[t[1]].Sub(c.Centre), c.Points[t[2]].Sub(c.Centre)
		v += a.Dot(b.Cross(d)) / 6
	}
	return v
}

// TestFrustumClosed: faces enclose the body, and lie on its outside.
func TestFrustumClosed(t *testing.T) {
	r := newRand(t)
	for range 3000 {
		c := randomConvex(r, 10)
		edges := map[[2]int32]int{}
		for _, tri := range c.Tris {
			for k := range 3 {
				edges[[2]int32{tri[k], tri[(k+1)%3]}]++
			}
			a, b, d := c.Points[tri[0]], c.Points[tri[1]], c.Points[tri[2]]
			n := b.Sub(a).Cross(d.Sub(a))
			if n.Len() == 0 {
				continue
			}
			// Rounding turns the normal of a sliver by about 1e-13 r/height, height n/r.
			tol := 1e-9 + 1e-12*c.Radius*c.Radius*c.Radius/n.Len()
			n = n.Normalize()
			reach, _ := c.Support(n)
			require.InDelta(t, n.Dot(a), reach, tol, "a face inside the body")
		}
		for e := range edges {
			if len(c.Points) > 3 {
				require.Equal(t, edges[[2]int32{e[1], e[0]}], edges[e], "an open edge")
			}
		}
	}
	// A frustum of a square pyramid: h (A + B + sqrt AB) / 3.
	c := Frustum([]geom.Vec2{{0, 0}, {4, 0}, {4, 4}, {0, 4}, {2, 2}, {2, 0}}, []geom.Vec2{{1, 1}, {3, 1}, {3, 3}, {1, 3}}, 0, 3, geom.Identity())
	require.InDelta(t, 28, volume(&c), 1e-12)
	p := Prism(geom.Loop{{0, 0}, {4, 0}, {4, 4}, {0, 4}}, 1, 3, geom.Identity())
	require.InDelta(t, 32, volume(&p), 1e-12)
	w := Frustum([]geom.Vec2{{0, 0}, {0, 5}}, []geom.Vec2{{-1, 0}, {2, 0}, {2, 5}, {-1, 5}}, 0, 2, geom.Identity())
	require.InDelta(t, 15, volume(&w), 1e-12)
}

func TestBetweenAgainstAllPairs(t *testing.T) {
	r := newRand(t)
	for range 300 {
		make1 := func() *Body {
			var pieces []Convex
			for range 1 + r.Intn(12) {
				pieces = append(pieces, randomConvex(r, 30))
			}
			return NewBody(pieces)
		}
		a, b := make1().Place(randomFrame(r, 50)), make1().Place(randomFrame(r, 50))
		want := math.Inf(1)
		for i := range a.Body.Pieces {
			for j := range b.Body.Pieces {
				want = min(want, Distance(a.Piece(i), b.Piece(j)).D)
			}
		}
		c, i, j, ok := Between(a, b, math.Inf(1))
		require.True(t, ok)
		require.InDelta(t, want, c.D, 1e-9)
		require.InDelta(t, want, Distance(a.Piece(i), b.Piece(j)).D, 1e-9)
		_, _, _, ok = Between(a, b, want-1e-6)
		require.False(t, ok)
	}
	_, _, _, ok := Between(NewBody(nil).Place(geom.Identity()), NewBody(nil).Place(geom.Identity()), math.Inf(1))
	require.False(t, ok)
}

// Cover of a region by pieces gives the same distance as the plain pieces of its triangles.
func TestPiecesOfRegions(t *testing.T) {
	r := newRand(t)
	for range 100 {
		body := func(loops []geom.Loop, f geom.Frame) *Placed {
			var pieces []Convex
			for _, l := range loops {
				pieces = append(pieces, Prism(l, 0, 1.5, geom.Identity()))
			}
			return NewBody(pieces).Place(f)
		}
		reg := randomRegion(r)
		pts := points(reg)
		var tris []geom.Loop
		for _, tri := range Triangulate(reg) {
			tris = append(tris, geom.Loop{pts[tri[0]], pts[tri[1]], pts[tri[2]]})
		}
		f := randomFrame(r, 100)
		probe := body([]geom.Loop{circle(geom.Vec2{}, 3, 5, 0)}, randomFrame(r, 100))
		c, _, _, _ := Between(body(Decompose(reg), f), probe, math.Inf(1))
		d, _, _, _ := Between(body(tris, f), probe, math.Inf(1))
		if c.D > 0 || d.D > 0 {
			require.InDelta(t, d.D, c.D, 1e-9)
		}
	}
}
