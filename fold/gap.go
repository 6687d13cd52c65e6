package fold

// This file measures seams: the gap along each.
// seamline.go places a seam and gives the gap at one station.

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

// LeastGaps is a first look at the least gaps of the part's seams as finished, of those whose names are wanted: for who corrects a
// part in rounds. Only Min and Step are set. It looks at every firstLook-th of MeasureSeams' stations, so a narrow dip may be missed, and
// the least may come out larger than it is; MeasureSeams goes on from there and has the last word.
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

// firstLook: a first look at a seam takes one of so many stations.
const firstLook = 4

// seamLook is a seam in space with its gap at the stations that were looked at.
type seamLook struct {
	part *Part
	seam Seam
	line seamLine
	ok   bool
	vs   [seamStations + 1]float64
}

func (x *seamGauge) look(s Seam) *seamLook {
	k := &seamLook{part: x.Part, seam: s}
	if k.line, k.ok = x.line(s); k.ok {
		for i := 0; i <= seamStations; i += firstLook {
			k.vs[i], _, _ = k.line.gap(k.line.station(i))
		}
	}
	return k
}

// station is the place of a seam's station i along e.
func (l *seamLine) station(i int) float64 { return l.lo + (l.hi-l.lo)*float64(i)/seamStations }

// least is the least gap by the stations that were looked at and the dips between them.
func (k *seamLook) least() float64 {
	val := func(s float64) float64 { d, _, _ := k.line.gap(s); return d }
	best := math.Inf(1)
	for i := 0; i <= seamStations; i += firstLook {
		v := k.vs[i]
		best = min(best, v)
		if i == 0 || i == seamStations {
			continue
		}
		a, b := k.vs[i-firstLook], k.vs[i+firstLook]
		if v <= a && v <= b && max(a, b)-v > gapNoise {
			best = min(best, val(golden(val, k.line.station(i-firstLook), k.line.station(i+firstLook))))
		}
	}
	return best
}

// MeasureSeam measures the gap along a seam at this pose. ok is false where the
// two edges share no stretch. Least and largest gaps are searched for to 1e-9 mm,
// not merely sampled; the mean is a trapezoid sum over seamStations.
func (ps Pose) MeasureSeam(s Seam) (SeamGap, bool) { return ps.gauge().measure(s) }

func (x *seamGauge) measure(s Seam) (SeamGap, bool) { return x.look(s).measure() }

// measure goes on from a first look.
func (k *seamLook) measure() (SeamGap, bool) {
	if !k.ok {
		return SeamGap{}, false
	}
	l := &k.line
	g := SeamGap{Length: l.hi - l.lo, Min: math.Inf(1), Max: math.Inf(-1)}
	const n = seamStations
	val := func(s float64) float64 { d, _, _ := l.gap(s); return d }
	xs := make([]float64, n+1)
	vs := k.vs
	for i := range xs {
		xs[i] = l.station(i)
		if i%firstLook != 0 {
			vs[i] = val(xs[i])
		}
	}
	g.AtStart, g.AtEnd = vs[0], vs[n]
	better := func(x, v float64) {
		if v < g.Min-1e-12 {
			g.Min, g.MinAt = v, x-l.lo
		}
		if v > g.Max+1e-12 {
			g.Max, g.MaxAt = v, x-l.lo
		}
	}
	for i := range n {
		a, b, va, vb := xs[i], xs[i+1], vs[i], vs[i+1]
		if (va < 0) == (vb < 0) {
			g.Mean += (va + vb) / 2 / n
			continue
		}
		// Where the panels begin to lie in each other the gap jumps: find the place.
		for b-a > 1e-9 {
			if m := (a + b) / 2; (val(m) < 0) == (va < 0) {
				a = m
			} else {
				b = m
			}
		}
		ja, jb := val(a), val(b)
		better(a, ja)
		better(b, jb)
		g.Mean += ((va+ja)*(a-xs[i]) + (jb+vb)*(xs[i+1]-b)) / 2 / g.Length
	}
	for i := range xs {
		better(xs[i], vs[i])
		if i == 0 || i == n {
			continue
		}
		for _, sign := range []float64{1, -1} { // a dip, then a hump, about station i
			dip := max(sign*(vs[i-1]-vs[i]), sign*(vs[i+1]-vs[i]))
			if sign*vs[i] <= sign*vs[i-1] && sign*vs[i] <= sign*vs[i+1] && dip > gapNoise {
				x := golden(func(s float64) float64 { return sign * val(s) }, xs[i-1], xs[i+1])
				better(x, val(x))
			}
		}
	}
	g.Step, g.Joint = l.step(), l.joint(k.part, k.seam)
	for i := range xs {
		g.Profile = append(g.Profile, GapPoint{xs[i] - l.lo, vs[i]})
	}
	count := int(max(4, min(24, math.Round(g.Length/6))))
	for i := 0; i <= count; i++ {
		at := g.Length * float64(i) / float64(count)
		d, a, b := l.gap(l.lo + at)
		g.Ticks = append(g.Ticks, Tick{A: a, B: b, Gap: d, At: at})
	}
	return g, true
}

// seamStations: intervals into which a seam is cut to look for dips and humps of its gap.
const seamStations = 48

// gapNoise: stations whose gaps differ by less than this are level (mm); a thousandth of GapSolve.
const gapNoise = 1e-9

// golden finds the least of f between a and b, where it has one dip.
func golden(f func(float64) float64, a, b float64) float64 {
	r := (math.Sqrt(5) - 1) / 2
	c, d := b-r*(b-a), a+r*(b-a)
	fc, fd := f(c), f(d)
	for k := 0; k < 60 && b-a > 1e-9; k++ {
		if fc < fd {
			b, d, fd = d, c, fc
			c = b - r*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + r*(b-a)
			fd = f(d)
		}
	}
	return (a + b) / 2
}

// step is the largest offset of the panels' mid faces at the seam's ends, where the
// panels lie within 45 degrees of one plane, on opposite sides of the seam; 0 for corners.
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
