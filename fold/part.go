package fold

import (
	"math"

	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// Part is what Build makes of a Spec: the blank cut into panels by its bend
// zones, as an immutable value. Lengths in mm, angles in radians, points in the
// blank's own axes (the file's x and y; the sheet fills z = 0..Thickness, its
// upper face towards the viewer).
type Part struct {
	Spec      Spec
	Thickness float64
	Metal     string
	Density   float64 // kg/m3; 0 where it is not known

	Outline geom.Loop   // chords within ArcChord of the true arcs, counter-clockwise
	Voids   []geom.Loop // cutouts then holes, clockwise
	Blank   BlankSize

	Panels   []Panel
	Bends    []Bend
	Base     int           // index of the panel that lies still
	Swings   []Swing       // in order
	Overlaps []geom.Region // material where two zones overlap; left out of the solids

	Troubles []Trouble // found while cutting the blank, in stable order
	Foldable bool      // false: no panels, bends or poses can be given; Troubles says why

	order    []int // panels from the base outwards, each after its parent
	measured *seamStore
}

// BlankSize is the blank's box and true area (arcs exact).
type BlankSize struct {
	Box  geom.Box2
	Area float64 // mm2, less cutouts and holes
}

// Panel is a flat region between bends. A prism over Region, z 0..Thickness.
type Panel struct {
	Name   string
	Region geom.Region
	Edges  [][]Edge    // Edges[k][i] is the edge from point i to i+1 of Region.Loops()[k]
	Area   float64     // mm2, arcs exact
	Parent int         // the bend that joins it towards the base; -1 for the base
	Label  geom.Vec2   // a point well inside, for labels and picking
	Pieces []geom.Loop // convex pieces that together make up Region; they may overlap
}

// Edge says what an edge of a panel or zone is.
type Edge struct {
	Bend    int  // the bend whose tangent line it lies on; -1 for a free edge
	Contour int  // for a free edge: 0 the outline, then cutouts, then holes; -1 none
	Index   int  // for a free edge: which edge of the contour as the file gives it
	Arc     bool // part of an arc or a round hole
}

// Free reports whether the edge is a cut edge of the blank.
func (e Edge) Free() bool { return e.Bend < 0 }

// Bend joins two panels. A is the panel on the base's side (held), B the one that swings.
// Bend coordinates of a blank point p: along u = (p-Q).U, across s = (p-Q).N,
// where Q lies on A's tangent line and N points from A to B. The zone is 0 <= s <= Allowance.
type Bend struct {
	Name      string
	Angle     geom.Angle // full angle, from flat
	Radius    float64    // inside
	Up        bool
	K         float64
	KSource   string       // in words
	KKind     metal.Kind   // what K rests on
	KSpread   float64      // half the width of the range in which K lies; 0 where it is not known
	Rule      string       // the ID of the rule K comes from; "" where it is given or measured
	KBy       string       // what gave K: "part", "rule", "tests" or "metal" (the maker\'s own)
	Allowance float64      // BA, width of the zone
	Rho       float64      // neutral radius R + K*T, as finished
	Set       geom.Angle   // where the leaf is stopped: Angle, or more by what the maker's test bends sprang back
	Work      float64      // neutral radius on the nose, Allowance/Set; Rho where Set is Angle
	SetSource string       // the test bends that Set comes from; "" where there are none
	SetTold   geom.Angle   // the set angle by them; Set is less where the bend can\'t be turned so far
	SetDoubt  float64      // half the width of the range of the set angle by them, degrees
	A, B      int          // panels
	Line      [2]geom.Vec2 // centre line's ends, where it enters and leaves the material
	Length    float64      // material along the centre line, slots left out
	Q, U, N   geom.Vec2
	Zone      []geom.Region // developed polygon; more than one where slots cut it
	ZoneEdges [][][]Edge    // as Panel.Edges, one per Zone region

	moved geom.Vec2 // how far the bend is set off on A against the blank; none but in Part.shortened
}

// Swing is one swing of the leaf: Bends[i] goes from From[i] to Set[i], where the leaf is
// stopped, and springs back to To[i].
type Swing struct {
	Number   int // from 1
	Bends    []int
	From, To []geom.Angle
	Set      []geom.Angle // To[i] where nothing is known of what springs back
	Out      float64      // the fraction of the swing at which the leaf is stopped; 1 where nothing springs back
}

// State is one angle per bend, as the leaf goes: from 0 to the bend's Set with the sheet rolling on to
// the nose, and on beyond Set while it springs back, Set+x standing for Set-x, evenly curled. A bend at its
// own Angle is finished. (Where Set is Angle there is only the rolling.)
type State []geom.Angle

// Flat is the state with nothing bent.
func (p *Part) Flat() State { return make(State, len(p.Bends)) }

// Finished is the state after the last swing.
func (p *Part) Finished() State { return p.StateAt(len(p.Swings), 0) }

// StateAt is the state when done swings are finished and the next has gone the
// fraction f (0..1) of its way. done is clamped to the swings there are.
func (p *Part) StateAt(done int, f float64) State {
	s := p.Flat()
	for i, sw := range p.Swings {
		if i > done || i == done && f <= 0 {
			break
		}
		g := 1.0
		if i == done {
			g = min(f, 1)
		}
		for k, b := range sw.Bends {
			s[b] = sw.at(&p.Bends[b], k, g)
		}
	}
	return s
}

// at is the State of the swing's bend k at a fraction of the swing.
func (sw *Swing) at(b *Bend, k int, f float64) geom.Angle {
	switch {
	case f >= 1:
		return sw.To[k]
	case f > sw.Out:
		return sw.Set[k] + geom.Angle((f-sw.Out)/(1-sw.Out))*(sw.Set[k]-sw.To[k])
	}
	return b.rolling(sw.From[k] + geom.Angle(f/sw.Out)*(sw.Set[k]-sw.From[k]))
}

// rolling is an angle on the way out: never quite the finished one, where there is more to come.
func (b *Bend) rolling(a geom.Angle) geom.Angle {
	if a == b.Angle && b.Set > b.Angle {
		return geom.Angle(math.Nextafter(float64(a), 0))
	}
	return a
}

// Curl is how a bend is curled in a State: its neutral radius, and up to which angle it is bent. While it rolls
// on to the nose Rho*phi of the zone is bent and the rest is flat; a finished one, and one that springs
// back, is curled evenly, Rho*phi being its Allowance.
func (b *Bend) Curl(state geom.Angle) (rho float64, phi geom.Angle) {
	switch {
	case b.Set == b.Angle || state == b.Angle:
		return b.Rho, state
	case state > b.Set:
		phi = 2*b.Set - state
		return b.Allowance / float64(phi), phi
	}
	return b.Work, state
}

// returning reports that a bend springs back in this State.
func (b *Bend) returning(state geom.Angle) bool { return b.Set > b.Angle && state > b.Set }

// inner is the inside radius at a neutral radius.
func (b *Bend) inner(rho float64) float64 { return max(0, b.Radius+(rho-b.Rho)) }

// Sigma is +1 for an up bend, -1 for a down bend.
func (b *Bend) Sigma() float64 {
	if b.Up {
		return 1
	}
	return -1
}

// Coord gives a blank point's along and across coordinates.
func (b *Bend) Coord(p geom.Vec2) (u, s float64) {
	d := p.Sub(b.Q)
	return d.Dot(b.U), d.Dot(b.N)
}
