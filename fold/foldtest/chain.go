package foldtest

import (
	"fmt"
	"math"
	"math/rand/v2"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Chain is a strip along x with bends square across it: angle, zed, channel,
// hat, spiral. Lengths in its Units, angles in degrees. Flats has one more than Bends.
type Chain struct {
	Units     fold.Units
	Thickness float64
	K         float64
	Width     float64
	Flats     []float64 // between tangent lines
	Bends     []ChainBend
}

// ChainBend is one bend of a Chain.
type ChainBend struct {
	Angle, Radius float64
	Up            bool
}

// Allowance is pi/180 * angle * (R + K*T).
func (c Chain) Allowance(i int) float64 {
	return c.Bends[i].Angle * math.Pi / 180 * (c.Bends[i].Radius + c.K*c.Thickness)
}

// Setback is the length, on each side of bend i, from tangent line to where
// outside sizes are measured: (R+T) tan(angle/2) up to 90 degrees, R+T beyond.
func (c Chain) Setback(i int) float64 {
	b := c.Bends[i]
	if b.Angle > 90 {
		return b.Radius + c.Thickness
	}
	return (b.Radius + c.Thickness) * math.Tan(b.Angle*math.Pi/360)
}

// Length is the blank's length.
func (c Chain) Length() float64 {
	sum := 0.0
	for _, f := range c.Flats {
		sum += f
	}
	for i := range c.Bends {
		sum += c.Allowance(i)
	}
	return sum
}

// Spec is the strip as a part: panels "leg 0".. from x = 0, the base is leg 0.
func (c Chain) Spec() fold.Spec {
	k := c.K
	s := fold.Spec{Name: "chain", Units: c.Units, Sheet: fold.Sheet{Thickness: c.Thickness, K: &k}, Base: "leg 0"}
	s.Outline = Points(0, 0, c.Length(), 0, c.Length(), c.Width, 0, c.Width)
	x := 0.0
	for i, f := range c.Flats {
		s.Panels = append(s.Panels, fold.PanelName{Name: fmt.Sprintf("leg %d", i), At: geom.Vec2{x + f/2, c.Width / 2}})
		x += f
		if i < len(c.Bends) {
			b := c.Bends[i]
			m := x + c.Allowance(i)/2
			s.Bends = append(s.Bends, fold.BendSpec{
				Name: fmt.Sprintf("bend %d", i), Line: [2]geom.Vec2{{m, 0}, {m, c.Width}},
				Angle: b.Angle, Radius: b.Radius, Up: b.Up,
			})
			x += c.Allowance(i)
		}
	}
	return s
}

// Section is the finished chain seen along its bend lines: for each leg the two
// ends of its lower face (z = 0 on the blank), leg 0 from (0, 0) along x. By a
// walk along the section: straight on, then about each bend's centre, which is
// all that the handbooks' drawings say; nothing of the kernel is used.
func (c Chain) Section() [][2]geom.Vec2 {
	at, dir := geom.Vec2{}, 0.0
	var out [][2]geom.Vec2
	for i, f := range c.Flats {
		u := geom.Vec2{math.Cos(dir), math.Sin(dir)}
		end := at.Add(u.Mul(f))
		out = append(out, [2]geom.Vec2{at, end})
		at = end
		if i == len(c.Bends) {
			break
		}
		b := c.Bends[i]
		r, turn := b.Radius+c.Thickness, b.Angle*math.Pi/180 // up: the lower face is the outer one
		if !b.Up {
			r, turn = -b.Radius, -turn // down: the centre lies under the lower face
		}
		centre := at.Add(geom.Perp(u).Mul(r))
		dir += turn
		at = centre.Sub(geom.Vec2{-math.Sin(dir), math.Cos(dir)}.Mul(r))
	}
	return out
}

// RandomChain draws a strip of 1 to 6 bends of any way, 1 to 180 degrees, radius
// 0 to 10 T, thickness 0.2 to 12 mm. It may run through itself when folded.
func RandomChain(r *rand.Rand) Chain {
	t := LogUniform(r, 0.2, 12)
	c := Chain{Thickness: t, K: Uniform(r, 0.2, 0.5), Width: t * LogUniform(r, 2, 200)}
	n := 1 + r.IntN(6)
	spiral := r.IntN(3) == 0
	for i := 0; i <= n; i++ {
		c.Flats = append(c.Flats, t*LogUniform(r, 0.5, 100))
	}
	for range n {
		b := ChainBend{Angle: Uniform(r, 1, 180), Radius: t * Uniform(r, 0, 10), Up: spiral || r.IntN(2) == 0}
		switch r.IntN(6) {
		case 0:
			b.Angle = 90
		case 1:
			b.Angle = 180
		case 2:
			b.Radius = 0
		}
		c.Bends = append(c.Bends, b)
	}
	return c
}
