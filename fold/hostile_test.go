package fold_test

// Specs that no reader would pass, straight into Build: it must say what is wrong,
// or cope; never panic, hang or grow without bound.

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
)

var (
	nan = math.NaN()
	inf = math.Inf(1)
)

// cope builds and reads out everything quick there is.
func cope(t *testing.T, s fold.Spec) *fold.Part {
	t.Helper()
	p := fold.Build(s)
	r := p.Quick()
	if !p.Foldable && len(p.Troubles) == 0 {
		t.Fatalf("not foldable, and no word why: %+v", s.Name)
	}
	if p.Foldable {
		for _, f := range []float64{0.3, 1} {
			st := p.Finished()
			for i := range st {
				st[i] *= geom.Angle(f)
			}
			b := p.Pose(st).Box()
			for k := range 3 {
				if !(b.Max[k]-b.Min[k] >= 0 && b.Max[k]-b.Min[k] < 1e9) {
					t.Fatalf("box %v", b)
				}
			}
		}
		if !(r.Blank.Area > 0) {
			t.Fatalf("area %v", r.Blank.Area)
		}
	}
	for _, tr := range p.Troubles {
		if tr.Message == "" || tr.Rule == "" || math.IsNaN(tr.At[0]+tr.At[1]) {
			t.Fatalf("a trouble without words or place: %+v", tr)
		}
	}
	return p
}

// TestHostileNumbers puts each bad number at each place of a good part.
func TestHostileNumbers(t *testing.T) {
	good := func() fold.Spec {
		k, gap := 0.4, 0.5
		s := channel()
		s.Sheet.K = &k
		s.Holes = []fold.Hole{{At: geom.Vec2{50, 20}, Diameter: 5}}
		through := geom.Vec2{50, 45}
		s.Outline[3].Through = &through
		s.Cutouts = []fold.Contour{foldtest.Points(40, 10, 45, 10, 45, 15)}
		s.Panels = []fold.PanelName{{Name: "floor", At: geom.Vec2{55, 30}}}
		s.Seams = []fold.SeamSpec{{Name: "s", A: geom.Vec2{0, 20}, B: geom.Vec2{100, 20}, Gap: &gap}}
		return s
	}
	places := map[string]func(s *fold.Spec) *float64{
		"thickness":  func(s *fold.Spec) *float64 { return &s.Sheet.Thickness },
		"k":          func(s *fold.Spec) *float64 { return s.Sheet.K },
		"corner x":   func(s *fold.Spec) *float64 { return &s.Outline[0].At[0] },
		"corner y":   func(s *fold.Spec) *float64 { return &s.Outline[1].At[1] },
		"arc":        func(s *fold.Spec) *float64 { return &s.Outline[3].Through[1] },
		"cutout":     func(s *fold.Spec) *float64 { return &s.Cutouts[0][1].At[0] },
		"hole":       func(s *fold.Spec) *float64 { return &s.Holes[0].At[0] },
		"diameter":   func(s *fold.Spec) *float64 { return &s.Holes[0].Diameter },
		"line":       func(s *fold.Spec) *float64 { return &s.Bends[0].Line[0][0] },
		"angle":      func(s *fold.Spec) *float64 { return &s.Bends[0].Angle },
		"radius":     func(s *fold.Spec) *float64 { return &s.Bends[0].Radius },
		"panel":      func(s *fold.Spec) *float64 { return &s.Panels[0].At[0] },
		"seam":       func(s *fold.Spec) *float64 { return &s.Seams[0].A[1] },
		"wanted gap": func(s *fold.Spec) *float64 { return s.Seams[0].Gap },
	}
	cope(t, good())
	for name, at := range places {
		for i, x := range []float64{nan, inf, -inf, 0, -1, -1e-300, 1e-300, 5e-324, 1e-9, 1e-4, 1e5, 1e6, 1e7, 1e300, math.MaxFloat64, 240, 360} {
			s := good()
			*at(&s) = x
			s.Units = []fold.Units{fold.MM, fold.Inch}[i%2]
			s.Name = fmt.Sprint(name, " ", x, " ", s.Units)
			p := cope(t, s)
			if math.IsNaN(x) || math.IsInf(x, 0) {
				require.False(t, p.Foldable, s.Name)
				require.Equal(t, "bad-number", p.Troubles[0].Rule, s.Name)
			}
		}
	}
}

// TestHostileShapes: nothing, too little, crossing, repeated and huge.
func TestHostileShapes(t *testing.T) {
	k := 0.4
	base := func(c fold.Contour) fold.Spec {
		return fold.Spec{Sheet: fold.Sheet{Thickness: 1, K: &k}, Outline: c,
			Bends: []fold.BendSpec{{Name: "b", Line: [2]geom.Vec2{{0, -1e4}, {0, 1e4}}, Angle: 90, Radius: 1, Up: true}}}
	}
	star := func(n, step int, r float64) fold.Contour {
		var c fold.Contour
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i*step) / float64(n))
			c = append(c, fold.Vertex{At: geom.Vec2{r * cos, r * sin}})
		}
		return c
	}
	arc := func(c fold.Contour, i int, x, y float64) fold.Contour {
		q := geom.Vec2{x, y}
		c[i].Through = &q
		return c
	}
	square := func() fold.Contour { return foldtest.Points(-50, -50, 50, -50, 50, 50, -50, 50) }
	r := foldtest.Rand(7)
	noise := func(n int) fold.Contour {
		var c fold.Contour
		for range n {
			c = append(c, fold.Vertex{At: geom.Vec2{foldtest.Uniform(r, -100, 100), foldtest.Uniform(r, -100, 100)}})
		}
		return c
	}
	zigzag := func(n int) fold.Contour { // teeth as thin as the weld allows, all along one side
		c := foldtest.Points(-50, -50, 50, -50, 50, 50)
		for i := range n {
			x := 50 - 100*float64(i)/float64(n)
			c = append(c, fold.Vertex{At: geom.Vec2{x, 50 + float64(i%2)*40}})
		}
		return append(c, fold.Vertex{At: geom.Vec2{-50, 50}})
	}
	for name, c := range map[string]fold.Contour{
		"none":                nil,
		"one point":           foldtest.Points(1, 1),
		"two points":          foldtest.Points(1, 1, 2, 2),
		"all one point":       foldtest.Points(1, 1, 1, 1, 1, 1, 1, 1),
		"out and back":        foldtest.Points(-50, 0, 50, 0, -50, 0),
		"spur":                foldtest.Points(-50, -50, 50, -50, 50, 50, 0, 50, 0, 90, 0, 50, -50, 50),
		"spur inwards":        foldtest.Points(-50, -50, 50, -50, 50, 50, 0, 50, 0, 10, 0, 50, -50, 50),
		"points repeated":     foldtest.Points(-50, -50, -50, -50, 50, -50, 50, -50, 50, -50, 50, 50, -50, 50, -50, 50),
		"pentagram":           star(5, 2, 80),
		"star of 101":         star(101, 50, 80),
		"star of 999":         star(999, 499, 80),
		"noise of 300":        noise(300),
		"figure eight":        foldtest.Points(-50, -50, 50, 50, 50, -50, -50, 50),
		"twice round":         append(square(), square()...),
		"teeth":               zigzag(20000),
		"100,000 points":      star(100_000, 1, 200),
		"100,001 points":      star(100_001, 1, 200),
		"arc in line":         arc(square(), 1, 0, -50),
		"arc through an end":  arc(square(), 1, 50, -50),
		"arc nearly in line":  arc(square(), 1, 0, -50-1e-9),
		"huge arc":            arc(square(), 1, 0, -50-1e-5),
		"arc right round":     arc(foldtest.Points(-50, -50, -50, -50), 1, 50, 50),
		"full arc both":       arc(arc(foldtest.Points(-50, 0, 50, 0), 1, 0, 50), 0, 0, -50),
		"arc crosses":         arc(square(), 1, 0, 120),
		"arc far out":         arc(square(), 1, 0, -1e6),
		"tiny":                foldtest.Points(0, 0, 1e-5, 0, 1e-5, 1e-5, 0, 1e-5),
		"tinier than a weld":  foldtest.Points(0, 0, 1e-7, 0, 1e-7, 1e-7, 0, 1e-7),
		"as large as allowed": foldtest.Points(-1e6, -1e6, 1e6, -1e6, 1e6, 1e6, -1e6, 1e6),
		"thin as a hair":      foldtest.Points(-1e6, 0, 1e6, 0, 1e6, 1e-4, -1e6, 1e-4),
		"needle":              foldtest.Points(-1e6, 0, 1e6, 0, -1e6, 1e-3),
	} {
		t.Run(name, func(t *testing.T) {
			cope(t, base(c))
			s := base(square())
			s.Cutouts = []fold.Contour{c}
			cope(t, s)
			s.Cutouts = []fold.Contour{c, c, c}
			cope(t, s)
		})
	}
	t.Run("nothing at all", func(t *testing.T) { cope(t, fold.Spec{}) })
}

// TestHostileCounts: as many bends and holes as may be, tidy and all on one spot.
func TestHostileCounts(t *testing.T) {
	k := 0.4
	plank := func(l float64) fold.Spec {
		return fold.Spec{Sheet: fold.Sheet{Thickness: 1, K: &k}, Outline: foldtest.Points(0, 0, l, 0, l, 50, 0, 50)}
	}
	line := func(x0, y0, x1, y1 float64) fold.BendSpec {
		return fold.BendSpec{Line: [2]geom.Vec2{{x0, y0}, {x1, y1}}, Angle: 3, Radius: 1, Up: true}
	}
	t.Run("a thousand bends in a row", func(t *testing.T) {
		s := plank(10_000)
		for i := range 1000 {
			s.Bends = append(s.Bends, line(10*float64(i)+5, 0, 10*float64(i)+5, 50))
		}
		p := cope(t, s)
		require.True(t, p.Foldable)
		require.Len(t, p.Panels, 1001)
	})
	t.Run("a thousand bends on one line", func(t *testing.T) {
		s := plank(100)
		for range 1000 {
			s.Bends = append(s.Bends, line(50, 0, 50, 50))
		}
		require.False(t, cope(t, s).Foldable)
	})
	t.Run("bends every way", func(t *testing.T) {
		s := plank(100)
		r := foldtest.Rand(3)
		for range 150 {
			s.Bends = append(s.Bends, line(foldtest.Uniform(r, 0, 100), foldtest.Uniform(r, 0, 50), foldtest.Uniform(r, 0, 100), foldtest.Uniform(r, 0, 50)))
		}
		cope(t, s)
	})
	t.Run("one bend too many", func(t *testing.T) {
		s := plank(100)
		s.Bends = make([]fold.BendSpec, fold.MaxBends+1)
		require.False(t, cope(t, s).Foldable)
	})
	t.Run("ten thousand holes", func(t *testing.T) {
		s := plank(2000)
		for i := range 10_000 {
			s.Holes = append(s.Holes, fold.Hole{At: geom.Vec2{10 + 1.9*float64(i%1000), 5 + 4*float64(i/1000)}, Diameter: 1.5})
		}
		require.True(t, cope(t, s).Foldable)
	})
	t.Run("ten thousand holes on one spot", func(t *testing.T) {
		s := plank(100)
		for range 10_000 {
			s.Holes = append(s.Holes, fold.Hole{At: geom.Vec2{20, 25}, Diameter: 5})
		}
		cope(t, s)
	})
	t.Run("huge holes", func(t *testing.T) {
		s := plank(100)
		for i := range 30 {
			s.Holes = append(s.Holes, fold.Hole{At: geom.Vec2{float64(i), 0}, Diameter: 1e6})
		}
		cope(t, s)
	})
	t.Run("too many huge holes", func(t *testing.T) {
		s := plank(100)
		for i := range 1000 {
			s.Holes = append(s.Holes, fold.Hole{At: geom.Vec2{float64(i), 0}, Diameter: 1e6})
		}
		require.False(t, cope(t, s).Foldable)
	})
	t.Run("names, steps and seams of nonsense", func(t *testing.T) {
		s := channel()
		to := nan
		s.Order = []fold.Step{{}, {Bends: []string{"x", "left", "left"}}, {Bends: []string{"right"}, To: &to}, {Bends: nil, To: &to}}
		s.Panels = []fold.PanelName{{Name: "", At: geom.Vec2{50, 20}}, {Name: "panel 1", At: geom.Vec2{90, 20}}, {Name: "panel 1", At: geom.Vec2{10, 20}}}
		s.Seams = []fold.SeamSpec{{}, {Name: "x", A: geom.Vec2{0, 20}, B: geom.Vec2{0, 20}}, {Name: "x", A: geom.Vec2{0, 20}, B: geom.Vec2{100, 20}}}
		s.Units = fold.Units(9)
		s.Bends[0].Name = s.Bends[1].Name
		p := cope(t, s)
		for _, a := range p.Finished() {
			require.False(t, math.IsNaN(float64(a)))
		}
	})
}

// TestHostileMixes: good random parts spoilt at random.
func TestHostileMixes(t *testing.T) {
	forSeeds(t, 100, func(t *testing.T, r *rand.Rand) {
		s := foldtest.Random(r)
		for range 1 + r.IntN(4) {
			pick := func(c fold.Contour) *fold.Vertex { return &c[r.IntN(len(c))] }
			switch r.IntN(9) {
			case 0:
				pick(s.Outline).At = pick(s.Outline).At
			case 1:
				v := pick(s.Outline)
				v.At = v.At.Add(geom.Vec2{foldtest.Uniform(r, -1, 1), foldtest.Uniform(r, -1, 1)}.Mul(foldtest.LogUniform(r, 1e-8, 1e3)))
			case 2:
				q := pick(s.Outline).At.Add(geom.Vec2{foldtest.Uniform(r, -1, 1), foldtest.Uniform(r, -1, 1)}.Mul(foldtest.LogUniform(r, 1e-8, 1e3)))
				pick(s.Outline).Through = &q
			case 3:
				b := &s.Bends[r.IntN(len(s.Bends))]
				b.Line[r.IntN(2)] = pick(s.Outline).At
			case 4:
				b := &s.Bends[r.IntN(len(s.Bends))]
				b.Radius, b.Angle = foldtest.LogUniform(r, 1e-6, 1e4), foldtest.Uniform(r, 0.001, 240)
			case 5:
				s.Bends = append(s.Bends, s.Bends[r.IntN(len(s.Bends))])
			case 6:
				s.Cutouts = append(s.Cutouts, s.Outline)
			case 7:
				s.Holes = append(s.Holes, fold.Hole{At: pick(s.Outline).At, Diameter: foldtest.LogUniform(r, 1e-2, 1e3)})
			case 8:
				s.Sheet.Thickness = foldtest.LogUniform(r, 1e-3, 1e5)
			}
		}
		cope(t, s)
	})
}

// FuzzBuild: whatever the reader passes, Build and Quick take.
func FuzzBuild(f *testing.F) {
	files, _ := filepath.Glob("../testdata/parts/*.dryfold")
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	for seed := range uint64(20) {
		f.Add(partfile.Write(foldtest.Random(foldtest.Rand(seed))))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := partfile.Read(data)
		if err != nil {
			return
		}
		cope(t, s)
	})
}
