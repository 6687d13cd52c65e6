package fold

// This file measures seams: the gap along each. seamline.go places a seam and gives the gap at one station,
// course.go and profile.go follow it from end to end.

import (
	"math"
	"sync"
)

// SeamGap is what a seam measures at one pose. Stations are distances from the
// seam's start (its foot, or its least x where it lies level).
type SeamGap struct {
	Length         float64
	Min, Mean, Max float64
	MinAt, MaxAt   float64
	AtStart, AtEnd float64
	Step           float64 // offset of the two faces where they lie within 45 degrees, largest; else 0
	Joint          string  // one of Joints
	// Profile is the gap along the seam, straight between two points to within ProfileError; two points at one place are a jump.
	Profile []GapPoint
	Ticks   []Tick
}

// MeasuredSeam is a seam with its gap in the finished part; OK is false where its edges share no stretch.
type MeasuredSeam struct {
	Seam
	Gap SeamGap
	OK  bool
}

// seamStore keeps what MeasureSeams found.
type seamStore struct {
	once     sync.Once
	find     sync.Once
	found    []Seam
	gauge    *seamGauge  // of LeastGaps
	looks    []*seamLook // of found, nil where none was taken
	seams    []MeasuredSeam
	troubles []Trouble
}

// MeasureSeams finds the part's seams, as FindSeams does, and measures them as finished. It is worked out once for a
// part; the slices are not to be changed. The part must be Foldable.
func (p *Part) MeasureSeams() ([]MeasuredSeam, []Trouble) {
	m := p.measured
	m.once.Do(func() {
		gauge := p.Pose(p.Finished()).gauge()
		for i, s := range p.foundSeams() {
			var g SeamGap
			ok := false
			if m.looks != nil && m.looks[i] != nil {
				g, ok = m.looks[i].measure()
			} else {
				g, ok = gauge.measure(s)
			}
			m.seams = append(m.seams, MeasuredSeam{s, g, ok})
		}
		m.gauge, m.looks = nil, nil
	})
	return m.seams, m.troubles
}

// foundSeams is FindSeams, worked out once for a part; its troubles are kept for MeasureSeams.
func (p *Part) foundSeams() []Seam {
	m := p.measured
	m.find.Do(func() { m.found, m.troubles = p.FindSeams() })
	return m.found
}

// LeastGaps is a first look at the part's seams as finished, of those whose names are wanted: for who corrects a
// part in rounds. Only Min and Step are set; MeasureSeams goes on from there.
// Only one goroutine may ask.
func (p *Part) LeastGaps(want func(name string) bool) (out []MeasuredSeam) {
	m := p.measured
	for i, s := range p.foundSeams() {
		if !want(s.Name) {
			continue
		}
		if m.gauge == nil {
			m.gauge = p.Pose(p.Finished()).gauge()
			m.looks = make([]*seamLook, len(m.found))
		}
		if m.looks[i] == nil {
			m.looks[i] = m.gauge.look(s)
		}
		k := MeasuredSeam{Seam: s, OK: m.looks[i].ok}
		if k.OK {
			k.Gap.Min, k.Gap.Step = m.looks[i].least(), m.looks[i].line.step()
		}
		out = append(out, k)
	}
	return out
}

// seamLook is a seam in space.
type seamLook struct {
	part *Part
	seam Seam
	line seamLine
	ok   bool
}

func (x *seamGauge) look(s Seam) *seamLook {
	k := &seamLook{part: x.Part, seam: s}
	k.line, k.ok = x.line(s)
	return k
}

// least is the least gap.
func (k *seamLook) least() float64 {
	c, whole := newCourse(&k.line)
	levels := k.line.levels()
	least := c.least(c.free(whole, levels))
	for _, l := range levels {
		least = min(least, -l.depth)
	}
	return least
}

// MeasureSeam measures the gap along a seam at this pose. ok is false where the
// two edges share no stretch. The least and the largest gap are exact to 1e-9 mm (1e-7 where edges all but touch, and on seams of
// many metres), the mean to about a millionth of it, and nothing between is missed, however narrow.
func (ps Pose) MeasureSeam(s Seam) (SeamGap, bool) { return ps.gauge().measure(s) }

// SeamRange is MeasureSeam's least and largest gap alone, in half the time.
func (ps Pose) SeamRange(s Seam) (least, largest float64, ok bool) {
	k := ps.gauge().look(s)
	if !k.ok {
		return 0, 0, false
	}
	var g SeamGap
	k.line.figures(&g)
	return g.Min, g.Max, true
}

func (x *seamGauge) measure(s Seam) (SeamGap, bool) { return x.look(s).measure() }

// measure goes on from a first look.
func (k *seamLook) measure() (SeamGap, bool) {
	if !k.ok {
		return SeamGap{}, false
	}
	l := &k.line
	var g SeamGap
	l.figures(&g)
	g.Step, g.Joint = l.step(), l.joint(k.part, k.seam)
	count := int(max(4, min(24, math.Round(g.Length/6))))
	for i := 0; i <= count; i++ {
		at := g.Length * float64(i) / float64(count)
		d, a, b := l.gap(l.lo + at)
		g.Ticks = append(g.Ticks, Tick{A: a, B: b, Gap: d, At: at})
	}
	return g, true
}

// gapNoise: gaps that differ by less than this are the same (mm); a thousandth of GapSolve.
const gapNoise = 1e-9

// step is the largest offset of the panels' inner faces, where the panels lie within 45 degrees of one plane, on opposite sides of
// the seam; 0 for corners. It is measured square to the plane midway between the two: both faces of a panel, and its middle, lie
// as far apart there as the other's, so the middles are taken. The edges being straight, it is largest at an end.
func (l *seamLine) step() float64 {
	n := l.a.frame.Z
	m := l.b.frame.Z
	if math.Abs(n.Dot(m)) < math.Sqrt2/2 || l.a.inward().Dot(l.b.inward()) > 0 {
		return 0
	}
	if n.Dot(m) < 0 {
		m = m.Mul(-1)
	}
	across := n.Add(m).Normalize()
	worst := 0.0
	for _, s := range []float64{l.lo, l.hi} {
		a0, a1 := l.a.at(s, l.t)
		b0, b1 := l.b.at(s, l.t)
		worst = max(worst, math.Abs(a0.Add(a1).Sub(b0).Sub(b1).Dot(across))/2)
	}
	return worst
}
