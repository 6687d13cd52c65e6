package paper

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// worth is a choice of printed places and what it costs: how far the edges of
// the seams and the finished sizes move, at most, when the blank is cut exactly
// to the printed numbers.
type worth struct {
	marks marks
	known bool    // false: the rounded blank no longer folds, so the cost is not known
	gap   float64 // mm
	size  float64 // mm
}

// chooseRounding prints 0.1 mm or 0.001 in, or more places where the seams'
// gaps would move by more than gapWorth.
func chooseRounding(p *fold.Part, rep *fold.Report, units fold.Units) worth {
	first, last := 1, 3
	if units == fold.Inch {
		first, last = 3, 5
	}
	var w worth
	for places := first; places <= last; places++ {
		w = worth{marks: takeMarks(p, units, places)}
		w.measure(p, rep)
		if w.known && w.gap <= gapWorth {
			break
		}
	}
	return w
}

// rebuilt is the part that the printed numbers make, in the printed units, with
// A and B as axes. Metal, K, angles, order and names are the part's.
func (m *marks) rebuilt(p *fold.Part) fold.Spec {
	s := p.Spec
	s.Units = m.units
	s.Sheet.Thickness = m.fineValue(p.Thickness)
	s.Outline, s.Cutouts, s.Holes, s.Bends, s.Panels, s.Seams = nil, nil, nil, nil, nil, nil
	for i, c := range m.contours {
		var out fold.Contour
		for _, v := range c {
			x := fold.Vertex{At: v.at}
			if v.arc != nil && v.radius > 0 {
				t := v.through
				x.Through = &t
			}
			out = append(out, x)
		}
		if i == 0 {
			s.Outline = out
		} else {
			s.Cutouts = append(s.Cutouts, out)
		}
	}
	for _, h := range m.holes {
		s.Holes = append(s.Holes, fold.Hole{At: h.at, Diameter: h.diameter})
	}
	over := 3 * math.Pow10(-m.places) // drawn a little past the edge, as with a scriber
	for _, b := range m.bends {
		o := p.Spec.Bends[b.index]
		o.Name = p.Bends[b.index].Name
		o.Radius = m.fineValue(p.Bends[b.index].Radius)
		d := b.ends[1].Sub(b.ends[0])
		if n := d.Len(); n > 0 {
			d = d.Mul(over / n)
		}
		o.Line = [2]geom.Vec2{b.ends[0].Sub(d), b.ends[1].Add(d)}
		s.Bends = append(s.Bends, o)
	}
	at := func(v geom.Vec2) geom.Vec2 { return v.Sub(p.Blank.Box.Min).Mul(1 / m.units.Scale()) }
	for _, q := range p.Panels {
		s.Panels = append(s.Panels, fold.PanelName{Name: q.Name, At: at(q.Label)})
	}
	s.Base = p.Panels[p.Base].Name
	return s
}

// measure builds the blank from the printed numbers, folds it and compares.
func (w *worth) measure(p *fold.Part, rep *fold.Report) {
	q := fold.Build(w.marks.rebuilt(p))
	if !q.Foldable || len(q.Panels) != len(p.Panels) {
		return
	}
	panel := map[string]int{}
	for i, x := range q.Panels {
		panel[x.Name] = i
	}
	for _, x := range p.Panels {
		if _, ok := panel[x.Name]; !ok {
			return
		}
	}
	w.known = true
	was, is := p.Pose(p.Finished()), q.Pose(q.Finished())
	// moved is how far a blank point of a panel lies from where it should.
	moved := func(k int, v geom.Vec2, z float64) geom.Vec3 {
		to := is.PanelPoint(panel[p.Panels[k].Name], w.shifted(p, v), z)
		from := was.PanelPoint(k, v, z)
		o := p.Blank.Box.Min
		return to.Sub(from.Sub(geom.Vec3{o[0], o[1], 0}))
	}
	for _, s := range rep.Seams {
		a, b := s.Seam.EdgeA, s.Seam.EdgeB
		// The edges may run against each other on the blank: pair the ends that meet.
		pa, pb := was.PanelPoint(s.Seam.A, a[0], 0), [2]geom.Vec3{was.PanelPoint(s.Seam.B, b[0], 0), was.PanelPoint(s.Seam.B, b[1], 0)}
		if pa.Sub(pb[1]).Len() < pa.Sub(pb[0]).Len() {
			b[0], b[1] = b[1], b[0]
		}
		for i := range a {
			for _, z := range []float64{0, p.Thickness} {
				w.gap = max(w.gap, moved(s.Seam.A, a[i], z).Sub(moved(s.Seam.B, b[i], z)).Len())
			}
		}
	}
	d := is.Box().Size().Sub(was.Box().Size())
	for _, x := range d {
		w.size = max(w.size, math.Abs(x))
	}
}

// shifted is where a point of the blank's edge (mm, file axes) comes to lie when
// the corners lie at their printed places (mm, from A and B): the nearest printed
// edge carries it along.
func (w *worth) shifted(p *fold.Part, v geom.Vec2) geom.Vec2 {
	o := p.Blank.Box.Min
	best, at := math.Inf(1), v.Sub(o)
	k := w.marks.units.Scale()
	for _, c := range w.marks.contours {
		for i, to := range c {
			a, b := c[(i+len(c)-1)%len(c)].at.Mul(k), to.at.Mul(k)
			d, t := geom.SegmentDistance(v.Sub(o), a, b)
			if d < best {
				best = d
				if d < 0.2 {
					at = a.Add(b.Sub(a).Mul(t))
				}
			}
		}
	}
	return at
}

// say puts it in words.
func (w *worth) say(sh *sheet) string {
	unit := "1"
	if w.marks.places > 0 {
		unit = "0." + fmt.Sprintf("%0*d", w.marks.places, 1)
	}
	name := "mm"
	if w.marks.units == fold.Inch {
		name = "in"
	}
	t := fmt.Sprintf("Rounded to %s %s.", unit, name)
	if !w.known {
		return t + " What that does to the gaps could not be found: cut by the part file."
	}
	up := func(mm float64) string { // rounded up, so that the sentence stays true
		k := w.marks.units.Scale()
		s := 100.0
		if w.marks.units == fold.Inch {
			s = 10000
		}
		return trim(max(1, math.Ceil(mm/k*s-1e-6))/s, 4)
	}
	if len(sh.rep.Seams) > 0 {
		return fmt.Sprintf("%s Cut exactly so, no gap moves by more than %s %s and no finished size by more than %s.", t, up(w.gap), name, up(w.size))
	}
	return fmt.Sprintf("%s Cut exactly so, no finished size moves by more than %s %s.", t, up(w.size), name)
}
