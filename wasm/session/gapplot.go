package session

// This file draws the gap along a seam: the exact gap as a line, what hand and machine make of it as a band, and what
// the joint allows as a ruled zone. gapaxes.go holds the axes and where words stand.

import (
	"fmt"
	"math"
	"strings"

	"dryfold/fold"
)

// The drawing's box, px.
const (
	PlotWide  = 320
	plotTall  = 216
	plotLeft  = 46 // room for the figures of gaps
	plotRight = 14
	plotTop   = 22
	plotFoot  = 48  // room for the figures of places and the ends' names
	letter    = 8.4 // of a letter's width at 16 px, bold, on the whole
	line      = 17  // of a line of words
)

// leastTall: the least range of gaps that is drawn over the whole height (mm): else a gap's last hundredth
// would look like a hill.
const leastTall = 0.4

// farLimit: a limit so many times as far as all that comes about is told, not drawn: the gap would be a line at the bottom.
const farLimit = 2.5

type gapPlot struct {
	g      *GapSheet
	u      fold.Units
	lo, hi float64 // range of gaps, mm
	long   float64 // mm
	words  [][4]float64
}

func (p *gapPlot) x(at float64) float64 {
	return plotLeft + (PlotWide-plotLeft-plotRight)*at/p.long
}

func (p *gapPlot) y(gap float64) float64 {
	return plotTop + (plotTall-plotTop-plotFoot)*(p.hi-gap)/(p.hi-p.lo)
}

func px(v float64) string { return trimmed(v, 1) }

func (p *gapPlot) at(at, gap float64) string { return px(p.x(at)) + " " + px(p.y(gap)) }

func (p *gapPlot) stroke(class, path string) {
	p.g.Marks = append(p.g.Marks, GapMark{Class: class, Path: path})
}

// level draws a line across at a gap.
func (p *gapPlot) level(class string, gap float64) {
	p.stroke(class, "M"+p.at(0, gap)+"H"+px(PlotWide-plotRight))
}

func drawGap(g *GapSheet, x *fold.SeamReport, ends [2]string, u fold.Units) {
	g.Tall = plotTall
	if len(x.Profile) < 2 || !(x.Length > 0) {
		g.Tall = 0
		return
	}
	p := &gapPlot{g: g, u: u, long: x.Length}
	limit := p.span(x)
	p.zone(x, limit)
	p.axes(ends)
	p.band(x)
	p.exact(x)
	p.figures(x)
	p.scale()
}

// span sets the range of gaps, and gives the limit that is drawn: NaN for none, +Inf for one that is above the drawing.
func (p *gapPlot) span(x *fold.SeamReport) float64 {
	lo, hi := 0.0, 0.0
	take := func(v float64) { lo, hi = min(lo, v), max(hi, v) }
	for _, q := range x.Profile {
		take(q.Gap)
	}
	if sp := x.Spread; sp != nil {
		for _, q := range sp.Along {
			take(q.Low)
			take(q.High)
		}
	}
	limit := math.NaN()
	if p.g.Limit {
		if limit = *x.Limit; limit <= farLimit*max(hi, leastTall) {
			take(limit)
		} else {
			limit = math.Inf(1)
		}
	}
	if lo > -0.005 { // nothing that shows lies under zero
		lo = 0
	}
	if room := leastTall - (hi - lo); room > 0 {
		hi += room
	}
	if lo < 0 {
		lo -= 0.08 * (hi - lo)
	}
	p.lo, p.hi = lo, hi+0.06*(hi-lo)
	return limit
}

// zone rules what the joint allows.
func (p *gapPlot) zone(x *fold.SeamReport, limit float64) {
	if math.IsNaN(limit) {
		return
	}
	top := min(limit, p.hi)
	from, to := p.y(top), p.y(0)
	var rules strings.Builder
	for y := to - 5; y > from; y -= 5 {
		fmt.Fprintf(&rules, "M%d %sH%d", plotLeft, px(y), PlotWide-plotRight)
	}
	p.stroke("zone", rules.String())
	if limit < p.hi {
		p.level("limit", limit)
		y := p.y(limit)
		p.words = append(p.words, [4]float64{plotLeft, y - 1, PlotWide, y + 1}) // no word is struck through by it
	}
}

// band draws 5 to 95 of 100, and 50.
func (p *gapPlot) band(x *fold.SeamReport) {
	if !p.g.Spread {
		return
	}
	var top, low, mid strings.Builder
	along := x.Spread.Along
	for i, q := range along {
		sep := "L"
		if i == 0 {
			sep = "M"
		}
		top.WriteString(sep + p.at(q.At, q.High))
		mid.WriteString(sep + p.at(q.At, q.Mid))
		b := along[len(along)-1-i]
		low.WriteString("L" + p.at(b.At, b.Low))
	}
	p.stroke("spread", top.String()+low.String()+"Z")
	p.stroke("mid", mid.String())
}

// exact draws the gap itself, heavier where it is wider than the joint allows or less than nothing.
func (p *gapPlot) exact(x *fold.SeamReport) {
	most := math.Inf(1)
	if p.g.Limit {
		most = *x.Limit
	}
	bad := func(gap float64) bool { return gap > most || gap < -fold.ClashDepth }
	var in, out strings.Builder
	for i := 1; i < len(x.Profile); i++ {
		a, b := x.Profile[i-1], x.Profile[i]
		cuts := []fold.GapPoint{a, b}
		for _, edge := range []float64{most, 0} { // pieces that lie wholly on one side of where it is no more allowed
			for k := 0; k+1 < len(cuts); k++ {
				if u, v := cuts[k], cuts[k+1]; (u.Gap-edge)*(v.Gap-edge) < 0 && !math.IsInf(edge, 1) {
					f := (edge - u.Gap) / (v.Gap - u.Gap)
					m := fold.GapPoint{At: u.At + (v.At-u.At)*f, Gap: edge}
					cuts = append(cuts[:k+1], append([]fold.GapPoint{m}, cuts[k+1:]...)...)
				}
			}
		}
		for k := 0; k+1 < len(cuts); k++ {
			to := &in
			if bad((cuts[k].Gap + cuts[k+1].Gap) / 2) {
				to = &out
			}
			if end := p.at(cuts[k].At, cuts[k].Gap); !strings.HasSuffix(to.String(), end) {
				to.WriteString("M" + end)
			}
			to.WriteString("L" + p.at(cuts[k+1].At, cuts[k+1].Gap))
		}
	}
	if in.Len() > 0 {
		p.stroke("exact", in.String())
	}
	if out.Len() > 0 {
		p.stroke("exact over", out.String())
	}
}

// figures marks the least and the widest gap, what 5 in 100 parts open past, and the limit.
func (p *gapPlot) figures(x *fold.SeamReport) {
	dot := func(at, gap float64) {
		p.stroke("dot", fmt.Sprintf("M%s %sm-4 0a4 4 0 1 0 8 0a4 4 0 1 0 -8 0", px(p.x(at)), px(p.y(gap))))
	}
	near := func(at, gap float64, above bool) (string, [][2]float64) {
		class, dx := "s", 7.0
		if at > p.long/2 {
			class, dx = "e", -7
		}
		x, y := p.x(at)+dx, p.y(gap)
		over, under, higher, lower := [2]float64{x, y - 8}, [2]float64{x, y + line + 2}, [2]float64{x, y - 8 - line}, [2]float64{x, y + 2*line + 2}
		if above {
			return class, [][2]float64{over, higher, under, lower}
		}
		return class, [][2]float64{under, lower, over, higher}
	}
	mark := func(words string, figure, at, gap float64, above bool) {
		class, places := near(at, gap, above)
		if x.State != "ok" && (figure < -fold.ClashDepth || p.g.Limit && figure > *x.Limit) {
			class += " " + x.State
		}
		p.free(class, words+" "+Gap(figure, p.u), places...)
	}
	dot(x.MaxAt, x.GapMax)
	if Gap(x.GapMax, p.u) == Gap(x.GapMin, p.u) {
		mark("all along", x.GapMax, x.MaxAt, x.GapMax, true)
	} else {
		dot(x.MinAt, x.GapMin)
		mark("widest", x.GapMax, x.MaxAt, x.GapMax, true)
		mark("least", x.GapMin, x.MinAt, x.GapMin, false)
	}
	if p.g.Spread {
		along := x.Spread.Along
		top := along[0]
		for _, q := range along {
			if q.High > top.High {
				top = q
			}
		}
		mark("5 in 100 over", x.Spread.Widest.High, top.At, top.High, true)
	}
	if p.g.Limit && *x.Limit < p.hi {
		y := p.y(*x.Limit)
		left, right := float64(plotLeft+6), float64(PlotWide-plotRight-4)
		text := "limit " + Gap(*x.Limit, p.u)
		wide := letter * float64(len(text))
		p.free("s acc", text, [2]float64{left, y - 5}, [2]float64{right - wide, y - 5}, [2]float64{left, y + 16}, [2]float64{right - wide, y + 16}, [2]float64{(left + right - wide) / 2, y - 5})
	} else if p.g.Limit {
		p.free("e acc", "limit "+Gap(*x.Limit, p.u)+", above", [2]float64{PlotWide - plotRight - 4, plotTop - 6})
	}
}

// scale says how much longer gaps are drawn than lengths.
func (p *gapPlot) scale() {
	f := (p.y(p.lo) - p.y(p.hi)) / (p.hi - p.lo) / ((p.x(p.long) - p.x(0)) / p.long)
	switch {
	case f > 1.05:
		p.g.Scale = fmt.Sprintf("Gaps are drawn %s times as long as lengths along the seam.", two(f))
	case f < 0.95:
		p.g.Scale = fmt.Sprintf("Gaps are drawn %s times shorter than lengths along the seam.", two(1/f))
	}
}
