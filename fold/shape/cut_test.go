package shape

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
	"dryfold/fold/sizes"
)

// told are the cuts of a blank that can't be made or want attention.
func told(cuts []Cut) (out []Cut) {
	for _, c := range cuts {
		if c.Rule != "" {
			out = append(out, c)
		}
	}
	return out
}

// notched is a plate of 100 by 60 with a notch cut from its upper edge, by the notch's corners from left to right.
func notched(corners ...geom.Vec2) fold.Spec {
	all := []geom.Vec2{{0, 0}, {100, 0}, {100, 60}}
	slices.Reverse(corners)
	return plate(append(append(all, corners...), geom.Vec2{0, 60})...)
}

// What can't be cut is told with its rule, size and what would do; what can is told with its tool.
func TestCutRules(t *testing.T) {
	holed := func(d ...float64) fold.Spec {
		s := rectangle(100, 60)
		for i, x := range d {
			s.Holes = append(s.Holes, fold.Hole{At: geom.Vec2{15 + 25*float64(i), 30}, Diameter: x})
		}
		return s
	}
	window := func(corners ...geom.Vec2) fold.Spec {
		s := rectangle(100, 60)
		var c fold.Contour
		for _, p := range corners {
			c = append(c, fold.Vertex{At: p})
		}
		s.Cutouts = []fold.Contour{c}
		return s
	}
	thick := func(s fold.Spec, t float64) fold.Spec { s.Sheet.Thickness = t; return s }
	own := sizes.Tools{Drills: []float64{2, 2.4, 2.5, 3, 10}}
	for _, c := range []struct {
		name       string
		s          fold.Spec
		tools      sizes.Tools
		rule       string // "": all can be cut
		severity   fold.Severity
		have, need float64
		kind       CutKind // of the cut that is told, or of the one that tool makes
		tool       string
		words      string
	}{
		{"a drill that is owned", holed(2.5), own, "", 0, 0, 0, CutHole, "drill 2.5 mm", "drill 2.5 mm."},
		{"as good as a drill", holed(2.37), own, "", 0, 0, 0, CutHole, "drill 2.4 mm", "2.37 mm across: drill 2.4 mm."},
		{"no such drill", holed(2.7), own, "cut-no-drill", fold.Watch, 2.7, 2.5, CutHole, "drill 3 mm", "Drill 3 mm, 0.3 mm wider, or 2.5 mm, and file 0.1 mm off all round."},
		{"smaller than all", holed(1.5), own, "cut-no-drill", fold.Watch, 1.5, 2, CutHole, "drill 2 mm", "The smallest is 2 mm"},
		{"of no usual drill", holed(2.7), sizes.Tools{}, "cut-no-drill", fold.Note, 2.7, 2.5, CutHole, "drill 3 mm", "say which drills you own"},
		{"larger than all", holed(30), own, "", 0, 0, 0, CutHole, "saw", "drill 10 mm inside it, saw it out"},
		{"a little larger than all", holed(12), own, "cut-no-drill", fold.Watch, 12, 10, CutHole, "file", "Take a hole saw or step drill of its size, or begin it with drill 10 mm and file it out round"},
		{"larger than all usual ones", holed(20), sizes.Tools{}, "cut-no-drill", fold.Note, 20, 13, CutHole, "file", "hole saw or step drill"},
		{"larger, no saw", holed(30), sizes.Tools{NoSaw: true}, "", 0, 0, 0, CutHole, "file", "a row of small holes"},
		{"a square notch", notched(geom.Vec2{40, 60}, geom.Vec2{40, 40}, geom.Vec2{60, 40}, geom.Vec2{60, 60}), own, "", 0, 0, 0, CutSlot, "snips", "snip both sides, then across"},
		{"an inside corner", plate(geom.Vec2{0, 0}, geom.Vec2{50, 0}, geom.Vec2{50, 20}, geom.Vec2{20, 20}, geom.Vec2{20, 50}, geom.Vec2{0, 50}), own, "", 0, 0, 0, CutCorner, "snips", "Snips cut past it by about 1 mm"},
		{"too thick for snips", thick(plate(geom.Vec2{0, 0}, geom.Vec2{50, 0}, geom.Vec2{50, 20}, geom.Vec2{20, 20}, geom.Vec2{20, 50}, geom.Vec2{0, 50}), 2), own, "", 0, 0, 0, CutCorner, "saw", "saw both sides up to it"},
		{"too thick for all", thick(plate(geom.Vec2{0, 0}, geom.Vec2{50, 0}, geom.Vec2{50, 20}, geom.Vec2{20, 20}, geom.Vec2{20, 50}, geom.Vec2{0, 50}), 2), sizes.Tools{NoSaw: true}, "cut-no-tool", fold.Stop, 90, 0, CutCorner, "", "the snips cut 1.2 mm at most, the sheet is 2 mm"},
		{"a saw cut", notched(geom.Vec2{40, 60}, geom.Vec2{40, 30}, geom.Vec2{40.8, 30}, geom.Vec2{40.8, 60}), own, "", 0, 0, 0, CutSlot, "saw", "one cut of the saw"},
		{"a slot under the saw's", notched(geom.Vec2{40, 60}, geom.Vec2{40, 30}, geom.Vec2{40.5, 30}, geom.Vec2{40.5, 60}), own, "cut-too-narrow", fold.Stop, 0.5, 0.8, CutSlot, "", "the narrowest that your tools make is 0.8 mm"},
		{"too narrow to snip across", notched(geom.Vec2{40, 60}, geom.Vec2{40, 30}, geom.Vec2{44, 30}, geom.Vec2{44, 60}), own, "", 0, 0, 0, CutSlot, "drill 3 mm", "too narrow for snips to cut across its end. Drill 3 mm in its corners first"},
		{"a blind slot", notched(geom.Vec2{40, 60}, geom.Vec2{40, 30}, geom.Vec2{41.9, 30}, geom.Vec2{41.9, 60}), own, "cut-too-narrow", fold.Stop, 1.9, 2, CutSlot, "", "is blind"},
		{"a slot for a file", notched(geom.Vec2{40, 60}, geom.Vec2{40, 30}, geom.Vec2{41.9, 30}, geom.Vec2{41.9, 60}), sizes.Tools{Drills: []float64{2}, Slot: 1.5}, "", 0, 0, 0, CutSlot, "file", "file the end straight"},
		{"a sharp notch", notched(geom.Vec2{45, 60}, geom.Vec2{50, 20}, geom.Vec2{55, 60}), own, "cut-too-narrow", fold.Watch, 2 * math.Atan2(5, 40) * 180 / math.Pi, 30, CutNotch, "drill 2 mm", "Drill 2 mm through its point first, then snip both sides"},
		{"a notch that snips open", notched(geom.Vec2{30, 60}, geom.Vec2{50, 30}, geom.Vec2{70, 60}), own, "", 0, 0, 0, CutCorner, "snips", "snip both sides"},
		{"a strip beside a slot", notched(geom.Vec2{40, 60}, geom.Vec2{40, 1.4}, geom.Vec2{60, 1.4}, geom.Vec2{60, 60}), own, "cut-sliver", fold.Watch, 1.4, 2, CutStrip, "", "Under 2 mm it curls"},
		{"hardly a strip", notched(geom.Vec2{40, 60}, geom.Vec2{40, 0.4}, geom.Vec2{60, 0.4}, geom.Vec2{60, 60}), own, "cut-sliver", fold.Stop, 0.4, 2, CutStrip, "", "is 0.4 mm wide"},
		{"a tongue that narrows", notched(geom.Vec2{40, 60}, geom.Vec2{40, 20}, geom.Vec2{49, 20}, geom.Vec2{49.5, 60}, geom.Vec2{50.5, 60}, geom.Vec2{51, 20}, geom.Vec2{60, 20}, geom.Vec2{60, 60}), own, "cut-sliver", fold.Watch, 1, 2, CutStrip, "", "is 1 mm wide"},
		{"a hole near the edge", func() fold.Spec { s := holed(10); s.Holes[0].At[1] = 6.5; return s }(), own, "cut-sliver", fold.Watch, 1.5, 2, CutStrip, "", "The metal between hole 1 and the edge"},
		{"a window", window(geom.Vec2{20, 20}, geom.Vec2{60, 20}, geom.Vec2{60, 40}, geom.Vec2{20, 40}), own, "", 0, 0, 0, CutWindow, "saw", "drill 10 mm inside it and saw it out. Its sharp corners are filed out."},
		{"a window for drill and file", window(geom.Vec2{20, 20}, geom.Vec2{60, 20}, geom.Vec2{60, 23}, geom.Vec2{20, 23}), own, "", 0, 0, 0, CutWindow, "file", "drill 3 mm in a row, and file it out"},
		{"a window that no drill gets in", window(geom.Vec2{20, 20}, geom.Vec2{60, 20}, geom.Vec2{60, 21}, geom.Vec2{20, 21}), own, "cut-too-narrow", fold.Stop, 1, 2, CutWindow, "", "no drill of yours gets in"},
		{"shears", rectangle(100, 60), sizes.Tools{ShearsLength: 100}, "", 0, 0, 0, CutEdge, "shears", "shear it right across, 60 mm"},
		{"short shears", rectangle(100, 60), sizes.Tools{ShearsLength: 80}, "", 0, 0, 0, CutEdge, "snips", "longer than the shears' 80 mm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			cuts := CheckCut(fold.Build(c.s), c.tools)
			bad := told(cuts)
			if c.rule == "" {
				require.Empty(t, bad)
				require.Empty(t, CutTroubles(cuts))
				require.True(t, slices.ContainsFunc(cuts, func(x Cut) bool {
					return x.Kind == c.kind && x.Tool == c.tool && strings.Contains(x.Words, c.words)
				}), "%+v", cuts)
				return
			}
			require.NotEmpty(t, bad, "%+v", cuts)
			x := bad[0]
			require.Equal(t, c.rule, x.Rule)
			require.True(t, slices.ContainsFunc(fold.Rules, func(r fold.Rule) bool { return r.Name == x.Rule }))
			require.Equal(t, c.severity, x.Severity)
			require.Equal(t, c.kind, x.Kind)
			require.Equal(t, c.tool, x.Tool)
			require.InDelta(t, c.have, x.Size, 0.02)
			require.InDelta(t, c.need, x.Need, 1e-9)
			require.Contains(t, x.Words, c.words)
		})
	}
}

// Widths stand to 0.1 mm, finer where they would read like what they are held against; places from the blank's lower left.
func TestCutFigures(t *testing.T) {
	c := &cutting{part: &fold.Part{}}
	c.part.Blank.Box = geom.Box2{Min: geom.Vec2{-106.42, 10}}
	for _, x := range []struct {
		wide, against float64
		want          string
	}{{2.771, 3, "2.8 mm"}, {2.714, 0.8, "2.7 mm"}, {0.76, 0.8, "0.76 mm"}, {2.96, 3, "2.96 mm"}, {3, 3, "3 mm"}, {0.04, 3, "0.04 mm"}, {12.02, 12, "12.02 mm"}} {
		require.Equal(t, x.want, c.wide(x.wide, x.against))
	}
	require.Equal(t, "0.0 mm from A (left) and 180.1 mm from B (below)", c.spot(geom.Vec2{-106.42, 190.13}))
}

// A part in inches names drills as they are stamped.
func TestDrillSize(t *testing.T) {
	c := &cutting{inch: true}
	for mm, want := range map[float64]string{25.4 / 4: "1/4 in", 25.4 * 9 / 32: "9/32 in", 25.4 * 41 / 64: "41/64 in", 25.4: "1 in", 25.4 * 1.125: "1 1/8 in", 3.3: "3.3 mm"} {
		require.Equal(t, want, c.drillSize(mm))
	}
	require.Equal(t, "6.35 mm", (&cutting{}).drillSize(6.35))
}

// Holes of one diameter are one trouble.
func TestCutTroublesTogether(t *testing.T) {
	s := rectangle(100, 60)
	for i, d := range []float64{3.3, 2.5, 3.3, 3.3} {
		s.Holes = append(s.Holes, fold.Hole{At: geom.Vec2{15 + 22*float64(i), 30}, Diameter: d})
	}
	got := CutTroubles(CheckCut(fold.Build(s), sizes.Tools{Drills: []float64{2.5, 3, 4}}))
	require.Len(t, got, 1)
	require.Equal(t, "hole 1", got[0].Name)
	require.Equal(t, "hole", got[0].Kind)
	require.Equal(t, "3 holes, hole 1 the first, 3.3 mm across: you own no such drill. Drill 4 mm, 0.7 mm wider, or 3 mm, and file 0.15 mm off all round.", got[0].Message)
	require.InDelta(t, 3, *got[0].Need, 1e-12)
	require.Contains(t, fold.InUnits(got[0].Message, fold.Inch), "0.13 in across")
}

// A blank turned, moved, mirrored and drawn the other way round is cut with the same tools at the same sizes.
func TestCutTurned(t *testing.T) {
	r := cutRand(t, 2)
	for range 60 {
		s, _ := randomBlank(r)
		k := 200 / fold.Build(s).Blank.Box.Size().Len() // to a size that tools are made for
		move := func(s fold.Spec, f func(geom.Vec2) geom.Vec2, back bool) fold.Spec {
			out := fold.Spec{Name: s.Name, Sheet: fold.Sheet{Thickness: 1}}
			for _, v := range s.Outline {
				w := fold.Vertex{At: f(v.At)}
				if v.Through != nil {
					p := f(*v.Through)
					w.Through = &p
				}
				out.Outline = append(out.Outline, w)
			}
			if back {
				n := len(out.Outline)
				o := make(fold.Contour, n)
				for i, v := range out.Outline {
					o[n-1-i].At = v.At
					o[(n-i)%n].Through = v.Through
				}
				out.Outline = o
			}
			for _, h := range s.Holes {
				out.Holes = append(out.Holes, fold.Hole{At: f(h.At), Diameter: h.Diameter * k})
			}
			return out
		}
		sin, cos := math.Sincos(2 * math.Pi * r.Float64())
		flip := float64(1 - 2*r.IntN(2))
		a := move(s, func(p geom.Vec2) geom.Vec2 { return p.Mul(k) }, false)
		b := move(s, func(p geom.Vec2) geom.Vec2 {
			return geom.Vec2{cos*p[0] - sin*p[1], flip * (sin*p[0] + cos*p[1])}.Mul(k).Add(geom.Vec2{-70, 300})
		}, r.IntN(2) == 0)
		list := func(s fold.Spec) (out []Cut) {
			for _, c := range CheckCut(fold.Build(s), sizes.Tools{ShearsLength: 100}) {
				out = append(out, Cut{Kind: c.Kind, Size: c.Size, Need: c.Need, Tool: c.Tool, Rule: c.Rule, Severity: c.Severity, Drill: c.Drill})
			}
			slices.SortFunc(out, func(x, y Cut) int {
				if x.Kind != y.Kind {
					return int(x.Kind - y.Kind)
				}
				if math.Abs(x.Size-y.Size) > 1e-6 {
					return int(math.Copysign(1, x.Size-y.Size))
				}
				return strings.Compare(x.Tool+x.Rule, y.Tool+y.Rule)
			})
			return out
		}
		x, y := list(a), list(b)
		require.Len(t, y, len(x), "%+v\n%+v\n%+v", a, x, y)
		for i := range x {
			require.InDelta(t, x[i].Size, y[i].Size, 1e-6*max(1, x[i].Size))
			x[i].Size, y[i].Size = 0, 0
			require.Equal(t, x[i], y[i], "%+v", a)
		}
	}
}

// The edges that shears cut, against looking at every corner for every edge.
func TestCutEdgesAll(t *testing.T) {
	r := cutRand(t, 3)
	seen := 0
	for range 300 {
		s, size := randomBlank(r)
		p := fold.Build(s)
		if len(p.Outline) < 3 {
			continue
		}
		got := 0
		for _, c := range CheckCut(p, sizes.Tools{ShearsLength: 1e5}) {
			if c.Kind == CutEdge {
				got++
			}
		}
		want := 0
		for _, e := range cutRims(s) {
			if e.contour != 0 || e.arc {
				continue
			}
			n, low, lo, hi := geom.Perp(e.way(e.a)), 0.0, 0.0, 0.0
			for _, q := range p.Outline {
				low = min(low, q.Sub(e.a).Dot(n))
				lo, hi = min(lo, q.Sub(e.a).Dot(e.way(e.a))), max(hi, q.Sub(e.a).Dot(e.way(e.a)))
			}
			if low >= -1e-5 {
				want++
			}
			require.LessOrEqual(t, hi-lo, 3*size)
		}
		require.Equal(t, want, got, "%+v", s)
		seen += want
	}
	require.Greater(t, seen, 300)
}

// The demo parts can all be cut with what a maker usually has, whatever is said of them.
func TestCutDemos(t *testing.T) {
	files, err := filepath.Glob("../../assets/*.dryfold")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		s, err := partfile.Read(data)
		require.NoError(t, err)
		cuts := CheckCut(fold.Build(s), sizes.Tools{})
		require.NotEmpty(t, cuts, f)
		for _, c := range cuts {
			require.NotEqual(t, fold.Stop, c.Severity, "%s: %+v", f, c)
			require.NotEmpty(t, c.Words)
			require.Equal(t, c.Rule == "" || c.Kind == CutHole || c.Kind == CutNotch, c.Tool != "", "%s: %+v", f, c)
		}
	}
}

// Whatever the blank, there is an answer.
func TestCutAnything(t *testing.T) {
	require.Empty(t, CheckCut(fold.Build(fold.Spec{}), sizes.Tools{}))
	require.Empty(t, CheckCut(&fold.Part{}, sizes.Tools{}))
	r := cutRand(t, 5)
	for range 300 {
		scale := math.Exp2(14*r.Float64() - 7)
		any := func() geom.Vec2 {
			p := geom.Vec2{float64(r.IntN(9)), float64(r.IntN(9))}.Mul(scale)
			if r.IntN(9) == 0 {
				p = p.Mul(math.Exp2(6*r.Float64() - 3))
			}
			return p
		}
		contour := func() (c fold.Contour) {
			for range 2 + r.IntN(9) {
				v := fold.Vertex{At: any()}
				if r.IntN(3) == 0 {
					p := any()
					v.Through = &p
				}
				c = append(c, v)
			}
			return c
		}
		s := fold.Spec{Outline: contour(), Units: fold.Units(r.IntN(2)), Sheet: fold.Sheet{Thickness: math.Exp2(10*r.Float64() - 5)}}
		for range r.IntN(3) {
			s.Cutouts = append(s.Cutouts, contour())
		}
		for range r.IntN(3) {
			s.Holes = append(s.Holes, fold.Hole{At: any(), Diameter: math.Exp2(12*r.Float64() - 6)})
		}
		tools := sizes.Tools{NoSaw: r.IntN(3) == 0, NoSnips: r.IntN(3) == 0, ShearsLength: 50 * float64(r.IntN(2)), Nibbler: 4 * float64(r.IntN(2))}
		if r.IntN(3) == 0 {
			s = foldtest.Random(r)
		}
		for _, c := range CheckCut(fold.Build(s), tools) {
			require.False(t, math.IsNaN(c.Size) || math.IsNaN(c.Need) || math.IsNaN(c.At[0]) || math.IsNaN(c.At[1]), "%+v of %+v", c, s)
			require.NotEmpty(t, c.Words)
			require.Equal(t, c.Rule != "", c.Severity != fold.Note || c.Rule == "cut-no-drill", "%+v", c)
		}
	}
}
