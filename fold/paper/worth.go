package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// This file finds out what the rounding of the printed figures does: the part is built once more from them alone, with its
// bends where their marks lie, and measured.

// worth is a rule and what it costs when the blank is cut exactly to the printed figures and bent at the printed marks.
type worth struct {
	marks marks
	asked ruler // the rule that was asked for; that of marks is finer where the blank rounded to it can't be folded
	known bool  // false: no rule tried gave a blank that folds
	size  float64
	seams []seamWorth // one for each of the report's

	// What has to be marked with a calliper, and what that leaves of the seams that the rule spoils: nil where it spoils none.
	fine  *marks
	care  care
	after []seamWorth
}

// seamWorth is what the rounding does to a seam's gap: least and widest, mm.
type seamWorth struct {
	was, is [2]float64
	known   bool
	bad     string // in what way the rounding spoils it: "wide", "foul"; "" if it doesn't
}

// moved is how far the gap moves at most.
func (s seamWorth) moved() float64 {
	if s.was[0] < 0 { // where edges lie in each other the largest gap jumps as one slides past the other's end
		return math.Abs(s.is[0] - s.was[0])
	}
	return max(math.Abs(s.is[0]-s.was[0]), math.Abs(s.is[1]-s.was[1]))
}

// care is what has to be marked more finely than the rest.
type care struct {
	corners, bends []bool // by number, from 0; by Part.Bends
}

// weigh takes the marks by a rule, or by a finer one where the part rounded to it can't be folded, and measures what the
// rounding does. Where it spoils seams it looks for what to mark with a calliper so that it doesn't.
func weigh(p *fold.Part, rep *fold.Report, asked ruler) worth {
	w := worth{asked: asked}
	rules := []ruler{asked}
	for n := range 3 {
		if c := calliper(asked.units, n); c.step < rules[len(rules)-1].step*0.999 {
			rules = append(rules, c)
		}
	}
	for _, r := range rules {
		w.marks = takeMarks(p, r)
		if w.seams, w.size, w.known = measure(p, rep, &w.marks); w.known {
			break
		}
	}
	bad := w.spoilt(w.seams)
	if len(bad) == 0 || !w.marks.rule.coarse() {
		return w
	}
	fine := takeMarks(p, calliper(asked.units, 0))
	w.fine = &fine
	w.care = w.around(p, rep, bad)
	mixed := w.mixed()
	var known bool
	if w.after, _, known = measure(p, rep, &mixed); !known || len(w.spoilt(w.after)) > 0 { // then all of it
		for i := range w.care.corners {
			w.care.corners[i] = true
		}
		for i := range w.care.bends {
			w.care.bends[i] = true
		}
		w.after, _, _ = measure(p, rep, &fine)
	}
	return w
}

// spoilt lists the seams that the rounding spoils.
func (w *worth) spoilt(seams []seamWorth) (bad []int) {
	for i, s := range seams {
		if s.bad != "" {
			bad = append(bad, i)
		}
	}
	return bad
}

// around is what the gaps of seams hang on: the corners of their edges, and the bends between their panels.
func (w *worth) around(p *fold.Part, rep *fold.Report, seams []int) care {
	n := 0
	for _, c := range w.marks.contours {
		n += len(c)
	}
	out := care{make([]bool, n), make([]bool, len(p.Bends))}
	for _, i := range seams {
		s := rep.Seams[i].Seam
		for _, e := range [][2]geom.Vec2{s.EdgeA, s.EdgeB} {
			if a, b, ok := w.marks.edge(e, p.Blank.Box.Min); ok {
				out.corners[a-1], out.corners[b-1] = true, true
			}
		}
		// The bends that lead to the one panel or to the other, not to both.
		between := make([]bool, len(p.Bends))
		for _, k := range []int{s.A, s.B} {
			for steps := 0; p.Panels[k].Parent >= 0 && steps <= len(p.Panels); steps++ {
				b := p.Panels[k].Parent
				between[b] = !between[b]
				k = p.Bends[b].A + p.Bends[b].B - k
			}
		}
		for b, on := range between {
			for j := range p.Bends { // one line is drawn through those that lie on one
				out.bends[j] = out.bends[j] || on && oneLine(&p.Bends[b], &p.Bends[j])
			}
		}
	}
	return out
}

// mixed are the rule's marks with those that need it by calliper.
func (w *worth) mixed() marks {
	m := w.marks
	m.contours, m.bends = nil, slices.Clone(w.marks.bends)
	for i, c := range w.marks.contours {
		out := slices.Clone(c)
		for k := range out {
			if w.care.corners[out[k].no-1] {
				out[k].at = w.fine.contours[i][k].at
			}
		}
		m.contours = append(m.contours, out)
	}
	for i := range m.bends {
		if w.care.bends[m.bends[i].index] {
			m.bends[i] = w.fine.bends[i]
		}
	}
	return m
}

// oneLine reports whether two bends are one line to whoever marks them: they have the same form, and their lines are one.
func oneLine(a, b *fold.Bend) bool {
	if a == b {
		return true
	}
	if a.Up != b.Up || math.Abs(float64(a.Angle-b.Angle)) > 1e-6 || math.Abs(a.Radius-b.Radius) > 1e-6 || math.Abs(a.Allowance-b.Allowance) > squareEnough || a.N.Dot(b.N) < 0.999 {
		return false
	}
	for _, q := range b.Line {
		if _, s := a.Coord(q); math.Abs(s-a.Allowance/2) > squareEnough {
			return false
		}
	}
	return true
}

// rebuilt is the part that the printed numbers make, in the printed units, with
// A and B as axes; its bends are where their marks lie. Metal, K, angles, order and names are the part's.
func (m *marks) rebuilt(p *fold.Part) fold.Spec {
	s := p.Spec
	s.Units = m.units
	s.Sheet.Thickness = m.fineValue(p.Thickness)
	s.Outline, s.Cutouts, s.Holes, s.Bends, s.Panels, s.Seams, s.Joins = nil, nil, nil, nil, nil, nil, nil
	s.Sizes, s.AsCut, s.Struck = nil, nil, nil
	for i, c := range m.contours {
		var out fold.Contour
		for k, v := range c {
			x := fold.Vertex{At: v.at}
			if v.arc != nil && v.radius > 0 {
				t := v.drawn(c[(k+len(c)-1)%len(c)].at, v.at)
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
	over := max(2*m.rule.step, squareEnough/m.units.Scale()) // drawn a little past the edge, as with a scriber
	for i, b := range m.bends {
		was := &p.Bends[b.index]
		o := p.Spec.Bends[b.index]
		o.Name = was.Name
		o.Radius = m.fineValue(was.Radius)
		// One line is drawn through all that lie on it, from the first end to the last.
		from, to := b.lines[sightLine].ends[0], b.lines[sightLine].ends[1]
		long := to.Sub(from).Len()
		for j, c := range m.bends {
			if j == i || !oneLine(was, &p.Bends[c.index]) {
				continue
			}
			for _, e := range c.lines[sightLine].ends {
				if d := e.Sub(to).Len(); d > long && d >= e.Sub(from).Len() {
					from, long = e, d
				} else if d := e.Sub(from).Len(); d > long {
					to, long = e, d
				}
			}
		}
		if long == 0 {
			o.Line = b.lines[bendLine].ends
			s.Bends = append(s.Bends, o)
			continue
		}
		d := to.Sub(from).Mul(1 / long)
		n := geom.Vec2{-d[1], d[0]}
		if n.Dot(was.N) < 0 {
			n = n.Mul(-1)
		}
		off := n.Mul((was.Allowance/2 - was.Radius) / m.units.Scale())
		for k := range o.Line {
			e := b.lines[sightLine].ends[k]
			t := e.Sub(from).Dot(d) + over*float64(2*k-1)
			o.Line[k] = from.Add(d.Mul(t)).Add(off)
		}
		s.Bends = append(s.Bends, o)
	}
	at := func(v geom.Vec2) geom.Vec2 { return v.Sub(p.Blank.Box.Min).Mul(1 / m.units.Scale()) }
	for _, q := range p.Panels {
		s.Panels = append(s.Panels, fold.PanelName{Name: q.Name, At: at(q.Label)})
	}
	s.Base = p.Panels[p.Base].Name
	return s
}

// measure builds the blank from printed figures, folds it and compares. It is not known where that blank has a stop
// trouble that the part has not.
func measure(p *fold.Part, rep *fold.Report, m *marks) (seams []seamWorth, size float64, known bool) {
	spec := m.rebuilt(p)
	seamName := func(i int) string { return fmt.Sprint("seam ", i) }
	for i, s := range rep.Seams {
		mid := func(e [2]geom.Vec2) geom.Vec2 {
			return m.shifted(p, e[0].Add(e[1]).Mul(0.5)).Mul(1 / m.units.Scale())
		}
		spec.Seams = append(spec.Seams, fold.SeamSpec{Name: seamName(i), A: mid(s.Seam.EdgeA), B: mid(s.Seam.EdgeB), Open: true})
	}
	q := fold.Build(spec)
	if !q.Foldable || len(q.Panels) != len(p.Panels) || stopsOf(q) > stopsOf(p) {
		return nil, 0, false
	}
	panel := map[string]int{}
	for i, x := range q.Panels {
		panel[x.Name] = i
	}
	for _, x := range p.Panels {
		if _, ok := panel[x.Name]; !ok {
			return nil, 0, false
		}
	}
	gaps, _ := q.MeasureSeams()
	found := map[string]fold.SeamGap{}
	for _, s := range gaps {
		if s.OK {
			found[s.Name] = s.Gap
		}
	}
	for i, s := range rep.Seams {
		x := seamWorth{was: [2]float64{s.GapMin, s.GapMax}}
		if is, ok := found[seamName(i)]; ok {
			x.is, x.known = [2]float64{is.Min, is.Max}, true
			switch {
			case s.Open || s.Way == "open":
			case s.Limit != nil && x.is[1] > *s.Limit+overLimit && x.was[1] <= *s.Limit+overLimit:
				x.bad = "wide"
			}
			if x.is[0] < -overLimit && x.was[0] >= -overLimit {
				x.bad = "foul"
			}
		}
		seams = append(seams, x)
	}
	was, is := rep.Finished.Box(), q.Sizes().Finished.Box()
	for i := range was {
		size = max(size, math.Abs(was[i]-is[i]))
	}
	return seams, size, true
}

// overLimit is how far past its limit a gap is said to be past it (mm): less than a feeler tells.
const overLimit = 0.005

func stopsOf(p *fold.Part) int {
	n := 0
	for _, t := range p.Troubles {
		if t.Severity == fold.Stop {
			n++
		}
	}
	return n
}

// shifted is where a point of the blank's edge (mm, file axes) comes to lie when the corners lie at their printed places
// (mm, from A and B): its edge carries it along.
func (m *marks) shifted(p *fold.Part, v geom.Vec2) geom.Vec2 {
	v = v.Sub(p.Blank.Box.Min)
	best, to := math.Inf(1), v
	k := m.units.Scale()
	for _, c := range m.contours {
		for i, e := range c {
			before := c[(i+len(c)-1)%len(c)]
			d, t := geom.SegmentDistance(v, before.exact.Mul(k), e.exact.Mul(k))
			if d < best {
				best = d
				if d < edgeNear {
					a, b := before.at.Mul(k), e.at.Mul(k)
					to = a.Add(b.Sub(a).Mul(t))
				}
			}
		}
	}
	return to
}

// edgeNear is how far a point lies at most from the edge that carries it along (mm).
const edgeNear = 0.2

// edge is the outline's edge that holds a stretch (mm, file axes), by the numbers of the corners at its ends.
func (m *marks) edge(e [2]geom.Vec2, origin geom.Vec2) (from, to int, ok bool) {
	mid := e[0].Add(e[1]).Mul(0.5).Sub(origin)
	best := math.Inf(1)
	k := m.units.Scale()
	for _, c := range m.contours {
		for i, x := range c {
			before := c[(i+len(c)-1)%len(c)]
			d, _ := geom.SegmentDistance(mid, before.exact.Mul(k), x.exact.Mul(k))
			if x.arc != nil && x.radius > 0 {
				d = math.Abs(mid.Sub(m.mm(x.centre)).Len() - x.radius*k)
			}
			if d < best-1e-9 {
				best, from, to, ok = d, before.no, x.no, true
			}
		}
	}
	return from, to, ok
}

// up writes a length in mm in the sheet's units, rounded up so that what is said of it stays true.
func (w *worth) up(mm float64) string {
	k, s := w.marks.units.Scale(), 100.0
	if w.marks.units == fold.Inch {
		s = 10000
	}
	return trim(max(1, math.Ceil(mm/k*s-1e-6))/s, 4)
}

// worst is the seam whose gap the rounding moves most.
func (w *worth) worst() (seam int, ok bool) {
	for i, s := range w.seams {
		if s.known && (!ok || s.moved() > w.seams[seam].moved()) {
			seam, ok = i, true
		}
	}
	return seam, ok
}

// say puts into words what the rounding is worth.
func (w *worth) say(sh *sheet) string {
	name := w.marks.units.String()
	t := fmt.Sprintf("Rounded to %s.", w.marks.rule.name())
	if !w.known {
		return t + " What that does to the gaps could not be found: cut by the part file."
	}
	t += " Cut and bent exactly so, no finished size moves by more than " + w.up(w.size) + " " + name
	if i, ok := w.worst(); ok {
		s := w.seams[i]
		t += fmt.Sprintf(" and no gap by more than %s %s: that of %s, %s, becomes %s", w.up(s.moved()), name, sh.rep.Seams[i].Name, sh.gapWords(s.was), sh.gapWords(s.is))
		if l := sh.rep.Seams[i].Limit; l != nil {
			t += ", of at most " + sh.say2(*l)
		}
	}
	return t + "."
}

// gapWords say a gap from its least to its widest.
func (sh *sheet) gapWords(gap [2]float64) string {
	a, b := sh.say2(gap[0]), sh.say2(gap[1])
	if a == b {
		return a
	}
	return a + " to " + b
}

// loud are the lines that must not be overlooked.
func (w *worth) loud(sh *sheet) []string {
	c := calliper(w.marks.units, 0).name()
	if w.marks.rule != w.asked {
		was, now := w.asked.name(), w.marks.rule.name()
		if !w.known {
			return []string{fmt.Sprintf("NO RULE IS FINE ENOUGH: rounded to %s and finer, this blank can't be folded. Cut it by the part file.", was)}
		}
		return []string{fmt.Sprintf("USE A CALLIPER: rounded to %s this blank can't be folded any more. All figures are to %s.", was, now)}
	}
	if w.fine == nil {
		return nil
	}
	var names []string
	for _, i := range w.spoilt(w.seams) {
		s, rep := w.seams[i], sh.rep.Seams[i]
		if s.bad == "foul" {
			names = append(names, fmt.Sprintf("%s loses its gap of %s", rep.Name, sh.say2(s.was[0])))
		} else {
			names = append(names, fmt.Sprintf("%s opens to %s, of at most %s", rep.Name, sh.say2(s.is[1]), sh.say2(*rep.Limit)))
		}
	}
	const most = 4
	if n := len(names); n > most {
		names = append(names[:most:most], fmt.Sprintf("and %d others", n-most))
	}
	out := []string{fmt.Sprintf("A RULE OF %s IS TOO COARSE HERE: %s.", w.marks.rule.name(), strings.Join(names, "; "))}
	t := "Mark with a calliper, to " + c + ", by the table “With a calliper”: " + sh.careWords() + "."
	if len(w.spoilt(w.after)) > 0 {
		t += " Even so not every gap keeps its limit: cut by the part file."
	}
	return append(out, t)
}
