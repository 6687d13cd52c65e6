package paper

// The check square: a square of known size on every page of a template, for a rule to say whether the
// printer prints true.

import (
	"math"
	"slices"

	"dryfold/fold/draft"
	"dryfold/fold/geom"
)

// squareWords are what stands in a check square, in lines.
func (t *template) squareWords() []string {
	_, name := t.opt.square()
	unit := t.opt.Units.String()
	return []string{"Check square: " + name + " across and down.",
		"Measured across ________ " + unit + ", down ________ " + unit}
}

// squareCost is what a check square at a place, its upper left corner, covers: lines that meet its own edges are worst, for it is
// measured from edge to edge, most of all lines along them; then lines within it, then metal, which is cut away with it. From enough on it
// does not count.
func squareCost(lines []ink, at, size geom.Vec2, enough float64) float64 {
	box := geom.Box2{Min: at, Max: at.Add(size)}
	cost := 0.0
	inner := geom.Box2{Min: box.Min.Add(geom.Vec2{1, 1}), Max: box.Max.Sub(geom.Vec2{1, 1})}
	holds := func(v geom.Vec2) bool {
		return v[0] >= inner.Min[0] && v[0] <= inner.Max[0] && v[1] >= inner.Min[1] && v[1] <= inner.Max[1]
	}
	for i := range lines {
		l := &lines[i]
		if l.far(&box) || !crossesBox(l.a, l.b, box, 1) {
			continue
		}
		if cost >= enough {
			break
		}
		switch {
		case holds(l.a) && holds(l.b):
			cost += 5
		case l.bend >= 0: // its lines come in threes, and are thin
			cost += 8
		default: // the outline is worst along the square: one would be taken for the other
			cost += 20
			if t0, t1, ok := within(l.a, l.b, box); ok {
				cost += 0.2 * (t1 - t0) * l.b.Sub(l.a).Len()
			}
		}
		if alongEdge(*l, box) {
			cost += 40
		}
	}
	return cost
}

// alongEdge reports whether a line runs along one of a box's edges, so near that they would be taken for each other.
func alongEdge(l ink, b geom.Box2) bool {
	d := l.b.Sub(l.a)
	for k := range d {
		if math.Abs(d[k]) > shallow*math.Abs(d[1-k]) || max(l.a[1-k], l.b[1-k]) < b.Min[1-k] || min(l.a[1-k], l.b[1-k]) > b.Max[1-k] {
			continue
		}
		for _, x := range []float64{b.Min[k], b.Max[k]} {
			if min(l.a[k], l.b[k])-alongNear < x && x < max(l.a[k], l.b[k])+alongNear {
				return true
			}
		}
	}
	return false
}

// placeSquare finds the place for the check square in a box, of lines near it, that covers the least of the drawing.
func (t *template) placeSquare(in geom.Box2, lines []ink, onMetal func(geom.Vec2) bool) geom.Box2 {
	mm, _ := t.opt.square()
	size := t.scale.Mul(mm)
	lo := in.Min.Add(geom.Vec2{squareRoom / 2, squareRoom / 2})
	room := in.Max.Sub(geom.Vec2{squareRoom / 2, squareRoom / 2}).Sub(size).Sub(lo)
	n := 41
	for n > 2 && n*n*len(lines) > squareWork {
		n--
	}
	best, least := lo, math.Inf(1)
	for i := range n * n {
		at := lo.Add(geom.Vec2{max(0, room[0]) * float64(i%n) / float64(n-1), max(0, room[1]) * float64(i/n) / float64(n-1)})
		cost := squareCost(lines, at, size, least)
		if cost >= least {
			continue
		}
		if cost += 0.001 * float64(i%n+i/n); onMetal(at.Add(size.Mul(0.5))) {
			cost += 10
		}
		if cost < least {
			best, least = at, cost
		}
	}
	return geom.Box2{Min: best, Max: best.Add(size)}
}

// drawSquare draws it, its words along an edge where they cover the least.
func (t *template) drawSquare(s *draft.Page, b geom.Box2, pl *placer) {
	s.Group("square")
	s.Box("dimline", b.Min[0], b.Min[1], b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])
	words := t.squareWords()
	w, h := 0.0, 3.6*float64(len(words))
	for _, l := range words {
		w = max(w, draft.Width(l, 2.8))
	}
	mid := (b.Min[0] + b.Max[0]) / 2
	best, least := geom.Box2{}, math.MaxInt
	for _, y := range []float64{b.Max[1] - h/2 - 1.2, b.Min[1] + h/2 + 1.2, (b.Min[1] + b.Max[1]) / 2, b.Max[1] - 25, b.Min[1] + 25} {
		box := around(geom.Vec2{mid, y}, w/2, h/2)
		n := 0
		for _, l := range pl.lines {
			if crossesBox(l.a, l.b, box, 0.5) {
				n++
			}
		}
		if n < least {
			best, least = box, n
		}
	}
	for i, l := range words {
		s.Text("note", draft.Middle, geom.Vec2{mid, best.Min[1] + 3.6*float64(i) + 2.7}, l)
	}
	s.End()
	for i, c := range corners(b) {
		pl.lines = append(pl.lines, ink{c, corners(b)[(i+1)%4], -1})
	}
	pl.boxes = append(pl.boxes, best)
}

func corners(b geom.Box2) [4]geom.Vec2 {
	return [4]geom.Vec2{b.Min, {b.Max[0], b.Min[1]}, b.Max, {b.Min[0], b.Max[1]}}
}

// far reports that a line is more than 1 mm off a box on one side of it.
func (l *ink) far(b *geom.Box2) bool {
	return max(l.a[0], l.b[0]) < b.Min[0]-1 || min(l.a[0], l.b[0]) > b.Max[0]+1 || max(l.a[1], l.b[1]) < b.Min[1]-1 || min(l.a[1], l.b[1]) > b.Max[1]+1
}

// near are the lines that come into a box, at most maxPlaced of them.
func near(lines []ink, b geom.Box2) []ink {
	var out []ink
	for i := range lines {
		if l := &lines[i]; !l.far(&b) && crossesBox(l.a, l.b, b, 1) {
			if out = append(out, *l); len(out) >= maxPlaced {
				break
			}
		}
	}
	return slices.Clip(out)
}
