package metal

// This file holds the wording of a study: groups summed up, strips named, ranges written.

import (
	"fmt"
	"math"
	"strings"
)

// says sums the group up.
func (g Group) says() string {
	var what []string
	if g.KSpread > 0 {
		what = append(what, fmt.Sprintf("K %s, give or take %s", shortest(g.K, 2), shortest(g.KSpread, 2)))
	}
	if g.DeductionSpread > 0 {
		what = append(what, fmt.Sprintf("a deduction of %s at %s, give or take %s", inMM(g.Deduction), inDegrees((g.Angles[0]+g.Angles[1])/2), inMM(g.DeductionSpread)))
	}
	if g.Sets > 0 {
		what = append(what, fmt.Sprintf("springback to %s %% of the set angle, give or take %s", shortest(100*g.Ratio, 1), shortest(100*g.RatioSpread, 1)))
	}
	if len(what) == 0 {
		return ""
	}
	on := "Strips of no known inside radius"
	switch g.RadiusFrom {
	case "measured":
		on = fmt.Sprintf("R %s, measured (give or take %s)", inMM(g.Radius), inMM(g.RadiusSpread))
	case "fitted":
		on = fmt.Sprintf("R %s, as the angles tell it (give or take %s)", inMM(g.Radius), inMM(g.RadiusSpread))
	case "nose":
		on = "R " + inMM(g.Radius) + ", taken for the nose's"
	}
	return on + ": " + strings.Join(what, "; ") + "."
}

// leave leaves a strip out, with why.
func (s *Study) leave(i int, format string, args ...any) {
	v := &s.Strips[i]
	v.State = "left out"
	why := fmt.Sprintf(format, args...)
	if rest, ok := strings.CutPrefix(why, "it "); ok {
		why = v.Name + " " + rest
	} else {
		why = v.Name + ": " + why
	}
	v.Words = append(v.Words, why+": measure it again or leave it out. It was left out.")
}

// listed names strips: "Strip 2", "Strips 1 and 3", "Strips 1, 2 and 4", "12 strips".
func (s *Study) listed(of []int) string {
	if len(of) == 1 {
		return s.Strips[of[0]].Name
	}
	if len(of) > 8 {
		return fmt.Sprintf("%d strips", len(of))
	}
	out := "Strips "
	for n, i := range of {
		switch {
		case n == 0:
		case n == len(of)-1:
			out += " and "
		default:
			out += ", "
		}
		out += strings.TrimPrefix(s.Strips[i].Name, "Strip ")
	}
	return out
}

func middle(vs []value) float64 {
	m, _ := mean(vs)
	return m.at
}

// ends are the least and greatest of values.
func ends(vs []value) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, v := range vs {
		lo, hi = math.Min(lo, v.at), math.Max(hi, v.at)
	}
	return lo, hi
}

func between(lo, hi string) string {
	if lo == hi {
		return lo
	}
	return lo + " to " + hi
}

func span(vs []value) string {
	lo, hi := ends(vs)
	return between(shortest(lo, 2), shortest(hi, 2))
}

func spanMM(vs []value) string {
	lo, hi := ends(vs)
	return between(inMM(lo), inMM(hi))
}

func percent(vs []value) string {
	lo, hi := ends(vs)
	return between(shortest(100*lo, 1), shortest(100*hi, 1)) + " %"
}
