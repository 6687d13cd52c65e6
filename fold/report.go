package fold

import (
	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// Report is everything that is known about a part in numbers: lengths in mm,
// angles in degrees, whatever the file's units. The page, the command and the
// printed sheets all read it, so they can't differ. Its JSON keys are a promise:
// later work adds keys and renames none.
type Report struct {
	Part      string          `json:"part"`
	Thickness float64         `json:"thickness_mm"`
	Blank     BlankReport     `json:"blank"`
	Finished  FinishedReport  `json:"finished"`
	Panels    []PanelReport   `json:"panels"`
	Bends     []BendReport    `json:"bends"`
	Swings    []SwingReport   `json:"swings"`
	Seams     []SeamReport    `json:"seams"`
	Clashes   []ClashReport   `json:"clashes"`
	Troubles  []TroubleReport `json:"troubles"`
	Worth     []Worth         `json:"worth"`
	Price     *PriceReport    `json:"price,omitempty"` // nil where the maker gave none

	// Weld is the length of all seams that are to be welded (mm).
	Weld float64 `json:"weld_mm"`

	// Corners of a part by sizes, as they were made; fold/shape fills them in.
	Corners []CornerReport `json:"corners,omitempty"`

	// Passes are the close passes of all swings; JudgePasses takes each swing's Room from them.
	Passes []Pass `json:"-"`

	// Spread is what errors of hand and machine make of the part; fold/spread fills it in, and each seam's.
	Spread *SpreadReport `json:"spread,omitempty"`
}

// CornerReport is a corner of a part by sizes: two flanges and how they were made to meet.
type CornerReport struct {
	Name      string  `json:"name"` // of its seam
	A         string  `json:"a"`    // flanges
	B         string  `json:"b"`
	Close     string  `json:"close"` // edges, lap, mitre, apart
	GapWanted float64 `json:"gap_wanted_mm"`
	// As folded; nil where the two have no seam.
	GapMin     *float64 `json:"gap_min_mm"`
	GapMax     *float64 `json:"gap_max_mm"`
	Step       *float64 `json:"step_mm"`        // between the faces
	Relief     string   `json:"relief"`         // snipped, drilled, sawn, none
	ReliefNeed float64  `json:"relief_need_mm"` // the least size that does
	ReliefSize float64  `json:"relief_mm"`      // that was cut
	Light      *float64 `json:"light_mm"`       // diameter of the largest ball that passes the corner once all is closed; nil where it is not known
}

// Worth says what a number that nobody measured may be worth: what would change were it another.
type Worth struct {
	About string  `json:"about"`   // "radius", "rule", "tests", "k" or "spread"
	If    string  `json:"if"`      // "R 1 mm instead of 2 mm", "DIN 6935 instead of FAA-H-8083-31": lengths in mm, see InUnits
	Known bool    `json:"known"`   // false where the part would not fold then
	Most  float64 `json:"most_mm"` // the greatest of the figures below; 0 where there is none
	// Blank is how much wider and higher the blank gets when the finished outside sizes are kept; nil
	// where it could not be laid out anew.
	Blank      *[2]float64 `json:"blank_mm"`
	BlankKnown bool        `json:"blank_known"`
	// Finished is how much the finished box grows when the blank is kept as it is; nil where the part would not fold.
	Finished *[3]float64 `json:"finished_mm"`
	K        float64     `json:"k"` // of the first bend that changes, as it would then be
}

// PriceReport is the price as the maker reckons it. A figure of what was not said is zero.
type PriceReport struct {
	Metal    float64 `json:"metal"`
	Work     float64 `json:"work"`
	Total    float64 `json:"total"`
	Known    bool    `json:"known"` // false where a charge by the kg has no weight; Total is then without it
	Currency string  `json:"currency"`
	How      string  `json:"how"` // in words: what was multiplied by what
}

// BlankReport is the blank's size, area and mass; Mass is nil where the density is unknown.
type BlankReport struct {
	Width  float64  `json:"width_mm"`
	Height float64  `json:"height_mm"`
	Area   float64  `json:"area_mm2"`
	Mass   *float64 `json:"mass_kg"`
	// Rectangle is the mass of the blank's box as a sheet, from which it is cut; nil as Mass is.
	Rectangle  *float64 `json:"rectangle_kg"`
	MassSource string   `json:"mass_source"` // where the density comes from; "" where it is not known
}

// FinishedReport is the box of the folded solid in the file's axes, the base lying still.
type FinishedReport struct {
	Size *[3]float64 `json:"size_mm"` // nil where the part can't be folded
}

// Box is the size, zero where the part can't be folded.
func (f FinishedReport) Box() [3]float64 {
	if f.Size == nil {
		return [3]float64{}
	}
	return *f.Size
}

// PanelReport is one panel, without its bend zones.
type PanelReport struct {
	Name string  `json:"name"`
	Area float64 `json:"area_mm2"`
}

// BendReport is one bend. Setback is (R+T)tan(angle/2), R+T past 90; MoldSetback
// keeps the tangent past 90 and is nil at 180 and over.
type BendReport struct {
	Name        string   `json:"name"`
	From        string   `json:"from"` // the held panel
	To          string   `json:"to"`
	Way         string   `json:"way"`
	Angle       float64  `json:"angle_deg"`
	Radius      float64  `json:"inside_radius_mm"`
	K           float64  `json:"k"`
	KSource     string   `json:"k_source"`
	Length      float64  `json:"length_mm"`
	Allowance   float64  `json:"allowance_mm"`
	Setback     float64  `json:"setback_mm"`
	MoldSetback *float64 `json:"mold_setback_mm"`
	Deduction   float64  `json:"deduction_mm"`
	SetAngle    float64  `json:"set_angle_deg"`

	// Added keys. Kinds are metal.Kind's words.
	KKind      string  `json:"k_kind"`
	KSpread    float64 `json:"k_spread"` // half the width of the range in which K lies, 0 where it is not known
	Rule       string  `json:"rule"`     // ID of the allowance rule, "" where K is given or measured
	RadiusFrom string  `json:"radius_from"`
	// SetSource says where SetAngle comes from: the maker's test bends, or that it is the bend
	// angle alone, for nothing is known of what springs back. SetDoubt is half the width of the range in
	// which the angle to stop at lies by the test bends, 0 where there are none.
	SetSource   string  `json:"set_angle_source"`
	SetMeasured bool    `json:"set_angle_measured"`
	SetDoubt    float64 `json:"set_angle_doubt_deg"`
	// SetLeast is what the springback formula gives over the yield's range: a lower limit of the angle
	// to stop at, never the angle itself. nil where the metal's figures are not known or the bend is a hem.
	SetLeast       *[2]float64 `json:"set_angle_least_deg"`
	SetLeastSource string      `json:"set_angle_least_source"`
	// LeastRadius is the least inside radius, by each list that speaks of the metal and thickness.
	LeastRadius []LeastRadius `json:"least_radius"`
	Grain       string        `json:"grain"` // "across", "along", "slanting" to the grain, "" if it is not said
}

// LeastRadii are least inside radii as a report has them.
func LeastRadii(least []metal.Least) []LeastRadius {
	out := make([]LeastRadius, 0, len(least))
	for _, l := range least {
		out = append(out, LeastRadius{l.Radius, l.High, l.Advice, l.Direction, l.Source.String()})
	}
	return out
}

// LeastRadius is a least inside radius in mm, by one list.
type LeastRadius struct {
	Radius    float64 `json:"radius_mm"`
	High      float64 `json:"to_mm"`     // the list's upper figure where it gives a range, else Radius
	Advice    bool    `json:"advice"`    // recommended as easy to form, not the least
	Direction string  `json:"direction"` // "across", "along" or "across or along" the grain, "" where the list does not tell
	Source    string  `json:"source"`
}

// SwingReport is one swing and the worst that was found in it.
type SwingReport struct {
	Number int      `json:"number"`
	Bends  []string `json:"bends"`
	To     float64  `json:"to_deg"`
	State  string   `json:"state"` // ok, watch, stop

	// Room is the closest pass of two solids of the part in the swing that do not clash and are not meant to come
	// near each other; nil where all stay farther apart than RoomLook, or where it was not looked for.
	Room *RoomReport `json:"room,omitempty"`
}

// RoomReport is how close two solids pass in a swing.
type RoomReport struct {
	A     string  `json:"a"` // "panel left" or "bend left"
	B     string  `json:"b"`
	Room  float64 `json:"room_mm"`   // surely left between them, anywhere in the swing
	Angle float64 `json:"angle_deg"` // of the first listed bend, about where they are nearest
	// Errors is what hand and machine errors may take of it (mm); 0 where that was not worked out.
	Errors float64 `json:"errors_mm"`

	pass Pass
}

// SeamReport is one seam as finished. Gaps are clear distances between the
// edges, negative where the panels overlap.
type SeamReport struct {
	Name    string  `json:"name"`
	A       string  `json:"a"`
	B       string  `json:"b"`
	Length  float64 `json:"length_mm"`
	GapMin  float64 `json:"gap_min_mm"`
	GapMean float64 `json:"gap_mean_mm"`
	GapMax  float64 `json:"gap_max_mm"`

	// Added keys: where the least and the widest gap are, as distance along the seam
	// from its start; the gap at start and end; offset of the inner faces.
	MinAt    float64  `json:"gap_min_at_mm"`
	MaxAt    float64  `json:"gap_max_at_mm"`
	GapStart float64  `json:"gap_start_mm"`
	GapEnd   float64  `json:"gap_end_mm"`
	Step     float64  `json:"step_mm"`
	Wanted   *float64 `json:"wanted_gap_mm"`
	Join     string   `json:"join,omitempty"`
	Open     bool     `json:"open"`
	State    string   `json:"state"` // ok, watch, stop

	// How it is to be closed, and how wide it may be.
	Taper     float64  `json:"taper_mm"` // gap at the end less that at the start
	Joint     string   `json:"joint"`    // one of Joints
	Way       string   `json:"way"`      // one of JoinWays, "" not said
	Process   string   `json:"process"`  // one of WeldProcesses, "" not said
	Limit     *float64 `json:"limit_mm"` // the widest gap that is no trouble; nil: no published figure, and none of the maker's
	LimitFrom string   `json:"limit_source"`
	LimitKind string   `json:"limit_kind"` // "yours", "published", "from memory", "common practice", "none"
	// Profile is the gap along the seam: between two points it is straight to within ProfileError. Two points
	// at one place are a jump. Ends, least and widest gap are points of it.
	Profile []GapPoint `json:"profile"`
	// Spread is what errors of hand and machine make of the gap; nil where it was not worked out.
	Spread *SeamSpread `json:"spread,omitempty"`

	// Marks for drawing, in space as finished (base lying still): pairs of points
	// across the gap, evenly spaced along the seam, ends included.
	Ticks []Tick `json:"-"`
	Seam  Seam   `json:"-"`
}

// GapPoint is the gap at a place of a seam.
type GapPoint struct {
	At  float64 `json:"at_mm"` // along the seam from its start
	Gap float64 `json:"gap_mm"`
}

// SpreadReport is what errors of hand and machine make of a part, by simulation.
type SpreadReport struct {
	Samples int           `json:"samples"`
	Seed    int64         `json:"seed"`
	Errors  []ErrorReport `json:"errors"` // what was reckoned with
	Sizes   [3]Spread     `json:"sizes"`  // of the finished box
	Holes   []HoleSpread  `json:"holes"`  // pairs of holes on different panels
	// Watch says in words which bend to watch; "" where there is nothing to say.
	Watch string `json:"watch"`
	// Weld is the length of all seams to be welded (mm).
	Weld float64 `json:"weld_mm"`
}

// ErrorReport is one kind of error: so much plus and minus holds 95 of 100.
type ErrorReport struct {
	Name   string  `json:"name"`   // "bend angle", "bend line", "cut edge", "thickness", "K"
	Low    float64 `json:"low"`    // the least and the largest of all that were drawn by: they may hang on lengths
	High   float64 `json:"high"`   // in Unit
	Unit   string  `json:"unit"`   // "deg", "mm" or ""
	Source string  `json:"source"` // in words
	Kind   string  `json:"kind"`   // "yours", "published", "from memory", "common practice", "assumed"
	Class  string  `json:"class"`  // of ISO 2768-1, "" where none is taken
	Given  bool    `json:"given"`  // by the part, not by default
}

// Spread is a quantity over the samples (mm).
type Spread struct {
	Low    float64 `json:"p5_mm"`
	Mid    float64 `json:"p50_mm"`
	High   float64 `json:"p95_mm"`
	Exact  float64 `json:"exact_mm"` // with no errors
	Shares []Share `json:"shares"`   // of each cause, largest first; what is under a hundredth is left out
}

// Share is how much of a spread's variance a cause makes.
type Share struct {
	Cause string  `json:"cause"`    // "angle of bend left", "line of bend left", "cut edges", "thickness", "K"
	Bend  string  `json:"bend"`     // "" for causes that are no bend's
	Part  float64 `json:"part"`     // 0 to 1
	Worth float64 `json:"worth_mm"` // what the cause's plus (its range that holds 95 of 100) does to the quantity, straightened
}

// SeamSpread is the spread of a seam's gap.
type SeamSpread struct {
	Along  []SpreadPoint `json:"along"` // start, some places between, end
	Least  Spread        `json:"least"`
	Widest Spread        `json:"widest"`
	Watch  string        `json:"watch"` // in words: which bend to watch for this seam
}

// SpreadPoint is the spread of the gap at a place of a seam.
type SpreadPoint struct {
	At float64 `json:"at_mm"`
	Spread
}

// HoleSpread is the spread of two holes against each other.
type HoleSpread struct {
	A        string `json:"a"` // "hole 3 on left"
	B        string `json:"b"`
	Distance Spread `json:"distance"` // of their centres, at the middle of the sheet
	// Offset is how far their axes miss each other, for holes that face each other; else nil.
	Offset *Spread `json:"offset,omitempty"`
}

// Tick is one feeler tick: the two nearest points across a gap, and the gap there.
type Tick struct {
	A, B geom.Vec3
	Gap  float64
	At   float64 // distance along the seam from its start
}

// ClashReport is two solids that meet in a swing. Angle is the first contact, as
// the first listed bend's angle; Depth the largest overlap in the swing.
type ClashReport struct {
	Swing int      `json:"swing"`
	Bends []string `json:"bends"`
	A     string   `json:"a"` // "panel left" or "bend left"
	B     string   `json:"b"`
	Angle float64  `json:"angle_deg"`
	Depth float64  `json:"depth_mm"`
	AtEnd bool     `json:"at_end"`
	// Undecided: the search gave up at this angle; the two may or may not meet.
	Undecided bool `json:"undecided,omitempty"`
	// Overbend: only while the leaf is past the bend's angle.
	Overbend bool `json:"overbend,omitempty"`
	// Cuts are ways to free the pair by cutting one of the two back: those that open no seam first, then the least.
	Cuts []CutBack `json:"cuts,omitempty"`

	Clash Clash `json:"-"`
}

// CutBack is how far a panel must be cut back for a clash to be gone, on the real solids all through the swing.
type CutBack struct {
	Panel string  `json:"panel"`
	Edge  string  `json:"edge"`  // in words: "its far edge", "its end towards back"
	By    float64 `json:"by_mm"` // rounded up to a tenth
	// Line is where the new edge lies on the blank, its ends; of a flange made shorter between its bends, where the strip to be taken out ends.
	Line [2][2]float64 `json:"line_mm"`
	// Seams are those that open by as much, for an edge of theirs is cut or moves away.
	Seams []string `json:"seams,omitempty"`

	way geom.Vec2 // outward on the blank, of the edge
}

// TroubleReport is a Trouble as JSON.
type TroubleReport struct {
	Severity string       `json:"severity"`
	Rule     string       `json:"rule"`
	Where    TroubleWhere `json:"where"`
	Have     *float64     `json:"have"`
	Need     *float64     `json:"need"`
	Message  string       `json:"message"`
}

// TroubleWhere names the panel, bend, seam or hole, and its place on the blank.
type TroubleWhere struct {
	Panel string     `json:"panel,omitempty"`
	Bend  string     `json:"bend,omitempty"`
	Seam  string     `json:"seam,omitempty"`
	Hole  string     `json:"hole,omitempty"`
	At    [2]float64 `json:"at"`
}

// Body names a solid of the part: a panel, or a bend's zone.
type Body struct {
	Zone  bool
	Index int // into Part.Panels or Part.Bends
}

// Clash is two solids that overlap by more than ClashDepth somewhere in a swing.
type Clash struct {
	Swing int // index into Part.Swings
	A, B  Body
	// Fraction of the swing (0..1) and first bend's angle at first contact.
	Fraction float64
	Angle    geom.Angle
	Depth    float64   // largest overlap found in the swing, mm, positive
	DepthAt  float64   // fraction at which it is that deep
	AtEnd    bool      // still overlaps at the swing's end
	Point    geom.Vec3 // where they meet at first contact, base lying still
	Normal   geom.Vec3 // unit, from B's body towards A's at first contact
	// Undecided: the search gave up here; the pair may or may not clash, and is shown as not allowed.
	Undecided bool
	// Rest: further pairs of the swing were not looked at either.
	Rest bool
	// Overbend: they overlap only while the leaf is past the bend's angle, and are clear again when the
	// metal has sprung back.
	Overbend bool
}

// Seam is two free edges that meet once the part is folded.
type Seam struct {
	Name   string
	A, B   int          // panels
	EdgeA  [2]geom.Vec2 // on the blank, mm
	EdgeB  [2]geom.Vec2
	Named  bool // given in the file
	Open   bool
	Wanted *float64 // mm
	Join   string
}
