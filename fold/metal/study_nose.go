package metal

// This file holds what noses tell: which radius bends on one come out with, and which strips a known radius leaves aside.

import (
	"fmt"
	"math"
	"strings"
)

// nose is the inside radius that bends on one nose came out with.
type nose struct {
	nose   float64
	radius value
	strips int
	brakes []string
	of     []float64 // the radii of the groups that it was drawn from
}

// compareNoses draws the radius of every nose from the strips that measured it, else from a group that fitted it, and says where
// measured ones differ by more than a gauge is out by.
func (s *Study) compareNoses(strips []Strip) {
	var seen []float64
	for i, t := range strips {
		if s.Strips[i].State != "impossible" && t.Nose > 0 && s.Strips[i].Group >= 0 {
			found := false
			for _, n := range seen {
				found = found || sameNose(n, t.Nose)
			}
			if !found {
				seen = append(seen, t.Nose)
			}
		}
	}
	for _, at := range seen {
		n := nose{nose: at}
		var radii []value
		var of []int
		for i, t := range strips {
			v := s.Strips[i]
			if v.Group < 0 || !sameNose(t.Nose, at) {
				continue
			}
			if t.Radius != nil {
				radii, of = append(radii, value{*t.Radius, RadiusError}), append(of, i)
			}
			g := s.Groups[v.Group]
			if t.Radius == nil && g.RadiusFrom != "fitted" {
				continue
			}
			n.strips++
			n.brakes = withBrake(n.brakes, t.Brake)
			if len(n.of) == 0 || n.of[len(n.of)-1] != g.Radius {
				n.of = append(n.of, g.Radius)
			}
			n.radius = value{g.Radius, g.RadiusSpread}
		}
		if len(radii) > 0 {
			n.radius, _ = mean(radii)
			n.radius.at = math.Max(0, n.radius.at)
			if len(radii) > 1 {
				n.radius.doubt *= readingMargin
			}
			if lo, hi := ends(radii); hi-lo > RadiusSame { // else the group has said it
				s.Words = append(s.Words, fmt.Sprintf("On the nose of %s the inside radii measured on %s differ by more than a gauge is out by: %s. Measure them again.",
					inMM(at), s.listed(of), spanMM(radii)))
			}
		}
		if n.strips > 0 {
			s.noses = append(s.noses, n)
		}
	}
}

// sayUsed says of strips whose inside radius was not measured whether they count beside those whose was.
func (s *Study) sayUsed(strips []Strip) {
	var known []string // radii that strips of a known one tell of
	var from []int
	for _, g := range s.Groups {
		if g.RadiusFrom != "measured" && g.RadiusFrom != "fitted" {
			continue
		}
		var joined []int
		for _, i := range g.Strips {
			if g.RadiusFrom == "measured" && strips[i].Radius == nil {
				joined = append(joined, i)
			}
		}
		if len(joined) > 0 {
			s.Words = append(s.Words, fmt.Sprintf("%s: the inside radius was not measured; it is taken as %s, that of the other strips on the nose, and used with them.", s.listed(joined), inMM(g.Radius)))
		}
		if g.Lengths > 0 {
			known = append(known, inMM(g.Radius))
			from = append(from, g.Strips...)
		}
	}
	if len(known) == 0 {
		return
	}
	for _, g := range s.Groups {
		if g.Lengths == 0 || g.RadiusFrom == "measured" || g.RadiusFrom == "fitted" {
			continue
		}
		var of []int
		for _, i := range g.Strips {
			if s.Strips[i].State == "used" && strips[i].Length > 0 {
				of = append(of, i)
			}
		}
		if len(of) == 0 {
			continue
		}
		what := "no inside radius is known of it"
		if len(of) > 1 {
			what = "no inside radius is known of them"
		}
		if g.RadiusFrom == "nose" {
			what = "only the nose of " + inMM(g.Nose) + " is known, not the inside radius"
		}
		s.Words = append(s.Words, fmt.Sprintf("%s: %s, so K for R %s is by %s alone. Measure the inside radius, and they count together.",
			s.listed(of), what, strings.Join(known, ", "), s.listed(from)))
	}
}

// withBrake adds a brake to those named.
func withBrake(all []string, brake string) []string {
	b := strings.TrimSpace(brake)
	for _, o := range all {
		if plainName(o) == plainName(b) {
			return all
		}
	}
	if b == "" {
		return all
	}
	return append(all, b)
}
