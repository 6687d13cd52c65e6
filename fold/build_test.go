package fold

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold/geom"
)

func pts(xy ...float64) Contour {
	var c Contour
	for i := 0; i < len(xy); i += 2 {
		c = append(c, Vertex{At: geom.Vec2{xy[i], xy[i+1]}})
	}
	return c
}

func bendAt(name string, x0, y0, x1, y1, angle, r float64) BendSpec {
	return BendSpec{Name: name, Line: [2]geom.Vec2{{x0, y0}, {x1, y1}}, Angle: angle, Radius: r, Up: true}
}

// tray is a floor of 200 x 100 with four walls 30 high from the centre lines,
// square notches of side n at the corners.
func trayWithNotch(n float64) Spec {
	k := 0.42
	s := Spec{Name: "tray", Sheet: Sheet{Thickness: 1.5, K: &k}}
	w, h := 260.0, 160.0
	s.Outline = pts(n, 0, w-n, 0, w-n, n, w, n, w, h-n, w-n, h-n, w-n, h, n, h, n, h-n, 0, h-n, 0, n, n, n)
	s.Bends = []BendSpec{
		bendAt("left", 30, -1, 30, h+1, 90, 1.5), bendAt("right", w-30, 0, w-30, h, 90, 1.5),
		bendAt("front", 0, 30, w, 30, 90, 1.5), bendAt("back", 0, h-30, w, h-30, 90, 1.5),
	}
	s.Panels = []PanelName{{"floor", geom.Vec2{130, 80}}}
	return s
}

func TestBuildTray(t *testing.T) {
	p := Build(trayWithNotch(32))
	require.Empty(t, p.Troubles)
	require.True(t, p.Foldable)
	require.Len(t, p.Panels, 5)
	require.Equal(t, "floor", p.Panels[p.Base].Name)
	ba := math.Pi / 2 * (1.5 + 0.42*1.5)
	sum := 0.0
	for _, q := range p.Panels {
		sum += q.Area
	}
	for _, b := range p.Bends {
		require.Len(t, b.Zone, 1)
		sum += b.Zone[0].Area()
		require.InDelta(t, ba, b.Allowance, 1e-12)
	}
	require.InDelta(t, p.Blank.Area, sum, 1e-6)
	require.InDelta(t, 260*160-4*32*32, p.Blank.Area, 1e-9)
	// Outside height: T from the floor's lower face... wall top at (30 - ba/2) past the tangent line.
	ps := p.Pose(p.Finished())
	left := p.Bends[0]
	top := ps.PanelPoint(left.B, geom.Vec2{0, 80}, 0)
	require.InDelta(t, 1.5+1.5+30-ba/2, top[2], 1e-9)
	// Outer face of the wall: R+T outside the tangent line.
	require.InDelta(t, 30+ba/2-3, top[0], 1e-9)
}

func TestBuildTightCorner(t *testing.T) {
	p := Build(trayWithNotch(30)) // notches only as deep as the centre lines
	require.True(t, p.Foldable)
	require.Len(t, p.Overlaps, 4)
	n := 0
	for _, tr := range p.Troubles {
		require.Equal(t, "zones-overlap", tr.Rule)
		n++
	}
	require.Equal(t, 4, n)
	sum := 0.0
	for _, q := range p.Panels {
		sum += q.Area
	}
	for _, b := range p.Bends {
		for _, z := range b.Zone {
			sum += z.Area()
		}
	}
	for _, o := range p.Overlaps {
		sum += o.Area()
	}
	require.InDelta(t, p.Blank.Area, sum, 1e-6)
}

// A bowtie encloses area though its signed area is 0: it crosses itself, at a place.
func TestBowtie(t *testing.T) {
	for _, b := range []float64{50, 60} {
		p := Build(Spec{Name: "bow", Sheet: Sheet{Thickness: 1}, Outline: pts(0, 0, 100, 0, 0, 50, 100, b)})
		require.False(t, p.Foldable)
		require.Len(t, p.Troubles, 1)
		require.Equal(t, "blank-overlap", p.Troubles[0].Rule)
		require.Greater(t, p.Troubles[0].At[0], 40.0)
		require.Nil(t, p.Check().Finished.Size, "no size is told of what can't be folded")
	}
}

// The relief that the advice names, cut round about the lines' crossing and joined to the notch,
// takes the overlap away; one a fifth smaller does not.
func TestReliefAdviceSuffices(t *testing.T) {
	s := trayWithNotch(30)
	need := 0.0
	for _, tr := range Build(s).Troubles {
		require.Equal(t, "zones-overlap", tr.Rule)
		need = *tr.Need
	}
	require.InDelta(t, 4.8, need, 1e-9) // sqrt 2 times the allowance of 3.346 and the chords, rounded up
	for _, size := range []float64{need, 0.8 * need} {
		r := size / 2
		drilled := s
		drilled.Outline = nil
		n := len(s.Outline)
		for i, v := range s.Outline {
			c := v.At
			if (c[0] != 30 && c[0] != 230) || (c[1] != 30 && c[1] != 130) {
				drilled.Outline = append(drilled.Outline, v)
				continue
			}
			before := s.Outline[(i+n-1)%n].At.Sub(c).Normalize()
			after := s.Outline[(i+1)%n].At.Sub(c).Normalize()
			through := c.Sub(before.Add(after).Normalize().Mul(r))
			drilled.Outline = append(drilled.Outline, Vertex{At: c.Add(before.Mul(r))}, Vertex{At: c.Add(after.Mul(r)), Through: &through})
		}
		p := Build(drilled)
		require.True(t, p.Foldable)
		if size == need {
			require.Empty(t, p.Troubles)
		} else {
			require.NotEmpty(t, p.Troubles)
		}
	}
}
