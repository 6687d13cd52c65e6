package spread

// This file holds the overall size of the finished box: panels' corners, and bend zones' cylinders at their true
// extremes, as fold.Pose.Box has them.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// boxer measures the box at many poses.
type boxer struct {
	panels []rim
	zones  []zone
	lo, hi [3]float64
}

// rim is a panel's hull.
type rim struct {
	loop, now []vec2
	moves     []rimMove
}

// rimMove moves a corner of a rim with a cut edge.
type rimMove struct{ corner, cut int }

// zone is a bend's zone: edges of its developed outline that can make an extreme, in bend coordinates.
type zone struct {
	bend     int
	crease   [2]float64 // along, of a bend of no width
	isCrease bool
	edges    []zoneEdge
	ulo, uhi float64
	cuts     []int   // those of its ends
	full     float64 // what is bent of it without errors: rho phi
}

type zoneEdge struct {
	ua, sa, ub, sb float64
	cutA, cutB     int // the cut edge, square to the bend, that its ends go with; -1 for none
}

// newBoxer makes a part's box ready; x must be posed without errors. Cut edges that make the box's sides are added to the causes.
func newBoxer(x *poser) *boxer {
	p := x.part
	b := &boxer{}
	for k := range p.Panels {
		b.panels = append(b.panels, newRim(p.Panels[k].Region.Outer))
	}
	b.makeZones(x)
	b.measure(x)
	for k := range p.Panels {
		b.supports(x, k)
	}
	b.makeZones(x) // once more, now that all cut edges are known
	return b
}

func (b *boxer) makeZones(x *poser) {
	b.zones = b.zones[:0]
	for i := range x.hinge {
		b.zones = append(b.zones, newZone(&x.part.Bends[i], i, &x.hinge[i], x.c))
	}
}

func newRim(loop geom.Loop) rim {
	h := hull(loop)
	return rim{loop: h, now: append([]vec2(nil), h...)}
}

// hull is a loop's convex hull, counter-clockwise.
func hull(loop geom.Loop) []vec2 {
	ps := make([]vec2, len(loop))
	for i, q := range loop {
		ps[i] = from2(q)
	}
	geom.SortStable(ps, func(a, b vec2) int {
		switch {
		case a.x != b.x && a.x < b.x, a.x == b.x && a.y < b.y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	if len(ps) < 2 {
		return ps
	}
	var out []vec2
	for range 2 {
		first := len(out)
		for _, q := range ps {
			for len(out)-first >= 2 && out[len(out)-1].sub(out[len(out)-2]).cross(q.sub(out[len(out)-2])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, q)
		}
		out = out[:len(out)-1]
		for i, j := 0, len(ps)-1; i < j; i, j = i+1, j-1 {
			ps[i], ps[j] = ps[j], ps[i]
		}
	}
	return out
}

// supports finds the straight cut edges of a panel that lie in the box's sides, and lets the rim's corners move with them.
func (b *boxer) supports(x *poser, panel int) {
	p, f := x.part, &x.panels[panel]
	side := func(q vec2) (out [6]bool) {
		for _, z := range [2]float64{0, x.t} {
			v := f.point(vec{q.x, q.y, z})
			for k := range 3 {
				out[k] = out[k] || v.at(k) <= b.lo[k]+support
				out[3+k] = out[3+k] || v.at(k) >= b.hi[k]-support
			}
		}
		return out
	}
	loop, edges := p.Panels[panel].Region.Outer, p.Panels[panel].Edges[0]
	rim := &b.panels[panel]
	done := map[int]bool{}
	for i, q := range loop {
		r := loop[(i+1)%len(loop)]
		e := edges[i]
		if !e.Free() || e.Contour < 0 || e.Arc || r.Sub(q).Len() < 1 {
			continue
		}
		a, c := side(from2(q)), side(from2(r))
		for k := range a {
			if !a[k] || !c[k] {
				continue
			}
			// A face that lies flat in the side is held there whatever is cut.
			normal := f.vector(vec{r[1] - q[1], q[0] - r[0], 0}).unit()
			if math.Abs(normal.at(k%3)) < 0.1 {
				continue
			}
			cut := x.c.edge(panel, q, r)
			if done[cut] {
				break
			}
			done[cut] = true
			line := &x.c.cuts[cut]
			for j, v := range rim.loop {
				if math.Abs(v.sub(line.p).dot(line.out)) <= onLine {
					rim.moves = append(rim.moves, rimMove{j, cut})
				}
			}
			break
		}
	}
}

func newZone(b *fold.Bend, i int, h *hinge, c *causes) zone {
	z := zone{bend: i, full: h.rho * h.phi, ulo: math.Inf(1), uhi: math.Inf(-1)}
	take := func(u float64) { z.ulo, z.uhi = min(z.ulo, u), max(z.uhi, u) }
	if b.Allowance == 0 {
		z.isCrease = true
		for k, q := range b.Line {
			z.crease[k], _ = b.Coord(q)
			take(z.crease[k])
		}
		return z
	}
	for n, r := range b.Zone {
		for m, l := range r.Loops() {
			first := len(z.edges)
			for k, q := range l {
				e := zoneEdge{cutA: -1, cutB: -1}
				e.ua, e.sa = b.Coord(q)
				e.ub, e.sb = b.Coord(l[(k+1)%len(l)])
				z.edges = append(z.edges, e)
				take(e.ua)
			}
			for k := range l {
				e, next, before := &z.edges[first+k], &z.edges[first+(k+1)%len(l)], &z.edges[first+(k+len(l)-1)%len(l)]
				x := b.ZoneEdges[n][m][k]
				if !x.Free() || x.Contour < 0 || x.Arc || math.Abs(e.ua-e.ub) > onLine {
					continue
				}
				first := c.straight(x, l[k].Add(l[(k+1)%len(l)]).Mul(0.5))
				for i := range c.cuts {
					if first >= 0 && c.cuts[i].contour == x.Contour && c.cuts[i].first == first {
						e.cutA, e.cutB, next.cutA, before.cutB = i, i, i, i
						z.cuts = append(z.cuts, i)
					}
				}
			}
		}
	}
	return z
}

// measure is the box at the poser's pose; its size.
func (b *boxer) measure(x *poser) (size [3]float64) {
	for k := range 3 {
		b.lo[k], b.hi[k] = math.Inf(1), math.Inf(-1)
	}
	for i := range b.panels {
		r, f := &b.panels[i], &x.panels[i]
		if len(r.moves) > 0 {
			for _, m := range r.moves {
				r.now[m.corner] = r.loop[m.corner]
			}
			for _, m := range r.moves {
				r.now[m.corner] = r.now[m.corner].plus(x.c.cuts[m.cut].out, x.cut[m.cut])
			}
		}
		lx, hx := math.Inf(1), math.Inf(-1)
		ly, hy, lz, hz := lx, hx, lx, hx
		for _, q := range r.now {
			vx := f.x.x*q.x + f.y.x*q.y
			vy := f.x.y*q.x + f.y.y*q.y
			vz := f.x.z*q.x + f.y.z*q.y
			lx, hx = min(lx, vx), max(hx, vx)
			ly, hy = min(ly, vy), max(hy, vy)
			lz, hz = min(lz, vz), max(hz, vz)
		}
		b.take(0, lx+f.o.x+min(0, f.z.x*x.t), hx+f.o.x+max(0, f.z.x*x.t))
		b.take(1, ly+f.o.y+min(0, f.z.y*x.t), hy+f.o.y+max(0, f.z.y*x.t))
		b.take(2, lz+f.o.z+min(0, f.z.z*x.t), hz+f.o.z+max(0, f.z.z*x.t))
	}
	for i := range b.zones {
		b.addZone(&b.zones[i], x)
	}
	for k := range size {
		size[k] = b.hi[k] - b.lo[k]
	}
	return size
}

func (b *boxer) take(k int, lo, hi float64) {
	b.lo[k], b.hi[k] = min(b.lo[k], lo), max(b.hi[k], hi)
}

// addZone takes in a zone along those axes along which its whole cylinder reaches beyond what there is.
func (b *boxer) addZone(z *zone, x *poser) {
	h := &x.hinge[z.bend]
	f := &x.panels[x.part.Bends[z.bend].A]
	zn := h.neutral(x.t)
	u := f.x.mul(h.u.x).plus(f.y, h.u.y)
	n := f.x.mul(h.n.x).plus(f.y, h.n.y)
	// The axis at u = 0, and the outer radius; the flat rest of a part-way bend lies with the swinging panel.
	o := f.o.plus(u, h.su).plus(n, h.sn+h.shift).plus(f.z, zn+h.sigma*h.rhoNow)
	outer := max(h.rhoNow-h.sigma*(0-zn), h.rhoNow-h.sigma*(x.t-zn), 0)
	partWay := z.full > 0 && z.full < x.part.Bends[z.bend].Allowance-fold.Weld
	ulo, uhi := z.ulo, z.uhi
	for _, i := range z.cuts {
		ulo, uhi = min(ulo, z.ulo-math.Abs(x.cut[i])), max(uhi, z.uhi+math.Abs(x.cut[i]))
	}
	for k := range 3 {
		uk := u.at(k)
		round := outer * math.Sqrt(max(0, 1-uk*uk))
		lo := o.at(k) + min(ulo*uk, uhi*uk) - round
		hi := o.at(k) + max(ulo*uk, uhi*uk) + round
		if lo >= b.lo[k]-1e-12 && hi <= b.hi[k]+1e-12 && !partWay {
			continue
		}
		if z.isCrease {
			b.addCrease(z, x, h, f, k, n.at(k))
			continue
		}
		for i := range z.edges {
			b.addZoneEdge(&z.edges[i], z, x, h, f, k, uk, n.at(k))
		}
	}
}

// addZoneEdge takes in the curves that an edge of a zone becomes on both faces. Along an axis with parts du along the line, dn
// across, dz upwards, a face's place is, for a radians of bend, du*u + dn r sin a - dz sigma r cos a + ...; it is level
// where du' + h cos(a + psi) = 0.
func (b *boxer) addZoneEdge(e *zoneEdge, z *zone, x *poser, h *hinge, f *frame, k int, uk, nk float64) {
	bent := h.rhoNow * h.phiNow
	scale := func(s float64) float64 { // the zone's outline goes with what is bent of it
		if s <= z.full && z.full > 0 {
			return s * bent / z.full
		}
		return s + bent - z.full
	}
	sa, sb := scale(e.sa), scale(e.sb)
	end := func(u float64, cut int) float64 {
		if cut < 0 {
			return u
		}
		return u + x.cut[cut]*x.c.cuts[cut].out.dot(h.u)
	}
	ua, ub := end(e.ua, e.cutA), end(e.ub, e.cutB)
	take := func(u, s, t float64) {
		v := h.roll(f, u, s, t, x.t).at(k)
		b.take(k, v, v)
	}
	at := func(s, t float64) {
		w := 0.0
		if sb != sa {
			w = (s - sa) / (sb - sa)
		}
		if w >= 0 && w <= 1 {
			take(ua+w*(ub-ua), s, t)
		}
	}
	zn := h.neutral(x.t)
	for _, t := range [2]float64{0, x.t} {
		take(ua, sa, t)
		if sa == sb || h.rhoNow == 0 {
			continue
		}
		at(bent, t)
		r := h.rhoNow - h.sigma*(t-zn)
		du := uk * (ub - ua) / (sb - sa) * h.rhoNow
		dn := nk * r
		dz := -f.z.at(k) * h.sigma * r
		hyp := math.Sqrt(dn*dn + dz*dz)
		if hyp == 0 || math.Abs(du) > hyp {
			continue
		}
		psi, w := math.Atan2(dz, dn), math.Pi/2
		if du != 0 {
			w = math.Acos(-du / hyp)
		}
		for _, root := range [2]float64{w - psi, -w - psi} {
			for root < 0 {
				root += 2 * math.Pi
			}
			for ; root <= h.phiNow; root += 2 * math.Pi {
				at(h.rhoNow*root, t)
			}
		}
	}
}

// addCrease takes in the round of a bend of no width.
func (b *boxer) addCrease(z *zone, x *poser, h *hinge, f *frame, k int, nk float64) {
	a := math.Atan2(nk, -h.sigma*f.z.at(k))
	phi := h.phiNow
	for _, root := range [3]float64{a, a + math.Pi, a + 2*math.Pi} {
		if root < 0 || root > phi {
			continue
		}
		h.phiNow = root
		for _, u := range z.crease {
			for _, t := range [2]float64{0, x.t} {
				v := h.roll(f, u, 0, t, x.t).at(k)
				b.take(k, v, v)
			}
		}
		h.phiNow = phi
	}
}
