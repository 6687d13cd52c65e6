package fold_test

import (
	"slices"
	"testing"

	"dryfold/fold"
	"dryfold/fold/foldtest"
	"dryfold/fold/geom"
)

// channel is a strip 100 x 40 with walls 30 wide, bends at x = 30 and 70, K 0.4, T 1, R 1.
func channel() fold.Spec {
	k := 0.4
	line := func(name string, x float64) fold.BendSpec {
		return fold.BendSpec{Name: name, Line: [2]geom.Vec2{{x, 0}, {x, 40}}, Angle: 90, Radius: 1, Up: true}
	}
	return fold.Spec{Name: "channel", Sheet: fold.Sheet{Thickness: 1, K: &k},
		Outline: foldtest.Points(0, 0, 100, 0, 100, 40, 0, 40),
		Bends:   []fold.BendSpec{line("left", 30), line("right", 70)}}
}

func with(change func(s *fold.Spec)) fold.Spec {
	s := channel()
	change(&s)
	return s
}

func bend(name string, x0, y0, x1, y1 float64) fold.BendSpec {
	return fold.BendSpec{Name: name, Line: [2]geom.Vec2{{x0, y0}, {x1, y1}}, Angle: 90, Radius: 1, Up: true}
}

// troubled is a small part and the one trouble that it has.
type troubled struct {
	name     string
	spec     fold.Spec
	rule     string
	sev      fold.Severity
	kind     string
	of       string
	at       geom.Vec2
	reach    float64 // how near to at the place must be
	foldable bool
	message  string
}

func troubledParts() []troubled {
	frame := with(func(s *fold.Spec) { // a window cut out leaves a ring of metal
		s.Outline = foldtest.Points(0, 0, 100, 0, 100, 80, 0, 80)
		s.Cutouts = []fold.Contour{foldtest.Points(20, 20, 80, 20, 80, 60, 20, 60)}
		s.Bends = []fold.BendSpec{bend("low", 50, 0, 50, 20), bend("high", 55, 60, 55, 80)}
	})
	return []troubled{
		{name: "nan", spec: with(func(s *fold.Spec) { s.Sheet.Thickness = nan }), rule: "bad-number", sev: fold.Stop,
			message: "The thickness is NaN; a size from 0.001 to 1000000 mm is needed."},
		{name: "blank overlaps itself", spec: with(func(s *fold.Spec) {
			s.Outline = foldtest.Points(0, 0, 100, 0, 100, 40, 60, 40, 60, 60, 80, 60, 80, 10, 90, 10, 90, 70, 50, 70, 50, 40, 0, 40)
			s.Bends = s.Bends[:1]
		}), rule: "blank-overlap", sev: fold.Stop, at: geom.Vec2{80, 40}, reach: 25,
			message: "The blank's outline crosses or touches itself near (90.0, 40.0): two flanges lie in each other there. Shorten one, or move the corner."},
		{name: "outline of no area", spec: with(func(s *fold.Spec) { s.Outline = foldtest.Points(0, 0, 100, 0, 50, 0) }),
			rule: "blank-overlap", sev: fold.Stop,
			message: "The outline encloses no area; give the blank's corners in order round its edge."},
		{name: "cutout crosses itself", spec: with(func(s *fold.Spec) {
			s.Cutouts = []fold.Contour{foldtest.Points(40, 10, 60, 30, 42, 36, 60, 10)}
		}), rule: "blank-overlap", sev: fold.Stop, kind: "hole", of: "cutout 1", at: geom.Vec2{51.8, 21.8}, reach: 0.1,
			message: "The outline of cutout 1 crosses or touches itself near (51.8, 21.8); give its corners in order round it."},
		{name: "hole off the sheet", spec: with(func(s *fold.Spec) { s.Holes = []fold.Hole{{At: geom.Vec2{150, 20}, Diameter: 8}} }),
			rule: "void-off-sheet", sev: fold.Stop, kind: "hole", of: "hole 1", at: geom.Vec2{150, 20}, reach: 4.1, foldable: true,
			message: "Hole 1 at (150.0, 20.0) lies off the sheet; move it on to the blank, or leave it out."},
		{name: "hole through the edge", spec: with(func(s *fold.Spec) { s.Holes = []fold.Hole{{At: geom.Vec2{50, 1}, Diameter: 8}} }),
			rule: "void-off-sheet", sev: fold.Stop, kind: "hole", of: "hole 1", at: geom.Vec2{50, 1}, reach: 4.1, foldable: true,
			message: "The edge of hole 1 runs out of the sheet near (46.1, 0.0). Move it on to the sheet, or draw it as part of the outline."},
		{name: "two holes meet", spec: with(func(s *fold.Spec) {
			s.Holes = []fold.Hole{{At: geom.Vec2{48, 20}, Diameter: 8}, {At: geom.Vec2{54, 20}, Diameter: 8}}
		}), rule: "voids-meet", sev: fold.Watch, kind: "hole", of: "hole 2", at: geom.Vec2{51, 20}, reach: 3, foldable: true,
			message: "Hole 1 and hole 2 run into each other near (51.0, 17.4); draw them as one cutout."},
		{name: "hole in a hole", spec: with(func(s *fold.Spec) {
			s.Holes = []fold.Hole{{At: geom.Vec2{50, 20}, Diameter: 10}, {At: geom.Vec2{50, 20}, Diameter: 4}}
		}), rule: "voids-meet", sev: fold.Watch, kind: "hole", of: "hole 2", at: geom.Vec2{50, 20}, reach: 2.1, foldable: true,
			message: "Hole 2 at (50.0, 20.0) lies inside another hole or cutout; leave one of them out."},
		{name: "name on no panel", spec: with(func(s *fold.Spec) { s.Panels = []fold.PanelName{{Name: "floor", At: geom.Vec2{30, 20}}} }),
			rule: "panel-name", sev: fold.Stop, kind: "panel", of: "floor", at: geom.Vec2{30, 20}, foldable: true,
			message: "The point (30.0, 20.0) that names panel floor lies on no panel: it is in a bend zone, a hole or off the sheet. Give a point inside the panel."},
		{name: "two names on one panel", spec: with(func(s *fold.Spec) {
			s.Panels = []fold.PanelName{{Name: "floor", At: geom.Vec2{50, 20}}, {Name: "base", At: geom.Vec2{60, 20}}}
		}), rule: "panel-name", sev: fold.Stop, kind: "panel", of: "base", at: geom.Vec2{60, 20}, foldable: true,
			message: "The names floor and base point at one panel; is a bend between them missing?"},
		{name: "base is no panel", spec: with(func(s *fold.Spec) { s.Base = "flor" }),
			rule: "base", sev: fold.Stop, kind: "panel", of: "flor", at: geom.Vec2{50, 20}, reach: 60, foldable: true,
			message: "No panel is called flor, which should lie still; the largest, panel 1, is taken."},
		{name: "bend misses", spec: with(func(s *fold.Spec) { s.Bends = append(s.Bends, bend("far", 150, 0, 150, 40)) }),
			rule: "bend-misses", sev: fold.Stop, kind: "bend", of: "far", at: geom.Vec2{150, 20},
			message: "The line of the bend far does not cross the material from one free edge to another; move it on to the sheet."},
		{name: "bend stops short", spec: with(func(s *fold.Spec) { s.Bends[0].Line[1][1] = 37.5 }),
			rule: "bend-short", sev: fold.Stop, kind: "bend", of: "left", at: geom.Vec2{30, 37.5}, foldable: true,
			message: "The line of the bend left stops 2.50 mm inside the material; take it on to the free edge, or cut a relief to its end."},
		{name: "bend with no flange", spec: with(func(s *fold.Spec) {
			s.Bends[0].Line = [2]geom.Vec2{{0.5, 0}, {0.5, 40}}
		}), rule: "bend-bare", sev: fold.Stop, kind: "bend", of: "left", at: geom.Vec2{0.5, 20}, reach: 21,
			message: "The bend left has no metal on one side: its zone of 2.20 mm reaches past the edge. Make the flange wider."},
		{name: "bend partly bare", spec: with(func(s *fold.Spec) {
			s.Outline = foldtest.Points(0, 0, 100, 0, 100, 40, 29.5, 40, 29.5, 20, 0, 20)
		}), rule: "bend-bare", sev: fold.Watch, kind: "bend", of: "left", at: geom.Vec2{30, 20}, reach: 21, foldable: true,
			message: "The bend left has no metal along 20.0 mm of one of its tangent lines; it may bend unevenly there."},
		{name: "bend splits", spec: with(func(s *fold.Spec) {
			s.Outline = foldtest.Points(0, 0, 100, 0, 100, 40, 0, 40, 0, 22, 35, 22, 35, 18, 0, 18)
		}), rule: "bend-splits", sev: fold.Stop, kind: "bend", of: "left", at: geom.Vec2{30, 20}, reach: 21,
			message: "The bend left joins 2 separate panels on one side. Give each stretch its own bend; they can be made in one swing."},
		{name: "bends crowd", spec: with(func(s *fold.Spec) { s.Bends[1].Line = [2]geom.Vec2{{31.5, 0}, {31.5, 40}} }),
			rule: "bends-crowd", sev: fold.Stop, kind: "bend", of: "left", at: geom.Vec2{30, 20}, reach: 21,
			message: "There is no flat metal left between the bend left and the bend right: their zones take up 2.2 mm, their lines lie 1.5 mm apart. Move them further apart."},
		{name: "bends touch", spec: with(func(s *fold.Spec) {
			ba := 1.4 * 1.5707963267948966
			s.Bends[1].Line = [2]geom.Vec2{{30 + ba, 0}, {30 + ba, 40}}
		}), rule: "bends-crowd", sev: fold.Stop, kind: "bend", of: "left", at: geom.Vec2{30, 20}, reach: 21,
			message: "There is no flat metal left between the bend left and the bend right: their zones take up 2.2 mm, their lines lie 2.2 mm apart. Move them further apart."},
		{name: "line in a zone", spec: with(func(s *fold.Spec) { s.Bends[1].Line = [2]geom.Vec2{{30.6, 0}, {30.6, 40}} }),
			rule: "line-in-zone", sev: fold.Stop, kind: "bend", at: geom.Vec2{30, 20}, reach: 21,
			message: "The line of the bend left lies inside the zone of the bend right, 0.6 mm from its line; move it to more than 2.2 mm away."},
		{name: "zones overlap", spec: with(func(s *fold.Spec) {
			s.Outline = foldtest.Points(0, 30, 30, 30, 30, 0, 100, 0, 100, 70, 0, 70)
			s.Bends = []fold.BendSpec{bend("left", 30, 30, 30, 70), bend("front", 30, 30, 100, 30)}
		}), rule: "zones-overlap", sev: fold.Watch, kind: "bend", of: "left", at: geom.Vec2{30.5, 30.5}, reach: 2, foldable: true,
			message: "The bends left and front crowd each other near (30.5, 30.5): the metal there can't follow both. Cut a relief at least 3.2 mm across about the point where their lines cross; draw it into the outline where it reaches the edge."},
		{name: "ring of bends", spec: frame, rule: "bend-loop", sev: fold.Stop, kind: "bend", of: "high", at: geom.Vec2{55, 60}, reach: 21,
			message: "The bends high and low close a ring, so the sheet can't fold without tearing. Cut one of them through."},
		{name: "same panel on both sides", spec: with(func(s *fold.Spec) {
			s.Cutouts = []fold.Contour{foldtest.Points(20, 10, 40, 10, 40, 30, 20, 30)}
			s.Bends = []fold.BendSpec{bend("half", 30, 30, 30, 40)}
		}), rule: "bend-loop", sev: fold.Stop, kind: "bend", of: "half", at: geom.Vec2{30, 35}, reach: 6,
			message: "The bend half has the same panel on both sides, so the sheet can't fold there; take the cut right through to the edge."},
		{name: "slot across a bend", spec: with(func(s *fold.Spec) {
			s.Cutouts = []fold.Contour{foldtest.Points(25, 15, 35, 15, 35, 20, 25, 20)}
		}), rule: "void-in-bend", sev: fold.Watch, kind: "hole", of: "cutout 1", at: geom.Vec2{30, 17.5}, reach: 3, foldable: true,
			message: "Cutout 1 crosses the zone of the bend left and will pull out of shape. Keep it clear of the zone, or drill it after bending."},
	}
}

// TestEachTroubleAlone: every trouble of the blank by a small part that has exactly
// that one, at its place, in words that say what would do.
func TestEachTroubleAlone(t *testing.T) {
	raised := map[string]bool{}
	for _, c := range troubledParts() {
		t.Run(c.name, func(t *testing.T) {
			p := fold.Build(c.spec)
			for _, tr := range p.Troubles {
				t.Logf("%s %s %s %q at %v: %s", tr.Severity, tr.Rule, tr.Kind, tr.Name, tr.At, tr.Message)
			}
			if len(p.Troubles) != 1 {
				t.Fatalf("%d troubles, want one of %s", len(p.Troubles), c.rule)
			}
			tr := p.Troubles[0]
			raised[tr.Rule] = true
			if tr.Rule != c.rule || tr.Severity != c.sev || tr.Kind != c.kind || c.of != "" && tr.Name != c.of || p.Foldable != c.foldable {
				t.Errorf("got %v %s %s %q, foldable %v; want %v %s %s %q, %v", tr.Severity, tr.Rule, tr.Kind, tr.Name, p.Foldable, c.sev, c.rule, c.kind, c.of, c.foldable)
			}
			if d := tr.At.Sub(c.at).Len(); d > c.reach+1e-9 {
				t.Errorf("placed at %v, %.1f mm from %v", tr.At, d, c.at)
			}
			if c.message != tr.Message {
				t.Errorf("says\n %s\nwant\n %s", tr.Message, c.message)
			}
		})
	}
	for _, r := range []string{"bad-number", "blank-overlap", "void-off-sheet", "voids-meet", "panel-name", "base", "bend-misses", "bend-short",
		"bend-bare", "bend-splits", "bends-crowd", "line-in-zone", "zones-overlap", "bend-loop", "void-in-bend"} {
		if !raised[r] {
			t.Errorf("no part raises %s", r)
		}
		if !slices.ContainsFunc(fold.Rules, func(x fold.Rule) bool { return x.Name == r }) {
			t.Errorf("%s is not among the rules", r)
		}
	}
}

// TestNamedSeamTroubles: a named seam's points that mean no edge, several, or one panel.
func TestNamedSeamTroubles(t *testing.T) {
	for _, c := range []struct {
		name    string
		a, b    geom.Vec2
		at      geom.Vec2
		message string
	}{
		{"near none", geom.Vec2{0, 20}, geom.Vec2{95, 20}, geom.Vec2{95, 20},
			"Point b (95.0, 20.0) of seam top lies within 1 mm of no free straight edge of a panel; give a point on the middle of one."},
		{"near two", geom.Vec2{0.5, 0.5}, geom.Vec2{100, 20}, geom.Vec2{0.5, 0.5},
			"Point a (0.5, 0.5) of seam top lies within 1 mm of 2 free edges; give a point on the middle of one."},
		{"on a zone", geom.Vec2{30, 0}, geom.Vec2{100, 20}, geom.Vec2{30, 0},
			"Point a (30.0, 0.0) of seam top lies within 1 mm of no free straight edge of a panel; give a point on the middle of one."},
		{"one panel", geom.Vec2{0, 20}, geom.Vec2{15, 0}, geom.Vec2{0, 20},
			"Both points of seam top lie on panel 2; a seam joins two panels."},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := fold.Build(with(func(s *fold.Spec) { s.Seams = []fold.SeamSpec{{Name: "top", A: c.a, B: c.b}} }))
			_, troubles := p.FindSeams()
			if len(troubles) != 1 {
				t.Fatalf("%+v", troubles)
			}
			tr := troubles[0]
			if tr.Rule != "seam-name" || tr.Severity != fold.Stop || tr.Kind != "seam" || tr.Name != "top" || tr.At.Sub(c.at).Len() > 1e-9 {
				t.Errorf("%+v", tr)
			}
			if tr.Message != c.message {
				t.Errorf("says\n %s\nwant\n %s", tr.Message, c.message)
			}
		})
	}
	// A zed's first and last legs lie one after the other.
	c := foldtest.Chain{Thickness: 1, K: 0.4, Width: 40, Flats: []float64{20, 40, 20},
		Bends: []foldtest.ChainBend{{Angle: 90, Radius: 1, Up: true}, {Angle: 90, Radius: 1}}}
	z := c.Spec()
	z.Seams = []fold.SeamSpec{{Name: "top", A: geom.Vec2{10, 0}, B: geom.Vec2{c.Length() - 10, 0}}}
	if _, troubles := fold.Build(z).FindSeams(); len(troubles) != 1 || troubles[0].Message != "The edges of seam top do not lie side by side in the finished part." {
		t.Errorf("%+v", troubles)
	}
	// The same channel's two tops are a good seam.
	p := fold.Build(with(func(s *fold.Spec) {
		s.Seams = []fold.SeamSpec{{Name: "top", A: geom.Vec2{0, 20}, B: geom.Vec2{100, 20}}}
	}))
	seams, troubles := p.FindSeams()
	if len(troubles) != 0 || seams[0].Name != "top" {
		t.Errorf("%+v %+v", seams, troubles)
	}
}

// TestSeamVerdicts: too wide, in each other, out of line; open ones are only measured.
func TestSeamVerdicts(t *testing.T) {
	rulesOf := func(s fold.Spec) (out []string) {
		for _, tr := range fold.Build(s).Quick().Troubles {
			out = append(out, tr.Rule+" "+tr.Where.Seam)
		}
		return out
	}
	// A tube, three sides and a closing flange: 4 bends up, the last edge meets the first.
	tube := func(last, turn float64, gap *float64, open bool) fold.Spec {
		k := 0.4
		c := foldtest.Chain{Thickness: 1, K: k, Width: 40, Flats: []float64{20, 40, 40, 40, last}}
		for range 4 {
			c.Bends = append(c.Bends, foldtest.ChainBend{Angle: 90, Radius: 1, Up: true})
		}
		c.Bends[3].Angle = turn
		s := c.Spec()
		s.Seams = []fold.SeamSpec{{Name: "joint", A: geom.Vec2{0, 20}, B: geom.Vec2{c.Length(), 20}, Gap: gap, Open: open}}
		return s
	}
	two := 2.0
	for _, c := range []struct {
		name string
		spec fold.Spec
		want []string
	}{
		{"closes", tube(19.5, 90, nil, false), nil},
		{"a gap of 2, none wanted", tube(18, 90, nil, false), []string{"seam-no-figure joint"}},
		{"a gap of 2, wanted", tube(18, 90, &two, false), nil},
		{"a gap of 3 where 2 is wanted", tube(17, 90, &two, false), []string{"seam-wide joint"}},
		{"open", tube(10, 90, nil, true), nil},
		{"in each other", tube(20.5, 90, nil, false), []string{"seam-overlap joint"}},
		{"out of line", tube(19.5, 87, nil, false), []string{"seam-step joint", "seam-no-figure joint"}},
	} {
		if got := rulesOf(c.spec); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
			for _, s := range fold.Build(c.spec).Quick().Seams {
				t.Logf("%+v", s)
			}
		}
	}
}
