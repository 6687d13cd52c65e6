package foldtest

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Map gives the part with every point of its blank carried by f: a move, a turn or a
// mirror in the sheet's plane, or one that hardly moves them. Ways of bends stay.
func Map(s fold.Spec, f func(geom.Vec2) geom.Vec2) fold.Spec {
	s = s.Mapped(f)
	s.AsCut = each(s.AsCut, func(m fold.CutSize) fold.CutSize { m.From, m.To = f(m.From), f(m.To); return m })
	s.Struck = each(s.Struck, func(l fold.StruckLine) fold.StruckLine {
		l.Line = [2]geom.Vec2{f(l.Line[0]), f(l.Line[1])}
		return l
	})
	return s
}

func each[T any](in []T, f func(T) T) []T {
	out := make([]T, len(in))
	for i, x := range in {
		out[i] = f(x)
	}
	return out
}

// Move is a turn by the angle about the origin, after a mirror in the y axis if
// asked for, and then a shift.
func Move(turn geom.Angle, mirror bool, shift geom.Vec2) func(geom.Vec2) geom.Vec2 {
	sin, cos := math.Sincos(float64(turn))
	return func(p geom.Vec2) geom.Vec2 {
		if mirror {
			p[0] = -p[0]
		}
		return geom.Vec2{cos*p[0] - sin*p[1], sin*p[0] + cos*p[1]}.Add(shift)
	}
}

// Backwards gives the same contour, its corners in the other order.
func Backwards(c fold.Contour) fold.Contour {
	n := len(c)
	out := make(fold.Contour, n)
	for j := range out {
		out[j] = fold.Vertex{At: c[n-1-j].At, Through: c[(n-j)%n].Through}
	}
	return out
}

// InInches is the part, given in mm, with the same sizes written in inches.
func InInches(s fold.Spec) fold.Spec {
	s = Map(s, func(p geom.Vec2) geom.Vec2 { return p.Mul(1 / 25.4) })
	inch := func(v *float64) *float64 {
		if v == nil {
			return nil
		}
		w := *v / 25.4
		return &w
	}
	s.Units = fold.Inch
	s.Sheet.Thickness /= 25.4
	s.Holes = each(s.Holes, func(h fold.Hole) fold.Hole { h.Diameter /= 25.4; return h })
	s.Bends = each(s.Bends, func(b fold.BendSpec) fold.BendSpec { b.Radius /= 25.4; return b })
	s.Seams = each(s.Seams, func(m fold.SeamSpec) fold.SeamSpec {
		m.Gap = inch(m.Gap)
		return m
	})
	s.Joins = each(s.Joins, func(j fold.JoinSpec) fold.JoinSpec { j.Widest = inch(j.Widest); return j })
	s.AsCut = each(s.AsCut, func(m fold.CutSize) fold.CutSize { m.Is /= 25.4; return m })
	s.Errors.Cut, s.Errors.Line, s.Errors.Thickness = inch(s.Errors.Cut), inch(s.Errors.Line), inch(s.Errors.Thickness)
	return s
}

// Round gives the part with every coordinate rounded to a multiple of step (in the
// part's units), so that its file and link stay short. Sizes, radii and angles
// stay as they are. An edge moves by at most 0.71 step.
func Round(s fold.Spec, step float64) fold.Spec {
	per := math.Round(1 / step) // dividing by a whole number keeps the decimals short
	return Map(s, func(q geom.Vec2) geom.Vec2 {
		for i, x := range q {
			q[i] = math.Round(x*per)/per + 0 // no minus zero
		}
		return q
	})
}
