package shape

// This file finds the shape that agrees best with the readings: it lays the corners out one
// by one from what was read, fits from there, and tries other layouts where that one
// agrees badly.

import (
	"math"

	"dryfold/fold/geom"
)

// shape is the best fit to the readings. A shape whose corners all point outwards is taken
// where it agrees within the readings' doubt, else the one that agrees best.
func (b *measuring) shape() []geom.Vec2 {
	none := make([]bool, b.n)
	inwards := append([]bool(nil), none...)
	flips := [][]bool{inwards}
	for _, r := range b.given {
		if r.angle && r.value > math.Pi {
			inwards[r.a] = true
		}
	}
	// Besides as the angles say: each corner the other way.
	for i := range b.n {
		if b.n > maxTurned {
			break
		}
		f := append([]bool(nil), inwards...)
		f[i] = !f[i]
		flips = append(flips, f)
	}
	enough := metWell // readings that just do are met; more of them within their doubt
	if more := len(b.given) - (2*b.n - 3); more > 0 {
		enough = beyondDoubt * beyondDoubt * float64(more)
	}
	var best []geom.Vec2
	least := math.Inf(1)
	for _, f := range flips {
		for _, start := range b.starts(f) {
			p := fitted(b.given, start)
			m := misfit(b.given, p)
			if !simple(p) {
				m = m*4 + 1e6 // a crossed outline only where there is no other
			}
			if m < least*(1-noise) {
				best, least = p, m
			}
			if least <= enough {
				return best
			}
		}
	}
	if best == nil {
		best = b.round()
	}
	return best
}

// simple reports whether the outline runs counter-clockwise and does not cross itself.
func simple(p []geom.Vec2) bool {
	return geom.Loop(p).Area() > 0 && p[1][0] > 0 && len(crossing(p)) == 0
}

// starts are layouts to begin a fit from, the likeliest first; inwards are the corners
// that point inwards.
func (b *measuring) starts(inwards []bool) [][]geom.Vec2 {
	var out [][]geom.Vec2
	if p := b.laid(inwards); p != nil {
		out = append(out, p)
	}
	if p := b.walked(); p != nil {
		out = append(out, p)
	}
	return append(out, b.round())
}

// round is a regular outline of the readings' size.
func (b *measuring) round() []geom.Vec2 {
	sum, count := 0.0, 0
	for i := range b.n {
		if r := b.length(i, (i+1)%b.n); r != nil {
			sum, count = sum+r.value, count+1
		}
	}
	side := 100.0
	if count > 0 {
		side = sum / float64(count)
	}
	p := make([]geom.Vec2, b.n)
	at := geom.Vec2{}
	for i := range p {
		p[i] = at
		// A little uneven, so that no two sides are parallel: parallel ones seem to hold less.
		sin, cos := math.Sincos(2*math.Pi*float64(i)/float64(b.n) + 0.03*float64(i%3))
		at = at.Add(geom.Vec2{cos, sin}.Mul(side))
	}
	return settled(p)
}

// angles are the inside angles that were read, 0 where not; one that is left by all the others is filled in.
func (b *measuring) angles() []float64 {
	out := make([]float64, b.n)
	left, blank := float64(b.n-2)*math.Pi, 0
	for _, r := range b.given {
		if r.angle {
			out[r.a] = r.value
			left -= r.value
		}
	}
	last := 0
	for i, x := range out {
		if x == 0 {
			blank++
			last = i
		}
	}
	if blank == 1 && left > 0 && left < 2*math.Pi {
		out[last] = left
	}
	return out
}

// walked goes round by sides and angles, where all angles are known or left by the
// others. Up to two sides that were not read are such that it closes.
func (b *measuring) walked() []geom.Vec2 {
	angles := b.angles()
	dirs := make([]geom.Vec2, b.n)
	turn := 0.0
	for i := range dirs {
		if angles[i] == 0 {
			return nil
		}
		if i > 0 {
			turn += math.Pi - angles[i]
		}
		sin, cos := math.Sincos(turn)
		dirs[i] = geom.Vec2{cos, sin}
	}
	sides := make([]float64, b.n)
	var blank []int
	end := geom.Vec2{}
	for i := range sides {
		if r := b.length(i, (i+1)%b.n); r != nil {
			sides[i] = r.value
			end = end.Add(dirs[i].Mul(r.value))
		} else {
			blank = append(blank, i)
		}
	}
	switch len(blank) {
	case 0:
	case 1:
		sides[blank[0]] = max(0, -end.Dot(dirs[blank[0]]))
	case 2:
		u, v := dirs[blank[0]], dirs[blank[1]]
		det := geom.Cross2(u, v)
		if math.Abs(det) < leastTurn {
			return nil
		}
		sides[blank[0]] = -geom.Cross2(end, v) / det
		sides[blank[1]] = -geom.Cross2(u, end) / det
	default:
		return nil
	}
	p := make([]geom.Vec2, b.n)
	for i := 1; i < b.n; i++ {
		p[i] = p[i-1].Add(dirs[i-1].Mul(sides[i-1]))
	}
	return settled(p)
}

// laid places corner after corner, each by two lengths or a length and an angle from
// corners that lie already. Nil where that does not reach them all.
func (b *measuring) laid(inwards []bool) []geom.Vec2 {
	n := b.n
	far := make([][]float64, n) // known lengths between corners
	for i := range far {
		far[i] = make([]float64, n)
	}
	know := func(i, j int, x float64) { far[i][j], far[j][i] = x, x }
	angles := b.angles()
	for i, a := range angles {
		// Two sides and the angle between them: the law of cosines.
		x, y := b.length((i+n-1)%n, i), b.length(i, (i+1)%n)
		if a > 0 && x != nil && y != nil {
			know((i+n-1)%n, (i+1)%n, math.Sqrt(max(0, x.value*x.value+y.value*y.value-2*x.value*y.value*math.Cos(a))))
		}
	}
	for _, r := range b.given {
		if !r.angle {
			know(r.a, r.b, r.value)
		}
	}
	for first := range n {
		if second := (first + 1) % n; far[first][second] > 0 {
			if p := lay(first, second, far, angles, inwards); p != nil {
				return p
			}
		}
	}
	return nil
}

// lay begins with one side.
func lay(first, second int, far [][]float64, angles []float64, inwards []bool) []geom.Vec2 {
	n := len(far)
	p := make([]geom.Vec2, n)
	lies := make([]bool, n)
	p[second] = geom.Vec2{far[first][second], 0}
	lies[first], lies[second] = true, true
	for placed := 2; placed < n; {
		before := placed
		for k := range n {
			if lies[k] {
				continue
			}
			if at, ok := byLengths(k, p, lies, far, inwards); ok {
				p[k], lies[k] = at, true
			} else if at, ok := byAngle(k, p, lies, far, angles); ok {
				p[k], lies[k] = at, true
			} else {
				continue
			}
			placed++
		}
		if placed == before {
			return nil
		}
	}
	return settled(p)
}

// byLengths places corner k by its lengths from the two corners that cut sharpest.
func byLengths(k int, p []geom.Vec2, lies []bool, far [][]float64, inwards []bool) (at geom.Vec2, ok bool) {
	n := len(p)
	sharpest := -1.0
	for i := range n {
		for j := i + 1; j < n; j++ {
			if !lies[i] || !lies[j] || far[i][k] == 0 || far[j][k] == 0 {
				continue
			}
			d := p[j].Sub(p[i])
			base := d.Len()
			if base == 0 {
				continue
			}
			x := (base*base + far[i][k]*far[i][k] - far[j][k]*far[j][k]) / (2 * base)
			h := math.Sqrt(max(0, far[i][k]*far[i][k]-x*x))
			if sharp := h / max(far[i][k], far[j][k]); sharp > sharpest {
				sharpest = sharp
				if (clockwise(i, j, k)) != (pointsIn(i, j, k, inwards)) {
					h = -h
				}
				d = d.Mul(1 / base)
				at, ok = p[i].Add(d.Mul(x)).Add(geom.Perp(d).Mul(h)), true
			}
		}
	}
	return at, ok
}

// clockwise reports whether three corners in this order go against the outline.
func clockwise(i, j, k int) bool {
	along := 0
	for _, up := range [3]bool{i < j, j < k, k < i} {
		if up {
			along++
		}
	}
	return along == 1 // with the outline two of the three steps go up
}

// pointsIn reports whether the three are neighbours about a corner that points inwards.
func pointsIn(i, j, k int, inwards []bool) bool {
	n := len(inwards)
	for _, m := range [3]int{i, j, k} {
		a, c := (m+n-1)%n, (m+1)%n
		if inwards[m] && (a == i || a == j || a == k) && (c == i || c == j || c == k) {
			return true
		}
	}
	return false
}

// byAngle places corner k by a side and the angle at its other end.
func byAngle(k int, p []geom.Vec2, lies []bool, far [][]float64, angles []float64) (at geom.Vec2, ok bool) {
	n := len(p)
	for _, step := range [2]int{1, n - 1} {
		m, o := (k+n-step)%n, (k+2*n-2*step)%n // the corner with the angle, and the one past it
		if !lies[m] || !lies[o] || m == o || angles[m] == 0 || far[m][k] == 0 {
			continue
		}
		u := p[o].Sub(p[m])
		if u.Len() == 0 {
			continue
		}
		a := -angles[m] // from the side before to the next one, clockwise
		if step != 1 {
			a = -a
		}
		sin, cos := math.Sincos(a)
		u = u.Normalize()
		return p[m].Add(geom.Vec2{u[0]*cos - u[1]*sin, u[0]*sin + u[1]*cos}.Mul(far[m][k])), true
	}
	return at, false
}

// settled moves and turns an outline so that its first corner lies at the origin and the
// second on +x.
func settled(p []geom.Vec2) []geom.Vec2 {
	o := p[0]
	u := p[1].Sub(o)
	l := u.Len()
	if l == 0 {
		u = geom.Vec2{1, 0}
	} else {
		u = u.Mul(1 / l)
	}
	out := make([]geom.Vec2, len(p))
	for i, q := range p {
		d := q.Sub(o)
		out[i] = geom.Vec2{d.Dot(u), geom.Cross2(u, d)}
	}
	out[0], out[1][1] = geom.Vec2{}, 0
	return out
}
