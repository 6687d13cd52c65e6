package fold

// This file puts what JudgeSeams finds in words.

import (
	"fmt"
	"slices"
	"strings"
)

// maxSeamNames bounds how many seams one trouble lists by name.
const maxSeamNames = 6

// isOrAre puts is or are after a list of names.
func isOrAre(names string, n int) string {
	if n == 1 {
		return names + " is"
	}
	return names + " are"
}

// listed is names in a row, the first maxSeamNames of them, and how many they are.
func listed(names []string) (string, int) {
	n := len(names)
	if n > maxSeamNames {
		names = append(slices.Clone(names[:maxSeamNames]), fmt.Sprintf("%d more", n-maxSeamNames))
	}
	return List(names), n
}

// told writes two lengths that are to be compared, with more places where they look the same with one (mm).
func told(a, b float64) (string, string) { return toldTo(1, a, b) }

// toldTo is told with so many places at least, and up to four.
func toldTo(places int, a, b float64) (x, y string) {
	for ; places <= 4; places++ {
		if x, y = fmt.Sprintf("%.*f", places, a), fmt.Sprintf("%.*f", places, b); x != y {
			break
		}
	}
	return x, y
}

func seamCount(n int) string {
	if n == 1 {
		return "1 seam"
	}
	return fmt.Sprintf("%d seams", n)
}

// wide says of a seam that is wider than its limit as drawn where that is, and what to do about it.
func (j *seamJudge) wide(s *SeamReport, limit float64, from string) string {
	has, most := toldTo(2, s.GapMax, limit)
	place := j.part.widestPlace(s)
	msg := fmt.Sprintf("The seam %s opens to %s mm as drawn, %s; %s mm is the limit here: %s. ", s.Name, has, place, most, from)
	where := "there"
	if place == allAlong {
		where = place
	}
	if s.Wanted != nil && s.GapMax > *s.Wanted+GapSolve {
		return msg + fmt.Sprintf("That is %.2f mm farther apart than wanted: make %s or %s so much wider %s.", s.GapMax-*s.Wanted, s.A, s.B, where)
	}
	over, _ := toldTo(2, s.GapMax-limit, 0)
	return msg + fmt.Sprintf("Make %s or %s at least %s mm wider %s.", s.A, s.B, over, where)
}

const allAlong = "all along"

// widestPlace says in words where a seam is widest.
func (p *Part) widestPlace(s *SeamReport) string {
	switch f := s.MaxAt / s.Length; {
	case s.GapMax-s.GapMin < 0.05:
		return allAlong
	case f < 0.2:
		return AtEnd(p.Ends(s)[0])
	case f > 0.8:
		return AtEnd(p.Ends(s)[1])
	}
	return fmt.Sprintf("%.0f mm from %s", s.MaxAt, strings.TrimPrefix(AtEnd(p.Ends(s)[0]), "at "))
}

// closingWords is what is done to a seam to close it.
func closingWords(way string) string {
	switch way {
	case "weld":
		return "tacking"
	case "rivet":
		return "drilling"
	case "spot":
		return "the first spot"
	}
	return "closing it"
}

// NoOverlap reports whether a seam is to be riveted or spot welded where nothing overlaps.
func (s *SeamReport) NoOverlap() bool {
	return (s.Way == "rivet" || s.Way == "spot") && s.Joint != jointLap && s.Joint != jointEdge
}

// noOverlaps tells of all seams that are to be riveted or spot welded where nothing overlaps.
func (j *seamJudge) noOverlaps() {
	if len(j.bare) == 0 {
		return
	}
	var names []string
	rivets := 0
	for _, s := range j.bare {
		j.set(s, Watch)
		names = append(names, s.Name)
		if s.Way == "rivet" {
			rivets++
		}
	}
	first := j.bare[0]
	list, n := listed(names)
	seams, at := "seam", "it"
	if n > 1 {
		seams, at = "seams", "them"
	}
	what := "rivet or spot weld"
	switch rivets {
	case 0:
		what = "spot weld"
	case n:
		what = "rivet"
	}
	j.out.addTrouble(Trouble{Watch, "seam-join", "seam", first.Name, first.middle(), number(float64(n)), number(0), fmt.Sprintf(
		"At the %s %s there is no overlap to %s through; give one panel a tab, or close %s in another way.", seams, list, what, at)})
}
