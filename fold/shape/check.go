package shape

import (
	"fmt"
	"math"
	"strconv"
	"unicode/utf8"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// This file holds what sizes a pan takes.

// fig writes a length or angle for a message: no more decimals than a maker reads.
func fig(x float64) string {
	return strconv.FormatFloat(math.Round(x*1000)/1000, 'f', -1, 64)
}

// check refuses sizes that are no sizes at all, one by one.
func (s PanSizes) check() error {
	if s.Units != fold.MM && s.Units != fold.Inch {
		return &Error{"units", fmt.Sprint(int(s.Units)), "mm or in"}
	}
	if s.Rim < PlainRim || s.Rim > HemRim {
		return &Error{"rim", fmt.Sprint(int(s.Rim)), "plain, lip or hem"}
	}
	if s.Level != AtTop && s.Level != AtFloor {
		return &Error{"level", fmt.Sprint(int(s.Level)), "top or floor"}
	}
	unit := s.Units.String()
	k := s.Units.Scale()
	least, most := fold.MinSize/k, fold.MaxSize/k
	for _, f := range []struct {
		path string
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
			need := fmt.Sprintf("%s to %s %s", strconv.FormatFloat(f.lo, 'g', 3, 64), strconv.FormatFloat(most, 'g', 6, 64), unit)
			if f.lo > 0 {
				need = fmt.Sprintf("a size over 0, at most %s %s", strconv.FormatFloat(most, 'g', 6, 64), unit)
			}
			return &Error{f.path, strconv.FormatFloat(f.x, 'g', 6, 64), need}
		}
	}
	if !(s.Lean >= 0 && s.Lean <= MaxLean) {
		return &Error{"lean", strconv.FormatFloat(s.Lean, 'g', 6, 64), fmt.Sprintf("0 to %d degrees, outwards from square", MaxLean)}
	}
	if s.K != nil && !(*s.K >= 0 && *s.K <= fold.MaxK) {
		return &Error{"k", strconv.FormatFloat(*s.K, 'g', 6, 64), fmt.Sprintf("a K factor from 0 to %g", fold.MaxK)}
	}
	for _, f := range []struct{ path, text string }{{"name", s.Name}, {"metal", s.Metal}} {
		if n := utf8.RuneCountInString(f.text); n > fold.MaxName {
			return &Error{f.path, fmt.Sprintf("%d characters", n), fmt.Sprintf("at most %d", fold.MaxName)}
		}
	}
	return nil
}

// check refuses sizes that do not go together.
func (p *pan) check() error {
	s := p.sizes
	unit := " " + s.Units.String()
	t := s.Thickness
	least := max(leastFlat*t, leastLine/s.Units.Scale())
	// Bounds in messages are rounded to their safe side.
	per := 10.0
	if s.Units == fold.Inch {
		per = 100
	}
	up := func(x float64) string { return fig(math.Ceil(x*per)/per) + unit }
	down := func(x float64) string { return fig(math.Floor(x*per)/per) + unit }

	// The wall's flat part: from the relief to the top.
	if have := p.top() - p.ba - p.past; have < least {
		// flat grows by 1/cos for one of depth.
		need := s.Depth + (least-have)*math.Cos(float64(p.lean))
		return &Error{"depth", fig(s.Depth) + unit, fmt.Sprintf("at least %s: the bends, with their radius of %s%s and the corner reliefs, leave less than a thickness of flat wall", up(need), fig(s.Radius), unit)}
	}
	if s.Rim != PlainRim {
		need := p.past + least
		if p.rim < need {
			return &Error{"rim_width", fig(s.RimWidth) + unit, "at least " + up(s.RimWidth+need-p.rim) + ": its bend takes the rest"}
		}
	}
	if s.Rim == HemRim {
		if room := p.flat - p.back - p.past; p.rim > room {
			return &Error{"rim_width", fig(s.RimWidth) + unit, "at most " + down(s.RimWidth-p.rim+room) + ", or the hem reaches the floor's bend; or a deeper pan"}
		}
	}
	// The plan's corners.
	if half := math.Atan2(math.Abs(s.WidthBack-s.WidthFront)/2, s.Length) * 180 / math.Pi; half > MaxTaper {
		path, have, other := "width_back", s.WidthBack, s.WidthFront
		if s.WidthFront > s.WidthBack {
			path, have, other = "width_front", s.WidthFront, s.WidthBack
		}
		most := other + 2*s.Length*math.Tan(MaxTaper*math.Pi/180)
		return &Error{path, fig(have) + unit, fmt.Sprintf("at most %s, or a longer pan: each side may run at most %d degrees off straight", down(most), MaxTaper)}
	}
	// The floor between its tangent lines and reliefs, and the walls' and rims' shortest lines.
	name := [4]string{"width_front", "length", "width_back", "length"}
	size := [4]float64{s.WidthFront, s.Length, s.WidthBack, s.Length}
	for _, i := range []int{1, 0, 2} {
		j := (i + 1) % 4
		run := p.side(i)
		far := p.side(j)
		length := p.tangent[j].Sub(p.tangent[i]).Dot(p.direction(i))
		left := max(0, p.inner[j].Sub(p.inner[i]).Dot(p.direction(i)))
		worst := math.Inf(1)
		for k := range run {
			if k < len(far) {
				worst = min(worst, length-run[k][0]-far[k][0])
			}
		}
		// And between the reliefs' inner corners.
		worst = min(worst, p.relief(j).Sub(p.relief(i)).Dot(p.direction(i)))
		if need := 2 * least; !(worst >= need) {
			why := ""
			if s.Level == AtTop && s.Lean > 0 {
				why = fmt.Sprintf(", less lean, or less depth: walls that lean out by %s degrees leave a floor of %s%s there", fig(s.Lean), fig(left), unit)
			} else if p.sizes.Gap > 4*t {
				why = ", or a smaller gap at the corners"
			}
			return &Error{name[i], fig(size[i]) + unit, "at least " + up(size[i]+need-worst) + why}
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
		for axis, x := range v.At {
			if x <= most {
				continue
			}
			path, have := "length", s.Length
			if axis == 0 {
				path, have = "width_back", max(s.WidthFront, s.WidthBack)
				if s.WidthFront > s.WidthBack {
					path = "width_front"
				}
			}
			return &Error{path, fig(have) + " " + s.Units.String(), fmt.Sprintf("less: the blank would be over %s %s", fig(most), s.Units)}
		}
	}
	return nil
}
