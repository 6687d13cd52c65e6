package geom

// This file holds the exact pieces of a contour: straight edges and arcs of circles.

import "math"

// Piece is a straight edge or an arc from A to B. An arc is given by how far its direction turns, which stays
// exact for arcs that are all but straight, whose centres lie anywhere.
type Piece struct {
	A, B Vec2
	Turn float64 // radians from -pi to pi, counter-clockwise positive; 0 for a straight edge
}

// Circle is the circle through three points; ok is false where they lie (nearly) on a line.
func Circle(a, b, c Vec2) (centre Vec2, radius float64, ok bool) {
	ab, ac := b.Sub(a), c.Sub(a)
	d := 2 * Cross2(ab, ac)
	if math.Abs(d) <= 1e-12*(ab.Dot(ab)+ac.Dot(ac)) {
		return Vec2{}, 0, false
	}
	o := Vec2{
		(ac[1]*ab.Dot(ab) - ab[1]*ac.Dot(ac)) / d,
		(ab[0]*ac.Dot(ac) - ac[0]*ab.Dot(ab)) / d,
	}
	return a.Add(o), o.Len(), true
}

// Through gives the arc from a through via to b: one piece, or two halves where it turns by more than pi. Three
// points in a line make a straight edge.
func Through(a, via, b Vec2) []Piece {
	centre, radius, ok := Circle(a, via, b)
	if !ok {
		return []Piece{{A: a, B: b}}
	}
	// The chords to and from a point of an arc differ by half of what it turns.
	p, q := via.Sub(a), b.Sub(via)
	turn := 2 * math.Atan2(Cross2(p, q), p.Dot(q))
	if math.Abs(turn) <= math.Pi {
		return []Piece{{a, b, turn}}
	}
	s, c := math.Sincos(turn / 2)
	d := a.Sub(centre)
	mid := centre.Add(Vec2{c*d[0] - s*d[1], s*d[0] + c*d[1]}.Normalize().Mul(radius))
	return []Piece{{a, mid, turn / 2}, {mid, b, turn / 2}}
}

// Reversed is the piece the other way.
func (p Piece) Reversed() Piece { return Piece{p.B, p.A, -p.Turn} }

// Chord is how far its ends lie apart.
func (p Piece) Chord() float64 { return p.B.Sub(p.A).Len() }

// Len is its length.
func (p Piece) Len() float64 { return p.Chord() / sinc(p.Turn/2) }

// Curve is its curvature: one over the radius, positive where it turns counter-clockwise.
func (p Piece) Curve() float64 {
	if p.Turn == 0 {
		return 0
	}
	return 2 * math.Sin(p.Turn/2) / p.Chord()
}

// Circle is the centre and radius of an arc; ok is false for a straight edge.
func (p Piece) Circle() (centre Vec2, radius float64, ok bool) {
	if p.Turn == 0 {
		return Vec2{}, 0, false
	}
	s, c := math.Sincos(p.Turn / 2)
	d := p.B.Sub(p.A)
	return p.A.Add(d.Mul(0.5)).Add(Perp(d).Mul(c / (2 * s))), d.Len() / (2 * math.Abs(s)), true
}

// Start and End are its directions at A and B, of length 1.
func (p Piece) Start() Vec2 { return turned(p.B.Sub(p.A).Normalize(), -p.Turn/2) }

// End is its direction at B.
func (p Piece) End() Vec2 { return turned(p.B.Sub(p.A).Normalize(), p.Turn/2) }

// At is the point at a fraction of its length.
func (p Piece) At(f float64) Vec2 {
	if f >= 1 {
		return p.B
	}
	d := p.B.Sub(p.A).Mul(f * sinc(f*p.Turn/2) / sinc(p.Turn/2))
	return p.A.Add(turned(d, (f-1)*p.Turn/2))
}

// Part is what lies between two fractions of its length.
func (p Piece) Part(from, to float64) Piece {
	q := Piece{p.A, p.B, p.Turn * (to - from)}
	if from > 0 {
		q.A = p.At(from)
	}
	if to < 1 {
		q.B = p.At(to)
	}
	return q
}

// Bow is the area between an arc and its chord, positive where the arc lies to the right of A to B.
func (p Piece) Bow() float64 {
	t := p.Turn
	if t == 0 {
		return 0
	}
	c2 := p.B.Sub(p.A).Dot(p.B.Sub(p.A))
	if math.Abs(t) < 1e-3 { // the difference below cancels
		return c2 * t / 12 * (1 + t*t/30)
	}
	s := math.Sin(t / 2)
	return c2 / (8 * s * s) * (t - math.Sin(t))
}

// Right is how far v lies to the right of the piece's line or circle, negative on its left, and the fraction of
// its length at which the nearest point of that line or circle is: outside 0..1 where it lies beyond the ends.
func (p Piece) Right(v Vec2) (right, f float64) {
	d := v.Sub(p.A)
	u := p.Start()
	n := Perp(u)
	k := p.Curve()
	m := n.Sub(d.Mul(k)) // from v towards the centre, in radii
	right = (k*d.Dot(d) - 2*d.Dot(n)) / (1 + m.Len())
	if p.Turn == 0 {
		return right, d.Dot(u) / p.Chord()
	}
	return right, math.Atan2(k*d.Dot(u), n.Dot(m)) / p.Turn
}

// Distance from v to the piece.
func (p Piece) Distance(v Vec2) float64 {
	least := math.Min(v.Sub(p.A).Len(), v.Sub(p.B).Len())
	if p.A == p.B {
		return least
	}
	if r, f := p.Right(v); f > 0 && f < 1 {
		least = math.Min(least, math.Abs(r))
	}
	return least
}

// Box holds the piece.
func (p Piece) Box() Box2 {
	b := EmptyBox2()
	b.Add(p.A)
	b.Add(p.B)
	if p.Turn == 0 {
		return b
	}
	start := p.Start()
	for _, d := range []Vec2{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} { // where it runs along an axis
		a := math.Atan2(Cross2(start, d), start.Dot(d))
		if f := a / p.Turn; f > 0 && f < 1 {
			b.Add(p.At(f))
		}
	}
	return b
}

// PiecesArea is the area inside a closed chain of pieces, positive where it goes round counter-clockwise.
func PiecesArea(ps []Piece) float64 {
	if len(ps) == 0 {
		return 0
	}
	o, sum := ps[0].A, 0.0
	for _, p := range ps {
		sum += Cross2(p.A.Sub(o), p.B.Sub(o))/2 + p.Bow()
	}
	return sum
}

// ReversedPieces is the chain the other way round.
func ReversedPieces(ps []Piece) []Piece {
	out := make([]Piece, len(ps))
	for i, p := range ps {
		out[len(ps)-1-i] = p.Reversed()
	}
	return out
}

func turned(v Vec2, a float64) Vec2 {
	if a == 0 {
		return v
	}
	s, c := math.Sincos(a)
	return Vec2{c*v[0] - s*v[1], s*v[0] + c*v[1]}
}

// sinc is sin(x)/x.
func sinc(x float64) float64 {
	if math.Abs(x) < 1e-4 {
		return 1 - x*x/6
	}
	return math.Sin(x) / x
}
