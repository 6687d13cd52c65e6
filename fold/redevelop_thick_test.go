package fold_test

// This file tests blanks laid out anew for another thickness, by really folding them.

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// otherThickness is a Spec of other numbers and another thickness, half to twice as much.
func otherThickness(r *rand.Rand, s fold.Spec) fold.Spec {
	if r.IntN(2) == 0 {
		s = otherNumbers(r, s)
	}
	s.Sheet.Thickness *= foldtest.LogUniform(r, 0.5, 2)
	return s
}

// Chains of any way folded of another thickness keep the outside size of every panel.
func TestRedevelopThicknessChains(t *testing.T) {
	done := 0
	forSeeds(t, 100, func(t *testing.T, r *rand.Rand) {
		p := built(t, foldtest.RandomChain(r).Spec())
		made, err := p.Redevelop(otherThickness(r, p.Spec))
		if err != nil {
			return
		}
		q := fold.Build(made)
		if !q.Foldable || len(q.Panels) != len(p.Panels) || slices.ContainsFunc(p.Panels, func(x fold.Panel) bool {
			return !slices.ContainsFunc(q.Panels, func(y fold.Panel) bool { return x.Name == y.Name })
		}) { // a short panel is eaten up
			return
		}
		done++
		was, is := outsideSizes(p), outsideSizes(q) // measured on the folded parts
		for k := range was {
			require.InDelta(t, was[k], is[k], 1e-9*size(p), "leg %d", k)
		}
	})
	if *seedFlag == 0 {
		require.Greater(t, done, 40)
	}
}

// The outer face of every wall that stands on a tray's floor, at up to 90 degrees, lies where it lay, and ends as high up.
func TestRedevelopThicknessTrays(t *testing.T) {
	walls := 0
	forSeeds(t, 100, func(t *testing.T, r *rand.Rand) {
		p := fold.Build(foldtest.RandomTray(r))
		if !p.Foldable {
			return
		}
		made, err := p.Redevelop(otherThickness(r, p.Spec))
		if err != nil {
			return
		}
		q := fold.Build(made)
		if !q.Foldable || len(q.Panels) != len(p.Panels) {
			return
		}
		pp, qp := p.Pose(p.Finished()), q.Pose(q.Finished())
		for i := range p.Bends {
			a, b := &p.Bends[i], &q.Bends[i]
			if p.Panels[a.A].Name != "floor" || q.Panels[b.A].Name != "floor" || a.Angle.Degrees() > 90 ||
				p.Panels[a.B].Name != q.Panels[b.B].Name {
				continue
			}
			if slices.ContainsFunc(p.Bends, func(x fold.Bend) bool { return x.A == a.B }) {
				continue // ends at a bend's sharp, not at an edge
			}
			if slices.ContainsFunc(p.Panels[a.B].Edges[0], func(e fold.Edge) bool { return e.Arc }) {
				continue // a round top is drawn anew between ends that go with the corner's faces
			}
			walls++
			end := func(ps fold.Pose, b *fold.Bend) (across, height float64) {
				z := 0.0
				if !b.Up {
					z = ps.Part.Thickness
				}
				at := ps.PanelPoint(b.B, b.Q.Add(b.N.Mul(b.Allowance+reach(ps.Part, b))), z)
				return at.Dot(geom.Vec3{a.N[0], a.N[1], 0}), at[2] - z
			}
			wx, wz := end(pp, a)
			ix, iz := end(qp, b)
			require.InDelta(t, wx, ix, 1e-9*size(p), a.Name)
			require.InDelta(t, wz, iz, 1e-9*size(p), a.Name)
		}
	})
	if *seedFlag == 0 {
		require.Greater(t, walls, 60)
	}
}

// A square pan keeps its outside box in every thickness, its reliefs go with the tangent lines, and back again the
// blank is as large as it was.
func TestRedevelopThicknessPan(t *testing.T) {
	p := built(t, flatPan())
	was := p.Pose(p.Finished()).Box().Size()
	for _, thick := range []float64{0.5, 0.8, 1.25, 1.5} {
		next := p.Spec
		next.Sheet.Thickness = thick
		made, err := p.Redevelop(next)
		require.NoError(t, err)
		require.Equal(t, thick, made.Sheet.Thickness)
		q := built(t, made)
		for i, x := range q.Pose(q.Finished()).Box().Size() {
			require.InDelta(t, was[i], x, 1e-9, thick)
		}
		// deduction = 2 (R+T) - pi/2 (R + K T), FAA-H-8083-31 ch. 4
		deduction := func(th float64) float64 { return 2*(1.5+th) - math.Pi/2*(1.5+.42*th) }
		for i := range 2 {
			require.InDelta(t, p.Blank.Box.Size()[i]-2*(deduction(thick)-deduction(1)), q.Blank.Box.Size()[i], 1e-9, thick)
		}
		next = made
		next.Sheet.Thickness = 1
		back, err := q.Redevelop(next)
		require.NoError(t, err)
		again := built(t, back)
		for i, x := range again.Blank.Box.Size() {
			require.InDelta(t, p.Blank.Box.Size()[i], x, 1e-9)
		}
	}
}

// What can't be laid out anew is refused with the reason.
func TestRedevelopThicknessRefused(t *testing.T) {
	p := built(t, flatPan())
	for thick, says := range map[float64]string{
		0:           "thickness from 0.001 to 1000000 mm",
		math.NaN():  "thickness from",
		math.Inf(1): "thickness from",
		40:          "would take up more of the blank",
	} {
		next := p.Spec
		next.Sheet.Thickness = thick
		_, err := p.Redevelop(next)
		require.ErrorContains(t, err, says)
	}
}

// A pan's corners keep their gaps in every thickness: walls square and leaning, plain, with lips closed by a mitre and with
// hems, measured on the folded part.
func TestRedevelopThicknessKeepsGaps(t *testing.T) {
	made := 0
	forSeeds(t, 40, func(t *testing.T, r *rand.Rand) {
		th := foldtest.LogUniform(r, 0.5, 3)
		sizes := foldtest.PanSizes{
			Length: th * foldtest.LogUniform(r, 100, 400), WidthFront: th * foldtest.LogUniform(r, 100, 400), Depth: th * foldtest.LogUniform(r, 25, 80),
			Outside: true, Thickness: th, Radius: th * foldtest.Uniform(r, 0.5, 2.5), Gap: th * foldtest.Uniform(r, 0.1, 0.8),
			Rim: foldtest.Rim(r.IntN(3)), RimWidth: 12 * th, RimRadius: th / 2,
		}
		sizes.WidthBack = sizes.WidthFront * foldtest.Uniform(r, 0.9, 1)
		if r.IntN(2) == 0 {
			sizes.Lean = foldtest.Uniform(r, 1, 35)
		}
		s, err := foldtest.Pan(sizes)
		if err != nil {
			return // sizes that make no pan
		}
		made++
		p := built(t, s)
		next := p.Spec
		next.Sheet.Thickness *= foldtest.LogUniform(r, 0.6, 1.6)
		laid, err := p.Redevelop(next)
		require.NoError(t, err)
		q := built(t, laid)
		was, is := p.Check().Seams, q.Check().Seams
		require.Len(t, is, len(was))
		for i := range was {
			if strings.Contains(was[i].Name, "hem") {
				continue // lies outside the wall: its ends stay
			}
			require.InDelta(t, was[i].GapMin, is[i].GapMin, 1e-6*th, was[i].Name)
			require.InDelta(t, was[i].GapMax, is[i].GapMax, 1e-6*th, was[i].Name)
		}
	})
	require.Greater(t, made, 20)
}
