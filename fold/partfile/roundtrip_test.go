package partfile

import (
	"encoding/json"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// seeds for property tests: fixed ones, so that a failure names what to run again.
const seeds = 400

// Read(Write(s)) is s, Write(Read(x)) is stable, and so through a link.
func TestRandomSpecsComeBack(t *testing.T) {
	for seed := uint64(0); seed < seeds; seed++ {
		s := randomSpec(rand.New(rand.NewPCG(seed, 1)))
		require.NoError(t, Check(s), "seed %d", seed)
		out := Write(s)
		require.True(t, json.Valid(out), "seed %d", seed)
		got, err := Read(out)
		require.NoError(t, err, "seed %d\n%s", seed, out)
		require.Equal(t, s, got, "seed %d", seed)
		require.Equal(t, string(out), string(Write(got)), "seed %d", seed)

		small := compact(out)
		require.LessOrEqual(t, len(small), len(out))
		got, err = Read(small)
		require.NoError(t, err, "seed %d\n%s", seed, small)
		require.Equal(t, s, got, "seed %d", seed)

		f, err := Pack(s)
		require.NoError(t, err, "seed %d", seed)
		got, err = Unpack(f)
		require.NoError(t, err, "seed %d", seed)
		require.Equal(t, s, got, "seed %d", seed)
	}
}

// The last point may repeat the first, as a corner or as the end of an arc, and
// the spec is the same as without.
func TestClosedContours(t *testing.T) {
	read := func(outline string) fold.Spec {
		s, err := Read([]byte(`{"dryfold": 1, "name": "x", "units": "mm", "sheet": {"thickness": 1}, "blank": {"outline": ` + outline + `}}`))
		require.NoError(t, err)
		return s
	}
	open := read(`[[0, 0], [10, 0], [10, 10]]`)
	require.Equal(t, open, read(`[[0, 0], [10, 0], [10, 10], [0, 0]]`))
	require.Equal(t, open, read(`[[0, 0], [10, 0], [10, 10], [0, 0], [0, 0]]`))
	require.Equal(t, open, read(`[[0, -0], [10, 0.0e5], [10, 1e1], [-0, 0]]`))

	arc := read(`[[0, 0], [10, 0], {"through": [9, 9], "to": [0, 0]}]`)
	require.Equal(t, fold.Contour{{At: geom.Vec2{0, 0}, Through: &geom.Vec2{9, 9}}, {At: geom.Vec2{10, 0}}}, arc.Outline)
	require.Contains(t, string(Write(arc)), `[0, 0], [10, 0], {"through": [9, 9], "to": [0, 0]}`)

	// The other ways to say nothing.
	require.Equal(t, open, read(`[[0, 0], [10, 0], [10, 10]], "cutouts": [], "holes": [], "bends": [], "panels": []`))
}

// The exact bytes of a whole part, every field used.
func TestWriteLayout(t *testing.T) {
	k, grain, gap, to, lip, rt, set, radius := 0.42, -45.0, 0.3, 120.0, 0.25, 1.5, 94.5, 0.05
	s := fold.Spec{
		Name: "Edge \"A\"", Notes: "two\nlines", Units: fold.Inch,
		Sheet:   fold.Sheet{Thickness: 0.04, Metal: "mild steel", K: &k, KFrom: "last year", Rule: "din", Grain: &grain, Good: "down", Lip: &lip},
		Outline: fold.Contour{{At: geom.Vec2{0, 0}}, {At: geom.Vec2{4, 0}}, {At: geom.Vec2{0, 3}, Through: &geom.Vec2{3, 3}}},
		Cutouts: []fold.Contour{{{At: geom.Vec2{1, 1}}, {At: geom.Vec2{1.5, 1}}, {At: geom.Vec2{1, 1.25}}}},
		Holes:   []fold.Hole{{At: geom.Vec2{2, 1}, Diameter: 0.266}},
		Bends: []fold.BendSpec{{Name: "hem", Line: [2]geom.Vec2{{0, 0.5}, {4, 0.5}}, Angle: 180, Radius: 1e-7, Up: true},
			{Line: [2]geom.Vec2{{0, 2}, {4, 2}}, Angle: 90, Radius: 0.1, RadiusFrom: "nose"}},
		Panels: []fold.PanelName{{Name: "floor", At: geom.Vec2{0.5, 1}}},
		Base:   "floor",
		Seams:  []fold.SeamSpec{{Name: "s", A: geom.Vec2{0, 1}, B: geom.Vec2{1, 0}, Gap: &gap, Join: "tack", Open: true}},
		Order:  []fold.Step{{Bends: []string{"hem"}, To: &to}, {Bends: []string{"hem", "bend 2"}}},
		Joins:  []fold.JoinSpec{{Way: "weld", Process: "short arc", Widest: &gap}, {Seam: "s", Way: "rivet"}},
		Errors: fold.ErrorSpec{AngleClass: "m", Cut: &radius, Line: &lip, Thickness: &radius, K: &radius},
		AsCut:  []fold.CutSize{{From: geom.Vec2{0, 1}, To: geom.Vec2{4, 1}, Is: 4.02}},
		Struck: []fold.StruckLine{{Line: [2]geom.Vec2{{0, 2.5}, {4, 2.5}}}},
		Metals: []metal.Own{{Name: "mild steel", Like: "Mild steel", Density: 7850, Modulus: 200, Yield: [2]float64{180, 220}, LeastRT: &rt, K: &k, Note: "slip"}},
		Tests: []metal.Strip{{Name: "one", Metal: "mild steel", Brake: "finger", Thickness: 0.04, Length: 4, Legs: [2]float64{2, 2.06}, Inside: false,
			Angle: 90, Set: &set, Radius: &radius, Nose: 0.03}, {Thickness: 0.04, Length: 4, Legs: [2]float64{2, 2}, Inside: true, Angle: 60}},
		Price: fold.Price{PerKg: 2, PerSheet: 30.5, Sheet: [2]float64{96, 48}, PerHour: 40, Hours: 0.75, Currency: "CAD"},
	}
	require.NoError(t, Check(s))
	require.Equal(t, `{
  "dryfold": 1,
  "name": "Edge \"A\"",
  "notes": "two\nlines",
  "units": "in",
  "sheet": {"thickness": 0.04, "metal": "mild steel", "k": 0.42, "k_from": "last year", "rule": "din", "grain": -45, "good": "down", "shortest_lip": 0.25},
  "blank": {
    "outline": [
      [0, 0], [4, 0], {"through": [3, 3], "to": [0, 3]}
    ],
    "cutouts": [
      [
        [1, 1], [1.5, 1], [1, 1.25]
      ]
    ],
    "holes": [
      {"at": [2, 1], "diameter": 0.266}
    ],
    "bends": [
      {"name": "hem", "line": [[0, 0.5], [4, 0.5]], "angle": 180, "radius": 1e-07, "way": "up"},
      {"line": [[0, 2], [4, 2]], "angle": 90, "radius": 0.1, "radius_from": "nose", "way": "down"}
    ],
    "panels": [
      {"name": "floor", "at": [0.5, 1]}
    ]
  },
  "base": "floor",
  "seams": [
    {"name": "s", "a": [0, 1], "b": [1, 0], "gap": 0.3, "join": "tack", "open": true}
  ],
  "order": [
    {"bend": "hem", "to": 120},
    ["hem", "bend 2"]
  ],
  "joins": [
    {"way": "weld", "process": "short arc", "widest": 0.3},
    {"seam": "s", "way": "rivet"}
  ],
  "errors": {"angle_class": "m", "cut": 0.05, "line": 0.25, "thickness": 0.05, "k": 0.05},
  "as_cut": [
    {"from": [0, 1], "to": [4, 1], "is": 4.02}
  ],
  "struck": [
    {"line": [[0, 2.5], [4, 2.5]]}
  ],
  "metals": [
    {"name": "mild steel", "like": "Mild steel", "density": 7850, "modulus_gpa": 200, "yield_mpa": [180, 220], "least_radius_t": 1.5, "k": 0.42, "note": "slip"}
  ],
  "tests": [
    {"name": "one", "metal": "mild steel", "brake": "finger", "thickness": 0.04, "length": 4, "legs": [2, 2.06], "angle": 90, "set": 94.5, "radius": 0.05, "nose": 0.03},
    {"thickness": 0.04, "length": 4, "legs": [2, 2], "inside": true, "angle": 60}
  ],
  "price": {"per_kg": 2, "per_sheet": 30.5, "sheet": [96, 48], "per_hour": 40, "hours": 0.75, "currency": "CAD"}
}
`, string(Write(s)))
}
