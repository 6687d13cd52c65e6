package scene

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// panelNamed is the index of a panel by name.
func panelNamed(t *testing.T, p *fold.Part, name string) int {
	for i := range p.Panels {
		if p.Panels[i].Name == name {
			return i
		}
	}
	t.Fatalf("no panel %q", name)
	return -1
}

// What is projected is picked again: from random views of random states, the place
// picked lies on the line of sight, and the blank point that Pick gives, folded again
// by the kernel, is that place (to the chord of the facets).
func TestPickFoldsBack(t *testing.T) {
	const seed = 21
	r := rand.New(rand.NewSource(seed))
	for name, p := range parts(t) {
		for _, st := range states(p, r) {
			s := Make(Picture{Part: p, State: st})
			c := NewCamera(800, 600)
			c.Yaw, c.Pitch = r.Float64()*6, r.Float64()*1.5
			s.Frame(&c)
			for range 60 {
				x, y := c.W*r.Float64(), c.H*r.Float64()
				h := s.Pick(&c, x, y)
				if h.Kind == None || h.OnBlank || h.Kind == Hole {
					continue
				}
				px, py, _ := c.Project(h.Point)
				require.InDelta(t, x, px, 1e-6, name)
				require.InDelta(t, y, py, 1e-6, name)
				best := math.Inf(1) // over the sheet's thickness: cut faces are picked too
				for k := range 101 {
					best = min(best, s.bodyPoint(h.Body, h.At, p.Thickness*float64(k)/100).Sub(h.Point).Len())
				}
				require.Less(t, best, p.Thickness/200+2*fold.DrawChord, "%s, %v at %v, seed %d", name, h.Body, h.At, seed)
			}
		}
	}
}

// Each thing of the tray is found where it is drawn, on the part and on the blank.
func TestPickNames(t *testing.T) {
	p := build(t, tray(90, 90))
	c := NewCamera(900, 700)
	s := Make(Picture{Part: p, Draggable: []int{3}})
	s.SetView(&c, "above")
	pick := func(q geom.Vec2, z float64) Hit {
		x, y, _ := c.Project(geom.Vec3{q[0], q[1], z})
		return s.Pick(&c, x, y)
	}
	for i := range p.Panels {
		h := pick(p.Panels[i].Label, 1)
		require.Equal(t, Select{Kind: Panel, Index: i}, h.Select)
		require.False(t, h.OnBlank)
	}
	for i := range p.Bends {
		l := p.Bends[i].Line
		require.Equal(t, Select{Kind: Bend, Index: i}, pick(l[0].Add(l[1]).Mul(.5), 1).Select)
	}
	require.Equal(t, Select{Kind: Hole, Index: 0}, pick(geom.Vec2{100, 70}, 1).Select)
	require.Equal(t, Select{Kind: Edge, Index: 0}, pick(geom.Vec2{100, -49.9}, 1).Select, "the front wall's free edge")
	require.Equal(t, None, pick(geom.Vec2{230, -40}, 0).Kind, "bare bench")
	require.Equal(t, 3, pick(geom.Vec2{100, 180}, 1).Swings, "the back wall's own bend")
	require.Equal(t, 3, pick(geom.Vec2{100, 240}, 1).Swings, "carried by the back wall")
	require.Equal(t, -1, pick(geom.Vec2{230, 70}, 1).Swings, "not to be dragged")

	// folded, the walls' outlines lie on the bench and are picked there
	s = Make(Picture{Part: p, State: p.Finished()})
	s.SetView(&c, "above")
	h := pick(geom.Vec2{235, 70}, 0)
	require.True(t, h.OnBlank)
	require.Equal(t, Select{Kind: Panel, Index: panelNamed(t, p, "right")}, h.Select)
	// from below the front the front wall hides the floor behind it
	s.SetView(&c, "front")
	x, y, _ := c.Project(s.Pose.PanelPoint(panelNamed(t, p, "floor"), geom.Vec2{100, 70}, 1))
	require.Equal(t, panelNamed(t, p, "front"), s.Pick(&c, x, y).Body.Index)

	rep := p.Check()
	s = Make(Picture{Part: p, State: p.Finished(), Report: &rep, Ticks: true})
	s.SetView(&c, "home")
	require.NotEmpty(t, rep.Seams)
	for i, sm := range rep.Seams {
		k := sm.Ticks[len(sm.Ticks)/2]
		x, y, _ := c.Project(k.A.Add(k.B).Mul(.5))
		require.Equal(t, Select{Kind: Seam, Index: i}, s.Pick(&c, x, y).Select, sm.Name)
	}
}

// A finger that goes where the gripped place goes brings the bend to that angle.
func TestDrag(t *testing.T) {
	const seed = 4
	r := rand.New(rand.NewSource(seed))
	p := build(t, tray(90, 90))
	for range 40 {
		b := r.Intn(4)
		pic := Picture{Part: p, State: p.Flat(), Draggable: []int{b}}
		c := NewCamera(900, 700)
		s := Make(pic)
		c.Yaw, c.Pitch = r.Float64()*6, .5+.6*r.Float64()
		s.Frame(&c)
		panel := p.Bends[b].B
		x, y, _ := c.Project(s.Pose.PanelPoint(panel, p.Panels[panel].Label, 1))
		h := s.Pick(&c, x, y)
		require.Equal(t, b, h.Swings)
		d := s.StartDrag(h)
		grip := h.At
		now := geom.Angle(0)
		for deg := 3.0; deg <= 90; deg += 3 {
			pic.State = p.Flat()
			pic.State[b] = geom.Degrees(deg)
			s = Make(pic)
			x, y, _ := c.Project(s.Pose.PanelPoint(panel, grip, 1))
			now = s.AngleAt(&c, d, now, p.Bends[b].Angle, x, y)
			// the grip stays under the finger; where its path turns back on the screen two
			// angles look nearly alike, and the nearer may win by a pixel or two
			qx, qy, _ := c.Project(s.Pose.Panels[p.Bends[b].A].Compose(p.Bends[b].Hinge(now, 1)).Point(d.grip))
			require.Less(t, math.Hypot(qx-x, qy-y), 4.0, "bend %d at %g, seed %d", b, deg, seed)
		}
	}
	// a part whose test bends sprang back is dragged to the set angle
	spec := tray(90, 90)
	spec.Sheet.Metal = "Mild steel"
	set := 94.0
	for range 3 {
		spec.Tests = append(spec.Tests, metal.Strip{Metal: "Mild steel", Thickness: spec.Sheet.Thickness, Angle: 90, Set: &set})
	}
	q := build(t, spec)
	for b := range 4 {
		require.InDelta(t, 94, q.Bends[b].Set.Degrees(), 1e-9)
		pic := Picture{Part: q, State: q.Flat(), Draggable: []int{b}}
		c := NewCamera(900, 700)
		s := Make(pic)
		s.SetView(&c, "above")
		panel := q.Bends[b].B
		x, y, _ := c.Project(s.Pose.PanelPoint(panel, q.Panels[panel].Label, 1))
		d := s.StartDrag(s.Pick(&c, x, y))
		pic.State[b] = q.Bends[b].Set
		s = Make(pic)
		x, y, _ = c.Project(s.Pose.Panels[panel].Point(d.grip))
		a := s.AngleAt(&c, d, geom.Degrees(85), q.Bends[b].Set, x, y)
		qx, qy, _ := c.Project(s.Pose.Panels[q.Bends[b].A].Compose(q.Bends[b].Hinge(a, 1)).Point(d.grip))
		require.Less(t, math.Hypot(qx-x, qy-y), 1.0, "bend %d", b)
		require.InDelta(t, 94, a.Degrees(), 0.5, "bend %d", b)
	}
	// beyond its ends the angle stays within 0 and the full angle
	s := Make(Picture{Part: p, Draggable: []int{3}})
	c := NewCamera(900, 700)
	s.Frame(&c)
	h := Hit{Swings: 3, Point: geom.Vec3{100, 190, 1}}
	d := s.StartDrag(h)
	for range 50 {
		a := s.AngleAt(&c, d, .5, p.Bends[3].Angle, r.Float64()*900, r.Float64()*700)
		require.True(t, a >= 0 && a <= p.Bends[3].Angle)
	}
}

// While sizes are edited a finger just beside the free edge of a wall that is seen means the edge, on whichever side of it
// it comes down; an edge behind the part it does not mean.
func TestPickRim(t *testing.T) {
	p := build(t, tray(90, 90))
	s := Make(Picture{Part: p, State: p.Finished(), Touch: true})
	c := NewCamera(820, 620)
	require.True(t, s.SetView(&c, "home"))
	seen := 0
	for i, pn := range p.Panels {
		if pn.Name != "right" && pn.Name != "front" && pn.Name != "left" {
			continue
		}
		b := p.Bends[pn.Parent]
		top, at := 0.0, 0
		out := pn.Region.Outer
		for k, v := range out {
			if _, s := b.Coord(v.Add(out[(k+1)%len(out)]).Mul(.5)); s > top {
				top, at = s, k
			}
		}
		q := out[at].Mul(.7).Add(out[(at+1)%len(out)].Mul(.3))
		x, y, _ := c.Project(s.Pose.PanelPoint(i, q, .5))
		for _, off := range []float64{-7, 0, 7} {
			h := s.Pick(&c, x, y+off)
			if h.Kind == Edge && h.Contour == 0 && h.Index == pn.Edges[0][at].Index {
				seen++
			}
		}
	}
	require.Equal(t, 9, seen, "three walls, from three sides each")

	// From below the floor hides the walls' inner sides, and from behind the back wall hides nothing of itself: the
	// edge that is met is never one that lies behind what is seen.
	c.Yaw += math.Pi
	for x := 40.0; x < 800; x += 21 {
		for y := 40.0; y < 600; y += 19 {
			h := s.Pick(&c, x, y)
			if h.Kind == Edge && !h.OnBlank {
				require.False(t, newPicker(s, &c, x, y).hides(h.Point))
			}
		}
	}
}
