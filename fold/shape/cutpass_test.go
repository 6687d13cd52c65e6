package shape

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
)

var cutSeed = flag.Uint64("cutseed", 4, "seed of the random blanks to cut; 0 takes a new one")

// cutRand is the random source of one test; it prints its seed.
func cutRand(t *testing.T, salt uint64) *rand.Rand {
	seed := *cutSeed
	if seed == 0 {
		seed = uint64(time.Now().UnixNano())
	}
	t.Logf("-cutseed %d", seed)
	return rand.New(rand.NewPCG(seed, salt))
}

// plate is a blank with the corners given, in mm.
func plate(corners ...geom.Vec2) fold.Spec {
	s := fold.Spec{Name: "plate", Sheet: fold.Sheet{Thickness: 1}}
	for _, p := range corners {
		s.Outline = append(s.Outline, fold.Vertex{At: p})
	}
	return s
}

func rectangle(w, h float64) fold.Spec {
	return plate(geom.Vec2{0, 0}, geom.Vec2{w, 0}, geom.Vec2{w, h}, geom.Vec2{0, h})
}

// Distances between lines and circles by their closed forms.
func TestNarrowPlacesClosedForm(t *testing.T) {
	s := rectangle(100, 60)
	s.Holes = []fold.Hole{{At: geom.Vec2{10, 30}, Diameter: 16}, {At: geom.Vec2{40, 30}, Diameter: 20}, {At: geom.Vec2{64, 37}, Diameter: 20}}
	got, full := narrowPlaces(cutRims(s), 6)
	require.True(t, full)
	require.Len(t, got, 2)
	require.False(t, got[0].void)
	require.InDelta(t, 10-8, got[0].wide, 1e-12, "hole to edge")
	require.InDelta(t, 25-20, got[1].wide, 1e-12, "24 and 7 are the sides of a triangle of 25")

	// A slot with round ends from a circle inside it, and a ring of two arcs.
	s = rectangle(100, 60)
	through := func(x, y float64) *geom.Vec2 { return &geom.Vec2{x, y} }
	s.Cutouts = []fold.Contour{{{At: geom.Vec2{20, 20}}, {At: geom.Vec2{60, 20}}, {At: geom.Vec2{60, 24}, Through: through(62, 22)}, {At: geom.Vec2{20, 24}}, {At: geom.Vec2{20, 20}, Through: through(18, 22)}}}
	list := cutRims(s)
	require.Len(t, list, 8)
	got, _ = narrowPlaces(list, 5)
	require.Len(t, got, 1)
	require.True(t, got[0].void)
	require.InDelta(t, 4, got[0].wide, 1e-12)

	// A C of two rings, 3 wide, its gap 2.
	c := fold.Contour{{At: geom.Vec2{20, 1}}, {At: geom.Vec2{20, -1}, Through: through(-20, 0)}, {At: geom.Vec2{17, -1}}, {At: geom.Vec2{17, 1}, Through: through(-17.2, 0)}}
	got, _ = narrowPlaces(cutRims(fold.Spec{Outline: c, Sheet: fold.Sheet{Thickness: 1}}), 4)
	require.Len(t, got, 2)
	require.True(t, got[0].void)
	require.InDelta(t, 2, got[0].wide, 1e-9)
	require.False(t, got[1].void)
	require.InDelta(t, 2.8, got[1].wide, 1e-9)

	// Half a round is widest in its middle: no narrow place. A waist between two rounds that bulge in is one.
	s = rectangle(100, 60)
	s.Cutouts = []fold.Contour{{{At: geom.Vec2{40, 30}}, {At: geom.Vec2{60, 30}, Through: through(50, 40)}}}
	got, _ = narrowPlaces(cutRims(s), 12)
	require.Empty(t, got)
	s.Cutouts = []fold.Contour{{{At: geom.Vec2{40, 20}}, {At: geom.Vec2{60, 20}, Through: through(50, 22)}, {At: geom.Vec2{60, 30}}, {At: geom.Vec2{40, 30}, Through: through(50, 27)}}}
	got, _ = narrowPlaces(cutRims(s), 12)
	require.Len(t, got, 1)
	require.InDelta(t, 5, got[0].wide, 1e-9)

	// A bridge between two inside corners.
	got, _ = narrowPlaces(cutRims(plate(geom.Vec2{0, 0}, geom.Vec2{50, 0}, geom.Vec2{50, 20}, geom.Vec2{30, 20}, geom.Vec2{30, 40}, geom.Vec2{0, 40},
		geom.Vec2{0, 16}, geom.Vec2{27, 16}, geom.Vec2{27, 15}, geom.Vec2{0, 15})), 6)
	require.Len(t, got, 2)
	require.InDelta(t, 1, got[0].wide, 1e-12)
	require.True(t, got[0].void)
	require.InDelta(t, math.Hypot(3, 4), got[1].wide, 1e-12, "from the slot's end to the inside corner")
	require.False(t, got[1].void)
}

// Whole circles of arcs are one hole; corners in line are none.
func TestCutRimsJoin(t *testing.T) {
	s := rectangle(100, 60)
	s.Outline = append(s.Outline, fold.Vertex{At: geom.Vec2{0, 30}})
	s.Cutouts = []fold.Contour{{{At: geom.Vec2{30, 30}, Through: &geom.Vec2{40, 40}}, {At: geom.Vec2{50, 30}, Through: &geom.Vec2{40, 20}}}}
	list := cutRims(s)
	require.Len(t, list, 5)
	require.True(t, list[4].whole)
	require.InDelta(t, 10, list[4].r, 1e-9)
	require.True(t, list[4].inside())
	for i := range list[:4] {
		require.Equal(t, list[i].b, list[list[i].next].a)
	}
}

// randomBlank is a star-shaped outline of log-uniform size, some of its edges shallow arcs, with round holes that
// lie clear of its edge and of each other.
func randomBlank(r *rand.Rand) (s fold.Spec, size float64) {
	size = math.Exp2(-3 + 16*r.Float64())
	n := 3 + r.IntN(12)
	curved, low := r.IntN(2) == 0, 0.15
	if curved {
		low, n = 0.6, 5+r.IntN(6)
	}
	var at []geom.Vec2
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.3*r.Float64()) / float64(n))
		at = append(at, geom.Vec2{cos, sin}.Mul(size*(low+(1-low)*r.Float64())))
	}
	s = fold.Spec{Name: "random", Sheet: fold.Sheet{Thickness: size / 100}}
	for i, p := range at {
		v := fold.Vertex{At: p}
		if curved && r.IntN(2) == 0 {
			d := p.Sub(at[(i+n-1)%n])
			via := p.Sub(d.Mul(0.5)).Add(geom.Perp(d).Mul(0.05 * (2*r.Float64() - 1)))
			v.Through = &via
		}
		s.Outline = append(s.Outline, v)
	}
	for range r.IntN(4) {
		sin, cos := math.Sincos(2 * math.Pi * r.Float64())
		h := fold.Hole{At: geom.Vec2{cos, sin}.Mul(size * 0.5 * r.Float64()), Diameter: size * (0.02 + 0.2*r.Float64())}
		if depthIn(contourCutRims(s.Outline, 1, 0, true), h.At) <= h.Diameter/2 {
			continue
		}
		clear := true
		for _, o := range s.Holes {
			clear = clear && o.At.Sub(h.At).Len() > (o.Diameter+h.Diameter)/2
		}
		if clear {
			s.Holes = append(s.Holes, h)
		}
	}
	return s, size
}

// Against a slow twin that knows no formulas: points set close along the edge, every pair of them that sees each other
// and that no step along the edge brings nearer. Each such pair is a place found, and each place found is such a pair.
func TestNarrowPlacesAgainstPoints(t *testing.T) {
	r := cutRand(t, 1)
	seen := 0
	for range 150 {
		s, size := randomBlank(r)
		list := cutRims(s)
		most := size * 0.4
		got, full := narrowPlaces(list, most)
		require.True(t, full)
		type dot struct {
			at   geom.Vec2
			i    int
			n, p int
		}
		var dots []dot
		step := size / 40
		for from := 0; from < len(list); {
			first, to := len(dots), from
			for ; to < len(list) && list[to].contour == list[from].contour; to++ {
				e := &list[to]
				n := 2 + int(e.length()/step)
				for k := range n {
					f := float64(k) / float64(n)
					at := e.a.Add(e.b.Sub(e.a).Mul(f))
					if e.arc {
						at = e.spot(e.sweep * f)
					}
					dots = append(dots, dot{at: at, i: to})
				}
			}
			for k := first; k < len(dots); k++ {
				dots[k].n, dots[k].p = k+1, k-1
			}
			dots[first].p, dots[len(dots)-1].n = len(dots)-1, first
			from = to
		}
		metal := func(p geom.Vec2) bool {
			turns := 0.0
			for i := range list {
				turns += list[i].windsAbout(p)
				if list[i].whole && p.Sub(list[i].o).Len() < list[i].r {
					turns -= 2 * math.Pi
				}
			}
			return turns > math.Pi
		}
		crossed := func(p, q geom.Vec2) bool {
			for i := range list {
				if list[i].crosses(p, q) {
					return true
				}
			}
			return false
		}
		for a, p := range dots {
			for _, q := range dots[:a] {
				w := p.at.Sub(q.at).Len()
				if w > most*0.98 || w < step || p.i == q.i {
					continue
				}
				local := true
				for _, x := range []geom.Vec2{p.at, dots[p.n].at, dots[p.p].at} {
					for _, y := range []geom.Vec2{q.at, dots[q.n].at, dots[q.p].at} {
						local = local && x.Sub(y).Len() >= w-1e-12*size
					}
				}
				if !local || crossed(p.at, q.at) {
					continue
				}
				// Between edges that run almost alongside the points' own spacing makes such pairs: let it slide.
				x, y := p.at, q.at
				for range 200 {
					x = nearestBeside(list, p.i, y)
					y = nearestBeside(list, q.i, x)
				}
				if x.Sub(p.at).Len()+y.Sub(q.at).Len() > 4*step || crossed(x, y) {
					continue
				}
				void := !metal(p.at.Add(q.at).Mul(0.5))
				found := false
				for _, g := range got {
					if g.void != void || g.wide > w+1e-9*size {
						continue
					}
					here := min(g.p.Sub(p.at).Len()+g.q.Sub(q.at).Len(), g.p.Sub(q.at).Len()+g.q.Sub(p.at).Len())
					// A point at a corner stands for both pieces there.
					nearby := func(i, j int) bool { return near(list, i, j) || near(list, i, list[j].prev) }
					pieces := nearby(g.e, p.i) && nearby(g.f, q.i) || nearby(g.f, p.i) && nearby(g.e, q.i)
					found = found || here < 8*step || pieces && g.middle().Sub(p.at.Add(q.at).Mul(0.5)).Len() < 2*w+4*step
				}
				require.True(t, found, "%v %v apart %v void %v: %+v in %+v", p.at, q.at, w, void, got, s)
				seen++
			}
		}
		for _, g := range got {
			require.InDelta(t, g.wide, g.p.Sub(g.q).Len(), 1e-12*size)
			require.Equal(t, g.void, !metal(g.p.Add(g.q).Mul(0.5)), "%+v", s)
			require.False(t, crossed(g.p, g.q))
			for _, d := range dots {
				if near(list, d.i, g.e) && d.at.Sub(g.p).Len() < step/2 {
					require.GreaterOrEqual(t, d.at.Sub(g.q).Len(), g.wide*(1-1e-9)-1e-12*size, "%+v of %+v", g, s)
				}
			}
		}
	}
	require.Greater(t, seen, 150)
}

// nearestBeside is the point nearest to p of piece i and its neighbours.
func nearestBeside(list []cutRim, i int, p geom.Vec2) (best geom.Vec2) {
	least := math.Inf(1)
	for _, j := range []int{i, list[i].prev, list[i].next} {
		at := []geom.Vec2{list[j].a, list[j].b}
		if q, ok := list[j].foot(p); ok {
			at = append(at, q)
		}
		for _, q := range at {
			if d := q.Sub(p).Len(); d < least {
				least, best = d, q
			}
		}
	}
	return best
}

// near reports that two pieces are one or neighbours.
func near(list []cutRim, i, j int) bool { return i == j || list[i].next == j || list[i].prev == j }

// The widest place of a cutout by closed forms.
func TestWidestIn(t *testing.T) {
	at := func(c fold.Contour) (geom.Vec2, float64) { return widestIn(contourCutRims(c, 1, 1, false), 1000) }
	v := func(x, y float64) fold.Vertex { return fold.Vertex{At: geom.Vec2{x, y}} }
	_, d := at(fold.Contour{v(0, 0), v(30, 0), v(0, 40)})
	require.InDelta(t, 20, d, 0.2, "the circle in a triangle of 30, 40 and 50 is 20 across")
	_, d = at(fold.Contour{v(0, 0), v(300, 0), v(300, 7), v(0, 7)})
	require.InDelta(t, 7, d, 0.07)
	_, d = at(fold.Contour{v(-10, 0), {At: geom.Vec2{10, 0}, Through: &geom.Vec2{0, 10}}})
	require.InDelta(t, 10, d, 0.1, "in half a round of 10")
	_, d = at(fold.Contour{v(-10, 0), {At: geom.Vec2{10, 0}, Through: &geom.Vec2{0, 10}}, v(10, -5), v(-10, -5)})
	require.InDelta(t, 15, d, 0.15)
}

// Ten thousand holes take no more than moments.
func TestNarrowPlacesMany(t *testing.T) {
	s := rectangle(1010, 1010)
	for i := range 100 {
		for j := range 100 {
			s.Holes = append(s.Holes, fold.Hole{At: geom.Vec2{10 + 10*float64(i), 10 + 10*float64(j)}, Diameter: 8.5})
		}
	}
	began := time.Now()
	got, full := narrowPlaces(cutRims(s), 12)
	t.Logf("%d places in %v", len(got), time.Since(began))
	require.True(t, full)
	require.GreaterOrEqual(t, len(got), 2*100*99)
	require.InDelta(t, 1.5, got[0].wide, 1e-9)
	require.Less(t, time.Since(began), 5*time.Second)
}
