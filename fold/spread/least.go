package spread

// This file searches a seam for its least and its widest gap. The distance of an edge to a convex piece is convex along
// the seam: no less than its tangents, no more than its chords.

import "math"

// ends makes sure that a line's start and end are known.
func (m *seam) ends(j *line) {
	for k := range 2 {
		if !j.known[k] {
			j.f[k], j.slope[k] = m.value(j, float64(k))
			j.known[k] = true
		}
	}
}

// clear is the least distance of the lines at the part s of the seam, and which has it.
func (m *seam) clear(s float64) (best float64, at int) {
	best = math.Inf(1)
	for i := range m.lines {
		j := &m.lines[i]
		if j.apart-m.moved >= best {
			break
		}
		if m.farther(j, s, best) {
			continue
		}
		var d float64
		switch {
		case s == 0 && j.known[0]:
			d = j.f[0]
		case s == 1 && j.known[1]:
			d = j.f[1]
		default:
			var slope float64
			d, slope = m.value(j, s)
			if s == 0 || s == 1 {
				k := int(s)
				j.f[k], j.slope[k], j.known[k] = d, slope, true
			}
		}
		if d < best {
			best, at = d, i
		}
	}
	return best, at
}

// between is clear at a place within the seam to no more than near (mm), without a look where chords and tangents agree so well.
func (m *seam) between(s, near float64) float64 {
	over, under := math.Inf(1), math.Inf(1)
	for i := range m.lines {
		j := &m.lines[i]
		if j.apart-m.moved >= over {
			break
		}
		if !j.known[0] || !j.known[1] {
			if m.farther(j, s, over) {
				continue
			}
			under = math.Inf(-1)
			break
		}
		over = min(over, j.f[0]+(j.f[1]-j.f[0])*s)
		under = min(under, max(j.f[0]+j.slope[0]*s, j.f[1]-j.slope[1]*(1-s)))
	}
	if over-under <= 2*near {
		return max(0, (over+under)/2)
	}
	d, _ := m.clear(s)
	return d
}

// of is line i at s, which is asked for at the ends again and again.
func (m *seam) of(i int, s float64) float64 {
	j := &m.lines[i]
	if (s == 0 || s == 1) && j.known[int(s)] {
		return j.f[int(s)]
	}
	d, _ := m.value(j, s)
	return d
}

// farther tells at once that line j is no nearer than d at s.
func (m *seam) farther(j *line, s, d float64) bool {
	if math.IsInf(d, 1) {
		return false
	}
	if j.known[0] && j.known[1] { // no less than the tangents at its ends
		if j.f[0]+j.slope[0]*s >= d || j.f[1]-j.slope[1]*(1-s) >= d {
			return true
		}
	}
	w := &m.side[1-j.side].pieces[j.piece]
	u := m.from[j.side][0].plus(m.step[j.side], s)
	v := m.from[j.side][1].plus(m.step[j.side], s)
	off := m.side[1-j.side].off
	grow := math.Abs(off) / leastSlide
	dx := max(0, w.box[0].x-grow-max(u.x, v.x), min(u.x, v.x)-w.box[1].x-grow)
	dy := max(0, w.box[0].y-grow-max(u.y, v.y), min(u.y, v.y)-w.box[1].y-grow)
	dz := max(0, -max(u.z, v.z), min(u.z, v.z)-m.t)
	return dx*dx+dy*dy+dz*dz >= d*d
}

// least is the least gap along the seam.
func (m *seam) least() float64 {
	if d, ok := m.deepest(); ok {
		return -d
	}
	best := math.Inf(1)
	for i := range m.lines {
		j := &m.lines[i]
		if j.known[0] {
			best = min(best, j.f[0])
		}
		if j.known[1] {
			best = min(best, j.f[1])
		}
	}
	for i := range m.lines {
		j := &m.lines[i]
		if j.apart-m.moved >= best {
			break
		}
		if m.stretchApart(j) < best {
			best = min(best, m.lineLeast(j, best))
		}
	}
	return best
}

// stretchApart is no more than the least of a line.
func (m *seam) stretchApart(j *line) float64 {
	w := &m.side[1-j.side].pieces[j.piece]
	a, b := m.from[j.side][0], m.from[j.side][1]
	v := m.step[j.side]
	grow := math.Abs(m.side[1-j.side].off) / leastSlide
	span := func(a, b, v float64) (lo, hi float64) {
		return min(a, b) + min(0, v), max(a, b) + max(0, v)
	}
	lx, hx := span(a.x, b.x, v.x)
	ly, hy := span(a.y, b.y, v.y)
	lz, hz := span(a.z, b.z, v.z)
	dx := max(0, w.box[0].x-grow-hx, lx-w.box[1].x-grow)
	dy := max(0, w.box[0].y-grow-hy, ly-w.box[1].y-grow)
	dz := max(0, -hz, lz-m.t)
	return math.Sqrt(dx*dx + dy*dy + dz*dz)
}

// lineLeast is the least of a line, or anything not under known where it is no less than that. By tangents: where those at
// both ends of a stretch cross it is no less than they are there.
func (m *seam) lineLeast(j *line, known float64) float64 {
	m.ends(j)
	best := min(j.f[0], j.f[1])
	if j.slope[0] >= 0 || j.slope[1] <= 0 {
		return best
	}
	a, fa, sa := 0.0, j.f[0], j.slope[0]
	b, fb, sb := 1.0, j.f[1], j.slope[1]
	for range maxLooks {
		s := (fb - fa + sa*a - sb*b) / (sa - sb)
		if !(s > a && s < b) {
			break
		}
		under := fa + sa*(s-a)
		if under >= min(best, known)-m.tol {
			break
		}
		f, slope := m.value(j, s)
		best = min(best, f)
		switch {
		case slope < 0:
			a, fa, sa = s, f, slope
		case slope > 0:
			b, fb, sb = s, f, slope
		default:
			return best
		}
	}
	return best
}

// run is a stretch of the seam in the search for the widest gap, and what the least line is at its ends.
type run struct {
	a, b   float64
	fa, fb float64
	ja, jb int
}

// widestClear is the widest of the least distances from a to b, panels that lie in each other left out. Where one line is
// the least at both ends, it is no more than the wider of them; else no more than where the chords of the
// two that are least there cross.
func (m *seam) widestClear(a, b float64) float64 {
	fa, ja := m.clear(a)
	fb, jb := m.clear(b)
	best := max(fa, fb)
	m.runs = append(m.runs[:0], run{a, b, fa, fb, ja, jb})
	for n := 0; n < maxLooks && len(m.runs) > 0; n++ {
		r := m.runs[len(m.runs)-1]
		m.runs = m.runs[:len(m.runs)-1]
		if r.ja == r.jb || r.b-r.a < 1e-12 {
			continue
		}
		// The chord of the line that is least at a, and of that at b.
		ab, ba := m.of(r.ja, r.b), m.of(r.jb, r.a)
		den := (ab - r.fa) + (ba - r.fb)
		if !(den > 0) {
			continue
		}
		k := max(0, min(1, (ba-r.fa)/den))
		if r.fa+k*(ab-r.fa) <= best+m.tol {
			continue
		}
		s := r.a + k*(r.b-r.a)
		if !(s > r.a && s < r.b) {
			continue
		}
		f, j := m.clear(s)
		best = max(best, f)
		m.runs = append(m.runs, run{r.a, s, r.fa, f, r.ja, j}, run{s, r.b, f, r.fb, j, r.jb})
	}
	return best
}
