package ascut

// This file measures seams on a part some of whose edges are cut elsewhere, without building it: only its panels change.

import (
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/solid"
)

// movable is a part whose edges can be moved and whose seams are then measured. Its panels are without holes.
type movable struct {
	*blank
	part   *fold.Part
	rep    *fold.Report
	pose   fold.Pose
	seams  []movableSeam
	bare   []geom.Loop // by panel: its edge
	leans  [2]*leanLimit
	panels []int // by cut: the panel that has most of it, -1 for none
}

// movableSeam is a seam of the report, with the cuts that it lies on.
type movableSeam struct {
	rep  *fold.SeamReport
	cuts [2]int    // -1: none that can be moved
	runs [2][2]int // corners of the panels between which its edges run; -1 where that is not known
	fast bool      // what is measured here is what the report says
	seen bool      // whether that was looked at
	min  float64   // the gap as drawn
	max  float64
}

func newMovable(p *fold.Part, r *fold.Report) *movable {
	m := &movable{blank: newBlank(p.Spec, p.Blank.Box), part: p, rep: r, pose: p.Pose(p.Finished())}
	for i := range p.Panels {
		m.bare = append(m.bare, p.Panels[i].Region.Outer)
	}
	for i := range r.Seams {
		s := &r.Seams[i]
		x := movableSeam{rep: s, min: s.GapMin, max: s.GapMax}
		for k, e := range [2][2]geom.Vec2{s.Seam.EdgeA, s.Seam.EdgeB} {
			panel := [2]int{s.Seam.A, s.Seam.B}[k]
			x.runs[k], x.cuts[k] = m.run(panel, e)
		}
		m.seams = append(m.seams, x)
	}
	return m
}

// cutOf is the cut of an edge of a panel's outer loop, -1 for none.
func (m *movable) cutOf(panel, i int) int {
	e := m.part.Panels[panel].Edges[0][i]
	if !e.Free() || e.Contour != 0 {
		return -1
	}
	return m.of[(e.Index+1)%len(m.of)]
}

// run is the stretch of a panel's edge on which a seam's edge lies, and its cut.
func (m *movable) run(panel int, e [2]geom.Vec2) (run [2]int, cut int) {
	loop := m.bare[panel]
	n := len(loop)
	mid := e[0].Add(e[1]).Mul(0.5)
	for i := range loop {
		c := m.cutOf(panel, i)
		if c < 0 {
			continue
		}
		if d, _ := geom.SegmentDistance(mid, loop[i], loop[(i+1)%n]); d > onLine {
			continue
		}
		from, to := i, (i+1)%n
		for range n {
			if m.cutOf(panel, (from+n-1)%n) != c {
				break
			}
			from = (from + n - 1) % n
		}
		for range n {
			if m.cutOf(panel, to) != c {
				break
			}
			to = (to + 1) % n
		}
		return [2]int{from, to}, c
	}
	return [2]int{-1, -1}, -1
}

// panel is a panel's edge with the cuts moved, and where each corner went: as its edge before and as its edge after has it.
func (m *movable) panel(k int, out []float64) (loop geom.Loop, at [][2]geom.Vec2, moves bool) {
	old := m.bare[k]
	n := len(old)
	line := func(i int) (way geom.Vec2, x float64, arc *geom.Vec2) {
		d := old[(i+1)%n].Sub(old[i])
		way = geom.Vec2{d[1], -d[0]}.Normalize()
		e := m.part.Panels[k].Edges[0][i]
		if !e.Free() || e.Contour != 0 {
			return way, 0, nil
		}
		edge := (e.Index + 1) % len(m.of)
		if c := m.of[edge]; c >= 0 {
			return m.cuts[c].Out, out[c], nil
		}
		from, _ := m.goes((edge+len(m.of)-1)%len(m.of), out)
		to, _ := m.goes(edge, out)
		w := from[1].Add(to[0]).Mul(0.5)
		return way, w.Dot(way), &w
	}
	at = make([][2]geom.Vec2, n)
	for i, p := range old {
		pn, px, pa := line((i + n - 1) % n)
		qn, qx, qa := line(i)
		w := [2]geom.Vec2{pn.Mul(px), qn.Mul(qx)}
		if pa != nil {
			w = [2]geom.Vec2{*pa, *pa}
		} else if qa != nil {
			w = [2]geom.Vec2{*qa, *qa}
		} else if px == 0 && qx == 0 {
			w = [2]geom.Vec2{}
		} else if v, ok := met(pn, px, qn, qx); ok {
			for _, e := range [2]struct {
				x, stays float64
				far, n   geom.Vec2
			}{{px, qx, old[(i+1)%n], pn}, {qx, px, old[(i+n-1)%n], qn}} { // as blank.eaten has it
				way := e.far.Sub(p)
				if l := way.Len(); e.stays == 0 && e.x < 0 && v.Dot(way) > l*l {
					v = e.far.Add(e.n.Mul(e.x - e.far.Sub(p).Dot(e.n))).Sub(p)
					break
				}
			}
			w = [2]geom.Vec2{v, v}
		}
		at[i] = [2]geom.Vec2{p.Add(w[0]), p.Add(w[1])}
		loop = append(loop, at[i][0])
		if w[0].Sub(w[1]).Len() > fold.Weld {
			loop = append(loop, at[i][1])
		}
		moves = moves || w != [2]geom.Vec2{}
	}
	return loop, at, moves
}

// gaps are a seam's least and largest gap (mm).
type gaps struct{ least, largest float64 }

// gap measures a seam of the report with the cuts moved outward by so much (mm).
func (m *movable) gap(seam int, out []float64) (gaps, bool) {
	x := &m.seams[seam]
	if !x.seen {
		x.seen = true
		if x.runs[0][0] >= 0 && x.runs[1][0] >= 0 {
			g, ok := m.fastGap(x, make([]float64, len(m.cuts)))
			x.fast = ok && math.Abs(g.least-x.min) < onLine && math.Abs(g.largest-x.max) < onLine
		}
	}
	if !x.fast {
		return m.slowGap(seam, out)
	}
	return m.fastGap(x, out)
}

// fastGap measures a seam with its two panels changed.
func (m *movable) fastGap(x *movableSeam, out []float64) (gaps, bool) {
	s := x.rep.Seam
	q := *m.part
	q.Panels = append([]fold.Panel(nil), m.part.Panels...)
	for k, panel := range [2]int{s.A, s.B} {
		loop, at, _ := m.panel(panel, out)
		region := geom.Region{Outer: loop}
		q.Panels[panel].Region = region
		q.Panels[panel].Pieces = solid.Decompose(region)
		e := [2]geom.Vec2{at[x.runs[k][0]][1], at[x.runs[k][1]][0]}
		if k == 0 {
			s.EdgeA = e
		} else {
			s.EdgeB = e
		}
	}
	ps := m.pose
	ps.Part = &q
	least, largest, ok := ps.SeamRange(s)
	return gaps{least, largest}, ok
}

// slowGap builds the part.
func (m *movable) slowGap(seam int, out []float64) (gaps, bool) {
	p := fold.Build(m.moved(out))
	if !p.Foldable {
		return gaps{}, false
	}
	seams, _ := p.MeasureSeams()
	for i := range seams {
		if seams[i].Name == m.seams[seam].rep.Name {
			return gaps{seams[i].Gap.Min, seams[i].Gap.Max}, seams[i].OK
		}
	}
	return gaps{}, false
}
