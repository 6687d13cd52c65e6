package spread

// This file says of a seam, and of the whole part, what makes most of its spread, and what the bend in it does.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
	"dryfold/fold/geom"
)

// watchSeam says what makes most of what a seam's widest gap varies by, and what the bend in it does where it does most.
func (w *work) watchSeam(s *fold.SeamSpread, m *seam) string {
	if s.Widest.High-s.Widest.Low < littleSpread {
		return ""
	}
	return w.said(w.largest(s.Widest.Shares), "the error", func(k *item) string {
		x := k.causes[0]
		at, worth := w.most(s, m, x.name)
		if math.Abs(worth) < 0.05 {
			return ""
		}
		more, does := "too much", "open"
		if x.plusWords() == "1 degree" || x.kind == byLine {
			does = "opens"
		}
		if worth < 0 {
			more = "too little"
		}
		if x.kind == byLine {
			if more = "further out"; worth < 0 {
				more = "nearer"
			}
		}
		if len(k.causes) > 1 {
			more += " on one of them"
		}
		return fmt.Sprintf(": %s %s %s %s by %.1f mm", x.plusWords(), more, does, at, math.Abs(worth))
	})
}

// most is where along the seam a cause does most, in words, and what it does there.
func (w *work) most(s *fold.SeamSpread, m *seam, name string) (string, float64) {
	at, worth := 0, 0.0
	for i, p := range s.Along {
		for _, x := range p.Shares {
			if x.Cause == name && math.Abs(x.Worth) > 1.05*math.Abs(worth) {
				at, worth = i, x.Worth
			}
		}
	}
	ends := w.ends(m)
	switch at {
	case 0:
		return theEnd(ends[0]), worth
	case len(s.Along) - 1:
		return theEnd(ends[1]), worth
	}
	return "it", worth
}

// ends are a seam's names of its ends, as it is without errors.
func (w *work) ends(m *seam) [2]string {
	a := &m.side[0]
	s := fold.Seam{A: a.panel, B: m.side[1].panel, EdgeA: [2]geom.Vec2{{a.p.x, a.p.y}, {a.q.x, a.q.y}}}
	pose := w.part.Pose(w.part.Finished())
	from, to := pose.PanelPoint(s.A, s.EdgeA[0], 0), pose.PanelPoint(s.A, s.EdgeA[1], 0)
	if m.turn {
		from, to = to, from
	}
	return w.part.SeamEnds(s, from, to)
}

// theEnd is an end's name as what is opened there: "the top", "the end at back".
func theEnd(end string) string {
	switch {
	case end == "one end":
		return end
	case strings.HasPrefix(end, "at "):
		return "the end " + end
	}
	return "the " + end
}

// asDrawn is what is said in place of a seam's causes where care can't mend it; "" where it is right as drawn.
func asDrawn(s *fold.SeamReport) string {
	switch {
	case s.Open:
	case s.GapMin < -fold.ClashDepth:
		return "Its panels lie in each other as drawn, and no care mends that."
	case s.Limit != nil && s.GapMax > *s.Limit+fold.GapSolve:
		return "It is too wide as drawn, and no care mends that."
	}
	return ""
}

// watchPart says what makes most of what all seams' widest gaps vary by, or pairs of holes where there is no seam, and at how many of
// them the bend in it makes much.
func (w *work) watchPart() string {
	var all []fold.Share
	total := 0.0
	var each []*fold.Spread
	what, one := "seams", "seam"
	for _, s := range w.out {
		if s != nil {
			each = append(each, &s.Widest)
		}
	}
	if len(each) == 0 {
		what, one = "pairs of holes", "pair of holes"
		for i := range w.paired {
			if off := w.paired[i].Offset; off != nil { // what a bolt or a rod feels
				each = append(each, off)
			} else {
				each = append(each, &w.paired[i].Distance)
			}
		}
	}
	for _, s := range each {
		d := s.High - s.Low
		total += d * d
		for _, x := range s.Shares {
			i := slices.IndexFunc(all, func(y fold.Share) bool { return y.Cause == x.Cause })
			if i < 0 {
				i = len(all)
				all = append(all, fold.Share{Cause: x.Cause})
			}
			all[i].Part += x.Part * d * d
		}
	}
	if !(total >= littleSpread*littleSpread) {
		return ""
	}
	for i := range all {
		all[i].Part /= total
	}
	whole := "the error at all " + what
	if len(each) == 1 {
		whole = "the error at the " + one
	}
	return w.said(w.largest(all), whole, func(k *item) string {
		n := 0
		for _, s := range each {
			if s.High-s.Low >= littleSpread && slices.ContainsFunc(s.Shares, func(x fold.Share) bool {
				return rounded(x.Part) >= worthWatching && slices.ContainsFunc(k.causes, func(c *cause) bool { return c.name == x.Cause })
			}) {
				n++
			}
		}
		if n == 0 || n == len(each) {
			return ""
		}
		return fmt.Sprintf(", felt at %d of the %d", n, len(each))
	})
}
