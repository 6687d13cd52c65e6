package foldtest

import (
	"fmt"
	"math"
	"math/rand/v2"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Wall is what stands on one side of a Tray's floor, in mm and degrees.
type Wall struct {
	None       bool    // this side has no wall
	Inset      float64 // bare tangent line at the side's start
	InsetEnd   float64 // and at its end; negative runs past the corner
	Height     float64 // from the zone's far tangent line
	Angle      float64
	Radius     float64
	Up         bool
	Taper      float64 // how much each end runs in from tangent line to the top
	Arc        float64 // the top bulges by this; negative: it is hollow
	Return     float64 // width of a return on the wall; 0 for none. Not with Arc
	ReturnUp   bool
	ReturnTurn float64 // degrees
	Slot       bool    // a slot cut across the middle of the bend
}

// Tray is a floor, any simple polygon counter-clockwise, with a wall on each side.
type Tray struct {
	Thickness, K float64
	Floor        geom.Loop // its corners are where the tangent lines meet
	Walls        []Wall    // Walls[i] stands on the side from Floor[i] to Floor[i+1]
	Holes        []fold.Hole
}

// Allowance of a bend of this tray.
func (t Tray) Allowance(angle, radius float64) float64 {
	return angle * math.Pi / 180 * (radius + t.K*t.Thickness)
}

// side gives the floor's side i: its start, its direction, the way out and its length.
func (t Tray) side(i int) (o, u, n geom.Vec2, length float64) {
	o = t.Floor[i]
	d := t.Floor[(i+1)%len(t.Floor)].Sub(o)
	u = d.Normalize()
	return o, u, geom.Perp(u).Mul(-1), d.Len()
}

// Spec is the tray as a part: panels "floor", "wall 0".., "return 0"; bends by the
// same names; the floor is the base.
func (t Tray) Spec() fold.Spec {
	k := t.K
	s := fold.Spec{Name: "tray", Sheet: fold.Sheet{Thickness: t.Thickness, K: &k}, Base: "floor", Holes: t.Holes}
	in, _ := geom.Region{Outer: t.Floor}.InsidePoint()
	s.Panels = append(s.Panels, fold.PanelName{Name: "floor", At: in})
	for i := range t.Floor {
		o, u, n, l := t.side(i)
		at := func(along, out float64) geom.Vec2 { return o.Add(u.Mul(along)).Add(n.Mul(out)) }
		put := func(p geom.Vec2, through *geom.Vec2) {
			s.Outline = append(s.Outline, fold.Vertex{At: p, Through: through})
		}
		w := t.Walls[i]
		before := t.Walls[(i+len(t.Walls)-1)%len(t.Walls)]
		// The corner itself, unless both zones end there.
		if w.None || before.None || w.Inset != 0 || before.InsetEnd != 0 {
			put(at(0, 0), nil)
		}
		if w.None {
			continue
		}
		ba := t.Allowance(w.Angle, w.Radius)
		a, b := w.Inset, l-w.InsetEnd
		foot := 0.0
		if w.Inset < 0 || w.InsetEnd < 0 { // the wall alone runs past; its zone ends at the corner
			foot = ba
		}
		za, zb := max(a, 0), min(b, l)
		put(at(za, 0), nil)
		if a < 0 {
			put(at(0, foot), nil)
		}
		put(at(a, ba), nil)
		top := ba + w.Height
		put(at(a+w.Taper, top), nil)
		mid := (a + b) / 2
		if w.Return > 0 {
			rb := t.Allowance(w.ReturnTurn, w.Radius)
			ra, re := a+w.Taper, b-w.Taper
			put(at(ra, top+rb), nil)
			put(at(ra+w.Taper, top+rb+w.Return), nil)
			put(at(re-w.Taper, top+rb+w.Return), nil)
			put(at(re, top+rb), nil)
			put(at(re, top), nil)
			s.Bends = append(s.Bends, fold.BendSpec{Name: fmt.Sprintf("return %d", i),
				Line: [2]geom.Vec2{at(ra, top+rb/2), at(re, top+rb/2)}, Angle: w.ReturnTurn, Radius: w.Radius, Up: w.ReturnUp})
			s.Panels = append(s.Panels, fold.PanelName{Name: fmt.Sprintf("return %d", i), At: at(mid, top+rb+w.Return/2)})
		} else {
			var through *geom.Vec2
			if w.Arc != 0 {
				q := at(mid, top+w.Arc)
				through = &q
			}
			put(at(b-w.Taper, top), through)
		}
		put(at(b, ba), nil)
		if b > l {
			put(at(l, foot), nil)
		}
		put(at(zb, 0), nil)
		s.Bends = append(s.Bends, fold.BendSpec{Name: fmt.Sprintf("wall %d", i),
			Line: [2]geom.Vec2{at(za, ba/2), at(zb, ba/2)}, Angle: w.Angle, Radius: w.Radius, Up: w.Up})
		s.Panels = append(s.Panels, fold.PanelName{Name: fmt.Sprintf("wall %d", i), At: at(mid+0.3*(zb-mid), ba+w.Height*0.55)})
		if w.Slot {
			h := 0.05 * (zb - za)
			s.Cutouts = append(s.Cutouts, fold.Contour{
				{At: at(mid-h, -0.3*ba)}, {At: at(mid+h, -0.3*ba)}, {At: at(mid+h, 1.3*ba)}, {At: at(mid-h, 1.3*ba)}})
		}
	}
	return s
}

// RandomTray draws a floor with up to one wall a side: convex floors of 3 to 7
// sides and floors with one inward corner; walls square, tapered, leaning or
// turned right over, with returns, round tops, slots across bends, holes.
func RandomTray(r *rand.Rand) fold.Spec {
	th := LogUniform(r, 0.3, 6)
	t := Tray{Thickness: th, K: Uniform(r, 0.25, 0.5)}
	size := th * LogUniform(r, 80, 400)
	reflex := -1
	if r.IntN(4) == 0 {
		x, y := Uniform(r, 0.4, 0.6)*size, Uniform(r, 0.4, 0.6)*size
		t.Floor = geom.Loop{{0, 0}, {size, 0}, {size, y}, {x, y}, {x, size}, {0, size}}
		reflex = 3
	} else {
		n := 3 + r.IntN(5)
		start := r.Float64() * 2 * math.Pi
		flat := Uniform(r, 0.4, 1)
		for i := range n {
			sin, cos := math.Sincos(start + 2*math.Pi*(float64(i)+0.4*r.Float64())/float64(n))
			t.Floor = append(t.Floor, geom.Vec2{size / 2 * cos, flat * size / 2 * sin})
		}
	}
	n := len(t.Floor)
	for i := range n {
		_, _, _, l := t.side(i)
		w := Wall{
			None: r.IntN(6) == 0, Angle: Uniform(r, 5, 135), Radius: th * Uniform(r, 0, 4), Up: r.IntN(5) > 0,
			Inset: l * Uniform(r, 0.01, 0.1), InsetEnd: l * Uniform(r, 0.01, 0.1),
			Height: l * Uniform(r, 0.15, 0.4),
		}
		if r.IntN(3) > 0 {
			w.Angle = 90
		}
		if w.Radius < 0.4*th {
			w.Radius = 0
		}
		if i == reflex || (i+1)%n == reflex { // two walls share the inward corner's quarter
			w.Height = 0.12 * size
			reach := w.Height + t.Allowance(w.Angle, w.Radius)
			w.Height = max(0.02*size, w.Height-t.Allowance(w.Angle, w.Radius))
			if i == reflex {
				w.Inset = reach + 0.02*size
			} else {
				w.InsetEnd = reach + 0.02*size
			}
			if w.Inset+w.InsetEnd > 0.8*l || t.Allowance(w.Angle, w.Radius) > 0.08*size {
				w.None = true
			}
		} else {
			switch r.IntN(4) {
			case 0:
				w.Taper = 0.1 * l
			case 1:
				w.Arc = Uniform(r, -0.3, 1) * min(w.Height, 0.2*l)
			case 2:
				w.Return, w.ReturnTurn, w.ReturnUp = Uniform(r, 0.05, 0.2)*l, Uniform(r, 20, 120), r.IntN(2) == 0
			}
			w.Slot = r.IntN(5) == 0
		}
		t.Walls = append(t.Walls, w)
	}
	t.Walls[r.IntN(n)].None = true
	if i := r.IntN(n); i != reflex && (i+1)%n != reflex {
		t.Walls[i].None = false
	}
	if s := t.Spec(); r.IntN(2) == 0 {
		at := s.Panels[0].At // the floor's
		room := math.Inf(1)
		for _, c := range append([]fold.Contour{s.Outline}, s.Cutouts...) {
			for i, v := range c {
				d, _ := geom.SegmentDistance(at, c[(i+len(c)-1)%len(c)].At, v.At)
				room = min(room, d)
			}
		}
		t.Holes = append(t.Holes, fold.Hole{At: at.Add(geom.Vec2{room * 0.3, 0}), Diameter: room * Uniform(r, 0.01, 0.3)})
	}
	return t.Spec()
}
