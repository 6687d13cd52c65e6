package fold

import "dryfold/fold/geom"

// Rule is a named check, with what it finds in a fabricator's words.
type Rule struct {
	Name string
	What string
}

// Rules lists every rule that a Trouble can name, in the order they are checked.
var Rules = []Rule{
	{"bad-number", "a size in the part is not a number, not positive, or far too large"},
	{"blank-overlap", "the blank's outline crosses or touches itself, so it can't be cut from one sheet"},
	{"void-off-sheet", "a hole or cutout lies off the sheet or runs out through its edge"},
	{"voids-meet", "two holes or cutouts run into each other"},
	{"panel-name", "a panel's name points at no panel, or two names at one"},
	{"base", "the base names no panel of the cut blank"},
	{"bend-misses", "a bend line does not cross the material"},
	{"bend-short", "a bend line stops inside the material instead of at a free edge"},
	{"bend-bare", "a bend has no material on one of its tangent lines, wholly or for a part"},
	{"relief-short", "the cuts beside a bend end inside its zone, so that a panel's edge would bend along"},
	{"bend-splits", "a bend joins more than two panels"},
	{"bends-crowd", "two bend zones have no panel left between them"},
	{"line-in-zone", "a bend line lies inside another bend's zone"},
	{"zones-overlap", "two bend zones overlap; the metal there can't follow both bends"},
	{"bend-loop", "bends close a ring, so the sheet can't fold without tearing"},
	{"loose-panel", "a panel is joined to the rest by no bend"},
	{"void-in-bend", "a hole or slot crosses a bend"},
	{"metal-unknown", "the metal is none of the list and none of the maker's own"},
	{"test-bend", "a test bend is impossible or off the others, or there is something to know of them"},
	{"tests-unused", "the part's K or rule goes before test bends that fit"},
	{"radius-tight", "an inside radius is under the least that lists give for the metal, its thickness and the grain"},
	{"sharp-bend", "a bend has inside radius 0"},
	{"scribe-line", "aluminium: bend lines must not be scribed on the outside"},
	{"hole-near-bend", "a hole or cutout lies nearer to a bend than lists allow"},
	{"relief-narrow", "a relief beside a bend, or a relief hole where two bends meet, is smaller than lists ask for"},
	{"lip-short", "a lip is shorter than the shortest that the maker's brake has turned"},
	{"cut-too-narrow", "a slot, notch or cutout is narrower, or closes more sharply, than the maker's tools cut"},
	{"cut-no-drill", "a hole or a round corner is of no drill that the maker owns"},
	{"cut-no-tool", "a cut that none of the maker's tools makes"},
	{"cut-sliver", "a strip of metal beside a cut is so narrow that it curls or tears"},
	{"shears-short", "an edge that runs right across the blank is longer than the maker's shears cut"},
	{"struck-line", "a line that was struck out as scribed by mistake lies on an edge or bend line"},
	{"blank-no-fit", "the blank is larger than the sheet"},
	{"hole-eaten", "how far a hole runs into a relief, notch or edge"},
	{"panel-vanishes", "a panel has hardly any width left between its bends and edges"},
	{"flange-cut-off", "a flange by sizes runs out in a point before it is as high as was asked"},
	{"sizes", "sizes that make no part"},
	{"misfit", "what was measured of a base does not fit together"},
	{"corner-opens", "a corner by sizes opens more than its wanted gap, and no cut can close it"},
	{"corner-step", "the faces at a corner by sizes stand apart, and no cut can change that"},
	{"panels-overlap", "two panels lie in each other in the finished part"},
	{"clash", "two parts of the sheet meet while a bend is made"},
	{"close-pass", "two parts of the sheet pass each other in a swing with less room than errors of hand and machine may take"},
	{"fouls-on-overbend", "two parts of the sheet meet while the leaf goes past the bend's angle, and are clear again when it springs back"},
	{"seam-name", "a named seam's point lies near no free edge, or near several"},
	{"seam-join", "what is said of how a seam is closed names no seam of the part, or wants an overlap that is not there"},
	{"seam-wide", "a seam gapes more than its limit: the maker's own, or a list's for such a joint"},
	{"seam-tight", "a seam lies closer than its weld wants"},
	{"seam-overlap", "the panels of a seam lie in each other"},
	{"seam-step", "the two faces of a seam are offset from each other"},
	{"seam-no-figure", "seams open past half the thickness, and nobody says how wide they may be"},
	{"seam-spread", "seams may open past their limits, or come too close, by the errors of hand and machine"},
}

func number(x float64) *float64 { return &x }

func (p *Part) trouble(sev Severity, rule, kind, name string, at geom.Vec2, have, need *float64, msg string) {
	p.Troubles = append(p.Troubles, Trouble{sev, rule, kind, name, at, have, need, msg})
}
