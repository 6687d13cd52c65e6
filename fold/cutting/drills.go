package cutting

// This file makes the drill list.

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/shape"
)

// drills lists what is drilled: holes first in the file's order, then starts, corners, and stop holes that have room.
func (m *maker) drills() {
	near := map[string]*fold.Trouble{}
	for i := range m.part.Troubles {
		if t := &m.part.Troubles[i]; t.Rule == "hole-near-bend" {
			near[t.Name] = t
		}
	}
	var list, stops []Bore
	for k := range m.cuts {
		x := &m.cuts[k]
		if x.Drill == 0 || len(x.DrillAt) == 0 && !x.Row {
			continue
		}
		b := Bore{Diameter: x.Drill, Hole: x.Hole, Edge: m.edgeOf(x.Contour, x.Edge), Row: x.Row && len(x.DrillAt) == 0}
		drilled := strings.HasPrefix(x.Tool, "drill")
		optional := false
		switch x.Kind {
		case shape.CutHole:
			b.For, b.Why = Hole, "the hole itself"
			if !drilled {
				b.For, b.Why = Start, "to begin it: it is larger than your drills"
				if b.Row {
					b.Why = "holes side by side inside its line, to begin it: it is larger than your drills"
				}
			}
		case shape.CutRound:
			b.For, b.Why = Corner, "the round inside corner: cuts end in it"
			if b.Row {
				b.Why = "a row along the round inside corner, filed out to its line"
			}
		case shape.CutNotch:
			b.For, b.Why = Point, "through the notch's point, which no snips open: it takes "+mm(x.Drill/2)+" of metal past it"
		case shape.CutCorner, shape.CutSlot:
			b.For, b.Why = Stop, "sharp inside corner: in the waste, set out so that it touches both lines; cuts end in it, and a file does the rest"
			optional = true // not where it would run into another
		case shape.CutWindow:
			b.For, b.Why = Start, "to begin the cutout"
			if b.Row {
				b.Why = "holes side by side inside its line, to begin the cutout"
			}
		default:
			continue
		}
		at := x.DrillAt
		if b.Row {
			at = []geom.Vec2{x.At}
		}
		for _, p := range at {
			b := b
			b.At = p
			m.beside(&b, near[b.Hole])
			if optional {
				stops = append(stops, b)
			} else {
				list = append(list, b)
			}
		}
	}
	geom.SortStable(list, func(a, b Bore) int { return int(a.For - b.For) })
	geom.SortStable(stops, func(a, b Bore) int { // the larger holes, at the longer edges, first
		return cmp.Or(cmp.Compare(b.Diameter, a.Diameter), cmp.Compare(m.longAt(b), m.longAt(a)))
	})
	m.plan.Drills = apart(list, stops)
	m.later = map[int]bool{}
	for i := range m.plan.Drills {
		b := &m.plan.Drills[i]
		if b.For == Hole && b.When != Before {
			m.later[b.Edge] = true
		}
		b.Size = shape.DrillSize(b.Diameter, m.inch)
		if b.Pilot > 0 {
			b.PilotAs = shape.DrillSize(b.Pilot, m.inch)
		}
	}
}

// longAt is the length of the edge that a hole belongs to, in 0.01 mm, so that mirrored parts are alike.
func (m *maker) longAt(b Bore) float64 {
	if b.Edge < 0 {
		return 0
	}
	return math.Round(m.plan.Edges[b.Edge].Length * 100)
}

// beside says when a hole is drilled, and what goes before it. t is what is known of it beside a bend, nil for nothing.
func (m *maker) beside(b *Bore, t *fold.Trouble) {
	pilot := m.pilot(b.Diameter)
	if b.Diameter > pilotFrom && !b.Row {
		b.Pilot = pilot
	}
	if t == nil || b.For != Hole || t.Have == nil || t.Need == nil {
		return
	}
	if t.Severity == fold.Note {
		b.Why += fmt.Sprintf("; %s from a bend's tangent line, and lists disagree whether it stays round: opened after bending it surely does", mm(*t.Have))
		return
	}
	b.Why += fmt.Sprintf("; %s from a bend's tangent line, where lists ask for %s at least (common practice): drilled to size now, the bend would draw it out of shape", mm(*t.Have), mm(*t.Need))
	b.When = After
	if pilot > 0 && *t.Have+(b.Diameter-pilot)/2 >= *t.Need {
		b.When, b.Pilot = Opened, pilot
	}
}

// pilot is the owned drill that goes before one of the diameter; 0 where none is small enough.
func (m *maker) pilot(d float64) float64 {
	best := 0.0
	for _, x := range m.Drills {
		if x <= d*0.6 && (best == 0 || math.Abs(x-pilotSize) < math.Abs(best-pilotSize)) {
			best = x
		}
	}
	return best
}

// apart is the list and those stop holes that run into no other hole.
func apart(list, stops []Bore) []Bore {
	most := 1.0
	for _, l := range [2][]Bore{list, stops} {
		for i := range l {
			most = max(most, l[i].Diameter)
		}
	}
	cell := func(p geom.Vec2) [2]int { return [2]int{int(math.Floor(p[0] / most)), int(math.Floor(p[1] / most))} }
	grid := map[[2]int][]int{}
	out := slices.Clone(list)
	for i := range out {
		c := cell(out[i].At)
		grid[c] = append(grid[c], i)
	}
	for _, b := range stops {
		c := cell(b.At)
		free := true
		for dx := -1; dx <= 1; dx++ {
			for dy := -1; dy <= 1; dy++ {
				for _, i := range grid[[2]int{c[0] + dx, c[1] + dy}] {
					free = free && out[i].At.Sub(b.At).Len() > (out[i].Diameter+b.Diameter)/2
				}
			}
		}
		if free {
			grid[c] = append(grid[c], len(out))
			out = append(out, b)
		}
	}
	return out
}

// mm is a length in words.
func mm(x float64) string {
	return strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64) + " mm"
}
