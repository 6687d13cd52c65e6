package cutting

// This file says which tools reach each edge, best first.

import (
	"math"
	"strings"

	"dryfold/fold"
	"dryfold/fold/shape"
)

// bound is what fold/shape says of an edge that not just any tool makes.
type bound struct {
	cut    *shape.Cut
	bottom bool // of a notch or slot; else a side of a slot
}

// bounds finds, edge by edge, such as are narrow bottoms, sides of slots, round corners, holes.
func (m *maker) bounds() map[int]bound {
	out := map[int]bound{}
	put := func(i int, b bound) {
		if i < 0 {
			return
		}
		if old, told := out[i]; told && (old.cut.Rule != "" || b.cut.Rule == "") {
			return // what can't be made goes first, else what came first
		}
		out[i] = b
	}
	for k := range m.cuts {
		x := &m.cuts[k]
		i := m.edgeOf(x.Contour, x.Edge)
		switch x.Kind {
		case shape.CutRound, shape.CutHole:
			put(i, bound{x, false})
		case shape.CutSlot:
			if x.Across[0] < 0 {
				put(i, bound{x, true})
				continue
			}
			for _, k := range [2]int{i, m.edgeOf(x.Across[0], x.Across[1])} {
				put(m.side(k, x), bound{x, false})
			}
		}
	}
	return out
}

// side is the edge along a slot whose narrowest place lies at edge i: that or, where the place is the corner that it begins in, of
// the two that meet there the one that runs more nearly along the slot.
func (m *maker) side(i int, x *shape.Cut) int {
	if i < 0 {
		return i
	}
	e := &m.plan.Edges[i]
	d := x.At.Sub(e.A)
	if d.Len() > x.Size/2+fold.Weld {
		return i
	}
	if prev := &m.plan.Edges[e.Prev]; math.Abs(prev.Way(e.A).Dot(d)) < math.Abs(e.Way(e.A).Dot(d)) {
		return e.Prev
	}
	return i
}

// windows are the cutouts by their contour.
func (m *maker) windows() map[int]*shape.Cut {
	out := map[int]*shape.Cut{}
	for k := range m.cuts {
		if m.cuts[k].Kind == shape.CutWindow {
			out[m.cuts[k].Contour] = &m.cuts[k]
		}
	}
	return out
}

// reach fills in an edge's tools.
func (m *maker) reach(i int) {
	if m.known == nil {
		m.known, m.window = m.bounds(), m.windows()
	}
	e := &m.plan.Edges[i]
	b, bound := m.known[i]
	switch {
	case m.length[i] > 0:
		e.Tools = append([]Tool{Shears}, m.plain(i)...)
	case bound && b.cut.Tool == "" && b.cut.Rule != "":
		// told as a problem
	case e.Whole || bound && e.Hollow():
		e.Tools = m.named(i, b.cut)
	case e.Contour > 0:
		e.Tools = m.named(i, m.window[e.Contour])
	case e.Hollow():
		e.Tools = m.plain(i)
	case e.Arc:
		e.Tools = m.rounded(i)
	case bound && b.bottom:
		e.Tools = m.named(i, b.cut)
	case bound:
		e.Tools = m.slotSide(i, b.cut)
	default:
		e.Tools = m.plain(i)
	}
	if e.Contour == 0 && !e.Whole && !e.Arc && !(bound && b.bottom) && len(e.Tools) > 0 {
		m.short(i)
	}
}

// short puts a file, or a nibbler where it has room, first at an edge too short for its tool: for snips' tips where it ends in an inside
// corner, for a saw's blade where both its ends do.
func (m *maker) short(i int) {
	e := &m.plan.Edges[i]
	a, b := m.inner(i, 0), m.inner(i, 1)
	least := 0.0
	switch t := e.Tools[0]; {
	case t.Snips() && a && b:
		least = max(snipsTips, m.SnipsAcross)
	case t.Snips() && (a || b):
		least = snipsTips
	case (t == Saw || t == Disc) && a && b:
		least = m.SawStart
	}
	if e.Length >= least-noise {
		return
	}
	e.Tools = []Tool{File}
	if m.Nibbler > 0 && e.Length >= m.Nibbler-noise {
		e.Tools = []Tool{Nibbler, File}
	}
}

// named are the tools that fold/shape names for a cut, and what ends it.
func (m *maker) named(i int, x *shape.Cut) []Tool {
	if x == nil {
		return m.plain(i) // an arc that is a whole outline
	}
	switch {
	case strings.HasPrefix(x.Tool, "drill"):
		if x.Kind == shape.CutSlot { // a bottom between drilled corners
			return []Tool{File}
		}
		return []Tool{Drill, File}
	case x.Tool == "snips":
		return m.hands(i)
	case x.Tool == "saw":
		return []Tool{Saw, File}
	case x.Tool == "nibbler":
		return []Tool{Nibbler, File}
	case x.Tool == "disc":
		return []Tool{Disc, File}
	case x.Tool == "file":
		return []Tool{File}
	}
	return nil
}

// hands are the snips for an edge, the better first: by the side of the waste on the way into an inside corner, by the curve.
func (m *maker) hands(i int) []Tool {
	e := &m.plan.Edges[i]
	a, b := m.inner(i, 0), m.inner(i, 1)
	switch {
	case e.Contour > 0, e.Hollow():
		// Either way round: the hand that turns more tightly. Forward the waste lies on the right.
		if m.SnipsLeft < m.SnipsRight {
			return []Tool{LeftSnips, RightSnips}
		}
		return []Tool{RightSnips, LeftSnips}
	case e.Arc: // forward it curves to the left
		return []Tool{LeftSnips, RightSnips}
	case b && !a:
		return []Tool{RightSnips, StraightSnips}
	case a && !b:
		return []Tool{LeftSnips, StraightSnips}
	case a && b:
		return []Tool{RightSnips, LeftSnips}
	}
	return []Tool{StraightSnips, RightSnips, LeftSnips}
}

// back reports that an edge is cut from its B to its A with the tool.
func (m *maker) back(i int, t Tool) bool {
	e := &m.plan.Edges[i]
	a, b := m.inner(i, 0), m.inner(i, 1)
	switch {
	case e.Whole:
		return t == LeftSnips
	case e.Arc && !e.Hollow(): // the curve's side
		return t == RightSnips
	case a != b && e.Contour == 0:
		return a // into the inside corner
	}
	return t == LeftSnips
}

// plain are the tools for an edge that nothing hems in.
func (m *maker) plain(i int) (out []Tool) {
	e := &m.plan.Edges[i]
	if m.snips {
		out = append(out, m.hands(i)...)
	}
	if m.Nibbler > 0 {
		out = append(out, Nibbler)
	}
	if !m.NoSaw {
		out = append(out, Saw)
	}
	if m.Disc > 0 && !e.Arc && (e.Length >= discLeast || len(out) == 0) {
		out = append(out, Disc)
	}
	return out
}

// rounded are the tools for an outside corner that is round.
func (m *maker) rounded(i int) (out []Tool) {
	e := &m.plan.Edges[i]
	if m.snips && e.Radius >= m.SnipsLeft-noise {
		return m.plain(i)
	}
	if m.snips {
		out = append(out, StraightSnips, File)
	}
	if m.Nibbler > 0 {
		out = append(out, Nibbler)
	}
	if !m.NoSaw {
		out = append(out, Saw)
	}
	if len(out) == 0 && (m.Disc > 0 || e.Radius <= fileRound) {
		out = append(out, File)
	}
	return out
}

// slotSide are the tools for the side of a narrow slot.
func (m *maker) slotSide(i int, x *shape.Cut) []Tool {
	switch {
	case strings.HasPrefix(x.Tool, "drill"): // the ends are drilled, the sides cut between the holes
		switch {
		case !m.NoSaw && x.Size >= m.Kerf-noise:
			return []Tool{Saw, File}
		case m.Nibbler > 0 && x.Size >= m.Nibbler-noise:
			return []Tool{Nibbler, File}
		}
		return []Tool{File}
	case x.Tool == "snips":
		return m.hands(i)
	}
	return m.named(i, x)
}
