package solid

import (
	"cmp"
	"math"

	"dryfold/fold/geom"
)

// Body is a solid made of convex pieces (which may overlap), with a tree of balls and boxes
// round them. It does not change once made; Place puts it anywhere in space.
type Body struct {
	Pieces []Convex
	order  []int // place of each piece in the list given
	balls  []ball
	hull   []geom.Vec3 // corners whose hull holds the body; nil where they are more than hullCorners
}

// ball holds the pieces of one half of one half ... of the list: a ball, and a box in the body's axes.
type ball struct {
	centre geom.Vec3 // of both
	radius float64
	half   geom.Vec3 // half the box
	first  int       // least place, in the list given, of the pieces held
}

// NewBody keeps the pieces, in an order of its own. No pieces make a body that is
// infinitely far from everything.
func NewBody(pieces []Convex) *Body {
	b := &Body{order: make([]int, len(pieces)), balls: make([]ball, max(2*len(pieces)-1, 0))}
	for i := range b.order {
		b.order[i] = i
	}
	if len(pieces) > 0 {
		b.build(pieces, 0, 0, len(pieces))
	}
	corners := 0
	for _, i := range b.order {
		b.Pieces = append(b.Pieces, pieces[i])
		corners += len(pieces[i].Points)
	}
	if corners <= hullCorners {
		b.hull = make([]geom.Vec3, 0, corners)
		for i := range pieces {
			b.hull = append(b.hull, pieces[i].Points...)
		}
	}
	return b
}

// Prisms is the body over convex loops (counter-clockwise, in the x-y plane) from z = 0 to t.
func Prisms(loops []geom.Loop, t float64) *Body {
	pieces := make([]Convex, len(loops))
	var all []geom.Vec2
	for i, l := range loops {
		pieces[i] = Prism(l, 0, t, geom.Identity())
		all = append(all, l...)
	}
	b := NewBody(pieces)
	if round := hull2(all); len(round) >= 3 && 2*len(round) <= hullCorners {
		b.hull = make([]geom.Vec3, 0, 2*len(round))
		for _, p := range round {
			b.hull = append(b.hull, geom.Vec3{p[0], p[1], 0}, geom.Vec3{p[0], p[1], t})
		}
	}
	return b
}

// build sorts pieces lo..hi across their longest extent, halves them, and sets ball k.
// The first half's ball is k+1, the second's k+2*half.
func (b *Body) build(all []Convex, k, lo, hi int) {
	part := b.order[lo:hi]
	if hi-lo == 1 {
		c := &all[part[0]]
		box := geom.EmptyBox3()
		for _, p := range c.Points {
			box.Add(p)
		}
		b.balls[k] = ball{c.Centre, c.Radius, box.Size().Mul(0.5), part[0]}
		return
	}
	centres := geom.EmptyBox3()
	for _, i := range part {
		centres.Add(all[i].Centre)
	}
	size, axis := centres.Size(), 0
	for i := range size {
		if size[i] > size[axis] {
			axis = i
		}
	}
	geom.SortStable(part, func(i, j int) int {
		return cmp.Or(cmp.Compare(all[i].Centre[axis], all[j].Centre[axis]), i-j)
	})
	mid := (lo + hi) / 2
	left, right := k+1, k+2*(mid-lo)
	b.build(all, left, lo, mid)
	b.build(all, right, mid, hi)
	x, y := &b.balls[left], &b.balls[right]
	box := geom.EmptyBox3()
	for _, c := range []*ball{x, y} {
		box.Add(c.centre.Sub(c.half))
		box.Add(c.centre.Add(c.half))
	}
	c, r2 := box.Min.Add(box.Max).Mul(0.5), 0.0
	for _, i := range part {
		for p := range all[i].Points {
			q := &all[i].Points[p]
			dx, dy, dz := q[0]-c[0], q[1]-c[1], q[2]-c[2]
			r2 = max(r2, dx*dx+dy*dy+dz*dz)
		}
	}
	b.balls[k] = ball{c, math.Sqrt(r2), box.Size().Mul(0.5), min(x.first, y.first)}
}

// Bounds is a box round the body along its own axes: its middle and half its edges. The body must not be empty.
func (b *Body) Bounds() (mid, half geom.Vec3) { return b.balls[0].centre, b.balls[0].half }

// Radius is that of a ball round the middle of Bounds that holds the body; 0 for an empty one.
func (b *Body) Radius() float64 {
	if len(b.balls) == 0 {
		return 0
	}
	return b.balls[0].radius
}

// Placed is a body somewhere in space. It moves its pieces only when they are
// asked for, so it must not be used by two goroutines at once.
type Placed struct {
	Body  *Body
	Frame geom.Frame
	// Work, where not nil, is added the effort of every search in which the body is the first of
	// the two: pairs of balls and pieces looked at, times the Turns of a Motion.
	Work  *int
	upTo  int
	moved []Convex
	round *Convex // the hull in space, of which only points and ball are set
}

// Place puts the body's local coordinates at a frame.
func (b *Body) Place(f geom.Frame) *Placed { return b.PlaceFirst(f, len(b.Pieces)) }

// PlaceFirst puts the first n of the pieces that the body was made of at a frame, and leaves
// the others out.
func (b *Body) PlaceFirst(f geom.Frame, n int) *Placed {
	return &Placed{Body: b, Frame: f, upTo: min(n, len(b.Pieces))}
}

// Empty reports whether no piece is left.
func (p *Placed) Empty() bool { return p.upTo <= 0 }

// Pieces lists the pieces in space.
func (p *Placed) Pieces() []Convex {
	var out []Convex
	for i, k := range p.Body.order {
		if k < p.upTo {
			out = append(out, *p.Piece(i))
		}
	}
	return out
}

// hull is a convex body in space that holds the body, with no more than points and a ball; nil where there is none.
func (p *Placed) hull() *Convex {
	if p.round == nil && p.Body.hull != nil {
		c := &Convex{Points: make([]geom.Vec3, len(p.Body.hull)), Centre: p.Frame.Point(p.Body.balls[0].centre), Radius: p.Body.balls[0].radius}
		for i, q := range p.Body.hull {
			c.Points[i] = p.Frame.Point(q)
		}
		p.round = c
	}
	return p.round
}

// Holds reports whether there is a piece i that is not left out.
func (p *Placed) Holds(i int) bool { return i < len(p.Body.Pieces) && p.Body.order[i] < p.upTo }

// Piece is one piece in space, by its place in Body.Pieces.
func (p *Placed) Piece(i int) *Convex {
	if p.moved == nil {
		p.moved = make([]Convex, len(p.Body.Pieces))
	}
	if p.moved[i].Points == nil {
		p.moved[i] = p.Body.Pieces[i].Move(p.Frame)
	}
	return &p.moved[i]
}

func (p *Placed) worked(n int) {
	if p.Work != nil {
		*p.Work += n
	}
}

// Box is a box round the body, along the axes of its frame.
func (p *Placed) Box() Convex {
	b := &p.Body.balls[0]
	h, f := b.half, &p.Frame
	out := Convex{Tris: boxTris, Edges: boxEdges, Centre: f.Point(b.centre), Radius: h.Len()}
	pts := make([]geom.Vec3, 8+6+3)
	for k := range 8 {
		pts[k] = corner(k, &out.Centre, b, f)
	}
	copy(pts[8:], []geom.Vec3{f.X, f.Y, f.Z, f.X.Mul(-1), f.Y.Mul(-1), f.Z.Mul(-1), f.X, f.Y, f.Z})
	out.Points, out.Normals, out.Dirs = pts[:8:8], pts[8:14:14], pts[14:]
	return out
}

// corner is one of the eight of a box in space, its centre given: bit i of k says which side
// along axis i.
func corner(k int, centre *geom.Vec3, b *ball, f *geom.Frame) geom.Vec3 {
	h := b.half
	for i := range 3 {
		if k>>i&1 == 0 {
			h[i] = -h[i]
		}
	}
	return centre.Add(f.Vector(h))
}

// Faces and edges of a box, its corners as corner gives them.
var (
	boxTris = [][3]int32{{0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}, {0, 1, 5}, {0, 5, 4},
		{2, 6, 7}, {2, 7, 3}, {0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}}
	boxEdges = [][2]int32{{0, 1}, {2, 3}, {4, 5}, {6, 7}, {0, 2}, {1, 3}, {4, 6}, {5, 7}, {0, 4}, {1, 5}, {2, 6}, {3, 7}}
)

// Between is the least signed distance over the pairs of pieces of two bodies, if
// it is under limit, else false. IA and IB are the pieces.
func Between(a, b *Placed, limit float64) (c Contact, ia, ib int, ok bool) {
	if a.Empty() || b.Empty() {
		return Contact{D: math.Inf(1)}, 0, 0, false
	}
	s := search{a: a, b: b, best: Contact{D: limit}}
	// b's balls are seen in a's coordinates.
	s.rel = InFrame(a.Frame, b.Frame)
	descend(&s, a.Body, b.Body)
	if s.found && s.best.D <= 0 {
		s.best.A, s.best.B = inward(a.Piece(s.ia), b.Piece(s.ib), s.best)
	}
	return s.best, s.ia, s.ib, s.found
}

// Overlaps calls visit for every pair of pieces that overlap by more than depth (0 or more), by
// their places in the lists that the bodies were made of, with how deep they do.
func Overlaps(a, b *Placed, depth float64, visit func(ia, ib int, depth float64)) {
	if a.Empty() || b.Empty() {
		return
	}
	s := search{a: a, b: b, best: Contact{D: -depth}, visit: visit, rel: InFrame(a.Frame, b.Frame)}
	descend(&s, a.Body, b.Body)
}

// InFrame is frame g in f's coordinates.
func InFrame(f, g geom.Frame) geom.Frame {
	return geom.Frame{X: f.LocalVector(g.X), Y: f.LocalVector(g.Y), Z: f.LocalVector(g.Z), O: f.LocalPoint(g.O)}
}

type search struct {
	a, b   *Placed
	rel    geom.Frame
	best   Contact
	ia, ib int
	found  bool
	visit  func(ia, ib int, depth float64) // nil: look for the least distance
	dirs   []geom.Vec3                     // slabs that were of use: a pair that one of them parts wide enough is no nearer
}

// bound is a lower bound of the distance of what two balls hold.
func (s *search) bound(i, j int) float64 {
	p, q := &s.a.Body.balls[i], &s.b.Body.balls[j]
	if p.first >= s.a.upTo || q.first >= s.b.upTo {
		return math.Inf(1)
	}
	d := p.centre.Sub(s.rel.Point(q.centre))
	best := d.Len() - p.radius - q.radius
	for _, n := range s.dirs {
		if best >= s.best.D {
			break
		}
		la, lb := s.a.Frame.LocalVector(n), s.b.Frame.LocalVector(n)
		best = max(best, la.Dot(d)-reachOf(p, la)-reachOf(q, lb))
	}
	return best
}

// reachOf is half the width of a box across n, which is given in the box's axes.
func reachOf(b *ball, n geom.Vec3) float64 {
	return math.Abs(n[0])*b.half[0] + math.Abs(n[1])*b.half[1] + math.Abs(n[2])*b.half[2]
}

// open counts the work, too.
func (s *search) open(bound float64) bool {
	if bound >= s.best.D {
		return false
	}
	s.a.worked(1)
	return true
}

func (s *search) leaf(i, j int) {
	a, b := s.a.Piece(i), s.b.Piece(j)
	for _, n := range s.dirs {
		if d, _, _ := slab(a, b, n); d >= s.best.D {
			return
		}
	}
	c, ok := Nearer(a, b, s.best.D)
	switch {
	case ok && s.visit != nil:
		s.visit(s.a.Body.order[i], s.b.Body.order[j], -c.D)
	case ok:
		s.best, s.ia, s.ib, s.found = c, i, j, true
	}
	if c.N != (geom.Vec3{}) {
		s.dirs = keep(s.dirs, c.N)
	}
}
