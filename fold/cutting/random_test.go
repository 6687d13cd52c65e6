package cutting

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/shape"
	"dryfold/fold/sizes"
)

func randomTools(r *rand.Rand) sizes.Tools {
	return sizes.Tools{NoSaw: r.IntN(3) == 0, NoSnips: r.IntN(4) == 0, ShearsLength: 400 * float64(r.IntN(3)), Nibbler: 3 * float64(r.IntN(2)), Disc: 1.2 * float64(r.IntN(2))}
}

// metal reports whether a point lies on the blank, by the even-odd rule on its chords.
func metal(p *fold.Part, at geom.Vec2) bool {
	return geom.Region{Outer: p.Outline, Holes: p.Voids}.Contains(at)
}

// offRim is how far a point lies from the nearest chord of the blank's edge.
func offRim(p *fold.Part, at geom.Vec2) float64 {
	d := math.Inf(1)
	for _, l := range append([]geom.Loop{p.Outline}, p.Voids...) {
		for i, a := range l {
			x, _ := geom.SegmentDistance(at, a, l[(i+1)%len(l)])
			d = min(d, x)
		}
	}
	return d
}

// check holds a plan against what must be true of any.
func check(t *testing.T, p *fold.Part, tools sizes.Tools, plan Plan) {
	t.Helper()
	// Every edge is in exactly one step, and made by a tool of its own list that is owned.
	in := make([]int, len(plan.Edges))
	owned := map[Tool]bool{Shears: tools.ShearsLength > 0, LeftSnips: !tools.NoSnips, RightSnips: !tools.NoSnips, StraightSnips: !tools.NoSnips,
		Nibbler: tools.Nibbler > 0, Saw: !tools.NoSaw, Disc: tools.Disc > 0, Drill: true, File: true}
	for _, s := range plan.Steps {
		for _, c := range s.Cuts {
			e := &plan.Edges[c.Edge]
			in[c.Edge]++
			require.Equal(t, s.Number, e.Step)
			require.Contains(t, s.Tools, c.Tool)
			if s.Kind == NoTool {
				require.Empty(t, e.Tools)
				continue
			}
			require.Equal(t, e.Tools[0], c.Tool)
			require.True(t, owned[c.Tool], "%v is not owned: %+v", c.Tool, tools)
		}
		for _, d := range s.Drills {
			require.Less(t, d, len(plan.Drills))
		}
	}
	for i, n := range in {
		require.Equal(t, 1, n, "edge %d: %+v", i, plan.Edges[i])
	}
	// The edges are the whole edge: as long as its chords, to within what arcs are longer.
	sum, chords := 0.0, 0.0
	for i := range plan.Edges {
		sum += plan.Edges[i].Length
	}
	for _, l := range append([]geom.Loop{p.Outline}, p.Voids...) {
		for i, a := range l {
			chords += l[(i+1)%len(l)].Sub(a).Len()
		}
	}
	require.GreaterOrEqual(t, sum, chords*(1-1e-9))
	require.LessOrEqual(t, sum, chords*1.02)
	// The waste lies off the blank, the metal on it.
	const step = 0.02 // past the chords' 0.005
	for i := range plan.Edges {
		e := &plan.Edges[i]
		if e.Length < 4*step {
			continue
		}
		if out := e.Mid.Add(e.Out.Mul(step)); offRim(p, out) > step/4 {
			require.False(t, metal(p, out), "edge %d: its waste is metal: %+v", i, e)
		}
		if back := e.Mid.Sub(e.Out.Mul(step)); offRim(p, back) > step/4 {
			require.True(t, metal(p, back), "edge %d: its metal is none: %+v", i, e)
		}
	}
	// No snips at an edge shorter than their tips that ends in an inside corner.
	for _, s := range plan.Steps {
		for _, c := range s.Cuts {
			e := &plan.Edges[c.Edge]
			if !c.Tool.Snips() || e.Contour > 0 || e.Arc || e.Whole || e.Length >= 4 {
				continue
			}
			before, after := &plan.Edges[e.Prev], &plan.Edges[e.Next]
			way := e.B.Sub(e.A).Normalize()
			require.GreaterOrEqual(t, geom.Cross2(before.Way(e.A), way), -0.1, "%v at %+v", c.Tool, e)
			require.GreaterOrEqual(t, geom.Cross2(way, after.Way(e.B)), -0.1, "%v at %+v", c.Tool, e)
		}
	}
	// The insides are out before the outside is touched: till then the sheet holds the blank on all sides.
	lastInside, firstOutside := 0, math.MaxInt
	for i := range plan.Edges {
		e := &plan.Edges[i]
		switch k := plan.Steps[e.Step-1].Kind; {
		case k == Later || k == NoTool:
		case e.Contour > 0:
			lastInside = max(lastInside, e.Step)
		case k != Bored:
			firstOutside = min(firstOutside, e.Step)
		}
	}
	require.Less(t, lastInside, firstOutside)
	kinds := []Kind{}
	for _, s := range plan.Steps {
		kinds = append(kinds, s.Kind)
	}
	require.True(t, slices.IsSorted(kinds), "%v", kinds)
	// Shears: nothing of the blank beyond the line; the cut as long as what is left of the piece is there, by cutting the line
	// with the half planes of all cuts before (the plan cuts polygons); and no longer than the shears.
	box := p.Blank.Box
	type half struct{ at, way geom.Vec2 }
	var halves []half
	more := geom.Vec2{plan.Piece[0], plan.Piece[1]}.Sub(box.Size()).Mul(0.5)
	lo, hi := box.Min.Sub(more), box.Max.Add(more)
	halves = append(halves, half{lo, geom.Vec2{1, 0}}, half{hi, geom.Vec2{-1, 0}}, half{lo, geom.Vec2{0, -1}}, half{hi, geom.Vec2{0, 1}})
	for _, s := range plan.Steps {
		if s.Kind != Through {
			continue
		}
		var last half
		for _, c := range s.Cuts {
			e := &plan.Edges[c.Edge]
			h := half{e.A, e.B.Sub(e.A).Normalize()}
			for _, q := range p.Outline {
				require.GreaterOrEqual(t, geom.Cross2(h.way, q.Sub(h.at)), -1e-4, "the shears cut into the blank")
			}
			if c.Through == 0 { // in one line with the last
				require.Less(t, math.Abs(geom.Cross2(last.way, e.A.Sub(last.at)))+math.Abs(geom.Cross2(last.way, e.B.Sub(last.at))), 1e-4)
				continue
			}
			t0, t1 := math.Inf(-1), math.Inf(1)
			for _, g := range halves {
				f, d := geom.Cross2(g.way, h.at.Sub(g.at)), geom.Cross2(g.way, h.way)
				switch {
				case d > 1e-12:
					t0 = max(t0, -f/d)
				case d < -1e-12:
					t1 = min(t1, -f/d)
				}
			}
			require.InDelta(t, t1-t0, c.Through, 1e-4)
			require.LessOrEqual(t, c.Through, tools.ShearsLength+0.02)
			halves, last = append(halves, h), h
		}
	}
	// Left and right hand: the waste lies on that side of the way, where the cut is straight.
	for _, s := range plan.Steps {
		for _, c := range s.Cuts {
			e := &plan.Edges[c.Edge]
			if e.Arc || c.Tool != LeftSnips && c.Tool != RightSnips {
				continue
			}
			way := e.B.Sub(e.A)
			if c.Back {
				way = way.Mul(-1)
			}
			require.Equal(t, c.Tool == LeftSnips, geom.Cross2(way, e.Out) > 0, "%+v", e)
		}
	}
	// Holes that stop a cut take nothing of the blank.
	for _, d := range plan.Drills {
		if d.For != Stop {
			continue
		}
		for k := range 16 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 8)
			require.False(t, metal(p, d.At.Add(geom.Vec2{cos, sin}.Mul(d.Diameter/2*0.999-0.06))), "%+v", d)
		}
	}
	for i, a := range plan.Drills {
		for _, b := range plan.Drills[:i] {
			if a.For == Stop {
				require.Greater(t, a.At.Sub(b.At).Len(), (a.Diameter+b.Diameter)/2)
			}
		}
	}
}

// Random trays and chains, with whatever tools.
func TestRandomPlans(t *testing.T) {
	r := random(t, 1)
	sheared, stops := 0, 0
	for range 150 {
		p := fold.Build(foldtest.Random(r))
		if len(p.Outline) < 3 || slices.ContainsFunc(p.Troubles, func(t fold.Trouble) bool {
			return t.Rule == "blank-overlap" || t.Rule == "voids-meet" || t.Rule == "void-off-sheet"
		}) {
			continue
		}
		tools := randomTools(r)
		plan := Make(p, tools)
		require.NotEmpty(t, plan.Steps)
		check(t, p, tools, plan)
		for _, l := range plan.Steps {
			if l.Kind == Through {
				sheared++
			}
		}
		for _, d := range plan.Drills {
			if d.For == Stop {
				stops++
			}
		}
	}
	require.Greater(t, sheared, 20)
	require.Greater(t, stops, 50)
}

// A mirrored blank is cut with the other hand.
func TestMirrored(t *testing.T) {
	r := random(t, 2)
	hands := 0
	for range 60 {
		s := foldtest.Random(r)
		p := fold.Build(s)
		q := fold.Build(foldtest.Map(s, foldtest.Move(0, true, geom.Vec2{})))
		tools := sizes.Tools{ShearsLength: 300, Nibbler: 3}
		slots := func(p *fold.Part) bool { // of those that lie near each other CheckCut tells the first
			return slices.ContainsFunc(shape.CheckCut(p, tools), func(x shape.Cut) bool { return x.Kind == shape.CutSlot && x.Across[0] >= 0 })
		}
		if len(p.Outline) < 3 || slots(p) || slots(q) {
			continue
		}
		type cut struct {
			long float64
			tool Tool
		}
		list := func(p *fold.Part, swap bool) (out []cut) {
			plan := Make(p, tools)
			for _, e := range plan.Edges {
				if len(e.Tools) < 2 || e.Tools[1] != StraightSnips || e.Tools[0] == Shears { // cut into an inside corner by one hand
					continue
				}
				x := cut{math.Round(e.Length*1e4) / 1e4, e.Tools[0]}
				if swap {
					x.tool = map[Tool]Tool{LeftSnips: RightSnips, RightSnips: LeftSnips}[x.tool]
				}
				out = append(out, x)
			}
			slices.SortFunc(out, func(a, b cut) int {
				if math.Abs(a.long-b.long) > 1e-3 {
					return int(math.Copysign(1, a.long-b.long))
				}
				return int(a.tool - b.tool)
			})
			return out
		}
		a, b := list(p, false), list(q, true)
		require.Len(t, b, len(a))
		for i := range a {
			require.InDelta(t, a[i].long, b[i].long, 1e-3)
			require.Equal(t, a[i].tool, b[i].tool, "%+v", s)
			hands++
		}
	}
	require.Greater(t, hands, 100)
}

// Whatever the blank, there is a plan or none, and each edge of it in one step.
func TestAnything(t *testing.T) {
	require.Empty(t, Make(&fold.Part{}, sizes.Tools{}).Steps)
	require.Empty(t, Make(fold.Build(fold.Spec{}), sizes.Tools{}).Steps)
	r := random(t, 3)
	for range 120 {
		scale := math.Exp2(16*r.Float64() - 8)
		any := func() geom.Vec2 {
			p := geom.Vec2{float64(r.IntN(9)), float64(r.IntN(9))}.Mul(scale)
			if r.IntN(5) == 0 { // slivers
				p = p.Add(geom.Vec2{r.Float64(), r.Float64()}.Mul(scale * 1e-6))
			}
			return p
		}
		contour := func() (c fold.Contour) {
			for range 2 + r.IntN(12) {
				v := fold.Vertex{At: any()}
				if r.IntN(3) == 0 {
					p := any()
					v.Through = &p
				}
				c = append(c, v)
			}
			return c
		}
		s := fold.Spec{Outline: contour(), Units: fold.Units(r.IntN(2)), Sheet: fold.Sheet{Thickness: math.Exp2(6*r.Float64() - 4)}}
		for range r.IntN(3) {
			s.Cutouts = append(s.Cutouts, contour())
		}
		for range r.IntN(4) {
			s.Holes = append(s.Holes, fold.Hole{At: any(), Diameter: math.Exp2(12*r.Float64() - 6)})
		}
		for range r.IntN(3) {
			s.Struck = append(s.Struck, fold.StruckLine{Line: [2]geom.Vec2{any(), any()}})
		}
		s.Price.Sheet = [2]float64{float64(r.IntN(2)) * scale, scale}
		plan := Make(fold.Build(s), randomTools(r))
		seen := map[int]bool{}
		for _, st := range plan.Steps {
			for _, c := range st.Cuts {
				require.False(t, seen[c.Edge], "%v %+v %+v", st.Kind, plan.Edges[c.Edge], s)
				seen[c.Edge] = true
			}
		}
		require.Len(t, seen, len(plan.Edges))
		for _, d := range plan.Drills {
			require.False(t, math.IsNaN(d.At[0]+d.At[1]+d.Diameter+d.Pilot), "%+v", d)
		}
		for _, x := range plan.Problems {
			require.NotEmpty(t, x.Message)
		}
	}
}

// A perforated sheet, a saw-toothed one and a round one of many sides are planned in moments.
func TestLarge(t *testing.T) {
	many := plate(0, 0, 2000, 0, 2000, 1000, 0, 1000)
	for i := range 3000 {
		many.Holes = append(many.Holes, fold.Hole{At: geom.Vec2{10 + 15*float64(i%120), 10 + 12*float64(i/120)}, Diameter: 5})
	}
	teeth := fold.Spec{Sheet: fold.Sheet{Thickness: 1}, Outline: foldtest.Points(0, -50, 20000, -50)}
	for i := 999; i >= 0; i-- {
		x := 20 * float64(i)
		teeth.Outline = append(teeth.Outline, foldtest.Points(x+20, 0, x+10, 15, x, 0)...)
	}
	round := fold.Spec{Sheet: fold.Sheet{Thickness: 1}}
	for i := range 2000 {
		s, c := math.Sincos(float64(i) / 2000 * 2 * math.Pi)
		round.Outline = append(round.Outline, fold.Vertex{At: geom.Vec2{c, s}.Mul(5000)})
	}
	for _, s := range []fold.Spec{many, teeth, round} {
		plan := Make(fold.Build(s), sizes.Tools{ShearsLength: 1e5})
		require.NotEmpty(t, plan.Steps)
		n := 0
		for _, s := range plan.Steps {
			n += len(s.Cuts)
		}
		require.Equal(t, len(plan.Edges), n)
	}
}

func BenchmarkTray(b *testing.B) {
	s := foldtest.RandomTray(foldtest.Rand(7))
	p := fold.Build(s)
	for b.Loop() {
		Make(p, sizes.Tools{ShearsLength: 600})
	}
}
