package spread

// This file holds the distance of a segment to a flat convex prism, made for being asked a hundred thousand times:
// squares throughout, no memory taken. It is fold's own, by another hand; tests hold one against the other.

import "math"

// segmentPrism is the squared distance of the segment u-v to the prism over the convex loop, z 0..t, and the
// way from its nearest point of the prism to that of the segment; nothing where they meet.
func segmentPrism(u, v vec, loop []vec2, t float64) (float64, vec) {
	dx, dy, dz := v.x-u.x, v.y-u.y, v.z-u.z
	in, out := 0.0, 1.0 // the stretch of the segment inside the prism
	switch {            // u.z + k dz >= 0
	case dz > 0:
		in = max(in, -u.z/dz)
		out = min(out, (t-u.z)/dz)
	case dz < 0:
		out = min(out, -u.z/dz)
		in = max(in, (t-u.z)/dz)
	case u.z < 0 || u.z > t:
		in, out = 1, 0
	}
	// The nearest point of the loop to u and to v, in plan; nothing where they lie over it.
	fu, fv := math.Inf(1), math.Inf(1)
	var ux, uy, vx, vy float64 // from there to u, to v
	outside := false
	n := len(loop)
	a := loop[n-1]
	for i := range n {
		b := loop[i]
		ex, ey := b.x-a.x, b.y-a.y
		ax, ay := u.x-a.x, u.y-a.y
		bx, by := v.x-a.x, v.y-a.y
		cu, cv := ex*ay-ey*ax, ex*by-ey*bx
		if cu < 0 || cv < 0 {
			outside = true
			if cu < 0 && cv < 0 {
				in, out = 1, 0
			} else if slope := cv - cu; slope > 0 {
				in = max(in, -cu/slope)
			} else {
				out = min(out, -cu/slope)
			}
			l2 := ex*ex + ey*ey
			if cu < 0 && cu*cu < fu*l2 {
				k := 0.0
				if l2 > 0 {
					k = max(0, min(1, (ax*ex+ay*ey)/l2))
				}
				x, y := ax-k*ex, ay-k*ey
				if d := x*x + y*y; d < fu {
					fu, ux, uy = d, x, y
				}
			}
			if cv < 0 && cv*cv < fv*l2 {
				k := 0.0
				if l2 > 0 {
					k = max(0, min(1, (bx*ex+by*ey)/l2))
				}
				x, y := bx-k*ex, by-k*ey
				if d := x*x + y*y; d < fv {
					fv, vx, vy = d, x, y
				}
			}
		}
		a = b
	}
	if in <= out {
		return 0, vec{}
	}
	zu, zv := past(u.z, t), past(v.z, t)
	best, way := ux*ux+uy*uy+zu*zu, vec{ux, uy, zu}
	if d := vx*vx + vy*vy + zv*zv; d < best {
		best, way = d, vec{vx, vy, zv}
	}
	if !outside {
		return best, way // all of it above or below: an end is nearest
	}
	lx, hx := min(u.x, v.x), max(u.x, v.x)
	ly, hy := min(u.y, v.y), max(u.y, v.y)
	a = loop[n-1]
	for i := range n {
		b := loop[i]
		ex, ey := b.x-a.x, b.y-a.y
		cu, cv := ex*(u.y-a.y)-ey*(u.x-a.x), ex*(v.y-a.y)-ey*(v.x-a.x)
		off := max(cu, cv)
		if min(cu, cv) >= 0 || off < 0 && off*off > best*(ex*ex+ey*ey) {
			a = b
			continue
		}
		gx := max(0, min(a.x, b.x)-hx, lx-max(a.x, b.x))
		gy := max(0, min(a.y, b.y)-hy, ly-max(a.y, b.y))
		if gx*gx+gy*gy > best {
			a = b
			continue
		}
		e := vec{ex, ey, 0}
		d := vec{dx, dy, dz}
		// Below, the edge at the lower face; above, at the upper; and the upright at either end.
		if min(u.z, v.z) < 0 {
			if w := segments(u, d, vec{a.x, a.y, 0}, e); w.dot(w) < best {
				best, way = w.dot(w), w
			}
		}
		if max(u.z, v.z) > t {
			if w := segments(u, d, vec{a.x, a.y, t}, e); w.dot(w) < best {
				best, way = w.dot(w), w
			}
		}
		if w := segments(u, d, vec{a.x, a.y, 0}, vec{0, 0, t}); w.dot(w) < best {
			best, way = w.dot(w), w
		}
		if w := segments(u, d, vec{b.x, b.y, 0}, vec{0, 0, t}); w.dot(w) < best {
			best, way = w.dot(w), w
		}
		a = b
	}
	return best, way
}

// past is how far a height lies over t or under 0, with its sign.
func past(z, t float64) float64 {
	switch {
	case z > t:
		return z - t
	case z < 0:
		return z
	}
	return 0
}

// segments is the shortest way from the segment r, r+v to the segment p, p+u.
func segments(p, u, r, v vec) vec {
	w := p.sub(r)
	a, b, c, d, e := u.dot(u), u.dot(v), v.dot(v), u.dot(w), v.dot(w)
	den := a*c - b*b
	k := 0.0 // along u
	if den > 1e-12*a*c {
		k = max(0, min(1, (b*e-c*d)/den))
	}
	m := 0.0 // along v
	if c > 0 {
		m = max(0, min(1, (b*k+e)/c))
	}
	if a > 0 {
		k = max(0, min(1, (b*m-d)/a))
	}
	return w.plus(u, k).plus(v, -m)
}
