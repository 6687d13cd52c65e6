package spread

// This file holds what is kept of one quantity over the samples, and makes a fold.Spread of it.

import (
	"math"
	"slices"

	"dryfold/fold"
)

// quantity is one figure of the part over the samples.
type quantity struct {
	exact  float64
	causes []int     // those that can move it
	vals   []float64 // by sample
	sy     float64   // sums over the samples of the difference y to exact, of y*y, and of y by each cause's z
	syy    float64
	sxy    []float64
	parts  []*quantity // of a length that is always over 0: what it is the length of, which is what the causes move evenly
}

// newLength is a quantity that is the length of a way in space.
func newLength(exact float64, causes []int, samples int) *quantity {
	q := newQuantity(exact, causes, samples)
	for range 3 {
		q.parts = append(q.parts, newQuantity(0, causes, 0))
	}
	return q
}

// recordLength takes sample n of a length.
func (q *quantity) recordLength(n int, v vec, z []float64) {
	q.record(n, v.len(), z)
	for k, p := range q.parts {
		p.add(v.at(k), z)
	}
}

func newQuantity(exact float64, causes []int, samples int) *quantity {
	return &quantity{exact: exact, causes: causes, vals: make([]float64, samples), sxy: make([]float64, len(causes))}
}

// record takes sample n.
func (q *quantity) record(n int, v float64, z []float64) {
	d := v - q.exact
	if !(math.Abs(d) < 1e9) {
		v, d = q.exact, 0
	}
	q.vals[n] = v
	q.add(d, z)
}

// add takes a difference into the sums.
func (q *quantity) add(d float64, z []float64) {
	q.sy += d
	q.syy += d * d
	for i, c := range q.causes {
		q.sxy[i] += d * z[c]
	}
}

// moments are the sums over the samples of each cause's z, and of its square.
type moments struct{ sz, szz []float64 }

// spread is the quantity's spread; only the first n samples count.
func (q *quantity) spread(c *causes, m *moments, n int) fold.Spread {
	vals := slices.Clone(q.vals[:n])
	slices.Sort(vals)
	return fold.Spread{
		Low: quantile(vals, 0.05), Mid: quantile(vals, 0.5), High: quantile(vals, 0.95),
		Exact: q.exact, Shares: q.shares(c, m, float64(n)),
	}
}

// quantile is the value under which the part k of the sorted values lies, straight between two neighbours.
func quantile(sorted []float64, k float64) float64 {
	at := k * float64(len(sorted)-1)
	i := int(at)
	if i+1 >= len(sorted) {
		return sorted[len(sorted)-1]
	}
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}

// shares: with independent causes z the part of the variance of y that z makes, straightened, is
// cov(y,z)^2/(var y var z), of which 1/n is chance. What all together leave is what causes do together: kinks and products.
func (q *quantity) shares(c *causes, m *moments, n float64) []fold.Share {
	out := []fold.Share{}
	parts := q.parts
	if parts == nil {
		parts = []*quantity{q}
	}
	vy := 0.0
	for _, p := range parts {
		mean := p.sy / n
		vy += p.syy/n - mean*mean
	}
	if !(vy > 1e-18) {
		return out
	}
	cuts := fold.Share{Cause: "cut edges"}
	sum := 0.0
	for i, k := range q.causes {
		mz := m.sz[k] / n
		vz := m.szz[k]/n - mz*mz
		if !(vz > 0) {
			continue
		}
		square, worth := 0.0, 0.0
		for _, p := range parts {
			cov := p.sxy[i]/n - p.sy/n*mz
			square += cov * cov
			worth = 2 * cov / vz // the plus is two standard deviations
		}
		if len(parts) > 1 {
			worth = 2 * math.Sqrt(square) / vz
		}
		part := max(0, square/(vy*vz)-1/n)
		sum += part
		if c.all[k].kind == byCut {
			cuts.Part += part
			if part > 0 {
				cuts.Worth = math.Sqrt(cuts.Worth*cuts.Worth + worth*worth)
			}
			continue
		}
		out = append(out, fold.Share{Cause: c.all[k].name, Bend: c.all[k].bend, Part: part, Worth: worth})
	}
	if cuts.Part > 0 {
		out = append(out, cuts)
	}
	if sum > 1 {
		for i := range out {
			out[i].Part /= sum
		}
	} else {
		out = append(out, fold.Share{Cause: "together", Part: 1 - sum})
	}
	out = slices.DeleteFunc(out, func(s fold.Share) bool { return s.Part < leastShare })
	sortShares(out)
	return out
}

// sortShares puts the largest first; of equal ones those that came first.
func sortShares(s []fold.Share) {
	for i := 1; i < len(s); i++ {
		for j := i; j > 0 && s[j].Part > s[j-1].Part; j-- {
			s[j], s[j-1] = s[j-1], s[j]
		}
	}
}
