package shape

// This file finds the narrow places of a blank: where two pieces of its edge face each other across
// metal (a strip) or across what is cut away (a slot).

import (
	"cmp"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// narrowPlace is a narrow place: the pieces e and f of the edge come nearest to each other at p and q, and
// nothing lies between. Moving either point along the edge brings them no nearer.
type narrowPlace struct {
	e, f int // e < f, or one piece of an arc with itself
	p, q geom.Vec2
	wide float64
	void bool // across what is cut away; else across metal
}

// narrowPlaces are the narrow places up to most wide, the narrowest first. Places that lie near each other
// between the same or neighbouring pieces are told once, at the narrowest. full is false where there were so many that the search
// was given up.
func narrowPlaces(list []cutRim, most float64) (out []narrowPlace, full bool) {
	tree := newRimTree(list)
	full = true
	looked := 0
	for i := range list {
		box := list[i].box()
		tree.near(box, most, func(j int) bool {
			if j <= i {
				return true
			}
			if looked++; looked > maxLooks {
				full = false
				return false
			}
			narrowBetween(list, i, j, most, func(x narrowPlace) {
				if !tree.between(list, x) {
					out = append(out, x)
				}
			})
			return true
		})
		if !full {
			break
		}
	}
	geom.SortStable(out, func(x, y narrowPlace) int { return cmp.Compare(x.wide, y.wide) })
	told := map[[3]int][]narrowPlace{}
	kept := out[:0]
	for _, x := range out {
		if alike(told, list, x) {
			continue
		}
		told[x.key(x.e, x.f)] = append(told[x.key(x.e, x.f)], x)
		kept = append(kept, x)
	}
	return kept, full
}

func (x narrowPlace) key(e, f int) [3]int {
	side := 0
	if x.void {
		side = 1
	}
	return [3]int{min(e, f), max(e, f), side}
}

// middle is the point half way across.
func (x narrowPlace) middle() geom.Vec2 { return x.p.Add(x.q).Mul(0.5) }

// alike reports that a narrower place was told within twice its width between the same two pieces or their neighbours, or
// anywhere along an even slot or strip.
func alike(told map[[3]int][]narrowPlace, list []cutRim, x narrowPlace) bool {
	for _, e := range [3]int{x.e, list[x.e].prev, list[x.e].next} {
		for _, f := range [3]int{x.f, list[x.f].prev, list[x.f].next} {
			for _, y := range told[x.key(e, f)] {
				if x.middle().Sub(y.middle()).Len() <= 2*x.wide {
					return true
				}
				turn := math.Abs(geom.Cross2(x.q.Sub(x.p), y.q.Sub(y.p)))
				if x.wide-y.wide <= fold.Weld && turn <= evenly*x.wide*y.wide {
					return true // of one width all along
				}
			}
		}
	}
	return false
}

// rimPoint is a point of the edge: the start of piece i, or a point inside it.
type rimPoint struct {
	i      int
	at     geom.Vec2
	corner bool
}

// narrowBetween shows the places where pieces i and j are nearest to each other, up to most apart.
func narrowBetween(list []cutRim, i, j int, most float64, found func(narrowPlace)) {
	e, f := &list[i], &list[j]
	try := func(p, q rimPoint) {
		d := q.at.Sub(p.at)
		w := d.Len()
		if !(w > fold.Weld && w <= most) {
			return
		}
		sp, ok := leavesBy(list, p, d.Mul(1/w))
		if !ok {
			return
		}
		sq, ok := leavesBy(list, q, d.Mul(-1/w))
		if !ok || sp != sq {
			return
		}
		if !p.corner && !q.corner && !noNearer(e, f, p.at, q.at, w) {
			return
		}
		found(narrowPlace{i, j, p.at, q.at, w, !sp})
	}
	if !e.whole && !f.whole {
		try(rimPoint{i, e.a, true}, rimPoint{j, f.a, true})
	}
	if !e.whole {
		if q, ok := f.foot(e.a); ok {
			try(rimPoint{i, e.a, true}, rimPoint{j, q, false})
		}
	}
	if !f.whole {
		if p, ok := e.foot(f.a); ok {
			try(rimPoint{i, p, false}, rimPoint{j, f.a, true})
		}
	}
	for _, pq := range squareToBoth(e, f) {
		try(rimPoint{i, pq[0], false}, rimPoint{j, pq[1], false})
	}
}

// foot is the point inside the piece that is nearest to p along its normal.
func (e *cutRim) foot(p geom.Vec2) (geom.Vec2, bool) {
	if e.arc {
		d := p.Sub(e.o)
		n := d.Len()
		if n <= fold.Weld || !e.holds(d) {
			return geom.Vec2{}, false
		}
		return e.o.Add(d.Mul(e.r / n)), true
	}
	u := e.b.Sub(e.a)
	l := u.Len()
	u = u.Mul(1 / l)
	t := p.Sub(e.a).Dot(u)
	if t <= fold.Weld || t >= l-fold.Weld {
		return geom.Vec2{}, false
	}
	return e.a.Add(u.Mul(t)), true
}

// squareToBoth are pairs of points inside two pieces whose line is square to both.
func squareToBoth(e, f *cutRim) (out [][2]geom.Vec2) {
	switch {
	case !e.arc && !f.arc:
		u, v := e.b.Sub(e.a), f.b.Sub(f.a)
		l := u.Len()
		u = u.Mul(1 / l)
		if math.Abs(geom.Cross2(u, v)) > alongside*v.Len() {
			return nil
		}
		s, t := f.a.Sub(e.a).Dot(u), f.b.Sub(e.a).Dot(u)
		lo, hi := max(0, min(s, t)), min(l, max(s, t))
		if hi-lo <= 2*fold.Weld {
			return nil
		}
		p := e.a.Add(u.Mul((lo + hi) / 2))
		if q, ok := f.foot(p); ok {
			out = append(out, [2]geom.Vec2{p, q})
		}
	case !e.arc:
		for _, pq := range squareToBoth(f, e) {
			out = append(out, [2]geom.Vec2{pq[1], pq[0]})
		}
	case !f.arc:
		g, ok := f.foot(e.o)
		if !ok {
			return nil
		}
		u := geom.Perp(f.b.Sub(f.a)).Normalize()
		for _, d := range [2]geom.Vec2{u, u.Mul(-1)} {
			if e.holds(d) {
				out = append(out, [2]geom.Vec2{e.o.Add(d.Mul(e.r)), g})
			}
		}
	default:
		d := f.o.Sub(e.o)
		if d.Len() <= fold.Weld { // rings: any direction that both hold
			for _, at := range [2]geom.Vec2{e.mid(), f.mid()} {
				if d := at.Sub(e.o).Normalize(); e.holds(d) && f.holds(d) {
					return [][2]geom.Vec2{{e.o.Add(d.Mul(e.r)), f.o.Add(d.Mul(f.r))}}
				}
			}
			return nil
		}
		d = d.Normalize()
		for _, x := range [2]float64{1, -1} {
			for _, y := range [2]float64{1, -1} {
				if dx, dy := d.Mul(x), d.Mul(y); e.holds(dx) && f.holds(dy) {
					out = append(out, [2]geom.Vec2{e.o.Add(dx.Mul(e.r)), f.o.Add(dy.Mul(f.r))})
				}
			}
		}
	}
	return out
}

// leavesBy says on which side of the edge the unit direction d leaves it at a point: true into the metal. ok is
// false where it runs along the edge, or the edge itself turns towards d there.
func leavesBy(list []cutRim, p rimPoint, d geom.Vec2) (metal, ok bool) {
	e := &list[p.i]
	out := e.way(p.at)
	if !p.corner {
		n := geom.Cross2(out, d)
		return n > 0, math.Abs(n) > 0.5
	}
	in := &list[e.prev]
	back := in.way(p.at).Mul(-1)
	if out.Dot(d) > noLean || back.Dot(d) > noLean {
		return false, false
	}
	angle := func(v geom.Vec2) float64 { return wholeTurn(math.Atan2(geom.Cross2(out, v), out.Dot(v))) }
	return angle(d) < angle(back), true
}

// noNearer reports that p and q, each inside its piece, are no farther apart than the points beside them: with
// curvatures ke and kf towards each other, (1 - ke w)(1 - kf w) >= 1.
func noNearer(e, f *cutRim, p, q geom.Vec2, w float64) bool {
	curve := func(g *cutRim, at, towards geom.Vec2) float64 {
		if !g.arc {
			return 0
		}
		if g.o.Sub(at).Dot(towards.Sub(at)) > 0 {
			return 1 / g.r
		}
		return -1 / g.r
	}
	x, y := 1-curve(e, p, q)*w, 1-curve(f, q, p)*w
	return x > 0 && y > 0 && x*y >= 1-noLean
}

// rimTree finds pieces by where they lie.
type rimTree struct {
	boxes []geom.Box2
	order []int     // pieces, leaf by leaf
	nodes []rimNode // nodes[0] is the root
}

// rimNode holds order[from:to]; its children are nodes left and left+1, 0 for a leaf.
type rimNode struct {
	box      geom.Box2
	from, to int
	left     int
}

// rimLeaf is how many pieces a leaf of the tree holds.
const rimLeaf = 6

func newRimTree(list []cutRim) *rimTree {
	t := &rimTree{boxes: make([]geom.Box2, len(list)), order: make([]int, len(list))}
	for i := range list {
		t.boxes[i], t.order[i] = list[i].box(), i
	}
	t.nodes = append(t.nodes, rimNode{to: len(list)})
	for k := 0; k < len(t.nodes); k++ {
		n := &t.nodes[k]
		n.box = geom.EmptyBox2()
		part := t.order[n.from:n.to]
		for _, i := range part {
			n.box.Add(t.boxes[i].Min)
			n.box.Add(t.boxes[i].Max)
		}
		if len(part) <= rimLeaf {
			continue
		}
		axis := 0
		if s := n.box.Size(); s[1] > s[0] {
			axis = 1
		}
		slices.SortFunc(part, func(i, j int) int {
			x, y := t.boxes[i], t.boxes[j]
			return cmp.Or(cmp.Compare(x.Min[axis]+x.Max[axis], y.Min[axis]+y.Max[axis]), i-j)
		})
		half := n.from + len(part)/2
		from, to := n.from, n.to
		n.left = len(t.nodes)
		t.nodes = append(t.nodes, rimNode{from: from, to: half}, rimNode{from: half, to: to})
	}
	return t
}

// near shows the pieces whose boxes lie within reach of box, until visit says false.
func (t *rimTree) near(box geom.Box2, reach float64, visit func(int) bool) {
	apart := func(b geom.Box2) bool {
		for k := range 2 {
			if b.Min[k]-box.Max[k] > reach || box.Min[k]-b.Max[k] > reach {
				return true
			}
		}
		return false
	}
	stack := make([]int, 1, 64)
	for len(stack) > 0 {
		n := &t.nodes[stack[len(stack)-1]]
		stack = stack[:len(stack)-1]
		if apart(n.box) {
			continue
		}
		if n.left > 0 {
			stack = append(stack, n.left+1, n.left)
			continue
		}
		for _, i := range t.order[n.from:n.to] {
			if !apart(t.boxes[i]) && !visit(i) {
				return
			}
		}
	}
}

// between reports that some piece of the edge crosses the line from p to q of a narrow place.
func (t *rimTree) between(list []cutRim, x narrowPlace) (crossed bool) {
	box := geom.EmptyBox2()
	box.Add(x.p)
	box.Add(x.q)
	t.near(box, 0, func(i int) bool {
		crossed = list[i].crosses(x.p, x.q)
		return !crossed
	})
	return crossed
}

// crosses reports that the piece meets the line p-q away from the line's ends.
func (e *cutRim) crosses(p, q geom.Vec2) bool {
	d := q.Sub(p)
	l := d.Len()
	near := fold.Weld / l
	if !e.arc {
		a, b := geom.Cross2(d, e.a.Sub(p))/l, geom.Cross2(d, e.b.Sub(p))/l
		if a*b > 0 || a == b {
			return false
		}
		at := e.a.Add(e.b.Sub(e.a).Mul(a / (a - b)))
		t := at.Sub(p).Dot(d) / (l * l)
		return t > near && t < 1-near
	}
	// |p + t d - o| = r
	o := p.Sub(e.o)
	b, c := o.Dot(d)/(l*l), (o.Dot(o)-e.r*e.r)/(l*l)
	root := b*b - c
	if root <= 0 {
		return false
	}
	root = math.Sqrt(root)
	for _, t := range [2]float64{-b - root, -b + root} {
		if t > near && t < 1-near && e.holds(p.Add(d.Mul(t)).Sub(e.o)) {
			return true
		}
	}
	return false
}
