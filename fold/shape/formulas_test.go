package shape

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// The interior angle and the ends of two walls, against walls set up in space:
// two thick half planes cut square at their ends, their least distance sampled
// in the section square to the line where the inner faces meet.
func TestEdgeToEdgeInSection(t *testing.T) {
	seed := int64(7)
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewSource(seed))
	for range 200 {
		delta := (30 + 240*r.Float64()) * math.Pi / 180
		gap, T := 0.2+2*r.Float64(), 0.5+3*r.Float64()
		d := EdgeToEdge(gap, geom.Angle(delta), T)
		// Wall A runs along +x from d, its inner face y = 0, its metal below; B is its
		// mirror image about the corner's bisector.
		sin, cos := math.Sincos(delta)
		mirror := func(x, y float64) (float64, float64) { return x*cos + y*sin, x*sin - y*cos }
		least := math.Inf(1)
		const n = 200
		for i := range n + 1 {
			for j := range n + 1 {
				ay := -T * float64(i) / n
				bx, by := mirror(d, -T*float64(j)/n)
				least = min(least, math.Hypot(d-bx, ay-by))
			}
		}
		require.InDelta(t, gap, least, 1e-9*(gap+T), "delta %v", delta)
	}
}

// notchHalfWidth is half the width of a V notch in a wall that crosses a floor's bend, at
// height h above the wall's tangent line, for upright walls on lines square to that bend:
// BA/2 - (rFloor - rWall - h) tan(rho/2) + gap/(2 cos(rho/2)), by closed form.
func notchHalfWidth(h, allowance float64, rho geom.Angle, rFloor, rWall, gap float64) float64 {
	sin, cos := math.Sincos(float64(rho) / 2)
	return allowance/2 - (rFloor-rWall-h)*sin/cos + gap/(2*cos)
}

// A wall in two pieces over a floor's bend, cut to a V by the closed form: the kernel's
// seam is parallel, and as wide as was wanted.
func TestNotchByClosedForm(t *testing.T) {
	const T, k, wall = 1.0, 0.42, 40.0
	for _, c := range []struct{ deg, rf, rw, gap float64 }{{14, 2, 1.2, 0.7}, {30, 2, 1.5, 0.5}, {55, 1, 1, 1.2}} {
		rho := geom.Degrees(c.deg)
		ba, bw := float64(rho)*(c.rf+k*T), math.Pi/2*(c.rw+k*T)
		w := func(h float64) float64 { return notchHalfWidth(h, ba, rho, c.rf, c.rw, c.gap) }
		x := 60 + bw/2 // the wall's tangent line; its bend's line is x = 60
		relief := w(0) + 0.3
		foot := 0.3 / (w(1) - w(0)) // where the V is as wide as the relief
		in := 60 - bw/2 - 1
		kk := k
		s := fold.Spec{Name: "notch", Sheet: fold.Sheet{Thickness: T, K: &kk}}
		for _, p := range []geom.Vec2{{0, -100}, {x + wall, -100}, {x + wall, -w(wall)}, {x + foot, -relief}, {in, -relief},
			{in, relief}, {x + foot, relief}, {x + wall, w(wall)}, {x + wall, 100}, {0, 100}} {
			s.Outline = append(s.Outline, fold.Vertex{At: p})
		}
		bend := func(name string, a, b geom.Vec2, deg, r float64) {
			s.Bends = append(s.Bends, fold.BendSpec{Name: name, Line: [2]geom.Vec2{a, b}, Angle: deg, Radius: r, Up: true})
		}
		bend("rear", geom.Vec2{60, -100}, geom.Vec2{60, -relief}, 90, c.rw)
		bend("front", geom.Vec2{60, relief}, geom.Vec2{60, 100}, 90, c.rw)
		bend("fall", geom.Vec2{0, 0}, geom.Vec2{in, 0}, c.deg, c.rf)
		p := fold.Build(s)
		require.True(t, p.Foldable, "%v", p.Troubles)
		r := p.Quick()
		require.Len(t, r.Seams, 1, "%v", c)
		require.InDelta(t, c.gap, r.Seams[0].GapMin, 1e-9, "%v", c)
		require.InDelta(t, c.gap, r.Seams[0].GapMax, 1e-9, "%v", c)
	}
}
