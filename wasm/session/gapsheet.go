package session

// This file says how a seam is shown, in plain numbers and words, from its report. gapplot.go draws the gap along the seam.

import (
	"fmt"
	"math"

	"dryfold/fold"
)

// GapSheet is all that is told of an opened seam.
type GapSheet struct {
	Tall    float64 // of the drawing, px; it is PlotWide wide
	Marks   []GapMark
	Scale   string      // how much longer gaps are drawn than lengths, in words; "" where they are drawn alike
	Verdict [][2]string // severity (or "" while it is worked out) and a sentence
	Facts   [][2]string
	Source  string     // where the limit is from, or why there is none
	Table   [][]string // gaps at places; the first row is the head
	Shares  []GapShare // what makes the spread of the widest gap, the largest first
	Spread  bool       // the spread is in it
	Limit   bool       // and the joint's limit
}

// GapMark is a stroke or a word of the drawing, in px, y downwards.
type GapMark struct {
	Class string
	Path  string  // of a stroke
	X, Y  float64 // of a word: where it begins, or ends or has its middle by its class
	Text  string
}

// GapShare is how much of the spread a cause makes.
type GapShare struct {
	Cause  string
	Part   float64 // 0 to 1
	Figure string  // "62 %, ±0.31 mm"
}

// GapSheet is how a seam of the report is shown, in the units shown.
func (s *Session) GapSheet(seam int) *GapSheet {
	return drawSeam(s.part, &s.report, seam, s.SpreadKnown(), s.units)
}

func drawSeam(p *fold.Part, r *fold.Report, seam int, known bool, u fold.Units) *GapSheet {
	x := &r.Seams[seam]
	ends := p.Ends(x)
	g := &GapSheet{Limit: x.Limit != nil && !x.Open, Spread: x.Spread != nil && len(x.Spread.Along) > 1}
	g.Verdict = seamVerdict(r, x, known, u)
	g.Facts = seamFacts(x, ends, u)
	if !x.Open && x.LimitFrom != "" {
		g.Source = "The limit: " + fold.InUnits(x.LimitFrom, u) + "."
	}
	g.Table = seamTable(x, ends, u)
	if x.Spread != nil {
		for _, h := range x.Spread.Widest.Shares {
			if h.Cause == "together" {
				h.Cause = "several of them together"
			}
			figure := fmt.Sprintf("%.0f %%", 100*h.Part)
			if h.Worth != 0 {
				figure += fmt.Sprintf(", ±%s %s", Gap(math.Abs(h.Worth), u), u)
			}
			g.Shares = append(g.Shares, GapShare{Title(h.Cause), h.Part, figure})
		}
	}
	drawGap(g, x, ends, u)
	return g
}

// seamVerdict says what is to be thought of a seam: its own troubles, what hand and machine may make of it, else that it is in order.
// known says whether the errors of hand and machine have been reckoned with.
func seamVerdict(r *fold.Report, x *fold.SeamReport, known bool, u fold.Units) (out [][2]string) {
	say := func(state, words string) { out = append(out, [2]string{state, words}) }
	if x.Open {
		say("ok", "Left open: its gap is no trouble.")
		return out
	}
	if x.NoOverlap() {
		say("watch", "There is no overlap here to "+map[string]string{"rivet": "rivet", "spot": "spot weld"}[x.Way]+" through. Give one panel a tab, or close it in another way.")
	}
	bad := false
	for _, t := range r.Troubles {
		if t.Where.Seam == x.Name && badAsDrawn(t.Rule) {
			bad = true
		}
		if t.Where.Seam == x.Name && t.Rule != "seam-spread" && t.Rule != "seam-no-figure" && t.Rule != "seam-join" { // those speak of many seams
			say(t.Severity, seamWords(&t, x, u))
		}
	}
	told := len(out) > 0
	gap := func(mm float64) string { return Gap(mm, u) + " " + u.String() }
	high, low := x.GapMax, x.GapMin
	if x.Spread != nil {
		high, low = max(high, x.Spread.Widest.High), min(low, x.Spread.Least.Low)
	}
	switch {
	case x.Limit == nil && x.State != "ok":
		say(x.State, "Nobody says how wide is too wide. Say the widest gap that you close, below, or judge it by eye.")
	case x.Limit == nil:
		words := "It hardly opens, but nobody says how wide it may be."
		if !known {
			words = "As drawn it hardly opens. What hand and machine make of it is being worked out, and nobody says how wide it may be."
		}
		say("note", words)
	case !bad && x.GapMax <= *x.Limit && high > *x.Limit:
		say("watch", fmt.Sprintf("As drawn it closes. With errors of hand and machine it may not: 5 in 100 parts open to more than %s, and the limit is %s.", gap(high), gap(*x.Limit)))
	case told:
	case x.State != "ok" && low < x.GapMin:
		say(x.State, fmt.Sprintf("As drawn it closes. With errors of hand and machine its edges may come too near: 5 in 100 parts close to less than %s.", gap(low)))
	case x.Spread != nil:
		say(x.State, fmt.Sprintf("It closes: all but 5 in 100 parts stay under %s, and %s can be closed.", gap(high), gap(*x.Limit)))
	case known:
		say("note", "As drawn it closes. What hand and machine make of it can’t be worked out here.")
	default:
		say("", "As drawn it closes. What hand and machine make of it is being worked out.")
	}
	// Care with a bend mends only what is in order as drawn.
	if x.Spread != nil && x.Spread.Watch != "" && x.State != "ok" && !bad {
		say("note", fold.InUnits(x.Spread.Watch, u))
	}
	return out
}

func seamFacts(x *fold.SeamReport, ends [2]string, u fold.Units) [][2]string {
	unit := " " + u.String()
	out := [][2]string{}
	add := func(name, words string) { out = append(out, [2]string{name, words}) }
	if !x.Open {
		limit := "nobody says"
		if x.Limit != nil && *x.Limit == 0 {
			limit = "edges must touch, " + x.LimitKind
		} else if x.Limit != nil {
			limit = Gap(*x.Limit, u) + unit + ", " + x.LimitKind
		}
		add("Limit", limit)
	}
	if x.Wanted != nil {
		add("Wanted gap", Gap(*x.Wanted, u)+unit)
	}
	taper := "none"
	if flat := Gap(0, u); Gap(math.Abs(x.Taper), u) != flat {
		taper = fmt.Sprintf("%s%s wider %s", Gap(math.Abs(x.Taper), u), unit, fold.AtEnd(ends[map[bool]int{false: 0, true: 1}[x.Taper > 0]]))
	}
	add("Taper", taper)
	add("Step of the faces", Gap(x.Step, u)+unit)
	return out
}

// seamTable gives the gap at the ends and the middle, the least and the widest, with what it comes out as where that is known.
func seamTable(x *fold.SeamReport, ends [2]string, u fold.Units) [][]string {
	var along [3]*fold.Spread
	var least, widest *fold.Spread
	head := []string{"", "Exact"}
	if sp := x.Spread; sp != nil && len(sp.Along) > 0 {
		head = append(head, "5 in 100 tighter", "Half", "5 in 100 wider")
		least, widest = &sp.Least, &sp.Widest
		for i, at := range []float64{0, x.Length / 2, x.Length} {
			s := spreadAt(sp.Along, at)
			along[i] = &s
		}
	}
	out := [][]string{head}
	row := func(name string, exact float64, s *fold.Spread) {
		list := []string{name, Gap(exact, u)}
		if s != nil {
			list = append(list, Gap(s.Low, u), Gap(s.Mid, u), Gap(s.High, u))
		}
		out = append(out, list)
	}
	row(Title(ends[0]), x.GapStart, along[0])
	row("Middle", gapAt(x.Profile, x.Length/2), along[1])
	row(Title(ends[1]), x.GapEnd, along[2])
	row("Least", x.GapMin, least)
	row("Widest", x.GapMax, widest)
	return out
}

// gapAt is the gap at a place by a profile; at a jump the one before it.
func gapAt(profile []fold.GapPoint, at float64) float64 {
	for i, b := range profile {
		switch {
		case b.At < at:
		case i == 0 || b.At == at:
			return b.Gap
		default:
			a := profile[i-1]
			return a.Gap + (b.Gap-a.Gap)*(at-a.At)/(b.At-a.At)
		}
	}
	if n := len(profile); n > 0 {
		return profile[n-1].Gap
	}
	return 0
}

// spreadAt is the spread at a place, straight between those that were worked out.
func spreadAt(along []fold.SpreadPoint, at float64) fold.Spread {
	for i, b := range along {
		switch {
		case b.At < at:
		case i == 0 || b.At == at:
			return b.Spread
		default:
			a := along[i-1]
			f := (at - a.At) / (b.At - a.At)
			mix := func(x, y float64) float64 { return x + (y-x)*f }
			return fold.Spread{Low: mix(a.Low, b.Low), Mid: mix(a.Mid, b.Mid), High: mix(a.High, b.High), Exact: mix(a.Exact, b.Exact)}
		}
	}
	return along[len(along)-1].Spread
}
