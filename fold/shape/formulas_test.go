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

func TestInteriorAngle(t *testing.T) {
	require.InDelta(t, 90, InteriorAngle(geom.Degrees(90), 0).Degrees(), 1e-12)
	require.InDelta(t, 70, InteriorAngle(geom.Degrees(70), 0).Degrees(), 1e-12)
	require.InDelta(t, 180, InteriorAngle(geom.Degrees(90), geom.Degrees(90)).Degrees(), 1e-5)
	// Four walls of a square plan at 45 degrees: the dihedral of a pyramid whose
	// height is half its base's side is 120 degrees (cos = -1/2).
	require.InDelta(t, 120, InteriorAngle(geom.Degrees(90), geom.Degrees(45)).Degrees(), 1e-9)
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
		ba, bw := Allowance(rho, c.rf, T, k), Allowance(geom.Degrees(90), c.rw, T, k)
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

// A flared hopper by closed form, without the kernel's pose: each wall's points
// are rolled up by the bend's own formula, and the edges that meet are parallel
// and the wanted gap apart.
func TestHopperByHand(t *testing.T) {
	for _, lean := range []float64{5, 20, 35, 50} {
		s := plainPan()
		s.Lean, s.Level = lean, AtFloor
		spec, err := Pan(s)
		require.NoError(t, err)
		theta := (90 - lean) * math.Pi / 180
		sin, cos := math.Sincos(theta)
		ba := theta * (s.Radius + *s.K*s.Thickness)
		// The front's tangent line is horizontal, the right's upright.
		var frontY, rightX float64
		for _, b := range spec.Bends {
			switch b.Name {
			case "front":
				frontY = b.Line[0][1] + ba/2
			case "right":
				rightX = b.Line[0][0] - ba/2
			}
		}
		roll := func(across float64) (out, up float64) { // of the inner face
			v := across - ba
			return s.Radius*sin + v*cos, s.Thickness + s.Radius*(1-cos) + v*sin
		}
		edge := func(at geom.Vec2) (p [2]geom.Vec2) {
			best := math.Inf(1)
			for i, a := range spec.Outline {
				b := spec.Outline[(i+1)%len(spec.Outline)]
				if d, _ := geom.SegmentDistance(at, a.At, b.At); d < best {
					best, p = d, [2]geom.Vec2{a.At, b.At}
				}
			}
			return p
		}
		checked := false
		for _, seam := range spec.Seams {
			if seam.Name != "front right corner" {
				continue
			}
			checked = true
			f, g := edge(seam.A), edge(seam.B)
			var a, b [2]geom.Vec3
			for i := range 2 {
				out, up := roll(frontY - f[i][1])
				a[i] = geom.Vec3{f[i][0], frontY - out, up}
				out, up = roll(g[i][0] - rightX)
				b[i] = geom.Vec3{rightX + out, g[i][1], up}
			}
			da, db := a[1].Sub(a[0]).Normalize(), b[1].Sub(b[0]).Normalize()
			require.InDelta(t, 0, da.Cross(db).Len(), 1e-10)
			apart := b[0].Sub(a[0])
			require.InDelta(t, s.Gap, apart.Sub(da.Mul(apart.Dot(da))).Len(), 1e-9)
			// Rising one, the hopper's corner goes out tan(lean) both ways.
			rise := da.Mul(1 / da[2])
			require.InDelta(t, math.Tan(lean*math.Pi/180), rise[0], 1e-9)
			require.InDelta(t, -math.Tan(lean*math.Pi/180), rise[1], 1e-9)
		}
		require.True(t, checked)
	}
}

func TestRound(t *testing.T) {
	s := fold.Spec{
		Outline: fold.Contour{{At: geom.Vec2{1.00004, -0.00001}}, {At: geom.Vec2{2, 3}, Through: &geom.Vec2{1.23456, 2}}},
		Bends:   []fold.BendSpec{{Line: [2]geom.Vec2{{0.12345, 1}, {2, 2}}, Radius: 1.23456}},
	}
	r := Round(s, 1e-3)
	require.Equal(t, geom.Vec2{1, 0}, r.Outline[0].At)
	require.False(t, math.Signbit(r.Outline[0].At[1]))
	require.Equal(t, geom.Vec2{1.235, 2}, *r.Outline[1].Through)
	require.Equal(t, 0.123, r.Bends[0].Line[0][0])
	require.Equal(t, 1.23456, r.Bends[0].Radius)
	require.Equal(t, 1.00004, s.Outline[0].At[0]) // the given part stays
	require.Equal(t, 1.23456, s.Outline[1].Through[0])
}
