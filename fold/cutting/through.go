package cutting

// This file finds what shears cut: right across what is left of the sheet, so that each cut runs from edge to edge.

import (
	"cmp"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/shape"
)

// across is what is known of cuts right across, and of bounds on edges.
type across struct {
	known  map[int]bound
	window map[int]*shape.Cut
	length []float64 // of each edge: how long its cut by shears is; 0: not sheared
	lines  [][]int   // the edges that are sheared, one list for each cut, in order
}

// line is one cut across: edges of the outline in one straight line.
type line struct {
	edges []int
	at    geom.Vec2
	way   geom.Vec2 // the metal lies on its left
	long  float64   // of the edges together
	rank  int       // the blank's four sides first, as they are marked out from: below, left, above, right
}

// through chooses what shears cut, and in which order: what is left of the sheet is a piece without hollows, of which
// each cut takes off what lies beyond its line.
func (m *maker) through() {
	m.length = make([]float64, len(m.rims))
	box := m.part.Blank.Box
	size := box.Size()
	for k := range size {
		m.plan.Piece[k] = size[k] + 2*pieceMore
		if over := m.ShearsLength - size[k]; m.ShearsLength > 0 && over >= 0 { // no longer than the shears, if that can be
			m.plan.Piece[k] = min(m.plan.Piece[k], size[k]+over)
		}
	}
	if m.ShearsLength <= 0 {
		return
	}
	more := geom.Vec2{m.plan.Piece[0] - size[0], m.plan.Piece[1] - size[1]}.Mul(0.5)
	lo, hi := box.Min.Sub(more), box.Max.Add(more)
	left := geom.Loop{lo, {hi[0], lo[1]}, hi, {lo[0], hi[1]}}
	lines := m.linesAcross()
	for again := true; again; { // what was too long may be short enough once the corners are off
		again = false
		kept := lines[:0]
		for _, l := range lines {
			long := chord(left, l.at, l.way)
			if long > m.ShearsLength+shearSlack || len(m.lines) >= maxShears {
				kept = append(kept, l)
				continue
			}
			left = beyond(left, l.at, l.way)
			m.lines = append(m.lines, l.edges)
			for _, i := range l.edges {
				m.length[i] = long
			}
			again = true
		}
		lines = kept
	}
}

// linesAcross are the cuts that shears may make, in the order in which they are tried.
func (m *maker) linesAcross() []line {
	var out []line
	other := m.snips || !m.NoSaw || m.Nibbler > 0 || m.Disc > 0
	for k := range m.cuts {
		x := &m.cuts[k]
		if x.Kind != shape.CutEdge {
			continue
		}
		if x.Tool != "shears" {
			m.tooLong(x)
			continue
		}
		i := m.edgeOf(x.Contour, x.Edge)
		if i < 0 {
			continue
		}
		e := &m.plan.Edges[i]
		l := line{[]int{i}, e.A, e.Way(e.A), e.Length, 4}
		switch u := l.way; {
		case u[0] > 1-noise:
			l.rank = 0
		case u[1] < -1+noise:
			l.rank = 1
		case u[0] < -1+noise:
			l.rank = 2
		case u[1] > 1-noise:
			l.rank = 3
		}
		out = append(out, l)
	}
	// Edges in one line turn alike about the blank: sorted by their directions they are neighbours.
	geom.SortStable(out, func(a, b line) int {
		return cmp.Compare(math.Atan2(a.way[1], a.way[0]), math.Atan2(b.way[1], b.way[0]))
	})
	join := func(l *line, x line) bool {
		if l.way.Dot(x.way) < 0 || math.Abs(geom.Cross2(l.way, x.at.Sub(l.at))) > inLine || math.Abs(geom.Cross2(l.way, x.way)) > inLine/max(1, x.long) {
			return false
		}
		l.edges, l.long, l.rank = append(l.edges, x.edges...), l.long+x.long, min(l.rank, x.rank)
		return true
	}
	var joined []line
	for _, x := range out {
		if n := len(joined); n > 0 && join(&joined[n-1], x) {
			continue
		}
		joined = append(joined, x)
	}
	if n := len(joined); n > 1 && join(&joined[0], joined[n-1]) { // directions either side of a half turn
		joined = joined[:n-1]
	}
	var few []line
	for _, l := range joined {
		if l.rank < 4 || l.long >= shearLeast || !other {
			few = append(few, l)
		}
	}
	geom.SortStable(few, func(a, b line) int { return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(b.long, a.long)) })
	return few
}

// tooLong tells once that edges are longer than the shears.
func (m *maker) tooLong(x *shape.Cut) {
	for i := range m.plan.Problems {
		if t := &m.plan.Problems[i]; t.Rule == "shears-short" {
			if *t.Have < x.Size {
				have := x.Size
				t.Have, t.At, t.Message = &have, x.At, x.Words
			}
			return
		}
	}
	if x.Rule != "" {
		return // told already: no tool makes it
	}
	have, need := x.Size, m.ShearsLength
	m.plan.Problems = append(m.plan.Problems, fold.Trouble{Severity: fold.Watch, Rule: "shears-short", At: x.At, Have: &have, Need: &need, Message: x.Words})
}

// chord is how long the line through a point runs in a loop without hollows.
func chord(l geom.Loop, at, way geom.Vec2) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, a := range l {
		b := l[(i+1)%len(l)]
		p, q := geom.Cross2(way, a.Sub(at)), geom.Cross2(way, b.Sub(at))
		s, t := a.Sub(at).Dot(way), b.Sub(at).Dot(way)
		if p == 0 {
			lo, hi = min(lo, s), max(hi, s)
		}
		if p*q < 0 {
			x := s + (t-s)*p/(p-q)
			lo, hi = min(lo, x), max(hi, x)
		}
	}
	return max(0, hi-lo)
}

// beyond is the loop without what lies on the right of the line.
func beyond(l geom.Loop, at, way geom.Vec2) (out geom.Loop) {
	for i, a := range l {
		b := l[(i+1)%len(l)]
		p, q := geom.Cross2(way, a.Sub(at)), geom.Cross2(way, b.Sub(at))
		if p >= 0 {
			out = append(out, a)
		}
		if p*q < 0 {
			out = append(out, a.Add(b.Sub(a).Mul(p/(p-q))))
		}
	}
	return out
}
