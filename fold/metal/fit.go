package metal

// This file holds the arithmetic of test bends: one strip as one linear equation in R and K,
// least squares over several, and who is off the others.

import (
	"math"
	"slices"
)

// row is one strip as an equation in R and K, with the thickness given (all mm, radians):
//
//	y = slope*R - angle*thickness*K
//
// where y is the legs' sum less the strip's length, freed from what thickness alone adds to the legs.
// For legs outside, up to 90 degrees, the legs' sum less the length is 2(R+T)tan(A/2) - A(R+K*T); beyond
// 90, where sizes go to the outermost tangent plane, 2(R+T) - A(R+K*T). Inside faces lie T tan(A/2), beyond
// 90 T, nearer at each leg.
type row struct {
	strip            int // place in what Examine was given
	angle, thickness float64
	slope, y         float64
	outer            float64 // what thickness alone adds to both legs, measured outside
	added            float64 // and as these were measured
	variance         float64 // of y, by the reading errors of three lengths and the angle (mm2)
	most             float64 // what y is out by with all of them at their greatest (mm)
	calliper         bool    // the lengths were read with one
}

// row is the strip's equation; radius is a guess that its doubt is reckoned with.
func (s Strip) row(radius float64) row {
	a := s.Angle * degree
	r := row{angle: a, thickness: s.Thickness, calliper: s.Calliper, slope: 2 - a, y: s.Legs[0] + s.Legs[1] - s.Length}
	r.outer = 2 * s.Thickness
	grow := 0.0 // of y with the angle
	if s.Angle <= 90 {
		t := math.Tan(a / 2)
		r.slope, r.outer = 2*t-a, r.outer*t
		grow = (radius + s.Thickness) * (1 + t*t)
		if s.Inside {
			grow = radius * (1 + t*t)
		}
	}
	if !s.Inside {
		r.added = r.outer
		r.y -= r.outer
	}
	grow -= radius + MaxK/2*s.Thickness
	turn := grow * AngleError * degree
	length := s.lengthError()
	r.variance = (3*length*length + turn*turn) * readingMargin * readingMargin
	r.most = 3*length + math.Abs(turn)
	return r
}

// lengthError is what one length of the strip may be out by, mm.
func (s Strip) lengthError() float64 {
	if s.Calliper {
		return CalliperError
	}
	return LengthError
}

// readers names what the lengths of strips were read with, those of the rows.
func readers(rows []row) string {
	callipers := 0
	for _, r := range rows {
		if r.calliper {
			callipers++
		}
	}
	switch callipers {
	case 0:
		return "a rule"
	case len(rows):
		return "a calliper"
	}
	return "a rule, a calliper"
}

// deduction is what y is for a radius and a K.
func (r row) deduction(radius, k float64) float64 { return r.slope*radius - r.angle*r.thickness*k }

// k is the K that gives y with a radius, with what the reading errors make of it.
func (r row) k(radius float64) (k, doubt float64) {
	at := r.angle * r.thickness
	return (r.slope*radius - r.y) / at, math.Sqrt(r.variance) / at
}

// value is one reading of a quantity with what it may be out by.
type value struct{ at, doubt float64 }

// mean is the mean of values weighted by their doubts, its own doubt, and how many times more
// they scatter than their doubts tell (never under 1); the doubt is widened by that.
func mean(vs []value) (m value, scatter float64) {
	var w, sum float64
	for _, v := range vs {
		w += 1 / (v.doubt * v.doubt)
		sum += v.at / (v.doubt * v.doubt)
	}
	m = value{sum / w, 1 / math.Sqrt(w)}
	var chi float64
	for _, v := range vs {
		d := (v.at - m.at) / v.doubt
		chi += d * d
	}
	scatter = widen(chi, len(vs)-1)
	m.doubt *= scatter
	return m, scatter
}

// widen is the root of chi over what it should be, never under 1.
func widen(chi float64, free int) float64 {
	if free < 1 {
		return 1
	}
	return math.Sqrt(math.Max(1, chi/float64(free)))
}

// median of at least one number; the mean of the middle two where they are even.
func median(vs []float64) float64 {
	s := slices.Clone(vs)
	slices.Sort(s)
	n := len(s)
	return (s[(n-1)/2] + s[n/2]) / 2
}

// outliers marks values that are off the others by more than scatter and reading errors explain: by the
// median and the median deviation from it. Fewer than three are never marked.
func outliers(vs []value) []bool {
	out := make([]bool, len(vs))
	if len(vs) < 3 {
		return out
	}
	at := make([]float64, len(vs))
	for i, v := range vs {
		at[i] = v.at
	}
	mid := median(at)
	for i := range at {
		at[i] = math.Abs(vs[i].at - mid)
	}
	usual := outlierSpreads * madSigma * median(at)
	for i, v := range vs {
		out[i] = at[i] > math.Max(usual, outlierReading*v.doubt)
	}
	return out
}

// both are R and K by least squares, with their doubts.
type both struct {
	r, k    value
	scatter float64
}

// tellApart says whether the rows' angles tell R from K.
func tellApart(rows []row) bool {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, r := range rows {
		lo, hi = math.Min(lo, r.slope/r.angle), math.Max(hi, r.slope/r.angle)
	}
	return hi-lo >= AnglesClear
}

// fitBoth solves the rows for R and K by weighted least squares; false where the angles don't tell them apart.
func fitBoth(rows []row) (both, bool) {
	if !tellApart(rows) {
		return both{}, false
	}
	// K is solved for in mm of the mean thickness, so that the two unknowns are alike in size.
	var t float64
	for _, r := range rows {
		t += r.thickness / float64(len(rows))
	}
	var a, b, c, d, e float64 // normal matrix (a b; b c), right side (d e)
	for _, r := range rows {
		w, x, z := 1/r.variance, r.slope, -r.angle*r.thickness/t
		a, b, c = a+w*x*x, b+w*x*z, c+w*z*z
		d, e = d+w*x*r.y, e+w*z*r.y
	}
	det := a*c - b*b
	if !(det > 0) || math.IsInf(det, 0) {
		return both{}, false
	}
	r, kt := (c*d-b*e)/det, (a*e-b*d)/det
	// Once more on what is left, which takes the rounding out.
	d, e = 0, 0
	for _, q := range rows {
		w, x, z := 1/q.variance, q.slope, -q.angle*q.thickness/t
		rest := q.y - x*r - z*kt
		d, e = d+w*x*rest, e+w*z*rest
	}
	r, kt = r+(c*d-b*e)/det, kt+(a*e-b*d)/det
	var chi float64
	for _, q := range rows {
		rest := q.y - q.deduction(r, kt/t)
		chi += rest * rest / q.variance
	}
	s := widen(chi, len(rows)-2)
	return both{value{r, s * math.Sqrt(c/det)}, value{kt / t, s * math.Sqrt(a/det) / t}, s}, true
}

// offBoth marks the rows that are off what most of them agree on, where R and K are both sought:
// the pair of strips from whose R and K the middle one of all lies least off judges the others.
// Fewer than five are never marked: among four, two and two may agree.
func offBoth(rows []row) []bool {
	out := make([]bool, len(rows))
	if len(rows) < 5 {
		return out
	}
	step := (len(rows) + pairsFrom - 1) / pairsFrom
	off := make([]float64, len(rows)) // in reading errors
	best, bestOff := math.Inf(1), make([]float64, len(rows))
	for i := 0; i < len(rows); i += step {
		for j := i + step; j < len(rows); j += step {
			fit, ok := fitBoth([]row{rows[i], rows[j]})
			if !ok {
				continue
			}
			for n, r := range rows {
				off[n] = math.Abs(r.y-r.deduction(fit.r.at, fit.k.at)) / math.Sqrt(r.variance)
			}
			if m := median(off); m < best {
				best = m
				copy(bestOff, off)
			}
		}
	}
	if math.IsInf(best, 1) {
		return out
	}
	for i, d := range bestOff {
		out[i] = d > math.Max(outlierSpreads*madSigma*best, outlierReading)
	}
	return out
}

// line is K = a + b*log10(R/T), between two R/T.
type line struct {
	a, b           float64
	from, to       float64 // R/T
	w, wx, wxx, up float64 // sums of weights; what the spread is widened by
}

// fitLine fits K over log10(R/T) by weighted least squares; false with fewer than two different R/T.
func fitLine(ratios []float64, ks []value) (line, bool) {
	l := line{from: math.Inf(1), to: math.Inf(-1)}
	var wy, wxy float64
	for i, q := range ratios {
		w, x := 1/(ks[i].doubt*ks[i].doubt), log10(q)
		l.w, l.wx, l.wxx = l.w+w, l.wx+w*x, l.wxx+w*x*x
		wy, wxy = wy+w*ks[i].at, wxy+w*x*ks[i].at
		l.from, l.to = math.Min(l.from, q), math.Max(l.to, q)
	}
	det := l.w*l.wxx - l.wx*l.wx
	if !(l.from < l.to) || !(det > 0) {
		return line{}, false
	}
	l.b = (l.w*wxy - l.wx*wy) / det
	l.a = (wy - l.b*l.wx) / l.w
	var chi float64
	for i, q := range ratios {
		d := (ks[i].at - l.a - l.b*log10(q)) / ks[i].doubt
		chi += d * d
	}
	l.up = widen(chi, len(ratios)-2)
	return l, true
}

// at is K and its spread at R/T.
func (l line) at(ratio float64) value {
	x := log10(ratio)
	det := l.w*l.wxx - l.wx*l.wx
	return value{l.a + l.b*x, l.up * math.Sqrt((l.w*x*x-2*l.wx*x+l.wxx)/det)}
}
