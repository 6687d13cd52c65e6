package shape

// This file finds the light hole that stays open at a closed corner: how large a ball still passes it.

import (
	"cmp"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// FindLights measures the light holes of all corners.
func (m *Made) FindLights() {
	for i := range m.Corners {
		m.LightAt(i)
	}
}

// LightAt measures the light hole of Corners[i] in the folded part, sets its Light and gives it, mm. It is 0 where
// the two flanges have no seam, and where there is no short way round from one edge to the other.
//
// From one flange's edge to the other's the blank's outline goes round the relief; folded, that is the rim of the
// hole. Over a grid of places round it the way through is sought whose tightest place is the widest; there the
// throat is looked for to lightNear: the least, along the way, of the most room across it. That takes
// thousands of distances, about a tenth of a second. What stands beyond the two flanges and what joins them is not looked at.
func (m *Made) LightAt(i int) float64 {
	c := &m.Corners[i]
	c.Light = 0
	if !c.Measured || c.Close != sizes.Edges && c.Close != sizes.Mitre || m.Part == nil || !m.Part.Foldable {
		return 0
	}
	seams, _ := m.Part.MeasureSeams()
	k := slices.IndexFunc(seams, func(s fold.MeasuredSeam) bool { return s.Name == c.Name })
	if k < 0 {
		return 0
	}
	if h, ok := newLightHole(m.Part, seams[k].Seam); ok {
		c.Light = math.Round(max(2*h.throat(), 0)/lightRound) * lightRound
	}
	return c.Light
}

// lightHole is the hole at a corner, and what stands round it.
type lightHole struct {
	pose   fold.Pose
	bodies []fold.Body
	ends   []strip // the cut ends of bend zones at the rim
	mid    geom.Vec3
	axis   geom.Vec3 // unit, through the hole
	x, y   geom.Vec3 // across it
	half   float64   // the box that is looked at reaches so far from mid along each
}

// strip is a narrow piece of a bend zone's cut end, from face to face.
type strip struct {
	corners [4]geom.Vec3
	mid     geom.Vec3
	radius  float64 // of a ball about mid that holds it
}

func newLightHole(p *fold.Part, s fold.Seam) (h lightHole, ok bool) {
	path, legs := rimPath(p.Outline, s)
	if len(path) < 2 {
		return h, false
	}
	long := 0.0
	for i := range path[1:] {
		long += path[i+1].Sub(path[i]).Len()
	}
	if long > rimMost*min(legs[0].Len(), legs[1].Len()) {
		return h, false
	}
	// The rim goes on up both edges, since a ball may sit in the seam's foot.
	up := func(v geom.Vec2) geom.Vec2 { return v.Mul(min(1, long/2/v.Len())) }
	n := len(path)
	all := append([]geom.Vec2{path[0].Add(up(legs[0]))}, path...)
	all = append(all, path[n-1].Add(up(legs[1])))

	bodies := between(p, s.A, s.B)
	ps := p.Pose(p.Finished())
	t := p.Thickness
	rim := make([]geom.Vec3, len(all))
	for i, q := range all {
		body, found := bodyAt(p, bodies, q)
		if !found {
			return h, false
		}
		rim[i] = place(ps, body, q, t/2)
		h.mid = h.mid.Add(rim[i].Mul(1 / float64(len(all))))
	}
	var area geom.Vec3
	for i, q := range rim {
		area = area.Add(q.Sub(h.mid).Cross(rim[(i+1)%len(rim)].Sub(h.mid)))
	}
	if area.Len() < sameLength {
		return h, false
	}
	h.axis = area.Normalize()
	h.x = rim[0].Sub(rim[len(rim)-1])
	h.x = h.x.Sub(h.axis.Mul(h.x.Dot(h.axis)))
	if h.x.Len() < sameLength {
		return h, false
	}
	h.x = h.x.Normalize()
	h.y = h.axis.Cross(h.x)
	for _, q := range rim {
		h.half = max(h.half, q.Sub(h.mid).Len())
	}
	h.half += t
	zone := math.Inf(1)
	for _, b := range bodies {
		if b.Zone {
			zone = min(zone, p.Bends[b.Index].Allowance)
		}
	}
	for i := range path[1:] {
		strips := math.Ceil(path[i+1].Sub(path[i]).Len()/zone*lightStrips) + 1
		if !(strips <= mostStrips) {
			strips = mostStrips
		}
		for k := range int(strips) {
			var e [4]geom.Vec3
			in, bent := true, false
			for j, f := range []float64{float64(k), float64(k + 1)} {
				q := path[i].Add(path[i+1].Sub(path[i]).Mul(f / strips))
				body, found := bodyAt(p, bodies, q)
				in, bent = in && found, bent || body.Zone
				e[j], e[3-j] = place(ps, body, q, 0), place(ps, body, q, t)
			}
			if in && bent {
				w := strip{corners: e, mid: e[0].Add(e[1]).Add(e[2]).Add(e[3]).Mul(0.25)}
				for _, q := range e {
					w.radius = max(w.radius, q.Sub(w.mid).Len())
				}
				h.ends = append(h.ends, w)
			}
		}
	}
	h.pose, h.bodies = ps, bodies
	return h, true
}

// rimPath is the outline from one edge of a seam to the other by the shorter way, and from its ends back along the two edges.
func rimPath(outline geom.Loop, s fold.Seam) (path []geom.Vec2, legs [2]geom.Vec2) {
	loop := slices.Clone(outline)
	at := func(q geom.Vec2) int {
		return slices.IndexFunc(loop, func(o geom.Vec2) bool { return o.Sub(q).Len() < 2*fold.Weld })
	}
	// An edge may end at a tangent line, where the outline has no corner.
	for _, q := range []geom.Vec2{s.EdgeA[0], s.EdgeA[1], s.EdgeB[0], s.EdgeB[1]} {
		for i := 0; i < len(loop) && at(q) < 0; i++ {
			if off, _ := geom.SegmentDistance(q, loop[i], loop[(i+1)%len(loop)]); off < 2*fold.Weld {
				loop = slices.Insert(loop, i+1, q)
			}
		}
		if at(q) < 0 {
			return nil, legs
		}
	}
	n := len(loop)
	forward := func(a, b int) (way []geom.Vec2, long float64) {
		way = []geom.Vec2{loop[a]}
		for k := a; k != b; {
			next := (k + 1) % n
			long += loop[next].Sub(loop[k]).Len()
			k = next
			way = append(way, loop[k])
		}
		return way, long
	}
	// ends gives where an edge begins and ends on the way round.
	ends := func(e [2]geom.Vec2) (from, to int) {
		a, b := at(e[0]), at(e[1])
		_, there := forward(a, b)
		_, back := forward(b, a)
		if back < there {
			a, b = b, a
		}
		return a, b
	}
	a0, a1 := ends(s.EdgeA)
	b0, b1 := ends(s.EdgeB)
	best := math.Inf(1)
	for _, w := range [][4]int{{a0, a1, b0, b1}, {b0, b1, a0, a1}} {
		if way, long := forward(w[1], w[2]); long < best {
			best, path = long, way
			legs = [2]geom.Vec2{loop[w[0]].Sub(loop[w[1]]), loop[w[3]].Sub(loop[w[2]])}
		}
	}
	return path, legs
}

// between are two panels and all that joins them: the panels and bend zones on the way from one to the other.
func between(p *fold.Part, a, b int) (out []fold.Body) {
	route := func(k int) (r []fold.Body) {
		for {
			r = append(r, fold.Body{Index: k})
			bend := p.Panels[k].Parent
			if bend < 0 {
				return r
			}
			r = append(r, fold.Body{Zone: true, Index: bend})
			k = p.Bends[bend].A
		}
	}
	ra, rb := route(a), route(b)
	for len(ra) > 1 && len(rb) > 1 && ra[len(ra)-2] == rb[len(rb)-2] {
		ra, rb = ra[:len(ra)-1], rb[:len(rb)-1]
	}
	return append(ra, rb[:len(rb)-1]...)
}

// bodyAt is the one of the bodies on whose edge a point of the outline lies.
func bodyAt(p *fold.Part, bodies []fold.Body, q geom.Vec2) (fold.Body, bool) {
	on := func(l geom.Loop) bool {
		for i, a := range l {
			if off, _ := geom.SegmentDistance(q, a, l[(i+1)%len(l)]); off < 2*fold.Weld {
				return true
			}
		}
		return false
	}
	for _, b := range bodies {
		if b.Zone {
			for _, r := range p.Bends[b.Index].Zone {
				if on(r.Outer) {
					return b, true
				}
			}
		} else if on(p.Panels[b.Index].Region.Outer) {
			return b, true
		}
	}
	return fold.Body{}, false
}

func place(ps fold.Pose, b fold.Body, q geom.Vec2, z float64) geom.Vec3 {
	if b.Zone {
		return ps.ZonePoint(b.Index, q, z)
	}
	return ps.PanelPoint(b.Index, q, z)
}

// throat is the radius of the largest ball that passes, negative where there is no hole.
func (h *lightHole) throat() float64 {
	way := h.way(lightGrid)
	k := 0
	for i, q := range way {
		if q.clear < way[k].clear {
			k = i
		}
	}
	tight := way[k]
	step := h.half / lightGrid
	along := way[min(k+2, len(way)-1)].at.Sub(way[max(k-2, 0)].at)
	if along.Len() < step/2 {
		return tight.clear
	}
	along = along.Normalize()
	x := along.Cross(h.axis)
	if x.Len() < 0.5 {
		x = along.Cross(h.x)
	}
	x = x.Normalize()
	y := along.Cross(x)
	at := tight.at
	room := func(d float64) float64 { // the most room across the way, a distance on from the tight place
		from := tight.at.Add(along.Mul(d))
		from = from.Add(x.Mul(at.Sub(from).Dot(x))).Add(y.Mul(at.Sub(from).Dot(y)))
		r := h.clear(from)
		for wide := step; wide > lightNear; wide /= 2 {
			for better := true; better; {
				better = false
				for k := range 8 {
					sin, cos := math.Sincos(float64(k) * math.Pi / 4)
					q := from.Add(x.Mul(wide * cos)).Add(y.Mul(wide * sin))
					if q.Sub(tight.at).Len() < 3*step && h.clear(q) > r {
						r, from, better = h.clear(q), q, true
					}
				}
			}
		}
		at = from
		return r
	}
	const g = 0.6180339887498949
	a, b := -2*step, 2*step
	c, d := b-(b-a)*g, a+(b-a)*g
	rc, rd := room(c), room(d)
	least := min(rc, rd)
	for b-a > lightNear {
		if rc < rd {
			b, d, rd = d, c, rc
			c = b - (b-a)*g
			rc = room(c)
		} else {
			a, c, rc = c, d, rd
			d = a + (b-a)*g
			rd = room(d)
		}
		least = min(least, rc, rd)
	}
	return max(least, tight.clear)
}

// spot is a place by a hole, and its distance from the solids.
type spot struct {
	at    geom.Vec3
	clear float64
}

// way is the way through the box, over a grid of n steps each way from its middle, whose tightest place is the widest.
func (h *lightHole) way(n int) (way []spot) {
	side := 2*n + 1
	all := make([]spot, side*side*side)
	step := h.half / float64(n)
	for i := range all {
		x, y, z := float64(i%side-n), float64(i/side%side-n), float64(i/side/side-n)
		at := h.mid.Add(h.x.Mul(x * step)).Add(h.y.Mul(y * step)).Add(h.axis.Mul(z * step))
		all[i] = spot{at, h.clear(at)}
	}
	// From the roomiest place at the one end of the box to that at the other: places join in the order of their room until both
	// hang together, which is when the tightest of a widest way has joined.
	roomiest := func(z int) int {
		best := z * side * side
		for i := best; i < (z+1)*side*side; i++ {
			if all[i].clear > all[best].clear {
				best = i
			}
		}
		return best
	}
	from, to := roomiest(0), roomiest(side-1)
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(all[b].clear, all[a].clear), cmp.Compare(a, b)) })
	next := make([]int, len(all)) // towards the head of its set
	in := make([]bool, len(all))
	head := func(i int) int {
		for next[i] != i {
			next[i] = next[next[i]]
			i = next[i]
		}
		return i
	}
	beside := func(i int) (out [6]int) {
		x, y, z := i%side, i/side%side, i/side/side
		out = [6]int{-1, -1, -1, -1, -1, -1}
		for k, ok := range [6]bool{x > 0, x < side-1, y > 0, y < side-1, z > 0, z < side-1} {
			if ok {
				out[k] = i + [6]int{-1, 1, -side, side, -side * side, side * side}[k]
			}
		}
		return out
	}
	for _, i := range order {
		in[i], next[i] = true, i
		for _, k := range beside(i) {
			if k >= 0 && in[k] {
				next[head(k)] = head(i)
			}
		}
		if in[from] && in[to] && head(from) == head(to) {
			break
		}
	}
	// The shortest way over what has joined.
	came := make([]int, len(all))
	for i := range came {
		came[i] = -1
	}
	came[to] = to
	for queue := []int{to}; len(queue) > 0 && came[from] < 0; queue = queue[1:] {
		for _, k := range beside(queue[0]) {
			if k >= 0 && in[k] && came[k] < 0 {
				came[k] = queue[0]
				queue = append(queue, k)
			}
		}
	}
	for i := from; ; i = came[i] {
		way = append(way, all[i])
		if i == to {
			return way
		}
	}
}

// clear is the distance of a point from what stands round the hole, negative inside.
func (h *lightHole) clear(q geom.Vec3) float64 {
	least := math.Inf(1)
	for _, b := range h.bodies {
		if b.Zone {
			least = min(least, h.offZone(q, b.Index))
		} else {
			least = min(least, h.offPanel(q, b.Index))
		}
	}
	if least <= 0 {
		return least
	}
	for i := range h.ends {
		w := &h.ends[i]
		if d, far := q.Sub(w.mid), least+w.radius; d.Dot(d) < far*far {
			e := &w.corners
			least = min(least, triangleDistance(q, e[0], e[1], e[2]), triangleDistance(q, e[0], e[2], e[3]))
		}
	}
	return least
}

// off is how far x lies outside lo to hi, negative inside.
func off(x, lo, hi float64) float64 { return max(lo-x, x-hi) }

func (h *lightHole) offPanel(q geom.Vec3, panel int) float64 {
	f := h.pose.Panels[panel]
	d := q.Sub(f.O)
	flat := geom.Vec2{d.Dot(f.X), d.Dot(f.Y)}
	z := off(d.Dot(f.Z), 0, h.pose.Part.Thickness)
	side := math.Inf(1)
	r := &h.pose.Part.Panels[panel].Region
	for _, l := range r.Loops() {
		for i, a := range l {
			s, _ := geom.SegmentDistance(flat, a, l[(i+1)%len(l)])
			side = min(side, s)
		}
	}
	inside := r.Outer.Contains(flat)
	for _, l := range r.Holes {
		inside = inside && !l.Contains(flat)
	}
	switch {
	case !inside:
		z = max(z, 0)
		return math.Sqrt(z*z + side*side)
	case z > 0:
		return z
	}
	return max(z, -side)
}

// offZone is how far a point lies from the zone's metal, square to it; what lies beside its ends and tangent lines is
// the matter of the panels and the strips.
func (h *lightHole) offZone(q geom.Vec3, bend int) float64 {
	p := h.pose.Part
	b := &p.Bends[bend]
	f := h.pose.Panels[b.A]
	d := q.Sub(f.O)
	u, across := b.Coord(geom.Vec2{d.Dot(f.X), d.Dot(f.Y)})
	neutral := b.K * p.Thickness
	if b.Up {
		neutral = p.Thickness - neutral
	}
	sg := b.Sigma()
	up := sg * (neutral + sg*b.Rho - d.Dot(f.Z))
	a := math.Atan2(across, up)
	if a < 0 || a > float64(b.Angle) {
		return math.Inf(1)
	}
	on := b.Q.Add(b.U.Mul(u)).Add(b.N.Mul(a * b.Rho))
	for _, r := range b.Zone {
		if r.Outer.Contains(on) {
			return off(math.Sqrt(across*across+up*up), b.Radius, b.Radius+p.Thickness)
		}
	}
	return math.Inf(1)
}

// triangleDistance is the distance of a point from a triangle.
func triangleDistance(q, a, b, c geom.Vec3) float64 {
	n := b.Sub(a).Cross(c.Sub(a))
	inside := true
	least := math.Inf(1)
	for _, e := range [3][2]geom.Vec3{{a, b}, {b, c}, {c, a}} {
		d := e[1].Sub(e[0])
		w := q.Sub(e[0])
		if n.Cross(d).Dot(w) < 0 {
			inside = false
		}
		k := 0.0
		if l := d.Dot(d); l > 0 {
			k = max(0, min(1, w.Dot(d)/l))
		}
		least = min(least, w.Sub(d.Mul(k)).Len())
	}
	if l := n.Len(); inside && l > 0 {
		least = min(least, math.Abs(n.Dot(q.Sub(a)))/l)
	}
	return least
}
