// Package fold is the part as a fabricator speaks of it: blank, panels, bends,
// seams, swings, and what is wrong with them. See kernel.md's definitions in
// DEVELOPERS.md. This file holds Spec, what a part file says; part.go holds
// Part, what is built from it.
package fold

import "dryfold/fold/geom"

// Spec is a part as its file gives it: every length in the file's own units
// (Units), every angle in degrees. It is a plain value: a change makes a new
// Spec, and Build makes the Part.
type Spec struct {
	Name  string
	Notes string // for whoever reads the part: up to MaxNotes characters, "" if none
	Units Units
	Sheet Sheet

	Outline Contour
	Cutouts []Contour
	Holes   []Hole
	Bends   []BendSpec
	Panels  []PanelName

	Base  string // a panel's name; "" means the largest panel
	Seams []SeamSpec
	Order []Step // bends not listed follow in file order
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
	K         *float64 // nil: by rule (fold/metal)
	Grain     *float64 // degrees from x; nil if not said
	Good      string   // "up", "down" or "" if not said: which face will be seen
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
}

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

// Step is one swing of the order: bends that turn together, or one bend to a part angle.
type Step struct {
	Bends []string
	To    *float64 // degrees; nil: each to its full angle. Only with one bend.
}
