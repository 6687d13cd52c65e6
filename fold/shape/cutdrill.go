package shape

// This file places the drilled holes that end a cut.

import (
	"cmp"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// piece is the number of a Cut's piece in the list.
func (c *cutting) piece(x *Cut) int {
	if c.byEdge == nil {
		c.byEdge = map[[2]int]int{}
		for i := range c.list {
			c.byEdge[[2]int{c.list[i].contour, c.list[i].index}] = i
		}
	}
	return c.byEdge[[2]int{x.Contour, x.Edge}]
}

// stopHole puts a drilled hole into the sharp inside corner at the start of piece i: in the waste, where it touches both
// lines and takes nothing of the metal. It is the owned drill nearest to stopDrill that has room there, up to
// twice that; none where no drill has, or where a side is round.
func (c *cutting) stopHole(x *Cut, i int) {
	for _, d := range c.stopDrills() {
		if at, ok := c.touching(i, d); ok {
			x.Drill, x.DrillAt = d, []geom.Vec2{at}
			return
		}
	}
}

// bottomStops does the same for both corners of a notch's bottom, piece i, where both have room for one drill.
func (c *cutting) bottomStops(x *Cut, i int) {
	for _, d := range c.stopDrills() {
		a, ok := c.touching(i, d)
		b, also := c.touching(c.list[i].next, d)
		if ok && also && a.Sub(b).Len() > 2*d {
			x.Drill, x.DrillAt = d, []geom.Vec2{a, b}
			return
		}
	}
}

// sawnAcross puts holes in which the saw's blade turns into both corners of a notch's bottom, piece i; false where they have no
// room, or no such drill is owned.
func (c *cutting) sawnAcross(x *Cut, i int) bool {
	_, d, fits := c.nearest(c.SawStart)
	if fits > 0 {
		d = fits
	}
	if d == 0 || c.list[i].length() < 2*d {
		return false
	}
	a, ok := c.touching(i, d)
	b, also := c.touching(c.list[i].next, d)
	if ok && also {
		x.Drill, x.DrillAt = d, []geom.Vec2{a, b}
	}
	return ok && also
}

// stopDrills are the owned drills up to twice stopDrill, the one nearest to it first.
func (c *cutting) stopDrills() []float64 {
	if c.stops == nil {
		c.stops = slices.DeleteFunc(slices.Clone(c.Drills), func(d float64) bool { return d > 2*stopDrill })
		geom.SortStable(c.stops, func(a, b float64) int {
			return cmp.Compare(math.Abs(a-stopDrill), math.Abs(b-stopDrill))
		})
	}
	return c.stops
}

// touching is the centre of a hole that lies in the waste and touches both straight pieces that meet in the sharp inside corner at the
// start of piece i; false where it has no room.
func (c *cutting) touching(i int, d float64) (geom.Vec2, bool) {
	e, f := &c.list[c.list[i].prev], &c.list[i]
	if e.arc || f.arc || c.turn(i) >= -straightOn {
		return geom.Vec2{}, false
	}
	back, on := e.way(e.a).Mul(-1), f.way(f.a)
	half := (math.Pi + c.turn(i)) / 2 // of the open angle
	reach := d / 2 / math.Tan(half)   // from the corner to where the hole touches
	if reach > min(e.length(), f.length()) {
		return geom.Vec2{}, false
	}
	way := back.Add(on)
	if way.Len() < noLean {
		return geom.Vec2{}, false
	}
	at := f.a.Add(way.Normalize().Mul(d / 2 / math.Sin(half)))
	return at, c.roomAt(at, d/2)
}

// roomAt reports that no piece of the edge comes nearer to a point than r.
func (c *cutting) roomAt(at geom.Vec2, r float64) bool {
	if c.tree == nil {
		c.tree = newRimTree(c.list)
	}
	room := true
	c.tree.near(geom.Box2{Min: at, Max: at}, r, func(k int) bool {
		e := &c.list[k]
		d := min(e.a.Sub(at).Len(), e.b.Sub(at).Len())
		if q, ok := e.foot(at); ok {
			d = min(d, q.Sub(at).Len())
		}
		room = d >= r-fold.Weld*10
		return room
	})
	return room
}

// bottomHoles are the largest owned drill up to d for the bottom of a notch, piece i, and the centres of its holes: one in each
// corner, or one in its middle where two would run into each other. d and no places where none has room.
func (c *cutting) bottomHoles(i int, d float64) (float64, []geom.Vec2) {
	e := &c.list[i]
	in := geom.Perp(e.way(e.a)).Mul(-1)
	for k := len(c.Drills) - 1; k >= 0; k-- {
		x := c.Drills[k]
		if x > d {
			continue
		}
		if 2*x <= e.length() {
			a, ok := c.touching(i, x)
			b, also := c.touching(e.next, x)
			if ok && also {
				return x, []geom.Vec2{a, b}
			}
		}
		if at := e.mid().Add(in.Mul(x / 2)); c.roomAt(at, x/2-drillNear) {
			return x, []geom.Vec2{at}
		}
	}
	return d, nil
}
