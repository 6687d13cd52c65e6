package paper

// spread moves labels along an axis as little as possible (least squares) so
// that neighbours, given in rising order of position, stand at least half the
// sum of their sizes apart, and the first no further back than least. Their
// order stays, so leaders never cross.
func spread(at, size []float64, least float64) []float64 {
	n := len(at)
	// With each label's own offset taken off, the least-squares answer is the
	// isotonic regression of the rest, found by pooling neighbours that disagree;
	// a bound on the first cuts all of them off at it.
	type pool struct {
		mean float64
		n    int
	}
	off := make([]float64, n)
	var pools []pool
	for i := range at {
		if i > 0 {
			off[i] = off[i-1] + (size[i-1]+size[i])/2
		}
		pools = append(pools, pool{at[i] - off[i], 1})
		for len(pools) > 1 {
			a, b := pools[len(pools)-2], pools[len(pools)-1]
			if a.mean <= b.mean {
				break
			}
			pools = append(pools[:len(pools)-2], pool{
				(a.mean*float64(a.n) + b.mean*float64(b.n)) / float64(a.n+b.n), a.n + b.n})
		}
	}
	out := make([]float64, 0, n)
	for _, p := range pools {
		for range p.n {
			out = append(out, max(p.mean, least)+off[len(out)])
		}
	}
	return out
}
