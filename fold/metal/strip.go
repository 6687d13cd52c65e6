package metal

// This file holds Strip, one test bend as it was measured, what it may hold, and which
// strips belong to a part. study.go draws R, K and the overbend from several.

import (
	"math"
	"strconv"
	"strings"
)

// Strip is one test bend: a strip of known length, bent once, with what was measured of it.
// Lengths in one unit, whichever; Study wants mm. What was not measured is nil or 0 as said.
type Strip struct {
	Name      string     // "" if none was given
	Metal     string     // as the part names its metal
	Brake     string     // on which it was bent, in the maker's words; "" if not said
	Thickness float64    // as measured
	Length    float64    // of the strip before bending; 0 where only the angle was of interest
	Legs      [2]float64 // after bending; 0, 0 with Length 0
	Inside    bool       // Legs were measured along the inside faces, else outside
	Calliper  bool       // Length and Legs were read with a calliper, else with a steel rule or tape
	Angle     float64    // bend angle as it came out, degrees from flat, over 0 to 180
	Set       *float64   // the angle the leaf was stopped at, degrees; nil if not noted
	Radius    *float64   // inside radius as measured on the strip (gauge or drill shank); nil if not
	Nose      float64    // nose radius, or the radius that the brake was set for; 0 if not said
}

// Own is a metal as the maker describes it, or what the maker knows better of one in the list.
type Own struct {
	Name    string
	Like    string     // the metal of the list that it takes everything else from; "" for none
	Density float64    // kg/m3; 0 where not given
	Modulus float64    // GPa; 0 where not given
	Yield   [2]float64 // MPa, least and greatest; 0, 0 where not given
	LeastRT *float64   // least inside radius over thickness, whatever the direction; nil where not given
	K       *float64   // nil where not given
	Note    string     // where the figures come from, in the maker's words
}

// StripError says which number of a test bend can't be, and what range can. Lengths in its words
// are in mm, each with its " mm".
type StripError struct {
	Field string // "thickness", "length", "legs", "legs[0]", "legs[1]", "angle", "set", "radius" or "nose"
	Found string
	Need  string
}

func (e *StripError) Error() string { return e.Field + " " + e.Found + ": " + e.Need }

// Check says whether the strip can have been measured so, lengths in mm: a *StripError if not. The
// legs may be out of what a strip can make by no more than what they were measured with may
// be out by, all readings together (LengthError or CalliperError, AngleError).
func (s Strip) Check() error {
	bad := func(field, found, need string) error { return &StripError{field, found, need} }
	upTo := "it must be over 0 mm and at most " + inMM(MaxLength)
	switch {
	case !(s.Thickness >= MinThickness && s.Thickness <= MaxLength):
		return bad("thickness", inMM(s.Thickness), "it must be "+inMM(MinThickness)+" to "+inMM(MaxLength))
	case !(s.Angle > 0 && s.Angle <= MaxStripTurn):
		return bad("angle", inDegrees(s.Angle), "the bend angle is counted from flat: over 0 to 180 degrees")
	case s.Radius != nil && !(*s.Radius >= 0 && *s.Radius <= MaxLength):
		return bad("radius", inMM(*s.Radius), "it must be 0 mm to "+inMM(MaxLength))
	case !(s.Nose >= 0 && s.Nose <= MaxLength):
		return bad("nose", inMM(s.Nose), "it must be 0 mm (not said) to "+inMM(MaxLength))
	case !(s.Length >= 0 && s.Length <= MaxLength):
		return bad("length", inMM(s.Length), upTo+", or 0 mm where only the angle was of interest")
	case s.Set != nil && !(*s.Set > 0 && *s.Set <= MaxStripTurn):
		return bad("set", inDegrees(*s.Set), "the angle that the leaf was stopped at: over 0 to 180 degrees")
	case s.Set != nil && *s.Set < s.Angle:
		return bad("set", inDegrees(*s.Set), "metal springs back, never forward: a bend that came out at "+inDegrees(s.Angle)+
			" was set to that or more, up to 180 degrees")
	case s.Length == 0 && s.Legs != [2]float64{}:
		return bad("length", inMM(0), "legs of "+inMM(s.Legs[0])+" and "+inMM(s.Legs[1])+" say nothing without the strip's length before bending")
	case s.Length == 0 && s.Set == nil:
		return bad("length", inMM(0), "give the strip's length and both legs, or the angle that the leaf was set to, or all of them")
	case s.Length == 0:
		return nil
	}
	for i, l := range s.Legs {
		if !(l > 0 && l <= MaxLength) {
			return bad("legs["+strconv.Itoa(i)+"]", inMM(l), upTo)
		}
	}
	lo, hi := s.reach()
	slack := s.row(s.guess()).most
	sum := s.Legs[0] + s.Legs[1]
	if sum >= lo-slack && sum <= hi+slack {
		return nil
	}
	with := ""
	if s.Radius != nil {
		with = " with an inside radius of " + inMM(*s.Radius)
	}
	need := "together they must measure " + inMM(lo) + " to " + inMM(hi) + with
	if hi < lo {
		need = "a strip this short can't make that bend" + with
	}
	return bad("legs", inMM(s.Legs[0])+" + "+inMM(s.Legs[1])+" on a strip of "+inMM(s.Length)+" at "+inDegrees(s.Angle), need)
}

// reach is the range in which both legs together lie, as they were measured, for K from 0 to MaxK and the
// inside radius as measured, or else any from the nose's up to where the bend takes the whole strip.
func (s Strip) reach() (lo, hi float64) {
	r := s.row(0)
	least, most := s.Nose, math.Max(s.Nose, s.Length/(r.angle))
	if s.Radius != nil {
		least, most = *s.Radius, *s.Radius
	}
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, radius := range []float64{least, most} {
		for _, k := range []float64{0, MaxK} {
			sum := s.Length + r.added + r.deduction(radius, k)
			lo, hi = math.Min(lo, sum), math.Max(hi, sum)
		}
	}
	return lo, hi
}

// guess is an inside radius to reckon doubts with.
func (s Strip) guess() float64 {
	switch {
	case s.Radius != nil:
		return *s.Radius
	case s.Nose > 0:
		return s.Nose
	}
	return s.Thickness
}

// Matching are the strips of a metal and thickness (mm), by their place: the same metal by the maker's own
// list or the built-in one, or named by the same text; thickness within ThicknessSame.
// Strips that Check refuses are among them, so that Study can say why it leaves them out.
func Matching(strips []Strip, metalName string, own []Own, thickness float64) []int {
	var out []int
	want, known := Resolve(metalName, own)
	text := plainName(metalName)
	for i, s := range strips {
		if !sameThickness(s.Thickness, thickness) {
			continue
		}
		same := plainName(s.Metal) == text
		if !same && known {
			m, ok := Resolve(s.Metal, own)
			same = ok && m.Name == want.Name
		}
		if same {
			out = append(out, i)
		}
	}
	return out
}

func sameThickness(a, b float64) bool {
	return math.Abs(a-b) <= ThicknessSame*math.Max(math.Abs(a), math.Abs(b))
}

func plainName(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// inMM writes a length to the hundredth, "1.25 mm"; to six digits where that would be nothing.
func inMM(v float64) string { return shortest(v, 2) + " mm" }

// inDegrees writes an angle to the tenth, "90 degrees".
func inDegrees(v float64) string { return shortest(v, 1) + " degrees" }

func shortest(v float64, places int) string {
	text := strconv.FormatFloat(v, 'f', places, 64)
	if f, err := strconv.ParseFloat(text, 64); err == nil && f == 0 && v != 0 || math.Abs(v) > 1e9 {
		return strconv.FormatFloat(v, 'g', 3, 64)
	}
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}
