package paper

import (
	"math"

	"dryfold/fold/geom"
)

// placer finds room for small labels among a drawing's lines. All in mm on the
// sheet.
type placer struct {
	lines []ink       // labels keep off these
	boxes []geom.Box2 // and off each other
	limit geom.Box2   // and inside this
}

// ink is a drawn line: straight from a to b. A bend's own lines carry its number
// in the part, others -1.
type ink struct {
	a, b geom.Vec2
	bend int
}

// spot is a label's box and whether it stands so far off that it wants a leader.
type spot struct {
	box    geom.Box2
	leader bool
	from   geom.Vec2 // leader's end at the label
}

func (s spot) centre() geom.Vec2 { return s.box.Min.Add(s.box.Max).Mul(0.5) }

// directions round a point, the diagonal ones first.
var directions = func() []geom.Vec2 {
	var d []geom.Vec2
	for _, k := range []int{2, 6, 10, 14, 0, 4, 8, 12, 1, 3, 5, 7, 9, 11, 13, 15} {
		s, c := math.Sincos(float64(k) * math.Pi / 8)
		d = append(d, geom.Vec2{c, s})
	}
	return d
}()

// distances at which a label is tried, from its near side to its point.
var distances = []float64{0.9, 1.8, 3, 4.5, 6.5, 9, 12, 16, 21}

// near finds the best place for a label w by h beside a point, and takes it.
// ok is false where there is no room within 20 mm.
func (p *placer) near(at geom.Vec2, w, h float64) (best spot, ok bool) {
	cost := math.Inf(1)
	all := p
	far := distances[len(distances)-1]
	p = all.within(around(at, far+w, far+h))
	defer func() {
		if ok {
			all.take(best)
		}
	}()
	for di, d := range distances {
		if float64(di) > cost { // everything from here on is dearer
			break
		}
		for k, dir := range directions {
			// The box touches the circle of radius d about the point.
			reach := math.Min((w/2)/math.Max(math.Abs(dir[0]), 1e-9), (h/2)/math.Max(math.Abs(dir[1]), 1e-9))
			c := at.Add(dir.Mul(d + reach))
			box := geom.Box2{Min: c.Sub(geom.Vec2{w / 2, h / 2}), Max: c.Add(geom.Vec2{w / 2, h / 2})}
			if !p.free(box) {
				continue
			}
			s := spot{box: box, leader: d > 2, from: at.Add(dir.Mul(d))}
			v := float64(di) + float64(k)*0.01
			if s.leader {
				v += 1.5 * float64(p.crossings(at.Add(dir.Mul(0.4)), s.from))
			}
			if v < cost {
				best, cost, ok = s, v, true
			}
		}
	}
	return best, ok
}

// within is the placer with only those lines and labels that come near a box: all that matter to labels inside it.
func (p *placer) within(b geom.Box2) *placer {
	few := &placer{limit: p.limit}
	for _, l := range p.lines {
		if crossesBox(l.a, l.b, b, 0.5) {
			few.lines = append(few.lines, l)
		}
	}
	for _, o := range p.boxes {
		if b.Min[0] < o.Max[0] && o.Min[0] < b.Max[0] && b.Min[1] < o.Max[1] && o.Min[1] < b.Max[1] {
			few.boxes = append(few.boxes, o)
		}
	}
	return few
}

// take keeps later labels off a place.
func (p *placer) take(s spot) {
	p.boxes = append(p.boxes, s.box)
}

// free reports whether a box covers no line and no other label.
func (p *placer) free(b geom.Box2) bool { return p.freeFor(b, -1) }

// freeFor is free for a label that may cover the lines of its own bend.
func (p *placer) freeFor(b geom.Box2, bend int) bool {
	if b.Min[0] < p.limit.Min[0] || b.Min[1] < p.limit.Min[1] || b.Max[0] > p.limit.Max[0] || b.Max[1] > p.limit.Max[1] {
		return false
	}
	if !p.clear(b) {
		return false
	}
	for _, l := range p.lines {
		if (bend < 0 || l.bend != bend) && crossesBox(l.a, l.b, b, 0.35) {
			return false
		}
	}
	return true
}

// clear reports whether a box covers no other label; lines it may cover.
func (p *placer) clear(b geom.Box2) bool {
	for _, o := range p.boxes {
		if b.Min[0] < o.Max[0] && o.Min[0] < b.Max[0] && b.Min[1] < o.Max[1] && o.Min[1] < b.Max[1] {
			return false
		}
	}
	return true
}

func (p *placer) crossings(a, b geom.Vec2) int {
	n := 0
	for _, l := range p.lines {
		if cross(a, b, l.a, l.b) {
			n++
		}
	}
	return n
}

// cross reports whether two segments cross in their insides.
func cross(a, b, c, d geom.Vec2) bool {
	s := func(p, q, r geom.Vec2) float64 { return geom.Cross2(q.Sub(p), r.Sub(p)) }
	return s(a, b, c)*s(a, b, d) < 0 && s(c, d, a)*s(c, d, b) < 0
}

// crossesBox reports whether a segment comes within room of a box.
func crossesBox(a, b geom.Vec2, box geom.Box2, room float64) bool {
	t0, t1 := 0.0, 1.0
	for k := range a {
		lo, hi := box.Min[k]-room, box.Max[k]+room
		d := b[k] - a[k]
		if d == 0 {
			if a[k] < lo || a[k] > hi {
				return false
			}
			continue
		}
		u, v := (lo-a[k])/d, (hi-a[k])/d
		if u > v {
			u, v = v, u
		}
		t0, t1 = max(t0, u), min(t1, v)
	}
	return t0 <= t1
}
