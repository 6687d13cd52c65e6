package shape

// This file finds the cuts of a blank that go right across, for shears, and the widest place of a cutout.

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// edges looks at the straight edges beyond which the blank has nothing: shears cut them right across.
func (c *cutting) edges() {
	if c.ShearsLength <= 0 {
		return
	}
	outer := outerRims(c.list, c.part.Outline)
	for i := range c.list {
		if outer[i] == 0 {
			continue
		}
		e := &c.list[i]
		long := outer[i]
		x := c.at(i, CutEdge, e.mid(), long)
		where := c.where(i, i, e.mid())
		switch {
		case long <= c.ShearsLength+cutSlack:
			x.Tool, x.Words = "shears", "the edge "+where+": shear it right across, "+c.mm(long)+"."
		case c.snips:
			x.Tool, x.Words = "snips", "the edge "+where+", "+c.mm(long)+" right across, is longer than the shears' "+c.mm(c.ShearsLength)+": snip it."
		case c.saw:
			x.Tool, x.Words = "saw", "the edge "+where+", "+c.mm(long)+" right across, is longer than the shears' "+c.mm(c.ShearsLength)+": saw it."
		case c.nibbler:
			x.Tool, x.Words = "nibbler", "the edge "+where+", "+c.mm(long)+" right across, is longer than the shears' "+c.mm(c.ShearsLength)+": nibble it."
		case c.disc:
			x.Tool, x.Words = "disc", "the edge "+where+", "+c.mm(long)+" right across, is longer than the shears' "+c.mm(c.ShearsLength)+": cut it with the cut-off disc."
		default:
			c.none(&x, "the edge "+where+", "+c.mm(long)+" right across,")
		}
		c.add(x)
	}
}

// outerRims says for each piece of the edge how long the cut right across the blank along it is, where it is straight and the
// blank has nothing beyond its line; 0 for all others.
func outerRims(list []cutRim, outline geom.Loop) []float64 {
	out := make([]float64, len(list))
	hull := convexHull(outline)
	if len(hull) < 3 {
		return out
	}
	var angles []float64 // of the hull's edges, from that of the first on
	first := math.Inf(-1)
	for i, a := range hull {
		d := hull[(i+1)%len(hull)].Sub(a)
		t := math.Atan2(d[1], d[0])
		for t < first {
			t += 2 * math.Pi
		}
		angles, first = append(angles, t), t
	}
	// far is the hull's corner farthest in the direction that lies a quarter turn to the right of the angle: between the hull's
	// edges whose directions turn past it.
	far := func(t float64, towards geom.Vec2) float64 {
		for t < angles[0] {
			t += 2 * math.Pi
		}
		for t >= angles[0]+2*math.Pi {
			t -= 2 * math.Pi
		}
		k := sort.SearchFloat64s(angles, t)
		most := math.Inf(-1)
		for _, j := range [3]int{k + len(hull) - 1, k, k + 1} {
			most = max(most, hull[j%len(hull)].Dot(towards))
		}
		return most
	}
	for i := range list {
		e := &list[i]
		if e.contour != 0 || e.arc {
			continue
		}
		u := e.way(e.a)
		n := geom.Perp(u)
		t := math.Atan2(u[1], u[0])
		if far(t, n.Mul(-1))+e.a.Dot(n) > fold.Weld*10 {
			continue
		}
		out[i] = far(t+math.Pi/2, u) + far(t-math.Pi/2, u.Mul(-1))
	}
	return out
}

// convexHull is the hull of a loop, counter-clockwise, without points in line.
func convexHull(l geom.Loop) geom.Loop {
	p := slices.Clone(l)
	geom.SortStable(p, func(a, b geom.Vec2) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	p = slices.Compact(p)
	if len(p) < 3 {
		return p
	}
	half := func(p geom.Loop) (out geom.Loop) {
		for _, q := range p {
			for n := len(out); n > 1 && geom.Cross2(out[n-1].Sub(out[n-2]), q.Sub(out[n-1])) <= 0; n = len(out) {
				out = out[:n-1]
			}
			out = append(out, q)
		}
		return out[:len(out)-1]
	}
	lower := half(p)
	slices.Reverse(p)
	return append(lower, half(p)...)
}

// widestIn is the middle and diameter of about the widest circle that goes into a cutout, to a hundredth of it or less than
// that where the cutout is ragged: squares that may hold a wider one are quartered, the best first. About rooms times fifty
// pieces are looked at.
func widestIn(list []cutRim, rooms int) (geom.Vec2, float64) {
	box := geom.EmptyBox2()
	for i := range list {
		b := list[i].box()
		box.Add(b.Min)
		box.Add(b.Max)
	}
	type room struct {
		at         geom.Vec2
		half, most float64
	}
	var best room
	clear := math.Inf(-1)
	look := func(at geom.Vec2, half float64) room {
		d := depthIn(list, at)
		if d > clear {
			clear, best = d, room{at: at}
		}
		return room{at, half, d + half*math.Sqrt2}
	}
	var corners geom.Loop
	for i := range list {
		corners = append(corners, list[i].a)
	}
	if len(corners) > 2 { // a good place to begin: the middle of a long strip
		q, _ := geom.Region{Outer: corners}.InsidePoint()
		look(q, 0)
	}
	size := box.Size()
	half := max(min(size[0], size[1])/2, max(size[0], size[1])/128)
	var queue []room
	for y := box.Min[1] + half; y < box.Max[1]+half; y += 2 * half {
		for x := box.Min[0] + half; x < box.Max[0]+half; x += 2 * half {
			queue = append(queue, look(geom.Vec2{x, y}, half))
		}
	}
	for looked := 0; len(queue) > 0 && looked < min(mostRooms, rooms/max(1, len(list)/50+1)+4); looked++ {
		k := 0
		for i := range queue {
			if queue[i].most > queue[k].most {
				k = i
			}
		}
		r := queue[k]
		queue[k] = queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		if r.most <= clear+widestNear*math.Abs(clear) {
			break
		}
		h := r.half / 2
		for _, d := range [4]geom.Vec2{{-h, -h}, {h, -h}, {-h, h}, {h, h}} {
			queue = append(queue, look(r.at.Add(d), h))
		}
	}
	return best.at, 2 * max(0, clear)
}

// depthIn is how far a point lies inside the hollow that the pieces go round, negative outside.
func depthIn(list []cutRim, p geom.Vec2) float64 {
	d := math.Inf(1)
	turns := 0.0
	for i := range list {
		e := &list[i]
		d = min(d, e.a.Sub(p).Len())
		if q, ok := e.foot(p); ok {
			d = min(d, q.Sub(p).Len())
		}
		turns += e.windsAbout(p)
	}
	if math.Abs(turns) < math.Pi {
		return -d
	}
	return d
}

// windsAbout is how far the direction from p to a point that runs along the piece turns.
func (e *cutRim) windsAbout(p geom.Vec2) float64 {
	a, b := e.a.Sub(p), e.b.Sub(p)
	t := math.Atan2(geom.Cross2(a, b), a.Dot(b))
	if !e.arc {
		return t
	}
	// A point between the chord and the arc is gone round on the other side.
	if e.o.Sub(p).Len() >= e.r {
		return t
	}
	left := geom.Cross2(e.b.Sub(e.a), p.Sub(e.a))
	switch {
	case e.sweep > 0 && left < 0:
		return t + 2*math.Pi
	case e.sweep < 0 && left > 0:
		return t - 2*math.Pi
	}
	return t
}
