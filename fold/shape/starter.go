package shape

import (
	"dryfold/fold"
	"dryfold/fold/metal"
	"dryfold/fold/sizes"
)

// This file holds what starters are and what they share; starter_trays.go has those with
// walls all round, starter_strips.go the long ones, starter_set.go sets their sizes.

// Starter is a ready part by sizes to begin from. What a maker is asked are the named
// sizes of its form, in their order; all else in the form is a formula over them.
type Starter struct {
	ID    string // as the command takes it
	Title string // as the page shows it, and the part's name
	Note  string // one line: what it is and how it is measured
	// Make gives the part with sizes of our own: whole ones in the units, of 1 mm or
	// 0.04 in sheet of the metal that is listed first.
	Make func(units fold.Units) fold.Spec
}

// Starters are all starters, in the order in which they are shown.
var Starters = []Starter{
	{"tray", "Tray", "A flat floor and four walls alike.", startTray},
	{"tapered-tray", "Tapered tray", "Its floor is wider at one end, its walls lean out. Sizes at the floor.", startTaperedTray},
	{"stepped-tray", "Stepped tray", "Its floor rises by a bend across it; the walls are cut to a V there. Sizes at the floor.", startSteppedTray},
	{"hopper", "Hopper", "Four walls flare out from an outlet, with a level lip to hang or bolt it by.", startHopper},
	{"box", "Box", "A deep tray to put a lid on.", startBox},
	{"lid", "Lid", "Slips over a box, with play. Give the box as it measures outside.", startLid},
	{"channel", "Channel", "A web with two flanges turned the same way.", startChannel},
	{"angle", "Angle", "Two legs along one bend, square or not.", startAngle},
	{"z", "Z", "A web with two flanges turned opposite ways.", startZSection},
	{"hat", "Hat", "A crown, two webs and two feet.", startHat},
	{"bracket", "Bracket with gussets", "A foot and an upright, stiffened by a gusset at each side.", startBracket},
	{"corner-guard", "Corner guard", "Two legs over a corner, their edges hemmed on the inside.", startCornerGuard},
	{"drip-edge", "Drip edge", "Lies on a roof’s edge, goes down before the board and kicks out, hemmed.", startDripEdge},
}

// StarterByID finds a starter.
func StarterByID(id string) (Starter, bool) {
	for _, s := range Starters {
		if s.ID == id {
			return s, true
		}
	}
	return Starter{}, false
}

// asFormula is short for a formula.
func asFormula(formula string) sizes.Field { return sizes.Of(formula) }

// starting is a part with nothing but its sheet and its bends' radius and gap.
type starting struct {
	units fold.Units
	spec  fold.Spec
	form  *sizes.Form
}

func newStarting(units fold.Units, title string) starting {
	form := &sizes.Form{Radius: sizes.Is(1), Gap: sizes.Is(0.5)}
	s := fold.Spec{Name: title, Units: units, Sizes: form,
		Sheet: fold.Sheet{Thickness: 1, Metal: metal.Metals[0].Name, Good: "up"}}
	if units == fold.Inch {
		s.Sheet.Thickness, form.Radius, form.Gap = 0.04, sizes.Is(0.04), sizes.Is(0.02)
	}
	return starting{units, s, form}
}

// ask adds a named length, as it is in mm and in inches.
func (s starting) ask(name, label string, mm, in float64) {
	x := mm
	if s.units == fold.Inch {
		x = in
	}
	s.form.Named = append(s.form.Named, sizes.Named{Name: name, Label: label, Is: sizes.Is(x)})
}

// askAngle adds a named angle in degrees.
func (s starting) askAngle(name, label string, degrees float64) {
	s.form.Named = append(s.form.Named, sizes.Named{Name: name, Label: label, Is: sizes.Is(degrees), Angle: true})
}

// base sets a base by formulas; wideBack "" for a rectangle.
func (s starting) base(name, wide, wideBack, long string) {
	b := &s.form.Base
	b.Name, b.Wide, b.Long = name, asFormula(wide), asFormula(long)
	if wideBack != "" {
		b.WideBack = asFormula(wideBack)
	}
}

// flange adds a flange bent up by the angle given, "" for 90 degrees, its height square
// to the panel that it stands on. What it gives may be changed until the next is added.
func (s starting) flange(name, on, side, height, angle string) *sizes.Flange {
	f := sizes.Flange{Name: name, On: on, Side: side, Height: asFormula(height)}
	if angle != "" {
		f.Angle = asFormula(angle)
	}
	s.form.Flanges = append(s.form.Flanges, f)
	return &s.form.Flanges[len(s.form.Flanges)-1]
}

// walls are the four walls of a floor, alike.
func (s starting) walls(height, angle string) {
	for _, side := range wallNames {
		s.flange(side, "floor", side, height, angle)
	}
}

// order sets the swings; each is one bend.
func (s starting) order(bends ...string) fold.Spec {
	out := s.spec
	for _, b := range bends {
		out.Order = append(out.Order, fold.Step{Bends: []string{b}})
	}
	return out
}
