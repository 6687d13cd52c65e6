package scene

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Feeler ticks are as long as their gap times the scale, and the figures say the gap.
func TestFeelers(t *testing.T) {
	p := build(t, tray(90, 90))
	rep := p.Check()
	require.NotEmpty(t, rep.Seams)
	s := Make(Picture{Part: p, State: p.Finished(), Report: &rep, Ticks: true})
	bare := Make(Picture{Part: p, State: p.Finished(), Report: &rep})
	ticks := s.Lines[len(bare.Lines):]
	k := 0
	for _, sm := range rep.Seams {
		for _, tick := range sm.Ticks {
			for range 2 { // what is seen, and the faint one that a wall hides
				require.InDelta(t, tick.Gap*s.TickScaleOf(&sm), ticks[k].B.Sub(ticks[k].A).Len(), 1e-9)
				k++
			}
		}
	}
	require.Equal(t, len(ticks), k)
	small := fold.SeamReport{Ticks: []fold.Tick{{Gap: .5}, {Gap: 2}}}
	require.EqualValues(t, DefaultTickScale, s.TickScaleOf(&small))
	wide := fold.SeamReport{Ticks: []fold.Tick{{Gap: .5}, {Gap: 60}}}
	require.EqualValues(t, 1, s.TickScaleOf(&wide), "an open side is drawn as it is")
	require.Contains(t, labels(s), s.Picture.length(rep.Seams[0].GapStart))

	s = Make(Picture{Part: p, State: p.StateAt(1, .5), Report: &rep, Ticks: true})
	require.Len(t, s.Lines, len(bare.Lines), "ticks belong to the finished part alone")
}

func labels(s *Scene) string {
	var out []string
	for _, l := range s.Labels {
		out = append(out, l.Text)
	}
	return strings.Join(out, "|")
}

// Selecting lights the part and the blank: the same panel, edge or hole on both.
func TestSelectLit(t *testing.T) {
	p := build(t, tray(90, 90))
	plain := Make(Picture{Part: p})
	accent := light.Accent
	count := func(sel Select) (edges, lines int) {
		s := Make(Picture{Part: p, Select: sel})
		for _, e := range s.Edges {
			if e.Lit {
				edges++
			}
		}
		for _, l := range s.Lines {
			if l.C == accent {
				lines++
			}
		}
		return edges, lines
	}
	for _, sel := range []Select{{Kind: Panel, Index: 1}, {Kind: Bend, Index: 2}, {Kind: Hole}, {Kind: Edge, Index: 3}} {
		edges, lines := count(sel)
		require.Positive(t, edges, "%v on the part", sel)
		require.Positive(t, lines, "%v on the blank", sel)
	}
	for _, sel := range []Select{{}, {Kind: Panel, Index: 99}, {Kind: Bend, Index: -1}, {Kind: Hole, Index: 7}, {Kind: Edge, Index: 999}, {Kind: Seam, Index: 5}} {
		edges, lines := count(sel)
		require.Zero(t, edges+lines, "%v", sel)
	}
	require.Equal(t, len(plain.Tris), len(Make(Picture{Part: p, Select: Select{Kind: Panel, Index: 1}}).Tris))
}

// A clash is hatched on both solids, near where they meet, and ringed in the picture.
func TestClashMarked(t *testing.T) {
	p := build(t, tray(90, 90))
	left, back := panelNamed(t, p, "left"), panelNamed(t, p, "back")
	st := p.StateAt(3, .5) // right, left, front up; back half way
	at := p.Pose(st).PanelPoint(back, geom.Vec2{4, 190}, 1)
	c := fold.Clash{Swing: 3, Fraction: .5, Angle: geom.Degrees(45), A: fold.Body{Index: back}, B: fold.Body{Index: left}, Point: at}
	plain := Make(Picture{Part: p, State: st})
	s := Make(Picture{Part: p, State: st, Clash: &c})
	hatch := s.Lines[len(plain.Lines):]
	require.NotEmpty(t, hatch)
	for _, l := range hatch {
		require.Less(t, l.A.Sub(at).Len(), s.partSize()*hatchReach*1.001)
	}
	cam := NewCamera(800, 600)
	s.SetView(&cam, "home")
	o := s.Project(&cam, nil)
	found := false
	for _, l := range o.Labels {
		if l.Style == StyleStop {
			found = true
			require.Equal(t, "panel back meets panel left at 45°", l.Text)
			require.True(t, l.X > 0 && l.X < 800 && l.Y > 0 && l.Y < 600)
		}
	}
	require.True(t, found)

	// seen before first contact, what swings shows as a dashed ghost where it will be
	s = Make(Picture{Part: p, State: p.StateAt(3, .2), Clash: &c})
	dashed := 0
	for _, l := range s.Lines {
		if l.Dash > 0 {
			dashed++
		}
	}
	require.Equal(t, len(p.Panels[back].Region.Outer), dashed)
	require.NotPanics(t, func() { Make(Picture{Part: p, Clash: &fold.Clash{A: fold.Body{Index: 99}}}) })
}

// The overall sizes are the report's when finished, else the mesh's.
func TestDims(t *testing.T) {
	p := build(t, tray(90, 90))
	rep := p.Check()
	s := Make(Picture{Part: p, State: p.Finished(), Report: &rep, Dims: true})
	for i := range 3 {
		require.Equal(t, s.Picture.length(rep.Finished.Box()[i]), s.Dims.Text[i])
		require.InDelta(t, rep.Finished.Box()[i], s.Box.Size()[i], 2*fold.DrawChord)
	}
	c := NewCamera(900, 700)
	s.SetView(&c, "home")
	n := 0
	for _, l := range s.Project(&c, nil).Labels {
		if l.Style == StyleDim {
			n++
		}
	}
	require.Equal(t, 3, n)
	s.SetView(&c, "above")
	n = 0
	for _, l := range s.Project(&c, nil).Labels {
		if l.Style == StyleDim {
			n++
		}
	}
	require.Equal(t, 2, n, "from above the height would be end on")
}

// The chosen seam's line is drawn under its ticks in the accent colour, and its figures say what 5 in 100 parts open past where that
// passes the limit.
func TestChosenSeam(t *testing.T) {
	p := build(t, tray(90, 90))
	rep := p.Check()
	sm := &rep.Seams[0]
	limit := 1.0
	sm.State, sm.Open, sm.Limit = "watch", false, &limit
	for i := range sm.Ticks {
		sm.Ticks[i].Gap = 0.6
	}
	at := func(x, high float64) fold.SpreadPoint {
		return fold.SpreadPoint{At: x, Spread: fold.Spread{High: high}}
	}
	sm.Spread = &fold.SeamSpread{Along: []fold.SpreadPoint{at(0, 0.8), at(sm.Length, 1.4)}}
	draw := func(sel int) (lines int, words string, first Line) {
		s := Make(Picture{Part: p, State: p.Finished(), Report: &rep, Ticks: true, Select: Select{Kind: Seam, Index: sel}})
		for _, l := range s.Lines {
			if l.Width == seamLit && l.C == light.Accent.Alpha(.6) {
				lines++
				first = l
			}
		}
		return lines, "|" + labels(s) + "|", first
	}
	n, words, line := draw(0)
	require.Equal(t, 1, n)
	k := len(sm.Ticks) - 1
	require.InDelta(t, sm.Ticks[0].A.Add(sm.Ticks[0].B).Sub(sm.Ticks[k].A.Add(sm.Ticks[k].B)).Len()/2, line.A.Sub(line.B).Len(), 1e-9)
	require.Contains(t, words, "|0.6|")
	require.Contains(t, words, "|0.6 → 1.4|")
	n, words, _ = draw(1)
	require.Equal(t, 1, n)
	require.NotContains(t, words, "→")
	n, _, _ = draw(-1)
	require.Zero(t, n)
	limit = 2
	_, words, _ = draw(0)
	require.NotContains(t, words, "→")
}

// From all sides and in small pictures too: no gap's figure lies on another word, whatever their states, and the chosen seam's both stand.
func TestFiguresKeepApart(t *testing.T) {
	p := build(t, tray(90, 90))
	rep := p.Check()
	limit, drawn := 1.0, 0
	for i := range rep.Seams {
		x := &rep.Seams[i]
		x.State, x.Open, x.Limit = []string{"ok", "watch", "stop"}[i%3], false, &limit
		for k := range x.Ticks { // all other figures
			x.Ticks[k].Gap = 2 + float64(i)/2 + float64(k)/10
		}
	}
	s := Make(Picture{Part: p, State: p.Finished(), Report: &rep, Ticks: true, Select: Select{Kind: Seam, Index: 1}})
	for _, size := range [][2]float64{{820, 680}, {820, 540}, {390, 320}, {180, 140}} {
		for _, view := range []string{"home", "front", "end", "above"} {
			c := NewCamera(size[0], size[1])
			s.SetView(&c, view)
			o := s.Project(&c, nil)
			for i, l := range o.Labels {
				if l.Style == StyleDatum {
					continue
				}
				drawn++
				for _, m := range o.Labels[:i] {
					w := 4 * float64(len([]rune(l.Text))+len([]rune(m.Text)))
					if m.Style != StyleDatum && abs(l.X-m.X) < w && abs(l.Y-m.Y) < 15 {
						require.Fail(t, "figures on each other", "%v, %s: %q at %.0f %.0f on %q at %.0f %.0f", size, view, l.Text, l.X, l.Y, m.Text, m.X, m.Y)
					}
				}
			}
		}
	}
	require.Greater(t, drawn, 60)
}

// A tick is told as more than the joint allows where its gap, or what 95 of 100 parts open to there, passes the limit; the
// figures stay the exact ones.
func TestFeelersBySpread(t *testing.T) {
	p := build(t, tray(90, 90))
	rep := p.Check()
	sm := &rep.Seams[0]
	limit := 1.0
	sm.State, sm.Open, sm.Limit, sm.Wanted = "watch", false, &limit, nil
	n := len(sm.Ticks)
	require.Greater(t, n, 4)
	for i := range sm.Ticks {
		sm.Ticks[i].Gap = 0.5
	}
	at := func(x, high float64) fold.SpreadPoint {
		return fold.SpreadPoint{At: x, Spread: fold.Spread{High: high}}
	}
	sm.Spread = &fold.SeamSpread{Along: []fold.SpreadPoint{at(0, 0.6), at(sm.Length, 1.4)}} // passes 1 in the middle
	for i := range sm.Ticks {
		want := StyleGap
		if 2*i > n-1 {
			want = StyleWatch
		}
		require.Equal(t, want, gapStyle(sm, i), "tick %d of %d", i, n)
	}
	s := Make(Picture{Part: p, State: p.Finished(), Report: &rep, Ticks: true})
	found := false
	for _, l := range s.Labels {
		found = found || l.Style == StyleWatch && l.Text == s.Picture.length(0.5)
	}
	require.True(t, found, "the exact gap in the watch colour")
	sm.Ticks[1].Gap = 1.2
	require.Equal(t, StyleWatch, gapStyle(sm, 1), "by its gap alone")
	sm.Spread = nil
	require.Equal(t, StyleGap, gapStyle(sm, n-1))
	sm.State = "ok"
	require.Equal(t, StyleGap, gapStyle(sm, 1))
}

// Where a panel would be cut back is drawn on the blank and on both faces of the panel, with how much comes off.
func TestCutBackDrawn(t *testing.T) {
	p := build(t, tray(90, 90))
	left := panelNamed(t, p, "left")
	at := p.Panels[left].Label
	c := fold.Clash{Swing: 3, Fraction: .5, A: fold.Body{Index: left}, B: fold.Body{Index: 0}}
	cut := fold.CutBack{Panel: "left", By: 1.9, Line: [2][2]float64{{at[0], at[1]}, {at[0] + 1, at[1]}}}
	s := Make(Picture{Part: p, State: p.Finished(), Clash: &c, Cut: &cut})
	n := 0
	for _, l := range s.Lines {
		if l.Dash == 6 && l.Width == 2 && math.Abs(l.B.Sub(l.A).Len()-1) < 1e-9 {
			n++
		}
	}
	require.Equal(t, 3, n)
	require.True(t, slices.ContainsFunc(s.Labels, func(l Label) bool { return l.Text == "−1.9" }), "%v", s.Labels)
	cut.Panel = "none"
	require.NotPanics(t, func() { Make(Picture{Part: p, State: p.Finished(), Clash: &c, Cut: &cut}) })
}
