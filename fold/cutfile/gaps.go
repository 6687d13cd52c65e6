package cutfile

// This file leaves the cut open here and there, so that the part stays in the sheet.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// gaps gives each contour as its paths: one closed one, or with gaps so many open ones. Gaps are spread evenly, and
// shifted to where they do the least harm: straight edges, away from corners, not on an edge that will lie in a seam.
func (b *blank) gaps(p *fold.Part, o Options) ([][]Path, error) {
	var out [][]Path
	if o.Gaps == 0 {
		for _, c := range b.contours {
			out = append(out, []Path{{c.ps, true}})
		}
		return out, nil
	}
	seams, _ := p.FindSeams()
	for _, c := range b.contours {
		g := gapper{ps: c.ps, wide: o.GapWidth + o.Kerf, count: o.Gaps, beside: o.Kerf / 2}
		for _, s := range seams {
			g.seams = append(g.seams, geom.Piece{A: s.EdgeA[0], B: s.EdgeA[1]}, geom.Piece{A: s.EdgeB[0], B: s.EdgeB[1]})
		}
		if c.void {
			for g.count = min(g.count, int(g.length()/voidPitch)); g.count > 0 && !g.find(); g.count-- {
			}
			if g.count == 0 {
				out = append(out, []Path{{c.ps, true}})
				continue
			}
		} else if !g.find() {
			at := middle(c.ps)
			return nil, &Error{Field: "gaps", At: &at, Words: fmt.Sprintf(
				"Gaps: %s has no room for %d of %.2f mm. Take fewer, or narrower ones.", c.what, o.Gaps, o.GapWidth)}
		}
		onSeam := 0
		for _, x := range g.chosen {
			if x.seam {
				onSeam++
			}
		}
		if onSeam > 0 {
			b.note("Gaps of %s on an edge that will be in a seam, to be filed flush: %d.", c.what, onSeam)
		}
		out = append(out, g.open())
	}
	return out, nil
}

// gapper finds places for the gaps of one contour.
type gapper struct {
	ps     []geom.Piece
	seams  []geom.Piece
	wide   float64 // along the path, the cut's own width in it
	count  int
	beside float64 // how far the path runs beside the edge
	chosen []gapPlace
}

// gapPlace is the middle of a gap.
type gapPlace struct {
	piece     int
	along     float64 // on it
	round     float64 // from the contour's beginning
	arc, seam bool
}

func (g *gapper) length() (l float64) {
	for _, p := range g.ps {
		l += p.Len()
	}
	return l
}

// find chooses the places; false if there is no room.
func (g *gapper) find() bool {
	g.chosen = nil
	total := 0.0
	starts := make([]float64, len(g.ps))
	for i, p := range g.ps {
		starts[i] = total
		total += p.Len()
	}
	var all []gapPlace
	step := total / gapTries
	for i, p := range g.ps {
		long := p.Len()
		room := g.wide * (0.5 + gapRoom)
		if long < 2*room {
			continue
		}
		n := min(gapTries, 1+int((long-2*room)/step))
		for k := range n {
			s := long / 2
			if n > 1 {
				s = room + (long-2*room)*float64(k)/float64(n-1)
			}
			x := gapPlace{piece: i, along: s, round: starts[i] + s, arc: p.Turn != 0}
			v := p.At(s / long)
			x.seam = g.onSeam(v)
			all = append(all, x)
		}
	}
	pitch := total / float64(g.count)
	if pitch < 3*g.wide {
		return false
	}
	// Harm in lengths along the contour: a gap goes up to a pitch aside for a straight edge, half of one for an edge in no seam.
	harm := func(x gapPlace) (h float64) {
		if x.seam {
			h += pitch / 2
		}
		if x.arc {
			h += pitch
		}
		// Near an end of its edge it is filed with less ease, and a short end springs.
		long := g.ps[x.piece].Len()
		return h + pitch/4*max(0, 1-4*min(x.along, long-x.along)/long)
	}
	for k := range g.count {
		want := pitch * (float64(k) + 0.5)
		best, least := -1, math.Inf(1)
		for i, x := range all {
			cost := math.Abs(math.Remainder(x.round-want, total)) + harm(x)
			if cost < least && g.free(x, min(pitch/3, total/4), total) {
				best, least = i, cost
			}
		}
		if best < 0 {
			return false
		}
		g.chosen = append(g.chosen, all[best])
	}
	geom.SortStable(g.chosen, func(x, y gapPlace) int {
		if x.round < y.round {
			return -1
		}
		return 1
	})
	return true
}

// onSeam reports whether a place of the path lies along an edge of a seam.
func (g *gapper) onSeam(v geom.Vec2) bool {
	near := g.beside + onSeam
	for _, e := range g.seams {
		if v[0] < min(e.A[0], e.B[0])-near || v[0] > max(e.A[0], e.B[0])+near || v[1] < min(e.A[1], e.B[1])-near || v[1] > max(e.A[1], e.B[1])+near {
			continue
		}
		if e.Distance(v) < near {
			return true
		}
	}
	return false
}

// free reports whether a place is so far from those chosen.
func (g *gapper) free(x gapPlace, apart, total float64) bool {
	for _, y := range g.chosen {
		if math.Abs(math.Remainder(x.round-y.round, total)) < max(apart, 2*g.wide) {
			return false
		}
	}
	return true
}

// open cuts the contour at the gaps.
func (g *gapper) open() (out []Path) {
	n := len(g.chosen)
	for k, x := range g.chosen {
		y := g.chosen[(k+1)%n]
		var ps []geom.Piece
		for i := x.piece; ; i = (i + 1) % len(g.ps) {
			p := g.ps[i]
			from, to := 0.0, 1.0
			long := p.Len()
			first := len(ps) == 0 && i == x.piece
			if first {
				from = (x.along + g.wide/2) / long
			}
			// The end lies on this piece, unless the way round is still to go.
			last := i == y.piece && (!first || y.along > x.along)
			if last {
				to = (y.along - g.wide/2) / long
			}
			ps = append(ps, p.Part(from, to))
			if last {
				break
			}
		}
		out = append(out, Path{ps, false})
	}
	return out
}
