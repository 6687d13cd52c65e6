package shape

import (
	"dryfold/fold"
	"dryfold/fold/sizes"
)

// This file holds the starters without walls all round: sections along one length, and
// a bracket.

func startChannel(u fold.Units) fold.Spec {
	s := newStarting(u, "Channel")
	s.ask("long", "Long", 400, 16)
	s.ask("wide", "Web, wide", 80, 3)
	s.ask("left", "Left flange, high", 40, 1.5)
	s.ask("right", "Right flange, high", 40, 1.5)
	s.base("web", "wide", "", "long")
	s.flange("left", "web", "left", "left", "")
	s.flange("right", "web", "right", "right", "")
	return s.order("left", "right")
}

func startAngle(u fold.Units) fold.Spec {
	s := newStarting(u, "Angle")
	s.ask("long", "Long", 400, 16)
	s.ask("leg", "Leg 1, wide", 50, 2)
	s.ask("leg_2", "Leg 2, wide", 40, 1.5)
	s.askAngle("between", "Angle between the legs", 90)
	s.base("leg", "leg", "", "long")
	s.flange("leg 2", "leg", "left", "leg_2", "180 - between").Along = true
	return s.order("leg 2")
}

// startZSection lies on its web: the left flange goes up, the right one down.
func startZSection(u fold.Units) fold.Spec {
	s := newStarting(u, "Z")
	s.ask("long", "Long", 400, 16)
	s.ask("web", "Web, over both flanges", 60, 2.5)
	s.ask("up", "Flange turned up", 30, 1.25)
	s.ask("down", "Flange turned down", 30, 1.25)
	s.base("web", "web", "", "long")
	s.flange("left", "web", "left", "up", "")
	s.flange("right", "web", "right", "down", "").Down = true
	return s.order("left", "right")
}

// startHat stands crown up on its feet.
func startHat(u fold.Units) fold.Spec {
	s := newStarting(u, "Hat")
	s.ask("long", "Long", 400, 16)
	s.ask("crown", "Crown, wide", 60, 2.5)
	s.ask("high", "High", 40, 1.5)
	s.ask("foot", "Feet, wide", 25, 1)
	s.askAngle("lean", "Webs lean out", 0)
	s.base("crown", "crown", "", "long")
	s.flange("left web", "crown", "left", "high", "90 - lean").Down = true
	s.flange("right web", "crown", "right", "high", "90 - lean").Down = true
	s.flange("left foot", "left web", "top", "foot", "90 - lean").Along = true
	s.flange("right foot", "right web", "top", "foot", "90 - lean").Along = true
	return s.order("left foot", "right foot", "left web", "right web")
}

func startBracket(u fold.Units) fold.Spec {
	s := newStarting(u, "Bracket with gussets")
	s.ask("wide", "Wide", 80, 3)
	s.ask("foot", "Foot, long", 100, 4)
	s.ask("high", "Upright, high", 120, 5)
	s.ask("front", "Gussets, high at the front", 15, 0.6)
	s.ask("bolt", "Bolt holes, across", 6.5, 0.28)
	s.ask("apart", "Bolt holes, apart", 40, 1.5)
	s.base("foot", "wide", "", "foot")
	s.flange("upright", "foot", "back", "high", "")
	s.flange("left gusset", "foot", "left", "high", "").HeightEnd = asFormula("front") // begins at the back
	f := s.flange("right gusset", "foot", "right", "front", "")
	f.HeightEnd = asFormula("high")
	// The foot's holes lie before its middle, the upright's over its middle, out of the gussets' way.
	hole := sizes.Hole{Name: "foot bolts", On: "foot", X: asFormula("(wide - apart) / 2"), Y: asFormula("foot * 0.4"),
		Wide: asFormula("bolt"), Count: 2, Step: asFormula("apart")}
	up := hole
	up.Name, up.On, up.Y = "upright bolts", "upright", asFormula("high * 0.7")
	s.form.Holes = []sizes.Hole{hole, up}
	return s.order("left gusset", "right gusset", "upright")
}

func startCornerGuard(u fold.Units) fold.Spec {
	s := newStarting(u, "Corner guard")
	s.ask("long", "Long", 600, 24)
	s.ask("leg", "Leg 1, wide", 50, 2)
	s.ask("leg_2", "Leg 2, wide", 50, 2)
	s.askAngle("between", "Angle between the legs", 90)
	s.ask("hem", "Hems, wide", 10, 0.4)
	s.base("leg", "leg", "", "long")
	s.flange("leg 2", "leg", "left", "leg_2", "180 - between").Along = true
	s.hem("hem", "leg", "right")
	s.hem("hem 2", "leg 2", "top")
	s.spec.Sheet.Good = "down"
	return s.order("hem", "hem 2", "leg 2")
}

// startDripEdge lies on its roof leaf; what is seen of it is its upper face.
func startDripEdge(u fold.Units) fold.Spec {
	s := newStarting(u, "Drip edge")
	s.ask("long", "Long", 600, 24)
	s.ask("roof", "On the roof", 80, 3)
	s.askAngle("pitch", "The roof falls", 20)
	s.ask("face", "Face, down the board", 60, 2.5)
	s.ask("kick", "Kick, wide", 20, 0.8)
	s.askAngle("out", "Kick turns out", 45)
	s.ask("hem", "Hem, wide", 10, 0.4)
	s.base("roof", "long", "", "roof")
	f := s.flange("face", "roof", "front", "face", "90 - pitch")
	f.Down, f.Along = true, true
	s.flange("kick", "face", "top", "kick", "out").Along = true
	s.hem("hem", "kick", "top").Down = true
	return s.order("hem", "kick", "face")
}

// hem adds an edge folded back up, as wide as the size "hem", its clear gap a thickness of the sheet.
func (s starting) hem(name, on, side string) *sizes.Flange {
	s.form.Flanges = append(s.form.Flanges, sizes.Flange{Name: name, On: on, Side: side, Height: asFormula("hem"),
		Hem: &sizes.Hem{Clear: sizes.Is(s.spec.Sheet.Thickness)}})
	return &s.form.Flanges[len(s.form.Flanges)-1]
}
