package solid

import (
	"encoding/binary"
	"flag"
	"hash/fnv"
	"math"
	"math/rand"
	"runtime"
	"runtime/debug"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

var pairsFlag = flag.Int("pairs", 0, "random pairs that TestAgainstTwin compares; 0: 20,000, in WebAssembly 2,000")

// doubt is by how much a signed distance may differ from the true one: what its certificate leaves open
// (certain), what rounding does to it and to the certificate, and, for depths, what edges do that are taken for
// parallel (limits.go).
//
// Edges less parallel than that, but nearly so, have a plane that rounding may tilt about the one by 2u/angle; no bound of
// what that costs was derived, but the slabs that it tilts most are those of next to the same width
// whichever way they lean: the tests see it lost in rounding.
func doubt(a, b *Convex, d float64) float64 {
	bound := certain(a, b) + rounding(a, b)
	if d <= 0 {
		bound += parallel * (a.Radius + b.Radius)
	}
	return bound
}

// TestAgainstTwin: the distance of random pairs is that of the slow twin to within twice the doubt of one;
// where it is not, the judge must find it right. Every thousandth pair goes before the judge anyhow.
func TestAgainstTwin(t *testing.T) {
	r := newRand(t)
	many := *pairsFlag
	if many == 0 {
		if many = 20000; runtime.GOARCH == "wasm" {
			many = 2000
		}
	}
	type count struct {
		apart, overlap, out, judged       int
		worst, deep, judgement, certified float64
	}
	counts := make([]count, len(pairKinds))
	start := time.Now()
	for i := range many {
		kind := i % len(pairKinds)
		k := &counts[kind]
		a, b := randomPair(r, kind)
		c, want := Distance(&a, &b), twin(&a, &b)
		bound := doubt(&a, &b, min(c.D, want))
		off := math.Abs(c.D - want)
		if c.D > 0 {
			k.apart++
			k.worst = max(k.worst, off)
		} else {
			k.overlap++
			k.deep = max(k.deep, off)
		}
		if !(off <= bound+rounding(&a, &b)) {
			k.out++
		}
		if !(off <= bound+rounding(&a, &b)) || i%1000 < len(pairKinds) {
			k.judged++
			off = math.Abs(c.D - judge(&a, &b))
			k.judgement = max(k.judgement, off)
			require.LessOrEqual(t, off, bound, "%s, pair %d", pairKinds[kind], i)
		}
		proven(t, &a, &b, c)
	}
	for i, k := range counts {
		t.Logf("%-15s %6d apart, within %.1e mm of the twin; %6d overlap, %.1e; the twin out in %d; %d judged, within %.1e",
			pairKinds[i], k.apart, k.worst, k.overlap, k.deep, k.out, k.judged, k.judgement)
		require.Positive(t, k.apart)
		require.Positive(t, k.overlap)
		require.LessOrEqual(t, k.out, 1+many/1000)
	}
	t.Logf("%d pairs, %v", many, time.Since(start).Round(time.Second/10))
}

// proven checks what a contact says of itself: N is a unit vector, A and B lie in the bodies, D*N apart, and the
// slab across N is D wide.
func proven(t *testing.T, a, b *Convex, c Contact) {
	bound := doubt(a, b, c.D)
	require.InDelta(t, 1, c.N.Len(), 1e-15*8)
	gap, _, _ := slab(a, b, c.N)
	if !(math.Abs(gap-c.D) <= bound) {
		require.Failf(t, "no proof", "the slab across N is %v wide, the distance %v", gap, c.D)
	}
	d := c.A.Sub(c.B)
	if off := math.Abs(d.Len() - math.Abs(c.D)); !(off <= bound) {
		require.Failf(t, "no proof", "the points are %v apart, the distance is %v", d.Len(), c.D)
	}
	if c.D < -certified {
		if off := d.Sub(c.N.Mul(c.D)).Len(); !(off <= bound) {
			require.Failf(t, "no proof", "A and B are out of line by %v", off)
		}
	}
	for _, x := range [2]float64{outside(a, c.A), outside(b, c.B)} {
		if !(x <= bound) {
			require.Failf(t, "no proof", "a point is %v outside its body, at %v", x, c.D)
		}
	}
}

// shuffled is the same body with its corners, faces and edges in another order, and nothing known of how it was made.
func shuffled(r *rand.Rand, c *Convex) Convex {
	out := Convex{Centre: c.Centre, Radius: c.Radius}
	to := make([]int32, len(c.Points))
	for i, k := range r.Perm(len(c.Points)) {
		out.Points = append(out.Points, c.Points[k])
		to[k] = int32(i)
	}
	for _, k := range r.Perm(len(c.Normals)) {
		out.Normals = append(out.Normals, c.Normals[k])
	}
	for _, k := range r.Perm(len(c.Dirs)) {
		out.Dirs = append(out.Dirs, c.Dirs[k])
	}
	for _, k := range r.Perm(len(c.Tris)) {
		v := c.Tris[k]
		out.Tris = append(out.Tris, [3]int32{to[v[1]], to[v[2]], to[v[0]]})
	}
	for _, k := range r.Perm(len(c.Edges)) {
		e := c.Edges[k]
		out.Edges = append(out.Edges, [2]int32{to[e[1]], to[e[0]]})
	}
	return out
}

// scaled is the body in a unit k times smaller.
func scaled(c *Convex, k float64) Convex {
	out := c.Move(geom.Identity())
	for i := range out.Points {
		out.Points[i] = out.Points[i].Mul(k)
	}
	out.Centre, out.Radius = out.Centre.Mul(k), out.Radius*k
	return out
}

// TestDistanceInvariant: the distance is the same with the bodies exchanged, their corners and faces in another order, both moved
// together, and in another unit.
func TestDistanceInvariant(t *testing.T) {
	r := newRand(t)
	for i := range 4000 {
		kind := i % len(pairKinds)
		a, b := randomPair(r, kind)
		want := Distance(&a, &b).D
		check := func(what string, x, y Convex, unit float64) {
			c := Distance(&x, &y)
			bound := doubt(&a, &b, want)*unit + doubt(&x, &y, want)
			require.LessOrEqual(t, math.Abs(c.D-want*unit), bound, "%s, %s, pair %d: %v, was %v", what, pairKinds[kind], i, c.D/unit, want)
			proven(t, &x, &y, c)
		}
		check("exchanged", b, a, 1)
		check("in another order", shuffled(r, &a), shuffled(r, &b), 1)
		f := randomFrame(r, 300)
		check("moved together", a.Move(f), b.Move(f), 1)
		const inch = 25.4
		check("inches", scaled(&a, 1/inch), scaled(&b, 1/inch), 1/inch)
		check("an inch taken for a millimetre", scaled(&a, inch), scaled(&b, inch), inch)
	}
}

// hashOfContacts is of all bits of the contacts of TestContactsHash. It changes with any change of the arithmetic;
// then let amd64 and WebAssembly show that they agree on the new one.
const hashOfContacts = 0x3d4ec01714231538

// TestContactsHash: amd64 and WebAssembly find the same contacts to the last bit.
func TestContactsHash(t *testing.T) {
	switch runtime.GOARCH {
	case "wasm":
	case "amd64":
		info, ok := debug.ReadBuildInfo()
		require.True(t, ok)
		level := "v1"
		for _, s := range info.Settings {
			if s.Key == "GOAMD64" {
				level = s.Value
			}
		}
		if level != "v1" {
			t.Skipf("GOAMD64=%s: multiplies and adds are fused, last digits differ from the page's", level)
		}
	default:
		t.Skipf("%s: multiplies and adds may be fused, last digits differ from the page's", runtime.GOARCH)
	}
	r := rand.New(rand.NewSource(7))
	h := fnv.New64a()
	put := func(v ...float64) {
		for _, x := range v {
			var b [8]byte
			binary.LittleEndian.PutUint64(b[:], math.Float64bits(x))
			h.Write(b[:])
		}
	}
	for i := range 4000 {
		a, b := randomPair(r, i%len(pairKinds))
		c := Distance(&a, &b)
		put(c.D)
		put(c.A[:]...)
		put(c.B[:]...)
		put(c.N[:]...)
		n, _ := Nearer(&a, &b, 0.5)
		put(n.D)
		put(n.N[:]...)
	}
	require.Equal(t, uint64(hashOfContacts), h.Sum64(), "%#x", h.Sum64())
}
