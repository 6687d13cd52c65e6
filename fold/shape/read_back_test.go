package shape_test

// This file reads joggles, hems and holes off the folded solids: their faces' planes, not the formulas they were made by.

import (
	"math"
	"math/rand/v2"
	"testing"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"

	"github.com/stretchr/testify/require"
)

// A wall that leans, with a joggle, a hem and a hole: as deep, as high, as wide and where it was said.
func TestMakeReadBackMore(t *testing.T) {
	seed := *makeSeed
	if seed == 0 {
		seed = rand.Uint64()
	}
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 4))
	log := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	for k := range 60 {
		thick := log(0.4, 4)
		faces := sizes.Faces(r.IntN(2))
		lean, x, y := 60+60*r.Float64(), log(30*thick, 60*thick), log(8*thick, 14*thick)
		depth, at, high := log(4*thick, 8*thick), log(18*thick, 25*thick), log(50*thick, 70*thick)
		reach, clear := log(8*thick, 20*thick), log(0.2*thick, 2*thick)
		down := r.IntN(3) == 0
		form := &sizes.Form{Faces: faces, Radius: sizes.Is(thick), Base: sizes.Base{Wide: sizes.Is(100 * thick), Long: sizes.Is(80 * thick)},
			Flanges: []sizes.Flange{
				{Name: "front", On: "floor", Side: "front", Height: sizes.Is(high), Angle: sizes.Is(lean), Down: down, Joggle: &sizes.Joggle{At: sizes.Is(at), Depth: sizes.Is(depth), Out: r.IntN(2) == 0}},
				{Name: "back", On: "floor", Side: "back", Height: sizes.Is(high), Angle: sizes.Is(180 - lean), Down: down},
				{Name: "hem", On: "back", Height: sizes.Is(reach), Down: r.IntN(2) == 0, Hem: &sizes.Hem{Clear: sizes.Is(clear)}},
			},
			Holes: []sizes.Hole{{On: "front", X: sizes.Is(x), Y: sizes.Is(y), Wide: sizes.Is(thick)}}}
		m := madeOf(t, fold.Spec{Sheet: fold.Sheet{Thickness: thick}, Sizes: form})
		p := m.Part
		pose := p.Pose(p.Finished())
		panel := map[string]int{}
		for i := range p.Panels {
			panel[p.Panels[i].Name] = i
		}
		spread := func(name string, dir geom.Vec3) (lo, hi float64) {
			lo, hi = math.Inf(1), math.Inf(-1)
			for _, v := range p.Panels[panel[name]].Region.Outer {
				for _, z := range []float64{0, thick} {
					d := dir.Dot(pose.PanelPoint(panel[name], v, z))
					lo, hi = min(lo, d), max(hi, d)
				}
			}
			return lo, hi
		}
		up := geom.Vec3{0, 0, 1}
		if down {
			up = up.Mul(-1)
		}
		// The base's face that heights run from: outside it is the one away from the walls.
		zb := min(up[2]*0, up[2]*thick)
		if faces == sizes.Inside {
			zb += thick
		}

		front, beyond := pose.Panels[panel["front"]], pose.Panels[panel["front beyond"]]
		require.InDelta(t, 1, front.Z.Dot(beyond.Z), 1e-12, "part %d", k)
		require.InDelta(t, depth, math.Abs(front.Z.Dot(beyond.Point(geom.Vec3{}).Sub(front.Point(geom.Vec3{})))), 1e-9, "part %d: joggle's depth", k)
		_, top := spread("front beyond", up)
		require.InDelta(t, high, top-zb, 1e-9, "part %d: height with a joggle", k)

		back, hem := pose.Panels[panel["back"]], pose.Panels[panel["hem"]]
		require.InDelta(t, clear+thick, math.Abs(back.Z.Dot(hem.Point(geom.Vec3{0, 0, thick}).Sub(back.Point(geom.Vec3{})))), 1e-9, "part %d: hem's gap", k)
		along := hem.Vector(geom.Vec3{p.Bends[bendOf(p, "hem")].N[0], p.Bends[bendOf(p, "hem")].N[1], 0}) // from the fold to the hem's edge
		axis, _, _ := pose.ZoneAxis(bendOf(p, "hem"))
		_, far := spread("hem", along)
		require.InDelta(t, reach, far-along.Dot(axis)+clear/2+thick, 1e-9, "part %d: hem's reach", k)

		// The hole's middle, on the face that heights are measured to.
		h := m.Spec.Holes[0]
		z := 0.0
		if (faces == sizes.Outside) == down {
			z = thick
		}
		mid := pose.PanelPoint(panel["front"], h.At, z)
		require.InDelta(t, y, up.Dot(mid)-zb, 1e-9, "part %d: hole's height", k)
		lo, _ := spread("front", geom.Vec3{1, 0, 0})
		require.InDelta(t, x, mid[0]-lo, 1e-9, "part %d: hole from the start", k)
	}
}

func bendOf(p *fold.Part, name string) int {
	for i := range p.Bends {
		if p.Bends[i].Name == name {
			return i
		}
	}
	return -1
}
