package fold_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// The other hand's part, finished, is the part's mirror image: every corner of every panel, on both faces, in space.
func TestMirrored(t *testing.T) {
	const seed = 6
	r := foldtest.Rand(seed)
	built := 0
	for i := range 60 {
		s := foldtest.Random(r)
		if i%3 == 0 {
			s = foldtest.RandomTray(r)
		}
		p := fold.Build(s)
		if !p.Foldable {
			continue
		}
		// Names and base as they were found, so that both hold the same panel still.
		s.Panels = nil
		for _, q := range p.Panels {
			s.Panels = append(s.Panels, fold.PanelName{Name: q.Name, At: q.Label.Mul(1 / s.Units.Scale())})
		}
		s.Base = p.Panels[p.Base].Name
		q := fold.Build(s.Mirrored())
		require.True(t, q.Foldable, "seed %d, part %d", seed, i)
		require.Len(t, q.Panels, len(p.Panels))
		built++
		was, is := p.Pose(p.Finished()), q.Pose(q.Finished())
		for k, panel := range p.Panels {
			other := -1
			for j := range q.Panels {
				if q.Panels[j].Name == fold.OtherHand(panel.Name) {
					other = j
				}
			}
			require.GreaterOrEqual(t, other, 0, panel.Name)
			for _, v := range panel.Region.Outer {
				for _, z := range []float64{0, p.Thickness} {
					a, b := was.PanelPoint(k, v, z), is.PanelPoint(other, geom.Vec2{-v[0], v[1]}, z)
					assert.True(t, foldtest.Near(geom.Vec3{-a[0], a[1], a[2]}, b, 1e-6), "seed %d, part %d: %v is at %v", seed, i, a, b)
				}
			}
		}
		twice := s.Mirrored().Mirrored()
		assert.Equal(t, s.Outline, twice.Outline)
		assert.Equal(t, s.Bends, twice.Bends)
		assert.Equal(t, s.Name, twice.Name)
	}
	assert.Greater(t, built, 20)
}

// Names are exchanged as words, and wherever they are named.
func TestMirroredNames(t *testing.T) {
	for a, b := range map[string]string{"left rear": "right rear", "Left": "Right", "RIGHT, left": "LEFT, right", "leftover": "leftover", "bright": "bright",
		"hook-right.2": "hook-left.2", "": "", "Left \xff right é left": "Right \xff left é right"} {
		assert.Equal(t, b, fold.OtherHand(a))
		assert.Equal(t, a, fold.OtherHand(b))
	}
	k := 0.4
	gap, grain := 0.5, 30.0
	s := fold.Spec{Name: "left ear", Sheet: fold.Sheet{Thickness: 1, K: &k, Grain: &grain, Good: "up"}, Outline: foldtest.Points(0, 0, 100, 0, 100, 50, 0, 50),
		Bends:  []fold.BendSpec{{Name: "left", Line: [2]geom.Vec2{{20, 0}, {20, 50}}, Angle: 90, Radius: 1, Up: true}, {Name: "right", Line: [2]geom.Vec2{{70, 0}, {70, 50}}, Angle: 60, Radius: 1}},
		Panels: []fold.PanelName{{Name: "floor", At: geom.Vec2{50, 20}}, {Name: "left", At: geom.Vec2{5, 20}}},
		Seams:  []fold.SeamSpec{{Name: "left seam", A: geom.Vec2{0, 10}, B: geom.Vec2{100, 10}, Gap: &gap}},
		Joins:  []fold.JoinSpec{{Seam: "left seam", Way: "weld"}}, Order: []fold.Step{{Bends: []string{"right"}}, {Bends: []string{"left"}}}, Base: "floor",
		AsCut: []fold.CutSize{{}}, Struck: []fold.StruckLine{{}}}
	m := s.Mirrored()
	assert.Equal(t, "right ear", m.Name)
	assert.Equal(t, "right", m.Bends[0].Name)
	assert.Equal(t, geom.Vec2{-20, 0}, m.Bends[0].Line[0])
	assert.True(t, m.Bends[0].Up)
	assert.Equal(t, "right", m.Panels[1].Name)
	assert.Equal(t, "right seam", m.Seams[0].Name)
	assert.Equal(t, "right seam", m.Joins[0].Seam)
	assert.Equal(t, []fold.Step{{Bends: []string{"left"}}, {Bends: []string{"right"}}}, m.Order)
	assert.Equal(t, -30.0, *m.Sheet.Grain)
	assert.Equal(t, "up", m.Sheet.Good)
	assert.Empty(t, m.AsCut)
	assert.Empty(t, m.Struck)
	assert.Equal(t, "left", s.Bends[0].Name, "the part itself is left as it was")
	assert.True(t, fold.Build(m).Foldable)
}

// Which parts need no other hand: from parts whose symmetry is plain.
func TestBothHands(t *testing.T) {
	k := 0.4
	bend := func(x, angle float64, up bool) fold.BendSpec {
		return fold.BendSpec{Line: [2]geom.Vec2{{x, 0}, {x, 50}}, Angle: angle, Radius: 1, Up: up}
	}
	plate := foldtest.Points(0, 0, 100, 0, 100, 50, 0, 50)
	for name, c := range map[string]struct {
		outline fold.Contour
		bends   []fold.BendSpec
		holes   []fold.Hole
		good    string
		want    bool
	}{
		"channel":                        {plate, []fold.BendSpec{bend(20, 90, true), bend(80, 90, true)}, nil, "", true},
		"uneven channel, still mirrored": {plate, []fold.BendSpec{bend(20, 90, true), bend(70, 60, true)}, nil, "up", true},
		"a hole off the middle":          {plate, []fold.BendSpec{bend(20, 90, true), bend(70, 60, true)}, []fold.Hole{{At: geom.Vec2{50, 10}, Diameter: 5}}, "", false},
		"two holes, one mirror":          {plate, []fold.BendSpec{bend(20, 90, true), bend(80, 90, true)}, []fold.Hole{{At: geom.Vec2{40, 10}, Diameter: 5}, {At: geom.Vec2{60, 10}, Diameter: 5}}, "", true},
		"two holes of two sizes":         {plate, []fold.BendSpec{bend(20, 90, true), bend(80, 90, true)}, []fold.Hole{{At: geom.Vec2{40, 10}, Diameter: 5}, {At: geom.Vec2{60, 10}, Diameter: 6}}, "", false},
		// A Z, leaning ends: turned over it lies on itself, up on down, but its good face then lies the other way.
		"leaning Z":                     {foldtest.Points(0, 0, 100, 20, 100, 70, 0, 50), []fold.BendSpec{{Line: [2]geom.Vec2{{20, 0}, {20, 80}}, Angle: 90, Radius: 1, Up: true}, {Line: [2]geom.Vec2{{80, 0}, {80, 80}}, Angle: 90, Radius: 1}}, nil, "", true},
		"leaning Z with a good face":    {foldtest.Points(0, 0, 100, 20, 100, 70, 0, 50), []fold.BendSpec{{Line: [2]geom.Vec2{{20, 0}, {20, 80}}, Angle: 90, Radius: 1, Up: true}, {Line: [2]geom.Vec2{{80, 0}, {80, 80}}, Angle: 90, Radius: 1}}, nil, "up", false},
		"leaning channel":               {foldtest.Points(0, 0, 100, 20, 100, 70, 0, 50), []fold.BendSpec{{Line: [2]geom.Vec2{{20, 0}, {20, 80}}, Angle: 90, Radius: 1, Up: true}, {Line: [2]geom.Vec2{{80, 0}, {80, 80}}, Angle: 90, Radius: 1, Up: true}}, nil, "", false},
		"flat, turned over":             {foldtest.Points(0, 0, 100, 0, 90, 50, 0, 30), nil, nil, "", true},
		"flat, with a good face":        {foldtest.Points(0, 0, 100, 0, 90, 50, 0, 30), nil, nil, "down", false},
		"mirrored about a leaning line": {foldtest.Points(0, 0, 60, 0, 60, 20, 20, 60, 0, 60), nil, nil, "up", true},
	} {
		p := fold.Build(fold.Spec{Name: name, Sheet: fold.Sheet{Thickness: 1, K: &k, Good: c.good}, Outline: c.outline, Bends: c.bends, Holes: c.holes})
		require.True(t, p.Foldable, name)
		alike, known := p.BothHands()
		assert.True(t, known, name)
		assert.Equal(t, c.want, alike, name)
		// Whatever it is, so is its other hand, and so it is however it lies on the bench.
		other, _ := fold.Build(p.Spec.Mirrored()).BothHands()
		assert.Equal(t, c.want, other, name)
		turned, _ := fold.Build(foldtest.Map(p.Spec, foldtest.Move(0.7, false, geom.Vec2{3, 4}))).BothHands()
		assert.Equal(t, c.want, turned, name)
	}
}
