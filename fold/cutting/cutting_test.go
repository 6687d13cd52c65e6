package cutting

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
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
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

var (
	update = flag.Bool("update", false, "write the golden files anew")
	seed   = flag.Uint64("seed", 0, "add to the seeds of random tests")
)

func random(t *testing.T, n uint64) *rand.Rand {
	t.Logf("seed %d", *seed+n)
	return foldtest.Rand(*seed + n)
}

// plate is a flat part of 1 mm by its outline's corners, x, y, x, y ...
func plate(xy ...float64) fold.Spec {
	return fold.Spec{Name: "plate", Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(xy...)}
}

func made(t *testing.T, file string) *fold.Part {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	s, err := partfile.Read(data)
	require.NoError(t, err)
	if s.Sizes == nil {
		return fold.Build(s)
	}
	m, problems := shape.Make(s)
	require.Empty(t, problems)
	return m.Part
}

// steps are the plan's steps but for the piece to begin with and the burrs, as "number kind: letters of the tools of its cuts".
func steps(p Plan) (out []string) {
	for _, s := range p.Steps {
		if s.Kind == Piece || s.Kind == Burrs {
			continue
		}
		t := s.Kind.String() + ":"
		for _, c := range s.Cuts {
			t += " " + c.Tool.Letter()
		}
		out = append(out, t)
	}
	return out
}

// Plates whose best order is plain: what is cut when, with what. Common practice, no source.
func TestOrder(t *testing.T) {
	shears := sizes.Tools{ShearsLength: 500}
	holed := func(s fold.Spec, at geom.Vec2, d float64) fold.Spec {
		s.Holes = append(s.Holes, fold.Hole{At: at, Diameter: d})
		return s
	}
	windowed := plate(0, 0, 100, 0, 100, 60, 0, 60)
	windowed.Cutouts = []fold.Contour{foldtest.Points(20, 20, 60, 20, 60, 40, 20, 40)}
	thick := plate(0, 0, 100, 0, 100, 60, 60, 60, 60, 30, 40, 30, 40, 60, 0, 60)
	thick.Sheet.Thickness = 3
	for _, c := range []struct {
		name  string
		s     fold.Spec
		tools sizes.Tools
		want  []string
	}{
		{"a rectangle", plate(0, 0, 100, 0, 100, 60, 0, 60), sizes.Tools{}, []string{"outside edges: T T T T"}},
		{"shears", plate(0, 0, 100, 0, 100, 60, 0, 60), shears, []string{"shear across: S S S S"}},
		{"a notch after the shears", plate(0, 0, 100, 0, 100, 60, 60, 60, 60, 30, 40, 30, 40, 60, 0, 60), shears,
			[]string{"centre-punch:", "drill:", "shear across: S S S S S", "notches: R L R"}},
		{"a corner out, without shears", plate(0, 0, 50, 0, 50, 20, 20, 20, 20, 50, 0, 50), sizes.Tools{},
			[]string{"centre-punch:", "drill:", "notches: R L", "outside edges: T T T T"}},
		{"a hole", holed(plate(0, 0, 100, 0, 100, 60, 0, 60), geom.Vec2{50, 30}, 6), shears, []string{"centre-punch:", "drill: D", "shear across: S S S S"}},
		{"a hole larger than the drills", holed(plate(0, 0, 100, 0, 100, 60, 0, 60), geom.Vec2{50, 30}, 40), shears,
			[]string{"centre-punch:", "drill:", "cut out the inside: W", "shear across: S S S S"}},
		{"a window", windowed, sizes.Tools{}, []string{"centre-punch:", "drill:", "cut out the inside: W W W W", "outside edges: T T T T"}},
		{"a window by nibbler", windowed, sizes.Tools{NoSaw: true, Nibbler: 4}, []string{"centre-punch:", "drill:", "cut out the inside: N N N N", "outside edges: T T T T"}},
		{"too thick for snips", thick, sizes.Tools{}, []string{"centre-punch:", "drill:", "notches: W W W", "outside edges: W W W W W"}},
		{"a slot for the saw, a chamfer too short for the shears", plate(0, 0, 100, 0, 100, 60, 60.8, 60, 60.8, 40, 60, 40, 60, 60, 10, 60, 0, 50), shears,
			[]string{"shear across: S S S S S", "notches: W W W", "outside edges: T"}},
		{"a notch of 2.5 mm: its sides are too short for snips' tips", plate(0, 0, 100, 0, 100, 60, 60, 60, 60, 57.5, 40, 57.5, 40, 60, 0, 60), sizes.Tools{NoSaw: true},
			[]string{"centre-punch:", "drill:", "notches: R", "outside edges: T T T T T", "file to the line: F F"}},
		{"a corner of 2.5 mm off the outside is none to them", plate(0, 0, 100, 0, 100, 57.5, 97.5, 60, 0, 60), sizes.Tools{}, []string{"outside edges: T T T T T"}},
		{"a bent end of a slot of 2.8 mm, that no saw turns into", plate(0, 0, 100, 0, 100, 60, 51.4, 60, 51.4, 40, 50, 39.8, 48.6, 40, 48.6, 60, 0, 60), sizes.Tools{NoSnips: true, Drills: []float64{3}},
			[]string{"notches: W W", "outside edges: W W W W W", "file to the line: F F"}},
		{"holes of 9 mm, with drills to 5 mm: to be filed out from the largest", holed(plate(0, 0, 100, 0, 100, 60, 0, 60), geom.Vec2{50, 30}, 9), sizes.Tools{Drills: []float64{3, 5}},
			[]string{"centre-punch:", "drill:", "cut out the inside: F", "outside edges: T T T T"}},
		{"nothing to cut with", thick, sizes.Tools{NoSaw: true}, []string{"no tool: ? ? ? ? ? ? ? ?"}},
		{"a cut-off disc alone", thick, sizes.Tools{NoSaw: true, Disc: 1.5}, []string{"centre-punch:", "drill:", "notches: C C", "outside edges: C C C C C", "file to the line: F"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			part := fold.Build(c.s)
			p := Make(part, c.tools)
			check(t, part, c.tools, p)
			if c.want != nil {
				require.Equal(t, c.want, steps(p))
			}
			require.Equal(t, Piece, p.Steps[0].Kind)
			for i, s := range p.Steps {
				require.Equal(t, i+1, s.Number)
				require.NotEmpty(t, s.Do)
			}
		})
	}
}

// Inside corners of a square notch: two holes in the waste, each touching both lines.
func TestStopHoles(t *testing.T) {
	p := Make(fold.Build(plate(0, 0, 100, 0, 100, 60, 60, 60, 60, 30, 40, 30, 40, 60, 0, 60)), sizes.Tools{Drills: []float64{1, 3, 10}})
	require.Len(t, p.Drills, 2)
	for _, d := range p.Drills {
		require.Equal(t, Stop, d.For)
		require.Equal(t, 3.0, d.Diameter)
		require.Equal(t, "3 mm", d.Size)
		require.InDelta(t, 31.5, d.At[1], 1e-12)
		require.InDelta(t, 8.5, math.Abs(d.At[0]-50), 1e-12)
	}
	inch := Make(fold.Build(foldtest.InInches(plate(0, 0, 100, 0, 100, 60, 60, 60, 60, 30, 40, 30, 40, 60, 0, 60))), sizes.Tools{})
	require.Equal(t, "1/8 in", inch.Drills[0].Size)
	// A V that opens 60 degrees: a hole that touches both sides lies r / sin 30 = 2r off its point.
	v := Make(fold.Build(plate(0, 0, 100, 0, 100, 60, 50+30/math.Sqrt(3), 60, 50, 30, 50-30/math.Sqrt(3), 60, 0, 60)), sizes.Tools{Drills: []float64{3}})
	require.Len(t, v.Drills, 1)
	require.InDelta(t, 50, v.Drills[0].At[0], 1e-9)
	require.InDelta(t, 33, v.Drills[0].At[1], 1e-9)
}

// A hole near a bend is drilled after it; where a small hole in its middle is far enough off, that is drilled before. The
// distances are metal.HoleToBend's: 2 T at least.
func TestHoleBesideBend(t *testing.T) {
	channel := func(x, d float64) *fold.Part {
		s := plate(0, 0, 100, 0, 100, 60, 0, 60)
		zero := 0.0
		s.Sheet.K = &zero
		s.Bends = []fold.BendSpec{{Line: [2]geom.Vec2{{30, 0}, {30, 60}}, Angle: 90, Radius: 1, Up: true}}
		s.Holes = []fold.Hole{{At: geom.Vec2{x, 30}, Diameter: d}}
		return fold.Build(s)
	}
	tangent := 30 + math.Pi/4 // half of the bend's width, R pi/2
	for _, c := range []struct {
		off, d float64
		when   When
		pilot  float64
	}{
		{20, 6, Before, 0},
		{20, 8, Before, 3},
		{1, 8, Opened, 3},     // a hole of 3 there is 3.5 off
		{0.2, 4, After, 0},    // one of 2.2 would be 1.1 off
		{0.5, 6.5, Opened, 3}, // 2.25
		{0.2, 6.5, After, 0},  // 1.95
	} {
		p := Make(channel(tangent+c.off+c.d/2, c.d), sizes.Tools{})
		require.Len(t, p.Drills, 1)
		require.Equal(t, c.when, p.Drills[0].When, "%+v", c)
		require.Equal(t, c.pilot, p.Drills[0].Pilot, "%+v", c)
		kinds := []Kind{}
		for _, s := range p.Steps {
			if slices.Contains(s.Drills, 0) {
				kinds = append(kinds, s.Kind)
			}
		}
		require.Equal(t, map[When][]Kind{Before: {Punch, Bored}, After: {Punch, Later}, Opened: {Punch, Bored, Later}}[c.when], kinds)
		hole := slices.IndexFunc(p.Edges, func(e Edge) bool { return e.Whole })
		require.Equal(t, map[bool]Kind{true: Bored, false: Later}[c.when == Before], p.Steps[p.Edges[hole].Step-1].Kind)
	}
}

// What is amiss is told, with what would do.
func TestProblems(t *testing.T) {
	rules := func(p Plan) (out []string) {
		for _, t := range p.Problems {
			out = append(out, t.Rule+" "+t.Severity.String())
		}
		return out
	}
	square := plate(0, 0, 100, 0, 100, 60, 0, 60)
	require.Empty(t, Make(fold.Build(square), sizes.Tools{}).Problems)
	require.Equal(t, []string{"shears-short watch"}, rules(Make(fold.Build(square), sizes.Tools{ShearsLength: 80})))
	require.Equal(t, []string{"cut-no-tool stop"}, rules(Make(fold.Build(square), sizes.Tools{NoSaw: true, NoSnips: true})))
	small := square
	small.Price.Sheet = [2]float64{90, 1000}
	require.Empty(t, Make(fold.Build(small), sizes.Tools{}).Problems, "it fits turned")
	small.Price.Sheet = [2]float64{90, 50}
	require.Equal(t, []string{"blank-no-fit watch"}, rules(Make(fold.Build(small), sizes.Tools{})))
	slot := plate(0, 0, 100, 0, 100, 60, 60.5, 60, 60.5, 40, 60, 40, 60, 60, 0, 60)
	p := Make(fold.Build(slot), sizes.Tools{})
	require.Contains(t, rules(p), "cut-too-narrow stop")
	require.Equal(t, NoTool, p.Steps[len(p.Steps)-1].Kind)
	require.Len(t, p.Steps[len(p.Steps)-1].Cuts, 3)
	for _, x := range p.Problems {
		require.True(t, slices.ContainsFunc(fold.Rules, func(r fold.Rule) bool { return r.Name == x.Rule }), x.Rule)
	}
}

// A struck line is told where it lies on an edge or a bend, and nowhere else.
func TestStruck(t *testing.T) {
	s := plate(0, 0, 100, 0, 100, 60, 0, 60)
	s.Bends = []fold.BendSpec{{Name: "fold", Line: [2]geom.Vec2{{30, 0}, {30, 60}}, Angle: 90, Radius: 1, Up: true}}
	for _, c := range []struct {
		a, b geom.Vec2
		want string
	}{
		{geom.Vec2{10, 0}, geom.Vec2{40, 0}, "struck-line stop"},
		{geom.Vec2{110, -0.2}, geom.Vec2{60, 0.2}, "struck-line stop"},
		{geom.Vec2{10, 0.5}, geom.Vec2{40, 0.5}, ""},
		{geom.Vec2{10, -5}, geom.Vec2{10, 65}, ""}, // crosses edges
		{geom.Vec2{110, 0}, geom.Vec2{150, 0}, ""}, // in line, but past its end
		{geom.Vec2{30, 10}, geom.Vec2{30, 20}, "struck-line watch"},
		{geom.Vec2{32, 10}, geom.Vec2{32, 20}, ""},
	} {
		s.Struck = []fold.StruckLine{{Line: [2]geom.Vec2{c.a, c.b}}}
		p := Make(fold.Build(s), sizes.Tools{})
		require.Len(t, p.Struck, 1)
		got := ""
		for _, x := range p.Problems {
			got = x.Rule + " " + x.Severity.String()
		}
		require.Equal(t, c.want, got, "%+v", c)
		require.Equal(t, c.want == "struck-line stop", p.Struck[0].Edge >= 0)
	}
}

// The plans of the demo parts, in words, with and without shears: testdata/*.txt, made anew with -update.
func TestDemoPlans(t *testing.T) {
	files, err := filepath.Glob("../../assets/*.dryfold")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		p := made(t, f)
		var b strings.Builder
		for _, tools := range []sizes.Tools{{}, {ShearsLength: 610, Nibbler: 3, Disc: 1.2}} {
			plan := Make(p, tools)
			check(t, p, tools, plan)
			fmt.Fprintf(&b, "tools %+v\n", tools)
			for _, s := range plan.Steps {
				fmt.Fprintf(&b, "%d %s. %s %s Because: %s. Waste: %s. Hold: %s.\n", s.Number, s.Kind, s.Do, s.Sizes, s.Why, s.Waste, s.Hold)
				for _, c := range s.Cuts {
					e := &plan.Edges[c.Edge]
					a, z := e.A, e.B
					if c.Back {
						a, z = z, a
					}
					fmt.Fprintf(&b, "    %s (%.1f, %.1f) to (%.1f, %.1f)", c.Tool.Letter(), a[0]+0, a[1]+0, z[0]+0, z[1]+0)
					if c.Through > 0 {
						fmt.Fprintf(&b, ", %.1f right across", c.Through)
					}
					b.WriteString("\n")
				}
			}
			for _, d := range plan.Drills {
				fmt.Fprintf(&b, "drill %s at (%.1f, %.1f) %s %s, pilot %s: %s\n", d.Size, d.At[0], d.At[1], d.Hole, d.When, d.PilotAs, d.Why)
			}
			for _, x := range plan.Problems {
				fmt.Fprintf(&b, "%s: %s\n", x.Severity, x.Message)
			}
		}
		golden := filepath.Join("testdata", strings.TrimSuffix(filepath.Base(f), ".dryfold")+".txt")
		if *update {
			require.NoError(t, os.WriteFile(golden, []byte(b.String()), 0o644))
		}
		want, err := os.ReadFile(golden)
		require.NoError(t, err)
		require.Equal(t, string(want), b.String(), "%s: go test ./fold/cutting -update, and read the difference", golden)
	}
}
