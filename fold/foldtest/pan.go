package foldtest

// This file holds a four-walled pan worked out wall by wall with plane trigonometry: the twin of what fold/shape
// makes of such a pan's sizes by frames in space. panblank.go draws its blank, pancheck.go says what sizes it takes.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/metal"
)

// Level says at which height a pan's length and widths are measured.
type Level int

// Levels. The zero value is the top, where a tape reaches.
const (
	AtTop Level = iota
	AtFloor
)

// Rim is what the top edges of a pan's walls are.
type Rim int

// Rims. The zero value is a plain cut edge.
const (
	PlainRim Rim = iota
	LipRim       // a level flange turned out
	HemRim       // folded back, flat on the wall's outside
)

// PanSizes is a four-walled pan or tray by tape sizes. Its plan is a rectangle, or
// an isosceles trapezoid where front and back differ in width; all four walls
// lean out alike. Lengths are in Units, Lean in degrees. The sizes are to the
// sharp corners of the faces they name, as if the bends had no radius:
//
//	inside  at the floor  between the walls' inner faces, where they meet the floor's upper face
//	inside  at the top    between the walls' inner faces, at the height of the highest point
//	outside at the floor  between the walls' outer faces, where they meet the floor's lower face
//	outside at the top    over all: to the outermost of the walls, lips or hems
//
// Depth runs square to the floor up to the highest point of the rim: from the
// floor's upper face inside, from its lower face outside.
type PanSizes struct {
	Name  string // the part's; "" is "Pan"
	Units fold.Units

	Length     float64 // front to back
	WidthFront float64
	WidthBack  float64
	Depth      float64
	Outside    bool // length, widths and depth are outside sizes; else inside
	Level      Level
	Lean       float64 // of each wall outwards, 0 (square) to 80

	Rim       Rim
	RimWidth  float64 // lip: from the wall's inner face to the lip's edge; hem: from the rim's highest line down to the hem's edge
	RimRadius float64 // hem: inside radius, half its clear gap. A lip takes Radius.
	RimClear  bool    // lips end square at their walls' ends; else they close at the corners by a mitre

	Thickness float64
	Radius    float64  // inside
	K         *float64 // nil: by the kernel's rule
	Gap       float64  // wanted at the corners
	Metal     string
}

// Pan makes the whole part, by its blank: outline with a relief at each corner of
// the floor, bend lines, panel and seam names, and an order that a finger brake
// can follow (rims, then the sides, then front and back between them). Corners
// are closed edge to edge, and lips by a mitre, so that the least gap of each
// seam is Gap. The blank's axes: x across, y from front to back, its box's lower
// left corner at the origin, the inside of the pan facing up.
//
// The error names the first size that can't be.
func Pan(s PanSizes) (fold.Spec, error) {
	if err := s.check(); err != nil {
		return fold.Spec{}, err
	}
	p := s.derive()
	if err := p.check(); err != nil {
		return fold.Spec{}, err
	}
	spec := p.blank()
	if err := s.checkBlank(spec); err != nil {
		return fold.Spec{}, err
	}
	return spec, nil
}

// pan holds what follows from the sizes, in the same units. Walls are numbered
// front, right, back, left; corner i lies between wall i-1 and wall i, so 0 is
// front left and the numbers run counter-clockwise from above.
type pan struct {
	sizes PanSizes
	lean  geom.Angle
	angle geom.Angle // of the walls' bends
	rimA  geom.Angle // of the rims' bends; 0 without a rim
	rimR  float64

	plan    [4]geom.Angle // interior angle of the floor at each corner
	inner   [4]geom.Vec2  // corners where the inner faces meet the floor's upper face
	tangent [4]geom.Vec2  // corners where the floor's tangent lines meet
	depth   float64       // inside

	ba     float64    // allowance of a wall's bend
	back   float64    // inside setback of a wall's bend
	slant  float64    // along the inner face from its sharp at the floor to the level of the highest point
	flat   float64    // of that, from the sharp to the rim's tangent line, or to the cut edge
	rimBA  float64    // allowance of a rim's bend
	rim    float64    // flat width of a rim
	end    [4]float64 // how far from the tangent corner the bend zones end, along both walls
	past   float64    // how far the relief reaches past the zone into the wall
	corner [4]float64 // distance of the walls' edges from the line where their inner faces meet
}

var panWalls = [4]string{"front", "right", "back", "left"}
var panCorners = [4]string{"front left", "front right", "back right", "back left"}

// derive works out the pan from its sizes. Nothing is refused here; bad
// combinations give numbers that check refuses.
func (s PanSizes) derive() *pan {
	p := &pan{sizes: s, lean: geom.Degrees(s.Lean)}
	t, r := s.Thickness, s.Radius
	sin, cos := math.Sincos(float64(p.lean))
	tan := sin / cos
	p.angle = geom.Degrees(90 - s.Lean)
	p.ba = float64(p.angle) * (r + s.k(r)*t)
	p.back = setback(p.angle, r)
	p.depth = s.Depth
	if s.Outside {
		p.depth -= t
	}
	p.slant = p.depth / cos
	p.flat = p.slant
	switch s.Rim {
	case LipRim:
		p.rimA, p.rimR = p.angle, r
		p.rim = s.RimWidth - setback(p.rimA, r+t)
	case HemRim:
		p.rimA, p.rimR = geom.Degrees(180), s.RimRadius
		p.rim = s.RimWidth - (p.rimR + t)
	}
	if s.Rim != PlainRim {
		// The rim's upper face is tangent to its bend's outer cylinder at the highest point.
		p.flat -= (p.rimR + t) * (1 - sin) / cos
		p.rimBA = float64(p.rimA) * (p.rimR + s.k(p.rimR)*t)
	}

	// From the lines that were measured to the inner faces at the floor: every side
	// moves in by the same distance.
	in := 0.0
	switch {
	case s.Outside && s.Level == AtFloor:
		in = t * (1 - sin) / cos
	case s.Level == AtTop:
		in = p.depth * tan
		if s.Outside {
			switch s.Rim {
			case PlainRim:
				in += t * cos
			case LipRim:
				in += s.RimWidth
			case HemRim:
				in += (p.rimR + t) * (1 + cos - (1-sin)*tan)
			}
		}
	}
	half := math.Atan2((s.WidthBack-s.WidthFront)/2, s.Length) // of the sides from straight
	p.plan = [4]geom.Angle{
		geom.Angle(math.Pi/2 + half), geom.Angle(math.Pi/2 + half),
		geom.Angle(math.Pi/2 - half), geom.Angle(math.Pi/2 - half),
	}
	outer := [4]geom.Vec2{
		{-s.WidthFront / 2, 0}, {s.WidthFront / 2, 0}, {s.WidthBack / 2, s.Length}, {-s.WidthBack / 2, s.Length},
	}
	p.inner = p.inset(outer, in)
	p.tangent = p.inset(p.inner, p.back)

	p.past = panPast * t
	for i, plan := range p.plan {
		// Edges that are s.Gap apart and stop alike before the line where their inner faces meet.
		delta := math.Pi - math.Acos(max(-1, min(1, sin*sin-cos*cos*math.Cos(float64(plan)))))
		p.corner[i] = s.Gap / (2 * math.Sin(delta/2))
		// The relief's inner corner lies on the floor's bisector, no nearer than the
		// gap and half a thickness to either tangent line.
		half := math.Tan(float64(plan) / 2)
		p.end[i] = max(s.Gap, p.past) / min(1, half)
		if e := p.edge(i, p.ba+p.past); e > p.end[i]-panSnap*t {
			p.end[i] = e // a wide gap: the zone ends where the wall does
		}
	}
	return p
}

// k is the K of a bend with an inside radius, as the kernel will have it.
func (s PanSizes) k(radius float64) float64 {
	if s.K != nil {
		return *s.K
	}
	k, _, err := metal.ByRule(metal.DefaultRule, metal.Metal{}, false, radius, s.Thickness)
	if err != nil { // sizes that check refuses
		return 0
	}
	return k
}

// inset moves the four sides of a plan in by d, past each other if need be.
func (p *pan) inset(c [4]geom.Vec2, d float64) (out [4]geom.Vec2) {
	for i := range c {
		along := p.direction(i)
		out[i] = c[i].Add(geom.Perp(along).Mul(d)).Add(along.Mul(d / math.Tan(float64(p.plan[i])/2)))
	}
	return out
}

// edge is where a wall's edge lies at corner i, s across from the floor's tangent
// line: how far along the wall from the tangent corner, less than 0 beyond it.
// The edge keeps its distance from the line where the inner faces meet.
func (p *pan) edge(i int, s float64) float64 {
	cot := 1 / math.Tan(float64(p.plan[i])/2)
	grow := math.Sin(float64(p.lean)) * cot // outward along the wall for one up its slope
	up := s - p.ba + p.back
	return -p.back*cot - grow*up + p.corner[i]*math.Hypot(1, grow)
}

// mitre is where a lip's edge lies at corner i, w out from the wall's inner face
// at the top: how far along from the tangent corner. It is parallel to the plan's
// bisector, half the gap from it.
func (p *pan) mitre(i int, w float64) float64 {
	cot := 1 / math.Tan(float64(p.plan[i])/2)
	grow := math.Sin(float64(p.lean)) * cot
	return -p.back*cot - grow*p.slant - w*cot + p.sizes.Gap/2*math.Hypot(1, cot)
}

// setback is how far the sharp corner of two faces that meet on a cylinder of
// radius r lies from either tangent line: r tan(angle/2), for angles under 180.
func setback(angle geom.Angle, r float64) float64 { return r * math.Tan(float64(angle)/2) }
