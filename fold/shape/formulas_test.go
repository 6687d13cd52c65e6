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

// A notch by formula against the two walls' edge lines set up by hand: upright
// walls over a bend rho of the floor, their inner edges w(h) from the bend's
// middle on the blank, rolled up about the bend's axis.
func TestNotchHalfWidth(t *testing.T) {
	const rf, rw, k, T, gap = 2.0, 1.2, 0.42, 1.0, 0.7
	rho := geom.Degrees(14)
	ba := Allowance(rho, rf, T, k)
	for _, h := range []float64{5, 20, 60} {
		w := NotchHalfWidth(h, ba, rho, rf, rw, gap)
		// A wall's point at height h over its tangent line stands h + rw over the floor's
		// upper face; the bend's axis is rf over it. Seen from the axis, the rear wall's edge
		// is w - ba/2 before the tangent plane, the front's the same after it.
		back, up := w-ba/2, h+rw-rf
		rear := [2]float64{-back, up}
		sin, cos := math.Sincos(float64(rho))
		front := [2]float64{back*cos - up*sin, back*sin + up*cos}
		half := float64(rho) / 2
		apart := (front[0]-rear[0])*math.Cos(half) + (front[1]-rear[1])*math.Sin(half)
		require.InDelta(t, gap, apart, 1e-12)
	}
	require.InDelta(t, float64(rho), 2*math.Atan(NotchHalfWidth(1, ba, rho, rf, rw, gap)-NotchHalfWidth(0, ba, rho, rf, rw, gap)), 1e-12)
	require.InDelta(t, 55*math.Sin(float64(rho))*math.Sin(0.1), NotchStep(55, rho, 0.1), 1e-12)
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
