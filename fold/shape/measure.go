package shape

// This file measures the corners of the folded part and corrects them.

import (
	"fmt"
	"math"
	"slices"

	"dryfold/fold"
	"dryfold/fold/geom"
	"dryfold/fold/sizes"
)

// nearly has a first look at the gaps and corrects the corners by it, those that were as wanted left out; it reports whether all
// are as wanted, so that it is worth measuring them in full. Most rounds need no more.
func (b *builder) nearly(part *fold.Part) bool {
	open := map[string]*corner{}
	for _, c := range b.corners {
		if c.seamed && !c.near {
			open[c.name()] = c
		}
	}
	done := true
	for _, s := range part.LeastGaps(func(name string) bool { return open[name] != nil }) {
		c := open[s.Name]
		switch {
		case !s.OK:
		case c.passes(b, s.Gap.Step):
			c.close, done = sizes.Apart, false
		default:
			c.near = c.correct(s.Gap.Min)
			done = done && c.near
		}
	}
	return done
}

// passes reports whether two rims pass each other with a step, where nothing is said of how they meet: they are drawn once more
// without a mitre.
func (c *corner) passes(b *builder, step float64) bool {
	return c.rim && (c.at < 0 || b.form.Corners[c.at].Close == sizes.Usual) && step > rimsMeet*b.t
}

// measure reads each corner's gap off the folded part; it reports whether all are as wanted, else how much each is
// to be cut differently.
func (b *builder) measure(part *fold.Part, made *Made) bool {
	seams, _ := part.MeasureSeams()
	byName := map[string]fold.MeasuredSeam{}
	for _, s := range seams {
		byName[s.Name] = s
	}
	done := true
	made.Corners = nil
	for _, c := range b.corners {
		m := MadeCorner{Name: c.name(), A: c.a.name, B: c.b.name, Close: c.close, At: c.at, Gap: c.gap, Relief: c.rel.Kind, Need: c.need, Size: c.size}
		if s, ok := byName[c.name()]; c.seamed && ok && s.OK {
			g := s.Gap
			m.Least, m.Most, m.Step, m.Measured = g.Min, g.Max, g.Step, true
			if c.passes(b, g.Step) {
				c.close, done = sizes.Apart, false
			} else {
				done = c.correct(g.Min) && done
			}
		} else if c.seamed {
			c.strange, done = true, false // drawn once more, without it
		}
		made.Corners = append(made.Corners, m)
	}
	b.fine = b.fine || !done
	return done
}

// correct takes the least gap that was measured; it reports whether it is the wanted one, or nothing more can be done.
func (c *corner) correct(least float64) bool {
	off := c.gap - least
	if math.Abs(off) < gapNear || c.tried > maxRounds {
		return true
	}
	x := c.extra
	slope := 1.0 // of the least gap over extra
	if c.tried > 0 && math.Abs(x-c.lastX) > sameExtra {
		if s := (least - c.lastG) / (x - c.lastX); s > leastSlope && s < 1/leastSlope {
			slope = s
		}
	}
	c.lastX, c.lastG = x, least
	c.tried++
	c.extra += off / slope
	return false
}

// takeBack undoes the largest of the last corrections, after which the part could not be made, for good; false where there is
// none left. Of two walls over a bend that come to lie in it is told instead what would let them close. failed is what was
// built, nil where it was not drawn.
func (b *builder) takeBack(failed *fold.Part) bool {
	crossed := false
	if failed != nil {
		i := slices.IndexFunc(failed.Troubles, func(t fold.Trouble) bool { return t.Severity == fold.Stop })
		crossed = i >= 0 && failed.Troubles[i].Rule == "blank-overlap"
	}
	var most *corner
	for _, c := range b.corners {
		if c.over != nil && !c.rim && !crossed {
			continue
		}
		if d := math.Abs(c.extra - c.lastX); c.tried > 0 && c.tried <= maxRounds && d > 0 && (most == nil || d > math.Abs(most.extra-most.lastX)) {
			most = c
		}
	}
	if most == nil {
		return false
	}
	most.extra, most.tried = most.lastX, maxRounds+1
	return true
}

// cornerNotes says what no cut can close.
func (b *builder) cornerNotes(list []MadeCorner) (out []fold.Trouble) {
	for i, m := range list {
		c := b.corners[i]
		note := func(sev fold.Severity, rule string, have, need float64, text string) {
			out = append(out, fold.Trouble{Severity: sev, Rule: rule, Kind: "seam", Name: m.Name, Have: &have, Need: &need, Message: text, At: b.spotOf(c)})
		}
		if !m.Measured {
			if c.strange && c.close != sizes.Apart {
				out = append(out, fold.Trouble{Severity: fold.Watch, Rule: "corner-opens", Kind: "seam", Name: m.Name, At: b.spotOf(c),
					Message: c.sentence() + " does not close: once folded, its two edges do not lie side by side, and no gap can be measured there. A patch would close it, or another angle of one of them."})
			}
			continue
		}
		if off := m.Least - m.Gap; math.Abs(off) > fold.GapSolve {
			note(fold.Watch, "corner-opens", m.Least, m.Gap, fmt.Sprintf("%s comes to %s at its narrowest, not %s: its two edges do not face each other, and no cut along them would close it better.", c.sentence(), b.say(m.Least), b.say(m.Gap)))
			continue
		}
		if c.away {
			note(fold.Watch, "corner-opens", m.Most, m.Gap, fmt.Sprintf("%s opens to %.1f mm at the top: the bend of %s goes away from these walls, and no cut can close that. A patch, or a weave of two separate walls, would.", c.sentence(), m.Most, c.over.name))
		}
		if m.Step > b.t/2 {
			note(fold.Watch, "corner-step", m.Step, b.t/2, fmt.Sprintf("At %s the two faces stand %.1f mm apart, and a mitre can’t change that: the sides of %s are not square to its bend. “In one plane” makes them flush, with the second wall’s bend line a little askew.", m.Name, m.Step, c.floorName()))
		}
	}
	return out
}

func (c *corner) sentence() string { return "The corner of " + c.a.name + " and " + c.b.name }

func (c *corner) floorName() string {
	if c.over != nil {
		return c.over.name
	}
	return c.a.parent.name
}

// spotOf is the corner's place on the blank that was made.
func (b *builder) spotOf(c *corner) geom.Vec2 { return b.onSheet(c.b.point(c.b.zone[0], 0)) }
