package sizes

// This file holds the maker's own tools for cutting a blank by hand, as plain data: what
// fold/shape checks a blank's corners, notches, slots and holes against.

import (
	"fmt"
	"slices"
	"strconv"
)

// Tools are the maker's tools for cutting. Lengths in mm, angles in degrees. What is 0 was
// not said; Filled then takes what is common practice. A maker's tools are the bench's, not
// the part's, as the test bends are.
type Tools struct {
	Drills []float64 // diameters owned, in any order

	NoSaw    bool    // no saw is owned
	Kerf     float64 // the width of the saw's cut
	SawStart float64 // the hole that the saw's blade needs to begin inside the sheet
	Slot     float64 // the narrowest slot that saw, nibbler or file make. Not said: Kerf, without a saw Nibbler
	Nibbler  float64 // the width of the nibbler's cut; 0: none is owned
	Disc     float64 // the width of the cut-off disc's cut; 0: none is owned

	NoSnips      bool    // no snips are owned
	SnipsThick   float64 // the thickest sheet that they cut
	SnipsPast    float64 // how far straight snips cut past an inside corner before the waste comes free
	SnipsLeft    float64 // the tightest inside radius that left-hand snips follow
	SnipsRight   float64 // and right-hand ones
	LeastNotch   float64 // the sharpest notch that snips open to its point, between its sides, degrees
	SnipsAcross  float64 // the shortest bottom of a notch that snips cut across, from side to side
	ShearsLength float64 // the shears' (guillotine's) longest cut; 0: none are owned
}

// toolField is one of the plain figures of Tools.
type toolField struct {
	key   string
	label string
	of    func(*Tools) *float64
	most  float64 // larger is a slip of the pen
	usual float64 // 0: none, or another field's
	why   string  // where usual comes from
}

// angle reports whether the figure is in degrees; else it is in mm.
func (f toolField) angle() bool { return f.key == "least_notch" }

// toolFields in the order in which a form asks for them. None of the usual figures stands in
// a book that was read for them: they are common practice, without a source.
var toolFields = []toolField{
	{"kerf", "Saw: width of its cut", func(t *Tools) *float64 { return &t.Kerf }, 20, 0.8, "a hacksaw's or jigsaw's blade for metal with its set"},
	{"saw_start", "Saw: hole to begin inside the sheet", func(t *Tools) *float64 { return &t.SawStart }, 200, 8, "a jigsaw's blade just passes"},
	{"narrowest_slot", "Narrowest slot you can make", func(t *Tools) *float64 { return &t.Slot }, 200, 0, "one cut of the saw, or else of the nibbler"},
	{"nibbler", "Nibbler: width of its cut", func(t *Tools) *float64 { return &t.Nibbler }, 200, 0, "none"},
	{"disc", "Cut-off disc: width of its cut", func(t *Tools) *float64 { return &t.Disc }, 20, 0, "none"},
	{"snips_thickest", "Snips: thickest sheet", func(t *Tools) *float64 { return &t.SnipsThick }, 10, 1.2, "what hand snips are sold for in mild steel; less in stainless"},
	{"snips_past", "Snips: cut past an inside corner by", func(t *Tools) *float64 { return &t.SnipsPast }, 200, 1, "the tips must pass the corner before the waste comes free"},
	{"snips_left", "Left-hand snips: tightest inside radius", func(t *Tools) *float64 { return &t.SnipsLeft }, 2000, 25, "as snips with offset handles turn in thin sheet"},
	{"snips_right", "Right-hand snips: tightest inside radius", func(t *Tools) *float64 { return &t.SnipsRight }, 2000, 25, "as snips with offset handles turn in thin sheet"},
	{"least_notch", "Snips: sharpest notch, degrees between its sides", func(t *Tools) *float64 { return &t.LeastNotch }, 170, 30, "the blades' own width spreads a sharper one"},
	{"snips_across", "Snips: shortest bottom of a notch", func(t *Tools) *float64 { return &t.SnipsAcross }, 2000, 12, "room for the two tips, turned across"},
	{"shears", "Shears: longest cut", func(t *Tools) *float64 { return &t.ShearsLength }, 1e5, 0, "none"},
}

// Filled is the tools with what was not said taken as is common practice: drills from 1 to 13 mm by
// halves, or where inch is set from 1/16 to 1/2 in by 64ths. Drills are in order, each once.
// Filled of filled tools changes nothing.
func (t Tools) Filled(inch bool) Tools {
	for _, f := range toolFields {
		if x := f.of(&t); *x == 0 {
			*x = f.usual
		}
	}
	if t.Slot == 0 {
		t.Slot = t.Kerf
		if t.NoSaw && t.Nibbler > 0 {
			t.Slot = t.Nibbler
		}
	}
	if len(t.Drills) == 0 {
		t.Drills = usualDrills(inch)
	} else {
		t.Drills = slices.Clone(t.Drills)
		slices.Sort(t.Drills)
		t.Drills = slices.Compact(t.Drills)
	}
	return t
}

func usualDrills(inch bool) (out []float64) {
	if inch {
		for n := 4; n <= 32; n++ {
			out = append(out, 25.4*float64(n)/64)
		}
		return out
	}
	for n := 2; n <= 26; n++ {
		out = append(out, float64(n)/2)
	}
	return out
}

// ToolLine is one figure of the tools as a form shows it.
type ToolLine struct {
	Key   string // the field in a bench file, under "tools"
	Label string
	Angle bool    // degrees; else mm
	Value float64 // as it is used; 0: no such tool
	Said  bool    // by the maker
	From  string  // where Value comes from
}

// Lines are the figures that a form asks for, without the drills.
func (t Tools) Lines() []ToolLine {
	full := t.Filled(false)
	var out []ToolLine
	for _, f := range toolFields {
		l := ToolLine{Key: f.key, Label: f.label, Angle: f.angle(), Value: *f.of(&full), Said: *f.of(&t) != 0, From: "your own"}
		if !l.Said {
			l.From = "common practice, no source: " + f.why
			if f.why == "none" {
				l.From = "none said"
			}
		}
		out = append(out, l)
	}
	return out
}

// DrillsFrom says where the drills come from.
func (t Tools) DrillsFrom(inch bool) string {
	switch {
	case len(t.Drills) > 0:
		return "your own"
	case inch:
		return "common practice, no source: 1/16 to 1/2 in by 64ths"
	}
	return "common practice, no source: 1 to 13 mm by halves"
}

// Get is the figure of that key, false where there is none. 0: not said.
func (t Tools) Get(key string) (float64, bool) {
	for _, f := range toolFields {
		if f.key == key {
			return *f.of(&t), true
		}
	}
	return 0, false
}

// Set is the tools with that figure, false where there is no such key. 0 takes back what was said.
func (t Tools) Set(key string, x float64) (Tools, bool) {
	for _, f := range toolFields {
		if f.key == key {
			*f.of(&t) = x
			return t, true
		}
	}
	return t, false
}

// Scaled is the tools with every length times k; the angle stays.
func (t Tools) Scaled(k float64) Tools {
	t.Drills = slices.Clone(t.Drills)
	for i := range t.Drills {
		t.Drills[i] *= k
	}
	for _, f := range toolFields {
		if !f.angle() {
			*f.of(&t) *= k
		}
	}
	return t
}

// IsZero reports that nothing was said.
func (t Tools) IsZero() bool {
	for _, f := range toolFields {
		if *f.of(&t) != 0 {
			return false
		}
	}
	return len(t.Drills) == 0 && !t.NoSaw && !t.NoSnips
}

// Check refuses what can't be a tool: the first such figure, nil where there is none. The bounds
// it prints are in mm, its paths those of a bench file ("tools.drills[2]", "tools.kerf").
func (t Tools) Check() *Error {
	if len(t.Drills) > MaxDrills {
		return &Error{Path: "tools.drills", Found: fmt.Sprintf("%d drills", len(t.Drills)), Need: fmt.Sprintf("at most %d", MaxDrills)}
	}
	for i, d := range t.Drills {
		if !(d >= LeastTool && d <= MaxDrill) {
			return &Error{Path: at("tools.drills", i), Found: plain(d), Need: fmt.Sprintf("a diameter from %s mm to %s mm", plain(LeastTool), plain(MaxDrill))}
		}
	}
	for _, f := range toolFields {
		if x := *f.of(&t); x != 0 && !(x >= LeastTool && x <= f.most) {
			unit := " mm"
			if f.angle() {
				unit = " degrees"
			}
			return &Error{Path: "tools." + f.key, Found: plain(x), Need: plain(LeastTool) + unit + " to " + plain(f.most) + unit + ", or nothing where it is not known"}
		}
	}
	return nil
}

// plain writes a figure for a message, however large.
func plain(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }
