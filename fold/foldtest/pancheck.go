package foldtest

// This file holds what sizes a pan takes. The errors name the size and say why it can't be, in short.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// check refuses sizes that are no sizes at all, one by one.
func (s PanSizes) check() error {
	switch {
	case s.Units != fold.MM && s.Units != fold.Inch:
		return fmt.Errorf("units %d: neither mm nor in", s.Units)
	case s.Rim < PlainRim || s.Rim > HemRim:
		return fmt.Errorf("rim %d: not plain, lip or hem", s.Rim)
	case s.Level != AtTop && s.Level != AtFloor:
		return fmt.Errorf("level %d: neither top nor floor", s.Level)
	}
	k := s.Units.Scale()
	least, most := fold.MinSize/k, fold.MaxSize/k
	for _, f := range []struct {
		name string
		x    float64
		lo   float64
		ask  bool
	}{
		{"length", s.Length, least, true},
		{"width_front", s.WidthFront, least, true},
		{"width_back", s.WidthBack, least, true},
		{"depth", s.Depth, least, true},
		{"thickness", s.Thickness, least, true},
		{"radius", s.Radius, 0, true},
		{"gap", s.Gap, 0, true},
		{"rim_width", s.RimWidth, least, s.Rim != PlainRim},
		{"rim_radius", s.RimRadius, 0, s.Rim == HemRim},
	} {
		if f.ask && !(f.x >= f.lo && f.x <= most) {
			return fmt.Errorf("%s %g: not from %g to %g", f.name, f.x, f.lo, most)
		}
	}
	if !(s.Lean >= 0 && s.Lean <= maxPanLean) {
		return fmt.Errorf("lean %g: not from 0 to %d degrees", s.Lean, maxPanLean)
	}
	if s.K != nil && !(*s.K >= 0 && *s.K <= fold.MaxK) {
		return fmt.Errorf("k %g: not from 0 to %g", *s.K, fold.MaxK)
	}
	return nil
}

// check refuses sizes that do not go together.
func (p *pan) check() error {
	s := p.sizes
	t := s.Thickness
	least := max(panFlat*t, panLine/s.Units.Scale())
	if p.top()-p.ba-p.past < least { // the wall's flat part: from the relief to the top
		return fmt.Errorf("depth %g: the bends leave less than a thickness of flat wall", s.Depth)
	}
	if s.Rim != PlainRim && p.rim < p.past+least {
		return fmt.Errorf("rim_width %g: its bend takes all of it", s.RimWidth)
	}
	if s.Rim == HemRim && p.rim > p.flat-p.back-p.past {
		return fmt.Errorf("rim_width %g: the hem reaches the floor's bend", s.RimWidth)
	}
	if math.Atan2(math.Abs(s.WidthBack-s.WidthFront)/2, s.Length)*180/math.Pi > maxPanTaper {
		return fmt.Errorf("width_back %g: sides over %d degrees off straight", s.WidthBack, maxPanTaper)
	}
	// The floor between its tangent lines and reliefs, and the walls' and rims' shortest lines.
	name := [4]string{"width_front", "length", "width_back", "length"}
	for _, i := range []int{1, 0, 2} {
		j := (i + 1) % 4
		run, far := p.side(i), p.side(j)
		length := p.tangent[j].Sub(p.tangent[i]).Dot(p.direction(i))
		worst := math.Inf(1)
		for k := range min(len(run), len(far)) {
			worst = min(worst, length-run[k][0]-far[k][0])
		}
		// And between the reliefs' inner corners.
		worst = min(worst, p.relief(j).Sub(p.relief(i)).Dot(p.direction(i)))
		if !(worst >= 2*least) {
			return fmt.Errorf("%s leaves %g between the ends of a line", name[i], worst)
		}
	}
	return nil
}

// direction is the way wall i runs, whatever is left of it.
func (p *pan) direction(i int) geom.Vec2 {
	s := p.sizes
	side := geom.Vec2{(s.WidthBack - s.WidthFront) / 2, s.Length}.Normalize()
	return [4]geom.Vec2{{1, 0}, side, {-1, 0}, {side[0], -side[1]}}[i]
}

// relief is the inner corner of the relief at corner i, on the floor.
func (p *pan) relief(i int) geom.Vec2 {
	return p.wall(i).at(p.end[i], -p.end[i]*p.floorPast(i))
}

// floorPast is how far the relief reaches into the floor at corner i, for one
// along the walls.
func (p *pan) floorPast(i int) float64 { return math.Tan(float64(p.plan[i]) / 2) }

// checkBlank refuses a blank larger than a part may be.
func (s PanSizes) checkBlank(spec fold.Spec) error {
	most := fold.MaxSize / s.Units.Scale()
	for _, v := range spec.Outline {
		if v.At[0] > most || v.At[1] > most {
			return fmt.Errorf("length %g by width %g: the blank would be over %g", s.Length, max(s.WidthFront, s.WidthBack), most)
		}
	}
	return nil
}
