package solid

import (
	"math"
	"math/rand"

	"dryfold/fold/geom"
)

// This file draws pairs of bodies for the tests of distance: thin, long, parallel, crossing, and next
// to touching.

// pairKinds are the kinds of randomPair.
var pairKinds = []string{"any", "planks", "slivers", "frustums", "parallel faces", "parallel edges", "crossing edges", "hems"}

// randomPair draws a pair of a kind and moves a along the direction between them, so that most are
// 1e-9 to 1e3 mm apart, and some overlap by as much.
func randomPair(r *rand.Rand, kind int) (a, b Convex) {
	spread := logUniform(r, 0.1, 300)
	switch pairKinds[kind] {
	case "any":
		a, b = randomConvex(r, spread), randomConvex(r, spread)
	case "planks":
		a, b = plank(r, randomFrame(r, spread)), plank(r, randomFrame(r, spread))
	case "slivers":
		a, b = sliver(r, randomFrame(r, spread)), sliver(r, randomFrame(r, spread))
		if r.Intn(2) == 0 {
			b = plank(r, randomFrame(r, spread))
		}
	case "frustums":
		a, b = frustum(r, randomFrame(r, spread)), frustum(r, randomFrame(r, spread))
	case "parallel faces":
		f := randomFrame(r, spread)
		g := f
		if r.Intn(2) == 0 { // another pair of faces
			g.X, g.Y, g.Z = f.Y, f.Z, f.X
		}
		g.O = g.O.Add(randomVec(r, spread))
		a, b = plank(r, f), plank(r, g)
	case "parallel edges":
		f := randomFrame(r, spread)
		sin, cos := math.Sincos(r.Float64() * 2 * math.Pi)
		g := geom.Frame{X: f.X, Y: f.Y.Mul(cos).Add(f.Z.Mul(sin)), Z: f.Z.Mul(cos).Sub(f.Y.Mul(sin)), O: f.O.Add(randomVec(r, spread))}
		a, b = plank(r, f), plank(r, g)
	case "crossing edges":
		// Two bars on edge, their ridges next to each other and at any angle.
		f := randomFrame(r, spread)
		angle := r.Float64() * math.Pi
		if r.Intn(3) == 0 {
			angle = logUniform(r, 1e-9, 1)
		}
		bar := func(turn, up float64) Convex {
			sin, cos := math.Sincos(turn)
			along := f.X.Mul(cos).Add(f.Y.Mul(sin))
			side := f.Y.Mul(cos).Sub(f.X.Mul(sin))
			s, c := math.Sincos(0.2 + r.Float64())
			w, l := logUniform(r, 0.01, 10), logUniform(r, 1, 500)
			return Prism(geom.Loop{{0, 0}, {w, 0}, {w, w}, {0, w}}, -l*r.Float64(), l,
				geom.Frame{X: side.Mul(c).Add(f.Z.Mul(s * up)), Y: side.Mul(-s).Add(f.Z.Mul(c * up)), Z: along, O: f.O}.Orthonormal())
		}
		a, b = bar(0, 1), bar(angle, -1)
	case "hems":
		f := randomFrame(r, spread)
		size := func() float64 { return logUniform(r, 20, 2000) }
		plate := func(f geom.Frame, z0, z1 float64) Convex {
			x, y := size(), size()
			return Prism(geom.Loop{{0, 0}, {x, 0}, {x, y}, {0, y}}, z0, z1, f)
		}
		t := logUniform(r, 0.1, 5)
		a = plate(f, 0, t)
		g := f
		turn := randomVec(r, logUniform(r, 1e-9, 1e-3))
		g.X, g.Y = f.X.Add(turn.Cross(f.X)), f.Y.Add(turn.Cross(f.Y))
		g = g.Orthonormal()
		g.O = f.O.Add(f.X.Mul(r.NormFloat64() * 10)).Add(f.Y.Mul(r.NormFloat64() * 10)).Sub(f.Z.Mul(t + logUniform(r, 1e-9, 0.1)))
		b = plate(g, 0, t)
	}
	if r.Intn(10) == 0 {
		return a, b
	}
	want := logUniform(r, 1e-9, 1e3)
	switch {
	case pairKinds[kind] == "hems":
		want = logUniform(r, 1e-9, 0.1)
	case r.Intn(4) == 0:
		want = -logUniform(r, 1e-9, 10)
	}
	c := Distance(&a, &b)
	a = shifted(&a, c.N.Mul(want-c.D))
	return a, b
}

func shifted(c *Convex, by geom.Vec3) Convex {
	f := geom.Identity()
	f.O = by
	return c.Move(f)
}

func randomVec(r *rand.Rand, s float64) geom.Vec3 {
	return geom.Vec3{r.NormFloat64() * s, r.NormFloat64() * s, r.NormFloat64() * s}
}

func plank(r *rand.Rand, f geom.Frame) Convex {
	a, b := logUniform(r, 0.1, 1000), logUniform(r, 0.1, 300)
	return Prism(geom.Loop{{0, 0}, {a, 0}, {a, b}, {0, b}}, 0, logUniform(r, 0.01, 10), f)
}

func sliver(r *rand.Rand, f geom.Frame) Convex {
	a := logUniform(r, 1, 500)
	return Prism(geom.Loop{{0, 0}, {a, 0}, {a * r.Float64(), logUniform(r, 1e-6, 1)}}, 0, logUniform(r, 0.01, 10), f)
}

func frustum(r *rand.Rand, f geom.Frame) Convex {
	flat := func() []geom.Vec2 {
		out := make([]geom.Vec2, 1+r.Intn(7))
		s := logUniform(r, 0.01, 50)
		for i := range out {
			out[i] = geom.Vec2{r.NormFloat64() * s, r.NormFloat64() * s}
		}
		return out
	}
	return Frustum(append(flat(), geom.Vec2{0, 1}), flat(), 0, logUniform(r, 0.01, 10), f)
}
