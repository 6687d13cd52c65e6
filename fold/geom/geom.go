// Package geom holds points, vectors, angles, rigid frames and polygons.
// It knows nothing of sheet metal. Lengths are in whatever unit the caller
// uses (the kernel uses mm); angles are in radians.
package geom

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// Vec2 and Vec3 are points and vectors, with mathgl's methods
// (Add, Sub, Mul by a number, Dot, Cross, Len, Normalize).
type (
	Vec2 = mgl64.Vec2
	Vec3 = mgl64.Vec3
)

// Angle is an angle in radians.
type Angle float64

// Degrees makes an Angle from degrees.
func Degrees(d float64) Angle { return Angle(d * math.Pi / 180) }

// Degrees gives the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) * 180 / math.Pi }

// Cross2 is the z component of a x b: positive when b lies counter-clockwise of a.
func Cross2(a, b Vec2) float64 { return a[0]*b[1] - a[1]*b[0] }

// Perp turns v a quarter turn counter-clockwise.
func Perp(v Vec2) Vec2 { return Vec2{-v[1], v[0]} }

// Frame is a rigid placement: local (x,y,z) lies at O + x*X + y*Y + z*Z.
// X, Y, Z are orthonormal and right-handed. The zero Frame is not valid; use Identity.
type Frame struct{ X, Y, Z, O Vec3 }

// Identity is the frame that moves nothing.
func Identity() Frame {
	return Frame{X: Vec3{1, 0, 0}, Y: Vec3{0, 1, 0}, Z: Vec3{0, 0, 1}}
}

// Vector carries a local direction into space.
func (f Frame) Vector(v Vec3) Vec3 {
	return Vec3{
		f.X[0]*v[0] + f.Y[0]*v[1] + f.Z[0]*v[2],
		f.X[1]*v[0] + f.Y[1]*v[1] + f.Z[1]*v[2],
		f.X[2]*v[0] + f.Y[2]*v[1] + f.Z[2]*v[2],
	}
}

// Point carries a local point into space.
func (f Frame) Point(p Vec3) Vec3 { return f.Vector(p).Add(f.O) }

// LocalVector and LocalPoint are the inverses of Vector and Point.
func (f Frame) LocalVector(v Vec3) Vec3 { return Vec3{f.X.Dot(v), f.Y.Dot(v), f.Z.Dot(v)} }

// LocalPoint gives the local coordinates of a point in space.
func (f Frame) LocalPoint(p Vec3) Vec3 { return f.LocalVector(p.Sub(f.O)) }

// Compose places frame g, given in f's local coordinates, into space.
func (f Frame) Compose(g Frame) Frame {
	return Frame{X: f.Vector(g.X), Y: f.Vector(g.Y), Z: f.Vector(g.Z), O: f.Point(g.O)}
}

// Loop is a closed polygon; the last point is joined to the first and not repeated.
type Loop []Vec2

// Region is a flat area: an outer loop, counter-clockwise seen from +z, and
// holes, clockwise.
type Region struct {
	Outer Loop
	Holes []Loop
}

// Loops gives the outer loop and then the holes.
func (r Region) Loops() []Loop {
	return append([]Loop{r.Outer}, r.Holes...)
}

// Area is the signed area: positive for counter-clockwise loops.
func (l Loop) Area() float64 {
	if len(l) < 3 {
		return 0
	}
	o, sum := l[0], 0.0 // about the first point, which keeps small loops far from the origin exact
	for i := 1; i+1 < len(l); i++ {
		sum += Cross2(l[i].Sub(o), l[i+1].Sub(o))
	}
	return sum / 2
}

// Area is the outer area less the holes.
func (r Region) Area() float64 {
	a := r.Outer.Area()
	for _, h := range r.Holes {
		a += h.Area()
	}
	return a
}

// Spread is the largest area of a triangle of the first point, the one farthest from
// it and another: 0 where all lie on one line, whichever way the loop goes round.
func (l Loop) Spread() float64 {
	if len(l) == 0 {
		return 0
	}
	far := Vec2{}
	for _, p := range l {
		if d := p.Sub(l[0]); d.Len() > far.Len() {
			far = d
		}
	}
	most := 0.0
	for _, p := range l {
		most = max(most, math.Abs(Cross2(far, p.Sub(l[0])))/2)
	}
	return most
}

// Reversed gives the loop the other way round.
func (l Loop) Reversed() Loop {
	out := make(Loop, len(l))
	for i, p := range l {
		out[len(l)-1-i] = p
	}
	return out
}

// Contains reports whether p lies inside the loop by the even-odd rule.
// Points on the boundary may give either answer.
func (l Loop) Contains(p Vec2) bool {
	in := false
	for i, a := range l {
		b := l[(i+1)%len(l)]
		if (a[1] > p[1]) != (b[1] > p[1]) &&
			p[0] < (b[0]-a[0])*(p[1]-a[1])/(b[1]-a[1])+a[0] {
			in = !in
		}
	}
	return in
}

// Contains reports whether p lies in the region; boundary points may give either answer.
func (r Region) Contains(p Vec2) bool {
	if !r.Outer.Contains(p) {
		return false
	}
	for _, h := range r.Holes {
		if h.Contains(p) {
			return false
		}
	}
	return true
}

// Box2 is an axis-parallel box; the zero value is not empty, use EmptyBox2.
type Box2 struct{ Min, Max Vec2 }

// EmptyBox2 holds no point.
func EmptyBox2() Box2 {
	inf := math.Inf(1)
	return Box2{Vec2{inf, inf}, Vec2{-inf, -inf}}
}

// Add grows the box to hold p.
func (b *Box2) Add(p Vec2) {
	for k := range p {
		b.Min[k] = min(b.Min[k], p[k])
		b.Max[k] = max(b.Max[k], p[k])
	}
}

// Size is width and height.
func (b Box2) Size() Vec2 { return b.Max.Sub(b.Min) }

// Box3 is an axis-parallel box in space; use EmptyBox3 to start one.
type Box3 struct{ Min, Max Vec3 }

// EmptyBox3 holds no point.
func EmptyBox3() Box3 {
	inf := math.Inf(1)
	return Box3{Vec3{inf, inf, inf}, Vec3{-inf, -inf, -inf}}
}

// Add grows the box to hold p.
func (b *Box3) Add(p Vec3) {
	for k := range p {
		b.Min[k] = min(b.Min[k], p[k])
		b.Max[k] = max(b.Max[k], p[k])
	}
}

// Size is the box's extent along each axis.
func (b Box3) Size() Vec3 { return b.Max.Sub(b.Min) }

// SegmentDistance is the distance from p to the segment a-b, and the parameter
// (0..1) of the nearest point on it.
func SegmentDistance(p, a, b Vec2) (dist, t float64) {
	ab := b.Sub(a)
	if l2 := ab.Dot(ab); l2 > 0 {
		t = max(0, min(1, p.Sub(a).Dot(ab)/l2))
	}
	return p.Sub(a.Add(ab.Mul(t))).Len(), t
}

// Orthonormal gives the frame with its axes made exactly unit and square, X kept in direction.
func (f Frame) Orthonormal() Frame {
	f.X = f.X.Normalize()
	f.Z = f.X.Cross(f.Y).Normalize()
	f.Y = f.Z.Cross(f.X)
	return f
}
