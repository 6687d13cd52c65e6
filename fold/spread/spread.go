// Package spread says what errors of hand and machine make of a part: of each seam's gap, of holes on different panels,
// and of the finished sizes, by simulation. It knows fold and the leaves.
//
// # The errors
//
// Each is a normal number with a range plus and minus that holds 95 of 100: two standard deviations. All are independent.
//
//   - Angle: a bend of theta comes to theta' = theta + d. Bends of one swing are turned by one leaf and share d.
//     The finished zone is curled evenly, and what is consumed of the sheet stays the neutral radius times the angle: rho'
//     theta' with rho' = R + K' T'.
//   - Line: the bend comes to lie e further along N than it is marked, Q' = Q + N e. The blank stays as it was cut.
//   - Thickness: T' = T + dT, for the whole sheet: rho' and the panels' prisms.
//   - K: K' = K + dK, one error for all bends, each by its own range, since sheet and rule are the same for all.
//   - Cut edge: each straight edge that makes a seam, or a side of the finished box, lies c further out along its normal; the panel
//     grows with it.
//
// What a part's Errors leave unsaid is by default: angles by ISO 2768-1, table 3, class c, by the shorter leg; cut edges by
// its table 1, class m, by the panel's size square to the edge (between two cut edges each makes half the variance); lines 0.2 mm (common practice,
// no source); the thickness 5 percent (assumed); K by what is known of its source (fold.Bend.KSpread).
//
// # What is measured
//
// At every sample the part is posed anew and each seam is measured by kernel.md's definition: at s the gap is the lesser of the
// distances of each edge, across the thickness, to the other panel, minus the depth of their least parting move where the pieces
// overlap there. The distance of an edge's segment to a convex piece is convex along the seam: tangents bound it from below, chords
// from above, and so the least and the widest gap are found, not sampled. A panel's corners stay where they are on the blank, also where a
// tangent line has moved under them.
//
// # How sure the figures are
//
// A quantile q of n samples has the standard error sqrt(q(1-q)/n)/f, f being the density there. For a normal quantity
// that is, in standard deviations, 2.11/sqrt(n) at 5 and 95 percent and 1.25/sqrt(n) in the middle: with 10,000 samples 0.021 and 0.013,
// with 1,000 samples 0.067 and 0.040. A quantity that varies by 0.5 mm to either side (two standard deviations) is so told to 0.005 and
// to 0.017 mm.
package spread

import (
	"cmp"

	"dryfold/fold"
)

// Options say how to simulate. The zero value draws PageSamples with seed 0.
type Options struct {
	Samples int         // 0: PageSamples, fewer of a part of many seams; at most MaxSamples, and fewer for very large parts: the report tells
	Seed    int64       // the same seed gives the same figures, everywhere
	Stop    func() bool // asked now and then; true gives up. nil: never
}

// Add fills in r.Spread and each seam's Spread, r being p's report by Check or Quick, and judges the seams again by
// their widest gap of 95 of 100, and close passes by what errors may take of their room. It reports false, and leaves r as it was, where it was stopped or the part can't be folded.
func Add(p *fold.Part, r *fold.Report, o Options) bool {
	seams := make([]fold.Seam, len(r.Seams))
	for i := range r.Seams {
		seams[i] = r.Seams[i].Seam
	}
	s, each := Of(p, seams, o)
	if s == nil {
		return false
	}
	r.Spread = s
	for i := range r.Seams {
		r.Seams[i].Spread = each[i]
	}
	p.JudgeSeams(r) // and with it r.Spread.Weld
	for i := range r.Seams {
		if x := &r.Seams[i]; x.Spread != nil {
			x.Spread.Watch = cmp.Or(asDrawn(x), x.Spread.Watch)
		}
	}
	rooms := NewRooms(p)
	p.JudgePasses(r, func(x fold.Pass) float64 {
		return rooms.TakeAt(x.A, x.B, p.StateAt(x.Swing, x.Fraction), x.At[0], x.At[1])
	})
	return true
}

// Of is what errors make of the part and of these seams of it; nil where it was stopped or the part can't be folded. A
// seam whose edges share no stretch has none.
func Of(p *fold.Part, seams []fold.Seam, o Options) (*fold.SpreadReport, []*fold.SeamSpread) {
	if !p.Foldable || len(p.Panels) == 0 {
		return nil, nil
	}
	w := newWork(p, seams, o)
	if !w.run() {
		return nil, nil
	}
	return w.report()
}

// work is a simulation.
type work struct {
	part    *fold.Part
	o       Options
	samples int
	every   int // samples between two questions whether to stop
	c       *causes
	x       *poser
	seams   []*seam // nil where there is none
	spans   []float64
	box     *boxer
	pairs   []holePair
	m       moments
	z       []float64

	sizes  [3]*quantity
	holes  [][2]*quantity // distance, offset (nil where they don't face each other)
	widths []fold.SeamSpread
	out    []*fold.SeamSpread
	sized  [3]fold.Spread
	paired []fold.HoleSpread
}

func newWork(p *fold.Part, seams []fold.Seam, o Options) *work {
	w := &work{part: p, o: o, c: newCauses(p)}
	w.x = newPoser(p, w.c, p.Finished())
	w.x.set(nil)
	for _, s := range seams {
		w.x.set(nil) // takes in the cut edges that were met
		m, ok := w.ready(s)
		if !ok {
			m = nil
		}
		w.seams = append(w.seams, m)
	}
	w.box = newBoxer(w.x)
	w.pairs = newHolePairs(w.x)
	w.x.set(nil)
	w.c.tellCuts()
	w.z = make([]float64, len(w.c.all))
	w.samples = o.Samples
	if w.samples <= 0 {
		w.samples = min(PageSamples, max(fewSamples, pageWork/max(1, len(seams))))
	}
	w.samples = min(w.samples, MaxSamples)
	each := 1 + 2*len(p.Bends) + len(seams)
	for i := range w.seams {
		if m := w.seams[i]; m != nil {
			each += (len(m.lines) + len(m.laps)) / 8
		}
	}
	w.samples = max(min(w.samples, leastSamples), min(w.samples, maxWork/each))
	w.every = max(1, min(askEvery, askWork/each))
	return w
}

// ready makes a seam ready; its panels must be of the part.
func (w *work) ready(s fold.Seam) (*seam, bool) {
	n := len(w.part.Panels)
	if s.A < 0 || s.B < 0 || s.A >= n || s.B >= n || s.A == s.B || s.EdgeA[0] == s.EdgeA[1] || s.EdgeB[0] == s.EdgeB[1] {
		return nil, false
	}
	a := len(w.c.cuts)
	w.c.edge(s.A, s.EdgeA[0], s.EdgeA[1])
	w.c.edge(s.B, s.EdgeB[0], s.EdgeB[1])
	if len(w.c.cuts) > a {
		w.x.set(nil)
	}
	return newSeam(w.x, s)
}

// reached lists the causes that move one panel against another.
func (w *work) reached(a, b int) []int {
	c := w.c
	var out []int
	has := map[int]bool{-1: true}
	add := func(k int) {
		if !has[k] {
			has[k] = true
			out = append(out, k)
		}
	}
	for _, i := range between(w.part, a, b) {
		add(c.angle[i])
		add(c.line[i])
	}
	add(c.thick)
	add(c.k)
	return out
}

// run draws the samples, as often as it takes to keep the figures of no more than maxKept at once.
func (w *work) run() bool {
	n := w.samples
	const perSeam = len(stations) + 2
	w.out = make([]*fold.SeamSpread, len(w.seams))
	first := true
	for from := 0; first || from < len(w.seams); {
		to := min(len(w.seams), from+max(1, maxKept/n/perSeam))
		if !w.batch(from, to, first) {
			return false
		}
		from, first = to, false
	}
	return true
}

// batch simulates seams from..to, and with them sizes and holes where whole.
func (w *work) batch(from, to int, whole bool) bool {
	n := w.samples
	seams := make([][len(stations) + 2]*quantity, to-from)
	spans := make([]float64, to-from)
	w.x.set(nil)
	for i := from; i < to; i++ {
		m := w.seams[i]
		if m == nil {
			continue
		}
		m.tol, m.near = solvedExact, solvedExact
		g := m.measure(w.x)
		m.tol, m.near = solved, drawn
		spans[i-from] = m.hi - m.lo
		causes := w.reached(m.side[0].panel, m.side[1].panel)
		for k := range m.side {
			if x := w.c.cuts[m.side[k].cut].cause; x >= 0 {
				causes = append(causes, x)
			}
		}
		for k, v := range g.all() {
			seams[i-from][k] = newQuantity(v, causes, n)
		}
	}
	if whole {
		all := make([]int, len(w.c.all))
		for i := range all {
			all[i] = i
		}
		for k, v := range w.box.measure(w.x) {
			w.sizes[k] = newQuantity(v, all, n)
		}
		for i := range w.pairs {
			h := &w.pairs[i]
			causes := w.reached(h.a, h.b)
			d, off := h.measure(w.x)
			q := [2]*quantity{newQuantity(d, causes, n)}
			if h.facing {
				q[1] = newLength(off, causes, n)
			}
			w.holes = append(w.holes, q)
		}
	}
	w.m = moments{make([]float64, len(w.z)), make([]float64, len(w.z))}
	d := newDraws(w.o.Seed)
	for k := range n {
		if k%w.every == 0 && w.o.Stop != nil && w.o.Stop() {
			return false
		}
		d.fill(w.z)
		for i, v := range w.z {
			w.m.sz[i] += v
			w.m.szz[i] += v * v
		}
		w.x.set(w.z)
		for i := from; i < to; i++ {
			if m := w.seams[i]; m != nil {
				q := &seams[i-from]
				for j, v := range m.measure(w.x).all() {
					q[j].record(k, v, w.z)
				}
			}
		}
		if !whole {
			continue
		}
		for j, v := range w.box.measure(w.x) {
			w.sizes[j].record(k, v, w.z)
		}
		for i := range w.pairs {
			dist, miss := w.pairs[i].way(w.x)
			w.holes[i][0].record(k, dist.len(), w.z)
			if q := w.holes[i][1]; q != nil {
				q.recordLength(k, miss, w.z)
			}
		}
	}
	for i := from; i < to; i++ {
		if w.seams[i] != nil {
			w.out[i] = w.seamSpread(&seams[i-from], spans[i-from], w.seams[i])
		}
	}
	if whole {
		w.tellRest()
	}
	return true
}

// all lists the gaps: at the stations, the least, the widest.
func (g gaps) all() (out [len(stations) + 2]float64) {
	copy(out[:], g.at[:])
	out[len(stations)], out[len(stations)+1] = g.least, g.widest
	return out
}

func (w *work) seamSpread(q *[len(stations) + 2]*quantity, length float64, m *seam) *fold.SeamSpread {
	of := func(q *quantity) fold.Spread { return q.spread(w.c, &w.m, w.samples) }
	s := &fold.SeamSpread{Least: of(q[len(stations)]), Widest: of(q[len(stations)+1])}
	for k, at := range stations {
		s.Along = append(s.Along, fold.SpreadPoint{At: at * length, Spread: of(q[k])})
	}
	s.Watch = w.watchSeam(s, m)
	return s
}

// tellRest makes the spreads of sizes and holes.
func (w *work) tellRest() {
	for k, q := range w.sizes {
		w.sized[k] = q.spread(w.c, &w.m, w.samples)
	}
	for i, q := range w.holes {
		h := &w.pairs[i]
		r := fold.HoleSpread{
			A: holeName(w.part, h.ha, h.a), B: holeName(w.part, h.hb, h.b),
			Distance: q[0].spread(w.c, &w.m, w.samples),
		}
		if q[1] != nil {
			off := q[1].spread(w.c, &w.m, w.samples)
			r.Offset = &off
		}
		w.paired = append(w.paired, r)
	}
}

func (w *work) report() (*fold.SpreadReport, []*fold.SeamSpread) {
	r := &fold.SpreadReport{Samples: w.samples, Seed: w.o.Seed, Errors: w.c.told, Sizes: w.sized, Holes: w.paired}
	if r.Holes == nil {
		r.Holes = []fold.HoleSpread{}
	}
	if r.Errors == nil {
		r.Errors = []fold.ErrorReport{}
	}
	r.Watch = w.watchPart()
	return r, w.out
}
