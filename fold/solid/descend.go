package solid

// This file goes down two bodies' trees at once.

// visitor is what is done on the way.
type visitor interface {
	bound(i, j int) float64  // of whatever balls i of the first tree and j of the second hold
	open(bound float64) bool // is there any use in looking at pairs with such a bound?
	leaf(i, j int)           // looks at a pair of pieces, by their places in Body.Pieces
}

// node is a ball of a tree and the pieces lo..hi that it holds.
type node struct{ ball, lo, hi int }

func (n node) single() bool { return n.hi-n.lo == 1 }

// halves are the nodes of which n is made, as Body.build makes them.
func (n node) halves() (l, r node) {
	mid := (n.lo + n.hi) / 2
	return node{n.ball + 1, n.lo, mid}, node{n.ball + 2*(mid-n.lo), mid, n.hi}
}

// descend calls leaf for the pairs of pieces that open doesn't shut out, pairs of lesser bounds first.
// Neither body may be empty.
func descend(v visitor, a, b *Body) {
	x, y := node{0, 0, len(a.Pieces)}, node{0, 0, len(b.Pieces)}
	descendFrom(v, a, b, x, y, v.bound(0, 0))
}

func descendFrom(v visitor, a, b *Body, x, y node, bound float64) {
	if !v.open(bound) {
		return
	}
	if x.single() && y.single() {
		v.leaf(x.lo, y.lo)
		return
	}
	x1, x2, y1, y2 := x, x, y, y
	if y.single() || !x.single() && a.balls[x.ball].radius >= b.balls[y.ball].radius {
		x1, x2 = x.halves()
	} else {
		y1, y2 = y.halves()
	}
	d1, d2 := v.bound(x1.ball, y1.ball), v.bound(x2.ball, y2.ball)
	if d2 < d1 {
		x1, y1, d1, x2, y2, d2 = x2, y2, d2, x1, y1, d1
	}
	descendFrom(v, a, b, x1, y1, d1)
	descendFrom(v, a, b, x2, y2, d2)
}
