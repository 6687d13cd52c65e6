package spread

import (
	"encoding/json"
	"hash/fnv"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// TestSameBits: the bits of a spread, by their hash, are the same on every machine; wasm runs this test too.
func TestSameBits(t *testing.T) {
	h := fnv.New64a()
	for _, f := range []string{"../../assets/uncapping-tray.dryfold", "../../assets/stand-bracket.dryfold", "../../assets/wax-pan.dryfold"} {
		p := filePart(t, f)
		r := p.Quick()
		require.True(t, Add(p, &r, Options{Samples: 500, Seed: 42}))
		r.Spread.Watch = ""              // words may change
		b, err := json.Marshal(r.Spread) // floats are written so that they read back the same
		require.NoError(t, err)
		h.Write(b)
		for i := range r.Seams {
			r.Seams[i].Spread.Watch = ""
			b, err = json.Marshal(r.Seams[i].Spread)
			require.NoError(t, err)
			h.Write(b)
		}
	}
	require.Equal(t, sameBits, h.Sum64(), "%#x", h.Sum64())
}

// sameBits is what TestSameBits gave on amd64 with GOAMD64=v1.
const sameBits uint64 = 0x9cf99d482b529238

// TestRandomParts: random parts, random errors: all figures are finite and in order, the exact one is the report's, shares add up to
// no more than one.
func TestRandomParts(t *testing.T) {
	r := newRand(t)
	n := 0
	for range 60 {
		s := foldtest.Random(r)
		s = withErrors(s, foldtest.Uniform(r, 0, 5), foldtest.Uniform(r, 0, 2), foldtest.Uniform(r, 0, 0.5)*s.Sheet.Thickness*s.Units.Scale(), foldtest.Uniform(r, 0, 0.2), foldtest.Uniform(r, 0, 2))
		p := fold.Build(s)
		rep := p.Quick()
		before := len(rep.Seams)
		if !Add(p, &rep, Options{Samples: 60, Seed: r.Int64()}) {
			require.False(t, p.Foldable)
			continue
		}
		n++
		require.Len(t, rep.Seams, before)
		checkSpreads(t, &rep)
	}
	require.Greater(t, n, 30)
}

func checkSpreads(t *testing.T, r *fold.Report) {
	t.Helper()
	check := func(s fold.Spread) {
		t.Helper()
		for _, v := range []float64{s.Low, s.Mid, s.High, s.Exact} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
		}
		require.LessOrEqual(t, s.Low, s.Mid)
		require.LessOrEqual(t, s.Mid, s.High)
		sum := 0.0
		for _, x := range s.Shares {
			require.GreaterOrEqual(t, x.Part, leastShare)
			require.False(t, math.IsNaN(x.Worth) || math.IsInf(x.Worth, 0))
			sum += x.Part
		}
		require.LessOrEqual(t, sum, 1+1e-9)
	}
	for _, s := range r.Spread.Sizes {
		check(s)
	}
	for _, h := range r.Spread.Holes {
		check(h.Distance)
		if h.Offset != nil {
			check(*h.Offset)
		}
	}
	for _, s := range r.Seams {
		for _, a := range s.Spread.Along {
			check(a.Spread)
		}
		check(s.Spread.Least)
		check(s.Spread.Widest)
		require.InDelta(t, s.GapMax, s.Spread.Widest.Exact, 1e-6)
	}
}

// TestBadErrors: errors that can't be are not taken; nothing panics or hangs.
func TestBadErrors(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 1e300, 89, 0} {
		s := corner(60, 0.5)
		s.Errors = fold.ErrorSpec{Angle: &v, Cut: &v, Line: &v, Thickness: &v, K: &v, AngleClass: "x", CutClass: "?"}
		p := fold.Build(s)
		r := p.Quick()
		require.True(t, Add(p, &r, Options{Samples: 300}), "%v", v)
		checkSpreads(t, &r)
		for _, e := range r.Spread.Errors {
			require.False(t, math.IsNaN(e.Low) || math.IsInf(e.High, 0) || e.Low < 0)
		}
	}
	// What can't be folded, and seams that are none.
	p := fold.Build(fold.Spec{})
	r := p.Quick()
	require.False(t, Add(p, &r, Options{}))
	require.Nil(t, r.Spread)
	p = fold.Build(corner(60, 0.5))
	s, each := Of(p, []fold.Seam{{}, {A: -1, B: 7}, {A: 0, B: 1}, {A: 0, B: 99, EdgeA: [2]geom.Vec2{{0, 0}, {1, 0}}, EdgeB: [2]geom.Vec2{{0, 0}, {0, 1}}}}, Options{Samples: 50, Seed: -5})
	require.NotNil(t, s)
	require.Equal(t, []*fold.SeamSpread{nil, nil, nil, nil}, each)
}

// TestSamples: bounded, and stopped when asked.
func TestSamples(t *testing.T) {
	p := fold.Build(corner(60, 0.5))
	s, _ := Of(p, nil, Options{Samples: 1 << 40})
	require.Equal(t, MaxSamples, s.Samples)
	s, _ = Of(p, nil, Options{})
	require.Equal(t, PageSamples, s.Samples)
	asked := 0
	s, each := Of(p, nil, Options{Samples: 10_000, Stop: func() bool { asked++; return asked > 3 }})
	require.Nil(t, s)
	require.Nil(t, each)
	require.Equal(t, 4, asked)
	r := p.Quick()
	require.False(t, Add(p, &r, Options{Stop: func() bool { return true }}))
	require.Nil(t, r.Spread)
	// In batches it gives the same figures as at once.
	rep := fold.Build(withErrors(corner(60, 0.5), 1, 0.2, 0.02, 0, 0.2))
	q := rep.Quick()
	seams := append(seamsOf(&q), seamsOf(&q)...)
	w := newWork(rep, seams, Options{Samples: 400})
	w.out = make([]*fold.SeamSpread, 2)
	require.True(t, w.batch(0, 1, true))
	require.True(t, w.batch(1, 2, false))
	require.Equal(t, w.out[0], w.out[1])
}

// TestNoMemory: a sample takes none.
func TestNoMemory(t *testing.T) {
	p := filePart(t, "../../assets/uncapping-tray.dryfold")
	r := p.Quick()
	w := newWork(p, seamsOf(&r), Options{})
	d := newDraws(1)
	sample := func() {
		d.fill(w.z)
		w.x.set(w.z)
		for _, m := range w.seams {
			m.measure(w.x)
		}
		w.box.measure(w.x)
	}
	for range 3000 { // what is needed for overlaps is made at the first of each
		sample()
	}
	require.Less(t, testing.AllocsPerRun(2000, sample), 0.5)
}

// TestSegmentPrism holds the fast distance against that of convex bodies.
func TestSegmentPrism(t *testing.T) {
	r := newRand(t)
	hit := 0
	for range 20_000 {
		var loop geom.Loop
		n := 3 + r.IntN(5)
		size := foldtest.LogUniform(r, 1, 300)
		turn := foldtest.Uniform(r, 0, 6)
		for i := range n {
			sin, cos := math.Sincos(turn + 2*math.Pi*float64(i)/float64(n))
			loop = append(loop, geom.Vec2{size * cos * foldtest.Uniform(r, 0.95, 1), size * sin * 0.6})
		}
		th := foldtest.LogUniform(r, 0.3, 5)
		reach := size * foldtest.LogUniform(r, 0.5, 3)
		u := vec{foldtest.Uniform(r, -reach, reach), foldtest.Uniform(r, -reach, reach), foldtest.Uniform(r, -5, 5)}
		v := vec{foldtest.Uniform(r, -5, 5), foldtest.Uniform(r, -5, 5), foldtest.Uniform(r, -3, 3)}
		switch r.IntN(4) {
		case 0:
			v = vec{0, 0, th} // square to it
		case 1:
			u.z, v.z = 0, 0 // in its lower face's plane
		}
		w := make([]vec2, n)
		for i, q := range loop {
			w[i] = from2(q)
		}
		body := solid.Prism(loop, 0, th, geom.Identity())
		seg := solid.Convex{Points: []geom.Vec3{u.geom(), u.add(v).geom()}, Edges: [][2]int32{{0, 1}}, Dirs: []geom.Vec3{v.unit().geom()}}
		seg.Centre = u.plus(v, 0.5).geom()
		seg.Radius = v.len() / 2
		want := max(0, solid.Distance(&seg, &body).D)
		d2, way := segmentPrism(u, u.add(v), w, th)
		require.InDelta(t, want, math.Sqrt(d2), 2e-7)
		require.InDelta(t, d2, way.dot(way), 1e-9*(1+d2))
		if d2 == 0 {
			hit++
		}
	}
	require.Greater(t, hit, 200)
}

// TestRoom: of a wall that an earlier bend leans, the room beside it goes with the lever.
func TestRoom(t *testing.T) {
	zero, deg := 0.0, 1.0
	s := corner(60, 8)
	s.Errors = fold.ErrorSpec{Angle: &deg, Cut: &zero, Line: &zero, Thickness: &zero, K: &zero}
	p := fold.Build(s)
	require.True(t, p.Foldable)
	var right, back int
	for i := range p.Panels {
		if b := p.Panels[i].Parent; b >= 0 && p.Bends[b].Name == "right" {
			right = i
		} else if b >= 0 {
			back = i
		}
	}
	a, b := fold.Body{Index: right}, fold.Body{Index: back}
	rooms := NewRooms(p)
	at := p.StateAt(1, 0) // the first is done, the second still flat: only the first counts
	far := rooms.TakeAt(a, b, at, geom.Vec3{101, 50, 62}, geom.Vec3{90, 50, 62})
	near := rooms.TakeAt(a, b, at, geom.Vec3{101, 50, 32}, geom.Vec3{90, 50, 32})
	require.InDelta(t, 60*math.Sin(math.Pi/180), far, 0.02)
	require.InDelta(t, 30*math.Sin(math.Pi/180), near, 0.02)
	require.Zero(t, rooms.TakeAt(a, b, p.Flat(), geom.Vec3{101, 50, 62}, geom.Vec3{90, 50, 62}), "nothing is bent yet")
	require.Positive(t, Room(p, a, b, p.Finished()))
	// Every cause adds its square.
	line := 0.3
	s.Errors.Line = &line
	q := fold.Build(s)
	both := NewRooms(q).TakeAt(a, b, at, geom.Vec3{101, 50, 62}, geom.Vec3{90, 50, 62})
	require.InDelta(t, math.Hypot(far, 0.3), both, 0.02)
	// Nonsense gives nothing.
	require.Zero(t, Room(p, fold.Body{Index: 99}, b, p.Flat()))
	require.Zero(t, Room(p, a, b, nil))
	require.Zero(t, Room(fold.Build(fold.Spec{}), a, b, nil))
}
