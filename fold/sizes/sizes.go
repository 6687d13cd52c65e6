// Package sizes is the sizes form of a part as plain data: what a maker measures on
// the finished piece with a tape and a level. It knows nothing of parts; fold/shape makes
// the part of it, fold/partfile reads and writes it.
//
// This file holds the Form, formula.go the formulas that its fields may be.
package sizes

// Field is a size as the maker gives it: a number, or a formula over named sizes
// ("rail - 12"). Lengths are in the part's units, angles in degrees.
//
// The zero value is a size that is not given; a given 0 is Is(0).
type Field struct {
	Number  float64
	Formula string // "" where Number holds
	Given   bool
}

// Is is a Field of a plain number.
func Is(x float64) Field { return Field{Number: x, Given: true} }

// Of is a Field of a formula.
func Of(formula string) Field { return Field{Formula: formula, Given: true} }

// Named is a size with a name that formulas use.
type Named struct {
	Name  string // letters, digits and _, beginning with a letter
	Is    Field
	Label string // what it measures, in plain words; "" is Name. The page asks by it
	Angle bool   // degrees; else a length in the part's units
}

// Faces says which faces the sizes run to.
type Faces int

// Faces. The zero value is the outside faces.
const (
	Outside Faces = iota // to the sharps of the outside faces
	Inside               // to the sharps of the inside faces
	Card                 // a card pattern's: between creases, which lie on the inside faces, and along the card
)

// Form is the sizes form of a part: a base lying still and flanges on its sides
// and on each other. Together with a Spec's metal, tests, price and order it is the
// whole part; the blank is made from it.
//
// "Outside" and "inside" are meant as on a tray that stands open upwards: the inside
// faces are the base's upper face and those faces of its flanges that come from it.
// For a flange that goes down it is the other way about, so that outside sizes are
// always the larger.
type Form struct {
	Named   []Named
	Faces   Faces
	Radius  Field // inside radius of bends that have none of their own
	Gap     Field // wanted gap of corners that have none of their own
	Relief  Relief
	Mirror  bool // the other hand: left and right change places
	Base    Base
	Flanges []Flange
	Corners []Corner // how walls meet, where it is not the usual way
	Holes   []Hole
}

// Point is a point of an outline, arcs as in fold.Contour.
type Point struct {
	X, Y     Field
	Through  bool // the edge that ends here is an arc through ThX, ThY
	ThX, ThY Field
}

// Base is the panel that lies still. Its sizes are to the faces that Form.Faces names,
// as if its bends had no radius; sides without a flange are cut there.
//
// The sides run counter-clockwise seen from above, from the front left corner: front
// (along x), right, back, left. An outline's corners may be given either way round.
type Base struct {
	Name  string   // "" is "floor"
	Sides []string // names of the sides; missing ones are front, right, back, left for four, else "side N"
	AtTop bool     // sizes are taken at the top of the flanges that stand on it; else at the base itself

	// A rectangle, or a trapezoid with equal legs where WideBack is given.
	Wide, WideBack, Long Field

	Points   []Point   // any outline
	Measured *Measured // or measured in another way
}

// Way of measuring a base that is no rectangle.
type Way int

// Ways.
const (
	BySides    Way = iota // Sides in order, and diagonals
	ByStations            // widths at several stations from one datum
	ByAngles              // Sides in order, and the angles between them
)

// Measured is a base as a tape, a square or a level reads it. Where more is measured
// than is needed the sizes are fitted, and the misfit is told.
type Measured struct {
	Way   Way
	Sides []Field // in order: front, right, back, left, or any number. One that was not measured is not Given
	// Diagonals of a four-sided base: front left to back right, front right to back
	// left. Of one with more sides: from the first corner to the third, fourth, ...
	Diagonals []Field
	Angles    []Field // between sides, inside the base, degrees: at the first corner, ... Not Given where not measured
	Stations  []Station
}

// Station is a width at a distance from the datum, the base's front. Left and Right
// are how far its sides lie from a straight line square to the datum; where only
// Wide is given the width lies evenly about it.
type Station struct {
	At, Left, Right, Wide Field
}

// Flange is a panel that is bent up or down on a side of another.
type Flange struct {
	Name string
	On   string // the panel's name: the base's or another flange's
	// Side of that panel: one of the base's sides; of a flange "top" (its free edge along
	// the bend, and what is meant by ""), "start" or "end" (its ends, counter-clockwise
	// round the panel it stands on), or "top 2" and so on for a free edge of several straight pieces.
	Side     string
	From, To Field // insets from that side's two ends, as measured on the finished part

	Height Field
	Along  bool   // Height runs along the flange from the sharp; else square to the panel it stands on
	Faces  *Faces // nil: as Form.Faces
	Angle  Field  // turned from flat, over 0 to 240. Not Given: 90
	Down   bool
	Radius Field // inside. Not Given: Form.Radius
	// RadiusFrom is how the radius is known, as in fold.BendSpec.
	RadiusFrom string

	HeightEnd Field   // a sloped edge: the height at the side's end. Not Given: Height
	Edge      []Point // any free edge: X along the side from its start, Y a height as Height is; from start to end
	// Ends: how far each end leans inwards from square to the bend, degrees. Where a corner
	// is closed the corner decides.
	LeanStart, LeanEnd Field

	Hem    *Hem
	Joggle *Joggle
}

// Hem is an edge folded back on its own panel. The flange's Height is how far the
// folded edge reaches back from the fold; Angle and Radius are not Given.
type Hem struct {
	Clear    Field // clear gap between the two faces; 0 is flat down
	Teardrop bool  // turned past 180, so that the edge touches: Clear is at the fold
}

// Joggle is a step in a flange made by two opposite bends: the flange then goes on
// beside its own face.
type Joggle struct {
	At    Field // height at which it begins, measured as Height is
	Depth Field // how far the face is moved; usually the thickness and a little
	Angle Field // of both bends. Not Given: 45
	Out   bool  // to the outside; else to the inside
}

// Closing is how two walls meet.
type Closing int

// Closings.
const (
	Usual Closing = iota // edge to edge for walls, mitre over a bend and for rims
	Edges                // edge to edge: both end short of where the inside faces meet
	Lap                  // one runs on over the other's end
	Mitre                // both are cut along the plane between them
	Apart                // they do not meet: each ends as it is given
)

// Corner says how two neighbouring flanges meet.
type Corner struct {
	A, B    string // flanges' names
	Close   Closing
	Over    string // Lap: the flange that runs on
	Past    Field  // Lap: how far it runs past the other's outside face; less than 0 ends short of it
	Gap     Field  // wanted; not Given: Form.Gap
	Relief  *Relief
	InPlane bool // Mitre over a bend: the second wall is turned so that both lie in one plane
}

// ReliefKind is how a relief is made.
type ReliefKind int

// Kinds of reliefs.
const (
	Snipped ReliefKind = iota // cut straight across the corner with snips
	Drilled                   // a hole, drilled before the notch is cut into it
	Sawn                      // cut square, with a saw or a nibbler
	Bare                      // none: no more than the zones need to clear each other
)

// Relief is what is taken out where two bends meet or a bend ends.
type Relief struct {
	Kind ReliefKind
	// Size is the drill's diameter, or how far the cut reaches past the bends' tangent
	// lines. Not Given, or less than is needed: the least that does.
	Size Field
}

// HoleShape is what is cut.
type HoleShape int

// Shapes of holes.
const (
	Round  HoleShape = iota
	Slot             // Long over all, Wide across, with round ends
	Window           // a rectangle
	Cutout           // Points, from At
)

// Hole is a hole, slot or cutout, or a pattern of them, placed as measured on the
// finished part: X along from Side's start, Y square to it. Of the base Side is one
// of its sides (not said: front); of a flange its own bend (not said), where Y is a
// height as the flange's Height is, or "top", from which Y runs down.
type Hole struct {
	Name       string
	On         string
	Side       string
	FromEnd    bool // X runs from the side's end, backwards
	X, Y       Field
	Shape      HoleShape
	Wide, Long Field // Round: Wide is the diameter. Long runs along the side
	Turn       Field // degrees, counter-clockwise on the blank
	Points     []Point
	Drilled    bool // Round or Slot: its width is a drill's, and may be changed to the nearest that is owned

	Count, Rows   int   // of a pattern; 0 is 1
	Step, RowStep Field // along and square to Side
	Mirrored      bool  // the same once more from the side's other end
}
