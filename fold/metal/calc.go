package metal

// This file holds Reckon, the bend calculator: one bend, or a strip with equal bends, without a part.
// calc_worth.go has what other rules and figures would change, and the notes.

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Ask is what the bend calculator is asked; mm and degrees.
type Ask struct {
	Thickness float64  // MinThickness to MaxLength
	Radius    float64  // inside, 0 to MaxLength
	Angle     float64  // turned from flat, over 0 to MaxAngle
	K         *float64 // 0 to MaxK; nil: by Rule if there is one, else by the test bends that fit, the maker's own metal, DefaultRule
	Rule      string   // an ID or name of Rules, or ""
	Metal     string   // "" if not said
	Own       []Own
	Tests     []Strip   // the maker's test bends, of whatever metal and thickness
	Legs      []float64 // sizes of a strip with len-1 equal bends, in its order; nil for the bend alone
	Inside    bool      // Legs are measured inside, each to the inside sharps at its ends; past 90 degrees to the inmost tangent planes
}

// Answer is what the bend calculator says; mm and degrees.
type Answer struct {
	Thickness, Radius, Angle float64
	Included                 float64 // angle between the two legs, 180 - Angle; negative for a teardrop
	Metal                    Metal   // zero where not Known
	Known                    bool    // whether Ask.Metal is a metal of either list

	K       float64
	KSpread float64 // half the width of the range in which K lies; 0 where nobody knows
	KSource Source
	KBy     string // "given", "rule", "tests" (the maker's own), "metal" (the maker's own), "default": in this order one goes before the other
	Rule    string // ID of the rule that gave K; "" where it was given or measured

	Allowance float64
	Setback   float64 // as sizes are measured here: R+T past 90 degrees
	Mold      float64 // with the tangent past 90 degrees too; +Inf at 180 and over
	Deduction float64 // 2 setbacks less the allowance

	Bends     int       // 1 without Legs
	Outside   []float64 // the legs' outside sizes; nil without Legs
	Inside    []float64 // and inside
	Flats     []float64 // the straight lengths between tangent lines
	Developed float64   // length of the strip; 0 without Legs

	Others []Other // by every other rule, the biggest difference first, those without an answer last
	Nexts  []Next  // with the next likely radius and K, the biggest difference first

	Set       float64 // angle to stop the leaf at, by the maker's own strips; 0 where none tell
	SetDoubt  float64
	SetSource Source
	// SetLeast is what the springback formula gives over the range of the metal's yield: a lower limit, never
	// the angle itself. 0, 0 where the metal's figures are not known, and for hems.
	SetLeast       Range
	SetLeastSource Source

	Least []Least // least inside radii by list, in the lists' order
	Study *Study  // of the test bends of this metal and thickness; nil where there are none
	Notes []string

	tests tested
	rules Metal // as the rules know it: Metal, or what HandbookMetal has
	ruled bool
}

// tested is what the test bends say of K here.
type tested struct {
	k, spread float64
	src       Source
	ok        bool
	why       string
}

// Other is the same bend by another rule.
type Other struct {
	Rule      string // ID; "tests" for the maker's own test bends
	Name      string
	Formula   string
	Source    Source
	K         float64
	Allowance float64
	Deduction float64
	Developed float64 // 0 without Legs
	Differs   float64 // what the strip gets longer, over all bends, if this were right and the outside sizes are kept
	Why       string  // why the rule has no answer; then the figures are zero
}

// Next is the same bend with another radius or K.
type Next struct {
	About     string // "radius", "k" or "spread"
	Radius, K float64
	Allowance float64
	Deduction float64
	Developed float64 // 0 without Legs
	Differs   float64 // as in Other
}

// AskError says which figure of an Ask can't be, and what would do. Lengths are in mm, each with its " mm".
type AskError struct {
	Field string // "thickness", "radius", "angle", "k", "rule", "metal", "legs" or "legs[0]"
	Found string
	Need  string
}

func (e *AskError) Error() string { return e.Field + " " + e.Found + ": " + e.Need }

// Reckon answers the ask, or says with an *AskError which figure of it can't be.
func Reckon(q Ask) (Answer, error) {
	if err := q.check(); err != nil {
		return Answer{}, err
	}
	a := Answer{Thickness: q.Thickness, Radius: q.Radius, Angle: q.Angle, Included: 180 - q.Angle, Bends: 1}
	a.Metal, a.Known = Resolve(q.Metal, q.Own)
	if a.rules, a.ruled = a.Metal, a.Known; !a.Known {
		a.rules, a.ruled = HandbookMetal(q.Metal)
	}
	if fit := Matching(q.Tests, q.Metal, q.Own, q.Thickness); len(fit) > 0 {
		picked := make([]Strip, len(fit))
		for i, n := range fit {
			picked[i] = q.Tests[n]
		}
		study := Examine(picked)
		a.Study = &study
		t := &a.tests
		t.k, t.spread, t.src, t.ok, t.why = study.K(q.Radius, q.Thickness)
	}
	if err := a.takeK(q); err != nil {
		return Answer{}, err
	}
	a.Setback, a.Mold = Setback(q.Angle, q.Radius, q.Thickness)
	a.Allowance = Allowance(q.Angle, q.Radius, q.Thickness, a.K)
	a.Deduction = Deduction(q.Angle, q.Radius, q.Thickness, a.K)
	if err := a.develop(q); err != nil {
		return Answer{}, err
	}
	a.compare(q)
	a.springback(q)
	if a.Known {
		a.Least = LeastRadius(a.Metal, q.Thickness, "")
	}
	a.note(q)
	return a, nil
}

func (q Ask) check() error {
	within := func(v, lo, hi float64) bool { return v >= lo && v <= hi }
	switch {
	case !within(q.Thickness, MinThickness, MaxLength):
		return &AskError{"thickness", inMM(q.Thickness), "it must be " + inMM(MinThickness) + " to " + inMM(MaxLength)}
	case !within(q.Radius, 0, MaxLength):
		return &AskError{"radius", inMM(q.Radius), "the inside radius is 0 mm (a sharp bend) to " + inMM(MaxLength)}
	case !(q.Angle > 0 && q.Angle <= MaxAngle):
		return &AskError{"angle", inDegrees(q.Angle), "the bend angle is counted from flat: over 0 to 180 degrees, a teardrop hem to 240"}
	case q.K != nil && !within(*q.K, 0, MaxK):
		return &AskError{"k", shortest(*q.K, 4), "K is where the neutral line lies, as a share of the thickness from the inside: 0 to 0.6"}
	case len(q.Legs) == 1:
		return &AskError{"legs", inMM(q.Legs[0]), "a bent strip has two legs or more"}
	case len(q.Legs) > MaxLegs:
		return &AskError{"legs", strconv.Itoa(len(q.Legs)), fmt.Sprintf("at most %d of them", MaxLegs)}
	}
	for i, l := range q.Legs {
		if !(l > 0 && l <= MaxLength) {
			return &AskError{legName(i), inMM(l), "over 0 mm to " + inMM(MaxLength)}
		}
	}
	if q.Rule != "" {
		if _, ok := RuleByName(q.Rule); !ok {
			var ids []string
			for _, r := range Rules {
				ids = append(ids, r.ID+" ("+r.Name+")")
			}
			return &AskError{"rule", strconv.Quote(q.Rule), "one of " + strings.Join(ids, ", ")}
		}
	}
	return nil
}

func legName(i int) string { return "legs[" + strconv.Itoa(i) + "]" }

// rule is the ID of the rule that the ask names.
func (q Ask) rule() string {
	if r, ok := RuleByName(q.Rule); ok && q.Rule != "" {
		return r.ID
	}
	return DefaultRule
}

// takeK chooses K: as given, by the rule that is named, by the test bends that fit, as the maker's own metal
// has it, by DefaultRule.
func (a *Answer) takeK(q Ask) error {
	if q.K != nil {
		a.KBy, a.K, a.KSource = "given", *q.K, Source{Kind: Assumed, Title: "given without a source"}
		return nil
	}
	if t := a.tests; t.ok && q.Rule == "" {
		a.KBy, a.K, a.KSpread, a.KSource = "tests", t.k, t.spread, t.src
		return nil
	}
	if k := a.Metal.K; k != nil && q.Rule == "" && !badK(*k) {
		a.KBy, a.K, a.KSource = "metal", *k, ownSource(q.Metal, q.Own)
		return nil
	}
	k, src, err := ByRule(q.rule(), a.rules, a.ruled, q.Radius, q.Thickness)
	if err != nil {
		found := "not said"
		if q.Metal != "" {
			found = strconv.Quote(q.Metal)
		}
		return &AskError{"metal", found, err.Error() + "; or choose another rule"}
	}
	a.K, a.KSource, a.Rule, a.KBy = k, src, q.rule(), "rule"
	if q.Rule == "" {
		a.KBy = "default"
	}
	return nil
}

// ownSource is where the figures of the maker's own metal come from.
func ownSource(name string, own []Own) Source {
	for _, o := range own {
		if key(o.Name) == key(name) {
			return o.source()
		}
	}
	return Source{}
}

// develop turns the legs into outside sizes, straight lengths and the strip's length.
func (a *Answer) develop(q Ask) error {
	if len(q.Legs) == 0 {
		return nil
	}
	a.Bends = len(q.Legs) - 1
	between := q.Thickness // how much longer a leg is outside than inside, at each bend
	if q.Angle <= 90 {
		between, _ = Setback(q.Angle, 0, q.Thickness)
	}
	a.Developed = -float64(a.Bends) * a.Deduction
	for i, l := range q.Legs {
		ends := 2.0
		if i == 0 || i == a.Bends {
			ends = 1
		}
		out := l
		if q.Inside {
			out += ends * between
		}
		flat := out - ends*a.Setback
		if flat < -1e-9*out { // rounding alone
			least := ends * a.Setback
			where := "outside"
			if q.Inside {
				least -= ends * between
				where = "inside"
			}
			return &AskError{legName(i), inMM(l), fmt.Sprintf("with R %s and %s of thickness a leg with %s bent to %s measures at least %s %s",
				inMM(q.Radius), inMM(q.Thickness), map[bool]string{true: "both ends", false: "one end"}[ends == 2], inDegrees(q.Angle), inMM(least), where)}
		}
		a.Outside = append(a.Outside, out)
		a.Inside = append(a.Inside, out-ends*between)
		a.Flats = append(a.Flats, math.Max(0, flat))
		a.Developed += out
	}
	return nil
}

// springback fills in what is known of the set angle.
func (a *Answer) springback(q Ask) {
	if a.Study != nil {
		if set, doubt, src, ok := a.Study.Set(q.Angle, q.Radius, q.Thickness); ok {
			a.Set, a.SetDoubt, a.SetSource = set, doubt, src
		}
	}
	if !a.Known || q.Angle >= 180 {
		return
	}
	if lo, hi, src, ok := LeastSet(a.Metal, q.Angle, q.Radius, q.Thickness); ok {
		a.SetLeast, a.SetLeastSource = Range{lo, hi}, src
	}
}
