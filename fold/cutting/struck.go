package cutting

// This file looks at the lines that were scribed by mistake: nothing is cut there, and they may not lie on what is.

import (
	"fmt"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// StruckLine is a line that nobody is to cut, in mm on the blank.
type StruckLine struct {
	Line [2]geom.Vec2
	Edge int // of Plan.Edges: the edge that it lies on, which is a problem; -1 for none
	Bend int // of Part.Bends: likewise
}

// struck takes over the part's struck lines, and tells of those that lie on a real edge or bend.
func (m *maker) struck() {
	k := m.part.Spec.Units.Scale()
	looks := 0
	for n, l := range m.part.Spec.Struck {
		s := StruckLine{Line: [2]geom.Vec2{l.Line[0].Mul(k), l.Line[1].Mul(k)}, Edge: -1, Bend: -1}
		at := s.Line[0].Add(s.Line[1]).Mul(0.5)
		for i := range m.plan.Edges {
			e := &m.plan.Edges[i]
			if looks++; looks > maxStruckLooks || s.Edge >= 0 {
				break
			}
			if !e.Arc {
				if long := along(s.Line, e.A, e.B); long > 0 {
					s.Edge, at = i, e.Mid
				}
			}
		}
		for i := range m.part.Bends {
			b := &m.part.Bends[i]
			if along(s.Line, b.Line[0], b.Line[1]) > 0 {
				s.Bend = i
				break
			}
		}
		m.plan.Struck = append(m.plan.Struck, s)
		t := fold.Trouble{Rule: "struck-line", At: at}
		switch name := fmt.Sprintf("Struck line %d", n+1); {
		case s.Edge >= 0:
			t.Severity, t.Message = fold.Stop, name+" lies on an edge of the blank, which has to be cut. Take it off the list, or strike out only what goes on beyond the edge."
		case s.Bend >= 0:
			t.Severity, t.Kind, t.Name = fold.Watch, "bend", m.part.Bends[s.Bend].Name
			t.Message = name + " lies on the bend line of " + t.Name + ": it is not cut, but it is bent there. Take it off the list; mark the bend with a felt pen."
		default:
			continue
		}
		m.plan.Problems = append(m.plan.Problems, t)
	}
}

// along is how long a line runs along the straight edge a-b, so near that they can't be told apart; 0 where that is less than
// struckLong, or than half of a shorter edge.
func along(l [2]geom.Vec2, a, b geom.Vec2) float64 {
	d := b.Sub(a)
	n := d.Len()
	if n <= fold.Weld {
		return 0
	}
	u := d.Mul(1 / n)
	// The stretch of the line that lies within the strip about the edge.
	p, q := geom.Cross2(u, l[0].Sub(a)), geom.Cross2(u, l[1].Sub(a))
	s, t := l[0].Sub(a).Dot(u), l[1].Sub(a).Dot(u)
	t0, t1 := clip(p, q, -struckNear, struckNear, 0, 1)
	t0, t1 = clip(s, t, 0, n, t0, t1)
	long := (t1 - t0) * abs(t-s)
	if t1 <= t0 || long < min(struckLong, n/2) {
		return 0
	}
	return long
}

// clip narrows a stretch t0..t1 of a line that runs from p to q to where it lies between lo and hi.
func clip(p, q, lo, hi, t0, t1 float64) (float64, float64) {
	d := q - p
	if d == 0 {
		if p < lo || p > hi {
			return 1, 0
		}
		return t0, t1
	}
	a, b := (lo-p)/d, (hi-p)/d
	if a > b {
		a, b = b, a
	}
	return max(t0, a), min(t1, b)
}

func abs(x float64) float64 { return max(x, -x) }
