package shape

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

func ruleOf(list []fold.Trouble, rule string) []fold.Trouble {
	var out []fold.Trouble
	for _, t := range list {
		if t.Rule == rule {
			out = append(out, t)
		}
	}
	return out
}

// A blank fits its sheet either way round; one that doesn't is told with what is missing.
func TestBlankFits(t *testing.T) {
	for _, c := range []struct {
		w, h  float64
		sheet [2]float64
		short float64 // missing; 0: it fits
	}{
		{100, 60, [2]float64{0, 0}, 0}, {100, 60, [2]float64{100, 60}, 0}, {100, 60, [2]float64{60, 100}, 0}, {100, 60, [2]float64{2000, 60.01}, 0},
		{100, 60, [2]float64{90, 90}, 10}, {100, 60, [2]float64{1000, 50}, 10}, {60, 100, [2]float64{1000, 59.5}, 0.5}, {100, 60, [2]float64{0, 50}, 0},
	} {
		for _, u := range []fold.Units{fold.MM, fold.Inch} {
			k := u.Scale()
			s := rectangle(c.w/k, c.h/k)
			s.Units, s.Sheet.Thickness = u, 1/k
			s.Price.Sheet = [2]float64{c.sheet[0] / k, c.sheet[1] / k}
			got := BlankTroubles(Made{}, fold.Build(s))
			if c.short == 0 {
				require.Empty(t, got, "%+v", c)
				continue
			}
			require.Len(t, got, 1, "%+v", c)
			require.Equal(t, "blank-no-fit", got[0].Rule)
			require.InDelta(t, c.short, *got[0].Have-*got[0].Need, 1e-6)
		}
	}
}

// The area that an outline covers twice: two squares drawn in one line, and random stars against counted points.
func TestAreaTwice(t *testing.T) {
	area, _ := areaTwice(geom.Loop{{0, 0}, {10, 0}, {10, 10}, {0, 10}})
	require.Zero(t, area)
	// A ribbon that runs over itself: 4 wide, crossed by its own other end over 4 by 3.
	area, at := areaTwice(geom.Loop{{0, 0}, {20, 0}, {20, 20}, {8, 20}, {8, -6}, {11, -6}, {11, 17}, {17, 17}, {17, 4}, {0, 4}})
	require.InDelta(t, 12, area, 1e-9)
	require.True(t, at[0] > 8 && at[0] < 11 && at[1] > 0 && at[1] < 4, "%v", at)
	r := cutRand(t, 7)
	for range 10 {
		var l geom.Loop
		for range 4 + r.IntN(5) {
			l = append(l, geom.Vec2{r.Float64(), r.Float64()})
		}
		const n = 300
		count := 0
		for i := range n {
			for j := range n {
				if w := windings(l, geom.Vec2{(float64(i) + 0.5) / n, (float64(j) + 0.5) / n}); w > 1 || w < -1 {
					count++
				}
			}
		}
		area, _ := areaTwice(l)
		require.InDelta(t, float64(count)/n/n, area, 0.02)
	}
	s := plate(geom.Vec2{0, 0}, geom.Vec2{20, 0}, geom.Vec2{20, 20}, geom.Vec2{8, 20}, geom.Vec2{8, -6}, geom.Vec2{11, -6}, geom.Vec2{11, 17}, geom.Vec2{17, 17}, geom.Vec2{17, 4}, geom.Vec2{0, 4})
	got := ruleOf(BlankTroubles(Made{}, fold.Build(s)), "blank-overlap")
	require.Len(t, got, 1)
	require.Equal(t, "The blank lies over itself by 0.12 cm2 in all.", got[0].Message)
}

// A hole that a relief eats is told with how far to move it; moved so, it is clear.
func TestHoleEaten(t *testing.T) {
	st, _ := StarterByID("tray")
	for _, u := range []fold.Units{fold.MM, fold.Inch} {
		s := st.Make(u)
		k := u.Scale()
		s.Sizes.Relief = sizes.Relief{Kind: sizes.Drilled, Size: sizes.Is(12 / k)}
		at := 8.0
		s.Sizes.Holes = []sizes.Hole{{Name: "drain", On: "floor", X: sizes.Is(at / k), Y: sizes.Is(at / k), Wide: sizes.Is(8 / k)}}
		made, problems := Make(s)
		require.Empty(t, problems)
		p := fold.Build(made.Spec)
		got := ruleOf(BlankTroubles(made, p), "hole-eaten")
		require.Len(t, got, 1, "%v", p.Troubles)
		require.Contains(t, got[0].Message, "Hole 1 (drain) reaches ")
		require.Contains(t, got[0].Message, "what is cut away")
		require.Equal(t, "hole 1", got[0].Name)
		// Straight away from the corner.
		at += *got[0].Need/math.Sqrt2 + 0.01
		s.Sizes.Holes[0].X, s.Sizes.Holes[0].Y = sizes.Is(at/k), sizes.Is(at/k)
		made, problems = Make(s)
		require.Empty(t, problems)
		p = fold.Build(made.Spec)
		require.Empty(t, ruleOf(p.Troubles, "void-off-sheet"))
		require.Empty(t, BlankTroubles(made, p))
		require.Empty(t, ruleOf(CutTroubles(CheckCut(p, sizes.Tools{})), "cut-sliver"))
	}
}

// A panel that is hardly there is told; the demo starters have none, nor any other trouble of their blanks.
func TestPanelVanishes(t *testing.T) {
	s := rectangle(100, 60)
	s.Bends = []fold.BendSpec{{Name: "lip", Line: [2]geom.Vec2{{0, 58}, {100, 58}}, Angle: 90, Radius: 1, Up: true}}
	p := fold.Build(s)
	require.True(t, p.Foldable, "%v", p.Troubles)
	b := &p.Bends[0]
	left := 60 - 58 - b.Allowance/2
	got := BlankTroubles(Made{}, p)
	if left >= 1 {
		t.Fatalf("%v mm are left: too much for this test", left)
	}
	require.Len(t, got, 1)
	require.Equal(t, "panel-vanishes", got[0].Rule)
	require.Equal(t, fold.Watch, got[0].Severity)
	require.InDelta(t, left, *got[0].Have, 0.01*left)
	require.True(t, slices.ContainsFunc(fold.Rules, func(r fold.Rule) bool { return r.Name == "panel-vanishes" }))
	for _, st := range Starters {
		made, problems := Make(st.Make(fold.MM))
		require.Empty(t, problems)
		require.Empty(t, BlankTroubles(made, fold.Build(made.Spec)), st.ID)
	}
}
