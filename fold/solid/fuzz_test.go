package solid

import (
	"math"
	"testing"

	"dryfold/fold/geom"
)

// bytesAsNumbers reads numbers from a fuzzer's bytes: many round ones, some next to them, some huge or tiny.
type bytesAsNumbers []byte

func (b *bytesAsNumbers) next() int {
	if len(*b) == 0 {
		return 0
	}
	x := (*b)[0]
	*b = (*b)[1:]
	return int(x)
}

func (b *bytesAsNumbers) number() float64 {
	x := float64(b.next()-128) / 8
	switch k := b.next(); {
	case k < 128:
		return x
	case k < 192:
		return x + float64(k-160)*1e-10
	case k < 240:
		return x * math.Exp2(float64(k-216))
	case k < 254:
		return x * math.Exp2(float64(k-247)*6)
	}
	return float64(b.next()) * 1e6
}

func (b *bytesAsNumbers) vec() geom.Vec3 { return geom.Vec3{b.number(), b.number(), b.number()} }

// frame is turned in steps of 15 degrees, and by next to nothing.
func (b *bytesAsNumbers) frame() geom.Frame {
	f := geom.Identity()
	for k := range 3 {
		x := b.next()
		sin, cos := math.Sincos(float64(x%24)*math.Pi/12 + float64(x/24)*1e-9)
		axes := [3]*geom.Vec3{&f.X, &f.Y, &f.Z}
		u, v := axes[k], axes[(k+1)%3]
		*u, *v = u.Mul(cos).Add(v.Mul(sin)), v.Mul(cos).Sub(u.Mul(sin))
	}
	f.O = b.vec()
	return f
}

// body is any that Prism and Frustum may be asked for, and flat ones, needles and points.
func (b *bytesAsNumbers) body() Convex {
	kind := b.next() % 5
	z0 := b.number()
	z1 := z0 + math.Abs(b.number())
	switch kind {
	case 0:
		x, y := math.Abs(b.number()), math.Abs(b.number())
		return Prism(geom.Loop{{0, 0}, {x, 0}, {x, y}, {0, y}}, z0, z1, b.frame())
	case 1:
		return Prism(circle(geom.Vec2{}, math.Abs(b.number()), 3+b.next()%14, b.number()), z0, z1, b.frame())
	case 2:
		p := b.vec()
		return Convex{Points: []geom.Vec3{p}, Centre: p}
	case 3: // flat, or a needle
		x, y := math.Abs(b.number()), math.Abs(b.number())
		return Prism(geom.Loop{{0, 0}, {x, 0}, {x, y}, {0, y}}, z0, z0, b.frame())
	}
	flat := func() []geom.Vec2 {
		out := make([]geom.Vec2, 1+b.next()%6)
		for i := range out {
			out[i] = geom.Vec2{b.number(), b.number()}
		}
		return out
	}
	return Frustum(flat(), flat(), z0, max(z1, z0+1e-3), b.frame())
}

// FuzzDistance: whatever the bodies, flat, needles, huge or tiny, the contact proves itself and the twin or the judge finds it right.
func FuzzDistance(f *testing.F) {
	f.Add([]byte{0, 128, 0, 136, 0, 136, 0, 136, 0, 0, 0, 0, 128, 0, 128, 0, 128, 0, 0, 128, 0, 136, 0, 136, 0, 136, 0, 0, 0, 0, 160, 0, 128, 0, 128, 0})
	f.Add([]byte{1, 128, 0, 136, 250, 136, 0, 9, 140, 0, 1, 2, 3, 130, 200, 120, 0, 128, 0, 4, 128, 0, 136, 0, 3, 136, 0, 140, 0, 150, 0, 128, 0, 2, 160, 0, 128, 0})
	f.Add([]byte{3, 128, 0, 136, 0, 200, 230, 136, 0, 6, 0, 30, 128, 130, 128, 0, 128, 0, 2, 128, 130, 130, 0, 127, 0, 128, 0})
	f.Fuzz(func(t *testing.T, data []byte) {
		in := bytesAsNumbers(data)
		a, b := in.body(), in.body()
		c := Distance(&a, &b)
		if s := size(&a) + size(&b); !(s < 1e15) {
			return // not numbers; no more is asked than an end
		}
		proven(t, &a, &b, c)
		want := twin(&a, &b)
		if off := math.Abs(c.D - want); !(off <= doubt(&a, &b, c.D)) {
			want = judge(&a, &b)
		}
		if off := math.Abs(c.D - want); !(off <= doubt(&a, &b, c.D)) {
			t.Fatalf("%v, but the judge says %v: out by %v, may by %v", c.D, want, off, doubt(&a, &b, c.D))
		}
		if n, ok := Nearer(&a, &b, math.Inf(1)); !ok || math.Abs(n.D-c.D) > doubt(&a, &b, c.D)*2 {
			t.Fatalf("Nearer says %v, Distance %v", n.D, c.D)
		}
	})
}
