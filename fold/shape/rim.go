package shape

import (
	"dryfold/fold"
	"dryfold/fold/geom"
)

// Rim is one straight or round piece of a blank's edge as it is cut, in mm on the blank; the metal lies on its left.
type Rim struct {
	A, B        geom.Vec2
	Arc         bool
	Centre      geom.Vec2 // of an arc
	Radius      float64
	From, Sweep float64 // an arc's angle at A, and how far it turns, counter-clockwise positive, radians
	Whole       bool    // a round hole, or a round contour: it has no ends
	Contour     int     // 0 the outline, then cutouts, then holes
	Index       int     // the edge of the contour as fold.Edge counts them; of several in one line the longest
	Prev, Next  int     // in the list
	Hole        string  // the hole's or cutout's name as troubles use it; "" for the outline
	Turn        float64 // how far the edge turns at A, left positive, radians; 0 where Whole
	// Across is how long the cut right across the blank along the piece is, where it is straight and the blank has nothing beyond its
	// line: shears may cut it. Else 0.
	Across float64
}

// Rims are the pieces of the blank's edge, contour by contour. Neighbours that go on in one line or on one circle are one
// piece. A contour that encloses nothing is left out.
func Rims(p *fold.Part) []Rim {
	c := &cutting{part: p, list: cutRims(p.Spec)}
	across := outerRims(c.list, p.Outline)
	out := make([]Rim, len(c.list))
	for i := range c.list {
		e := &c.list[i]
		out[i] = Rim{e.a, e.b, e.arc, e.o, e.r, e.from, e.sweep, e.whole, e.contour, e.index, e.prev, e.next, c.holeName(e.contour), c.turn(i), across[i]}
	}
	return out
}

// Length of the piece, mm.
func (e *Rim) Length() float64 { return e.rim().length() }

// Mid is the point half way along it.
func (e *Rim) Mid() geom.Vec2 { return e.rim().mid() }

// Way is the unit direction in which it runs at its point p.
func (e *Rim) Way(p geom.Vec2) geom.Vec2 { return e.rim().way(p) }

// Hollow reports that it is round and the middle of its circle lies off the metal.
func (e *Rim) Hollow() bool { return e.Arc && e.Sweep < 0 }

func (e *Rim) rim() *cutRim {
	return &cutRim{a: e.A, b: e.B, arc: e.Arc, o: e.Centre, r: e.Radius, from: e.From, sweep: e.Sweep, whole: e.Whole}
}

// StraightOn is the turn under which a corner isn't there for snips or saw, radians.
const StraightOn = straightOn
