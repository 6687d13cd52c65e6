package ascut

// This file holds the verdict: what the measured sizes mean. fit.go finds the blank as it was cut, pattern.go the common mistakes.

import (
	"fmt"
	"math"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// Words of a verdict.
const (
	Bend    = "bend"                // all is within its limits
	Trim    = "trim"                // metal is to come off, and the part is right then
	Accept  = "accept or cut again" // what comes out is told
	Measure = "measure"             // not all is measured yet
)

// Verdict is what the measured sizes mean.
type Verdict struct {
	Word  string
	Say   []string // what to tell the maker, the weightiest first
	Lines []Line   // one for each size
	// Pattern is the mistake that explains the measures: "mirror", "deduction", "twice", "allowance", "datum", "square", "unit", "slip"; "" where none does.
	Pattern string
	Stale   []fold.CutSize // measured values that fit no size any more; nothing is made of them
	Trims   []TrimEdge
	// Seams and finished sizes that change, by the blank as it was cut.
	Seams    []SeamChange
	Finished [2][3]float64 // before and after; zero where nothing is known
	AsCut    *fold.Spec    // the blank as it was cut; nil where it is as it should be, or not known
	Part     *fold.Part    // built of it

	out  []float64 // of each cut, outward
	lean float64
}

// Line is one size with what was measured.
type Line struct {
	No       int
	State    string  // "ok", "large", "small", "bad", "" where it was not measured
	Is       float64 // mm; 0 where it was not measured or is bad
	Off      float64 // Is less what is wanted
	Metal    int     // of a size past its limits: 1 too much metal, -1 too little, 0 neither
	Say      string
	measured bool
	void     bool // of a hole or cutout: no edge is fitted to it
	byEdge   bool // a diagonal that is out because an edge at its end is
}

// TrimEdge is an edge from which metal is to come off.
type TrimEdge struct {
	Size     int // its number
	Edge     string
	By       float64      // mm
	Ends     [2]geom.Vec2 // of the edge, as it should be, on the blank
	Corners  string       // between which corners, in words
	Or       string       // the other edge that may be the one, "" where it can't
	cut      int
	otherCut int
}

// SeamChange is a seam's gap as drawn and as it comes out (mm).
type SeamChange struct {
	Name          string
	Before, After [2]float64 // least, largest
	Limit         *float64
	Gone          bool // the edges no longer lie side by side
	Worse         bool // past its limit, and was not, or was less
}

// Judge says what the measured sizes of a part, Spec.AsCut, mean; sizes are the part's, by Sizes or Look, and r is the report they were made with.
func Judge(p *fold.Part, r *fold.Report, sizes []Size) *Verdict {
	v := &Verdict{Word: Measure}
	if !p.Foldable || len(sizes) == 0 {
		v.Stale = append(v.Stale, p.Spec.AsCut...)
		return v
	}
	m := sizes[0].work
	if m == nil || m.part != p && (m.rep != r || &m.part.Panels[0] != &p.Panels[0]) { // else it is the same part, measured
		m = newMovable(p, r)
		m.nameCuts()
	}
	j := &judge{Verdict: v, movable: m, sizes: sizes}
	j.match(p.Spec.AsCut)
	if j.unit() {
		return v
	}
	j.states()
	j.tellStale()
	if j.mirror() || j.scale() {
		return v
	}
	j.fit()
	j.rebuild()
	j.word()
	return v
}

type judge struct {
	*Verdict
	*movable
	sizes []Size
	is    []float64
	after fold.Report
	worse bool
}

// match puts measured values to their sizes.
func (j *judge) match(cut []fold.CutSize) {
	j.Lines, j.is = make([]Line, len(j.sizes)), make([]float64, len(j.sizes))
	for i := range j.sizes {
		j.Lines[i].No, j.Lines[i].void = j.sizes[i].No, j.sizes[i].cand.use == forVoid
	}
	for _, c := range cut {
		a, b := c.From.Mul(j.k), c.To.Mul(j.k)
		at, near := -1, MatchReach
		for i := range j.sizes {
			s := &j.sizes[i]
			d := min(max(a.Sub(s.From).Len(), b.Sub(s.To).Len()), max(a.Sub(s.To).Len(), b.Sub(s.From).Len()))
			if d <= near {
				at, near = i, d
			}
		}
		if at < 0 {
			j.Stale = append(j.Stale, c)
			continue
		}
		j.is[at], j.Lines[at].measured = c.Is*j.k, true
	}
}

func (j *judge) tellStale() {
	if n := len(j.Stale); n > 0 {
		what := "1 measured value fits no size of this blank any more: the part was changed since. Measure again, or take it out."
		if n > 1 {
			what = fmt.Sprintf("%d measured values fit no size of this blank any more: the part was changed since. Measure again, or take them out.", n)
		}
		j.Say = append(j.Say, what)
	}
}

func (j *judge) length(mm float64) string { return said(mm, j.spec.Units) }

// states tells of each size alone.
func (j *judge) states() {
	u := j.spec.Units
	for i := range j.sizes {
		s, l := &j.sizes[i], &j.Lines[i]
		if !l.measured {
			continue
		}
		is := j.is[i]
		need := fmt.Sprintf("from %s to %s %s is expected", Length(s.Low, u, s.Step), Length(s.High, u, s.Step), u)
		switch {
		case math.IsNaN(is) || math.IsInf(is, 0):
			l.Say = "It is no number; " + need + "."
		case is <= 0:
			l.Say = fmt.Sprintf("%s can't have been measured; %s.", said(is, u), need)
		case (is >= slipped*s.Want || is*slipped <= s.Want) && math.Abs(is-s.Want) > slipLeast:
			l.Say = fmt.Sprintf("%s is a slip of the decimal point or of the pen, or another size was measured; %s.", typed(is, u), need)
			for _, k := range []float64{0.1, 10} { // the point slipped
				if math.Abs(is*k-s.Want) < s.Want/10 {
					l.Say = fmt.Sprintf("%s is a slip of the decimal point; %s. Should it be %s?", typed(is, u), need, typed(is*k, u))
				}
			}
		}
		if l.Say != "" {
			l.State, l.measured = "bad", false
			j.Say = append(j.Say, fmt.Sprintf("Size %d: %s", s.No, l.Say))
			if is > 0 && !math.IsInf(is, 0) {
				j.Pattern = "slip"
			}
			continue
		}
		l.Is, l.Off = is, is-s.Want
		switch {
		case is < s.Low-readNoise:
			l.State = "small"
		case is > s.High+readNoise:
			l.State = "large"
		default:
			l.State = "ok"
		}
	}
}

// past reports whether a size of edges is past its limits.
func (l *Line) past() bool { return !l.void && (l.State == "large" || l.State == "small") }

// over is by how much a gap is past its limits, each way; under zero where it is not.
func (m *movable) over(s *fold.SeamReport, least, largest float64) (wide, tight float64) {
	wide, tight = math.Inf(-1), -least-fold.ClashDepth
	if limit, _, _, ok := m.widest(s); ok {
		wide = largest - limit
	}
	return wide, tight
}

// worsens reports whether a seam is past its limit, and was not, or was less.
func (m *movable) worsens(s *fold.SeamReport, c *SeamChange) bool {
	w, t := m.over(s, c.Before[0], c.Before[1])
	w2, t2 := m.over(s, c.After[0], c.After[1])
	return w2 > fold.GapSolve && w2 > max(0, w)+gapTold || t2 > fold.GapSolve && t2 > max(0, t)+gapTold
}

// rebuild builds the blank as it was cut.
func (j *judge) rebuild() {
	if !j.changed() {
		return
	}
	s := j.cutAs(j.out, j.lean)
	j.AsCut = &s
	j.Part = fold.Build(s)
	if j.worse = !j.Part.Foldable; j.worse {
		// As where a notch is not cut through: the panels are moved alone.
		for i := range j.seams {
			x := &j.seams[i]
			if x.runs[0][0] < 0 || x.runs[1][0] < 0 || (x.cuts[0] < 0 || j.out[x.cuts[0]] == 0) && (x.cuts[1] < 0 || j.out[x.cuts[1]] == 0) {
				continue
			}
			if g, ok := j.fastGap(x, j.out); ok && j.lean == 0 {
				j.Seams = append(j.Seams, SeamChange{Name: x.rep.Name, Before: [2]float64{x.min, x.max}, After: [2]float64{g.least, g.largest}, Limit: x.rep.Limit, Worse: true})
			}
		}
		return
	}
	j.after = j.Part.Quick()
	j.Finished = [2][3]float64{j.rep.Finished.Box(), j.after.Finished.Box()}
	j.Seams, j.worse = j.compare(&j.after)
}

// changed reports whether the blank is cut otherwise than it should be.
func (j *judge) changed() bool {
	for _, x := range j.out {
		if x != 0 {
			return true
		}
	}
	return j.lean != 0
}

// cutAs is the Spec of a blank whose cuts lie further out and that leans.
func (m *movable) cutAs(out []float64, lean float64) fold.Spec {
	s := m.moved(out)
	if lean != 0 {
		b := *m.blank
		b.spec = s
		s = b.leaning(lean)
	}
	return s
}

// compare lists the seams that another report has otherwise, and says whether anything is past its limit that was not.
func (j *judge) compare(after *fold.Report) (out []SeamChange, worse bool) {
	for i := range j.rep.Seams {
		s := &j.rep.Seams[i]
		c := SeamChange{Name: s.Name, Before: [2]float64{s.GapMin, s.GapMax}, Gone: true, Limit: s.Limit}
		for k := range after.Seams {
			if t := &after.Seams[k]; t.Name == s.Name {
				c.After, c.Gone = [2]float64{t.GapMin, t.GapMax}, false
			}
		}
		if c.Gone {
			c.Worse = true
		} else {
			c.Worse = j.worsens(s, &c)
			if !c.Worse && math.Abs(c.After[0]-c.Before[0]) <= gapTold && math.Abs(c.After[1]-c.Before[1]) <= gapTold {
				continue
			}
		}
		worse = worse || c.Worse
		out = append(out, c)
	}
	had := map[string]bool{}
	key := func(t *fold.TroubleReport) string {
		return t.Rule + "|" + t.Where.Panel + t.Where.Bend + t.Where.Seam + t.Where.Hole
	}
	for i := range j.rep.Troubles {
		had[key(&j.rep.Troubles[i])] = true
	}
	for i := range after.Troubles {
		if t := &after.Troubles[i]; t.Severity == fold.Stop.String() && !had[key(t)] {
			worse = true
		}
	}
	return out, worse
}

// word gives the verdict's word and what to say.
func (j *judge) word() {
	open, past, lack, leans := 0, 0, false, false
	for i := range j.Lines {
		l := &j.Lines[i]
		if !l.measured {
			open++
			continue
		}
		if !l.past() {
			continue
		}
		past++
		c := &j.sizes[i].cand
		if c.use == forDiagonal {
			if math.Abs(j.is[i]-j.distance(c.x, c.y, j.out, 0)) > chased { // else an edge that is out at one end of it explains it
				leans = true
			} else {
				l.byEdge = true
			}
			continue
		}
		j.blame(i)
		lack = lack || l.Metal <= 0
	}
	j.tellLines()
	elsewhere := j.misplaced()
	if j.deductions() {
		j.Word = Accept
		j.outcome()
		return
	}
	switch {
	case past == 0 && elsewhere > 0:
		j.Word = Accept
	case past == 0 && open == 0:
		j.Word = Bend
		if j.worse { // it was found: nothing is to be told as good that is not
			j.Word = Accept
			j.Say = append([]string{"Each size is within its limits, but of all together it comes that:"}, j.Say...)
			j.outcome()
			break
		}
		j.Say = append([]string{"All sizes are within their limits: bend."}, j.Say...)
	case past == 0:
		j.Word = Measure
		j.Say = append([]string{j.remaining(open)}, j.Say...)
	case past == j.diagonalsPast():
		// Diagonals alone: it is the part that counts.
		if leans {
			j.tellSquare()
		}
		if !j.worse && j.left() <= chased && j.seamsSay() {
			if j.Word = Bend; open > 0 {
				j.Word = Measure
			}
			j.Say = append(j.Say, "The part comes out within its limits all the same.")
		} else {
			j.Word = Accept
		}
		j.outcome()
	case !j.trims() || lack || leans:
		j.Word = Accept
		if leans {
			j.tellSquare()
		}
		j.outcome()
		if leans { // nothing is to be trimmed before the blank is square
			j.Trims = nil
		}
		for i := range j.Trims {
			j.Say = append(j.Say, j.trimWords(&j.Trims[i]))
		}
	default:
		j.Word = Trim
		for i := range j.Trims {
			j.Say = append(j.Say, j.trimWords(&j.Trims[i]))
		}
		j.Say = append(j.Say, "The part is right after it.")
		n := len(j.Say)
		if j.outcome(); len(j.Say) > n {
			j.Say[n-1] += " Left as it is:"
		}
	}
	if elsewhere > 0 {
		j.Word = Accept
	}
	if (past > 0 || elsewhere > 0) && open > 0 {
		j.Say = append(j.Say, j.remaining(open))
	}
	j.datum()
}

// seamsSay reports whether the limits that diagonals are past are seams', so that the seams of the blank as it was cut can say that they hold.
func (j *judge) seamsSay() bool {
	for i := range j.Lines {
		l, s := &j.Lines[i], &j.sizes[i]
		if l.past() && !l.byEdge && (l.State == "small" && s.lowGeneral || l.State == "large" && s.highGeneral) {
			return false
		}
	}
	return true
}

func (j *judge) diagonalsPast() (n int) {
	for i := range j.Lines {
		if j.Lines[i].past() && j.sizes[i].cand.use == forDiagonal {
			n++
		}
	}
	return n
}

// blame says whether a size past its limits has too much metal or too little.
func (j *judge) blame(i int) {
	c, l := &j.sizes[i].cand, &j.Lines[i]
	if !c.oneWay() {
		return
	}
	for cut, x := range j.out {
		if math.Abs(c.by[cut]) < tells || x == 0 || x*c.by[cut]*l.Off < 0 {
			continue
		}
		if x < 0 {
			l.Metal = -1
			return
		}
		l.Metal = 1
	}
	if l.Metal == 0 && len(c.by) > 0 && c.use != forMirror { // nothing explains it: say it by its own sign
		l.Metal = 1
		if (l.Off < 0) != c.opening {
			l.Metal = -1
		}
	}
}

// trims finds what is to come off, and whether the part is right after it.
func (j *judge) trims() bool {
	out := append([]float64(nil), j.out...)
	j.Trims = nil
	all := true
	for i := range j.Lines {
		l, s := &j.Lines[i], &j.sizes[i]
		if !l.past() || s.cand.use == forDiagonal {
			continue
		}
		done := false
		for cut, x := range j.out {
			if x <= 0 || math.Abs(s.cand.by[cut]) < tells {
				continue
			}
			done = true
			if out[cut] == 0 { // trimmed for another size
				continue
			}
			out[cut] = 0
			j.Trims = append(j.Trims, TrimEdge{Size: s.No, Edge: j.cuts[cut].Name, By: x, Ends: j.cuts[cut].Ends, Corners: j.cornersWords(cut), cut: cut, otherCut: j.other(i, cut)})
			if o := j.Trims[len(j.Trims)-1].otherCut; o >= 0 {
				j.Trims[len(j.Trims)-1].Or = j.cuts[o].Name
			}
		}
		all = all && done
	}
	if !all {
		return false
	}
	// What is measured afterwards is within the limits.
	for i := range j.Lines {
		s := &j.sizes[i]
		if !j.Lines[i].measured {
			continue
		}
		d := j.distance(s.cand.x, s.cand.y, out, j.lean)
		if s.cand.use != forDiagonal && (d < s.Low-readNoise || d > s.High+readNoise) {
			return false
		}
	}
	if j.lean == 0 && sumSquares(out) == 0 { // the blank as it should be
		return true
	}
	p := fold.Build(j.cutAs(out, j.lean))
	if !p.Foldable {
		return false
	}
	r := p.Quick()
	_, worse := j.compare(&r)
	return !worse
}

// other is the other cut of a size that may as well be the one that is out; -1 where a size tells that it is not.
func (j *judge) other(i, cut int) int {
	at := -1
	for c := range j.cuts {
		if c != cut && math.Abs(j.sizes[i].cand.by[c]) >= tells {
			at = c
		}
	}
	if at < 0 {
		return -1
	}
	for k := range j.sizes {
		if k != i && j.Lines[k].measured && j.sizes[k].cand.use != forDiagonal && (j.sizes[k].cand.covers(at) || j.sizes[k].cand.covers(cut)) {
			return -1
		}
	}
	return at
}

// cornersWords names the ends of a cut by their places from edges A and B.
func (m *movable) cornersWords(c int) string {
	at := func(p geom.Vec2) string {
		q := p.Sub(m.box.Min)
		return fmt.Sprintf("%s from A, %s from B", said(q[0], m.spec.Units), said(q[1], m.spec.Units))
	}
	return fmt.Sprintf("between the corners at %s and at %s", at(m.cuts[c].Ends[0]), at(m.cuts[c].Ends[1]))
}
