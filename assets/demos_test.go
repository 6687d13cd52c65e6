package assets

// This file makes the demo parts other than the tray, and checks every demo: its
// file is what its sizes give, it opens cleanly, and its link is short.

import (
	"flag"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
	"dryfold/fold/partfile"
)

var update = flag.Bool("update", false, "write the demo parts anew")

// made gives every demo part from its sizes, rounded to a ten-thousandth of a mm.
func made(t *testing.T) []fold.Spec {
	var out []fold.Spec
	for _, s := range []fold.Spec{solvedTray(t, false), roof(t), waxMelterPan(), hopper(t), bracket(), solvedTray(t, true)} {
		step := 1e-4
		if s.Units == fold.Inch {
			step = 1e-5
		}
		out = append(out, foldtest.Round(s, step))
	}
	return out
}

// roof is a square lid that slips over a box of 420 mm with 3 mm to spare all
// round; drawn with its inside up, as it is bent.
func roof(t *testing.T) fold.Spec {
	k := 0.42
	s, err := foldtest.Pan(foldtest.PanSizes{
		Name: "Hive roof", Length: 426, WidthFront: 426, WidthBack: 426, Depth: 55,
		Rim: foldtest.HemRim, RimWidth: 9, RimRadius: 0.5,
		Thickness: 0.8, Radius: 1, K: &k, Gap: 0.4, Metal: "Aluminium 3003-H14",
	})
	require.NoError(t, err)
	s.Panels[0].Name, s.Base = "top", "top"
	s.Sheet.Good = "down"
	s.Notes = "Slips over a box of 420 by 420 mm with 3 mm to spare all round. Hems turned out, so that nothing rubs on the box. Corners sealed inside with a bead of sealant."
	return s
}

// hopper is flared on all four sides over a round outlet, with a level lip to bolt down by.
func hopper(t *testing.T) fold.Spec {
	k := 0.42
	s, err := foldtest.Pan(foldtest.PanSizes{
		Name: "Press hopper", Length: 150, WidthFront: 130, WidthBack: 130, Level: foldtest.AtFloor, Depth: 105, Lean: 30,
		Rim: foldtest.LipRim, RimWidth: 22,
		Thickness: 1.2, Radius: 1.5, K: &k, Gap: 0.6, Metal: "Stainless 304",
	})
	require.NoError(t, err)
	s.Holes = append(s.Holes, fold.Hole{At: s.Panels[0].At, Diameter: 76})
	s.Panels[0].At = s.Panels[0].At.Sub(geom.Vec2{50, 60}) // beside the outlet
	for _, p := range s.Panels {
		var along geom.Vec2
		switch p.Name {
		case "front lip", "back lip":
			along = geom.Vec2{90, 0}
		case "left lip", "right lip":
			along = geom.Vec2{0, 100}
		default:
			continue
		}
		s.Holes = append(s.Holes, fold.Hole{At: p.At.Add(along), Diameter: 6.5}, fold.Hole{At: p.At.Sub(along), Diameter: 6.5})
	}
	s.Notes = "Feeds crushed comb into the press by a 76 mm outlet. The lip is bolted to the frame with eight M6. Corners TIG-welded."
	return s
}

// waxMelterPan is a plain pan, 340 by 240 by 60 inside, whose sides wrap round
// front and back by tabs, riveted through. All bends square.
func waxMelterPan() fold.Spec {
	const (
		t, r, kf = 0.8, 0.8, 0.42
		halfX    = 170.0 // inside, to the sides
		halfY    = 120.0 // inside, to front and back
		depth    = 60.0
		gap      = 0.6 // from the ends of front and back to the sides' inner faces
		lap      = 0.2 // from the tabs to the outer faces that they lie on
		tab      = 20.0
		tabLow   = 6.0 // tabs, measured from the floor
		tabHigh  = 52.0
		tabEdge  = 12.0 // and narrower by this to either side at their ends
		rivetIn  = 11.0
	)
	ba := float64(geom.Degrees(90)) * (r + kf*t)
	x, y := halfX-r, halfY-r                                          // the floor's tangent lines
	across := func(height float64) float64 { return ba + height - r } // on the blank, for a height over the floor
	end := t                                                          // bend zones end this far inside the floor's corners
	foot := ba + t/2
	top := across(depth)
	// Tabs: their inner faces lie lap outside front and back.
	tabAt := halfY + t + lap - r // near tangent line of the tab's bend
	tabFlat := tabAt + ba
	raw := tabFlat + tab - r
	low, high := across(tabLow), across(tabHigh)
	wallEnd := tabAt - t/2 // the sides end here above and below their tabs

	quarter := []geom.Vec2{ // from the middle of the front round to the middle of the side
		{halfX - gap, y + top}, {halfX - gap, y + foot}, {x - end, y + foot},
		{x - end, y - end},
		{x + foot, y - end}, {x + foot, wallEnd}, {x + low, wallEnd},
		{x + low, tabFlat + 1}, {x + low + tabEdge, raw}, {x + high - tabEdge, raw}, {x + high, tabFlat + 1},
		{x + high, wallEnd}, {x + top, wallEnd},
	}
	s := fold.Spec{Name: "Wax-melter pan", Base: "floor"}
	k := kf
	s.Sheet = fold.Sheet{Thickness: t, Metal: "Galvanized steel", K: &k, Good: "up"}
	add := func(sx, sy float64) {
		n := len(quarter)
		for i := range quarter {
			q := quarter[i]
			if sx*sy < 0 {
				q = quarter[n-1-i]
			}
			s.Outline = append(s.Outline, fold.Vertex{At: geom.Vec2{sx * q[0], sy * q[1]}})
		}
	}
	add(1, -1) // walked the other way round: from the side to the front
	add(-1, -1)
	add(-1, 1)
	add(1, 1)
	bend := func(name string, a, b geom.Vec2) {
		s.Bends = append(s.Bends, fold.BendSpec{Name: name, Line: [2]geom.Vec2{a, b}, Angle: 90, Radius: r, Up: true})
	}
	hands := []struct {
		name string
		x    float64
	}{{"left", -1}, {"right", 1}}
	ends := []struct {
		name string
		y    float64
	}{{"front", -1}, {"back", 1}}
	s.Panels = []fold.PanelName{{Name: "floor"}}
	for _, e := range ends {
		at := e.y * (y + ba/2)
		bend(e.name, geom.Vec2{-x + end, at}, geom.Vec2{x - end, at})
		s.Panels = append(s.Panels, fold.PanelName{Name: e.name, At: geom.Vec2{0, e.y * (y + 30)}})
	}
	for _, h := range hands {
		at := h.x * (x + ba/2)
		bend(h.name, geom.Vec2{at, -y + end}, geom.Vec2{at, y - end})
		s.Panels = append(s.Panels, fold.PanelName{Name: h.name, At: geom.Vec2{h.x * (x + 30), 0}})
	}
	for _, h := range hands {
		for _, e := range ends {
			name := h.name + " " + e.name + " tab"
			at := e.y * (tabAt + ba/2)
			bend(name, geom.Vec2{h.x * (x + low), at}, geom.Vec2{h.x * (x + high), at})
			s.Panels = append(s.Panels, fold.PanelName{Name: name, At: geom.Vec2{h.x * (x + 30), e.y * (tabFlat + 8)}})
			s.Order = append(s.Order, fold.Step{Bends: []string{name}})
			for _, height := range []float64{20, 38} {
				a := across(height)
				s.Holes = append(s.Holes,
					fold.Hole{At: geom.Vec2{h.x * (halfX - rivetIn), e.y * (y + a)}, Diameter: 3.3},
					fold.Hole{At: geom.Vec2{h.x * (x + a), e.y * (tabFlat + rivetIn - r)}, Diameter: 3.3})
			}
		}
	}
	for _, h := range hands {
		for _, e := range ends {
			g := gap
			s.Seams = append(s.Seams, fold.SeamSpec{
				Name: h.name + " " + e.name + " corner", Gap: &g, Join: "lapped, riveted",
				A: geom.Vec2{h.x * (x + (foot+low)/2), e.y * wallEnd}, B: geom.Vec2{h.x * (halfX - gap), e.y * (y + (foot+low)/2)},
			})
		}
	}
	for _, n := range []string{"front", "back", "left", "right"} {
		s.Order = append(s.Order, fold.Step{Bends: []string{n}})
	}
	s.Notes = "Holds the wax over the water bath. Tabs lie outside the ends, riveted with 3.2 mm rivets and soldered; drill through both once folded if they have moved."
	return s
}

// bracket is a channel of 16 gauge steel with returns turned in, in inches.
func bracket() fold.Spec {
	const (
		t, r, kf = 0.0598, 0.0625, 0.44 // 16 gauge, manufacturers' standard
		long     = 6.0
		web      = 3.0 // outside sizes
		flange   = 1.5
		back     = 0.5
	)
	ba := float64(geom.Degrees(90)) * (r + kf*t)
	set := r + t
	w := web/2 - set // from the middle to the web's tangent lines
	f := w + ba      // where a flange's flat begins
	g := f + flange - 2*set
	h := g + ba // where a return's flat begins
	e := h + back - set
	k := kf
	s := fold.Spec{Name: "Hive-stand bracket", Units: fold.Inch, Base: "web"}
	s.Sheet = fold.Sheet{Thickness: t, Metal: "Mild steel", K: &k}
	for _, q := range []geom.Vec2{{-e, 0.25}, {-e + 0.25, 0}, {e - 0.25, 0}, {e, 0.25}, {e, long - 0.25}, {e - 0.25, long}, {-e + 0.25, long}, {-e, long - 0.25}} {
		s.Outline = append(s.Outline, fold.Vertex{At: q})
	}
	side := func(name string, x, from, to float64) {
		s.Bends = append(s.Bends, fold.BendSpec{Name: name, Line: [2]geom.Vec2{{x, from}, {x, to}}, Angle: 90, Radius: r, Up: true})
	}
	side("left return", -(g + ba/2), 0, long)
	side("right return", g+ba/2, 0, long)
	side("left flange", -(w + ba/2), 0, long)
	side("right flange", w+ba/2, 0, long)
	for _, p := range []struct {
		name string
		x    float64
	}{{"web", 0}, {"left flange", -(f + g) / 2}, {"right flange", (f + g) / 2}, {"left return", -(h + e) / 2}, {"right return", (h + e) / 2}} {
		s.Panels = append(s.Panels, fold.PanelName{Name: p.name, At: geom.Vec2{p.x, 0.6}})
	}
	// Bolt holes: two across the flanges, in line; the web has two and a slot between them.
	bolt := f + 0.75 - set // 0.75 over the web's outer face
	for _, y := range []float64{1.25, 4.75} {
		s.Holes = append(s.Holes,
			fold.Hole{At: geom.Vec2{-bolt, y}, Diameter: 0.28125}, fold.Hole{At: geom.Vec2{bolt, y}, Diameter: 0.28125},
			fold.Hole{At: geom.Vec2{0, y}, Diameter: 0.34375})
	}
	const half = 0.140625 // of the slot's width
	s.Cutouts = []fold.Contour{{
		{At: geom.Vec2{-half, 2.5}},
		{At: geom.Vec2{half, 2.5}, Through: &geom.Vec2{0, 2.5 - half}},
		{At: geom.Vec2{half, 3.5}},
		{At: geom.Vec2{-half, 3.5}, Through: &geom.Vec2{0, 3.5 + half}},
	}}
	for _, n := range []string{"left return", "right return", "left flange", "right flange"} {
		s.Order = append(s.Order, fold.Step{Bends: []string{n}})
	}
	s.Notes = "16 gauge steel (manufacturers' standard, 0.0598 in). Four to a stand; 1/4 in bolts through the flanges, 5/16 in lag screws through the web."
	return s
}

// Every demo's file is what its sizes give.
func TestDemos(t *testing.T) {
	specs := made(t)
	require.Len(t, Demos(), len(specs))
	for i, s := range specs {
		d := Demos()[i]
		require.Equal(t, d.Name, s.Name)
		require.NoError(t, partfile.Check(s))
		data := partfile.Write(s)
		if *update {
			require.NoError(t, os.WriteFile(d.File, data, 0o644))
			continue
		}
		require.Equal(t, string(data), string(d.Data), "%s is not what its sizes give; go test ./assets -update", d.File)
	}
}

// Every demo opens without a trouble, its seams as wanted, on a sheet that a
// 610 mm brake takes, with a short link.
func TestDemosOpenCleanly(t *testing.T) {
	for _, d := range Demos() {
		s, err := partfile.Read(d.Data)
		require.NoError(t, err)
		require.Equal(t, d.Name, s.Name)
		require.NotEmpty(t, s.Notes)
		require.NotEmpty(t, d.Line)
		p := fold.Build(s)
		require.True(t, p.Foldable)
		r := p.Check()
		require.NotNil(t, r.Blank.Mass)
		require.Less(t, min(r.Blank.Width, r.Blank.Height), 600.0)
		link, err := partfile.Pack(s)
		require.NoError(t, err)
		require.Less(t, len(link), 1500, d.Name)
		gaping := ""
		if d.File == "faulty-tray.dryfold" {
			gaping = "left notch"
		} else {
			for _, x := range r.Troubles { // what the metal itself has to say is no fault of the part
				require.Equal(t, "note", x.Severity, "%s: %s", d.Name, x.Message)
			}
		}
		for _, x := range r.Seams {
			if x.Wanted != nil && x.Name != gaping {
				require.InDelta(t, *x.Wanted, x.GapMin, 0.001, "%s, %s", d.Name, x.Name)
				require.Less(t, x.GapMax, *x.Wanted+0.05, "%s, %s", d.Name, x.Name)
			}
		}
	}
}

// The spoilt tray shows one clash, the hook's ear with the left side, and one seam
// that gapes; nothing else is wrong with it.
func TestSpoiltTray(t *testing.T) {
	d := Demos()[len(Demos())-1]
	require.Equal(t, "faulty-tray.dryfold", d.File)
	s, err := partfile.Read(d.Data)
	require.NoError(t, err)
	r := fold.Build(s).Check()
	require.Len(t, r.Clashes, 1)
	c := r.Clashes[0]
	require.Equal(t, []string{"left rear", "left front"}, c.Bends)
	require.ElementsMatch(t, []string{"panel left rear", "panel hook"}, []string{c.A, c.B})
	require.False(t, c.AtEnd)
	require.Greater(t, c.Depth, 1.0)
	require.Len(t, r.Troubles, 2)
	require.Equal(t, "seam-wide", r.Troubles[0].Rule)
	require.Equal(t, "left notch", r.Troubles[0].Where.Seam)
	require.Equal(t, "clash", r.Troubles[1].Rule)
}

// What the demos' notes promise: rivets go through both, bolts run through both
// flanges, and the channel's outside sizes are as asked.
func TestDemoHolesMeet(t *testing.T) {
	place := func(s fold.Spec) []geom.Vec3 { // each hole's middle, in the finished part
		p := fold.Build(s)
		ps := p.Pose(p.Finished())
		var out []geom.Vec3
		for _, h := range s.Holes {
			at := h.At.Mul(s.Units.Scale())
			for i := range p.Panels {
				if p.Panels[i].Region.Outer.Contains(at) {
					out = append(out, ps.PanelPoint(i, at, p.Thickness/2))
				}
			}
		}
		require.Len(t, out, len(s.Holes))
		return out
	}
	at := place(waxMelterPan())
	for i := 0; i < len(at); i += 2 {
		require.InDelta(t, at[i][0], at[i+1][0], 1e-9)
		require.InDelta(t, at[i][2], at[i+1][2], 1e-9)
		require.InDelta(t, 0.8+0.2, math.Abs(at[i][1]-at[i+1][1]), 1e-9) // a thickness and the lap's clearance
	}
	at = place(bracket())
	for i := 0; i < len(at); i += 3 {
		require.InDelta(t, at[i][1], at[i+1][1], 1e-9)
		require.InDelta(t, at[i][2], at[i+1][2], 1e-9)
		require.InDelta(t, (3-0.0598)*25.4, at[i+1][0]-at[i][0], 1e-9)
		require.InDelta(t, 0.75*25.4, at[i][2], 1e-9)
	}
	p := fold.Build(bracket())
	size := p.Pose(p.Finished()).Box().Size()
	require.InDelta(t, 3*25.4, size[0], 1e-9)
	require.InDelta(t, 6*25.4, size[1], 1e-9)
	require.InDelta(t, 1.5*25.4, size[2], 1e-9)
}
