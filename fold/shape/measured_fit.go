package shape

// This file fits corners to readings by least squares: the shape for which the readings,
// each measured in its own doubt, are off by the least sum of squares (Gauss and Newton's
// steps, damped as Levenberg and Marquardt do), and tells how far each reading is checked
// by the others (redundancy numbers, as in surveying: Baarda's data snooping).

import (
	"math"

	"dryfold/fold/geom"
)

// model is what the reading would be on the corners p: mm, or radians in 0 to 2 pi.
func (r reading) model(p []geom.Vec2) float64 {
	if !r.angle {
		return p[r.b].Sub(p[r.a]).Len()
	}
	u, w := r.legs(p)
	a := math.Atan2(geom.Cross2(u, w), u.Dot(w))
	if a < 0 {
		a += 2 * math.Pi
	}
	return a
}

// legs of an angle: to the next corner and to the one before.
func (r reading) legs(p []geom.Vec2) (next, before geom.Vec2) {
	n := len(p)
	return p[(r.a+1)%n].Sub(p[r.a]), p[(r.a+n-1)%n].Sub(p[r.a])
}

// off is how far what was read lies over the model: mm, or radians within pi.
func (r reading) off(p []geom.Vec2) float64 {
	d := r.value - r.model(p)
	if r.angle {
		d = math.Remainder(d, 2*math.Pi)
	}
	return d
}

// slope is how the model changes with the free coordinates: all but both of the first
// corner and y of the second.
func (r reading) slope(p []geom.Vec2) []float64 {
	n := len(p)
	row := make([]float64, 2*n-3)
	put := func(i int, v geom.Vec2) {
		switch {
		case i == 1:
			row[0] += v[0]
		case i > 1:
			row[2*i-3] += v[0]
			row[2*i-2] += v[1]
		}
	}
	if !r.angle {
		d := p[r.b].Sub(p[r.a])
		if l := d.Len(); l > 0 {
			d = d.Mul(1 / l)
		}
		put(r.b, d)
		put(r.a, d.Mul(-1))
		return row
	}
	u, w := r.legs(p)
	var gu, gw geom.Vec2
	if l := u.Dot(u); l > 0 {
		gu = geom.Perp(u).Mul(-1 / l)
	}
	if l := w.Dot(w); l > 0 {
		gw = geom.Perp(w).Mul(1 / l)
	}
	put((r.a+1)%n, gu)
	put((r.a+n-1)%n, gw)
	put(r.a, gu.Add(gw).Mul(-1))
	return row
}

// misfit is the sum of the squares of the readings' offs, in doubts.
func misfit(rs []reading, p []geom.Vec2) float64 {
	sum := 0.0
	for _, r := range rs {
		d := r.off(p) / r.doubt
		sum += d * d
	}
	return sum
}

// fitted gives the corners, from p on, for which misfit is least: in its own neighbourhood,
// so p decides which. p[0] stays, p[1] stays on its line.
func fitted(rs []reading, p []geom.Vec2) []geom.Vec2 {
	p = append([]geom.Vec2(nil), p...)
	best := misfit(rs, p)
	damp := firstDamp
	for range maxFits {
		size := spread(p)
		if best == 0 || damp > mostDamp {
			break
		}
		normal, right := equations(rs, p)
		most := 0.0
		for i := range normal {
			most = max(most, normal[i][i])
		}
		for i := range normal {
			normal[i][i] += damp * most // all unknowns are lengths, so alike
		}
		step, ok := solved(normal, right)
		if !ok {
			damp *= 100
			continue
		}
		next := moved(p, step)
		m := misfit(rs, next)
		if !(m < best) {
			// No better: a smaller step, or as near as float64 comes.
			if largest(step) < leastStep*size {
				break
			}
			damp *= 10
			continue
		}
		settled := best-m < fitEnough*best
		p, best = next, m
		if settled {
			break
		}
		damp = max(damp/30, leastDamp)
	}
	return p
}

// spread is how far the farthest corner lies from the first.
func spread(p []geom.Vec2) float64 {
	most := 0.0
	for _, q := range p {
		most = max(most, q.Sub(p[0]).Len())
	}
	return most
}

func largest(list []float64) float64 {
	most := 0.0
	for _, x := range list {
		most = max(most, math.Abs(x))
	}
	return most
}

func moved(p []geom.Vec2, step []float64) []geom.Vec2 {
	out := append([]geom.Vec2(nil), p...)
	out[1][0] += step[0]
	for i := 2; i < len(p); i++ {
		out[i] = out[i].Add(geom.Vec2{step[2*i-3], step[2*i-2]})
	}
	return out
}

// equations are the normal equations of one step.
func equations(rs []reading, p []geom.Vec2) (normal [][]float64, right []float64) {
	n := 2*len(p) - 3
	normal, right = make([][]float64, n), make([]float64, n)
	for i := range normal {
		normal[i] = make([]float64, n)
	}
	for _, r := range rs {
		row, d := r.slope(p), r.off(p)
		w := 1 / (r.doubt * r.doubt)
		for i, x := range row {
			if x == 0 {
				continue
			}
			right[i] += w * x * d
			for j := 0; j <= i; j++ {
				normal[i][j] += w * x * row[j]
			}
		}
	}
	return normal, right
}

// solved solves symmetric equations, of which the lower half is given and spoilt, by
// Cholesky's way; ok is false where they are not positive.
func solved(a [][]float64, b []float64) (x []float64, ok bool) {
	if !factored(a) {
		return nil, false
	}
	return substituted(a, b), true
}

func factored(a [][]float64) bool {
	for i := range a {
		for j := 0; j <= i; j++ {
			sum := a[i][j]
			for k := range j {
				sum -= a[i][k] * a[j][k]
			}
			if i > j {
				a[i][j] = sum / a[j][j]
			} else if a[i][i] = math.Sqrt(sum); !(sum > 0) || math.IsInf(sum, 0) {
				return false
			}
		}
	}
	return true
}

func substituted(l [][]float64, b []float64) []float64 {
	x := append([]float64(nil), b...)
	for i := range x {
		for k := range i {
			x[i] -= l[i][k] * x[k]
		}
		x[i] /= l[i][i]
	}
	for i := len(x) - 1; i >= 0; i-- {
		for k := i + 1; k < len(x); k++ {
			x[i] -= l[k][i] * x[k]
		}
		x[i] /= l[i][i]
	}
	return x
}

// checked gives each reading's redundancy number: the part of an error in it that shows
// as its own off, the rest goes into the shape. 0: nothing checks it. Nil where
// the readings do not hold the shape.
func checked(rs []reading, p []geom.Vec2) []float64 {
	normal, _ := equations(rs, p)
	if !factored(normal) {
		return nil
	}
	out := make([]float64, len(rs))
	for i, r := range rs {
		row := r.slope(p)
		x := substituted(normal, row)
		sum := 0.0
		for k := range row {
			sum += row[k] * x[k]
		}
		out[i] = min(1, max(0, 1-sum/(r.doubt*r.doubt)))
	}
	return out
}

// hold counts how many readings hold a shape, one besides the other.
type hold struct {
	count int
	rows  [][]float64 // unit and square to each other
}

// add takes a reading in, and reports whether it holds what those before it do not.
func (h *hold) add(r reading, p []geom.Vec2) bool {
	row := r.slope(p)
	if !unit(row) {
		return false
	}
	for range 2 { // the second time takes out what rounding left
		for _, q := range h.rows {
			dot := 0.0
			for k := range row {
				dot += row[k] * q[k]
			}
			for k := range row {
				row[k] -= dot * q[k]
			}
		}
	}
	left := 0.0
	for _, x := range row {
		left += x * x
	}
	if !(left > leastHold*leastHold) || !unit(row) {
		return false
	}
	h.rows = append(h.rows, row)
	h.count++
	return true
}

func unit(row []float64) bool {
	sum := 0.0
	for _, x := range row {
		sum += x * x
	}
	if !(sum > 0) || math.IsInf(sum, 0) {
		return false
	}
	for i := range row {
		row[i] /= math.Sqrt(sum)
	}
	return true
}
