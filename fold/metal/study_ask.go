package metal

// This file holds what a bend asks of a study: its K, its inside radius, its set angle.

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// K is the K that the strips give a bend of an inside radius in sheet of a thickness (mm), with
// its spread (see Study) and where it comes from. Strips of that radius give it directly; else,
// between tested R/T, it is K = a + b*log10(R/T), fitted. Strips of which no radius is known give
// the K that with this radius makes the deduction they showed, and why then says for which
// angles. ok is false, and why says so in a sentence, where the strips don't reach.
func (s Study) K(radius, thickness float64) (k, spread float64, src Source, ok bool, why string) {
	if !(radius >= 0 && radius <= MaxLength) || !(thickness >= MinThickness && thickness <= MaxLength) {
		return 0, 0, Source{}, false, "An inside radius of 0 mm or more and a thickness over 0 mm are needed."
	}
	lengths := func(g Group) bool { return g.Lengths > 0 }
	if g, ok := s.any(lengths); !ok {
		return 0, 0, Source{}, false, "No test bend has a strip's length and both legs that can be used."
	} else if !sameThickness(thickness, s.Thickness) {
		return 0, 0, Source{}, false, fmt.Sprintf("The strips are %s thick, not %s.", inMM(s.Thickness), inMM(thickness))
	} else if g, ok = s.near(radius, lengths); ok {
		if other, found := s.near(radius, func(g Group) bool { return g.Lengths > 0 && !badK(g.K) }); found {
			g = other
		}
		k, spread = g.K, g.KSpread
		if g.RadiusFrom == "fitted" {
			m, _, _ := kAt(g.rows, radius)
			k, spread = m.at, m.doubt
		}
		return s.sound(k, spread, s.source(g, g.Lengths), radius, "")
	}
	ratio := radius / thickness
	if s.lined && ratio >= s.line.from && ratio <= s.line.to {
		m := s.line.at(ratio)
		n, from, to := 0, math.Inf(1), 0.0
		for _, g := range s.Groups {
			if g.onLine() {
				n, from, to = n+g.Lengths, math.Min(from, g.Radius), math.Max(to, g.Radius)
			}
		}
		src = Source{Kind: Measured, Title: fmt.Sprintf("%s, R %s to %s, K drawn between by R/T", strips(n), inMM(from), inMM(to))}
		return s.sound(m.at, m.doubt, src, radius, "")
	}
	if g, ok := s.unknown(); ok && g.Lengths > 0 {
		m, _, _ := kAt(g.rows, radius)
		src = s.source(g, g.Lengths)
		at := between(shortest(g.Angles[0], 0), shortest(g.Angles[1], 0)) + " degrees"
		src.Title += ", at " + at
		return s.sound(m.at, m.doubt, src, radius, fmt.Sprintf("The strips' inside radius is not known: this K gives the right lengths with R %s at %s; at other angles it may not.",
			inMM(radius), at))
	}
	return 0, 0, Source{}, false, s.beyond(radius, lengths)
}

// sound refuses a K that no metal has.
func (s Study) sound(k, spread float64, src Source, radius float64, note string) (float64, float64, Source, bool, string) {
	if badK(k) || math.IsInf(spread, 0) || math.IsNaN(spread) {
		return 0, 0, Source{}, false, fmt.Sprintf("With R %s the strips give K %s (give or take %s), and it lies between 0 and 0.6: measure the inside radius and the legs again.",
			inMM(radius), shortest(k, 2), shortest(spread, 2))
	}
	return k, spread, src, true, note
}

// beyond says which radii were tested where one was not.
func (s Study) beyond(radius float64, use func(Group) bool) string {
	var tested []string
	for _, n := range s.noses {
		if len(n.of) == 1 && math.Abs(n.nose-radius) <= RadiusSame && slices.ContainsFunc(s.Groups, func(g Group) bool { return use(g) && g.Radius == n.of[0] }) {
			return fmt.Sprintf("On the nose of %s the strips came out with an inside radius of %s, not %s: give the bend that radius.", inMM(n.nose), inMM(n.of[0]), inMM(radius))
		}
	}
	for _, g := range s.Groups {
		if g.RadiusFrom == "" || !use(g) {
			continue
		}
		tested = append(tested, inMM(g.Radius))
	}
	return fmt.Sprintf("The strips have an inside radius of %s; R %s needs strips of its own, or strips of a smaller and a larger radius.", strings.Join(tested, ", "), inMM(radius))
}

// Radius is the inside radius that bends on a nose (mm) came out with: as measured on the strips, or
// as strips of several angles fix it. ok is false, and why says so, where the strips don't tell.
func (s Study) Radius(on float64) (radius, spread float64, src Source, ok bool, why string) {
	var best *nose
	for i := range s.noses {
		n := &s.noses[i]
		if sameNose(n.nose, on) && (best == nil || math.Abs(n.nose-on) < math.Abs(best.nose-on)) {
			best = n
		}
	}
	if best == nil {
		return 0, 0, Source{}, false, fmt.Sprintf("No strip bent on a nose of %s tells its inside radius: measure it with a gauge or a drill shank.", inMM(on))
	}
	return best.radius.at, best.radius.doubt, s.source(Group{RadiusFrom: "measured", Radius: best.radius.at, Brakes: best.brakes}, best.strips), true, ""
}

// Set is the angle to stop the leaf at (degrees) for a bend of an angle and inside radius in sheet of a
// thickness (mm), by the strips that noted it, with its doubt: half the width of the range in which it
// lies (see Study), never under AngleError. The finished angle over the set angle is taken the same for
// all angles; src says which were tested where the asked one is over AngleFar from all of
// them. ok is false without such strips of that radius and thickness, and for hems and where the set angle
// would be 180 degrees or more.
func (s Study) Set(angleDeg, radius, thickness float64) (set, doubt float64, src Source, ok bool) {
	sets := func(g Group) bool { return g.Sets > 0 }
	if !(angleDeg > 0 && angleDeg < 180) || !sameThickness(thickness, s.Thickness) {
		return 0, 0, Source{}, false
	}
	g, ok := s.near(radius, sets)
	if !ok {
		if g, ok = s.unknown(); !ok || g.Sets == 0 {
			return 0, 0, Source{}, false
		}
	}
	set = angleDeg / g.Ratio
	if !(set < 180) {
		return 0, 0, Source{}, false
	}
	src = s.source(g, g.Sets)
	if angleDeg < g.SetAngles[0]-AngleFar || angleDeg > g.SetAngles[1]+AngleFar {
		src.Title += ", tested only at " + between(shortest(g.SetAngles[0], 1), shortest(g.SetAngles[1], 1)) + " degrees, far from this angle"
	}
	return set, math.Max(AngleError, set*g.RatioSpread/g.Ratio), src, true
}

// any is the first group of use.
func (s Study) any(use func(Group) bool) (Group, bool) {
	for _, g := range s.Groups {
		if use(g) {
			return g, true
		}
	}
	return Group{}, false
}

// near is the group of use whose radius is the asked one to within RadiusSame, or what a fitted one is in doubt by.
func (s Study) near(radius float64, use func(Group) bool) (Group, bool) {
	var best Group
	off, found := math.Inf(1), false
	for _, g := range s.Groups {
		reach := RadiusSame
		if g.RadiusFrom == "fitted" {
			reach = math.Max(reach, g.RadiusSpread)
		}
		d := math.Abs(g.Radius - radius)
		if g.RadiusFrom != "" && use(g) && d <= reach && (d < off || d == off && g.KSpread < best.KSpread) {
			best, off, found = g, d, true
		}
	}
	return best, found
}

// unknown is the group of the strips whose inside radius is not known; it is the last.
func (s Study) unknown() (Group, bool) {
	if n := len(s.Groups); n > 0 && s.Groups[n-1].RadiusFrom == "" {
		return s.Groups[n-1], true
	}
	return Group{}, false
}

// source names what a group's figures were measured on: "3 strips, R 1 mm, brake bench".
func (s Study) source(g Group, n int) Source {
	t := strips(n)
	switch g.RadiusFrom {
	case "measured", "fitted":
		t += ", R " + inMM(g.Radius)
	case "nose":
		t += ", nose " + inMM(g.Radius)
	}
	if len(g.Brakes) == 1 {
		t += ", brake " + g.Brakes[0]
	} else if len(g.Brakes) > 1 {
		t += ", brakes " + strings.Join(g.Brakes, ", ")
	}
	return Source{Kind: Measured, Title: t}
}

func strips(n int) string {
	if n == 1 {
		return "1 strip"
	}
	return fmt.Sprintf("%d strips", n)
}

// onLine reports whether the group counts for K over R/T.
func (g Group) onLine() bool { return g.KSpread > 0 && g.Radius > 0 && !badK(g.K) }

// drawLine fits K over log10(R/T) to the groups that know both.
func (s *Study) drawLine() {
	var ratios []float64
	var ks []value
	for _, g := range s.Groups {
		if g.onLine() {
			ratios, ks = append(ratios, g.Radius/s.Thickness), append(ks, value{g.K, g.KSpread})
		}
	}
	if s.line, s.lined = fitLine(ratios, ks); !s.lined {
		return
	}
	s.Words = append(s.Words, fmt.Sprintf("Between R/T %s and %s, K is %s %s log10(R/T) by these strips.",
		shortest(s.line.from, 2), shortest(s.line.to, 2), shortest(s.line.a, 3), signed(s.line.b)))
	if s.line.up > outlierReading {
		s.Words = append(s.Words, "The K of the several radii don't lie on that line to within their spreads: take strips of the very radius.")
	}
}

func signed(v float64) string {
	if v < 0 {
		return "- " + shortest(-v, 3)
	}
	return "+ " + shortest(v, 3)
}

// say gives each strip that nothing was said of its sentence, and names brakes that were taken together.
func (s *Study) say(strips []Strip) {
	for i, t := range strips {
		v := &s.Strips[i]
		if len(v.Words) > 0 {
			continue
		}
		var what []string
		if v.KSpread > 0 {
			g := s.Groups[v.Group]
			what = append(what, fmt.Sprintf("K %s with R %s (%s to %s by what the readings may be out by)", shortest(v.K, 2), inMM(g.Radius), shortest(v.K-v.KSpread, 2), shortest(v.K+v.KSpread, 2)))
		} else if t.Length > 0 {
			what = append(what, fmt.Sprintf("a deduction of %s at %s", inMM(v.Deduction), inDegrees(t.Angle)))
		}
		if v.Ratio > 0 {
			what = append(what, fmt.Sprintf("set to %s, it came back to %s", inDegrees(*t.Set), inDegrees(t.Angle)))
		}
		text := v.Name + ": " + strings.Join(what, "; ") + "."
		if v.KSpread > 0 && badK(v.K) {
			text += " K lies between 0 and 0.6; with the other strips it counts for what it is."
		}
		v.Words = []string{text}
	}
	for _, g := range s.Groups {
		if len(g.Brakes) > 1 {
			w := "Strips of several brakes are taken together: " + strings.Join(g.Brakes, ", ") + ". If they differ, keep those of the brake that the part will be bent on."
			s.Words, s.Faults = append(s.Words, w), append(s.Faults, w)
		}
	}
}
