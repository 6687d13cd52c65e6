package shape

import (
	"dryfold/fold"
	"dryfold/fold/sizes"
)

// This file holds the starters with walls all round. Their swings are such that a finger
// brake can follow them: rims first, while the blank is flat, the sides before front and
// back, whose fingers then stand between them, and a bend across the floor last.

func startTray(u fold.Units) fold.Spec {
	s := newStarting(u, "Tray")
	s.ask("wide", "Wide at the top", 200, 8)
	s.ask("long", "Long at the top", 300, 12)
	s.ask("high", "High", 50, 2)
	s.askAngle("lean", "Walls lean out", 0)
	s.base("floor", "wide", "", "long")
	s.form.Base.AtTop = true
	s.walls("high", "90 - lean")
	return s.order("left", "right", "front", "back")
}

func startTaperedTray(u fold.Units) fold.Spec {
	s := newStarting(u, "Tapered tray")
	s.ask("wide", "Wide at the front", 160, 6)
	s.ask("wide_back", "Wide at the back", 240, 9)
	s.ask("long", "Long", 300, 12)
	s.ask("high", "High", 60, 2.5)
	s.askAngle("lean", "Walls lean out", 10)
	s.base("floor", "wide", "wide_back", "long")
	s.walls("high", "90 - lean")
	return s.order("left", "right", "front", "back")
}

// startSteppedTray has a floor of two panels; its sides run straight on over the bend.
func startSteppedTray(u fold.Units) fold.Spec {
	s := newStarting(u, "Stepped tray")
	s.ask("wide", "Wide at the front", 190, 7.5)
	s.ask("wide_back", "Wide at the back", 210, 8.5)
	s.ask("long", "Long, front floor", 200, 8)
	s.ask("long_2", "Long, back floor", 150, 6)
	s.askAngle("rise", "Back floor rises", 14)
	s.ask("high", "Walls high", 50, 2)
	s.askAngle("lean", "Walls lean out", 0)
	const taper = "atan((wide - wide_back) / 2 / (long + long_2))"
	s.base("floor", "wide", "wide + (wide_back - wide) * long / (long + long_2)", "long")
	f := s.flange("floor 2", "floor", "back", "long_2", "rise")
	f.Along, f.LeanStart, f.LeanEnd = true, asFormula(taper), asFormula(taper)
	s.flange("left", "floor", "left", "high", "90 - lean")
	s.flange("right", "floor", "right", "high", "90 - lean")
	s.flange("left 2", "floor 2", "end", "high", "90 - lean")
	s.flange("right 2", "floor 2", "start", "high", "90 - lean")
	s.flange("front", "floor", "front", "high", "90 - lean")
	s.flange("back", "floor 2", "top", "high", "90 - lean")
	out := s.spec
	for _, bends := range [][]string{{"left", "left 2"}, {"right", "right 2"}, {"front"}, {"back"}, {"floor 2"}} {
		out.Order = append(out.Order, fold.Step{Bends: bends})
	}
	return out
}

func startHopper(u fold.Units) fold.Spec {
	s := newStarting(u, "Hopper")
	s.ask("wide", "Floor, wide", 130, 5)
	s.ask("long", "Floor, long", 150, 6)
	s.ask("high", "High", 110, 4.5)
	s.askAngle("lean", "Sides lean out", 30)
	s.askAngle("lean_ends", "Front and back lean out", 30)
	s.ask("lip", "Lip, wide", 22, 1)
	s.ask("outlet", "Outlet, across", 76, 3)
	s.base("floor", "wide", "", "long")
	lean := map[string]string{"front": "lean_ends", "right": "lean", "back": "lean_ends", "left": "lean"}
	for _, side := range wallNames {
		s.flange(side, "floor", side, "high", "90 - "+lean[side])
	}
	for _, side := range wallNames {
		f := s.flange(side+" lip", side, "top", "lip", "90 - "+lean[side])
		f.Down, f.Along = true, true
	}
	s.form.Holes = []sizes.Hole{{Name: "outlet", On: "floor", X: asFormula("wide / 2"), Y: asFormula("long / 2"), Wide: asFormula("outlet")}}
	return s.order("front lip", "back lip", "left lip", "right lip", "left", "right", "front", "back")
}

func startBox(u fold.Units) fold.Spec {
	s := newStarting(u, "Box")
	s.ask("wide", "Wide", 160, 6)
	s.ask("long", "Long", 240, 10)
	s.ask("high", "High", 90, 3.5)
	s.base("floor", "wide", "", "long")
	s.walls("high", "")
	return s.order("left", "right", "front", "back")
}

// startLid is drawn with its inside up, as it is bent; its sizes run to its inside faces.
func startLid(u fold.Units) fold.Spec {
	s := newStarting(u, "Lid")
	s.ask("box_wide", "Box, wide outside", 160, 6)
	s.ask("box_long", "Box, long outside", 240, 10)
	s.ask("play", "Play, at each side", 0.5, 0.02)
	s.ask("down", "Reaches down the box", 25, 1)
	s.form.Faces = sizes.Inside
	s.base("top", "box_wide + 2 * play", "", "box_long + 2 * play")
	for _, side := range wallNames {
		s.flange(side, "top", side, "down", "")
	}
	s.spec.Sheet.Good = "down"
	return s.order("left", "right", "front", "back")
}
