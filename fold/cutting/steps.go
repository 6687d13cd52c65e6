package cutting

// This file puts the cuts in order. What lies inside comes before what lies outside, notches before the edges that hold
// their waste, and through cuts by shears before the notches, while the piece is still a full one to lay against the fence.

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// kindOf says in which step an edge is made.
func (m *maker) kindOf(i int, snipped bool) Kind {
	e := &m.plan.Edges[i]
	if len(e.Tools) == 0 {
		return NoTool
	}
	switch t := e.Tools[0]; {
	case t == Drill:
		return Bore0(m, i)
	case e.Contour > 0:
		return Inside
	case t == Shears:
		return Through
	case e.Arc && !e.Hollow() && (t == File || t == StraightSnips):
		return Round
	case m.bay[i] > 0 && !t.Snips() && snipped:
		return Relief
	case m.bay[i] > 0:
		return Notch
	}
	return Outer
}

// Bore0 is the step in which a drilled edge gets its size.
func Bore0(m *maker, i int) Kind {
	for k := range m.plan.Drills {
		if b := &m.plan.Drills[k]; b.Edge == i && b.For == Hole && b.When != Before {
			return Later
		}
	}
	return Bore
}
