package spread

// This file says in words which bend to watch.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfold/fold"
)

// fraction is a part of a whole as people say it.
func fraction(part float64) string {
	for _, f := range []struct {
		over float64
		word string
	}{{0.88, "nearly all"}, {0.71, "three quarters"}, {0.58, "two thirds"}, {0.45, "half"}, {0.29, "a third"}, {0.22, "a quarter"}, {0.17, "a fifth"}} {
		if part >= f.over {
			return f.word
		}
	}
	return "a tenth"
}

// byBend sums a spread's shares by bend cause, the largest first; what is no bend's is left out.
func byBend(s []fold.Share) []fold.Share {
	var out []fold.Share
	for _, x := range s {
		if x.Bend != "" {
			out = append(out, x)
		}
	}
	sortShares(out)
	return out
}

// cause finds a cause by its name.
func (c *causes) cause(name string) *cause {
	for i := range c.all {
		if c.all[i].name == name && c.all[i].kind != byCut {
			return &c.all[i]
		}
	}
	return nil
}

// plusWords is a cause's plus as a protractor or a rule shows it.
func (x *cause) plusWords() string {
	if x.kind == byAngle {
		deg := fmt.Sprintf("%.2g", x.plus*180/math.Pi)
		if deg == "1" {
			return "1 degree"
		}
		return deg + " degrees"
	}
	return fmt.Sprintf("%.2g mm", x.plus)
}

// watchSeam says which bend makes most of what a seam's widest gap varies by, and what it does where it does most.
func (w *work) watchSeam(s *fold.SeamSpread, m *seam) string {
	if s.Widest.High-s.Widest.Low < littleSpread {
		return ""
	}
	bends := byBend(s.Widest.Shares)
	if len(bends) == 0 || bends[0].Part < worthWatching {
		return w.watchRest(s.Widest.Shares)
	}
	top := bends[0]
	x := w.c.cause(top.Cause)
	if x == nil {
		return ""
	}
	at, worth := w.most(s, m, top.Cause)
	what := "its angle makes"
	if x.kind == byLine {
		what = "its line makes"
	}
	if len(x.bends) > 1 {
		what = "the angle they are turned to makes"
	}
	names := []string{}
	for _, b := range x.bends {
		names = append(names, w.part.Bends[b].Name)
	}
	if cuts := s.Widest.Shares[0]; cuts.Cause == "cut edges" && cuts.Part > 2*top.Part {
		return fmt.Sprintf("Marking and cutting the edges makes %s of it; of the bends watch %s.", fraction(cuts.Part), strings.TrimPrefix(bendWords(names), "bend "))
	}
	part := top.Part
	if len(bends) > 1 && bends[1].Part >= asMuch*top.Part && bends[1].Part >= worthWatching {
		if y := w.c.cause(bends[1].Cause); y != nil && y.kind == x.kind && len(x.bends) == 1 && len(y.bends) == 1 {
			names = append(names, w.part.Bends[y.bends[0]].Name)
			part += bends[1].Part
			what = map[kindOf]string{byAngle: "their angles make", byLine: "their lines make"}[x.kind]
		}
	}
	out := fmt.Sprintf("Watch %s: %s %s of it", bendWords(names), what, fraction(part))
	if math.Abs(worth) >= 0.05 {
		more, does := "too much", "open"
		if x.plusWords() == "1 degree" || x.kind == byLine {
			does = "opens"
		}
		if worth < 0 {
			more = "too little"
		}
		if x.kind == byLine {
			more = map[string]string{"too much": "further out", "too little": "nearer"}[more]
		}
		on := ""
		if len(names) > 1 && len(x.bends) == 1 {
			on = " on one of them"
		}
		out += fmt.Sprintf("; %s %s%s %s %s by %.1f mm", x.plusWords(), more, on, does, at, math.Abs(worth))
	}
	return out + "."
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
	up := math.Abs(w.rise(m)) > 0.3
	switch {
	case up && at == 0:
		return "the foot", worth
	case up && at == len(s.Along)-1:
		return "the top", worth
	case at == 0 || at == len(s.Along)-1:
		return "that end", worth
	}
	return "it", worth
}

// rise is how steeply a seam goes up: the upward part of its direction in the finished part.
func (w *work) rise(m *seam) float64 {
	return w.x.panels[m.side[0].panel].vector(m.e).z
}

// watchRest names what else makes most of it.
func (w *work) watchRest(s []fold.Share) string {
	if len(s) == 0 || s[0].Part < worthWatching {
		return ""
	}
	switch s[0].Cause {
	case "cut edges":
		return fmt.Sprintf("No bend to watch: marking and cutting the edges makes %s of it.", fraction(s[0].Part))
	case "thickness", "K":
		return fmt.Sprintf("No bend to watch: %s makes %s of it; measure it.", map[string]string{"thickness": "the sheet's thickness", "K": "K"}[s[0].Cause], fraction(s[0].Part))
	}
	return ""
}

// watchPart names the bend that makes most of what all seams' widest gaps vary by together, or holes where there is no seam.
func (w *work) watchPart() string {
	type sum struct {
		name  string
		vary  float64
		seams int
	}
	var all []sum
	total := 0.0
	add := func(s *fold.Spread) {
		d := s.High - s.Low
		total += d * d
		for _, x := range byBend(s.Shares) {
			i := slices.IndexFunc(all, func(y sum) bool { return y.name == x.Cause })
			if i < 0 {
				i = len(all)
				all = append(all, sum{name: x.Cause})
			}
			all[i].vary += x.Part * d * d
			if x.Part >= worthWatching && d >= littleSpread {
				all[i].seams++
			}
		}
	}
	what, n := "seams", 0
	for _, s := range w.out {
		if s != nil {
			add(&s.Widest)
			n++
		}
	}
	if n == 0 {
		what = "pairs of holes"
		for i := range w.paired {
			add(&w.paired[i].Distance)
			n++
		}
	}
	best := sum{}
	for _, x := range all {
		if x.vary > best.vary {
			best = x
		}
	}
	x := w.c.cause(best.name)
	if x == nil || best.seams == 0 || best.vary < worthWatching*total {
		return ""
	}
	names := []string{}
	for _, b := range x.bends {
		names = append(names, w.part.Bends[b].Name)
	}
	its := "its angle"
	if x.kind == byLine {
		its = "its line"
	}
	if len(names) > 1 {
		its = "their angle"
	}
	where := fmt.Sprintf("%d of %d %s hang on it", best.seams, n, what)
	if n == 1 {
		where = "the " + map[string]string{"seams": "seam hangs on it", "pairs of holes": "pair of holes hangs on it"}[what]
	} else if best.seams == 1 {
		where = fmt.Sprintf("1 of %d %s hangs on it", n, what)
	}
	return fmt.Sprintf("Watch %s: %s makes %s of what varies; %s.", bendWords(names), its, fraction(best.vary/total), where)
}
