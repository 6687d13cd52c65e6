package fold_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// otherNumbers is a Spec with other radii and another K.
func otherNumbers(r *rand.Rand, s fold.Spec) fold.Spec {
	k := foldtest.Uniform(r, 0.3, 0.5)
	s.Sheet.K = &k
	s.Bends = slices.Clone(s.Bends)
	for i := range s.Bends {
		s.Bends[i].Radius = max(0, s.Bends[i].Radius+foldtest.Uniform(r, -0.5, 0.5)*s.Sheet.Thickness)
	}
	return s
}

// A chain's panels, laid out anew, keep their outside sizes: from the outside sharp (past 90 degrees the
// outermost tangent plane) at one end to that at the other.
func TestRedevelopChains(t *testing.T) {
	done := 0
	forSeeds(t, 60, func(t *testing.T, r *rand.Rand) {
		p := built(t, foldtest.RandomChain(r).Spec())
		made, err := p.Redevelop(otherNumbers(r, p.Spec))
		if err != nil {
			return
		}
		q := fold.Build(made)
		if !q.Foldable { // a short panel is eaten up
			return
		}
		done++
		was, is := acrossSizes(p), acrossSizes(q)
		for i := range was {
			require.InDelta(t, was[i], is[i], 1e-9*size(p))
		}
	})
	if *seedFlag == 0 {
		require.Greater(t, done, 20)
	}
}

// acrossSizes are the panels' outside sizes, along the chain.
func acrossSizes(p *fold.Part) []float64 {
	out := make([]float64, len(p.Panels))
	order := make([]int, len(p.Panels))
	for k := range p.Panels {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, v := range p.Panels[k].Region.Outer {
			lo, hi = min(lo, v[0]), max(hi, v[0])
		}
		out[k], order[k] = hi-lo, k
		for i := range p.Bends {
			if b := &p.Bends[i]; b.A == k || b.B == k {
				s, _ := b.Setback(p.Thickness)
				out[k] += s
			}
		}
	}
	slices.SortFunc(order, func(a, b int) int {
		return int(math.Copysign(1, p.Panels[a].Label[0]-p.Panels[b].Label[0]))
	})
	sorted := make([]float64, len(out))
	for i, k := range order {
		sorted[i] = out[k]
	}
	return sorted
}

// flatPan is a floor with four square walls, reliefs cut 2 mm past the floor's corners.
func flatPan() fold.Spec {
	wall := foldtest.Wall{Inset: 2, InsetEnd: 2, Height: 40, Angle: 90, Radius: 1.5, Up: true}
	return foldtest.Tray{Thickness: 1, K: 0.42, Floor: geom.Loop{{0, 0}, {200, 0}, {200, 120}, {0, 120}},
		Walls: []foldtest.Wall{wall, wall, wall, wall}}.Spec()
}

// A pan keeps its finished box; its blank changes by two deductions each way:
// deduction = 2 (R+T) - pi/2 (R + K T) (FAA-H-8083-31 ch. 4, setback and allowance).
func TestRedevelopPan(t *testing.T) {
	p := built(t, flatPan())
	next := p.Spec
	next.Bends = slices.Clone(next.Bends)
	for i := range next.Bends {
		next.Bends[i].Radius = 2
	}
	k := 0.5
	next.Sheet.K = &k
	made, err := p.Redevelop(next)
	require.NoError(t, err)
	q := built(t, made)
	was, is := p.Pose(p.Finished()).Box().Size(), q.Pose(q.Finished()).Box().Size()
	deduction := func(r, k float64) float64 { return 2*(r+1) - math.Pi/2*(r+k) }
	for i := range was {
		require.InDelta(t, was[i], is[i], 1e-9)
	}
	for i := range 2 {
		require.InDelta(t, p.Blank.Box.Size()[i]-2*(deduction(2, .5)-deduction(1.5, .42)), q.Blank.Box.Size()[i], 1e-9)
	}
	back, err := q.Redevelop(func() fold.Spec {
		s := made
		s.Bends = slices.Clone(s.Bends)
		s.Sheet.K = p.Spec.Sheet.K
		for i := range s.Bends {
			s.Bends[i].Radius = 1.5
		}
		return s
	}())
	require.NoError(t, err)
	for i, x := range built(t, back).Blank.Box.Size() {
		require.InDelta(t, p.Blank.Box.Size()[i], x, 1e-9)
	}
	require.Empty(t, q.Troubles, "the reliefs have gone with the tangent lines")
}

// Random parts laid out anew keep their panels as they are but for what the tangent lines take: every wall's top
// stays as far from its bend's outside sharp as it was.
func TestRedevelopTrays(t *testing.T) {
	done := 0
	forSeeds(t, 60, func(t *testing.T, r *rand.Rand) {
		p := fold.Build(foldtest.RandomTray(r))
		if !p.Foldable {
			return
		}
		made, err := p.Redevelop(otherNumbers(r, p.Spec))
		if err != nil {
			return
		}
		q := fold.Build(made)
		if !q.Foldable || len(q.Panels) != len(p.Panels) {
			return
		}
		for i := range p.Bends {
			a, b := &p.Bends[i], &q.Bends[i]
			if a.B < 0 || p.Panels[a.B].Name != q.Panels[b.B].Name {
				return // another wall may be the larger of two of a name
			}
			if slices.ContainsFunc(p.Bends, func(x fold.Bend) bool { return x.A == a.B }) {
				continue // has a setback at its top, too
			}
			sa, _ := a.Setback(p.Thickness)
			sb, _ := b.Setback(q.Thickness)
			require.InDelta(t, reach(p, a)+sa, reach(q, b)+sb, 1e-6, a.Name)
		}
		done++
	})
	if *seedFlag == 0 {
		require.Greater(t, done, 20)
	}
}

// reach is how far a bend's swinging panel goes from its tangent line.
func reach(p *fold.Part, b *fold.Bend) float64 {
	far := 0.0
	for _, v := range p.Panels[b.B].Region.Outer {
		_, s := b.Coord(v)
		far = max(far, s-b.Allowance)
	}
	return far
}

// What doubt is said to be worth is the blank's real change when the number is set, and the
// finished part's when the blank is kept.
func TestWorthIsTheRealChange(t *testing.T) {
	s := flatPan()
	s.Sheet.K, s.Sheet.Metal = nil, "Mild steel"
	p := built(t, s)
	list := p.Check().Worth
	require.NotEmpty(t, list)
	seen := map[string]bool{}
	for i, w := range list {
		require.True(t, w.Known, w.If)
		if i > 0 {
			require.GreaterOrEqual(t, list[i-1].Most, w.Most, "biggest first")
		}
		next := s
		next.Bends = slices.Clone(s.Bends)
		switch w.If {
		case "R 2 mm instead of 1.5 mm", "R 1 mm instead of 1.5 mm":
			for k := range next.Bends {
				next.Bends[k].Radius = map[bool]float64{true: 2, false: 1}[w.If[2] == '2']
			}
		case "DIN 6935 instead of FAA-H-8083-31":
			next.Sheet.Rule = "din"
		case "Machinery's Handbook instead of FAA-H-8083-31":
			next.Sheet.Rule = "machinery"
		case "K by R/T instead of FAA-H-8083-31":
			next.Sheet.Rule = "table"
		default:
			require.Equal(t, "k", w.About, w.If)
			next.Sheet.K = &w.K
		}
		seen[w.About] = true
		made, err := p.Redevelop(next)
		require.NoError(t, err)
		q, kept := built(t, made), built(t, next)
		for k := range 2 {
			require.InDelta(t, w.Blank[k], q.Blank.Box.Size()[k]-p.Blank.Box.Size()[k], 1e-9, w.If)
		}
		for k := range 3 {
			require.InDelta(t, w.Finished[k], kept.Check().Finished.Size[k]-p.Check().Finished.Size[k], 1e-9, w.If)
		}
		// By another way: two bends across each side, each by the change of its deduction.
		a, b := p.Check().Bends[0], q.Check().Bends[0]
		require.InDelta(t, -2*(b.Deduction-a.Deduction), w.Blank[0], 1e-9, w.If)
	}
	require.Len(t, seen, 3, "radius, rule and k")
}
