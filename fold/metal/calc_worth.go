package metal

// This file holds what the bend calculator says of other rules and figures, and its notes.

import (
	"fmt"
	"math"
	"slices"
)

// compare reckons the bend by every other rule, and with the next likely radius and K.
func (a *Answer) compare(q Ask) {
	differs := func(deduction float64) float64 { return float64(a.Bends) * (a.Deduction - deduction) }
	length := func(d float64) float64 {
		if len(q.Legs) == 0 {
			return 0
		}
		return a.Developed + d
	}
	other := func(o Other) Other {
		o.Allowance = Allowance(q.Angle, q.Radius, q.Thickness, o.K)
		o.Deduction = Deduction(q.Angle, q.Radius, q.Thickness, o.K)
		o.Differs = differs(o.Deduction)
		o.Developed = length(o.Differs)
		return o
	}
	if t := a.tests; a.KBy != "tests" && t.ok {
		a.Others = append(a.Others, other(Other{Rule: "tests", Name: "Your test bends", Source: t.src, K: t.k}))
	}
	for _, r := range Rules {
		if r.ID == a.Rule {
			continue
		}
		o := Other{Rule: r.ID, Name: r.Name, Formula: r.Formula, Source: r.Source}
		k, src, err := ByRule(r.ID, a.rules, a.ruled, q.Radius, q.Thickness)
		if err != nil {
			o.Why = err.Error()
			a.Others = append(a.Others, o)
			continue
		}
		o.K, o.Source = k, src
		a.Others = append(a.Others, other(o))
	}
	slices.SortStableFunc(a.Others, func(x, y Other) int {
		if (x.Why == "") != (y.Why == "") {
			if x.Why == "" {
				return -1
			}
			return 1
		}
		return biggest(x.Differs, y.Differs)
	})

	next := func(about string, radius, k float64) {
		n := Next{About: about, Radius: radius, K: k}
		n.Allowance = Allowance(q.Angle, radius, q.Thickness, k)
		n.Deduction = Deduction(q.Angle, radius, q.Thickness, k)
		n.Differs = differs(n.Deduction)
		n.Developed = length(n.Differs)
		a.Nexts = append(a.Nexts, n)
	}
	for _, r := range []float64{math.Max(0, q.Radius-nextRadius*q.Thickness), q.Radius + nextRadius*q.Thickness} {
		if r == q.Radius {
			continue
		}
		k := a.K
		if a.Rule != "" {
			if by, _, err := ByRule(a.Rule, a.rules, a.ruled, r, q.Thickness); err == nil {
				k = by
			}
		}
		next("radius", r, k)
	}
	step, about := nextK, "k"
	if a.KSpread > 0 {
		step, about = a.KSpread, "spread"
	}
	for _, k := range []float64{math.Max(0, a.K-step), math.Min(MaxK, a.K+step)} {
		if k != a.K {
			next(about, q.Radius, k)
		}
	}
	slices.SortStableFunc(a.Nexts, func(x, y Next) int { return biggest(x.Differs, y.Differs) })
}

// biggest puts the larger in size first.
func biggest(x, y float64) int {
	switch x, y = math.Abs(x), math.Abs(y); {
	case x > y:
		return -1
	case x < y:
		return 1
	}
	return 0
}

// note writes what else there is to say, in whole sentences, lengths in mm.
func (a *Answer) note(q Ask) {
	say := func(format string, args ...any) { a.Notes = append(a.Notes, fmt.Sprintf(format, args...)) }
	switch {
	case q.K != nil:
		say("K %s was given; nobody says where it comes from, so it is assumed.", shortest(*q.K, 4))
	case a.KSource.Kind == Assumed:
		say("K %s is assumed.", shortest(a.K, 3))
	}
	if a.tests.ok && a.KBy != "tests" {
		what := "The rule you named"
		if q.K != nil {
			what = "The K given"
		}
		say("%s goes before your own test bends; what they give, K %s, stands beside it.", what, shortest(a.tests.k, 3))
	}
	if a.Rule != "" && a.K == 0 {
		say("At R/T %s the rule's constants come to no K over 0: 0 is taken, the neutral line on the inside face.", shortest(q.Radius/q.Thickness, 2))
	}
	if !a.Known && a.rules.Constant > 0 {
		say("%s is no metal of the list: of it only the constant of Machinery's Handbook is known, %s, not weight, least radius or springback.", a.rules.Name, shortest(a.rules.Constant, 2))
	}
	if t := a.tests; a.Study != nil && !t.ok {
		say("Your test bends of this metal and thickness don't give K here. %s", t.why)
	} else if t.why != "" && q.K == nil {
		say("%s", t.why)
	}
	if a.Study != nil {
		for _, v := range a.Study.Strips {
			if v.State != "used" {
				a.Notes = append(a.Notes, v.Words...)
			}
		}
		a.Notes = append(a.Notes, a.Study.Words...)
	}
	if q.Radius == 0 {
		say("R 0 mm is a sharp bend: the inside faces meet in a line and the whole round is outside. Few metals take it without cracking, and no nose is that sharp: measure the inside radius of a bent strip.")
	}
	a.noteLeast(q)
	switch {
	case q.Angle > 180:
		say("Past 180 degrees the bend is a teardrop hem: the leg turns back towards the sheet by %s. It is bent over a bar, or by hand, not by the leaf alone.", inDegrees(q.Angle-180))
	case q.Angle == 180:
		say("180 degrees is a hem: bend to the leaf's limit, then close it under the bar. The clear gap inside is %s.", inMM(2*q.Radius))
	case q.Angle > 90:
		say("Past 90 degrees sizes are measured to the outermost tangent plane, so the setback is R + T; to the outside sharp it is %s.", inMM(a.Mold))
	}
	if q.Angle >= 180 {
		return
	}
	if a.SetLeast.Hi > 0 {
		yield := inDegrees(a.SetLeast.Hi)
		if lo := inDegrees(a.SetLeast.Lo); lo != yield {
			yield = shortest(a.SetLeast.Lo, 1) + " to " + yield
		}
		if a.Set == 0 {
			say("Bend a strip first: the springback formula's set angle of %s is a lower limit. Hand benches see several degrees more (common practice, no source).", yield)
		} else if a.Set+a.SetDoubt < a.SetLeast.Lo {
			say("Your strips say to stop at %s, less than the lower limit of %s by the springback formula: measure one again.", inDegrees(a.Set), yield)
		}
	} else if a.Set == 0 {
		say("Bend a strip first to find the set angle: hand benches see several degrees of springback (common practice, no source).")
	}
}

// noteLeast says in one sentence how the radius stands to the lists' least. A list that gives several figures, by direction or
// class, counts once, and as one that the radius is under where it is under all of them.
func (a *Answer) noteLeast(q Ask) {
	lo, hi := math.Inf(1), 0.0
	var lists []string
	under := map[string]bool{}
	for _, l := range a.Least {
		if l.Advice {
			continue // what forms easily, not the least
		}
		if a.Metal.LeastRT != nil && len(lists) > 0 {
			break // the maker's own figure, which comes first, goes before the lists
		}
		lo, hi = math.Min(lo, l.Radius), math.Max(hi, l.Radius)
		if !slices.Contains(lists, l.list) {
			lists, under[l.list] = append(lists, l.list), true
		}
		under[l.list] = under[l.list] && l.Under(q.Radius)
	}
	n := 0
	for _, l := range lists {
		if under[l] {
			n++
		}
	}
	least := inMM(lo)
	if lo < hi {
		least += " to " + inMM(hi)
	}
	switch {
	case n == 0:
	case a.Metal.LeastRT != nil:
		a.Notes = append(a.Notes, fmt.Sprintf("R %s is under your own least radius, %s: it may crack.", inMM(q.Radius), least))
	case n == len(lists) && n == 1:
		a.Notes = append(a.Notes, fmt.Sprintf("R %s is under the least radius of the one list that has it, %s: it may crack.", inMM(q.Radius), least))
	case n == len(lists):
		a.Notes = append(a.Notes, fmt.Sprintf("R %s is under the least radius of every list, %s: it may crack.", inMM(q.Radius), least))
	default:
		a.Notes = append(a.Notes, fmt.Sprintf("R %s is under the least radius of %d of %d lists, %s: they disagree, so bend a strip first.", inMM(q.Radius), n, len(lists), least))
	}
}
