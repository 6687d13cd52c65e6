// Package scene turns a part and its pose into what is drawn: triangles, lines,
// labels, a camera and picking. It is pure Go and knows no screen; render draws
// it in the browser and scene/raster to a PNG. This file holds Picture, all that
// decides a frame but the camera, and the small types that cross to the page.
package scene

import (
	"strconv"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Picture is everything that decides a frame except the camera. It is a plain
// value: two equal pictures draw the same. The zero value draws an empty bench.
type Picture struct {
	Part   *fold.Part   // nil or not Foldable: only the scribed outline, if there is one
	State  fold.State   // one angle per bend; nil is flat
	Report *fold.Report // may be nil: then no ticks, and sizes are taken from the mesh

	Turning   []int // bends swung now, drawn in the accent's tint
	Draggable []int // bends that a finger may swing; a drag elsewhere orbits
	Select    Select

	Clash     *fold.Clash   // marked where the two meet; nil for none
	ClashText string        // the leader's words; "" names the two solids
	Cut       *fold.CutBack // drawn on the part and its blank, where Clash is; nil for none

	Ticks     bool       // feeler ticks and gap figures of Report.Seams; meant for the finished state
	TickScale float64    // gaps are drawn this many times as long; 0 takes DefaultTickScale. Wide seams: see TickScaleOf
	Touch     bool       // seams can be touched although no ticks are drawn
	Dims      bool       // overall length, width and height
	Sizes     []SizeMark // the sizes it was made by, drawn on the finished part

	NoBlank bool                    // without the blank scribed on the bench
	Format  func(mm float64) string // lengths on labels, in the user's units; nil: mm to 0.1
	Dark    bool
}

// DefaultTickScale is how many times longer than the gap a feeler tick is drawn.
const DefaultTickScale = 8

// Kind says what a Select or a Hit names.
type Kind int

// Kinds of things that can be touched.
const (
	None   Kind = iota
	Panel       // Index into Part.Panels
	Bend        // Index into Part.Bends
	Hole        // Index into Part.Spec.Holes
	Seam        // Index into Report.Seams
	Edge        // Contour and Index as in fold.Edge: a free edge of the blank
	Cutout      // Index into Part.Spec.Cutouts
)

// String is the kind in the words of the page: "panel", "bend", "hole", "seam",
// "edge", "cutout", or "" for None.
func (k Kind) String() string {
	return [...]string{"", "panel", "bend", "hole", "seam", "edge", "cutout"}[k]
}

// Select names one thing of the part; it is lit on the part and on the blank alike.
// The zero value selects nothing. Indexes out of range light nothing.
type Select struct {
	Kind    Kind
	Index   int
	Contour int // for an Edge: 0 the outline, then the cutouts
}

// Hit is what lies under a point of the screen. Kind is None on the empty bench.
type Hit struct {
	Select
	Name    string    // as the part or report names it
	OnBlank bool      // met on the scribed blank, not on the standing part
	Body    fold.Body // the solid under the finger; Index -1 for none
	At      geom.Vec2 // place on the blank, mm
	Point   geom.Vec3 // place in space, mm, bench coordinates (lift included)
	Swings  int       // the bend a drag from here would swing; -1 for none
	Mark    int       // index into Picture.Sizes of the size whose handle it is; -1 for none
}

// Style says how a label looks.
type Style int

// Styles of labels.
const (
	StyleDim   Style = iota // a size on its dimension line, halo of the ground
	StyleDatum              // a datum letter; whoever writes it draws the ring round it
	StyleGap                // a gap that is allowed
	StyleWatch              // a gap to watch
	StyleStop               // a gap or clash that stops
	StyleName               // the name of what is selected
)

// String is a name usable as a CSS class: "dim", "datum", "gap", "watch", "stop", "name".
func (s Style) String() string {
	return [...]string{"dim", "datum", "gap", "watch", "stop", "name"}[s]
}

// Label is words at a place in space.
type Label struct {
	At    geom.Vec3
	Text  string
	Style Style
	Away  geom.Vec3 // zero: centred on At; else moved off it along this direction on the screen
	// Figure: a gap's; it stands aside of other labels, or is left out. First: before all others, and never left out.
	Figure, First bool
}

// ScreenLabel is a label where it falls on the screen: X, Y is the middle of the
// text in CSS pixels from the canvas's upper left corner.
type ScreenLabel struct {
	X, Y  float64
	Text  string
	Style Style
	Align int // -1 text starts at X, 0 centred, 1 ends at X
}

// length formats a length with the picture's Format.
func (p *Picture) length(mm float64) string {
	if p.Format != nil {
		return p.Format(mm)
	}
	return strconv.FormatFloat(mm+0, 'f', 1, 64)
}

// state is the picture's state, flat where none or a wrong one is given.
func (p *Picture) state() fold.State {
	if len(p.State) != len(p.Part.Bends) {
		return p.Part.Flat()
	}
	return p.State
}
