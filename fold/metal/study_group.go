package metal

// This file holds what the strips of one inside radius come to, and what is said when they are at odds.

import (
	"fmt"
	"math"
)

// group draws radius, K, deduction and overbend from the strips of one measured radius, or of one nose, or of
// no known radius.
func (s *Study) group(strips []Strip, members []int) Group {
	g := Group{Strips: members}
	several := false
	var radii []value
	for _, i := range members {
		t := strips[i]
		if t.Radius != nil {
			radii = append(radii, value{*t.Radius, RadiusError})
		}
		g.Brakes = withBrake(g.Brakes, t.Brake)
		if g.Nose == 0 {
			g.Nose = t.Nose
		}
		several = several || t.Nose > 0 && !sameNose(t.Nose, g.Nose)
	}
	if several {
		g.Nose = 0
	}
	switch {
	case len(radii) > 0:
		m, _ := mean(radii)
		if len(radii) > 1 {
			m.doubt *= readingMargin
		}
		g.Radius, g.RadiusSpread, g.RadiusFrom = math.Max(0, m.at), m.doubt, "measured"
		if lo, hi := ends(radii); hi-lo > 2*RadiusError*(1+1e-9) {
			g.fault("The inside radii measured on %s differ by more than a gauge is out by: %s. Measure them again.",
				s.listed(members), spanMM(radii))
		}
	case g.Nose > 0:
		g.Radius, g.RadiusFrom = g.Nose, "nose"
	}
	var rows []row
	for _, i := range members {
		if t := strips[i]; t.Length > 0 {
			r := t.row(t.guess())
			r.strip = i
			rows = append(rows, r)
			s.Strips[i].Deduction = r.y + r.outer
		}
	}
	if len(rows) > 0 {
		if g.RadiusFrom == "measured" || !s.fitRadius(&g, rows) {
			s.fitK(&g, rows, strips)
		}
		s.lengths(&g, strips)
	}
	s.overbend(&g, strips)
	g.Says = g.says()
	return g
}

// fault is a word of strips that can't all be right.
func (g *Group) fault(format string, args ...any) {
	g.word(format, args...)
	g.faults = append(g.faults, g.words[len(g.words)-1])
}

func (g *Group) word(format string, args ...any) {
	g.words = append(g.words, fmt.Sprintf(format, args...))
}

// fitRadius draws R and K together where the angles tell them apart and no radius is known, or the nose's
// is less than what the strips speak of. It reports whether it did.
func (s *Study) fitRadius(g *Group, rows []row) bool {
	off := offBoth(rows)
	var kept []row
	for i, r := range rows {
		if !off[i] {
			kept = append(kept, r)
		}
	}
	fit, ok := fitBoth(kept)
	if !ok || g.RadiusFrom == "nose" && fit.r.at-outlierReading*fit.r.doubt <= g.Nose {
		return false
	}
	if fit.r.at+fit.r.doubt < 0 || fit.k.at+fit.k.doubt < 0 || fit.k.at-fit.k.doubt > MaxK {
		g.fault("%s together speak of an inside radius of %s and K %.2f, which no bend has: they contradict each other. Measure them again, the inside radius too.",
			s.listed(g.Strips), inMM(fit.r.at), fit.k.at)
		return false
	}
	if g.RadiusFrom == "nose" {
		g.word("The nose is %s, but the strips speak of an inside radius of %s (give or take %s). That one is used; measure it.",
			inMM(g.Nose), inMM(fit.r.at), inMM(fit.r.doubt))
	}
	g.Radius, g.RadiusSpread, g.RadiusFrom = math.Max(0, fit.r.at), fit.r.doubt, "fitted"
	g.K, g.KSpread, g.rows = fit.k.at, fit.k.doubt, kept
	for i, r := range rows {
		if off[i] {
			rest := r.y - r.deduction(fit.r.at, fit.k.at)
			than := "longer"
			if rest < 0 {
				than = "shorter"
			}
			s.leave(r.strip, "the legs are together %s %s than the others' radius %s and K %.2f make them", inMM(math.Abs(rest)), than, inMM(g.Radius), fit.k.at)
		}
	}
	if fit.scatter > outlierReading {
		g.fault("%s contradict each other: no inside radius and K fit them to within what %s and a protractor are out by. Measure them again, or bend one more.", s.listed(g.Strips), readers(rows))
	}
	if g.RadiusSpread > g.Radius/2 && g.RadiusSpread > RadiusSame {
		g.word("From these angles the inside radius is only known as %s give or take %s. Measure it with a gauge or a drill shank, or bend strips of angles further apart.",
			inMM(g.Radius), inMM(g.RadiusSpread))
	}
	return true
}

// kAt is what the rows say of K with a radius.
func kAt(rows []row, radius float64) (m value, scatter float64, each []value) {
	for _, r := range rows {
		k, doubt := r.k(radius)
		each = append(each, value{k, doubt})
	}
	m, scatter = mean(each)
	return m, scatter, each
}

// slopeK is how K grows with the radius it goes with, per mm.
func slopeK(rows []row) float64 {
	a, _, _ := kAt(rows, 0)
	b, _, _ := kAt(rows, 1)
	return b.at - a.at
}

// fitK draws K with the group's radius; where none is known, whether the strips agree is judged with a radius
// of one thickness, which shifts them all alike.
func (s *Study) fitK(g *Group, rows []row, strips []Strip) {
	radius := g.Radius
	if g.RadiusFrom == "" {
		radius = s.Thickness
	}
	_, _, each := kAt(rows, radius)
	off := outliers(each)
	var others []value
	for i, r := range rows {
		if !off[i] {
			g.rows = append(g.rows, r)
			others = append(others, each[i])
		}
	}
	unknown := g.RadiusFrom == ""
	for i, r := range rows {
		switch {
		case !off[i]:
		case unknown:
			extra := (each[i].at - middle(others)) * -r.angle * r.thickness
			than := "longer"
			if extra < 0 {
				than = "shorter"
			}
			s.leave(r.strip, "the legs are together %s %s than the others' make them", inMM(math.Abs(extra)), than)
		default:
			s.leave(r.strip, "it gives K %s where the others give %s", shortest(each[i].at, 2), span(others))
		}
	}
	m, scatter, _ := kAt(g.rows, radius)
	if scatter > outlierReading {
		what := "K " + span(others) + " with R " + inMM(radius)
		if unknown {
			what = "as if K were " + span(others)
		}
		do := "Measure them again, or bend one more."
		if len(g.rows) == 2 {
			do = "Measure both again, or bend a third."
		}
		var of []int
		for _, r := range g.rows {
			of = append(of, r.strip)
		}
		g.fault("%s contradict each other: %s, more than %s and a protractor are out by. %s", s.listed(of), what, readers(g.rows), do)
	}
	if unknown {
		return
	}
	up := slopeK(g.rows)
	g.K, g.KSpread = m.at, math.Hypot(m.doubt, up*g.RadiusSpread)
	if badK(g.K) {
		from := "the inside radius was measured as"
		if g.RadiusFrom == "nose" {
			from = "the inside radius is taken for the nose's,"
		}
		if most := greatestAngle(strips, g.Strips); most < angleTells || g.Radius+math.Max(-g.K/up, (MaxK-g.K)/up) <= 0 {
			g.word("%s: bent by no more than %s, too little to tell K or the inside radius; with R %s K would be %s give or take %s. Bend a strip to 90 degrees.",
				s.listed(g.Strips), inDegrees(most), inMM(g.Radius), shortest(g.K, 2), shortest(g.KSpread, 2))
			return
		}
		lo, hi := g.Radius-g.K/up, g.Radius+(MaxK-g.K)/up
		if lo > hi {
			lo, hi = hi, lo
		}
		g.fault("%s: %s %s, and K would be %s; it lies between 0 and 0.6. With these legs the inside radius is %s to %s. Measure it.",
			s.listed(g.Strips), from, inMM(g.Radius), shortest(g.K, 2), inMM(math.Max(0, lo)), inMM(math.Max(0, hi)))
	} else if g.RadiusFrom == "nose" {
		g.word("K %s goes with R %s, the nose's: what the bend itself measures inside is not known. Measure it, and bends of other angles come out right too.", shortest(g.K, 2), inMM(g.Radius))
	}
}

// greatestAngle is that of the strips with lengths.
func greatestAngle(strips []Strip, of []int) (most float64) {
	for _, i := range of {
		if strips[i].Length > 0 {
			most = math.Max(most, strips[i].Angle)
		}
	}
	return most
}

// lengths fills in what the strips with lengths come to by themselves and at one angle.
func (s *Study) lengths(g *Group, strips []Strip) {
	g.Lengths = len(g.rows)
	g.Angles = [2]float64{math.Inf(1), 0}
	var at, thick float64
	for _, r := range g.rows {
		a := strips[r.strip].Angle
		g.Angles = [2]float64{math.Min(g.Angles[0], a), math.Max(g.Angles[1], a)}
		at, thick = at+a/float64(len(g.rows)), thick+r.thickness/float64(len(g.rows))
		if g.RadiusFrom != "" {
			v := &s.Strips[r.strip]
			v.K, v.KSpread = r.k(g.Radius)
		}
	}
	if g.Angles[1]-g.Angles[0] <= AnglesSame {
		radius := g.Radius
		if g.RadiusFrom == "" {
			radius = thick
		}
		k, _, _ := kAt(g.rows, radius)
		g.Deduction = Deduction(at, radius, thick, k.at)
		g.DeductionSpread = k.doubt * at * degree * thick
	}
	if g.RadiusFrom != "" {
		return
	}
	if g.DeductionSpread > 0 {
		all := "all bent to about %s: they fix"
		if len(g.rows) == 1 {
			all = "bent to about %s: it fixes"
		}
		g.word("%s, "+all+" the deduction for bends of that angle, %s give or take %s. Which inside radius and K share it out doesn't matter for those; for bends of other angles measure the radius, or bend strips of an angle well away from this one.",
			s.listed(g.Strips), inDegrees(math.Round(at)), inMM(g.Deduction), inMM(g.DeductionSpread))
	} else if len(g.rows) > 1 && !tellApart(g.rows) {
		g.word("%s: their angles are too alike to tell the inside radius from K. Measure the radius, or bend strips of angles further apart, 90 and 135 degrees say.", s.listed(g.Strips))
	}
}

// overbend draws the finished angle over the set angle: for a given radius and thickness it is taken the same
// for all angles, as (2 Ri/T + 1)/(2 Rf/T + 1) is (Kalpakjian & Schmid, from memory).
func (s *Study) overbend(g *Group, strips []Strip) {
	var of []int
	var each []value
	for _, i := range g.Strips {
		t := strips[i]
		if t.Set == nil {
			continue
		}
		ratio := t.Angle / *t.Set
		s.Strips[i].Ratio = ratio
		of = append(of, i)
		each = append(each, value{ratio, ratio * math.Hypot(AngleError/t.Angle, AngleError / *t.Set)})
	}
	if len(of) == 0 {
		return
	}
	off := outliers(each)
	var kept []value
	var used []int
	g.SetAngles = [2]float64{math.Inf(1), 0}
	for n, i := range of {
		if !off[n] {
			kept, used = append(kept, each[n]), append(used, i)
			g.SetAngles = [2]float64{math.Min(g.SetAngles[0], strips[i].Angle), math.Max(g.SetAngles[1], strips[i].Angle)}
		}
	}
	for n, i := range of {
		if !off[n] {
			continue
		}
		v := &s.Strips[i]
		v.Words = append(v.Words, fmt.Sprintf("%s came back to %s of its set angle where the others came back to %s: measure it again or leave it out. Its set angle was left out.",
			v.Name, percent(each[n:n+1]), percent(kept)))
		if strips[i].Length == 0 {
			v.State = "left out"
		}
	}
	m, scatter := mean(kept)
	g.Sets, g.Ratio, g.RatioSpread = len(kept), math.Min(m.at, 1), m.doubt
	if scatter > outlierReading {
		g.fault("%s contradict each other: they came back to %s of their set angles, more than a protractor is out by. Bend one more.", s.listed(used), percent(kept))
	}
}
