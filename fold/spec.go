// Package fold is the part as a fabricator speaks of it: blank, panels, bends,
// seams, swings, and what is wrong with them. See kernel.md's definitions in
// DEVELOPERS.md. This file holds Spec, what a part file says; part.go holds
// Part, what is built from it.
package fold

import (
	"dryfold/fold/geom"
	"dryfold/fold/metal"
	"dryfold/fold/sizes"
)

// Spec is a part as its file gives it: every length in the file's own units
// (Units), every angle in degrees. It is a plain value: a change makes a new
// Spec, and Build makes the Part.
type Spec struct {
	Name  string
	Notes string // for whoever reads the part: up to MaxNotes characters, "" if none
	Units Units
	Sheet Sheet

	// Sizes is the part by sizes, nil for one given by its blank. With it, what stands from Outline to
	// Panels, Base and Seams is made from it by fold/shape, and not written to files.
	Sizes *sizes.Form

	Outline Contour
	Cutouts []Contour
	Holes   []Hole
	Bends   []BendSpec
	Panels  []PanelName

	Base  string // a panel's name; "" means the largest panel
	Seams []SeamSpec
	Order []Step // bends not listed follow in file order

	Joins  []JoinSpec // how seams are closed: by name, or for all
	Errors ErrorSpec  // what the maker's hand and machine may be out by; what is not said is by default

	AsCut  []CutSize    // what was measured on the cut blank
	Struck []StruckLine // lines scribed by mistake, which nobody is to cut

	Metals []metal.Own   // what the maker knows of metals; Sheet.Metal may name one
	Tests  []metal.Strip // the maker's test bends, lengths in the file's units
	Price  Price
}

// CutSize is a distance measured on the cut blank, between two points of the blank that should be cut.
type CutSize struct {
	From, To geom.Vec2
	Is       float64 // in the file's units
}

// StruckLine is a line that was scribed on the sheet by mistake, from one end to the other.
type StruckLine struct{ Line [2]geom.Vec2 }

// Price is what the maker charges by; zero figures are not said.
type Price struct {
	PerKg    float64    // of the rectangle that the blank is cut from
	PerSheet float64    // for a whole sheet of Sheet's size, in the file's units
	Sheet    [2]float64 // 0, 0 where not said
	PerHour  float64
	Hours    float64
	Currency string // in the maker's words; "" if not said
}

// Units of a part file.
type Units int

// The units a file may use. The zero value is mm.
const (
	MM Units = iota
	Inch
)

// Scale is how many mm one unit is.
func (u Units) Scale() float64 {
	if u == Inch {
		return 25.4
	}
	return 1
}

// String is the unit as files write it: "mm" or "in".
func (u Units) String() string {
	if u == Inch {
		return "in"
	}
	return "mm"
}

// Sheet is what the part is cut from.
type Sheet struct {
	Thickness float64
	Metal     string   // a name fold/metal may know; "" if not said
	K         *float64 // nil: by Rule if it names one, else by the test bends that fit, else by metal.DefaultRule
	KFrom     string   // where K comes from, in the maker's words; "": K is assumed
	Rule      string   // an ID of metal.Rules; "" leaves it to the test bends, then to metal.DefaultRule
	Grain     *float64 // degrees from x; nil if not said
	Good      string   // "up", "down" or "" if not said: which face will be seen
	Lip       *float64 // the shortest lip that the maker's brake has turned, outside; nil if not said
}

// Contour is a closed outline of straight edges and arcs. The last vertex joins the first.
type Contour []Vertex

// Vertex is a corner of a contour. With Through set, the edge that ends here is
// the arc from the vertex before, through that point.
type Vertex struct {
	At      geom.Vec2
	Through *geom.Vec2
}

// Hole is a round hole.
type Hole struct {
	At       geom.Vec2
	Diameter float64
}

// BendSpec is one bend as the file gives it.
type BendSpec struct {
	Name   string // "" takes "bend N", N its place in the file from 1
	Line   [2]geom.Vec2
	Angle  float64 // degrees turned from flat, over 0 to 240
	Radius float64 // inside
	Up     bool    // the far side turns towards the viewer of the blank
	// RadiusFrom is how Radius is known: one of RadiusKnown, "" for assumed.
	RadiusFrom string
}

// RadiusKnown are the ways in which a bend's inside radius can be known: measured on a bent
// strip, the radius of the nose it is bent on, from how far the bar is set back, assumed.
var RadiusKnown = []string{"strip", "nose", "bar-back", "assumed"}

// PanelName names the panel in which At lies.
type PanelName struct {
	Name string
	At   geom.Vec2
}

// SeamSpec names a seam by a point within 1 mm of one free edge each.
type SeamSpec struct {
	Name string
	A, B geom.Vec2
	Gap  *float64 // wanted gap; nil if not said
	Join string   // how it is joined, in the maker's words
	Open bool     // measured, never a trouble
}

// JoinSpec says how a seam is to be closed, or all seams that have no JoinSpec of their own.
type JoinSpec struct {
	Seam    string   // a seam's name; "" for all
	Way     string   // one of JoinWays; "" not said
	Process string   // of a weld, one of WeldProcesses; "" not said
	Widest  *float64 // the widest gap that the maker closes, in the file's units; nil: by a published figure, where there is one
}

// JoinWays are the ways in which a seam can be closed.
var JoinWays = []string{"weld", "rivet", "spot", "sealant", "open"}

// WeldProcesses are the ways to weld sheet that are told apart.
var WeldProcesses = []string{"short arc", "spray arc", "tig", "gas", "stick"}

// ErrorSpec is what hand and machine may be out by, as ranges plus and minus that hold 95 of 100. Its zero value says
// nothing, and leaves all to the defaults of fold/spread.
type ErrorSpec struct {
	AngleClass string   // of each bend: a class of ISO 2768-1, table 3: one of ErrorClasses; "" not said
	Angle      *float64 // instead of a class, degrees
	CutClass   string   // of each cut edge: a class of ISO 2768-1, table 1; "" not said
	Cut        *float64 // instead of a class, in the file's units
	Line       *float64 // where each bend line comes to lie under the nose, in the file's units
	Thickness  *float64 // of the sheet, in the file's units
	K          *float64 // of K; nil: what is known of its source
}

// ErrorClasses are ISO 2768-1's: fine, medium, coarse, very coarse.
var ErrorClasses = []string{"f", "m", "c", "v"}

// Step is one swing of the order: bends that turn together, or one bend to a part angle.
type Step struct {
	Bends []string
	To    *float64 // degrees; nil: each to its full angle. Only with one bend.
}
