package fold

// This file judges seams: JudgeSeams. joints.go says what joint a seam makes, fitup.go how wide it may be, judgewords.go puts it in words.

import (
	"fmt"
	"slices"
	"strings"

	"dryfold/fold/geom"
)

// seamRules are the rules of the troubles that JudgeSeams makes.
var seamRules = []string{"seam-join", "seam-wide", "seam-tight", "seam-overlap", "seam-step", "seam-no-figure", "seam-spread"}

// seamReport is what is measured of a seam, and how its maker closes it.
func (p *Part) seamReport(s Seam, g SeamGap) SeamReport {
	return SeamReport{
		Name: s.Name, A: p.Panels[s.A].Name, B: p.Panels[s.B].Name, Length: g.Length,
		GapMin: g.Min, GapMean: g.Mean, GapMax: g.Max, MinAt: g.MinAt, MaxAt: g.MaxAt,
		GapStart: g.AtStart, GapEnd: g.AtEnd, Taper: g.AtEnd - g.AtStart, Step: g.Step, Wanted: s.Wanted, Join: s.Join,
		Joint: g.Joint, Profile: g.Profile, Ticks: g.Ticks, Seam: s,
	}
}

// JudgeSeams gives each seam of a report its way, limit and State, adds the troubles of the seams, and Weld, the length of those to be
// welded. What an earlier call put there is taken back first, so that it can be called again once Spread stands in the seams.
//
// The widest gap decides, and the least; with Spread those that 95 of 100 parts stay within. Errors of hand and machine alone make
// a seam watch, never stop: all of that is told in one trouble, and what the exact part shows in one for each seam.
func (p *Part) JudgeSeams(r *Report) {
	j := seamJudge{part: p, stepped: map[string]bool{}}
	at := -1
	kept := r.Troubles[:0:0]
	for _, t := range r.Troubles {
		if slices.Contains(seamRules, t.Rule) {
			if at < 0 {
				at = len(kept)
			}
			continue
		}
		if t.Rule == "corner-step" { // it tells more of the same step
			j.stepped[t.Where.Seam] = true
		}
		kept = append(kept, t)
	}
	if at < 0 {
		at = slices.IndexFunc(kept, func(t TroubleReport) bool {
			return slices.Contains([]string{"corner-opens", "corner-step", "panels-overlap", "clash", "fouls-on-overbend"}, t.Rule)
		})
	}
	if at < 0 {
		at = len(kept)
	}
	j.joins(r)
	r.Weld = 0
	for i := range r.Seams {
		s := &r.Seams[i]
		j.seam(s)
		if s.Way == "weld" {
			r.Weld += s.Length
		}
	}
	j.noOverlaps()
	j.noFigures()
	j.spreads(r)
	r.Troubles = slices.Insert(kept, at, j.out.Troubles...)
	if r.Spread != nil {
		r.Spread.Weld = r.Weld
	}
}

type seamJudge struct {
	part    *Part
	out     Report          // of which only Troubles are used
	stepped map[string]bool // seams whose step is told as a corner's
	open    []*SeamReport   // nobody says how wide they may be
	bare    []*SeamReport   // to be riveted or spot welded, and nothing overlaps there
	loose   []looseSeam
}

// looseSeam is a seam that is within its limits by itself, and may not be so by errors of hand and machine.
type looseSeam struct {
	seam  *SeamReport
	wide  bool    // it may open past limit; else it may close past it
	may   float64 // the gap to which it may come
	limit float64
}

// past is by how much it may be past its limit.
func (x looseSeam) past() float64 {
	if x.wide {
		return x.may - x.limit
	}
	return x.limit - x.may
}

func (j *seamJudge) say(s *SeamReport, sev Severity, rule string, have, need float64, msg string) {
	j.set(s, sev)
	j.out.addTrouble(Trouble{sev, rule, "seam", s.Name, s.middle(), number(have), number(need), msg})
}

func (j *seamJudge) set(s *SeamReport, sev Severity) {
	if sev == Stop || s.State == "ok" {
		s.State = sev.String()
	}
}

// middle is a seam's place on the blank.
func (s *SeamReport) middle() geom.Vec2 { return s.Seam.EdgeA[0].Add(s.Seam.EdgeA[1]).Mul(0.5) }

// joins tells of names that are no seam's.
func (j *seamJudge) joins(r *Report) {
	var unknown []string
	for _, x := range j.part.Spec.Joins {
		if x.Seam != "" && !slices.ContainsFunc(r.Seams, func(s SeamReport) bool { return s.Name == x.Seam }) {
			unknown = append(unknown, x.Seam)
		}
	}
	if len(unknown) == 0 {
		return
	}
	j.out.addTrouble(Trouble{Watch, "seam-join", "", "", geom.Vec2{}, number(float64(len(unknown))), number(0), fmt.Sprintf(
		"It is said how %s to be closed, but the part has no such seam; say it of a seam that it has, or take it out.", isOrAre(listed(unknown)))})
}

// seam judges one seam.
func (j *seamJudge) seam(s *SeamReport) {
	p := j.part
	c := p.closing(s.Seam)
	l := p.gapLimit(s.Seam, c, s.Joint)
	s.Way, s.Process, s.Open = c.way, c.process, c.way == "open"
	s.Limit, s.LimitFrom, s.LimitKind, s.State = l.most, l.from, l.kind, "ok"
	if s.Open {
		return
	}
	if s.NoOverlap() {
		j.bare = append(j.bare, s)
	}
	widest, least := s.GapMax, s.GapMin
	if s.Spread != nil {
		widest, least = max(widest, s.Spread.Widest.High), min(least, s.Spread.Least.Low)
	}
	if s.GapMin < -ClashDepth {
		j.say(s, Stop, "seam-overlap", s.GapMin, 0, fmt.Sprintf(
			"At the seam %s the panels lie %.2f mm in each other; trim %s or %s by that much and the gap you want.", s.Name, -s.GapMin, s.A, s.B))
	}
	if l.most != nil {
		switch limit := *l.most; {
		case s.GapMax > limit+GapSolve:
			j.say(s, Watch, "seam-wide", s.GapMax, limit, j.wide(s, limit, l.from))
		case widest > limit+GapSolve:
			j.loose = append(j.loose, looseSeam{s, true, widest, limit})
		}
	} else if widest > noFigure*p.Thickness+GapSolve {
		j.open = append(j.open, s)
	}
	if s.GapMin >= -ClashDepth { // what lies in itself is told already
		switch {
		case l.least > 0 && s.GapMin < l.least-GapSolve:
			has, least := told(s.GapMin, l.least)
			j.say(s, Watch, "seam-tight", s.GapMin, l.least, fmt.Sprintf(
				"The seam %s closes to %s mm, where its weld wants %s mm at least: %s.", s.Name, has, least, l.leastFrom))
		case least < l.least-ClashDepth:
			j.loose = append(j.loose, looseSeam{s, false, least, l.least})
		}
	}
	// The faces of a lap are out of line by design.
	if most, why := p.stepLimit(c, s.Joint); s.Joint != jointLap && s.Step > most+GapSolve {
		if j.stepped[s.Name] {
			j.set(s, Watch)
		} else {
			has, limit := toldTo(2, s.Step, most)
			if why != "" {
				limit = "the " + limit + " mm of " + why
			} else {
				limit = "half the thickness"
			}
			j.say(s, Watch, "seam-step", s.Step, most, fmt.Sprintf(
				"At the seam %s the faces of %s and %s are %s mm out of line, more than %s: clamp the faces in line before %s.", s.Name, s.A, s.B, has, limit, closingWords(c.way)))
		}
	}
}

// noFigures tells of all seams that open and that nobody gives a limit for.
func (j *seamJudge) noFigures() {
	if len(j.open) == 0 {
		return
	}
	var names, why []string
	worst, drawn := j.open[0], 0
	most := noFigure * j.part.Thickness
	for _, s := range j.open {
		j.set(s, Watch)
		gap, _ := told(s.mayOpen(), most)
		if s.GapMax > most+GapSolve { // as drawn
			drawn++
			gap, _ = told(s.GapMax, most)
			names = append(names, fmt.Sprintf("%s (%s mm)", s.Name, gap))
		} else {
			names = append(names, fmt.Sprintf("%s (may open to %s mm)", s.Name, gap))
		}
		if !slices.Contains(why, s.LimitFrom) {
			why = append(why, s.LimitFrom)
		}
		if s.mayOpen() > worst.mayOpen() {
			worst = s
		}
	}
	list, n := listed(names)
	opens := "open or may open"
	switch drawn {
	case 0:
		opens = "may open"
	case n:
		opens = "open"
		if n == 1 {
			opens = "opens"
		}
	}
	j.out.addTrouble(Trouble{Watch, "seam-no-figure", "seam", worst.Name, worst.middle(), number(worst.mayOpen()), number(most), fmt.Sprintf(
		"%s %s past half the thickness, and nobody says how wide is too wide: %s. %s. Say the widest gap that you close, for each seam or for all.",
		seamCount(n), opens, list, sentence("%s", strings.Join(why, "; ")))})
}

// mayOpen is the widest gap, by 95 of 100 parts where that was worked out.
func (s *SeamReport) mayOpen() float64 {
	if s.Spread != nil {
		return max(s.GapMax, s.Spread.Widest.High)
	}
	return s.GapMax
}

// spreads tells of all seams that are within their limits but for errors of hand and machine.
func (j *seamJudge) spreads(r *Report) {
	if len(j.loose) == 0 {
		return
	}
	wide, tight, touch := 0, 0, 0
	worst := j.loose[0]
	for _, x := range j.loose {
		j.set(x.seam, Watch)
		switch {
		case x.wide:
			wide++
		case x.limit > 0:
			tight++
		default:
			touch++
		}
		// Those that open before those that close: more of them can be mended by nothing but care.
		if x.wide == worst.wide && x.past() > worst.past() || x.wide && !worst.wide {
			worst = x
		}
	}
	s := worst.seam
	var what []string
	each := func(n int, one, many string) {
		switch {
		case n == 1:
			what = append(what, seamCount(n)+" "+one)
		case n > 1:
			what = append(what, seamCount(n)+" "+many)
		}
	}
	each(wide, "may open past its limit", "may open past their limits")
	each(tight, "may come closer than its weld wants", "may come closer than their welds want")
	each(touch, "may touch before its panels are at their angles: be ready to dress the edge", "may touch before their panels are at their angles: be ready to dress the edge")
	may, limit := toldTo(2, worst.may, worst.limit)
	low, _ := toldTo(2, max(0, s.GapMin), worst.limit)
	msg := fmt.Sprintf("By the errors of hand and machine %s. Most of all %s: ", List(what), s.Name)
	switch {
	case worst.wide:
		msg += fmt.Sprintf("%.2f mm as drawn, 95 of 100 stay under %s mm, and the limit is %s mm.", max(0, s.GapMax), may, limit)
	case worst.limit > 0:
		msg += fmt.Sprintf("%s mm as drawn, 5 of 100 come under %s mm, and its weld wants %s mm.", low, may, limit)
	default:
		before, _ := toldTo(2, -worst.may, 0)
		msg += fmt.Sprintf("%s mm as drawn, and in 5 of 100 its panels meet %s mm too soon.", low, before)
	}
	if s.Spread.Watch != "" {
		msg += " " + s.Spread.Watch
	}
	j.out.addTrouble(Trouble{Watch, "seam-spread", "seam", s.Name, s.middle(), number(worst.may), number(worst.limit), msg})
}
