package fold

// This file makes a seam's figures and its profile: course.go follows the gap, seamline.go places the seam.

import "math"

// figures fills in what is measured of the gap along a seam.
func (l *seamLine) figures(g *SeamGap) {
	g.Length = l.hi - l.lo
	c, whole := newCourse(l)
	levels := l.levels()
	spans := c.free(whole, levels)
	sum := 0.0
	stretches := make([][]leaf, len(spans))
	for i, s := range spans {
		sum += c.follow(s, 0, &stretches[i])
	}
	for i, leaves := range stretches {
		var done []leaf
		for _, s := range leaves {
			c.settle(s, true, 0, &done)
		}
		stretches[i] = done
	}
	// One after the other, as they lie: free stretches, and those on which the panels lie in each other.
	var runs [][]profilePoint
	for len(stretches) > 0 || len(levels) > 0 {
		if len(levels) == 0 || len(stretches) > 0 && stretches[0][0].a < levels[0].a {
			s := stretches[0]
			run := []profilePoint{{at: s[0].a, gap: s[0].atA()}}
			for i := range s {
				run = append(run, profilePoint{s[i].b, s[i].atB(), s[i].err})
			}
			runs, stretches = append(runs, run), stretches[1:]
			continue
		}
		k := levels[0]
		sum -= k.depth * (k.b - k.a)
		runs, levels = append(runs, []profilePoint{{at: k.a, gap: -k.depth}, {at: k.b, gap: -k.depth}}), levels[1:]
	}
	g.Mean = sum / g.Length
	g.Min, g.Max = math.Inf(1), math.Inf(-1)
	for _, run := range runs {
		for _, p := range run {
			g.Min, g.Max = min(g.Min, p.gap), max(g.Max, p.gap)
		}
	}
	last := runs[len(runs)-1]
	g.AtStart, g.AtEnd = runs[0][0].gap, last[len(last)-1].gap
	g.MinAt, g.MaxAt = math.NaN(), math.NaN()
	for _, run := range runs { // the first place that is as good as any
		for _, p := range run {
			if math.IsNaN(g.MinAt) && p.gap <= g.Min+gapNoise {
				g.MinAt = p.at
			}
			if math.IsNaN(g.MaxAt) && p.gap >= g.Max-gapNoise {
				g.MaxAt = p.at
			}
		}
	}
	for _, run := range runs {
		g.Profile = append(g.Profile, joinPoints(run, g)...)
	}
}

// profilePoint is a place of a profile; between it and the one before the gap is straight to within err.
type profilePoint struct{ at, gap, err float64 }

// joinPoints leaves out points between which the gap is straight to within ProfileError; the ends, and where it is least and
// largest, stay.
func joinPoints(run []profilePoint, g *SeamGap) []GapPoint {
	const room = ProfileError - leafError // what a line may miss the points by: leafError is theirs already
	out := []GapPoint{{run[0].at, run[0].gap}}
	for i := 0; i < len(run)-1; {
		a, to := run[i], i+1
		lo, hi := math.Inf(-1), math.Inf(1) // slopes from a that pass all points so far near enough
		for k := i + 1; k < len(run) && run[k].err <= leafError; k++ {
			p := run[k]
			d := p.at - a.at
			if x := (p.gap - a.gap) / d; x >= lo && x <= hi {
				to = k
			}
			if p.at == g.MinAt || p.at == g.MaxAt {
				break
			}
			if lo, hi = max(lo, (p.gap-room-a.gap)/d), min(hi, (p.gap+room-a.gap)/d); lo > hi {
				break
			}
		}
		i = to
		out = append(out, GapPoint{run[i].at, run[i].gap})
	}
	return out
}
