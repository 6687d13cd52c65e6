package cutfile

import (
	"flag"
	"math"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

var (
	seed   = flag.Uint64("seed", 1, "of the random contours; 0 takes a new one")
	update = flag.Bool("update", false, "write the golden files anew")
	many   = flag.Int("contours", 120, "random contours")
)

// TestOffsetKnown: by Steiner's formula a convex outline of area A and length L grows by d to A + L d + pi d^2, and its
// length to L + 2 pi d, whatever its shape; an inside corner of angle a in a window gives up d^2 / tan(a/2) each.
func TestOffsetKnown(t *testing.T) {
	arc := func(x, y, tx, ty float64) fold.Vertex {
		return fold.Vertex{At: geom.Vec2{x, y}, Through: &geom.Vec2{tx, ty}}
	}
	tri := foldtest.Points(0, 0, 40, 0, 10, 30)
	for name, c := range map[string]fold.Contour{
		"rectangle": foldtest.Points(0, 0, 40, 0, 40, 20, 0, 20),
		"triangle":  tri,
		"sliver":    foldtest.Points(0, 0, 100, 0, 100, 0.05, 0, 0.05),
		"stadium":   {{At: geom.Vec2{0, 0}}, {At: geom.Vec2{30, 0}}, arc(30, 10, 35, 5), {At: geom.Vec2{0, 10}}, arc(0, 0, -5, 5)},
		"disc":      {arc(0, 0, 5, 5), arc(10, 0, 5, -5)},
		"D":         {{At: geom.Vec2{0, 0}}, arc(0, 20, 10, 10)},
		"lens":      {arc(0, 0, 20, 1), arc(40, 0, 20, -0.01)},
		"fine":      {{At: geom.Vec2{0, 0}}, {At: geom.Vec2{10, 1e-5}}, {At: geom.Vec2{20, 3e-4}}, {At: geom.Vec2{20, 10}}, {At: geom.Vec2{0, 10}}},
	} {
		ps, _ := c.Pieces(1, true)
		if name == "fine" { // nearly straight corners, the first stands in
			ps, _ = foldtest.Points(0, 0, 10, -1e-5, 20, -1e-6, 20, 10, 0, 10).Pieces(1, true)
		}
		a, l := geom.PiecesArea(ps), chainLength(ps)
		for _, d := range []float64{0.05, 0.7, 4} {
			m := offset(ps, d, false, plenty())
			if !m.ok {
				t.Errorf("%s by %v: closed up at %v", name, d, m.at)
				continue
			}
			if got, want := geom.PiecesArea(m.loop), a+l*d+math.Pi*d*d; math.Abs(got-want) > 1e-6*(1+want*1e-3) {
				t.Errorf("%s by %v: area %v, want %v", name, d, got, want)
			}
			if got, want := chainLength(m.loop), l+2*math.Pi*d; math.Abs(got-want) > 1e-6 {
				t.Errorf("%s by %v: length %v, want %v", name, d, got, want)
			}
		}
	}
	// A window: the triangle from inside. Its incircle is the widest cut.
	ps, _ := tri.Pieces(1, false)
	a, l := -geom.PiecesArea(ps), chainLength(ps)
	r := 2 * a / l
	for _, d := range []float64{0.1, 0.5 * r, 0.98 * r} {
		m := offset(ps, d, true, plenty())
		if !m.ok {
			t.Fatalf("window by %v of %v: closed up", d, r)
		}
		if got, want := -geom.PiecesArea(m.loop), a*(1-d/r)*(1-d/r); math.Abs(got-want) > 1e-8 {
			t.Errorf("window by %v: area %v, want %v", d, got, want)
		}
	}
	if offset(ps, 1.001*r, true, plenty()).ok || offset(ps, r, true, plenty()).ok {
		t.Error("a window no wider than the cut is offset")
	}
}

// plenty is more work than any of these contours takes.
func plenty() *int {
	n := 1_000_000_000
	return &n
}

func chainLength(ps []geom.Piece) (l float64) {
	for _, p := range ps {
		l += p.Len()
	}
	return l
}

// TestOffsetCloses: notches, slots and necks no wider than the cut are refused, at their place; what is wider, or shallower than
// deburring takes off, is not.
func TestOffsetCloses(t *testing.T) {
	notch := func(w, h float64) fold.Contour {
		return foldtest.Points(0, 0, 50, 0, 50, 30, 25+w/2, 30, 25+w/2, 30-h, 25-w/2, 30-h, 25-w/2, 30, 0, 30)
	}
	vee := func(w, h float64) fold.Contour {
		return foldtest.Points(0, 0, 50, 0, 50, 30, 25+w/2, 30, 25, 30-h, 25-w/2, 30, 0, 30)
	}
	keyhole := fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{50, 0}}, {At: geom.Vec2{50, 30}}, {At: geom.Vec2{25.5, 30}}, {At: geom.Vec2{25.5, 22}},
		{At: geom.Vec2{24.5, 22}, Through: &geom.Vec2{25, 14}}, {At: geom.Vec2{24.5, 30}}, {At: geom.Vec2{0, 30}}}
	jog := foldtest.Points(0, 0, 25, 0, 25, 0.3, 50, 0.3, 50, 30, 0, 30)
	for _, c := range []struct {
		name string
		c    fold.Contour
		kerf float64
		ok   bool
		left int
	}{
		{"notch wider", notch(1, 5), 0.99, true, 0},
		{"notch as wide", notch(1, 5), 1, false, 0},
		{"notch narrower", notch(1, 5), 1.01, false, 0},
		{"notch much narrower", notch(1, 5), 8, false, 0},
		{"scratch", notch(0.2, 0.04), 1, true, 0},
		{"dent", notch(0.2, 0.2), 1, false, 0},
		{"wide shallow notch", notch(5, 0.2), 1, true, 0},
		{"vee", vee(20, 10), 1, true, 0},
		{"sharp vee", vee(4, 10), 1, true, 1},
		{"sharp vee, mouth closed", vee(4, 10), 6, false, 0},
		{"slit", vee(1, 20), 0.5, false, 0},
		{"keyhole open", keyhole, 0.9, true, 0},
		{"keyhole closed", keyhole, 1.1, false, 0},
		{"jog", jog, 1, true, 0},
	} {
		ps, _ := c.c.Pieces(1, true)
		m := offset(ps, c.kerf/2, false, plenty())
		if m.ok != c.ok || m.ok && len(m.left) != c.left {
			t.Errorf("%s in a cut of %v: %v, %v left; want %v, %d", c.name, c.kerf, m.ok, m.left, c.ok, c.left)
		}
		if !m.ok && (math.Abs(m.at[0]-25) > 1 || m.at[1] < 15) {
			t.Errorf("%s closes up at %v", c.name, m.at)
		}
	}
	// The tip of a vee of angle a stays uncut for d / sin(a/2) - d.
	ps, _ := vee(4, 10).Pieces(1, true)
	half := math.Atan2(2, 10)
	if m := offset(ps, 0.5, false, plenty()); math.Abs(m.left[0].deep-(0.5/math.Sin(half)-0.5)) > 1e-6 || m.left[0].point != (geom.Vec2{25, 20}) {
		t.Errorf("left of a sharp vee: %+v", m.left)
	}
}

// randomContour is a closed chain that does not cross itself: round a middle with reaches drawn at random, corners cut by arcs,
// notches, slits and teeth put into its edges.
func randomContour(r *rand.Rand) []geom.Piece {
	for {
		n := 3 + r.IntN(9)
		size := foldtest.LogUniform(r, 5, 500)
		var c fold.Contour
		at := func(k float64, reach float64) geom.Vec2 {
			s, co := math.Sincos(2 * math.Pi * k / float64(n))
			return geom.Vec2{co, s}.Mul(reach)
		}
		for k := range n {
			p := at(float64(k), size*foldtest.Uniform(r, 0.3, 1))
			v := fold.Vertex{At: p}
			if k > 0 && r.IntN(3) == 0 {
				q := c[len(c)-1].At
				mid := p.Add(q).Mul(0.5).Add(geom.Perp(p.Sub(q)).Mul(foldtest.Uniform(r, -0.3, 0.3)))
				v.Through = &mid
			} else if k > 0 && r.IntN(2) == 0 { // teeth: notches and steps
				q := c[len(c)-1].At
				u := p.Sub(q)
				long := u.Len()
				u = u.Mul(1 / long)
				w, h := long*foldtest.LogUniform(r, 1e-3, 0.2), long*foldtest.LogUniform(r, 1e-3, 0.3)
				if r.IntN(3) == 0 {
					h = -h
				}
				in := geom.Perp(u).Mul(h)
				s := foldtest.Uniform(r, 0.2, 0.7) * long
				a, b := q.Add(u.Mul(s)), q.Add(u.Mul(s+w))
				slant := u.Mul(foldtest.Uniform(r, 0, 0.5) * w)
				c = append(c, fold.Vertex{At: a}, fold.Vertex{At: a.Add(in).Add(slant)})
				if t := b.Add(in).Sub(slant); r.IntN(2) == 0 {
					m := a.Add(in).Add(slant).Add(t).Mul(0.5).Add(in.Normalize().Mul(t.Sub(a.Add(in).Add(slant)).Len() / 2 * foldtest.Uniform(r, 0.1, 1)))
					c = append(c, fold.Vertex{At: t, Through: &m})
				} else {
					c = append(c, fold.Vertex{At: t})
				}
				c = append(c, fold.Vertex{At: b})
			}
			c = append(c, v)
		}
		ps, _ := c.Pieces(1, r.IntN(2) == 0)
		if simple(ps) {
			return ps
		}
	}
}

// simple reports whether a chain meets itself nowhere but at its corners.
func simple(ps []geom.Piece) bool {
	n := len(ps)
	for i := range ps {
		for j := i + 1; j < n; j++ {
			for _, x := range crossings(ps[i], ps[j]) {
				if !(j == i+1 && x.at.Sub(ps[i].B).Len() < 1e-5 || (j+1)%n == i && x.at.Sub(ps[j].B).Len() < 1e-5) {
					return false
				}
			}
		}
	}
	return n > 2
}

// TestOffsetTwin: the slow twin of an offset is the distance itself, taken from every piece. Each point of the loop lies
// at the distance and none nearer; and places at random beside the contour lie within the loop just where they are
// nearer than that. What stays uncut is
// what the twin says.
func TestOffsetTwin(t *testing.T) {
	s := *seed
	if s == 0 {
		s = rand.Uint64()
	}
	r := foldtest.Rand(s)
	drawn, refused, pockets := 0, 0, 0
	count := *many
	if runtime.GOARCH == "wasm" {
		count /= 4
	}
	for i := range count {
		ps := randomContour(r)
		box := geom.EmptyBox2()
		for _, p := range ps {
			b := p.Box()
			box.Add(b.Min)
			box.Add(b.Max)
		}
		size := box.Size().Len()
		d := size * foldtest.LogUniform(r, 1e-4, 0.05)
		void := geom.PiecesArea(ps) < 0
		m := offset(ps, d, void, plenty())
		far := func(v geom.Vec2) float64 {
			least := math.Inf(1)
			for _, p := range ps {
				least = min(least, p.Distance(v))
			}
			return least
		}
		uncut := stays(ps, d, far)
		if !m.ok {
			refused++
			if uncut <= shallow {
				pockets++
			}
			continue
		}
		drawn++
		told := 0.0
		for _, l := range m.left {
			told = max(told, l.deep)
		}
		// The twin's places are coarse: what it finds uncut is a little more.
		if coarse := chainLength(ps) / 100; uncut > deepLeft*2*d+coarse || uncut > max(shallow, d, told)+coarse || told > uncut+1e-6 {
			t.Errorf("seed %d, contour %d: up to %v stays uncut by %v, told %v", s, i, uncut, d, told)
		}
		var fine geom.Loop
		for k, p := range m.loop {
			if p.B != m.loop[(k+1)%len(m.loop)].A || p.Chord() == 0 {
				t.Fatalf("seed %d, contour %d: piece %d of %d does not join, or has no length: %+v", s, i, k, len(m.loop), p)
			}
			for f := range 32 {
				v := p.At(float64(f) / 32)
				fine = append(fine, v)
				if got := far(v); math.Abs(got-d) > 1e-6 {
					t.Fatalf("seed %d, contour %d: %v lies %v off, want %v", s, i, v, got, d)
				}
			}
		}
		for range 300 {
			// A place near the contour.
			p := ps[r.IntN(len(ps))]
			v := p.At(r.Float64()).Add(geom.Vec2{foldtest.Uniform(r, -2, 2) * d, foldtest.Uniform(r, -2, 2) * d})
			got := far(v)
			sag := 0.0
			for _, q := range m.loop {
				sag = max(sag, q.Len()*math.Abs(q.Turn)/(8*32*32))
			}
			if math.Abs(got-d) < 2*sag+1e-5 || holds(ps, v) != void {
				continue // on the loop, or in the metal
			}
			if in := fine.Contains(v) != void; in != (got < d) {
				t.Fatalf("seed %d, contour %d, void %v: %v lies %v from the contour, and within the loop by %v: %v", s, i, void, v, got, d, in)
			}
		}
	}
	if drawn < count/3 || refused < count/50 {
		t.Errorf("%d drawn, %d refused of %d: the contours try nothing", drawn, refused, count)
	}
	if pockets > refused/4 {
		t.Errorf("of %d refused, %d can be reached everywhere", refused, pockets)
	}
	t.Logf("%d drawn, %d refused, %d of them only for a pocket with no way in", drawn, refused, pockets)
}

// stays is the most that stays uncut by the twin: how far any place of the contour lies from the nearest cut that can be
// made anywhere beside it.
func stays(ps []geom.Piece, d float64, far func(geom.Vec2) float64) (most float64) {
	var cuts, places []geom.Vec2
	try := func(v geom.Vec2) {
		if far(v) > d-1e-7 {
			cuts = append(cuts, v)
		}
	}
	for i, p := range ps {
		const n = 40
		for k := range n + 1 {
			f := float64(k) / n
			q := p.At(f)
			try(q.Add(right(p, f).Mul(d)))
			places = append(places, q)
		}
		e := right(p, 1)
		turn := math.Atan2(geom.Cross2(e, right(ps[(i+1)%len(ps)], 0)), e.Dot(right(ps[(i+1)%len(ps)], 0)))
		for k := 0.0; k < 1 && turn > 0; k += 0.1 {
			s, c := math.Sincos(turn * k)
			try(p.B.Add(geom.Vec2{c*e[0] - s*e[1], s*e[0] + c*e[1]}.Mul(d)))
		}
	}
	for _, q := range places {
		least := math.Inf(1)
		for _, c := range cuts {
			least = min(least, c.Sub(q).Len()-d)
		}
		most = max(most, least)
	}
	return most
}

// TestKerfRefused: what a refusal says works, works, and a hair more does not.
func TestKerfRefused(t *testing.T) {
	s := fold.Spec{Name: "notched", Sheet: fold.Sheet{Thickness: 1},
		Outline: foldtest.Points(0, 0, 50, 0, 50, 30, 25.4, 30, 25.4, 25, 24.6, 25, 24.6, 30, 0, 30),
		Holes:   []fold.Hole{{At: geom.Vec2{10, 10}, Diameter: 1.5}}}
	p := fold.Build(s)
	_, err := Make(p, Options{Kerf: 1})
	e, ok := err.(*Error)
	if !ok || e.Field != "kerf" || !strings.Contains(e.Words, "(25.0, ") || !strings.Contains(e.Words, "The widest cut that works is 0.79 mm") {
		t.Fatalf("got %v", err)
	}
	if _, err := Make(p, Options{Kerf: 0.79}); err != nil {
		t.Error(err)
	}
	if _, err := Make(p, Options{Kerf: 0.81}); err == nil {
		t.Error("a cut of 0.81 mm is drawn into a notch of 0.8 mm")
	}
	if _, err := Make(p, Options{Kerf: 2}); err == nil || !strings.Contains(err.Error(), "one more such place") {
		t.Errorf("got %v", err)
	}
	s.Outline = foldtest.Points(0, 0, 50, 0, 50, 30, 0, 30)
	p = fold.Build(s)
	_, err = Make(p, Options{Kerf: 1.5})
	if err == nil || !strings.Contains(err.Error(), "Hole 1 at (10.0, 10.0), 1.50 mm across") || !strings.Contains(err.Error(), "is 1.49 mm") {
		t.Errorf("got %v", err)
	}
	if f, err := Make(p, Options{Kerf: 1.5, Holes: MarkHoles}); err != nil || len(f.Layers[0].Lines) != 2 {
		t.Errorf("marked: %v, %v", f, err)
	}
}

// TestOffsetTangled: thousands of edges that close up on each other take their bounded time, and are refused in words.
func TestOffsetTangled(t *testing.T) {
	var c fold.Contour
	for i := range 6000 {
		s, co := math.Sincos(2 * math.Pi * float64(i) / 6000)
		c = append(c, fold.Vertex{At: geom.Vec2{co, s}.Mul(900 + 100*float64(i%2))})
	}
	ps, _ := c.Pieces(1, true)
	b := blank{part: &fold.Part{}, contours: []contour{{what: "the outline", ps: ps}}}
	if err := b.allow(5); err == nil || err.(*Error).Field != "kerf" || !strings.Contains(err.Error(), "the outline") {
		t.Errorf("got %v", err)
	}
}
