package shape

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
	"dryfold/fold/solid"
)

// lightCase is a box with one kind of relief.
type lightCase struct {
	kind         sizes.ReliefKind
	size, radius float64
	close        sizes.Closing
}

var lightCases = []lightCase{
	{sizes.Snipped, 0, 1, sizes.Edges}, {sizes.Drilled, 6, 1, sizes.Edges}, {sizes.Drilled, 4, 2, sizes.Mitre}, {sizes.Sawn, 2, 1, sizes.Edges}, {sizes.Bare, 0, 2, sizes.Edges},
}

// made is the box, its corner of front and right, and the hole there.
func (c lightCase) made(t *testing.T) (m Made, corner int, h lightHole) {
	t.Helper()
	s, ok := StarterByID("box")
	require.True(t, ok)
	spec := s.Make(fold.MM)
	spec.Sizes.Radius = sizes.Is(c.radius)
	spec.Sizes.Relief = sizes.Relief{Kind: c.kind}
	if c.size > 0 {
		spec.Sizes.Relief.Size = sizes.Is(c.size)
	}
	spec.Sizes.Corners = []sizes.Corner{{A: "front", B: "right", Close: c.close}}
	m, wrong := Make(spec)
	require.Empty(t, wrong)
	for m.Corners[corner].A != "front" || m.Corners[corner].B != "right" {
		corner++
	}
	seams, _ := m.Part.MeasureSeams()
	for _, seam := range seams {
		if seam.Name == m.Corners[corner].Name {
			h, ok = newLightHole(m.Part, seam.Seam)
		}
	}
	require.True(t, ok)
	return m, corner, h
}

// What a place in a hole keeps clear of is what it keeps clear of among the kernel's solids, whose bend zones are of flat facets.
func TestLightIsAmongTheSolids(t *testing.T) {
	for k, c := range lightCases {
		_, _, h := c.made(t)
		var pieces []solid.Convex
		for _, b := range h.bodies {
			pieces = append(pieces, h.pose.Solid(b)...)
		}
		r := rand.New(rand.NewPCG(uint64(k), 7))
		looked := 0
		for looked < 40 {
			at := h.mid
			for _, axis := range []geom.Vec3{h.x, h.y, h.axis} {
				at = at.Add(axis.Mul((2*r.Float64() - 1) * h.half / 2))
			}
			want := math.Inf(1)
			ball := 1e-4 // a small cube, for a point
			cube := solid.Prism(geom.Loop{{-ball, -ball}, {ball, -ball}, {ball, ball}, {-ball, ball}}, -ball, ball,
				geom.Frame{X: geom.Vec3{1, 0, 0}, Y: geom.Vec3{0, 1, 0}, Z: geom.Vec3{0, 0, 1}, O: at})
			for i := range pieces {
				want = min(want, solid.Distance(&cube, &pieces[i]).D)
			}
			if want <= 0.01 || want > h.half/2 {
				require.Less(t, min(h.clear(at), want), max(h.half, 0.02))
				continue
			}
			looked++
			require.InDelta(t, want, h.clear(at), 0.005, "%+v at %v", c, at) // facets and strips are within 0.001 and 0.004, the cube stands out by 0.0002
		}
	}
}

// A light hole is as wide as the widest way through it, over a grid much finer than the one that it is sought by; and wider
// than the seam.
func TestLightIsTheWidestWay(t *testing.T) {
	for _, c := range lightCases {
		m, k, h := c.made(t)
		const n = 20
		way := math.Inf(1)
		for _, q := range h.way(n) {
			way = min(way, 2*q.clear)
		}
		got := m.LightAt(k)
		t.Logf("%v: %.3f, on a grid %.3f, gap %.3f", c, got, way, m.Corners[k].Least)
		require.GreaterOrEqual(t, got, way-lightRound, "%v: places of a grid can only be worse", c)
		require.InDelta(t, way, got, 2*h.half/n, "%v", c)
		require.Greater(t, got, m.Corners[k].Least)
		require.Equal(t, got, m.Corners[k].Light)
	}
}

// Where a hole is not one that is measured, nothing is told of it.
func TestNoLight(t *testing.T) {
	m, k, _ := lightCases[0].made(t)
	m.Corners[k].Close = sizes.Lap
	require.Zero(t, m.LightAt(k))
	m.Corners[k].Close, m.Corners[k].Measured = sizes.Edges, false
	require.Zero(t, m.LightAt(k))
}
