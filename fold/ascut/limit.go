package ascut

// This file finds how far an edge of the blank may be out before a seam reaches its limit.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// limit is how far a cut may be out one way (mm, positive), and who says so.
type limit struct {
	mm     float64
	kind   string
	from   string // in short
	source string // of the figure in it, "" where from says all
	set    bool
}

func (l *limit) tighten(mm float64, kind, from, source string) {
	if !l.set || mm < l.mm {
		*l = limit{mm, kind, from, source, true}
	}
}

// effect is what a mm of a cut does to a seam.
type effect struct {
	seam    int
	missing float64 // how much wider its widest gap gets where a mm of metal is missing
	extra   float64 // how much closer its least gap gets where there is a mm too much
}

// play is how far a cut may be out, outward and inward, and what it does.
type play struct {
	out, in limit
	does    []effect
}

// widest is the gap at which a seam is too wide, and whose figure that is; ok is false where none is.
func (m *movable) widest(s *fold.SeamReport) (mm float64, kind, from string, ok bool) {
	switch {
	case s.Open:
		return 0, "", "", false
	case s.Limit != nil:
		return *s.Limit, s.LimitKind, s.LimitFrom, true
	}
	return noFigure * m.part.Thickness, "common practice", "half the thickness, for nobody says how wide is too wide", true
}

// play finds how far a cut may be out.
func (m *movable) play(c int) play {
	var l play
	out := make([]float64, len(m.cuts))
	gap := func(seam int, x float64) (gaps, bool) {
		out[c] = x
		g, ok := m.gap(seam, out)
		out[c] = 0
		return g, ok
	}
	for i := range m.seams {
		x := &m.seams[i]
		if x.cuts[0] != c && x.cuts[1] != c {
			continue
		}
		e := effect{seam: i}
		near, ok := gap(i, tryMove)
		if !ok {
			continue
		}
		e.extra = (x.min - near.least) / tryMove
		if x.min >= -fold.ClashDepth {
			closes := func(x float64) (float64, bool) { g, ok := gap(i, x); return g.least, ok }
			if mm, ok := reaches(closes, x.min, near.least, e.extra); ok {
				l.out.tighten(mm, "the seam", x.rep.Name+" touches", "")
			}
		}
		// Outward it closes about as fast as it opens inward.
		most, kind, from, limited := m.widest(x.rep)
		guess := (x.max - near.largest) / tryMove
		at := tryMove
		if limited = limited && x.max <= most; limited && guess > dead {
			at = max(tryMove, min(seamLook, (most-x.max)/guess*1.001))
		}
		if g, ok := gap(i, -at); ok {
			e.missing = (g.largest - x.max) / at
			if limited {
				opens := func(x float64) (float64, bool) { g, ok := gap(i, -x); return most - g.largest, ok }
				if mm, ok := reachesFrom(opens, most-x.max, at, most-g.largest, e.missing); ok {
					l.in.tighten(mm, kind, fmt.Sprintf("%s opens to %.2f mm", x.rep.Name, most), from)
				}
			}
		}
		if math.Abs(e.extra) > dead || math.Abs(e.missing) > dead {
			l.does = append(l.does, e)
		}
	}
	m.passes(c, &l)
	return l
}

// reaches is how far x must go from 0 until f falls to 0; at is f(0), near is f(tryMove), slope how fast it falls. ok is false where it does not within seamLook. What
// is given is not past it.
func reaches(f func(float64) (float64, bool), at, near, slope float64) (mm float64, ok bool) {
	return reachesFrom(f, at, tryMove, near, slope)
}

// reachesFrom is reaches with fx known at another x.
func reachesFrom(f func(float64) (float64, bool), at, x, fx, slope float64) (mm float64, ok bool) {
	if at <= 0 {
		return 0, true
	}
	lo, flo := 0.0, at
	hi, fhi := x, fx
	for fhi > 0 {
		if hi >= seamLook {
			return 0, false
		}
		if fhi <= solved {
			return hi, true
		}
		lo, flo = hi, fhi
		hi = seamLook
		if slope > dead {
			hi = max(min(seamLook, (lo+flo/slope)*1.0005), lo+solved)
			slope /= 2 // the next step, if there must be one, is longer
		}
		v, fine := f(hi)
		if !fine {
			return 0, false
		}
		fhi = v
	}
	side := 0
	for range maxLooks {
		if y := lo + (hi-lo)*flo/(flo-fhi); fhi > -nearlySolved && hi-lo < 2*tryMove || fhi > -nearlySolved/10 { // as good as straight so near
			return max(lo, min(y, hi)-solved), true
		}
		if hi-lo < solved || flo <= solved {
			break
		}
		x := lo + (hi-lo)*flo/(flo-fhi)
		x = max(lo+solved/2, min(hi-solved/2, x-solved/2))
		v, fine := f(x)
		if !fine {
			break
		}
		if v > 0 {
			lo, flo = x, v
			if side == 1 {
				fhi /= 2
			}
			side = 1
		} else {
			hi, fhi = x, v
			if side == -1 {
				flo /= 2
			}
			side = -1
		}
	}
	return lo, true
}

// passes keeps an edge from what its panel passes in a swing: it may grow by no more than the room that is surely left there.
func (m *movable) passes(c int, l *play) {
	for _, x := range m.rep.Passes {
		if !x.Sure {
			continue
		}
		for k, body := range [2]fold.Body{x.A, x.B} {
			if body.Zone || body.Index < 0 || body.Index >= len(m.part.Panels) {
				continue
			}
			ps := m.part.Pose(m.part.StateAt(x.Swing, x.Fraction))
			q := ps.Panels[body.Index].LocalPoint(x.At[k])
			if !m.has(body.Index, c) || !m.onCut(c, geom.Vec2{q[0], q[1]}, roomNear) {
				continue
			}
			other := [2]fold.Body{x.B, x.A}[k]
			l.out.tighten(max(0, x.Room), "the swing", fmt.Sprintf("it passes %s in swing %d with %.1f mm of room", m.part.BodyName(other), m.part.Swings[x.Swing].Number, x.Room), "")
		}
	}
}

// has reports whether a panel has some of a cut.
func (m *movable) has(panel, c int) bool {
	for i := range m.bare[panel] {
		if m.cutOf(panel, i) == c {
			return true
		}
	}
	return false
}
